"""The fold: from a ledger and a day to the hangar as it was at the end of that day."""

import datetime
from collections.abc import Callable, Mapping
from typing import Any

from buildbook.basis.notation import said
from buildbook.hangar.alterations import alter
from buildbook.hangar.amend import Amended, amended
from buildbook.hangar.charging import charge, measure_capacity
from buildbook.hangar.checks_and_tasks import check, inspect
from buildbook.hangar.defects import clear, find_fault
from buildbook.hangar.drafts import Draft, Moment, begin
from buildbook.hangar.finished import finished
from buildbook.hangar.fitting import fit, remove
from buildbook.hangar.flying import fly
from buildbook.hangar.gains import judge, set_gains
from buildbook.hangar.happenings import get_wet, note, transport
from buildbook.hangar.incidents import mend, pair, suffer
from buildbook.hangar.item_states import change_state
from buildbook.hangar.order import in_order
from buildbook.hangar.settings import load_firmware, set_to
from buildbook.hangar.weighings import weigh
from buildbook.records.entries import (
    Alteration,
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
from buildbook.report.history import LogLine
from buildbook.report.state import Hangar

Deed = Callable[[Draft, Moment, Any], None]

# What an entry of each kind does to the hangar.
DEEDS: Mapping[type[Plain], Deed] = {
    Fit: fit,
    Remove: remove,
    StateChange: change_state,
    Flight: fly,
    Charge: charge,
    Capacity: measure_capacity,
    Check: check,
    Setting: set_to,
    Gains: set_gains,
    Verdict: judge,
    Weigh: weigh,
    Incident: suffer,
    Repair: mend,
    Inspection: inspect,
    Defect: find_fault,
    Cleared: clear,
    Firmware: load_firmware,
    Alteration: alter,
    Transport: transport,
    Water: get_wet,
    Note: note,
}

IN_STORES = (StateChange, Charge, Capacity, Inspection, Repair, Defect, Cleared, Firmware, Note)
"""Kinds that mean something without an aircraft."""


OF_ITEMS = (StateChange, Charge, Capacity, Firmware)
"""Kinds that name the items that they are about."""


def fold(ledger: Ledger, as_of: datetime.date) -> Hangar:
    """The hangar at the end of a day; later entries are left out and counted.

    Pure: the same ledger and day give the same hangar. Contradictions are in its ``problems``.
    """
    draft = begin(ledger)
    inside, left_out = amended(ledger.entries, as_of)
    lines = in_order(inside)
    pair(draft, lines)
    for seq, line in enumerate(lines):
        _fold_line(draft, seq, line)
    return finished(draft, as_of, left_out)


def _fold_line(draft: Draft, seq: int, line: Amended) -> None:
    entry, stands = line.entry, line.stands
    aircraft = draft.home(entry)
    if stands is not None:
        moment = Moment(seq, stands.on, entry.uid, stands.place(), entry.log)
        if aircraft is None and entry.aircraft is not None:
            _fold_without_aircraft(draft, moment, stands)
        elif aircraft is None and not isinstance(stands, IN_STORES):
            draft.objections.object(
                f"{said(_kind(stands))} in {entry.log}, where there is no aircraft",
                moment.place,
                hint="move it to the logbook of the aircraft",
                about=entry.aircraft,
            )
        else:
            DEEDS[type(stands)](draft, moment, stands)
    written = LogLine(
        seq=seq,
        entry=entry,
        stands=stands,
        words_on=line.words_on,
        corrected_later=line.corrected_later,
        total_s=0.0 if aircraft is None else aircraft.total.duration_s,
        total_flights=0 if aircraft is None else aircraft.total.flights,
    )
    (draft.store_log if aircraft is None else aircraft.log).append(written)


def _fold_without_aircraft(draft: Draft, moment: Moment, stands: Plain) -> None:
    """An entry of an aircraft that could not be read, which is told once, there.

    What happened to its packs and items in themselves still counts.
    """
    if isinstance(stands, OF_ITEMS) or (isinstance(stands, Inspection) and stands.tags):
        DEEDS[type(stands)](draft, moment, stands)


def _kind(entry: Plain) -> str:
    """The kind key of an entry."""
    return str(entry.__struct_config__.tag)
