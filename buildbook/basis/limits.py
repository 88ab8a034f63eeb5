"""How small and how large a value may sensibly be, and the words for one that is not."""

import msgspec

from buildbook.basis import notation
from buildbook.basis.units import Dimension


class Limits(msgspec.Struct, frozen=True):
    """Both ends are allowed. ``least_said`` and ``most_said`` are the limits as messages name them.

    zero_ok: whether zero is a value (a reading, an elevation) though ``least`` is above it.
    beyond: where a value above them belongs, as a hint.
    """

    least: float
    most: float
    zero_ok: bool = False
    least_said: str = ""
    most_said: str = ""
    beyond: str | None = None


def between(
    dimension: Dimension, least: str, most: str, *, zero_ok: bool = False, beyond: str | None = None
) -> Limits:
    """Limits written as at the bench: ``between("mass", "0.1 g", "2 kg")``."""
    low, high = notation.quantity(least, dimension), notation.quantity(most, dimension)
    return Limits(low, high, zero_ok, least, most, beyond)


def plain(least: float, most: float, *, zero_ok: bool = False) -> Limits:
    """Limits of a bare number or a count."""
    return Limits(least, most, zero_ok, f"{least:g}", f"{most:g}")


def within(value: float, limit: Limits, said: str) -> str | None:
    """None where the value is sensible, else the reason; ``said`` is the text as written."""
    if limit.least <= value <= limit.most or (value == 0 and limit.zero_ok):
        return None
    if value > limit.most:
        most = limit.most_said or f"{limit.most:g}"
        return f"{notation.quoted(said)} is too much, the most is {most}"
    least = limit.least_said or f"{limit.least:g}"
    what = "zero" if value == 0 else "negative" if value < 0 <= limit.least else "too little"
    return f"{notation.quoted(said)} is {what}, the least is {least}"


# For a value of which no more is known than its dimension. Common practice, no source.
LIMITS: dict[Dimension, Limits] = {
    "mass": between("mass", "0.01 g", "150 kg"),
    "length": between("length", "0.01 mm", "20 m"),
    "area": between("area", "1 cm²", "20 m²"),
    "voltage": between("voltage", "1 mV", "100 V"),
    "current": between("current", "1 mA", "1000 A"),
    "charge": between("charge", "1 mAh", "200 Ah"),
    "energy": between("energy", "1 J", "10000 Wh"),
    "power": between("power", "0.01 W", "50 kW"),
    "resistance": between("resistance", "0.01 mΩ", "1000 Ω"),
    "speed_constant": between("speed_constant", "10 rpm/V", "30000 rpm/V"),
    "rotation": between("rotation", "1 rpm", "100000 rpm"),
    "duration": between("duration", "1 s", "24 h"),
    "speed": between("speed", "0 m/s", "150 m/s", zero_ok=True),
    "temperature": between("temperature", "-60 °C", "150 °C"),
    "pressure": between("pressure", "300 hPa", "1100 hPa"),
    "altitude": between("altitude", "-430 m", "6000 m", zero_ok=True),
    "angle": between("angle", "-360 deg", "360 deg", zero_ok=True),
    "torque": between("torque", "0.01 N·cm", "50 N·m"),
    "share": between("share", "0.01 %", "1000 %"),
}
