"""The keys of aircraft.yaml."""

from typing import Any

from msgspec import UNSET

from buildbook.basis import notation
from buildbook.basis.limits import Limits, between, plain, within
from buildbook.basis.notation import NotationError
from buildbook.records.aircraft import Bounds, Radio, Run, StationPlan, Sundry, Wing
from buildbook.records.fields import PUBLIC_OK, Fields, Group, OldGroup, key, table
from buildbook.records.layouts import LAYOUTS
from buildbook.records.parts import Carried
from buildbook.records.scope import Scope
from buildbook.records.shapes import ByName, Several
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
    key(
        "spin",
        choice("cw", "ccw"),
        "How it should turn, seen from above (aeroplane: from behind)",
        "ccw",
    ),
    key("output", whole(plain(1, 64)), "Output of the controller", "3"),
    key("at", PLACE3, "Where it sits, in a custom layout", "[120 mm, -90 mm, 0 mm]"),
)

RADIO: Fields = table(
    key("memory", TEXT, "Model memory", "4"),
    key("mode", whole(plain(1, 4)), "Stick mode", "2"),
    key("reversed", Several(TEXT, single=True), "Channels that are reversed", "[rudder]"),
    key("throttle_cut", TEXT, "Where the throttle cut is", "left shoulder switch"),
    key(
        "failsafe",
        ByName(TEXT, "channels with what they do"),
        "What each channel does when the link is lost",
        "{throttle: cut, rest: hold}",
    ),
    key(
        "switches",
        ByName(
            ByName(TEXT, "positions of the switch with what they do"),
            "switches with their positions",
        ),
        "What each switch does in each position",
        "{mode: {up: by hand, middle: rate held, down: angle held}}",
    ),
)

RUN: Fields = table(
    key("from", TEXT, "Where it begins", "pack", "start", required=True),
    key("to", TEXT, "Where it ends", "distribution", "end", required=True),
    key("wire", WIRE, "Size of the conductor", "14 AWG"),
    key(
        "length",
        quantity("length", between("length", "1 mm", "20 m")),
        "One way; both conductors are counted",
        "140 mm",
        "length_m",
    ),
    key("plug", TEXT, "Its connector", "bullet 4 mm"),
)

SUNDRY: Fields = table(
    key("what", TEXT, "What it is", "straps", required=True),
    key("mass", quantity("mass"), "Mass of all of it", "38 g", "mass_kg", required=True),
    key("at", PLACE3, "Where it sits", "[0 mm, 0 mm, 5 mm]"),
)

WING: Fields = table(
    key("area", quantity("area"), "Wing area", "0.32 m²", "area_m2"),
    key(
        "span", quantity("length", between("length", "50 mm", "20 m")), "Span", "1400 mm", "span_m"
    ),
    key(
        "mean_chord",
        quantity("length", between("length", "10 mm", "5 m")),
        "Mean chord",
        "230 mm",
        "mean_chord_m",
    ),
    key(
        "leading_edge",
        quantity("length", _ALONG),
        "Leading edge of the mean chord, aft of the reference point",
        "310 mm",
        "leading_edge_m",
    ),
    key("max_lift_coefficient", number(Limits(0.1, 5)), "Lift coefficient at the stall", "1.2"),
)

BOUNDS: Fields = table(
    key("max_mass", quantity("mass"), "Most it may weigh", "1800 g", "max_mass_kg"),
    key(
        "forward_cg",
        _CG,
        "Foremost centre of gravity: share of the mean chord, or a length forward",
        "20 %",
    ),
    key("aft_cg", _CG, "Rearmost centre of gravity", "33 %"),
)

STATUS = choice("building", "flying", "stored", "retired", "sold")

# Keys of aircraft.yaml that an alteration may change later.
ALTERABLE: Fields = table(
    key(
        "stations",
        ByName(OldGroup(StationPlan, STATION, "a station"), "stations with their plan"),
        "Motor stations of the layout; what each should do",
        "{rear-left: {spin: cw, output: 2}}",
    ),
    key(
        "receiver",
        OldGroup(
            lambda order: order,
            table(
                key(
                    "order",
                    Several(TEXT, least=1),
                    "Channels in the order in which the leads enter the controller",
                    "[throttle, rudder, elevator, mode, aileron]",
                    required=True,
                )
            ),
            "the receiver",
        ),
        "Leads of the receiver",
        "{order: [throttle, rudder, elevator, mode, aileron]}",
    ),
    key(
        "radio",
        OldGroup(Radio, RADIO, "the radio"),
        "How the transmitter is set up",
        "{memory: 4, mode: 2, reversed: [rudder]}",
    ),
    key(
        "wiring",
        Several(OldGroup(Run, RUN, "a run of wire", lined=True)),
        "Runs of two conductors",
        "[{from: pack, to: distribution, wire: 14 AWG, length: 140 mm}]",
    ),
    key(
        "sundries",
        Several(OldGroup(Sundry, SUNDRY, "a sundry", lined=True)),
        "What is weighed but not tracked",
        "[{what: straps and leads, mass: 38 g}]",
    ),
    key(
        "positions",
        ByName(PLACE3, "stations with their places"),
        "Places of stations other than those that the layout gives",
        "{pack: [10 mm, 0 mm, 25 mm]}",
    ),
    key(
        "bounds",
        OldGroup(Bounds, BOUNDS, "bounds", _bounds),
        "Limits the keeper set",
        "{max_mass: 1800 g, forward_cg: 20 %, aft_cg: 33 %}",
    ),
    key("status", STATUS, "Where it is in its life", "flying"),
)

AIRCRAFT: Fields = {
    **table(
        key("aircraft", TEXT, "Its name", "Sedge", required=True),
        key("kind", choice("multirotor", "aeroplane"), "What it is", "multirotor", required=True),
        key(
            "layout",
            choice(*LAYOUTS, what="layout"),
            "Where its motors sit",
            "quad-x",
            required=True,
        ),
        key("in_service", DAY, "Day it went into service", "2026-03-01"),
        key(
            "registration",
            TEXT,
            "Registration; private, never rendered for the public",
            "on the left arm",
        ),
        key(
            "carried",
            Group(Carried, "carried life"),
            "Life before these records",
            "{hours: 4.2, flights: 31, basis: measured}",
        ),
        key("programme", TEXT, "Its maintenance programme", "small-multirotor"),
        key(
            "diagonal",
            quantity("length", between("length", "20 mm", "10 m")),
            "Motor shaft to motor shaft through the centre",
            "410 mm",
            "diagonal_m",
        ),
    ),
    **ALTERABLE,
    **table(
        key(
            "wing",
            OldGroup(Wing, WING, "a wing"),
            "The wing of an aeroplane",
            "{area: 0.32 m², span: 1400 mm, mean_chord: 230 mm}",
        ),
        key("note", TEXT, "Remarks", "first of its kind here"),
        PUBLIC_OK,
    ),
}
