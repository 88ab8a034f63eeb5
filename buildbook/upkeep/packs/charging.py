"""What was done to a pack with the charger that asks for a look: too much, too cold, too fast.

``sure: true`` silences the doubt about a figure. It does not close the row: what is sure to have
happened is no less to be looked at.
"""

from collections.abc import Iterator

from buildbook.hangar.doubts import is_unfit_to_charge
from buildbook.hangar.packs.doubts import more, takes_too_much
from buildbook.hangar.packs.limits import TOGETHER_MV, millivolts
from buildbook.records.row_names import CHARGED_WRONGLY, USED_WHILE_ASIDE
from buildbook.report.history import ChargeDone, Recorded
from buildbook.report.state import ItemNow
from buildbook.report.upkeep.pack_findings import ChargedWrongly, UsedAside
from buildbook.report.upkeep.work import Row
from buildbook.upkeep.packs.rows import found_row


def charged_wrongly(pack: ItemNow) -> Iterator[Row]:
    """The last charge that did what no charge should: open until somebody looked at the pack."""
    for charge in reversed(pack.charges):
        found = _wrong(pack, charge)
        if found is not None:
            yield found_row(pack, CHARGED_WRONGLY, charge, found)
            return


def _wrong(pack: ItemNow, charge: ChargeDone) -> ChargedWrongly | None:
    put_in_ah, at_k = charge.put_in_ah, charge.temperature_k
    each_ah = 0.0 if put_in_ah is None else put_in_ah / charge.packs_together
    too_much = takes_too_much(pack.spec, each_ah)
    unfit = at_k is not None and is_unfit_to_charge(at_k)
    at_a, most_a = charge.current_a, charge.most_a
    too_fast = at_a is not None and most_a is not None and more(at_a, most_a)
    too_far = charge.apart_v is not None and millivolts(charge.apart_v) > TOGETHER_MV
    if not (too_much or unfit or too_fast or too_far or charge.unequal):
        return None
    return ChargedWrongly(
        took_ah=each_ah if too_much else None,
        rated_ah=pack.spec.capacity_ah if too_much else None,
        at_k=at_k if unfit else None,
        at_a=at_a if too_fast else None,
        most_a=most_a if too_fast else None,
        unequal=charge.unequal,
        apart_v=charge.apart_v if too_far else None,
    )


def used_while_aside(pack: ItemNow) -> Iterator[Row]:
    """Charged or flown after it was set aside, quarantined, retired or scrapped, and still is."""
    state = pack.state
    if state.state == "serviceable":
        return
    charged = [one for one in pack.charges if one.set_aside and _since(pack, one)]
    flown = [one for one in pack.flights if pack.tag in one.packs_aside and _since(pack, one)]
    used: list[Recorded] = [*charged, *flown]
    if not used:
        return
    last = max(used, key=lambda one: one.seq)
    found = UsedAside(charged=len(charged), flown=len(flown), last_on=last.on)
    yield found_row(pack, USED_WHILE_ASIDE, last, found, why="used aside", state="open")


def _since(pack: ItemNow, used: Recorded) -> bool:
    return pack.state.on is None or used.on >= pack.state.on
