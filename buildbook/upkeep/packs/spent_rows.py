"""The limits of a pack that readings reach: its capacity, the resistance of its cells.

Two readings running reach them; after the first one a row asks for the second.
"""

from collections.abc import Iterable, Iterator

from buildbook.records.programmes import LimitRule
from buildbook.records.row_names import READ_AGAIN
from buildbook.report.history import CapacityDone, ChargeDone
from buildbook.report.packs.like_conditions import like_capacities, like_resistances
from buildbook.report.packs.spent import Spent, growth, has_grown, spent_capacity, spent_resistance
from buildbook.report.state import ItemNow
from buildbook.report.upkeep.pack_findings import ReadAtLimit
from buildbook.report.upkeep.work import Row
from buildbook.upkeep.packs.pack_rows import found_row
from buildbook.upkeep.rows.used import SOON, Used

RESISTANCE_SOON = 0.5
"""Cells are warned of at 1.5 times their first reading where 2 times ends the life."""


def measured(rule: LimitRule, pack: ItemNow) -> list[Used]:
    """What readings say of a limit: capacity, resistance, or both."""
    found = (_capacity(rule, pack), _resistance(rule, pack))
    return [one for one in found if one is not None]


def read_again_rows(pack: ItemNow, rules: Iterable[LimitRule]) -> Iterator[Row]:
    """A row for each limit that one reading has reached, and no second one yet."""
    seen: set[str] = set()
    for rule in rules:
        for found in _once(rule, pack):
            reading, what = found
            if what.of not in seen:
                seen.add(what.of)
                yield found_row(pack, READ_AGAIN, reading, what)


def _once(
    rule: LimitRule, pack: ItemNow
) -> Iterator[tuple[CapacityDone | ChargeDone, ReadAtLimit]]:
    share, most = rule.capacity_share, rule.cell_resistance_share
    if share is not None:
        low = spent_capacity(pack, share)
        if low.again is not None:
            yield low.again, _capacity_read(pack, share, low, low.again)
    if most is not None:
        high = spent_resistance(pack, most)
        if high.again is not None:
            yield high.again, _resistance_read(pack, most, high, high.again)


def _capacity(rule: LimitRule, pack: ItemNow) -> Used | None:
    """The last capacity under like conditions; where it is reached, the one that reached it."""
    share = rule.capacity_share
    if share is None or not pack.capacities:
        return None
    spent = spent_capacity(pack, share)
    alike = like_capacities(pack).alike
    # One that no other is like moves nothing: the first holds until a second is like one of them.
    last = spent.reached or (alike[-1] if len(alike) > 1 else pack.capacities[0])
    now = pack.share_of_rated_in(last)
    if now is None:
        return None
    used = max(0.0, (1 - now) / (1 - share) if share < 1 else 1.0)
    return Used(
        "share",
        now - share if spent.reached else max(0.0, now - share),
        used,
        spent.reached is not None,
        round(used, 6) >= SOON,
        last.place,
        last.uid,
        of="capacity",
        found=None if spent.reached is None else _capacity_read(pack, share, spent, spent.reached),
    )


def _capacity_read(
    pack: ItemNow, share: float, spent: Spent[CapacityDone], reading: CapacityDone
) -> ReadAtLimit:
    since = spent.since
    return ReadAtLimit(
        of="capacity",
        share=pack.share_of_rated_in(reading) or 0.0,
        limit_share=share,
        since_share=None if since is None else pack.share_of_rated_in(since),
    )


def _resistance(rule: LimitRule, pack: ItemNow) -> Used | None:
    """The cell that has grown most since its first reading under like conditions."""
    most = rule.cell_resistance_share
    read = [charge for _, charge in like_resistances(pack).alike]
    if most is None or not read:
        return None
    spent = spent_resistance(pack, most)
    first, last = spent.first or read[0], spent.reached or read[-1]
    grown = None if first is last and spent.reached is None else growth(pack, first, last)
    if grown is None:
        return None
    ratio = grown[1] / grown[0]
    soon = most > 1 and has_grown(pack, first, last, 1 + (most - 1) * RESISTANCE_SOON)
    return Used(
        "share",
        most - ratio if spent.reached else max(0.0, most - ratio),
        max(0.0, (ratio - 1) / (most - 1) if most > 1 else 1.0),
        spent.reached is not None,
        soon,
        last.place,
        last.uid,
        of="cell_resistance",
        found=None if spent.reached is None else _resistance_read(pack, most, spent, spent.reached),
    )


def _resistance_read(
    pack: ItemNow, most: float, spent: Spent[ChargeDone], reading: ChargeDone
) -> ReadAtLimit:
    first = spent.first or reading
    return ReadAtLimit(
        of="cell_resistance",
        share=_ratio(pack, first, reading),
        limit_share=most,
        since_share=None if spent.since is None else _ratio(pack, first, spent.since),
    )


def _ratio(pack: ItemNow, first: ChargeDone, last: ChargeDone) -> float:
    grown = growth(pack, first, last)
    return 0.0 if grown is None else grown[1] / grown[0]
