"""Bars in a line of words, one for each flight: how long they were beside the longest of all."""

from collections.abc import Sequence

from markupsafe import Markup

from buildbook.drawings.environment import short

HEIGHT, STEP, WIDE, MOST_WIDTH = 16, 7, 4, 112


def strip(lengths_s: Sequence[float], most_s: float) -> Markup:
    """In the colour of the words, which say the same. lengths_s: in the order of the bars."""
    width = STEP * len(lengths_s)
    heights = (max(length_s / (most_s or 1.0) * HEIGHT, 1.0) for length_s in lengths_s)
    bars = "".join(
        f"M{STEP * at} {HEIGHT}v-{short(high)}h{WIDE}v{short(high)}z"
        for at, high in enumerate(heights)
    )
    return Markup(
        '<svg viewBox="0 0 {} {}" width="{}" height="{}" preserveAspectRatio="none"'
        ' fill="currentColor" aria-hidden="true"><path d="{}"/></svg>'
    ).format(width, HEIGHT, min(width, MOST_WIDTH), HEIGHT, bars)
