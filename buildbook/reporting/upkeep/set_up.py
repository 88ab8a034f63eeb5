"""The set-up sheet of an aircraft: by stages, worst state of each step, where to go on."""

import datetime
from collections.abc import Container, Iterable, Iterator, Mapping
from typing import NamedTuple

from buildbook.figures.answers.flight.advice import SET_LATE
from buildbook.hangar.packs.limits import MOST_OF_A_CELL_V
from buildbook.records.entries import Check
from buildbook.records.programmes import STAGES, CheckRule, Stage, stage_of
from buildbook.records.readings import amount_read, throttle_read, voltage_read
from buildbook.records.row_names import (
    BALANCE_POINT,
    LOW_VOLTAGE_ALARM,
    PROPELLER_FIT,
    RECEIVER_NEUTRAL,
    RECEIVER_ORDER,
    SPIN_DIRECTIONS,
    START_SPREAD,
    WEIGHING,
)
from buildbook.report.figure import Answers
from buildbook.report.state import AircraftNow
from buildbook.report.upkeep.set_up import (
    NOT_ON_THE_SHEET,
    WORST,
    Expected,
    SetUp,
    SetUpSpot,
    SetUpStage,
    SetUpStep,
)
from buildbook.report.upkeep.work import Row, RowState
from buildbook.reporting.whole import Whole

_OF_SPINS = (SPIN_DIRECTIONS, PROPELLER_FIT)


class _Known(NamedTuple):
    """What the steps of one sheet share. joint: entries that passed several checks at once;
    asked: readings that some check of the sheet asks for by name."""

    aircraft: AircraftNow
    readings: Mapping[tuple[str, str | None], Expected]
    joint: Container[str | None]
    asked: Container[str]


def set_up(whole: Whole, slug: str) -> SetUp:
    """The sheet of an aircraft; without stages where no programme has checks for it."""
    rows = whole.reports.set_up_checks(slug)
    by_name: dict[str, list[Row]] = {}
    for row in rows:
        if row.name not in NOT_ON_THE_SHEET and row.state != "not applicable":
            by_name.setdefault(row.name, []).append(row)
    known = _Known(
        whole.hangar.aircraft[slug],
        {(one.check, one.station): one for one in whole.reports.expected_readings(slug)},
        _joint(whole.hangar.aircraft[slug]),
        _asked(row for found in by_name.values() for row in found),
    )
    return SetUp(
        stages=tuple(_stages(known, by_name)),
        dropped=tuple(row for row in rows if row.state == "not applicable"),
        check_flight=next((row for row in rows if row.name in NOT_ON_THE_SHEET), None),
    )


def _stages(known: _Known, by_name: Mapping[str, list[Row]]) -> Iterator[SetUpStage]:
    """Steps counted through all stages; the first that is not passed is where one goes on."""
    number, begun = 0, False
    off: bool | None = None
    for stage in STAGES:
        steps: list[SetUpStep] = []
        for name, rows in by_name.items():
            if _stage(rows[0]) != stage:
                continue
            number += 1
            state = min((row.state for row in rows), key=_rank)
            first = not begun and state != "ok"
            begun = begun or first
            rule = rows[0].rule if isinstance(rows[0].rule, CheckRule) else None
            was_off, off = off, rule is None or rule.propellers == "off"
            steps.append(
                SetUpStep(
                    name=name,
                    number=number,
                    first=first,
                    state=state,
                    on=_day_of(state, rows),
                    rule=rule,
                    propellers_off=off,
                    changes=was_off is not None and off != was_off,
                    reading=known.readings.get((name, None)),
                    spots=tuple(_spot(known, row) for row in rows),
                )
            )
        if steps:
            yield SetUpStage(stage=stage, steps=tuple(steps))


def _stage(row: Row) -> Stage:
    return stage_of(row.rule) if isinstance(row.rule, CheckRule) else "plugged"


def _rank(state: RowState) -> int:
    return WORST.index(state) if state in WORST else 0


def _day_of(state: RowState, rows: Iterable[Row]) -> datetime.date | None:
    """The newest day of the rows in that state: a failure has its own, later than the last pass.

    A check that holds was passed last where its recurring task was, if that is later.
    """
    days = (
        row.because.on
        if state == "failed" and row.because
        else (row.again_on if state == "ok" and row.again_on else row.done_on)
        for row in rows
        if row.state == state
    )
    return max((day for day in days if day is not None), default=None)


def _spot(known: _Known, row: Row) -> SetUpSpot:
    """A row with what the plan or the figures lead one to expect of it."""
    reading = known.readings.get((row.name, row.station))
    plan = known.aircraft.stations.get(row.station or "")
    spin = plan.spin if plan is not None and row.name in _OF_SPINS and reading is None else None
    bare = row.station is not None and list(row.readings) == [row.station]
    return SetUpSpot(
        row=row,
        spin=spin,
        reading=reading,
        readings=row.readings if bare else _own(row, known),
        bare=bare,
    )


def _own(row: Row, known: _Known) -> Mapping[str, str]:
    """Of an entry that passed several checks, only what this one asks for: a distance walked is
    no reading of the throttle cut, and a channel at rest does not say which input it answers at."""
    if row.done_uid not in known.joint:
        return row.readings
    wanted = row.rule.readings if isinstance(row.rule, CheckRule) else {}
    return {
        name: value
        for name, value in row.readings.items()
        if name in wanted
        or ("each" in wanted and name not in known.asked and _of_lead(row, name, known.aircraft))
    }


def _of_lead(row: Row, name: str, aircraft: AircraftNow) -> bool:
    """Of the two checks of the leads, whether it is this one that reads by such a name.

    Both ask for something of each lead: what it reads, and which channel it is.
    """
    if row.name == RECEIVER_NEUTRAL:
        return name in aircraft.receiver
    return row.name != RECEIVER_ORDER or name not in aircraft.receiver


def _asked(rows: Iterable[Row]) -> frozenset[str]:
    """Readings that a check asks for by name."""
    rules = (row.rule for row in rows)
    return frozenset(
        name for rule in rules if isinstance(rule, CheckRule) for name in rule.readings
    ) - {"each"}


def _joint(aircraft: AircraftNow) -> frozenset[str]:
    """Entries that passed several checks at once, whatever was done again since."""
    return frozenset(
        line.entry.uid
        for line in aircraft.log
        if isinstance(line.stands, Check) and len(line.stands.checks) > 1
    )


def expected_readings(whole: Whole, slug: str) -> tuple[Expected, ...]:
    """One for each check, or each station of one, where a number can be expected."""
    aircraft = whole.hangar.aircraft[slug]
    answers = whole.reports.figures_of_aircraft(slug)
    by_name: dict[str, list[Row]] = {}
    for row in whole.reports.set_up_checks(slug):
        by_name.setdefault(row.name, []).append(row)
    return (
        *_alarm(whole, answers, by_name.get(LOW_VOLTAGE_ALARM, ())),
        *_start(aircraft, by_name.get(START_SPREAD, ())),
        *_weighing(aircraft, answers, by_name.get(WEIGHING, ())),
        *_balance(aircraft, answers, by_name.get(BALANCE_POINT, ())),
    )


def _alarm(whole: Whole, answers: Answers, rows: Iterable[Row]) -> Iterator[Expected]:
    """Volts a cell: that is what the alarm is set in, and what is read.

    Of several packs the highest, as on the front page: an alarm for all is set to that.
    """
    alarms = (one for one in answers.figures if one.name == "alarm_voltage")
    figure = max(alarms, key=lambda one: one.value or 0.0, default=None)
    pack = whole.hangar.items.get(figure.of or "") if figure else None
    if figure is None or figure.value is None or pack is None or pack.spec.cells is None:
        return
    cells = pack.spec.cells.series
    for row in rows:
        last = voltage_read(row.readings.get("alarm"))
        of_pack = last is not None and last > MOST_OF_A_CELL_V
        yield Expected(
            check=row.name,
            unit="V a cell",
            value=figure.value / cells,
            pack=pack.tag,
            last=last / cells if last is not None and of_pack else last,
            of_pack=of_pack,
            late=last is not None and SET_LATE in figure.other,
        )


def _start(aircraft: AircraftNow, rows: Iterable[Row]) -> Iterator[Expected]:
    """Each motor starts below the throttle that is set for the start."""
    setting = aircraft.settings.get((None, "start_throttle"))
    value = throttle_read(setting.value) if setting else None
    if value is None:
        return
    for row in rows:
        last = throttle_read(row.readings.get(row.station or ""))
        yield Expected(
            check=row.name, unit="ratio", value=value, station=row.station, most=True, last=last
        )


def _weighing(aircraft: AircraftNow, answers: Answers, rows: Iterable[Row]) -> Iterator[Expected]:
    """The mass with the pack that was aboard at the last weighing, where it was whole then."""
    last = aircraft.weighings[-1] if aircraft.weighings else None
    with_pack = answers.find("all_up_mass", last.pack) if last and last.pack else None
    figure = with_pack or answers.find("all_up_mass")
    if figure is None or figure.value is None:
        return
    alike = last if last and not last.without and last.pack == figure.of else None
    for row in rows:
        yield Expected(
            check=row.name,
            unit="kg",
            value=figure.value,
            pack=figure.of,
            last=alike.mass_kg if alike else None,
            on=alike.on if alike else None,
            uid=alike.uid if alike else None,
        )


def _balance(aircraft: AircraftNow, answers: Answers, rows: Iterable[Row]) -> Iterator[Expected]:
    """Behind the leading edge where there is a chord, as it is measured; else from the centre."""
    share, forward = answers.find("balance", "mean chord"), answers.find("balance", "forward")
    wing = aircraft.record.wing
    for row in rows:
        last = amount_read(row.readings.get("place"), "length")
        if share and share.value is not None and wing and wing.mean_chord_m is not None:
            behind = share.value * wing.mean_chord_m
            yield Expected(check=row.name, unit="m behind", value=behind, last=last)
        elif forward and forward.value is not None:
            yield Expected(check=row.name, unit="m forward", value=forward.value)
