"""What is wrong with a layout as drawn: hands, pairs and discs. Plane geometry only.

Whether spins balance as a whole is a figure (`rotation_balance`), not seen here: the caller adds
it to the plan as a fault.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations

from buildbook.records.layouts import WINGED
from buildbook.report.drawn.plans import Fault, LayoutPlan, StationPlan
from buildbook.words.measures.lengths import length_words

_TOUCHING_M = 0.0005


def layout_faults(plan: LayoutPlan) -> tuple[Fault, ...]:
    """Faults found in the plan, then those given with it; each once.

    On an aeroplane the hand is not judged: its spin is seen from behind, the hand from above.
    """
    found = (
        *_seen_otherwise(plan),
        *_wrong_hands(plan),
        *_twin_spins(plan),
        *_overlaps(plan),
        *plan.faults,
    )
    first: dict[tuple[str, frozenset[str]], Fault] = {}
    for fault in found:
        key = fault.words if fault.kind == "other" else fault.kind
        first.setdefault((key, frozenset(fault.stations)), fault)
    return tuple(first.values())


def _seen_otherwise(plan: LayoutPlan) -> Iterator[Fault]:
    for station in plan.stations:
        if station.otherwise:
            words = f"{station.name}: seen to turn {station.seen}, planned {station.spin}"
            yield Fault(kind="seen-otherwise", stations=(station.name,), words=words)


def _wrong_hands(plan: LayoutPlan) -> Iterator[Fault]:
    if plan.layout in WINGED:
        return
    for station in plan.stations:
        if station.spin and station.hand and station.spin != station.hand:
            words = f"{station.name}: {station.hand} propeller, motor turns {station.spin}"
            yield Fault(kind="wrong-hand", stations=(station.name,), words=words)


def _twin_spins(plan: LayoutPlan) -> Iterator[Fault]:
    """Neighbours of a four-station ring, or a coaxial pair, that turn the same way."""
    singles = [station for station in plan.stations if station.tier == "single"]
    pairs: list[tuple[StationPlan, StationPlan]] = []
    if plan.layout in ("quad-x", "quad-plus") and len(singles) == 4:
        ring = sorted(singles, key=lambda at: math.atan2(at.right_m, at.forward_m))
        pairs += zip(ring, (*ring[1:], ring[0]), strict=True)
    for one, other in combinations(plan.stations, 2):
        if one.arm == other.arm and {one.tier, other.tier} == {"upper", "lower"}:
            pairs.append((one, other))
    for one, other in pairs:
        if one.spin and one.spin == other.spin:
            words = f"{one.name} and {other.name} both turn {one.spin}"
            yield Fault(kind="twin-spins", stations=(one.name, other.name), words=words)


def _overlaps(plan: LayoutPlan) -> Iterator[Fault]:
    if not plan.to_scale or plan.layout in WINGED:
        return
    for one, other in combinations(plan.stations, 2):
        if one.tier != other.tier or not (one.propeller_m and other.propeller_m):
            continue
        apart = math.hypot(one.forward_m - other.forward_m, one.right_m - other.right_m)
        short_m = (one.propeller_m + other.propeller_m) / 2 - apart
        if short_m > _TOUCHING_M:
            words = f"discs of {one.name} and {other.name} overlap by {length_words(short_m)}"
            yield Fault(kind="overlap", stations=(one.name, other.name), words=words)
