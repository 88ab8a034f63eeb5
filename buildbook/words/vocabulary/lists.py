"""A word with what it means, and lists that are closed: triggers, layouts, columns of a bench …"""

from collections.abc import Iterator, Mapping
from typing import Literal, get_args

import msgspec

from buildbook.records.layouts import LAYOUTS, Layout
from buildbook.records.parts import ItemState
from buildbook.records.reading.bench import COLUMNS
from buildbook.records.row_names import SIGNAL_TASKS
from buildbook.records.triggers import TRIGGERS
from buildbook.report.figure import BASIS_WORDS, Basis
from buildbook.report.state import OfDefects
from buildbook.report.upkeep.work import AircraftState, RowState


class Term(msgspec.Struct, frozen=True, kw_only=True):
    """A word and what it means.

    kind: what it is (``key``, ``check`` …). where: the files, entries or programmes that have it.
    details: further lines, each with its label.
    """

    word: str
    kind: str
    what: str
    where: tuple[str, ...] = ()
    details: tuple[tuple[str, str], ...] = ()


TRIGGER_WORDS: Mapping[str, str] = {
    "fit": "A part of that kind was fitted.",
    "remove": "A part of that kind was taken out.",
    "move": "A part of that kind went to another station.",
    "overhaul": "A part of that kind was overhauled where it sits; pulls what fitting it pulls.",
    "repair": "A repair was written, of the aircraft or of the part that the row is about.",
    "crash": "A landing that was a crash, or an incident that was hard or total.",
    "hard landing": "A landing that was hard, or a light incident; a crash counts too.",
    "water": "It, or the part, got wet.",
    "firmware": "The firmware of a part, or of one of that kind, was changed.",
    "setting": "The setting of that name was changed.",
    "gains": "Another gain set came into force.",
    "alteration": "That key of aircraft.yaml was altered.",
    "calibration": "That calibration was done again.",
    "transport": "It made a long trip.",
    "rewired": "Motor leads or the wiring of a station were changed.",
    "noticed": "That was noticed on a flight.",
    "idle": "It was not flown for that long.",
    "another cell count": "It flew with a pack of another cell count for the first time.",
    "another pack mass": "It flew with a pack over a tenth heavier or lighter than those before.",
}


def triggers() -> Iterator[Term]:
    """What re-opens a check or a task."""
    for event, after in TRIGGERS.items():
        yield Term(
            word=event,
            kind="trigger",
            what=f"Re-opens a check or a task. {TRIGGER_WORDS[event]}",
            where=("stale_after, also_after and follows of a programme",),
            details=(("followed by", after),) if after else (),
        )


def layouts() -> Iterator[Term]:
    """The layouts, each with its stations in reading order."""
    yield from map(_layout, LAYOUTS.values())


def _layout(layout: Layout) -> Term:
    stations = ", ".join(layout.names) or "named by what is fitted or declared there"
    if layout.motorless:
        stations = "none"
    return Term(
        word=layout.name,
        kind="layout",
        what=f"{layout.words[:1].upper()}{layout.words[1:]}.",
        where=("layout of aircraft.yaml",),
        details=(("motor stations", stations),),
    )


def stations() -> Iterator[Term]:
    """Each motor station once, with the layouts that have it."""
    found: dict[str, list[str]] = {}
    for layout in LAYOUTS.values():
        for name in layout.names:
            found.setdefault(name, []).append(layout.name)
    for name, names in found.items():
        yield Term(
            word=name,
            kind="motor station",
            what="Seen from above, front ahead.",
            details=(("layouts", ", ".join(names)),),
        )


def columns() -> Iterator[Term]:
    """What a bench table may hold."""
    for name, (_, _, least, most) in COLUMNS.items():
        yield Term(
            word=name,
            kind="bench column",
            what="A column of a table of bench/, named in its first line.",
            where=("bench/*.csv",),
            details=(("from", f"{least:,.0f} to {most:,.0f}"),),
        )


INSERTS: Mapping[str, tuple[str, str]] = {
    "layout": ("The layout drawing", "@ layout"),
    "wiring": ("The wiring drawing", "@ wiring"),
    "parts": ("The parts that are fitted", "@ parts"),
    "figure": (
        "A figure with its working; name a pack where there are several",
        "@ figure flight_time",
    ),
    "gains": ("A gain set", "@ gains soft"),
    "balance": ("What weighs where, as a drawing and a table", "@ balance"),
    "surfaces": ("The control surfaces of an aeroplane with their throws", "@ surfaces"),
    "timeline": ("What happened, on a timeline", "@ timeline"),
    "set-up": ("The set-up checks and their readings", "@ set-up"),
    "entry": ("An entry of the logbook", "@ entry 2026-05-17-1"),
    "photo": ("A photograph with its caption", '@ photo arm.jpg "The new arm"'),
}
"""What each shows, and an example. Each stands alone on its line."""


def inserts() -> Iterator[Term]:
    """One term an insert."""
    for name, (what, example) in INSERTS.items():
        yield Term(
            word=name,
            kind="insert",
            what=f"{what}.",
            where=("write-up.md, alone on its line",),
            details=(("as in", example),),
        )


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
CONDITIONS: Mapping[OfDefects, str] = {
    "defect noted": "In use, with a defect that is only noted.",
    "defect deferred": "In use by its state, with a defect that may wait.",
    "failed look": "In use by its state, and the last look at it failed.",
    "defect open": "In use by its state, with a defect that grounds; nobody has cleared it.",
}


def states_of() -> Iterator[tuple[str, str, str]]:
    """Each state, whose it is and what it means, in the order of its type."""
    for state in get_args(AircraftState):
        yield state, "an aircraft", AIRCRAFT_STATES[state]
    for row in get_args(RowState):
        yield row, "a row", ROW_STATES[row]
    for item in get_args(ItemState):
        yield item, "a part", ITEM_STATES[item]
    for condition in get_args(OfDefects):
        yield condition, "a part", CONDITIONS[condition]


def states() -> Iterator[Term]:
    """A state of one name may be that of an aircraft and that of a row: two terms."""
    for state, whose, what in states_of():
        yield Term(word=state, kind=f"state of {whose}", what=what)


KNOWN_BY: Mapping[Basis | Literal["weighed"], str] = {
    "measured": "Read at the bench or at the field, or worked out from such alone.",
    "weighed": "Read off the scales; nothing that weighs has changed since.",
    "computed": "Worked out from other values, as a mass from those of its parts.",
    "fitted": "Worked out from the flights and charges that were written.",
    "spec": "As the sheet of a part or the plan of the aircraft says.",
    "default": "Nobody wrote it; a value of common practice stands in.",
}
"""How a value is known, by its name in JSON: what that means."""


def known_by() -> Iterator[Term]:
    """A term by the name in JSON, and one by what is printed where that is another."""
    for name, what in KNOWN_BY.items():
        said = name if name == "weighed" else BASIS_WORDS[name]
        for word in dict.fromkeys((name, said)):
            yield Term(
                word=word,
                kind="how a value is known",
                what=what,
                where=("beside figures; as basis in JSON",) if name != "weighed" else (),
            )


_OPENED: Mapping[str, str] = {
    "aircraft-drift": "Opened when what it flies on an ampere-hour has left its own usual range.",
    "pack-drift": "Opened when what a pack gives a minute has left its own usual range.",
    "odd-cell": "Opened by a cell of a pack whose resistance stands apart from the others.",
    "pack-end-of-life": "Opened by a capacity under the share where a pack counts as worn out, if"
    " no programme of its aircraft has that limit.",
    "pack-cells": "Opened by a pack of another number of cells than a part of its aircraft takes.",
    "used-while-aside": "Opened by a flight on, or a charge of, a pack that was set aside then.",
    "cell-voltages": "Opened by cells of a pack that rest far apart, or twice running a little.",
    "falling-cell": "Opened by a cell that fell more than the others while the pack lay.",
    "low-cells": "Opened by a cell that rests under what a lithium cell may lie at.",
    "read-at-rest": "Opened by a low voltage right after a flight: at rest it tells more.",
    "read-again": "Opened by a capacity or resistance that reached its limit, while no second"
    " reading says so.",
    "flown-low": "Opened by a flight that took a cell under its limit; a pack-look closes it.",
    "flown-into-reserve": "Opened by a flight that went on into the reserve of its pack; a reading"
    " of the cells, or a flight that lands with the reserve, closes it.",
    "used-too-much": "Opened by a flight that used more than its pack holds.",
    "said-swollen": "Opened by words that tell of swelling; a pack-look closes it.",
    "pack-age": "Opened once a lithium pack is eight years old, counted from when it was made,"
    " else from when it came: old cells swell and fail without a sign. A pack-look closes it for a"
    " year.",
    "charged-wrongly": "Opened by a charge of more than the pack holds, in the cold or heat, too"
    " fast, or as one with an unlike pack; a pack-look closes it.",
    "drying": "Opened by water, whatever the programme says; solder-and-leads or full-inspection"
    " closes it as well.",
    "part-look": "Opened by a part of a cleared defect that is fitted again, and by one that was in"
    " a crash and came to another aircraft; a repair or overhaul of it, and a full-inspection"
    " where it sits, close it as well.",
    "broadcast-check": "Opened where a remote ID module came from another aircraft.",
    "update-registration": "Opened on both aircraft when a remote ID module went from one to the"
    " other.",
}
"""What opens each task that no programme has."""


def signals() -> Iterator[Term]:
    """Tasks that no programme has."""
    for name in SIGNAL_TASKS:
        yield Term(
            word=name,
            kind="task",
            what=_OPENED[name],
            details=(("close it by", f"inspection: [{name}], with what was found"),),
        )
