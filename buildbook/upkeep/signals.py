"""Readings that ask for a look: each opens a task named for what to look at.

A signal is closed by a better reading, or by an inspection of that name after it.
"""

import datetime
from collections.abc import Callable, Iterator, Mapping
from typing import NamedTuple

from buildbook.basis.place import Place
from buildbook.hangar.state import ItemNow
from buildbook.upkeep import ranks
from buildbook.upkeep.row import Because, Row

MOST_SPREAD_MV = 30
"""Cells at rest that lie further apart ask for a look. Common practice, no source."""


class Signal(NamedTuple):
    """What was read, and what it should have been."""

    seq: int
    uid: str
    on: datetime.date
    place: Place
    said: str
    detail: Mapping[str, str]


def cell_voltages(pack: ItemNow) -> Signal | None:
    """The newest resting voltages, where they lie too far apart; compared in whole mV."""
    read = next((charge for charge in reversed(pack.charges) if charge.resting_v), None)
    if read is None or read.packs_together != 1:
        return None
    cells_mv = [round(volts * 1000) for volts in read.resting_v]
    spread_mv = max(cells_mv) - min(cells_mv)
    if spread_mv <= MOST_SPREAD_MV:
        return None
    said = f"cells {spread_mv} mV apart at rest, more than {MOST_SPREAD_MV} mV"
    detail = {"found": f"{spread_mv} mV", "expected": f"{MOST_SPREAD_MV} mV or less"}
    return Signal(read.seq, read.uid, read.on, read.place, said, detail)


PACK_SIGNALS: Mapping[str, Callable[[ItemNow], Signal | None]] = {
    "cell-voltages": cell_voltages,
}
"""By the name of the task that a signal opens."""


def signal_rows(pack: ItemNow) -> Iterator[Row]:
    """A row for each signal that stands; none for what is fine."""
    for name, look in PACK_SIGNALS.items():
        signal = look(pack)
        if signal is None:
            continue
        if any(done.task == name and done.seq > signal.seq for done in pack.inspections):
            continue
        yield Row(
            aircraft=None,
            kind="task",
            name=name,
            tag=pack.tag,
            state="due",
            because=Because(
                why="signal",
                entry=signal.uid,
                on=signal.on,
                place=signal.place,
                tag=pack.tag,
                detail=signal.detail,
            ),
            place=signal.place,
            what=f"{name} of {pack.tag} is due: {signal.said}",
            rank=ranks.DUE,
        )
