"""Flown while something that grounds was open, stored, or without a part: one warning a stretch.

What was open during the very same flights is one warning; it says when that was closed.
"""

import datetime
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from operator import attrgetter

from buildbook.basis import amounts
from buildbook.basis.problems import TOLD_DAYS, Problem
from buildbook.records.programmes import TaskRule
from buildbook.records.row_names import CHECK_FLIGHT
from buildbook.report.history import Completion, Event, FlightDone, Stay
from buildbook.report.state import AircraftNow, Hangar, ItemNow
from buildbook.report.upkeep.flown import Meanwhile
from buildbook.report.upkeep.programme import Applied, Resolved
from buildbook.report.upkeep.work import Row
from buildbook.upkeep.context import Context, Subject
from buildbook.upkeep.counted.completions import (
    checks_of,
    checks_of_item,
    passed,
    tasks_of_aircraft,
    tasks_of_item,
    together,
)
from buildbook.upkeep.counted.life import END, AircraftLife, Life, life_of
from buildbook.upkeep.dangers.stretches import (
    Mark,
    Stretch,
    during,
    ever_fitted,
    stretches_of,
    walked,
)
from buildbook.upkeep.programme import Programmes, covering
from buildbook.upkeep.rows.follow_ups import follow_up_row
from buildbook.upkeep.rows.tasks import comes_round, task_row
from buildbook.upkeep.rows.triggers import Reopened, Triggers, idle, matches

_SEQ = attrgetter("seq")
_GROUNDS = ("stale", "overdue")
"""States in which a task keeps its carrier down; one that failed is a look that failed."""


class _LifeUpTo:
    """A life as it was before an entry."""

    def __init__(self, life: Life, seq: int) -> None:
        self._life, self._seq = life, seq
        self.began = life.began

    def knows(self, unit: str) -> bool:
        """As the whole life does."""
        return self._life.knows(unit)

    def ticks(self, unit: str, seq: int = END) -> int:
        """The total up to that moment, and no further than the end of this life."""
        return self._life.ticks(unit, min(seq, self._seq))


def _landed_before(event: Event, seq: int, row: int) -> bool:
    """Whether it is of an earlier flight of the same entry."""
    return event.seq == seq and event.row_index is not None and event.row_index < row


def all_stretches_of(
    hangar: Hangar, triggers: Triggers, aircraft: AircraftNow, programme: Resolved | None
) -> Iterator[Stretch]:
    """All of an aircraft: those of checks, looks, parts and status, then those of tasks.

    programme: that of the aircraft.
    """
    yield from stretches_of(hangar, triggers, aircraft, programme)
    if programme is not None and aircraft.flights:
        yield from _of_tasks(hangar, aircraft, programme)


def _of_tasks(hangar: Hangar, aircraft: AircraftNow, programme: Resolved) -> Iterator[Stretch]:
    """One stretch for each time, of the aircraft itself and of what sat on it."""
    closed_by = covering(programme)
    for applied in programme.tasks:
        rule = applied.rule
        if not rule.grounds or not comes_round(rule):
            continue
        names = closed_by.get(rule.task, ())
        if rule.each == "aircraft":
            yield from _OfTask(hangar, aircraft, applied, names).stretches()
            continue
        for item in _carried(hangar, aircraft):
            if item.spec.kind == rule.each:
                yield from _OfTask(hangar, aircraft, applied, names, item).stretches()


def _carried(hangar: Hangar, aircraft: AircraftNow) -> Iterator[ItemNow]:
    """What ever sat on it, and the packs that it was flown on."""
    yield from (item for item in ever_fitted(hangar, aircraft) if not item.is_pack)
    packs = dict.fromkeys(tag for flight in aircraft.flights for tag in flight.row.packs)
    yield from (hangar.items[tag] for tag in packs if tag in hangar.items)


class _OfTask:
    """One task of an aircraft, or of an item while it sat there."""

    def __init__(
        self,
        hangar: Hangar,
        aircraft: AircraftNow,
        applied: Applied[TaskRule],
        names: Sequence[str],
        item: ItemNow | None = None,
    ) -> None:
        self._hangar, self._aircraft = hangar, aircraft
        self._applied, self._item = applied, item
        rule = applied.rule
        jobs = tasks_of_aircraft(aircraft) if item is None else tasks_of_item(item)
        larger = [passed(jobs.get(name, ())) for name in names]
        if item is not None:
            larger.append(passed(checks_of_item(hangar, item, names)))
        self._jobs = together(jobs.get(rule.task, ()), *larger)
        asking = rule.follows.after if rule.follows is not None else rule.also_after
        self._events = [
            event
            for event in (aircraft.events if item is None else item.events)
            if any(matches(trigger, event) for trigger in asking)
        ]
        self._life: Life = AircraftLife(aircraft) if item is None else life_of(hangar, item)

    def stretches(self) -> Iterator[Stretch]:
        """Walk the flights once; of an item, stay by stay."""
        item, rule = self._item, self._applied.rule
        what = Meanwhile(kind="look", name=rule.task, of=None if item is None else item.tag)
        if item is None:
            yield from walked(self._aircraft, what, self._marks(self._aircraft.flights, None))
            return
        if item.is_pack:
            flights = self._aircraft.flights
            own = tuple(flight for flight in flights if item.tag in flight.row.packs)
            yield from walked(self._aircraft, what, self._marks(own, None), own)
            return
        for stay in item.stays:
            if stay.aircraft == self._aircraft.slug:
                marks = self._marks(self._aircraft.flights, stay)
                yield from walked(self._aircraft, what, during(stay, marks))

    def _marks(self, flights: Sequence[FlightDone], stay: Stay | None) -> list[Mark]:
        marks = []
        for flight in flights:
            if stay is None or stay.holds(flight.seq):
                row = flight.row_index
                is_open = self._is_open(flight.seq - 1, flight.on, row)
                marks.append(Mark(flight.seq, -1, is_open, self._done(flight.seq), row))
        if not self._is_open(END, self._hangar.as_of) and (stay is None or stay.until is None):
            marks.append(Mark(END, -1, on=self._done(END)))
        return marks

    def _done(self, seq: int) -> datetime.date | None:
        """When it was last passed before an entry."""
        at = bisect_left(self._jobs, seq, key=_SEQ)
        return self._jobs[at - 1].on if at else None

    def _is_open(self, seq: int, day: datetime.date, row: int = 0) -> bool:
        """Whether it kept its carrier down after an entry and so many flights of the next."""
        jobs = self._jobs[: bisect_right(self._jobs, seq, key=_SEQ)]
        upto = bisect_right(self._events, seq, key=_SEQ)
        events = self._events[:upto]
        if row:
            events += [one for one in self._events[upto:] if _landed_before(one, seq + 1, row)]
        found = self._row(seq, day, jobs, events)
        return found is not None and found.state in _GROUNDS

    def _row(
        self, seq: int, day: datetime.date, jobs: list[Completion], events: list[Event]
    ) -> Row | None:
        applied, rule, aircraft = self._applied, self._applied.rule, self._aircraft
        context = Context(day, self._hangar.ledger.keeper)
        tag = None if self._item is None else self._item.tag
        subject = Subject(aircraft.slug, tag, None, aircraft.record.place())
        life = _LifeUpTo(self._life, seq)
        if rule.follows is not None:
            return follow_up_row(context, applied, rule.follows, subject, life, None, jobs, events)
        reopened = self._reopened(seq, day, events)
        return task_row(context, applied, subject, life, None, jobs, reopened)

    def _reopened(self, seq: int, day: datetime.date, events: list[Event]) -> Reopened | None:
        """The newest by then: an event, or so long without a flight."""
        triggers = self._applied.rule.also_after
        found: list[Reopened | None] = []
        idling = [one for one in triggers if one.event == "idle"]
        if idling:
            flights = self._aircraft.flights
            upto = flights[: bisect_right(flights, seq, key=_SEQ)]
            found = [idle(one, upto, day) for one in idling]
        if events:
            last = events[-1]
            pulled = next(one for one in triggers if matches(one, last))
            found.append(Reopened(pulled, last.seq, last.on, last.uid, last.place))
        known = [one for one in found if one is not None]
        return max(known, key=lambda one: (one.on, one.seq), default=None)


def flown_while(hangar: Hangar, triggers: Triggers, each: bool = False) -> Iterator[Problem]:
    """A warning for each that ended of late, and one that counts the others.

    What is closed again, and flown by a keeper who was sure, is not told. each: a warning for every
    one, however long ago.
    """
    since = hangar.as_of - datetime.timedelta(days=TOLD_DAYS)
    if each:
        since = datetime.date.min
    found = _together(hangar, triggers)
    late = [alike for alike in found if _last(alike) >= since]
    yield from (_problem(hangar, one) for one in late if each or not _answered(hangar, one))
    yield from _never_checked(hangar, since)
    earlier = [alike for alike in found if _last(alike) < since]
    if earlier:
        times = "once" if len(earlier) == 1 else f"{len(earlier)} times"
        yield Problem(
            f"{times} before {since} it was flown while something that grounds was open",
            earlier[-1][0].flights[0].place,
            "warning",
            "check --all lists them",
        )


def flown_while_earlier(hangar: Hangar, triggers: Triggers) -> tuple[Problem, ...]:
    """A warning for each that ``flown_while`` only counts."""
    since = hangar.as_of - datetime.timedelta(days=TOLD_DAYS)
    found = _together(hangar, triggers)
    return tuple(
        _problem(hangar, alike)
        for alike in found
        if _last(alike) < since or _answered(hangar, alike)
    )


def _together(hangar: Hangar, triggers: Triggers) -> list[list[Stretch]]:
    """By aircraft; those that are about the same flights and the same kind of thing together."""
    programmes = Programmes(hangar.ledger.programmes, hangar.as_of)
    found: dict[tuple[object, ...], list[Stretch]] = {}
    for slug in sorted(hangar.aircraft):
        aircraft = hangar.aircraft[slug]
        programme = programmes.named(aircraft.programme)
        for one in all_stretches_of(hangar, triggers, aircraft, programme):
            first, last = one.flights[0], one.flights[-1]
            kind = "open" if one.what.kind in ("check", "look") else one.what.kind
            key = (slug, kind, first.seq, first.row_index, last.seq, len(one.flights))
            found.setdefault(key, []).append(one)
    return list(found.values())


def _answered(hangar: Hangar, alike: Sequence[Stretch]) -> bool:
    """Whether it is closed, and the keeper was sure of each of its flights."""
    return all(one.closed_on is not None for one in alike) and all(
        flight.uid in hangar.sure for flight in alike[0].flights
    )


def _last(alike: Sequence[Stretch]) -> datetime.date:
    return alike[0].flights[-1].on


def _problem(hangar: Hangar, alike: Sequence[Stretch]) -> Problem:
    one = alike[0]
    first, last = one.flights[0], one.flights[-1]
    times = amounts.count("time", len(one.flights))
    when = f"on {first.on}" if first.on == last.on else f"{first.on} to {last.on}"
    stations = hangar.aircraft[one.aircraft].motor_stations
    return Problem(
        f"{one.aircraft} flown {times} while {_open(alike, stations)}, {when}",
        first.place,
        "warning",
        _closed(alike, stations),
        (),
        one.aircraft,
        of_standing=True,
    )


def _never_checked(hangar: Hangar, since: datetime.date) -> Iterator[Problem]:
    """Flown, while of all that grounds it until it was checked nothing was written: one warning.

    From its first check on the stretches tell what was open.
    """
    programmes = Programmes(hangar.ledger.programmes, hangar.as_of)
    for slug, aircraft in sorted(hangar.aircraft.items()):
        programme = programmes.named(aircraft.programme)
        if programme is None or aircraft.status != "flying" or not aircraft.flights:
            continue
        asked = {one.rule.check for one in programme.checks if one.rule.grounds} - {CHECK_FLIGHT}
        if not asked or asked & {*checks_of(aircraft)} or aircraft.flights[-1].on < since:
            continue
        times = amounts.count("time", len(aircraft.flights))
        yield Problem(
            f"{slug} flown {times}, and no check of it is written",
            aircraft.flights[0].place,
            "warning",
            "it is grounded until its checks are done: buildbook due lists them",
            (),
            slug,
            once=f"{slug} flown, and no check of it is written",
            of_standing=True,
        )


def _open(alike: Sequence[Stretch], stations: Sequence[str]) -> str:
    """``failsafe and range were open``, ``missing motor of rear-left``, ``stored``."""
    what = alike[0].what
    if what.kind == "status":
        return what.name
    names = _names((one.what for one in alike), stations)
    if what.kind == "missing part":
        return f"missing {amounts.listed(names)}"
    return f"{amounts.listed(names)} {'was' if len(names) == 1 else 'were'} open"


def _names(what: Iterable[Meanwhile], stations: Sequence[str]) -> list[str]:
    """Each check and look once, with the stations or items where not all of them were open."""
    found: dict[str, list[str]] = {}
    for one in what:
        found.setdefault(one.name, []).extend([one.of] if one.of else [])
    return [
        f"{name} of {', '.join(of)}" if of and set(of) != set(stations) else name
        for name, of in found.items()
    ]


def _closed(alike: Sequence[Stretch], stations: Sequence[str]) -> str | None:
    """When it was passed, or what still is not."""
    if alike[0].what.kind not in ("check", "look"):
        return None
    still = [one.what for one in alike if one.closed_on is None]
    if still:
        return f"not passed since: {amounts.listed(_names(still, stations))}"
    days = [one.closed_on for one in alike if one.closed_on is not None]
    return f"passed or cleared on {days[0]}" if len(set(days)) == 1 else f"all by {max(days)}"
