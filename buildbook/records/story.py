"""``story:`` of an aircraft: what others see before its build story, and on the front page."""

import datetime
import re
from typing import Annotated, Literal

import msgspec

from buildbook.basis.days import parse_day
from buildbook.basis.notation import NotationError, quoted
from buildbook.basis.sizes import most
from buildbook.records.declare import PUBLIC, key
from buildbook.records.keys.values import MONEY, Money, Scalar

_MONTH = re.compile(r"(\d{4})-(\d{2})").fullmatch


class WrittenWhen(msgspec.Struct, frozen=True):
    """The day that a story was written, or the first of its month where it was told by month."""

    day: Annotated[datetime.date, PUBLIC]
    by_month: Annotated[bool, PUBLIC] = False


def _when(text: str) -> WrittenWhen:
    if _MONTH(text):
        return WrittenWhen(parse_day(f"{text}-01")[0], by_month=True)
    try:
        return WrittenWhen(parse_day(text)[0])
    except NotationError:
        reason = f"{quoted(text)} is neither a day nor a month"
        raise NotationError(reason, "write it as in 2026-03 or 2026-03-14") from None


def _promise(text: str) -> str:
    words = " ".join(text.split())
    if len(words) > most("promise"):
        raise NotationError(
            f"the promise has {len(words)} characters, more than {most('promise')}",
            "say in one sentence what somebody gets who builds it",
        )
    return words


def _photo(text: str) -> str:
    name = text.strip()
    if not name or "/" in name or "\\" in name:
        raise NotationError(f"{quoted(text)} is no file of photos/", "write its name alone")
    return name


WHEN = Scalar("a day or a month", _when, {"type": "string", "pattern": r"^\d{4}-\d{2}(-\d{2})?$"})
PROMISE = Scalar("one sentence", _promise, {"type": "string", "maxLength": most("promise")})
PHOTO = Scalar("a file of photos/", _photo, {"type": "string"})


class StoryFacts(msgspec.Struct, frozen=True, kw_only=True):
    """What a visitor sees before the story itself; all of it may be left out."""

    title: Annotated[
        str | None,
        key("Its title; else the heading of write-up.md", "A quad from one tube", shown="public"),
    ] = None
    promise: Annotated[
        str | None,
        PROMISE,
        key(
            "What its builder gets, in one sentence",
            "Half an hour in the air on one pack, and it fits into a rucksack.",
            shown="public",
        ),
    ] = None
    portrait: Annotated[
        str | None,
        PHOTO,
        key("Its picture, a file of photos/; else the drawing", "sedge.jpg", shown="photos"),
    ] = None
    author: Annotated[
        str | None,
        key("Its author: one of people:, named where names are shared", "ida", shown="public"),
    ] = None
    written: Annotated[
        WrittenWhen | None,
        WHEN,
        key("When it was written: a day or a month", "2026-03", shown="public"),
    ] = None
    licence: Annotated[
        str | None,
        key("What others may do with it; else that of hangar.yaml", "CC BY 4.0", shown="public"),
    ] = None
    difficulty: Annotated[
        Literal["easy", "moderate", "demanding"] | None,
        key("How hard it is to build", "moderate", shown="public"),
    ] = None
    time: Annotated[
        str | None, key("How long it took to build", "five weekends", shown="public")
    ] = None
    cost: Annotated[
        Money | None, MONEY, key("What the parts cost, roughly", "240 EUR", shown="costs")
    ] = None
