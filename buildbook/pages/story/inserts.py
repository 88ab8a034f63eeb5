"""The live inserts of a build story: what may be asked for, and what is wrong with an asking."""

import re
import shlex
from collections.abc import Callable, Iterator, Mapping
from urllib.parse import unquote

import msgspec

from buildbook.basis.nearest import did_you_mean
from buildbook.basis.notation import quoted
from buildbook.basis.place import Place
from buildbook.basis.problems import Problem
from buildbook.pages.story.insert_places import PICTURE, Asked, asked_in
from buildbook.records.entries import Gains
from buildbook.report.reports import Reports


class Insert(msgspec.Struct, frozen=True, kw_only=True):
    """What is asked for: ``kind`` is a key of ``KINDS``; name and of as far as it takes them.

    caption: what stands below a photograph.
    """

    kind: str
    name: str = ""
    of: str = ""
    caption: str = ""


class Misfit(Exception):
    """The insert can't be made: the reason, and a hint."""

    def __init__(self, reason: str, hint: str | None = None) -> None:
        super().__init__(reason)
        self.reason = reason
        self.hint = hint


class Kind(msgspec.Struct, frozen=True):
    """How the words after the name of an insert are read, and whether the hangar has it."""

    read: Callable[[tuple[str, ...]], Insert]
    look: Callable[[Reports, str, Insert], None]


def read_insert(asked: Asked) -> Insert:
    """The insert that the words ask for. Misfit: they ask for none."""
    if asked.form == "braces":
        now = f"@ {asked.words}".rstrip()
        raise Misfit(f"the insert {quoted(asked.written)} is in braces", f"write {now}")
    if asked.form in ("picture", "cell"):
        return _picture(asked.words)
    given = _split(asked.words)
    if asked.form == "sentence":
        if given and given[0] in KINDS:
            raise Misfit(
                f"the insert {quoted(asked.written)} cannot stand in a sentence",
                f"write @ {asked.words} alone on its line; only a figure may stand in a sentence",
            )
        given = ("figure", *given)
    elif not given:
        raise Misfit("the insert is empty", _usage())
    kind = KINDS.get(given[0])
    if kind is None:
        raise Misfit(
            f"unknown insert {quoted(given[0])}", did_you_mean(given[0], KINDS) or _usage()
        )
    return kind.read(given[1:])


def look_up(reports: Reports, slug: str, insert: Insert) -> None:
    """Whether all that an insert names is in the records. Misfit: something is not."""
    KINDS[insert.kind].look(reports, slug, insert)


def problems(reports: Reports) -> tuple[Problem, ...]:
    """What is wrong with the inserts of all build stories, each with its line."""
    return tuple(
        found
        for slug, written in reports.hangar.ledger.write_ups.items()
        if slug in reports.hangar.aircraft
        for asked in asked_in(written.text)
        for found in _problem(reports, slug, asked, written.file)
    )


def _problem(reports: Reports, slug: str, asked: Asked, file: str) -> Iterator[Problem]:
    try:
        look_up(reports, slug, read_insert(asked))
    except Misfit as misfit:
        place = Place(file, asked.line)
        yield Problem(misfit.reason, place, "problem", misfit.hint, about=slug)


_LONGEST_WORDS = 600  # of a photograph, read aloud in one breath or two
_QUOTES = re.compile("[“”„]")


def _split(words: str) -> tuple[str, ...]:
    """Editors put curly quotation marks; an apostrophe inside words is no quotation mark."""
    try:
        return tuple(shlex.split(_QUOTES.sub('"', words).replace("'", "’")))
    except ValueError:
        raise Misfit(
            f"the insert {quoted(words)} has a quotation mark that is not closed",
            "close it, or take it out",
        ) from None


def _usage() -> str:
    return f"inserts: {', '.join(KINDS)}"


def _is_there(_reports: Reports, _slug: str, _insert: Insert) -> None:
    """What names nothing can always be shown."""


def _bare(kind: str) -> Kind:
    def read(given: tuple[str, ...]) -> Insert:
        if given:
            raise Misfit(f"the insert {quoted(kind)} takes nothing after it", f"write @ {kind}")
        return Insert(kind=kind)

    return Kind(read, _is_there)


def _figure(given: tuple[str, ...]) -> Insert:
    if not given:
        raise Misfit("the insert 'figure' lacks a name", "for instance @ figure flight_time")
    return Insert(kind="figure", name=given[0], of=" ".join(given[1:]))


def _figure_there(reports: Reports, _slug: str, insert: Insert) -> None:
    known = reports.figure_names()
    if insert.name not in known:
        raise Misfit(f"unknown figure {quoted(insert.name)}", did_you_mean(insert.name, known))


def _gains(given: tuple[str, ...]) -> Insert:
    return Insert(kind="gains", name=" ".join(given))


def _gains_there(reports: Reports, slug: str, insert: Insert) -> None:
    sets = written_sets(reports, slug)
    listed = f"sets: {', '.join(sets)}" if sets else "this aircraft has no gain set"
    if not insert.name:
        raise Misfit("the insert 'gains' lacks the name of a set", listed)
    if insert.name not in sets:
        hint = did_you_mean(insert.name, sets) or listed
        raise Misfit(f"unknown gain set {quoted(insert.name)}", hint)


def written_sets(reports: Reports, slug: str) -> tuple[str, ...]:
    """All gain sets of the log, those after the day that is shown too: the story stays as it is."""
    entries = reports.hangar.ledger.entries
    written = (e.name for e in entries if isinstance(e, Gains) and e.aircraft == slug)
    return tuple(dict.fromkeys((*reports.hangar.aircraft[slug].gain_sets, *written)))


def _entry(given: tuple[str, ...]) -> Insert:
    if len(given) != 1:
        raise Misfit("the insert 'entry' takes the id of one entry", "as in @ entry 2026-03-01-1")
    return Insert(kind="entry", name=given[0])


def _entry_there(reports: Reports, slug: str, insert: Insert) -> None:
    ids = [entry.id for entry in reports.hangar.ledger.entries if entry.aircraft == slug]
    if insert.name not in ids:
        hint = did_you_mean(insert.name, ids) or "an id, or the day and which entry of that day"
        raise Misfit(f"no entry {quoted(insert.name)} in this logbook", hint)
    if ids.count(insert.name) > 1:
        raise Misfit(
            f"{ids.count(insert.name)} entries of this logbook have the id {quoted(insert.name)}",
            "give the one that is meant an id: of its own",
        )


def _photo(given: tuple[str, ...]) -> Insert:
    if len(given) != 2 or not given[1].strip():
        raise Misfit(
            "the insert 'photo' takes a file and what is to be seen on it",
            'for instance @ photo arm.jpg "The bent arm"',
        )
    words = given[1].strip()
    return Insert(kind="photo", name=given[0], of=words, caption=words)


def _picture(written: str) -> Insert:
    """A photograph as Markdown has it; its file may be written with or without ``photos/``."""
    found = PICTURE.fullmatch(written)
    assert found is not None  # so it was found
    words, file, caption = (part.strip() if part else "" for part in found.groups())
    name = unquote(file.strip("<>")).removeprefix("./").removeprefix("photos/")
    if "://" in name or name.startswith(("data:", "//")):
        raise Misfit(
            "a picture from elsewhere is not shown", "save it in photos/ and write its name"
        )
    if not words:
        raise Misfit(
            f"the photo {quoted(name)} has no words", "say between the brackets what is to be seen"
        )
    if len(words) > _LONGEST_WORDS:
        raise Misfit(
            f"the words of the photo {quoted(name)} have {len(words)} characters; "
            f"{_LONGEST_WORDS} are the most",
            "say what is to be seen; the rest belongs in the text",
        )
    return Insert(kind="photo", name=name, of=words, caption=caption or words)


def _photo_there(reports: Reports, slug: str, insert: Insert) -> None:
    there = reports.hangar.ledger.photos.get(slug, ())
    if insert.name not in there:
        raise Misfit(
            f"no photo {quoted(insert.name)} in photos/",
            did_you_mean(insert.name, there) or f"the folder is aircraft/{slug}/photos",
        )


KINDS: Mapping[str, Kind] = {
    "layout": _bare("layout"),
    "wiring": _bare("wiring"),
    "parts": _bare("parts"),
    "figure": Kind(_figure, _figure_there),
    "gains": Kind(_gains, _gains_there),
    "balance": _bare("balance"),
    "surfaces": _bare("surfaces"),
    "timeline": _bare("timeline"),
    "set-up": _bare("set-up"),
    "entry": Kind(_entry, _entry_there),
    "photo": Kind(_photo, _photo_there),
}
