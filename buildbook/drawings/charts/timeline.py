"""The life of an aircraft by month: flights as bars, crashes, hard landings and work as marks."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec
from markupsafe import Markup

from buildbook.drawings.environment import draw, short
from buildbook.drawings.lettering import FACT, WIDTH, Line
from buildbook.report.drawn.plans import EventPlan, Table, TimelinePlan
from buildbook.words.measures.days import MONTH_WORDS, every_month, month_number, month_words

_LEFT, _RIGHT = 8.0, 8.0
_BASE = 92.0
_TALL = 66.0
_LANES = ("crash", "hard landing", "repair", "alteration", "note")


class EventMark(msgspec.Struct, frozen=True):
    """A mark by its kind, in the lane of that kind."""

    kind: str
    x: float
    y: float


class MonthBar(msgspec.Struct, frozen=True):
    """Flights of a month."""

    x: float
    wide: float
    high: float


def timeline_drawing(plan: TimelinePlan, prefix: str = "timeline") -> Markup:
    """Bars by month over lanes of marks; a lane for each kind of event that occurs."""
    months = every_month(plan.months, (event.month for event in plan.events))
    step = (WIDTH - _LEFT - _RIGHT) / max(len(months), 1)
    wide = max(min(0.66 * step, 22.0), 0.8)
    most = max((month.flights for month in months), default=0) or 1
    bars = tuple(
        MonthBar(_LEFT + step * place + (step - wide) / 2, wide, month.flights / most * _TALL)
        for place, month in enumerate(months)
    )
    kinds = [kind for kind in _LANES if any(event.kind == kind for event in plan.events)]
    lanes = {kind: _BASE + 38.0 + 20.0 * row for row, kind in enumerate(kinds)}
    first = month_number(months[0].month) if months else 0
    lines = [*_axis_lines(first, len(months), step)]
    unit = "flight" if most == 1 else "flights"
    lines.append(Line(text=f"{most} {unit}", x=_LEFT, y=16.0, size=FACT, anchor="start"))
    marks = tuple(
        EventMark(event.kind, _LEFT + step * _months_in(event, first), lanes[event.kind])
        for event in plan.events
    )
    edge = WIDTH - _RIGHT
    keys = _keys(kinds, _BASE + 34.0 + 20.0 * len(kinds))
    lines += [words for _, words in keys]
    height = keys[-1][0].y + 12.0 if keys else _BASE + 26.0
    return draw(
        "timeline",
        prefix=prefix,
        width=WIDTH,
        height=round(height),
        title=f"Timeline of {plan.aircraft}",
        desc=timeline_words(plan),
        left=_LEFT,
        edge=edge,
        base=_BASE,
        tall=_TALL,
        bars=bars,
        lanes=tuple(lanes.values()),
        marks=(*marks, *(mark for mark, _ in keys)),
        lines=lines,
    )


def _keys(kinds: Sequence[str], y: float) -> list[tuple[EventMark, Line]]:
    """Each mark with its word, beside one another; below where the line has no room left."""
    keys: list[tuple[EventMark, Line]] = []
    x = _LEFT + 6.0
    for kind in kinds:
        words = Line(text=kind, x=x + 10.0, y=y + 4.0, size=FACT, anchor="start")
        if words.box.right > WIDTH - _RIGHT:
            x, y = _LEFT + 6.0, y + 18.0
            words = Line(text=kind, x=x + 10.0, y=y + 4.0, size=FACT, anchor="start")
        keys.append((EventMark(kind, x, y), words))
        x = words.box.right + 14.0
    return keys


def _months_in(event: EventPlan, first: int) -> float:
    share = 0.5 if event.day is None else (min(max(event.day, 1), 31) - 0.5) / 31.0
    return month_number(event.month) - first + share


def _axis_lines(first: int, count: int, step: float) -> list[Line]:
    """Initials of months where they have room, and the year under each January and the start."""
    lines: list[Line] = []
    year_edge = -1.0
    year_y = _BASE + (26.0 if step >= 12.0 else 14.0)
    for place in range(count):
        number = first + place
        middle = _LEFT + step * (place + 0.5)
        if step >= 12.0:
            initial = MONTH_WORDS[number % 12][0]
            lines.append(Line(text=initial, x=middle, y=_BASE + 13.0, size=FACT))
        if place == 0 or number % 12 == 0:
            x = _LEFT + step * place
            line = Line(text=str(number // 12), x=x, y=year_y, size=FACT, anchor="start")
            soon = place == 0 and (12 - number % 12) * step < line.box.right - line.box.left + 6
            hidden = soon and number % 12 != 0 and count > 12 - number % 12
            if not hidden and line.box.left > year_edge and line.box.right <= WIDTH:
                lines.append(line)
                year_edge = line.box.right + 6.0
    return lines


def timeline_words(plan: TimelinePlan) -> str:
    """Totals, span and every event in sentences."""
    months = every_month(plan.months, (event.month for event in plan.events))
    if not months:
        return "Nothing flown yet."
    flights = sum(month.flights for month in months)
    hours = sum(month.hours for month in months)
    span = f"{_month(months[0].month)} to {_month(months[-1].month)}"
    flown = f"{flights} flights, {short(hours)} h" if flights else "not flown yet"
    sentences = [f"{flown[0].upper()}{flown[1:]}, {span}."]
    sentences += (f"{_when(event)}: {', '.join(_told(event))}." for event in plan.events)
    return " ".join(sentences)


def _told(event: EventPlan) -> tuple[str, ...]:
    """What it was, and what was written of it where that says more."""
    words = event.told.rstrip(".")
    return (event.kind,) if words == event.kind else (event.kind, words)


def _month(month: str) -> str:
    return month_words(month_number(month))


def _when(event: EventPlan) -> str:
    return _month(event.month) if event.day is None else f"{event.day} {_month(event.month)}"


def timeline_table(plan: TimelinePlan) -> Table:
    """A row for every month with flying or an event, oldest first; of flying only once it flew."""
    rows = []
    flew = any(month.flights for month in plan.months)
    for month in every_month(plan.months, (event.month for event in plan.events)):
        told = [event for event in plan.events if event.month == month.month]
        if not (month.flights or told):
            continue
        words = "; ".join(": ".join(_told(event)) for event in told)
        flown = (str(month.flights), f"{month.hours:.1f} h") if flew else ()
        rows.append((_month(month.month), *flown, words))
    return ("month", *(("flights", "flown") if flew else ()), "what happened"), tuple(rows)
