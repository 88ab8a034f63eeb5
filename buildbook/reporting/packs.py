"""How packs were left, and all of them in their order."""

import datetime
from collections.abc import Mapping

from buildbook.hangar.packs.doubts import is_cold
from buildbook.hangar.packs.limits import limits_of
from buildbook.records.parts import AT_HAND
from buildbook.records.row_names import STORAGE_CHARGE
from buildbook.report.history import CapacityDone, ChargeDone, Completion, FlightDone
from buildbook.report.packs.health import FlownCold, Left, PackLine, PackRest
from buildbook.report.state import ItemNow
from buildbook.reporting.upkeep.standings import pack_standing
from buildbook.reporting.whole import Whole

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
            standing=pack_standing(whole, pack.tag).state,
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
