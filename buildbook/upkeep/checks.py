"""Set-up checks: done once, and good until something that they depend on changes."""

from collections.abc import Iterable, Iterator
from typing import Literal, NamedTuple

from buildbook.basis.place import Place
from buildbook.hangar.happened import CheckDone, FlightDone, Happened, TaskDone, Weighing
from buildbook.hangar.state import AircraftNow, Fitted, Hangar, ItemNow
from buildbook.records.programmes import CheckRule
from buildbook.upkeep import ranks
from buildbook.upkeep.phrases import about
from buildbook.upkeep.programme import Applied, Resolved
from buildbook.upkeep.readings import Contradiction, contradictions, for_station
from buildbook.upkeep.row import Because, Row, RowState
from buildbook.upkeep.triggers import Reopened, Triggers, reopens, sat_there
from buildbook.upkeep.weighing import unweighed

CHECK_FLIGHT = "check-flight"
WEIGHING = "weighing"
BALANCE_POINT = "balance-point"


class Doing(NamedTuple):
    """One time that a check was done, by whichever kind of entry."""

    what: Happened
    result: Literal["pass", "fail"]
    stations: tuple[str, ...] = ()
    by: str | None = None
    checked_by: str | None = None

    @property
    def seconded(self) -> bool:
        """Whether a second person looked at it."""
        return self.checked_by is not None and self.checked_by != self.by


class Verdict(NamedTuple):
    """How a check stands at one station, for one item or for the aircraft."""

    state: RowState
    doing: Doing | None = None
    because: Because | None = None
    place: Place | None = None


class Spot(NamedTuple):
    """What one row of a check is about."""

    tag: str | None = None
    station: str | None = None
    item: ItemNow | None = None


def check_rows(
    hangar: Hangar, triggers: Triggers, aircraft: AircraftNow, programme: Resolved
) -> Iterator[Row]:
    """The rows of all checks of an aircraft, in the order of the programme and the layout."""
    doings = _doings(aircraft)
    for applied in programme.checks:
        done = doings.get(applied.rule.check, [])
        for spot in _spots(hangar, aircraft, applied.rule):
            verdict = _verdict(hangar, triggers, aircraft, applied.rule, spot, done)
            yield _row(aircraft, applied, spot, verdict)


def _spots(hangar: Hangar, aircraft: AircraftNow, rule: CheckRule) -> list[Spot]:
    if rule.per is None:
        return [Spot()]
    if rule.per == "motor station":
        return [Spot(station=station) for station in aircraft.motor_stations]
    fitted = [here for here in aircraft.items() if here.kind == rule.per]
    order = {station: index for index, station in enumerate(aircraft.motor_stations)}

    def place(here: Fitted) -> tuple[int, str, str]:
        return order.get(here.station, len(order)), here.station, here.tag

    return [
        Spot(here.tag, here.station, hangar.items.get(here.tag))
        for here in sorted(fitted, key=place)
    ]


def _doings(aircraft: AircraftNow) -> dict[str, list[Doing]]:
    """Every doing of every check, oldest first; a task of the same name counts as well."""
    found: dict[str, list[Doing]] = {}
    for check in aircraft.checks:
        found.setdefault(check.check, []).append(
            Doing(check, check.result, check.stations, check.by, check.checked_by)
        )
    for task in aircraft.inspections:
        if not task.tags:
            found.setdefault(task.task, []).append(_inspected(task))
    for flight in aircraft.flights:
        if flight.purpose == "check" and flight.result is not None:
            found.setdefault(CHECK_FLIGHT, []).append(Doing(flight, flight.result))
    for weighing in aircraft.weighings:
        found.setdefault(WEIGHING, []).append(Doing(weighing, "pass"))
        if weighing.cg_m is not None or weighing.scales_kg:
            found.setdefault(BALANCE_POINT, []).append(Doing(weighing, "pass"))
    for doings in found.values():
        doings.sort(key=lambda doing: doing.what.seq)
    return found


def _inspected(task: TaskDone) -> Doing:
    return Doing(task, task.result, (), task.by, task.checked_by)


def _covers(aircraft: AircraftNow, spot: Spot, doing: Doing) -> bool:
    """Whether a doing was of this station, or of the item where it sat at that moment."""
    if spot.item is not None:
        there = sat_there(spot.item, aircraft.slug, doing.what.seq)
        if there is None:
            return False
        served = aircraft.serves.get(spot.item.tag, ())
        return (
            not doing.stations
            or there in doing.stations
            or (bool(served) and set(served) <= set(doing.stations))
        )
    return spot.station is None or not doing.stations or spot.station in doing.stations


def _verdict(
    hangar: Hangar,
    triggers: Triggers,
    aircraft: AircraftNow,
    rule: CheckRule,
    spot: Spot,
    doings: Iterable[Doing],
) -> Verdict:
    done = [doing for doing in doings if _covers(aircraft, spot, doing)]
    if not done:
        return Verdict("never done", because=_because(spot, Because(why="never done")))
    last = done[-1]
    if last.result == "fail":
        return _said("failed", last, Because(why="failed"), spot)
    reopened = (
        triggers.at_station(aircraft, rule.stale_after, spot.station)
        if spot.item is None
        else triggers.on_item(spot.item, rule.stale_after)
    )
    accepted = next(
        (
            doing
            for doing in reversed(done)
            if doing.result == "pass" and (doing.seconded or not rule.second_person)
        ),
        None,
    )
    if accepted is not None and not _stale(reopened, accepted):
        return _held(hangar, aircraft, rule, spot, accepted)
    if accepted is not last and not _stale(reopened, last):
        return _said("open", last, Because(why="second person"), spot)
    if reopened is None or accepted is None:
        return Verdict("never done", because=_because(spot, Because(why="never done")))
    because = Because(
        why="trigger",
        trigger=reopened.trigger,
        entry=reopened.uid,
        on=reopened.on,
        place=reopened.place,
    )
    return Verdict("stale", accepted, _because(spot, because), reopened.place)


def _stale(reopened: Reopened | None, doing: Doing) -> bool:
    what = doing.what
    return reopened is not None and reopens(reopened, what.seq, what.on, what.uid)


def _held(
    hangar: Hangar, aircraft: AircraftNow, rule: CheckRule, spot: Spot, doing: Doing
) -> Verdict:
    """A pass that nothing re-opened: fine, unless its readings or the scales say otherwise."""
    if isinstance(doing.what, CheckDone):
        for found in contradictions(aircraft, doing.what):
            if found.station is None or found.station == spot.station or _whole(rule):
                return _said("failed", doing, _contradicted(found), spot)
    if rule.check == WEIGHING and isinstance(doing.what, Weighing):
        change = unweighed(hangar, aircraft, doing.what)
        if change is not None:
            because = Because(
                why="weighing",
                entry=change.uid,
                on=change.on,
                place=change.place,
                detail={"change_g": f"{change.mass_kg * 1000:+.0f}"},
            )
            return Verdict("stale", doing, _because(spot, because), change.place)
    return Verdict("ok", doing, None, doing.what.place)


def _whole(rule: CheckRule) -> bool:
    return rule.per is None


def _contradicted(found: Contradiction) -> Because:
    return Because(
        why="reading",
        station=found.station,
        detail={"of": found.of, "found": found.found, "expected": found.expected},
    )


def _said(state: RowState, doing: Doing, because: Because, spot: Spot) -> Verdict:
    """A verdict that its own entry decides."""
    what = doing.what
    told = Because(
        why=because.why,
        entry=what.uid,
        on=what.on,
        place=what.place,
        station=because.station,
        detail=because.detail,
    )
    return Verdict(state, doing, _because(spot, told), what.place)


def _because(spot: Spot, because: Because) -> Because:
    return Because(
        why=because.why,
        trigger=because.trigger,
        entry=because.entry,
        on=because.on,
        place=because.place,
        tag=spot.tag,
        station=spot.station or because.station,
        detail=because.detail,
    )


def _row(aircraft: AircraftNow, applied: Applied[CheckRule], spot: Spot, verdict: Verdict) -> Row:
    rule, doing = applied.rule, verdict.doing
    done = doing.what if doing is not None and doing.result == "pass" else None
    open_ = verdict.state != "ok"
    flight = rule.check == CHECK_FLIGHT
    grounds = open_ and rule.grounds and not flight
    return Row(
        aircraft=aircraft.slug,
        kind="check",
        name=rule.check,
        tag=spot.tag,
        station=spot.station,
        state=verdict.state,
        because=_as_check_flight(verdict.because) if flight else verdict.because,
        place=verdict.place or aircraft.record.place(),
        what=_what(rule, spot, verdict),
        grounds=grounds,
        done_on=None if done is None else done.on,
        done_uid=None if done is None else done.uid,
        done_place=None if done is None else done.place,
        by=None if doing is None else doing.by,
        checked_by=None if doing is None else doing.checked_by,
        readings=_readings(doing, spot),
        rule=rule,
        usual=_usual(applied),
        looser=applied.looser,
        rank=_rank(rule, verdict.state, grounds),
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


def _what(rule: CheckRule, spot: Spot, verdict: Verdict) -> str:
    subject = about(rule.check, spot.tag, spot.station)
    if rule.check == CHECK_FLIGHT and verdict.state in ("never done", "stale"):
        return "check flight next"
    because = verdict.because
    if verdict.state == "never done":
        return f"{subject} was never done"
    if verdict.state == "open":
        return f"{subject} is done, not yet checked"
    if because is not None and because.why == "reading":
        at = because.station
        where = f" at {at}" if at is not None and at != spot.station else ""
        said = because.detail
        return (
            f"{subject} is failed: {said['of']}{where} read as {said['found']},"
            f" planned {said['expected']}"
        )
    if because is not None and because.why == "weighing":
        return f"{subject} is stale: {because.detail['change_g']} g since, not weighed"
    return f"{subject} is {verdict.state}"


def _readings(doing: Doing | None, spot: Spot) -> dict[str, str]:
    if doing is None or not isinstance(doing.what, CheckDone):
        return {}
    readings = doing.what.readings
    if spot.station is None:
        return dict(readings)
    return for_station(readings, spot.station)


def _usual(applied: Applied[CheckRule]) -> str | None:
    if applied.usual is None:
        return None
    return ", ".join(str(trigger) for trigger in applied.usual.stale_after) or None


def _rank(rule: CheckRule, state: RowState, grounds: bool) -> int:
    if state == "ok":
        return ranks.FINE
    if rule.check == CHECK_FLIGHT:
        return ranks.CHECK_FLIGHT
    if grounds:
        return ranks.FAILED_CHECK if state == "failed" else ranks.STALE_CHECK
    return ranks.DUE if state in ("stale", "failed", "open") else ranks.NOT_RECORDED


def check_flight_closed_by(flight: FlightDone) -> bool:
    """Whether a flight closes an open check flight."""
    return flight.purpose == "check" and flight.result == "pass"
