"""What an insert of a build story shows: a piece of the page, made from the records."""

from collections.abc import Callable, Mapping

import msgspec
from markupsafe import Markup

from buildbook.drawings.balance import balance_drawing, balance_table
from buildbook.drawings.charts.timeline import timeline_drawing, timeline_table
from buildbook.drawings.layout.layout import layout_drawing, layout_table
from buildbook.drawings.wiring.wiring import (
    drawn_wiring,
    numbers_of,
    wiring_drawing,
    wiring_table,
)
from buildbook.pages.aircraft.gains import BELONGS
from buildbook.pages.aircraft.layout import without_empty_columns
from buildbook.pages.aircraft.log_months import Told
from buildbook.pages.aircraft.logbook import told_of
from buildbook.pages.aircraft.set_up import stretches
from buildbook.pages.story.inserts import Insert, written_sets
from buildbook.report.drawn.pictures import Picture
from buildbook.report.drawn.plans import Table
from buildbook.report.figure import CannotSay, Figure
from buildbook.report.part_life import PartsLine
from buildbook.report.reports import Reports
from buildbook.words.figures import meaning_of
from buildbook.words.logbook.entry_details import gain_rows
from buildbook.words.public import (
    OWN,
    Said,
    balance_notes,
    layout_notes,
    parts_total,
    wiring_notes,
)
from buildbook.words.surfaces import THROWS, surface_rows
from buildbook.words.upkeep.packs import counted_words

_LATER = "not yet written on the day that is shown"


class Shown(msgspec.Struct, frozen=True):
    """A photograph of the story: what is to be seen on it, and what stands below."""

    picture: Picture
    alt: str
    caption: str


class Block(msgspec.Struct, frozen=True, kw_only=True):
    """A piece of the story: text, or an insert with what it shows. ``kind`` says which."""

    kind: str
    text: Markup = Markup()
    heading: str = ""
    anchor: str = ""
    drawing: Markup | None = None
    table: Table | None = None
    parts: tuple[PartsLine, ...] = ()
    figures: tuple[Figure, ...] = ()
    missing: CannotSay | None = None
    pictures: tuple[Shown, ...] = ()
    notes: tuple[Said, ...] = ()
    counted: bool = True
    entry: Told | None = None
    words: str = ""
    caution: str = ""


def _parts(reports: Reports, slug: str, _insert: Insert, _prefix: str) -> Block:
    return Block(
        kind="parts",
        heading="Parts",
        parts=reports.parts_of_aircraft(slug),
        words=parts_total(reports.figures_of_aircraft(slug)),
    )


def _layout(reports: Reports, slug: str, _insert: Insert, prefix: str) -> Block | None:
    plan = reports.layout(slug)
    if plan is None:
        return None
    return Block(
        kind="drawing",
        heading="Layout",
        drawing=layout_drawing(plan, prefix),
        table=without_empty_columns(layout_table(plan)),
        words=f"Seen from above. A dashed arrow is planned, a solid one was checked. {OWN}",
        notes=layout_notes(plan),
        counted=False,
    )


def _wiring(reports: Reports, slug: str, _insert: Insert, prefix: str) -> Block | None:
    plan = reports.wiring(slug)
    if plan is None:
        return None
    drawn = drawn_wiring(plan)
    return Block(
        kind="drawing",
        heading="Wiring",
        drawing=wiring_drawing(drawn, prefix, numbers_of(plan, drawn)),
        table=without_empty_columns(wiring_table(plan)),
        words="From the pack to the motors, and the leads of the receiver in their order.",
        notes=wiring_notes(reports.hangar.aircraft[slug]),
    )


def _balance(reports: Reports, slug: str, _insert: Insert, prefix: str) -> Block | None:
    found = reports.balance(slug)
    if found is None:
        return None
    return Block(
        kind="drawing",
        heading="Balance",
        drawing=balance_drawing(found.drawn, prefix),
        table=balance_table(found.drawn),
        words=f"Masses in place, nose up. {counted_words(found.pack)}",
        notes=balance_notes(found.drawn),
    )


def _surfaces(reports: Reports, slug: str, _insert: Insert, _prefix: str) -> Block | None:
    table = surface_rows(reports.hangar.aircraft[slug].surfaces)
    if table is None:
        return None
    return Block(kind="surfaces", heading="Control surfaces", table=table, words=THROWS)


def _timeline(reports: Reports, slug: str, _insert: Insert, prefix: str) -> Block | None:
    plan = reports.timeline(slug)
    if plan is None:
        return None
    return Block(
        kind="drawing",
        heading="Timeline",
        drawing=timeline_drawing(plan, prefix),
        table=timeline_table(plan),
        words="Flights by month, and what happened in between.",
    )


def _figure(reports: Reports, slug: str, insert: Insert, _prefix: str) -> Block:
    answers = reports.figures_of_aircraft(slug)
    figures = asked_figures(reports, slug, insert)
    missing = next((one for one in answers.cannot_say if one.name == insert.name), None)
    meaning = meaning_of(reports, insert.name)
    return Block(
        kind="figure",
        heading=meaning.title,
        words=meaning.words,
        anchor=insert.name,
        figures=figures,
        missing=None if figures else missing,
    )


def asked_figures(reports: Reports, slug: str, insert: Insert) -> tuple[Figure, ...]:
    """The figures that an insert names; of one that has a table, those beside it, else its own."""
    found = tuple(
        figure
        for figure in reports.figures_of_aircraft(slug).figures
        if figure.name == insert.name and insert.of in ("", figure.of)
    )
    beside = tuple(figure for figure in found if figure.table is None)
    return found if insert.of else beside or found


def _gains(reports: Reports, slug: str, insert: Insert, _prefix: str) -> Block | None:
    gains = reports.hangar.aircraft[slug].gain_sets.get(insert.name)
    if gains is None and insert.name not in written_sets(reports, slug):
        return None
    if gains is None:
        return Block(kind="later", heading=f"Gain set {insert.name}", words=_LATER)
    return Block(
        kind="gains", heading=f"Gain set {gains.name}", table=gain_rows(gains.values), words=BELONGS
    )


def _set_up(reports: Reports, slug: str, _insert: Insert, _prefix: str) -> Block | None:
    columns = ("stage", "check", "what is done", "state")
    shown = columns[:3] if reports.is_public else columns  # how far they are is the owner's
    rows = tuple(
        (stretch.heading, step.name, step.what, step.state)[: len(shown)]
        for stretch in stretches(reports, slug)
        for step in stretch.steps
    )
    if not rows:
        return None
    return Block(
        kind="table",
        heading="Set-up checks",
        table=(shown, rows),
        words="In the order of doing. Each holds until something it depends on changes.",
    )


def _entry(reports: Reports, slug: str, insert: Insert, _prefix: str) -> Block | None:
    """An entry as the logbook has it. One that was written later than the day shown says so."""
    named = reports.entry_named(slug, insert.name)
    if named is None:
        return None
    told = told_of(reports, slug, named.uid)
    if told is None:
        return Block(kind="later", heading="An entry", words=_LATER)
    return Block(kind="entry", entry=told)


def _photo(reports: Reports, slug: str, insert: Insert, _prefix: str) -> Block | None:
    picture = reports.pictures.get((slug, insert.name))
    if picture is None:
        return None
    return Block(kind="photo", pictures=(Shown(picture, insert.of, insert.caption),))


_MADE: Mapping[str, Callable[[Reports, str, Insert, str], Block | None]] = {
    "parts": _parts,
    "layout": _layout,
    "wiring": _wiring,
    "figure": _figure,
    "gains": _gains,
    "balance": _balance,
    "surfaces": _surfaces,
    "timeline": _timeline,
    "set-up": _set_up,
    "entry": _entry,
    "photo": _photo,
}


def block_of(reports: Reports, slug: str, insert: Insert, prefix: str) -> Block | None:
    """What an insert shows; None where the records have nothing to show. prefix: of its ids."""
    return _MADE[insert.kind](reports, slug, insert, prefix)
