"""Amounts as bars: health, shares, gains beside the set before; small rows in a line of text."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec
from markupsafe import Markup

from buildbook.drawings.environment import draw, short
from buildbook.drawings.lettering import FACT, WIDTH, Line, shorten, text_width
from buildbook.report.drawn.plans import GainPlan, Table
from buildbook.report.packs.health import PackHealth
from buildbook.words.upkeep.packs import health_words


def health_bar(plan: PackHealth, prefix: str) -> Markup:
    """Tag, state by word and shape, and a bar of capacity with its limit marked."""
    return draw(
        "health_bar",
        prefix=prefix,
        width=200.0,
        height=38.0,
        title=f"{plan.tag}: {health_words(plan)}",
        desc=f"Capacity as a share of rated; limit {plan.limit_share * 100:.0f} %.",
        tag=shorten(plan.tag, 12.5, 164.0 - text_width(health_words(plan), FACT), True),
        words=health_words(plan),
        state=plan.state,
        share=None if plan.share is None else min(max(plan.share, 0.0), 1.1),
        limit=plan.limit_share,
    )


class GainBar(msgspec.Struct, frozen=True, kw_only=True):
    """One axis and term: length now, and where the set before ended."""

    y: float
    length: float
    before: float | None


def _gain_rows(plan: GainPlan) -> tuple[tuple[str, str, float | None, float | None], ...]:
    before = plan.before or {}
    axes = dict.fromkeys((*plan.values, *before))
    return tuple(
        (axis, term, plan.values.get(axis, {}).get(term), before.get(axis, {}).get(term))
        for axis in axes
        for term in dict.fromkeys((*plan.values.get(axis, {}), *before.get(axis, {})))
    )


def gain_bars(plan: GainPlan, prefix: str = "gains") -> Markup:
    """Gains by axis and term, each term on its own scale, with the set before as a tick."""
    rows = _gain_rows(plan)
    most: dict[str, float] = {}
    for _, term, now, was in rows:
        most[term] = max(most.get(term, 0.0), abs(now or 0.0), abs(was or 0.0))
    lines: list[Line] = []
    bars: list[GainBar] = []
    y = 6.0
    if plan.before is not None:
        y += 16.0
        head = shorten(f"({plan.before_name or 'that set'})", FACT, WIDTH - 242.0)
        lines.append(Line(text=head, x=238.0, y=y, size=FACT, anchor="start"))
    last = None
    for axis, term, now, was in rows:
        y += 20.0 if axis == last or last is None else 28.0
        if axis != last:
            label = shorten(axis, 12.5, 62.0, True)
            lines.append(Line(text=label, x=4, y=y, size=12.5, role="name", anchor="start"))
        last = axis
        scale = 118.0 / (most[term] or 1.0)
        label = shorten(term, FACT, 30.0)
        lines.append(Line(text=label, x=72.0, y=y, size=FACT, anchor="start"))
        words = "none" if now is None else f"{now:g}"
        if plan.before is not None and now != was:
            words += " (none)" if was is None else f" ({was:g})"
        lines.append(Line(text=words, x=238.0, y=y, size=FACT, anchor="start"))
        mark = None if plan.before is None or was is None else abs(was) * scale
        bars.append(GainBar(y=y - 4.0, length=abs(now or 0.0) * scale, before=mark))
    against = f", against {plan.before_name}" if plan.before is not None else ""
    beside = plan.before_name or "that set"
    tick = f"The tick marks the value in {beside}, which stands in brackets. " if against else ""
    told = ", ".join(" ".join(row[:2]) + f" {row[2]}" for row in gain_table(plan)[1])
    return draw(
        "gain_bars",
        prefix=prefix,
        width=WIDTH,
        height=round(y + 12.0),
        title=f"Gains {plan.name}{against}",
        desc=f"{told}. {tick}Each term has its own scale.",
        lines=lines,
        bars=bars,
    )


def gain_table(plan: GainPlan) -> Table:
    """Axis, term, value, value before, difference; empty where there is none."""

    def words(value: float | None) -> str:
        return "" if value is None else f"{value:g}"

    rows = tuple(
        (axis, term, words(now), words(was), _difference(now, was))
        for axis, term, now, was in _gain_rows(plan)
    )
    return ("axis", "term", plan.name, plan.before_name or "before", "difference"), rows


def _difference(now: float | None, was: float | None) -> str:
    if now is None or was is None or now == was:
        return ""
    return f"{round(now - was, 9):+g}"


_ROW_WIDTH, _ROW_HEIGHT = 120.0, 24.0


def sparkline(values: Sequence[float], words: str, prefix: str) -> Markup:
    """Bars of `values` (>= 0, oldest first), the last one in the accent.

    words: what is shown, for the title: `flights by month`.
    """
    count = max(len(values), 1)
    step = _ROW_WIDTH / count
    wide = max(min(step * 0.62, 9.0), 0.6)
    most = max(values, default=0.0) or 1.0
    bars = tuple(
        (step * place + (step - wide) / 2, max(value, 0.0) / most * (_ROW_HEIGHT - 3.0))
        for place, value in enumerate(values)
    )
    listed = ", ".join(short(value) for value in values)
    return draw(
        "sparkline",
        prefix=prefix,
        width=_ROW_WIDTH,
        height=_ROW_HEIGHT,
        title=words,
        desc=f"Oldest first: {listed}." if values else "No values yet.",
        bars=bars,
        bar=wide,
    )


_STRIP_HEIGHT, _STEP, _WIDE, _MOST_WIDTH = 16, 7, 4, 112


def strip(lengths_s: Sequence[float], most_s: float) -> Markup:
    """In the colour of the words, which say the same. lengths_s: in the order of the bars."""
    width = _STEP * len(lengths_s)
    heights = (max(length_s / (most_s or 1.0) * _STRIP_HEIGHT, 1.0) for length_s in lengths_s)
    bars = "".join(
        f"M{_STEP * at} {_STRIP_HEIGHT}v-{short(high)}h{_WIDE}v{short(high)}z"
        for at, high in enumerate(heights)
    )
    return Markup(
        '<svg viewBox="0 0 {} {}" width="{}" height="{}" preserveAspectRatio="none"'
        ' fill="currentColor" aria-hidden="true"><path d="{}"/></svg>'
    ).format(width, _STRIP_HEIGHT, min(width, _MOST_WIDTH), _STRIP_HEIGHT, bars)
