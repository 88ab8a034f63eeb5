"""What a setting is about, by the name and the value that a keeper gave it."""

import re
from collections.abc import Iterable

_OF_THE_RADIO = re.compile(
    r"\b(revers\w*|mix\w*|end ?points?|ends|travels?|fail ?safe|memory)\b", re.IGNORECASE
)
_BOUND = re.compile(r"\b((re ?)?bind(ing)?|re bound|receiver (re ?)?bound)\b", re.IGNORECASE)
_OF_TURNING = re.compile(r"\b(direction|revers\w*|rotation|spin|turns)\b", re.IGNORECASE)
_OF_MOTORS = re.compile(r"\b(motors?|escs?|spin|rotation)\b", re.IGNORECASE)
_OF_ALARM = re.compile(r"\balarm\b", re.IGNORECASE)


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


def stations_named(name: str, value: str, stations: Iterable[str]) -> list[str]:
    """Those of the stations whose name, with spaces or hyphens, stands in it."""
    return [one for one in stations if _spaced(one) in _spaced(f"{name} {value}")]


def _spaced(name: str) -> str:
    return name.replace("_", " ").replace("-", " ")
