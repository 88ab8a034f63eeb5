"""Where a theme is, and its templates made ready.

A theme is a folder with ``templates/`` and ``style.css``. What it lacks is taken from the theme
that comes with the program, template by template.
"""

import os
import re
import traceback
from collections.abc import Callable, Iterable, Mapping, Sequence
from copy import copy
from functools import cached_property, partial
from importlib import resources
from itertools import chain
from pathlib import Path
from typing import Any, Literal, NamedTuple

import jinja2
from markupsafe import Markup, escape

from buildbook.basis import amounts
from buildbook.basis.days import MONTHS
from buildbook.basis.units import UNITS
from buildbook.pages.addresses import address_of, relative, row_anchor
from buildbook.pages.aircraft.log_parts import entry_place
from buildbook.pages.compiled import Compiled
from buildbook.pages.lapses import ages, lapse_of
from buildbook.pages.page import Page
from buildbook.pages.shipped import shipped
from buildbook.pages.site import plan
from buildbook.report.reports import Reports
from buildbook.words import work_list
from buildbook.words.cautions import CAUTIONS
from buildbook.words.figures import meaning_of
from buildbook.words.filters import FILTERS
from buildbook.words.measures.days import Days
from buildbook.words.reasons import because_words, reason_words, row_subject, row_title

Shape = Literal[
    "ring",
    "half",
    "disc",
    "dashed",
    "square",
    "barred",
    "cross",
    "flag",
    "half-flag",
    "open",
    "dash",
]
Tone = Literal["good", "warn", "bad", "calm"]


class Mark(NamedTuple):
    """How a state is drawn."""

    shape: Shape
    tone: Tone


MARKS: Mapping[str, Mark] = {
    # aircraft
    "nothing open": Mark("ring", "good"),
    "grounded": Mark("barred", "bad"),
    "cannot say": Mark("dashed", "calm"),
    "building": Mark("open", "calm"),
    "flying": Mark("ring", "calm"),
    "stored": Mark("dash", "calm"),
    "retired": Mark("dash", "calm"),
    "sold": Mark("dash", "calm"),
    # rows
    "ok": Mark("ring", "good"),
    "due soon": Mark("half", "warn"),
    "due": Mark("disc", "warn"),
    "in tolerance": Mark("disc", "warn"),
    "overdue": Mark("square", "bad"),
    "reached": Mark("square", "bad"),
    "failed": Mark("cross", "bad"),
    "stale": Mark("dashed", "bad"),
    "never done": Mark("dashed", "bad"),
    "open": Mark("flag", "bad"),
    "deferred": Mark("half-flag", "warn"),
    "noted": Mark("open", "calm"),
    "not applicable": Mark("dash", "calm"),
    # items
    "serviceable": Mark("ring", "good"),
    "defect open": Mark("flag", "bad"),
    "failed look": Mark("cross", "bad"),
    "defect deferred": Mark("half-flag", "warn"),
    "defect noted": Mark("open", "calm"),
    "quarantined": Mark("barred", "bad"),
    "scrapped": Mark("dash", "calm"),
    # results
    "pass": Mark("ring", "good"),
    "fail": Mark("cross", "bad"),
}

UNKNOWN = Mark("dashed", "calm")


def mark_of(state: str) -> Mark:
    """The mark of a state; one that nobody foresaw is drawn as unknown, never as good."""
    return MARKS.get(state, UNKNOWN)


_SYMBOLS = {*chain(*(quantity.units for quantity in UNITS.values())), *amounts.FIGURES}
_WORDS = {"", "in", "ratio", "count"}  # "in" is nearly always the word
_COUNTED = ("flight", "charge", "cycle", "year", "month", "week", "day", "hour", "minute")
_UNITS = _SYMBOLS - _WORDS | {*_COUNTED, *map(amounts.plural, _COUNTED), *MONTHS}
_UNIT = "|".join(sorted(map(re.escape, _UNITS), key=len, reverse=True))
# With the space first the search goes from space to space; the last part holds in text alone.
_TORN = re.compile(
    rf" (?:(?<=[0-9] )(?=(?:{_UNIT}|[A-Z]{{3}})(?:[/·]|(?![\w²³])))|(?<=[0-9] min )(?=[0-9]+ s\b)"
    r"|(?<=[0-9] )(?=x [0-9])|(?<=[0-9] x )(?=[0-9]))"
    r"(?=[^<>]*(?:<|\Z))"
)
_AS_WRITTEN = re.compile(
    r"(<(head|script|style|pre|code|kbd|textarea|select|svg)\b.*?</\2>)", re.DOTALL
)


def kept_together(html: str) -> str:
    """A page in which no line ends between a number and its unit, or within a size as 3 x 8."""
    pieces = _AS_WRITTEN.split(html)
    # Text, then what stays as written, then its tag, over and over.
    pieces[::3] = [_TORN.sub(amounts.NO_BREAK, piece) for piece in pieces[::3]]
    del pieces[2::3]
    return "".join(pieces)


_ROW = re.compile(r"<tr\b[^>]*>.*?</tr>", re.DOTALL)
_CELL = re.compile(r"<t([hd])\b([^>]*)>(</t)?")
_ROWSPAN = re.compile(r'rowspan="(\d+)"')
_COLSPAN = re.compile(r'colspan="(\d+)"')


def labelled(rows: str, columns: Sequence[str]) -> Markup:
    """The rows of a table body, each data cell with the name of its column."""
    below = [0] * len(columns)  # rows that a cell from above still reaches down to

    def row(found: re.Match[str]) -> str:
        at = 0

        def cell(opening: re.Match[str]) -> str:
            nonlocal at
            while at < len(columns) and below[at]:
                below[at] -= 1
                at += 1
            kind, said, empty = opening.groups()
            deep, wide = _ROWSPAN.search(said), _COLSPAN.search(said)
            name = columns[at] if at < len(columns) else ""
            if deep and at < len(columns):
                below[at] = int(deep[1]) - 1
            at += int(wide[1]) if wide else 1
            told = kind == "d" and name and not (wide or empty)
            label = f' data-label="{escape(name)}"' if told else ""
            return f"<t{kind}{said}{label}>{empty or ''}"

        return _CELL.sub(cell, found[0])

    return Markup(_ROW.sub(row, str(rows)))


_SPACE = re.compile(r'("[^"]*")| ?([{};,]) ?|(?<=:) ')
_OWN_LINES = re.compile(r"^[ \t]*(?:/\*.*?\*/|//[^\n]*)[ \t]*$", re.DOTALL | re.MULTILINE)
_COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)

DEFAULT_THEME = "fieldbook"


class UnknownTheme(Exception):
    """There is no theme of that name or folder."""


class BrokenTheme(Exception):
    """A template or a file of a theme can't be used; the text is one sentence for the terminal."""


def theme_folders(name: str | None) -> tuple[Path, ...]:
    """The folders to look in, the named theme first. A name with a slash is a folder."""
    default = shipped("themes") / DEFAULT_THEME
    if name is None or name == DEFAULT_THEME:
        return (default,)
    folder = Path(name) if os.sep in name or Path(name).is_dir() else shipped("themes") / name
    if not folder.is_dir():
        raise UnknownTheme(f"no theme is called {name!r}, and there is no such folder")
    if not (folder / "templates").is_dir() and not (folder / "style.css").is_file():
        raise UnknownTheme(f"{name} is not a theme: it holds neither templates/ nor style.css")
    return (folder, default)


def stylesheet(folders: tuple[Path, ...]) -> str:
    """The stylesheet of the theme, with the classes of the drawings."""
    drawings = resources.files("buildbook.drawings") / "drawings.css"
    return tightened(f"{_text_of(folders, 'style.css')}\n{drawings.read_text('utf-8')}")


def more_style(folders: tuple[Path, ...], name: str) -> str:
    """What only some pages need beside the stylesheet: ``inner.css``, ``cards.css``."""
    return tightened(_text_of(folders, name))


def more_script(folders: tuple[Path, ...], name: str) -> str:
    """What only the field form runs: ``field.js``, and ``field-worker.js`` that keeps it."""
    return unindented(_text_of(folders, name))


def _text_of(folders: tuple[Path, ...], name: str) -> str:
    """The text of a file of the theme, else of the one that comes with the program."""
    return _text(next(found for folder in folders if (found := folder / name).is_file()))


def _text(path: Path) -> str:
    try:
        return path.read_text("utf-8")
    except UnicodeDecodeError as error:
        raise BrokenTheme(f"{path} is not UTF-8 text") from error
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise BrokenTheme(f"could not read {path}: {reason}") from error


def tightened(css: str) -> str:
    """A stylesheet without comments and without space that means nothing."""
    bare = _COMMENT.sub("", css)
    lines = (
        _SPACE.sub(lambda found: found[1] or found[2] or "", " ".join(line.split()))
        for line in bare.splitlines()
    )
    return _joined((line for line in lines if line), "{;,}")


def script(folders: tuple[Path, ...]) -> str | None:
    """The small script of the theme, where it has one."""
    found = (folder / "book.js" for folder in folders)
    text = next((_text(path) for path in found if path.is_file()), None)
    return None if text is None else unindented(text)


def unindented(text: str) -> str:
    """A script without indents, empty lines and comments that have lines of their own.

    One with a template literal, in which space has a meaning, stays as it is.
    """
    if "`" in text:
        return text
    lines = (line.strip() for line in _OWN_LINES.sub("", text).splitlines())
    return _joined((line for line in lines if line), "{;,")


def _joined(lines: Iterable[str], ends: str) -> str:
    """Lines of a style or script, broken only where the break could mean something."""
    text = "".join(line if line[-1] in ends and "//" not in line else f"{line}\n" for line in lines)
    text = text if "//" in text else text.replace("\n}", "}")
    return text if text.endswith("\n") else f"{text}\n"


class Press:
    """Turns pages into HTML. One for each worker; templates are compiled once."""

    def __init__(self, reports: Reports, folders: tuple[Path, ...]) -> None:
        self._reports = reports
        self._folders = folders
        self._with_script = script(folders) is not None
        self._is_named = len(folders) > 1
        self._compiled = Compiled(folders[0])
        self._environment = jinja2.Environment(
            loader=jinja2.FileSystemLoader([folder / "templates" for folder in folders]),
            autoescape=True,
            undefined=jinja2.StrictUndefined,
            auto_reload=False,
            bytecode_cache=self._compiled,
            trim_blocks=True,
            lstrip_blocks=True,
            keep_trailing_newline=True,
        )
        self._environment.filters.update(FILTERS)
        self._environment.filters["labelled"] = labelled

    def ready(self) -> "Press":
        """The same with all templates compiled, so that no process forked off compiles them.

        BrokenTheme: one of them can't be compiled.
        """
        for name in self._environment.list_templates(extensions=("j2",)):
            try:
                self._environment.get_template(name)
            except Exception as error:
                if not self._is_named:
                    raise
                raise _broken(name, error) from error
        self._compiled.keep()
        return self

    def over(self, reports: Reports) -> "Press":
        """The same for other reports, with the templates that are compiled already."""
        other = copy(self)
        other._reports = reports
        other.__dict__.pop("_made", None)
        return other

    def compose(self, page: Page) -> str:
        """The HTML of a page. BrokenTheme: its template asks for what isn't there."""
        try:
            template = self._environment.get_template(page.template)
            html = kept_together(template.render(self._common(page), **page.facts))
            return html.replace("/>\n<", "/><")  # between the parts of a drawing
        except Exception as error:
            if not self._is_named:
                raise
            raise _broken(page.template, error) from error

    @cached_property
    def _made(self) -> frozenset[tuple[str, str]]:
        """Kind and key of every page that this site has."""
        return frozenset((work.kind, work.key) for work in plan(self._reports))

    def _has(self, kind: str, key: str = "") -> bool:
        return (kind, key) in self._made

    def _common(self, page: Page) -> Mapping[str, Any]:
        """What every template may name."""
        reports, keeper = self._reports, self._reports.hangar.ledger.keeper
        link = partial(_link, page.address)
        return {
            "page": page,
            "reports": reports,
            "keeper": keeper,
            "as_of": reports.hangar.as_of,
            "is_public": reports.is_public,
            "is_of_sea_level": reports.is_public and not keeper.share.elevation,
            "to": link,
            "link_to": partial(relative, page.address),
            "to_top": address_of,
            "entry_at": partial(_entry_link, page.address, reports),
            "day": reports.day,
            "machine_day": reports.machine_day,
            "with_script": self._with_script,
            "has": self._has,
            "style_text": lambda: Markup(stylesheet(self._folders)),
            "more_style_text": lambda name: Markup(more_style(self._folders, name)),
            "script_text": lambda name: Markup(more_script(self._folders, name)),
            "cautions": CAUTIONS,
            "mark_of": mark_of,
            "row_anchor": row_anchor,
            "meaning_of": partial(meaning_of, reports),
            "row_subject": row_subject,
            "row_title": row_title,
            "job_words": partial(_in_days, work_list.job_words, reports),
            "job_title": partial(_in_days, work_list.job_title, reports),
            "instruction": work_list.instruction,
            "reason_words": partial(_in_days, reason_words, reports),
            "ages": ages(reports),
            "ageing": work_list.AGEING,
            "lapse_of": partial(lapse_of, reports),
            "lapse_words": partial(_in_days, work_list.lapse_words, reports),
            "row_left": partial(_in_days, work_list.left, reports),
            "left_of_job": partial(_in_days, work_list.job_left, reports),
            "days_to_go": work_list.days_to_go,
            "row_expected": partial(_in_days, work_list.expected, reports),
            "why": partial(_in_days, because_words, reports),
        }


def _broken(name: str, error: Exception) -> BrokenTheme:
    """An error in a template of somebody's own theme, with the template and line it arose at."""
    at = ""
    for frame, line in traceback.walk_tb(error.__traceback__):
        if frame.f_code.co_filename.endswith(".j2"):
            name, at = Path(frame.f_code.co_filename).name, f", line {line}"
    if isinstance(error, jinja2.TemplateSyntaxError):
        name, at = error.name or name, f", line {error.lineno}"
    what = " ".join(str(error).split()) or type(error).__name__
    return BrokenTheme(f"the template {name}{at} can't be used: {what}")


def _in_days(word: Callable[[Any, Days], str], reports: Reports, subject: Any) -> str:
    """Words about a row or reason, its days as this audience may see them."""
    return word(subject, Days(reports.exact_days))


def _entry_link(from_address: str, reports: Reports, uid: str) -> str:
    """The link to an entry of a log; empty where this site has no page with it."""
    place = entry_place(reports, uid)
    return f"{relative(from_address, place[0])}#{place[1]}" if place else ""


def _link(from_address: str, kind: str, key: str = "", anchor: str = "") -> str:
    link = relative(from_address, address_of(kind, key))
    return f"{link}#{anchor}" if anchor else link
