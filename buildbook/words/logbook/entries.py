"""An entry of a logbook in one line: what was done, in the words of the bench.

Words that the audience may not see are blank in a projected entry; the line then says the kind.
"""

from collections.abc import Callable, Mapping
from typing import Any

from buildbook.basis import amounts
from buildbook.records import entries
from buildbook.records.entries import AnyEntry
from buildbook.words.names import name_words

MOST_SLOTS = 3
"""A fit of more stations than this is told as a count."""


def entry_kind(entry: AnyEntry) -> str:
    """The kind in plain words: ``flight``, ``calibration``, ``gain set``."""
    if isinstance(entry, entries.Check) and entry.taught:
        return "calibration"
    if isinstance(entry, entries.Flight) and len(entry.rows) > 1:
        return "flights"
    return NOUNS.get(type(entry)) or str(type(entry).__struct_config__.tag)


def entry_line(entry: AnyEntry) -> str:
    """One line without a full stop: ``7 min 20 s with P-01, hard landing``."""
    words = LINES.get(type(entry), _words)(entry)
    return words or _UNTOLD.get(type(entry), entry_kind(entry))


def _spaced(names: tuple[str, ...]) -> str:
    return amounts.listed(name_words(name) for name in names)


def _result(result: str | None) -> str:
    return "" if result is None else f": {result}"


def _fit(entry: entries.Fit) -> str:
    stations: dict[str, list[str]] = {}
    for slot in entry.slots:
        stations.setdefault(slot.station, []).extend(slot.tags)
    if len(stations) > MOST_SLOTS:
        items = sum(len(tags) for tags in stations.values())
        return f"fitted {amounts.count('item', items)} at {amounts.count('station', len(stations))}"
    said = (f"{amounts.listed(tags)} at {station}" for station, tags in stations.items())
    out = ""
    if entry.instead_of:
        out = f", instead of {amounts.listed(entry.instead_of)}"
    return f"fitted {'; '.join(said)}{out}"


def _remove(entry: entries.Remove) -> str:
    because = f": {entry.because}" if entry.because else ""
    return f"took out {amounts.listed(entry.tags)}{because}"


def _overhaul(entry: entries.Overhaul) -> str:
    steps = f": {', '.join(entry.steps)}" if entry.steps else ""
    because = f", {entry.because}" if entry.because else ""
    return f"overhauled {amounts.listed(entry.tags)}{steps}{because}"


def _states(entry: entries.StateChange) -> str:
    said = ", ".join(f"{tag} {state}" for tag, state in entry.states.items())
    return f"{said}{f': {entry.because}' if entry.because else ''}"


def _flight(entry: entries.Flight) -> str:
    packs = tuple(dict.fromkeys(tag for row in entry.rows for tag in row.packs))
    seconds = amounts.total_seconds(row.duration_s for row in entry.rows)
    said = amounts.duration(seconds)
    if len(entry.rows) > 1:
        said = f"{amounts.count('flight', len(entry.rows))}, {said}"
    if packs:
        said += f" with {amounts.listed(packs)}"
    bad = tuple(row.landing for row in entry.rows if row.landing != "normal")
    if bad:
        said += ", crash" if "crash" in bad else ", hard landing"
    if entry.purpose:
        said += f", {entry.purpose} flight{_result(entry.result)}"
    return said


def _opening(entry: entries.Opening) -> str:
    totals = entry.totals
    said = [amounts.hours(totals.duration_s)] if totals.duration_s is not None else []
    said += [amounts.count("flight", totals.flights)] if totals.flights is not None else []
    return f"brought forward: {', '.join(said)}"


def _charge(entry: entries.Charge) -> str:
    put_in = f", {amounts.charge(entry.put_in_ah)} put in" if entry.put_in_ah is not None else ""
    to = {"storage": " to storage", "part": " partly"}.get(entry.to or "", "")
    return f"charged {amounts.listed(entry.packs)}{to}{put_in}"


def _capacity(entry: entries.Capacity) -> str:
    return f"capacity of {entry.pack} measured: {amounts.charge(entry.measured_ah)}"


def _check(entry: entries.Check) -> str:
    at = f" at {amounts.listed(entry.stations)}" if entry.stations else ""
    return f"{_spaced(entry.checks)}{at}{_result(entry.result)}"


def _setting(entry: entries.Setting) -> str:
    said = (f"{name.replace('_', ' ')} {value}" for name, value in entry.settings.items())
    words = ", ".join(said) or "a setting that is not shared"
    return f"{words}{f' of {entry.of}' if entry.of else ''}"


def _gains(entry: entries.Gains) -> str:
    if not entry.values:
        return f"back to {entry.name}"
    base = f", from {entry.base}" if entry.base else ""
    return f"now {entry.name}{base}"


def _verdict(entry: entries.Verdict) -> str:
    said = (f"of {name}: {words.rstrip('.')}" for name, words in entry.verdicts.items())
    return "; ".join(said)


def _weigh(entry: entries.Weigh) -> str:
    pack = f" with {entry.pack}" if entry.pack else ""
    return f"{amounts.mass(entry.mass_kg)} on the scales{pack}"


def _inspection(entry: entries.Inspection) -> str:
    of = f" of {amounts.listed(entry.tags)}" if entry.tags else ""
    found = f". {entry.findings}" if entry.findings else ""
    return f"{_spaced(entry.tasks)}{of}{_result(entry.result)}{found}"


def _cleared(entry: entries.Cleared) -> str:
    return f"defect cleared{f': {entry.how}' if entry.how else ''}"


def _firmware(entry: entries.Firmware) -> str:
    return ", ".join(f"{tag} version {version}" for tag, version in entry.versions.items())


def _words(entry: Any) -> str:
    words: str = entry.words
    return words


def _correction(entry: entries.Correction) -> str:
    return f"corrects an earlier entry{f': {entry.because}' if entry.because else ''}"


def _void(entry: entries.Void) -> str:
    return f"earlier entry voided{f': {entry.because}' if entry.because else ''}"


_UNTOLD: Mapping[type, str] = {
    entries.Incident: "details not shared",
    entries.Defect: "details not shared",
    entries.Transport: "transported",
    entries.Water: "got wet",
}
"""What stands where an audience may know that it happened, and no more."""

NOUNS: Mapping[type, str] = {
    entries.Remove: "removal",
    entries.Gains: "gain set",
    entries.Weigh: "weighing",
    entries.Correction: "correction",
    entries.Void: "void",
}
"""Kinds whose noun is not their key."""

LINES: Mapping[type, Callable[[Any], str]] = {
    entries.Fit: _fit,
    entries.Remove: _remove,
    entries.StateChange: _states,
    entries.Flight: _flight,
    entries.Opening: _opening,
    entries.Charge: _charge,
    entries.Capacity: _capacity,
    entries.Check: _check,
    entries.Setting: _setting,
    entries.Gains: _gains,
    entries.Verdict: _verdict,
    entries.Weigh: _weigh,
    entries.Overhaul: _overhaul,
    entries.Inspection: _inspection,
    entries.Cleared: _cleared,
    entries.Firmware: _firmware,
    entries.Correction: _correction,
    entries.Void: _void,
}
"""Kinds whose line is more than the words that were written."""
