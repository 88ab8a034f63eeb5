"""Where only logs changed since the last command these alone are read, with the same result."""

import random
import shutil
from pathlib import Path

import pytest

from buildbook.basis.problems import Problems
from buildbook.records.reading import interpret
from buildbook.records.reading.files import gather
from buildbook.records.reading.read import read_hangar
from buildbook.records.reading.reread import from_last

CHANGES = 30
LOG = "aircraft/trefoil/logbook.yaml"


@pytest.fixture
def hangar(tmp_path: Path, demo: Path) -> Path:
    """The demo hangar, to be changed, whose reading was kept in ``kept`` beside it."""
    folder = tmp_path / "hangar"
    shutil.copytree(demo, folder)
    assert () == read_hangar(folder, tmp_path / "kept").problems
    return folder


def entries_of(text: str) -> list[str]:
    """The entries of a log, and what stands before the first of them."""
    first, *others = text.split("\n- ")
    return [first, *(f"\n- {other}" for other in others)]


def changed(chance: random.Random, text: str) -> str:
    """A log as a person may leave it: an entry gone, twice there, elsewhere, or with a slip."""
    entries = entries_of(text)
    at = chance.randrange(len(entries))
    match chance.randrange(6):
        case 0:
            del entries[at]
        case 1:
            entries.insert(at, entries[at])
        case 2:
            entries.insert(chance.randrange(len(entries)), entries.pop(at))
        case 3:
            words = entries[at].split(" ")
            words[chance.randrange(len(words))] = chance.choice(["P-01", "2026-03-01", "12", "{"])
            entries[at] = " ".join(words)
        case 4:
            entries[at] = entries[at].replace("\n", chance.choice([" #2 it was\n", "\n\n"]), 1)
        case _:
            day = f"20{chance.randrange(25, 27)}-0{chance.randrange(1, 10)}-11"
            entries.append(f"\n- on: {day}\n  note: {chance.choice(['Calm.', '<words>'])}\n")
    return "".join(entries)


def test_a_changed_log_is_read_as_in_the_whole(tmp_path: Path, hangar: Path) -> None:
    """Ledger and problems, by thirty changes one after another; many are read the short way."""
    chance, short = random.Random(7), 0
    logs = sorted({*hangar.glob("aircraft/*/logbook.yaml"), *hangar.glob("stores/*.yaml")})
    for number in range(CHANGES):
        log = chance.choice(logs)
        before = log.read_text("utf-8")
        log.write_text(changed(chance, before), "utf-8")
        problems = Problems()
        files = gather(hangar, problems)
        assert files is not None
        short += from_last(hangar, files, problems, tmp_path / "kept") is not None

        reading = read_hangar(hangar, tmp_path / "kept")
        assert read_hangar(hangar, None) == reading, number
        if reading.problems:
            log.write_text(before, "utf-8")
            read_hangar(hangar, tmp_path / "kept")
    assert short > CHANGES / 4


def test_a_changed_log_spares_the_others(
    tmp_path: Path, hangar: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The whole is read where another file changed, came or went, and not for a log."""
    whole: list[int] = []
    read_files = interpret.read_files
    monkeypatch.setattr(
        interpret, "read_files", lambda *given: (whole.append(1), read_files(*given))[1]
    )

    def read_after(path: str, text: str | None) -> int:
        """How often the whole is read, once that file has another text, or is gone."""
        file, times = hangar / path, len(whole)
        if text is None:
            file.unlink()
        else:
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(text, "utf-8")
        read_hangar(hangar, tmp_path / "kept")
        return len(whole) - times

    log = (hangar / LOG).read_text("utf-8") + "- on: 2026-11-20\n  note: Calm.\n"
    keeper = (hangar / "hangar.yaml").read_text("utf-8")
    assert 0 == read_after(LOG, log)
    assert 1 == read_after("hangar.yaml", keeper + "\n")
    assert 1 == read_after("stores/more.yaml", "- {on: 2026-11-20, note: Calm.}\n")
    assert 0 == read_after("stores/more.yaml", "- {on: 2026-11-20, note: Windy.}\n")
    assert 1 == read_after("stores/more.yaml", None)
    (tmp_path / "kept").rename(tmp_path / "gone")
    assert 1 == read_after(LOG, log + "\n")


@pytest.mark.parametrize("words", ["Battery #2 was warm", "<words>"])
def test_what_is_said_of_a_text_that_was_read_is_said(
    tmp_path: Path, hangar: Path, words: str
) -> None:
    """A comment by mistake, and a place that was not filled in, in a log that alone changed."""
    with (hangar / LOG).open("a", encoding="utf-8") as log:
        log.write(f"- on: 2026-11-20\n  note: {words}\n")

    reading = read_hangar(hangar, tmp_path / "kept")

    assert 1 == len(reading.problems)
    assert read_hangar(hangar, None) == reading
