"""What is declared of a figure beside its answer: names, unit, who sees it, laws, tests."""

from collections.abc import Callable, Iterator

import msgspec

from buildbook.figures.answers.craft import Craft, Part
from buildbook.figures.answers.working import Answer, Way, attempt_each, attempt_packs
from buildbook.records.declare import Shown
from buildbook.report.figure import CannotSay, Figure, Wording
from buildbook.report.figures.known_figures import Headline, Topic
from buildbook.report.state import ItemNow

_OF_THE_DRIVE: tuple[Topic, ...] = ("Time in the air", "Thrust and hover", "Margins and wires")


def hovering(craft: Craft) -> bool:
    """Of what can hover."""
    return craft.hovers


def winged(craft: Craft) -> bool:
    """Of what flies by its wing."""
    return not craft.hovers


class FigureSpec(msgspec.Struct, frozen=True, kw_only=True):
    """One figure, for everybody who asks: registry, pages, words, audience, tests.

    name: its key in JSON. title, line: name and a few words on the page of figures. about: a
    sentence on the page of sources. topic: the heading under which it stands.
    unit: SI symbol, or ``ratio`` or ``count``; further_units: those of its other rows.
    worded: how a value in ``unit`` is said, where the unit alone does not tell.
    shown: who may see it, private unless said; an answer may say it of one of its figures itself.
    of_aircraft, of_item, of_pack: the answer, for each kind of subject that has the figure: one,
    or several. with_each_pack: one of an aircraft for each of its packs. asked_of: of which
    aircraft; of the others nothing is said.
    laws: keys of the registry of laws. methods: what is no law. held_by: tests that fail when the
    answer or one of its laws is wrong.
    """

    name: str
    title: str
    line: str
    about: str
    topic: Topic
    unit: str
    further_units: tuple[str, ...] = ()
    worded: Wording = ""
    shown: Shown = "private"
    asked_of: Callable[[Craft], bool] | None = None
    of_aircraft: Callable[[Craft], Figure | Iterator[Answer]] | None = None
    with_each_pack: Callable[[Craft, ItemNow], Figure] | None = None
    of_item: Callable[[Part], Figure | Iterator[Answer]] | None = None
    of_pack: Callable[[Part], Figure | Iterator[Answer]] | None = None
    laws: tuple[str, ...] = ()
    methods: tuple[Way, ...] = ()
    held_by: tuple[str, ...]
    headline: Headline | None = None

    @property
    def is_of_aircraft(self) -> bool:
        """Whether aircraft have it."""
        return self.of_aircraft is not None or self.with_each_pack is not None

    def answers_of_aircraft(self, craft: Craft) -> Iterator[Answer]:
        """Its figures of an aircraft, marked with who may see each.

        What nobody can say of a drive is not told of an aircraft that has none.
        """
        silent = self.topic in _OF_THE_DRIVE and not craft.now.record.has_motor
        for said in attempt_each(self.name, self._said_of, craft):
            if not (silent and isinstance(said, CannotSay)):
                yield self._marked(said)

    def answers_of_item(self, part: Part) -> Iterator[Answer]:
        """Its figures of an item, marked with who may see each."""
        for answer in (self.of_item, self.of_pack if part.item.is_pack else None):
            if answer is not None:
                yield from map(self._marked, attempt_each(self.name, answer, part))

    def _said_of(self, craft: Craft) -> Iterator[Answer]:
        if self.asked_of is None or self.asked_of(craft):
            if self.with_each_pack is not None:
                yield from attempt_packs(self.name, craft, self.with_each_pack)
            if self.of_aircraft is not None:
                yield from attempt_each(self.name, self.of_aircraft, craft)

    def _marked(self, said: Answer) -> Answer:
        shown = self.shown if said.shown == "private" else said.shown
        if isinstance(said, CannotSay):
            return msgspec.structs.replace(said, shown=shown)
        in_any_unit = self.worded == "rough"
        worded = self.worded if in_any_unit or said.unit == self.unit else ""
        return msgspec.structs.replace(said, shown=shown, worded=worded)
