"""Flights while a task that grounds was stale, or past its tolerance, by what was flown by then.

Only of tasks whose rule says ``grounds: true``: each flight asks the row of the task anew, as the
work list would have had it that day.
"""

import datetime
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from operator import attrgetter

from buildbook.records.programmes import TaskRule
from buildbook.report.history import Completion, Event, FlightDone, Stay
from buildbook.report.state import AircraftNow, Hangar, ItemNow
from buildbook.report.upkeep.flown import Meanwhile
from buildbook.report.upkeep.programme import Applied, Resolved
from buildbook.report.upkeep.work import Row
from buildbook.upkeep.context import Context, Subject
from buildbook.upkeep.counted.completions import (
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
from buildbook.upkeep.programme import covering
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
