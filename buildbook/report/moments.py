"""How an aircraft stood after each entry that changed it, beside how it stood until then.

Compared as an audience may see it: a change of what is not shared is none.
"""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from buildbook.records import entries
from buildbook.report.history import LogLine
from buildbook.report.snapshots import Snapshot
from buildbook.report.state import AircraftNow


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
        status=now.status,
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
