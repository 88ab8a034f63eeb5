"""The closed lists of the files: triggers, layouts, stations, columns of a bench, inserts."""

from collections.abc import Iterator, Mapping

from buildbook.records.layouts import LAYOUTS, Layout
from buildbook.records.reading.bench import COLUMNS
from buildbook.records.triggers import TRIGGERS
from buildbook.words.vocabulary.term import Term

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
