"""What machines get: the JSON of commands and site from one place, and short facts by name."""

import datetime
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from buildbook.basis import amounts
from buildbook.basis.place import NOWHERE, Place
from buildbook.basis.problems import Problem
from buildbook.report.figure import Answers, CannotSay, Figure, Table
from buildbook.report.upkeep.findings import (
    AlarmLow,
    CoveredBy,
    DefectFound,
    Drifted,
    FailedAs,
    Finding,
    InState,
    MassComputed,
    Moved,
    NotFitted,
    Noticed,
    NotReadAgain,
    NoYaw,
    NutAgainst,
    OverRated,
    PartAgain,
    RangeFell,
    ReadOtherwise,
    Revised,
    SameMemory,
    TooHeavy,
    Unbalanced,
    UnlikePart,
    Unread,
    WithoutLink,
    WrongHand,
)
from buildbook.report.upkeep.pack_findings import (
    AtCutOff,
    CapacityLow,
    CellFell,
    CellLow,
    CellsApart,
    CellsOutside,
    IntoReserve,
    OddCell,
    ReadAtLimit,
    SetAside,
    UsedAside,
    UsedShare,
)
from buildbook.report.upkeep.work import Because, PackStanding, Reason, Row, Standing, WorkList
from buildbook.words.measures.days import EXACT, Days
from buildbook.words.reasons import finding_words, reason_words
from buildbook.words.upkeep.dangers import alarm_found, mass_found, ratings_found
from buildbook.words.upkeep.packs import millivolts

Facts = dict[str, str]


def detail(found: Finding | None) -> Facts:
    """What was found, by name; nothing where the reason says it all."""
    match found:
        case ReadOtherwise():
            alarm = {"alarm": alarm_found(found.alarm)} if found.alarm else {}
            return {**alarm, "of": found.of, "found": found.found, "expected": found.expected}
        case NotReadAgain():
            return {"of": found.of, "found": found.found, **dict(found.others)}
        case Unread():
            return {"of": found.of, "found": found.found}
        case MassComputed():
            return {"change_g": f"{found.change_kg * 1000:+.0f}"}
        case InState():
            return {"state": found.state}
        case Revised():
            return {"revision": found.revision}
        case Drifted():
            return {"found": finding_words(found, EXACT)}
        case DefectFound():
            opened = {} if found.days_open is None else {"days_open": str(found.days_open)}
            limit = {} if found.limited else {"limit": "none"}
            out = {"inoperative": found.inoperative} if found.inoperative else {}
            return {**opened, "severity": found.severity, **limit, **out}
        case Noticed():
            return {"found": found.what}
        case FailedAs():
            findings = {"findings": found.findings} if found.findings else {}
            return {**findings, **dict(found.readings)}
        case Moved():
            return {"tag": found.tag, "from": found.came_from, "to": found.went_to}
        case PartAgain():
            of = {"defect": found.defect, "crashed": found.crashed, "wet": found.wet}
            return {"tag": found.tag, **{name: said for name, said in of.items() if said}}
        case CoveredBy():
            return {"by": found.task}
        case _:
            return _of_danger(found) or _of_pack(found)


def _of_danger(found: Finding | None) -> Facts:
    match found:
        case NotFitted():
            kinds = ", ".join(found.kinds)
            return {"lacks": kinds} if found.recorded else {"not recorded": kinds}
        case WrongHand():
            return {"of": found.tag, "found": found.hand, "expected": found.wanted}
        case NoYaw():
            return {"found": f"rank {found.rank}"}
        case WithoutLink():
            return {"throttle": found.throttle or "not recorded"}
        case TooHeavy():
            basis = {} if found.weighed else {"basis": "computed"}
            limit = f"{amounts.mass(found.limit_kg)} or less"
            return {**basis, "expected": limit, "found": mass_found(found)}
        case Unbalanced():
            basis = {} if found.by == "scales" else {"basis": found.by}
            packs = {"with": ", ".join(found.packs)} if found.packs else {}
            return {**basis, "found": found.judged, **packs}
        case AlarmLow():
            return {"found": alarm_found(found)}
        case RangeFell():
            return {"found": amounts.length(found.read_m), "before": amounts.length(found.before_m)}
        case UnlikePart():
            return {"found": found.found, "expected": found.others, "of": found.tag}
        case OverRated():
            return {"found": ratings_found(found)}
        case SameMemory():
            return {"also": ", ".join(found.others), "memory": found.memory}
        case NutAgainst():
            return {"spin from the nut": found.spin, "thread": f"{found.thread}-hand"}
        case _:
            return {}


def _of_pack(found: Finding | None) -> Facts:
    match found:
        case SetAside():
            return dict(found.facts)
        case UsedAside():
            return {"charged": str(found.charged), "flown": str(found.flown)}
        case OddCell() | CapacityLow() | ReadAtLimit():
            return {"found": finding_words(found, EXACT)}
        case CellLow():
            volts, least_v = amounts.voltage(found.cell_v), found.least_v
            least = {} if least_v is None else {"expected": f"{amounts.voltage(least_v)} or more"}
            return {**least, "found": volts}
        case AtCutOff():
            more = f"more than {amounts.voltage(found.cut_off_v)}"
            return {"expected": more, "found": amounts.voltage(found.cell_v)}
        case CellsApart():
            most = f"{millivolts(found.most_v)} or less"
            return {"expected": most, "found": millivolts(found.spread_v)}
        case CellFell():
            most = f"less than {millivolts(found.most_v)}"
            return {"expected": most, "found": millivolts(found.fell_v)}
        case UsedShare():
            most_share = found.most_share
            limit = (
                {} if most_share is None else {"expected": f"{amounts.share(most_share)} or less"}
            )
            return {**limit, "found": amounts.share(found.share)}
        case IntoReserve():
            usable = f"{amounts.charge(found.usable_ah)} or less"
            return {"expected": usable, "found": amounts.charge(found.out_ah)}
        case CellsOutside():
            return {
                "found": ", ".join(f"{each}S" for each in found.series),
                "expected": f"{found.least}S to {found.most}S",
            }
        case _:
            return {}


Shape = dict[str, Any]
SayDay = Callable[[datetime.date], str]


def due_shape(
    work: WorkList,
    raised: Mapping[str, str],
    day: SayDay = datetime.date.isoformat,
    days: Days = EXACT,
) -> Shape:
    """The work list. raised: of gains that were raised before something happened, by aircraft.

    day: writes a day for machines; days: in a sentence.
    """
    return {
        "as_of": day(work.as_of),
        "aircraft": [
            {
                **_standing(standing, days),
                **({"gains_raised": raised[standing.slug]} if standing.slug in raised else {}),
            }
            for standing in work.aircraft
        ],
        "packs": [_pack(pack, days) for pack in work.packs],
        "rows": [_row(row, day) for row in work.rows],
    }


def figures_shape(
    answers: Answers, subject: Mapping[str, str], as_of: datetime.date, day: SayDay
) -> Shape:
    """All figures of one subject: ``{"aircraft": slug}`` or ``{"item": tag}``."""
    return {
        **subject,
        "as_of": day(as_of),
        "figures": [_figure(figure, day) for figure in answers.figures],
        "cannot_say": [_cannot_say(missing) for missing in answers.cannot_say],
    }


def problems_shape(problems: Iterable[Problem]) -> Shape:
    """All problems and warnings, sorted by place."""
    return {
        "problems": [
            {
                "reason": problem.reason,
                "file": problem.place.file,
                "line": problem.place.line,
                "severity": problem.severity,
                "hint": problem.hint,
                "also": [str(place) for place in problem.also],
            }
            for problem in problems
        ]
    }


def _place(place: Place | None) -> str | None:
    return None if place is None or place == NOWHERE else str(place)


def _reasons(reasons: Iterable[Reason], days: Days) -> list[Shape]:
    return [
        {"what": reason_words(reason, days), "place": _place(reason.place)} for reason in reasons
    ]


def _standing(standing: Standing, days: Days) -> Shape:
    return {
        "slug": standing.slug,
        "name": standing.name,
        "state": standing.state,
        "reasons": _reasons(standing.reasons, days),
    }


def _pack(pack: PackStanding, days: Days) -> Shape:
    return {"tag": pack.tag, "state": pack.state, "reasons": _reasons(pack.reasons, days)}


def _row(row: Row, day: SayDay) -> Shape:
    return {
        "aircraft": row.aircraft,
        "kind": row.kind,
        "name": row.name,
        "tag": row.tag,
        "station": row.station,
        "state": row.state,
        "first_by": row.first_by,
        "left": dict(row.left),
        "due_on": None if row.due_on is None else day(row.due_on),
        "expected": None if row.expected is None else [day(end) for end in row.expected],
        "because": None if row.because is None else _because(row.because, day),
        "place": _place(row.place),
    }


def _because(because: Because, day: SayDay) -> Shape:
    return {
        "why": because.why,
        "unit": because.unit,
        "trigger": _trigger(because),
        "entry": because.entry,
        "on": None if because.on is None else day(because.on),
        "place": _place(because.place),
        "tag": because.tag,
        "station": because.station,
        "detail": detail(because.found),
    }


def _trigger(because: Because) -> str | None:
    if isinstance(because.found, SetAside):
        return because.found.why
    return None if because.trigger is None else str(because.trigger)


def _figure(figure: Figure, day: SayDay) -> Shape:
    shape = {
        "name": figure.name,
        "of": figure.of,
        "value": figure.value,
        "unit": None if figure.value is None and figure.unit == "count" else figure.unit,
        "low": figure.low,
        "high": figure.high,
        "level": figure.level,
        "basis": figure.basis,
        "inputs": [
            {
                "name": given.name,
                "value": given.value,
                "unit": given.unit,
                "basis": given.basis,
                "place": _place(given.place),
            }
            for given in figure.inputs
        ],
        "formula": f"method: {figure.formula}" if figure.by_method else figure.formula,
        "source": figure.source,
        "table": None if figure.table is None else _table(figure.table),
        "verdict": figure.verdict,
        "notes": list(figure.notes),
        "other": dict(figure.other),
        "sensitivity": {found.input.whole: found.share_per_percent for found in figure.sensitivity},
    }
    if figure.day is not None:  # a figure that is a day has no unit
        ends = (figure.day, figure.low_day, figure.high_day)
        days = [None if end is None else day(end) for end in ends]
        shape |= {"value": days[0], "unit": None, "low": days[1], "high": days[2]}
    return shape


def _table(table: Table) -> Shape:
    return {"columns": list(table.columns), "rows": [list(row) for row in table.rows]}


def _cannot_say(missing: CannotSay) -> Shape:
    return {
        "name": missing.name,
        "of": missing.of,
        "because": missing.because or None,
        "place": _place(missing.place),
    }
