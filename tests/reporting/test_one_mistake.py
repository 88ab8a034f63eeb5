"""One slip of the pen is told once, not again by what the entry lacks without it."""

import datetime
from pathlib import Path

import pytest

from buildbook.reporting.opening import open_reports

DAY = datetime.date(2026, 4, 1)
FILES = {
    "hangar.yaml": "hangar: Loft\n",
    "parts/specs.yaml": "- {spec: m, kind: motor}\n",
    "parts/items.yaml": "- {tags: M-1..M-3, spec: m}\n",
    "aircraft/heron/aircraft.yaml": (
        "aircraft: Heron\nkind: aeroplane\nlayout: aeroplane\nstations: {nose: {spin: cw}}\n"
    ),
}
FIRST = "- on: 2026-02-01\n  fit: {nose: {motor: M-1}}\n- on: 2026-03-01\n"


def told(folder: Path, log: str) -> list[str]:
    """The problems of a hangar with that log."""
    for name, text in {**FILES, "aircraft/heron/logbook.yaml": log}.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
    return [str(each) for each in open_reports(folder, DAY, DAY).problems]


@pytest.mark.parametrize(
    ("entry", "expected"),
    [
        ("  fit: {nose: {motor: M-2}}\n  instead of: {M-1: scrapped}\n",
         "unknown key 'instead of' in 'fit' @ aircraft/heron/logbook.yaml:5"),
        ("  fit: {nose: {motor: M-2}}\n  instead_of: [M-1]\n",
         "expected tags with their state, got a list @ aircraft/heron/logbook.yaml:5"),
        ("  fit: {nose: {motor: M-2}, instead_of: {M-1: scrapped}}\n",
         "unknown kind of item 'M-1' @ aircraft/heron/logbook.yaml:4"),
    ],
)  # fmt: skip
def test_a_key_that_is_not_understood_is_told_alone(
    tmp_path: Path, entry: str, expected: str
) -> None:
    """Not also that the motor before sits there still, which the key would have said."""
    assert [expected] == told(tmp_path, FIRST + entry)


def test_what_another_entry_contradicts_is_told_beside_it(tmp_path: Path) -> None:
    """A slip silences its own entry alone."""
    entry = "  fit: {nose: {motor: M-2}}\n"
    slip = "- on: 2026-03-02\n  note: seen\n  itm: M-2\n"

    assert [
        "motor 'M-2' fitted at heron nose on 2026-03-01, where 'M-1' sits since 2026-02-01"
        " @ aircraft/heron/logbook.yaml:4",
        "entry has no kind key, but 'itm' @ aircraft/heron/logbook.yaml:7",
    ] == told(tmp_path, FIRST + entry + slip)
