"""What every recorded rating is asked to carry at full throttle, standing still."""

from collections.abc import Iterator
from typing import NamedTuple

from buildbook.basis.place import Place
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import Lacking
from buildbook.figures.answers.propulsion.full_throttle import full_throttle
from buildbook.figures.answers.propulsion.wiring import place_of_run, run_label, share_of_run
from buildbook.report.state import ItemNow

EQUAL = 0.001
"""A current so little above its rating, as a share of it, is the rating: both are rounded."""


class Load(NamedTuple):
    """A current in A against a rating in A that a record gives, never a usual one.

    what: ``ESC``, ``motor``, ``current sensor``, ``plug`` or ``pack``. at: its station, or the run
    of a plug. place: of what is fitted there, or of the run.
    """

    what: str
    at: str
    item: ItemNow | None
    place: Place
    current_a: float
    rating_a: float

    @property
    def margin(self) -> float:
        """Share of the rating that is left, below 0 where it is passed."""
        return 1 - self.current_a / self.rating_a

    @property
    def passed(self) -> bool:
        """Whether it carries more than its rating."""
        return self.margin < -EQUAL

    @property
    def name(self) -> str:
        """As a sentence names it: ``motor``, ``pack P-01``, ``plug from pack to distribution``."""
        if self.what == "plug":
            return f"plug from {self.at}"
        return f"pack {self.item.tag}" if self.what == "pack" and self.item else self.what


def loads(craft: Craft, pack: ItemNow) -> tuple[Load, ...]:
    """All of an aircraft on that pack. Lacking, ValueError: its current cannot be told."""
    return craft.once(f"loads with {pack.tag}", _loads, craft, pack)


def _loads(craft: Craft, pack: ItemNow) -> tuple[Load, ...]:
    full = full_throttle(craft, pack)
    points = full.points(full.values())
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
    total = full.amps(**full.values())
    return (
        *_of_parts(craft, at, total),
        *_of_plugs(craft, total),
        *_of_pack(pack, total),
    )


def _of_parts(craft: Craft, at: dict[str, float], total: float) -> Iterator[Load]:
    for here in craft.now.items():
        item = craft.hangar.items.get(here.tag)
        if item is None:
            continue
        spec = item.spec
        match spec.kind:
            case "esc":
                what, rating, current = "ESC", spec.continuous_current_a, at.get(here.station)
            case "motor":
                what, rating, current = "motor", spec.max_current_a, at.get(here.station)
            case "current_sensor":
                what, rating = "current sensor", spec.max_current_a
                current = at.get(here.station, total)
            case _:
                continue
        if rating is not None and current is not None:
            yield Load(what, here.station, item, here.place, current, rating)


def _of_plugs(craft: Craft, total: float) -> Iterator[Load]:
    for run in craft.now.wiring:
        if run.plug_max_current_a is None:
            continue
        try:
            share, _ = share_of_run(craft, run)
        except Lacking:
            continue
        place = place_of_run(craft, run)
        yield Load("plug", run_label(run), None, place, total * share, run.plug_max_current_a)


def _of_pack(pack: ItemNow, total: float) -> Iterator[Load]:
    capacity_ah, rate_c = pack.spec.capacity_ah, pack.spec.discharge_rate_c
    if capacity_ah is not None and rate_c is not None:
        yield Load("pack", "", pack, pack.spec.place(), total, capacity_ah * rate_c)
