"""The facts of each trend chart in a sentence or two, for its description."""

from __future__ import annotations

from buildbook.basis import amounts
from buildbook.report.drawn.series import (
    CapacitySeries,
    ConsumptionSeries,
    CrashSeries,
    FlownSeries,
    MonthSeries,
    ResistanceSeries,
)
from buildbook.words.measures.months import every_month, month_number, month_words


def capacity_words(series: CapacitySeries) -> str:
    """First and last measurement, limit, and where the forecast ends."""
    if not series.points:
        return "No capacity measured yet."
    (first, was), (last, now) = series.points[0], series.points[-1]
    words = f"{len(series.points)} measured, {was:.2f} Ah at charge {first:g}"
    words += f", {now:.2f} Ah at charge {last:g}."
    if series.apart:
        words += f" {len(series.apart)} not comparable."
    if series.rated_ah is not None:
        words += f" Rated {series.rated_ah:.2f} Ah."
    if series.limit_ah is not None:
        words += f" Limit {series.limit_ah:.2f} Ah."
    if series.band:
        at, low, high = series.band[-1]
        words += f" Forecast {low:.2f} to {high:.2f} Ah at charge {at:g}."
    return words


def resistance_words(series: ResistanceSeries) -> str:
    """First and last resistance of every cell, and the odd cell out."""
    told = [
        f"cell {number}: {cell[0][1] * 1000:.1f} to {cell[-1][1] * 1000:.1f} mΩ"
        for number, cell in enumerate(series.cells, 1)
        if cell
    ]
    if not told:
        return "No resistance measured yet."
    words = "; ".join(told)
    words = f"{words[0].upper()}{words[1:]}."
    if series.apart:
        words += f" Not comparable: charge {amounts.listed(f'{at:g}' for at in series.apart)}."
    if series.limit_ohm is not None:
        words += f" Limit {series.limit_ohm * 1000:.1f} mΩ."
    if series.odd_cell is not None:
        words += f" Cell {series.odd_cell} differs from the others."
    return words


def month_words_of(series: MonthSeries) -> str:
    """Total, span and the busiest month."""
    months = every_month(series.months)
    if not months:
        return "Nothing flown yet."
    first, last = (month_words(month_number(months[place].month)) for place in (0, -1))
    most = max(months, key=lambda month: month.flights)
    total = sum(month.flights for month in months)
    busiest = month_words(month_number(most.month))
    return f"{total} flights, {first} to {last}; most in {busiest}, {most.flights}."


def flown_words(series: FlownSeries) -> str:
    """How many flights, how many within ten per cent of the prediction, and the middle error."""
    if not series.points:
        return "No flight to compare yet."
    errors = sorted(flown / predicted - 1 for predicted, flown in series.points if predicted > 0)
    if not errors:
        return "No flight with a prediction yet."
    near = sum(1 for error in errors if abs(error) <= 0.1)
    half = len(errors) // 2
    middle = errors[half] if len(errors) % 2 else (errors[half - 1] + errors[half]) / 2
    return (
        f"{len(errors)} flights, {near} within 10 % of the prediction; "
        f"median flown {middle * 100:+.0f} % against predicted."
    )


def consumption_words(series: ConsumptionSeries) -> str:
    """How many flights, the centre, and which flights signal."""
    if not series.points:
        return "No flight with charge used yet."
    words = f"{len(series.points)} flights"
    if series.centre is not None:
        words += f", centre {series.centre:.0f} mAh per minute"
    told = [f"{series.points[place][0]:g}" for place in series.signals]
    words += f"; signals at flight {', '.join(told)}." if told else "; no signal."
    return words


def crash_words(series: CrashSeries) -> str:
    """Hours before each crash and since the last one."""
    if not series.gaps_h:
        return f"No crash in {series.since_h:.1f} h."
    gaps = ", ".join(f"{gap:.1f}" for gap in series.gaps_h)
    count = len(series.gaps_h)
    crashes = "1 crash" if count == 1 else f"{count} crashes"
    return f"{crashes}; {gaps} h before each, {series.since_h:.1f} h since the last."
