"""Plain numbers said in words and trade notation, for pages and the terminal.

Decimal halves are rounded away from zero, as people expect. Nothing asks the locale.
"""

import datetime
import math
import re
from collections.abc import Callable, Iterable, Mapping
from decimal import ROUND_HALF_UP, Context, Decimal
from typing import NamedTuple

from buildbook.basis.days import MONTHS
from buildbook.basis.units import FREEZING_K, STANDARD_GRAVITY_M_S2

NO_BREAK = "\N{NO-BREAK SPACE}"
"""Between digits, or a number and its unit: no line ends there."""

_ROOM = Context(prec=700)


def _decimal(value: float) -> Decimal:
    """Twelve digits, so that 0.03925 kg is 39.25 g and not 39.249999… g."""
    return Decimal(f"{value:.12g}")


def _rounded(exact: Decimal, places: int) -> Decimal:
    rounded = exact.quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP, _ROOM)
    return abs(rounded) if rounded == 0 else rounded


def fixed(value: float, places: int) -> str:
    """``value`` with that many decimals: ``fixed(0.125, 2)`` is ``0.13``."""
    return f"{_rounded(_decimal(value), places):f}"


def trimmed(value: float, places: int) -> str:
    """As ``fixed``, without zeros at the end: ``54.2``, ``54``."""
    text = fixed(value, places)
    return text.rstrip("0").rstrip(".") if "." in text else text


def significant(value: float, digits: int, *, keep_zeros: bool = False) -> str:
    """``value`` with that many digits that count, never fewer than stand before the point."""
    exact = _decimal(value)
    if exact == 0:
        return "0"
    # Rounded once to find the first digit: 9.996 with three digits is 10.0.
    first = _rounded(exact, digits - 1 - exact.adjusted()).adjusted()
    places = max(0, digits - 1 - first)
    return fixed(value, places) if keep_zeros else trimmed(value, places)


def whole(value: float, parts: int = 1) -> int:
    """The nearest whole number of ``1/parts``; halves go away from zero."""
    scaled = value * parts
    near = round(scaled)
    if abs(scaled - near) < 0.499:
        return near
    return int(_rounded(_decimal(scaled), 0))


def whole_seconds(duration_s: float) -> int:
    """For sums and limits: exact whole seconds."""
    return whole(duration_s)


def whole_mah(charge_ah: float) -> int:
    """For limits: exact whole mAh."""
    return whole(charge_ah, 1000)


def total_seconds(durations_s: Iterable[float]) -> int:
    """The sum of durations, each in whole seconds."""
    return sum(whole_seconds(duration_s) for duration_s in durations_s)


class Said(NamedTuple):
    """A number as it is said: ``14.1`` and `` A``. exact: in that unit, before it was rounded."""

    exact: float
    digits: str
    behind: str

    def __str__(self) -> str:
        return self.digits + self.behind

    @property
    def places(self) -> int:
        """Its decimals."""
        return len(self.digits.partition(".")[2])

    def with_places(self, places: int) -> "Said":
        """The same with so many decimals."""
        return self._replace(digits=fixed(self.exact, places))


class Measure:
    """One kind of value: called it gives words, ``said`` the number and what stands behind it."""

    def __init__(self, said: Callable[[float], Said]) -> None:
        self.said = said

    def __call__(self, value: float) -> str:
        return str(self.said(value))


def _fixed(exact: float, places: int, behind: str) -> Said:
    return Said(exact, fixed(exact, places), behind)


def _trimmed(exact: float, places: int, behind: str) -> Said:
    return Said(exact, trimmed(exact, places), behind)


def _significant(exact: float, digits: int, behind: str, *, keep_zeros: bool = False) -> Said:
    return Said(exact, significant(exact, digits, keep_zeros=keep_zeros), behind)


@Measure
def mass(mass_kg: float) -> Said:
    """``54.2 g``, ``1480 g``, ``12.3 kg``."""
    size = abs(mass_kg)
    if size >= 10:
        return _trimmed(mass_kg, 2, " kg")
    return _trimmed(mass_kg * 1000, 0 if size >= 1 else 1 if size >= 0.01 else 2, " g")


@Measure
def length(length_m: float) -> Said:
    """``140 mm``, ``86.4 mm``, and ``12.5 m`` from two metres on."""
    if abs(length_m) >= 2:
        return _trimmed(length_m, 2, " m")
    return _trimmed(length_m * 1000, 1, " mm")


@Measure
def altitude(altitude_m: float) -> Said:
    """``120 m``."""
    return _trimmed(altitude_m, 0, " m")


@Measure
def area(area_m2: float) -> Said:
    """``0.32 m²``."""
    return _significant(area_m2, 3, " m²")


@Measure
def conductor(area_m2: float) -> Said:
    """The area of a wire: ``1.31 mm²``."""
    return _significant(area_m2 * 1e6, 3, " mm²")


@Measure
def voltage(voltage_v: float) -> Said:
    """``3.82 V``; two decimals, as a cell is read."""
    return _fixed(voltage_v, 2, " V")


@Measure
def current(current_a: float) -> Said:
    """``12.4 A``, ``350 mA``."""
    if 0 < abs(current_a) < 1:
        return _trimmed(current_a * 1000, 0, " mA")
    return _trimmed(current_a, 1, " A")


@Measure
def charge(charge_ah: float) -> Said:
    """``1480 mAh``; what is no number is said as such."""
    digits = str(whole_mah(charge_ah)) if math.isfinite(charge_ah) else str(charge_ah)
    return Said(charge_ah * 1000, digits, " mAh")


@Measure
def energy(energy_wh: float) -> Said:
    """``19.24 Wh``, ``111.0 Wh``: four digits that count."""
    return _significant(energy_wh, 4, " Wh", keep_zeros=True)


@Measure
def power(power_w: float) -> Said:
    """``185 W``, ``4.2 W``."""
    return _trimmed(power_w, 0 if abs(power_w) >= 10 else 1, " W")


@Measure
def resistance(resistance_ohm: float) -> Said:
    """``8.1 mΩ``, and ``1.2 Ω`` from one ohm on."""
    if abs(resistance_ohm) >= 1:
        return _trimmed(resistance_ohm, 2, " Ω")
    return _trimmed(resistance_ohm * 1000, 2, " mΩ")


@Measure
def speed_constant(rpm_per_volt: float) -> Said:
    """``870 rpm/V``."""
    return _trimmed(rpm_per_volt, 0, " rpm/V")


@Measure
def rotation(speed_rpm: float) -> Said:
    """``8420 rpm``."""
    return _trimmed(speed_rpm, 0, " rpm")


@Measure
def speed(speed_m_s: float) -> Said:
    """``12.3 m/s``."""
    return _trimmed(speed_m_s, 1, " m/s")


@Measure
def temperature(temperature_k: float) -> Said:
    """``15 °C``."""
    return _trimmed(temperature_k - FREEZING_K, 1, " °C")


@Measure
def degrees(temperature_k: float) -> Said:
    """Whole ones: ``15 °C``."""
    return _fixed(temperature_k - FREEZING_K, 0, " °C")


@Measure
def pressure(pressure_pa: float) -> Said:
    """``1013.3 hPa``."""
    return _trimmed(pressure_pa / 100, 1, " hPa")


@Measure
def angle(angle_deg: float) -> Said:
    """``12.5°``."""
    return _trimmed(angle_deg, 1, "°")


def torque(torque_nm: float) -> str:
    """``9.8 N·cm (1.0 kg·cm)``, as servos are sold."""
    return f"{significant(torque_nm * 100, 2, keep_zeros=True)} N·cm ({servo_rating(torque_nm)})"


def servo_rating(torque_nm: float) -> str:
    """``2.1 kg·cm``, as it is printed on a servo."""
    return f"{significant(torque_nm / STANDARD_GRAVITY_M_S2 * 100, 2, keep_zeros=True)} kg·cm"


@Measure
def share(ratio: float) -> Said:
    """``80 %``, ``79.9 %``."""
    return _trimmed(ratio * 100, 1, " %")


@Measure
def discharge_rate(multiple: float) -> Said:
    """``25C``."""
    return _trimmed(multiple, 1, "C")


def cells(series: int, series_most: int | None = None, parallel: int = 1) -> str:
    """``3S``, ``3S2P``, ``2S-4S``."""
    if series_most is not None and series_most != series:
        return f"{series}S-{series_most}S"
    return f"{series}S" if parallel == 1 else f"{series}S{parallel}P"


def money(amount: float, currency: str) -> str:
    """``14.50 EUR``."""
    return f"{fixed(amount, 2)} {currency}"


def duration(duration_s: float) -> str:
    """``45 s``, ``7 min 20 s``, ``13 min 00 s``, ``1 h 05 min 00 s``."""
    seconds = whole_seconds(duration_s)
    sign = "-" if seconds < 0 else ""
    minutes, left = divmod(abs(seconds), 60)
    hour, minute = divmod(minutes, 60)
    if hour:
        return f"{sign}{hour} h {minute:02d} min {left:02d} s"
    return f"{sign}{minute} min {left:02d} s" if minute else f"{sign}{left} s"


@Measure
def hours(duration_s: float) -> Said:
    """``12.4 h``, and two decimals under one hour: ``0.22 h``."""
    value = duration_s / 3600
    return _fixed(value, 2 if abs(value) < 0.995 else 1, " h")


def flown(duration_s: float, flights: int) -> str:
    """A total of flights: ``13 min 00 s (0.22 h), 3 flights``."""
    return f"{duration(duration_s)} ({hours(duration_s)}), {count('flight', flights)}"


def count(noun: str, number: float) -> str:
    """``1 flight``, ``3 flights``, ``2 batteries``, ``2.05 cycles``."""
    return " ".join(count_parts(noun, number))


def count_parts(noun: str, number: float) -> tuple[str, str]:
    """The number and its noun: ``3`` and ``flights``."""
    return trimmed(number, 2), noun if abs(number) == 1 else plural(noun)


def plural(noun: str) -> str:
    """More than one of a noun."""
    if noun.endswith("craft"):
        return noun
    if noun.endswith(("s", "x", "ch", "sh")):
        return f"{noun}es"
    if noun.endswith("y") and noun[-2:-1] not in "aeiou":
        return f"{noun[:-1]}ies"
    return f"{noun}s"


def age(days: int, months: int = 0) -> str:
    """``30 days``, ``6 months``, ``2 years``, ``1 year 6 months``."""
    years, months = divmod(months, 12)
    pieces = [("year", years), ("month", months), ("day", days)]
    said = [count(noun, number) for noun, number in pieces if number]
    return " ".join(said) or "0 days"


def day(date: datetime.date) -> str:
    """``12 May 2026``."""
    return f"{date.day} {MONTHS[date.month - 1]} {date.year}"


def month(date: datetime.date) -> str:
    """``May 2026``."""
    return f"{MONTHS[date.month - 1]} {date.year}"


def listed(words: Iterable[str], last: str = "and") -> str:
    """``a``, ``a and b``, ``a, b and c``."""
    *most, end = list(words) or [""]
    return f"{', '.join(most)} {last} {end}" if most else end


def _by_digits(digits: int, behind: str) -> Measure:
    return Measure(lambda value: _significant(value, digits, behind))


def _seconds(duration_s: float) -> Said | str:
    seconds = whole_seconds(duration_s)
    return duration(duration_s) if abs(seconds) >= 60 else Said(duration_s, str(seconds), " s")


# Units of figures that are said otherwise than in three digits, and those of asides.
FIGURES: Mapping[str, Measure | Callable[[float], Said | str]] = {
    "kg": mass,
    "N": _by_digits(3, " N"),
    "W": power,
    "A": current,
    "V": voltage,
    "Ω": resistance,
    "s": _seconds,
    "h": Measure(lambda value: hours.said(value * 3600)),
    "m": length,
    "m/s": speed,
    "Pa": Measure(
        lambda value: pressure.said(value) if value >= 1e4 else _significant(value, 3, " Pa")
    ),
    "K": temperature,
    "kg/m³": _by_digits(4, " kg/m³"),
    "kg·m²": _by_digits(3, " kg·m²"),
    "rpm": rotation,
    "deg": angle,
    "Ah": charge,
    "Wh": energy,
    "ratio": _by_digits(3, ""),
    "count": Measure(lambda value: _trimmed(value, 2, "")),
}


# Units that only inputs of figures have.
INPUTS: Mapping[str, Measure] = {
    "m²": Measure(lambda value: area.said(value) if value >= 1e-4 else conductor.said(value)),
    "rpm/V": speed_constant,
    "1/h": discharge_rate,
    "": _by_digits(3, ""),
}


_CURRENCY = re.compile("[A-Z]{3}").fullmatch


def figure_said(value: float, unit: str) -> Said | str:
    """A figure or an input of one, by its unit; words where it is more than one number."""
    if _CURRENCY(unit):
        return money(value, unit)
    say = FIGURES.get(unit) or INPUTS.get(unit) or _by_digits(3, f" {unit}")
    return say.said(value) if isinstance(say, Measure) else say(value)


def figure(value: float, unit: str) -> str:
    """The same in words; three digits where no table has the unit."""
    return str(figure_said(value, unit))
