"""The live inserts of a build story: what may be asked for, and what is wrong with an asking."""

import re
import shlex
from collections.abc import Callable, Iterator, Mapping

import msgspec

from buildbook.basis.nearest import did_you_mean
from buildbook.basis.notation import said
from buildbook.basis.place import Place
from buildbook.basis.problems import Problem
from buildbook.figures.answers.everything import ANSWERS
from buildbook.pages.story_text import Asked, asked_in
from buildbook.records.entries import Gains
from buildbook.report.state import Hangar


class Insert(msgspec.Struct, frozen=True, kw_only=True):
    """What is asked for: ``kind`` is a key of ``KINDS``; name and of as far as it takes them."""

    kind: str
    name: str = ""
    of: str = ""


class Misfit(Exception):
    """The insert can't be made: the reason, and a hint."""

    def __init__(self, reason: str, hint: str | None = None) -> None:
        super().__init__(reason)
        self.reason = reason
        self.hint = hint


Check = Callable[[Hangar, str, tuple[str, ...]], Insert]


def read_insert(hangar: Hangar, slug: str, words: str) -> Insert:
    """The insert that the words ask for. Misfit: there is none such."""
    try:
        given = tuple(shlex.split(_straight(words)))
    except ValueError:
        raise Misfit(
            f"the insert {said(words)} has a quotation mark that is not closed",
            "close it, or take it out",
        ) from None
    if not given:
        raise Misfit("the insert is empty", _usage())
    check = KINDS.get(given[0])
    if check is None:
        raise Misfit(f"unknown insert {said(given[0])}", did_you_mean(given[0], KINDS) or _usage())
    return check(hangar, slug, given[1:])


def problems(hangar: Hangar) -> tuple[Problem, ...]:
    """What is wrong with the inserts of all build stories, each with its line."""
    return tuple(
        found
        for slug, written in hangar.ledger.write_ups.items()
        if slug in hangar.aircraft
        for asked in asked_in(written.text)
        for found in _problem(hangar, slug, asked, written.file)
    )


def _problem(hangar: Hangar, slug: str, asked: Asked, file: str) -> Iterator[Problem]:
    try:
        read_insert(hangar, slug, asked.words)
    except Misfit as misfit:
        place = Place(file, asked.line)
        yield Problem(misfit.reason, place, "problem", misfit.hint, about=slug)


_QUOTES = re.compile("[“”„]")


def _straight(words: str) -> str:
    """Editors put curly quotation marks; an apostrophe inside words is no quotation mark."""
    return _QUOTES.sub('"', words).replace("'", "’")


def _usage() -> str:
    return f"inserts: {', '.join(KINDS)}"


def _bare(kind: str) -> Check:
    def check(_hangar: Hangar, _slug: str, given: tuple[str, ...]) -> Insert:
        if given:
            raise Misfit(
                f"the insert {said(kind)} takes nothing after it", f"write {{{{ {kind} }}}}"
            )
        return Insert(kind=kind)

    return check


def _figure(_hangar: Hangar, _slug: str, given: tuple[str, ...]) -> Insert:
    if not given:
        raise Misfit("the insert 'figure' lacks a name", "for instance {{ figure flight_time }}")
    if given[0] not in ANSWERS:
        raise Misfit(f"unknown figure {said(given[0])}", did_you_mean(given[0], ANSWERS))
    return Insert(kind="figure", name=given[0], of=" ".join(given[1:]))


def _gains(hangar: Hangar, slug: str, given: tuple[str, ...]) -> Insert:
    sets = _written_sets(hangar, slug)
    name = " ".join(given)
    if not name:
        raise Misfit("the insert 'gains' lacks the name of a set", f"sets: {', '.join(sets)}")
    if name not in sets:
        hint = did_you_mean(name, sets) or (
            f"sets: {', '.join(sets)}" if sets else "this aircraft has no gain set"
        )
        raise Misfit(f"unknown gain set {said(name)}", hint)
    return Insert(kind="gains", name=name)


def _written_sets(hangar: Hangar, slug: str) -> tuple[str, ...]:
    """All gain sets of the log, those after the day that is shown too: the story stays as it is."""
    entries = hangar.ledger.entries
    written = (e.name for e in entries if isinstance(e, Gains) and e.aircraft == slug)
    return tuple(dict.fromkeys((*hangar.aircraft[slug].gain_sets, *written)))


def _photo(hangar: Hangar, slug: str, given: tuple[str, ...]) -> Insert:
    if len(given) != 2 or not given[1].strip():
        raise Misfit(
            "the insert 'photo' takes a file and what is to be seen on it",
            'for instance {{ photo arm.jpg "The bent arm" }}',
        )
    there = hangar.ledger.photos.get(slug, ())
    if given[0] not in there:
        raise Misfit(
            f"no photo {said(given[0])} in photos/",
            did_you_mean(given[0], there) or f"the folder is aircraft/{slug}/photos",
        )
    return Insert(kind="photo", name=given[0], of=given[1].strip())


KINDS: Mapping[str, Check] = {
    "parts": _bare("parts"),
    "layout": _bare("layout"),
    "wiring": _bare("wiring"),
    "figure": _figure,
    "gains": _gains,
    "timeline": _bare("timeline"),
    "photo": _photo,
}
