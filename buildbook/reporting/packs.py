"""How packs were left, and all of them in their order."""

import datetime
from collections.abc import Iterator, Mapping, Sequence
from itertools import takewhile

from buildbook.figures.answers.log.drift import odd_cell
from buildbook.hangar.packs.doubts import is_cold
from buildbook.hangar.packs.limits import limits_of
from buildbook.records.parts import AT_HAND
from buildbook.records.row_names import STORAGE_CHARGE
from buildbook.report.history import CapacityDone, ChargeDone, Completion, FlightDone
from buildbook.report.packs.health import (
    END_OF_LIFE_SHARE,
    FlownCold,
    HealthOf,
    HealthState,
    Left,
    PackHealth,
    PackLine,
    PackRest,
)
from buildbook.report.packs.like_conditions import like_capacities, like_resistances
from buildbook.report.packs.spent import has_grown, spent_capacity, spent_resistance
from buildbook.report.state import ItemNow
from buildbook.reporting.upkeep.jobs import pack_standing
from buildbook.reporting.whole import Whole
from buildbook.upkeep.packs.readings import (
    apart_at_rest,
    at_cut_off,
    fell_at_rest,
    low_at_rest,
)
from buildbook.upkeep.packs.spent_rows import RESISTANCE_SOON
from buildbook.upkeep.rows.used import SOON

COLD_DAYS = 30
"""After so many days nobody can say that it is still cold out."""

_ORDER = ("quarantined", "serviceable", "retired", "scrapped")
_LEFT: Mapping[str | None, Left] = {
    "full": "full",
    "part": "in part",
    "storage": "at storage charge",
}


def packs(whole: Whole) -> tuple[PackLine, ...]:
    """All packs: quarantined ones first, gone ones last, then by tag."""
    found = [item for item in whole.hangar.items.values() if item.is_pack]
    found.sort(key=lambda pack: (_ORDER.index(pack.state.state), pack.tag))
    return tuple(
        PackLine(
            tag=pack.tag,
            title=pack.spec.title,
            item_state=pack.state.state,
            standing=pack_standing(whole, pack.tag).said,
            rest=rest(pack),
            health=whole.reports.health(pack.tag),
            at_hand=pack.state.state in AT_HAND,
            counters=pack.counters,
            flown_on=pack.flown_on,
            cold=flown_cold(pack, whole.hangar.as_of),
        )
        for pack in found
    )


def flown_cold(pack: ItemNow, as_of: datetime.date) -> FlownCold | None:
    """Whether a LiPo was flown in the cold when that was last written, in the last month (A24)."""
    read = (flight for flight in reversed(pack.flights) if flight.temperature_k is not None)
    last = next(read, None)
    if last is None or last.temperature_k is None or pack.spec.chemistry != "LiPo":
        return None
    if (as_of - last.on).days > COLD_DAYS or not is_cold(last.temperature_k):
        return None
    return FlownCold(on=last.on, temperature_k=last.temperature_k)


def rest(pack: ItemNow) -> PackRest:
    """From what was done with a pack last in the order of the log, and what was read since."""
    done = [*pack.charges[-1:], *pack.flights[-1:], *pack.capacities[-1:], *_brought_down(pack)]
    last = max(done, key=lambda one: one.seq, default=None)
    if last is None:
        return PackRest(left="not recorded")
    if isinstance(last, FlightDone):
        return PackRest(left="flown", since=last.on, uid=last.uid, aircraft=last.aircraft)
    if isinstance(last, ChargeDone):
        return _charged(pack, last)
    left: Left = "discharged" if isinstance(last, CapacityDone) else "at storage charge"
    return PackRest(left=left, since=last.on, uid=last.uid)


def _brought_down(pack: ItemNow) -> list[Completion]:
    """The last time that bringing it to storage charge was written as the task that it is."""
    named = (one for one in pack.inspections if one.name == STORAGE_CHARGE)
    return [one for one in named if one.result == "pass"][-1:]


def _charged(pack: ItemNow, charge: ChargeDone) -> PackRest:
    """As it was charged; in part where its cells read less since, or then if no end is said."""
    limits = limits_of(pack.spec)
    full_v = None if limits is None else limits.full_v
    first = charge.seq + (charge.to == "full")
    low = [
        reading
        for reading in pack.rests
        if full_v is not None and reading.seq >= first and min(reading.cells_v) < full_v
    ]
    if low and charge.fills:
        return PackRest(left="in part", since=low[-1].on, uid=low[-1].uid)
    return PackRest(left=_LEFT.get(charge.to, "charged"), since=charge.on, uid=charge.uid)


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
