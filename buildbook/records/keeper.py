"""``hangar.yaml``: who keeps the hangar, what may be shared, and the defaults."""

import datetime
import re
from collections.abc import Mapping
from typing import Annotated, Literal

import msgspec

from buildbook.basis import notation
from buildbook.basis.notation import NotationError, quoted
from buildbook.records.declare import key
from buildbook.records.keys.fields import Group
from buildbook.records.keys.quantities import (
    Altitude_m,
    DaysSoon,
    EndOfLife,
    FieldTemperature_k,
    FlightsSoon,
    Reserve,
)
from buildbook.records.keys.shapes import ByName
from buildbook.records.keys.values import NAME, Scalar
from buildbook.records.record import Record

FORMAT = 1


def _format(text: str) -> int:
    written = notation.whole(text)
    if written != FORMAT:
        raise NotationError(
            f"{quoted(text)} is a format that this version does not read", f"it reads {FORMAT}"
        )
    return written


def _address(text: str) -> str:
    if not re.fullmatch(r"https?://[^\s/]+(/\S*)?", text):
        raise NotationError(
            f"{quoted(text)} is not the address of a site", "as in https://hangar.example.org/"
        )
    return text if text.endswith("/") else text + "/"


def _currency(text: str) -> str:
    if not re.fullmatch(r"[A-Z]{3}", text):
        raise NotationError(f"{quoted(text)} is not a currency", "write three capitals, as in EUR")
    return text


FormatNumber = Annotated[int, Scalar("a format number", _format, {"const": FORMAT})]
Address = Annotated[
    str, Scalar("the address of a site", _address, {"type": "string", "format": "uri"})
]
Currency = Annotated[
    str, Scalar("a currency", _currency, {"type": "string", "pattern": "^[A-Z]{3}$"})
]


class Share(msgspec.Struct, frozen=True, kw_only=True):
    """What a public render may show beyond the plain facts; everything is off by default."""

    names: Annotated[bool, key("Names of people", "false", shown="public")] = False
    places: Annotated[bool, key("Flying sites", "false", shown="public")] = False
    incidents: Annotated[bool, key("Crash reports", "true", shown="public")] = False
    photos: Annotated[bool, key("Photographs", "true", shown="public")] = False
    costs: Annotated[bool, key("What builds cost, roughly", "false", shown="public")] = False
    elevation: Annotated[
        bool,
        key("Figures for the air of your field, which tell its elevation", "true", shown="public"),
    ] = False
    dates: Annotated[
        Literal["month", "day"], key("How exactly dates are shown", "month", shown="public")
    ] = "month"


class Person(msgspec.Struct, frozen=True, kw_only=True):
    """Somebody who may stand under ``by`` or ``checked_by``; ``public`` is their own consent."""

    name: Annotated[str, key("Full name", "Ida Quill")]
    public: Annotated[bool, key("Whether this person agreed to be named in public", "false")] = (
        False
    )


class Keeper(Record, frozen=True, kw_only=True):
    """The hangar as a whole. Shares are ratios, temperatures kelvin, lengths metres."""

    format: Annotated[FormatNumber, key("The format of these files", "1", shown="public")] = 1
    hangar: Annotated[str, key("Name of the hangar", "Reedmere shed", shown="public")]
    keeper: Annotated[str | None, key("Who keeps it; private", "Ida Quill")] = None
    address: Annotated[
        Address | None,
        key(
            "Where the site will live: for feeds and calendars",
            "https://hangar.example.org/",
            shown="public",
        ),
    ] = None
    about: Annotated[
        str | None,
        key(
            "A line about the builds, for the public front page",
            "Built in a shed, flown over sheep.",
            shown="public",
        ),
    ] = None
    licence: Annotated[
        str | None,
        key("What others may do with the published builds", "CC BY 4.0", shown="public"),
    ] = None
    currency: Annotated[Currency | None, key("Currency of prices", "EUR")] = None
    as_of: Annotated[
        datetime.date | None,
        key("Freezes the day, for a demo or an archive; else today", "2026-11-20", shown="public"),
    ] = None
    soon_days: Annotated[
        DaysSoon,
        key("A task is due soon within this time", "30 days", shown="public", written="soon"),
    ] = 30
    soon_flights: Annotated[
        FlightsSoon,
        key(
            "Or within this many flights, or a tenth of its interval where that is less",
            "10",
            shown="public",
        ),
    ] = 10
    field_elevation_m: Annotated[
        Altitude_m | None, key("Elevation of the usual field", "120 m")
    ] = None
    field_temperature_k: Annotated[
        FieldTemperature_k | None, key("Usual air temperature there", "15 °C", shown="public")
    ] = None
    reserve_share: Annotated[
        Reserve | None, key("Share of pack capacity kept in reserve", "20 %", shown="public")
    ] = None
    pack_end_of_life_share: Annotated[
        EndOfLife | None,
        key("Share of rated capacity at which a pack is worn out", "80 %", shown="public"),
    ] = None
    programme: Annotated[
        str | None, key("Programme for items on no aircraft", "small-multirotor", shown="public")
    ] = None
    share: Annotated[
        Share,
        Group(Share, "what is shared"),
        key(
            "What a public render may show beyond the plain facts",
            "{names: false, places: false, incidents: true, photos: true, dates: month}",
            shown="public",
        ),
    ] = Share()
    people: Annotated[
        Mapping[str, Person],
        ByName(Group(Person, "a person"), "people by a short name", NAME),
        key(
            "Who may stand under by and checked_by; where it is given, nobody else may",
            "{ida: {name: Ida Quill}, jon: {name: Jon Pell}}",
        ),
    ] = {}
