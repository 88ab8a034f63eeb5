"""The set-up sheet: the checks of an aircraft in the order of doing, and what each should read."""

from __future__ import annotations  # marks are looked at for the public only

import datetime
from collections.abc import Mapping
from typing import Annotated, Literal, get_args

import msgspec

from buildbook.records.declare import PRIVATE, PUBLIC, Public, of
from buildbook.records.entries import Check
from buildbook.records.parts import Hand
from buildbook.records.programmes import CheckRule, Stage
from buildbook.report.upkeep.work import Row, RowState

ReadingUnit = Literal["kg", "V a cell", "ratio", "m behind", "m forward"]
"""``m behind``: the leading edge of the mean chord; ``m forward``: of the reference point."""


class Expected(msgspec.Struct, frozen=True, kw_only=True):
    """A reading that the records lead one to expect, and the last one that can be compared.

    station: None of the whole aircraft. pack: with which it holds, where it goes by pack. most:
    the reading should stay below ``value``. on, uid: of the entry that holds ``last``, where that
    is another than the one that passed the check. of_pack: the last voltage was read of all cells
    together. late: an alarm that was read so low that it sounds in the reserve.
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
    late: Annotated[bool, PRIVATE] = False

    @property
    def is_past(self) -> bool:
        """Whether the last reading is on the wrong side of what is expected."""
        return self.late or (self.most and self.last is not None and self.last >= self.value)


WORST: tuple[RowState, ...] = ("failed", "stale", "never done", "ok", "not applicable")
"""States of checks, worst first."""

NOT_ON_THE_SHEET = ("check-flight",)
"""Flown, not set up: the first flights at the end of the sheet are it."""


class SetUpSpot(msgspec.Struct, frozen=True, kw_only=True):
    """A check at one station, of one item, or on the whole aircraft.

    spin: as planned there, of a check of spins. reading: a number that can be expected.
    readings: what this check read last, by name; bare: one value alone, of that station.
    """

    row: Public[Row]
    spin: Public[Hand | None] = None
    reading: Public[Expected | None] = None
    readings: Annotated[Mapping[str, str], of(Check, "readings")] = {}
    bare: Public[bool] = False

    @property
    def differs(self) -> bool:
        """Whether what was read last is another than what can be expected."""
        if self.reading is not None:
            return self.reading.is_past
        read = next(iter(self.readings.values()), "") if self.bare else ""
        return self.spin is not None and read in get_args(Hand) and read != self.spin


class SetUpStep(msgspec.Struct, frozen=True, kw_only=True):
    """One check of the sheet. number: in the order of doing. first: the first that is not passed.

    on: the day that brought it into its state: that of the failure, else last done. propellers_off:
    during it; changes: they go on here, or must come off again. reading: expected of the whole
    aircraft.
    """

    name: Public[str]
    number: Public[int]
    first: Public[bool]
    state: Public[RowState]
    on: Public[datetime.date | None] = None
    rule: Public[CheckRule | None] = None
    propellers_off: Public[bool]
    changes: Public[bool]
    reading: Public[Expected | None] = None
    spots: Public[tuple[SetUpSpot, ...]]


class SetUpStage(msgspec.Struct, frozen=True, kw_only=True):
    """The steps of a stage that has some."""

    stage: Public[Stage]
    steps: Public[tuple[SetUpStep, ...]]


class SetUp(msgspec.Struct, frozen=True, kw_only=True):
    """All of it. dropped: checks that the keeper left out. check_flight: where one is asked for."""

    stages: Public[tuple[SetUpStage, ...]] = ()
    dropped: Public[tuple[Row, ...]] = ()
    check_flight: Public[Row | None] = None
