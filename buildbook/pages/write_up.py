"""The build story: the keeper's own Markdown, with live inserts from the records between."""

import json
from collections.abc import Callable, Iterable, Mapping

import msgspec
from markupsafe import Markup

from buildbook.audience.pictures import Picture
from buildbook.audience.view import View
from buildbook.drawings.layout import layout_drawing, layout_table
from buildbook.drawings.plans import Table
from buildbook.drawings.timeline import timeline_drawing, timeline_table
from buildbook.drawings.wiring import wiring_drawing, wiring_table
from buildbook.pages.addresses import address_of
from buildbook.pages.entry_telling import gain_rows
from buildbook.pages.figure_words import meaning_of
from buildbook.pages.gains import BELONGS
from buildbook.pages.inserts import Insert, Misfit, problems, read_insert
from buildbook.pages.page import Page
from buildbook.pages.plans import drawn_wiring, layout_plan, wiring_plan
from buildbook.pages.story_text import Asked, Story, story
from buildbook.pages.timeline_plan import timeline_plan
from buildbook.report.figure import CannotSay, Figure
from buildbook.report.state import AircraftNow

__all__ = ["keys", "page", "problems"]

HANDS_ON = ("layout", "wiring")
"""Before the first of these stands the caution on propellers."""


LATER = "not yet written on the day that is shown"


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """Items of one kind on the aircraft."""

    kind: str
    title: str
    tags: tuple[str, ...]
    mass_kg: float | None


class Block(msgspec.Struct, frozen=True, kw_only=True):
    """A piece of the story: text, or an insert with what it shows. ``kind`` says which."""

    kind: str
    text: Markup = Markup()
    heading: str = ""
    anchor: str = ""
    drawing: Markup | None = None
    table: Table | None = None
    parts: tuple[Part, ...] = ()
    figures: tuple[Figure, ...] = ()
    missing: CannotSay | None = None
    picture: Picture | None = None
    words: str = ""
    caution: str = ""


def keys(view: View) -> Iterable[str]:
    """Each aircraft that has a story."""
    return tuple(slug for slug in view.hangar.ledger.write_ups if slug in view.hangar.aircraft)


def page(view: View, slug: str) -> Page:
    """The build story of an aircraft."""
    name = view.hangar.aircraft[slug].record.aircraft
    told = story(view.hangar.ledger.write_ups[slug].text)
    blocks = tuple(_blocks(view, slug, told))
    title = told.title or f"How {name} was built"
    return Page(
        address=address_of("write-up", slug),
        template="write_up.html.j2",
        title=title,
        crumbs=(
            (address_of("hangar"), view.hangar.ledger.keeper.hangar),
            (address_of("aircraft", slug), name),
        ),
        facts={
            "slug": slug,
            "blocks": blocks,
            "cautioned": any(block.caution for block in blocks),
            "contents": tuple(found for found in told.headings if found.level == 2),
            "linked_data": _linked_data(view, title, name),
        },
        about=f"How {name} was built, what went wrong, and what came of it.",
    )


def _blocks(view: View, slug: str, told: Story) -> Iterable[Block]:
    cautioned = False
    for number, piece in enumerate(told.pieces):
        if not isinstance(piece, Asked):
            yield Block(kind="text", text=piece)
            continue
        try:
            insert = read_insert(view.hangar, slug, piece.words)
        except Misfit:  # told as a problem before; an audience that may not see it sees nothing
            continue
        block = _MADE[insert.kind](view, slug, insert, f"i{number}")
        if block is None:
            continue
        if insert.kind in HANDS_ON and not cautioned:
            cautioned = True
            block = msgspec.structs.replace(block, caution="SW1")
        yield block


def _parts(view: View, slug: str, _insert: Insert, _prefix: str) -> Block:
    return Block(kind="parts", heading="Parts", parts=parts_of(view, view.hangar.aircraft[slug]))


def parts_of(view: View, aircraft: AircraftNow) -> tuple[Part, ...]:
    """What is fitted, items of one kind together, in the order of the stations."""
    found: dict[str, list[str]] = {}
    for fitted in aircraft.items():
        item = view.hangar.items.get(fitted.tag)
        if item is not None:
            found.setdefault(item.spec.spec, []).append(fitted.tag)
    parts = []
    for tags in found.values():
        items = [view.hangar.items[tag] for tag in tags]
        masses = [item.mass_kg for item in items]
        known = [mass for mass in masses if mass is not None]
        parts.append(
            Part(
                kind=items[0].spec.kind.replace("_", " "),
                title=items[0].spec.title,
                tags=tuple(tags),
                mass_kg=sum(known) if len(known) == len(masses) else None,
            )
        )
    return tuple(parts)


def _layout(view: View, slug: str, _insert: Insert, prefix: str) -> Block | None:
    plan = layout_plan(view, slug, view.figures_of_aircraft(slug))
    if plan is None:
        return None
    return Block(
        kind="drawing",
        heading="Layout",
        drawing=layout_drawing(plan, prefix),
        table=layout_table(plan),
        words="Seen from above. A dashed arrow is planned, a solid one was checked. Outputs and "
        "directions belong to this aircraft and its controller; check yours.",
    )


def _wiring(view: View, slug: str, _insert: Insert, prefix: str) -> Block | None:
    plan = wiring_plan(view, slug, view.figures_of_aircraft(slug))
    if plan is None:
        return None
    return Block(
        kind="drawing",
        heading="Wiring",
        drawing=wiring_drawing(drawn_wiring(plan), prefix),
        table=wiring_table(plan),
        words="From the pack to the motors, and the leads of the receiver in their order.",
    )


def _timeline(view: View, slug: str, _insert: Insert, prefix: str) -> Block | None:
    plan = timeline_plan(view, slug)
    if plan is None:
        return None
    return Block(
        kind="drawing",
        heading="Timeline",
        drawing=timeline_drawing(plan, prefix),
        table=timeline_table(plan),
        words="Flights by month, and what happened in between.",
    )


def _figure(view: View, slug: str, insert: Insert, _prefix: str) -> Block:
    answers = view.figures_of_aircraft(slug)
    figures = tuple(
        figure
        for figure in answers.figures
        if figure.name == insert.name
        and (figure.of == insert.of if insert.of else figure.table is None)
    )
    missing = next((one for one in answers.cannot_say if one.name == insert.name), None)
    return Block(
        kind="figure",
        heading=meaning_of(insert.name).title,
        words=meaning_of(insert.name).words,
        anchor=insert.name,
        figures=figures,
        missing=None if figures else missing,
    )


def _gains(view: View, slug: str, insert: Insert, _prefix: str) -> Block | None:
    gains = view.hangar.aircraft[slug].gain_sets.get(insert.name)
    if gains is None:
        return Block(kind="later", heading=f"Gain set {insert.name}", words=LATER)
    return Block(
        kind="gains", heading=f"Gain set {gains.name}", table=gain_rows(gains.values), words=BELONGS
    )


def _photo(view: View, slug: str, insert: Insert, _prefix: str) -> Block | None:
    picture = view.pictures.get((slug, insert.name))
    if picture is None:
        return None
    return Block(kind="photo", picture=picture, words=insert.of)


_MADE: Mapping[str, Callable[[View, str, Insert, str], Block | None]] = {
    "parts": _parts,
    "layout": _layout,
    "wiring": _wiring,
    "figure": _figure,
    "gains": _gains,
    "timeline": _timeline,
    "photo": _photo,
}


def _linked_data(view: View, title: str, name: str) -> Markup:
    """The story for machines that read pages: a data block, which no script policy touches."""
    said = {
        "@context": "https://schema.org",
        "@type": "Article",
        "headline": title,
        "about": {"@type": "Thing", "name": name},
        "inLanguage": "en",
        "isPartOf": {"@type": "WebSite", "name": view.hangar.ledger.keeper.hangar},
        "dateModified": view.machine_day(view.hangar.as_of),
    }
    text = json.dumps(said, ensure_ascii=False)
    return Markup(text.replace("&", "\\u0026").replace("<", "\\u003c").replace(">", "\\u003e"))
