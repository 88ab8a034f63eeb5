"""What each state means: of an aircraft, a row, a pack."""

from collections.abc import Iterator, Mapping
from typing import get_args

from buildbook.records.parts import ItemState
from buildbook.records.row_names import SIGNAL_TASKS
from buildbook.report.upkeep.work import AircraftState, RowState
from buildbook.words.vocabulary.term import Term

AIRCRAFT_STATES: Mapping[AircraftState, str] = {
    "nothing open": "The records show nothing that is due or stale. Look at the aircraft yourself.",
    "due soon": "Nothing grounds it, but something is open or due, or falls due within what the"
    " hangar calls soon.",
    "grounded": "Something recorded, or something missing from the records, must be seen to before "
    "it flies; the reasons say what.",
    "cannot say": "The records say too little: no programme applies, or rows can't be judged.",
    "building": "Its log says that it is being built; nothing is due before it first flies.",
    "stored": "Put away by the keeper; what falls due meanwhile comes before it flies again.",
    "retired": "Out of use for good; its record stays.",
    "sold": "It went to somebody else; its record stays.",
}
ROW_STATES: Mapping[RowState, str] = {
    "never done": "The logbook has no entry of it.",
    "ok": "Passed, and nothing has happened since that would re-open it.",
    "stale": "Passed once; then something it depends on changed or happened.",
    "failed": "The newest entry of it is a fail, or its readings contradict the records.",
    "due soon": "Near the end of its interval.",
    "due": "Its interval is used up today.",
    "in tolerance": "Past its interval, within the tolerance that the programme gives it.",
    "overdue": "Past its interval and its tolerance.",
    "reached": "A life limit is reached. It has no tolerance.",
    "open": "A defect or a finding that nobody has cleared; a pass that readings speak against.",
    "deferred": "A defect that may wait, for as long as its entry says.",
    "not applicable": "It doesn't apply here; the programme or the layout says why.",
}
ITEM_STATES: Mapping[ItemState, str] = {
    "serviceable": "In use, as far as its keeper has written.",
    "quarantined": "Set aside: not charged, fitted or flown until an entry releases it.",
    "retired": "Out of use for good; its record stays.",
    "scrapped": "Destroyed or disposed of; its record stays.",
}


def states_of() -> Iterator[tuple[str, str, str]]:
    """Each state, whose it is and what it means, in the order of its type."""
    for state in get_args(AircraftState):
        yield state, "an aircraft", AIRCRAFT_STATES[state]
    for row in get_args(RowState):
        yield row, "a row", ROW_STATES[row]
    for item in get_args(ItemState):
        yield item, "a part", ITEM_STATES[item]


def states() -> Iterator[Term]:
    """A state of one name may be that of an aircraft and that of a row: two terms."""
    for state, whose, what in states_of():
        yield Term(word=state, kind=f"state of {whose}", what=what)


KNOWN_BY: Mapping[str, tuple[str, str]] = {
    "measured": ("measured", "Read at the bench or at the field, or worked out from such alone."),
    "weighed": ("weighed", "Read off the scales; nothing that weighs has changed since."),
    "computed": ("computed", "Worked out from other values, as a mass from those of its parts."),
    "fitted": ("from the log", "Worked out from the flights and charges that were written."),
    "spec": ("from sheet or plan", "As the sheet of a part or the plan of the aircraft says."),
    "default": ("assumed", "Nobody wrote it; a value of common practice stands in."),
}
"""How a value is known, by its name in JSON: what is printed beside it, and what that means."""


def known_by() -> Iterator[Term]:
    """A term by the name in JSON, and one by what is printed where that is another."""
    for name, (said, what) in KNOWN_BY.items():
        for word in dict.fromkeys((name, said)):
            yield Term(
                word=word,
                kind="how a value is known",
                what=what,
                where=("beside figures; as basis in JSON",) if name != "weighed" else (),
            )


_OPENED: Mapping[str, str] = {
    "charged-wrongly": "Opened by a charge of more than the pack holds, in the cold or heat, too"
    " fast, or as one with an unlike pack; a pack-look closes it.",
    "drying": "Opened by water, whatever the programme says; solder-and-leads or full-inspection"
    " closes it as well.",
    "broadcast-check": "Opened where a remote ID module came from another aircraft.",
    "update-registration": "Opened on both aircraft when a remote ID module went from one to the"
    " other.",
}
"""Tasks that something else than a reading opens."""


def signals() -> Iterator[Term]:
    """Tasks that no programme has."""
    for name in SIGNAL_TASKS:
        yield Term(
            word=name,
            kind="task",
            what=_OPENED.get(name, "Opened by readings or figures, whatever the programme says."),
            details=(("close it by", f"inspection: [{name}], with what was found"),),
        )
