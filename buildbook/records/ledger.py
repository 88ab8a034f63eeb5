"""Everything that was read from one hangar."""

from collections.abc import Mapping
from typing import Annotated

import msgspec

from buildbook.basis.place import Place
from buildbook.basis.problems import Problem
from buildbook.records.aircraft import Aircraft
from buildbook.records.declare import PUBLIC, made
from buildbook.records.entries import AnyEntry
from buildbook.records.keeper import Keeper
from buildbook.records.notices import Notice
from buildbook.records.parts import Item, Spec
from buildbook.records.programmes import Programme


class BenchRow(msgspec.Struct, frozen=True, kw_only=True):
    """One row of a thrust-stand table, SI, or of a table of a propeller's coefficients."""

    line: int
    throttle_share: float | None = None
    voltage_v: float | None = None
    current_a: float | None = None
    thrust_n: float | None = None
    rotation_rpm: float | None = None
    advance_ratio: float | None = None
    thrust_coefficient: float | None = None
    power_coefficient: float | None = None


class BenchTable(msgspec.Struct, frozen=True, kw_only=True):
    """A file of ``bench/``. heads: the columns that it has, as the reference names them."""

    file: str
    rows: tuple[BenchRow, ...]
    heads: tuple[str, ...] = ()


class WriteUp(msgspec.Struct, frozen=True, kw_only=True):
    """A build story, Markdown as written, with blank lines where its front matter stood."""

    file: str
    text: Annotated[str, PUBLIC]


class Ledger(msgspec.Struct, frozen=True, kw_only=True):
    """The records of a hangar. Entries come log by log, each log in its own order.

    programmes: by name, the keeper's own under their name, built-in ones under
    ``built-in <name>``. notices: by name.
    """

    keeper: Annotated[Keeper, PUBLIC]
    specs: Annotated[Mapping[str, Spec], PUBLIC]
    items: Annotated[Mapping[str, Item], PUBLIC]
    aircraft: Annotated[Mapping[str, Aircraft], PUBLIC]
    entries: tuple[AnyEntry, ...]
    programmes: Annotated[Mapping[str, Programme], PUBLIC]
    bench: Mapping[str, BenchTable] = {}
    write_ups: Annotated[Mapping[str, WriteUp], PUBLIC] = {}
    photos: Annotated[Mapping[str, tuple[str, ...]], made("photos")] = {}
    notices: Annotated[Mapping[str, Notice], PUBLIC] = {}

    def home(self, slug: str) -> Place:
        """Where an aircraft is described."""
        return self.aircraft[slug].place()


class Reading(msgspec.Struct, frozen=True):
    """What a hangar says. ``ledger`` is None only where hangar.yaml itself can't be read.

    digest: of all that it depends on; empty where it was not read from a folder as a whole.
    """

    ledger: Ledger | None
    problems: tuple[Problem, ...]
    digest: bytes = b""


def named_aircraft(word: str, ledger: Ledger) -> str | None:
    """The slug of the aircraft of that slug or name, whatever its capitals."""
    if word in ledger.aircraft:
        return word
    low = word.casefold()
    return next(
        (slug for slug, one in ledger.aircraft.items() if one.aircraft.casefold() == low), None
    )
