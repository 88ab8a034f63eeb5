"""Items flown, or fitted, at the end of their life: a warning where that began."""

from collections.abc import Callable, Iterator, Sequence

from buildbook.basis import amounts
from buildbook.basis.counting import UNITS, parts
from buildbook.basis.problems import Problem
from buildbook.records.programmes import LimitRule
from buildbook.report.history import FlightDone, Recorded
from buildbook.report.state import AircraftNow, Hangar, ItemNow
from buildbook.report.upkeep.work import Row, WorkList
from buildbook.upkeep.counted.life import AircraftLife, Life, life_of

PastLimit = tuple[Row, list[FlightDone]]
"""A limit that is reached, and the flights since."""


def flown_past_limits(hangar: Hangar, listed: WorkList) -> tuple[Problem, ...]:
    """One warning for each limit that is reached and was flown past, with the count of flights."""
    return tuple(_problem(row, flown) for row, flown in past_limits(hangar, listed))


def past_limits(hangar: Hangar, listed: WorkList) -> Iterator[PastLimit]:
    """Each limit that is reached, with the flights since, where there were any."""
    for row in listed.rows:
        if row.kind != "limit" or row.state != "reached" or not isinstance(row.rule, LimitRule):
            continue
        item = hangar.items.get(row.tag or "")  # none where its kind could not be read
        aircraft = None if row.aircraft is None else hangar.aircraft[row.aircraft]
        if item is None and aircraft is None:
            continue
        past = _past(hangar, row, row.rule, item, aircraft)
        flown = [flight for flight in _flights(hangar, item, aircraft) if past(flight)]
        if flown:
            yield row, flown


def fitted_past_limits(hangar: Hangar, listed: WorkList) -> tuple[Problem, ...]:
    """One warning for each item that was fitted, as it sits now, with a limit reached already."""
    found: list[Problem] = []
    for row in listed.rows:
        item = hangar.items.get(row.tag or "")
        if row.state != "reached" or item is None or item.fitted is None:
            continue
        if not isinstance(row.rule, LimitRule):
            continue
        here = item.fitted
        fit = Recorded(seq=here.since_seq, on=here.since, uid="", place=here.place)
        if _past(hangar, row, row.rule, item, None)(fit):
            found.append(
                Problem(
                    f"{item.tag} fitted on {here.since} with {row.name} reached",
                    here.place,
                    "warning",
                    "fit another one, or change the limit in the programme",
                    (row.place,),
                    item.aircraft,
                )
            )
    return tuple(found)


def _past(
    hangar: Hangar, row: Row, rule: LimitRule, item: ItemNow | None, aircraft: AircraftNow | None
) -> Callable[[Recorded], bool]:
    """Whether something began when the limit was reached already; by the unit that decides."""
    unit = row.first_by or ""
    if unit in UNITS and not UNITS[unit].by_calendar:
        life: Life
        if item is not None:
            life = life_of(hangar, item)
        else:
            assert aircraft is not None
            life = AircraftLife(aircraft)
        one, limit = UNITS[unit], UNITS[unit].in_ticks(parts(rule)[unit])
        rows = _rows_of_entries(_flights(hangar, item, aircraft))

        def past(begun: Recorded) -> bool:
            total = life.ticks(unit, begun.seq - 1)
            if isinstance(begun, FlightDone) and one.counts == "flying":
                total += one.in_ticks(_flown_before(one.counter, rows[begun.seq], begun))
            return total >= limit

        return past
    if unit == "days" and row.due_on is not None:
        due_on = row.due_on
        return lambda begun: begun.on >= due_on
    measured = row.because.entry if row.because is not None else None
    readings = [] if item is None else [*item.capacities, *item.charges]
    since = next((read.seq for read in readings if read.uid == measured), None)
    return lambda begun: since is not None and begun.seq > since


def _rows_of_entries(flights: Sequence[FlightDone]) -> dict[int, list[FlightDone]]:
    """Flights by their entry: those of one entry have one place in the log."""
    found: dict[int, list[FlightDone]] = {}
    for flight in flights:
        found.setdefault(flight.seq, []).append(flight)
    return found


def _flown_before(counter: str, rows: Sequence[FlightDone], flight: FlightDone) -> float:
    """What the rows before a flight of its own entry have flown; they share one day."""
    before = [row for row in rows if row.row_index < flight.row_index]
    if counter == "duration_s":
        return sum(row.duration_s for row in before)
    return len(before) if counter == "flights" else 0


def _flights(
    hangar: Hangar, item: ItemNow | None, aircraft: AircraftNow | None
) -> Sequence[FlightDone]:
    if item is None:
        return () if aircraft is None else aircraft.flights
    if item.is_pack:
        return item.flights
    found = [
        flight
        for stay in item.stays
        for flight in hangar.aircraft[stay.aircraft].flights
        if flight.seq > stay.since_seq and (stay.until_seq is None or flight.seq <= stay.until_seq)
    ]
    return sorted(found, key=lambda flight: flight.seq)


def _problem(row: Row, flown: Sequence[FlightDone]) -> Problem:
    first, more = flown[0], len(flown) - 1
    times = f", and {amounts.count('time', more).replace(' ', ' more ')}" if more else ""
    what = row.name if row.tag is None else f"{row.name} of {row.tag}"
    reason = f"{first.aircraft} flown on {first.on} with {what} reached"
    return Problem(
        f"{reason}{times}",
        first.place,
        "warning",
        None,
        (row.place,),
        first.aircraft,
        once=reason,
    )
