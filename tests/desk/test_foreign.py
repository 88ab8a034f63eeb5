"""Days, times, numbers and names as other people write them."""

import pytest

from buildbook.desk.bringing_in.foreign import (
    day_of,
    duration_of,
    has_commas,
    likely_days,
    plain_number,
    same_name,
    time_of,
    with_points,
)


@pytest.mark.parametrize(
    ("day", "cell", "order"),
    [
        ("2026-04-03", "3.4.2026", "day-first"),
        ("2026-04-03", "03/04/26", "day-first"),
        ("2026-03-04", "03/04/26", "month-first"),
        ("2026-04-03", "2026/4/3", "day-first"),
        ("2026-04-03", "20260403", "year-first"),
        ("2026-04-03", "3 Apr 2026", "month-first"),
        ("2026-05-03", "3. Mai 2026", "day-first"),
        ("2026-04-03T16:40", "3.4.2026 4:40 pm", "day-first"),
        ("2026-04-03T16:40", "2026-04-03T16:40", "year-first"),
        (None, "31.2.2026", "day-first"),
        (None, "Total", "day-first"),
        (None, "3.4.2026 noonish", "day-first"),
    ],
)
def test_days(day: str | None, cell: str, order: str) -> None:
    """A day that the calendar lacks is none."""
    assert day == day_of(cell, order)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("found", "cells"),
    [
        (("day-first", True), ["3/4/26", "13/4/26"]),
        (("month-first", True), ["3/4/26", "3/14/26"]),
        (("day-first", True), ["3.4.26", "4.5.26"]),
        (("year-first", True), ["2026-03-04"]),
        (("day-first", False), ["3/4/26", "4/4/26", "2/5/26"]),
        (("month-first", False), ["3/4/26", "3/9/26", "4/2/26"]),
    ],
)
def test_the_order_of_days_and_whether_it_is_sure(
    found: tuple[str, bool], cells: list[str]
) -> None:
    """No month is above 12; where none tells, days that rise do."""
    assert found == likely_days(cells)


@pytest.mark.parametrize(
    ("time", "cell"),
    [
        ("16:40", "16:40"),
        ("16:40", "4:40 pm"),
        ("04:40", "4:40AM"),
        ("00:05", "12:05 am"),
        ("12:05", "12:05 p.m."),
        ("16:00", "4 pm"),
        ("09:05", "9.05"),
        ("09:05", "9h05"),
        (None, "25:00"),
        (None, "13:00 pm"),
        (None, "soon"),
    ],
)
def test_times(time: str | None, cell: str) -> None:
    """Noon is 12 pm, midnight 12 am."""
    assert time == time_of(cell)


@pytest.mark.parametrize(
    ("length", "cell", "unit"),
    [
        ("7:20", "7:20", "m:s"),
        ("7:30", "7.5", "min"),
        ("7:20", "440", "s"),
        ("7:20", "0:07:20", "h:m:s"),
        ("7:20", "7:20:00", "m:s"),
        ("1 h 20 min 0 s", "1:20", "h:m"),
        ("7:20", "7 min 20 s", "min"),
        ("7:20", "7'20\"", "min"),
        (None, "long", "min"),
    ],
)
def test_lengths_of_time(length: str | None, cell: str, unit: str) -> None:
    """A sheet that takes 7:20 for hours and minutes is set right by the unit m:s."""
    assert length == duration_of(cell, unit)


def test_decimals() -> None:
    """Commas for decimals where a comma is there and no point."""
    assert has_commas(["7,5", "1.480", "3.4.2026"])
    assert not has_commas(["7.5", "1,480"])
    assert not has_commas(["7,5", "7.5"])
    assert "1480.5" == with_points("1.480,5")
    assert "1480" == plain_number("1,480", commas=False, unit=None)


def test_names() -> None:
    """Capitals, signs and leading zeros apart; never one of two."""
    assert "P-01" == same_name("p1", ["P-01", "P-02"])
    assert "P-01" == same_name("P-01", ["P-01", "P-1"])
    assert same_name("P1", ["P-01", "P-1"]) is None
    assert same_name("P3", ["P-01", "P-02"]) is None
