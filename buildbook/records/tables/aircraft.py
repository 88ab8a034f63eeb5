"""The keys of aircraft.yaml."""

from typing import Any

from msgspec import UNSET

from buildbook.basis import notation
from buildbook.basis.limits import Limits, between, plain, within
from buildbook.basis.notation import NotationError
from buildbook.records.aircraft import Bounds, Radio, Run, StationPlan, Sundry, Wing
from buildbook.records.layouts import LAYOUTS
from buildbook.records.scope import Scope
from buildbook.records.shapes import ByName, Field, Fields, Group, Several, table
from buildbook.records.tables.parts import CARRIED_LIFE
from buildbook.records.values import (
    DAY,
    TEXT,
    WIRE,
    Scalar,
    Schema,
    choice,
    number,
    quantity,
    whole,
)
from buildbook.records.yaml_nodes import Node, SequenceNode

_ALONG = between("length", "-20 m", "20 m", zero_ok=True)


class _Place3:
    """Forward, right and down, three lengths."""

    words = "a place [forward, right, down]"
    _length = quantity("length", _ALONG)

    def read(self, node: Node, scope: Scope, path: str) -> Any:
        """Three metres, or UNSET."""
        if not isinstance(node, SequenceNode):
            scope.expected(self.words, node, path)
            return UNSET
        if len(node.value) != 3:
            count = len(node.value)
            scope.refuse(
                node,
                f"expected {self.words}, got a list of {count}",
                "as in [10 mm, 0 mm, 25 mm]",
            )
            return UNSET
        read = tuple(self._length.read(member, scope, path) for member in node.value)
        return UNSET if UNSET in read else read

    def schema(self) -> Schema:
        """Three strings."""
        return {"type": "array", "items": self._length.schema(), "minItems": 3, "maxItems": 3}


PLACE3 = _Place3()


def _cg(text: str) -> tuple[str, float]:
    """``("share", ratio)`` of the mean chord, or ``("m", metres)`` forward."""
    try:
        ratio = notation.share(text)
    except NotationError as error:
        try:
            metres = notation.quantity(text, "length")
        except NotationError:
            raise NotationError(error.reason, "write it as in 25 % or -12 mm") from None
        fault = within(metres, _ALONG, text)
        if fault:
            raise NotationError(fault) from None
        return "m", metres
    fault = within(ratio, Limits(-1, 1.5, True, "-100 %", "150 %"), text)
    if fault:
        raise NotationError(fault)
    return "share", ratio


_CG = Scalar("a share of the chord or a length", _cg)


def _bounds(read: dict[str, Any]) -> dict[str, Any]:
    made = {}
    for attribute, value in read.items():
        if attribute.endswith("_cg"):
            unit, amount = value
            made[f"{attribute}_{unit}"] = amount
        else:
            made[attribute] = value
    return made


STATION: Fields = table(
    Field(
        key="spin",
        attribute="spin",
        value=choice("cw", "ccw"),
        doc="How it should turn, seen from above (aeroplane: from behind)",
        example="ccw",
    ),
    Field(
        key="output",
        attribute="output",
        value=whole(plain(1, 64)),
        doc="Output of the controller",
        example="3",
    ),
    Field(
        key="at",
        attribute="at",
        value=PLACE3,
        doc="Where it sits, in a custom layout",
        example="[120 mm, -90 mm, 0 mm]",
    ),
)

RADIO: Fields = table(
    Field(key="memory", attribute="memory", value=TEXT, doc="Model memory", example="4"),
    Field(key="mode", attribute="mode", value=whole(plain(1, 4)), doc="Stick mode", example="2"),
    Field(
        key="reversed",
        attribute="reversed",
        value=Several(TEXT, single=True),
        doc="Channels that are reversed",
        example="[rudder]",
    ),
    Field(
        key="throttle_cut",
        attribute="throttle_cut",
        value=TEXT,
        doc="Where the throttle cut is",
        example="left shoulder switch",
    ),
    Field(
        key="failsafe",
        attribute="failsafe",
        value=ByName(TEXT, "channels with what they do"),
        doc="What each channel does when the link is lost",
        example="{throttle: cut, rest: hold}",
    ),
    Field(
        key="switches",
        attribute="switches",
        value=ByName(
            ByName(TEXT, "positions of the switch with what they do"),
            "switches with their positions",
        ),
        doc="What each switch does in each position",
        example="{gear: {up: levelling off, down: levelling on}}",
    ),
)

RUN: Fields = table(
    Field(
        key="from",
        attribute="start",
        value=TEXT,
        doc="Where it begins",
        example="pack",
        required=True,
    ),
    Field(
        key="to",
        attribute="end",
        value=TEXT,
        doc="Where it ends",
        example="distribution",
        required=True,
    ),
    Field(key="wire", attribute="wire", value=WIRE, doc="Size of the conductor", example="14 AWG"),
    Field(
        key="length",
        attribute="length_m",
        value=quantity("length", between("length", "1 mm", "20 m")),
        doc="One way; both conductors are counted",
        example="140 mm",
    ),
    Field(key="plug", attribute="plug", value=TEXT, doc="Its connector", example="bullet 4 mm"),
)

SUNDRY: Fields = table(
    Field(
        key="what", attribute="what", value=TEXT, doc="What it is", example="straps", required=True
    ),
    Field(
        key="mass",
        attribute="mass_kg",
        value=quantity("mass"),
        doc="Mass of all of it",
        example="38 g",
        required=True,
    ),
    Field(
        key="at", attribute="at", value=PLACE3, doc="Where it sits", example="[0 mm, 0 mm, 5 mm]"
    ),
)

WING: Fields = table(
    Field(
        key="area", attribute="area_m2", value=quantity("area"), doc="Wing area", example="0.32 m²"
    ),
    Field(
        key="span",
        attribute="span_m",
        value=quantity("length", between("length", "50 mm", "20 m")),
        doc="Span",
        example="1400 mm",
    ),
    Field(
        key="mean_chord",
        attribute="mean_chord_m",
        value=quantity("length", between("length", "10 mm", "5 m")),
        doc="Mean chord",
        example="230 mm",
    ),
    Field(
        key="leading_edge",
        attribute="leading_edge_m",
        value=quantity("length", _ALONG),
        doc="Leading edge of the mean chord, aft of the reference point",
        example="310 mm",
    ),
    Field(
        key="max_lift_coefficient",
        attribute="max_lift_coefficient",
        value=number(Limits(0.1, 5)),
        doc="Lift coefficient at the stall",
        example="1.2",
    ),
)

BOUNDS: Fields = table(
    Field(
        key="max_mass",
        attribute="max_mass_kg",
        value=quantity("mass"),
        doc="Most it may weigh",
        example="1800 g",
    ),
    Field(
        key="forward_cg",
        attribute="forward_cg",
        value=_CG,
        doc="Foremost centre of gravity: share of the mean chord, or a length forward",
        example="20 %",
    ),
    Field(
        key="aft_cg",
        attribute="aft_cg",
        value=_CG,
        doc="Rearmost centre of gravity",
        example="33 %",
    ),
)

STATUS = choice("building", "flying", "stored", "retired", "sold")

# Keys of aircraft.yaml that an alteration may change later.
ALTERABLE: Fields = table(
    Field(
        key="stations",
        attribute="stations",
        value=ByName(Group(StationPlan, STATION, "a station"), "stations with their plan"),
        doc="Motor stations of the layout; what each should do",
        example="{front-left: {spin: ccw, output: 3}}",
    ),
    Field(
        key="receiver",
        attribute="receiver",
        value=Group(
            lambda order: order,
            table(
                Field(
                    key="order",
                    attribute="order",
                    value=Several(TEXT, least=1),
                    doc="Channels in the order in which the leads enter the controller",
                    example="[throttle, rudder, elevator, aileron, gear]",
                    required=True,
                )
            ),
            "the receiver",
        ),
        doc="Leads of the receiver",
        example="{order: [throttle, rudder, elevator, aileron, gear]}",
    ),
    Field(
        key="radio",
        attribute="radio",
        value=Group(Radio, RADIO, "the radio"),
        doc="How the transmitter is set up",
        example="{memory: 4, mode: 2, reversed: [rudder]}",
    ),
    Field(
        key="wiring",
        attribute="wiring",
        value=Several(Group(Run, RUN, "a run of wire", lined=True)),
        doc="Runs of two conductors",
        example="[{from: pack, to: distribution, wire: 14 AWG, length: 140 mm}]",
    ),
    Field(
        key="sundries",
        attribute="sundries",
        value=Several(Group(Sundry, SUNDRY, "a sundry", lined=True)),
        doc="What is weighed but not tracked",
        example="[{what: straps and leads, mass: 38 g}]",
    ),
    Field(
        key="positions",
        attribute="positions",
        value=ByName(PLACE3, "stations with their places"),
        doc="Places of stations other than those that the layout gives",
        example="{pack: [10 mm, 0 mm, 25 mm]}",
    ),
    Field(
        key="bounds",
        attribute="bounds",
        value=Group(Bounds, BOUNDS, "bounds", _bounds),
        doc="Limits the keeper set",
        example="{max_mass: 1800 g, forward_cg: 20 %, aft_cg: 33 %}",
    ),
    Field(
        key="status",
        attribute="status",
        value=STATUS,
        doc="Where it is in its life",
        example="flying",
    ),
)

AIRCRAFT: Fields = {
    **table(
        Field(
            key="aircraft",
            attribute="aircraft",
            value=TEXT,
            doc="Its name",
            example="Sedge",
            required=True,
        ),
        Field(
            key="kind",
            attribute="kind",
            value=choice("multirotor", "aeroplane"),
            doc="What it is",
            example="multirotor",
            required=True,
        ),
        Field(
            key="layout",
            attribute="layout",
            value=choice(*LAYOUTS),
            doc="Where its motors sit",
            example="quad-x",
            required=True,
        ),
        Field(
            key="in_service",
            attribute="in_service",
            value=DAY,
            doc="Day it went into service",
            example="2026-03-01",
        ),
        Field(
            key="registration",
            attribute="registration",
            value=TEXT,
            doc="Registration; private, never rendered for the public",
            example="on the left arm",
        ),
        Field(
            key="carried",
            attribute="carried",
            value=CARRIED_LIFE,
            doc="Life before these records",
            example="{hours: 4.2, flights: 31, basis: measured}",
        ),
        Field(
            key="programme",
            attribute="programme",
            value=TEXT,
            doc="Its maintenance programme",
            example="small-multirotor",
        ),
        Field(
            key="diagonal",
            attribute="diagonal_m",
            value=quantity("length", between("length", "20 mm", "10 m")),
            doc="Motor shaft to motor shaft through the centre",
            example="410 mm",
        ),
    ),
    **ALTERABLE,
    **table(
        Field(
            key="wing",
            attribute="wing",
            value=Group(Wing, WING, "a wing"),
            doc="The wing of an aeroplane",
            example="{area: 0.32 m², span: 1400 mm, mean_chord: 230 mm}",
        ),
        Field(
            key="note",
            attribute="note",
            value=TEXT,
            doc="Remarks",
            example="first of its kind here",
        ),
    ),
}
