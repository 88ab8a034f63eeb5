"""What is said of packs: how worn they are, why they are set aside, how cold they flew."""

import datetime
from collections.abc import Callable, Mapping

from buildbook.basis import amounts
from buildbook.report.packs.health import FlownCold, HealthOf, HealthState, PackHealth
from buildbook.report.upkeep.pack_findings import SetAside, UsedAside
from buildbook.report.upkeep.work import Because, PackStanding
from buildbook.words.measures.days import Days

_WHY: Mapping[str, str] = {
    "crash": "it was in a crash",
    "incident": "it was in an incident",
    "water": "it got wet",
    "defect": "it has a defect",
    "low cell": "a cell was too low at rest",
    "high cell": "a cell was too high at rest",
    "spread": "cells were too far apart at rest",
    "hot": "it was hot",
    "falling cell": "one cell fell more than the others while it lay",
}


def set_aside(because: Because, days: Days) -> str:
    """``set aside: a cell was too low at rest on 3 May 2026 (2.90 V, expected 3.00 V or more)``."""
    found = because.found
    if not isinstance(found, SetAside):
        return "set aside"
    why, details = _why_aside(found)
    on = "" if because.on is None else f" {days.on(because.on)}"
    return f"set aside: {why}{on}{f' ({details})' if details else ''}"


def _why_aside(found: SetAside) -> tuple[str, str]:
    """What set it aside, and what was found; the name of a look that failed tells the first."""
    facts = dict(found.facts)
    task = facts.pop("task", None)
    why = f"{task} failed" if task else _WHY.get(found.why, found.why)
    said = [facts.pop("found")] if "found" in facts else []
    said += [f"{name} {value}" for name, value in facts.items()]
    if found.findings:
        said.append(found.findings.strip().rstrip("."))
    return why, ", ".join(said)


_TIMES: Mapping[int, str] = {1: "once", 2: "twice"}


def used_aside(found: UsedAside, days: Days) -> str:
    """``charged once and flown 3 times since it was set aside, last on 4 July 2026``."""
    counted = (("charged", found.charged), ("flown", found.flown))
    said = [f"{done} {_TIMES.get(times, f'{times} times')}" for done, times in counted if times]
    last = "" if found.last_on is None else f", last {days.on(found.last_on)}"
    return f"{' and '.join(said)} since it was set aside{last}"


def returns(standing: PackStanding) -> str:
    """What ends the quarantine of a pack, as a clause."""
    asked = {reason.row.name for reason in standing.reasons if reason.row is not None}
    if any(reason.row.kind == "defect" for reason in standing.reasons if reason.row is not None):
        return "clear its defect, and on a later day pass a pack-look that names it"
    own = any(reason.because.why == "item state" for reason in standing.reasons)
    if "set-aside" not in asked and not own:
        return "only a passed pack-look that names it, on a later day, releases it"
    return "only state: serviceable with because: releases it"


def cold_words(cold: FlownCold | None, day: Callable[[datetime.date], str]) -> str:
    """``cold pack: less time (flown at 4 °C on 18 June 2026)``; empty for one that was not."""
    if cold is None:
        return ""
    at = amounts.temperature(cold.temperature_k)
    return f"cold pack: less time (flown at {at} on {day(cold.on)})"


def counted_words(tag: str | None) -> str:
    """Which pack a drawing of all masses counts."""
    if tag is None:
        return "Without a pack: none is known."
    return f"With {tag}, the pack flown last."


_HEALTH_WORDS: Mapping[HealthState, str] = {
    "good": "good",
    "near": "near limit",
    "worn": "below limit",
    "quarantined": "quarantined",
    "unknown": "not measured",
}
_WEAK_WORDS: Mapping[tuple[HealthState, HealthOf], str] = {
    ("near", "resistance"): "resistance high",
    ("worn", "resistance"): "resistance doubled",
    ("near", "cells"): "cells uneven",
    ("near", "voltage"): "voltage low",
}
"""Where it is not the capacity that decides: what does."""


_HEALTH_MARKS: Mapping[HealthState, str] = {
    "good": "ok",
    "near": "due soon",
    "worn": "reached",
    "quarantined": "quarantined",
    "unknown": "cannot say",
}


def health_mark(plan: PackHealth) -> str:
    """The state whose mark stands beside the words of its health."""
    return _HEALTH_MARKS[plan.state]


def health_words(plan: PackHealth) -> str:
    """``good, 91 %``; ``voltage low, 82 %`` where that is worse than the capacity."""
    words = _HEALTH_WORDS[plan.state]
    if plan.of is not None:
        words = _WEAK_WORDS.get((plan.state, plan.of), words)
    return words if plan.share is None else f"{words}, {plan.share * 100:.0f} %"
