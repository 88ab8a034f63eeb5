"""The work list: what to do first, what next, and what is in order."""

from collections.abc import Iterable

import msgspec

from buildbook.pages.addresses import address_of
from buildbook.pages.lapses import lapse_of
from buildbook.pages.page import Page, crumbs
from buildbook.records.notices import Notice
from buildbook.report.packs.health import worst_first
from buildbook.report.reports import Reports
from buildbook.report.upkeep.flown import told_first
from buildbook.report.upkeep.jobs import Job
from buildbook.words.measures.days import EXACT
from buildbook.words.measures.intervals import interval_words
from buildbook.words.work_list import GROUP_WORDS, HEADING, LED, MOST, grouped, raised_of

MOST_IN_SIGHT = 24
"""Jobs of a group. Of more each aircraft has a line where they ground it, else each kind of job
one to unfold."""

MOST_PACKS, PACKS_OF_MANY = 24, 5
"""So many packs stand in the table; of more those of which something is open, but at least five."""

MOST_AIRCRAFT = 20
"""With what is in order of each folded here; of more it stands on their own pages alone."""


class Told(msgspec.Struct, frozen=True, kw_only=True):
    """A notice, the names of the kinds of part that it is about, and how it comes round."""

    notice: Notice
    parts: tuple[str, ...]
    again: str | None


class InOrder(msgspec.Struct, frozen=True, kw_only=True):
    """What is in order on one aircraft, or (None) on packs and in the drawer.

    holding: checks that hold; partly: names of those that hold at some stations only. coming: tasks
    and limits, what comes first standing first. dropped: rows that the keeper's programme leaves
    out.
    """

    aircraft: str | None
    holding: tuple[Job, ...]
    coming: tuple[Job, ...]
    dropped: tuple[Job, ...]
    partly: frozenset[str]


def page(reports: Reports, _key: str) -> Page:
    """All rows of upkeep, those that are alike as one, grouped by what to do first."""
    jobs = reports.jobs()
    groups = tuple(found for found in grouped(jobs) if found[0] != "later")
    packs = worst_first(reports.packs())
    open_ = sum(line.standing != "nothing open" for line in packs)
    shown = len(packs) if len(packs) <= MOST_PACKS else max(open_, PACKS_OF_MANY)
    return Page(
        address=address_of("due"),
        template="due.html.j2",
        title="What is due",
        crumbs=crumbs(reports),
        facts={
            "groups": groups,
            "long": {
                group: by_aircraft(found) if group == "first" else by_kind(found)
                for group, found in groups
                if len(found) > MOST_IN_SIGHT
            },
            "lapsing": lapsing(reports, jobs),
            "in_order": in_order(jobs),
            "many": len(reports.hangar.aircraft) > MOST_AIRCRAFT,
            "headings": GROUP_WORDS,
            "hands_on": any(job.propellers_off and job.group != "later" for job in jobs),
            "set_aside": any(pack.state == "quarantined" for pack in reports.work.packs),
            "packs": packs[:shown],
            "more_packs": packs[shown:],
            "programmes": reports.programmes(),
            "notices": notices(reports),
            "raised": raised_of(reports, reports.hangar.aircraft, EXACT),
            "remarks": told_first(reports.remarks(), MOST)[0],
            "remarks_heading": HEADING,
            "remarks_led": LED,
            "check_flight": any(_asks_for_flight(job.row) for job in jobs),
        },
        about=f"The work list of {reports.hangar.ledger.keeper.hangar}.",
    )


def lapsing(reports: Reports, jobs: Iterable[Job]) -> tuple[Job, ...]:
    """Those that ground by their day and not before, the first to do so first."""
    found = ((lapse_of(reports, job), job) for job in jobs if job.group != "first")
    dated = [(row.grounds_from, job) for row, job in found if row and row.grounds_from]
    return tuple(job for _, job in sorted(dated, key=lambda each: each[0]))


def notices(reports: Reports) -> tuple[Told, ...]:
    """Notices issued up to the day shown, newest first, with the kinds of part by name."""
    ledger = reports.hangar.ledger
    issued = [notice for notice in ledger.notices.values() if notice.issued <= reports.hangar.as_of]
    issued.sort(key=lambda notice: (-notice.issued.toordinal(), notice.notice))
    return tuple(
        Told(
            notice=notice,
            parts=tuple(
                ledger.specs[spec].title if spec in ledger.specs else spec for spec in notice.specs
            ),
            again=interval_words(notice.every),
        )
        for notice in issued
    )


def by_aircraft(jobs: Iterable[Job]) -> tuple[tuple[str | None, tuple[Job, ...]], ...]:
    """Jobs by aircraft, in the order in which each is first named; None for what is on none."""
    found: dict[str | None, list[Job]] = {}
    for job in jobs:
        found.setdefault(job.aircraft or None, []).append(job)
    return tuple((slug, tuple(of_one)) for slug, of_one in found.items())


def by_kind(jobs: Iterable[Job]) -> tuple[tuple[Job, ...], ...]:
    """Jobs that are the same thing to do, on whatever aircraft or items; those of no row alone."""
    found: dict[object, list[Job]] = {}
    for job in jobs:
        key = (job.row.kind, job.row.name) if job.row else len(found)
        found.setdefault(key, []).append(job)
    return tuple(map(tuple, found.values()))


def in_order(jobs: Iterable[Job]) -> tuple[InOrder, ...]:
    """Of all jobs those that are in order, by aircraft; packs and the drawer last."""
    jobs = tuple(jobs)
    later = tuple(job for job in jobs if job.group == "later")
    open_ = tuple(job for job in jobs if job.group != "later")
    slugs = sorted({job.aircraft for job in later if job.aircraft})
    subjects: tuple[str | None, ...] = (*slugs, None)
    return tuple(
        InOrder(
            aircraft=slug,
            holding=tuple(job for job in found if job.state == "ok" and _kind(job) == "check"),
            coming=tuple(job for job in found if job.state == "ok" and _kind(job) != "check"),
            dropped=tuple(job for job in found if job.state == "not applicable"),
            partly=frozenset(job.row.name for job in open_ if job.row and job.aircraft == slug),
        )
        for slug in subjects
        if (found := tuple(job for job in later if job.aircraft == slug))
    )


def _kind(job: Job) -> str:
    return job.row.kind if job.row else ""


def _asks_for_flight(row: object) -> bool:
    because = getattr(row, "because", None)
    return because is not None and because.why == "check flight"
