"""The closed list of triggers, and how one is written."""

from collections.abc import Mapping
from functools import lru_cache
from typing import Annotated

import msgspec

from buildbook.basis import notation
from buildbook.basis.nearest import did_you_mean
from buildbook.basis.notation import Age, NotationError, quoted
from buildbook.records.declare import PUBLIC
from buildbook.records.entries import NOTICED, alterable
from buildbook.records.keys.shapes import Several
from buildbook.records.keys.values import Scalar
from buildbook.records.parts import KINDS

_age = lru_cache(64)(notation.age)


class Trigger(msgspec.Struct, frozen=True):
    """What re-opens a row: an event and, where it has one, its subject (``fit`` ``motor``)."""

    event: Annotated[str, PUBLIC]
    subject: Annotated[str | None, PUBLIC] = None

    @property
    def age(self) -> Age:
        """How long without flying, of ``idle``."""
        return _age(self.subject or "0 days")

    def __str__(self) -> str:
        return self.event if self.subject is None else f"{self.event} {self.subject}"


# Events that re-open a row; what stands after each, where something must.
TRIGGERS: Mapping[str, str | None] = {
    "fit": "a kind of item",
    "remove": "a kind of item",
    "move": "a kind of item",
    "overhaul": "a kind of item",
    "repair": None,
    "crash": None,
    "hard landing": None,
    "water": None,
    "firmware": "a kind of item",
    "setting": "a name",
    "gains": None,
    "alteration": "a key of aircraft.yaml",
    "calibration": "a name",
    "transport": None,
    "rewired": None,
    "noticed": "what was noticed",
    "idle": "a time",
    "another cell count": None,
    "another pack mass": None,
}
_BARE = ("firmware",)
"""What may stand alone, and is then of any kind."""


def _trigger(text: str) -> Trigger:
    words = " ".join(text.split())
    if words in _BARE or (words in TRIGGERS and TRIGGERS[words] is None):
        return Trigger(words)
    event, _, subject = words.partition(" ")
    wanted = TRIGGERS.get(event)
    if wanted is None:
        known = [name if after is None else f"{name} …" for name, after in TRIGGERS.items()]
        raise NotationError(
            f"unknown trigger {quoted(text)}",
            did_you_mean(words, TRIGGERS)
            or did_you_mean(event, TRIGGERS)
            or f"one of {', '.join(known)}",
        )
    if not subject:
        raise NotationError(
            f"trigger {quoted(text)} does not name {wanted}", f"as in {_EXAMPLES[event]}"
        )
    if wanted == "a kind of item" and subject not in KINDS:
        raise NotationError(
            f"trigger {quoted(text)} names no kind of item", did_you_mean(subject, KINDS)
        )
    if event == "alteration" and subject not in (altered := (*alterable(), "mass")):
        raise NotationError(
            f"trigger {quoted(text)} names no key of aircraft.yaml", did_you_mean(subject, altered)
        )
    if event == "noticed" and subject not in NOTICED:
        raise NotationError(
            f"trigger {quoted(text)} names nothing that can be noticed",
            did_you_mean(subject, NOTICED) or f"one of {', '.join(NOTICED)}",
        )
    if event == "idle":
        notation.age(subject)
    return Trigger(event, subject)


_EXAMPLES = {
    "fit": "fit motor",
    "remove": "remove motor",
    "move": "move controller",
    "overhaul": "overhaul motor",
    "firmware": "firmware controller",
    "setting": "setting start_throttle",
    "alteration": "alteration stations",
    "calibration": "calibration accelerometer",
    "noticed": "noticed flutter",
    "idle": "idle 30 days",
}


_TRIGGER = Scalar("a trigger", _trigger, {"type": "string", "description": "fit motor, crash, …"})
Triggers = Annotated[tuple[Trigger, ...], Several(_TRIGGER, single=True)]
"""One trigger, or a list of them."""
