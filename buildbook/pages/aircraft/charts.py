"""Series of the reports as charts, each with the table that says the same."""

from collections.abc import Iterator
from importlib import import_module

import msgspec
from markupsafe import Markup

from buildbook.report.drawn.plans import Table
from buildbook.report.reports import Reports
from buildbook.words.charts import (
    capacity_lead,
    capacity_table,
    consumption_lead,
    consumption_table,
    crash_gaps_table,
    crash_lead,
    flown_words,
    flying_by_month_table,
    month_words_of,
    predicted_flown_table,
    resistance_lead,
    resistance_table,
)


class Chart(msgspec.Struct, frozen=True, kw_only=True):
    """A chart, what it shows in a sentence, what it is of, and the table that says the same."""

    heading: str
    lead: str
    drawing: Markup
    caption: str
    table: Table


def load_charts(reports: Reports) -> None:
    """Import what draws them, once for all processes, where anything was flown."""
    if reports.flying_by_month() is not None:
        import_module("buildbook.drawings.charts.charts")


def charts_of_pack(reports: Reports, tag: str) -> Iterator[Chart]:
    """Capacity and resistance over the charges of a pack, where there is enough to draw."""
    capacity, resistance = reports.capacity_trend(tag), reports.resistance_trend(tag)
    if not (capacity or resistance):
        return
    from buildbook.drawings.charts.charts import capacity_chart, resistance_chart  # slow to import

    if capacity:
        yield Chart(
            heading="Capacity",
            lead=capacity_lead(capacity),
            drawing=capacity_chart(capacity, "capacity"),
            caption=f"Measured capacity of {tag} over its charges.",
            table=capacity_table(capacity),
        )
    if resistance:
        yield Chart(
            heading="Resistance of the cells",
            lead=resistance_lead(resistance),
            drawing=resistance_chart(resistance, "resistance"),
            caption=f"Resistance of each cell of {tag}, charge by charge.",
            table=resistance_table(resistance),
        )


def charts_of_aircraft(reports: Reports, slug: str) -> Iterator[Chart]:
    """Charge a minute and hours between crashes, where there is enough to draw."""
    charge, gaps = reports.charge_a_minute(slug), reports.between_crashes(slug)
    if not (charge or gaps):
        return
    from buildbook.drawings.charts.charts import (  # slow to import
        consumption_chart,
        crash_gaps_chart,
    )

    if charge:
        yield Chart(
            heading="Charge a minute",
            lead=consumption_lead(charge),
            drawing=consumption_chart(charge, "consumption"),
            caption="Each flight with its charge noted, since motor, propeller or mass changed "
            "last. The limits come from these flights themselves.",
            table=consumption_table(charge),
        )
    if gaps:
        yield Chart(
            heading="Hours between crashes",
            lead=crash_lead(gaps),
            drawing=crash_gaps_chart(gaps, "crashes"),
            caption="Time flown up to each flight that ended in a crash, and since the last one.",
            table=crash_gaps_table(gaps),
        )


def chart_of_hangar(reports: Reports) -> Chart | None:
    """Flights of all aircraft by month."""
    series = reports.flying_by_month()
    if series is None:
        return None
    from buildbook.drawings.charts.charts import flying_by_month_chart  # slow to import

    return Chart(
        heading="Flying by month",
        lead=month_words_of(series),
        drawing=flying_by_month_chart(series, "flying"),
        caption="Flights of all aircraft together, the last two years at most.",
        table=flying_by_month_table(series),
    )


def chart_of_prediction(reports: Reports, slug: str) -> Chart | None:
    """Predicted against flown time."""
    series = reports.predicted_flown(slug)
    if series is None:
        return None
    from buildbook.drawings.charts.charts import predicted_flown_chart  # slow to import

    return Chart(
        heading="Predicted against flown",
        lead=flown_words(series),
        drawing=predicted_flown_chart(series, "flown"),
        caption=f"The newest {len(series.points)} flights with a charge noted: the time that "
        "theory gives for that charge in a hover, against the time flown. On the line, theory is "
        "right.",
        table=predicted_flown_table(series),
    )
