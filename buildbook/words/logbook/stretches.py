"""A run of plain entries in one line; what a flight is beyond others; what was open at it."""

from collections.abc import Iterable, Sequence
from types import UnionType

from buildbook.basis import amounts
from buildbook.records import entries
from buildbook.records.entries import AnyEntry
from buildbook.report.milestones import Milestone
from buildbook.report.upkeep.flown import Meanwhile
from buildbook.words.names import name_words


def flown_words(flights: Sequence[entries.Flight]) -> str:
    """``7 flights, 1.4 h``; nothing where there were none."""
    rows = [row for flight in flights for row in flight.rows]
    if not rows:
        return ""
    flown_s = amounts.total_seconds(row.duration_s for row in rows)
    return f"{amounts.count('flight', len(rows))}, {amounts.hours(flown_s)}"


def stretch_words(run: Sequence[AnyEntry]) -> str:
    """``7 flights, 1.4 h; propeller touch: pass; 1 correction``."""
    looked: dict[str, None] = {}
    for one in run:
        if isinstance(one, entries.Inspection):
            looked |= dict.fromkeys(one.tasks)
        elif isinstance(one, entries.Check):
            looked |= dict.fromkeys(one.checks)
    said = [
        flown_words([one for one in run if isinstance(one, entries.Flight)]),
        f"{amounts.listed(map(name_words, looked))}: pass" if looked else "",
        _counted("correction", run, entries.Correction | entries.Void),
    ]
    words = "; ".join(filter(None, said))
    return words[:1].upper() + words[1:]


def _counted(noun: str, run: Sequence[AnyEntry], kind: UnionType | type) -> str:
    number = sum(isinstance(one, kind) for one in run)
    return amounts.count(noun, number) if number else ""


def milestone_words(milestone: Milestone) -> str:
    """``First flight``, ``Flight 100``, ``Longest flight so far``."""
    match milestone.what:
        case "first":
            return "First flight"
        case "hundred":
            return f"Flight {milestone.number}"
        case "longest":
            return "Longest flight so far"


_MOST = 3


def meanwhile_words(what: Iterable[Meanwhile]) -> str:
    """``flown with P-03 set aside; while failsafe was open``: of checks and parts the first few."""
    what = tuple(what)
    apart = ("check", "look", "missing part")
    said = [_other(one) for one in what if one.kind not in apart]
    lacks = [
        f"{one.name}{f' of {one.of}' if one.of else ''}" for one in what if one.kind == apart[2]
    ]
    if lacks:
        said.append(f"without {_first(lacks)}")
    names = list(dict.fromkeys(name_words(one.name) for one in what if one.kind in apart[:2]))
    if names:
        said.append(f"while {_first(names)} {'was' if len(names) == 1 else 'were'} open")
    return f"flown {'; '.join(dict.fromkeys(said))}"


def _first(names: list[str]) -> str:
    """The first few of them, and how many more."""
    more = [f"{len(names) - _MOST} more"] if len(names) > _MOST else []
    return amounts.listed([*names[:_MOST], *more])


def _other(one: Meanwhile) -> str:
    match one.kind:
        case "limit":
            of = f" of {one.of}" if one.of else ""
            return f"with {name_words(one.name)}{of} reached"
        case "pack":
            return f"with {one.name} set aside"
        case "reserve":
            return f"into the reserve of {one.name}"
        case "status":
            return f"while {one.name}"
        case "defect":
            return "with a grounding defect open"
        case _:
            return "before the check flight"
