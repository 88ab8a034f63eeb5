"""What a keeper's own readings of a check say: amounts, ways of turning, lists, and of what."""

import re
from collections.abc import Collection, Iterator, Mapping

from buildbook.basis.notation import quantity_or_none
from buildbook.basis.units import Dimension
from buildbook.records.parts import Hand

EACH = "each"
"""The name of a reading that holds for each station of a check."""

_TURNS: Mapping[str, Hand] = {
    "cw": "cw",
    "clockwise": "cw",
    "ccw": "ccw",
    "counter-clockwise": "ccw",
    "counterclockwise": "ccw",
    "anticlockwise": "ccw",
    "anti-clockwise": "ccw",
}
_AMOUNT = re.compile(r"\s*([+-]?[0-9.]+\s*(?:%|[^\W\d_]+)?)(?!\w)")
_SHORT_UNIT = re.compile(r"[0-9.]+ ?[a-z]{0,2}").fullmatch  # 60 paces are words, 60 yd are not
_BARE = re.compile(r"\s*[0-9]+(?:\.[0-9]+)?\s*").fullmatch
_NUMBER = re.compile(r"\s*([+-]?\d+(?:\.\d+)?)\s*(%|[µμ]s|us\b)?")


def turn_read(said: str) -> Hand | None:
    """``cw`` or ``ccw`` of a reading that says which way something turns, else None."""
    return _TURNS.get(said.strip().lower())


def amount_read(said: str | None, dimension: Dimension) -> float | None:
    """The quantity that a reading begins with: ``3.70 V a cell``; None where it has none."""
    found = _AMOUNT.match(said or "")
    return None if found is None else quantity_or_none(found[1], dimension)


def voltages_read(readings: Mapping[str, str]) -> list[float]:
    """Those of the readings that are a voltage and nothing else, as written one after another."""
    read = (quantity_or_none(said, "voltage") for said in readings.values())
    return [volts for volts in read if volts is not None]


VOLTS = ("alarm", "shown", "meter")
"""Readings of the voltage of a cell or a pack: a bare number of them is in volts."""


def voltage_read(said: str | None) -> float | None:
    """The voltage that a reading of ``VOLTS`` begins with, a bare number in volts."""
    if said is not None and _BARE(said):
        return float(said)
    return amount_read(said, "voltage")


def distance_read(said: str | None) -> float | None:
    """How far a range held, in metres; feet are usual for it too."""
    return amount_read(said, "length") or amount_read(said, "altitude")


def unread(readings: Mapping[str, str]) -> Iterator[tuple[str, str, str]]:
    """Readings that begin with a number and are not what they are read for: name, text, what of."""
    for name, said in readings.items():
        if said[:1].isdigit():
            if name in VOLTS and voltage_read(said) is None:
                yield name, said, "a voltage, as in 3.6 V"
            if name == "distance" and _SHORT_UNIT(said) and distance_read(said) is None:
                yield name, said, "a length, as in 30 m or 100 ft"


def number_read(said: str) -> tuple[float, str] | None:
    """The number at the start of a reading, and its unit: ``%``, ``µs``, or empty for none."""
    found = _NUMBER.match(said)
    if found is None:
        return None
    unit = found[2] or ""
    return float(found[1]), unit if unit in ("", "%") else "µs"


def throttle_read(said: str | None) -> float | None:
    """A share of the throttle; a bare number above one is in per cent. A pulse in µs is none."""
    value, unit = number_read(said or "") or (0.0, "µs")
    if unit == "µs":
        return None
    return value / 100 if unit == "%" or value > 1 else value


def list_read(said: str) -> list[str]:
    """``aileron, elevator``, in brackets or quotes or without."""
    return [word.strip().strip("'\"") for word in said.strip().strip("[]").split(",")]


def station_read(name: str, stations: Collection[str]) -> tuple[str | None, str]:
    """The station that the name of a reading names, and what remains of the name."""
    words = name.split(".")
    station = next((word for word in words if word in stations), None)
    if station is None:
        return None, name
    return station, ".".join(word for word in words if word != station)


def is_of_each(name: str) -> bool:
    """Whether a reading of that name holds for each station of its check."""
    return name.split(".")[0] == EACH


def without_each(name: str) -> str:
    """What is read, by the name of a reading whose station was taken out of it."""
    return name.removeprefix(EACH).strip(".")


def last_word(name: str) -> str:
    """The last word of the name of a reading: ``3`` of ``input-3``."""
    return name.replace("-", " ").replace(".", " ").split()[-1]


def of_station(readings: Mapping[str, str], station: str) -> dict[str, str]:
    """The readings that are about a station, else those of each."""
    about = {name: said for name, said in readings.items() if station in name.split(".")}
    return about or {name: said for name, said in readings.items() if name == EACH}
