"""What a keeper's own words mean: readings of a check, settings, and what the failsafe does."""

import re
from collections.abc import Collection, Iterable, Mapping
from typing import Literal, NamedTuple

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


def voltages_read(readings: Mapping[str, str]) -> list[float]:
    """Those of the readings that are a voltage and nothing else, as written one after another."""
    read = (quantity_or_none(said, "voltage") for said in readings.values())
    return [volts for volts in read if volts is not None]


def temperatures_read(readings: Mapping[str, str]) -> list[float]:
    """Those of the readings that are a temperature and nothing else."""
    read = (quantity_or_none(said, "temperature") for said in readings.values())
    return [kelvin for kelvin in read if kelvin is not None]


VOLTS = ("alarm", "shown", "meter")
"""Readings of the voltage of a cell or a pack: a bare number of them is in volts."""


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
_DENIED = re.compile(
    r"(?:\b(?:no|not|never|none|nor|nothing|without|free)\b|n't\b)(?:\W+\w+){0,3}\W*$", re.I
)
_READ_NONE = re.compile(r"\W*(?:none|no|nil|zero|absent|0(?: ?mm)?)\b", re.IGNORECASE)


def swelling_told(words: str) -> str | None:
    """That part of a keeper's words that tells of something swollen; None where none does.

    ``no swelling`` and ``swelling: none`` tell of none. Nothing is judged by such words but that
    somebody is to look.
    """
    return _told(_SWOLLEN, words)


def _told(of: re.Pattern[str], words: str) -> str | None:
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
    return _told(_DANGER, words) is not None


_OF_A_PACK = re.compile(r"\b(?:packs?|batter(?:y|ies)|lipos?|cells?)\b", re.IGNORECASE)


def speaks_of_a_pack(words: str) -> bool:
    """Whether a pack is among what they are about, though no tag names one."""
    return _OF_A_PACK.search(words) is not None


FAILSAFE, FAILSAFE_AGAIN = "failsafe", "failsafe-again"

_THROTTLE = ("throttle", "motor", "motors")
_OTHERS = ("rest", "all", "each", "every", "others")
_HELD = re.compile(
    r"\b(hold|holds|held|last|keeps?|kept|running|runs? on|ran on|carr(y|ies|ied) on"
    r"|go(es)? on|went on|continue[sd]?|freezes?|frozen|stay(s|ed)?)\b"
)
_NOT_STOPPED = re.compile(r"(\bnot|\bnever|n't) (stop|cut)")
_RAN_ON = re.compile(
    r"\b(ran|runs?) on\b(?! \d)"
    r"|\b(kept|keeps?|still|on|continue[sd]?|stay(s|ed)?) (running|turning|spinning)\b"
    r"|\bthrottle (was )?held\b"
)
_FOR_S = re.compile(r"\b(after )?(\d+(?:\.\d+)?) ?(?:s|sec|seconds)\b")
_STOPS = re.compile(
    r"\b(cut|cuts|stop|stops|stopped|off|none|no pulses?|low|zero|closed|drop|drops|dropped"
    r"|dead|silent|shuts? down|ran down|runs? down)\b"
)
_OPENS = re.compile(r"\b(full|half|opens?|opened|wide open|revs?|speeds? up|high)\b")
_SEVERAL = re.compile(r"\b(throttle|rest|all|motors?) ?: ")
_STOPPED = re.compile(r"\b(stop|stops|stopped|cut|cuts)\b")
_AS_SET = re.compile(r"^(did |does )?(ok(ay)?|(what was|as) (set|planned|recorded|written))\W*$")
_IS_MOTOR = re.compile(r"\b(throttle|motors?)\b")
_NAMES_IT = re.compile("throttle|motor")
_SHARE = re.compile(r"^(?:(?:goes|went|set|falls|drops?) (?:back )?to )?(-?\d+(?:\.\d+)?) ?%")
_PULSE = re.compile(r"^(\d{3,4}) ?(?:[µμ]s|us)?$")
STOP_US = 1050.0
"""A pulse up to here stops a motor; by longer ones it may turn. Common practice, no source."""

Effect = Literal["stops", "runs", "as set", "unknown"]


class ThrottleDoes(NamedTuple):
    """What it does, as written. named: the same after the name of what does it.

    effect: ``unknown`` where the words are none that are known.
    """

    written: str
    named: str
    effect: Effect

    @property
    def keeps_running(self) -> bool:
        """Whether the motor goes on, or starts."""
        return self.effect == "runs"


def of_throttle(readings: Mapping[str, str]) -> dict[str, str]:
    """Those of the readings of a failsafe check that are of the throttle by their name."""
    wanted = (FAILSAFE, *_THROTTLE)
    named = ((name, said) for name, said in readings.items())
    return {name: said for name, said in named if name.lower().rpartition(".")[2] in wanted}


def throttle_does(of: Mapping[str, str]) -> ThrottleDoes | None:
    """What the throttle does by these names; what is said of all or of the rest holds for it too.

    Under the name ``failsafe`` it is the part that speaks of throttle or motor, else all of it.
    None: nothing.
    """
    by_name = {name.lower().rpartition(".")[2]: said for name, said in of.items()}
    for name in (*_THROTTLE, *_OTHERS):
        if name in by_name:
            return _does(by_name[name])
    said = by_name.get(FAILSAFE, "").strip()
    of_motor = next((one for one in re.split("[,;]", said) if _IS_MOTOR.search(one.lower())), said)
    if not said:
        return None
    does = _does(of_motor.strip())
    named = _IS_MOTOR.search(of_motor.lower())
    if named and does.effect == "unknown" and _STOPPED.search(said):  # of it, in a later part
        return _does(said)
    return does if named or not does.keeps_running else does._replace(effect="unknown")


def throttle_ran_on(findings: str | None) -> ThrottleDoes | None:
    """That part of what a look found that tells of a motor which did not stop, if any does.

    Such words may be about other looks too: a motor that held its screws is none that ran on.
    """
    for part in re.split(r"[,;]|[.!?](?:\s|$)", findings or ""):
        said = part.lower()
        told = _RAN_ON.search(said) or _NOT_STOPPED.search(said)
        if told and _IS_MOTOR.search(said) and (does := _does(part.strip())).keeps_running:
            return does
    return None


def _does(written: str) -> ThrottleDoes:
    said = written.lower()
    named = written if _NAMES_IT.match(said) else f"throttle {written}"
    return ThrottleDoes(written, named, _effect(said.strip()))


RAN_ON_S = 10.0
"""A motor that stops so long after its link did not stop. Common practice, no source."""


def _effect(said: str) -> Effect:
    if _SEVERAL.search(said):
        return "unknown"
    if _NOT_STOPPED.search(said):
        return "runs"
    if _AS_SET.search(said):
        return "as set"
    share, pulse = _SHARE.match(said), _PULSE.match(said)
    if share is not None and not _STOPPED.search(said):
        return "runs" if float(share[1]) > 0 else "stops"
    stops = _STOPS.search(said)
    if stops:  # at once, or after a while
        whiles = _FOR_S.finditer(said)
        late = any(
            float(one[2]) >= RAN_ON_S and (one[1] is not None or one.start() < stops.start())
            for one in whiles
        )
        return "runs" if late else "stops"
    if pulse is not None:
        return "runs" if float(pulse[1]) > STOP_US else "stops"
    return "runs" if _HELD.search(said) or _OPENS.search(said) else "unknown"
