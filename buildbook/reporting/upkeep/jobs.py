"""Rows of upkeep become jobs, the worst group first; how one aircraft or pack stands in them."""

import datetime
from collections.abc import Iterable, Iterator, Mapping

import msgspec

from buildbook.records.programmes import CheckRule
from buildbook.records.row_names import SPIN_DIRECTIONS
from buildbook.report.history import DefectState
from buildbook.report.state import Hangar
from buildbook.report.upkeep.findings import DefectFound
from buildbook.report.upkeep.jobs import GROUPS, Glance, Group, Job, Range, in_sight
from buildbook.report.upkeep.work import (
    NOTHING_TO_DO,
    OPEN_ANYHOW,
    PackStanding,
    Reason,
    Row,
    RowKey,
    Standing,
    WorkList,
)
from buildbook.reporting.whole import Whole
from buildbook.upkeep.counted import expected
from buildbook.upkeep.work_list import set_up as worked_out


def aircraft_standing(whole: Whole, slug: str) -> Standing:
    """How an aircraft stands. An aircraft that upkeep says nothing of: nothing can be said."""
    return next(
        (found for found in whole.work.aircraft if found.slug == slug),
        Standing(
            slug=slug,
            name=whole.hangar.aircraft[slug].record.aircraft,
            state="cannot say",
        ),
    )


def pack_standing(whole: Whole, tag: str) -> PackStanding:
    """How a pack stands; without a standing, the state of the item."""
    return next(
        (found for found in whole.work.packs if found.tag == tag),
        PackStanding(tag=tag, state=whole.hangar.items[tag].state.state),
    )


_AT_FITTING = (None, "interval", "trigger", "never done")
"""Why a task of a spare part need not be told before it is fitted; a failed look must be."""


def waits_for_fitting(hangar: Hangar, row: Row) -> bool:
    """Whether it is what comes round of a part in the drawer: told on its page, and once fitted."""
    item = hangar.items.get(row.tag or "")
    if item is None or item.is_pack or row.aircraft is not None or row.kind != "task":
        return False
    return (None if row.because is None else row.because.why) in _AT_FITTING


def dated_work(whole: Whole) -> tuple[Row, ...]:
    """Rows of the work list with a day of their own, by day, aircraft and name."""
    rows = [
        row
        for row in whole.work.rows
        if row.due_on and row.state != "not applicable" and not waits_for_fitting(whole.hangar, row)
    ]
    return tuple(sorted(rows, key=_glance_order))


def _glance_order(row: Row) -> tuple[datetime.date, str, str, str, str, str]:
    due_on = row.due_on or datetime.date.min
    return (due_on, row.aircraft or "", row.kind, row.name, row.tag or "", row.station or "")


def glance(whole: Whole, slug: str) -> Glance:
    """What to do first on an aircraft, and how much else is open."""
    reports = whole.reports
    jobs = [job for job in reports.jobs_of_aircraft(slug) if job.state != "not applicable"]
    left: set[str] = set()
    if whole.hangar.aircraft[slug].status == "building":
        left = {rule.check for rule in open_checks(whole, slug)}
    also, more = in_sight([job for job in jobs[1:] if job.group != "later"], 0)
    return Glance(
        first=jobs[0] if jobs else None,
        also=also,
        more=more,
        open_checks=len(left),
    )


_SOON = ("due soon", "deferred")


def jobs(whole: Whole) -> tuple[Job, ...]:
    """All jobs of the hangar, worst group first, else in the order of the work list.

    What comes round of a spare part waits until it is fitted: its own page says it.
    """
    rows = tuple(row for row in whole.work.rows if not waits_for_fitting(whole.hangar, row))
    return jobs_of_work(whole.hangar, msgspec.structs.replace(whole.work, rows=rows))


def jobs_of_aircraft(whole: Whole, slug: str) -> tuple[Job, ...]:
    """The jobs of one aircraft."""
    standing = aircraft_standing(whole, slug)
    rows = (row for row in whole.work.rows if row.aircraft == slug)
    return _sorted([*_jobs(whole.hangar, rows, (standing,)), *_without_rows((standing,))])


def jobs_of_item(whole: Whole, tag: str) -> tuple[Job, ...]:
    """The jobs of one item."""
    return jobs_from(whole, (row for row in whole.work.rows if row.tag == tag))


def work_around(whole: Whole, slug: str) -> WorkList:
    """The work list of one aircraft, of what it carries, and of the packs flown on it."""
    hangar, work = whole.hangar, whole.work
    tags = {fitted.tag for fitted in hangar.aircraft[slug].items()}
    tags |= {tag for tag, item in hangar.items.items() if slug in item.flown_on}
    return WorkList(
        as_of=work.as_of,
        aircraft=tuple(standing for standing in work.aircraft if standing.slug == slug),
        packs=tuple(pack for pack in work.packs if pack.tag in tags),
        rows=tuple(row for row in work.rows if row.aircraft == slug or row.tag in tags),
    )


def jobs_around(whole: Whole, slug: str) -> tuple[Job, ...]:
    """The jobs of that part of the work list."""
    return jobs_of_work(whole.hangar, work_around(whole, slug))


def jobs_of_work(hangar: Hangar, work: WorkList) -> tuple[Job, ...]:
    """The jobs of a work list."""
    standings: tuple[Standing | PackStanding, ...] = (*work.aircraft, *work.packs)
    return _sorted([*_jobs(hangar, work.rows, standings), *_without_rows(work.aircraft)])


def jobs_from(whole: Whole, rows: Iterable[Row]) -> tuple[Job, ...]:
    """Jobs made of these rows, worst group first."""
    rows = tuple(rows)
    slugs = dict.fromkeys(row.aircraft for row in rows if row.aircraft)
    tags = dict.fromkeys(row.tag for row in rows if row.tag and row.aircraft is None)
    standings: list[Standing | PackStanding] = [aircraft_standing(whole, slug) for slug in slugs]
    standings += [pack_standing(whole, tag) for tag in tags if tag in whole.hangar.items]
    return _sorted(_jobs(whole.hangar, rows, standings))


def _sorted(found: Iterable[Job]) -> tuple[Job, ...]:
    """By group; of what is open now, what failed first: it decides whether the rest is done.

    Then what is flown with, broken, for as long as nobody says until when.
    """
    return tuple(sorted(found, key=_order))


def _order(job: Job) -> tuple[int, int]:
    first = {"failed": 0, "deferred": 1}.get(job.state, 2) if job.group == "now" else 0
    return GROUPS.index(job.group), first


def _jobs(
    hangar: Hangar, rows: Iterable[Row], standings: Iterable[Standing | PackStanding]
) -> Iterator[Job]:
    grounding = _grounding(standings)
    bundles: dict[object, list[Row]] = {}
    for row in rows:
        bundles.setdefault(_alike(row), []).append(row)
    for bundle in bundles.values():
        yield _job(hangar, tuple(bundle), any(row.key in grounding for row in bundle))


def _job(hangar: Hangar, rows: tuple[Row, ...], grounding: bool) -> Job:
    row = rows[0]
    found = _defect_of(hangar, row) if row.kind == "defect" else None
    due = [one.due_on for one in rows if one.due_on is not None]
    expected = [one.expected for one in rows if one.expected is not None]
    return Job(
        group=_group(row, grounding),
        state=row.state,
        aircraft=row.aircraft,
        rows=rows,
        left=_left(rows),
        first_by=row.first_by,
        due_on=(min(due), max(due)) if due else None,
        expected=(min(early for early, _ in expected), max(late for _, late in expected))
        if expected
        else None,
        instruction=getattr(row.rule, "what", None) or "",
        defect=found.defect if found else None,
        propellers_off=getattr(row.rule, "propellers", None) == "off",
    )


def _left(rows: Iterable[Row]) -> Mapping[str, Range]:
    """By unit, from the row with the least left to the one with the most."""
    found: dict[str, list[Row]] = {}
    for row in rows:
        for unit in row.left:
            found.setdefault(unit, []).append(row)
    ranges = {}
    for unit, counted in found.items():
        least = min(counted, key=lambda row: row.left[unit])
        ranges[unit] = Range(
            low=least.left[unit],
            high=max(row.left[unit] for row in counted),
            least_of=least.tag or least.station,
        )
    return ranges


def _defect_of(hangar: Hangar, row: Row) -> DefectState | None:
    """The defect that a row is about."""
    entry = row.because.entry if row.because else None
    aircraft = hangar.aircraft.get(row.aircraft or "")
    item = hangar.items.get(row.tag or "")
    known = (*(aircraft.defects if aircraft else ()), *(item.defects if item else ()))
    return next((defect for defect in known if defect.uid == entry), None)


def _group(row: Row, grounding: bool) -> Group:
    if grounding:
        return "first"
    if row.state in NOTHING_TO_DO:
        return "later"
    return "soon" if row.state in _SOON and not _without_limit(row) else "now"


def _without_limit(row: Row) -> bool:
    """Whether it is a defect that waits, and nobody wrote until when."""
    found = None if row.because is None else row.because.found
    return isinstance(found, DefectFound) and not found.limited


def _without_rows(standings: Iterable[Standing]) -> Iterator[Job]:
    for standing in standings:
        for reason in standing.reasons:
            if reason.row is None:
                yield _job_of_reason(standing.slug, reason)


def _job_of_reason(slug: str, reason: Reason) -> Job:
    return Job(
        group="first" if reason.grounding else "now",
        state="grounded" if reason.grounding else "cannot say",
        aircraft=slug,
        reason=reason,
    )


def _grounding(standings: Iterable[Standing | PackStanding]) -> frozenset[RowKey]:
    return frozenset(
        reason.row.key
        for standing in standings
        for reason in standing.reasons
        if reason.grounding and reason.row is not None
    )


def _alike(row: Row) -> object:
    """Rows that are alike in this are one job; a defect is always one of its own.

    What is in order is one job by its name, with the range of what is left; what has nothing to
    come is another, or a day would be read as of all of them.
    """
    because = row.because
    if row.state in NOTHING_TO_DO:
        return (row.aircraft, row.kind, row.name, row.state, bool(row.left or row.due_on))
    return (
        row.aircraft,
        row.kind,
        row.name,
        row.state,
        tuple(sorted(row.left.items())),
        row.due_on,
        (because.why, because.trigger, because.unit, because.on) if because else None,
        because.found if because else None,
        row.tag if row.kind == "defect" else None,
    )


def spin_jobs(whole: Whole, slug: str) -> tuple[Job, ...]:
    """Spin directions that no check holds for, whatever the status of the aircraft."""
    rows = (row for row in whole.reports.set_up_checks(slug) if row.state in OPEN_ANYHOW)
    return jobs_from(whole, (row for row in rows if row.name == SPIN_DIRECTIONS and row.station))


def falls_due(whole: Whole, slug: str, duration_s: float) -> tuple[Row, ...]:
    """Rows of an aircraft that a flight of that length would bring to due."""
    return expected.falls_due(whole.work, whole.hangar, slug, duration_s)


def set_up_checks(whole: Whole, slug: str) -> tuple[Row, ...]:
    """As the work list has them; of an aircraft that isn't flying, worked out all the same.

    A failsafe that was tested again since, as a recurring task, says so on its check.
    """
    rows = tuple(row for one in whole.work.aircraft if one.slug == slug for row in one.rows)
    checks = tuple(row for row in rows if row.kind == "check") or worked_out(whole.hangar, slug)
    return tuple(_with_later_pass(check, rows) for check in checks)


def _with_later_pass(check: Row, rows: Iterable[Row]) -> Row:
    if not isinstance(check.rule, CheckRule) or check.station or check.tag:
        return check
    later = [
        (row.done_on, row.done_uid)
        for row in rows
        if row.kind == "task" and row.name in check.rule.covers and row.done_on is not None
        if check.done_on is None or row.done_on > check.done_on
    ]
    if not later:
        return check
    again_on, again_uid = max(later, key=lambda one: one[0])
    return msgspec.structs.replace(check, again_on=again_on, again_uid=again_uid)


_OPEN = ("never done", "trigger", "failed", "reading", "second person")
"""Why a check of the programme is open; other rows of this kind are closed by mending a record."""


def open_checks(whole: Whole, slug: str) -> tuple[CheckRule, ...]:
    """The set-up checks of an aircraft that are still to do, a rule for each open row of them.

    The check flight is not one: it comes after them.
    """
    return tuple(
        row.rule
        for row in whole.reports.set_up_checks(slug)
        if isinstance(row.rule, CheckRule) and row.because and row.because.why in _OPEN
    )
