"""The shape and tone that stand beside each state: the disc fills as the time runs out.

A state is told by its word first; shape and tone repeat it, so that it reads in greyscale too.
"""

from collections.abc import Mapping
from typing import Literal, NamedTuple

Shape = Literal[
    "ring",
    "half",
    "disc",
    "dashed",
    "square",
    "barred",
    "cross",
    "flag",
    "half-flag",
    "open",
    "dash",
]
Tone = Literal["good", "warn", "bad", "calm"]


class Mark(NamedTuple):
    """How a state is drawn."""

    shape: Shape
    tone: Tone


MARKS: Mapping[str, Mark] = {
    # aircraft
    "nothing open": Mark("ring", "good"),
    "grounded": Mark("barred", "bad"),
    "cannot say": Mark("dashed", "calm"),
    "building": Mark("open", "calm"),
    "flying": Mark("ring", "calm"),
    "stored": Mark("dash", "calm"),
    "retired": Mark("dash", "calm"),
    "sold": Mark("dash", "calm"),
    # rows
    "ok": Mark("ring", "good"),
    "due soon": Mark("half", "warn"),
    "due": Mark("disc", "warn"),
    "in tolerance": Mark("disc", "warn"),
    "overdue": Mark("square", "bad"),
    "reached": Mark("square", "bad"),
    "failed": Mark("cross", "bad"),
    "stale": Mark("dashed", "bad"),
    "never done": Mark("dashed", "bad"),
    "open": Mark("flag", "bad"),
    "deferred": Mark("half-flag", "warn"),
    "noted": Mark("open", "calm"),
    "not applicable": Mark("dash", "calm"),
    # items
    "serviceable": Mark("ring", "good"),
    "quarantined": Mark("barred", "bad"),
    "scrapped": Mark("dash", "calm"),
    # results
    "pass": Mark("ring", "good"),
    "fail": Mark("cross", "bad"),
}

UNKNOWN = Mark("dashed", "calm")


def mark_of(state: str) -> Mark:
    """The mark of a state; one that nobody foresaw is drawn as unknown, never as good."""
    return MARKS.get(state, UNKNOWN)
