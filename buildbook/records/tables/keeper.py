"""The keys of hangar.yaml."""

import re

from buildbook.basis import notation
from buildbook.basis.limits import between, plain
from buildbook.basis.notation import NotationError, said
from buildbook.records.keeper import Person, Share
from buildbook.records.shapes import PUBLIC_OK, ByName, Group, key, table
from buildbook.records.values import (
    AGE_DAYS,
    DAY,
    NAME,
    TEXT,
    TRUTH,
    Scalar,
    choice,
    quantity,
    whole,
)

FORMAT = 1


def _format(text: str) -> int:
    written = notation.whole(text)
    if written != FORMAT:
        raise NotationError(
            f"{said(text)} is a format that this version does not read", f"it reads {FORMAT}"
        )
    return written


def _address(text: str) -> str:
    if not re.fullmatch(r"https?://[^\s/]+(/\S*)?", text):
        raise NotationError(
            f"{said(text)} is not the address of a site", "as in https://hangar.example.org/"
        )
    return text if text.endswith("/") else text + "/"


def _currency(text: str) -> str:
    if not re.fullmatch(r"[A-Z]{3}", text):
        raise NotationError(f"{said(text)} is no currency", "write three capitals, as in EUR")
    return text


SHARE = table(
    key("names", TRUTH, "Names of people", "false"),
    key("places", TRUTH, "Flying sites", "false"),
    key("incidents", TRUTH, "Crash reports", "true"),
    key("photos", TRUTH, "Photographs", "true"),
    key("dates", choice("month", "day"), "How exactly dates are told", "month"),
)

PERSON = table(
    key("name", TEXT, "Full name", "Ida Quill", required=True),
    key("public", TRUTH, "Whether this person agreed to be named in public", "false"),
)

KEEPER = table(
    key(
        "format",
        Scalar("a format number", _format, {"const": FORMAT}),
        "The format of these files",
        "1",
    ),
    key("hangar", TEXT, "Name of the hangar", "Reedmere shed", required=True),
    key("keeper", TEXT, "Who keeps it; private", "Ida Quill"),
    key(
        "address",
        Scalar("the address of a site", _address, {"type": "string", "format": "uri"}),
        "Where the site will live: for feeds and calendars",
        "https://hangar.example.org/",
    ),
    key(
        "currency",
        Scalar("a currency", _currency, {"type": "string", "pattern": "^[A-Z]{3}$"}),
        "Currency of prices",
        "EUR",
    ),
    key("as_of", DAY, "Freezes the day, for a demo or an archive; else today", "2026-11-20"),
    key("soon", AGE_DAYS, "A task is due soon within this time", "30 days", "soon_days"),
    key(
        "soon_flights",
        whole(plain(1, 1000)),
        "Or within this many flights, or a tenth of its interval where that is less",
        "10",
    ),
    key(
        "field_elevation",
        quantity("altitude"),
        "Elevation of the usual field",
        "120 m",
        "field_elevation_m",
    ),
    key(
        "field_temperature",
        quantity("temperature", between("temperature", "-40 °C", "50 °C")),
        "Usual air temperature there",
        "15 °C",
        "field_temperature_k",
    ),
    key(
        "reserve",
        quantity("share", between("share", "0.01 %", "90 %", zero_ok=True)),
        "Share of pack capacity that is kept unflown",
        "20 %",
        "reserve_share",
    ),
    key(
        "pack_end_of_life",
        quantity("share", between("share", "10 %", "100 %")),
        "Share of rated capacity at which a pack is worn out",
        "80 %",
        "pack_end_of_life_share",
    ),
    key("programme", TEXT, "Programme for items on no aircraft", "small-multirotor"),
    key(
        "share",
        Group(Share, SHARE, "what is shared"),
        "What a public render may show beyond the plain facts",
        "{names: false, places: false, incidents: true, photos: true, dates: month}",
    ),
    key(
        "people",
        ByName(Group(Person, PERSON, "a person"), "people by a short name", NAME),
        "Who may stand under by and checked_by; where it is given, nobody else may",
        "{ida: {name: Ida Quill}, jon: {name: Jon Pell}}",
    ),
    PUBLIC_OK,
)
