"""The low-voltage alarm of an aircraft, and the cut-off set on it: at which voltage, by record."""

from collections.abc import Callable, Iterator
from typing import NamedTuple

from buildbook.basis.place import Place
from buildbook.hangar.packs.limits import MOST_OF_A_CELL_V
from buildbook.records.readings import amount_read, is_of_alarm, is_of_cutoff, voltage_read
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
        if check.name != LOW_VOLTAGE_ALARM:
            continue
        alarm_v = voltage_read(check.readings.get("alarm"))
        if alarm_v is not None:
            found.append((check.seq, AlarmSet(alarm_v, check.place, check.uid)))
    found += _settings(aircraft, is_of_alarm)
    return max(found, key=lambda one: one[0])[1] if found else None


def cutoff_set(aircraft: AircraftNow) -> AlarmSet | None:
    """The highest voltage at which a controller stops a motor, by its settings."""
    told = (one for _, one in _settings(aircraft, is_of_cutoff))
    return max(told, key=lambda one: one.alarm_v, default=None)


def _settings(
    aircraft: AircraftNow, asked: Callable[[str], bool]
) -> Iterator[tuple[int, AlarmSet]]:
    for (_, name), setting in aircraft.settings.items():
        set_v = amount_read(setting.value, "voltage") if asked(name) else None
        if set_v is not None:
            yield setting.seq, AlarmSet(set_v, setting.place, setting.uid)
