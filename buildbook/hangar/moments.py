"""An aircraft after each line of its log: what was fitted, in force and open then.

Told from the folded hangar, without folding anew: a stay, a setting, a period and a defect each
know when they began and ended.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import Generic, NamedTuple, TypeVar

import msgspec

from buildbook.records.aircraft import Status
from buildbook.records.entries import Alteration
from buildbook.report.history import DefectState, Happened, InForce, LogLine
from buildbook.report.state import Hangar


class Then(msgspec.Struct, frozen=True, kw_only=True):
    """The aircraft right after a line. ``fitted``: tags by station and kind."""

    line: LogLine
    status: Status
    fitted: Mapping[tuple[str, str], tuple[str, ...]]
    settings: Mapping[tuple[str | None, str], InForce]
    gains: str | None
    open_defects: tuple[DefectState, ...]


class _Move(NamedTuple):
    """A part goes in or comes out; out comes first at one moment."""

    seq: int
    goes_in: bool
    station: str
    kind: str
    tag: str


Sequenced = TypeVar("Sequenced", bound=_Move | Happened)


def moments(hangar: Hangar, slug: str) -> Iterator[Then]:
    """The aircraft after each line of its log, oldest first. KeyError: no such aircraft."""
    aircraft = hangar.aircraft[slug]
    moves = _Until(_moves(hangar, slug))
    settings = _Until(aircraft.setting_log)
    periods = _Until(aircraft.gain_periods)
    found = _Until(sorted(aircraft.defects, key=lambda state: state.seq))
    fitted: Mapping[tuple[str, str], tuple[str, ...]] = {}
    in_force: Mapping[tuple[str | None, str], InForce] = {}
    open_defects: tuple[DefectState, ...] = ()
    status, gains = aircraft.record.status, None
    for line in aircraft.log:
        for move in moves.upto(line.seq):
            fitted = _after(fitted, move)
        for setting in settings.upto(line.seq):
            in_force = {**in_force, (setting.of, setting.name): setting}
        for period in periods.upto(line.seq):
            gains = period.name
        open_defects = tuple(
            state
            for state in (*open_defects, *found.upto(line.seq))
            if state.cleared_seq is None or line.seq < state.cleared_seq
        )
        if isinstance(line.stands, Alteration) and line.stands.status is not None:
            status = line.stands.status
        yield Then(
            line=line,
            status=status,
            fitted=fitted,
            settings=in_force,
            gains=gains,
            open_defects=open_defects,
        )


class _Until(Generic[Sequenced]):
    """What has a moment, oldest first, handed out once as the log comes to it."""

    def __init__(self, found: Sequence[Sequenced]) -> None:
        self._found = found
        self._next = 0

    def upto(self, seq: int) -> Iterator[Sequenced]:
        """What is left up to and including that moment."""
        while self._next < len(self._found) and self._found[self._next].seq <= seq:
            self._next += 1
            yield self._found[self._next - 1]


def _moves(hangar: Hangar, slug: str) -> list[_Move]:
    found = []
    for item in hangar.items.values():
        for stay in item.stays:
            if stay.aircraft == slug:
                found.append(_Move(stay.since_seq, True, stay.station, stay.kind, item.tag))
                if stay.until_seq is not None:
                    found.append(_Move(stay.until_seq, False, stay.station, stay.kind, item.tag))
    return sorted(found)


def _after(
    fitted: Mapping[tuple[str, str], tuple[str, ...]], move: _Move
) -> dict[tuple[str, str], tuple[str, ...]]:
    """What is fitted after a move."""
    slot = (move.station, move.kind)
    others = tuple(tag for tag in fitted.get(slot, ()) if tag != move.tag)
    after = {**fitted, slot: (*others, move.tag) if move.goes_in else others}
    return after if after[slot] else {key: tags for key, tags in after.items() if key != slot}
