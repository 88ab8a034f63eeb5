"""The declarations of keys, the types, the schema and the reference say the same."""

import datetime
import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import jsonschema
import msgspec
import pytest
from small_hangar import SMALL, WriteHangar

from buildbook.basis.problems import Problems
from buildbook.records import aircraft, entries, keeper, parts, programmes
from buildbook.records.entries.kinds import KINDS, common
from buildbook.records.keys.fields import Field, Fields, fields_of
from buildbook.records.keys.scope import Scope
from buildbook.records.keys.yaml_nodes import MappingNode, ScalarNode, SequenceNode, compose
from buildbook.records.outputs.reference import nested, reference, sections
from buildbook.records.outputs.schema import FILES, schema
from buildbook.records.reading.files import gather
from buildbook.records.reading.programmes import built_in_programmes
from buildbook.records.reading.read import read_hangar
from buildbook.records.record import Record

SPEC, SPEC_KINDS = fields_of(parts.Spec), parts.spec_kinds()
AIRCRAFT = fields_of(aircraft.Aircraft)

PLACE = {"file", "line", "lines"}
HEAD = {"log", "aircraft", "index", "id", "on", "time"}
ALL_SPECS = {**SPEC, **{key: f for fields in SPEC_KINDS.values() for key, f in fields.items()}}

# A type, the table that fills it, what else fills it, and what the table has beyond the type.
PAIRS: list[tuple[type, Fields, set[str], set[str]]] = [
    (keeper.Keeper, fields_of(keeper.Keeper), PLACE, set()),
    (keeper.Share, fields_of(keeper.Share), set(), set()),
    (keeper.Person, fields_of(keeper.Person), set(), set()),
    (parts.Spec, ALL_SPECS, PLACE, set()),
    (parts.Item, fields_of(parts.Item), PLACE | {"aircraft"}, {"tags"}),
    (parts.Carried, fields_of(parts.Carried), set(), set()),
    (aircraft.Aircraft, AIRCRAFT, PLACE | {"slug"}, set()),
    (aircraft.StationPlan, fields_of(aircraft.StationPlan), set(), set()),
    (aircraft.Radio, fields_of(aircraft.Radio), set(), set()),
    (aircraft.Run, fields_of(aircraft.Run), {"line"}, set()),
    (aircraft.Sundry, fields_of(aircraft.Sundry), {"line"}, set()),
    (aircraft.Wing, fields_of(aircraft.Wing), set(), set()),
    (
        aircraft.Bounds,
        fields_of(aircraft.Bounds),
        {"forward_cg_share", "aft_cg_share", "forward_cg_m", "aft_cg_m"},
        {"forward_cg", "aft_cg"},
    ),
    (entries.Volts, fields_of(entries.Volts), set(), set()),
    (entries.Until, fields_of(entries.Until), set(), set()),
    (
        programmes.Programme,
        fields_of(programmes.Programme),
        PLACE | {"built_in", "checks", "tasks", "life_limits"},
        set(),
    ),
    (programmes.CheckRule, fields_of(programmes.CheckRule), PLACE | {"written"}, set()),
    (programmes.TaskRule, fields_of(programmes.TaskRule), PLACE | {"written"}, set()),
    (
        programmes.LimitRule,
        {**fields_of(programmes.LimitRule), **fields_of(programmes.LimitRule, under="at")},
        PLACE | {"written"},
        {"at"},
    ),
    (programmes.Interval, programmes.interval_keys(), set(), set()),
    (
        entries.Correction,
        fields_of(entries.Correction, beyond=entries.Entry),
        PLACE | HEAD | {"original", "becomes", "changed"},
        {"set"},
    ),
    (
        entries.Void,
        fields_of(entries.Void, beyond=entries.Entry),
        PLACE | HEAD | {"original"},
        set(),
    ),
]


@pytest.mark.parametrize(
    ("made", "fields", "besides", "beyond"), PAIRS, ids=lambda value: getattr(value, "__name__", "")
)
def test_a_table_fills_its_type(
    made: type, fields: Fields, besides: set[str], beyond: set[str]
) -> None:
    """Every attribute of the type is read by a key or filled by the reader, and none is missing."""
    head = {f.attribute for f in common().values()} if issubclass(made, entries.Entry) else set()
    read = {field.attribute for field in fields.values()} | head

    assert set(made.__struct_fields__) == (read - beyond) | besides  # type: ignore[attr-defined]


ROW = {"flight", "pack", "used", "landing"}


@pytest.mark.parametrize("kind", KINDS.values(), ids=KINDS)
def test_a_kind_of_entry_fills_its_type(kind: Any) -> None:
    """The same for entries; a flight's own values go into its rows."""
    fields = {**common(), **kind.fields, kind.key: kind.own_key}
    read = {field.attribute for field in fields.values()}
    extra = {"flight": {"rows"}, "flights": {"rows"}, "cleared": {"target"}}.get(kind.key, set())
    extra |= {"taught", "surface"} if kind.make is entries.Check else set()
    extra |= {"keys"} if kind.make is entries.Alteration else set()
    extra |= {"assumed"} if kind.make is entries.Inspection else set()
    if kind.make is entries.Flight:
        read -= ROW
    if kind.key == "note":
        read |= {"note"}

    assert set(kind.make.__struct_fields__) == read | extra | PLACE | HEAD


def test_every_type_of_entry_has_a_kind() -> None:
    """The union of the types and the table of kinds name the same types."""
    assert set(entries.Plain.__args__) == {kind.make for kind in KINDS.values()}  # type: ignore[attr-defined]


def all_tables() -> Iterator[tuple[str, Fields]]:
    """Every table with a title."""
    for title, _, fields in sections():
        yield title, fields
    for kind, fields in SPEC_KINDS.items():
        yield kind, fields
    for entry in KINDS.values():
        yield entry.key, {entry.key: entry.own_key, **entry.fields}
    for title, _, fields in nested():
        yield title, fields
    yield "voids", fields_of(entries.Void, beyond=entries.Entry)


FIELDS = [
    pytest.param(field, id=f"{title}: {field.key}")
    for title, fields in all_tables()
    for field in fields.values()
]


@pytest.mark.parametrize("field", FIELDS)
def test_every_example_reads(field: Field) -> None:
    """The example of a key is read by that key without a problem, and the key is explained."""
    problems = Problems()
    node = compose(f"[{field.example}]".encode())
    read = field.value.read(node.value[0], Scope("example", 1, problems), field.key)

    assert [] == [str(problem) for problem in problems]
    assert read is not msgspec.UNSET
    assert field.doc
    assert not field.doc.endswith(".")


@pytest.mark.parametrize("field", FIELDS)
def test_every_example_satisfies_the_schema(field: Field) -> None:
    """Schema and reader agree on the example of each key."""
    node = compose(f"[{field.example}]".encode())

    jsonschema.validate(plain(node.value[0]), field.value.schema())


def plain(node: Any) -> Any:
    """A node as a reader of JSON's types would load it: truths and plain decimals converted."""
    if isinstance(node, SequenceNode):
        return [plain(member) for member in node.value]
    if isinstance(node, MappingNode):
        return {key.value: plain(value) for key, value in node.value}
    if node is None:
        return None
    assert isinstance(node, ScalarNode)
    if node.value in ("true", "false"):
        return node.value == "true"
    for number in (int, float):
        try:
            return number(node.value)
        except ValueError:
            continue
    return node.value


def shape(path: str) -> str | None:
    """The definition in the schema for a file of a hangar."""
    for stars, name in FILES.items():
        expression = re.escape(stars).replace(r"\*\*/", "(?:[^/]+/)*").replace(r"\*", "[^/]+")
        if re.fullmatch(expression, path):
            return name
    return None


def check_schema(folder: Path) -> int:
    """Validate all YAML files of a hangar; how many there were."""
    files = gather(folder, Problems())
    assert files is not None
    whole = schema()
    jsonschema.Draft202012Validator.check_schema(whole)
    count = 0
    for path, content in files.content.items():
        name = shape(path)
        if name is not None:
            validator = jsonschema.Draft202012Validator(whole["$defs"][name])
            errors = [
                f"{error.json_path}: {error.message[:200]} in {path}"
                for error in validator.iter_errors(plain(compose(content)))
            ]
            assert [] == errors
            count += 1
    return count


def test_the_demo_satisfies_the_schema() -> None:
    """All files of the demo hangar, by a validator that knows nothing of the tables."""
    demo = Path(__file__).parents[2] / "content"

    assert check_schema(demo) >= 10


def test_the_small_hangar_satisfies_the_schema(write_hangar: WriteHangar) -> None:
    """And so does the one of the tests."""
    assert len(SMALL) == check_schema(write_hangar({}))


def test_every_file_that_is_read_has_a_shape(write_hangar: WriteHangar) -> None:
    """Also the ones in folders of folders, which are read like the rest."""
    deep = {
        "stores/2025/shelf.yaml": "log",
        "aircraft/sedge/logbook/2025/spring/may.yaml": "log",
        "parts/specs/motors/small.yaml": "specs",
        "parts/items/2024/old.yaml": "items",
        "programmes/mine/winter.yaml": "programme",
        "notices/2026/one.yaml": "notices",
    }
    files = gather(write_hangar(dict.fromkeys(deep, "")), Problems())

    assert files is not None
    assert deep.keys() <= files.content.keys()
    read = [path for path in files.content if path.endswith(".yaml")]
    assert [] == [path for path in read if shape(path) is None]
    assert deep == {path: shape(path) for path in deep}


@pytest.mark.parametrize(
    ("path", "content"),
    [
        ("hangar.yaml", "hangar: x\nkeper: y\n"),
        ("parts/specs.yaml", "- {spec: a, kind: esc, kv: 870 rpm/V}\n"),
        ("parts/items.yaml", "- {spec: a}\n"),
        ("aircraft/sedge/logbook.yaml", "- {on: 2026-02-01, flight: 7:20, landing: crsh}\n"),
        ("aircraft/sedge/logbook.yaml", "- {flight: 7:20}\n"),
        ("aircraft/sedge/logbook.yaml", "- {on: 2026-02-01, corrects: a, set: {used: 1 Ah}}\n"),
    ],
)
def test_the_schema_refuses_what_the_reader_refuses(
    path: str, content: str, write_hangar: WriteHangar
) -> None:
    """Unknown keys, missing keys and words that are no choice."""
    assert read_hangar(write_hangar({path: content})).problems

    definition = schema()["$defs"][shape(path) or ""]
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(plain(compose(content.encode())), definition)


def test_the_reference_names_every_key() -> None:
    """Each key of each table has a line in the manual."""
    text = reference()
    assert [*all_tables()]
    for _, fields in all_tables():
        for field in fields.values():
            assert field.doc.replace("|", "\\|") in text
            assert f"`{field.key}`" in text


def nested_groups(fields: Mapping[str, Field]) -> Iterator[Any]:
    """The groups of known keys right below the keys of a table."""
    for field in fields.values():
        inner = getattr(field.value, "each", field.value)
        if hasattr(inner, "fields"):
            yield inner


def test_every_group_of_keys_has_its_section_in_the_reference() -> None:
    """No table below another is forgotten by the manual."""
    known = [id(fields) for _, fields in all_tables()]
    assert [*all_tables()]
    for _, fields in all_tables():
        for group in nested_groups(fields):
            one_key = len(group.fields) == 1  # the order of a receiver, shown in its example
            assert id(group.fields) in known or one_key, group.words


def test_the_built_in_programmes_satisfy_the_schema() -> None:
    """They are files like those of a keeper."""
    folder = Path(__file__).parents[2] / "buildbook/records/built_in"
    definition = schema()["$defs"]["programme"]
    for path in sorted(folder.glob("*.yaml")):
        jsonschema.validate(plain(compose(path.read_bytes())), definition)
    assert 3 == len(built_in_programmes())


def test_alterations_take_keys_of_the_aircraft() -> None:
    """What may be altered is written as in aircraft.yaml."""
    assert set(entries.alterable()) <= set(AIRCRAFT)


def test_records_know_the_line_of_each_value(write_hangar: WriteHangar) -> None:
    """A value's place is its own line; one that is not written has the line of the record."""
    ledger = read_hangar(write_hangar({})).ledger
    assert ledger is not None
    sedge: Record = ledger.aircraft["sedge"]

    assert "aircraft/sedge/aircraft.yaml:6" == str(sedge.place("stations.front-left.output"))
    assert "aircraft/sedge/aircraft.yaml:3" == str(sedge.place("layout"))
    assert "aircraft/sedge/aircraft.yaml:1" == str(sedge.place("bounds"))
    assert datetime.date(2026, 2, 1) == ledger.entries[0].on
