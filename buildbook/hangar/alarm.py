"""The low-voltage alarm of an aircraft: at which voltage it sounds, by its records."""

from typing import NamedTuple

from buildbook.basis.place import Place
from buildbook.hangar.packs.limits import MOST_OF_A_CELL_V
from buildbook.records.readings import amount_read, is_of_alarm, voltage_read
from buildbook.records.row_names import LOW_VOLTAGE_ALARM
from buildbook.report.state import AircraftNow, ItemNow


class AlarmSet(NamedTuple):
    """At which voltage the alarm sounds, of a cell or of the pack, and the entry that says so."""

    alarm_v: float
    place: Place
    uid: str


def alarm_of_a_cell_v(alarm_v: float, pack: ItemNow) -> float:
    """What was read or set, of a cell or of the pack."""
    cells = pack.spec.cells
    if cells is None or alarm_v <= MOST_OF_A_CELL_V:
        return alarm_v
    return alarm_v / cells.series


def alarm_set(aircraft: AircraftNow) -> AlarmSet | None:
    """What the last check read, or a later setting says."""
    found: list[tuple[int, AlarmSet]] = []
    for check in aircraft.checks:
        read = check.readings.get("alarm") if check.name == LOW_VOLTAGE_ALARM else None
        alarm_v = voltage_read(read)
        if alarm_v is not None:
            found.append((check.seq, AlarmSet(alarm_v, check.place, check.uid)))
    for (_, name), setting in aircraft.settings.items():
        alarm_v = amount_read(setting.value, "voltage") if is_of_alarm(name) else None
        if alarm_v is not None:
            found.append((setting.seq, AlarmSet(alarm_v, setting.place, setting.uid)))
    return max(found, key=lambda one: one[0])[1] if found else None
