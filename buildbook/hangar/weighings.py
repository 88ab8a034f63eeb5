"""Which weighings are believed: held against the one before, and the parts whose mass is known.

A slip of the unit is what is looked for. Thresholds are common practice, no source. An entry that
is sure is believed.
"""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from buildbook.basis import amounts
from buildbook.report.history import Weighing
from buildbook.report.state import AircraftNow, Hangar, ItemNow

MASS_FACTOR = 3
"""A weighing this many times what it should be, or this part of it, is a slip of the unit."""

BODIES = ("frame", "wing")
"""Without one of them the parts are not all that stands on the scales."""


class Doubted(NamedTuple):
    """A weighing, and what it is out of line with: the one before it, else its parts."""

    weighing: Weighing
    before: Weighing | None
    parts_kg: float

    @property
    def expected(self) -> str:
        """What would have been expected, in words."""
        if self.before is None:
            return f"its parts add up to {amounts.mass(self.parts_kg)}"
        return f"the last time {amounts.mass(self.before.mass_kg)}"


class Weighed(NamedTuple):
    """The weighings of an aircraft that are believed, oldest first, and those that are doubted.

    Of two that contradict each other neither is believed, unless parts or a third tell which.
    """

    believed: tuple[Weighing, ...]
    doubted: tuple[Doubted, ...]


def judged_weighings(hangar: Hangar, aircraft: AircraftNow) -> Weighed:
    """All of them, each held against the one before that is not doubted."""
    believed: list[Weighing] = []
    doubted: list[Doubted] = []
    last: Weighing | None = None
    vouched = False  # that the last of them is right, by more than itself
    for weighing in aircraft.weighings:
        parts_kg, whole = _parts_kg(hangar, aircraft, weighing)
        by_parts = _plausible(weighing.mass_kg, parts_kg, both=whole)
        sure = weighing.uid in hangar.sure
        alike = last is not None and _plausible(weighing.mass_kg, last.mass_kg, both=True)
        rival = bool(doubted) and _plausible(
            weighing.mass_kg, doubted[-1].weighing.mass_kg, both=True
        )
        if sure or (by_parts and (last is None or alike or (rival and not vouched))):
            believed.append(weighing)
            vouched = sure or (by_parts and whole) or alike or rival
            last = weighing
            continue
        against = last if last is not None and not alike else None
        doubted.append(Doubted(weighing, against, parts_kg))
        if against is not None and by_parts and not vouched and last in believed:
            believed.remove(last)
    return Weighed(tuple(believed), tuple(doubted))


class PackUnclear(NamedTuple):
    """A weighing off by about the mass of one pack: aboard and not named, or named and not aboard.

    apart_kg: what was weighed less its parts, the pack that is named among them.
    """

    weighing: Weighing
    parts_kg: float
    apart_kg: float
    pack: str


def unclear_packs(
    hangar: Hangar, aircraft: AircraftNow, believed: Iterable[Weighing]
) -> Iterator[PackUnclear]:
    """Those believed whose parts all have a mass; by the pack that explains the rest best."""
    for weighing in believed:
        parts_kg, whole = _parts_kg(hangar, aircraft, weighing)
        if not whole or weighing.uid in hangar.sure:
            continue
        apart_kg = weighing.mass_kg - parts_kg
        packs = {
            tag: item.mass_kg
            for tag, item in hangar.items.items()
            if item.is_pack and item.mass_kg and _may_be_aboard(aircraft, weighing, item)
        }
        near = [tag for tag, kg in packs.items() if kg and abs(abs(apart_kg) - kg) <= _LIKE * kg]
        if near and (apart_kg > 0) == (weighing.pack is None):
            yield PackUnclear(
                weighing,
                parts_kg,
                apart_kg,
                min(near, key=lambda tag: abs(abs(apart_kg) - (packs[tag] or 0.0))),
            )


_LIKE = 0.25
"""A difference is that of a pack within so much of its mass."""


def _may_be_aboard(aircraft: AircraftNow, weighing: Weighing, pack: ItemNow) -> bool:
    if weighing.pack is not None:
        return weighing.pack == pack.tag
    return pack.tag not in weighing.fitted and (not pack.flown_on or aircraft.slug in pack.flown_on)


def _plausible(weighed_kg: float, expected_kg: float, *, both: bool) -> bool:
    """Within a third and three times; ``both`` false: what is expected is only a part of it."""
    too_light = weighed_kg * MASS_FACTOR < expected_kg
    return not too_light and (not both or weighed_kg <= expected_kg * MASS_FACTOR)


def _parts_kg(hangar: Hangar, aircraft: AircraftNow, weighing: Weighing) -> tuple[float, bool]:
    """What the parts on the scales have, and whether all of them are known."""
    tags = [tag for tag in (*weighing.fitted, weighing.pack) if tag and tag not in weighing.without]
    masses = [hangar.items[tag].mass_kg if tag in hangar.items else None for tag in tags]
    sundries_kg = sum(sundry.mass_kg or 0.0 for sundry in aircraft.sundries)
    total_kg = sum(mass or 0.0 for mass in masses) + sundries_kg
    bodies = any(hangar.items[tag].spec.kind in BODIES for tag in tags if tag in hangar.items)
    return total_kg, bodies and None not in masses and total_kg > 0
