"""What the set-up checks of an aircraft should read, beside what they read last."""

from collections.abc import Iterable, Iterator

from buildbook.hangar.packs.limits import MOST_OF_A_CELL_V
from buildbook.records.readings import amount_read, throttle_read, voltage_read
from buildbook.records.row_names import BALANCE_POINT, LOW_VOLTAGE_ALARM, START_SPREAD, WEIGHING
from buildbook.report.figure import Answers
from buildbook.report.state import AircraftNow
from buildbook.report.upkeep.set_up import Expected
from buildbook.report.upkeep.work import Row
from buildbook.reporting.whole import Whole


def expected_readings(whole: Whole, slug: str) -> tuple[Expected, ...]:
    """One for each check, or each station of one, where a number can be expected."""
    aircraft = whole.hangar.aircraft[slug]
    answers = whole.reports.figures_of_aircraft(slug)
    by_name: dict[str, list[Row]] = {}
    for row in whole.reports.set_up_checks(slug):
        by_name.setdefault(row.name, []).append(row)
    return (
        *_alarm(whole, answers, by_name.get(LOW_VOLTAGE_ALARM, ())),
        *_start(aircraft, by_name.get(START_SPREAD, ())),
        *_weighing(aircraft, answers, by_name.get(WEIGHING, ())),
        *_balance(aircraft, answers, by_name.get(BALANCE_POINT, ())),
    )


def _alarm(whole: Whole, answers: Answers, rows: Iterable[Row]) -> Iterator[Expected]:
    """Volts a cell: that is what the alarm is set in, and what is read.

    Of several packs the highest, as on the front page: an alarm for all is set to that.
    """
    alarms = (one for one in answers.figures if one.name == "alarm_voltage")
    figure = max(alarms, key=lambda one: one.value or 0.0, default=None)
    pack = whole.hangar.items.get(figure.of or "") if figure else None
    if figure is None or figure.value is None or pack is None or pack.spec.cells is None:
        return
    cells = pack.spec.cells.series
    for row in rows:
        last = voltage_read(row.readings.get("alarm"))
        of_pack = last is not None and last > MOST_OF_A_CELL_V
        yield Expected(
            check=row.name,
            unit="V a cell",
            value=figure.value / cells,
            pack=pack.tag,
            last=last / cells if last is not None and of_pack else last,
            of_pack=of_pack,
        )


def _start(aircraft: AircraftNow, rows: Iterable[Row]) -> Iterator[Expected]:
    """Each motor starts below the throttle that is set for the start."""
    setting = aircraft.settings.get((None, "start_throttle"))
    value = throttle_read(setting.value) if setting else None
    if value is None:
        return
    for row in rows:
        last = throttle_read(row.readings.get(row.station or ""))
        yield Expected(
            check=row.name, unit="ratio", value=value, station=row.station, most=True, last=last
        )


def _weighing(aircraft: AircraftNow, answers: Answers, rows: Iterable[Row]) -> Iterator[Expected]:
    """The mass with the pack that was aboard at the last weighing, where it was whole then."""
    last = aircraft.weighings[-1] if aircraft.weighings else None
    with_pack = answers.find("all_up_mass", last.pack) if last and last.pack else None
    figure = with_pack or answers.find("all_up_mass")
    if figure is None or figure.value is None:
        return
    alike = last if last and not last.without and last.pack == figure.of else None
    for row in rows:
        yield Expected(
            check=row.name,
            unit="kg",
            value=figure.value,
            pack=figure.of,
            last=alike.mass_kg if alike else None,
            on=alike.on if alike else None,
            uid=alike.uid if alike else None,
        )


def _balance(aircraft: AircraftNow, answers: Answers, rows: Iterable[Row]) -> Iterator[Expected]:
    """Behind the leading edge where there is a chord, as it is measured; else from the centre."""
    share, forward = answers.find("balance", "mean chord"), answers.find("balance", "forward")
    wing = aircraft.record.wing
    for row in rows:
        last = amount_read(row.readings.get("place"), "length")
        if share and share.value is not None and wing and wing.mean_chord_m is not None:
            behind = share.value * wing.mean_chord_m
            yield Expected(check=row.name, unit="m behind", value=behind, last=last)
        elif forward and forward.value is not None:
            yield Expected(check=row.name, unit="m forward", value=forward.value)
