"""``aircraft.yaml``: what an aircraft was when its log began."""

import datetime
from collections.abc import Collection, Iterable, Mapping
from typing import Annotated, Any, ClassVar, Literal, get_args

import msgspec

from buildbook.records.declare import PUBLIC, WrittenOnly, key
from buildbook.records.keys.fields import Group, fields_of
from buildbook.records.keys.quantities import (
    CG,
    PLACE3,
    Along_m,
    Chord_m,
    Current_a,
    Diagonal_m,
    LiftCoefficient,
    Mass_kg,
    Output,
    RunLength_m,
    Span_m,
    Speed_m_s,
    StickMode,
    Tag,
    Texts,
    ThrustRatio,
    WingArea_m2,
)
from buildbook.records.keys.quantities import Place3 as Place3
from buildbook.records.keys.shapes import ByName, Several
from buildbook.records.keys.values import TEXT, WIRE, choice
from buildbook.records.keys.values import Wire as Wire
from buildbook.records.layouts import LAYOUTS
from buildbook.records.parts import CarriedLife, Hand
from buildbook.records.record import Record
from buildbook.records.story import StoryFacts
from buildbook.records.surfaces import SURFACES, Surface

AircraftKind = Literal["multirotor", "aeroplane"]
Status = Literal["building", "flying", "stored", "retired", "sold"]
LEFT: tuple[Status, ...] = ("retired", "sold")  # flown no more
Untracked = Literal["frame", "controller", "receiver", "servo", "surfaces", "battery"]
"""What a keeper may leave untagged: none of them turns a propeller."""


class StationPlan(msgspec.Struct, frozen=True, kw_only=True):
    """What a motor station should do: spin seen from above (aeroplane: from behind)."""

    spin: Annotated[
        Hand | None,
        key("How it should turn, seen from above (aeroplane: from behind)", "ccw", shown="public"),
    ] = None
    output: Annotated[Output | None, key("Output of the controller", "3", shown="public")] = None
    at: Annotated[
        Place3 | None,
        key("Where it sits, in a custom layout", "[120 mm, -90 mm, 0 mm]", shown="public"),
    ] = None


class Run(msgspec.Struct, frozen=True, kw_only=True):
    """A run of two conductors; ``length_m`` is one way."""

    start: Annotated[str, key("Where it begins", "pack", shown="public", written="from")]
    end: Annotated[str, key("Where it ends", "distribution", shown="public", written="to")]
    wire: Annotated[Wire | None, WIRE, key("Size of the conductor", "14 AWG", shown="public")] = (
        None
    )
    length_m: Annotated[
        RunLength_m | None, key("One way; both conductors are counted", "140 mm", shown="public")
    ] = None
    plug: Annotated[str | None, key("Its connector", "bullet 4 mm", shown="public")] = None
    plug_max_current_a: Annotated[
        Current_a | None, key("Maximum current of its connector", "60 A", shown="public")
    ] = None
    line: int = 0

    @property
    def label(self) -> str:
        """The run as its two ends: ``pack to distribution``."""
        return f"{self.start} to {self.end}"

    @property
    def is_one_of_each(self) -> bool:
        """Whether there are as many like it as motors: ``each esc``."""
        return self.start.startswith(_EACH) or self.end.startswith(_EACH)

    @property
    def is_behind_esc(self) -> bool:
        """Whether it lies between an ESC and its motor."""
        return "esc" in self.start.lower() and "motor" in self.end.lower()


_EACH = "each "


def stations_at(end: str, motor_stations: Collection[str]) -> frozenset[str]:
    """The motor stations that an end of a run stands for: the one it names, or all."""
    words, named = end.lower(), station_named(end, motor_stations)
    if named is not None:
        return frozenset((named,))
    of_each = words.startswith(_EACH) and ("esc" in words or "motor" in words)
    if of_each or words in ("esc", "escs", "motor", "motors", "esc board"):
        return frozenset(motor_stations)
    return frozenset()


def station_named(end: str, stations: Iterable[str]) -> str | None:
    """The station that an end of a run names; the longest name wins, as one may begin another."""
    words = end.lower()
    return max((name for name in stations if name in words), key=len, default=None)


class Sundry(msgspec.Struct, frozen=True, kw_only=True):
    """Something weighed but not tracked."""

    what: Annotated[str, key("What it is", "straps", shown="public")]
    mass_kg: Annotated[Mass_kg, key("Mass of all of it", "38 g", shown="public")]
    at: Annotated[Place3 | None, key("Where it sits", "[0 mm, 0 mm, 5 mm]", shown="public")] = None
    line: int = 0


class Marking(msgspec.Struct, frozen=True, kw_only=True):
    """Whether it carries its number, and when somebody last read it; never the number itself."""

    present: Annotated[bool, key("Whether it is there", "true", shown="public")]
    checked: Annotated[
        datetime.date | None, key("Day on which it was last read", "2026-03-01", shown="public")
    ] = None


class Radio(msgspec.Struct, frozen=True, kw_only=True):
    """How the transmitter is set up for this aircraft."""

    memory: Annotated[str | None, key("Model memory", "4", shown="public")] = None
    mode: Annotated[StickMode | None, key("Stick mode", "2", shown="public")] = None
    reversed: Annotated[Texts, key("Channels that are reversed", "[rudder]", shown="public")] = ()
    transmitter: Annotated[
        Tag | None,
        key("The transmitter; never part of the mass in the air", "T-01", shown="public"),
    ] = None
    throttle_cut: Annotated[
        str | None, key("Where the throttle cut is", "left shoulder switch", shown="public")
    ] = None
    failsafe: Annotated[
        Mapping[str, str],
        ByName(TEXT, "channels with what they do"),
        key(
            "What each channel does when the link is lost",
            "{throttle: cut, rest: hold}",
            shown="public",
        ),
    ] = {}
    switches: Annotated[
        Mapping[str, Mapping[str, str]],
        ByName(
            ByName(TEXT, "positions of the switch with what they do"),
            "switches with their positions",
        ),
        key(
            "What each switch does in each position",
            "{mode: {up: by hand, middle: rate held, down: angle held}}",
            shown="public",
        ),
    ] = {}


class Wing(msgspec.Struct, frozen=True, kw_only=True):
    """A wing; lengths are measured aft from the reference point."""

    area_m2: Annotated[WingArea_m2 | None, key("Wing area", "0.32 m²", shown="public")] = None
    span_m: Annotated[Span_m | None, key("Span", "1400 mm", shown="public")] = None
    mean_chord_m: Annotated[Chord_m | None, key("Mean chord", "230 mm", shown="public")] = None
    leading_edge_m: Annotated[
        Along_m | None,
        key(
            "Leading edge of the mean chord, aft of the reference point",
            "310 mm",
            shown="public",
        ),
    ] = None
    fastest_m_s: Annotated[
        Speed_m_s | None,
        key("Fastest it is flown, in a dive too", "28 m/s", shown="public", written="fastest"),
    ] = None
    max_lift_coefficient: Annotated[
        LiftCoefficient | None, key("Lift coefficient at the stall", "1.2", shown="public")
    ] = None


class Bounds(msgspec.Struct, frozen=True, kw_only=True):
    """Limits set by the keeper. A CG limit is a share of the mean chord, or metres forward."""

    max_mass_kg: Annotated[Mass_kg | None, key("Maximum mass", "1800 g", shown="public")] = None
    thrust_to_weight: Annotated[
        ThrustRatio | None,
        key("Thrust over weight that a payload should leave", "2.2", shown="public"),
    ] = None
    forward_cg: ClassVar[
        Annotated[
            WrittenOnly,
            CG,
            key(
                "Foremost centre of gravity: share of the mean chord, or a length forward",
                "20 %",
            ),
        ]
    ]
    aft_cg: ClassVar[Annotated[WrittenOnly, CG, key("Rearmost centre of gravity", "33 %")]]
    forward_cg_share: Annotated[float | None, PUBLIC] = None
    aft_cg_share: Annotated[float | None, PUBLIC] = None
    forward_cg_m: Annotated[float | None, PUBLIC] = None
    aft_cg_m: Annotated[float | None, PUBLIC] = None


def _bounds(**read: Any) -> Bounds:
    for limit in ("forward_cg", "aft_cg"):
        if limit in read:
            unit, amount = read.pop(limit)
            read[f"{limit}_{unit}"] = amount
    return Bounds(**read)


class _Leads(msgspec.Struct, frozen=True):
    order: Annotated[
        tuple[str, ...],
        Several(TEXT, least=1),
        key(
            "Channels in the order in which the leads enter the controller",
            "[throttle, rudder, elevator, mode, aileron]",
        ),
    ]


class Aircraft(Record, frozen=True, kw_only=True):
    """One airframe with a name, a layout and a logbook, as of the start of its log."""

    slug: Annotated[str, PUBLIC]
    aircraft: Annotated[str, key("Its name", "Sedge", shown="public")]
    kind: Annotated[AircraftKind, key("What it is", "multirotor", shown="public")]
    layout: Annotated[
        str,
        choice(*LAYOUTS, what="layout"),
        key("Where its motors sit", "quad-x", shown="public"),
    ]
    in_service: Annotated[
        datetime.date | None, key("Day it went into service", "2026-03-01", shown="public")
    ] = None
    registration: Annotated[
        str | None,
        key("Registration; private, never rendered for the public", "on the left arm"),
    ] = None
    marking: Annotated[
        Marking | None,
        Group(Marking, "a marking"),
        key(
            "Whether it carries its number; the number itself is not needed",
            "{present: true, checked: 2026-03-01}",
            shown="public",
        ),
    ] = None
    carried: Annotated[
        CarriedLife | None,
        key(
            "Life before these records",
            "{hours: 4.2, flights: 31, basis: measured}",
            shown="public",
        ),
    ] = None
    programme: Annotated[
        str | None, key("Its maintenance programme", "small-multirotor", shown="public")
    ] = None
    diagonal_m: Annotated[
        Diagonal_m | None,
        key("Motor shaft to motor shaft through the centre", "410 mm", shown="public"),
    ] = None
    stations: Annotated[
        Mapping[str, StationPlan],
        ByName(Group(StationPlan, "a station"), "stations with their plan"),
        key(
            "Motor stations of the layout, each with its spin and output",
            "{rear-left: {spin: cw, output: 2}}",
            shown="public",
        ),
    ] = {}
    receiver: Annotated[
        tuple[str, ...],
        Group(lambda order: order, "the receiver", fields=lambda: fields_of(_Leads)),
        key(
            "Leads of the receiver",
            "{order: [rudder, mode, aileron, arm, throttle, elevator]}",
            shown="public",
        ),
    ] = ()
    sockets: Annotated[
        tuple[str, ...],
        Several(TEXT, least=1),
        key(
            "Channels in the order of the receiver's sockets",
            "[mode, rudder, throttle, arm, elevator, aileron]",
            shown="public",
        ),
    ] = ()
    radio: Annotated[
        Radio | None,
        Group(Radio, "the radio"),
        key(
            "How the transmitter is set up",
            "{memory: 4, mode: 2, reversed: [rudder]}",
            shown="public",
        ),
    ] = None
    surfaces: Annotated[
        Mapping[str, Surface],
        SURFACES,
        key(
            "Control surfaces, each with the servo that drives it, or its keys",
            "{aileron-left: S-1, elevator: {servo: S-3, up: 12 mm, down: 10 mm}}",
            shown="public",
        ),
    ] = {}
    wiring: Annotated[
        tuple[Run, ...],
        Several(Group(Run, "a run of wire")),
        key(
            "Runs of two conductors",
            "[{from: pack, to: distribution, wire: 14 AWG, length: 140 mm}]",
            shown="public",
        ),
    ] = ()
    sundries: Annotated[
        tuple[Sundry, ...],
        Several(Group(Sundry, "a sundry")),
        key(
            "What is weighed but not tracked",
            "[{what: straps and leads, mass: 38 g}]",
            shown="public",
        ),
    ] = ()
    positions: Annotated[
        Mapping[str, Place3],
        ByName(PLACE3, "stations with their places"),
        key(
            "Places of stations other than those that the layout gives",
            "{pack: [10 mm, 0 mm, 25 mm]}",
            shown="public",
        ),
    ] = {}
    bounds: Annotated[
        Bounds | None,
        Group(_bounds, "bounds", fields=lambda: fields_of(Bounds)),
        key(
            "Limits set by the keeper",
            "{max_mass: 1800 g, forward_cg: 20 %, aft_cg: 33 %}",
            shown="public",
        ),
    ] = None
    status: Annotated[Status, key("Its status", "flying", shown="public")] = "flying"
    wing: Annotated[
        Wing | None,
        Group(Wing, "a wing"),
        key(
            "The wing of an aeroplane",
            "{area: 0.32 m², span: 1400 mm, mean_chord: 230 mm}",
            shown="public",
        ),
    ] = None
    not_tracked: Annotated[
        tuple[Untracked, ...],
        Several(choice(*get_args(Untracked), what="kind of part"), single=True),
        key(
            "Kinds of part that it has without a tag, or has none of: they are never asked for",
            "[frame, receiver]",
            shown="public",
        ),
    ] = ()
    note: Annotated[str | None, key("Remarks", "first of its kind here")] = None
    share: Annotated[
        bool | None,
        key(
            "Whether a public render shows it; unless said, all but those being built",
            "false",
            shown="public",
        ),
    ] = None
    story: Annotated[
        StoryFacts | None,
        Group(StoryFacts, "a story"),
        key(
            "What introduces its build story",
            "{title: A quad from one tube, promise: It fits into a rucksack., portrait: sedge.jpg}",
            shown="public",
        ),
    ] = None

    @property
    def has_motor(self) -> bool:
        """Whether something on it can turn a propeller; of a glider nothing can."""
        layout = LAYOUTS.get(self.layout)
        return layout is None or not layout.motorless
