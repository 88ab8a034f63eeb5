"""The packs that were on board when something happened to an aircraft."""

from collections.abc import Sequence
from typing import NamedTuple

from buildbook.hangar.builders import AircraftBuilder
from buildbook.hangar.folding import Fold
from buildbook.hangar.packs.aside import set_all_aside
from buildbook.report.packs.pack_history import AsideWhy, Release


class Struck(NamedTuple):
    """What happened to an aircraft before a flight of that day was written."""

    why: AsideWhy
    release: Release
    because: str | None


def strike(
    fold: Fold,
    aircraft: AircraftBuilder,
    named: Sequence[str],
    why: AsideWhy,
    release: Release = "look",
    because: str | None = None,
) -> None:
    """Set aside the packs that are named, else those of the flight of that day.

    That is the last flight before the entry, else the first one after it.
    """
    if named:
        set_all_aside(fold, named, why, release=release, because=because)
        return
    last = aircraft.flights[-1] if aircraft.flights else None
    if last is not None and last.on == fold.at.day:
        set_all_aside(fold, last.row.packs, why, release=release, because=because)
        return
    fold.struck.setdefault((aircraft.slug, fold.at.day), []).append(Struck(why, release, because))


def struck_before(fold: Fold, aircraft: AircraftBuilder, packs: Sequence[str]) -> None:
    """The first flight after such an entry, on its day, names the packs that it meant."""
    for struck in fold.struck.pop((aircraft.slug, fold.at.day), ()):
        set_all_aside(fold, packs, struck.why, release=struck.release, because=struck.because)
