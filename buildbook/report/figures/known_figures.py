"""What is known of every figure before anything is worked out: names, topics, sources."""

from collections.abc import Mapping
from typing import Annotated, Literal

import msgspec

from buildbook.records.declare import PUBLIC, Shown

Topic = Literal[
    "Mass and balance",
    "Time in the air",
    "Thrust and hover",
    "Margins and wires",
    "Layout and control",
    "Energy",
    "Time in service",
]

Pick = Literal["only", "most", "least low"]


class Headline(msgspec.Struct, frozen=True, kw_only=True):
    """How a figure stands on the front page of its aircraft.

    place: counted from 1, in the order of the page. of: the subjects asked for, best first.
    pick: which of several packs; words: said of the one picked.
    """

    place: Annotated[int, PUBLIC]
    of: Annotated[tuple[str | None, ...], PUBLIC] = ()
    pick: Annotated[Pick, PUBLIC] = "only"
    words: Annotated[str, PUBLIC] = ""


class Step(msgspec.Struct, frozen=True, kw_only=True):
    """A law or method of a figure. mathml: the formula of a law, "" where it is a method."""

    method: Annotated[str, PUBLIC]
    mathml: Annotated[str, PUBLIC] = ""
    source: Annotated[str, PUBLIC]
    valid: Annotated[str, PUBLIC] = ""


class KnownFigure(msgspec.Struct, frozen=True, kw_only=True):
    """A figure as its ``FigureSpec`` declares it.

    line: a few words under its title; about: a sentence. held_by: files of tests.
    shown: who may see it at all.
    """

    name: Annotated[str, PUBLIC]
    title: Annotated[str, PUBLIC]
    line: Annotated[str, PUBLIC]
    about: Annotated[str, PUBLIC]
    topic: Annotated[str, PUBLIC]
    shown: Annotated[Shown, PUBLIC]
    headline: Annotated[Headline | None, PUBLIC] = None
    steps: Annotated[tuple[Step, ...], PUBLIC] = ()
    held_by: Annotated[tuple[str, ...], PUBLIC] = ()


class LawFacts(msgspec.Struct, frozen=True, kw_only=True):
    """A law as a page shows it. mathml: "" where it is no straight formula."""

    mathml: Annotated[str, PUBLIC]
    valid: Annotated[str, PUBLIC]


class KnownFigures(msgspec.Struct, frozen=True, kw_only=True):
    """All figures, in the order in which they are shown, and the laws by their keys."""

    figures: Annotated[tuple[KnownFigure, ...], PUBLIC]
    laws: Annotated[Mapping[str, LawFacts], PUBLIC]

    def get(self, name: str) -> KnownFigure | None:
        """The figure of that name; None where this audience is not told of it."""
        return next((known for known in self.figures if known.name == name), None)

    def topics(self) -> Mapping[str, tuple[KnownFigure, ...]]:
        """The figures by topic, both in order."""
        found: dict[str, list[KnownFigure]] = {}
        for known in self.figures:
            found.setdefault(known.topic, []).append(known)
        return {topic: tuple(names) for topic, names in found.items()}
