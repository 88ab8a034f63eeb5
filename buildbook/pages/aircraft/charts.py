"""Series of the reports as charts, each with the table that says the same.

To draw one takes long, and so does the import of what draws. So a chart that was drawn before is
taken from the user's cache folder: found by its series, and by all of the program.
"""

import hashlib
from collections.abc import Iterator
from functools import cache
from importlib import import_module
from importlib.metadata import version
from pathlib import Path

import msgspec
from markupsafe import Markup

from buildbook import __version__
from buildbook.basis.cache_folder import (
    DIGEST_SIZE,
    keep_under,
    recalled,
    state_of_program,
    usual_folder,
)
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


_MOST_KEPT = 1000
"""Some ten kilobytes each; four or five an aircraft."""


def _drawn(name: str, series: msgspec.Struct, prefix: str) -> Markup:
    """A chart, by the name of what draws it."""
    digest = hashlib.blake2b(_what_draws(), digest_size=DIGEST_SIZE)
    digest.update(msgspec.msgpack.encode((name, prefix, series)))
    folder, file = usual_folder(), f"{digest.hexdigest()[:32]}.chart"
    kept = None if folder is None else recalled(folder, file, digest.digest())
    if kept is not None:
        return Markup(bytes(kept).decode())
    drawn: Markup = getattr(import_module("buildbook.drawings.charts.charts"), name)(series, prefix)
    if folder is not None:
        keep_under(folder, file, digest.digest(), drawn.encode(), _MOST_KEPT)
    return drawn


@cache
def _what_draws() -> bytes:
    libraries = ", ".join(version(name) for name in ("matplotlib", "numpy"))
    return f"{__version__}, {libraries}, ".encode() + state_of_program((Path(__file__).parents[2],))


def charts_of_pack(reports: Reports, tag: str) -> Iterator[Chart]:
    """Capacity and resistance over the charges of a pack, where there is enough to draw."""
    capacity, resistance = reports.capacity_trend(tag), reports.resistance_trend(tag)
    if capacity:
        yield Chart(
            heading="Capacity",
            lead=capacity_lead(capacity),
            drawing=_drawn("capacity_chart", capacity, "capacity"),
            caption=f"Measured capacity of {tag} over its charges.",
            table=capacity_table(capacity),
        )
    if resistance:
        yield Chart(
            heading="Resistance of the cells",
            lead=resistance_lead(resistance),
            drawing=_drawn("resistance_chart", resistance, "resistance"),
            caption=f"Resistance of each cell of {tag}, charge by charge.",
            table=resistance_table(resistance),
        )


def charts_of_aircraft(reports: Reports, slug: str) -> Iterator[Chart]:
    """Charge a minute and hours between crashes, where there is enough to draw."""
    charge, gaps = reports.charge_a_minute(slug), reports.between_crashes(slug)
    if charge:
        yield Chart(
            heading="Charge a minute",
            lead=consumption_lead(charge),
            drawing=_drawn("consumption_chart", charge, "consumption"),
            caption="Each flight with its charge noted, since motor, propeller or mass changed "
            "last. The limits come from these flights themselves.",
            table=consumption_table(charge),
        )
    if gaps:
        yield Chart(
            heading="Hours between crashes",
            lead=crash_lead(gaps),
            drawing=_drawn("crash_gaps_chart", gaps, "crashes"),
            caption="Time flown up to each flight that ended in a crash, and since the last one.",
            table=crash_gaps_table(gaps),
        )


def chart_of_hangar(reports: Reports) -> Chart | None:
    """Flights of all aircraft by month."""
    series = reports.flying_by_month()
    if series is None:
        return None
    return Chart(
        heading="Flying by month",
        lead=month_words_of(series),
        drawing=_drawn("flying_by_month_chart", series, "flying"),
        caption="Flights of all aircraft together, the last two years at most.",
        table=flying_by_month_table(series),
    )


def chart_of_prediction(reports: Reports, slug: str) -> Chart | None:
    """Predicted against flown time."""
    series = reports.predicted_flown(slug)
    if series is None:
        return None
    return Chart(
        heading="Predicted against flown",
        lead=flown_words(series),
        drawing=_drawn("predicted_flown_chart", series, "flown"),
        caption=f"The newest {len(series.points)} flights with a charge noted: the time that "
        "theory gives for that charge in a hover, against the time flown. On the line, theory is "
        "right.",
        table=predicted_flown_table(series),
    )
