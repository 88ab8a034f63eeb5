"""How worn a pack is: the worst of its capacity, its resistance, its cells and its voltage."""

from collections.abc import Iterator, Sequence
from itertools import takewhile

from buildbook.figures.answers.log.signals import odd_cell
from buildbook.report.history import ChargeDone
from buildbook.report.packs.health import END_OF_LIFE_SHARE, HealthOf, HealthState, PackHealth
from buildbook.report.packs.like_conditions import like_capacities, like_resistances
from buildbook.report.packs.spent import has_grown, spent_capacity, spent_resistance
from buildbook.report.state import ItemNow
from buildbook.reporting.whole import Whole
from buildbook.upkeep.packs.readings import (
    apart_at_rest,
    at_cut_off,
    fell_at_rest,
    low_at_rest,
)
from buildbook.upkeep.packs.spent_rows import RESISTANCE_SOON
from buildbook.upkeep.rows.used import SOON

MOST_GROWN = 2.0
"""Of its first reading: the limit of a cell's resistance (record rule D16, common practice)."""

_WORST_FIRST: tuple[HealthState, ...] = ("worn", "near", "good", "unknown")


def health(whole: Whole, tag: str) -> PackHealth:
    """Whether a pack is good or worn: the one place.

    By capacity it is worn once two running were below the limit, as ``report.packs.spent`` has it.
    """
    pack = whole.hangar.items[tag]
    limit = whole.hangar.ledger.keeper.pack_end_of_life_share or END_OF_LIFE_SHARE
    alike = like_capacities(pack).alike if pack.capacities else ()
    shares = [(one.on, pack.share_of_rated_in(one)) for one in alike]
    share = shares[-1][1] if shares else None
    below = takewhile(lambda one: one[1] is not None and one[1] < limit, reversed(shares))
    by_capacity = health_state(
        share, limit, worn=spent_capacity(pack, limit).reached is not None, quarantined=False
    )
    found: list[tuple[HealthState, HealthOf]] = [(by_capacity, "capacity"), *_weak(pack)]
    state, of = min(found, key=lambda one: _WORST_FIRST.index(one[0]))
    return PackHealth(
        tag=tag,
        state="quarantined" if pack.state.state == "quarantined" else state,
        of=None if state == "unknown" else of,
        share=share,
        limit_share=limit,
        below_since=min((on for on, _ in below), default=None),
    )


def health_state(
    share: float | None, limit: float, *, worn: bool, quarantined: bool
) -> HealthState:
    """Quarantine first, then what was measured.

    Near the limit where its row in the work list is due soon: both say so from the same reading on.
    """
    if quarantined:
        return "quarantined"
    if share is None:
        return "unknown"
    if worn:
        return "worn"
    used = (1 - share) / (1 - limit) if limit < 1 else 1.0
    return "near" if round(used, 6) >= SOON else "good"


def _weak(pack: ItemNow) -> Iterator[tuple[HealthState, HealthOf]]:
    """What else was read of it that is as bad as a capacity near its limit, or past it."""
    alike = [charge for _, charge in like_resistances(pack).alike]
    if spent_resistance(pack, MOST_GROWN).reached is not None:
        yield "worn", "resistance"
    elif _has_grown(pack, alike):
        yield "near", "resistance"
    if apart_at_rest(pack) or fell_at_rest(pack) or odd_cell(pack):
        yield "near", "cells"
    if low_at_rest(pack) or at_cut_off(pack):
        yield "near", "voltage"


def _has_grown(pack: ItemNow, alike: Sequence[ChargeDone]) -> bool:
    """Whether a cell is as far as where its row is due soon."""
    soon = 1 + (MOST_GROWN - 1) * RESISTANCE_SOON
    return len(alike) > 1 and has_grown(pack, alike[0], alike[-1], soon)
