"""The fold: from a ledger and a day to the hangar as it was at the end of that day."""

import datetime
from collections.abc import Callable, Mapping
from typing import Any

from buildbook.basis.notation import quoted
from buildbook.hangar.amend import Amended, amended
from buildbook.hangar.builders import aircraft_built, item_built
from buildbook.hangar.doubts import doubt_pack_days, doubt_taken_back
from buildbook.hangar.events import on_note, on_transport
from buildbook.hangar.folding import Fold
from buildbook.hangar.handlers.alterations import on_alteration
from buildbook.hangar.handlers.care import aged, on_check, on_cleared, on_defect, on_inspection
from buildbook.hangar.handlers.fitting import on_fit, on_remove
from buildbook.hangar.handlers.flying import on_flight, on_opening
from buildbook.hangar.handlers.incidents import on_incident, on_repair, on_water, pair
from buildbook.hangar.handlers.measuring import on_capacity, on_charge, on_weigh
from buildbook.hangar.handlers.service import on_overhaul, on_state_change
from buildbook.hangar.handlers.setting import on_firmware, on_gains, on_setting, on_verdict
from buildbook.hangar.order import in_order
from buildbook.hangar.pack_days import pack_days
from buildbook.hangar.packs.aside import doubt_aboard
from buildbook.hangar.packs.told import hear_words
from buildbook.records.entries import (
    Alteration,
    AnyEntry,
    Capacity,
    Charge,
    Check,
    Cleared,
    Defect,
    Firmware,
    Fit,
    Flight,
    Gains,
    Incident,
    Inspection,
    Note,
    Opening,
    Overhaul,
    Plain,
    Remove,
    Repair,
    Setting,
    StateChange,
    Transport,
    Verdict,
    Water,
    Weigh,
)
from buildbook.records.ledger import Ledger
from buildbook.report.history import DefectState, LogLine
from buildbook.report.state import Hangar
from buildbook.report.tally import NOTHING

Handler = Callable[[Fold, Any], None]

# What an entry of each kind does to the hangar.
HANDLERS: Mapping[type[Plain], Handler] = {
    Fit: on_fit,
    Remove: on_remove,
    StateChange: on_state_change,
    Flight: on_flight,
    Opening: on_opening,
    Charge: on_charge,
    Capacity: on_capacity,
    Check: on_check,
    Setting: on_setting,
    Gains: on_gains,
    Verdict: on_verdict,
    Weigh: on_weigh,
    Incident: on_incident,
    Repair: on_repair,
    Overhaul: on_overhaul,
    Inspection: on_inspection,
    Defect: on_defect,
    Cleared: on_cleared,
    Firmware: on_firmware,
    Alteration: on_alteration,
    Transport: on_transport,
    Water: on_water,
    Note: on_note,
}


def fold(ledger: Ledger, as_of: datetime.date) -> Hangar:
    """The hangar at the end of a day; later entries are left out and counted.

    Pure: the same ledger and day give the same hangar. Contradictions are in its ``problems``.
    """
    inside, left_out = amended(ledger.entries, as_of)
    packs = pack_days(inside)
    folding = Fold(ledger, packs.between)
    lines = in_order(inside, packs.charged_first)
    pair(folding, lines)
    doubt_pack_days(folding, packs.doubts)
    folding.write_first_snapshots()
    for sequence, line in enumerate(lines):
        _take_in(folding, sequence, line)
    doubt_aboard(folding)
    return _finished(folding, as_of, left_out)


def _take_in(folding: Fold, sequence: int, line: Amended) -> None:
    entry, stands = line.entry, line.stands
    aircraft = folding.aircraft_of(entry)
    if line.words_on:
        doubt_taken_back(folding, line)
    if stands is not None:
        folding.go_to(sequence, entry, stands)
        if aircraft is not None or _counts_in_itself(folding, entry, stands):
            HANDLERS[type(stands)](folding, stands)
            hear_words(folding, stands)
            if folding.altered:
                folding.write_snapshots()
    total = NOTHING if aircraft is None else aircraft.total
    written = LogLine(
        seq=sequence,
        entry=entry,
        stands=stands,
        words_on=line.words_on,
        corrected_later=line.corrected_later,
        total_s=total.duration_s,
        total_flights=total.flights,
        late_days=(entry.entered - entry.on).days if entry.entered else 0,
    )
    (folding.store_log if aircraft is None else aircraft.log).append(written)


def _counts_in_itself(folding: Fold, entry: AnyEntry, stands: Plain) -> bool:
    """Whether an entry that is about no known aircraft does anything.

    Of an aircraft that could not be read, which is told once, there, what happened to its packs
    and items in themselves still counts.
    """
    if entry.aircraft is not None:
        return stands.of_items or (isinstance(stands, Inspection) and bool(stands.tags))
    if stands.in_stores:
        return True
    folding.objections.object(
        f"{quoted(_kind(stands))} in {entry.log}, where there is no aircraft",
        folding.at.place,
        hint="move it to the logbook of the aircraft",
        about=entry.aircraft,
    )
    return False


def _kind(entry: Plain) -> str:
    """The kind key of an entry."""
    return str(entry.__struct_config__.tag)


def _finished(folding: Fold, as_of: datetime.date, left_out: int) -> Hangar:
    """The hangar that was gathered, each defect with what it is about."""
    of_aircraft: dict[str, list[DefectState]] = {}
    of_item: dict[str, list[DefectState]] = {}
    for state in aged(folding):
        if state.aircraft is not None:
            of_aircraft.setdefault(state.aircraft, []).append(state)
        if state.defect.item is not None:
            of_item.setdefault(state.defect.item, []).append(state)
    sat_on: dict[str, dict[str, None]] = {}
    for tag, item in folding.items.items():
        for slug in (*(stay.aircraft for stay in item.stays), item.aircraft):
            if slug is not None:
                sat_on.setdefault(slug, {})[tag] = None
    return Hangar(
        as_of=as_of,
        ledger=folding.ledger,
        aircraft={
            slug: aircraft_built(aircraft, of_aircraft.get(slug, ()), sat_on.get(slug, ()))
            for slug, aircraft in folding.aircraft.items()
        },
        items={
            tag: item_built(item, folding.aircraft, of_item.get(tag, ()))
            for tag, item in folding.items.items()
        },
        store_log=tuple(folding.store_log),
        left_out=left_out,
        sure=frozenset(folding.said_sure),
        problems=tuple(folding.objections),
    )
