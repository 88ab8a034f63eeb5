"""How packs stand: their health, counted only and so cheap for every list, and their rest."""

from __future__ import annotations  # marks are looked at for the public only

import datetime
from collections.abc import Iterable
from typing import Literal

import msgspec

from buildbook.records.declare import Public
from buildbook.records.parts import ItemState
from buildbook.report.state import Counters

HealthState = Literal["good", "near", "worn", "quarantined", "unknown"]
HealthOf = Literal["capacity", "resistance", "cells", "voltage"]
"""What decides it. cells: apart at rest, falling, or one odd in resistance. voltage: low at rest,
or down at the cut-off in flight."""
Left = Literal[
    "full", "in part", "at storage charge", "charged", "flown", "discharged", "not recorded"
]

END_OF_LIFE_SHARE = 0.8
"""Of rated: the limit where the keeper names none. Common practice, no source."""

RESERVE_SHARE = 0.2
"""Of the capacity: kept unflown where the keeper says nothing. Common practice, no source."""


WEAK: tuple[HealthState, ...] = ("worn", "near")
"""A pack of which this is said wherever it stands."""


class PackHealth(msgspec.Struct, frozen=True, kw_only=True):
    """How worn a pack is, by the worst of what was read of it, and its capacity.

    of: what the worst is; None: nothing was read. share: of rated, as last measured; None: not
    measured, or no rated capacity. limit_share: below it a pack is worn. Quarantine comes before
    health in ``state``. below_since: the first of the readings at the end that all lie below it.
    """

    tag: Public[str]
    state: Public[HealthState]
    of: Public[HealthOf | None] = None
    share: Public[float | None] = None
    limit_share: Public[float] = END_OF_LIFE_SHARE
    below_since: Public[datetime.date | None] = None


class PackRest(msgspec.Struct, frozen=True, kw_only=True):
    """How a pack was left, and since when; ``uid`` of the entry that says so."""

    left: Public[Left]
    since: Public[datetime.date | None] = None
    uid: Public[str | None] = None
    aircraft: Public[str | None] = None

    @property
    def charged(self) -> bool:
        """Whether it can be flown as it lies."""
        return self.left in ("full", "charged")


class FlownCold(msgspec.Struct, frozen=True, kw_only=True):
    """The last flight of a pack whose temperature is known, where that was too cold for it."""

    on: Public[datetime.date]
    temperature_k: Public[float]


class PackLine(msgspec.Struct, frozen=True, kw_only=True):
    """One pack in a list. standing: by the word of its first row; item_state: of the pack."""

    tag: Public[str]
    title: Public[str]
    item_state: Public[ItemState]
    standing: Public[str]
    rest: Public[PackRest]
    health: Public[PackHealth]
    at_hand: Public[bool]
    counters: Public[Counters]
    flown_on: Public[tuple[str, ...]] = ()
    cold: Public[FlownCold | None] = None


_WORST_FIRST = ("quarantined", "grounded", "due soon", "cannot say", "nothing open")

_WORN_FIRST: tuple[HealthState, ...] = ("quarantined", "worn", "near", "good", "unknown")


def worst_first(lines: Iterable[PackLine]) -> tuple[PackLine, ...]:
    """Packs at hand by how they stand, then by health, the least first; not measured ones last."""
    return tuple(
        sorted(
            (line for line in lines if line.at_hand),
            key=lambda line: (
                _WORST_FIRST.index(line.standing) if line.standing in _WORST_FIRST else 2,
                _WORN_FIRST.index(line.health.state),
                line.health.share is None,
                line.health.share or 0,
                line.tag,
            ),
        )
    )
