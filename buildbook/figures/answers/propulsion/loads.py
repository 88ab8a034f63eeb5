"""What every recorded rating is asked to carry at full throttle, and what the runs of wire are."""

import math
from collections.abc import Iterable, Iterator
from typing import Literal, NamedTuple

from buildbook.basis import amounts
from buildbook.basis.place import Place
from buildbook.figures.answers.craft import NO_STATION, Craft
from buildbook.figures.answers.gathering import Lacking
from buildbook.figures.answers.propulsion.full_throttle import full_throttle
from buildbook.hangar.packs.limits import takes
from buildbook.records.aircraft import Run, stations_at
from buildbook.report.state import ItemNow


def share_of_run(craft: Craft, run: Run) -> tuple[float, int]:
    """How much of the pack's current flows in a run, and how many like it there are.

    Lacking: no motor is seen behind it.
    """
    motors = len(craft.rotors)
    behind = motors_behind(craft, run)
    one = run.is_one_of_each
    if not behind and not one:
        raise Lacking(
            f"what flows from {run.label} is not known: no ESC or motor is behind it"
            + replaced(craft),
            place_of_run(craft, run),
        )
    if motors == 0:
        raise Lacking(NO_STATION, craft.home)
    return (1 / motors if one else len(behind) / motors), motors if one else 1


def motors_behind(craft: Craft, run: Run) -> frozenset[str]:
    """The motor stations that are fed through a run; none where nothing is seen behind it."""
    stations = {rotor.station for rotor in craft.rotors}
    onward: dict[str, list[str]] = {}
    for one in craft.now.wiring:
        onward.setdefault(one.start, []).append(one.end)
    seen: set[str] = set()
    reached: set[str] = set()
    ends = [run.end]
    while ends:
        end = ends.pop()
        if end in seen:
            continue
        seen.add(end)
        reached |= stations_at(end, stations)
        ends += onward.get(end, [])
    return frozenset(reached)


def replaced(craft: Craft) -> str:
    """Words for a keeper who wrote one run in an alteration and so lost the others."""
    if craft.now.places.get("wiring") == craft.now.record.place("wiring"):
        return ""
    return "; an alteration replaced the whole wiring: name every run there"


def place_of_run(craft: Craft, run: Run) -> Place:
    """Its line in aircraft.yaml, or of the alteration that wrote it."""
    return craft.where("wiring", run.line)


EQUAL = 0.001
"""A current so little above its rating, as a share of it, is the rating: both are rounded."""

LITTLE = 0.1
"""A margin under this share is told of. Common practice, no source."""


Rated = Literal[
    "ESC", "motor", "power of the motor", "current sensor", "plug", "regulator", "pack", "cells"
]
"""What of a part a rating is for."""


class Load(NamedTuple):
    """What is asked of a part against a rating that a record gives, never a usual one.

    at: its station, or the run of a plug. place: of what is fitted there, or of the run. asked,
    rating: in ``unit``: A, W, or the count of cells. fed_by: a pack with other cells than the part
    takes.
    """

    what: Rated
    at: str
    item: ItemNow | None
    place: Place
    asked: float
    rating: float
    unit: str = "A"
    fed_by: str = ""

    @property
    def margin(self) -> float:
        """Share of the rating that is left, below 0 where it is passed."""
        return 1 - self.asked / self.rating

    @property
    def passed(self) -> bool:
        """Whether it carries more than its rating, or other cells than it takes."""
        return bool(self.fed_by) or self.margin < -EQUAL

    @property
    def name(self) -> str:
        """As a sentence names it: ``motor``, ``pack P-01``, ``plug from pack to distribution``."""
        if self.what == "plug":
            return f"plug from {self.at}"
        return f"pack {self.item.tag}" if self.what == "pack" and self.item else self.what


def loads(craft: Craft, pack: ItemNow, supply_v: float | None = None) -> tuple[Load, ...]:
    """All of an aircraft at full throttle on that pack, at its nominal voltage or another.

    Lacking, ValueError: its current cannot be told.
    """
    return craft.once(f"loads with {pack.tag} at {supply_v}", _loads, craft, pack, supply_v)


def _loads(craft: Craft, pack: ItemNow, supply_v: float | None) -> tuple[Load, ...]:
    full = full_throttle(craft, pack)
    values = full.values()
    if supply_v is not None:
        values["supply_v"] = supply_v
    points = full.points(values)
    of_kind = {
        rotor.motor.spec.spec: point.current_a
        for rotor, point in zip(full.kinds, points, strict=True)
        if rotor.motor is not None
    }
    at = {
        rotor.station: of_kind[rotor.motor.spec.spec]
        for rotor in craft.rotors
        if rotor.motor is not None and rotor.motor.spec.spec in of_kind
    }
    total = full.amps(**values)
    found = (
        *_of_parts(craft, at, total, values["supply_v"]),
        *_of_plugs(craft, total),
        *_of_pack(pack, total),
        *constant_loads(craft, pack),
    )
    return tuple(one for one in found if 0 < one.rating < math.inf)


def steady_loads(craft: Craft, pack: ItemNow, amps: float, supply_v: float) -> tuple[Load, ...]:
    """What so many A of the pack ask of its parts, even on all motors. Servos are left out."""
    each = amps / len(craft.rotors) if craft.rotors else amps
    at = {rotor.station: each for rotor in craft.rotors}
    found = (
        *_of_parts(craft, at, amps, supply_v),
        *_of_plugs(craft, amps),
        *_of_pack(pack, amps),
    )
    return tuple(one for one in found if 0 < one.rating < math.inf)


def constant_loads(craft: Craft, pack: ItemNow) -> Iterator[Load]:
    """What does not come with the throttle: the cells of the pack, and servos on a regulator."""
    servos = 0.0
    regulators = []
    for here in craft.now.items():
        item = craft.hangar.items.get(here.tag)
        if item is None:
            continue
        if (
            not takes(item.spec, pack.spec)
            and item.spec.cells is not None
            and pack.spec.cells is not None
        ):
            has, most = pack.spec.cells.series, item.spec.cells.series_most
            yield Load("cells", here.station, item, here.place, has, most, "count", fed_by=pack.tag)
        if item.spec.kind == "servo":
            servos += item.spec.max_current_a or 0.0
        elif item.spec.kind == "regulator" and item.spec.max_current_a is not None:
            regulators.append((here, item, item.spec.max_current_a))
    if len(regulators) == 1 and servos > 0:
        here, item, rating = regulators[0]
        yield Load("regulator", here.station, item, here.place, servos, rating)


def _of_parts(craft: Craft, at: dict[str, float], total: float, supply_v: float) -> Iterator[Load]:
    for here in craft.now.items():
        item = craft.hangar.items.get(here.tag)
        if item is None:
            continue
        spec, own = item.spec, at.get(here.station)
        found: list[tuple[Rated, float | None, float | None, str]] = []
        match spec.kind:
            case "esc":
                # What it carries for seconds counts only where nothing else is recorded.
                rating = spec.continuous_current_a or spec.burst_current_a
                found = [("ESC", own, rating, "A")]
            case "motor":
                power = None if own is None else own * supply_v
                found = [
                    ("motor", own, spec.max_current_a, "A"),
                    ("power of the motor", power, spec.max_power_w, "W"),
                ]
            case "current_sensor":
                found = [("current sensor", own or total, spec.max_current_a, "A")]
        for what, asked, most, unit in found:
            if most is not None and asked is not None:
                yield Load(what, here.station, item, here.place, asked, most, unit)


def _of_plugs(craft: Craft, total: float) -> Iterator[Load]:
    for run in craft.now.wiring:
        if run.plug_max_current_a is None:
            continue
        try:
            share, _ = share_of_run(craft, run)
        except Lacking:
            continue
        place = place_of_run(craft, run)
        yield Load("plug", run.label, None, place, total * share, run.plug_max_current_a)


def _of_pack(pack: ItemNow, total: float) -> Iterator[Load]:
    capacity_ah, rate_c = pack.spec.capacity_ah, pack.spec.discharge_rate_c
    if capacity_ah is not None and rate_c is not None:
        yield Load("pack", "", pack, pack.spec.place(), total, capacity_ah * rate_c)


def unrated(found: Iterable[Load]) -> list[Rated]:
    """What has a rating as a rule and has none here."""
    known = {one.what for one in found}
    usual: tuple[Rated, ...] = ("ESC", "motor", "pack")
    unknown = [name for name in usual if name not in known]
    if "power of the motor" in known and "motor" in unknown:
        unknown.remove("motor")
    return unknown


def warned_of(margin: float) -> tuple[str, ...]:
    """What is said of a margin beside its number: that it is little, or none; else nothing."""
    if margin < -EQUAL:
        return ("past its rating",)
    words = f"less than the {amounts.share(LITTLE)} that is common practice"
    return (words,) if margin < LITTLE else ()
