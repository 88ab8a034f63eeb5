"""Cards to print: one for the bench and one for the field of each aircraft, labels for packs.

A card is a copy on paper and knows nothing of what comes after: it says to which day it is, and
how long it holds.
"""

import datetime
from collections.abc import Callable, Iterable, Iterator, Mapping

import msgspec
import segno
from markupsafe import Markup, escape

from buildbook.basis import amounts
from buildbook.basis.naming import file_name
from buildbook.drawings.layout.layout import layout_drawing
from buildbook.pages.addresses import address_of
from buildbook.pages.page import Page, crumbs
from buildbook.pages.work.going_flying import NOT_FLOWN, goes_by_motor, looks, timers_of
from buildbook.records.aircraft import LEFT
from buildbook.records.parts import AT_HAND, Hand, Spec
from buildbook.records.row_names import BALANCE_POINT
from buildbook.report.packs.health import WEAK
from buildbook.report.reports import Reports
from buildbook.report.state import AircraftNow, ItemNow
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.jobs import in_sight
from buildbook.report.upkeep.work import Reason, Standing
from buildbook.words.logbook.entry_details import (
    gain_rows,
    inoperative_words,
    radio_words,
    run_ends,
    run_words,
)
from buildbook.words.measures.days import EXACT, Days
from buildbook.words.measures.intervals import flown_words
from buildbook.words.reasons import row_words
from buildbook.words.sheets.field import (
    CORRECTION,
    air_words,
    at_freezing,
    bench_words,
    guessed,
    holds_words,
    kind_of_timer,
    lapsed_words,
    link_lost_words,
    payload_lines,
    pull_at,
    resting_words,
    state_words,
    transmitter_words,
    until_words,
)
from buildbook.words.sheets.set_up import cell_words, expected_words
from buildbook.words.surfaces import surface_sense
from buildbook.words.upkeep.packs import cold_words, flown_low_words, health_words
from buildbook.words.work_list import raised_of

QUIET = 4
"""Modules of white round the code, as ISO/IEC 18004 asks."""


def qr_drawing(text: str, title: str, prefix: str) -> Markup:
    """The code of a text as SVG; one path, a square of four sides for each run of black."""
    rows = [bytes(row) for row in segno.make(text, error="m", micro=False).matrix]
    side = len(rows) + 2 * QUIET
    path = "".join(
        f"M{x + QUIET} {y + QUIET}h{length}v1h-{length}z"
        for y, row in enumerate(rows)
        for x, length in _runs(row)
    )
    return Markup(
        '<svg class="qr" viewBox="0 0 {side} {side}" role="img" aria-labelledby="{prefix}-t">'
        '<title id="{prefix}-t">{title}</title>'
        '<path fill="#fff" d="M0 0h{side}v{side}h-{side}z"/>'
        '<path fill="#000" d="{path}"/></svg>'
    ).format(side=side, prefix=prefix, title=escape(title), path=path)


def _runs(row: bytes) -> list[tuple[int, int]]:
    """Where black begins, and for how long."""
    runs: list[tuple[int, int]] = []
    for x, black in enumerate(row):
        if not black:
            continue
        if runs and sum(runs[-1]) == x:
            runs[-1] = (runs[-1][0], runs[-1][1] + 1)
        else:
            runs.append((x, 1))
    return runs


BLANK_FLIGHTS = 6
MOST_JOBS = 6
_COMES_ROUND = ("interval", "never done", "trigger")
"""Why a look at a pack is due that is no danger of the day."""


class Station(msgspec.Struct, frozen=True, kw_only=True):
    """A motor station on the bench card; what is not known is empty."""

    name: str
    spin: str
    output: str
    hand: Hand | None
    motor: str
    esc: str


class PackLine(msgspec.Struct, frozen=True, kw_only=True):
    """A pack on a card or label. quarantined: said before anything else. weak: the word of its
    health where that is not good, and flown_low why, if a flight brought it down.

    flies: whether it is neither set aside nor grounded. left: how it was left, as ``full``, and
    left_on since when.
    """

    tag: str
    title: str
    cells: str
    capacity: str
    quarantined: bool
    flies: bool
    state: str
    left: str
    left_on: datetime.date | None
    marked: str
    charge_at: str
    made: str
    since: str
    weak: str
    flown_low: str
    code: Markup


def keys(reports: Reports) -> Iterable[str]:
    """Each aircraft that is built, building or stored."""
    return tuple(
        slug for slug, found in reports.hangar.aircraft.items() if found.status not in LEFT
    )


def label_keys(reports: Reports) -> Iterable[str]:
    """One sheet, where there is a pack to label."""
    return ("",) if _packs(reports) else ()


def bench_card(reports: Reports, slug: str) -> Page:
    """What is needed at the bench: layout, outputs, leads, wires, gains, radio."""
    aircraft = reports.hangar.aircraft[slug]
    name = aircraft.record.aircraft
    plan = reports.layout_outline(slug)
    gains = aircraft.gain_sets.get(aircraft.gains or "")
    standing = reports.aircraft_standing(slug)
    grounds = [job for job in reports.jobs_of_aircraft(slug) if job.group == "first"]
    return Page(
        address=address_of("bench-card", slug),
        template="bench_card.html.j2",
        title=f"Bench card of {name}",
        crumbs=crumbs(reports, slug),
        facts={
            "slug": slug,
            "standing": standing,
            "grounded": bench_words(standing, grounds) if standing.state in NOT_FLOWN else "",
            "until": until_words(standing.lapse),
            "lost": lapsed_words(standing),
            "shared_memory": _shared_memory(reports, slug),
            "drawing": layout_drawing(plan, "card") if plan else None,
            "has_motor": aircraft.record.has_motor,
            "stations": tuple(_station(reports, aircraft, one) for one in aircraft.motor_stations),
            "receiver": aircraft.receiver,
            "runs": tuple((run_ends(run), run_words(run)) for run in aircraft.wiring),
            "repairs": reports.current_repairs(slug),
            "gains": gain_rows(gains.values) if gains else None,
            "set_name": aircraft.gains,
            "radio": radio_words(aircraft.radio) if aircraft.radio else "",
            "settings": tuple(
                (f"{setting.replace('_', ' ')}{f' of {of}' if of else ''}", force.value)
                for (of, setting), force in aircraft.settings.items()
            ),
        },
        about=f"Layout, outputs, leads and gains of {name} on one sheet.",
    )


def field_card(reports: Reports, slug: str) -> Page:
    """One screen before the first flight of the day, then what to look at and rows to fill."""
    aircraft = reports.hangar.aircraft[slug]
    name = aircraft.record.aircraft
    standing = reports.aircraft_standing(slug)
    in_use = aircraft.status == "flying"
    goes = in_use and standing.state not in NOT_FLOWN
    wings = aircraft.record.kind == "aeroplane"
    all_jobs = reports.jobs_of_aircraft(slug)
    open_jobs = [job for job in all_jobs if job.group != "later"]
    jobs = [job for job in all_jobs if job.group in ("first", "now") or job.defect is not None]
    shown, more = in_sight(jobs, MOST_JOBS)
    packs = tuple(
        _pack(reports, pack, standing) for pack in _packs(reports) if slug in pack.flown_on
    )
    timers = timers_of(reports, slug, {pack.tag for pack in packs if pack.flies})
    return Page(
        address=address_of("field-card", slug),
        template="field_card.html.j2",
        title=f"Field card of {name}",
        crumbs=crumbs(reports, slug),
        facts={
            "slug": slug,
            "holds": holds_words(standing.rows, reports.hangar.as_of),
            "state": state_words(standing, open_jobs, reports.hangar.as_of, goes)
            if in_use
            else _resting(reports, slug),
            "lost": lapsed_words(standing),
            "shared_memory": _shared_memory(reports, slug),
            "standing": standing,
            "cold": tuple(_cold(reports, slug)),
            "repairs": reports.current_repairs(slug),
            "inoperative": tuple(
                inoperative_words(one.defect) for one in reports.inoperative(slug)
            ),
            "in_use": in_use,
            "goes": goes,
            "lines": tuple(_lines(reports, slug)) if goes else (),
            "surfaces": tuple((one, surface_sense(one)) for one in aircraft.surfaces),
            "correction": "" if wings else CORRECTION,
            "unanswered": reports.unanswered_on(slug),
            "raised": raised_of(reports, (slug,), EXACT).get(slug, ""),
            "pack_dangers": tuple(_pack_dangers(reports, packs)),
            "jobs": shown,
            "more": more,
            "packs": packs,
            "timed": aircraft.record.has_motor or bool(timers),
            "timers": _by_pack(reports, slug, "timer_setting", amounts.duration),
            "timer": kind_of_timer(by_motor=goes_by_motor(reports, slug)),
            "frozen": at_freezing(timers),
            "guessed": guessed(timers),
            "air": air_words(reports.hangar.ledger.keeper.field_temperature_k) if timers else "",
            "timer_lines": payload_lines(timers),
            "land_at": _land_at(reports, slug),
            "looks": looks(wings=wings, motor=aircraft.record.has_motor),
            "total": f"{flown_words(aircraft.counters)}, "
            f"{amounts.count('flight', aircraft.counters.flights)}",
            "blanks": range(BLANK_FLIGHTS),
        },
        about=f"State, packs, preflight look and room to write for {name} on one sheet.",
    )


def _cold(reports: Reports, slug: str) -> Iterator[tuple[str, str]]:
    """The packs that were flown cold of late, with the words for it."""
    for line in reports.packs():
        if line.cold and slug in line.flown_on and line.standing not in NOT_FLOWN:
            yield line.tag, cold_words(line.cold, reports.day)


def _pack_dangers(reports: Reports, packs: Iterable[PackLine]) -> Iterator[Reason]:
    """What is open of the packs that fly, but for looks that come round."""
    for pack in packs:
        for reason in reports.pack_standing(pack.tag).reasons if pack.flies else ():
            if reason.rank <= ranks.DUE and reason.because.why not in _COMES_ROUND:
                yield reason


def _resting(reports: Reports, slug: str) -> str:
    """What is said of an aircraft that is not in use, with the set-up checks that it lacks."""
    failed = {row.name for row in reports.set_up_checks(slug) if row.state == "failed"}
    left = reports.glance(slug).open_checks
    return resting_words(reports.hangar.aircraft[slug].status, left, len(failed))


def _lines(reports: Reports, slug: str) -> Iterator[tuple[str, str]]:
    """Label and words of each line above the packs."""
    aircraft = reports.hangar.aircraft[slug]
    radio = aircraft.radio
    checks = reports.set_up_checks(slug)
    yield "Transmitter first", transmitter_words(radio, motor=aircraft.record.has_motor)
    yield "Pull at", pull_at(aircraft.record)
    yield "Link lost", link_lost_words(radio, (row for row in checks if row.name == "failsafe"))
    for found in reports.expected_readings(slug):
        if found.check == BALANCE_POINT:
            yield "Balance", expected_words(found)


def _by_pack(
    reports: Reports, slug: str, name: str, say: Callable[[float], str]
) -> Mapping[str | None, str]:
    """A figure that goes by pack, in words, by tag."""
    return {
        figure.of: say(figure.value)
        for figure in reports.figures_of_aircraft(slug).figures
        if figure.name == name and figure.value is not None
    }


def _land_at(reports: Reports, slug: str) -> Mapping[str | None, str]:
    """The voltage of the alarm, a cell where the pack says how many it has."""
    found = {}
    for figure in reports.figures_of_aircraft(slug).figures:
        if figure.name == "alarm_voltage" and figure.value is not None:
            pack = reports.hangar.items.get(figure.of or "")
            cells = pack.spec.cells.series if pack and pack.spec.cells else None
            found[figure.of] = cell_words(figure.value, cells)
    return found


def _shared_memory(reports: Reports, slug: str) -> str:
    """What to do where another aircraft is on the same memory; empty where none is."""
    rows = reports.aircraft_standing(slug).rows
    days = Days(reports.exact_days)
    shared = (row for row in rows if row.because and row.because.why == "memory")
    return next((row_words(row, days) for row in shared), "")


def labels(reports: Reports, _key: str) -> Page:
    """A label for each pack at hand."""
    return Page(
        address=address_of("pack-labels"),
        template="pack_labels.html.j2",
        title="Pack labels",
        crumbs=crumbs(reports),
        facts={
            "packs": tuple(_pack(reports, pack) for pack in _packs(reports)),
            "with_address": bool(reports.hangar.ledger.keeper.address),
        },
        about="Labels for packs, to cut out.",
    )


def _station(reports: Reports, aircraft: AircraftNow, name: str) -> Station:
    plan = aircraft.stations.get(name)
    propeller = reports.hangar.item_at(aircraft, name, "propeller")
    motor, esc = aircraft.at(name, "motor"), aircraft.at(name, "esc")
    return Station(
        name=name,
        spin=plan.spin or "" if plan else "",
        output="" if plan is None or plan.output is None else str(plan.output),
        hand=propeller.spec.hand if propeller else None,
        motor=motor.tag if motor else "",
        esc=esc.tag if esc else "",
    )


def _packs(reports: Reports) -> tuple[ItemNow, ...]:
    """Packs at hand, those in quarantine first."""
    packs = [
        item
        for item in reports.hangar.items.values()
        if item.is_pack and item.state.state in AT_HAND
    ]
    return tuple(sorted(packs, key=lambda one: (one.state.state != "quarantined", one.tag)))


def _pack(reports: Reports, pack: ItemNow, on: Standing | None = None) -> PackLine:
    """on: the aircraft for which it is told; where that does not take its cells, it stays."""
    spec, keeper = pack.spec, reports.hangar.ledger.keeper
    cells = spec.cells
    quarantined = pack.state.state == "quarantined"
    standing, health = reports.pack_standing(pack.tag), reports.health(pack.tag)
    state = standing.state
    if on is not None and state not in NOT_FLOWN and pack.tag in on.packs_outside:
        state = "grounded"
    rest = next(line.rest for line in reports.packs() if line.tag == pack.tag)
    text = pack.tag
    if keeper.address:
        text = f"{keeper.address.rstrip('/')}/{address_of('item', pack.tag)}"
    return PackLine(
        tag=pack.tag,
        title=spec.title,
        cells="" if cells is None else amounts.cells(cells.series, parallel=cells.parallel),
        capacity="" if spec.capacity_ah is None else amounts.charge(spec.capacity_ah),
        quarantined=quarantined,
        flies=state not in NOT_FLOWN,
        state=state,
        left=rest.left,
        left_on=rest.since,
        marked=pack.item.mark or "",
        charge_at=_charge_at(spec),
        made="" if pack.item.made is None else reports.day(pack.item.made),
        weak=health_words(health) if health.state in WEAK else "",
        flown_low=flown_low_words(standing.notes, Days(reports.exact_days)),
        since="" if (first := pack.in_service_since) is None else reports.day(first),
        code=qr_drawing(text, f"QR code of {pack.tag}", f"qr-{file_name(pack.tag)}"),
    )


def _charge_at(spec: Spec) -> str:
    """The most current to charge with, where the record says a rate."""
    if spec.charge_rate_c is None or spec.capacity_ah is None:
        return ""
    return amounts.current(spec.charge_rate_c * spec.capacity_ah)
