"""How all aircraft and packs stand, as bytes that another command reads back.

Rows and their rules are written once each: reasons speak of rows, and many rows of one rule.
"""

import copy
import datetime
from collections.abc import Iterable
from contextlib import suppress
from typing import Generic, TypeVar

import msgspec
from msgspec.structs import force_setattr

from buildbook.records.programmes import CheckRule, LimitRule, TaskRule
from buildbook.report.upkeep.work import PackStanding, Reason, Row, Standing, WorkList
from buildbook.upkeep.work_list import Untouched

Numbers = tuple[int, ...]
One = TypeVar("One")
_NONE = -1


class _Written(msgspec.Struct, frozen=True, array_like=True):
    """All standings, without rows and reasons; these, without rules and rows; and rules.

    of_rows: the number of the rule of each row and of its usual one. of_reasons: that of the row
    of each. of_aircraft, of_packs: those of the rows, reasons and notes of each standing.
    """

    aircraft: tuple[Standing, ...]
    packs: tuple[PackStanding, ...]
    rows: tuple[Row, ...]
    reasons: tuple[Reason, ...]
    rules: tuple[CheckRule | TaskRule | LimitRule, ...]
    of_rows: tuple[tuple[int, int], ...]
    of_reasons: Numbers
    of_aircraft: tuple[tuple[Numbers, Numbers, Numbers], ...]
    of_packs: tuple[tuple[Numbers, Numbers, Numbers], ...]


class _Once(Generic[One]):
    """Things in the order in which they were met, each once, known by which it is."""

    def __init__(self) -> None:
        self.met: list[One] = []
        self._numbers: dict[int, int] = {}

    def number(self, one: One | None) -> int:
        """The number of a thing; ``_NONE`` where there is none."""
        if one is None:
            return _NONE
        found = self._numbers.setdefault(id(one), len(self.met))
        if found == len(self.met):
            self.met.append(one)
        return found

    def numbers(self, several: Iterable[One]) -> Numbers:
        """Those of several."""
        return tuple([self.number(one) for one in several])


def written(work: WorkList) -> bytes | None:
    """The standings of a work list; None where they would not come back as they are.

    A whole number where a fraction may stand would come back as a fraction.
    """
    rows: _Once[Row] = _Once()
    reasons: _Once[Reason] = _Once()
    rules: _Once[CheckRule | TaskRule | LimitRule] = _Once()
    of_aircraft = [
        (rows.numbers(one.rows), reasons.numbers(one.reasons), ()) for one in work.aircraft
    ]
    of_packs = [
        (rows.numbers(one.rows), reasons.numbers(one.reasons), reasons.numbers(one.notes))
        for one in work.packs
    ]
    of_reasons = [rows.number(one.row) for one in reasons.met]
    of_rows = [(rules.number(one.rule), rules.number(one.usual)) for one in rows.met]
    parts = (
        [_without(one, rows=(), reasons=()) for one in work.aircraft],
        [_without(one, rows=(), reasons=(), notes=()) for one in work.packs],
        [_without(one, rule=None, usual=None) for one in rows.met],
        [_without(one, row=None) for one in reasons.met],
        rules.met,
        of_rows,
        of_reasons,
        of_aircraft,
        of_packs,
    )
    try:
        data = msgspec.msgpack.encode(parts)
    except ValueError:  # a text that cannot be written
        return None
    read = _decoded(data)
    return data if read is not None and msgspec.msgpack.encode(read) == data else None


def _without(one: One, **fields: object) -> One:
    """A copy with other fields; a few of many are set in one more quickly than all are given."""
    other = copy.copy(one)
    for name, value in fields.items():
        force_setattr(other, name, value)  # type: ignore[arg-type]
    return other


def _decoded(data: bytes | memoryview) -> _Written | None:
    with suppress(msgspec.MsgspecError, ValueError, RecursionError):
        return msgspec.msgpack.decode(data, type=_Written)
    return None


def read_back(data: bytes | memoryview, as_of: datetime.date) -> Untouched | None:
    """The standings of that day; None where the bytes are no such thing."""
    found = _decoded(data)
    if found is None:
        return None
    try:
        for row, (rule, usual) in zip(found.rows, found.of_rows, strict=True):
            if rule != _NONE:
                force_setattr(row, "rule", found.rules[rule])
            if usual != _NONE:
                force_setattr(row, "usual", found.rules[usual])
        for reason, number in zip(found.reasons, found.of_reasons, strict=True):
            if number != _NONE:
                force_setattr(reason, "row", found.rows[number])
        for one, numbers in zip(found.aircraft, found.of_aircraft, strict=True):
            _fill(found, one, numbers)
        for pack, numbers in zip(found.packs, found.of_packs, strict=True):
            _fill(found, pack, numbers)
            force_setattr(pack, "notes", tuple([found.reasons[at] for at in numbers[2]]))
    except (IndexError, ValueError):
        return None
    aircraft = {one.slug: one for one in found.aircraft}
    return Untouched(as_of, aircraft, {one.tag: one for one in found.packs}, whole=True)


def _fill(
    found: _Written, one: Standing | PackStanding, numbers: tuple[Numbers, Numbers, Numbers]
) -> None:
    force_setattr(one, "rows", tuple([found.rows[at] for at in numbers[0]]))
    force_setattr(one, "reasons", tuple([found.reasons[at] for at in numbers[1]]))
