"""The work list as jobs: the same thing to do on several items or stations is one job."""

from collections.abc import Iterable, Iterator, Mapping

import msgspec

from buildbook.pages.standings import pack_standing_of, standing_of
from buildbook.report.history import DefectState
from buildbook.report.reports import Reports
from buildbook.report.work import PackStanding, Reason, Row, Standing

Group = str

GROUPS: Mapping[Group, tuple[str, str]] = {
    "first": ("Before it flies", "What stands here grounds an aircraft, or keeps a pack at home."),
    "now": ("Now", "At its limit, past it, or open; nothing here grounds by itself."),
    "soon": ("Coming up", "Soon, or put off to a limit."),
    "later": ("Later", "In order. What comes first stands first."),
}
"""The groups of the work list: heading and what it means, in the order in which to act."""

_SOON = ("due soon", "deferred")
_FINE = ("ok", "not applicable")


class Job(msgspec.Struct, frozen=True, kw_only=True):
    """Something to do, on one or several items or stations of an aircraft, or on packs.

    row: the first of ``rows``; None for a reason without a row, such as an empty station. what:
    the instruction of the programme, or the words of a defect. title: the name in plain words.
    """

    group: Group
    state: str
    title: str
    aircraft: str | None = None
    row: Row | None = None
    rows: tuple[Row, ...] = ()
    reason: Reason | None = None
    what: str = ""
    propellers_off: bool = False

    @property
    def tags(self) -> tuple[str, ...]:
        """The items that it is about, each once."""
        return tuple(dict.fromkeys(row.tag for row in self.rows if row.tag))

    @property
    def stations(self) -> tuple[str, ...]:
        """The stations that it is about; where items are named, they say enough."""
        if self.tags:
            return ()
        return tuple(dict.fromkeys(row.station for row in self.rows if row.station))


def all_jobs(reports: Reports) -> tuple[Job, ...]:
    """All jobs of the hangar, in the order of the work list, worst group first."""
    standings: tuple[Standing | PackStanding, ...] = (*reports.work.aircraft, *reports.work.packs)
    return _sorted(
        [*_jobs(reports, reports.work.rows, standings), *_without_rows(reports.work.aircraft)]
    )


def jobs_of(reports: Reports, slug: str) -> tuple[Job, ...]:
    """The jobs of one aircraft."""
    standing = standing_of(reports, slug)
    rows = (row for row in reports.work.rows if row.aircraft == slug)
    return _sorted([*_jobs(reports, rows, (standing,)), *_without_rows((standing,))])


def jobs_from(reports: Reports, rows: Iterable[Row]) -> tuple[Job, ...]:
    """Jobs made of these rows, worst group first."""
    rows = tuple(rows)
    slugs = dict.fromkeys(row.aircraft for row in rows if row.aircraft)
    tags = dict.fromkeys(row.tag for row in rows if row.tag and row.aircraft is None)
    standings: list[Standing | PackStanding] = [standing_of(reports, slug) for slug in slugs]
    standings += [pack_standing_of(reports, tag) for tag in tags if tag in reports.hangar.items]
    return _sorted(_jobs(reports, rows, standings))


def grouped(jobs: Iterable[Job]) -> tuple[tuple[Group, tuple[Job, ...]], ...]:
    """Jobs by group, in the order in which to act; empty groups are left out."""
    jobs = tuple(jobs)
    by_group = ((group, tuple(job for job in jobs if job.group == group)) for group in GROUPS)
    return tuple((group, found) for group, found in by_group if found)


def defect_of(reports: Reports, row: Row) -> DefectState | None:
    """The defect that a row is about."""
    entry = row.because.entry if row.because else None
    aircraft = reports.hangar.aircraft.get(row.aircraft or "")
    item = reports.hangar.items.get(row.tag or "")
    known = (*(aircraft.defects if aircraft else ()), *(item.defects if item else ()))
    return next((defect for defect in known if defect.uid == entry), None)


def _sorted(jobs: Iterable[Job]) -> tuple[Job, ...]:
    order = list(GROUPS)
    return tuple(sorted(jobs, key=lambda job: order.index(job.group)))


def _jobs(
    reports: Reports, rows: Iterable[Row], standings: Iterable[Standing | PackStanding]
) -> Iterator[Job]:
    grounding = _grounding(standings)
    bundles: dict[object, list[Row]] = {}
    for row in rows:
        bundles.setdefault(_sort_of(row), []).append(row)
    for bundle in bundles.values():
        yield _job(reports, tuple(bundle), any(_key(row) in grounding for row in bundle))


def _job(reports: Reports, rows: tuple[Row, ...], grounding: bool) -> Job:
    row = rows[0]
    what = getattr(row.rule, "what", None) or ""
    title = _name(row)
    if row.kind == "defect":
        found = defect_of(reports, row)
        what = found.defect.words if found else ""
        title = "defect"
    return Job(
        group=_group(row, grounding),
        state=row.state,
        title=title,
        aircraft=row.aircraft,
        row=row,
        rows=rows,
        what=what,
        propellers_off=getattr(row.rule, "propellers", None) == "off",
    )


def _name(row: Row) -> str:
    """The name in plain words; a limit is a noun, such as ``pack retirement``."""
    words = row.name.replace("-", " ")
    return f"{words}ment" if row.kind == "limit" and words.endswith(" retire") else words


def _group(row: Row, grounding: bool) -> Group:
    if grounding:
        return "first"
    if row.state in _FINE:
        return "later"
    return "soon" if row.state in _SOON else "now"


def _without_rows(standings: Iterable[Standing]) -> Iterator[Job]:
    for standing in standings:
        for reason in standing.reasons:
            if reason.row is None:
                yield Job(
                    group="first" if reason.grounding else "now",
                    state="grounded" if reason.grounding else "cannot say",
                    title=reason.what,
                    aircraft=standing.slug,
                    reason=reason,
                )


def _key(row: Row) -> tuple[str | None, ...]:
    return (row.aircraft, row.kind, row.name, row.tag, row.station)


def _grounding(
    standings: Iterable[Standing | PackStanding],
) -> frozenset[tuple[str | None, ...]]:
    return frozenset(
        _key(reason.row)
        for standing in standings
        for reason in standing.reasons
        if reason.grounding and reason.row is not None
    )


def _sort_of(row: Row) -> object:
    """Rows that are alike in this are one job; a defect is always one of its own.

    What is in order is one job by its name: the row that comes first speaks for all.
    """
    because = row.because
    if row.state in _FINE:
        return (row.aircraft, row.kind, row.name, row.state)
    return (
        row.aircraft,
        row.kind,
        row.name,
        row.state,
        tuple(sorted(row.left.items())),
        row.due_on,
        (because.why, because.trigger, because.unit, because.on) if because else None,
        row.tag if row.kind == "defect" else None,
    )
