"""Rows of small bars in a line of text or a card: the shape of a series, no numbers."""

from __future__ import annotations

from collections.abc import Sequence

from markupsafe import Markup

from buildbook.drawings.environment import draw, short

WIDTH, HEIGHT = 120.0, 24.0


def sparkline(values: Sequence[float], words: str, prefix: str) -> Markup:
    """Bars of `values` (>= 0, oldest first), the last one in the accent.

    words: what is shown, for the title: `flights by month`.
    """
    count = max(len(values), 1)
    step = WIDTH / count
    wide = max(min(step * 0.62, 9.0), 0.6)
    most = max(values, default=0.0) or 1.0
    bars = tuple(
        (step * place + (step - wide) / 2, max(value, 0.0) / most * (HEIGHT - 3.0))
        for place, value in enumerate(values)
    )
    listed = ", ".join(short(value) for value in values)
    return draw(
        "sparkline",
        prefix=prefix,
        width=WIDTH,
        height=HEIGHT,
        title=words,
        desc=f"{len(values)} values, oldest first: {listed}." if values else "No values yet.",
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
