"""Flights of an aircraft while something that grounds was open, one stretch for each.

A flight is judged by what was written by then. A check that was never done counts from the first
check entry of that aircraft: before it nobody kept such records.
"""

import datetime
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Mapping
from itertools import pairwise
from operator import attrgetter
from typing import NamedTuple

from buildbook.records.programmes import CheckRule
from buildbook.records.row_names import CHECK_FLIGHT, DRYING
from buildbook.report.history import Completion, Event, FlightDone, Stay
from buildbook.report.state import AircraftNow, Hangar, ItemNow
from buildbook.report.upkeep.flown import Meanwhile
from buildbook.report.upkeep.programme import Resolved
from buildbook.upkeep.counted.completions import CheckedStation, checked_stations, checks_of, covers
from buildbook.upkeep.counted.counting import Step
from buildbook.upkeep.dangers.noticed import dries
from buildbook.upkeep.rows.checks import MENDING
from buildbook.upkeep.rows.triggers import Reach, Triggers, matches


class Stretch(NamedTuple):
    """Flights of an aircraft while one thing was open. closed_on: None where it still is."""

    aircraft: str
    what: Meanwhile
    flights: tuple[FlightDone, ...]
    closed_on: datetime.date | None = None


_ALL_ROWS = 2**31


class Mark(NamedTuple):
    """A moment of the log from which on something is open, or closed.

    first: what goes first of several at one place of the log; below 0, before a flight there.
    row: which flight of an entry of several it is about; None: of all of them.
    """

    seq: int
    first: int
    open: bool = False
    on: datetime.date | None = None
    row: int | None = None

    @property
    def order(self) -> tuple[int, int, int]:
        """By which marks are walked."""
        return (self.seq, self.first, self.at[1])

    @property
    def at(self) -> tuple[int, int]:
        """Where it stands among flights: before or after this entry, or this flight of it."""
        edge = -1 if self.first < 0 else _ALL_ROWS
        return (self.seq, edge if self.row is None else self.row)


def stretches_of(
    hangar: Hangar, triggers: Triggers, aircraft: AircraftNow, programme: Resolved | None
) -> Iterator[Stretch]:
    """All of an aircraft, in the order of its programme; then looks, parts and status."""
    if not aircraft.flights:
        return
    if programme is not None:
        checks = _Checks(hangar, triggers, aircraft)
        for rule in (one.rule for one in programme.checks):
            if rule.check != CHECK_FLIGHT:
                yield from checks.stretches(rule)
    yield from _of_check_flights(aircraft)
    yield from _of_water(aircraft)
    yield from _of_looks(aircraft)
    for item in ever_fitted(hangar, aircraft):
        yield from _of_item_looks(aircraft, item)
    yield from _of_missing(aircraft)
    stored = {seq: aircraft.after(seq).status == "stored" for seq in _looked_at(aircraft)}
    yield from _of_snapshots(aircraft, Meanwhile(kind="status", name="stored"), stored)


def ever_fitted(hangar: Hangar, aircraft: AircraftNow) -> Iterator[ItemNow]:
    """The items that ever sat on an aircraft."""
    return (hangar.items[tag] for tag in aircraft.ever_fitted)


class _Checks:
    """The checks of one aircraft, gathered once for all rules of its programme."""

    def __init__(self, hangar: Hangar, triggers: Triggers, aircraft: AircraftNow) -> None:
        self._hangar, self._triggers, self._aircraft = hangar, triggers, aircraft
        self._done = checks_of(aircraft)
        for one in aircraft.checks:
            if one.cleared_on:
                self._done.setdefault(one.name, []).append(one)
        self._first = min((check.seq for check in aircraft.checks), default=None)

    def stretches(self, rule: CheckRule) -> Iterator[Stretch]:
        """By station or item where it goes by it. One that does not ground opens by failing."""
        aircraft, done = self._aircraft, self._done.get(rule.check, [])
        first = self._first if rule.grounds else None
        if first is None and all(one.result != "fail" for one in done):
            return
        if rule.per not in (None, "motor station", "surface"):
            for item in ever_fitted(self._hangar, aircraft):
                if item.spec.kind == rule.per:
                    yield from _of_item_check(self._triggers, aircraft, rule, item, done, first)
            return
        asks: list[tuple[int, int | None, Reach]] = []
        if first is not None:
            pulled = self._triggers.asks(aircraft, rule.stale_after)
            asks = [one for one in pulled if one[0] >= first]
        for spot in checked_stations(self._hangar, aircraft, rule):
            station = spot.station
            here = [one for one in done if covers(aircraft, spot, one)]
            marks = [] if first is None else [Mark(first, 1, open=True)]
            marks += [
                Mark(seq, 2, open=True, row=row)
                for seq, row, reach in asks
                if station is None or reach is None or station in reach
            ]
            marks += [*_looked(here), *_after_idling(rule, aircraft, here, first)]
            what = Meanwhile(kind="check", name=rule.check, of=station)
            yield from walked(aircraft, what, marks)


def _of_item_check(
    triggers: Triggers,
    aircraft: AircraftNow,
    rule: CheckRule,
    item: ItemNow,
    done: Iterable[Completion],
    first: int | None,
) -> Iterator[Stretch]:
    """A check of one item while it sat here: a stretch ends where it comes out."""
    stays = [stay for stay in item.stays if stay.aircraft == aircraft.slug]
    if not stays:
        return
    spot = CheckedStation(item.tag, None, item)
    here = [one for one in done if covers(aircraft, spot, one)]
    marks = [*_looked(here), *_after_idling(rule, aircraft, here, first)]
    if first is not None:
        marks.append(Mark(max(first, stays[0].since_seq), 1, open=True))
        elsewhere = (event for event in item.events if event.aircraft != aircraft.slug)
        touched = (one for one in aircraft.events if _touched(triggers, aircraft, item, stays, one))
        marks += [
            Mark(event.seq, 2, open=True, row=event.row_index)
            for event in (*elsewhere, *touched)
            if event.seq >= first and any(matches(one, event) for one in rule.stale_after)
        ]
    what = Meanwhile(kind="check", name=rule.check, of=item.tag)
    for stay in stays:
        yield from walked(aircraft, what, during(stay, marks))


def _touched(
    triggers: Triggers,
    aircraft: AircraftNow,
    item: ItemNow,
    stays: Iterable[Stay],
    event: Event,
) -> bool:
    """Whether an event touched an item: by its tag, or where it sat at that moment."""
    if item.tag in event.tags:
        return True
    reach = triggers.reach(aircraft, event)
    return any(
        stay.reaches(event.seq) and (reach is None or stay.station in reach) for stay in stays
    )


def _after_idling(
    rule: CheckRule, aircraft: AircraftNow, done: Iterable[Completion], first: int | None
) -> Iterator[Mark]:
    """Flights after so long without one open a check, unless it was passed after that time."""
    ages = [one.age for one in rule.stale_after if one.event == "idle"]
    if not ages or first is None:
        return
    steps = [Step(months=age.months, days=age.days) for age in ages]
    least = min(step.least_days for step in steps)
    for before, after in pairwise(aircraft.flights):
        if (after.on - before.on).days <= least:
            continue
        longest = min(step.after(before.on) for step in steps)
        if before.seq >= first and after.on > longest:
            too_early = (one.seq for one in done if one.on <= longest and one.seq < after.seq)
            yield Mark(max([before.seq, *too_early]), 4, open=True)


def _of_check_flights(aircraft: AircraftNow) -> Iterator[Stretch]:
    """A check flight that failed, until something was done about it or another passed."""
    done = checks_of(aircraft).get(CHECK_FLIGHT, [])
    if all(one.result != "fail" for one in done):
        return
    marks = _looked(done)
    marks += [Mark(one.seq, 3, on=one.on) for one in aircraft.events if one.event in MENDING]
    yield from walked(aircraft, Meanwhile(kind="check", name=CHECK_FLIGHT), marks)


def _of_water(aircraft: AircraftNow) -> Iterator[Stretch]:
    """Wet inside, until somebody looked."""
    wet = [one for one in aircraft.events if one.event == "water"]
    if not wet:
        return
    marks = [Mark(one.seq, 2, open=True, row=one.row_index) for one in wet]
    marks += [Mark(one.seq, 3, on=one.on) for one in aircraft.inspections if dries(one)]
    yield from walked(aircraft, Meanwhile(kind="look", name=DRYING), marks)


def _of_looks(aircraft: AircraftNow) -> Iterator[Stretch]:
    """Looks at the aircraft itself that failed, and until when."""
    for name, looks in _by_name(look for look in aircraft.inspections if not look.tags).items():
        marks = _looked(looks)
        yield from walked(aircraft, Meanwhile(kind="look", name=name), marks)


def _of_item_looks(aircraft: AircraftNow, item: ItemNow) -> Iterator[Stretch]:
    """Looks at a part that failed while it sat here, until it passed or came out."""
    looks = [look for look in item.inspections if look.tags]
    for stay in item.stays if looks else ():
        if stay.aircraft != aircraft.slug:
            continue
        here = (look for look in looks if stay.holds(look.seq))
        for name, looks in _by_name(here).items():
            what = Meanwhile(kind="look", name=name, of=item.tag)
            yield from walked(aircraft, what, during(stay, _looked(looks)))


def _by_name(looks: Iterable[Completion]) -> Mapping[str, list[Completion]]:
    looks = list(looks)
    failed = {look.name for look in looks if look.result == "fail"}
    found: dict[str, list[Completion]] = {}
    for look in looks if failed else ():
        if look.name in failed:
            found.setdefault(look.name, []).append(look)
    return found


def _looked(looks: Iterable[Completion]) -> list[Mark]:
    """A look that failed opens, unless it says that it is mild; a pass or a clearing closes."""
    marks: list[Mark] = []
    for look in looks:
        fails = look.result == "fail"
        if fails and look.severity is not None:
            continue
        marks.append(Mark(look.seq, 3, open=fails, on=look.on))
        if look.cleared_seq is not None:
            marks.append(Mark(look.cleared_seq, 3, on=look.cleared_on))
    return marks


def _of_missing(aircraft: AircraftNow) -> Iterator[Stretch]:
    """One for each kind of part, and its station or surface, that was missing in a flight."""
    lacked = {seq: _lacking(aircraft, seq) for seq in _looked_at(aircraft)}
    for what in dict.fromkeys(one for lacks in lacked.values() for one in lacks):
        lacking = {seq: what in lacks for seq, lacks in lacked.items()}
        yield from _of_snapshots(aircraft, what, lacking)


def _looked_at(aircraft: AircraftNow) -> Iterator[int]:
    """The first flight after each snapshot: nothing changes between two of them."""
    flights, at = aircraft.flights, 0
    while at < len(flights):
        yield flights[at].seq
        following = bisect_right(aircraft.snapshots, flights[at].seq, key=_seq_of)
        if following == len(aircraft.snapshots):
            return
        at = bisect_left(flights, aircraft.snapshots[following].seq, key=_seq_of)


def _of_snapshots(
    aircraft: AircraftNow, what: Meanwhile, open_at: Mapping[int, bool]
) -> Iterator[Stretch]:
    days = {flight.seq: flight.on for flight in aircraft.flights}
    marks = [Mark(seq, -1, open=is_open, on=days[seq]) for seq, is_open in open_at.items()]
    yield from walked(aircraft, what, marks)


def _lacking(aircraft: AircraftNow, seq: int) -> list[Meanwhile]:
    """What a motor station, a surface or the aircraft lacked of what was recorded on it before."""
    then = aircraft.after(seq)
    fitted = then.fitted
    known = {one.subject for one in aircraft.events if one.event == "fit" and one.seq <= seq}
    here = {kind for (_, kind), tags in fitted.items() if tags}
    once = ["frame", "receiver", *(["controller"] * aircraft.hovers)]
    servos = {tag for (_, kind), tags in fitted.items() if kind == "servo" for tag in tags}
    lacks: list[tuple[str, str | None]] = [
        (kind, station)
        for station in aircraft.motor_stations
        for kind in ("motor", "propeller")
        if kind in known and not fitted.get((station, kind))
    ]
    lacks += [(kind, None) for kind in once if kind in known and kind not in here]
    lacks += [
        ("servo", name)
        for name, surface in then.surfaces.items()
        if not servos.issuperset(surface.servos)
    ]
    return [Meanwhile(kind="missing part", name=kind, of=of) for kind, of in lacks]


def during(stay: Stay, marks: Iterable[Mark]) -> list[Mark]:
    """The marks of a stay: how it stood when the item came in, and closed when it comes out."""
    in_order = sorted(marks, key=_mark_order)
    before = [mark for mark in in_order if mark.seq < stay.since_seq]
    found = [Mark(stay.since_seq, 0, open=bool(before) and before[-1].open)]
    found += [mark for mark in in_order if stay.holds(mark.seq)]
    if stay.until_seq is not None:
        found.append(Mark(stay.until_seq, 3, on=stay.until))
    return found


_mark_order, _flown_at = attrgetter("order"), attrgetter("seq", "row_index")
_seq_of = attrgetter("seq")


def walked(
    aircraft: AircraftNow,
    what: Meanwhile,
    marks: Iterable[Mark],
    flights: tuple[FlightDone, ...] | None = None,
) -> Iterator[Stretch]:
    """Walk the marks once; a stretch ends where what was open is closed.

    flights: those that count, of a pack its own; None: all of the aircraft.
    """
    flights, opened = aircraft.flights if flights is None else flights, None
    for mark in sorted(marks, key=_mark_order):
        if mark.open == (opened is not None):
            continue
        at = (bisect_left if mark.first < 0 else bisect_right)(flights, mark.at, key=_flown_at)
        if mark.open:
            opened = at
            continue
        flown, opened = flights[opened:at], None
        if flown:
            yield Stretch(aircraft.slug, what, flown, mark.on)
    if opened is not None and flights[opened:]:
        yield Stretch(aircraft.slug, what, flights[opened:])
