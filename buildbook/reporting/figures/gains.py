"""Gain sets side by side, and what was flown on each."""

import datetime
from collections.abc import Iterator, Mapping
from operator import itemgetter

from buildbook.basis.place import Place
from buildbook.report.drawn.plans import GainPlan
from buildbook.report.figures.gains import (
    GainCell,
    GainsRaised,
    GainsReport,
    GainTerm,
    GainUse,
    TermRaised,
)
from buildbook.report.history import GainSet
from buildbook.report.state import AircraftNow
from buildbook.reporting.whole import Whole

Values = Mapping[str, Mapping[str, float]]


def gains(whole: Whole, slug: str) -> GainsReport:
    """The gain sets of an aircraft."""
    aircraft = whole.hangar.aircraft[slug]
    return GainsReport(
        sets=tuple(_use(whole, aircraft, one) for one in aircraft.gain_sets.values()),
        terms=tuple(terms(aircraft)),
        in_force=aircraft.gains,
        drawn=_drawn(aircraft),
    )


RAISED = 2.0
"""So many times the value of the set before is told beside a crash. Common practice, no source."""

FLOWN_ON = 10
"""After so many flights on the same set a crash or remark is no more told with it. Likewise."""

_HAPPENED = ("crash", "hard landing", "noticed")


def gains_raised(whole: Whole, slug: str) -> GainsRaised | None:
    """The set in force, where its values were raised before the last crash, notice or remark of a
    danger: a fact beside it. A set that was changed since, or flown on without more, is not told.
    """
    aircraft = whole.hangar.aircraft[slug]
    if aircraft.status not in ("flying", "stored") or len(aircraft.gain_periods) < 2:
        return None
    before, now = aircraft.gain_periods[-2:]
    terms = tuple(_raised(aircraft.gain_sets.get(before.name), aircraft.gain_sets.get(now.name)))
    last = max(_happened(whole, aircraft), key=itemgetter(0), default=None) if terms else None
    if last is None or last[0] < now.seq:
        return None
    seq, on, what, entry, place = last
    if sum(flight.seq > seq for flight in aircraft.flights) >= FLOWN_ON:
        return None
    return GainsRaised(
        name=now.name, since=now.on, on=on, what=what, entry=entry, place=place, terms=terms
    )


def _happened(
    whole: Whole, aircraft: AircraftNow
) -> Iterator[tuple[int, datetime.date, str, str, Place]]:
    for event in aircraft.events:
        if event.event in _HAPPENED:
            what = event.subject or event.event
            yield event.seq, event.on, what, event.uid, event.place
    seqs = {line.entry.uid: line.seq for line in aircraft.log}
    for one in whole.reports.unanswered_on(aircraft.slug):
        if one.entry in seqs:
            yield seqs[one.entry], one.on, one.kind, one.entry, one.place


def _raised(before: GainSet | None, now: GainSet | None) -> Iterator[TermRaised]:
    if before is None or now is None:
        return
    for axis, values in now.values.items():
        for term, value in values.items():
            old = _at(before.values, axis, term)
            if old and abs(value) >= RAISED * abs(old):
                yield TermRaised(axis, term, old, value)


def compared_with(aircraft: AircraftNow) -> Mapping[str, str | None]:
    """Which set each one is told against: the one it was made from, else the one before it."""
    found: dict[str, str | None] = {}
    before = None
    for name, one in aircraft.gain_sets.items():
        found[name] = one.base if one.base in aircraft.gain_sets else before
        before = name
    return found


def terms(aircraft: AircraftNow) -> Iterator[GainTerm]:
    """Every axis and term that a set has, in the order of writing, with the differences."""
    sets = aircraft.gain_sets
    against = compared_with(aircraft)
    pairs = dict.fromkeys(
        (axis, term)
        for one in sets.values()
        for axis, found in one.values.items()
        for term in found
    )
    axes = list(dict.fromkeys(axis for axis, _ in pairs))
    for axis, term in sorted(pairs, key=lambda pair: axes.index(pair[0])):
        yield GainTerm(
            axis=axis,
            term=term,
            cells=tuple(
                _cell(
                    _at(one.values, axis, term),
                    _at(sets[other].values, axis, term) if (other := against[name]) else None,
                )
                for name, one in sets.items()
            ),
        )


def _at(values: Values, axis: str, term: str) -> float | None:
    return values.get(axis, {}).get(term)


def _cell(value: float | None, before: float | None) -> GainCell | None:
    if value is None:
        return None
    return GainCell(value=value, change=None if before is None else value - before)


def _drawn(aircraft: AircraftNow) -> GainPlan | None:
    """The set in force, with the one it is told against."""
    one = aircraft.gain_sets.get(aircraft.gains or "")
    if one is None:
        return None
    against = compared_with(aircraft)[one.name]
    return GainPlan(
        name=one.name,
        values=_copied(one.values),
        before_name=against or "",
        before=_copied(aircraft.gain_sets[against].values) if against else None,
    )


def _copied(values: Values) -> dict[str, dict[str, float]]:
    return {axis: dict(found) for axis, found in values.items()}


def _use(whole: Whole, aircraft: AircraftNow, one: GainSet) -> GainUse:
    flights = [flight for flight in aircraft.flights if flight.gains == one.name]
    answers = whole.reports.figures_of_aircraft(aircraft.slug)
    return GainUse(
        gains=one,
        against=compared_with(aircraft)[one.name],
        in_force=one.name == aircraft.gains,
        periods=tuple(found for found in aircraft.gain_periods if found.name == one.name),
        flights=len(flights),
        duration_s=sum(flight.duration_s for flight in flights),
        first=flights[0] if flights else None,
        last=flights[-1] if flights else None,
        used=answers.find("flown_current", f"gains {one.name}"),
        verdicts=tuple(found for found in aircraft.gain_verdicts if found.name == one.name),
    )
