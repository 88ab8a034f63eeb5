"""Set-up checks: done once, and good until something that they depend on changes."""

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

import msgspec

from buildbook.basis.place import Place
from buildbook.records.programmes import CheckRule
from buildbook.records.readings import of_station
from buildbook.records.row_names import CHECK_FLIGHT, COMPASS, WEIGHING
from buildbook.records.triggers import Trigger
from buildbook.report.history import Completion, Event
from buildbook.report.state import AircraftNow, Hangar
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.findings import MassComputed, ReadOtherwise
from buildbook.report.upkeep.programme import Applied, Resolved
from buildbook.report.upkeep.work import NOTHING_TO_DO, Because, Row, RowState
from buildbook.upkeep.counted.completions import (
    CheckedStation,
    checked_stations,
    checks_of,
    covers,
    failed_as,
    unflown,
)
from buildbook.upkeep.rows.readings import Contradiction, contradictions, not_borne_out
from buildbook.upkeep.rows.triggers import NOTICED, Reopened, Triggers, reopens
from buildbook.upkeep.rows.unread import is_place, unread
from buildbook.upkeep.rows.weighing import unweighed


class Verdict(NamedTuple):
    """How a check stands at one station, for one item or for the aircraft."""

    state: RowState
    completion: Completion | None = None
    because: Because | None = None
    place: Place | None = None


def check_rows(
    hangar: Hangar, triggers: Triggers, aircraft: AircraftNow, programme: Resolved
) -> Iterator[Row]:
    """The rows of all checks of an aircraft, in the order of the programme and the layout."""
    completions = checks_of(aircraft)
    for applied in programme.checks:
        done = completions.get(applied.rule.check, [])
        if applied.rule.stage == "flight":
            done = [one for one in done if not unflown(hangar, aircraft, one)]
        for spot in checked_stations(hangar, aircraft, applied.rule):
            verdict = _verdict(hangar, triggers, aircraft, applied.rule, spot, done)
            yield _row(aircraft, applied, spot, verdict)


def _verdict(
    hangar: Hangar,
    triggers: Triggers,
    aircraft: AircraftNow,
    rule: CheckRule,
    spot: CheckedStation,
    completions: Iterable[Completion],
) -> Verdict:
    done = [completion for completion in completions if covers(aircraft, spot, completion)]
    if not done:
        return Verdict("never done", because=_because(spot, Because(why="never done")))
    last = done[-1]
    if last.result == "not applicable" and not rule.grounds:
        brought = _reopened(triggers, aircraft, spot, _brought(rule))
        if not _stale(brought, last):
            return _said("not applicable", last, Because(why="not here"), spot)
    if last.result == "fail":
        mended = _mended(aircraft, last) if rule.check == CHECK_FLIGHT else None
        if mended is None:
            return _said("failed", last, Because(why="failed", found=failed_as(last)), spot)
        because = Because(why="trigger", trigger=Trigger(mended.event)).by(mended)
        return Verdict("stale", None, because, mended.place)
    reopened = _reopened(triggers, aircraft, spot, rule.stale_after)
    accepted = next(
        (
            completion
            for completion in reversed(done)
            if completion.result == "pass" and (completion.seconded or not rule.second_person)
        ),
        None,
    )
    if accepted is not None and not _stale(reopened, accepted):
        return _held(hangar, aircraft, rule, spot, accepted, done)
    if accepted is not last and not _stale(reopened, last):
        return _said("open", last, Because(why="second person"), spot)
    if reopened is None or accepted is None:
        return Verdict("never done", because=_because(spot, Because(why="never done")))
    if reopened.trigger.event == "hard landing":  # what was noticed before it says more
        asked = [one for one in rule.stale_after if one.event == NOTICED]
        noticed = _reopened(triggers, aircraft, spot, asked)
        reopened = noticed if noticed is not None and _stale(noticed, accepted) else reopened
    return Verdict("stale", accepted, _because(spot, reopened.because), reopened.place)


def _reopened(
    triggers: Triggers, aircraft: AircraftNow, spot: CheckedStation, of: Iterable[Trigger]
) -> Reopened | None:
    if spot.item is not None:
        return triggers.on_item(spot.item, of)
    return triggers.at_station(aircraft, of, spot.station)


_CARRIES = {COMPASS: (Trigger("fit", "controller"), Trigger("fit", "sensor"))}
"""What alone can bring the thing to be checked, where more than that disturbs it once it is there:
an ESC beside a compass."""


def _brought(rule: CheckRule) -> tuple[Trigger, ...]:
    """Those after which something may be aboard that was not: a compass, a mode switch."""
    asked = tuple(one for one in rule.stale_after if one.event in ("fit", "alteration"))
    carries = _CARRIES.get(rule.check)
    return asked if carries is None else tuple(one for one in asked if one in carries)


MENDING = ("repair", "overhaul", "setting", "gains", "fit", "cleared defect")
"""What may be done about a failed check flight, before the next one is flown."""


def _mended(aircraft: AircraftNow, failed: Completion) -> Event | None:
    """The first that was done about a failed check flight; None: nothing was."""
    return next(
        (one for one in aircraft.events if one.seq > failed.seq and one.event in MENDING), None
    )


def _stale(reopened: Reopened | None, completion: Completion) -> bool:
    return reopened is not None and reopens(reopened, completion.seq, completion.on, completion.uid)


def _held(
    hangar: Hangar,
    aircraft: AircraftNow,
    rule: CheckRule,
    spot: CheckedStation,
    completion: Completion,
    done: Sequence[Completion],
) -> Verdict:
    """A pass that nothing re-opened: fine, unless its readings or the scales say otherwise."""
    if completion.by_entry == "check":
        for found in contradictions(aircraft, rule, completion):
            if found.station is None or found.station == spot.station or _whole(rule):
                return _said("failed", completion, _contradicted(found, spot), spot)
    against = not_borne_out(hangar, aircraft, rule, spot, done, completion)
    if against is not None:
        return _said("open", completion, Because(why="reading", found=against), spot)
    if rule.check == WEIGHING:
        weighed = next((one for one in aircraft.weighings if one.seq == completion.seq), None)
        change = None if weighed is None else unweighed(hangar, aircraft, weighed)
        if weighed is not None and change is not None:
            because = Because(
                why="weighing",
                entry=change.uid,
                on=change.on,
                place=change.place,
                found=MassComputed(change_kg=change.mass_kg, weighed_on=weighed.on),
            )
            return Verdict("stale", completion, _because(spot, because), change.place)
    left = unread(aircraft, rule, spot, completion)
    if left is None:
        return Verdict("ok", completion, None, completion.place)
    told = completion.uid in hangar.sure or is_place(left)
    state: RowState = "ok" if told else "open"
    return _said(state, completion, Because(why="reading", found=left), spot)


def _whole(rule: CheckRule) -> bool:
    return rule.per is None


def _contradicted(found: Contradiction, spot: CheckedStation) -> Because:
    return Because(
        why="reading",
        station=found.station,
        found=ReadOtherwise(
            of=found.of,
            at=None if found.station == spot.station else found.station,
            found=found.found,
            expected=found.expected,
            against=found.against,
        ),
    )


def _said(
    state: RowState, completion: Completion, because: Because, spot: CheckedStation
) -> Verdict:
    """A verdict that its own entry decides."""
    return Verdict(state, completion, _because(spot, because.by(completion)), completion.place)


def _because(spot: CheckedStation, because: Because) -> Because:
    return msgspec.structs.replace(because, tag=spot.tag, station=spot.station or because.station)


def _row(
    aircraft: AircraftNow, applied: Applied[CheckRule], spot: CheckedStation, verdict: Verdict
) -> Row:
    rule, completion = applied.rule, verdict.completion
    done = completion if completion is not None and completion.result == "pass" else None
    open_ = verdict.state not in NOTHING_TO_DO
    flight = rule.check == CHECK_FLIGHT
    failed = verdict.state == "failed"
    because = verdict.because
    passed = verdict.state == "open" and because is not None and because.why == "reading"
    grounds = open_ and (failed or (rule.grounds and not flight and not passed))
    row = Row(
        aircraft=aircraft.slug,
        kind="check",
        name=rule.check,
        tag=spot.tag,
        station=spot.station,
        state=verdict.state,
        because=_as_check_flight(verdict.because) if flight else verdict.because,
        place=verdict.place or aircraft.record.place(),
        grounds=grounds,
        rule=rule,
        usual=applied.usual,
        looser=applied.looser,
        rank=_rank(rule, verdict.state, grounds),
    )
    if completion is None:
        return row
    return msgspec.structs.replace(
        row.last_done(done),
        by=completion.by,
        checked_by=completion.checked_by,
        readings=_readings(completion, spot),
    )


def _as_check_flight(because: Because | None) -> Because | None:
    if because is None or because.why == "failed":
        return because
    return Because(
        why="check flight",
        trigger=because.trigger,
        entry=because.entry,
        on=because.on,
        place=because.place,
    )


def _readings(completion: Completion, spot: CheckedStation) -> dict[str, str]:
    if completion.by_entry != "check":
        return {}
    readings = completion.readings
    if spot.station is None:
        return dict(readings)
    return of_station(readings, spot.station)


def _rank(rule: CheckRule, state: RowState, grounds: bool) -> int:
    if state == "ok":
        return ranks.FINE
    if state == "not applicable":
        return ranks.NOT_APPLICABLE
    if rule.check == CHECK_FLIGHT and not grounds:
        return ranks.CHECK_FLIGHT
    if grounds:
        return ranks.FAILED_CHECK if state == "failed" else ranks.STALE_CHECK
    return ranks.DUE if state in ("stale", "failed", "open") else ranks.NOT_RECORDED
