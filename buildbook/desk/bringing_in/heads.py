"""Heads of columns as other people write them: which key is meant, and in which unit."""

import re
from collections.abc import Mapping

_HEADS: Mapping[str, tuple[str, ...]] = {
    "on": (
        "date", "day", "datum", "tag", "flown on", "charged on", "timestamp", "date time",
        "datum zeit",
    ),
    "time": (
        "time", "start time", "start", "time of day", "takeoff", "take off", "began", "uhrzeit",
        "zeit", "beginn", "startzeit",
    ),
    "aircraft": (
        "aircraft", "a c", "model", "plane", "airframe", "modell", "flugzeug", "flieger", "quad",
    ),
    "flight": (
        "duration", "flight time", "airtime", "air time", "flugzeit", "flugdauer", "dauer",
        "minutes", "minuten", "flown", "length", "dur", "airborne",
    ),
    "landed": (
        "landed", "landing time", "end", "end time", "touchdown", "gelandet", "ende", "landezeit",
    ),
    "pack": (
        "pack", "battery", "batt", "lipo", "akku", "packs", "batteries", "akkus", "battery no",
        "akku nr",
    ),
    "used": (
        "used", "mah used", "charge used", "capacity used", "consumed", "mah out", "verbraucht",
        "verbrauch", "entnommen",
    ),
    "put_in": ("charged", "put in", "mah in", "charge", "geladen", "capacity", "eingeladen"),
    "landing": ("landing", "landung"),
    "wind": ("wind",),
    "temperature": ("temperature", "temp", "temperatur"),
    "place": ("place", "field", "location", "site", "ort", "platz", "where"),
    "note": ("note", "notes", "remark", "remarks", "comment", "comments", "bemerkung", "notiz"),
    "by": ("pilot", "by", "flown by"),
    "resistance": ("ir", "ri", "resistance", "internal resistance", "innenwiderstand"),
    "current": ("current", "charge current", "ladestrom"),
    "resting": ("resting", "cell voltage", "cell"),
    "volts.before": ("volts before", "voltage before", "v start", "start voltage"),
    "volts.after": ("volts after", "voltage after", "v end", "end voltage"),
    "volts.lowest": ("lowest", "min voltage", "v min", "lowest voltage"),
    "motor_run": ("motor run", "motor time", "motorlaufzeit"),
    "result": ("result", "ergebnis"),
    "to": ("mode", "charge mode", "program", "programme", "programm", "function", "modus"),
}  # fmt: skip
"""How columns are called elsewhere; common practice, no source."""

MEASURED: Mapping[str, str] = {
    "used": "charge", "put_in": "charge", "current": "current", "temperature": "temperature",
    "resistance": "resistance", "resting": "voltage", "volts.before": "voltage",
    "volts.after": "voltage", "volts.lowest": "voltage", "flight": "duration",
    "motor_run": "duration", "wind": "speed",
}  # fmt: skip
UNITS: Mapping[str, Mapping[str, str]] = {
    "charge": {"mah": "mAh", "ah": "Ah"},
    "current": {"a": "A", "ma": "mA"},
    "temperature": {"c": "°C", "°c": "°C", "f": "°F", "°f": "°F", "k": "K"},
    "resistance": {"mω": "mΩ", "mohm": "mΩ", "milliohm": "mΩ", "ohm": "ohm", "ω": "Ω"},
    "voltage": {"v": "V", "mv": "mV", "volt": "V", "volts": "V"},
    "speed": {
        "m/s": "m/s", "mph": "mph", "km/h": "km/h", "kmh": "km/h", "kph": "km/h", "kn": "kn",
        "kt": "kn", "kts": "kn", "knots": "kn",
    },
    "duration": {
        "min": "min", "mins": "min", "minutes": "min", "s": "s", "sec": "s", "secs": "s",
        "seconds": "s", "ms": "ms", "h": "h", "hours": "h", "mm:ss": "m:s", "m:s": "m:s",
        "min:sec": "m:s", "min:s": "m:s", "min:sek": "m:s", "minuten": "min", "sek": "s",
        "std": "h", "h:mm": "h:m", "hh:mm": "h:m", "h:m": "h:m", "hh:mm:ss": "h:m:s",
        "h:mm:ss": "h:m:s",
    },
}  # fmt: skip
DISCHARGED = "discharge"
_MODES: Mapping[str, re.Pattern[str]] = {
    DISCHARGED: re.compile(r"dis|dchg|entlad"),
    "storage": re.compile(r"stor|lager"),
    "full": re.compile(r"cha?r?ge?|chg|balanc|lad(e|ung)|fast"),
}
"""What a charger says that it did, by how it leaves the pack. Common practice, no source."""


def mode_of(cell: str) -> str | None:
    """``full``, ``storage`` or ``discharge``, as a charger says it; None: no such word."""
    low = cell.casefold()
    return next((mode for mode, words in _MODES.items() if words.search(low)), None)


_NUMBERED = re.compile(r"#|\b(?:no|nr|num|number|nummer)\b").search
_CLOCK = re.compile(r"\b(mm:ss|m:s|min:s(?:ek|ec)?|h{1,2}:mm?(?::ss)?|h:m:s)\b").search
_BRACKETED = re.compile(r"\s*[(\[]\s*([^)\]]+?)\s*[)\]]")


def plain_head(head: str) -> tuple[str, str]:
    """A head without its unit, and the unit: ``Used (mAh)``, ``Used [mAh]``, ``mAh used``."""
    unit = _BRACKETED.search(head)
    words = re.sub(r"[^\w ]+", " ", _BRACKETED.sub(" ", head).casefold().replace("_", " "))
    plain = " ".join(words.split())
    unit = unit or _CLOCK(head.casefold())
    if unit:
        return plain, unit[1].casefold()
    known = {spelling for units in UNITS.values() for spelling in units}
    return plain, next((word for word in plain.split() if word in known and len(word) > 1), "")


def key_of(head: str) -> str | None:
    """The key that a head means, by its words or its unit; None where it means none."""
    plain, unit = plain_head(head)
    bare = re.sub(r" ?\d+$", "", plain)  # R1, R2, cell 3
    if _NUMBERED(head.casefold()):  # a number is no value, unless of a pack
        return "pack" if set(bare.split()) & set(_HEADS["pack"]) else None
    for key, names in _HEADS.items():
        if plain in names or bare in names or bare.replace(" ", "_") == key:
            return key
    words = set(bare.split())
    likely = [
        (len(name), key) for key, names in _HEADS.items() for name in names
        if len(name) > 2 and set(name.split()) <= words
    ]  # fmt: skip
    if likely:
        return max(likely)[1]
    if unit in ("mah", "ah"):
        return "used"
    if bare in ("r", "r cell") or (unit in UNITS["resistance"] and unit):
        return "resistance"
    return None
