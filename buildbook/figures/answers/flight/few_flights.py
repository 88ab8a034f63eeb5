"""How long a pack lasts by the first flights, too few for a rate: by the most that one drew.

It never lengthens a time by theory. Where the log draws more than theory thinks, it shortens it.
"""

from collections.abc import Sequence

from buildbook.basis import amounts
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.flight.prediction import UNFLOWN_SHARE, power_spread, reserve_words
from buildbook.figures.answers.flight.rates import (
    MAH_PER_MINUTE,
    SINCE_CHANGE,
    before_change,
    flights_with_charge,
    flown_alike,
    lately,
    loaded_apart,
    logged,
)
from buildbook.figures.answers.gathering import measured, number
from buildbook.figures.answers.packs.packs import capacity, nominal, reserve
from buildbook.figures.answers.working import by_method, given_value
from buildbook.hangar.time_in_service import LEAST_FITTED
from buildbook.report.figure import Figure
from buildbook.report.history import FlightDone
from buildbook.report.state import ItemNow

HIGHEST, COUNT = "highest draw, mAh a minute", "flights with a charge"
FEW = by_method(
    "of one to three flights with a charge: usable charge over the highest current flown; low at "
    f"{UNFLOWN_SHARE:.0%} more, high at {UNFLOWN_SHARE:.0%} less than the lowest",
    "own",
)


def few_time(craft: Craft, pack: ItemNow) -> Figure | None:
    """The time in s by the highest draw of few flights since the last change, or of few at all.

    None where there is no flight with a charge, or enough of them for a rate.
    Lacking: the pack's capacity is not known.
    """
    flights = few_flights(craft, pack)
    if not 0 < len(flights) < LEAST_FITTED:
        return None
    most = max(flights, key=draw_a)
    most_a, least_a = draw_a(most), min(map(draw_a, flights))
    size, kept = capacity(pack), reserve(craft.keeper)
    usable_as = number(size) * (1 - number(kept)) * 3600
    other = {HIGHEST: most_a * MAH_PER_MINUTE, COUNT: float(len(flights))}
    return given_value(
        "flight_time",
        usable_as / most_a,
        unit="s",
        way=FEW,
        of=pack.tag,
        low=usable_as / (most_a * (1 + UNFLOWN_SHARE)),
        high=usable_as / (least_a * (1 - UNFLOWN_SHARE)),
        inputs=(
            size,
            kept,
            *logged(flights),
            measured("highest current flown", most_a, "A", most.place),
            power_spread(),
        ),
        other=other,
        in_verdict=tuple(other),
        notes=(
            *loaded_apart(flights, lately(craft, flown_alike(craft, craft.now.flights, pack))),
            *before_change(craft, flights),
            reserve_words(craft),
        ),
    )


def is_by_few(figure: Figure) -> bool:
    """Whether a time is by few flights: then its draw is known, its rate not."""
    return HIGHEST in figure.other


def few_words(craft: Craft, pack: ItemNow, figure: Figure) -> str:
    """What such a time rests on: ``by the highest draw of 3 flights so far, 229 mAh a minute``."""
    flights = round(figure.other[COUNT])
    draw = f"{figure.other[HIGHEST]:.0f} mAh a minute"
    when = SINCE_CHANGE if len(flights_with_charge(craft, pack)) > flights else "so far"
    which = "draw" if flights == 1 else "highest draw"
    return f"by the {which} of {amounts.count('flight', flights)} {when}, {draw}"


def few_watts(pack: ItemNow, figure: Figure) -> float:
    """The power in W that the low end of such a time is planned at, at the nominal voltage."""
    amps = figure.other[HIGHEST] / MAH_PER_MINUTE * (1 + UNFLOWN_SHARE)
    return amps * number(nominal(pack))


def few_flights(craft: Craft, pack: ItemNow) -> Sequence[FlightDone]:
    """Those with a charge since the last change, or all where there is none since."""
    return [one for one in lately(craft, flights_with_charge(craft, pack)) if one.motor_s > 0]


def draw_a(flight: FlightDone) -> float:
    """The current in A of a flight that says its charge, while the motor ran."""
    return (flight.row.used_ah or 0.0) * 3600 / flight.motor_s
