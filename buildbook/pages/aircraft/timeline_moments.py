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
from buildbook.report.state import AircraftNow
from buildbook.words.names import kind_word, sentence


class PartThen(NamedTuple):
    """What sat in a slot. state: where it was not in service. version: of its firmware."""

    tag: str
    state: str = ""
    version: str = ""


class Altered(NamedTuple):
    """The newest alteration, and which one it was, counted from 1."""

    uid: str
    number: int
    words: str = ""


class Stands(NamedTuple):
    """How it stood. gains: empty for none. fitted: by station and kind. defects: open, by entry."""

    status: str
    gains: str = ""
    fitted: Mapping[tuple[str, str], tuple[PartThen, ...]] = {}
    settings: Mapping[tuple[str | None, str], str] = {}
    altered: Altered | None = None
    defects: Mapping[str, str] = {}


class Change(NamedTuple):
    """An entry of its log, and the aircraft right after it."""

    line: LogLine
    now: Snapshot
    before: Stands
    after: Stands


def changes(aircraft: AircraftNow) -> Iterator[Change]:
    """The entries that changed something, oldest first.

    What was written in another log is told at the next entry of the aircraft itself.
    """
    before = Stands(status=aircraft.record.status)
    last: Snapshot | None = None
    for line in aircraft.log:
        now = aircraft.after(line.seq)
        if now is last:
            continue
        last = now
        after = _stands(now, _altered(line, now) or before.altered)
        if after != before:
            yield Change(line=line, now=now, before=before, after=after)
        before = after


def _stands(now: Snapshot, altered: Altered | None) -> Stands:
    return Stands(
        status="flying, grounded by an open defect"
        if now.status == FLYING and now.grounding
        else now.status,
        gains=now.gains or "",
        fitted={
            slot: tuple(
                PartThen(
                    tag=tag,
                    state=now.out_of_service.get(tag) or "",
                    version=now.firmware.get(tag) or "",
                )
                for tag in tags
            )
            for slot, tags in now.fitted.items()
        },
        settings={name: setting.value for name, setting in now.settings.items()},
        altered=altered,
        defects={state.uid: state.defect.words or "" for state in now.open_defects},
    )


def _altered(line: LogLine, now: Snapshot) -> Altered | None:
    if not isinstance(line.stands, entries.Alteration):
        return None
    return Altered(uid=line.name, number=now.alterations, words=line.stands.words or "")


FLYING = "flying"

Value = str | tuple[PartThen, ...] | Altered
Facts = Mapping[str, Mapping[str, Value]]
"""By label, what stands there by its key: kind of part, entry of a defect, or empty."""

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


def moments_of_aircraft(reports: Reports, slug: str) -> Iterator[Moment]:
    """One for each entry that changed something, oldest first."""
    aircraft = reports.hangar.aircraft[slug]
    order = {name: at for at, name in enumerate(aircraft.motor_stations)}
    link = Linker(reports)
    own = {line.name for line in aircraft.log}
    for change in changes(aircraft):
        yield Moment(
            anchor=_anchor(reports, change.line),
            line=change.line,
            short=_short(change.now),
            flown=_flown(change.line),
            rows=tuple(
                row
                for row in _rows(change, order, link, own)
                if not (reports.is_public and _is_in_service(change, row))
            ),
        )


def moment_anchors(reports: Reports, slug: str) -> Mapping[str, str]:
    """By name of an entry, where it is told how the aircraft was after it.

    An entry that changed nothing has the anchor of the latest one before it that did; one before
    the first change has none.
    """
    aircraft = reports.hangar.aircraft[slug]
    changed = {change.line.name for change in changes(aircraft)}
    found: dict[str, str] = {}
    anchor = ""
    for line in aircraft.log:
        name = line.name
        if name in changed:
            anchor = _anchor(reports, line)
        if anchor:
            found[name] = anchor
    return found


def _anchor(reports: Reports, line: LogLine) -> str:
    return f"after-{reports.entry_anchor(line.name)}"


def _is_in_service(change: Change, row: Row) -> bool:
    """What the public would read as how it stands, beside a defect. What changed is an entry."""
    return row.group == "status" and change.after.status.startswith(FLYING)


def _facts(group: str, stands: Stands, order: Mapping[str, int]) -> Facts:
    """What stands under each label of a group."""
    match group:
        case "status":
            return {"status": {"": stands.status}}
        case "gains":
            return {"gain set": {"": stands.gains}}
        case "stations":
            return _stations(stands, order)
        case "settings":
            return {
                f"{name.replace('_', ' ')}{f' of {of}' if of else ''}": {"": value}
                for (of, name), value in stands.settings.items()
            }
        case "altered":
            altered = stands.altered
            return {} if altered is None else {"alterations": {altered.uid: altered}}
        case _:
            return {"open defects": stands.defects} if stands.defects else {}


def _stations(stands: Stands, order: Mapping[str, int]) -> Facts:
    """What sits where: motor stations in the order of the layout, then the others by name."""
    found: dict[str, dict[str, Value]] = {}
    for (station, kind), parts in sorted(
        stands.fitted.items(), key=lambda slot: (order.get(slot[0][0], len(order)), slot[0])
    ):
        found.setdefault(station, {})[kind_word(kind)] = parts
    return found


def _words(group: str, value: Value) -> str:
    """A value in words; nothing written has words too."""
    if isinstance(value, Altered):
        last = value.words or "words that are not shared"
        return f"{value.number} so far, the last: {last}"
    if isinstance(value, str):
        return value or {"gains": "none", DEFECTS: "a defect"}.get(group, "")
    return amounts.listed(_part_words(part) for part in value)


def _part_words(part: PartThen) -> str:
    """A tag with its state, where it is not in service, and its firmware."""
    words = f"{part.tag} {part.state}" if part.state else part.tag
    return f"{words} version {part.version}" if part.version else words


def _rows(change: Change, order: Mapping[str, int], link: Linker, own: set[str]) -> Iterator[Row]:
    """All that stands, and what stood until then, in the order of the page."""
    for group in GROUPS:
        was, stands = _facts(group, change.before, order), _facts(group, change.after, order)
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


def _part(group: str, key: str, old: Value | None, new: Value | None, link: Linker) -> Part:
    stands = old if new is None else new
    assert stands is not None  # one of both is there
    kind = f"{key} " if group == STATIONS else ""
    words = link.pieces(f"{kind}{_words(group, stands)}")
    if new is None:
        remark = "cleared" if group == DEFECTS else "taken out"
        return Part(words=words, remark=(Piece(remark),), changed=True, gone=True)
    if old is None:
        return Part(words=words, remark=(Piece("new"),), changed=True)
    if old != new:
        remark = f"before: {_words(group, old)}"
        return Part(words=words, remark=link.pieces(remark), changed=True)
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
