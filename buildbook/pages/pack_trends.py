"""The trends of a pack as series for the charts, and the charts with their tables."""

import re
from collections.abc import Iterator

import msgspec
from markupsafe import Markup

from buildbook.drawings.chart_tables import capacity_table, resistance_table
from buildbook.records.programmes import LimitRule
from buildbook.report.figure import Answers, Figure
from buildbook.report.plans import Table
from buildbook.report.reports import Reports
from buildbook.report.series import CapacitySeries, ResistanceSeries
from buildbook.report.state import ItemNow

_ODD = re.compile(r"cell (\d+) stands out")

FEWEST = 2
"""One reading makes no trend."""


class Chart(msgspec.Struct, frozen=True, kw_only=True):
    """A chart, what it is of, and the table that says the same."""

    heading: str
    drawing: Markup
    caption: str
    table: Table


def charts(reports: Reports, pack: ItemNow, answers: Answers) -> Iterator[Chart]:
    """Capacity and resistance over the charges of a pack, where there is enough to draw."""
    capacity = capacity_series(reports, pack, answers)
    resistance = resistance_series(reports, pack, answers)
    if not (capacity or resistance):
        return
    from buildbook.drawings.charts import capacity_chart, resistance_chart  # slow to import

    if capacity:
        yield Chart(
            heading="Capacity",
            drawing=capacity_chart(capacity, "capacity"),
            caption=f"Measured capacity of {pack.tag} over its charges.",
            table=capacity_table(capacity),
        )
    if resistance:
        yield Chart(
            heading="Resistance of the cells",
            drawing=resistance_chart(resistance, "resistance"),
            caption=f"Resistance of each cell of {pack.tag}, charge by charge.",
            table=resistance_table(resistance),
        )


def capacity_series(reports: Reports, pack: ItemNow, answers: Answers) -> CapacitySeries | None:
    """Measured capacities with the limit of the keeper, and the forecast where there is one.

    The forecast is drawn from the newest reading to the charge at which the limit is expected,
    its band to the early and late end of that interval.
    """
    points = tuple((float(done.charges), done.measured_ah) for done in pack.capacities)
    if len(points) < FEWEST:
        return None
    rated = pack.spec.capacity_ah
    share = reports.hangar.ledger.keeper.pack_end_of_life_share
    limit = rated * share if rated is not None and share is not None else None
    forecast = answers.find("pack_end_of_life")
    line: tuple[tuple[float, float], ...] = ()
    band: tuple[tuple[float, float, float], ...] = ()
    at, now = points[-1]
    if limit is not None and forecast is not None and forecast.value and forecast.value > at:
        line = ((at, now), (forecast.value, limit))
        if forecast.low is not None and forecast.high is not None:
            band = _band(at, now, limit, max(forecast.low, at), forecast.high)
    return CapacitySeries(
        tag=pack.tag, points=points, line=line, band=band, limit_ah=limit, rated_ah=rated
    )


def _band(
    at: float, now: float, limit: float, early: float, late: float
) -> tuple[tuple[float, float, float], ...]:
    """Charge, low and high between the straight lines to the early and the late end."""

    def on_line(end: float, charge: float) -> float:
        return limit if charge >= end else now + (limit - now) * (charge - at) / (end - at)

    steps = [at + (late - at) * step / 12 for step in range(13)]
    return tuple((charge, on_line(early, charge), on_line(late, charge)) for charge in steps)


def resistance_series(reports: Reports, pack: ItemNow, answers: Answers) -> ResistanceSeries | None:
    """Resistance of each cell by the number of the charge; the limit of the programme.

    Readings that several packs shared are left out: they belong to none of them.
    """
    read = [
        (float(number), charge.resistance_ohm)
        for number, charge in enumerate(pack.charges, 1)
        if charge.resistance_ohm and charge.packs_together == 1
    ]
    if len(read) < FEWEST:
        return None
    cells = min(len(values) for _, values in read)
    share = _resistance_share(reports, pack)
    return ResistanceSeries(
        tag=pack.tag,
        cells=tuple(tuple((at, values[cell]) for at, values in read) for cell in range(cells)),
        limit_ohm=None if share is None else share * min(read[0][1][:cells]),
        odd_cell=_odd_cell(answers.find("pack_resistance"), cells),
    )


def _odd_cell(figure: Figure | None, cells: int) -> int | None:
    """The cell that the verdict names: ``cell 2 stands out: +27 % against the others``."""
    found = _ODD.match(figure.verdict or "") if figure else None
    number = int(found.group(1)) if found else 0
    return number if 1 <= number <= cells else None


def _resistance_share(reports: Reports, pack: ItemNow) -> float | None:
    for standing in reports.work.packs:
        for row in standing.rows if standing.tag == pack.tag else ():
            if isinstance(row.rule, LimitRule) and row.rule.cell_resistance_share:
                return row.rule.cell_resistance_share
    return None
