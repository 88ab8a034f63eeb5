"""The projection goes by the marks of fields; what carries none is private."""

from typing import Annotated

import msgspec

from buildbook.audience.projection import Projector
from buildbook.audience.sharing import Sharing
from buildbook.records.declare import PUBLIC, key, made, of
from buildbook.records.keeper import Share


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
