"""Public texts made at random: what betrays is told however it is dressed, the trade passes.

``python -m tests.fuzz.test_betraying_texts FIRST COUNT`` does the same by hand for as long as one
likes, and says what slipped.
"""

import random
import sys
from collections import Counter

import pytest

from buildbook.audience.leaks.watch import LEAKS, looks_of
from tests.fuzz.betraying_texts import SUBJECTS, betraying, innocent

ROUNDS = range(20)
IN_A_ROUND = 60


def reasons(text: str) -> set[str]:
    """All that a text betrays, without the words of the records."""
    return {each.reason for flat in looks_of(text) for each in LEAKS if list(each.find(flat.text))}


def slipped(number: int) -> tuple[str, str] | None:
    """The text of that number and its reason, if nothing at all is told of it."""
    reason, text = betraying(random.Random(f"betraying {number}"))
    return None if reasons(text) else (reason, text)


def wrongly_told(number: int) -> tuple[str, set[str]] | None:
    """The innocent text of that number and what is told of it, if anything is."""
    text = innocent(random.Random(f"innocent {number}"))
    found = reasons(text)
    return (text, found) if found else None


@pytest.mark.parametrize("round_", ROUNDS)
def test_what_betrays_is_told_however_it_is_dressed(round_: int) -> None:
    """References, unseen signs, marks, escapes, blanks, wide digits, dashes, tags, neighbours."""
    numbers = range(round_ * IN_A_ROUND, (round_ + 1) * IN_A_ROUND)
    assert [] == [found for found in map(slipped, numbers) if found]


@pytest.mark.parametrize("round_", ROUNDS)
def test_the_trade_passes(round_: int) -> None:
    """Readings, sizes, versions, gains, months and tags in any mixture."""
    numbers = range(round_ * IN_A_ROUND, (round_ + 1) * IN_A_ROUND)
    assert [] == [found for found in map(wrongly_told, numbers) if found]


def test_every_subject_is_made() -> None:
    """The fuzz leaves out no subject but the three words, which have one form."""
    told = {each.reason for each in LEAKS} - {"looks like a place in three words"}
    assert told == set(SUBJECTS)


def run(first: int, count: int) -> int:
    """Say what slipped and what was told wrongly; gives how many of both."""
    missed: Counter[str] = Counter()
    wrong: Counter[str] = Counter()
    for number in range(first, first + count):
        missing = slipped(number)
        if missing:
            missed[missing[0]] += 1
            print(f"slipped {number}: {missing[0]}: {missing[1]!r}")
        told = wrongly_told(number)
        if told:
            wrong.update(told[1])
            print(f"told wrongly {number}: {sorted(told[1])}: {told[0]!r}")
    print(f"{count} texts of both kinds: slipped {dict(missed)}, told wrongly {dict(wrong)}")
    return missed.total() + wrong.total()


if __name__ == "__main__":
    sys.exit(1 if run(int(sys.argv[1]), int(sys.argv[2])) else 0)
