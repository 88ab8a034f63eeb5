"""Days as an audience may see them, to the day or the month; months as numbers and words."""

from __future__ import annotations

import datetime
from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

from buildbook.basis import amounts

if TYPE_CHECKING:
    from buildbook.report.drawn.plans import MonthPlan


class Days(NamedTuple):
    """How days are written. exact: to the day; else months alone."""

    exact: bool = True

    def __call__(self, date: datetime.date) -> str:
        """``14 June 2026``, or ``June 2026``."""
        return amounts.day(date) if self.exact else amounts.month(date)

    def on(self, date: datetime.date) -> str:
        """``on 14 June 2026``, or ``in June 2026``."""
        return f"{'on' if self.exact else 'in'} {self(date)}"


EXACT = Days()


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
    from buildbook.report.drawn.plans import MonthPlan  # with all drawings: only pages ask

    known = {month_number(month.month): month for month in months}
    numbers = [*known, *(month_number(month) for month in others)]
    if not numbers:
        return ()
    return tuple(
        known.get(number) or MonthPlan(month=f"{number // 12:04d}-{number % 12 + 1:02d}", flights=0)
        for number in range(min(numbers), max(numbers) + 1)
    )
