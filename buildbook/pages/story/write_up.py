"""The build story: the keeper's own Markdown, with live inserts from the records between."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import partial

import msgspec
from markupsafe import Markup

from buildbook.audience.paragraphs import unmarked
from buildbook.drawings.charts.timeline import timeline_drawing, timeline_table
from buildbook.drawings.layout.layout import layout_drawing, layout_portrait, layout_table
from buildbook.drawings.wiring.wiring import (
    drawn_wiring,
    numbers_of,
    wiring_drawing,
    wiring_table,
)
from buildbook.pages.addresses import address_of, relative
from buildbook.pages.aircraft.gains import BELONGS
from buildbook.pages.aircraft.logbook import told_of
from buildbook.pages.aircraft.set_up import stretches
from buildbook.pages.aircraft.told import Told
from buildbook.pages.page import Page
from buildbook.pages.story.asked import Asked, title_line
from buildbook.pages.story.builds import in_order
from buildbook.pages.story.inserts import Insert, Misfit, problems, read_insert, written_sets
from buildbook.pages.story.leads import leads_of
from buildbook.pages.story.linked import author_of, card_address, linked_data, written_words
from buildbook.pages.story.portrait import portrait_of
from buildbook.pages.story.story_text import Story, story
from buildbook.records.story import StoryFacts
from buildbook.report.drawn.pictures import Picture
from buildbook.report.drawn.plans import Table
from buildbook.report.figure import CannotSay, Figure
from buildbook.report.part_life import PartsLine
from buildbook.report.reports import Reports
from buildbook.words.figures import meaning_of
from buildbook.words.logbook.entry_details import gain_rows
from buildbook.words.measures.figure_values import value_words
from buildbook.words.public import (
    OWN,
    Said,
    four_figures,
    layout_notes,
    licence_of,
    story_facts,
    wiring_notes,
)

__all__ = ["keys", "page", "problems"]

HANDS_ON = ("layout", "wiring")
"""Before the first of these stands the caution on propellers."""


_NEARLY = 1.35
LATER = "not yet written on the day that is shown"


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


def keys(reports: Reports) -> Iterable[str]:
    """Each aircraft that has a story."""
    return tuple(
        slug for slug in reports.hangar.ledger.write_ups if slug in reports.hangar.aircraft
    )


def page(reports: Reports, slug: str) -> Page:
    """The build story of an aircraft."""
    name = reports.hangar.aircraft[slug].record.aircraft
    address = address_of("write-up", slug)
    told = story(
        reports.hangar.ledger.write_ups[slug].text,
        partial(_in_sentence, reports, slug, address),
        leads_of(reports, address),
    )
    blocks = tuple(_in_rows(_blocks(reports, slug, told)))
    aircraft = reports.hangar.aircraft[slug]
    facts = aircraft.record.story or StoryFacts()
    title = _title(facts, told.title, name)
    plan = reports.layout_outline(slug)
    return Page(
        address=address,
        template="write_up.html.j2",
        title=title,
        crumbs=(
            (address_of("hangar"), reports.hangar.ledger.keeper.hangar),
            (address_of("aircraft", slug), name),
        ),
        facts={
            "slug": slug,
            "blocks": blocks,
            "cautioned": any(block.caution for block in blocks),
            "contents": tuple(found for found in told.headings if found.level == 2),
            "facts": facts,
            "portrait": portrait_of(reports, slug),
            "drawing": layout_portrait(plan, "lead") if plan else None,
            "four": four_figures(aircraft, reports.headlines(slug)),
            "story_facts": story_facts(aircraft),
            "licence": licence_of(aircraft, reports.hangar.ledger.keeper),
            "author": author_of(reports, slug),
            "written": written_words(reports, facts.written),
            "before": _neighbour(reports, slug, -1),
            "after": _neighbour(reports, slug, 1),
            "card": card_address(slug) if plan and reports.is_public else None,
            "linked_data": linked_data(reports, slug, title),
        },
        about=facts.promise or f"How {name} was built, what went wrong, and what came of it.",
    )


def title_of(reports: Reports, slug: str) -> str:
    """The title of a story, without rendering it."""
    record = reports.hangar.aircraft[slug].record
    lines = unmarked(reports.hangar.ledger.write_ups[slug].text).splitlines()
    heading = title_line(lines)
    facts = record.story or StoryFacts()
    return _title(facts, heading[1] if heading else "", record.aircraft)


def _title(facts: StoryFacts, heading: str, name: str) -> str:
    return facts.title or heading or f"How {name} was built"


def _neighbour(reports: Reports, slug: str, step: int) -> tuple[str, str] | None:
    """Slug and name of the story before or after this one, in the order of the front page."""
    told = [each for each in in_order(reports) if each in reports.hangar.ledger.write_ups]
    at = told.index(slug) + step
    if not 0 <= at < len(told):
        return None
    return told[at], reports.hangar.aircraft[told[at]].record.aircraft


def _in_rows(blocks: Iterable[Block]) -> Iterator[Block]:
    """Photographs that follow each other stand two in a row, if they are as high as each other."""
    waiting: Block | None = None
    for block in blocks:
        if waiting is not None and block.kind == "photo" and _alike(waiting, block):
            yield msgspec.structs.replace(waiting, pictures=waiting.pictures + block.pictures)
            waiting = None
            continue
        if waiting is not None:
            yield waiting
        waiting = block if block.kind == "photo" else None
        if waiting is None:
            yield block
    if waiting is not None:
        yield waiting


def _alike(one: Block, other: Block) -> bool:
    """Whether both have nearly the same shape, so that neither stands small beside the other."""
    shapes = [shown.picture.width / shown.picture.height for shown in one.pictures + other.pictures]
    return max(shapes) < _NEARLY * min(shapes)


def _blocks(reports: Reports, slug: str, told: Story) -> Iterable[Block]:
    cautioned = False
    for number, piece in enumerate(told.pieces):
        if not isinstance(piece, Asked):
            yield Block(kind="text", text=piece)
            continue
        try:
            insert = read_insert(piece)
        except Misfit:  # told as a problem before
            continue
        block = _MADE[insert.kind](reports, slug, insert, f"i{number}")
        if block is None:
            continue
        if insert.kind in HANDS_ON and not cautioned:
            cautioned = True
            block = msgspec.structs.replace(block, caution="SW1")
        yield block


def _parts(reports: Reports, slug: str, _insert: Insert, _prefix: str) -> Block:
    return Block(kind="parts", heading="Parts", parts=reports.parts_of_aircraft(slug))


def _layout(reports: Reports, slug: str, _insert: Insert, prefix: str) -> Block | None:
    plan = reports.layout(slug)
    if plan is None:
        return None
    return Block(
        kind="drawing",
        heading="Layout",
        drawing=layout_drawing(plan, prefix),
        table=layout_table(plan),
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
        table=wiring_table(plan),
        words="From the pack to the motors, and the leads of the receiver in their order.",
        notes=wiring_notes(reports.hangar.aircraft[slug]),
    )


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
    figures = _asked_figures(reports, slug, insert)
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


def _asked_figures(reports: Reports, slug: str, insert: Insert) -> tuple[Figure, ...]:
    return tuple(
        figure
        for figure in reports.figures_of_aircraft(slug).figures
        if figure.name == insert.name
        and (figure.of == insert.of if insert.of else figure.table is None)
    )


def _gains(reports: Reports, slug: str, insert: Insert, _prefix: str) -> Block | None:
    gains = reports.hangar.aircraft[slug].gain_sets.get(insert.name)
    if gains is None and insert.name not in written_sets(reports, slug):
        return None
    if gains is None:
        return Block(kind="later", heading=f"Gain set {insert.name}", words=LATER)
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
        return Block(kind="later", heading="An entry", words=LATER)
    return Block(kind="entry", entry=told)


def _in_sentence(reports: Reports, slug: str, address: str, asked: Asked) -> str:
    """A figure inside a sentence: its value, linked to its working. A photograph in a table."""
    try:
        insert = read_insert(asked)
    except Misfit:  # told as a problem before
        return ""
    if insert.kind == "photo":
        return _in_cell(reports, slug, address, insert)
    figures = [one for one in _asked_figures(reports, slug, insert) if one.value is not None]
    if not figures:
        return "(cannot say)"
    said = ", ".join(_value_of(figure, len(figures) > 1) for figure in figures)
    link = relative(address, address_of("figures", slug))
    return Markup('<a class="value" href="{}#{}">{}</a>').format(link, insert.name, said)


def _in_cell(reports: Reports, slug: str, address: str, insert: Insert) -> str:
    """A small photograph that leads to the large one; the words alone where it isn't shared."""
    picture = reports.pictures.get((slug, insert.name))
    if picture is None:
        return insert.caption
    return Markup(
        '<a class="in-row" href="{}"><img src="{}" width="{}" height="{}" alt="{}"'
        ' loading="lazy" decoding="async"></a>'
    ).format(
        relative(address, picture.address),
        relative(address, picture.small_address),
        picture.small_width,
        round(picture.small_width * picture.height / picture.width),
        insert.of,
    )


def _value_of(figure: Figure, one_of_several: bool) -> str:
    value = value_words(figure, figure.value) if figure.value is not None else ""
    return f"{value} with {figure.of}" if one_of_several and figure.of else value


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
    "timeline": _timeline,
    "set-up": _set_up,
    "entry": _entry,
    "photo": _photo,
}
