"""What to take to the field, what to look at, and what a usual day out would bring to due."""

from collections.abc import Collection, Iterable, Iterator
from itertools import groupby
from typing import NamedTuple

from buildbook.pages.addresses import address_of
from buildbook.pages.lapses import Tally, lapsing_of, tallies
from buildbook.pages.page import Page, crumbs
from buildbook.report.figure import LOADED_V
from buildbook.report.outing import Candidate
from buildbook.report.packs.health import WEAK
from buildbook.report.reports import Reports
from buildbook.report.upkeep.jobs import Job, in_sight
from buildbook.report.upkeep.work import Row
from buildbook.words.measures.days import Days
from buildbook.words.sheets.field import Setting, Timer, air_words, settings
from buildbook.words.sheets.set_up import cell_words
from buildbook.words.upkeep.packs import cold_words, flown_low_words


class Look(NamedTuple):
    """One thing to look at. ``wings``: only where there are surfaces; None: on everything.

    hovering: the words for an aircraft without wings, where they are others; thrown: for one
    without a motor, a dash where it is not looked at.
    """

    id: str
    words: str
    source: str
    wings: bool | None = None
    hovering: str = ""
    thrown: str = ""


PREFLIGHT: tuple[Look, ...] = (
    Look("marking", "Marking present and legible", "AC 107-2"),
    Look(
        "frame",
        "Frame, undercarriage and skin whole",
        "AC 107-2",
        hovering="Frame, arms and legs whole",
    ),
    Look("surfaces", "Surfaces, hinges, linkages, servos and their mounts", "AC 107-2", wings=True),
    Look("motors", "Motors, propellers or rotors, and what holds them", "AC 107-2", thrown="-"),
    Look("power", "Enough power in aircraft and transmitter, pack latched", "AC 107-2"),
    Look("link", "Radio link and antennas, at both ends", "AC 107-2"),
    Look(
        "movement",
        "Sticks and surfaces move the right way",
        "AC 107-2",
        hovering="It responds to each stick the right way",
    ),
    Look("sensors", "On-board navigation and sensors, compass if fitted", "AC 107-2"),
    Look("ground-gear", "Display and ground equipment", "AC 107-2"),
    Look("load", "Camera or load secured", "14 CFR 107.49"),
    Look("link-loss", "Link-loss action set for this site", "UK AMC1 UAS.OPEN.060(1)(d)"),
    Look("remote-id", "Remote identification and lights working, if used", "UK AMC UAS.OPEN.060"),
    Look("clear", "Nothing loose or in the way, people clear", "from memory"),
    Look(
        "hover",
        "Start, listen, move each control once more, then go",
        "from memory",
        hovering="Start, listen, hover low for a moment, then go",
        thrown="Move each control once more, look ahead, then go",
    ),
)
"""In the order in which a person walks round the aircraft."""


def looks(*, wings: bool, motor: bool = True) -> tuple[Look, ...]:
    """The list for an aircraft with or without control surfaces, and a motor."""
    asked = (look for look in PREFLIGHT if look.wings is None or look.wings == wings)
    said = ((look, _words(look, wings, motor)) for look in asked)
    return tuple(look._replace(words=words) for look, words in said if words != _NOT_LOOKED_AT)


_NOT_LOOKED_AT = "-"


def _words(look: Look, wings: bool, motor: bool) -> str:
    if not motor and look.thrown:
        return look.thrown
    return look.words if wings or not look.hovering else look.hovering


def goes_by_motor(reports: Reports, slug: str) -> bool:
    """Whether a pack gives it motor time: its flights say how long the motor ran."""
    return reports.figures_of_aircraft(slug).find("motor_endurance") is not None


def timers_of(reports: Reports, slug: str, packs: Collection[str]) -> list[Timer]:
    """A timer for each of these packs that has one."""
    figures = reports.figures_of_aircraft(slug).figures
    land_at = {}
    for figure in figures:
        if figure.name == "alarm_voltage" and LOADED_V in figure.other:
            pack = reports.hangar.items.get(figure.of or "")
            cells = pack.spec.cells.series if pack and pack.spec.cells else None
            volts = cell_words(figure.other[LOADED_V], cells)
            land_at[figure.of] = f"{volts} a cell" if cells else volts
    return [
        Timer(figure.of or "", figure, land_at.get(figure.of, ""))
        for figure in figures
        if figure.name == "timer_setting" and figure.of in packs and figure.value is not None
    ]


NOT_FLOWN = ("quarantined", "grounded")
"""A pack that stands so is on no list to charge or to fly."""

MOST_GROUNDS = MOST_OPEN = 3
"""So many of what grounds an aircraft, or is open on one that goes, stand behind its name."""

MOST_TOLD = 12
"""So many aircraft, or packs of a list, stand in sight. Of more those that one must know of before
the flight; the others are folded, by how they stand."""


def page(reports: Reports, _key: str) -> Page:
    """The list for a day at the field."""
    going, packs = reports.going_flying(), reports.packs()
    at_hand = tuple(line for line in packs if line.at_hand)
    goes = {one.slug for one in going.candidates if one.goes}
    usable = tuple(
        line
        for line in at_hand
        if line.standing not in NOT_FLOWN
        and (not line.flown_on or not goes.isdisjoint(line.flown_on))
    )
    take = tuple(one for one in going.candidates if one.goes)
    told = tuple(one for one in take if len(take) <= MOST_TOLD or _is_to_know(one))
    look = MOST_OPEN if len(take) < MOST_TOLD else 1
    others = tuple(one for one in take if one not in told)
    lapsing = lapsing_of(reports, (one.slug for one in take))
    return Page(
        address=address_of("going-flying"),
        template="going_flying.html.j2",
        title="Going flying",
        crumbs=crumbs(reports),
        facts={
            "take": told,
            "air": air_words(reports.hangar.ledger.keeper.field_temperature_k),
            "timers": {one.slug: _timers(reports, one) for one in take},
            "others": tuple(_folded(reports, others)),
            "lapsing": lapsing,
            "none_left": lapsing[-1] if lapsing and len(lapsing) == len(take) else None,
            "leave": tuple((one, *_at_home(one)) for one in going.candidates if not one.goes),
            "look": {one.slug: in_sight(one.open, look) for one in take},
            "home": tuple(
                (line, reports.pack_standing(line.tag).reasons)
                for line in at_hand
                if line.standing in NOT_FLOWN
            ),
            "to_charge": tuple(line for line in usable if not line.rest.charged),
            "full": tuple(line for line in usable if line.rest.charged),
            "cold": {line.tag: cold_words(line.cold, reports.day) for line in usable},
            "weak": WEAK,
            "low": {line.tag: _flown_low(reports, line.tag) for line in usable},
            "most": MOST_TOLD,
            "in_order": frozenset(
                line.tag
                for line in usable
                if line.standing == "nothing open"
                and not line.cold
                and line.health.state not in WEAK
            ),
            "open": {line.tag: _open(reports, line.tag, going.resting) for line in usable},
            "resting": going.resting,
            "spares": going.spares,
            "moments": tuple(
                (when, tuple(tasks)) for when, tasks in groupby(going.tasks, lambda task: task.when)
            ),
            "looks": looks(wings=going.wings, motor=_any_motor(reports, going.candidates)),
        },
        about="What to take, what to look at, and what falls due on a usual flying day.",
    )


def _folded(
    reports: Reports, others: Collection[Candidate]
) -> Iterator[tuple[str, tuple[Candidate, ...], tuple[Tally, ...]]]:
    """Those that are folded by how they stand, with how many there are from which day on."""
    for state in dict.fromkeys(one.state for one in others):
        found = tuple(one for one in others if one.state == state)
        yield state, found, tallies(reports, (one.slug for one in found), (state,))


def _timers(reports: Reports, one: Candidate) -> tuple[Setting, ...]:
    """The timer of each pack that it may be flown with, and what cold leaves of it."""
    return settings(
        timers_of(reports, one.slug, one.packs),
        reports.hangar.ledger.keeper.field_temperature_k,
        by_motor=goes_by_motor(reports, one.slug),
    )


def _any_motor(reports: Reports, candidates: Iterable[Candidate]) -> bool:
    """Whether any has a motor to look at; of none at all it is asked as ever."""
    found = [reports.hangar.aircraft[one.slug].record.has_motor for one in candidates]
    return any(found) or not found


def _at_home(one: Candidate) -> tuple[tuple[Job, ...], int]:
    """Why it stays there, with what is broken besides."""
    grounds, more = in_sight(one.grounds, MOST_GROUNDS)
    return (*grounds, *in_sight(one.open, 0)[0]), more


def _is_to_know(one: Candidate) -> bool:
    """Whether it flies a check flight next, or with a defect that is to be looked at before."""
    return one.check_flight or any(job.defect for job in one.open)


def _flown_low(reports: Reports, tag: str) -> str:
    """Why its voltage is called low, where no row of the work list says so."""
    return flown_low_words(reports.pack_standing(tag).notes, Days(reports.exact_days))


def _open(reports: Reports, tag: str, told: Iterable[Row]) -> Row | None:
    """The worst open row of a pack, but for those that the page tells anyway."""
    rows = (reason.row for reason in reports.pack_standing(tag).reasons)
    return next((row for row in rows if row is not None and row not in told), None)
