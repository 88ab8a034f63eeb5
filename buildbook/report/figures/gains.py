"""The gain sets of an aircraft side by side, and what was flown on each."""

from __future__ import annotations  # marks are looked at for the public only

import datetime
from typing import Annotated

import msgspec

from buildbook.basis.place import Place
from buildbook.records.declare import PRIVATE, Public
from buildbook.report.drawn.plans import GainPlan
from buildbook.report.figure import Figure
from buildbook.report.history import FlightDone, GainSet, GainsPeriod, GainsVerdict


class GainCell(msgspec.Struct, frozen=True, kw_only=True):
    """A value of a set. change: against the set it is compared with; None where that lacks it."""

    value: Public[float]
    change: Public[float | None] = None


class GainTerm(msgspec.Struct, frozen=True, kw_only=True):
    """One axis and term across all sets; a set without it has an empty cell."""

    axis: Public[str]
    term: Public[str]
    cells: Public[tuple[GainCell | None, ...]]


class TermRaised(msgspec.Struct, frozen=True):
    """A term of an axis that is at least twice what it was in the set before."""

    axis: Annotated[str, PRIVATE]
    term: Annotated[str, PRIVATE]
    before: Annotated[float, PRIVATE]
    value: Annotated[float, PRIVATE]


class GainsRaised(msgspec.Struct, frozen=True, kw_only=True):
    """A set with terms raised that much, in force when something happened or was remarked.

    since: the day of the set. on, entry, place: of what happened. what: the event or kind of entry.
    """

    name: Annotated[str, PRIVATE]
    since: Annotated[datetime.date, PRIVATE]
    on: Annotated[datetime.date, PRIVATE]
    what: Annotated[str, PRIVATE]
    entry: Annotated[str, PRIVATE]
    place: Annotated[Place, PRIVATE]
    terms: Annotated[tuple[TermRaised, ...], PRIVATE]


class GainUse(msgspec.Struct, frozen=True, kw_only=True):
    """A gain set and what became of it. against: the set that its differences are told against."""

    gains: Public[GainSet]
    against: Public[str | None]
    in_force: Public[bool]
    periods: Public[tuple[GainsPeriod, ...]]
    flights: Public[int]
    duration_s: Public[float]
    first: Public[FlightDone | None]
    last: Public[FlightDone | None]
    used: Public[Figure | None]
    verdicts: Public[tuple[GainsVerdict, ...]]


class GainsReport(msgspec.Struct, frozen=True, kw_only=True):
    """All sets in the order of writing. drawn: the one in force beside its other."""

    sets: Public[tuple[GainUse, ...]]
    terms: Public[tuple[GainTerm, ...]]
    in_force: Public[str | None]
    drawn: Public[GainPlan | None]
