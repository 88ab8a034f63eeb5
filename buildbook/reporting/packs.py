"""How packs stand: health, how they were left, and all of them in their order."""

import datetime
from collections.abc import Mapping
from itertools import takewhile

from buildbook.hangar.packs.doubts import is_cold
from buildbook.hangar.packs.limits import limits_of
from buildbook.report.history import CapacityDone, ChargeDone, Completion, FlightDone
from buildbook.report.packs.health import (
    FlownCold,
    HealthState,
    Left,
    PackHealth,
    PackLine,
    PackRest,
)
from buildbook.report.packs.like_conditions import like_capacities
from buildbook.report.packs.spent import spent_capacity
from buildbook.report.state import ItemNow
from buildbook.reporting.upkeep.standings import pack_standing
from buildbook.reporting.whole import Whole
from buildbook.upkeep.rows.storage import STORAGE_CHARGE
from buildbook.upkeep.rows.used import SOON

LIMIT = 0.8
"""Of rated: the limit where the keeper names none. Common practice, no source."""

COLD_DAYS = 30
"""After so many days nobody can say that it is still cold out."""

_ORDER = ("quarantined", "serviceable", "retired", "scrapped")
_AT_HAND = ("serviceable", "quarantined")
_LEFT: Mapping[str | None, Left] = {
    "full": "full",
    "part": "in part",
    "storage": "at storage charge",
}


def health(whole: Whole, tag: str) -> PackHealth:
    """Whether a pack is good or worn: the one place; by its last capacity under like conditions.

    Worn once two running were below the limit, as ``report.packs.spent`` has it.
    """
    pack = whole.hangar.items[tag]
    limit = whole.hangar.ledger.keeper.pack_end_of_life_share or LIMIT
    alike = like_capacities(pack).alike if pack.capacities else ()
    shares = [(one.on, pack.share_of_rated_in(one)) for one in alike]
    share = shares[-1][1] if shares else None
    below = takewhile(lambda one: one[1] is not None and one[1] < limit, reversed(shares))
    state = health_state(
        share,
        limit,
        worn=spent_capacity(pack, limit).reached is not None,
        quarantined=pack.state.state == "quarantined",
    )
    return PackHealth(
        tag=tag,
        state=state,
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


def packs(whole: Whole) -> tuple[PackLine, ...]:
    """All packs: quarantined ones first, gone ones last, then by tag."""
    found = [item for item in whole.hangar.items.values() if item.is_pack]
    found.sort(key=lambda pack: (_ORDER.index(pack.state.state), pack.tag))
    return tuple(
        PackLine(
            tag=pack.tag,
            title=pack.spec.title,
            item_state=pack.state.state,
            standing=pack_standing(whole, pack.tag).state,
            rest=rest(pack),
            health=whole.reports.health(pack.tag),
            at_hand=pack.state.state in _AT_HAND,
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
    if low and charge.to in (None, "full"):
        return PackRest(left="in part", since=low[-1].on, uid=low[-1].uid)
    return PackRest(left=_LEFT.get(charge.to, "charged"), since=charge.on, uid=charge.uid)
