"""How an aircraft was after each entry that changed it, and what was different from before.

A change that was written elsewhere (the state or firmware of a fitted part in a log of the
store) is told at the next entry of the aircraft itself.
"""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

import msgspec

from buildbook.basis import amounts
from buildbook.pages.linking import Linker, Piece
from buildbook.records import entries
from buildbook.report.history import LogLine
from buildbook.report.reports import Reports
from buildbook.report.snapshots import Snapshot
from buildbook.words.filters import sentence

Facts = Mapping[str, Mapping[str, Mapping[str, str]]]
"""By group and label, what stands there by its key: kind of part, entry of a defect, or empty."""

STATIONS, DEFECTS, ALTERED = "stations", "defects", "altered"
GROUPS = ("status", "gains", STATIONS, "settings", ALTERED, DEFECTS)
"""In the order of the page."""


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """One thing in a row. remark: what of it is new. gone: it is no more. uid: its entry."""

    words: tuple[Piece, ...]
    remark: tuple[Piece, ...] = ()
    changed: bool = False
    gone: bool = False
    uid: str = ""


class Row(msgspec.Struct, frozen=True, kw_only=True):
    """A label with what stands there."""

    group: str
    label: str
    parts: tuple[Part, ...]


class Moment(msgspec.Struct, frozen=True, kw_only=True):
    """The aircraft after an entry. short: the same in a few words."""

    anchor: str
    line: LogLine
    short: str
    flown: str
    rows: tuple[Row, ...]


class Then(NamedTuple):
    """An entry, and the aircraft right after it."""

    line: LogLine
    now: Snapshot


def moments_of_aircraft(reports: Reports, slug: str) -> Iterator[Moment]:
    """One for each entry that changed something, oldest first."""
    link = Linker(reports)
    own = {entry_name(line) for line in reports.hangar.aircraft[slug].log}
    for then, before, now in _changes(reports, slug):
        yield Moment(
            anchor=_anchor(reports, then.line),
            line=then.line,
            short=_short(then.now),
            flown=_flown(then.line),
            rows=tuple(_rows(before, now, link, own)),
        )


def moment_anchors(reports: Reports, slug: str) -> Mapping[str, str]:
    """By name of an entry, where it is told how the aircraft was after it.

    An entry that changed nothing has the anchor of the latest one before it that did; one before
    the first change has none.
    """
    changed = {entry_name(then.line): then.line for then, _, _ in _changes(reports, slug)}
    found: dict[str, str] = {}
    anchor = ""
    for line in reports.hangar.aircraft[slug].log:
        name = entry_name(line)
        if name in changed:
            anchor = _anchor(reports, line)
        if anchor:
            found[name] = anchor
    return found


def entry_name(line: LogLine) -> str:
    """As the hangar names an entry; a projected one has no file before its opaque name."""
    return line.entry.uid.removeprefix("#")


def _anchor(reports: Reports, line: LogLine) -> str:
    return f"after-{reports.entry_anchor(entry_name(line))}"


def _changes(reports: Reports, slug: str) -> Iterator[tuple[Then, Facts, Facts]]:
    """The entries that changed something, with the facts before and after."""
    aircraft = reports.hangar.aircraft[slug]
    order = {name: at for at, name in enumerate(aircraft.motor_stations)}
    facts: Facts = {
        "status": {"status": {"": aircraft.record.status}},
        "gains": {"gain set": {"": "none"}},
    }
    last: Snapshot | None = None
    for line in aircraft.log:
        now = aircraft.after(line.seq)
        if now is last:
            continue
        last, then = now, Then(line, now)
        stands: Facts = {
            "status": {"status": {"": now.status}},
            "gains": {"gain set": {"": now.gains or "none"}},
            STATIONS: _stations(now, order),
            "settings": _settings(now),
            ALTERED: _altered(then) or facts.get(ALTERED, {}),
            DEFECTS: _defects(now),
        }
        if stands != {group: facts.get(group, {}) for group in GROUPS}:
            yield then, facts, stands
        facts = stands


def _in_words(tag: str, now: Snapshot) -> str:
    """A tag with its state, where it is not in service, and its firmware."""
    state, version = now.out_of_service.get(tag), now.firmware.get(tag)
    words = f"{tag} {state}" if state else tag
    return f"{words} version {version}" if version else words


def _stations(now: Snapshot, order: Mapping[str, int]) -> Mapping[str, Mapping[str, str]]:
    """What sits where: motor stations in the order of the layout, then the others by name."""
    found: dict[str, dict[str, str]] = {}
    for (station, kind), tags in sorted(
        now.fitted.items(), key=lambda slot: (order.get(slot[0][0], len(order)), slot[0])
    ):
        words = amounts.listed(_in_words(tag, now) for tag in tags)
        found.setdefault(station, {})[kind.replace("_", " ")] = words
    return found


def _settings(now: Snapshot) -> Mapping[str, Mapping[str, str]]:
    """In the order of first writing."""
    return {
        f"{name.replace('_', ' ')}{f' of {of}' if of else ''}": {"": setting.value}
        for (of, name), setting in now.settings.items()
    }


def _altered(then: Then) -> Mapping[str, Mapping[str, str]]:
    """The newest alteration, where the entry is one."""
    stands = then.line.stands
    if not isinstance(stands, entries.Alteration):
        return {}
    last = stands.words or "words that are not shared"
    words = f"{then.now.alterations} so far, the last: {last}"
    return {"alterations": {entry_name(then.line): words}}


def _defects(now: Snapshot) -> Mapping[str, Mapping[str, str]]:
    found = {state.uid: state.defect.words or "a defect" for state in now.open_defects}
    return {"open defects": found} if found else {}


def _rows(before: Facts, now: Facts, link: Linker, own: set[str]) -> Iterator[Row]:
    """All that stands, and what stood until then, in the order of the page."""
    for group in GROUPS:
        was, stands = before.get(group, {}), now.get(group, {})
        for label in dict.fromkeys((*stands, *was)):
            old, new = was.get(label, {}), stands.get(label, {})
            keys = dict.fromkeys((*new, *(() if group == ALTERED else old)))
            parts = [_part(group, key, old.get(key), new.get(key), link) for key in keys]
            if group in (ALTERED, DEFECTS):
                linked = zip(parts, keys, strict=True)
                parts = [
                    msgspec.structs.replace(part, uid=key) if key in own else part
                    for part, key in linked
                ]
            yield Row(group=group, label=sentence(label), parts=tuple(_new_once(parts)))


def _part(group: str, key: str, old: str | None, new: str | None, link: Linker) -> Part:
    kind = f"{key} " if group == STATIONS else ""
    words = link.pieces(f"{kind}{old if new is None else new}")
    if new is None:
        remark = "cleared" if group == DEFECTS else "taken out"
        return Part(words=words, remark=(Piece(remark),), changed=True, gone=True)
    if old is None:
        return Part(words=words, remark=(Piece("new"),), changed=True)
    if old != new:
        return Part(words=words, remark=link.pieces(f"before: {old}"), changed=True)
    return Part(words=words)


def _new_once(parts: list[Part]) -> Iterator[Part]:
    """Where all of a row came or went at once, the word for it stands once, at the end."""
    alike = len({part.remark for part in parts}) == 1
    for at, part in enumerate(parts, start=1):
        drop = alike and at < len(parts)
        yield msgspec.structs.replace(part, remark=()) if drop else part


def _short(now: Snapshot) -> str:
    """``16 items fitted, gain set soft, 1 defect open``."""
    said = [f"{amounts.count('item', sum(len(tags) for tags in now.fitted.values()))} fitted"]
    if now.gains:
        said.append(f"gain set {now.gains}")
    if now.open_defects:
        said.append(f"{amounts.count('defect', len(now.open_defects))} open")
    return ", ".join(said)


def _flown(line: LogLine) -> str:
    if not line.total_flights:
        return ""
    return f"{amounts.hours(line.total_s)}, {amounts.count('flight', line.total_flights)}"
