"""The build story: the keeper's own Markdown, with live inserts from the records between."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import partial
from posixpath import dirname, join, normpath
from urllib.parse import unquote

import msgspec
from markupsafe import Markup

from buildbook.audience.paragraphs import unmarked
from buildbook.drawings.layout.layout import layout_portrait
from buildbook.pages.addresses import address_of, relative
from buildbook.pages.aircraft import gains
from buildbook.pages.page import Page, crumbs, each_aircraft, each_logged
from buildbook.pages.story.blocks import Block, asked_figures, block_of
from buildbook.pages.story.builds import in_order
from buildbook.pages.story.insert_places import Asked, title_line
from buildbook.pages.story.inserts import Insert, Misfit, problems, read_insert
from buildbook.pages.story.linked import (
    author_of,
    card_address,
    linked_data,
    portrait_of,
    written_words,
)
from buildbook.pages.story.story_text import Leads, Story, story
from buildbook.records.story import StoryFacts
from buildbook.report.figure import Figure
from buildbook.report.reports import Reports
from buildbook.words.measures.figure_values import value_words
from buildbook.words.public import (
    four_figures,
    licence_of,
    story_facts,
)

__all__ = ["keys", "page", "problems"]

HANDS_ON = ("layout", "wiring")
"""Before the first of these stands the caution on propellers."""


_NEARLY = 1.35


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
        crumbs=crumbs(reports, slug),
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
        block = block_of(reports, slug, insert, f"i{number}")
        if block is None:
            continue
        if insert.kind in HANDS_ON and not cautioned:
            cautioned = True
            block = msgspec.structs.replace(block, caution="SW1")
        yield block


def _in_sentence(reports: Reports, slug: str, address: str, asked: Asked) -> str:
    """A figure inside a sentence: its value, linked to its working. A photograph in a table."""
    try:
        insert = read_insert(asked)
    except Misfit:  # told as a problem before
        return ""
    if insert.kind == "photo":
        return _in_cell(reports, slug, address, insert)
    figures = [one for one in asked_figures(reports, slug, insert) if one.value is not None]
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


_OF_A_BUILD: Mapping[str, Callable[[Reports], Iterable[str]]] = {
    "aircraft": each_aircraft,
    "layout": each_aircraft,
    "figures": each_aircraft,
    "logbook": each_aircraft,
    "gains": gains.keys,
    "timeline": each_logged,
    "write-up": keys,
}


def leads_of(reports: Reports, address: str) -> Leads | None:
    """For the page at that address; None where its reader has the records at hand."""
    if not reports.is_public:
        return None
    pages = {address_of(kind, slug) for kind, keys in _OF_A_BUILD.items() for slug in keys(reports)}
    pages.add(address_of("hangar"))

    def leads(link: str) -> bool:
        path = unquote(link.partition("#")[0])
        return normpath(join(dirname(address), path)) in pages

    return leads
