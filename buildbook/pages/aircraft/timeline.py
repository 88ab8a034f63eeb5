"""The life of an aircraft: flying by month, what changed when, and how it was after each change."""

import datetime
from collections.abc import Iterable, Iterator, Mapping
from itertools import groupby, pairwise

import msgspec
from markupsafe import Markup

from buildbook.basis import amounts
from buildbook.drawings.charts.timeline import timeline_drawing, timeline_table
from buildbook.pages.addresses import address_of
from buildbook.pages.aircraft.charts import charts_of_aircraft
from buildbook.pages.aircraft.logbook import first_marks
from buildbook.pages.aircraft.timeline_moments import Moment, moment_anchors, moments_of_aircraft
from buildbook.pages.linking import Linker, Piece
from buildbook.pages.page import Page, crumbs
from buildbook.records import entries
from buildbook.report.drawn.plans import Table
from buildbook.report.history import LogLine
from buildbook.report.reports import Reports
from buildbook.words.logbook.entries import entry_kind, entry_line

TOLD = (
    entries.Fit,
    entries.Remove,
    entries.StateChange,
    entries.Setting,
    entries.Gains,
    entries.Weigh,
    entries.Incident,
    entries.Repair,
    entries.Overhaul,
    entries.Defect,
    entries.Cleared,
    entries.Firmware,
    entries.Alteration,
    entries.Water,
)
"""What is told here even where it left the aircraft as it was; flights and checks are not."""


class Change(msgspec.Struct, frozen=True, kw_only=True):
    """One entry. then: how it was after it, None where it changed nothing.

    short: the same in a few words, where they are others than after the moment before.
    as_before: the anchor of the latest moment before it, where it changed nothing.
    meanwhile: what was open while it was flown, at the first of the flights of which that holds.
    """

    on: datetime.date
    uid: str
    kind: str
    line: tuple[Piece, ...]
    then: Moment | None
    as_before: str
    short: str = ""
    meanwhile: str = ""


class Month(msgspec.Struct, frozen=True, kw_only=True):
    """What happened in a month, the newest first."""

    anchor: str
    words: str
    changes: tuple[Change, ...]


def page(reports: Reports, slug: str) -> Page:
    """The timeline of an aircraft."""
    name = reports.hangar.aircraft[slug].record.aircraft
    plan = reports.timeline(slug)
    drawing: Markup | None = timeline_drawing(plan) if plan else None
    table: Table | None = timeline_table(plan) if plan else None
    return Page(
        address=address_of("timeline", slug),
        template="timeline.html.j2",
        title=f"Timeline of {name}",
        crumbs=crumbs(reports, slug),
        facts={
            "slug": slug,
            "drawing": drawing,
            "table": table,
            "trends": tuple(charts_of_aircraft(reports, slug)),
            "months": (found := months(reports, slug)),
            "newest": next(_moments_in(found), None),
        },
        about=f"What changed on {name} entry by entry, and how it was after each.",
    )


def months(reports: Reports, slug: str) -> tuple[Month, ...]:
    """Every month in which something happened to the aircraft, the newest first."""
    moments = moments_of_aircraft(reports, slug)
    then = {moment.line.seq: moment for moment in moments}
    anew = {
        moment.line.seq: moment.short
        for before, moment in pairwise((None, *moments))
        if moment is not None and (before is None or before.short != moment.short)
    }
    anchors = moment_anchors(reports, slug)
    link = Linker(reports)
    marks = first_marks(reports, slug)
    told = [
        line
        for line in reversed(reports.hangar.aircraft[slug].log)
        if line.seq in then or isinstance(line.stands, TOLD) or line.name in marks
    ]
    return tuple(
        Month(
            anchor=f"m-{year}-{month:02d}",
            words=amounts.month(datetime.date(year, month, 1)),
            changes=tuple(
                msgspec.structs.replace(
                    _change(line, then.get(line.seq), anchors, link),
                    short=anew.get(line.seq, ""),
                    meanwhile=marks.get(line.name, ""),
                )
                for line in of_month
            ),
        )
        for (year, month), of_month in groupby(
            told, lambda line: (line.entry.on.year, line.entry.on.month)
        )
    )


def _change(line: LogLine, then: Moment | None, anchors: Mapping[str, str], link: Linker) -> Change:
    counted = line.stands or line.entry
    name = line.name
    return Change(
        on=line.entry.on,
        uid=name,
        kind=entry_kind(counted),
        line=link.pieces(entry_line(counted)),
        then=then,
        as_before="" if then else anchors.get(name, ""),
    )


def _moments_in(found: Iterable[Month]) -> Iterator[Moment]:
    return (change.then for month in found for change in month.changes if change.then)
