"""Defects and failed looks that are put off without an end, or with one that is far away."""

from collections.abc import Iterator

from buildbook.basis import amounts
from buildbook.basis.problems import Problem
from buildbook.report.history import DefectState
from buildbook.report.state import Hangar
from buildbook.report.upkeep.findings import DefectFound, FailedAs
from buildbook.report.upkeep.work import Row, WorkList

FAR_DAYS, FAR_FLIGHTS, FAR_S = 366, 250, 50 * 3600.0
"""A deferral that ends no sooner has no end. Common practice, no source; the longest that a list
of what may be inoperative gives an aeroplane, category D of the FAA's MMEL, is 120 days (from
memory)."""


def put_off_doubts(hangar: Hangar, listed: WorkList) -> Iterator[Problem]:
    """A doubt for each that is open and ends by nothing, or by nothing that is near."""
    known = [one for aircraft in hangar.aircraft.values() for one in aircraft.defects]
    known += [one for item in hangar.items.values() for one in item.defects]
    defects = {one.uid: one for one in known}
    severities = _severities(hangar)
    told: set[tuple[str | None, str]] = set()
    for row in listed.rows:
        because = row.because
        if because is None or because.entry is None:
            continue
        state = defects.get(because.entry)
        if isinstance(because.found, DefectFound) and state is not None:
            yield from _of_defect(row, state, because.found.limited, because.entry in hangar.sure)
        elif isinstance(because.found, FailedAs) and row.state == "failed":
            deferred = severities.get(because.entry) == "defer" and because.entry not in hangar.sure
            if deferred and (because.entry, row.name) not in told:
                told.add((because.entry, row.name))
                yield _doubt(
                    row, f"{row.name} failed and is deferred without a limit",
                    "write a defect of what was found, with deferred_until:"
                    " on, flights or hours, and clear the look with how: that defect",
                )  # fmt: skip


def _severities(hangar: Hangar) -> dict[str, str | None]:
    """How mild each failed look and check is, by the uid of its entry."""
    kept = [one.inspections for one in hangar.aircraft.values()]
    kept += [one.checks for one in hangar.aircraft.values()]
    kept += [one.inspections for one in hangar.items.values()]
    return {done.uid: done.severity for dones in kept for done in dones if done.result == "fail"}


def _of_defect(row: Row, state: DefectState, limited: bool, sure: bool) -> Iterator[Problem]:
    """With the flights since it was written; the same doubt however many there are."""
    if not limited:
        reason = f"defect {row.name} is deferred without a limit"
        flights = state.flights_since
        flown = f", {amounts.count('flight', flights)} since" if flights else ""
        hint = "add deferred_until: with on, flights or hours"
        yield _doubt(row, f"{reason}{flown}", hint, once=reason)
    elif row.state == "deferred" and not sure and (end := _far(state)):
        yield _doubt(
            row, f"defect {row.name} is deferred {end}", "name a nearer limit, or mend it now"
        )


def _far(state: DefectState) -> str:
    """The end of a deferral of which nothing is near; empty where something is."""
    until = state.defect.deferred_until
    if until is None:
        return ""
    days = None if until.on is None else (until.on - state.on).days
    ends = [
        (f"until {until.on}", days is not None and days > FAR_DAYS, days),
        (f"for {until.flights} flights", (until.flights or 0) > FAR_FLIGHTS, until.flights),
        (
            f"for {amounts.hours(until.duration_s or 0)}",
            (until.duration_s or 0) > FAR_S,
            until.duration_s,
        ),
    ]
    given = [(said, far) for said, far, value in ends if value is not None]
    return " or ".join(said for said, _ in given) if all(far for _, far in given) else ""


def _doubt(row: Row, reason: str, hint: str, once: str | None = None) -> Problem:
    return Problem(reason, row.place, "warning", hint, (), row.aircraft, once=once)
