"""Everything that was read from one hangar."""

from collections.abc import Mapping

import msgspec

from buildbook.basis.place import Place
from buildbook.records.aircraft import Aircraft
from buildbook.records.entries import AnyEntry
from buildbook.records.keeper import Keeper
from buildbook.records.notices import Notice
from buildbook.records.parts import Item, Spec
from buildbook.records.programmes import Programme


class BenchRow(msgspec.Struct, frozen=True, kw_only=True):
    """One row of a thrust-stand table, SI."""

    line: int
    throttle_share: float | None = None
    voltage_v: float | None = None
    current_a: float | None = None
    thrust_n: float | None = None
    rotation_rpm: float | None = None


class BenchTable(msgspec.Struct, frozen=True, kw_only=True):
    """A file of ``bench/``."""

    file: str
    rows: tuple[BenchRow, ...]


class WriteUp(msgspec.Struct, frozen=True, kw_only=True):
    """A build story, Markdown as written, with blank lines where its front matter stood."""

    file: str
    text: str


class Ledger(msgspec.Struct, frozen=True, kw_only=True):
    """The records of a hangar. Entries come log by log, each log in its own order.

    programmes: by name, the keeper's own under their name, built-in ones under
    ``built-in <name>``. notices: by name.
    """

    keeper: Keeper
    specs: Mapping[str, Spec]
    items: Mapping[str, Item]
    aircraft: Mapping[str, Aircraft]
    entries: tuple[AnyEntry, ...]
    programmes: Mapping[str, Programme]
    bench: Mapping[str, BenchTable] = {}
    write_ups: Mapping[str, WriteUp] = {}
    photos: Mapping[str, tuple[str, ...]] = {}
    notices: Mapping[str, Notice] = {}

    def home(self, slug: str) -> Place:
        """Where an aircraft is described."""
        return self.aircraft[slug].place()
