"""The facts of each trend chart: a sentence or two for its description, and the table beside it."""

from __future__ import annotations

from buildbook.basis import amounts
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


def capacity_words(series: CapacitySeries) -> str:
    """First and last measurement, limit, and where the forecast ends."""
    if not series.points:
        return "No capacity measured yet."
    (first, was), (last, now) = series.points[0], series.points[-1]
    words = f"{len(series.points)} measured, {amounts.charge(was)} at charge {first:g}"
    words += f", {amounts.charge(now)} at charge {last:g}."
    if series.apart:
        words += f" {len(series.apart)} not comparable."
    if series.rated_ah is not None:
        words += f" Rated {amounts.charge(series.rated_ah)}."
    if series.limit_ah is not None:
        words += f" Limit {amounts.charge(series.limit_ah)}."
    if len(series.line) > 1:
        words += f" Forecast: {_falls(series)}."
    return words


def _falls(series: CapacitySeries) -> str:
    """``falls below 80 % of rated at about charge 300``."""
    end = series.line[-1][0]
    if series.rated_ah is None or series.limit_ah is None:
        return f"falls below its limit at about charge {end:.0f}"
    limit = amounts.share(series.limit_ah / series.rated_ah)
    return f"falls below {limit} of rated at about charge {end:.0f}"


def charges_axis(series: CapacitySeries | ResistanceSeries) -> str:
    """What the level axis counts."""
    return "charges, without those to storage" if series.without_storage else "charges"


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
    earlier = f" {series.earlier} more were flown before." if series.earlier else ""
    return f"{total} flights, {first} to {last}; most in {busiest}, {most.flights}.{earlier}"


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
        words += f", usually {series.centre:.0f} mAh a minute"
    told = [f"{series.points[place][0]:g}" for place in series.signals]
    words += (
        f"; outside the limits: flight {', '.join(told)}." if told else "; none outside the limits."
    )
    return words


def crash_words(series: CrashSeries) -> str:
    """Hours before each crash and since the last one."""
    if not series.gaps_h:
        return f"No crash in {series.since_h:.1f} h."
    gaps = ", ".join(f"{gap:.1f}" for gap in series.gaps_h)
    count = len(series.gaps_h)
    crashes = "1 crash" if count == 1 else f"{count} crashes"
    return f"{crashes}; {gaps} h before each, {series.since_h:.1f} h since the last."


def capacity_lead(series: CapacitySeries) -> str:
    """What the chart shows in one line: how fast it fades, and how far the limit is."""
    if len(series.line) < 2:
        return "Too few readings, or too similar, to say how fast it loses capacity."
    (at, now), (end, limit) = series.line[0], series.line[-1]
    if end <= at or now <= limit:
        return "The last reading is at its limit."
    loses = ""
    if series.change_ah is not None and series.change_ah < 0:
        loses = f"Has lost about {amounts.significant(-series.change_ah * 1000, 2)} mAh a charge. "
    falls = _falls(series)
    return f"{loses}{falls[0].upper()}{falls[1:]}, as its readings go."


def resistance_lead(series: ResistanceSeries) -> str:
    """The odd cell out beside the others, or how close all are."""
    last = {number: cell[-1][1] * 1000 for number, cell in enumerate(series.cells, 1) if cell}
    if not last:
        return "No resistance measured yet."
    odd = series.odd_cell
    others = [value for number, value in last.items() if number != odd]
    if odd is None or odd not in last or not others:
        return f"No cell stands out: {min(last.values()):.1f} to {max(last.values()):.1f} mΩ."
    return (
        f"Cell {odd} differs: {last[odd]:.1f} mΩ, the others "
        f"{min(others):.1f} to {max(others):.1f} mΩ."
    )


def consumption_lead(series: ConsumptionSeries) -> str:
    """Which flights are outside the limits and what to look at, or that none is."""
    usual = "" if series.centre is None else f"Usually {series.centre:.0f} mAh a minute. "
    outside = [series.points[place] for place in series.signals if place < len(series.points)]
    if not outside:
        return f"{usual}No flight outside the limits."
    told = ", ".join(f"flight {number:g} ({value:.0f})" for number, value in outside)
    more = any(series.centre is not None and value > series.centre for _, value in outside)
    look = " Look at propellers and bearings, and at the wind of that day." if more else ""
    return f"{usual}Outside the limits: {told}.{look}"


def crash_lead(series: CrashSeries) -> str:
    """How long the stretches are, and the one that runs."""
    if not series.gaps_h:
        return f"No crash in {series.since_h:.1f} h."
    longest = max(series.gaps_h)
    than = "longer" if series.since_h > longest else "shorter"
    return (
        f"{series.since_h:.1f} h since the last crash: {than} than the longest stretch before it."
    )


APART = ", not comparable"


def capacity_table(series: CapacitySeries) -> Table:
    """Charge number, capacity, and its share of rated where that is known."""
    rated = series.rated_ah
    rows = tuple(
        (
            f"{at:g}",
            f"{amounts.charge(ah)}{APART if number in series.apart else ''}",
            amounts.share(ah / rated) if rated else "",
        )
        for number, (at, ah) in enumerate(series.points)
    )
    return ("charge", "capacity", "of rated"), rows


def resistance_table(series: ResistanceSeries) -> Table:
    """One row a reading of all cells, one column a cell."""
    columns = ("charge", *(f"cell {number}" for number in range(1, len(series.cells) + 1)))
    rows = tuple(
        (
            f"{read[0][0]:g}{APART if read[0][0] in series.apart else ''}",
            *(f"{ohm * 1000:.2f} mΩ" for _, ohm in read),
        )
        for read in zip(*series.cells, strict=True)
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
