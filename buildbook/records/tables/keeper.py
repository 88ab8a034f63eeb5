"""The keys of hangar.yaml."""

import re

from buildbook.basis import notation
from buildbook.basis.limits import between, plain
from buildbook.basis.notation import NotationError, said
from buildbook.records.keeper import Person, Share
from buildbook.records.shapes import ByName, Field, Group, table
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
    Field(key="names", attribute="names", value=TRUTH, doc="Names of people", example="false"),
    Field(key="places", attribute="places", value=TRUTH, doc="Flying sites", example="false"),
    Field(key="incidents", attribute="incidents", value=TRUTH, doc="Crash reports", example="true"),
    Field(key="photos", attribute="photos", value=TRUTH, doc="Photographs", example="true"),
    Field(
        key="dates",
        attribute="dates",
        value=choice("month", "day"),
        doc="How exactly dates are told",
        example="month",
    ),
)

PERSON = table(
    Field(
        key="name",
        attribute="name",
        value=TEXT,
        doc="Full name",
        example="Ida Quill",
        required=True,
    ),
    Field(
        key="public",
        attribute="public",
        value=TRUTH,
        doc="Whether this person agreed to be named in public",
        example="false",
    ),
)

KEEPER = table(
    Field(
        key="format",
        attribute="format",
        value=Scalar("a format number", _format, {"const": FORMAT}),
        doc="The format of these files",
        example="1",
    ),
    Field(
        key="hangar",
        attribute="hangar",
        value=TEXT,
        doc="Name of the hangar",
        example="Reedmere shed",
        required=True,
    ),
    Field(
        key="keeper",
        attribute="keeper",
        value=TEXT,
        doc="Who keeps it; private",
        example="Ida Quill",
    ),
    Field(
        key="address",
        attribute="address",
        value=Scalar("the address of a site", _address, {"type": "string", "format": "uri"}),
        doc="Where the site will live: for feeds and calendars",
        example="https://hangar.example.org/",
    ),
    Field(
        key="currency",
        attribute="currency",
        value=Scalar("a currency", _currency, {"type": "string", "pattern": "^[A-Z]{3}$"}),
        doc="Currency of prices",
        example="EUR",
    ),
    Field(
        key="as_of",
        attribute="as_of",
        value=DAY,
        doc="Freezes the day, for a demo or an archive; else today",
        example="2026-11-20",
    ),
    Field(
        key="soon",
        attribute="soon_days",
        value=AGE_DAYS,
        doc="A task is due soon within this time",
        example="30 days",
    ),
    Field(
        key="soon_flights",
        attribute="soon_flights",
        value=whole(plain(1, 1000)),
        doc="Or within this many flights, or a tenth of its interval where that is less",
        example="10",
    ),
    Field(
        key="field_elevation",
        attribute="field_elevation_m",
        value=quantity("altitude"),
        doc="Elevation of the usual field",
        example="120 m",
    ),
    Field(
        key="field_temperature",
        attribute="field_temperature_k",
        value=quantity("temperature", between("temperature", "-40 °C", "50 °C")),
        doc="Usual air temperature there",
        example="15 °C",
    ),
    Field(
        key="reserve",
        attribute="reserve_share",
        value=quantity("share", between("share", "0.01 %", "90 %", zero_ok=True)),
        doc="Share of pack capacity that is kept unflown",
        example="20 %",
    ),
    Field(
        key="pack_end_of_life",
        attribute="pack_end_of_life_share",
        value=quantity("share", between("share", "10 %", "100 %")),
        doc="Share of rated capacity at which a pack is worn out",
        example="80 %",
    ),
    Field(
        key="programme",
        attribute="programme",
        value=TEXT,
        doc="Programme for items on no aircraft",
        example="small-multirotor",
    ),
    Field(
        key="share",
        attribute="share",
        value=Group(Share, SHARE, "what is shared"),
        doc="What a public render may show beyond the plain facts",
        example="{names: false, places: false, incidents: true, photos: true, dates: month}",
    ),
    Field(
        key="people",
        attribute="people",
        value=ByName(Group(Person, PERSON, "a person"), "people by a short name", NAME),
        doc="Who may stand under by and checked_by; where it is given, nobody else may",
        example="{ida: {name: Ida Quill}, jon: {name: Jon Pell}}",
    ),
)
