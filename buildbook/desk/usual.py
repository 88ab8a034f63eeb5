"""What is usual for an aircraft or a pack, to be offered where a key is asked for."""

from collections.abc import Iterator
from statistics import median

from buildbook.basis import saying
from buildbook.desk.spoken import Said
from buildbook.records.entries import Charge, Flight, Gains, Weigh
from buildbook.records.ledger import Ledger

_LAST = 12


def usual(said: Said, key: str, ledger: Ledger) -> str | None:
    """What the log makes likely for a key; None where it says nothing. An offer, never taken."""
    if key == "aircraft":
        return _aircraft_flown_last(ledger)
    if key == "result":
        return "pass"
    if said.kind == "flight" and said.aircraft is not None:
        return _of_flight(key, said.aircraft, ledger)
    if said.kind == "charge" and said.item is not None and key == "put_in":
        amounts = [
            entry.put_in_ah / len(entry.packs)
            for entry in ledger.entries
            if isinstance(entry, Charge) and said.item in entry.packs and entry.put_in_ah
        ]
        return saying.charge(median(amounts[-_LAST:])) if amounts else None
    return _of_aircraft(said, key, ledger)


def _aircraft_flown_last(ledger: Ledger) -> str | None:
    flown = [entry for entry in ledger.entries if isinstance(entry, Flight) and entry.aircraft]
    return max(flown, key=lambda entry: entry.on).aircraft if flown else None


def _of_aircraft(said: Said, key: str, ledger: Ledger) -> str | None:
    for entry in reversed(ledger.entries):
        if entry.aircraft != said.aircraft or said.aircraft is None:
            continue
        if key == said.kind == "weigh" and isinstance(entry, Weigh):
            return saying.mass(entry.mass_kg)
        if key == said.kind == "gains" and isinstance(entry, Gains):
            return entry.name
    return None


def _of_flight(key: str, slug: str, ledger: Ledger) -> str | None:
    rows = [
        row
        for entry in ledger.entries
        if isinstance(entry, Flight) and entry.aircraft == slug
        for row in entry.rows
    ][-_LAST:]
    if key == "flight" and rows:
        minutes, seconds = divmod(round(median(row.duration_s for row in rows)), 60)
        return f"{minutes}:{seconds:02d}"
    if key == "used":
        used = [row.used_ah for row in rows if row.used_ah]
        return saying.charge(median(used)) if used else None
    if key == "pack":
        return next(_longest_rested([row.packs for row in rows]), None)
    return None


def _longest_rested(flown: list[tuple[str, ...]]) -> Iterator[str]:
    """Single packs of the last flights, the one flown longest ago first."""
    last = {packs[0]: at for at, packs in enumerate(flown) if len(packs) == 1}
    yield from sorted(last, key=lambda tag: last[tag])
