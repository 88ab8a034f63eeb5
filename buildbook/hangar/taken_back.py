"""Danger that was recorded and by a later word was not: as a rule it was mended instead."""

from collections.abc import Callable, Mapping
from typing import Any

from buildbook.basis import amounts
from buildbook.basis.notation import quoted
from buildbook.hangar.amend import Amended
from buildbook.hangar.folding import Fold
from buildbook.hangar.handlers.incidents import CRASHES
from buildbook.records.entries import (
    AnyEntry,
    Check,
    Defect,
    Flight,
    Incident,
    Inspection,
    Water,
)


def doubt_taken_back(fold: Fold, line: Amended) -> None:
    """Voided, or not so bad by its correction, and nobody is sure of that word."""
    was, word = line.entry, line.words_on[-1]
    told = _danger_of(was)
    if not told or word.sure or (line.stands is not None and _danger_of(line.stands)):
        return
    looked = isinstance(was, Check | Inspection)
    now = "a pass" if looked else "milder" if isinstance(was, Defect) else "none"
    fold.objections.object(
        f"{told} is {'voided' if line.stands is None else f'{now} by its correction'}",
        word.place(),
        severity="warning",
        hint="write a new check of what was mended; sure: true if it never failed"
        if looked
        else "write what was looked at and mended since; sure: true if it never happened",
        also=(was.place(),),
        about=was.aircraft,
    )


def _danger_of(entry: AnyEntry) -> str:
    """``crash of 2026-06-19``; empty for an entry that opens nothing by itself."""
    tells = _TELLS.get(type(entry))
    return "" if tells is None else tells(entry)


def _looked(entry: Check | Inspection) -> str:
    if entry.result != "fail":
        return ""
    names = entry.checks if isinstance(entry, Check) else entry.tasks
    read = [f"{name} {said}" for name, said in entry.readings.items()]
    if isinstance(entry, Inspection) and entry.findings:
        read.insert(0, entry.findings)
    found = f" ({'; '.join(read)})" if read else ""
    return f"{amounts.listed(names)} failed on {entry.on}{found}, and"


def _flown(entry: Flight) -> str:
    if any(row.landing == "crash" for row in entry.rows):
        return f"crash of {entry.on}"
    return f"{amounts.listed(entry.noticed)} of the flight of {entry.on}" if entry.noticed else ""


def _of_incident(entry: Incident) -> str:
    return f"crash of {entry.on}" if entry.severity in CRASHES else ""


def _of_defect(entry: Defect) -> str:
    grounds = entry.severity == "grounds"
    return f"defect {quoted(entry.words)} of {entry.on}, which grounded," if grounds else ""


_TELLS: Mapping[type[AnyEntry], Callable[[Any], str]] = {
    Check: _looked,
    Inspection: _looked,
    Flight: _flown,
    Incident: _of_incident,
    Defect: _of_defect,
    Water: lambda entry: f"water of {entry.on}",
}
"""By kind of entry, what of it grounds or sets aside; empty for nothing."""
