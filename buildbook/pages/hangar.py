"""The front page: aircraft with drawing and state, what to do first, packs at a glance."""

import datetime
from collections.abc import Iterable, Sequence

import msgspec
from markupsafe import Markup

from buildbook.drawings.charts.bars import sparkline
from buildbook.drawings.layout.layout import layout_thumbnail
from buildbook.pages.addresses import address_of
from buildbook.pages.lapses import tallies
from buildbook.pages.page import Page
from buildbook.records.layouts import LAYOUTS
from buildbook.report.drawn.plans import MonthPlan
from buildbook.report.packs.health import PackLine, worst_first
from buildbook.report.reports import Reports
from buildbook.report.upkeep.jobs import Job
from buildbook.words.measures.days import month_number, month_words
from buildbook.words.measures.intervals import flown_words
from buildbook.words.upkeep.packs import health_mark, health_words

ORDER = (
    "grounded",
    "cannot say",
    "due soon",
    "nothing open",
    "building",
    "stored",
    "retired",
    "sold",
)
"""What keeps an aircraft on the ground stands first, then what can be flown."""

MOST_JOBS, OF_ANY = 5, 3
"""So many lines of the work list stand on the front page; the rest is on its own. Those after the
first few go to what comes up on other aircraft, so that one with a long list does not hide it."""

MOST_DRAWN = 16
"""So many aircraft stand with their drawing; in a larger hangar all are a line each, by state."""

DRAWN_OF_MANY = 4
"""Of a larger hangar: those that were flown last."""

_IN_SIGHT = ("grounded", "cannot say")
"""Aircraft that stand so are never folded away."""

MOST_PACKS, PACKS_OF_MANY = 24, 8
"""So many packs have a bar; of more the worst ones; all of them stand in stock."""


class Panel(msgspec.Struct, frozen=True, kw_only=True):
    """One aircraft at a glance.

    next: what to do first, or what comes round first; also: dangers besides; more: how many other
    lines are open. flying:
    by month, None where it did not fly in the last year. checks: set-up checks that are open
    while it is being built.
    """

    slug: str
    name: str
    state: str
    layout: str
    flights: int
    flown: str
    last_flown: datetime.date | None
    next: Job | None
    also: tuple[Job, ...]
    more: int
    checks: int
    drawing: Markup | None
    flying: Markup | None


class PackBar(msgspec.Struct, frozen=True, kw_only=True):
    """One pack: its health as a bar and in words, and its state where something is open.

    mark: the state whose mark stands beside the health. share, limit: of the rated capacity.
    """

    tag: str
    state: str
    cells: str
    mark: str
    words: str
    share: float | None
    limit: float


def page(reports: Reports, _key: str) -> Page:
    """The hangar."""
    keeper = reports.hangar.ledger.keeper
    jobs = reports.jobs()
    panels = sorted(
        (_panel(reports, slug) for slug in reports.hangar.aircraft),
        key=lambda panel: (ORDER.index(panel.state), panel.name),
    )
    first = first_jobs(jobs)
    packs = reports.packs()
    at_hand = [line for line in packs if line.at_hand]
    shown = worst_first(at_hand)[: MOST_PACKS if len(at_hand) <= MOST_PACKS else PACKS_OF_MANY]
    many = len(panels) > MOST_DRAWN
    return Page(
        address=address_of("hangar"),
        template="hangar.html.j2",
        title=keeper.hangar,
        facts={
            "panels": flown_last(panels) if many else tuple(panels),
            "by_state": by_state(panels) if many else (),
            "in_sight": _IN_SIGHT,
            "tallies": tallies(reports, reports.hangar.aircraft, ORDER),
            "fold_tallies": {
                state: tallies(reports, (one.slug for one in found), (state,))
                for state, found in (by_state(panels) if many else ())
            },
            "jobs": first,
            "more_jobs": sum(job.group in _URGENT and job not in first for job in jobs),
            "soon": sum(job.group == "soon" and job not in first for job in jobs),
            "packs": pack_bars(shown),
            "more_packs": len(at_hand) - len(shown),
            "packs_gone": len(packs) - len(at_hand),
            "quarantined": any(line.item_state == "quarantined" for line in at_hand),
        },
        about=f"The aircraft of {keeper.hangar}: what each is, how it stands, what comes next.",
    )


_URGENT = ("first", "now")


def first_jobs(jobs: Sequence[Job]) -> tuple[Job, ...]:
    """What to do first, in the order of the work list, of as many aircraft as there is room for."""
    urgent = by_turns(job for job in jobs if job.group in _URGENT)
    named = {job.aircraft for job in urgent}
    soon = by_turns(job for job in jobs if job.group == "soon" and job.aircraft not in named)
    kept = max(min(len(urgent), OF_ANY), len(named))
    others = soon[: max(MOST_JOBS - kept, 0)]
    chosen = (*urgent[: MOST_JOBS - len(others)], *others)
    return tuple(job for job in jobs if job in chosen)


def by_turns(jobs: Iterable[Job]) -> tuple[Job, ...]:
    """The first of each aircraft, then the second of each, and so on; packs are as one."""
    turns: list[list[Job]] = []
    had: dict[str | None, int] = {}
    for job in jobs:
        turn = had.get(job.aircraft, 0)
        had[job.aircraft] = turn + 1
        if turn == len(turns):
            turns.append([])
        turns[turn].append(job)
    return tuple(job for turn in turns for job in turn)


def pack_bars(packs: Iterable[PackLine]) -> tuple[PackBar, ...]:
    """Packs as bars of health, in their order."""
    return tuple(
        PackBar(
            tag=line.tag,
            state=line.standing,
            cells=line.title,
            mark=health_mark(line.health),
            words=health_words(line.health),
            share=line.health.share,
            limit=line.health.limit_share,
        )
        for line in packs
    )


def _panel(reports: Reports, slug: str) -> Panel:
    aircraft = reports.hangar.aircraft[slug]
    glance = reports.glance(slug)
    plan = reports.layout_outline(slug)
    layout = LAYOUTS.get(aircraft.record.layout)
    months = reports.months_flown(slug)
    return Panel(
        slug=slug,
        name=aircraft.record.aircraft,
        state=reports.aircraft_standing(slug).state,
        layout=layout.words if layout else aircraft.record.layout,
        flights=aircraft.counters.flights,
        flown=flown_words(aircraft.counters),
        last_flown=aircraft.flights[-1].on if aircraft.flights else None,
        next=glance.first,
        also=glance.also,
        more=glance.more,
        checks=glance.open_checks,
        drawing=layout_thumbnail(plan, f"thumb-{slug}") if plan else None,
        flying=_flying(slug, months),
    )


def _flying(slug: str, months: Sequence[MonthPlan]) -> Markup | None:
    """Flights by month; nothing where it did not fly in any of them."""
    if not any(month.flights for month in months):
        return None
    return sparkline(
        [month.flights for month in months],
        f"Flights by month, {_month(months[0])} to {_month(months[-1])}",
        f"flying-{slug}",
    )


def _month(plan: MonthPlan) -> str:
    return month_words(month_number(plan.month))


def flown_last(panels: Iterable[Panel]) -> tuple[Panel, ...]:
    """The few that were flown last, the newest first; fewer where others never flew."""
    flown = [(panel.last_flown, panel) for panel in panels if panel.last_flown is not None]
    flown.sort(key=lambda found: found[0], reverse=True)
    return tuple(panel for _, panel in flown[:DRAWN_OF_MANY])


def by_state(panels: Iterable[Panel]) -> tuple[tuple[str, tuple[Panel, ...]], ...]:
    """All of them by how they stand; what is never folded away stands first."""
    found: dict[str, list[Panel]] = {}
    for panel in panels:
        found.setdefault(panel.state, []).append(panel)
    states = sorted(found, key=lambda state: state not in _IN_SIGHT)
    return tuple((state, tuple(found[state])) for state in states)
