"""What each pattern finds, what none may find, and how far each may go back."""

import re
from collections.abc import Iterator
from typing import Any

import pytest

from buildbook.audience.leaks import personal, places
from buildbook.audience.leaks.watch import LEAKS, PATTERNS, looks_of
from tests.audience.betraying import BETRAYING, INNOCENT, MAP


def reasons(text: str) -> set[str]:
    """All that a text betrays, without the words of the records."""
    return {each.reason for flat in looks_of(text) for each in LEAKS if list(each.find(flat.text))}


@pytest.mark.parametrize(
    ("reason", "text"), [(reason, text) for reason, texts in BETRAYING.items() for text in texts]
)
@pytest.mark.parametrize("frame", ["{}", "It stands at {} since then.", "({})", "so:\n{}\n"])
def test_what_betrays_is_found(reason: str, text: str, frame: str) -> None:
    """Alone, inside a sentence, in brackets and on a line of its own."""
    assert reason in reasons(frame.format(text))


@pytest.mark.parametrize("text", INNOCENT)
def test_what_only_looks_alike_is_let_through(text: str) -> None:
    """Readings, versions, sizes, gains and times are no places, prices, days or numbers."""
    assert set() == reasons(text)


@pytest.mark.parametrize("host", places.MAP_HOSTS)
def test_each_host_of_maps_is_known(host: str) -> None:
    """A link that names only a host that keeps places is one to a map."""
    assert MAP in reasons(f"see https://{host}/abc")


@pytest.mark.parametrize("code", sorted(personal.CODES))
def test_each_currency_is_known(code: str) -> None:
    """ISO 4217 codes stand before or behind an amount with hundredths."""
    assert "looks like a price" in reasons(f"for {code} 14.50 or so")
    assert "looks like a price" in reasons(f"for 14.50 {code} or so")


def test_a_place_in_two_lines_is_told_at_its_first() -> None:
    """Lines are joined for the look, and each find knows its line."""
    (flat,) = looks_of("Nothing here.\nFlown at 52.51631,\n   13.37770 again.")
    (offset,) = (at for each in LEAKS for at in each.find(flat.text))

    assert 1 == flat.line_at(offset)


def repeats(parsed: Any) -> Iterator[tuple[int, int]]:
    """How often each repeat of an expression may repeat, and how deep it lies in others."""
    for name, value in parsed:
        if str(name) in ("MAX_REPEAT", "MIN_REPEAT", "POSSESSIVE_REPEAT"):
            _, most, inner = value
            yield int(most), 1
            yield from ((int(most) * further, depth + 1) for further, depth in repeats(inner))
        elif str(name) == "SUBPATTERN":
            yield from repeats(value[3])
        elif str(name) == "BRANCH":
            for branch in value[1]:
                yield from repeats(branch)
        elif str(name) in ("ASSERT", "ASSERT_NOT"):
            yield from repeats(value[1])
        elif str(name) == "GROUPREF_EXISTS":
            for branch in value[1:]:
                if branch is not None:
                    yield from repeats(branch)


@pytest.mark.parametrize("pattern", PATTERNS, ids=lambda pattern: pattern.pattern[:40])
def test_no_pattern_repeats_without_end(pattern: re.Pattern[str]) -> None:
    """Each repeat has a bound, so each start of a match looks at a bounded number of signs."""
    parser: Any = __import__("re._parser", fromlist=["parse"])

    for most, depth in repeats(parser.parse(pattern.pattern, pattern.flags)):
        assert most <= 2000
        assert depth <= 3


HOSTILE = (
    "1.234" + " " * 1000,
    "1.234 ",
    "1.234, ",
    "52.5163 N ",
    "52°",
    "52° 31' ",
    "a.",
    "a@",
    "a@a.",
    "a-",
    "http://",
    "https://maps.",
    "/home/",
    "C:\\Users\\",
    "+44 ",
    "0171 ",
    "01/",
    "aa:",
    "aabb.",
    "EUR ",
    "9",
    "1,",
    "3 March ",
    "2026-",
    "password",
    "serial no ",
    "<",
    "<a ",
    "&",
    "%",
    "\\",
    "*_",
    "///a.",
    "8FVC",
    "\n",
    "[](",
)


@pytest.mark.parametrize("piece", HOSTILE)
def test_time_grows_with_the_length_alone(piece: str) -> None:
    """Ten times the text takes about ten times as long: a bound of 30 leaves room for noise."""
    import time

    def taken(size: int) -> float:
        text = (piece * (size // len(piece) + 1))[:size]
        begin = time.process_time()
        reasons(text)
        return time.process_time() - begin

    def best(size: int) -> float:
        return min(taken(size), taken(size))

    if taken(100_000) >= 0.5:  # a slow machine, or time that grows faster
        long = best(100_000)
        assert long < max(0.5, 30 * best(10_000))
        assert long < 5
