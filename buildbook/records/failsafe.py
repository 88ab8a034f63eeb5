"""What a keeper's own words say that the throttle does when the link is lost.

In the failsafe of the radio as in the readings of its check: a figure is the throttle held, ``cut``
and ``0 %`` stop it, at once or after a while.
"""

import re
from collections.abc import Mapping
from typing import NamedTuple

FAILSAFE = "failsafe"

_THROTTLE = ("throttle", "motor", "motors")
_OTHERS = ("rest", "all", "each", "every", "others")
_HELD = re.compile(r"\b(hold|holds|held|last|keeps?|running|runs? on|freezes?|frozen|stays?)\b")
_STOPS = re.compile(r"\b(cut|cuts|stop|stops|stopped|off|none|no pulses?|low|zero|closed)\b")
_IS_MOTOR = re.compile(r"\b(throttle|motors?)\b")
_NAMES_IT = re.compile("throttle|motor")
_SHARE = re.compile(r"^(\d+(?:\.\d+)?) ?%")


class ThrottleDoes(NamedTuple):
    """What it does, as written. named: the same after the name of what does it."""

    written: str
    named: str
    keeps_running: bool


def throttle_does(of: Mapping[str, str]) -> ThrottleDoes | None:
    """What the throttle does by these names; what is said of all or of the rest holds for it too.

    Under the name ``failsafe`` it is the part that speaks of throttle or motor. None: nothing.
    """
    by_name = {name.lower().rpartition(".")[2]: said for name, said in of.items()}
    for name in (*_THROTTLE, *_OTHERS):
        if name in by_name:
            return _does(by_name[name])
    parts = re.split("[,;]", by_name.get(FAILSAFE, ""))
    return next((_does(part.strip()) for part in parts if _IS_MOTOR.search(part.lower())), None)


def _does(written: str) -> ThrottleDoes:
    said = written.lower()
    named = written if _NAMES_IT.match(said) else f"throttle {written}"
    return ThrottleDoes(written, named, _keeps_running(said.strip()))


def _keeps_running(said: str) -> bool:
    if _STOPS.search(said):  # at once, or after a while
        return False
    share = _SHARE.match(said)
    return float(share[1]) > 0 if share is not None else bool(_HELD.search(said))
