"""What the drawings of an aircraft are made from: frozen numbers and names, SI units.

A plan holds only what may be shown; the drawings hide nothing. Places are `forward_m` and
`right_m` from the aircraft's reference point, as in the records.
"""

from __future__ import annotations

from typing import Literal

import msgspec

Turn = Literal["cw", "ccw"]
SpinState = Literal["planned", "checked", "failed"]
FaultKind = Literal["wrong-hand", "twin-spins", "overlap", "other"]
Level = Literal["single", "upper", "lower"]

Columns = tuple[str, ...]
Rows = tuple[tuple[str, ...], ...]
Table = tuple[Columns, Rows]
"""Column headings and rows of words: the table that stands beside a drawing."""


class StationPlan(msgspec.Struct, frozen=True, kw_only=True):
    """One motor station: where it is and what turns there.

    `spin` and `hand` are as seen from above, on an aeroplane `spin` as seen from behind.
    A name that ends in `-upper` or `-lower` is one half of a coaxial pair.
    """

    name: str
    forward_m: float
    right_m: float
    spin: Turn | None = None
    spin_state: SpinState = "planned"
    output: int | None = None
    propeller_m: float | None = None  # diameter
    hand: Turn | None = None
    blades: int = 2

    @property
    def level(self) -> Level:
        """Which half of a coaxial pair this is, or `single`."""
        if self.name.endswith("-upper"):
            return "upper"
        return "lower" if self.name.endswith("-lower") else "single"

    @property
    def arm(self) -> str:
        """The name without its level: what a coaxial pair has in common."""
        return self.name.removesuffix("-upper").removesuffix("-lower")


class WingPlan(msgspec.Struct, frozen=True, kw_only=True):
    """A wing: lengths aft of the reference point, area and span of both halves together."""

    span_m: float
    mean_chord_m: float
    area_m2: float | None = None
    leading_edge_aft_m: float = 0.0  # of the mean chord
    tail_aft_m: float | None = None  # where the tail sits; drawn as a sketch where unknown


class CgPlan(msgspec.Struct, frozen=True, kw_only=True):
    """Centre of gravity and the band it may lie in.

    On a wing the band is two shares of the mean chord; elsewhere two places, front and rear, on
    the forward axis. `words` says how it is known ("weighed", "computed").
    """

    forward_m: float | None = None  # absent: only the band is drawn
    right_m: float = 0.0
    band_share: tuple[float, float] | None = None  # forward limit, aft limit
    band_forward_m: tuple[float, float] | None = None  # front end, rear end
    words: str = ""


class Fault(msgspec.Struct, frozen=True, kw_only=True):
    """Something wrong that is marked in place, at one station or between two."""

    kind: FaultKind
    stations: tuple[str, ...]
    words: str


class LayoutPlan(msgspec.Struct, frozen=True, kw_only=True):
    """Top view of an aircraft.

    `to_scale=False` says that places are in arm lengths because no diagonal is recorded.
    `faults` adds to those that the drawing finds itself (see `layout_faults`).
    """

    aircraft: str
    layout: str
    stations: tuple[StationPlan, ...]
    diagonal_m: float | None = None
    to_scale: bool = True
    wing: WingPlan | None = None
    cg: CgPlan | None = None
    faults: tuple[Fault, ...] = ()


class RunPlan(msgspec.Struct, frozen=True, kw_only=True):
    """One run of the wiring, named as in the records; `to` may be `each esc`."""

    from_: str
    to: str
    wire: str | None = None  # as said at the bench: "14 AWG"
    length_m: float | None = None  # one way
    plug: str | None = None
    current_a: float | None = None
    drop_v: float | None = None
    drop_share: float | None = None  # of pack voltage


class DrivePlan(msgspec.Struct, frozen=True, kw_only=True):
    """One ESC and its motor at a station; labels are what may be shown (tag or kind)."""

    station: str
    esc: str | None = None
    motor: str | None = None
    output: int | None = None


class WiringPlan(msgspec.Struct, frozen=True, kw_only=True):
    """Power from the pack to the motors, and the receiver's leads in order."""

    aircraft: str
    runs: tuple[RunPlan, ...] = ()
    drives: tuple[DrivePlan, ...] = ()
    leads: tuple[str, ...] = ()  # receiver -> controller, in the order in which they enter


class LoadPlan(msgspec.Struct, frozen=True, kw_only=True):
    """A mass at its place, for the balance drawing."""

    name: str
    mass_kg: float
    forward_m: float
    right_m: float = 0.0
    down_m: float = 0.0


class BalancePlan(msgspec.Struct, frozen=True, kw_only=True):
    """What weighs where, seen from above and from the left side, with the centre of gravity."""

    aircraft: str
    loads: tuple[LoadPlan, ...]
    cg_m: tuple[float, float, float] | None = None  # forward, right, down
    band_forward_m: tuple[float, float] | None = None  # front end, rear end
    words: str = ""  # how the balance is known, or "22 % of mean chord"


class MonthPlan(msgspec.Struct, frozen=True, kw_only=True):
    """Flying of one month, `month` as 2026-03."""

    month: str
    flights: int
    hours: float = 0.0


class EventPlan(msgspec.Struct, frozen=True, kw_only=True):
    """Something marked on the timeline; without a day it stands in the middle of its month."""

    month: str
    kind: Literal["crash", "repair", "alteration", "note"]
    words: str
    day: int | None = None


class TimelinePlan(msgspec.Struct, frozen=True, kw_only=True):
    """The life of an aircraft by month, oldest first; months without flying may be left out."""

    aircraft: str
    months: tuple[MonthPlan, ...]
    events: tuple[EventPlan, ...] = ()


class HealthPlan(msgspec.Struct, frozen=True, kw_only=True):
    """Health of a pack: capacity as a share of rated.

    `share=None` is "not measured". Quarantine is shown before health.
    """

    tag: str
    share: float | None
    limit_share: float = 0.8
    quarantined: bool = False


class SharePlan(msgspec.Struct, frozen=True, kw_only=True):
    """Named amounts as bars: `rows` are name, amount, words for the amount ("214 g")."""

    title: str
    rows: tuple[tuple[str, float, str], ...]


class GainPlan(msgspec.Struct, frozen=True, kw_only=True):
    """A gain set, and the one before it where there is one: axis -> term -> value."""

    name: str
    values: dict[str, dict[str, float]]
    before_name: str = ""
    before: dict[str, dict[str, float]] | None = None
