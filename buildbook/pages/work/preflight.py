"""The look before a flight, item by item.

Restated after section 4a of the record rules of this project, which name their source for each
item: the preflight list of AC 107-2 as seen on a secondary page (S), 14 CFR 107.49 (S), UK AMC to
UAS.OPEN.060 (V, read); the last two are from memory (M).
"""

from typing import NamedTuple


class Look(NamedTuple):
    """One thing to look at. ``wings``: only where there are surfaces; None: on everything.

    hovering: the words for an aircraft without wings, where they are others; thrown: for one
    without a motor, a dash where it is not looked at.
    """

    id: str
    words: str
    source: str
    wings: bool | None = None
    hovering: str = ""
    thrown: str = ""


PREFLIGHT: tuple[Look, ...] = (
    Look("marking", "Marking present and legible", "AC 107-2"),
    Look(
        "frame",
        "Frame, undercarriage and skin whole",
        "AC 107-2",
        hovering="Frame, arms and legs whole",
    ),
    Look("surfaces", "Surfaces, hinges, linkages, servos and their mounts", "AC 107-2", wings=True),
    Look("motors", "Motors, propellers or rotors, and what holds them", "AC 107-2", thrown="-"),
    Look("power", "Enough power in aircraft and transmitter, pack latched", "AC 107-2"),
    Look("link", "Radio link and antennas, at both ends", "AC 107-2"),
    Look(
        "movement",
        "Sticks and surfaces move the right way",
        "AC 107-2",
        hovering="It responds to each stick the right way",
    ),
    Look("sensors", "On-board navigation and sensors, compass if fitted", "AC 107-2"),
    Look("ground-gear", "Display and ground equipment", "AC 107-2"),
    Look("load", "Camera or load secured", "14 CFR 107.49"),
    Look("link-loss", "Link-loss action set for this site", "UK AMC1 UAS.OPEN.060(1)(d)"),
    Look("remote-id", "Remote identification and lights working, if used", "UK AMC UAS.OPEN.060"),
    Look("clear", "Nothing loose or in the way, people clear", "from memory"),
    Look(
        "hover",
        "Start, listen, move each control once more, then go",
        "from memory",
        hovering="Start, listen, hover low for a moment, then go",
        thrown="Move each control once more, look ahead, then go",
    ),
)
"""In the order in which a person walks round the aircraft."""


def looks(*, wings: bool, motor: bool = True) -> tuple[Look, ...]:
    """The list for an aircraft with or without control surfaces, and a motor."""
    asked = (look for look in PREFLIGHT if look.wings is None or look.wings == wings)
    said = ((look, _words(look, wings, motor)) for look in asked)
    return tuple(look._replace(words=words) for look, words in said if words != _NOT_LOOKED_AT)


_NOT_LOOKED_AT = "-"


def _words(look: Look, wings: bool, motor: bool) -> str:
    if not motor and look.thrown:
        return look.thrown
    return look.words if wings or not look.hovering else look.hovering
