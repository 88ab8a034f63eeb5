"""The rows of a flying day, as people write them."""

import pytest
from small_hangar import WriteHangar

from buildbook.records.entries import Flight
from buildbook.records.reading.read import read_hangar


@pytest.mark.parametrize(
    ("expected", "written"),
    [
        ([(440.0, ("P-01",), "hard")], "[7:20, P-01, 1480 mAh, hard]"),
        ([(440.0, ("P-01",), "hard")], "[[7:20, P-01, 1480 mAh, hard]]"),
        ([(440.0, (), "normal"), (410.0, (), "normal")], "[7:20, 6:50]"),
        ([(440.0, (), "normal")], "[7:20]"),
    ],
)
def test_one_row_needs_no_brackets_of_its_own(
    write_hangar: WriteHangar, expected: list[tuple[float, tuple[str, ...], str]], written: str
) -> None:
    """A pack, charge or landing after the first duration makes it one flight."""
    log = f"- on: 2026-02-02 16:30\n  flights: {written}\n"

    reading = read_hangar(write_hangar({"aircraft/sedge/logbook.yaml": log}))

    assert reading.ledger is not None
    (entry,) = reading.ledger.entries
    assert isinstance(entry, Flight)
    assert (expected, "16:30", ()) == (
        [(row.duration_s, row.packs, row.landing) for row in entry.rows],
        entry.time,
        reading.problems,
    )
