"""What is on no aircraft, and how long parts lasted that were taken out of use."""

from typing import Annotated

import msgspec

from buildbook.basis.place import Place
from buildbook.records.aircraft import Aircraft, Radio
from buildbook.records.declare import PRIVATE, Public, made, of
from buildbook.report.state import Condition


class Shelf(msgspec.Struct, frozen=True, kw_only=True):
    """Items of one spec in one condition. mass_kg: the mean, None where one has none."""

    title: Public[str]
    size: Public[str]
    hand: Public[str]
    state: Public[Condition]
    tags: Public[tuple[str, ...]]
    mass_kg: Public[float | None]


class Drawer(msgspec.Struct, frozen=True, kw_only=True):
    """All shelves of one kind of part."""

    kind: Public[str]
    shelves: Public[tuple[Shelf, ...]]


class PastLives(msgspec.Struct, frozen=True, kw_only=True):
    """How long the items of one spec lasted that were retired or scrapped, flown, in seconds.

    median_s: half of them lasted longer. at_least: some began before these records, unknown how
    long. at_most: of some it is not known how long the motor ran.
    """

    title: Public[str]
    kind: Public[str]
    tags: Public[tuple[str, ...]]
    median_s: Public[float]
    shortest_s: Public[float]
    longest_s: Public[float]
    at_least: Public[bool] = False
    at_most: Public[bool] = False


class Stock(msgspec.Struct, frozen=True, kw_only=True):
    """The drawer, by kind in the order of the records, and past lives."""

    drawers: Public[tuple[Drawer, ...]]
    past_lives: Public[tuple[PastLives, ...]]


class Memory(msgspec.Struct, frozen=True, kw_only=True):
    """The radio of one aircraft. twins: others that are set up under the same memory."""

    slug: Annotated[str, of(Aircraft, "slug")]
    name: Annotated[str, of(Aircraft, "aircraft")]
    status: Annotated[str, of(Aircraft, "status")]
    radio: Annotated[Radio, of(Aircraft, "radio")]
    twins: Annotated[tuple[str, ...], made("public", (of(Radio, "memory"),))]
    place: Annotated[Place | None, PRIVATE]


class RadioReport(msgspec.Struct, frozen=True, kw_only=True):
    """All memories, by number; the stick modes in use; aircraft without a radio on record."""

    memories: Public[tuple[Memory, ...]]
    modes: Annotated[tuple[int, ...], made("public", (of(Radio, "mode"),))]
    silent: Public[tuple[str, ...]]
