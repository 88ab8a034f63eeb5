"""A build story: Markdown becomes clean HTML in pieces, with the inserts between them.

An insert stands on a line of its own: ``{{ layout }}``. The Markdown is rendered as a whole, so
that links and lists work across inserts, cleaned by an allow-list, and then cut at the inserts.
"""

import re
from collections.abc import Iterator

import markdown
import msgspec
import nh3
from markupsafe import Markup

_INSERT = re.compile(r"^\s{0,3}\{\{\s*(.*?)\s*\}\}\s*$")
_FENCE = re.compile(r"^\s{0,3}(```|~~~)")
_TITLE = re.compile(r"^#\s+(.+?)\s*#*\s*$")
_HEADING = re.compile(r"<h([1-6])>(.*?)</h\1>", re.DOTALL)
_TAG = re.compile(r"<[^>]+>")
_NO_SLUG = re.compile(r"[^\w]+")
_OPEN, _SHUT = "\ue000", "\ue001"  # private use: no keeper writes them; taken out of the text first
_CUT = re.compile(rf"<p>{_OPEN}(\d+){_SHUT}</p>")
_LOWEST = 6

_TAGS = {
    *("p", "h1", "h2", "h3", "h4", "h5", "h6", "ul", "ol", "li", "blockquote", "hr", "br"),
    *("em", "strong", "code", "pre", "a", "del", "ins", "sub", "sup", "dl", "dt", "dd"),
    *("table", "thead", "tbody", "tr", "th", "td"),
}


class Asked(msgspec.Struct, frozen=True):
    """An insert as written, and its line in the file."""

    words: str
    line: int


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


def asked_in(text: str) -> tuple[Asked, ...]:
    """All inserts of a story."""
    return tuple(_inserts(text.splitlines()))


def story(text: str) -> Story:
    """The story in pieces; whatever is not on the list of harmless tags is gone."""
    lines = text.replace(_OPEN, "").replace(_SHUT, "").splitlines()
    title = ""
    for at, line in enumerate(lines):
        if line.strip():
            found = _TITLE.match(line)
            if found:
                title, lines[at] = found.group(1), ""
            break
    asked = tuple(_inserts(lines))
    for number, one in enumerate(asked):
        lines[one.line - 1] = f"\n\n{_OPEN}{number}{_SHUT}\n\n"
    rendered = markdown.markdown(
        "\n".join(lines), extensions=["tables", "fenced_code", "sane_lists", "def_list"]
    )
    cleaned = nh3.clean(
        rendered,
        tags=_TAGS,
        attributes={"a": {"href"}, "th": {"scope"}},
        url_schemes={"https", "http"},
        link_rel="noreferrer",
    )
    settled, headings = _settle(_tables(cleaned))
    cut = _CUT.split(settled)
    pieces = (
        asked[int(part)] if at % 2 else Markup(part.strip())  # cleaned above
        for at, part in enumerate(cut)
    )
    return Story(
        title=title,
        pieces=tuple(piece for piece in pieces if piece),
        headings=headings,
    )


def _inserts(lines: list[str]) -> Iterator[Asked]:
    fenced = False
    for number, line in enumerate(lines, 1):
        if _FENCE.match(line):
            fenced = not fenced
        found = None if fenced else _INSERT.match(line)
        if found:
            yield Asked(found.group(1), number)


def _tables(html: str) -> str:
    """Tables scroll inside a container of their own; their headings are of columns."""
    opened = html.replace("<th>", '<th scope="col">').replace(
        "<table>",
        '<div class="scroll" role="region" aria-label="Table of the story" tabindex="0"><table>',
    )
    return opened.replace("</table>", "</table></div>")


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
