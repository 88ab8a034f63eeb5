"""What an aircraft is made of and how it is set up: parts, settings, gains, alterations."""

from collections.abc import Mapping
from typing import Annotated, Any, get_args

import msgspec
from msgspec import UNSET

from buildbook.basis.limits import Limits
from buildbook.basis.notation import quoted
from buildbook.records.aircraft import (
    Aircraft,
    Bounds,
    Place3,
    Radio,
    Run,
    StationPlan,
    Status,
    Sundry,
)
from buildbook.records.declare import PUBLIC, key, marks, of
from buildbook.records.entries.entry import Because, Entry
from buildbook.records.keys.fields import Fields, fields_of
from buildbook.records.keys.hints import meant
from buildbook.records.keys.nodes import Node, is_group, is_text, shape_of
from buildbook.records.keys.quantities import TAG, TAGS, MassChange_kg, Tags, Texts
from buildbook.records.keys.scope import Scope, pairs_of
from buildbook.records.keys.shapes import FREE_TEXT, ByName, Several
from buildbook.records.keys.values import NAME, TEXT, Schema, choice, number
from buildbook.records.parts import KINDS, ItemState
from buildbook.records.surfaces import Surface


class Slot(msgspec.Struct, frozen=True):
    """A station, the kind of item that sits there, and the tags of it."""

    station: Annotated[str, PUBLIC]
    kind: Annotated[str, PUBLIC]
    tags: Annotated[tuple[str, ...], PUBLIC]


class Slots:
    """Stations, the kinds of item that go there, and their tags."""

    words = "stations with kinds and tags"

    def read(self, node: Node, scope: Scope, path: str) -> Any:
        """A tuple of slots in the order of the file."""
        if not is_group(node):
            scope.expected(f"{self.words}, as in {{front-left: {{motor: M-01}}}}", node, path)
            return UNSET
        slots: list[Slot] = []
        for station, (named, kinds) in pairs_of(node, scope).items():
            if NAME.read(named, scope, path) is UNSET:
                continue
            if station in KINDS and is_text(kinds):
                first = f"name its station first, as in front-left: {{{station}: {kinds.value}}}"
                scope.refuse(kinds, f"{quoted(station)} is a kind of part, not a station", first)
                continue
            if not is_group(kinds):
                scope.refuse(
                    kinds,
                    f"expected a kind and a tag at {quoted(station)}, got {shape_of(kinds)}",
                    "as in {motor: M-01}",
                )
                continue
            if not kinds.value:
                reason = f"nothing is fitted at {quoted(station)}"
                scope.refuse(kinds, reason, "as in {motor: M-01}")
            for kind, (kind_key, tags) in pairs_of(kinds, scope).items():
                there = f"{path}.{station}.{kind}"
                scope.remember(there, tags)
                if kind not in KINDS:
                    hint = meant(kind, frozenset(KINDS))
                    if station in KINDS and is_text(tags):
                        hint = f"the station goes first: {{{kind}: {{{station}: {tags.value}}}}}"
                    scope.refuse(kind_key, f"unknown kind of item {quoted(kind)}", hint)
                    continue
                read = TAGS.read(tags, scope, there)
                if read is not UNSET:
                    slots.append(Slot(station, kind, read))
        return tuple(slots)

    def schema(self) -> Schema:
        """Stations, kinds, tags."""
        kinds = {kind: TAGS.schema() for kind in KINDS}
        return {
            "type": "object",
            "additionalProperties": {
                "type": "object",
                "properties": kinds,
                "additionalProperties": False,
            },
        }


_ITEM_STATE = choice(*get_args(ItemState))


class Fit(Entry, frozen=True, kw_only=True, tag="fit"):
    """Parts were fitted. ``serves``: a shared ESC and the motor stations it drives."""

    slots: Annotated[
        tuple[Slot, ...],
        Slots(),
        key(
            "Station, kind, tag",
            "{front-left: {motor: M-01}}",
            shown="public",
            written="fit",
            value_of_kind=True,
        ),
    ]
    instead_of: Annotated[
        Mapping[str, ItemState],
        ByName(_ITEM_STATE, "tags with their state", TAG, instead="serviceable"),
        key("What comes out at the same time, and its state", "{R-01: scrapped}", shown="public"),
    ] = {}
    serves: Annotated[
        Mapping[str, tuple[str, ...]],
        ByName(Several(TEXT, single=True), "tags with the stations they serve", TAG),
        key("A shared ESC and its stations", "{E-09: [front-left, front-right]}", shown="public"),
    ] = {}


class Remove(Entry, frozen=True, kw_only=True, tag="remove"):
    """Parts were removed."""

    tags: Annotated[
        Tags, key("Tags", "[R-03]", shown="public", written="remove", value_of_kind=True)
    ]
    because: Because = None
    state: Annotated[ItemState | None, key("State from now on", "quarantined", shown="public")] = (
        None
    )


class StateChange(Entry, frozen=True, kw_only=True, tag="state"):
    """An item is set aside, retired, scrapped or returned."""

    in_stores = True
    of_items = True

    states: Annotated[
        Mapping[str, ItemState],
        ByName(_ITEM_STATE, "tags with their state", TAG),
        key(
            "Tags with their state",
            "{P-02: quarantined}",
            shown="public",
            written="state",
            value_of_kind=True,
        ),
    ]
    because: Because = None


class Setting(Entry, frozen=True, kw_only=True, tag="setting"):
    """Settings came into force. By the keeper's own names; ``of`` is a station or a tag."""

    settings: Annotated[
        Mapping[str, str],
        FREE_TEXT,
        key(
            "Settings by the keeper's own names",
            "{start_throttle: 14 %}",
            shown="public",
            written="setting",
            value_of_kind=True,
        ),
    ]
    of: Annotated[str | None, key("A station or a tag", "front-left", shown="public")] = None
    because: Because = None


class Gains(Entry, frozen=True, kw_only=True, tag="gains"):
    """A gain set came into force. No values: back to the set of that name.

    ``values`` holds what is written here; with ``base`` only the axes that differ from it.
    """

    name: Annotated[
        str, key("Name of the set", "calm", shown="public", written="gains", value_of_kind=True)
    ]
    values: Annotated[
        Mapping[str, Mapping[str, float]],
        ByName(
            ByName(number(Limits(-1e6, 1e6, True)), "terms with numbers"),
            "axes with their terms",
            instead={},
        ),
        key("The whole set, by axis and term", "{roll: {p: 38, i: 21, d: 4}}", shown="public"),
    ] = {}
    base: Annotated[
        str | None,
        key(
            "The set it is based on; values then hold only what differs",
            "calm",
            shown="public",
            written="from",
        ),
    ] = None
    because: Because = None


class Verdict(Entry, frozen=True, kw_only=True, tag="verdict"):
    """How gain sets flew, in the keeper's opinion."""

    verdicts: Annotated[
        Mapping[str, str],
        ByName(TEXT, "gain sets with words"),
        key(
            "Gain sets, each with words",
            "{calm: steady but slow}",
            shown="public",
            written="verdict",
            value_of_kind=True,
        ),
    ]


class Firmware(Entry, frozen=True, kw_only=True, tag="firmware"):
    """The firmware of items was changed."""

    in_stores = True
    of_items = True

    versions: Annotated[
        Mapping[str, str],
        ByName(TEXT, "tags with versions", TAG),
        key(
            "Tags with versions",
            "{C-01: 2.4.1}",
            shown="public",
            written="firmware",
            value_of_kind=True,
        ),
    ]


class Alteration(Entry, frozen=True, kw_only=True, tag="alteration"):
    """A dated change of the aircraft; named keys replace. What is None or absent stays.

    ``keys`` names the keys of aircraft.yaml that were written here.
    """

    words: Annotated[
        str,
        key(
            "What was altered",
            "longer arms",
            shown="public",
            written="alteration",
            value_of_kind=True,
        ),
    ]
    keys: Annotated[tuple[str, ...], PUBLIC] = ()
    stations: Annotated[Mapping[str, StationPlan], of(Aircraft, "stations")] = {}
    receiver: Annotated[tuple[str, ...], of(Aircraft, "receiver")] = ()
    sockets: Annotated[tuple[str, ...], of(Aircraft, "sockets")] = ()
    radio: Annotated[Radio | None, of(Aircraft, "radio")] = None
    surfaces: Annotated[Mapping[str, Surface], of(Aircraft, "surfaces")] = {}
    wiring: Annotated[tuple[Run, ...], of(Aircraft, "wiring")] = ()
    sundries: Annotated[tuple[Sundry, ...], of(Aircraft, "sundries")] = ()
    positions: Annotated[Mapping[str, Place3], of(Aircraft, "positions")] = {}
    bounds: Annotated[Bounds | None, of(Aircraft, "bounds")] = None
    status: Annotated[Status | None, of(Aircraft, "status")] = None
    mass_kg: Annotated[
        MassChange_kg | None,
        key("Mass added, or taken off with a minus", "12 g", shown="public"),
    ] = None
    at: Annotated[
        Place3 | None, key("Where that mass sits", "[0 mm, 0 mm, 5 mm]", shown="public")
    ] = None
    rewired: Annotated[
        Texts,
        key("Stations whose motor leads or wiring were changed", "[front-left]", shown="public"),
    ] = ()


def alterable() -> Fields:
    """The keys of aircraft.yaml that an alteration may change later."""
    repeated = marks(Alteration)
    fields = fields_of(Alteration, beyond=Entry)
    return {
        name: field for name, field in fields.items() if isinstance(repeated[field.attribute], of)
    }
