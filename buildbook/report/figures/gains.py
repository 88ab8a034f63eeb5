"""The gain sets of an aircraft side by side, and what was flown on each."""

from __future__ import annotations  # marks are looked at for the public only

import msgspec

from buildbook.report.drawn.plans import GainPlan
from buildbook.report.figure import Figure
from buildbook.report.history import FlightDone, GainSet, GainsPeriod, GainsVerdict
from buildbook.report.marks import Public


class GainCell(msgspec.Struct, frozen=True, kw_only=True):
    """A value of a set. change: against the set it is compared with; None where that lacks it."""

    value: Public[float]
    change: Public[float | None] = None


class GainTerm(msgspec.Struct, frozen=True, kw_only=True):
    """One axis and term across all sets; a set without it has an empty cell."""

    axis: Public[str]
    term: Public[str]
    cells: Public[tuple[GainCell | None, ...]]


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
