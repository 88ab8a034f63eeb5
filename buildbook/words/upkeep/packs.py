"""What is said of packs: how worn, why set aside, how cold they flew, what was found of them."""

import datetime
import math
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from buildbook.basis import amounts
from buildbook.basis.notation import quoted
from buildbook.report.packs.health import FlownCold, HealthOf, HealthState, PackHealth
from buildbook.report.upkeep.pack_findings import (
    AtCutOff,
    CannotCompare,
    CapacityLow,
    CellFell,
    CellLow,
    CellsApart,
    CellsOutside,
    ChargedWrongly,
    IntoReserve,
    NotFull,
    NotJudged,
    OddCell,
    OldPack,
    OnShelf,
    ReadAtLimit,
    SetAside,
    ToldSwollen,
    UsedAside,
    UsedShare,
)
from buildbook.report.upkeep.work import Because, PackStanding, Reason
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


def millivolts(voltage_v: float) -> str:
    """``30 mV``: differences between cells."""
    return f"{amounts.fixed(voltage_v * 1000, 0)} mV"


def against(share: float) -> str:
    """``49 % above``."""
    return f"{amounts.fixed(abs(share) * 100, 0)} % {'above' if share > 0 else 'below'}"


def _cell_low(found: CellLow, _days: Days) -> str:
    read = f"{amounts.voltage(found.cell_v)} a cell {found.when}"
    if found.least_v is None:
        return f"{read}, read it again at rest"
    return f"{read}, less than {amounts.voltage(found.least_v)}"


def _at_cut_off(found: AtCutOff, days: Days) -> str:
    return f"voltage low: {came_down(found, days)}"


def came_down(found: AtCutOff, days: Days) -> str:
    """``the flight of 28 September 2025 came down to its cut-off, 3.40 V a cell``."""
    read, cut_off = amounts.voltage(found.cell_v), amounts.voltage(found.cut_off_v)
    flight = "the last flight read" if found.on is None else f"the flight of {days(found.on)}"
    if read == cut_off:
        return f"{flight} came down to its cut-off, {read} a cell"
    return f"{flight} came down to {read} a cell, below its cut-off of {cut_off}"


def _cell_fell(found: CellFell, _days: Days) -> str:
    return f"cell {found.cell} fell {millivolts(found.fell_v)} more than the others while it lay"


def _not_full(found: NotFull, _days: Days) -> str:
    volts = amounts.voltage(found.cell_v)
    return f"{volts} a cell before a flight though charged to full that day"


def _on_shelf(found: OnShelf, _days: Days) -> str:
    return f"on the shelf for {found.months} months, without a reading of its cells"


def _odd_cell(found: OddCell, _days: Days) -> str:
    return f"cell {found.cell} reads {against(found.share)} the others"


def _cells_apart(found: CellsApart, _days: Days) -> str:
    spread, most = millivolts(found.spread_v), millivolts(found.most_v)
    said = f"cells {spread} apart at rest, more than {most}"
    return f"{said} twice running" if found.twice else said


def cells_outside(found: CellsOutside) -> str:
    """``takes 2S to 3S, K-1 is 4S``."""
    range_ = f"{found.least}S" if found.least == found.most else f"{found.least}S to {found.most}S"
    packs = [f"{tag} is {series}S" for tag, series in zip(found.packs, found.series, strict=True)]
    takes = "takes" if found.of is None else f"{found.of} takes"
    return f"{takes} {range_}, {amounts.listed(packs)}"


def _capacity_low(found: CapacityLow, _days: Days) -> str:
    least = amounts.share(found.least_share)
    return f"capacity {_share_down(found.share)} of rated, limit {least}"


def _read_at_limit(found: ReadAtLimit, _days: Days) -> str:
    resistance = found.of == "cell_resistance"
    of = "its first reading" if resistance else "rated"
    read = _share_down(found.share) if not resistance else amounts.share(found.share)
    what = "a cell reads" if resistance else "capacity"
    said = f"{what} {read} of {of}, limit {amounts.share(found.limit_share)}"
    if found.since_share is None:
        return said
    since = amounts.share(found.since_share)
    return f"{said}, {since} since; stays in force until the keeper records a reason"


def _share_down(share: float) -> str:
    return amounts.share(math.floor(share * 1000 + 1e-6) / 1000)  # never up to the limit


def _cannot_compare(found: CannotCompare, days: Days) -> str:
    if not found.differs:
        return f"{found.of}: conditions that are not recorded are taken as the same"
    of = f" {days.on(found.on)}" if found.on is not None else ""
    return f"{found.of}{of} not comparable: different {amounts.listed(found.differs)}"


def _charged_wrongly(found: ChargedWrongly, _days: Days) -> str:
    said = []
    if found.took_ah is not None and found.rated_ah is not None:
        held = amounts.charge(found.rated_ah)
        said.append(f"took {amounts.charge(found.took_ah)}, though rated {held}")
    if found.at_k is not None:
        said.append(f"charged at {amounts.temperature(found.at_k)}, not 0 °C to 40 °C")
    if found.at_a is not None and found.most_a is not None:
        most = amounts.current(found.most_a)
        said.append(f"charged at {amounts.current(found.at_a)}, rated {most}")
    if found.unequal:
        said.append("charged as one with a pack of other cells or chemistry")
    if found.apart_v is not None:
        said.append(f"charged on one lead with a pack {millivolts(found.apart_v)} a cell apart")
    return "; ".join(said)


def _told_swollen(found: ToldSwollen, _days: Days) -> str:
    said = f" {quoted(found.words)}" if found.words else ""
    return f"by the words{said} of an entry, not looked at since"


_BEFORE: Mapping[int, str] = {0: "", 1: "; once before"}


def into_reserve(found: IntoReserve) -> str:
    """``2450 mAh used, 2072 mAh to its reserve; once before``."""
    out = amounts.charge(found.out_ah)
    said = f"{out} out since its charge" if found.together else f"{out} used"
    if found.flown_s is not None:
        said = f"{amounts.duration(found.flown_s)}, about {out} by its usual draw"
    before = _BEFORE.get(found.before, f"; {found.before} times before")
    if found.habit:
        before = f"; {found.habit} of its last 6 flights"
    return f"{said}, {amounts.charge(found.usable_ah)} to its reserve{before}"


OF_PACK: Mapping[type, Callable[[Any, Days], str]] = {
    CellLow: _cell_low,
    AtCutOff: _at_cut_off,
    CellFell: _cell_fell,
    NotFull: _not_full,
    IntoReserve: lambda found, _: into_reserve(found),
    UsedShare: lambda found, _: f"{amounts.share(found.share)} of its capacity used",
    OnShelf: _on_shelf,
    OldPack: lambda found, _: f"{found.years} years old",
    NotJudged: lambda found, _: f"{found.lacks} not recorded: its voltages are not judged",
    CellsApart: _cells_apart,
    OddCell: _odd_cell,
    CapacityLow: _capacity_low,
    ReadAtLimit: _read_at_limit,
    CannotCompare: _cannot_compare,
    CellsOutside: lambda found, _: cells_outside(found),
    ChargedWrongly: _charged_wrongly,
    ToldSwollen: _told_swollen,
}
"""By what was found, its words."""


def flown_low_words(notes: Iterable[Reason], days: Days) -> str:
    """Why the voltage of a pack is called low though nothing is open, dated; empty if it is not."""
    found = (note.because.found for note in notes)
    low = next((one for one in found if isinstance(one, AtCutOff)), None)
    return "" if low is None else came_down(low, days)
