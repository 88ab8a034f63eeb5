"""Atom feeds of what was written: for the whole hangar, and for each aircraft.

Where days are not shared there is one entry a month, which tells how much was done and nothing
of when; its moment is the first of that month, always.
"""

import datetime
import re
import uuid
import xml.etree.ElementTree as ET
from collections.abc import Iterator, Sequence
from itertools import groupby

import msgspec

from buildbook.basis import amounts
from buildbook.pages.addresses import address_of, relative
from buildbook.pages.aircraft.log_parts import entry_place, month_places, parts_of_log
from buildbook.pages.page import Sheet, each_logged
from buildbook.pages.story import write_up
from buildbook.records import entries
from buildbook.report.drawn.plans import MonthPlan
from buildbook.report.history import LogLine
from buildbook.report.reports import Reports
from buildbook.words.logbook.entries import entry_kind, entry_line
from buildbook.words.names import sentence
from buildbook.words.public import kind_of_build

NEWEST = 40
_ATOM = "http://www.w3.org/2005/Atom"
_NOT_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


class Item(msgspec.Struct, frozen=True, kw_only=True):
    """An entry of a feed. key: what its id is made from, the same in every render."""

    key: str
    on: datetime.date
    title: str
    words: str
    page: str
    anchor: str = ""


def hangar_feed(reports: Reports, _key: str) -> Sheet:
    """What was written of all aircraft."""
    keeper = reports.hangar.ledger.keeper
    items = [item for slug in each_logged(reports) for item in _items(reports, slug)]
    stories = list(_stories(reports))
    address = address_of("feed")
    return _sheet(reports, address, address_of("hangar"), keeper.hangar, items, stories)


def _stories(reports: Reports) -> Iterator[Item]:
    """Each build story, of the day on which it was written, else of the newest entry."""
    for slug in write_up.keys(reports):
        aircraft = reports.hangar.aircraft[slug]
        facts = aircraft.record.story
        days = [line.entry.on for line in aircraft.log] or [_month_of(reports)]
        yield Item(
            key=f"{slug} story",
            on=facts.written.day if facts and facts.written else max(days),
            title=write_up.title_of(reports, slug),
            words=(facts.promise if facts else None) or kind_of_build(aircraft).capitalize(),
            page=address_of("write-up", slug),
        )


def aircraft_feed(reports: Reports, slug: str) -> Sheet:
    """What was written of one aircraft."""
    name = reports.hangar.aircraft[slug].record.aircraft
    address = address_of("aircraft-feed", slug)
    items = list(_items(reports, slug))
    return _sheet(reports, address, address_of("aircraft", slug), f"Logbook of {name}", items)


def _items(reports: Reports, slug: str) -> Iterator[Item]:
    aircraft = reports.hangar.aircraft[slug]
    name = aircraft.record.aircraft
    lines = sorted(
        (line for line in aircraft.log if line.stands is not None),
        key=lambda line: (line.entry.on, line.seq),
        reverse=True,
    )
    if reports.exact_days:
        yield from _daily(reports, slug, name, lines[:NEWEST])
    else:
        yield from _monthly(reports, slug, name, lines)


def _daily(reports: Reports, slug: str, name: str, lines: Sequence[LogLine]) -> Iterator[Item]:
    for line in lines:
        assert line.stands is not None  # those without are left out above
        page, anchor = entry_place(reports, line.entry.uid) or (address_of("logbook", slug), "")
        yield Item(
            key=f"{slug} {line.entry.on} {line.entry.index}",
            on=line.entry.on,
            title=f"{name}: {entry_kind(line.stands)}",
            words=sentence(entry_line(line.stands)),
            page=page,
            anchor=anchor,
        )


def _monthly(reports: Reports, slug: str, name: str, lines: Sequence[LogLine]) -> Iterator[Item]:
    by_month = groupby(lines, lambda line: (line.entry.on.year, line.entry.on.month))
    places = {(at.year, at.number): at for at in month_places(parts_of_log(reports, slug), slug)}
    plan = reports.timeline(slug)
    flown = {one.month: one for one in (plan.months if plan else ())}
    for (year, month), found in by_month:
        first = datetime.date(year, month, 1)
        yield Item(
            key=f"{slug} {year}-{month:02d}",
            on=first,
            title=f"{name} in {amounts.month(first)}",
            words=_done(tuple(found), flown.get(f"{year}-{month:02d}")),
            page=places[year, month].address,
            anchor=places[year, month].anchor,
        )


def _done(lines: Sequence[LogLine], flown: MonthPlan | None) -> str:
    """``13 flights, 2.3 h; 2 repairs; 4 checks``: of other kinds, those that may be seen."""
    said = []
    if flown is not None:
        hours = amounts.hours(flown.hours * 3600)
        said.append(f"{amounts.count('flight', flown.flights)}, {hours}")
    stands = [line.stands for line in lines if line.stands is not None]
    kinds = [entry_kind(one) for one in stands if not isinstance(one, entries.Flight)]
    said += [
        amounts.count(kind, kinds.count(kind))
        for kind in sorted(set(kinds))
        if kind not in ("cleared", "state")
    ]
    return "; ".join(said) or "Entries without a count"


def _sheet(
    reports: Reports,
    address: str,
    page: str,
    title: str,
    items: list[Item],
    first: Sequence[Item] = (),
) -> Sheet:
    keeper = reports.hangar.ledger.keeper
    items.sort(key=lambda item: (item.on, item.key), reverse=True)
    items = [*first, *items][:NEWEST]
    home = uuid.uuid5(uuid.NAMESPACE_URL, f"{keeper.address or keeper.hangar} {address}")
    feed = ET.Element("feed", {"xmlns": _ATOM, "xml:lang": "en"})
    _add(feed, "id", home.urn)
    _add(feed, "title", title)
    _add(feed, "updated", _moment(max((item.on for item in items), default=_month_of(reports))))
    author = ET.SubElement(feed, "author")
    _add(author, "name", keeper.hangar)
    ET.SubElement(feed, "link", {"rel": "alternate", "href": _link(reports, address, page)})
    if keeper.address:
        ET.SubElement(feed, "link", {"rel": "self", "href": _link(reports, address, address)})
    for item in items:
        entry = ET.SubElement(feed, "entry")
        _add(entry, "id", uuid.uuid5(home, item.key).urn)
        _add(entry, "title", item.title)
        _add(entry, "updated", _moment(item.on))
        href = _link(reports, address, item.page) + (f"#{item.anchor}" if item.anchor else "")
        ET.SubElement(entry, "link", {"rel": "alternate", "href": href})
        _add(entry, "summary", item.words)
    ET.indent(feed, " ")
    text = ET.tostring(feed, encoding="unicode")
    return Sheet(address=address, text=f'<?xml version="1.0" encoding="utf-8"?>\n{text}\n')


def _add(parent: ET.Element, name: str, text: str) -> None:
    ET.SubElement(parent, name).text = _NOT_XML.sub("", text)


def _moment(on: datetime.date) -> str:
    return f"{on.isoformat()}T00:00:00Z"


def _month_of(reports: Reports) -> datetime.date:
    as_of = reports.hangar.as_of
    return as_of if reports.exact_days else as_of.replace(day=1)


def _link(reports: Reports, from_address: str, to_address: str) -> str:
    """Absolute where the site has an address, else relative to the feed."""
    home = reports.hangar.ledger.keeper.address
    if not home:
        return relative(from_address, to_address)
    return f"{home.rstrip('/')}/{to_address.removesuffix('index.html')}"
