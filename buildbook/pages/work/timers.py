"""The timers of an aircraft as its card and *going flying* tell them."""

from collections.abc import Collection

from buildbook.report.figure import LOADED_V
from buildbook.report.reports import Reports
from buildbook.words.sheets.expected import cell_words
from buildbook.words.sheets.timers import Timer


def goes_by_motor(reports: Reports, slug: str) -> bool:
    """Whether a pack gives it motor time: its flights say how long the motor ran."""
    return reports.figures_of_aircraft(slug).find("motor_endurance") is not None


def timers_of(reports: Reports, slug: str, packs: Collection[str]) -> list[Timer]:
    """A timer for each of these packs that has one."""
    figures = reports.figures_of_aircraft(slug).figures
    land_at = {}
    for figure in figures:
        if figure.name == "alarm_voltage" and LOADED_V in figure.other:
            pack = reports.hangar.items.get(figure.of or "")
            cells = pack.spec.cells.series if pack and pack.spec.cells else None
            volts = cell_words(figure.other[LOADED_V], cells)
            land_at[figure.of] = f"{volts} a cell" if cells else volts
    return [
        Timer(figure.of or "", figure, land_at.get(figure.of, ""))
        for figure in figures
        if figure.name == "timer_setting" and figure.of in packs and figure.value is not None
    ]
