"""What a keeper's own words say of the throttle when the link is lost: cut, held, or neither.

And whether they tell of a flight on which it was lost, or of a receiver bound anew.
"""

import re
from collections.abc import Mapping
from typing import Literal, NamedTuple

from buildbook.records.readings import clause_telling

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
    if not said:
        return None
    of_motor = next((one for one in re.split("[,;]", said) if _IS_MOTOR.search(one.lower())), said)
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


_BOUND_ANEW = re.compile(
    r"\b(?:re-?)?bound (?:the |its |my )?(?:receiver|transmitter)|\bre-?bound (?:it|to|both)\b"
    r"|\breceiver (?:was |is )?(?:re-?)?bound\b|\bre-?bind(?:ing)? (?:the |of the )?receiver\b",
    re.IGNORECASE,
)


def binding_told(words: str) -> str | None:
    """That clause of a keeper's words that tells of a receiver taught its transmitter anew."""
    return clause_telling(_BOUND_ANEW, words)


_IN_FLIGHT: Mapping[str, re.Pattern[str]] = {
    what: re.compile(rf"\b(?:{words})\b", re.IGNORECASE)
    for what, words in {
        "link lost": r"los(?:t|ing|es) (?:the |all )?(?:link|signal|radio)|link (?:was )?lost"
        r"|failsafe (?:hit|cut in|kicked in|came on|triggered)|signal loss|loss of (?:link|signal)",
        "flutter": "flutter(?:s|ed|ing)?",
        "power dip": r"brown(?:ed)?[- ]?outs?|(?:motor|power) (?:dipped|cut out)",
        "water": r"(?:in|into) (?:the |a )?(?:pond|lake|river|sea|stream|canal|water)|ditched"
        r"|fished out|got (?:very )?wet|soaked",
    }.items()
}


def told_of_flight(words: str) -> tuple[str, str] | None:
    """``link lost`` or the like that words tell of a flight, and their clause; None: of none."""
    for what, pattern in _IN_FLIGHT.items():
        told = clause_telling(pattern, words)
        if told is not None:
            return what, told
    return None
