"""What to take to the field, and what falls due on a usual day out."""

import statistics
from collections.abc import Iterable, Iterator, Sequence

from buildbook.basis.amounts import total_seconds
from buildbook.records.parts import Spec
from buildbook.records.row_names import STORAGE_CHARGE
from buildbook.report.outing import Candidate, FieldTask, GoingFlying, Outing, Spare
from buildbook.report.state import FIT, AircraftNow, Hangar, ItemNow
from buildbook.report.tally import Flown
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.jobs import Job
from buildbook.report.upkeep.work import NOTHING_TO_DO, Reason
from buildbook.reporting.packs import rest
from buildbook.reporting.upkeep.jobs import (
    aircraft_standing,
    jobs_from,
    jobs_of_aircraft,
    pack_standing,
)
from buildbook.reporting.whole import Whole
from buildbook.upkeep.counted.expected import reached_by
from buildbook.upkeep.packs.pack_rows import parts_against
from buildbook.upkeep.programme import resolve

RECENT = 10
"""So many of the last flying days make the usual one."""

_GOES = ("nothing open", "due soon", "cannot say")
_CARRIED = ("propeller", "motor", "esc", "servo")


def going_flying(whole: Whole) -> GoingFlying:
    """The list for a day at the field."""
    hangar = whole.hangar
    flying = [slug for slug, now in hangar.aircraft.items() if now.status == "flying"]
    found = [_candidate(whole, slug) for slug in flying]
    found.sort(key=_order)
    return GoingFlying(
        candidates=tuple(found),
        resting=tuple(
            row
            for row in whole.work.rows
            if row.name == STORAGE_CHARGE and row.state not in NOTHING_TO_DO
        ),
        spares=spares(hangar, flying),
        tasks=field_tasks(whole, flying),
        wings=any(hangar.aircraft[slug].record.kind == "aeroplane" for slug in flying),
    )


def _order(one: Candidate) -> tuple[bool, bool, int, str]:
    """What goes before what stays, a charged pack before none, the better state before the worse;
    what stays keeps the order of the hangar."""
    if not one.goes:
        return True, False, 0, ""
    return False, one.none_charged, _GOES.index(one.state), one.slug


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
        duration_s=statistics.median_high(total_seconds(day) for day in recent),
    )


def spares(hangar: Hangar, slugs: Iterable[str]) -> tuple[Spare, ...]:
    """Motors, ESCs, propellers, servos that these aircraft carry, with what the drawer has."""
    carried: dict[str, list[tuple[str, str]]] = {}
    for slug in slugs:
        for fitted in hangar.aircraft[slug].items():
            item = hangar.items.get(fitted.tag)
            if item is not None and fitted.kind in _CARRIED:
                carried.setdefault(item.spec.spec, []).append((slug, fitted.tag))
    specs = hangar.ledger.specs
    found = [specs[name] for name in carried if name in specs]
    found.sort(key=lambda spec: (_CARRIED.index(spec.kind), _size(spec), spec.title))
    return tuple(_spare(hangar, spec, carried[spec.spec]) for spec in found)


def _spare(hangar: Hangar, spec: Spec, carried: Sequence[tuple[str, str]]) -> Spare:
    return Spare(
        kind=spec.kind,
        title=spec.title,
        size=_size(spec),
        hand=spec.hand or "",
        fitted=len(carried),
        aircraft=tuple(dict.fromkeys(slug for slug, _ in carried)),
        spares=tuple(
            sorted(
                item.tag
                for item in hangar.items.values()
                if item.spec.spec == spec.spec and item.aircraft is None and item.condition in FIT
            )
        ),
    )


def _size(spec: Spec) -> str:
    return spec.size.written if spec.size else ""


def field_tasks(whole: Whole, slugs: Iterable[str]) -> tuple[FieldTask, ...]:
    """Tasks that belong to a moment at the field, by moment, with the programmes that ask."""
    found: dict[tuple[str, str, str], list[str]] = {}
    for name in sorted({aircraft_standing(whole, slug).programme or "" for slug in slugs} - {""}):
        resolved = resolve(whole.hangar.ledger.programmes, name, as_of=whole.hangar.as_of)
        for applied in resolved.tasks if resolved else ():
            rule = applied.rule
            if rule.when and rule.each != "battery":
                found.setdefault((rule.when, rule.task, rule.what), []).append(name)
    moments = list(dict.fromkeys(when for when, _, _ in found))
    return tuple(
        FieldTask(when=when, task=task, what=what, programmes=tuple(asking))
        for (when, task, what), asking in sorted(
            found.items(), key=lambda each: moments.index(each[0][0])
        )
    )


def _candidate(whole: Whole, slug: str) -> Candidate:
    standing = aircraft_standing(whole, slug)
    outing = usual_outing(whole.hangar.aircraft[slug])
    jobs = jobs_of_aircraft(whole, slug)
    coming = (
        row
        for row in standing.rows
        if outing is not None and reached_by(row, Flown(outing.duration_s, outing.flights, 1))
    )
    fit = tuple(_packs_for(whole, whole.hangar.aircraft[slug]))
    known = [item for item in fit if slug in item.flown_on] or fit
    return Candidate(
        slug=slug,
        state=standing.state,
        goes=standing.state in _GOES,
        outing=outing,
        coming=jobs_from(whole, coming),
        grounds=_as_jobs(jobs, (one for one in standing.reasons if one.grounding)),
        open=_in_order(
            jobs,
            (
                one
                for one in standing.reasons
                if not one.grounding
                and one.because.why != "check flight"
                and (one.because.why == "defect" or one.rank not in (ranks.DUE_SOON, ranks.NOTED))
            ),
        ),
        check_flight=any(reason.because.why == "check flight" for reason in standing.reasons),
        none_charged=bool(known) and not any(rest(item).charged for item in known),
        packs=tuple(item.tag for item in fit if slug in item.flown_on),
        others=tuple(item.tag for item in fit if slug not in item.flown_on),
    )


def _packs_for(whole: Whole, aircraft: AircraftNow) -> Iterator[ItemNow]:
    """Packs that may be flown, and have the cells that its parts are made for."""
    for tag, item in whole.hangar.items.items():
        if (
            item.is_pack
            and item.state.state == "serviceable"
            and pack_standing(whole, tag).state != "grounded"
            and not parts_against(whole.hangar, aircraft, item)
        ):
            yield item


def _in_order(jobs: Iterable[Job], reasons: Iterable[Reason]) -> tuple[Job, ...]:
    """The same in the order of the jobs: the field card has no other."""
    jobs = tuple(jobs)
    stands = {id(job) for job in _as_jobs(jobs, reasons)}
    return tuple(job for job in jobs if id(job) in stands)


def _as_jobs(jobs: Iterable[Job], reasons: Iterable[Reason]) -> tuple[Job, ...]:
    """The job that stands for each of these reasons, each once, in their order."""
    of_row = {id(row): job for job in jobs for row in job.rows}
    of_reason = {id(job.reason): job for job in jobs if job.reason is not None}
    found: dict[int, Job] = {}
    for reason in reasons:
        job = of_reason.get(id(reason)) if reason.row is None else of_row.get(id(reason.row))
        if job is not None:
            found.setdefault(id(job), job)
    return tuple(found.values())
