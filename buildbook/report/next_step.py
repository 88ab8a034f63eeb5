"""What the records of an aircraft still lack: one group at a time, in the order of building."""

import datetime
from typing import Annotated, Literal

import msgspec

from buildbook.records.declare import PRIVATE
from buildbook.records.programmes import CheckRule, TaskRule

Lack = Literal[
    "size",  # how large it is
    "stations",  # a layout of its own has none yet
    "parts",  # kinds of part of which the records have none that could be fitted
    "fit",  # places where something belongs that sits nowhere yet
    "serves",  # which stations the one ESC that sits elsewhere serves
    "plan",  # spins, outputs, surfaces, leads or sockets, failsafe: the keys of its own file
    "hand",  # propellers whose spec does not say which way they turn
    "mended",  # a defect of it is open; mend: its id
    "looked",  # a look at it failed, or it got wet; mend: which look, tag: at what
    "checks",  # set-up checks of one stage, and looks that are open as soon as it flies
    "flying",  # nothing: it can be said to be flying
]


class Wanted(msgspec.Struct, frozen=True, kw_only=True):
    """A kind of part to record. tags: free ones; of a number that nobody knows yet the first.

    open_end: how many of them there are is for the keeper to say. specs: those of that kind that
    are there; shared: the names of the other aircraft that they are of; new: the names of the specs
    to write, where there is none, each with its hand.
    first: how many of them are of the first of two specs, the rest of the second; none of one spec.
    """

    kind: Annotated[str, PRIVATE]
    tags: Annotated[tuple[str, ...], PRIVATE]
    open_end: Annotated[bool, PRIVATE] = False
    specs: Annotated[tuple[str, ...], PRIVATE] = ()
    shared: Annotated[tuple[str, ...], PRIVATE] = ()
    new: Annotated[tuple[tuple[str, str | None], ...], PRIVATE] = ()
    first: Annotated[int, PRIVATE] = 0


class Seat(msgspec.Struct, frozen=True, kw_only=True):
    """A place for a part. station: None where only the keeper knows it. tags: those that must be
    meant, as nothing else is there; else stem: how those at hand begin. hand: of a propeller by the
    spin that is planned there."""

    station: Annotated[str | None, PRIVATE]
    kind: Annotated[str, PRIVATE]
    tags: Annotated[tuple[str, ...], PRIVATE] = ()
    stem: Annotated[str, PRIVATE] = ""
    hand: Annotated[str | None, PRIVATE] = None


class Plan(msgspec.Struct, frozen=True, kw_only=True):
    """Keys of its own file that are missing.

    begun: keys of groups that are there in part. surfaces: by name those without a servo; None:
    all are missing. servos: how the tags at hand begin; None where servos bear none.
    """

    stations: Annotated[tuple[str, ...], PRIVATE] = ()
    outputs: Annotated[bool, PRIVATE] = True
    surfaces: Annotated[tuple[str, ...] | None, PRIVATE] = ()
    servos: Annotated[str | None, PRIVATE] = None
    leads: Annotated[bool, PRIVATE] = False
    sockets: Annotated[bool, PRIVATE] = False
    failsafe: Annotated[bool, PRIVATE] = False
    begun: Annotated[tuple[str, ...], PRIVATE] = ()


class NextStep(msgspec.Struct, frozen=True, kw_only=True):
    """What to write next. kind: ``multirotor`` or ``aeroplane``. motor: it has one.

    serves: an ESC and the stations that it drives. hands: specs of propellers. left: how many
    set-up checks are still to do; checks: those of this stage in the order of doing, names: the
    others. looks: tasks. weigh: it was never on the scales; packs: those that may be on.
    motors, channels: the stations and channels that readings are taken of; centred: the channels
    that rest in the middle.
    placed: its layout wants the place of each station.
    """

    slug: Annotated[str, PRIVATE]
    name: Annotated[str, PRIVATE]
    kind: Annotated[str, PRIVATE]
    lack: Annotated[Lack, PRIVATE]
    day: Annotated[datetime.date, PRIVATE]
    motor: Annotated[bool, PRIVATE] = True
    placed: Annotated[bool, PRIVATE] = False
    parts: Annotated[tuple[Wanted, ...], PRIVATE] = ()
    seats: Annotated[tuple[Seat, ...], PRIVATE] = ()
    serves: Annotated[tuple[str, ...], PRIVATE] = ()
    plan: Annotated[Plan, PRIVATE] = Plan()
    hands: Annotated[tuple[str, ...], PRIVATE] = ()
    checks: Annotated[tuple[CheckRule, ...], PRIVATE] = ()
    left: Annotated[int, PRIVATE] = 0
    names: Annotated[tuple[str, ...], PRIVATE] = ()
    mend: Annotated[str, PRIVATE] = ""
    tag: Annotated[str | None, PRIVATE] = None
    looks: Annotated[tuple[TaskRule, ...], PRIVATE] = ()
    weigh: Annotated[bool, PRIVATE] = False
    packs: Annotated[Seat | None, PRIVATE] = None
    motors: Annotated[tuple[str, ...], PRIVATE] = ()
    channels: Annotated[tuple[str, ...], PRIVATE] = ()
    centred: Annotated[tuple[str, ...], PRIVATE] = ()
