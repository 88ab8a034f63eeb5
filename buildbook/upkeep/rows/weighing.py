"""What has changed in mass since the aircraft stood on the scales."""

import datetime
from typing import NamedTuple

from buildbook.basis.place import Place
from buildbook.figures.answers.mass.masses import ON_THE_GROUND
from buildbook.report.history import Recorded, Weighing
from buildbook.report.state import AircraftNow, Hangar

PASSES = 0.02
"""Weigh again when the unweighed sum passes this share. Common practice, no source."""


class Unweighed(NamedTuple):
    """The signed sum of changes since a weighing, and the newest of them."""

    mass_kg: float
    uid: str
    on: datetime.date
    place: Place


def unweighed(hangar: Hangar, aircraft: AircraftNow, weighing: Weighing) -> Unweighed | None:
    """The change since a weighing, where it passes 2 % of what was weighed; compared in mg.

    Alterations that name a mass, and items that went in or came out and have one. An item
    without a mass counts for nothing here: the mass budget lists it.
    """
    later = [change for change in aircraft.mass_changes if change.seq > weighing.seq]
    total_kg = sum(change.mass_kg for change in later)
    newest: Recorded | None = later[-1] if later else None
    now = {fitted.tag: fitted for fitted in aircraft.items()}
    for tag in sorted(now.keys() | weighing.fitted.keys()):
        item = hangar.items.get(tag)
        moved = (tag in now) - (tag in weighing.fitted)
        if item is not None and moved and item.spec.kind not in ON_THE_GROUND:
            total_kg += moved * (item.mass_kg or 0.0)
    if round(abs(total_kg) * 1e6) <= round(weighing.mass_kg * PASSES * 1e6):
        return None
    for event in reversed(aircraft.events):
        if event.seq <= weighing.seq or (newest is not None and event.seq <= newest.seq):
            break
        if event.event in ("fit", "remove"):
            newest = event
            break
    last = newest or weighing
    return Unweighed(total_kg, last.uid, last.on, last.place)
