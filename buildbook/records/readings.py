"""What a keeper's own words mean: readings of a check and settings."""

import re
from collections.abc import Collection, Iterable, Mapping

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
_PACES = re.compile(r"\s*([0-9]+(?:\.[0-9]+)?)\s*(?:paces?|steps?|strides?)\b", re.IGNORECASE)
_LENGTH = re.compile(r"\b[0-9]+(?:\.[0-9]+)? ?(?:m|ft|paces)\b")
_BARE = re.compile(r"\s*[0-9]+(?:\.[0-9]+)?\s*").fullmatch
_NUMBER = re.compile(r"\s*([+-]?\d+(?:\.\d+)?)\s*(%|[µμ]s|us\b)?")
_ABOUT = re.compile(
    r"\s*(?:(?:approx(?:imately|\.)?|about|around|circa|ca\.?|roughly|some|at least|over)\s+"
    r"|[~≈>≥]\s*)",
    re.IGNORECASE,
)
_DECIMAL_COMMA = re.compile(r"(?<![\d.,])(\d+),(\d{1,2})(?![\d.,])")


def _numeral(said: str | None) -> str:
    """``12 m`` of ``approx 12 m``, ``3.5 V`` of ``3,5 V``; ``1,310`` may be either, and stays."""
    return _DECIMAL_COMMA.sub(r"\1.\2", _ABOUT.sub("", said or "", count=1))


def turn_read(said: str) -> Hand | None:
    """``cw`` or ``ccw`` of a reading that says which way something turns, else None."""
    return _TURNS.get(said.strip().lower())


def amount_read(said: str | None, dimension: Dimension) -> float | None:
    """The quantity that a reading begins with: ``3.70 V a cell``; None where it has none."""
    found = _AMOUNT.match(_numeral(said))
    return None if found is None else quantity_or_none(found[1], dimension)


def voltages_read(readings: Mapping[str, str], *, bare: bool) -> list[float]:
    """Those of the readings that are voltages and nothing else, as written one after another.

    bare: a number with a decimal point is one too, where its name is that of cells or of a pack.
    """
    found: list[float] = []
    for name, said in readings.items():
        if not _VOLTAGES(said):
            continue
        for numeral, unit in _VOLTAGE(said):
            written = unit or ("v" in said.casefold() or (bare and _OF_CELLS(name)))
            if written and (unit or not numeral.isdigit()):
                volts = float(numeral.replace(",", "."))
                found.append(volts / 1000 if unit.casefold() == "mv" else volts)
    return found


_ONE = r"\d+(?:[.,]\d+)?\s?(?:mV|V)?"
_VOLTAGES = re.compile(
    rf"\s*\[?\s*{_ONE}(?:(?:\s*[;/|]\s*|,?\s+){_ONE})*\s*\]?"
    r"(?:\s*(?:/|a|per|je|each)\s?(?:cell|zelle)?)?\s*",
    re.IGNORECASE,
).fullmatch
_VOLTAGE = re.compile(r"(\d+(?:[.,]\d+)?)\s?(mV|V)?", re.IGNORECASE).findall
_OF_CELLS = re.compile(
    r"(?:(?:cells?|zellen?|c|z|no|lowest|least|min|rest|resting|pack|total|volts?|voltages?)\.?"
    r"[ _.-]?)*\d*",
    re.IGNORECASE,
).fullmatch


def temperatures_read(readings: Mapping[str, str]) -> list[float]:
    """Those of the readings that are a temperature and nothing else."""
    read = (quantity_or_none(said, "temperature") for said in readings.values())
    return [kelvin for kelvin in read if kelvin is not None]


VOLTS = ("alarm", "shown", "meter")
"""Readings of the voltage of a cell or a pack: a bare number of them is in volts."""


READ_IN: Mapping[str, str] = {
    **dict.fromkeys(VOLTS, "V"),
    "distance": "m",
    "roll": "°",
    "pitch": "°",
}
"""The unit of a bare number of a reading, by its name: it is added where somebody is asked."""


def voltage_read(said: str | None) -> float | None:
    """The voltage that a reading of ``VOLTS`` begins with, a bare number in volts."""
    numeral = _numeral(said)
    return float(numeral) if _BARE(numeral) else amount_read(said, "voltage")


PACE_M = 0.75
"""A pace of a grown person, to hold a range that was walked against one in metres. Common
knowledge, no source."""


def distance_read(said: str | None) -> float | None:
    """How far a range held, in metres; feet and paces are usual for it too."""
    paces = _PACES.match(_numeral(said))
    if paces is not None:
        return float(paces[1]) * PACE_M
    far_m = amount_read(said, "length")
    return amount_read(said, "altitude") if far_m is None else far_m


def distance_asked(what: str) -> str | None:
    """The longest distance that the words of a check name: ``30 m``; None where they name none."""
    return max(_LENGTH.findall(what), key=lambda said: distance_read(said) or 0.0, default=None)


def number_read(said: str) -> tuple[float, str] | None:
    """The number at the start of a reading, and its unit: ``%``, ``µs``, or empty for none."""
    found = _NUMBER.match(_numeral(said))
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
    at = next((word for word in words if word in stations), None)
    if at is not None:
        return at, ".".join(word for word in words if word != at)
    by_words = {_spaced(one).casefold(): one for one in stations}
    like = next((word for word in words if _spaced(word).casefold() in by_words), None)
    if like is None:
        return None, name
    station = by_words[_spaced(like).casefold()]
    return station, ".".join(word for word in words if word != like)


def is_of_each(name: str) -> bool:
    """Whether a reading of that name holds for each station of its check."""
    return name.split(".")[0] == EACH


def without_each(name: str) -> str:
    """What is read, by the name of a reading whose station was taken out of it."""
    return name.removeprefix(EACH).strip(".")


def channel_read(said: str, channels: Collection[str]) -> str | None:
    """The channel that a reading names, or begins to name as no other does: ``AIL``, ``thr``."""
    begun = said.strip().casefold()
    if begun in channels:
        return begun
    named = [one for one in channels if begun and one.casefold().startswith(begun)]
    return named[0] if len(named) == 1 else None


def input_read(said: str) -> int | None:
    """The number of an input of the receiver, where a reading is one and nothing else."""
    return int(said) if said.strip().isdigit() else None


_FINE = re.compile(
    r"(?:all )?(?:ok(?:ay)?|yes|good|fine|correct|right(?: way)?|as (?:planned|set|expected))\W*"
)


def is_fine(said: str) -> bool:
    """Whether it says that it was as it should be, and not what was read."""
    return _FINE.fullmatch(said.strip().casefold()) is not None


def has_digit(said: str) -> bool:
    """Whether something was measured, or at least counted."""
    return re.search(r"\d", said) is not None


def last_word(name: str) -> str:
    """The last word of the name of a reading: ``3`` of ``input-3``."""
    return name.replace("-", " ").replace(".", " ").split()[-1]


def of_station(readings: Mapping[str, str], station: str) -> dict[str, str]:
    """The readings that are about a station, else those of each."""
    about = {name: said for name, said in readings.items() if station_read(name, (station,))[0]}
    return about or {name: said for name, said in readings.items() if name == EACH}


_OF_THE_RADIO = re.compile(
    r"\b(revers\w*|mix\w*|end ?points?|ends|travels?|fail ?safe|memory)\b", re.IGNORECASE
)
_BOUND = re.compile(r"\b((re ?)?bind(ing)?|re bound|receiver (re ?)?bound)\b", re.IGNORECASE)
_OF_TURNING = re.compile(r"\b(direction|revers\w*|rotation|spin|turns)\b", re.IGNORECASE)
_OF_MOTORS = re.compile(r"\b(motors?|escs?|spin|rotation)\b", re.IGNORECASE)
_OF_ALARM = re.compile(r"\balarm\b", re.IGNORECASE)
_OF_MOUNTING = re.compile(
    r"\b(?:board|sensor|controller|gyro|imu)s? (?:align\w*|orient\w*|rotat\w*|yaw|roll|pitch)\b"
    r"|\balign (?:board|gyro|acc)|\borientation\b",
    re.IGNORECASE,
)
_OF_CUTOFF = re.compile(r"\bcut ?off\b", re.IGNORECASE)


def is_of_radio(name: str) -> bool:
    """Whether it changes what the radio does to a channel; trim, rates and expo do not."""
    return _OF_THE_RADIO.search(_spaced(name)) is not None


def is_of_binding(name: str) -> bool:
    """Whether it tells of a receiver taught its transmitter anew, however it is written."""
    return _BOUND.search(_spaced(name)) is not None


def is_of_turning(name: str, value: str) -> bool:
    """Whether it is about which way something turns."""
    return _OF_TURNING.search(_spaced(f"{name} {value}")) is not None


def is_of_motors(name: str, value: str) -> bool:
    """Whether it speaks of motors or ESCs."""
    return _OF_MOTORS.search(_spaced(f"{name} {value}")) is not None


def is_of_alarm(name: str) -> bool:
    """Whether it is the voltage of an alarm."""
    return _OF_ALARM.search(_spaced(name)) is not None


def is_of_mounting(name: str) -> bool:
    """Whether it says which way round the controller sits."""
    return _OF_MOUNTING.search(_spaced(name)) is not None


def is_of_cutoff(name: str) -> bool:
    """Whether it is the voltage at which a controller stops the motor."""
    return _OF_CUTOFF.search(_spaced(name)) is not None


def stations_named(name: str, value: str, stations: Iterable[str]) -> list[str]:
    """Those of the stations whose name, with spaces or hyphens, stands in it."""
    return [one for one in stations if _spaced(one) in _spaced(f"{name} {value}")]


def _spaced(name: str) -> str:
    return name.replace("_", " ").replace("-", " ")


_CLAUSES = re.compile(r"[.,;:!?()\n]|\b(?:but|because|since|while|though|although|however|still)\b")
_SWOLLEN = re.compile(
    r"\b(?:swollen|swell(?:s|ed|ing)|puff(?:ed|y|ing)|bloat(?:s|ed|ing)?|bulg(?:es?|ed|ing|y))\b",
    re.IGNORECASE,
)
_BURNT = re.compile(
    r"\b(?:smok(?:es?|ed|ing)|burn(?:t|ed|ing)|(?:on|caught) fire|flames?|sparks?|sparked|melted"
    r"|charred|scorched)\b",
    re.IGNORECASE,
)
_DENIED = re.compile(
    r"(?:\b(?:no|not|never|none|nor|nothing|without|free)\b|n't\b)(?:\W+\w+){0,3}\W*$", re.I
)
_READ_NONE = re.compile(r"\W*(?:none|no|nil|zero|absent|0(?: ?mm)?)\b", re.IGNORECASE)


def swelling_told(words: str) -> str | None:
    """That part of a keeper's words that tells of something swollen; None where none does.

    ``no swelling`` and ``swelling: none`` tell of none. Nothing is judged by such words but that
    somebody is to look.
    """
    return clause_telling(_SWOLLEN, words)


def burning_told(words: str) -> str | None:
    """That part of the words that tells of smoke, fire or what was burnt, in the same way."""
    return clause_telling(_BURNT, words)


def clause_telling(of: re.Pattern[str], words: str) -> str | None:
    """The first clause that has such a word and does not deny it."""
    begin = 0
    ends = [*((cut.start(), cut.end()) for cut in _CLAUSES.finditer(words)), (len(words),) * 2]
    for end, next_begin in ends:
        part = words[begin:end]
        for told in of.finditer(part):
            after = part[told.end() :] or words[end:]
            if not _DENIED.search(part[: told.start()]) and not _READ_NONE.match(after):
                return part.strip()
        begin = next_begin
    return None


_DANGER = re.compile(
    r"\b(?:crack|split|snap|broke|bent|loose|chip|nick|burn|smok|smel|melt|swol|swel|puff|grind"
    r"|hot\b(?! (?:day|morning|afternoon|evening|weather|sun|air)\b)"
    r"|grat|rough|stuck|jam|chaf|fray|flutter|shak|cut(?:s)? out|glitch)\w*",
    re.IGNORECASE,
)


def may_tell_danger(words: str) -> bool:
    """Whether a word among them speaks of something broken, hot or loose, and is not denied.

    Nothing is judged by it: such a remark only stays in sight for longer.
    """
    return clause_telling(_DANGER, words) is not None


_FOUND = re.compile(
    r"\b(?:crack(?:s|ed)?|split|snapped|broken?|loose|chip(?:s|ped)?|nick(?:s|ed)?|torn|tear|frayed"
    r"|chafed|melted|burnt|stuck|jammed|missing|(?:shaft|rod|spar|blade|leg|arm|horn|pin)s?"
    r"(?: is| are| was| slightly| a bit| a little)* bent|bent (?:shaft|rod|spar|blade|leg|arm))\b",
    re.IGNORECASE,
)
_MENDED = re.compile(
    r"\b(?:(?:re-?)?(?:tightened|screwed|torqued|glued|soldered|taped|seated|balanced|bound)"
    r"|replaced|renewed|swapped|changed|sleeved|epoxied|mended|fixed|repaired|sanded|filled|filed"
    r"|dressed|stopped with|nipped up|done up|cleaned|oiled|greased|lubricated|straightened"
    r"|adjusted|aligned|trimmed|shortened|sealed|thread ?locked|put right|dealt with|sorted"
    r"|new (?:\w+ ){1,3}(?:on|in|fitted))\b",
    re.IGNORECASE,
)


def left_open(words: str) -> bool:
    """Whether they tell of something broken or loose, and of nothing that was done about it."""
    return clause_telling(_FOUND, words) is not None and clause_telling(_MENDED, words) is None


_TURNED = re.compile(
    r"\b(?:re-?(?:mount|seat|stick|stuck|position)|moved|rotated|turned\b(?=.*(?:\d ?(?:°|deg)"
    r"|\b(?:round|around|upside|sideways)\b)))",
    re.IGNORECASE,
)
_CONTROLLER = re.compile(r"(?<!speed )\b(?:flight )?controller\b", re.IGNORECASE)


def mounting_told(words: str) -> str | None:
    """That clause of a keeper's words that tells of a controller turned or mounted anew."""
    clauses = (clause for clause in _CLAUSES.split(words) if _CONTROLLER.search(clause))
    return next((one.strip() for one in clauses if clause_telling(_TURNED, one)), None)


_OF_A_PACK = re.compile(r"\b(?:packs?|batter(?:y|ies)|lipos?|cells?)\b", re.IGNORECASE)


def speaks_of_a_pack(words: str) -> bool:
    """Whether a pack is among what they are about, though no tag names one."""
    return _OF_A_PACK.search(words) is not None
