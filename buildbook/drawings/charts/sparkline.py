"""A row of small bars for a line of text or a card: the shape of a series, no numbers."""

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
