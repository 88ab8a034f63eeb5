"""Since when an aircraft has been what it is: the last change of what drives it or what it weighs.

A part that takes the place of one like it changes nothing: a new propeller of the same size, the
same motor refitted after a repair.
"""

from collections.abc import Iterator
from itertools import pairwise

from buildbook.records.parts import Spec
from buildbook.report.history import Stay
from buildbook.report.state import AircraftNow, Hangar, ItemNow

ALTERED = ("mass", "sundries")
PACKED = ("controller", "receiver", "sensor", "other")  # what weighs little and drives nothing


def since_change(hangar: Hangar, aircraft: AircraftNow) -> int:
    """The moment after which currents and times can be compared; -1: from the start."""
    moments = [
        event.seq
        for event in aircraft.events
        if event.event == "alteration" and event.subject in ALTERED
    ]
    moments += _changed_slots(hangar, aircraft)
    return max(moments, default=-1)


def _changed_slots(hangar: Hangar, aircraft: AircraftNow) -> Iterator[int]:
    """The last moment of each slot at which something unlike came, or went for good."""
    slots: dict[tuple[str, str], list[tuple[Stay, ItemNow]]] = {}
    for tag in aircraft.ever_fitted:
        item = hangar.items[tag]
        for stay in item.stays:
            if stay.aircraft == aircraft.slug and stay.kind not in PACKED:
                slots.setdefault((stay.station, stay.kind), []).append((stay, item))
    for held in slots.values():
        held.sort(key=lambda pair: pair[0].since_seq)
        changed = held[0][0].since_seq
        for (_, before), (stay, after) in pairwise(held):
            if _works_as(before.spec) != _works_as(after.spec):
                changed = stay.since_seq
        gone = held[-1][0].until_seq
        yield changed if gone is None else max(changed, gone)


def _works_as(spec: Spec) -> object:
    """What makes two parts of a kind alike in flight: of a propeller its size, not its hand."""
    if spec.kind == "propeller":
        return None if spec.size is None else (spec.size.diameter_m, spec.size.pitch_m)
    return spec.spec
