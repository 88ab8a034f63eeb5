"""One box over everything: the index of the book as a page, and the same for the script.

The page is the register at the back of a book: complete and readable without a script. The
script searches more finely, entries among them, in data that comes as a script, so that it works
from a folder too.
"""

import json
from collections.abc import Iterator, Sequence
from itertools import groupby

import msgspec

from buildbook.pages.addresses import address_of
from buildbook.pages.aircraft.log_parts import entry_place
from buildbook.pages.page import Page, Sheet, crumbs
from buildbook.report.history import LogLine
from buildbook.report.reports import Reports
from buildbook.words.logbook.entries import entry_kind, entry_line
from buildbook.words.names import kind_words, sentence


class Found(msgspec.Struct, frozen=True, kw_only=True):
    """Something that can be found: kind, words, and where it is from the top of the site."""

    kind: str
    words: str
    link: str


class Alike(msgspec.Struct, frozen=True, kw_only=True):
    """A line of the register: one thing by its name, or the tags of items that are alike.

    links: the words of each link and its address. title: what they are, where tags do not say.
    """

    title: str
    links: tuple[tuple[str, str], ...]


class Letter(msgspec.Struct, frozen=True, kw_only=True):
    """A stretch of the register."""

    heading: str
    anchor: str
    found: tuple[Alike, ...]

    @property
    def count(self) -> int:
        """How many things stand in it."""
        return sum(len(one.links) for one in self.found)


def page(reports: Reports, _key: str) -> Page:
    """The register."""
    return Page(
        address=address_of("find"),
        template="find.html.j2",
        title="Find",
        crumbs=crumbs(reports),
        facts={
            "register": tuple(_register(reports)),
            "settings": tuple(_settings(reports)),
            "programmes": reports.programmes(),
        },
        about="Everything by name: aircraft, parts, packs, settings, gain sets.",
    )


def sheet(reports: Reports, _key: str) -> Sheet:
    """All that can be found, as data for the script of the page."""
    rows = [[one.kind, one.words, one.link] for one in everything(reports)]
    text = json.dumps(rows, ensure_ascii=False, separators=(",", ":"))
    harmless = text.replace("<", "\\u003c").replace("\u2028", " ").replace("\u2029", " ")
    return Sheet(address=address_of("search"), text=f"var bookIndex={harmless};\n")


def everything(reports: Reports) -> Iterator[Found]:
    """Aircraft, parts, settings, gain sets, then all entries, newest first."""
    for slug, aircraft in reports.hangar.aircraft.items():
        yield Found(
            kind="aircraft", words=aircraft.record.aircraft, link=address_of("aircraft", slug)
        )
    for tag, item in reports.hangar.items.items():
        kind = item.spec.kind.replace("_", " ")
        mark = f", {item.item.mark}" if item.item.mark else ""
        yield Found(
            kind=kind, words=f"{tag}, {item.spec.title}{mark}", link=address_of("item", tag)
        )
    yield from _settings(reports)
    for slug, aircraft in reports.hangar.aircraft.items():
        name = aircraft.record.aircraft
        yield from _entries(reports, name, address_of("logbook", slug), aircraft.log)
    yield from _entries(reports, "", address_of("store-log"), reports.hangar.store_log)


def _settings(reports: Reports) -> Iterator[Found]:
    for slug, aircraft in reports.hangar.aircraft.items():
        name = aircraft.record.aircraft
        for (of, setting), force in aircraft.settings.items():
            of_words = f" of {of}" if of else ""
            yield Found(
                kind="setting",
                words=f"{name}: {setting.replace('_', ' ')}{of_words} {force.value}",
                link=_at(reports, slug, force.uid),
            )
        for gains in aircraft.gain_sets:
            yield Found(kind="gain set", words=f"{name}: {gains}", link=address_of("gains", slug))


def _at(reports: Reports, slug: str, uid: str) -> str:
    place = entry_place(reports, uid)
    return "#".join(place) if place else address_of("logbook", slug)


def _entries(reports: Reports, name: str, link: str, log: Sequence[LogLine]) -> Iterator[Found]:
    for line in sorted(log, key=lambda line: (line.entry.on, line.seq), reverse=True):
        entry = line.stands or line.entry
        place = entry_place(reports, line.entry.uid)
        note = f". {entry.note}" if entry.note else ""
        subject = f"{name}, " if name else ""
        yield Found(
            kind=entry_kind(entry),
            words=f"{subject}{reports.day(line.entry.on)}: {sentence(entry_line(entry))}{note}",
            link="#".join(place) if place else link,
        )


def _register(reports: Reports) -> Iterator[Letter]:
    """Aircraft, then items by kind, those with one title on one line."""
    yield Letter(
        heading="Aircraft",
        anchor="aircraft",
        found=tuple(
            Alike(title="", links=((aircraft.record.aircraft, address_of("aircraft", slug)),))
            for slug, aircraft in reports.hangar.aircraft.items()
        ),
    )
    items = sorted(
        reports.hangar.items.values(), key=lambda item: (item.spec.kind, item.spec.title, item.tag)
    )
    for kind, found in groupby(items, key=lambda item: item.spec.kind):
        yield Letter(
            heading=sentence(kind_words(kind)),
            anchor=f"k-{kind.replace('_', '-')}",
            found=tuple(
                Alike(
                    title=title,
                    links=tuple((item.tag, address_of("item", item.tag)) for item in alike),
                )
                for title, alike in groupby(found, key=lambda item: item.spec.title)
            ),
        )
