"""The current that the log shows, fitted so that odd flights do not matter.

Flights with a payload and flights without one are never fitted together, nor those on packs of
another number of cells: for the same power a higher voltage takes less current.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import msgspec

from buildbook.basis import amounts
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.flight.cold import flown_cold
from buildbook.figures.answers.gathering import Lacking, measured, number
from buildbook.figures.answers.log.changes import since_change
from buildbook.figures.answers.packs.packs import capacity, nominal, reserve
from buildbook.figures.answers.working import LEVEL, by_method, finite_or_none, given_value
from buildbook.figures.laws.numbers import median
from buildbook.hangar.time_in_service import LEAST_FITTED, timed_alike
from buildbook.report.figure import Figure, Input, Name
from buildbook.report.history import FlightDone
from buildbook.report.state import ItemNow

if TYPE_CHECKING:
    from buildbook.figures.laws.statistics.robust import FittedRate

ENOUGH = 10  # flights with a charge from which on the log goes before the theory
NEWEST = 60  # flights that a rate of the aircraft is fitted to
MAH_PER_MINUTE = 1000 / 60  # in one ampere
SINCE_CHANGE = "since motor, propeller or mass changed"

FIT = by_method(
    "robust mean of charge over time, weighted by duration; odd flights lose their weight",
    "iteratively reweighted mean with the biweight; Maronna, Martin and Yohai, Robust Statistics",
    "fit_rate",
)
TIME = by_method(
    "usable charge over the current fitted to the log, with prediction limits",
    FIT.source,
    "forecast_time",
)


def flights_with_charge(craft: Craft, pack: ItemNow | None = None) -> tuple[FlightDone, ...]:
    """The newest flights on packs like this on which a charge was noted, oldest first.

    Those since the last change of propulsion or mass, where they are enough; else all.
    pack: None is that of the whole aircraft.
    """
    cells = _series(craft, pack)
    return craft.once(f"flights with charge, {cells}", _with_cells, craft, cells)


def _with_cells(craft: Craft, cells: int | None) -> tuple[FlightDone, ...]:
    return comparable(craft, _of_cells(craft, craft.now.flights, cells), ENOUGH)


def flown_alike(
    craft: Craft, flights: Sequence[FlightDone], pack: ItemNow | None = None
) -> Sequence[FlightDone]:
    """Those on packs with as many cells as this one; and those of which nobody knows the cells.

    pack: None is that of the whole aircraft.
    """
    return _of_cells(craft, flights, _series(craft, pack))


def _of_cells(
    craft: Craft, flights: Sequence[FlightDone], cells: int | None
) -> Sequence[FlightDone]:
    if cells is None:
        return flights
    return [one for one in flights if _flown_cells(craft, one) in (None, cells)]


def _flown_cells(craft: Craft, flight: FlightDone) -> int | None:
    items = craft.hangar.items
    found = (items[tag].spec.cells for tag in flight.row.packs if tag in items)
    return next((cells.series for cells in found if cells is not None), None)


def _series(craft: Craft, pack: ItemNow | None) -> int | None:
    if pack is None:
        pack = craft.pack if craft.packs else None
    return None if pack is None or pack.spec.cells is None else pack.spec.cells.series


def comparable(
    craft: Craft, among: Sequence[FlightDone], least: int = LEAST_FITTED
) -> tuple[FlightDone, ...]:
    """The newest of these that may be compared, oldest first.

    Those since the last change of propulsion or mass, where they are the least or more; else all.
    """
    everything = with_charge(among)
    alike = since_the_change(craft, everything)
    return (alike if len(alike) >= least else everything)[-NEWEST:]


def with_charge(flights: Sequence[FlightDone]) -> tuple[FlightDone, ...]:
    """The flights of which the charge used was written, as most are flown: loaded, or not.

    Where most of them, or enough to fit, say how long the motor ran, those alone: of the others
    nobody knows it. Motor time and time in the air are never fitted together.
    """
    found = _charged(flights)
    loaded = [flight for flight in found if flight.payload_kg]
    if 2 * len(loaded) >= len(found):  # when in doubt with the payload: that takes more
        return tuple(loaded)
    return tuple(flight for flight in found if not flight.payload_kg)


def _charged(flights: Sequence[FlightDone]) -> list[FlightDone]:
    return timed_alike([one for one in flights if one.row.used_ah and one.duration_s > 0])


def glides(craft: Craft) -> bool:
    """Whether its flights say how long the motor ran: then a pack gives motor time."""
    return craft.once("glides", _glides, craft)


def _glides(craft: Craft) -> bool:
    return _by_motor(comparable(craft, craft.now.flights, ENOUGH))


def _by_motor(flights: Sequence[FlightDone]) -> bool:
    return any(flight.motor_run_s for flight in flights)


def rate_figure(
    craft: Craft,
    flights: Sequence[FlightDone],
    among: Sequence[FlightDone],
    of: str | None,
    *,
    of_gains: bool = False,
) -> Figure:
    """The current flown on average, fitted to these flights. Lacking: too few of them.

    among: those that they were chosen from. of_gains: they are those of a gain set, which is not
    blamed where the aircraft was another then, or loaded.
    """
    rate = fit(craft, flights, of)
    words = f"{rate.current_a * MAH_PER_MINUTE:.0f} mAh a minute"
    changed, loaded = before_change(craft, flights), with_payload(flights)
    if of_gains and (changed or loaded):
        words += f"; {' and '.join((*changed, *loaded))}: not the gains alone"
        changed = loaded = ()
    return given_value(
        "flown_current",
        rate.current_a,
        unit="A",
        way=FIT,
        of=of,
        low=rate.low_a,
        high=rate.high_a,
        level=rate.level,
        basis="fitted",
        inputs=logged(flights),
        verdict=words,
        notes=(
            f"fitted to {'the newest ' if len(flights) == NEWEST else ''}{rate.flights} flights",
            *driven(flights, _of_their_time(craft, flights, among)),
            *loaded,
            *_left_apart(flights, _of_their_time(craft, flights, among)),
            *(_other_cells(craft, flights) if of is None or of_gains else ()),
            *flown_cold(flights, "the flights"),
            *_set_aside(rate.set_aside),
            *changed,
        ),
        other={"mAh a minute": rate.current_a * MAH_PER_MINUTE},
        in_verdict=("mAh a minute",),
    )


def since_the_change(craft: Craft, flights: Sequence[FlightDone]) -> tuple[FlightDone, ...]:
    """Those flown since motor, propeller or mass last changed."""
    since = craft.once("since the last change", since_change, craft.hangar, craft.now)
    return tuple(flight for flight in flights if flight.seq > since)


def lately(craft: Craft, flights: Sequence[FlightDone]) -> tuple[FlightDone, ...]:
    """Those since the last change, where there are any; else all."""
    return since_the_change(craft, flights) or tuple(flights)


def before_change(craft: Craft, flights: Sequence[FlightDone]) -> tuple[str, ...]:
    """Said where some of these flights were flown on what the aircraft no longer is."""
    early = len(flights) - len(since_the_change(craft, flights))
    if not early:
        return ()
    count = "all" if early == len(flights) else f"{early} of them"
    return (f"{count} flown before motor, propeller or mass last changed",)


def fitted_time(craft: Craft, pack: ItemNow, name: str, of: str) -> Figure:
    """Time in s until the reserve, from the flights on this pack if enough, else from all."""
    figure = craft.once(f"fitted time with {pack.tag}", _fitted_time, craft, pack)
    return msgspec.structs.replace(figure, name=name, of=of)


def _fitted_time(craft: Craft, pack: ItemNow) -> Figure:
    from buildbook.figures.laws.statistics.robust import forecast_time

    alike = flown_alike(craft, craft.now.flights, pack)
    of_all = flights_with_charge(craft, pack)
    own = tuple(one for one in of_all if pack.tag in one.row.packs)
    flights = own if len(own) >= ENOUGH else of_all
    rate = fit(craft, flights, None if len(alike) == len(craft.now.flights) else _cells_of(pack))
    size, kept = capacity(pack), reserve(craft.keeper)
    usable = number(size) * (1 - number(kept))
    found = forecast_time(rate, usable, level=LEVEL)
    words = "of this pack" if flights is own else "of all packs of this aircraft"
    among = [one for one in alike if pack.tag in one.row.packs] if flights is own else alike
    return given_value(
        "flown_time",
        found.expected,
        unit="s",
        way=TIME,
        of=pack.tag,
        low=found.low,
        high=finite_or_none(found.high),
        level=LEVEL,
        basis="fitted",
        inputs=(size, kept, *logged(flights)),
        notes=(
            f"fitted to {rate.flights} flights {words}",
            *driven(flights, _of_their_time(craft, flights, among)),
            *loaded_apart(flights, _of_their_time(craft, flights, among)),
            *(() if flights is own else _other_cells(craft, flights)),
            *flown_cold(flights, "the flights"),
            *_set_aside(rate.set_aside),
            *before_change(craft, flights),
        ),
    )


def flown_watts(craft: Craft, pack: ItemNow) -> Input:
    """The power in W as flown on packs like this, at the nominal voltage. Lacking: few flights."""
    among = flown_alike(craft, craft.now.flights, pack)
    figure = rate_figure(craft, flights_with_charge(craft, pack), among, None)
    volts = number(nominal(pack))
    return Input(
        called=Name("power as flown"),
        value=number_of(figure) * volts,
        unit="W",
        basis="fitted",
        place=figure.inputs[-1].place,
    )


def number_of(figure: Figure) -> float:
    """The value of a figure that has one."""
    return 0.0 if figure.value is None else figure.value


def fit(craft: Craft, flights: Sequence[FlightDone], of: str | None = None) -> FittedRate:
    """The rate of some flights. Lacking: they are too few; ValueError: the law refuses them.

    of: the pack or gain set that they were flown with, where it is not all of them.
    """
    from buildbook.figures.laws.statistics.robust import fit_rate

    if len(flights) < LEAST_FITTED:
        raise Lacking(
            f"flights with their charge so far{f', {of}' if of else ''}: {len(flights)}; it takes "
            f"{LEAST_FITTED}: write what each took, as 'used'",
            flights[-1].place if flights else craft.home,
        )
    return fit_rate(
        [flight.motor_s for flight in flights],
        [flight.row.used_ah or 0.0 for flight in flights],
        level=LEVEL,
    )


def logged(flights: Sequence[FlightDone]) -> tuple[Input, ...]:
    """How much was flown and used on these flights, with the newest line."""
    seconds = sum(flight.motor_s for flight in flights)
    used = sum(flight.row.used_ah or 0.0 for flight in flights)
    place = flights[-1].place if flights else None
    return (
        measured("flights in the log", len(flights), "count", place),
        measured(
            "time that the motor ran" if _by_motor(flights) else "time flown", seconds, "s", place
        ),
        measured("charge used", used, "Ah", place),
    )


def driven(flights: Sequence[FlightDone], among: Sequence[FlightDone]) -> tuple[str, ...]:
    """The note that a time is that of the motor, where the flights say how long it ran.

    among: those that they were chosen from.
    """
    if not _by_motor(flights):
        return ()
    silent = sum(not one.motor_run_s for one in among if one.row.used_ah)
    apart = f"{amounts.count('flight', silent)} without 'motor_run' left apart"
    words = "over the time that the motor ran, not the time in the air"
    return (words, apart) if silent else (words,)


def with_payload(flights: Sequence[FlightDone]) -> tuple[str, ...]:
    """The note that these flights carried one."""
    return ("flown with a payload",) if flights and flights[-1].payload_kg else ()


def loaded_apart(flights: Sequence[FlightDone], among: Sequence[FlightDone]) -> tuple[str, ...]:
    """Notes on the payload: that these carried one, and how many are left apart.

    among: those that they were chosen from.
    """
    return (*with_payload(flights), *_left_apart(flights, among))


def _left_apart(flights: Sequence[FlightDone], among: Sequence[FlightDone]) -> tuple[str, ...]:
    if not flights:
        return ()
    loaded = bool(flights[-1].payload_kg)
    apart = sum(bool(flight.payload_kg) != loaded for flight in _charged(among))
    words = f"{amounts.count('flight', apart)} with{'out a' if loaded else ' a'} payload left apart"
    return (words,) if apart else ()


def carried_kg(flights: Sequence[FlightDone]) -> float:
    """The payload of these flights in kg, the middle one; they all have one, or none has."""
    if not any(flight.payload_kg for flight in flights):
        return 0.0
    return median(flight.payload_kg or 0.0 for flight in flights)


def _cells_of(pack: ItemNow) -> str:
    return f"on packs of {amounts.cells(pack.spec.cells.series)}" if pack.spec.cells else ""


def _other_cells(craft: Craft, flights: Sequence[FlightDone]) -> tuple[str, ...]:
    """The note on the flights left apart, as their packs have more cells than these, or fewer."""
    known = {_flown_cells(craft, flight) for flight in flights} - {None}
    if not known:
        return ()
    found = [_flown_cells(craft, one) for one in craft.now.flights if one.row.used_ah]
    others = sorted({cells for cells in found if cells is not None} - known)
    apart = sum(cells in others for cells in found)
    packs = amounts.listed([amounts.cells(cells) for cells in others], "or")
    return (f"{amounts.count('flight', apart)} on packs of {packs} left apart",) if apart else ()


def _of_their_time(
    craft: Craft, flights: Sequence[FlightDone], among: Sequence[FlightDone]
) -> Sequence[FlightDone]:
    """Of those that flights were chosen from, the ones since the last change, if these are."""
    return among if before_change(craft, flights) else since_the_change(craft, among)


def _set_aside(count: int) -> tuple[str, ...]:
    return (f"odd flights without weight: {count}",) if count else ()
