"""A key is one line on the field of its Struct; reader, schema and hints are made from it."""

from collections.abc import Mapping
from typing import Annotated, ClassVar, Literal

import msgspec
import pytest

from buildbook.basis.problems import Problems
from buildbook.records.declare import PUBLIC, WrittenOnly, key, of, shown
from buildbook.records.keys.fields import Group, fields_of, object_schema, read_fields
from buildbook.records.keys.quantities import TAGS, Current_a, Mass_kg
from buildbook.records.keys.scope import Scope, pairs_of
from buildbook.records.keys.values import TEXT
from buildbook.records.keys.yaml_nodes import MappingNode, compose


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """A record of two kinds."""

    name: Annotated[str, key("Its name", "hub", shown="public")]
    mass_kg: Annotated[Mass_kg | None, key("What it weighs", "54 g", shown="public")] = None
    plug_current_a: Annotated[Current_a | None, key("Most its plug may carry", "60 A")] = None
    hand: Annotated[
        Literal["cw", "ccw"] | None,
        key("How it turns", "cw", kinds=("propeller",), required=True),
        key("How its thread runs", "cw", kinds=("nut",)),
    ] = None
    bag: ClassVar[Annotated[WrittenOnly, TAGS, key("Tags of a bag", "[R-01, R-02]")]]
    tags: Annotated[tuple[str, ...], PUBLIC] = ()
    life_s: Annotated[float | None, TEXT, key("Its life", "5 h", written="hours", under="at")] = (
        None
    )


class Kept(msgspec.Struct, frozen=True, kw_only=True):
    """Another record that takes a key of the first."""

    mass_kg: Annotated[float | None, of(Part, "mass_kg")] = None
    plug_current_a: Annotated[float | None, of(Part, "plug_current_a")] = None


class Vague(msgspec.Struct, frozen=True, kw_only=True):
    """A key of which nobody can say how it is written."""

    lengths: Annotated[Mapping[str, float], key("Lengths", "{a: 1}")] = {}


def read(text: str, kind: str = "") -> tuple[dict[str, object], list[str]]:
    """What a group of keys is read as, and the problems."""
    problems = Problems()
    scope = Scope("part.yaml", 1, problems)
    node = compose(text.encode())
    assert isinstance(node, MappingNode)
    values = read_fields(pairs_of(node, scope), fields_of(Part, kind), scope, "a part")
    return values, [f"{each.reason} ({each.hint})" for each in problems]


def test_a_key_has_the_name_of_its_field_without_the_unit() -> None:
    """A key of one kind only, or of a group within, is not among those of all."""
    assert ["name", "mass", "plug_current", "bag"] == list(fields_of(Part))
    assert ["name", "mass", "plug_current", "hand", "bag"] == list(fields_of(Part, "nut"))
    assert ["hours"] == list(fields_of(Part, under="at"))


def test_a_key_is_read_into_its_field_as_its_type_says() -> None:
    """One that is only written is read under its own name."""
    expected = {"name": "hub", "plug_current_a": 60.0, "bag": ("R-01",)}

    assert (expected, []) == read("{name: hub, plug_current: 60 A, bag: R-01}")


def test_a_slip_in_a_declared_key_is_told_with_the_key_that_is_meant() -> None:
    """Did-you-mean knows it from the declaration alone."""
    expected = ["unknown key 'plug_curent' in a part (did you mean 'plug_current'?)"]

    assert ({"name": "hub"}, expected) == read("{name: hub, plug_curent: 60 A}")


def test_a_key_must_be_there_where_its_field_has_no_default_or_its_kind_asks_for_it() -> None:
    """Each kind has its own line and its own demand on one field."""
    assert ["name"] == object_schema(fields_of(Part, "nut"))["required"]
    assert ["name", "hand"] == object_schema(fields_of(Part, "propeller"))["required"]
    assert "How its thread runs" == fields_of(Part, "nut")["hand"].doc


def test_a_key_that_does_not_say_who_may_see_it_is_private() -> None:
    """And a field that repeats it inherits that."""
    assert "private" == shown(Part)["plug_current_a"]
    assert {"mass_kg": "public", "plug_current_a": "private"} == dict(shown(Kept))


def test_a_repeated_key_is_written_as_the_one_that_it_repeats() -> None:
    """Reader, words and example come from there."""
    assert fields_of(Part)["plug_current"] == fields_of(Kept)["plug_current"]


def test_a_declaration_that_does_not_say_how_a_key_is_written_is_told() -> None:
    """At the first look at it, which every run of the tests takes."""
    with pytest.raises(TypeError, match="is written is not declared"):
        fields_of(Vague)


def test_a_group_has_the_keys_of_its_type() -> None:
    """In the schema too, and no others."""
    schema = Group(Kept, "a kept part").schema()

    assert ["mass", "plug_current"] == list(schema["properties"])
    assert schema["additionalProperties"] is False
