"""The one page to hand to somebody: how an aircraft stands, what it is, what was done last."""

import datetime

import msgspec

from buildbook.drawings.layout.layout import layout_drawing
from buildbook.pages.addresses import address_of
from buildbook.pages.aircraft.figures import as_flown
from buildbook.pages.linking import Linker
from buildbook.pages.page import Page, crumbs
from buildbook.pages.story.linked import portrait_of
from buildbook.pages.work.due import InOrder, in_order
from buildbook.records.layouts import LAYOUTS
from buildbook.records.parts import DRIVE, Hand
from buildbook.report.history import GainSet, GainsPeriod
from buildbook.report.reports import Reports
from buildbook.report.state import AircraftNow, Fitted
from buildbook.words.logbook.entry_details import inoperative_words
from buildbook.words.measures.days import EXACT
from buildbook.words.next_steps import ToWrite, step_points, step_sentence, step_writes
from buildbook.words.work_list import raised_words

NEWEST = 6


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """An item where it sits."""

    tag: str
    kind: str
    title: str
    since: datetime.date


class MotorStation(msgspec.Struct, frozen=True, kw_only=True):
    """A motor station: what it should do and what sits there; an empty slot is None."""

    name: str
    spin: Hand | None
    output: int | None
    slots: tuple[Part | None, ...]


class Place(msgspec.Struct, frozen=True, kw_only=True):
    """Another station and all that sits there."""

    name: str
    parts: tuple[Part, ...]


class Missing(msgspec.Struct, frozen=True, kw_only=True):
    """What to write next: a sentence, what to do for it, and the lines of each file."""

    sentence: str
    points: tuple[str, ...]
    writes: tuple[ToWrite, ...]


def page(reports: Reports, slug: str) -> Page:
    """One aircraft."""
    aircraft = reports.hangar.aircraft[slug]
    plan = reports.layout(slug)
    layout = LAYOUTS.get(aircraft.record.layout)
    jobs = reports.jobs_of_aircraft(slug)
    headlines = reports.headlines(slug)
    gains = _gains(aircraft)
    raised = reports.gains_raised(slug)
    return Page(
        address=address_of("aircraft", slug),
        template="aircraft.html.j2",
        title=aircraft.record.aircraft,
        crumbs=crumbs(reports),
        facts={
            "slug": slug,
            "aircraft": aircraft,
            "record": aircraft.record,
            "layout": layout.words if layout else aircraft.record.layout,
            "standing": reports.aircraft_standing(slug),
            "photo": portrait_of(reports, slug),
            "drawing": layout_drawing(plan) if plan else None,
            "next_step": _next_step(reports, slug),
            "jobs": tuple(job for job in jobs if job.group != "later"),
            "doubts": reports.doubts_about(slug),
            "unanswered": reports.unanswered_on(slug),
            "in_order": _in_order(in_order(jobs)),
            "motors": motor_stations(reports, aircraft),
            "places": other_places(reports, aircraft),
            "repairs": reports.current_repairs(slug),
            "inoperative": tuple(
                (one, inoperative_words(one.defect)) for one in reports.inoperative(slug)
            ),
            "drive": DRIVE,
            "headlines": as_flown(headlines.shown),
            "unknown": headlines.lacks,
            "settings": tuple(sorted(aircraft.settings.values(), key=_by_setting)),
            "gains": gains,
            "failsafe": _failsafe_tested(reports, slug),
            "terms": tuple(
                dict.fromkeys(term for axis in gains[0].values.values() for term in axis)
            )
            if gains
            else (),
            "newest": aircraft.log[: -NEWEST - 1 : -1],
            "link": Linker(reports).pieces,
            "raised": raised,
            "raised_said": raised_words(raised, EXACT) if raised else "",
            "last_flight": aircraft.flights[-1] if aircraft.flights else None,
            "hands_on": any(job.propellers_off and job.group != "later" for job in jobs),
            "crashed": any(job.row and "crash" in _why(job.row) for job in jobs),
        },
        about=f"{aircraft.record.aircraft}: how it stands, what is fitted, what was done last.",
    )


def _failsafe_tested(reports: Reports, slug: str) -> datetime.date | None:
    """The day on which the failsafe was last passed, in setting up or in its recurring test."""
    rows = (row for row in reports.set_up_checks(slug) if row.name == "failsafe")
    days = [day for row in rows for day in (row.done_on, row.again_on) if day is not None]
    return max(days, default=None)


def motor_stations(reports: Reports, aircraft: AircraftNow) -> tuple[MotorStation, ...]:
    """The motor stations in the order of the layout."""
    return tuple(
        MotorStation(
            name=name,
            spin=plan.spin if plan else None,
            output=plan.output if plan else None,
            slots=tuple(_part(reports, aircraft.at(name, kind)) for kind in DRIVE),
        )
        for name in aircraft.motor_stations
        for plan in (aircraft.stations.get(name),)
    )


def other_places(reports: Reports, aircraft: AircraftNow) -> tuple[Place, ...]:
    """What sits elsewhere, or at a motor station besides motor, ESC and propeller."""
    found: dict[str, list[Part]] = {}
    for fitted in aircraft.items():
        at_motor = fitted.station in aircraft.motor_stations and fitted.kind in DRIVE
        part = None if at_motor else _part(reports, fitted)
        if part is not None:
            found.setdefault(fitted.station, []).append(part)
    return tuple(Place(name=name, parts=tuple(parts)) for name, parts in sorted(found.items()))


def _part(reports: Reports, fitted: Fitted | None) -> Part | None:
    if fitted is None:
        return None
    item = reports.hangar.items.get(fitted.tag)
    return Part(
        tag=fitted.tag,
        kind=fitted.kind,
        title=item.spec.title if item else "",
        since=fitted.since,
    )


def _by_setting(setting: object) -> tuple[str, str]:
    return (getattr(setting, "of", None) or "", getattr(setting, "name", ""))


def _in_order(found: tuple[InOrder, ...]) -> InOrder | None:
    return found[0] if found else None


def _gains(aircraft: AircraftNow) -> tuple[GainSet, GainsPeriod] | None:
    """The set in force and since when."""
    if not aircraft.gain_periods:
        return None
    period = aircraft.gain_periods[-1]
    in_force = aircraft.gain_sets.get(period.name)
    return None if in_force is None else (in_force, period)


def _why(row: object) -> str:
    because = getattr(row, "because", None)
    return str(getattr(because, "trigger", "") or "")


def _next_step(reports: Reports, slug: str) -> Missing | None:
    step = reports.next_step(slug)
    if step is None:
        return None
    return Missing(sentence=step_sentence(step), points=step_points(step), writes=step_writes(step))
