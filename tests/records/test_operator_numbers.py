"""Operator numbers: the secret part is refused wherever it stands. The numbers are invented."""

import pytest
from small_hangar import WriteHangar

from buildbook.records.reading.read import read_hangar

PUBLIC = "ZZZ1a2b3c4d5e6f7"
REASON = "looks like an operator number with its secret part; remove the last three"
LOG = "aircraft/sedge/logbook.yaml"


@pytest.mark.parametrize("number", [f"{PUBLIC}-q9z", f"{PUBLIC} q9z", f"{PUBLIC}q9z"])
@pytest.mark.parametrize(
    ("path", "text"),
    [
        (LOG, "- on: 2026-02-01\n  note: |\n    words\n    {} more\n"),
        ("aircraft/sedge/write-up.md", "# Sedge\n\nIt carries\n{}.\n"),
        ("stores/packs.yaml", "# packs\n\n\n# {}\n"),
    ],
)
def test_p03_the_secret_part_is_refused_and_not_repeated(
    number: str, path: str, text: str, write_hangar: WriteHangar
) -> None:
    """P03: in a note, a story, a remark; with a hyphen, a space, nothing between."""
    reading = read_hangar(write_hangar({path: text.format(number)}))

    assert [f"{REASON} @ {path}:4"] == [str(problem) for problem in reading.problems]
    assert "q9z" not in repr(reading.problems)


def test_p04_the_public_part_alone_is_accepted(write_hangar: WriteHangar) -> None:
    """P04: the keeper may write the number as it stands on the aircraft."""
    reading = read_hangar(write_hangar({LOG: f"- {{on: 2026-02-01, note: marked {PUBLIC}.}}\n"}))

    assert () == reading.problems


def test_words_that_only_look_long_are_accepted(write_hangar: WriteHangar) -> None:
    """Capitals within a longer word, and longer rows of signs, are no such numbers."""
    words = f"x{PUBLIC}q9z ZZZ1a2b3c4d5e6f7q9z1 board ABC12345"
    reading = read_hangar(write_hangar({LOG: f"- {{on: 2026-02-01, note: {words}}}\n"}))

    assert () == reading.problems


def test_other_messages_do_not_repeat_it_either(write_hangar: WriteHangar) -> None:
    """It stands where a duration is expected; that message strikes it out."""
    log = f"- {{on: 2026-02-01, flight: {PUBLIC}-q9z}}\n"
    reading = read_hangar(write_hangar({LOG: log}))

    assert ["'…' is not a duration", REASON] == [problem.reason for problem in reading.problems]
    assert "q9z" not in repr(reading.problems)
