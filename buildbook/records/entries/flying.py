"""Flights, charges and capacities: what is written on a flying day."""

import re
from collections.abc import Mapping
from typing import Annotated, Any, ClassVar, Literal

import msgspec
from msgspec import UNSET

from buildbook.basis.notation import quoted
from buildbook.records.declare import PUBLIC, WrittenOnly, key
from buildbook.records.entries.entry import Entry, Result
from buildbook.records.keys.fields import Group
from buildbook.records.keys.hints import meant
from buildbook.records.keys.nodes import Node, SequenceNode, is_list, is_text, shape_of
from buildbook.records.keys.quantities import (
    CHARGE,
    FLOWN,
    TAGS,
    AirTemperature_k,
    CarriedFlights,
    CarriedTime_s,
    CellResistance_ohm,
    Charge_ah,
    Current_a,
    Mass_kg,
    MeasuredCharge_ah,
    MotorTime_s,
    Pack,
    Packs,
    PackTemperature_k,
    RestingVoltage_v,
    Voltage_v,
)
from buildbook.records.keys.scope import Scope
from buildbook.records.keys.shapes import Several
from buildbook.records.keys.values import Schema, choice

Landing = Literal["normal", "hard", "crash"]
_LANDINGS = frozenset(("normal", "hard", "crash"))


class FlightRow(msgspec.Struct, frozen=True, kw_only=True):
    """One flight. ``packs`` as flown together; ``line`` is where its row stands."""

    duration_s: Annotated[float, PUBLIC]
    packs: Annotated[tuple[str, ...], PUBLIC] = ()
    used_ah: Annotated[float | None, PUBLIC] = None
    landing: Annotated[Landing, PUBLIC] = "normal"
    line: int = 0


def _is_one_row(node: SequenceNode) -> bool:
    """Whether ``[7:20, P-01]`` is the one flight of a day, without brackets of its own."""
    texts = [member.value for member in node.value if is_text(member)]
    if len(texts) < len(node.value):
        return False
    return not _is_part(texts[0]) and any(map(_is_part, texts[1:]))


def _is_part(text: str) -> bool:
    """Whether it looks like a pack, a charge or a landing rather than a duration."""
    return text.endswith("Ah") or not text[:1].isdigit() or any(sign in text for sign in "-_")


_PARTS = re.compile(r"\s*,\s*|\s+(?!m?Ah)").split


def _is_flight(text: str) -> bool:
    """Whether a text is a flight with its pack or charge: a clock, and more behind it."""
    first, *more = _PARTS(text)
    return ":" in first and bool(more) and any(map(_is_part, more))


class FlightRows:
    """Rows of one day: duration, then pack, charge and landing in any order."""

    words = "a list of flights, as in [[7:20, P-01, 1480 mAh]]"

    def read(self, node: Node, scope: Scope, path: str) -> Any:
        """A tuple of rows."""
        if not is_list(node):
            if is_text(node) and _is_flight(node.value):
                self._bare(node, scope, "[{}]")
            else:
                scope.expected(self.words, node, path)
            return UNSET
        if not node.value:
            scope.refuse(node, "'flights' is an empty list")
            return UNSET
        members = [node] if _is_one_row(node) else node.value
        rows = [self._row(member, scope, f"{path}.{index}") for index, member in enumerate(members)]
        return tuple(row for row in rows if row is not None)

    def _row(self, node: Node, scope: Scope, path: str) -> FlightRow | None:
        members = node.value if is_list(node) else [node]
        scope.remember(path, node)
        if is_text(node) and _is_flight(node.value):
            self._bare(node, scope, "{}")
            return None
        if not members or not is_text(members[0]):
            scope.refuse(node, f"expected a flight, got {shape_of(node)}", "as in [7:20, P-01]")
            return None
        duration_s = FLOWN.read(members[0], scope, path)
        read: dict[str, Any] = {}
        for member in members[1:]:
            attribute, value = self._part(member, scope, path)
            if value is UNSET:
                continue
            if attribute in read:
                self._again(member, attribute, scope)
            else:
                read[attribute] = value
        if duration_s is UNSET:
            return None
        return FlightRow(duration_s=duration_s, line=node.start_mark.line + 1, **read)

    def _bare(self, node: Node, scope: Scope, outer: str) -> None:
        """A flight that stands there as a text: ``6:20 P-01 940 mAh``."""
        text = f"[{', '.join(_PARTS(node.value))}]"
        reason = f"{quoted(node.value)} is a flight without brackets"
        scope.refuse(node, reason, f"write {outer.format(text)}")

    def _again(self, node: Node, attribute: str, scope: Scope) -> None:
        """A second pack, charge or landing; what looks like a pack may be a landing with a slip."""
        text = node.value if is_text(node) else ""
        landing = meant(text, _LANDINGS) if attribute == "packs" and text.isalpha() else None
        if landing is not None:
            reason = f"{quoted(text)} is neither a pack, a charge nor a landing"
            scope.refuse(node, reason, landing)
        else:
            scope.refuse(node, f"{shape_of(node)} stands beside another of its sort")

    def _part(self, node: Node, scope: Scope, path: str) -> tuple[str, Any]:
        """What a member of a row is, by its form."""
        if is_list(node):
            return "packs", TAGS.read(node, scope, path)
        if is_text(node):
            text = node.value
            if text in _LANDINGS:
                return "landing", text
            if (text[:1].isdigit() and text[-1:] in "hA" and " " in text) or text.endswith("Ah"):
                return "used_ah", CHARGE.read(node, scope, path)
            if text[:1].isdigit() and not any(sign in text for sign in "-_"):
                charge = text.isdecimal() and len(text) >= 3
                scope.refuse(
                    node,
                    f"{quoted(text)} is neither a pack, a charge nor a landing",
                    f"{f'did you mean {text} mAh? ' if charge else ''}as in"
                    " [7:20, P-01, 1480 mAh, hard]",
                )
                return "used_ah", UNSET
            return "packs", TAGS.read(node, scope, path)
        scope.refuse(node, "a group of keys stands in a row of flights")
        return "packs", UNSET

    def schema(self) -> Schema:
        """Rows of strings."""
        row = {"type": "array", "minItems": 1, "items": {"type": ["string", "number", "array"]}}
        return {"type": "array", "minItems": 1, "items": row}


NOTICED = ("link lost", "flutter", "power dip", "shaking", "wrong way")
"""What a keeper may notice in flight; each asks for a look of its own."""


class Volts(msgspec.Struct, frozen=True, kw_only=True):
    """Voltage of the whole pack before, at its lowest, and after."""

    before_v: Annotated[
        Voltage_v | None, key("Before the flight, the whole pack", "16.7 V", shown="public")
    ] = None
    lowest_v: Annotated[Voltage_v | None, key("Lowest in flight", "14.1 V", shown="public")] = None
    after_v: Annotated[Voltage_v | None, key("After the flight", "15.1 V", shown="public")] = None


class Flight(Entry, frozen=True, kw_only=True, tag="flight"):
    """``flight`` (one row) or ``flights`` (rows of one day); the rest holds for all rows."""

    flight: ClassVar[
        Annotated[
            WrittenOnly, FLOWN, key("How long", "7:20", kinds=("flight",), value_of_kind=True)
        ]
    ]
    rows: Annotated[
        tuple[FlightRow, ...],
        FlightRows(),
        key(
            "Rows of one day",
            "[[7:20, P-01, 1480 mAh], [6:50, P-02]]",
            shown="public",
            written="flights",
            kinds=("flights",),
            value_of_kind=True,
        ),
    ]
    pack: ClassVar[Annotated[WrittenOnly, TAGS, key("The pack flown, or a list", "P-01")]]
    used: ClassVar[
        Annotated[
            WrittenOnly, CHARGE, key("Charge taken out of all packs, shared evenly", "1480 mAh")
        ]
    ]
    volts: Annotated[
        Volts | None,
        Group(Volts, "volts"),
        key("Voltage of the pack", "{before: 16.7 V, after: 15.1 V}", shown="public"),
    ] = None
    landing: ClassVar[
        Annotated[WrittenOnly, choice("normal", "hard", "crash"), key("How it came down", "normal")]
    ]
    wind: Annotated[str | None, key("Wind in words or figures", "3 m/s, gusts")] = None
    temperature_k: Annotated[
        AirTemperature_k | None, key("Of the air", "18 °C", shown="public")
    ] = None
    payload_kg: Annotated[Mass_kg | None, key("Extra load carried", "120 g", shown="public")] = None
    where: Annotated[
        str | None, key("Where; private", "lower meadow", shown="places", written="place")
    ] = None
    preflight: Annotated[
        Literal["done", "not done"] | None,
        key("Whether the preflight list was done", "done"),
    ] = None
    purpose: Annotated[
        str | None, key("Its purpose; check closes a check flight", "check", shown="public")
    ] = None
    result: Annotated[Result | None, key("Of a check flight", "pass", shown="public")] = None
    noticed: Annotated[
        tuple[str, ...],
        Several(choice(*NOTICED), single=True),
        key("What was noticed in flight, of a closed list", "[link lost]", shown="public"),
    ] = ()
    handling: Annotated[str | None, key("How it flew", "soft in yaw")] = None
    motor_run_s: Annotated[
        MotorTime_s | None, key("Motor time of an aeroplane", "2 min 10 s", shown="public")
    ] = None
    timing: Annotated[
        Literal["airborne", "armed"] | None, key("What was timed", "airborne", shown="public")
    ] = None
    gains: Annotated[str | None, key("A gain set selected in flight", "windy", shown="public")] = (
        None
    )


def one_flight(read: dict[str, Any]) -> dict[str, Any]:
    """One row of the flight's own values."""
    row = {_ROW[name]: read.pop(name) for name in _ROW if name in read}
    read["rows"] = (FlightRow(line=read.pop("line_of_value"), **row),)
    return read


_ROW = {"flight": "duration_s", "pack": "packs", "used": "used_ah", "landing": "landing"}


def day_of_flights(read: dict[str, Any]) -> dict[str, Any]:
    """What is said for all rows fills the rows that don't say it."""
    shared = {_ROW[name]: read.pop(name) for name in _ROW if name in read}
    if shared:
        read["rows"] = tuple(_filled(row, shared) for row in read["rows"])
    return read


def idle_of_day(read: Mapping[str, Any]) -> list[str]:
    """Keys for all rows that every row has an answer of its own to, so that they say nothing."""
    own = {"pack": "packs", "used": "used_ah"}
    return [
        key
        for key, attribute in own.items()
        if key in read and all(getattr(row, attribute) not in (None, ()) for row in read["rows"])
    ]


def _filled(row: FlightRow, shared: Mapping[str, Any]) -> FlightRow:
    return FlightRow(
        duration_s=row.duration_s,
        line=row.line,
        packs=row.packs or shared.get("packs", ()),
        used_ah=row.used_ah if row.used_ah is not None else shared.get("used_ah"),
        landing=row.landing if row.landing != "normal" else shared.get("landing", "normal"),
    )


class Charge(Entry, frozen=True, kw_only=True, tag="charge"):
    """Packs were charged. Per-cell readings in the order of the cells."""

    in_stores = True
    of_items = True

    packs: Annotated[
        Packs,
        key("The pack, or a list", "P-01", shown="public", written="charge", value_of_kind=True),
    ]
    put_in_ah: Annotated[
        Charge_ah | None,
        key("Charge put into all packs, shared evenly", "1540 mAh", shown="public"),
    ] = None
    resistance_ohm: Annotated[
        tuple[CellResistance_ohm, ...],
        key("Resistance of each cell", "[8.1 mΩ, 8.3 mΩ]", shown="public"),
    ] = ()
    resting_v: Annotated[
        tuple[RestingVoltage_v, ...],
        key("Resting voltage of each cell", "[4.18 V, 4.19 V]", shown="public"),
    ] = ()
    temperature_k: Annotated[
        PackTemperature_k | None, key("Of the pack", "21 °C", shown="public")
    ] = None
    to: Annotated[
        Literal["full", "part", "storage"] | None,
        key("How far it was charged", "full", shown="public"),
    ] = None
    current_a: Annotated[
        Current_a | None,
        key(
            "Of the charger to each pack; with together: true, to all of them on the one lead",
            "2.2 A",
            shown="public",
        ),
    ] = None
    together: Annotated[
        bool, key("Whether the packs were charged on one lead", "true", shown="public")
    ] = False


class Capacity(Entry, frozen=True, kw_only=True, tag="capacity"):
    """A measured capacity."""

    in_stores = True
    of_items = True

    pack: Annotated[
        Pack, key("The pack", "P-01", shown="public", written="capacity", value_of_kind=True)
    ]
    measured_ah: Annotated[
        MeasuredCharge_ah, key("Charge that came out", "2140 mAh", shown="public")
    ]
    current_a: Annotated[Current_a | None, key("At this current", "2 A", shown="public")] = None
    temperature_k: Annotated[
        PackTemperature_k | None, key("Of the pack", "21 °C", shown="public")
    ] = None
    down_to_v: Annotated[
        Voltage_v | None, key("Stopped at this voltage of the pack", "12 V", shown="public")
    ] = None


class Totals(msgspec.Struct, frozen=True, kw_only=True):
    """What an aircraft has flown in all, as an older volume closes with it."""

    flights: Annotated[
        CarriedFlights | None, key("Flights in all, carried ones included", "612", shown="public")
    ] = None
    duration_s: Annotated[
        CarriedTime_s | None,
        key("Hours in all, carried ones included", "88.4 h", shown="public", written="time"),
    ] = None


class Opening(Entry, frozen=True, kw_only=True, tag="opening"):
    """A new volume begins with the totals of the old one, which must agree with the log."""

    totals: Annotated[
        Totals,
        Group(Totals, "totals"),
        key(
            "Totals brought forward",
            "{flights: 612, time: 88.4 h}",
            shown="public",
            written="opening",
            value_of_kind=True,
        ),
    ]
