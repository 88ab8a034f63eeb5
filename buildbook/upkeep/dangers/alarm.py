"""An alarm that sounds too late: below the lowest voltage that a cell may have in flight."""

import re
from collections.abc import Iterator

from buildbook.basis.notation import quantity_or_none
from buildbook.basis.place import Place
from buildbook.hangar.packs.limits import limits_of, millivolts
from buildbook.report.state import AircraftNow, Hangar, ItemNow
from buildbook.report.upkeep.findings import AlarmLow
from buildbook.report.upkeep.work import Because, Row
from buildbook.upkeep.dangers.rows import Ask, danger_row

CHECK = "low-voltage-alarm"

_MOST_OF_A_CELL_V = 5.0  # above it a reading is of the whole pack
_VOLTAGE = re.compile(r"\s*([0-9.]+\s*m?V)\b")
_NAMED = re.compile(r"\balarm\b", re.IGNORECASE)

_ASK = Ask(
    name=CHECK,
    what="Propellers off. Set the alarm above the lowest voltage that a cell of these packs may"
    " have in flight, hear it sound there, and record the check with its reading.",
    stage="plugged",
)


def alarm_rows(hangar: Hangar, aircraft: AircraftNow) -> Iterator[Row]:
    """A row where the alarm, as read or set last, is below the limit of a pack flown here."""
    told = _last(aircraft)
    if told is None:
        return
    alarm_v, place = told
    low: dict[str, float] = {}
    for pack in hangar.items.values():
        if pack.is_pack and pack.state.state == "serviceable" and aircraft.slug in pack.flown_on:
            least_v = _least_v(pack)
            if least_v is not None and millivolts(_of_a_cell(alarm_v, pack)) < millivolts(least_v):
                low[pack.tag] = least_v
    if not low:
        return
    first = hangar.items[next(iter(low))]
    found = AlarmLow(
        alarm_v=_of_a_cell(alarm_v, first), least_v=max(low.values()), packs=tuple(low)
    )
    because = Because(why="alarm", place=place, found=found)
    yield danger_row(aircraft, _ASK, because, place, grounds=False)


def _least_v(pack: ItemNow) -> float | None:
    """The lowest of a cell in flight, or where its spec says to stop."""
    limits = limits_of(pack.spec)
    known = (pack.spec.cutoff_cell_voltage_v, None if limits is None else limits.lowest_v)
    return max((one for one in known if one is not None), default=None)


def _of_a_cell(alarm_v: float, pack: ItemNow) -> float:
    cells = pack.spec.cells
    whole = alarm_v > _MOST_OF_A_CELL_V and cells is not None
    return alarm_v / cells.series if whole and cells is not None else alarm_v


def _last(aircraft: AircraftNow) -> tuple[float, Place] | None:
    """What the last check read, or a later setting says, in volts."""
    found: list[tuple[int, float, Place]] = []
    for check in aircraft.checks:
        alarm_v = _volts(check.readings.get("alarm")) if check.name == CHECK else None
        if alarm_v is not None:
            found.append((check.seq, alarm_v, check.place))
    for (_, name), setting in aircraft.settings.items():
        alarm_v = _volts(setting.value) if _NAMED.search(name.replace("_", " ")) else None
        if alarm_v is not None:
            found.append((setting.seq, alarm_v, setting.place))
    if not found:
        return None
    _, alarm_v, place = max(found, key=lambda one: one[0])
    return alarm_v, place


def _volts(said: str | None) -> float | None:
    """The voltage that a reading begins with: ``3.4 V a cell``."""
    found = _VOLTAGE.match(said or "")
    return None if found is None else quantity_or_none(found[1], "voltage")
