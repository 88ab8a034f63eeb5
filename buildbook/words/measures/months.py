"""Months as numbers and words: 2026-03 and back, without a calendar of days."""

from __future__ import annotations

from collections.abc import Iterable

from buildbook.report.drawn.plans import MonthPlan

MONTH_WORDS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def month_number(month: str) -> int:
    """Months since the year 0. ValueError: `expected a month like 2026-03, got ...`."""
    year, dash, number = month.partition("-")
    if not (dash and year.isdecimal() and number.isdecimal() and 1 <= int(number) <= 12):
        raise ValueError(f"expected a month like 2026-03, got {month!r}")
    return int(year) * 12 + int(number) - 1


def month_words(number: int) -> str:
    """`Mar 2026` for the month of that number."""
    return f"{MONTH_WORDS[number % 12]} {number // 12}"


def every_month(months: Iterable[MonthPlan], others: Iterable[str] = ()) -> tuple[MonthPlan, ...]:
    """All months from the first to the last, those without flying filled in; none of none."""
    known = {month_number(month.month): month for month in months}
    numbers = [*known, *(month_number(month) for month in others)]
    if not numbers:
        return ()
    return tuple(
        known.get(number) or MonthPlan(month=f"{number // 12:04d}-{number % 12 + 1:02d}", flights=0)
        for number in range(min(numbers), max(numbers) + 1)
    )
