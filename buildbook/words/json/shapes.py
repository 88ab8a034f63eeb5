"""The JSON shapes: what commands print and what the site carries, from the same functions."""

import datetime
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from buildbook.basis.place import NOWHERE, Place
from buildbook.basis.problems import Problem
from buildbook.report.figure import Answers, CannotSay, Figure, Table
from buildbook.report.upkeep.pack_findings import SetAside
from buildbook.report.upkeep.work import Because, PackStanding, Reason, Row, Standing, WorkList
from buildbook.words.json.details import detail
from buildbook.words.measures.days import EXACT, Days
from buildbook.words.reasons import reason_words

Shape = dict[str, Any]
SayDay = Callable[[datetime.date], str]


def due_shape(work: WorkList, day: SayDay = datetime.date.isoformat, days: Days = EXACT) -> Shape:
    """The work list. day: writes a day for machines; days: in a sentence."""
    return {
        "as_of": day(work.as_of),
        "aircraft": [_standing(standing, days) for standing in work.aircraft],
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
        "because": missing.because,
        "place": _place(missing.place),
    }
