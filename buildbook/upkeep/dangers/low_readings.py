"""Checks that passed with a reading that is too low: an alarm that sounds too late, a range that
fell to less than half.

The alarm is held against the lowest voltage that a cell may have in flight, and against a recorded
cut-off, never a usual one. Below them it is too late for any aircraft, at them for a multirotor: an
aeroplane whose motor stops glides, and its cut-off may be its alarm. Common practice, no source.
"""

from collections.abc import Iterator

import msgspec

from buildbook.hangar.alarm import alarm_of_a_cell_v, alarm_set
from buildbook.hangar.packs.limits import limits_of, millivolts
from buildbook.records.readings import distance_read
from buildbook.records.row_names import LOW_VOLTAGE_ALARM, RANGE
from buildbook.report.state import AircraftNow, Hangar, ItemNow
from buildbook.report.upkeep.findings import AlarmLow, RangeFell
from buildbook.report.upkeep.work import Because, Row
from buildbook.upkeep.dangers.danger_rows import Ask, danger_row

LEAST_OF_BEFORE = 0.5
"""Of the range read the time before: less is more than the ground and the day explain."""


_ASK = Ask(
    name=LOW_VOLTAGE_ALARM,
    what="Propellers off. Set the alarm above the cut-off of these packs and the lowest voltage"
    " that a cell may have in flight, hear it sound there, and record the check with its reading.",
    stage="plugged",
)


def alarm_rows(hangar: Hangar, aircraft: AircraftNow) -> Iterator[Row]:
    """A row where the alarm, as read or set last, is too low for a pack flown here."""
    told = alarm_set(aircraft)
    if told is None:
        return
    low: dict[str, AlarmLow] = {}
    for pack in hangar.items.values():
        if pack.is_pack and pack.state.state == "serviceable" and aircraft.slug in pack.flown_on:
            found = _too_low(alarm_of_a_cell_v(told.alarm_v, pack), pack, aircraft)
            if found is not None:
                low[pack.tag] = found
    if not low:
        return
    worst = max(low.values(), key=lambda one: one.least_v)
    alike = tuple(tag for tag, one in low.items() if one.of == worst.of)
    found = msgspec.structs.replace(worst, packs=alike)
    because = Because(why="alarm", place=told.place, found=found)
    yield danger_row(aircraft, _ASK, because, told.place, grounds=False)


_WALK = Ask(
    name=RANGE,
    what="Propellers off. Look at the aerials of both ends, their joints and where they lie; then"
    " walk the range again at the same place.",
    stage="field",
)


def range_rows(aircraft: AircraftNow) -> Iterator[Row]:
    """A row where the last range that passed is less than half of the one before it."""
    read = [
        (check, far_m)
        for check in aircraft.checks
        if check.name == RANGE
        and check.result == "pass"
        and (far_m := distance_read(check.readings.get("distance"))) is not None
    ]
    if len(read) < 2:
        return
    (_, before_m), (last, far_m) = read[-2:]
    if round(far_m, 6) < round(LEAST_OF_BEFORE * before_m, 6):
        found = RangeFell(read_m=far_m, before_m=before_m)
        because = Because(why="range", entry=last.uid, place=last.place, found=found)
        yield danger_row(aircraft, _WALK, because, last.place, grounds=False)


def _too_low(alarm_v: float, pack: ItemNow, aircraft: AircraftNow) -> AlarmLow | None:
    """The alarm beside the higher of a pack's limits, where it sounds too late for that."""
    limits, cutoff_v = limits_of(pack.spec), pack.spec.cutoff_cell_voltage_v
    lowest_v = None if limits is None else limits.lowest_v
    if cutoff_v is not None and cutoff_v >= (lowest_v or 0.0):
        found = AlarmLow(alarm_v=alarm_v, least_v=cutoff_v, of="cut-off", packs=(pack.tag,))
    elif lowest_v is not None:
        found = AlarmLow(alarm_v=alarm_v, least_v=lowest_v, packs=(pack.tag,))
    else:
        return None
    above_mv = millivolts(alarm_v) - millivolts(found.least_v)
    late = above_mv <= 0 if aircraft.record.kind == "multirotor" else above_mv < 0
    return found if late else None
