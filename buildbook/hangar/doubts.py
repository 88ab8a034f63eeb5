"""Readings that can hardly be right: a slip of the pen, or something to look into. All warnings."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from buildbook.basis import amounts
from buildbook.basis.notation import quoted
from buildbook.basis.place import Place
from buildbook.basis.problems import SURE, either
from buildbook.basis.units import FREEZING_K
from buildbook.hangar.amend import Amended
from buildbook.hangar.builders import ItemBuilder
from buildbook.hangar.folding import Fold
from buildbook.hangar.handlers.incidents import CRASHES
from buildbook.hangar.pack_days import Doubt
from buildbook.hangar.packs.aside import is_hot
from buildbook.records.entries import (
    AnyEntry,
    Capacity,
    Charge,
    Check,
    Defect,
    Flight,
    Incident,
    Inspection,
    Water,
    Weigh,
)
from buildbook.report.packs.like_conditions import is_of_one_cell

COOLEST_CHARGE_K = FREEZING_K
WARMEST_CHARGE_K = 313.15
"""0 to 40 °C: battery guidance of NFPA and USFA for consumers."""

SCALES_SHARE = 0.02
"""Several small scales may differ from one big one by this; common practice, no source."""


def doubt_charge(fold: Fold, pack: ItemBuilder, entry: Charge) -> None:
    """Too cold or too warm to charge, readings that don't match the cells, too much put in."""
    if entry.resistance_ohm:
        _doubt_cells(fold, pack, entry, "resistance", entry.resistance_ohm)
    if entry.resting_v:
        _doubt_cells(fold, pack, entry, "resting", entry.resting_v)
    readings = "resistance" if entry.resistance_ohm else "resting" if entry.resting_v else None
    if readings and not entry.together and pack.tag != entry.packs[0]:
        _doubt(
            fold,
            f"the same {readings} of each cell for {pack.words} as for {quoted(entry.packs[0])}",
            entry.place(readings),
            "write a charge for each pack, with its own readings",
            entry.aircraft,
        )
    if entry.temperature_k is not None and is_unfit_to_charge(entry.temperature_k):
        _doubt(
            fold,
            f"{pack.words} charged at {amounts.temperature(entry.temperature_k)}",
            entry.place("temperature"),
            "look at the pack and read each cell before it is charged or flown again; charge"
            " between 0 °C and 40 °C",
            entry.aircraft,
        )


def is_unfit_to_charge(temperature_k: float) -> bool:
    """Whether a pack is too cold or too warm to be charged."""
    return not COOLEST_CHARGE_K <= round(temperature_k, 3) <= WARMEST_CHARGE_K


def doubt_volts(fold: Fold, entry: Flight) -> None:
    """Exchanged: a pack reads less in flight than before it."""
    volts = entry.volts
    if volts is None or volts.before_v is None or volts.lowest_v is None:
        return
    if volts.lowest_v > volts.before_v:
        _doubt(
            fold,
            "the lowest voltage is above the one before",
            entry.place("volts.lowest"),
            "exchanged? correct one of them",
            entry.aircraft,
        )


def _doubt_cells(
    fold: Fold, pack: ItemBuilder, entry: Charge, key: str, readings: Sequence[float]
) -> None:
    cells = pack.spec.cells
    if cells is not None and len(readings) != cells.series:
        _doubt(
            fold,
            f"{pack.words} has {amounts.count('cell', cells.series)},"
            f" {key} has {amounts.count('reading', len(readings))}",
            entry.place(key),
            "write one reading a cell; or cell count on the charger, or another pack?",
            entry.aircraft,
        )


def doubt_capacity(fold: Fold, pack: ItemBuilder, entry: Capacity) -> None:
    """A hot pack; the volts of a cell where those of the pack belong."""
    if entry.temperature_k is not None and is_hot(entry.temperature_k):
        _doubt(
            fold,
            f"{pack.words} discharged at {amounts.temperature(entry.temperature_k)}",
            entry.place("temperature"),
            "keep it outdoors, away from what burns, and look at it on a later day",
            entry.aircraft,
        )
    cells, down_to_v = pack.spec.cells, entry.down_to_v
    if cells is None or down_to_v is None:
        return
    if is_of_one_cell(down_to_v, cells.series, pack.spec.chemistry):
        _doubt(
            fold,
            f"{pack.words} discharged down to {down_to_v:g} V, which is that of one cell of"
            f" {cells.series}",
            entry.place("down_to"),
            f"write that of the pack: {down_to_v * cells.series:g} V",
            entry.aircraft,
        )


def doubt_weighing(fold: Fold, entry: Weigh, fitted: Mapping[str, str], slug: str) -> None:
    """Scales that don't add up to the mass; something left off that was not on."""
    summed_kg = sum(entry.scales_kg.values()) if entry.scales_kg else entry.mass_kg
    if abs(summed_kg - entry.mass_kg) > SCALES_SHARE * entry.mass_kg:
        _doubt(
            fold,
            f"the scales add up to {amounts.mass(summed_kg)}, the mass weighed is"
            f" {amounts.mass(entry.mass_kg)}",
            entry.place("scales"),
            "correct one of them",
            slug,
        )
    for tag in entry.without:
        if tag in fold.items and tag not in fitted and tag != entry.pack:
            _doubt(
                fold,
                f"weighed without {quoted(tag)} on {fold.at.day}, where it is not fitted",
                entry.place("without"),
                "name only what is fitted and was off",
                slug,
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
        hint=f"write a new check of what was mended; {SURE} if it never failed"
        if looked
        else f"write what was looked at and mended since; {SURE} if it never happened",
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


def doubt_pack_days(fold: Fold, doubts: Iterable[Doubt]) -> None:
    """A pack that rests full or empty: whichever of the two came last on its last day."""
    for pack, charge, flight in doubts:
        if pack in fold.items:
            fold.objections.object(
                f"{fold.items[pack].words} charged or flown last on {charge.on}: not recorded",
                charge.place("charge"),
                severity="warning",
                hint="write the times, as in "
                + either(f"on: {charge.on}T18:30", f"--on '{charge.on} 18:30'"),
                also=(flight.place(),),
                about=charge.aircraft,
            )


def _doubt(fold: Fold, reason: str, place: Place, hint: str, about: str | None) -> None:
    if not fold.sure:
        fold.objections.object(reason, place, severity="warning", hint=hint, about=about)
