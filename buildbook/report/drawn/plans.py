"""What the drawings of an aircraft are made from: frozen numbers and names, SI units.

A plan holds only what may be shown; the drawings hide nothing. Places are `forward_m` and
`right_m` from the aircraft's reference point, as in the records.
"""

from typing import Literal

import msgspec

from buildbook.records.declare import OfDays, OfIncidents, Public
from buildbook.records.layouts import Tier, arm_of, tier_of

Turn = Literal["cw", "ccw"]
SpinState = Literal["planned", "checked", "read", "failed"]
"""As planned only; its check passed; read as planned in a check that failed as a whole; failed."""
FaultKind = Literal["seen-otherwise", "wrong-hand", "twin-spins", "overlap", "other"]

Columns = tuple[str, ...]
Rows = tuple[tuple[str, ...], ...]
Table = tuple[Columns, Rows]
"""Column headings and rows of words: the table that stands beside a drawing."""


class StationPlan(msgspec.Struct, frozen=True, kw_only=True):
    """One motor station: where it is and what turns there.

    `spin` and `hand` are as seen from above, on an aeroplane `spin` as seen from behind; `seen` is
    what the check that counts now read there.
    A name that ends in `-upper` or `-lower` is one half of a coaxial pair.
    """

    name: Public[str]
    forward_m: Public[float]
    right_m: Public[float]
    spin: Public[Turn | None] = None
    spin_state: Public[SpinState] = "planned"
    seen: Public[Turn | None] = None
    output: Public[int | None] = None
    propeller_m: Public[float | None] = None  # diameter
    hand: Public[Turn | None] = None
    blades: Public[int] = 2

    @property
    def tier(self) -> Tier:
        """Which half of a coaxial pair this is, or `single`."""
        return tier_of(self.name)

    @property
    def turns(self) -> Turn | None:
        """Which way it turns by the newest that is known: as seen, else as planned."""
        return self.seen or self.spin

    @property
    def otherwise(self) -> bool:
        """Whether it was seen to turn the other way than planned."""
        return self.seen is not None and self.spin is not None and self.seen != self.spin

    @property
    def arm(self) -> str:
        """The name without its level: what a coaxial pair has in common."""
        return arm_of(self.name)


class SurfacePlan(msgspec.Struct, frozen=True, kw_only=True):
    """A control surface: its chord behind the hinge, and its length along it."""

    name: Public[str]
    chord_m: Public[float | None] = None
    length_m: Public[float | None] = None


class WingPlan(msgspec.Struct, frozen=True, kw_only=True):
    """A wing: lengths aft of the reference point, area and span of both halves together."""

    span_m: Public[float]
    mean_chord_m: Public[float]
    area_m2: Public[float | None] = None
    leading_edge_aft_m: Public[float] = 0.0  # of the mean chord
    up_m: Public[float | None] = None  # above the line that heights are taken from
    tail_aft_m: Public[float | None] = None  # where the tail sits; drawn as a sketch where unknown
    tail_up_m: Public[float | None] = None
    surfaces: Public[tuple[SurfacePlan, ...]] = ()


class CgPlan(msgspec.Struct, frozen=True, kw_only=True):
    """Centre of gravity and the band it may lie in.

    On a wing the band is two shares of the mean chord; elsewhere two places, front and rear, on
    the forward axis. `words` says how it is known ("weighed", "weighed, then
    corrected", "computed").
    """

    forward_m: Public[float | None] = None  # absent: only the band is drawn
    right_m: Public[float] = 0.0
    band_share: Public[tuple[float, float] | None] = None  # forward limit, aft limit
    band_forward_m: Public[tuple[float, float] | None] = None  # front end, rear end
    words: Public[str] = ""


class Fault(msgspec.Struct, frozen=True, kw_only=True):
    """Something wrong that is marked in place, at one station or between two."""

    kind: Public[FaultKind]
    stations: Public[tuple[str, ...]]
    words: Public[str]


class LayoutPlan(msgspec.Struct, frozen=True, kw_only=True):
    """Top view of an aircraft.

    `to_scale=False` says that places are in arm lengths because no diagonal is recorded.
    `faults` adds to those that the drawing finds itself (see `layout_faults`).
    """

    aircraft: Public[str]
    layout: Public[str]
    stations: Public[tuple[StationPlan, ...]]
    diagonal_m: Public[float | None] = None
    to_scale: Public[bool] = True
    wing: Public[WingPlan | None] = None
    pack_down_m: Public[float | None] = None  # below the line that heights are taken from
    cg: Public[CgPlan | None] = None
    faults: Public[tuple[Fault, ...]] = ()
    unplaced: Public[tuple[StationPlan, ...]] = ()  # no record says where: told, not drawn


class RunPlan(msgspec.Struct, frozen=True, kw_only=True):
    """One run of the wiring, named as in the records; `to` may be `each esc`."""

    from_: Public[str]
    to: Public[str]
    wire: Public[str | None] = None  # as said at the bench: "14 AWG"
    length_m: Public[float | None] = None  # one way
    plug: Public[str | None] = None
    current_a: Public[float | None] = None
    drop_v: Public[float | None] = None
    drop_share: Public[float | None] = None  # of pack voltage


class DrivePlan(msgspec.Struct, frozen=True, kw_only=True):
    """One ESC and its motor at a station; labels are what may be shown (tag or kind)."""

    station: Public[str]
    esc: Public[str | None] = None
    motor: Public[str | None] = None
    output: Public[int | None] = None
    on_board: Public[bool] = False  # one of several on a board, which has the run to itself


class ServoPlan(msgspec.Struct, frozen=True, kw_only=True):
    """A servo and the surface that it drives."""

    tag: Public[str]
    drives: Public[str]


class WiringPlan(msgspec.Struct, frozen=True, kw_only=True):
    """Power from the pack to the motors, and the signal leads in order at both their ends.

    Without a controller the receiver's leads go to servos and ESC. Labels of receiver and
    controller are None where none is fitted.
    """

    aircraft: Public[str]
    runs: Public[tuple[RunPlan, ...]] = ()
    drives: Public[tuple[DrivePlan, ...]] = ()
    leads: Public[tuple[str, ...]] = ()  # in the order in which they enter the controller
    sockets: Public[tuple[str, ...]] = ()  # in the order of the receiver; none: not recorded
    servos: Public[tuple[ServoPlan, ...]] = ()
    controlled: Public[bool] = True
    controller: Public[str | None] = None
    receiver: Public[str | None] = None
    load_point: Public[str | None] = None  # at which load: "full throttle", "hover"

    def servos_of(self, channel: str) -> tuple[ServoPlan, ...]:
        """The servos of the surfaces that a channel moves: those of its name, on either side."""
        return tuple(
            servo
            for servo in self.servos
            if servo.drives == channel or servo.drives.startswith(f"{channel}-")
        )


class LoadPlan(msgspec.Struct, frozen=True, kw_only=True):
    """A mass at its place, for the balance drawing."""

    name: Public[str]
    mass_kg: Public[float]
    forward_m: Public[float]
    right_m: Public[float] = 0.0
    down_m: Public[float] = 0.0


class BalancePlan(msgspec.Struct, frozen=True, kw_only=True):
    """What weighs where, seen from above and from the right side, with the centre of gravity."""

    aircraft: Public[str]
    loads: Public[tuple[LoadPlan, ...]]
    cg_m: Public[tuple[float, float, float] | None] = None  # forward, right, down
    band_forward_m: Public[tuple[float, float] | None] = None  # front end, rear end
    words: Public[str] = ""  # how the balance is known, or "22 % of mean chord"

    @property
    def numbered(self) -> tuple[LoadPlan, ...]:
        """The loads in the order of their numbers on the drawing: the heaviest first."""
        return tuple(sorted(self.loads, key=lambda load: -load.mass_kg))


class Balance(msgspec.Struct, frozen=True, kw_only=True):
    """The plan to draw and the one to tell, and how many masses have no place and are left out.

    drawn: what sits at one place is one disc, named after its station. told: each thing apart.
    pack: the one flown last, which is counted; None where none is known.
    """

    drawn: Public[BalancePlan]
    told: Public[BalancePlan]
    without_place: Public[int]
    pack: Public[str | None] = None


class MonthPlan(msgspec.Struct, frozen=True, kw_only=True):
    """Flying of one month, `month` as 2026-03."""

    month: Public[str]
    flights: Public[int]
    hours: Public[float] = 0.0


class EventPlan(msgspec.Struct, frozen=True, kw_only=True):
    """Something marked on the timeline; without a day it stands in the middle of its month."""

    month: Public[str]
    kind: Public[Literal["crash", "hard landing", "repair", "alteration", "note"]]
    words: Public[str]
    incident_words: OfIncidents[str] = ""
    day: OfDays[int | None] = None

    @property
    def told(self) -> str:
        """What happened, as far as it may be told."""
        return self.incident_words or self.words


class TimelinePlan(msgspec.Struct, frozen=True, kw_only=True):
    """The life of an aircraft by month, oldest first; months without flying may be left out."""

    aircraft: Public[str]
    months: Public[tuple[MonthPlan, ...]]
    events: Public[tuple[EventPlan, ...]] = ()


class GainPlan(msgspec.Struct, frozen=True, kw_only=True):
    """A gain set, and the one before it where there is one: axis -> term -> value."""

    name: Public[str]
    values: Public[dict[str, dict[str, float]]]
    before_name: Public[str] = ""
    before: Public[dict[str, dict[str, float]] | None] = None
