"""What the records of an aircraft still lack: one thing at a time, in the order of building."""

import datetime
from typing import Annotated, Literal

import msgspec

from buildbook.records.declare import PRIVATE
from buildbook.records.programmes import CheckRule

Lack = Literal[
    "size",  # how large it is
    "parts",  # no such part is in the records that could be fitted
    "fit",  # a motor station is empty, or what sits on it once does
    "surfaces",  # what steers it, and by which servos; station: of this one the servo
    "stations",  # which way a motor should turn, or what drives it
    "serves",  # which stations the one ESC that sits elsewhere serves
    "leads",  # the order of the receiver's leads
    "sockets",  # the channels of its sockets, where servos plug into it
    "failsafe",  # what it does when the link is lost
    "pack",  # no pack is recorded
    "weighing",  # it was never on the scales
    "check",  # a set-up check was never passed
    "flying",  # nothing: it can be said to be flying
]


class NextStep(msgspec.Struct, frozen=True, kw_only=True):
    """What to write next. file: where, within the hangar. station, check: as far as it has one.

    kind: ``multirotor`` or ``aeroplane``. left: how many set-up checks are still to do, names:
    which, in the order of doing. slots: kinds of part, or the one to record; of an ESC that serves
    several its tag and they. tags: items to fit, where the records name them. specs: those of the
    kind to record that are there. placed: its layout wants the place of each station.
    motor: it has one.
    """

    slug: Annotated[str, PRIVATE]
    name: Annotated[str, PRIVATE]
    kind: Annotated[str, PRIVATE]
    lack: Annotated[Lack, PRIVATE]
    file: Annotated[str, PRIVATE]
    day: Annotated[datetime.date, PRIVATE]
    station: Annotated[str | None, PRIVATE] = None
    slots: Annotated[tuple[str, ...], PRIVATE] = ()
    tags: Annotated[tuple[str, ...], PRIVATE] = ()
    specs: Annotated[tuple[str, ...], PRIVATE] = ()
    placed: Annotated[bool, PRIVATE] = False
    motor: Annotated[bool, PRIVATE] = True
    check: Annotated[CheckRule | None, PRIVATE] = None
    left: Annotated[int, PRIVATE] = 0
    names: Annotated[tuple[str, ...], PRIVATE] = ()
