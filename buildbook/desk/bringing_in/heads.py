"""Heads of columns as other people write them: which key is meant, and in which unit."""

import re
from collections.abc import Mapping

_HEADS: Mapping[str, tuple[str, ...]] = {
    "on": (
        "date", "day", "datum", "tag", "flown on", "charged on", "timestamp", "date time",
        "datum zeit", "jour", "fecha", "día", "date heure", "fecha hora",
    ),
    "time": (
        "time", "start time", "start", "time of day", "takeoff", "take off", "began", "uhrzeit",
        "zeit", "beginn", "startzeit", "heure", "hora", "clock", "clock time", "time on", "on time",
        "time up", "at", "um", "à",
    ),
    "aircraft": (
        "aircraft", "a c", "model", "plane", "airframe", "modell", "flugzeug", "flieger", "quad",
        "modèle", "modele", "modelo", "avion", "avión",
    ),
    "flight": (
        "duration", "flight time", "airtime", "air time", "flugzeit", "flugdauer", "dauer",
        "minutes", "minuten", "mins", "min", "flown", "length", "dur", "airborne",
        "temps de vol", "durée", "duree", "tiempo de vuelo", "duración", "duracion",
    ),
    "landed": (
        "landed", "landing time", "time off", "off time", "time down", "end", "end time",
        "touchdown", "gelandet", "ende", "landezeit",
        "atterri", "aterrizado",
    ),
    "pack": (
        "pack", "battery", "batt", "lipo", "akku", "packs", "batteries", "akkus", "battery no",
        "akku nr", "batterie", "accu", "batería", "bateria",
    ),
    "used": (
        "used", "mah used", "charge used", "capacity used", "consumed", "mah out", "verbraucht",
        "verbrauch", "entnommen", "consommé", "consommation", "consumido", "consumo",
    ),
    "put_in": (
        "charged", "put in", "mah in", "charge", "geladen", "capacity", "eingeladen", "chargé",
        "cargado", "carga",
    ),
    "landing": ("landing", "landung", "atterrissage", "aterrizaje"),
    "wind": ("wind", "vent", "viento"),
    "temperature": ("temperature", "temp", "temperatur", "température", "temperatura"),
    "place": ("place", "field", "location", "site", "ort", "platz", "where", "lieu", "lugar"),
    "note": (
        "note", "notes", "remark", "remarks", "comment", "comments", "bemerkung", "bemerkungen",
        "notiz", "remarque", "remarques", "commentaire", "observaciones", "comentario", "nota",
    ),
    "by": ("pilot", "by", "flown by", "pilote", "piloto"),
    "resistance": (
        "ir", "ri", "resistance", "internal resistance", "innenwiderstand", "résistance",
        "resistencia",
    ),
    "current": ("current", "charge current", "ladestrom", "courant", "corriente"),
    "resting": ("resting", "cell voltage", "cell", "zellspannung", "zelle", "cellule", "celda"),
    "volts.before": ("volts before", "voltage before", "v start", "start voltage"),
    "volts.after": ("volts after", "voltage after", "v end", "end voltage"),
    "volts.lowest": ("lowest", "min voltage", "v min", "lowest voltage"),
    "motor_run": ("motor run", "motor time", "motorlaufzeit"),
    "result": ("result", "ergebnis"),
    "to": ("mode", "charge mode", "program", "programme", "programm", "function", "modus"),
}  # fmt: skip

PACK_WORDS = frozenset(word for head in _HEADS["pack"] for word in head.split()) | {"p", "b"}
"""What stands before the number of a pack, where that is no tag."""
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


KNOWN_UNITS = frozenset(spelling for units in UNITS.values() for spelling in units)


def plain_head(head: str) -> tuple[str, str]:
    """A head without its unit, and the unit: ``Used (mAh)``, ``Used [mAh]``, ``mAh used``."""
    brackets = list(_BRACKETED.finditer(head))
    units = (one for one in brackets if one[1].casefold() in _DIMENSIONS)
    unit = next(units, brackets[0] if brackets else None)
    words = re.sub(r"[^\w ]+", " ", _BRACKETED.sub(" ", head).casefold().replace("_", " "))
    plain = " ".join(words.split())
    unit = unit or _CLOCK(head.casefold())
    if unit:
        return plain, unit[1].casefold()
    words_known = (word for word in plain.split() if word in KNOWN_UNITS and len(word) > 1)
    return plain, next(words_known, "")


def key_of(head: str) -> str | None:
    """The key that a head means: its unit goes before its words. None where it means none."""
    plain, unit = plain_head(head)
    key = _key_of(head, plain, unit)
    if key == "temperature" and set(plain.split()) & _PARTS:
        return None
    if key is None or not _contradicts(key, unit, head):
        return key
    return "resistance" if unit in UNITS["resistance"] else None


def contradicted(head: str) -> bool:
    """Whether the words of a head mean what is never measured in its unit."""
    plain, unit = plain_head(head)
    key = _key_of(head, plain, unit)
    return key is not None and key_of(head) is None and _contradicts(key, unit, head)


def _contradicts(key: str, unit: str, head: str) -> bool:
    """Whether a unit is of another dimension. A word of a head may only look like a unit: ``min
    voltage``; one of resistance never does.
    """
    if unit not in UNITS["resistance"] and not _BRACKETED.search(head):
        return False
    wanted = "duration" if key in ("on", "time", "landed") else MEASURED.get(key, "")
    return unit in _DIMENSIONS and wanted not in _DIMENSIONS[unit]


_DIMENSIONS: Mapping[str, frozenset[str]] = {
    unit: frozenset(dimension for dimension, units in UNITS.items() if unit in units)
    for units in UNITS.values()
    for unit in units
}
_PARTS = frozenset(("esc", "motor", "motors", "motoren", "regler", "fc", "vtx", "cpu", "mcu"))
"""Whose temperature is neither that of the air nor that of a pack."""


def is_of_flight(head: str) -> bool:
    """Whether a head says by itself that a row is a flight: ``Flight time``, ``Flugdauer``."""
    return _OF_FLIGHT(plain_head(head)[0]) is not None


_OF_FLIGHT = re.compile(r"\b(?:fl(?:ight|ights|own|ug\w*)|air ?time|airborne|vol|vuelo)\b").search


def _key_of(head: str, plain: str, unit: str) -> str | None:
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
