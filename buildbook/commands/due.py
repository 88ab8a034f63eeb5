"""``buildbook due``: what is due, stale or grounded, and why."""

import argparse
import datetime
import re
import sys
from collections.abc import Iterable, Iterator, Mapping, Sequence

import msgspec

from buildbook.basis import amounts
from buildbook.basis.nearest import did_you_mean
from buildbook.basis.notation import NotationError, duration_s
from buildbook.commands.opening import Opened, WrongUse, open_hangar
from buildbook.commands.terminal.command_line import add_as_of, add_hangar, add_json
from buildbook.commands.terminal.screen import Tone, print_json, print_problems, toned, wrapped
from buildbook.records.ledger import named_aircraft
from buildbook.records.outputs.seal import BrokenSeal, changed_entries, read_seal
from buildbook.records.parts import GONE
from buildbook.report.reports import Reports
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.flown import told_first
from buildbook.report.upkeep.jobs import Group, Job
from buildbook.report.upkeep.pack_findings import (
    CellFell,
    CellLow,
    CellsApart,
    CellsOutside,
    ChargedWrongly,
    IntoReserve,
    OnShelf,
    SetAside,
    UsedAside,
    UsedShare,
)
from buildbook.report.upkeep.work import PackStanding, Reason, Row, Standing, WorkList
from buildbook.words import work_list
from buildbook.words.cautions import CAUTIONS
from buildbook.words.measures.days import EXACT
from buildbook.words.names import kind_words
from buildbook.words.reasons import because_words, reason_words, row_name, row_title
from buildbook.words.upkeep.check import failed_so_far, with_dangers
from buildbook.words.work_list import HEADING, LED, MOST, more_words, remark_words

_PACK_TONES: dict[str, Tone] = {"grounded": "bad", "quarantined": "bad"}
_OF_ONE = (
    CellFell,
    CellLow,
    CellsApart,
    CellsOutside,
    ChargedWrongly,
    IntoReserve,
    OnShelf,
    SetAside,
    UsedAside,
    UsedShare,
)


def print_packs(work: WorkList, defects: Mapping[str | None, str]) -> None:
    """The table, the caution where one is set aside, then what to do, each said once.

    defects: their words, by the entry of each.
    """
    packs = sorted((pack for pack in work.packs if pack.reasons and not _is_gone(pack)), key=_worst)
    if not packs:
        return
    print(f"\n{toned('Packs, worst first', 'strong', sys.stdout)}")
    alike: dict[object, list[PackStanding]] = {}
    for pack in packs:
        alike.setdefault((pack.state, tuple(map(_about, pack.reasons))), []).append(pack)
    for found in alike.values():
        state = toned(found[0].said, _PACK_TONES.get(found[0].state, "warn"), sys.stdout)
        print(f"  {', '.join(pack.tag for pack in found)}  {state}")
        for reasons in zip(*(pack.reasons for pack in found), strict=True):
            print(wrapped(_line(reasons, defects), indent="      ", hanging="        "))
    if any(pack.state == "quarantined" for pack in packs):
        caution = CAUTIONS["SW4"]
        print(wrapped(f"{caution.heading}. {caution.words}", indent="  "))
    for words in dict.fromkeys(_instructions(packs)):
        print(wrapped(words, indent="  "))


def _is_gone(pack: PackStanding) -> bool:
    """Whether it left the hangar, and nobody charged or flew it since."""
    used = any(reason.because.why == "used aside" for reason in pack.reasons)
    return pack.state in GONE and not used


def _worst(pack: PackStanding) -> tuple[int, float, str]:
    first = pack.reasons[0]
    used = 0.0 if first.row is None else first.row.used or 0.0
    return first.rank, -used, pack.tag


def _about(reason: Reason) -> object:
    """What packs on one line have alike, what was read of them too.

    A defect, and what no row says, is always its own.
    """
    row = reason.row
    if row is None or row.kind == "defect":
        return reason.because, reason.place
    found = reason.because.found
    return row.name, row.state, row.first_by, found if isinstance(found, _OF_ONE) else None


def _line(reasons: Sequence[Reason], defects: Mapping[str | None, str]) -> str:
    """Name, state, what is left over all of them, and the place of the first."""
    first = reasons[0]
    row = first.row
    if row is None or row.kind == "defect":
        words = defects.get(first.because.entry)
        return f"{reason_words(first, EXACT)}{f': {words}' if words else ''} @ {first.place}"
    if isinstance(first.because.found, SetAside):
        return f"{because_words(first.because, EXACT)} @ {first.place}"
    unit = row.first_by or ""
    rows = [reason.row for reason in reasons if reason.row is not None]
    left = [one.left[unit] for one in rows if unit in one.left]
    said = f"{row_name(row)} - {row.state}"
    if left and row.state != "stale":
        said += f", {work_list.between(unit, min(left), max(left))}"
    if (not left or row.state in ("stale", "reached")) and (why := _why(rows)):
        said += f", {why}"
    return f"{said} @ {first.place}"


def _why(rows: Sequence[Row]) -> str:
    """Why, with the day where it is the same of all."""
    found = [row.because for row in rows if row.because is not None]
    said = {because_words(one, EXACT) for one in found}
    if len(said) > 1:
        said = {because_words(msgspec.structs.replace(one, on=None), EXACT) for one in found}
    return said.pop() if len(said) == 1 else ""


def _instructions(packs: Iterable[PackStanding]) -> Iterator[str]:
    for pack in packs:
        for reason in pack.reasons:
            row = reason.row
            what = getattr(row.rule, "what", None) if row else None
            if row is not None and row.kind == "defect":
                what = work_list.defect_advice(row, pack=True)
            if row is not None and what:
                yield f"{row_name(row)}: {what}"
            if row is not None and row.kind == "limit" and row.first_by == "share":
                yield from work_list.where_forecast(row, pack.tag)


_TONES: Mapping[str, Tone] = {
    "grounded": "bad",
    "due soon": "warn",
    "cannot say": "warn",
    "quarantined": "bad",
}


def options(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    add_hangar(parser)
    add_as_of(parser)
    add_json(parser)
    parser.add_argument("--aircraft", metavar="NAME", help="only this aircraft")
    parser.add_argument(
        "--within", metavar="30d", help="also list what falls due within that many days"
    )
    parser.add_argument(
        "--planned", metavar="12min", help="say what falls due in a flight of that length"
    )


def run(options: argparse.Namespace) -> int:
    """Print the work list; 3 where something is due or grounded, 1 where the records are broken."""
    within = None if options.within is None else _days(options.within)
    planned = None if options.planned is None else _planned(options.planned)
    opened = open_hangar(options)
    if opened.broken:
        print_problems(with_dangers(opened.problems, opened.dangers))
    if opened.reports is None:
        return 1
    reports = opened.reports
    only = None if options.aircraft is None else _known(reports, options.aircraft)
    work = reports.work if only is None else reports.work_around(only)
    if options.json:
        from buildbook.words.for_machines import due_shape  # only where it is asked for

        raised = work_list.raised_of(reports, (each.slug for each in work.aircraft), EXACT)
        print_json(due_shape(work, raised))
    elif planned is not None:
        _print_planned(reports, work, planned)
    else:
        _print(reports, work, reports.jobs() if only is None else reports.jobs_around(only), within)
    if not options.json and planned is None:
        _print_remarks(reports, only)
    if opened.broken:
        return 1
    if not options.json and _records_warn(opened):
        print("\n" + wrapped("There are warnings in the records: buildbook check"))
    return 3 if something_is_due(work) else 0


def _records_warn(opened: Opened) -> bool:
    """Whether ``check`` has a warning of the records, or stops at their seals.

    What it says of stories and photographs takes pages, and is left to it.
    """
    told = with_dangers(opened.problems, opened.dangers)
    if opened.reports is None or any(problem.severity == "warning" for problem in told):
        return bool(told)
    try:
        sealed = read_seal(opened.folder)
    except BrokenSeal:
        return True
    return next(changed_entries(opened.reports.hangar.ledger, sealed), None) is not None


def something_is_due(work: WorkList) -> bool:
    """Whether an aircraft or pack has a reason that grounds it, or is due or worse.

    Not for what is merely stale and grounds nothing, for a pack that its keeper took out of
    service himself, or for what lies in a drawer.
    """
    packs = (pack for pack in work.packs if not pack.by_keeper)
    standings: tuple[Standing | PackStanding, ...] = (*work.aircraft, *packs)
    return any(_presses(reason) for standing in standings for reason in standing.reasons)


def _presses(reason: Reason) -> bool:
    row = reason.row
    if row is not None and not row.grounds and row.state in ("stale", "never done"):
        return False
    return reason.grounding or reason.rank <= ranks.DUE


def _days(text: str) -> int:
    found = re.fullmatch(r"(\d{1,4}) ?(?:d|days?)", text.strip())
    if found is None:
        raise WrongUse(f"--within: {text!r} is not a number of days; write it like 30d")
    return int(found.group(1))


def _planned(text: str) -> float:
    try:
        return duration_s(text)
    except NotationError as error:
        hint = f"; {error.hint}" if error.hint else ""
        raise WrongUse(f"--planned: {error.reason}{hint}") from error


def _known(reports: Reports, name: str) -> str:
    """The slug of the aircraft asked for by it or by its name. WrongUse: there is none such."""
    slug = named_aircraft(name, reports.hangar.ledger)
    if slug is None:
        hint = did_you_mean(name, list(reports.hangar.aircraft))
        raise WrongUse(f"no aircraft is called {name!r}" + (f"; {hint}" if hint else ""))
    return slug


def _print(reports: Reports, work: WorkList, jobs: Iterable[Job], within: int | None) -> None:
    out = sys.stdout
    print(toned(f"Record to {amounts.day(work.as_of)}", "strong", out) + "\n")
    silence = reports.silence()
    if silence is not None:
        ago = amounts.count("day", silence.days)
        print(f"Nothing was written after {amounts.day(silence.since)}, {ago} earlier.\n")
    stand: list[tuple[str, str]] = [(each.name, each.state) for each in work.aircraft]
    width = max((len(name) for name, _ in stand), default=0)
    for name, state in stand:
        print(f"  {name:{width}}  {toned(state, _TONES.get(state, 'soft'), out)}")
    for each in work.aircraft:
        failed = failed_so_far(reports.set_up_checks(each.slug)) if each.state == "building" else ""
        if failed:
            print("\n" + wrapped(f"{each.name}: {failed}", hanging="    "))
        raised = reports.gains_raised(each.slug)
        if raised is not None:
            said = work_list.raised_words(raised, EXACT)
            print("\n" + wrapped(f"{each.name}: {said}", hanging="    "))
    jobs = tuple(jobs)
    of_aircraft: dict[Group, tuple[Job, ...]] = {}
    packs = {pack.tag for pack in work.packs}
    for group, found in work_list.grouped(job for job in jobs if job.aircraft is not None):
        of_aircraft[group] = found
    _print_group(reports, work_list.GROUP_WORDS["first"][0], of_aircraft.get("first", ()))
    print_packs(work, {job.because.entry: job.what for job in jobs if job.defect and job.because})
    for group in ("now", "soon"):
        _print_group(reports, work_list.GROUP_WORDS[group][0], of_aircraft.get(group, ()))
    spares = [job for job in jobs if job.aircraft is None and packs.isdisjoint(job.tags)]
    _print_group(
        reports, "In the drawer, before use", (job for job in spares if job.group != "later")
    )
    later = [*of_aircraft.get("later", ())]
    later += [job for job in jobs if job.aircraft is None and job.group == "later"]
    if within is not None:
        last = work.as_of + datetime.timedelta(days=within)
        coming = [job for job in later if _comes_by(job, last)]
        _print_group(reports, f"Within {amounts.count('day', within)}", coming)


def _comes_by(job: Job, last: datetime.date) -> bool:
    """Whether the first of its rows comes by that day."""
    firsts = (days[0] for days in (job.due_on, job.expected) if days is not None)
    return any(first <= last for first in firsts)


def _print_group(reports: Reports, heading: str, jobs: Iterable[Job]) -> None:
    jobs = tuple(jobs)
    if not jobs:
        return
    print(f"\n{toned(heading, 'strong', sys.stdout)}")
    for job in jobs:
        named = reports.hangar.aircraft[job.aircraft].record.aircraft if job.aircraft else ""
        about = ", ".join(job.tags or job.stations)
        of = " of " if job.tags else " at "
        name = work_list.job_title(job, EXACT)
        kinds = {reports.hangar.items[tag].spec.kind for tag in job.tags}
        named_so = job.row is not None and any(_is_named(job.row, kind) for kind in kinds)
        if len(kinds) == 1 and not named_so:
            kind = kinds.pop()
            about += f" ({kind_words(kind, len(job.tags))})"
        title = of.join(part for part in (name, about) if part)
        line = ": ".join(part for part in (named, title) if part)
        print(wrapped(f"{line} - {job.state}", indent="  ", hanging="      "))
        for words in _working(reports, job):
            print(wrapped(words, indent="      "))


def _is_named(row: Row, kind: str) -> bool:
    """Whether the name of a row names that kind of part: ``motor-bearings``."""
    return kind.replace("_", "-") in row.name


def _working(reports: Reports, job: Job) -> Iterator[str]:
    """Why, what is left, where it is written, and what to do, a line each."""
    row = job.row
    if row is None:
        if job.reason is not None:
            yield str(job.reason.place)
        return
    if row.kind == "defect" and job.what:
        yield job.what
    why = because_words(job.because, EXACT)
    left = work_list.job_left(job, EXACT)
    yield from (words for words in (why, left) if words)
    soon = work_list.expected(job, EXACT)
    if soon:
        yield f"expected {soon}"
    yield str(row.place)
    if row.kind == "defect":
        yield work_list.defect_advice(row)
    elif job.instruction:
        yield work_list.instruction(job)
    radio = None if job.aircraft is None else reports.hangar.aircraft[job.aircraft].radio
    seen = (work_list.failsafe_set(row, radio.failsafe if radio else {}), _last_passed(job))
    if any(seen):
        yield "; ".join(words for words in seen if words)


def _last_passed(job: Job) -> str:
    """What the last pass read, where all rows of a job say the same."""
    said = {work_list.last_passed(row, EXACT) for row in job.rows}
    return said.pop() if len(said) == 1 else ""


def _print_planned(reports: Reports, work: WorkList, planned_s: float) -> None:
    print(f"A flight of {amounts.duration(planned_s)}, record to {amounts.day(work.as_of)}")
    for standing in work.aircraft:
        rows = reports.falls_due(standing.slug, planned_s)
        falls = "falls" if len(rows) == 1 else "fall"
        said = f"{amounts.count('row', len(rows))} {falls} due" if rows else "nothing falls due"
        print(f"\n{standing.name}: {standing.state}; {said} in this flight")
        for row in rows:
            print(wrapped(f"- {row_title(row)}, {work_list.left(row, EXACT)}", indent="  "))


def _print_remarks(reports: Reports, only: str | None) -> None:
    """The newest few, with their places; nothing where nothing was remarked. only: of an aircraft
    and of the store."""
    told = [one for one in reports.remarks() if only in (None, one.aircraft) or not one.aircraft]
    if not told:
        return
    print(f"\n{toned(HEADING, 'strong', sys.stdout)}")
    print(wrapped(LED, indent="  "))
    shown, more = told_first(told, MOST)
    for one in shown:
        aircraft = reports.hangar.aircraft.get(one.aircraft or "")
        name = None if aircraft is None else aircraft.record.aircraft
        print(wrapped(f"{remark_words(one, name)} @ {one.place}", indent="  ", hanging="      "))
    if more:
        print(f"  {more_words(more)}")
