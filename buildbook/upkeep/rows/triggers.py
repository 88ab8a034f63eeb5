"""Which event re-opened a check or a task: the newest that touched its station or item.

An event touches the stations and items that it names, or everything when it names nothing. A
shared ESC reaches every station that it serves. What sits at no motor station (a controller, a
receiver) reaches all of them when it is fitted, flashed or set, but not when it is damaged.
"""

import datetime
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from buildbook.basis.place import Place
from buildbook.records.programmes import Trigger
from buildbook.report.history import Event, FlightDone, Stay
from buildbook.report.state import AircraftNow, Hangar, ItemNow
from buildbook.report.upkeep.work import Because
from buildbook.upkeep.counted.counting import Step

_EXACT = ("crash", "hard landing", "repair", "water")
"""Damage and its repair reach what is named, and nothing further."""

NOTICED = "noticed"

_ALSO_PULLS = {"crash": "hard landing", "overhaul": "fit"}
"""A crash is a hard landing too; what was overhauled had been apart, and was put together again."""

_BY_FLIGHTS = ("idle", "another cell count", "another pack mass")
"""Triggers that no entry pulls: they show in how it was flown."""

MASS_SHARE = 0.10
"""A pack this much heavier or lighter than all flown before is another. Common practice."""

Reach = frozenset[str] | None
"""The stations that an event reached on its aircraft; None is all of them."""


class Reopened:
    """What re-opened a row: the trigger of the programme and the event that pulled it."""

    __slots__ = ("on", "place", "seq", "trigger", "uid")

    def __init__(
        self, trigger: Trigger, seq: int, on: datetime.date, uid: str, place: Place
    ) -> None:
        self.trigger = trigger
        self.seq = seq
        self.on = on
        self.uid = uid
        self.place = place

    @property
    def because(self) -> Because:
        """Why a row is open that it re-opened."""
        return Because(
            why="trigger", trigger=self.trigger, entry=self.uid, on=self.on, place=self.place
        )


class Triggers:
    """The events of one hangar, ready to be asked for the newest that touched something."""

    def __init__(self, hangar: Hangar) -> None:
        self._hangar = hangar
        self._events: dict[str, Mapping[tuple[str, str | None], list[tuple[Event, Reach]]]] = {}
        self._by_flying: dict[tuple[str, str, str | None], Reopened | None] = {}
        self._flown_otherwise: dict[tuple[str, str], list[FlightDone]] = {}

    def at_station(
        self, aircraft: AircraftNow, triggers: Iterable[Trigger], station: str | None
    ) -> Reopened | None:
        """The newest that touched a motor station, or (None) the aircraft at all."""
        found: Reopened | None = None
        by_kind = self._by_kind(aircraft)
        for trigger in triggers:
            pairs = by_kind.get((trigger.event, trigger.subject))
            if pairs is not None:
                for event, reach in pairs:
                    if station is None or reach is None or station in reach:
                        found = _later(found, _by(trigger, event))
                        break
            elif trigger.event in _BY_FLIGHTS:
                found = _later(found, self._by_flights_of(aircraft, trigger))
        return found

    def on_item(self, item: ItemNow, triggers: Iterable[Trigger]) -> Reopened | None:
        """The newest that touched an item, wherever it sat at that moment."""
        found: Reopened | None = None
        for trigger in triggers:
            if trigger.event in _BY_FLIGHTS:
                found = _later(found, self._by_flights(trigger, self._flights(item)))
                continue
            for event in reversed(item.events):
                if matches(trigger, event):
                    found = _later(found, _by(trigger, event))
                    break
            for stay in item.stays:
                event_there = self._newest_in(stay, item.tag, trigger)
                if event_there is not None:
                    found = _later(found, _by(trigger, event_there))
        return found

    def _by_flights_of(self, aircraft: AircraftNow, trigger: Trigger) -> Reopened | None:
        """The same for each check that asks for it, so that its flights are walked once."""
        key = (aircraft.slug, trigger.event, trigger.subject)
        if key not in self._by_flying:
            if trigger.event == "idle":
                found = idle(trigger, aircraft.flights, self._hangar.as_of)
            else:
                found = _newest(trigger, self._pulled_by_flying(aircraft, trigger))
            self._by_flying[key] = found
        return self._by_flying[key]

    def _by_flights(self, trigger: Trigger, flights: tuple[FlightDone, ...]) -> Reopened | None:
        if trigger.event == "idle":
            return idle(trigger, flights, self._hangar.as_of)
        return _newest(trigger, self._on_other_packs(trigger, flights, ()))

    def asks(
        self, aircraft: AircraftNow, triggers: Iterable[Trigger]
    ) -> Iterator[tuple[int, int | None, Reach]]:
        """Each moment at which one of the triggers was pulled, and the stations that it reached.

        The second says after which flight of that entry, if it is of one. A flight pulls one by
        the packs that it was flown on, after its whole entry.
        """
        by_kind = self._by_kind(aircraft)
        for trigger in triggers:
            for event, reach in by_kind.get((trigger.event, trigger.subject), ()):
                yield event.seq, event.row_index, reach
            if trigger.event in _BY_FLIGHTS:
                for flight in self._pulled_by_flying(aircraft, trigger):
                    yield flight.seq, None, None

    def _pulled_by_flying(self, aircraft: AircraftNow, trigger: Trigger) -> list[FlightDone]:
        """Oldest first, walked once."""
        key = (aircraft.slug, trigger.event)
        if key not in self._flown_otherwise:
            flown = self._on_other_packs(trigger, aircraft.flights, _altered(aircraft))
            self._flown_otherwise[key] = [*flown]
        return self._flown_otherwise[key]

    def _on_other_packs(
        self, trigger: Trigger, flights: Iterable[FlightDone], altered: Sequence[int]
    ) -> Iterable[FlightDone]:
        if trigger.event == "another cell count":
            return _on_other_cells(flights, self._cells_of, altered)
        if trigger.event == "another pack mass":
            return _on_other_mass(flights, self._mass_of, altered)
        return ()

    def _mass_of(self, pack: str) -> float | None:
        item = self._hangar.items.get(pack)
        return None if item is None else item.mass_kg

    def _cells_of(self, pack: str) -> int | None:
        item = self._hangar.items.get(pack)
        cells = item.spec.cells if item is not None else None
        return None if cells is None else cells.series

    def _flights(self, item: ItemNow) -> tuple[FlightDone, ...]:
        if item.is_pack:
            return item.flights
        return () if item.aircraft is None else self._hangar.aircraft[item.aircraft].flights

    def _newest_in(self, stay: Stay, tag: str, trigger: Trigger) -> Event | None:
        aircraft = self._hangar.aircraft[stay.aircraft]
        for event, reach in self.pulled(aircraft, trigger):
            if event.seq < stay.since_seq:
                return None
            if stay.until_seq is not None and event.seq > stay.until_seq:
                continue
            if reach is None or tag in event.tags or stay.station in reach:
                return event
        return None

    def pulled(self, aircraft: AircraftNow, trigger: Trigger) -> Sequence[tuple[Event, Reach]]:
        """The events of an aircraft that pull a trigger, newest first, each with its reach."""
        return self._by_kind(aircraft).get((trigger.event, trigger.subject), ())

    def _by_kind(
        self, aircraft: AircraftNow
    ) -> Mapping[tuple[str, str | None], list[tuple[Event, Reach]]]:
        by_kind = self._events.get(aircraft.slug)
        if by_kind is None:
            by_kind = self._events[aircraft.slug] = self._sorted(aircraft)
        return by_kind

    def _sorted(
        self, aircraft: AircraftNow
    ) -> Mapping[tuple[str, str | None], list[tuple[Event, Reach]]]:
        by_kind: dict[tuple[str, str | None], list[tuple[Event, Reach]]] = {}
        for event in reversed(aircraft.events):
            pair = (event, self.reach(aircraft, event))
            names = [event.event]
            if event.event in _ALSO_PULLS:
                names.append(_ALSO_PULLS[event.event])
            for name in names:
                by_kind.setdefault((name, None), []).append(pair)
                if event.subject is not None:
                    by_kind.setdefault((name, event.subject), []).append(pair)
        return by_kind

    def reach(self, aircraft: AircraftNow, event: Event) -> Reach:
        """The stations of this aircraft that an event reached."""
        if event.everything or not (event.stations or event.tags):
            return None
        named = set(event.stations)
        exact = event.event in _EXACT
        for tag in event.tags:
            here = self._sat_at(aircraft, tag, event.seq)
            if not event.stations:
                named |= here
            if here & named and (exact or not event.stations):
                named.update(aircraft.serves.get(tag, ()))
        driven = self._surfaces(aircraft, event)
        if driven is not None:
            return frozenset(named | driven)
        named.update(aircraft.surfaces)
        if exact or not named.isdisjoint(aircraft.motor_stations):
            return frozenset(named)
        return None

    def _surfaces(self, aircraft: AircraftNow, event: Event) -> Reach:
        """The surfaces alone that an event reached; None: it is about more than surfaces."""
        names = frozenset(event.stations) & aircraft.surfaces.keys()
        kinds = {item.spec.kind for tag in event.tags if (item := self._hangar.items.get(tag))}
        driven = names | aircraft.driven(event.tags)
        return driven if driven and kinds <= {"servo"} else None

    def _sat_at(self, aircraft: AircraftNow, tag: str, seq: int) -> set[str]:
        item = self._hangar.items.get(tag)
        if item is None:
            return set()
        return {
            stay.station
            for stay in item.stays
            if stay.aircraft == aircraft.slug and stay.reaches(seq)
        }


_BALANCE = ("positions", "sundries", "mass")


def _altered(aircraft: AircraftNow) -> list[int]:
    """The moments at which its mass or balance changed."""
    return [
        event.seq
        for event in aircraft.events
        if event.event == "alteration" and event.subject in _BALANCE
    ]


def matches(trigger: Trigger, event: Event) -> bool:
    """Whether an event is of the kind that pulls a trigger; a crash is a hard landing too."""
    if trigger.event not in (event.event, _ALSO_PULLS.get(event.event)):
        return False
    return trigger.subject is None or trigger.subject == event.subject


def sat_there(item: ItemNow, slug: str, seq: int) -> str | None:
    """The station of that aircraft at which an item sat at a moment."""
    for stay in item.stays:
        if stay.aircraft == slug and stay.reaches(seq):
            return stay.station
    return None


def idle(
    trigger: Trigger, flights: tuple[FlightDone, ...], as_of: datetime.date
) -> Reopened | None:
    """The newest time without flying that was longer than the days of the trigger.

    It pulls on the first day beyond them, and takes the last flight before it as its entry.
    """
    age = trigger.age
    step, until = Step(months=age.months, days=age.days), as_of
    least = step.least_days
    for flight in reversed(flights):
        if (until - flight.on).days <= least:
            until = flight.on
            continue
        longest = step.after(flight.on)
        if until > longest:
            pulled_on = longest + datetime.timedelta(days=1)
            return Reopened(trigger, flight.seq, pulled_on, flight.uid, flight.place)
        until = flight.on
    return None


def _on_other_cells(
    flights: Iterable[FlightDone], cells_of: Callable[[str], int | None], altered: Sequence[int]
) -> Iterator[FlightDone]:
    """Each flight on a pack of more or fewer cells than any flown before it.

    cells_of: cells in series of a pack by its tag, None where its spec does not say.
    altered: moments at which mass or balance changed; from each on only the pack flown last counts.
    """
    seen: set[int] = set()
    last: set[int] = set()
    for flight in _with_other_packs(flights, altered):
        if flight.altered:
            seen = set(last)
        flown = {count for count in map(cells_of, flight.done.row.packs) if count is not None}
        if seen and not flown <= seen:
            yield flight.done
        seen |= flown
        last = flown or last


def _on_other_mass(
    flights: Iterable[FlightDone], mass_of: Callable[[str], float | None], altered: Sequence[int]
) -> Iterator[FlightDone]:
    """Each flight on packs over a tenth heavier or lighter than any flown before it.

    mass_of: kg of a pack by its tag, None where neither it nor its spec says; such a flight is
    left out. altered: moments at which mass or balance changed; from each on only the pack flown
    last counts.
    """
    seen: set[float] = set()
    last: set[float] = set()
    for flight in _with_other_packs(flights, altered):
        if flight.altered:
            seen = set(last)
        masses = [mass_of(tag) for tag in flight.done.row.packs]
        known = [mass for mass in masses if mass is not None]
        if not known or len(known) < len(masses):
            continue
        flown = sum(known)
        # Rounded, for 110 g after 100 g is at the line and not over it.
        new = bool(seen) and flown not in seen
        if new and all(round(abs(flown / mass - 1), 9) > MASS_SHARE for mass in seen):
            yield flight.done
        seen.add(flown)
        last = {flown}


class _Packed(NamedTuple):
    """A flight on other packs than the one before it. altered: the first such since it was."""

    done: FlightDone
    altered: bool


def _with_other_packs(flights: Iterable[FlightDone], altered: Sequence[int]) -> Iterator[_Packed]:
    """The flights that can be news: a flight on the packs of the one before it is not."""
    upto = -1
    packs: tuple[str, ...] | None = None
    since = False
    for flight in flights:
        since = since or (bool(altered) and any(upto < seq <= flight.seq for seq in altered))
        upto = flight.seq
        if flight.row.packs != packs:
            packs = flight.row.packs
            yield _Packed(flight, since)
            since = False


def _newest(trigger: Trigger, flights: Iterable[FlightDone]) -> Reopened | None:
    newest = max(flights, key=lambda flight: flight.seq, default=None)
    if newest is None:
        return None
    return Reopened(trigger, newest.seq, newest.on, newest.uid, newest.place)


def reopens(reopened: Reopened, done_seq: int, done_on: datetime.date, done_uid: str) -> bool:
    """Whether it came after the doing; a tie counts as after.

    An entry that teaches several things at once re-opens none of them. Time without flying has no
    place in the order of the log: its day decides.
    """
    if reopened.trigger.event == "idle":
        return reopened.on > done_on
    if reopened.trigger.event == "calibration" and reopened.uid == done_uid:
        return False
    return reopened.seq >= done_seq


def _by(trigger: Trigger, event: Event) -> Reopened:
    if event.event == "overhaul":
        trigger = Trigger(event.event, event.subject)
    elif event.event == "crash":
        trigger = Trigger("crash")  # asked for as a hard landing too
    return Reopened(trigger, event.seq, event.on, event.uid, event.place)


def _later(one: Reopened | None, other: Reopened | None) -> Reopened | None:
    """Of one flight what was noticed goes before how it landed."""
    if one is None or other is None:
        return one or other
    noticed = other.trigger.event == NOTICED and (other.on, other.seq) == (one.on, one.seq)
    return other if noticed or (other.on, other.seq) > (one.on, one.seq) else one
