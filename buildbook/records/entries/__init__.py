"""The entries of a logbook: one frozen type for each kind, all dated, all with their place."""

from buildbook.records.entries.amending import AnyEntry, Correction, Plain, Void
from buildbook.records.entries.building import (
    Alteration,
    Firmware,
    Fit,
    Gains,
    Remove,
    Setting,
    StateChange,
    Verdict,
    alterable,
)
from buildbook.records.entries.entry import Entry, Result
from buildbook.records.entries.flying import NOTICED, Capacity, Charge, Flight, Volts
from buildbook.records.entries.looking import (
    Check,
    Cleared,
    Defect,
    Incident,
    Inspection,
    Looked,
    Milder,
    Note,
    Overhaul,
    Repair,
    Transport,
    Until,
    Water,
    Weigh,
)
from buildbook.records.entries.rows import FlightRow, Landing
from buildbook.records.entries.slots import Slot

__all__ = [
    "NOTICED",
    "Alteration",
    "AnyEntry",
    "Capacity",
    "Charge",
    "Check",
    "Cleared",
    "Correction",
    "Defect",
    "Entry",
    "Firmware",
    "Fit",
    "Flight",
    "FlightRow",
    "Gains",
    "Incident",
    "Inspection",
    "Landing",
    "Looked",
    "Milder",
    "Note",
    "Overhaul",
    "Plain",
    "Remove",
    "Repair",
    "Result",
    "Setting",
    "Slot",
    "StateChange",
    "Transport",
    "Until",
    "Verdict",
    "Void",
    "Volts",
    "Water",
    "Weigh",
    "alterable",
]
