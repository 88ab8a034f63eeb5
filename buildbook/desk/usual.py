"""What is usual for an aircraft or a pack, to be offered where a key is asked for."""

from collections.abc import Iterator
from statistics import median

from buildbook.basis import amounts
from buildbook.desk.spoken import NewEntry
from buildbook.records.entries import Charge, Correction, Flight, Gains, Void, Weigh
from buildbook.records.entries.kinds import items_told_of
from buildbook.records.ledger import Ledger

_LAST = 12


def usual(entry: NewEntry, key: str, ledger: Ledger) -> str | None:
    """What the log makes likely for a key; None where it says nothing. An offer, never taken."""
    if key == "aircraft":
        return _aircraft_flown_last(ledger)
    if key == "result":
        return "pass"
    if entry.kind == "flight" and entry.aircraft is not None:
        return _of_flight(key, entry.aircraft, ledger)
    if entry.kind == "charge" and entry.item is not None and key == "put_in":
        put_in_ah = [
            charge.put_in_ah / len(charge.packs)
            for charge in ledger.entries
            if isinstance(charge, Charge) and entry.item in charge.packs and charge.put_in_ah
        ]
        return amounts.charge(median(put_in_ah[-_LAST:])) if put_in_ah else None
    return _last_time(entry, key, ledger)


def last_entries(entry: NewEntry, ledger: Ledger) -> tuple[str, ...]:
    """The last entries of its aircraft or item, each its id and what it is, newest first."""
    found = [
        each
        for each in ledger.entries
        if (entry.aircraft is not None and each.aircraft == entry.aircraft)
        or (
            entry.item is not None
            and not isinstance(each, Correction | Void)
            and entry.item in items_told_of(each)
        )
    ]
    found.sort(key=lambda each: each.on)
    return tuple(f"{each.id} ({each.__struct_config__.tag})" for each in reversed(found[-_FEW:]))


_FEW = 4


def _aircraft_flown_last(ledger: Ledger) -> str | None:
    flown = [entry for entry in ledger.entries if isinstance(entry, Flight) and entry.aircraft]
    return max(flown, key=lambda entry: entry.on).aircraft if flown else None


def _last_time(entry: NewEntry, key: str, ledger: Ledger) -> str | None:
    """What was weighed last, or the gain set that came last."""
    for old in reversed(ledger.entries):
        if old.aircraft is None or old.aircraft != entry.aircraft:
            continue
        if key == entry.kind == "weigh" and isinstance(old, Weigh):
            return amounts.mass(old.mass_kg)
        if key == entry.kind == "gains" and isinstance(old, Gains):
            return old.name
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
        return amounts.charge(median(used)) if used else None
    if key == "pack":
        return next(_longest_rested([row.packs for row in rows]), None)
    return None


def _longest_rested(flown: list[tuple[str, ...]]) -> Iterator[str]:
    """Single packs of the last flights, the one flown longest ago first."""
    last = {packs[0]: at for at, packs in enumerate(flown) if len(packs) == 1}
    yield from sorted(last, key=lambda tag: last[tag])
