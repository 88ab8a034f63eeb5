"""The data of each trend chart as columns and rows of words, for the table beside it."""

from __future__ import annotations

from buildbook.report.drawn.plans import Table
from buildbook.report.drawn.series import (
    CapacitySeries,
    ConsumptionSeries,
    CrashSeries,
    FlownSeries,
    MonthSeries,
    ResistanceSeries,
)
from buildbook.words.measures.days import every_month, month_number, month_words

APART = ", not comparable"


def capacity_table(series: CapacitySeries) -> Table:
    """Charge number, capacity, and its share of rated where that is known."""
    rated = series.rated_ah
    rows = tuple(
        (
            f"{at:g}",
            f"{ah:.3f} Ah{APART if number in series.apart else ''}",
            f"{ah / rated * 100:.1f} %" if rated else "",
        )
        for number, (at, ah) in enumerate(series.points)
    )
    return ("charge", "capacity", "of rated"), rows


def resistance_table(series: ResistanceSeries) -> Table:
    """One row a charge, one column a cell."""
    cells = [dict(cell) for cell in series.cells]
    columns = ("charge", *(f"cell {number}" for number in range(1, len(cells) + 1)))
    charges = sorted({at for cell in cells for at in cell})
    rows = tuple(
        (
            f"{at:g}{APART if at in series.apart else ''}",
            *(f"{cell[at] * 1000:.2f} mΩ" if at in cell else "" for cell in cells),
        )
        for at in charges
    )
    return columns, rows


def flying_by_month_table(series: MonthSeries) -> Table:
    """Month, flights, hours."""
    rows = tuple(
        (month_words(month_number(month.month)), str(month.flights), f"{month.hours:.1f} h")
        for month in every_month(series.months)
    )
    return ("month", "flights", "flown"), rows


def predicted_flown_table(series: FlownSeries) -> Table:
    """Predicted and flown time in minutes and seconds, and the difference."""
    rows = tuple(
        (
            _minutes(predicted),
            _minutes(flown),
            _per_cent(flown / predicted - 1) if predicted > 0 else "",
        )
        for predicted, flown in series.points
    )
    return ("predicted", "flown", "difference"), rows


def _per_cent(share: float) -> str:
    """``+3 %``, ``-2 %``, ``0 %``."""
    return f"{whole:+d} %" if (whole := round(share * 100)) else "0 %"


def _minutes(seconds: float) -> str:
    whole = round(seconds)
    return f"{whole // 60}:{whole % 60:02d}"


def consumption_table(series: ConsumptionSeries) -> Table:
    """Flight number, charge per minute, and whether it signals."""
    rows = tuple(
        (f"{at:g}", f"{value:.0f} mAh/min", "signal" if place in series.signals else "")
        for place, (at, value) in enumerate(series.points)
    )
    return ("flight", "used", "signal"), rows


def crash_gaps_table(series: CrashSeries) -> Table:
    """Hours flown before each crash, and since the last one."""
    gaps = ((f"before crash {number}", gap) for number, gap in enumerate(series.gaps_h, 1))
    rows = (*gaps, ("since the last" if series.gaps_h else "so far", series.since_h))
    return ("stretch", "flown"), tuple((words, f"{hours:.1f} h") for words, hours in rows)
