"""What flying costs in parts: for the owner only."""

from buildbook.basis import amounts
from buildbook.figures.answers.craft import NOT_FLOWN, Craft
from buildbook.figures.answers.gathering import Lacking, measured, number
from buildbook.figures.answers.packs.packs import end_of_life
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import by_method, given_value
from buildbook.records.parts import GONE
from buildbook.report.figure import Figure, Input
from buildbook.report.packs.like_conditions import like_capacities
from buildbook.report.state import ItemNow

WAY = by_method(
    "prices of parts scrapped or retired here, and of packs by their wear and their share of "
    "flights here, over the hours in the log",
    "own",
)


def operating_cost(craft: Craft) -> Figure:
    """Cost of worn parts for each hour flown, in the currency of the hangar."""
    currency = craft.keeper.currency
    if currency is None:
        raise Lacking("no currency is recorded: write 'currency' in hangar.yaml", craft.home)
    hours = craft.now.tally.total.duration_s / 3600
    if hours <= 0:
        raise Lacking(NOT_FLOWN, craft.home)
    inputs: list[Input] = []
    unpriced: list[str] = []
    total = 0.0
    for tag, item in sorted(craft.hangar.items.items()):
        worn = _worn_here(craft, item)
        if worn <= 0:
            continue
        price = item.item.price
        if price is None or price.currency != currency:
            unpriced.append(tag)
            continue
        total += price.amount * worn
        name = f"price of {tag}, {amounts.fixed(100 * worn, 0)} % of it worn here"
        inputs.append(measured(name, price.amount, currency, item.item.place("price")))
    if not inputs:
        raise Lacking("no part worn here has a price: write 'price' in the items", craft.home)
    flown = measured("hours in the log", hours, "h", craft.now.flights[-1].place)
    return given_value(
        "operating_cost",
        total / hours,
        unit="count",
        way=WAY,
        inputs=(*inputs, flown),
        verdict=f"{amounts.money(total / hours, currency)} an hour"
        + (" at least" if unpriced else ""),
        notes=(f"worn without a price: {', '.join(unpriced)}",) if unpriced else (),
        other={f"together, {currency}": total},
        in_verdict=("value",),
    )


def _worn_here(craft: Craft, item: ItemNow) -> float:
    """The share of an item that this aircraft has worn."""
    gone = item.state.state in GONE
    if not item.is_pack:
        here = bool(item.stays) and item.stays[-1].aircraft == craft.slug
        return 1.0 if gone and here else 0.0
    if not item.flights:
        return 0.0
    flown = sum(flight.aircraft == craft.slug for flight in item.flights)
    share = flown / item.counters.flights  # those before the log wore it as well
    return share * (1.0 if gone else _wear(craft, item))


def _wear(craft: Craft, pack: ItemNow) -> float:
    """How much of the capacity that a pack may lose is gone."""
    done = like_capacities(pack).alike
    share = pack.share_of_rated_in(done[-1]) if done else None
    may_lose = 1 - number(end_of_life(craft.keeper))
    if share is None or may_lose <= 0:
        return 0.0
    return min(1.0, max(0.0, (1 - share) / may_lose))


FIGURES = (
    FigureSpec(
        name="operating_cost",
        title="Cost",
        line="Parts and packs used up, by the hour of flying.",
        about="Parts worn for each hour flown; for the owner only.",
        topic="Time in service",
        unit="count",
        of_aircraft=operating_cost,
        methods=(WAY,),
        held_by=("tests/figures/answers/test_log_and_packs.py",),
    ),
)
