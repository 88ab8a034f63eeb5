"""The trends of a pack as series for the charts."""

from buildbook.figures.answers.packs.health import charges_by
from buildbook.records.programmes import LimitRule
from buildbook.report.drawn.series import CapacitySeries, ResistanceSeries
from buildbook.report.figure import A_CHARGE
from buildbook.report.packs.like_conditions import (
    like_capacities,
    like_resistances,
    resistances,
    resistances_at,
)
from buildbook.report.state import ItemNow
from buildbook.reporting.whole import Whole

FEWEST = 2
"""One reading makes no trend."""


def capacity_trend(whole: Whole, tag: str) -> CapacitySeries | None:
    """Measured capacities with the limit of the keeper, and the forecast where there is one.

    The forecast is drawn from the newest reading to the charge at which the limit is expected,
    its band to the early and late end of that interval.
    """
    pack, answers = whole.hangar.items[tag], whole.reports.figures_of_item(tag)
    counts = charges_by(pack, [done.seq for done in pack.capacities])
    points = tuple(
        (float(count), done.measured_ah)
        for count, done in zip(counts, pack.capacities, strict=True)
    )
    if len(points) < FEWEST:
        return None
    rated = pack.spec.capacity_ah
    share = whole.hangar.ledger.keeper.pack_end_of_life_share
    limit = rated * share if rated is not None and share is not None else None
    forecast = answers.find("pack_end_of_life")
    line: tuple[tuple[float, float], ...] = ()
    band: tuple[tuple[float, float, float], ...] = ()
    change = answers.find("pack_capacity", A_CHARGE)
    alike = like_capacities(pack).alike
    at, now = float(charges_by(pack, [alike[-1].seq])[0]), alike[-1].measured_ah
    if limit is not None and forecast is not None and forecast.value and forecast.value > at:
        line = ((at, now), (forecast.value, limit))
        if forecast.low is not None and forecast.high is not None:
            band = _band(at, now, limit, max(forecast.low, at), forecast.high)
    return CapacitySeries(
        tag=pack.tag,
        points=points,
        line=line,
        band=band,
        limit_ah=limit,
        rated_ah=rated,
        apart=tuple(at for at, done in enumerate(pack.capacities) if done not in alike),
        change_ah=None if change is None else change.value,
        without_storage=_has_stored(pack),
    )


def _band(
    at: float, now: float, limit: float, early: float, late: float
) -> tuple[tuple[float, float, float], ...]:
    """Charge, low and high between the straight lines to the early and the late end."""

    def on_line(end: float, charge: float) -> float:
        return limit if charge >= end else now + (limit - now) * (charge - at) / (end - at)

    steps = [at + (late - at) * step / 12 for step in range(13)]
    return tuple((charge, on_line(early, charge), on_line(late, charge)) for charge in steps)


def resistance_trend(whole: Whole, tag: str) -> ResistanceSeries | None:
    """Resistance of each cell by the number of the charge; the limit of the programme.

    Readings that several packs shared are left out: they belong to none of them.
    The limit is that of the first reading under like conditions.
    """
    pack, answers = whole.hangar.items[tag], whole.reports.figures_of_item(tag)
    read = [(float(number), charge.resistance_ohm) for number, charge in resistances(pack)]
    likes = like_resistances(pack)
    if len(read) < FEWEST:
        return None
    cells = min(len(values) for _, values in read)
    share = _resistance_share(whole, pack)
    figure = answers.find("pack_resistance")
    first = resistances_at(pack, likes.alike[0][1], likes.alike[-1][1].temperature_k)
    return ResistanceSeries(
        tag=pack.tag,
        cells=tuple(tuple((at, values[cell]) for at, values in read) for cell in range(cells)),
        limit_ohm=None if share is None else share * min(first[:cells]),
        odd_cell=figure.odd if figure and figure.odd and figure.odd <= cells else None,
        apart=tuple(float(number) for (number, _), _ in likes.unlike),
        with_storage=_has_stored(pack),
    )


def _has_stored(pack: ItemNow) -> bool:
    return any(charge.to == "storage" for charge in pack.charges)


def _resistance_share(whole: Whole, pack: ItemNow) -> float | None:
    for standing in whole.work.packs:
        for row in standing.rows if standing.tag == pack.tag else ():
            if isinstance(row.rule, LimitRule) and row.rule.cell_resistance_share:
                return row.rule.cell_resistance_share
    return None
