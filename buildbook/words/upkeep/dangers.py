"""Dangers of an aircraft, each a whole line: what is passed, and which part it is."""

from collections.abc import Callable, Mapping
from typing import Any

from buildbook.basis import amounts
from buildbook.report.upkeep.findings import (
    AlarmLow,
    Carries,
    NutAgainst,
    OverRated,
    PassedRating,
    RangeFell,
    SameMemory,
    ServosDraw,
    ServosFed,
    TooHeavy,
    Unbalanced,
    UnlikePart,
)
from buildbook.report.upkeep.pack_findings import CellsOutside
from buildbook.words.measures.days import Days
from buildbook.words.names import kind_word
from buildbook.words.upkeep.packs import cells_outside


def mass_found(found: TooHeavy) -> str:
    """``1240 g with P-01``."""
    with_pack = "" if found.pack is None else f" with {found.pack}"
    return f"{amounts.mass(found.mass_kg)}{with_pack}"


def ratings_found(found: OverRated) -> str:
    """Each rating that is passed: ``32 A at full throttle with P-01, more than 30 A``."""
    return "; ".join(_passed(one) for one in found.passed)


def _too_heavy(found: TooHeavy, _days: Days) -> str:
    of = "" if found.pack is None else f" with {found.pack}"
    heavier = f"{of} and heavier packs" if found.heavier else of
    limit = f"{amounts.mass(found.mass_kg)}, limit {amounts.mass(found.limit_kg)}"
    if found.payload_kg is not None:
        load = amounts.mass(found.payload_kg)
        return f"over the mass limit{of} and {load} of load, on the last flight: {limit}"
    return f"over the mass limit{heavier}: {limit}{'' if found.weighed else '; weigh it'}"


_WEIGH: Mapping[str, str] = {
    "scales": "",
    "computed": "; weigh it",
    "last weighing": " when last weighed; changed since, weigh it",
}


def _unbalanced(found: Unbalanced, _days: Days) -> str:
    packs = f" with {amounts.listed(found.packs)}" if found.packs else ""
    return f"balance limit: {found.judged}{packs}{_WEIGH[found.by]}"


def alarm_found(found: AlarmLow) -> str:
    """``2.90 V a cell, lowest of P-1 is 3.00 V``."""
    alarm, least = amounts.voltage(found.alarm_v), amounts.voltage(found.least_v)
    if found.of == "near empty":
        return f"{alarm} a cell, under load {amounts.listed(found.packs)} is near empty at {least}"
    if found.of == "reserve":
        return f"{alarm} a cell, the reserve of {amounts.listed(found.packs)} begins at {least}"
    return f"{alarm} a cell, {found.of} of {amounts.listed(found.packs)} is {least}"


def _range_fell(found: RangeFell, _days: Days) -> str:
    read, before = amounts.length(found.read_m), amounts.length(found.before_m)
    return f"range read {read}, {before} the time before"


def unlike_found(found: UnlikePart) -> str:
    """``R-99 at front-right is 12x4.5, the others 11x4.5``."""
    return f"{found.tag} at {found.station} is {found.found}, the others {found.others}"


def _alarm_low(found: AlarmLow, _days: Days) -> str:
    return f"low voltage alarm sounds at {alarm_found(found)}"


def _passed(rating: PassedRating) -> str:
    match rating:
        case CellsOutside():
            return cells_outside(rating)
        case Carries():
            of = f"the plug from {rating.plug_from} carries " if rating.plug_from else ""
            packs = f" with {', '.join(rating.packs)}" if rating.packs else ""
            asked = amounts.figure(rating.asked, rating.unit)
            most = amounts.figure(rating.rating, rating.unit)
            return f"{of}{asked} at full throttle{packs}, more than {most}"
        case ServosDraw():
            drawn, most = amounts.current(rating.drawn_a), amounts.current(rating.most_a)
            return f"servos draw {drawn}, more than {most}"
        case ServosFed():
            servos = "; ".join(
                f"{amounts.listed(tags)} {'is' if len(tags) == 1 else 'are'} for"
                f" {amounts.voltage(for_v)}"
                for for_v, tags in rating.servos
            )
            return f"gives {amounts.voltage(rating.gives_v)}; {servos}"


def _over_rated(found: OverRated, _days: Days) -> str:
    kind = f" ({kind_word(found.kind)})" if found.kind else ""
    of = f" of {found.tag}{kind}" if found.tag else ""
    at = f" at {found.station}" if found.station else ""
    return f"ratings{of}{at} exceeded: {ratings_found(found)}"


def _same_memory(found: SameMemory, _days: Days) -> str:
    whose = " and ".join(f"{name}'s" for name in found.others) or "another aircraft's"
    return f"memory {found.memory} is also {whose}: move the sticks first"


def _nut_against(found: NutAgainst, _days: Days) -> str:
    nut = f"propeller nut of {found.tag} at {found.station}"
    return f"{nut}: does its {found.thread}-hand thread tighten?"


WHOLE: Mapping[type, Callable[[Any, Days], str]] = {
    TooHeavy: _too_heavy,
    Unbalanced: _unbalanced,
    OverRated: _over_rated,
    SameMemory: _same_memory,
    NutAgainst: _nut_against,
    AlarmLow: _alarm_low,
    RangeFell: _range_fell,
    UnlikePart: lambda found, _: f"{kind_word(found.kind)} {unlike_found(found)}",
}
"""By what was found, a line that names its subject itself."""
