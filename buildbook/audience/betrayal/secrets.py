"""Secrets: values whose name says so, numbers of radios and networks, operator numbers."""

import re
from collections.abc import Iterator

from buildbook.audience.betrayal.pattern import Betrayal, words

_PARTS = re.compile(r"[A-Z]{1,40}(?![a-z])|[A-Z]?[a-zà-ÿ]{1,60}|\d{1,40}")
_WHOLE = words(
    "password passwords passwd pwd passphrase passcode phrase key keys token tokens pin pins "
    "puk psk wpa bind binding uid uuid guid ssid bssid mac serial serials sn imei imsi iccid "
    "secret secrets credential credentials licence license registration operator lat latitude "
    "lon lng longitude coordinate coordinates coords geo waypoint waypoints address phone "
    "telephone mobile mail email owner callsign"
)
"""Words in the name of a setting or reading that make its value private."""
_WITHIN = ("password", "passphrase", "passwd", "passcode", "secret", "ssid", "token", "serial")
"""The same, also as a part of a longer word: ``wifipassword``, ``serialnumber``."""


def is_private_name(name: str) -> bool:
    """Whether the name of a setting says that its value is a secret, a serial or a place.

    ``bind_phrase``, ``apiKey``, ``WiFi-SSID``, ``gps.home.lat``.
    """
    lower = name.lower()
    if any(part in lower for part in _WITHIN):
        return True
    return any(part.lower() in _WHOLE for part in _PARTS.findall(name))


_SAYS = re.compile(
    r"(?<![\w-])(?:"
    r"(?:pass(?:word|phrase|code|wd)s?|pwd|psk|ssid|(?:bind(?:ing)?|wi-?fi|wpa|network) ?-?"
    r"(?:phrase|password|key|name|u?id|code))(?: is|:| ?=) ?\S"
    r"|(?:(?:api|access|licen[cs]e|encryption|private|secret)[ _-]?key|key|token|secret|uid|pin|puk"
    r"|imei|mac(?: address)?|serial(?: ?(?:no|nr|number|num)\b\.?)?|s/n|sn)(?: ?[:=#]) ?[\w\"'<]"
    r"|serial (?:no\b\.?|nr\b\.?|number) ?(?:is )?[\w\"'<]"
    r")",
    re.IGNORECASE,
)
_MAC = re.compile(
    r"(?<![\w:-])(?:[0-9A-Fa-f]{2}(?P<sign>[:-]))(?:[0-9A-Fa-f]{2}(?P=sign)){4}[0-9A-Fa-f]{2}"
    r"(?:(?P=sign)[0-9A-Fa-f]{2}){0,2}(?![\w:-])"
    r"|(?<![\w.])[0-9A-Fa-f]{4}\.[0-9A-Fa-f]{4}\.[0-9A-Fa-f]{4}(?![\w.]\w)(?!\w)"
)
# Three capitals for the state, thirteen signs; source as in records/checking/secrets.py.
_OPERATOR = re.compile(r"(?<![A-Za-z0-9])[A-Z]{3}[ -]?[0-9a-z]{13}(?![0-9A-Za-z])")


def _said(text: str) -> Iterator[int]:
    return (found.start() for found in _SAYS.finditer(text))


def _network(text: str) -> Iterator[int]:
    return (found.start() for found in _MAC.finditer(text))


def _operators(text: str) -> Iterator[int]:
    for found in _OPERATOR.finditer(text):
        if any(sign.isdigit() for sign in found.group()):
            yield found.start()


SECRETS = (
    Betrayal("looks like a password, a key or a serial number", _said, "anything"),
    Betrayal("looks like the address of a network device", _network),
    Betrayal("looks like an operator number", _operators),
)
PATTERNS = (_PARTS, _SAYS, _MAC, _OPERATOR)
