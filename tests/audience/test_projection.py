"""The projection goes by the marks of fields; what carries none is private."""

import importlib
import pkgutil
from typing import Annotated

import msgspec
import pytest

from buildbook import records, report
from buildbook.audience.projection import A_TABLE, Projector
from buildbook.audience.sharing import Sharing
from buildbook.records.declare import PUBLIC, key, made, marks, of, shown
from buildbook.records.entries import Flight
from buildbook.records.keeper import Share
from buildbook.records.parts import Spec
from buildbook.report.history import FlightDone
from buildbook.report.upkeep.work import Row, Standing


class Written(msgspec.Struct, frozen=True, kw_only=True):
    """A record."""

    mass_kg: Annotated[float | None, key("What it weighs", "54 g", "public")] = None
    price: Annotated[float | None, key("What it cost", "14 EUR")] = None
    site: Annotated[str | None, key("Where", "lower meadow", "places")] = None
    forgotten: str | None = None


class Told(msgspec.Struct, frozen=True, kw_only=True):
    """A report of it."""

    mass_kg: Annotated[float | None, of(Written, "mass_kg")] = None
    price: Annotated[float | None, of(Written, "price")] = None
    site: Annotated[str | None, of(Written, "site")] = None
    forgotten: Annotated[str | None, of(Written, "forgotten")] = None
    share_kg: Annotated[float | None, made("public", (of(Written, "mass_kg"),))] = None
    written: Annotated[tuple[Written, ...], PUBLIC] = ()


class Unmarked(msgspec.Struct, frozen=True):
    """Nobody said who may see it."""

    words: str = "secret"


def public(**switches: bool) -> Projector:
    """A projector for the public with these switches on."""
    return Projector(Sharing(audience="public", share=Share(**switches)))  # type: ignore[arg-type]


RECORD = Written(mass_kg=0.054, price=14.0, site="lower meadow", forgotten="x")


def test_only_fields_marked_public_are_copied() -> None:
    """A key without a mark, a field without a declaration and a switched one come out blank."""
    assert Written(mass_kg=0.054) == public().show(RECORD)
    assert Written(mass_kg=0.054, site="lower meadow") == public(places=True).show(RECORD)


def test_a_field_of_a_report_inherits_the_mark_of_the_key_that_it_repeats() -> None:
    """What repeats a private or unmarked key is private, whoever wrote the report."""
    told = Told(
        mass_kg=0.054,
        price=14.0,
        site="lower meadow",
        forgotten="x",
        share_kg=0.5,
        written=(RECORD,),
    )

    assert Told(mass_kg=0.054, share_kg=0.5, written=(Written(mass_kg=0.054),)) == public().show(
        told
    )


def test_a_type_without_marks_is_not_shown_at_all() -> None:
    """It comes out as nothing."""
    assert public().show(Unmarked()) is None


class Fleet(msgspec.Struct, frozen=True, kw_only=True):
    """Aircraft by name and in a row, beside what else is told."""

    aircraft: Annotated[dict[str, int], PUBLIC]
    standings: Annotated[tuple[Standing | str, ...], PUBLIC]
    bench: Annotated[str, PUBLIC] = ""


def test_a_hidden_aircraft_is_told_of_nowhere_and_all_others_are() -> None:
    """Neither by its name in a mapping nor as one of several; a text alone tells of none."""
    seen, held = (Standing(slug=slug, name=slug, state="grounded") for slug in ("sedge", "teasel"))
    fleet = Fleet(aircraft={"sedge": 1, "teasel": 2}, standings=(held, seen, "both"))
    hiding = Projector(
        Sharing(audience="public", share=Share()), hidden=frozenset({"teasel"}), tables=("a.csv",)
    )

    assert Fleet(aircraft={"sedge": 1}, standings=(seen, "both")) == hiding.show(fleet)
    assert fleet == public().show(fleet)


def test_only_the_names_of_tables_that_are_there_are_taken_from_a_text() -> None:
    """The longest first, so that no end of one is left; another text stays as it is."""
    text = "bench/a.csv, bench/a.csv.old and bench/b.csv"
    tables = ("a.csv", "a.csv.old")
    hiding = Projector(Sharing(audience="public", share=Share()), tables=tables)
    fleet = Fleet(aircraft={}, standings=(), bench=text)

    assert f"{A_TABLE}, {A_TABLE} and bench/b.csv" == hiding.show(fleet).bench
    assert text == public().show(fleet).bench


def structs() -> list[type]:
    """Every Struct of records and reports, and those that pages are given."""
    for room in (records, report):
        for module in pkgutil.walk_packages(room.__path__, f"{room.__name__}."):
            importlib.import_module(module.name)
    found = {
        kind.__qualname__ + kind.__module__: kind
        for kind in subclasses(msgspec.Struct)
        if kind.__module__.startswith((f"{records.__name__}.", f"{report.__name__}."))
    }
    return [found[name] for name in sorted(found)]


def subclasses(kind: type) -> list[type]:
    """The classes below a class, of all generations."""
    return [each for below in kind.__subclasses__() for each in (below, *subclasses(below))]


STRUCTS = structs()


def publicness(mark: str) -> int:
    """Nobody, whoever a switch lets, everybody."""
    return {"private": 0, "public": 2}.get(mark, 1)


def test_there_are_marks_of_both_kinds_to_look_at() -> None:
    """Most types have neither; what is asked of them below would hold of none at all."""
    found = [mark for kind in STRUCTS for mark in marks(kind).values()]

    assert any(isinstance(mark, of) for mark in found)
    assert any(isinstance(mark, made) and mark.from_ for mark in found)


@pytest.mark.parametrize("kind", STRUCTS, ids=lambda kind: kind.__name__)
def test_what_is_worked_out_is_never_more_public_than_what_it_is_from(kind: type) -> None:
    """Nor shown by another switch than its sources; what it names as a source is there."""
    for field, mark in marks(kind).items():
        for source in mark.from_ if isinstance(mark, made) else ():
            assert source.field in source.declared.__struct_fields__, f"{kind}.{field}"
            least = shown(source.declared).get(source.field, "private")
            own = shown(kind)[field]
            assert publicness(own) <= publicness(least), f"{kind}.{field}"
            assert own in ("private", least) or least == "public", f"{kind}.{field}"


@pytest.mark.parametrize("kind", STRUCTS, ids=lambda kind: kind.__name__)
def test_what_repeats_a_field_names_one_that_is_there(kind: type) -> None:
    """A slip in ``of(…)`` would make a field private without a word."""
    for field, mark in marks(kind).items():
        if isinstance(mark, of):
            assert mark.field in mark.declared.__struct_fields__, f"{kind}.{field}"


REPORTED = [kind for kind in STRUCTS if kind.__module__.startswith(f"{report.__name__}.")]


@pytest.mark.parametrize("kind", REPORTED, ids=lambda kind: kind.__name__)
def test_every_field_of_a_report_says_who_may_see_it(kind: type) -> None:
    """None is private because it was forgotten."""
    assert [] == [
        field
        for field in kind.__struct_fields__  # type: ignore[attr-defined]
        if field not in marks(kind)
    ]


def test_the_walk_finds_the_types_that_it_should() -> None:
    """A test over no types would hold nothing."""
    assert {Row, FlightDone, Spec, Flight} <= set(STRUCTS)
