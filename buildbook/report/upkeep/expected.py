"""What a set-up check should read, and what it read last, in one unit."""

import datetime
from typing import Annotated, Literal

import msgspec

from buildbook.records.declare import PRIVATE, PUBLIC

ReadingUnit = Literal["kg", "V a cell", "ratio", "m behind", "m forward"]
"""``m behind``: the leading edge of the mean chord; ``m forward``: of the reference point."""


class Expected(msgspec.Struct, frozen=True, kw_only=True):
    """A reading that the records lead one to expect, and the last one that can be compared.

    station: None of the whole aircraft. pack: with which it holds, where it goes by pack. most:
    the reading should stay below ``value``. on, uid: of the entry that holds ``last``, where that
    is another than the one that passed the check. of_pack: the last voltage was read of all cells
    together.
    """

    check: Annotated[str, PUBLIC]
    unit: Annotated[ReadingUnit, PUBLIC]
    value: Annotated[float, PUBLIC]
    station: Annotated[str | None, PUBLIC] = None
    pack: Annotated[str | None, PUBLIC] = None
    most: Annotated[bool, PUBLIC] = False
    last: Annotated[float | None, PRIVATE] = None
    of_pack: Annotated[bool, PRIVATE] = False
    on: Annotated[datetime.date | None, PRIVATE] = None
    uid: Annotated[str | None, PRIVATE] = None

    @property
    def is_past(self) -> bool:
        """Whether the last reading is at or above what it should stay below."""
        return self.most and self.last is not None and self.last >= self.value
