"""``hangar.yaml``: who keeps the hangar, what may be shared, and the defaults."""

import datetime
from collections.abc import Mapping
from typing import Literal

import msgspec

from buildbook.records.record import Record


class Share(msgspec.Struct, frozen=True, kw_only=True):
    """What a public render may show beyond the plain facts; everything is off by default."""

    names: bool = False
    places: bool = False
    incidents: bool = False
    photos: bool = False
    dates: Literal["month", "day"] = "month"


class Person(msgspec.Struct, frozen=True, kw_only=True):
    """Somebody who may stand under ``by`` or ``checked_by``; ``public`` is their own consent."""

    name: str
    public: bool = False


class Keeper(Record, frozen=True, kw_only=True):
    """The hangar as a whole. Shares are ratios, temperatures kelvin, lengths metres."""

    format: int = 1
    hangar: str
    keeper: str | None = None
    address: str | None = None
    currency: str | None = None
    as_of: datetime.date | None = None
    soon_days: int = 30
    soon_flights: int = 10
    field_elevation_m: float | None = None
    field_temperature_k: float | None = None
    reserve_share: float | None = None
    pack_end_of_life_share: float | None = None
    programme: str | None = None
    share: Share = Share()
    people: Mapping[str, Person] = {}
