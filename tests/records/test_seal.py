"""The seal tells a silent change (R46)."""

import os
from pathlib import Path

import pytest

from buildbook.commands.main import main

pytestmark = pytest.mark.usefixtures("private_cache")

LOG = """\
- {on: 2026-03-01, id: first, note: Cold and still.}
- {on: 2026-03-02, id: second, note: Rain.}
"""


@pytest.fixture
def hangar(tmp_path: Path) -> Path:
    """A sealed hangar of two entries."""
    folder = tmp_path / "hangar"
    (folder / "stores").mkdir(parents=True)
    (folder / "hangar.yaml").write_text("format: 1\nhangar: Loft\nas_of: 2026-11-20\n", "utf-8")
    (folder / "stores/shelf.yaml").write_text(LOG, "utf-8")
    assert main(["check", str(folder), "--seal"]) == 0
    return folder


def check(folder: Path, capsys: pytest.CaptureFixture[str]) -> list[str]:
    """What ``check`` prints now."""
    capsys.readouterr()
    main(["check", str(folder)])
    return capsys.readouterr().out.splitlines()


def test_sealing_says_how_many(hangar: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A second seal takes only what is new."""
    more = LOG + "- {on: 2026-03-03, id: third, note: Wind.}\n"
    (hangar / "stores/shelf.yaml").write_text(more, "utf-8")
    capsys.readouterr()

    assert main(["check", str(hangar), "--seal"]) == 0
    assert capsys.readouterr().out.splitlines() == [
        "Read 0 aircraft, 0 items, 3 entries: no problems.",
        "Nothing is open or due in this record.",
        "Sealed 1 entry that had no seal yet.",
    ]


def test_r46_a_changed_entry_is_named(hangar: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Words changed in place are a warning at the entry."""
    (hangar / "stores/shelf.yaml").write_text(LOG.replace("Rain.", "Sun."), "utf-8")

    assert check(hangar, capsys) == [
        "warning: the sealed entry 'second' was changed in place @ stores/shelf.yaml:2",
        "    put back what it said and write an entry that corrects it",
        "1 warning",
        "Read 0 aircraft, 0 items, 2 entries: no problems, 1 warning.",
        "Nothing is open or due in this record.",
    ]


def test_r46_a_removed_entry_is_named(hangar: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """An entry that was taken out is a warning at its file."""
    (hangar / "stores/shelf.yaml").write_text(LOG.splitlines(keepends=True)[0], "utf-8")

    assert check(hangar, capsys)[0] == (
        "warning: the sealed entry 'second' is gone @ stores/shelf.yaml:1"
    )


def test_r46_new_entries_and_new_lines_are_fine(
    hangar: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Adding an entry or a comment changes no sealed entry."""
    more = "# a comment\n" + LOG + "- {on: 2026-03-03, id: third, note: Wind.}\n"
    (hangar / "stores/shelf.yaml").write_text(more, "utf-8")

    assert check(hangar, capsys) == [
        "Read 0 aircraft, 0 items, 3 entries: no problems.",
        "Nothing is open or due in this record.",
    ]


def test_a_changed_entry_stays_told_after_sealing_again(
    hangar: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Sealing anew doesn't wash a change away."""
    (hangar / "stores/shelf.yaml").write_text(LOG.replace("Rain.", "Sun."), "utf-8")
    main(["check", str(hangar), "--seal"])

    assert "1 warning" in check(hangar, capsys)


def test_a_seal_that_is_none_is_one_sentence(
    hangar: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A damaged seal file is told, not a traceback."""
    (hangar / "seal.json").write_text("[1, 2", "utf-8")

    assert main(["check", str(hangar)]) == 2
    assert capsys.readouterr().err.startswith("buildbook check: seal.json cannot be read: ")


@pytest.mark.parametrize("odd", ["pipe", "folder", "deep"])
def test_a_seal_that_is_no_seal_is_told(
    hangar: Path, odd: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """A pipe is not waited for, a folder not read, nesting without end not followed."""
    (hangar / "seal.json").unlink()
    if odd == "pipe":
        os.mkfifo(hangar / "seal.json")
    elif odd == "folder":
        (hangar / "seal.json").mkdir()
    else:
        (hangar / "seal.json").write_text('{"more": ' + "[" * 100_000, "utf-8")

    assert 2 == main(["check", str(hangar)])
    assert "buildbook check: seal.json cannot be read: " in capsys.readouterr().err


COUNTED = """\
- {on: 2026-03-01, note: One.}
- {on: 2026-03-01, note: Two.}
- {on: 2026-03-01, note: Three.}
"""


@pytest.mark.parametrize(
    ("log", "told"),
    [
        (f"# A remark.\n\n{COUNTED}", []),
        (f"- {{on: 2026-02-01, note: Before.}}\n{COUNTED}", []),
        (COUNTED.replace(", note: Three", ", note: New.}\n- {on: 2026-03-01, note: Three"), []),
        (COUNTED.replace("- {on: 2026-03-01, note: One.}\n", ""),
         ["warning: the sealed entry '2026-03-01-1' is gone @ stores/shelf.yaml:1"]),
        (COUNTED.replace("Two", "2"),
         ["warning: the sealed entry '2026-03-01-2' was changed in place @ stores/shelf.yaml:2"]),
    ],
)  # fmt: skip
def test_neighbours_of_an_entry_more_or_less_are_not_told(
    hangar: Path, capsys: pytest.CaptureFixture[str], log: str, told: list[str]
) -> None:
    """What is sealed is what an entry says, wherever it stands and however it is counted."""
    (hangar / "stores/shelf.yaml").write_text(COUNTED, "utf-8")
    (hangar / "seal.json").unlink()
    assert main(["check", str(hangar), "--seal"]) == 0
    (hangar / "stores/shelf.yaml").write_text(log, "utf-8")

    assert told == [line for line in check(hangar, capsys) if line.startswith("warning")]


CRAFT = "aircraft: Heron\nkind: aeroplane\nlayout: aeroplane\nstations:\n  nose: {spin: cw}\n"
SETTING = "- {on: 2026-03-01, setting: {line: red, file: 3, lines: 2, index: 5}}\n"


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("line: red", "line: blue"),
        ("file: 3", "file: 4"),
        ("lines: 2", "lines: 1"),
        ("x: 5", "x: 6"),
    ],
)
def test_a_setting_may_have_the_name_of_a_place(
    hangar: Path, capsys: pytest.CaptureFixture[str], old: str, new: str
) -> None:
    """What is left out of the seal is where a record stands, not what it says under such a name."""
    log = hangar / "aircraft/heron/logbook.yaml"
    log.parent.mkdir(parents=True)
    (log.parent / "aircraft.yaml").write_text(CRAFT, "utf-8")
    log.write_text(SETTING, "utf-8")
    assert main(["check", str(hangar), "--seal"]) == 0
    log.write_text(SETTING.replace(old, new), "utf-8")

    told = "warning: the sealed entry '2026-03-01-1' was changed in place @ {}:1"
    assert told.format("aircraft/heron/logbook.yaml") in check(hangar, capsys)
