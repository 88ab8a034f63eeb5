"""What is printed reaches any terminal; what goes into a file is UTF-8."""

import io
import json
import os
import subprocess
import sys
from pathlib import Path
from typing import NamedTuple

import pytest

from buildbook.commands.main import COMMANDS, main

ASCII_LOCALE = {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}
WORDS = {
    "check": ["check", "{hangar}"],
    "check --json": ["check", "{hangar}", "--json"],
    "completion": ["completion", "bash"],
    "due": ["due", "{hangar}"],
    "due --json": ["due", "{hangar}", "--json"],
    "enter": ["enter", "defect", "heron", "Riß am Flügel Ω", "--hangar", "{hangar}"],
    "enter --dry-run": ["enter", "defect", "heron", "Ω 🛩", "--hangar", "{hangar}", "--dry-run"],
    "enter --json": ["enter", "note", "heron", "Ω", "--hangar", "{hangar}", "--dry-run", "--json"],
    "explain": ["explain", "hover_current"],
    "explain --json": ["explain", "pack-look", "--json"],
    "figures": ["figures", "krähe", "{hangar}"],
    "figures --json": ["figures", "heron", "{hangar}", "--json"],
    "preview": ["preview", "{place}/nöwhere Ω"],
    "render": ["render", "{hangar}", "--into", "{place}/Übersicht"],
    "begin": ["begin", "{place}/größer"],
    "schema": ["schema"],
    "schema --reference": ["schema", "--reference"],
}


@pytest.fixture
def hangar(loft: Path) -> Path:
    """The small hangar with signs that neither ASCII nor cp1252 has, and a warning about them."""
    log = loft / "aircraft/heron/logbook.yaml"
    log.write_text(
        log.read_text("utf-8") + "- on: 2026-02-09\n  id: Ω1\n  defect: Riß am Flügel, 🛩 Ω\n"
        "  severity: grounds\n- {on: 2027-02-09, note: später Ω}\n",
        "utf-8",
    )
    return loft


def ran(words: list[str], place: Path, **more: object) -> subprocess.CompletedProcess[bytes]:
    """Run a command in a process of its own."""
    ways = {**os.environ, "XDG_CACHE_HOME": str(place / "cache"), **more.pop("ways", {})}  # type: ignore[dict-item]
    return subprocess.run(
        [sys.executable, "-m", "buildbook", *words],
        env=ways,
        check=False,
        stderr=subprocess.PIPE,
        **{"stdout": subprocess.PIPE, **more},  # type: ignore[call-overload]
    )


class Said(NamedTuple):
    """What a command wrote, as bytes."""

    status: int
    out: bytes
    err: bytes


def said(words: list[str], encoding: str, patch: pytest.MonkeyPatch) -> Said:
    """Run a command on streams as Python opens them where PYTHONIOENCODING asks for that."""
    out, err = (
        io.TextIOWrapper(io.BytesIO(), encoding, errors)
        for errors in ("strict", "backslashreplace")
    )
    with patch.context() as patched:
        patched.setenv("PYTHONIOENCODING", encoding)
        patched.setattr(sys, "stdout", out)
        patched.setattr(sys, "stderr", err)
        status = main(words)
        out.flush()
        err.flush()
    return Said(status, out.buffer.getvalue(), err.buffer.getvalue())


@pytest.mark.parametrize("encoding", ["ascii", "cp1252", "utf-8"])
@pytest.mark.parametrize("name", WORDS)
@pytest.mark.usefixtures("private_cache")
def test_no_command_stumbles_over_an_encoding(
    hangar: Path, tmp_path: Path, encoding: str, name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Signs that are lacking are replaced; JSON loses none."""
    words = [word.format(hangar=hangar, place=tmp_path) for word in WORDS[name]]

    done = said(words, encoding, monkeypatch)

    assert b"Traceback" not in done.err
    assert done.status in (0, 2, 3)
    printed = done.out.decode(encoding)
    if "--json" in name or name == "schema":
        assert json.loads(printed) == json.loads(said(words, "utf-8", monkeypatch).out)


@pytest.mark.parametrize("encoding", ["ascii", "cp1252", "utf-8:strict"])
def test_the_program_takes_the_encoding_that_it_is_told(
    hangar: Path, tmp_path: Path, encoding: str
) -> None:
    """The same in a process of its own, on the words of a defect in signs of two alphabets."""
    done = ran(["due", str(hangar)], tmp_path, ways={"PYTHONIOENCODING": encoding})

    assert (3, b"") == (done.returncode, done.stderr)
    shown = {"ascii": "Ri? am Fl?gel", "cp1252": "Riß am Flügel, ? ?"}
    words = shown.get(encoding, "Riß am Flügel, 🛩 Ω")
    assert words in " ".join(done.stdout.decode(encoding.split(":")[0]).split())


def test_each_command_is_tried() -> None:
    """The table above forgets none."""
    assert set(COMMANDS) == {name.split()[0] for name in WORDS}


@pytest.mark.parametrize("words", [["schema"], ["schema", "--reference"]])
def test_a_file_gets_utf8(tmp_path: Path, words: list[str]) -> None:
    """Also where the terminal has another encoding, for ``>`` makes a file for an editor."""
    with (tmp_path / "plain").open("wb") as file:
        plain = ran(words, tmp_path, stdout=file, ways=ASCII_LOCALE)
    there = ran(words, tmp_path, ways={"PYTHONIOENCODING": "utf-8"})

    assert (0, b"") == (plain.returncode, plain.stderr)
    assert there.stdout == (tmp_path / "plain").read_bytes()
    assert "°".encode() in there.stdout


def test_a_name_that_is_no_text_is_told(tmp_path: Path) -> None:
    """A folder whose name is not UTF-8, in a sentence on a terminal that is."""
    done = ran(["check", os.fsdecode(b"/nowhere/\xff\xfe")], tmp_path)

    assert done.returncode == 2
    assert b"Traceback" not in done.stderr


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="a system without /dev/full")
@pytest.mark.parametrize("words", [["schema"], ["schema", "--reference"], ["due", "{hangar}"]])
def test_a_full_disk_behind_the_output_is_one_sentence(
    hangar: Path, tmp_path: Path, words: list[str]
) -> None:
    """Status 2, whether it is noticed at once or at the end."""
    with Path("/dev/full").open("wb") as full:
        done = ran([word.format(hangar=hangar) for word in words], tmp_path, stdout=full)

    assert 2 == done.returncode
    assert f"buildbook {words[0]}: no space left on device\n" == done.stderr.decode()


def test_a_reader_who_has_seen_enough(tmp_path: Path) -> None:
    """A closed pipe is no fault of anybody."""
    ear, mouth = os.pipe()
    os.close(ear)
    done = ran(["schema", "--reference"], tmp_path, stdout=mouth)
    os.close(mouth)

    assert (0, b"") == (done.returncode, done.stderr)
