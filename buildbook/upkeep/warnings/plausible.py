"""Flights, weighings, parts and looks that can hardly be right: a warning with what was meant.

Thresholds are common practice, no source. ``sure: true`` on an entry silences its doubts.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from itertools import pairwise

from buildbook.basis import amounts
from buildbook.basis.days import minute_of_day
from buildbook.basis.place import Place
from buildbook.basis.problems import MEANT, Problem
from buildbook.figures.laws.numbers import median
from buildbook.hangar.packs.doubts import MOST_USED
from buildbook.hangar.time_in_service import timed_alike
from buildbook.hangar.weighings import judged_weighings, unclear_packs
from buildbook.records.entries import (
    Alteration,
    Defect,
    Flight,
    Incident,
    Inspection,
    Repair,
)
from buildbook.records.entries.kinds import said_of
from buildbook.report.history import FlightDone
from buildbook.report.state import AircraftNow, Hangar
from buildbook.upkeep.packs.pack_rows import outside, parts_against
from buildbook.upkeep.programme import Programmes

LONGER = 3
"""So many times the longest other flight, and more than ``LONG_S``, is hardly one flight."""

LONG_S = 20 * 60
DAY_S = 24 * 3600

USUAL_OF, LEAST_DRAW, MOST_DRAW = 4, 0.55, 2.5
"""Of more flights than that a draw is usual, and between these times of it nobody is asked."""

FEW_OF_CELLS = 4
"""After more flights than that on packs of so many cells the aircraft flies on them too."""


def doubts(hangar: Hangar, sure: frozenset[str]) -> Iterator[Problem]:
    """Each doubt once; an entry that is sure, by its uid, is left out."""
    entries = hangar.ledger.entries
    timed = {entry.uid: entry for entry in entries if entry.time and type(entry) is Flight}
    for aircraft in hangar.aircraft.values():
        flights = aircraft.flights
        if sure:
            flights = tuple(one for one in flights if one.uid not in sure)
        yield from _too_long(aircraft, flights)
        yield from _too_much_in_a_day(aircraft, sure)
        yield from _motor_longer(flights)
        yield from _odd_draws(hangar, aircraft, flights)
        yield from _not_taken(hangar, aircraft, flights)
        yield from _other_cells(hangar, aircraft, flights)
        yield from _written_twice(flights, timed)
        yield from _at_once(flights, timed)
        yield from _entered_twice(aircraft, sure)
        yield from _weighings(hangar, aircraft)
    yield from _prices(hangar)
    yield from _wrong_kind(hangar, sure)


def _doubt(
    reason: str, place: Place, hint: str, about: str | None, also: tuple[Place, ...] = ()
) -> Problem:
    return Problem(reason, place, "warning", hint, also, about)


def _too_long(aircraft: AircraftNow, flights: Iterable[FlightDone]) -> Iterator[Problem]:
    """Against the longest of the others: ``7:20`` written as ``72:00``."""
    by_length = [one.row.duration_s for one in aircraft.flights]
    if len(by_length) < 2 or max(by_length) <= LONG_S:
        return
    by_length.sort(reverse=True)
    for flight in flights:
        longest_s = by_length[1] if flight.duration_s == by_length[0] else by_length[0]
        if flight.duration_s > max(LONG_S, LONGER * longest_s):
            yield _doubt(
                f"a flight of {amounts.duration(flight.duration_s)}, while the longest other one of"
                f" {aircraft.slug} took {amounts.duration(longest_s)}",
                flight.place,
                f"7:20 is seven minutes twenty; {MEANT}",
                aircraft.slug,
            )


def _too_much_in_a_day(aircraft: AircraftNow, sure: frozenset[str]) -> Iterator[Problem]:
    """Unless one of the entries of that day is sure: the day is meant with it."""
    days: dict[object, list[FlightDone]] = defaultdict(list)
    for flight in aircraft.flights if aircraft.tally.total.duration_s > DAY_S else ():
        days[flight.on].append(flight)
    for day, flown in days.items():
        total_s = sum(flight.duration_s for flight in flown)
        if total_s > DAY_S and sure.isdisjoint(flight.uid for flight in flown):
            yield _doubt(
                f"{aircraft.slug} flew {amounts.hours(total_s)} on {day}, which has 24 h",
                flown[0].place,
                f"7:20 is seven minutes twenty, 7 h 20 min is written out; {MEANT}",
                aircraft.slug,
            )


def _motor_longer(flights: Iterable[FlightDone]) -> Iterator[Problem]:
    for flight in flights:
        run_s = flight.motor_run_s
        if run_s is not None and round(run_s) > round(flight.duration_s):
            yield _doubt(
                f"the motor ran {amounts.duration(run_s)} in a flight of"
                f" {amounts.duration(flight.duration_s)}",
                flight.place,
                f"correct one of them; {MEANT}",
                flight.aircraft,
            )


def _odd_draws(
    hangar: Hangar, aircraft: AircraftNow, flights: Iterable[FlightDone]
) -> Iterator[Problem]:
    """A draw far from the usual of its aircraft, with as much on board: a digit, or a half."""
    known: dict[bool, list[float]] = defaultdict(list)
    drawn = timed_alike([one for one in aircraft.flights if one.row.used_ah and one.motor_s > 0])
    by_motor = any(one.motor_run_s for one in drawn)
    for one in drawn:
        known[bool(one.payload_kg)].append((one.row.used_ah or 0.0) / one.motor_s)
    usual = {each: median(draws) for each, draws in known.items() if len(draws) > USUAL_OF}
    for flight in flights:
        used_ah, often = flight.row.used_ah, usual.get(bool(flight.payload_kg))
        if not often or flight.motor_s <= 0 or bool(flight.motor_run_s) != by_motor:
            continue
        if not used_ah:
            yield from _ran_too_long(hangar, flight, often)
            continue
        times = used_ah / flight.motor_s / often
        if not LEAST_DRAW < times < MOST_DRAW:
            yield _doubt(
                f"a flight of {amounts.duration(flight.motor_s)} took {amounts.charge(used_ah)},"
                f" where {aircraft.slug} usually takes"
                f" {amounts.charge(often * flight.motor_s)}",
                flight.place,
                f"correct 'used' or the length; {MEANT}",
                aircraft.slug,
            )


def _not_taken(
    hangar: Hangar, aircraft: AircraftNow, flights: Iterable[FlightDone]
) -> Iterator[Problem]:
    """A pack with cells that a part does not take which was fitted when it flew; each once."""
    since = {here.tag: here.since_seq for here in aircraft.items()}
    packs = (hangar.items[tag] for tag in aircraft.packs_flown if tag in hangar.items)
    against = {pack.tag: tuple(parts_against(hangar, aircraft, pack)) for pack in packs}
    if not any(against.values()):
        return
    told: set[str] = set()
    for flight in flights:
        for tag in flight.row.packs:
            if tag in told:
                continue
            part = next((one for one in against.get(tag, ()) if since[one] < flight.seq), None)
            if part is not None:
                told.add(tag)
                pack = hangar.items[tag]
                found = outside(hangar.items[part], (pack,))
                yield _doubt(
                    f"{aircraft.slug} flew on {tag}, which is {found.series[0]}S, where"
                    f" {part} takes {amounts.cells(found.least, found.most)}",
                    flight.place,
                    f"do not fly it there; correct the pack, or the spec; {MEANT}",
                    aircraft.slug,
                )


def _other_cells(
    hangar: Hangar, aircraft: AircraftNow, flights: Iterable[FlightDone]
) -> Iterator[Problem]:
    """A pack with other cells than all that were flown before: perhaps it is another's."""
    packs = (hangar.items[tag] for tag in aircraft.packs_flown if tag in hangar.items)
    series = {pack.tag: pack.spec.cells.series for pack in packs if pack.spec.cells}
    if len(set(series.values())) < 2:
        return
    by_cells: dict[int, list[FlightDone]] = defaultdict(list)
    for one in aircraft.flights:
        for tag in one.row.packs:
            if tag in series:
                by_cells[series[tag]].append(one)
    asked = {flight.uid for flight in flights}
    for cells, flown in by_cells.items():
        first = flown[0]
        before = sorted(other for other, told in by_cells.items() if told[0].seq < first.seq)
        if before and len(flown) <= FEW_OF_CELLS and asked.issuperset(one.uid for one in flown):
            tag = next(tag for tag in first.row.packs if series.get(tag) == cells)
            if parts_against(hangar, aircraft, hangar.items[tag]):
                continue
            yield _doubt(
                f"{tag} has {amounts.count('cell', cells)}, {aircraft.slug} flew on"
                f" {' or '.join(map(str, before))} before",
                first.place,
                f"correct the pack; {MEANT}",
                aircraft.slug,
            )


def _ran_too_long(hangar: Hangar, flight: FlightDone, usual_ah_s: float) -> Iterator[Problem]:
    """A motor that by the usual draw took more than its packs hold.

    usual_ah_s: that draw in Ah a second.
    """
    held = [hangar.items[tag].spec.capacity_ah for tag in flight.row.packs if tag in hangar.items]
    taken_ah = usual_ah_s * flight.motor_s
    if flight.motor_run_s is None or not held or None in held:
        return
    held_ah = sum(one or 0.0 for one in held)
    if taken_ah > MOST_USED * held_ah:
        yield _doubt(
            f"the motor ran {amounts.duration(flight.motor_s)}, which usually takes"
            f" {amounts.charge(taken_ah)} of {amounts.charge(held_ah)}",
            flight.place,
            f"correct 'motor_run' or the pack; {MEANT}",
            flight.aircraft,
        )


def _written_twice(flights: Iterable[FlightDone], timed: Mapping[str, Flight]) -> Iterator[Problem]:
    """Alike in day, length, packs and charge, in two entries whose times, if written, agree."""
    seen: dict[object, list[FlightDone]] = {}
    for flight in flights:
        row = flight.row
        if not row.packs or row.used_ah is None:
            continue
        alike = seen.setdefault((flight.on, row.duration_s, row.packs, row.used_ah), [])
        first = None
        if alike:
            first = next((each for each in alike if _may_be_one(each, flight, timed)), None)
        alike.append(flight)
        if first is not None:
            yield _doubt(
                f"the same flight of {flight.on} is written twice",
                flight.place,
                f"remove one of them; {MEANT}",
                flight.aircraft,
                (first.place,),
            )


_ONCE_A_DAY = (Alteration, Defect, Incident, Repair)


def _entered_twice(aircraft: AircraftNow, sure: frozenset[str]) -> Iterator[Problem]:
    """What is done or found once: two entries of one day, word for word the same."""
    seen: dict[bytes, Place] = {}
    for line in aircraft.log:
        said = line.stands
        if not isinstance(said, _ONCE_A_DAY):
            continue
        first = seen.setdefault(said_of(said), said.place())
        if first != said.place() and said.uid not in sure:
            yield _doubt(
                f"the same {type(said).__struct_config__.tag} of {said.on} is written twice",
                said.place(),
                f"remove one of them, or void it; {MEANT}",
                aircraft.slug,
                (first,),
            )


def _may_be_one(one: FlightDone, other: FlightDone, timed: Mapping[str, Flight]) -> bool:
    times = {timed[each.uid].time for each in (one, other) if each.uid in timed}
    return one.uid != other.uid and len(times) < 2


def _at_once(flights: Iterable[FlightDone], timed: Mapping[str, Flight]) -> Iterator[Problem]:
    """By their times, where both have one and neither is a list of flights."""
    begun = []
    for flight in flights if timed else ():
        entry = timed.get(flight.uid)
        if entry is not None and entry.time is not None and len(entry.rows) == 1:
            begun.append((flight.on.toordinal() * DAY_S + minute_of_day(entry.time) * 60, flight))
    begun.sort(key=lambda one: one[0])
    for (begun_s, first), (next_s, second) in pairwise(begun):
        if next_s < begun_s + first.duration_s:
            yield _doubt(
                f"a flight of {second.on} began while another one of {second.aircraft} went on",
                second.place,
                f"correct one of the times; {MEANT}",
                second.aircraft,
                (first.place,),
            )


def _weighings(hangar: Hangar, aircraft: AircraftNow) -> Iterator[Problem]:
    """Against the weighing before, and against the parts whose mass is known."""
    judged = judged_weighings(hangar, aircraft)
    for one in judged.doubted:
        yield _doubt(
            f"weighed {amounts.mass(one.weighing.mass_kg)}, {one.expected}",
            one.weighing.place,
            f"g or kg? {MEANT}",
            aircraft.slug,
            () if one.before is None else (one.before.place,),
        )

    for unclear in unclear_packs(hangar, aircraft, judged.believed):
        named, pack = unclear.weighing.pack is not None, unclear.pack
        weighed, apart = (
            amounts.mass(kg) for kg in (unclear.weighing.mass_kg, abs(unclear.apart_kg))
        )
        yield _doubt(
            f"weighed {weighed} with {pack}, {apart} less than its parts: about that pack"
            if named
            else f"weighed {weighed} without a pack, {apart} more than its parts: about {pack}",
            unclear.weighing.place,
            f"{'remove' if named else 'add'} pack: {pack} if it was {'off' if named else 'on'} the"
            f" scales; {MEANT}",
            aircraft.slug,
        )


def _prices(hangar: Hangar) -> Iterator[Problem]:
    """A currency other than that of the hangar; items bought as one bag are told once."""
    usual = hangar.ledger.keeper.currency
    if usual is None:
        return
    told: set[Place] = set()
    for item in hangar.ledger.items.values():
        if item.price is None or item.price.currency == usual or item.place("price") in told:
            continue
        told.add(item.place("price"))
        yield _doubt(
            f"{item.tag} is priced in {item.price.currency}, the hangar keeps {usual}",
            item.place("price"),
            f"write it in {usual}; a sum adds one currency only",
            None,
        )


def _wrong_kind(hangar: Hangar, sure: frozenset[str]) -> Iterator[Problem]:
    """A look at motors on the tag of a propeller. A store has the programme of the hangar."""
    programmes = Programmes(hangar.ledger.programmes, hangar.as_of)
    by_programme: dict[str, dict[str, str]] = {}
    for entry in hangar.ledger.entries:
        if type(entry) is not Inspection or not entry.tags or entry.uid in sure:
            continue
        now = hangar.aircraft.get(entry.aircraft or "")
        name = (hangar.ledger.keeper.programme if now is None else now.programme) or ""
        if name not in by_programme:
            programme = programmes.named(name)
            rows = () if programme is None else programme.tasks
            by_programme[name] = {row.rule.task: row.rule.each for row in rows}
        kinds = by_programme[name]
        for tag in entry.tags:
            item = hangar.items.get(tag)
            asked = {kinds.get(task, "aircraft") for task in entry.tasks} - {"aircraft"}
            if item is not None and asked and item.spec.kind not in asked:
                wanted = " or ".join(map(_one, sorted(asked)))
                yield _doubt(
                    f"{' and '.join(entry.tasks)} is for {wanted},"
                    f" but {tag} is {_one(item.spec.kind)}",
                    entry.place("tags"),
                    f"correct the tag or the task; {MEANT}",
                    entry.aircraft,
                )


def _one(kind: str) -> str:
    """``a motor``, ``an ESC``."""
    if kind == "esc":
        return "an ESC"
    return f"{'an' if kind[0] in 'aeiou' else 'a'} {kind.replace('_', ' ')}"
