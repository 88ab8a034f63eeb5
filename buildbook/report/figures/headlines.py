"""The few figures that stand on the front page of an aircraft, and what is missing for others."""

from __future__ import annotations  # marks are looked at for the public only

from typing import Annotated

import msgspec

from buildbook.basis.place import Place
from buildbook.records.declare import PRIVATE, Public
from buildbook.report.figure import CannotSay, Figure


class Headline(msgspec.Struct, frozen=True, kw_only=True):
    """A figure that is shown, or why there is none. among: how many it was picked from.

    usual: the same on the pack that it flew on most, where that is another: of the time to plan
    with, and of the mass.
    """

    name: Public[str]
    figure: Public[Figure | None]
    missing: Public[CannotSay | None] = None
    among: Public[int] = 1
    words: Public[str] = ""
    usual: Public[Figure | None] = None


class Lack(msgspec.Struct, frozen=True, kw_only=True):
    """What is missing, where to write it, and the names of the figures that wait for it."""

    because: Public[str]
    names: Public[tuple[str, ...]]
    place: Annotated[Place | None, PRIVATE] = None


class Headlines(msgspec.Struct, frozen=True, kw_only=True):
    """In the order of the page; lacks: each reason once."""

    shown: Public[tuple[Headline, ...]]
    lacks: Public[tuple[Lack, ...]]
