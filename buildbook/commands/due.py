"""``buildbook due``: what is due, stale or grounded, and why."""

import argparse
import datetime
import json
import re
import sys
from collections.abc import Callable

from buildbook.basis import saying
from buildbook.basis.nearest import did_you_mean
from buildbook.basis.notation import NotationError, duration_s
from buildbook.commands.choices import add_as_of, add_hangar, add_json, settle_hangar
from buildbook.commands.opening import WrongUse, open_hangar
from buildbook.commands.screen import Tone, tell_problems, toned, wrapped
from buildbook.hangar.state import Hangar
from buildbook.pages import telling
from buildbook.pages.shapes import due_shape
from buildbook.upkeep.planned import falls_due
from buildbook.upkeep.row import Reason, Row, WorkList
from buildbook.upkeep.work_list import work_list

_WORSE_THAN_SOON = frozenset(
    ("never done", "stale", "failed", "due", "in tolerance", "overdue", "reached", "open")
)
_GROUPS: tuple[tuple[str, Tone, Callable[[Row], bool]], ...] = (
    ("Grounds", "bad", lambda row: row.grounds and row.state in _WORSE_THAN_SOON),
    ("Due", "warn", lambda row: row.state in ("due", "in tolerance", "overdue", "stale", "failed")),
    ("Never done", "warn", lambda row: row.state == "never done"),
    ("Open", "warn", lambda row: row.state in ("open", "reached")),
    ("Soon", "soft", lambda row: row.state == "due soon"),
    ("Deferred", "soft", lambda row: row.state == "deferred"),
)


def options(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    add_hangar(parser)
    add_as_of(parser)
    add_json(parser)
    parser.add_argument("--aircraft", metavar="SLUG", help="only this aircraft")
    parser.add_argument("--within", metavar="30d", help="also what comes due within so many days")
    parser.add_argument(
        "--planned", metavar="12min", help="say what falls due in a flight of that length"
    )


def run(options: argparse.Namespace) -> int:
    """Print the work list; 3 where something is due or grounded, 1 where the records are broken."""
    settle_hangar(options)
    within = None if options.within is None else _days(options.within)
    planned = None if options.planned is None else _planned(options.planned)
    opened = open_hangar(options)
    if opened.broken:
        tell_problems(opened.problems)
    if opened.hangar is None:
        return 1
    hangar = opened.hangar
    work = work_list(hangar)
    if options.aircraft is not None:
        work = _only(work, hangar, options.aircraft)
    if options.json:
        print(json.dumps(due_shape(work), ensure_ascii=False, indent=2))
    elif planned is not None:
        _print_planned(hangar, work, planned)
    else:
        _print(work, within)
    if opened.broken:
        return 1
    return 3 if something_is_due(work) else 0


def something_is_due(work: WorkList) -> bool:
    """Whether a flying aircraft is grounded or a row that counts is due or worse."""
    grounded = any(standing.state == "grounded" for standing in work.aircraft)
    return grounded or any(row.state in ("due", "in tolerance", "overdue") for row in work.rows)


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


def _only(work: WorkList, hangar: Hangar, slug: str) -> WorkList:
    if slug not in hangar.aircraft:
        hint = did_you_mean(slug, list(hangar.aircraft))
        raise WrongUse(f"no aircraft is called {slug!r}" + (f"; {hint}" if hint else ""))
    tags = {fitted.tag for fitted in hangar.aircraft[slug].items()}
    tags |= {tag for tag, item in hangar.items.items() if slug in item.flown_on}
    return WorkList(
        as_of=work.as_of,
        aircraft=tuple(standing for standing in work.aircraft if standing.slug == slug),
        packs=tuple(pack for pack in work.packs if pack.tag in tags),
        rows=tuple(row for row in work.rows if row.aircraft == slug or row.tag in tags),
    )


def _print(work: WorkList, within: int | None) -> None:
    out = sys.stdout
    print(toned(f"Record to {saying.day(work.as_of)}", "strong", out))
    for standing in work.aircraft:
        tone: Tone = {"grounded": "bad", "due soon": "warn", "cannot say": "warn"}.get(  # type: ignore[assignment]
            standing.state, "soft"
        )
        print(f"\n{standing.name}: {toned(standing.state, tone, out)}")
        for reason in standing.reasons[:12]:
            _print_reason(reason)
        if len(standing.reasons) > 12:
            print(f"  … and {saying.count('reason', len(standing.reasons) - 12)} more, on the page")
    for pack in work.packs:
        if pack.reasons:
            print(f"\nPack {pack.tag}: {pack.state}")
            for reason in pack.reasons:
                _print_reason(reason)
    _print_rows(work, within)


def _print_reason(reason: Reason) -> None:
    mark = "!" if reason.grounding else "-"
    print(wrapped(f"{mark} {reason.what} @ {reason.place}", indent="  ", hanging="    "))


def _print_rows(work: WorkList, within: int | None) -> None:
    taken: set[int] = set()
    for heading, tone, belongs in _GROUPS:
        rows = [row for row in work.rows if id(row) not in taken and belongs(row)]
        taken |= {id(row) for row in rows}
        _print_group(heading, tone, rows)
    if within is not None:
        last = work.as_of + datetime.timedelta(days=within)
        rows = [row for row in work.rows if id(row) not in taken and _comes_by(row, last)]
        _print_group(f"Within {saying.count('day', within)}", "soft", rows)


def _comes_by(row: Row, last: datetime.date) -> bool:
    if row.due_on is not None and row.due_on <= last:
        return True
    return row.expected is not None and row.expected[0] <= last


def _print_group(heading: str, tone: Tone, rows: list[Row]) -> None:
    if not rows:
        return
    out = sys.stdout
    print(f"\n{toned(heading, tone, out)}")
    for row in rows:
        where = f"{row.aircraft}: " if row.aircraft else ""
        said = "; ".join(
            part
            for part in (
                telling.left(row, saying.day),
                telling.because(row.because, saying.day),
                telling.expected(row, saying.day),
            )
            if part
        )
        line = f"{where}{telling.title(row)}, {row.state}" + (f" ({said})" if said else "")
        print(wrapped(line, indent="  ", hanging="      "))


def _print_planned(hangar: Hangar, work: WorkList, planned_s: float) -> None:
    print(f"A flight of {saying.duration(planned_s)}, record to {saying.day(work.as_of)}")
    for standing in work.aircraft:
        rows = falls_due(hangar, work, standing.slug, planned_s)
        said = "nothing falls due" if not rows else f"{saying.count('row', len(rows))} fall due"
        print(f"\n{standing.name}: {standing.state}; {said} in this flight")
        for row in rows:
            print(wrapped(f"- {telling.title(row)}, {telling.left(row, saying.day)}", indent="  "))
