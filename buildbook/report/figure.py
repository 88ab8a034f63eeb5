"""What a figure is once it has been worked out, or why it could not be."""

import datetime
from collections.abc import Mapping
from typing import Literal

import msgspec

from buildbook.basis.place import Place

Basis = Literal["measured", "spec", "default", "fitted", "computed"]


class Input(msgspec.Struct, frozen=True, kw_only=True):
    """A value that went in, with its basis and the line where it can be changed."""

    name: str
    value: float | str | None
    unit: str
    basis: Basis
    place: Place | None = None
    note: str | None = None


class Table(msgspec.Struct, frozen=True, kw_only=True):
    """A figure that is rows rather than one number."""

    columns: tuple[str, ...]
    rows: tuple[tuple[str | float | int | None, ...], ...]


class Sensitivity(msgspec.Struct, frozen=True, kw_only=True):
    """By how much (share of the value) the figure moves when an input moves by one percent."""

    input: str
    share_per_percent: float


class Figure(msgspec.Struct, frozen=True, kw_only=True):
    """One figure.

    of: the pack, station, run or item that it is about where there are several.
    law: the key of its law in ``laws/registry.py``, from which the formula as MathML and the
    valid range come; formula: the same as text, or ``method: …``.
    verdict: a few words where the figure is one (``a twin spin at front-left``); notes: caveats,
    such as ``rests on defaults``; other: values of the same figure by another way, by its name.
    day, low_day, high_day: where the figure is a day; ``value`` then counts days from the record.
    """

    name: str
    of: str | None = None
    value: float | None
    unit: str
    low: float | None = None
    high: float | None = None
    level: float | None = None
    basis: Basis
    inputs: tuple[Input, ...] = ()
    formula: str
    source: str
    law: str | None = None
    table: Table | None = None
    verdict: str | None = None
    notes: tuple[str, ...] = ()
    other: Mapping[str, float] = {}
    sensitivity: tuple[Sensitivity, ...] = ()
    day: datetime.date | None = None
    low_day: datetime.date | None = None
    high_day: datetime.date | None = None


class CannotSay(msgspec.Struct, frozen=True, kw_only=True):
    """A figure that lacks something; ``place`` is where to write it."""

    name: str
    of: str | None = None
    because: str
    place: Place | None = None


class Answers(msgspec.Struct, frozen=True, kw_only=True):
    """All figures of an aircraft or item."""

    figures: tuple[Figure, ...] = ()
    cannot_say: tuple[CannotSay, ...] = ()

    def find(self, name: str, of: str | None = None) -> Figure | None:
        """The first figure of that name (and subject)."""
        return next(
            (f for f in self.figures if f.name == name and (of is None or f.of == of)), None
        )
