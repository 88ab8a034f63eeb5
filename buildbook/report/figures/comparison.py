"""Aircraft, packs and motors side by side, each column on one scale."""

from __future__ import annotations  # marks are looked at for the public only

from typing import Literal

import msgspec

from buildbook.records.declare import Public
from buildbook.report.state import Counters

Column = Literal[
    "all-up mass",
    "thrust to weight",
    "at the reserve",
    "flight time",
    "flown",
    "flights",
    "crashes",
    "capacity, of rated",
    "cycles",
    "charges",
    "run",
    "hard landings",
]
"""``at the reserve``: the thrust to weight that is left then.

Masses in kg, times in s, a share and a ratio as such, all others counts.
"""


Purpose = Literal[
    "longest in the air",
    "most thrust",
    "lightest",
    "most flown",
    "most capacity left",
    "most worn",
    "run longest",
]
"""What somebody looks for who compares."""


class Measure(msgspec.Struct, frozen=True):
    """A value and its share of the greatest in the column; None: it cannot be said.

    Of a capacity the share is what is left of the way from new to worn out: shares of the greatest
    would look alike.
    """

    value: Public[float | None]
    share: Public[float | None]


class Compared(msgspec.Struct, frozen=True, kw_only=True):
    """One row: an item by its tag, or an aircraft by its slug. where: the aircraft it sits on.

    counters: the totals that stand in it, with how sure they are.
    """

    key: Public[str]
    title: Public[str]
    where: Public[str | None]
    measures: Public[tuple[Measure, ...]]
    counters: Public[Counters] = Counters()


class Best(msgspec.Struct, frozen=True, kw_only=True):
    """The first by one column, of those that nothing recorded keeps at home; several where the same
    is told of them."""

    purpose: Public[Purpose]
    column: Public[Column]
    keys: Public[tuple[str, ...]]


class Comparison(msgspec.Struct, frozen=True, kw_only=True):
    """Subjects of one kind: ``aircraft``, ``packs`` or ``motors``.

    best: which of them is first for what, none for a column that tells of fewer than two.
    """

    of: Public[Literal["aircraft", "packs", "motors"]]
    columns: Public[tuple[Column, ...]]
    rows: Public[tuple[Compared, ...]]
    best: Public[tuple[Best, ...]] = ()
