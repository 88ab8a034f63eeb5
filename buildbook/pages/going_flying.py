"""What to take to the field, what to look at, and what a usual day out would bring to due."""

import statistics
from collections.abc import Iterable

import msgspec

from buildbook.basis import saying
from buildbook.pages.addresses import address_of
from buildbook.pages.jobs import Job, jobs_from
from buildbook.pages.page import Page
from buildbook.pages.preflight import looks
from buildbook.pages.standings import standing_of
from buildbook.pages.stock import packs_in_order
from buildbook.records.parts import Spec
from buildbook.records.programmes import TaskRule
from buildbook.report import ranks
from buildbook.report.reports import Reports
from buildbook.report.state import AircraftNow, ItemNow
from buildbook.report.tally import Flown
from buildbook.report.work import Row
from buildbook.upkeep.planned import reached_by
from buildbook.upkeep.programme import resolve

RECENT = 10
"""So many of the last flying days make the usual one."""

_GO = ("nothing open", "due soon", "cannot say")


class Outing(msgspec.Struct, frozen=True, kw_only=True):
    """A usual day out with one aircraft, by its own log; None where it has none."""

    flights: int
    duration_s: float


class Candidate(msgspec.Struct, frozen=True, kw_only=True):
    """An aircraft that could be taken. coming: what the outing would bring to due."""

    slug: str
    state: str
    outing: Outing | None
    coming: tuple[Job, ...]
    check_flight: bool
    packs: tuple[str, ...]


class Spare(msgspec.Struct, frozen=True, kw_only=True):
    """A part that flying aircraft carry, and how many serviceable ones are in the drawer."""

    kind: str
    title: str
    size: str
    hand: str
    fitted: int
    aircraft: tuple[str, ...]
    spares: tuple[str, ...]


class Moment(msgspec.Struct, frozen=True, kw_only=True):
    """A task of a programme that belongs to a moment, such as ``before each flight``."""

    task: str
    what: str
    programmes: tuple[str, ...]


def keys(_reports: Reports) -> Iterable[str]:
    """There is one."""
    return ("",)


def page(reports: Reports, _key: str) -> Page:
    """The list for a day at the field."""
    flying = [slug for slug, now in reports.hangar.aircraft.items() if now.status == "flying"]
    found = [_candidate(reports, slug) for slug in flying]
    packs = packs_in_order(reports)
    usable = tuple(line for line in packs if line.pack.state.state == "serviceable")
    wings = any(reports.hangar.aircraft[slug].record.kind == "aeroplane" for slug in flying)
    return Page(
        address=address_of("going-flying"),
        template="going_flying.html.j2",
        title="Going flying",
        crumbs=((address_of("hangar"), reports.hangar.ledger.keeper.hangar),),
        facts={
            "take": sorted(
                (one for one in found if one.state in _GO),
                key=lambda one: (_GO.index(one.state), one.slug),
            ),
            "leave": tuple(one for one in found if one.state not in _GO),
            "home": tuple(line for line in packs if line.state == "quarantined"),
            "to_charge": tuple(
                line for line in usable if line.rest.left not in ("full", "charged")
            ),
            "full": tuple(line for line in usable if line.rest.left in ("full", "charged")),
            "resting": _resting(reports),
            "spares": spares(reports, flying),
            "moments": moments(reports, flying),
            "looks": looks(wings=wings),
        },
        about="What to take, what to look at, and what falls due on a usual day out.",
    )


def usual_outing(aircraft: AircraftNow) -> Outing | None:
    """The median flights and flying time of the last days on which it flew."""
    days: dict[object, list[float]] = {}
    for flight in aircraft.flights:
        days.setdefault(flight.on, []).append(flight.duration_s)
    recent = list(days.values())[-RECENT:]
    if not recent:
        return None
    return Outing(
        flights=statistics.median_high(len(day) for day in recent),
        duration_s=statistics.median_high(saying.total_seconds(day) for day in recent),
    )


def spares(reports: Reports, slugs: Iterable[str]) -> tuple[Spare, ...]:
    """Motors, ESCs and propellers that these aircraft carry, with what the drawer has of each."""
    carried: dict[str, list[tuple[str, str]]] = {}
    for slug in slugs:
        for fitted in reports.hangar.aircraft[slug].items():
            item = reports.hangar.items.get(fitted.tag)
            if item is not None and fitted.kind in ("propeller", "motor", "esc", "servo"):
                carried.setdefault(item.spec.spec, []).append((slug, fitted.tag))
    order = ("propeller", "motor", "esc", "servo")
    specs = reports.hangar.ledger.specs
    names = sorted(
        (name for name in carried if name in specs),
        key=lambda name: (
            order.index(specs[name].kind),
            _size(specs[name]),
            specs[name].title,
        ),
    )
    return tuple(
        Spare(
            kind=specs[name].kind,
            title=specs[name].title,
            size=_size(specs[name]),
            hand=specs[name].hand or "",
            fitted=len(carried[name]),
            aircraft=tuple(dict.fromkeys(slug for slug, _ in carried[name])),
            spares=tuple(sorted(item.tag for item in _loose(reports, name))),
        )
        for name in names
    )


def moments(reports: Reports, slugs: Iterable[str]) -> tuple[tuple[str, tuple[Moment, ...]], ...]:
    """Tasks that belong to a moment at the field, by moment, with the programmes that ask."""
    found: dict[tuple[str, str, str], list[str]] = {}
    names = sorted({standing_of(reports, slug).programme or "" for slug in slugs} - {""})
    for name in names:
        resolved = resolve(reports.hangar.ledger.programmes, name)
        for applied in resolved.tasks if resolved else ():
            rule: TaskRule = applied.rule
            if rule.when and rule.each != "battery":
                found.setdefault((rule.when, rule.task, rule.what), []).append(name)
    by_moment: dict[str, list[Moment]] = {}
    for (when, task, what), asking in found.items():
        moment = Moment(task=task, what=what, programmes=tuple(asking))
        by_moment.setdefault(when, []).append(moment)
    return tuple((when, tuple(tasks)) for when, tasks in by_moment.items())


def _size(spec: Spec) -> str:
    return spec.size.written if spec.size else ""


def _loose(reports: Reports, spec: str) -> Iterable[ItemNow]:
    return (
        item
        for item in reports.hangar.items.values()
        if item.spec.spec == spec and item.aircraft is None and item.state.state == "serviceable"
    )


def _candidate(reports: Reports, slug: str) -> Candidate:
    standing = standing_of(reports, slug)
    outing = usual_outing(reports.hangar.aircraft[slug])
    coming = (
        row
        for row in standing.rows
        if outing is not None
        and row.rank in (ranks.DUE_SOON, ranks.FINE, ranks.NOTED)
        and reached_by(row, Flown(outing.duration_s, outing.flights, 1))
    )
    return Candidate(
        slug=slug,
        state=standing.state,
        outing=outing,
        coming=jobs_from(reports, coming),
        check_flight=any(reason.because.why == "check flight" for reason in standing.reasons),
        packs=tuple(
            tag
            for tag, item in reports.hangar.items.items()
            if item.is_pack and slug in item.flown_on and item.state.state == "serviceable"
        ),
    )


def _resting(reports: Reports) -> tuple[Row, ...]:
    """Packs that rest too full, or soon will."""
    return tuple(
        row
        for row in reports.work.rows
        if row.name == "pack-storage-charge" and row.state not in ("ok", "not applicable")
    )
