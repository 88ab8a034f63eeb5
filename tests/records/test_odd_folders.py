"""A folder as people leave it: copies, slips, sub-folders, links, pipes. Nothing is lost unsaid."""

import os
import socket
import subprocess
import sys
from pathlib import Path

import pytest
from small_hangar import WriteHangar

from buildbook.basis.sizes import most
from buildbook.records.reading import files as files_module
from buildbook.records.reading.read import read_hangar

NOTE = "- {on: 2026-03-01, note: one}\n"


def told(folder: Path) -> list[str]:
    """What is told of a folder, with the hint."""
    problems = read_hangar(folder, None).problems
    return [f"{problem} ({problem.hint})" for problem in problems]


def test_folders_of_stores_and_logbooks_are_read(write_hangar: WriteHangar) -> None:
    """By year, say; the same name in two of them is two files."""
    folder = write_hangar(
        {
            "stores/2025/packs.yaml": "- {on: 2026-02-03, id: a, charge: P-01}\n",
            "stores/2026/packs.yaml": "- {on: 2026-02-04, id: a, charge: P-01}\n",
            "aircraft/sedge/logbook/2026/04.yaml": NOTE,
            "parts/items/bags/r.yaml": "- {tags: R-05..R-08, spec: prop-a}\n",
            "bench/2026/a.csv": "throttle_%,thrust_g\n50,400\n",
        }
    )
    reading = read_hangar(folder, None)
    assert reading.ledger is not None

    assert () == reading.problems
    assert ["stores/2025/packs.yaml#a", "stores/2026/packs.yaml#a"] == [
        entry.uid for entry in reading.ledger.entries if entry.aircraft is None
    ]
    assert ["2026-03-01"] == [
        str(entry.on) for entry in reading.ledger.entries if entry.file.endswith("2026/04.yaml")
    ]
    assert "R-08" in reading.ledger.items
    assert ["2026/a.csv"] == list(reading.ledger.bench)


COPY = "it looks like a copy of {}; delete it, or keep it outside the hangar"
HOME = "read here: aircraft.yaml, logbook.yaml, write-up.md"
STRAYS = {
    "logbook.yaml": "a logbook belongs in aircraft/<name>/",
    "items.yml": "it belongs in parts/",
    "motor.csv": "a table belongs in bench/",
    "flights.yaml": "read here: hangar.yaml; all else belongs in a folder",
    "hangar.yaml~": COPY.format("hangar.yaml"),
    "hangar (1).yaml": COPY.format("hangar.yaml"),
    "aircraft/logbook.yaml": "each aircraft has a folder of its own: aircraft/<name>/",
    "aircraft/sedge/writeup.md": "did you mean 'write-up.md'?",
    "aircraft/sedge/logbook.yml": "did you mean 'logbook.yaml'?",
    "aircraft/sedge/Logbook.YAML": "did you mean 'logbook.yaml'?",
    "aircraft/sedge/logbook.yaml~": COPY.format("logbook.yaml"),
    "aircraft/sedge/logbook.yaml.bak": COPY.format("logbook.yaml"),
    "aircraft/sedge/#logbook.yaml#": COPY.format("logbook.yaml"),
    "aircraft/sedge/logbook (1).yaml": COPY.format("logbook.yaml"),
    "aircraft/sedge/logbook - Copy.yaml": COPY.format("logbook.yaml"),
    "aircraft/sedge/logbook (Ida's conflicted copy).yaml": COPY.format("logbook.yaml"),
    "aircraft/sedge/settings.yaml": HOME,
    "aircraft/sedge/README.md": HOME,
    "parts/frames-and-more.yaml": "read here: specs.yaml, items.yaml",
    "stores/packs.yml": "the name should end in .yaml",
    "stores/packs.YAML": "the name should end in .yaml",
    "stores/table.csv": "the name should end in .yaml",
    "bench/a.CSV": "the name should end in .csv",
    "stores/packs (2).yaml": COPY.format("packs.yaml"),
    "stores/packs.yaml.orig": COPY.format("packs.yaml"),
}


@pytest.mark.parametrize("path", STRAYS)
def test_what_is_not_read_is_told(write_hangar: WriteHangar, path: str) -> None:
    """A warning at the file itself, with what to do; nothing of it is read."""
    folder = write_hangar({"stores/packs.yaml": "[]\n", path: NOTE})
    reading = read_hangar(folder, None)
    name = path.rpartition("/")[2]

    assert [f"'{name}' is a file that is not read @ {path}:1 ({STRAYS[path]})"] == told(folder)
    assert {"warning"} == {problem.severity for problem in reading.problems}
    assert reading.ledger is not None
    assert path not in {entry.file for entry in reading.ledger.entries}


def test_folders_that_are_not_read_are_told(write_hangar: WriteHangar) -> None:
    """Too deep, of another name, within the photos, and a link to a folder."""
    deep = "stores/a/b/c/d"
    folder = write_hangar(
        {
            f"{deep}/x.yaml": NOTE,
            "aircraft/sedge/logs/x.yaml": NOTE,
            "parts/motors/x.yaml": NOTE,
            "aircraft/sedge/photos/2025/a.jpg": b"",
        }
    )
    (folder / "stores/again").symlink_to(folder / "stores")

    unread = "is a folder that is not read"
    assert [
        f"'logs' {unread} @ aircraft/sedge/logs:1 (read here: logbook, photos)",
        f"'2025' {unread} @ aircraft/sedge/photos/2025:1 (put the pictures into photos/ itself)",
        f"'motors' {unread} @ parts/motors:1 (read here: specs, items)",
        f"'d' {unread} @ {deep}:1 (at most 4 folders within each other are read)",
        f"'again' {unread} @ stores/again:1 (write a folder here, not a link to one)",
    ] == told(folder)


def test_a_file_of_that_name_beside_nothing_is_read(write_hangar: WriteHangar) -> None:
    """It is no copy where what it would be a copy of is not there."""
    folder = write_hangar({"stores/packs (2).yaml": "- {on: 2026-02-03, charge: P-01}\n"})
    assert [] == told(folder)


READS = """
import sys
from pathlib import Path
from buildbook.records.reading.read import read_hangar
for problem in read_hangar(Path(sys.argv[1]), None).problems: print(problem)
"""


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes here")
def test_what_is_no_regular_file_is_never_opened(
    write_hangar: WriteHangar, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Pipes, a device, a socket, folders for files: each told, and nothing waits."""
    folder = write_hangar({"stores/a.yaml": "[]\n"})
    home = folder / "aircraft/sedge"
    (home / "logbook.yaml").unlink()
    (home / "logbook.yaml").mkdir()
    (home / "photos").mkdir()
    os.mkfifo(home / "photos/p.jpg")
    os.mkfifo(home / "write-up.md")
    os.mkfifo(folder / "parts/x.yaml")
    (folder / "stores/zero.yaml").symlink_to("/dev/zero")
    (folder / "bench").mkdir()
    os.mkfifo(folder / "bench/a.csv")
    monkeypatch.chdir(folder)  # the path of a socket may not be long
    with socket.socket(socket.AF_UNIX) as listening:
        listening.bind("stores/s.yaml")

    done = subprocess.run(
        [sys.executable, "-c", READS, str(folder)], capture_output=True, text=True, timeout=60
    )

    assert "" == done.stderr
    cannot = "cannot read the file:"
    assert [
        f"{cannot} it is a folder, not a file @ aircraft/sedge/logbook.yaml:1",
        "'p.jpg' is a file that is not read @ aircraft/sedge/photos/p.jpg:1",
        f"{cannot} not a plain file @ aircraft/sedge/write-up.md:1",
        f"{cannot} not a plain file @ bench/a.csv:1",
        "'x.yaml' is a file that is not read @ parts/x.yaml:1",
        f"{cannot} not a plain file @ stores/s.yaml:1",
        f"{cannot} it is a link that leads out of the hangar @ stores/zero.yaml:1",
    ] == done.stdout.splitlines()


def test_links_out_of_the_hangar_are_not_followed(write_hangar: WriteHangar) -> None:
    """A file, a folder, a photograph, the folder of an aircraft; a link within is fine."""
    folder = write_hangar({"stores/a.yaml": "- {on: 2026-02-03, charge: P-01}\n"})
    afar = folder.parent / "afar"
    (afar / "photos").mkdir(parents=True)
    (afar / "secret.yaml").write_text("- {on: 2026-02-03, note: secret}\n")
    (folder / "stores/b.yaml").symlink_to(afar / "secret.yaml")
    (folder / "programmes").symlink_to(afar)
    (folder / "aircraft/rush").symlink_to(afar)
    (folder / "aircraft/sedge/photos").symlink_to("../../../afar/photos")
    (folder / "aircraft/sedge/logbook").mkdir()
    (folder / "aircraft/sedge/logbook/more.yaml").symlink_to("../../../stores/more.txt")
    (folder / "stores/more.txt").write_text(NOTE)

    out = "it is a link that leads out of the hangar"
    hint = "(copy what it leads to into the hangar)"
    assert [
        f"cannot read the folder: {out} @ aircraft/rush:1 {hint}",
        f"cannot read the folder: {out} @ aircraft/sedge/photos:1 {hint}",
        f"cannot read the folder: {out} @ programmes:1 {hint}",
        f"cannot read the file: {out} @ stores/b.yaml:1 {hint}",
    ] == told(folder)
    reading = read_hangar(folder, None)
    assert reading.ledger is not None
    assert "aircraft/sedge/logbook/more.yaml" in [entry.file for entry in reading.ledger.entries]


def test_a_hangar_behind_a_link_is_read(write_hangar: WriteHangar) -> None:
    """The folder itself may be a link: what is in it is inside."""
    folder = write_hangar({"stores/a.yaml": "- {on: 2026-02-03, charge: P-01}\n"})
    (folder.parent / "link").symlink_to(folder)
    assert [] == told(folder.parent / "link")


def test_names_of_files_with_control_characters(write_hangar: WriteHangar) -> None:
    """They would reach the terminal with every message about the file."""
    folder = write_hangar({"stores/a\x1b[31m.yaml": "[]\n", "stores/b\n.yaml": "[]\n"})
    assert [
        "a file name with a control character U+001B @ stores:1 (None)",
        "a file name with a tab or a line break @ stores:1 (None)",
    ] == told(folder)


def test_more_entries_than_one_file_may_hold(write_hangar: WriteHangar) -> None:
    """Told once, at the file."""
    folder = write_hangar({"stores/packs.yaml": "- {on: 2026-03-01, note: x}\n" * 50_001})
    reason = "list of 50,001 entries, more than 50,000 @ stores/packs.yaml:1 (split the file)"
    assert [reason] == told(folder)


def test_too_many_and_too_much(write_hangar: WriteHangar, monkeypatch: pytest.MonkeyPatch) -> None:
    """What is beyond the limits is told where it begins, never left out in silence."""
    folder = write_hangar({f"stores/{n}.yaml": "[]\n" for n in range(4)})
    monkeypatch.setattr(files_module, "_MOST_FILES", 3)
    assert ["folder of 4 files, more than 3 @ stores:1 (None)"] == told(folder)
    monkeypatch.undo()

    small = {"hangar": 600}
    monkeypatch.setattr(files_module, "most", lambda name: small.get(name) or most(name))
    (first, *_) = told(folder)
    assert first.startswith("the files up to here exceed the 0 MB that are read @ ")
