"""What is declared of a field where it stands: how its key is written, and who may see it.

``key``, ``of`` and ``made`` stand in ``Annotated`` on a field of a Struct; msgspec ignores them.
What carries none of them is private.
"""

import sys
from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import Annotated, Any, Literal, TypeVar, get_args, get_origin

import msgspec

from buildbook.basis.counting import Unit

Shown = Literal["private", "public", "names", "places", "incidents", "photos", "costs", "days"]
"""Who may see a field: only the owner, everybody, or whom that switch of ``share:`` lets.

``days``: who may see exact days, such as a number of days between two of them.
"""


class key(msgspec.Struct, frozen=True):
    """A key of a file. Its name is that of the field less its unit: ``put_in_ah`` is ``put_in``.

    about: one line, without a full stop. example: as it stands in a file.
    written: the key, where the rule of names does not hold.
    kinds: the kinds of the record (``motor``, ``calibration``) that have it; none means all.
    required: whether it must be there, where that is not whether the field has a default.
    under: the key of the group in which it is written, where the Struct has no such group.
    value_of_kind: the key that names the kind of an entry (``charge: P-01``).
    """

    about: str
    example: str
    shown: Shown = "private"
    written: str = ""
    kinds: tuple[str, ...] = ()
    required: bool | None = None
    value_of_kind: bool = False
    under: str = ""


class of(msgspec.Struct, frozen=True):
    """A field that repeats one of another Struct, and is shown to whom that one is."""

    declared: type
    field: str


class made(msgspec.Struct, frozen=True):
    """A field that is worked out or read from several keys: says its own mark, and from what."""

    shown: Shown
    from_: tuple[of, ...] = ()


PUBLIC = made("public")
PRIVATE = made("private")
"""Said on purpose, where each field of a type must say something."""


class WrittenOnly:
    """The type of a key that is no field: the reader turns it into fields of the Struct.

    ``tags: ClassVar[Annotated[WrittenOnly, TAG_ROWS, key("A bag of the same", "R-01..R-08")]]``.
    """


Mark = key | of | made


def own_annotations(kind: type) -> dict[str, Any]:
    """The annotations of a type itself; what its module puts off by writing it as text is read."""
    return {
        name: eval(each, vars(sys.modules[kind.__module__])) if isinstance(each, str) else each
        for name, each in kind.__annotations__.items()
    }


@cache
def annotations(kind: type) -> Mapping[str, Any]:
    """The annotation of each field, those of its bases first.

    Keys that are ``WrittenOnly`` are among them.
    """
    found: dict[str, Any] = {}
    for base in reversed(kind.__mro__):
        if isinstance(base, msgspec.StructMeta):
            found.update(own_annotations(base))
    return MappingProxyType(found)


@cache
def marks(kind: type) -> Mapping[str, Mark]:
    """The mark of each field that has one, by field; of several keys the first."""
    return MappingProxyType(
        {
            field: mark
            for field, annotation in annotations(kind).items()
            if (mark := _mark(annotation)) is not None
        }
    )


def _mark(annotation: Any) -> Mark | None:
    if get_origin(annotation) is not Annotated:
        return None
    for each in get_args(annotation)[1:]:
        if isinstance(each, Mark):
            return each
        if isinstance(each, Unit):  # a number of a programme, which is public
            return PUBLIC
    return None


@cache
def shown(kind: type) -> Mapping[str, Shown]:
    """Who may see each field of a Struct. What ``of`` names and is not marked is private."""
    return MappingProxyType({field: _shown(mark) for field, mark in marks(kind).items()})


def _shown(mark: Mark) -> Shown:
    return shown(mark.declared).get(mark.field, "private") if isinstance(mark, of) else mark.shown


T = TypeVar("T")

Public = Annotated[T, PUBLIC]
"""Everybody."""

OfDays = Annotated[T, made("days")]
"""Who may see exact days: a day of the month, a number of days between two days."""

OfIncidents = Annotated[T, made("incidents")]
"""Whom ``share: {incidents: true}`` lets: the words of defects, crashes and their causes."""
