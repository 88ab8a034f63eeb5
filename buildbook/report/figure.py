"""What a figure is once it has been worked out, or why it could not be."""

from __future__ import annotations  # marks are looked at for the public only

import datetime
from collections.abc import Mapping
from typing import Annotated, Literal

import msgspec

from buildbook.basis.place import Place
from buildbook.records.declare import PRIVATE, PUBLIC, Shown

Judged = Literal[
    "within the limits",
    "ahead of the forward limit",
    "behind the aft limit",
    "outside its own limits",
    "reached",
    "past already",
]
"""What a verdict comes to, for whoever acts on it; the verdict itself is only read by people."""

Basis = Literal["measured", "spec", "default", "fitted", "computed"]

BASIS_WORDS: Mapping[Basis, str] = {
    "measured": "measured",
    "computed": "computed",
    "fitted": "from the log",
    "spec": "from sheet or plan",
    "default": "assumed",
}
"""What stands beside a figure or input: how it is known."""

Wording = Literal[
    "",
    "share",
    "margin",
    "usual margin",
    "throttle",
    "capacities an hour",
    "fine charge",
    "two digits",
    "rough",
    "tenths",
    "height",
    "torque",
    "milliohms",
    "grams",
    "charges",
    "wing loading",
]
"""How a value is said where its unit alone does not tell."""


RATIO_AT_RESERVE = "at the reserve"
FRESH_SHARE = "share left with a full pack"
"""What ``other`` of a margin has beside the share left at the nominal voltage, if it is less."""

AT_FREEZING_S = "at 0 °C, s"
PAYLOAD_KG = "payload flown, kg"
LOADED_S = "with the payload flown, s"
LOADED_AT_FREEZING_S = "with the payload flown at 0 °C, s"
"""What ``other`` of a timer has: for a pack at freezing, and for the heaviest payload flown."""

FLIGHTS_BEHIND = "flights with a charge behind it"
"""What ``other`` of a timer has where it is nought, and something is assumed."""

LOADED_V = "with the payload flown, V"
"""What ``other`` of an alarm has for that payload."""

HOVER_A = "hover by theory, A"
"""What ``other`` of the current flown has beside it."""

OF_VOLTAGE = "share of the pack's voltage"
"""What ``other`` of a drop along the wires has."""

SUMMED_KG, WEIGHED_KG = "sum_kg", "measured_kg"
"""What ``other`` of a mass budget has: all parts added up, and what the scales showed."""

A_CHARGE = "change a charge"
"""What the trend of a pack's capacity is ``of``."""


class Name(msgspec.Struct, frozen=True):
    """What an input is called, with its subject apart: ``resistance`` ``of`` ``P-01``.

    joined: by which word. further: what follows the subject, such as ``when full``. load: at which
    load it is told.
    """

    what: Annotated[str, PUBLIC]
    joined: Annotated[Literal["of", "with", "from"], PUBLIC] = "of"
    subject: Annotated[str, PUBLIC] = ""
    further: Annotated[str, PUBLIC] = ""
    load: Annotated[str, PUBLIC] = ""

    @property
    def whole(self) -> str:
        """All of it, as it stands alone: ``current from pack to ring, hover``."""
        return self.beside("", "")

    def beside(self, subject: str, load: str) -> str:
        """The same where this subject and load are told beside it: ``current``."""
        own = f"{self.joined} {self.subject}" if self.subject not in ("", subject) else ""
        words = " ".join(one for one in (self.what, own, self.further) if one)
        return words if self.load in ("", load) else f"{words}, {self.load}"


def called(name: Name | str) -> Name:
    """A name; one in words has no subject."""
    return Name(name) if isinstance(name, str) else name


class Input(msgspec.Struct, frozen=True, kw_only=True):
    """A value that went in, with its basis and the line where it can be changed.

    links: where it was itself worked out, the names of the weakest inputs that it rests on.
    worded: how it is said where its unit alone does not tell: a share in per cent, a height over
    the sea, a place aft of the reference point.
    """

    called: Annotated[Name, PUBLIC]
    value: Annotated[float | str | None, PUBLIC]
    unit: Annotated[str, PUBLIC]
    basis: Annotated[Basis, PUBLIC]
    place: Annotated[Place | None, PRIVATE] = None
    note: Annotated[str | None, PRIVATE] = None
    links: Annotated[tuple[str, ...], PUBLIC] = ()
    worded: Annotated[Literal["", "share", "altitude", "aft"], PUBLIC] = ""

    @property
    def name(self) -> str:
        """What it is called where it stands alone."""
        return self.called.whole


class Table(msgspec.Struct, frozen=True, kw_only=True):
    """A figure that is rows rather than one number."""

    columns: Annotated[tuple[str, ...], PUBLIC]
    rows: Annotated[tuple[tuple[str | float | int | None, ...], ...], PUBLIC]


class Sensitivity(msgspec.Struct, frozen=True, kw_only=True):
    """By how much (share of the value) the figure moves when an input moves by one percent."""

    input: Annotated[Name, PUBLIC]
    share_per_percent: Annotated[float, PUBLIC]


class Figure(msgspec.Struct, frozen=True, kw_only=True):
    """One figure.

    of: the pack, station, run or item that it is about where there are several.
    law: the key of its law in ``laws/registry.py``, from which the formula as MathML and the
    valid range come; formula: the same as text, or a method in words (``by_method``).
    verdict: a few words where the figure is one (``a twin spin at front-left``); notes: caveats,
    such as ``rests on defaults``; other: values of the same figure by another way, by its name.
    in_verdict: those of them that the verdict says already; ``value`` is the value itself.
    fault: what the verdict holds against the whole, such as spins that do not cancel. odd: which
    of several parts stands out, a cell, counted from 1. weighed: read off the scales, and nothing
    has changed since.
    judged: the verdict as one of a few. unjudged: it tells only that the keeper wrote nothing to
    judge by, which is his own business. about, load: where ``of`` tells both, the subject alone
    and at which load (``hover``, ``full throttle``).
    Verdict and notes are for reading: nothing compares them.
    day, low_day, high_day: where the figure is a day; ``value`` then counts days from the record.
    worded: how the value is said; shown: who may see the figure. Both come from its declaration.
    """

    name: Annotated[str, PUBLIC]
    of: Annotated[str | None, PUBLIC] = None
    value: Annotated[float | None, PUBLIC]
    unit: Annotated[str, PUBLIC]
    low: Annotated[float | None, PUBLIC] = None
    high: Annotated[float | None, PUBLIC] = None
    level: Annotated[float | None, PUBLIC] = None
    basis: Annotated[Basis, PUBLIC]
    inputs: Annotated[tuple[Input, ...], PUBLIC] = ()
    formula: Annotated[str, PUBLIC]
    source: Annotated[str, PUBLIC]
    law: Annotated[str | None, PUBLIC] = None
    by_method: Annotated[bool, PUBLIC] = False
    table: Annotated[Table | None, PUBLIC] = None
    verdict: Annotated[str | None, PUBLIC] = None
    fault: Annotated[str | None, PUBLIC] = None
    odd: Annotated[int | None, PUBLIC] = None
    weighed: Annotated[bool, PUBLIC] = False
    judged: Annotated[Judged | None, PUBLIC] = None
    unjudged: Annotated[bool, PUBLIC] = False
    about: Annotated[str | None, PUBLIC] = None
    load: Annotated[str | None, PUBLIC] = None
    notes: Annotated[tuple[str, ...], PUBLIC] = ()
    other: Annotated[Mapping[str, float], PUBLIC] = {}
    in_verdict: Annotated[tuple[str, ...], PUBLIC] = ()
    sensitivity: Annotated[tuple[Sensitivity, ...], PUBLIC] = ()
    day: Annotated[datetime.date | None, PUBLIC] = None
    low_day: Annotated[datetime.date | None, PUBLIC] = None
    high_day: Annotated[datetime.date | None, PUBLIC] = None
    worded: Annotated[Wording, PUBLIC] = ""
    shown: Annotated[Shown, PUBLIC] = "private"


def least_share(margin: Figure) -> float:
    """What is left of a rating where the least is: on a full pack. margin: it has a value."""
    return min(margin.value or 0.0, margin.other.get(FRESH_SHARE, 1.0))


class CannotSay(msgspec.Struct, frozen=True, kw_only=True):
    """A figure that lacks something; ``because`` says what to write, ``place`` where."""

    name: Annotated[str, PUBLIC]
    of: Annotated[str | None, PUBLIC] = None
    because: Annotated[str, PRIVATE]
    place: Annotated[Place | None, PRIVATE] = None
    shown: Annotated[Shown, PUBLIC] = "private"


class Answers(msgspec.Struct, frozen=True, kw_only=True):
    """All figures of an aircraft or item."""

    figures: Annotated[tuple[Figure, ...], PUBLIC] = ()
    cannot_say: Annotated[tuple[CannotSay, ...], PUBLIC] = ()

    def find(self, name: str, of: str | None = None) -> Figure | None:
        """The first figure of that name (and subject)."""
        return next(
            (f for f in self.figures if f.name == name and (of is None or f.of == of)), None
        )
