"""What the rows of one hangar are made from, each gathered once."""

from collections.abc import Mapping
from functools import cached_property

from buildbook.figures.answers.craft import Craft
from buildbook.records.parts import DRIVE
from buildbook.records.programmes import LimitRule, TaskRule
from buildbook.records.row_names import STORAGE_CHARGE
from buildbook.report.history import Completion
from buildbook.report.state import AircraftNow, Hangar, ItemNow
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
from buildbook.upkeep.counted.expected import SILENT, Pace, flown_days, pace, pack_days
from buildbook.upkeep.counted.life import AircraftLife, Life, life_of
from buildbook.upkeep.packs.reserve import Judged, into_reserve
from buildbook.upkeep.programme import Programmes, checks_in, covering
from buildbook.upkeep.rows.follow_ups import follow_up_row
from buildbook.upkeep.rows.limits import limit_row
from buildbook.upkeep.rows.notices import by_spec, notice_row
from buildbook.upkeep.rows.storage import storage_row
from buildbook.upkeep.rows.tasks import comes_round, task_row
from buildbook.upkeep.rows.triggers import Triggers


class HangarContext:
    """One hangar: its programmes resolved, triggers indexed, rates of flying worked out."""

    def __init__(self, hangar: Hangar) -> None:
        self.hangar = hangar
        self.context = Context(hangar.as_of, hangar.ledger.keeper)
        self.triggers = Triggers(hangar)
        self.notices = by_spec(hangar.ledger.notices.values(), hangar.as_of)
        self.programmes = Programmes(hangar.ledger.programmes, hangar.as_of)
        self._covering: dict[str, Mapping[str, tuple[str, ...]]] = {}
        self._gliding: dict[str, bool] = {}
        self._paces: dict[tuple[str, bool], Pace | None] = {}
        self._into_reserve: dict[str, Judged] = {}
        self._crafts: dict[str, Craft] = {}

    @cached_property
    def timed(self) -> frozenset[str]:
        """The entries, by uid, of which the time is known."""
        return frozenset(entry.uid for entry in self.hangar.ledger.entries if entry.time)

    @cached_property
    def weighed_on(self) -> Mapping[str, set[str]]:
        """By pack, the aircraft that were weighed with it, by slug."""
        found: dict[str, set[str]] = {}
        for slug, aircraft in self.hangar.aircraft.items():
            for weighing in aircraft.weighings:
                if weighing.pack is not None:
                    found.setdefault(weighing.pack, set()).add(slug)
        return found

    def covering(self, programme: Resolved) -> Mapping[str, tuple[str, ...]]:
        """By task, what closes it as well in a programme of this hangar."""
        found = self._covering.get(programme.name)
        if found is None:
            found = self._covering[programme.name] = covering(programme)
        return found

    def craft(self, slug: str) -> Craft:
        """What answers ask of an aircraft."""
        if slug not in self._crafts:
            self._crafts[slug] = Craft(self.hangar, slug)
        return self._crafts[slug]

    def into_reserve(self, pack: ItemNow) -> Judged:
        """The flights of a pack that went into its reserve."""
        found = self._into_reserve.get(pack.tag)
        if found is None:
            found = self._into_reserve[pack.tag] = into_reserve(self.hangar, pack)
        return found

    def pace_of(self, aircraft: AircraftNow, *, driven: bool = False) -> Pace | None:
        """How often this aircraft has been flown of late; driven: by how long its motors ran."""
        slug = aircraft.slug
        if driven and slug not in self._gliding:
            self._gliding[slug] = any(one.motor_run_s is not None for one in aircraft.flights)
        key = (slug, driven and self._gliding[slug])
        if key not in self._paces:
            days = flown_days(aircraft.flights, driven=key[1])
            self._paces[key] = pace(days, self.hangar.as_of)
        return self._paces[key]

    def pace_of_item(self, item: ItemNow) -> Pace | None:
        """How often a pack was flown, or the aircraft that carries an item."""
        if item.is_pack:
            return pace(pack_days(item), self.hangar.as_of)
        if item.aircraft is None:
            return SILENT
        return self.pace_of(self.hangar.aircraft[item.aircraft], driven=item.spec.kind in DRIVE)


class OnAircraft:
    """Makes the rows of an airframe."""

    def __init__(self, gathered: HangarContext, aircraft: AircraftNow) -> None:
        self._gathered = gathered
        self._aircraft = aircraft
        self._life = AircraftLife(aircraft)
        self._jobs = tasks_of_aircraft(aircraft)
        self._subject = Subject(aircraft.slug, None, None, aircraft.record.place())

    def tasks(self, programme: Resolved) -> list[Row]:
        """One row for each task of the aircraft itself; none where nothing asks for it."""
        closed_by, checks = self._gathered.covering(programme), checks_in(programme)
        rules = (
            self._task(applied, closed_by.get(applied.rule.task, ()), checks)
            for applied in programme.tasks
            if applied.rule.each == "aircraft" and comes_round(applied.rule)
        )
        return [row for row in rules if row is not None]

    def _task(
        self, applied: Applied[TaskRule], others: tuple[str, ...], checks: frozenset[str]
    ) -> Row | None:
        gathered, aircraft, rule = self._gathered, self._aircraft, applied.rule
        subject, life, flown = self._subject, self._life, gathered.pace_of(aircraft)
        larger = (
            [done for done in passed(self._jobs.get(name, ())) if name in checks or _is_look(done)]
            for name in others
        )
        jobs = together(self._jobs.get(rule.task, ()), *larger)
        if rule.follows is not None:
            at_stations = (one for one in aircraft.checks if one.name in others and one.stations)
            jobs = together(jobs, passed(one for one in at_stations if one.cleared_on is None))
            return follow_up_row(
                gathered.context, applied, rule.follows, subject, life, flown, jobs, aircraft.events
            )
        reopened = gathered.triggers.at_station(aircraft, rule.also_after, None)
        return task_row(gathered.context, applied, subject, life, flown, jobs, reopened)

    def limits(self, programme: Resolved) -> list[Row]:
        """One row for each life limit of the aircraft itself."""
        gathered = self._gathered
        return [
            limit_row(
                gathered.context,
                applied,
                self._subject,
                self._life,
                gathered.pace_of(self._aircraft),
                self._life.began,
                None,
            )
            for applied in programme.life_limits
            if applied.rule.each == "aircraft"
        ]


def _is_look(done: Completion) -> bool:
    """Whether a task was written as the inspection that it is: only that closes what it covers."""
    return done.by_entry != "check"


class OnItem:
    """Makes the rows of one item, on an aircraft or on none."""

    def __init__(self, gathered: HangarContext, item: ItemNow) -> None:
        self._gathered = gathered
        self._item = item
        self._life: Life = life_of(gathered.hangar, item)
        station = None if item.fitted is None else item.fitted.station
        self._subject = Subject(item.aircraft, item.tag, station, item.item.place())

    @cached_property
    def _pace(self) -> Pace | None:
        return self._gathered.pace_of_item(self._item)

    @cached_property
    def _jobs(self) -> Mapping[str, list[Completion]]:
        return tasks_of_item(self._item)

    def tasks(self, *programmes: Resolved) -> list[Row]:
        """One row a task: of several programmes the strictest; none for a new spare."""
        if self._never_used():
            return []
        found: dict[str, list[Row]] = {}
        seen: list[TaskRule] = []
        for programme in programmes:
            closed_by, checks = self._gathered.covering(programme), checks_in(programme)
            for applied in programme.tasks:
                rule = applied.rule
                if rule.each != self._item.spec.kind or not comes_round(rule):
                    continue
                if any(rule is other for other in seen):
                    continue
                seen.append(rule)
                row = self._task(applied, closed_by.get(rule.task, ()), checks)
                if row is not None:
                    found.setdefault(rule.task, []).append(row)
        return [strictest(rows) for rows in found.values()]

    def _never_used(self) -> bool:
        """Whether it lies there as it was bought: nothing of it is to be looked at before a fit."""
        item = self._item
        return not item.is_pack and not item.stays and item.item.carried is None

    def _task(
        self, applied: Applied[TaskRule], names: tuple[str, ...], checks: frozenset[str]
    ) -> Row | None:
        gathered, rule = self._gathered, applied.rule
        if rule.task == STORAGE_CHARGE and self._item.is_pack:
            return storage_row(gathered.context, applied, self._subject, self._life, self._item)
        jobs: list[Completion] = self._jobs.get(rule.task, [])
        if names:
            others = (passed(self._jobs.get(name, ())) for name in names)
            of_checks = [name for name in names if name in checks]
            checked = passed(checks_of_item(self._gathered.hangar, self._item, of_checks))
            jobs = together(jobs, *others, checked)
        subject, life, flown = self._subject, self._life, self._pace
        if rule.follows is not None:
            return follow_up_row(
                gathered.context,
                applied,
                rule.follows,
                subject,
                life,
                flown,
                jobs,
                self._item.events,
            )
        reopened = gathered.triggers.on_item(self._item, rule.also_after)
        return task_row(gathered.context, applied, subject, life, flown, jobs, reopened)

    def notices(self) -> list[Row]:
        """One row for each notice about its spec."""
        gathered, item = self._gathered, self._item
        return [
            notice_row(gathered.context, notice, self._subject, self._life, self._pace, item)
            for notice in gathered.notices.get(item.item.spec, ())
        ]

    def limits(self, *programmes: Resolved) -> list[Row]:
        """One row a limit: of several programmes the strictest."""
        found: dict[str, list[Row]] = {}
        for programme in programmes:
            for applied in programme.life_limits:
                if applied.rule.each == self._item.spec.kind:
                    row = self._limit(applied)
                    found.setdefault(applied.rule.limit, []).append(row)
        return [strictest(rows) for rows in found.values()]

    def _limit(self, applied: Applied[LimitRule]) -> Row:
        item = self._item
        return limit_row(
            self._gathered.context, applied, self._subject, self._life, self._pace, item.born, item
        )


def strictest(rows: list[Row]) -> Row:
    """Of rows of one name: the worst, then the one with the most used up; the first of equals."""
    return min(rows, key=lambda row: (row.rank, -(row.used or 0.0)))
