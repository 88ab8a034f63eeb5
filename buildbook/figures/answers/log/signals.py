"""What the log shows that somebody should look at: the figures that open a task of their own.

Quick enough for the work list, and free of numpy.
"""

import msgspec

from buildbook.figures.answers.craft import Craft, Part
from buildbook.figures.answers.gathering import Lacking, number
from buildbook.figures.answers.log.drift import aircraft_drift, pack_drift
from buildbook.figures.answers.packs.packs import end_of_life
from buildbook.figures.laws.statistics.odd_one import odd_one_out
from buildbook.records.row_names import AIRCRAFT_DRIFT, ODD_CELL, PACK_CAPACITY, PACK_DRIFT
from buildbook.report.figure import Figure
from buildbook.report.history import ChargeDone, Recorded
from buildbook.report.packs.like_conditions import like_capacities
from buildbook.report.state import Hangar, ItemNow
from buildbook.report.upkeep.findings import Drifted, Finding, Measure
from buildbook.report.upkeep.pack_findings import CapacityLow, OddCell

ODD_AT_FIRST_SIGHT = 1.2  # greatest over least resistance of the cells of one reading


class Signal(msgspec.Struct, frozen=True, kw_only=True):
    """Something to look at.

    task: the name of the task that it opens; figure: the figure that shows it; entry: the newest
    entry that it rests on: an inspection of that task after it closes it.
    """

    task: str
    figure: str
    found: Finding
    entry: Recorded


def signals_of_aircraft(hangar: Hangar, slug: str) -> tuple[Signal, ...]:
    """What the log of an aircraft shows. KeyError: no such aircraft."""
    craft = Craft(hangar, slug)
    try:
        figure = aircraft_drift(craft)
    except (Lacking, ValueError):
        return ()
    entry = craft.now.flights[-1]
    return _outside(AIRCRAFT_DRIFT, figure, "time on an ampere-hour", entry)


def signals_of_pack(hangar: Hangar, tag: str) -> tuple[Signal, ...]:
    """What the log of a pack shows: drift, an odd cell, worn out. KeyError: no such item."""
    part = Part(hangar, hangar.items[tag])
    if not part.item.is_pack:
        return ()
    found: list[Signal] = []
    try:
        figure = pack_drift(part)
        entry = part.item.flights[-1]
        found += _outside(PACK_DRIFT, figure, "charge a minute", entry)
    except (Lacking, ValueError):
        pass
    return (*found, *_odd_cell(part), *_worn(part))


def _outside(task: str, figure: Figure, of: Measure, entry: Recorded) -> tuple[Signal, ...]:
    if figure.judged != "outside its own limits" or figure.value is None:
        return ()
    found = Drifted(of=of, share=figure.value)
    return (Signal(task=task, figure="drift", found=found, entry=entry),)


def _odd_cell(part: Part) -> tuple[Signal, ...]:
    found = odd_cell(part.item)
    if found is None:
        return ()
    odd, charge = found
    return (Signal(task=ODD_CELL, figure="pack_resistance", found=odd, entry=charge),)


def odd_cell(pack: ItemNow) -> tuple[OddCell, ChargeDone] | None:
    """The cell that stands out in the last reading of each, and the charge that read them."""
    for charge in reversed(pack.charges):
        ohms = charge.resistance_ohm
        if len(ohms) < 3:
            continue
        if min(ohms) <= 0 or max(ohms) < ODD_AT_FIRST_SIGHT * min(ohms):
            return None
        odd = odd_one_out(ohms)
        return None if odd is None else (OddCell(cell=odd.position + 1, share=odd.share), charge)
    return None


def _worn(part: Part) -> tuple[Signal, ...]:
    """The last capacity under like conditions is below the share; it warns and retires nothing."""
    item = part.item
    if not item.capacities or not item.spec.capacity_ah:
        return ()
    last, share = like_capacities(item).alike[-1], number(end_of_life(part.keeper))
    now = item.share_of_rated_in(last)
    if now is None or not item.is_below(share, last):
        return ()
    return (
        Signal(
            task=PACK_CAPACITY,
            figure="pack_end_of_life",
            found=CapacityLow(share=now, least_share=share),
            entry=last,
        ),
    )
