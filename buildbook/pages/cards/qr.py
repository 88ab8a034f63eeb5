"""A QR code as a drawing: black on white in any light, so that a phone can read it."""

import segno
from markupsafe import Markup, escape

QUIET = 4
"""Modules of white round the code, as ISO/IEC 18004 asks."""


def qr_drawing(text: str, title: str, prefix: str) -> Markup:
    """The code of a text as SVG; one path, a square of four sides for each run of black."""
    rows = [bytes(row) for row in segno.make(text, error="m", micro=False).matrix]
    side = len(rows) + 2 * QUIET
    path = "".join(
        f"M{x + QUIET} {y + QUIET}h{length}v1h-{length}z"
        for y, row in enumerate(rows)
        for x, length in _runs(row)
    )
    return Markup(
        '<svg class="qr" viewBox="0 0 {side} {side}" role="img" aria-labelledby="{prefix}-t">'
        '<title id="{prefix}-t">{title}</title>'
        '<path fill="#fff" d="M0 0h{side}v{side}h-{side}z"/>'
        '<path fill="#000" d="{path}"/></svg>'
    ).format(side=side, prefix=prefix, title=escape(title), path=path)


def _runs(row: bytes) -> list[tuple[int, int]]:
    """Where black begins, and for how long."""
    runs: list[tuple[int, int]] = []
    for x, black in enumerate(row):
        if not black:
            continue
        if runs and sum(runs[-1]) == x:
            runs[-1] = (runs[-1][0], runs[-1][1] + 1)
        else:
            runs.append((x, 1))
    return runs
