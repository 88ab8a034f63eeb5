"""Ratios of the gains in force: only as information, to compare sets by."""

from collections.abc import Iterator

from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import Lacking, measured
from buildbook.figures.answers.working import Said, attempt_each, by_law, worked
from buildbook.figures.laws.margins import share_of
from buildbook.report.figure import Input
from buildbook.report.history import GainSet

P, I = "p", "i"  # noqa: E741 (the letters of the trade)
ROLL, PITCH = "roll", "pitch"


def gain_ratios(craft: Craft) -> Iterator[Said]:
    """I over P of each axis, roll over pitch, and this set over the set before."""
    if craft.now.gain_sets or craft.hovers:
        yield from attempt_each("gain_ratios", _ratios, craft)


def _ratios(craft: Craft) -> Iterator[Said]:
    periods = craft.now.gain_periods
    if not periods:
        raise Lacking("no gain set is in force: write a 'gains' entry", craft.home)
    now = craft.now.gain_sets[periods[-1].name]
    for axis, terms in now.values.items():
        if P in terms and I in terms:
            yield from _ratio(f"{axis} I over P", _term(now, axis, I), _term(now, axis, P))
    for term in (P, I):
        if term in now.values.get(ROLL, {}) and term in now.values.get(PITCH, {}):
            of = f"{term.upper()}, roll over pitch"
            yield from _ratio(of, _term(now, ROLL, term), _term(now, PITCH, term))
    before = _before(craft, now)
    if before is None:
        return
    for axis, terms in now.values.items():
        for term in terms:
            if term in before.values.get(axis, {}):
                of = f"{axis} {term.upper()}, {now.name} over {before.name}"
                yield from _ratio(of, _term(now, axis, term), _term(before, axis, term))


def _before(craft: Craft, now: GainSet) -> GainSet | None:
    """The set that was in force before this one."""
    for period in reversed(craft.now.gain_periods[:-1]):
        if period.name != now.name:
            return craft.now.gain_sets.get(period.name)
    return None


def _term(gains: GainSet, axis: str, term: str) -> Input:
    name = f"{axis} {term.upper()} of {gains.name}"
    return measured(name, gains.values[axis][term], "ratio", gains.place)


def _ratio(of: str, part: Input, whole: Input) -> Iterator[Said]:
    """A ratio, unless it would be over nothing."""
    if not whole.value:
        return
    yield worked(
        "gain_ratios",
        share_of,
        {"part": part, "whole": whole},
        unit="ratio",
        way=by_law("share_of"),
        of=of,
        notes=("only as information",),
    )
