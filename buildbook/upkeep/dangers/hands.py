"""Propellers, their nuts, spins and plans that contradict each other.

The hand of a propeller is seen from where its thrust goes. On a multirotor that is above, as the
spin is, so the two must be equal. On an aeroplane it is ahead, while the spin is seen from behind,
so they must differ, tractor or pusher. Plane geometry, no source.

A nut must tighten against the turn: seen from its side a right-hand thread wants a motor that turns
ccw, a left-hand one cw. It sits where the spin is seen from, above a rotor, but below on the lower
one of a pair; of an aeroplane it sits ahead, behind only of a pusher. Mechanics, no source.
"""

from collections import Counter
from collections.abc import Iterator, Sequence

from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import Lacking
from buildbook.figures.laws.airframe.allocation import (
    allocation_rank,
    hover_thrust_shares,
    spin_sum,
)
from buildbook.records.layouts import LAYOUTS, tier_of
from buildbook.records.row_names import PROPELLER_FIT, SPIN_DIRECTIONS
from buildbook.report.state import AircraftNow, Fitted, Hangar, ItemNow
from buildbook.report.upkeep.findings import NoYaw, NutAgainst, UnlikePart, WrongHand
from buildbook.report.upkeep.work import Because, Row
from buildbook.upkeep.dangers.danger_rows import Ask, danger_row

_FIT = Ask(
    name=PROPELLER_FIT,
    what="Unplug the pack. Fit a propeller of the other hand, or correct the records where they are"
    " wrong; then pull at each one.",
    stage="propellers on",
    propellers="on",
)
_FIT_WINGED = Ask(
    name=PROPELLER_FIT,
    what="Unplug the pack. A hand is seen from ahead, a spin from behind: fit a propeller of the"
    " other hand, or correct the records where they are wrong; then pull at each one.",
    stage="propellers on",
    propellers="on",
)
_SPIN = Ask(
    name=SPIN_DIRECTIONS,
    what="Change the planned spins: with these, yaw cannot be controlled apart from roll and"
    " pitch.",
    stage="plugged",
)
_UNLIKE = Ask(
    name="unlike-parts",
    what="Unplug the pack. Fit one like the others, or correct the records; sure: true on its spec"
    " says that it is meant.",
    stage="unplugged",
)
OTHER_HAND = {"cw": "ccw", "ccw": "cw"}


def _turning(
    hangar: Hangar, aircraft: AircraftNow, kind: str
) -> Iterator[tuple[str, str, Fitted, ItemNow]]:
    """Each station with a planned spin and an item of that kind: both, and how it is fitted."""
    for station in aircraft.motor_stations:
        plan, fitted = aircraft.stations.get(station), aircraft.at(station, kind)
        item = hangar.item_at(aircraft, station, kind)
        if plan is not None and plan.spin is not None and fitted is not None and item is not None:
            yield station, plan.spin, fitted, item


def hand_rows(hangar: Hangar, aircraft: AircraftNow) -> Iterator[Row]:
    """A failed fit for each propeller whose hand contradicts the spin planned at its station."""
    hovers = aircraft.hovers
    for station, spin, fitted, item in _turning(hangar, aircraft, "propeller"):
        hand = item.spec.hand
        wanted = spin if hovers else OTHER_HAND[spin]
        if hand is None or hand == wanted:
            continue
        because = Because(
            why="hand",
            on=fitted.since,
            place=fitted.place,
            station=station,
            found=WrongHand(tag=item.tag, hand=hand, wanted=wanted),
        )
        ask = _FIT if hovers else _FIT_WINGED
        yield danger_row(aircraft, ask, because, fitted.place, grounds=hovers)


def rank_rows(hangar: Hangar, aircraft: AircraftNow) -> Iterator[Row]:
    """Failed spin directions everywhere, where the plan leaves no yaw and nothing else gives it."""
    craft = Craft(hangar, aircraft.slug)
    if not craft.hovers or craft.yaw_by:
        return
    try:
        places, spins = craft.rotor_places(), craft.spins()
        rank = allocation_rank(places, spins)
    except (Lacking, ValueError):
        return
    if rank >= 4 and _hovers_level(places, spins):
        return
    for station in aircraft.motor_stations:
        place = craft.spin_place(station)
        because = Because(why="plan", place=place, station=station, found=NoYaw(rank=rank))
        yield danger_row(aircraft, _SPIN, because, place, grounds=True)


LEAST_SHARE = 0.02
"""Of the weight; a rotor that carries less in a level hover has nothing to give way with."""


def _hovers_level(places: Sequence[tuple[float, float]], spins: Sequence[int]) -> bool:
    """Whether its rotors can carry it without turning it, the weight in the middle of them."""
    if len(spins) % 2 or spin_sum(spins) == 0:
        return True
    middle = (
        sum(forward for forward, _ in places) / len(places),
        sum(right for _, right in places) / len(places),
    )
    try:
        return min(hover_thrust_shares(places, spins, 1.0, middle)) > LEAST_SHARE
    except ValueError:
        return False


def unlike_rows(hangar: Hangar, aircraft: AircraftNow) -> Iterator[Row]:
    """The one motor or propeller of a multirotor that is unlike all the others of its level.

    By speed constant and by size; of coaxial pairs the upper ones and the lower ones apart.
    """
    if not aircraft.hovers:
        return
    tiers: dict[str, list[str]] = {}
    for station in aircraft.motor_stations:
        tiers.setdefault(tier_of(station), []).append(station)
    for stations in tiers.values():
        for kind in ("motor", "propeller"):
            yield from _unlike(hangar, aircraft, stations, kind)


def _unlike(hangar: Hangar, aircraft: AircraftNow, stations: list[str], kind: str) -> Iterator[Row]:
    read = {
        station: said
        for station in stations
        if (item := hangar.item_at(aircraft, station, kind)) is not None
        and (said := _measure(item)) is not None
    }
    counts = Counter(read.values())
    if len(read) < 3 or len(counts) != 2 or 1 not in counts.values():
        return
    (most, _), (odd, _) = counts.most_common()
    station = next(one for one, said in read.items() if said == odd)
    item, fitted = hangar.item_at(aircraft, station, kind), aircraft.at(station, kind)
    if item is None or fitted is None or item.spec.sure:
        return
    found = UnlikePart(tag=item.tag, kind=kind, station=station, found=odd, others=most)
    because = Because(why="unlike", place=fitted.place, station=station, found=found)
    yield danger_row(aircraft, _UNLIKE, because, fitted.place, grounds=False)


def _measure(item: ItemNow) -> str | None:
    """By what motors, or propellers, must be alike: ``870 rpm/V``, ``11x4.5``."""
    if item.spec.size is not None:
        return item.spec.size.written
    kv_rpm_v = item.spec.kv_rpm_v
    return None if kv_rpm_v is None else f"{kv_rpm_v:g} rpm/V"


_NUT = Ask(
    name="propeller-nut",
    what="Unplug the pack. Does this nut tighten against the turn of its motor? Fit the other"
    " thread, or a locking nut, and look at it before each flight.",
)
_WANTS = {"right": "ccw", "left": "cw"}
PUSHERS = ("tail-motor",)


def nut_rows(hangar: Hangar, aircraft: AircraftNow) -> Iterator[Row]:
    """A row for each motor whose nut does not tighten as it turns; it grounds nothing."""
    for station, spin, fitted, motor in _turning(hangar, aircraft, "motor"):
        nut = motor.spec.nut
        if nut is None:
            continue
        seen = OTHER_HAND[spin] if _turned_round(aircraft, station) else spin
        if seen == _WANTS[nut]:
            continue
        because = Because(
            why="nut",
            on=fitted.since,
            place=fitted.place,
            tag=motor.tag,
            station=station,
            found=NutAgainst(tag=motor.tag, station=station, thread=nut, spin=seen),
        )
        yield danger_row(aircraft, _NUT, because, fitted.place, grounds=False)


def _turned_round(aircraft: AircraftNow, station: str) -> bool:
    """Whether the nut is on the other side than the one from which the spin is seen."""
    if aircraft.record.kind == "aeroplane":
        return station not in PUSHERS
    layout = LAYOUTS.get(aircraft.record.layout)
    stations = layout.stations if layout is not None else ()
    return any(one.name == station and one.tier == "lower" for one in stations)
