"""Sizes that are more than one number, as the keeper writes them."""

from typing import Annotated

import msgspec

from buildbook.records.declare import PUBLIC


class Cells(msgspec.Struct, frozen=True):
    """Cells in series (a range for an ESC) and strings in parallel."""

    series: Annotated[int, PUBLIC]
    series_most: Annotated[int, PUBLIC]
    parallel: Annotated[int, PUBLIC] = 1


class PropellerSize(msgspec.Struct, frozen=True):
    """Diameter and pitch, metres; ``written`` is the size as the keeper wrote it."""

    diameter_m: Annotated[float, PUBLIC]
    pitch_m: Annotated[float, PUBLIC]
    written: Annotated[str, PUBLIC]


class Money(msgspec.Struct, frozen=True):
    """An amount and its currency, as written."""

    amount: Annotated[float, PUBLIC]
    currency: Annotated[str, PUBLIC]


class Wire(msgspec.Struct, frozen=True):
    """A conductor: its copper area, and as the keeper wrote it (``16 AWG``)."""

    area_m2: Annotated[float, PUBLIC]
    written: Annotated[str, PUBLIC]
