"""A build story: Markdown becomes clean HTML in pieces, with the inserts between them.

The Markdown is rendered as a whole, so that links and lists work across inserts, cleaned by an
allow-list, and then cut at the inserts. Lists may be nested by two columns or three, and follow
their sentence without a blank line, as people write them; the reader of Markdown wants four.
"""

import re
from collections.abc import Callable, Iterable, Iterator
from functools import partial
from typing import NamedTuple

import markdown
import msgspec
import nh3
from markupsafe import Markup, escape

from buildbook.audience.paragraphs import fenced, unmarked
from buildbook.pages.story.insert_places import Asked, inserts_of, title_line

_HEADING = re.compile(r"<h([1-6])>(.*?)</h\1>", re.DOTALL)
_TAG = re.compile(r"<[^>]+>")
_NO_SLUG = re.compile(r"[^\w]+")
# Private use: no keeper writes them, and they are taken out of the text first.
_OPEN, _OPEN_WORD, _SHUT = "\ue000", "\ue002", "\ue001"
_CUT = re.compile(rf"<p>{_OPEN}(\d+){_SHUT}</p>")
_MARKED = re.compile(rf"[{_OPEN}{_OPEN_WORD}](\d+){_SHUT}")
_MARKED_WORD = re.compile(rf"{_OPEN_WORD}(\d+){_SHUT}")
_UNMARK = str.maketrans("", "", _OPEN + _OPEN_WORD + _SHUT)
_TAG_OR_TEXT = re.compile(r"(<[^>]*>)")
_FOOTNOTE = re.compile(r"fn(?:ref\d{0,3})?:[\w-]{1,80}")
_LINK_TO_NOTHING = re.compile(r'<a rel="noreferrer">(.*?)</a>', re.DOTALL)
_LOWEST = 6

_TAGS = {
    *("p", "h1", "h2", "h3", "h4", "h5", "h6", "ul", "ol", "li", "blockquote", "hr", "br"),
    *("em", "strong", "code", "pre", "a", "del", "ins", "sub", "sup", "dl", "dt", "dd"),
    *("table", "thead", "tbody", "tr", "th", "td"),
}


Say = Callable[[Asked], str]
"""What stands in a sentence instead of an insert: HTML where it is Markup, else escaped."""
Leads = Callable[[str], bool]
"""Whether a link without ``https:`` leads to a page of the site; else its words stand alone."""


class Heading(msgspec.Struct, frozen=True):
    """A heading of the story: level on the page, words, anchor."""

    level: int
    words: str
    anchor: str


class Story(msgspec.Struct, frozen=True, kw_only=True):
    """title: the first heading, or nothing. pieces: HTML and inserts in their order."""

    title: str
    pieces: tuple[Markup | Asked, ...]
    headings: tuple[Heading, ...]


def story(text: str, say: Say | None = None, leads: Leads | None = None) -> Story:
    """The story in pieces; whatever is not on the list of harmless tags is gone.

    say: gives the words for each insert inside a sentence; without it they stay as written.
    leads: without it links stay as written.
    """
    lines = unmarked(text.translate(_UNMARK)).splitlines()
    title = title_line(lines)
    if title is not None:
        lines[title[0]] = ""
    asked, html = _rendered(lines, leads)
    filled = _MARKED_WORD.sub(lambda found: _said(asked[int(found[1])], say), html)
    settled, headings = _settle(_tables(filled))
    cut = _CUT.split(settled)
    pieces = (
        asked[int(part)] if at % 2 else Markup(_restored(part.strip(), asked))  # cleaned above
        for at, part in enumerate(cut)
    )
    return Story(
        title=title[1] if title is not None else "",
        pieces=tuple(piece for piece in pieces if piece),
        headings=headings,
    )


def _said(asked: Asked, say: Say | None) -> str:
    return str(escape(say(asked) if say else asked.written))


def _rendered(lines: list[str], leads: Leads | None) -> tuple[tuple[Asked, ...], str]:
    """The inserts, and clean HTML with a mark where each stands."""
    found = tuple(inserts_of(lines))
    marked = lines.copy()
    for number, one in reversed(tuple(enumerate(found))):  # columns hold from the right
        at = one.asked.line - 1
        if one.asked.form in ("sentence", "cell"):
            mark = f"{_OPEN_WORD}{number}{_SHUT}"
            marked[at] = marked[at][: one.start] + mark + marked[at][one.end :]
        elif one.asked.form == "picture":
            mark = f"\n\n{_OPEN}{number}{_SHUT}\n\n"
            marked[at] = marked[at][: one.start] + mark + marked[at][one.end :].lstrip()
        else:
            marked[at] = f"\n\n{_OPEN}{number}{_SHUT}\n\n"
    code = fenced(lines)
    rendered = markdown.markdown(
        "\n".join(deepened(marked, code)),
        extensions=["tables", "fenced_code", "sane_lists", "def_list", "footnotes"],
        extension_configs={"footnotes": {"BACKLINK_TEXT": "back"}},
    )
    cleaned = nh3.clean(
        rendered,
        tags=_TAGS,
        attributes={"a": {"href"}, "th": {"scope"}, "li": {"id"}, "sup": {"id"}},
        attribute_filter=partial(_attribute, leads),
        url_schemes={"https", "http"},
        link_rel="noreferrer",
    )
    asked = tuple(one.asked for one in found)
    return asked, "".join(_as_written(_LINK_TO_NOTHING.sub(r"\1", cleaned), asked))


def _attribute(leads: Leads | None, _tag: str, attribute: str, value: str) -> str | None:
    """Ids are those of footnotes alone, so that none stands twice on the page; links lead on."""
    if attribute == "id":
        return value if _FOOTNOTE.fullmatch(value) else None
    if attribute != "href" or leads is None or value.startswith(("https://", "http://", "#")):
        return value
    return value if leads(value) else None


def _as_written(html: str, asked: tuple[Asked, ...]) -> Iterator[str]:
    """Marks in code and in addresses become the text again that they stand for."""
    code = 0
    for part in _TAG_OR_TEXT.split(html):
        tag = part.startswith("<")
        code += {"<code>": 1, "<pre>": 1, "</code>": -1, "</pre>": -1}.get(part, 0)
        yield _restored(part, asked) if tag or code else part


def _restored(html: str, asked: tuple[Asked, ...]) -> str:
    """Without marks: what is no paragraph of its own after all stays as it was written."""
    return _MARKED.sub(lambda found: str(escape(asked[int(found[1])].written)), html)


def _tables(html: str) -> str:
    """Each scrolls inside a container with a number of its own; their headings are of columns."""
    before, *tables = html.replace("<th>", '<th scope="col">').split("<table>")
    opened = (
        f'<div class="scroll" role="region" aria-label="Table {number} of the story" tabindex="0">'
        f"<table>{table}"
        for number, table in enumerate(tables, 1)
    )
    return "".join((before, *opened)).replace("</table>", "</table></div>")


def _settle(html: str) -> tuple[str, tuple[Heading, ...]]:
    """Headings begin at level 2, skip none, and get an anchor each."""
    above: list[int] = []
    headings: list[Heading] = []
    taken: dict[str, int] = {}

    def settled(found: re.Match[str]) -> str:
        written = int(found.group(1))
        while above and above[-1] >= written:
            above.pop()
        above.append(written)
        level = min(len(above) + 1, _LOWEST)
        words = Markup(_TAG.sub("", found.group(2))).unescape()
        slug = _NO_SLUG.sub("-", words.lower()).strip("-") or "part"
        taken[slug] = taken.get(slug, 0) + 1
        anchor = f"s-{slug}" if taken[slug] == 1 else f"s-{slug}-{taken[slug]}"
        headings.append(Heading(level, words, anchor))
        return f'<h{level} id="{anchor}">{found.group(2)}</h{level}>'

    return _HEADING.sub(settled, html), tuple(headings)


_ITEM = re.compile(r"( *)([-*+]|\d{1,9}\.)( +)(?=\S)")
_RULE = re.compile(r" {0,3}([-*_])(?: *\1){2,} *")
_INTERRUPTS = re.compile(r"(?:[-*+]|1\.)$")  # after CommonMark 0.31.2, section 5.3
_LEVEL = "    "
_LIST_BEGINS_WITHIN = 3


class _Open(NamedTuple):
    """An item around the line: the column at which its words begin, and whether it is numbered."""

    column: int
    numbered: bool


def deepened(lines: Iterable[str], code: set[int]) -> Iterator[str]:
    """The lines with their lists indented by four columns a level. code: lines that are code."""
    open_items: list[_Open] = []
    before, after_item = "", False
    for at, line in enumerate(lines):
        if at in code or line.startswith("\n"):
            open_items, before, after_item = [], "", False
            yield line
            continue
        found = None if _RULE.fullmatch(line) else _ITEM.match(line)
        if found is not None and (open_items or len(found[1]) <= _LIST_BEGINS_WITHIN):
            was_open, last = bool(open_items), None
            while open_items and len(found[1]) < open_items[-1].column:
                last = open_items.pop()
            other_kind = last is not None and last.numbered != found[2][0].isdigit()
            begins = bool(before.strip()) and (
                other_kind or (not after_item and bool(was_open or _INTERRUPTS.match(found[2])))
            )
            yield ("\n" if begins else "") + _LEVEL * len(open_items) + line[len(found[1]) :]
            open_items.append(_Open(found.end(), found[2][0].isdigit()))
        else:
            yield _inside(line, open_items) if not before.strip() else line
        before, after_item = line, found is not None


def _inside(line: str, open_items: list[_Open]) -> str:
    """A line after a blank one: a further paragraph of an item, or the end of the list."""
    if not line.strip():
        return line
    indent = len(line) - len(line.lstrip(" "))
    while open_items and indent < open_items[-1].column:
        open_items.pop()
    if not open_items:
        return line
    return _LEVEL * len(open_items) + " " * (indent - open_items[-1].column) + line.lstrip(" ")
