"""A sheet of paper to draw on: outlines, hidden lines, holes, dimensions, words; out comes SVG.

A sheet is 330 units wide, so that its words are still eleven pixels high on a phone of 320 pixels.
"""

from html import escape

WIDTH = 330.0
_INK, _SOFT, _MEASURE, _GROUND, _FILL = "#20282e", "#55585a", "#1d5a74", "#fdfbf5", "#ece5d4"
_STYLE = f"""
text {{ font: 12.5px 'DejaVu Sans', sans-serif; fill: {_INK} }}
.head {{ font-weight: 700; font-size: 13.5px }}
.soft {{ fill: {_SOFT} }}
.of {{ fill: {_MEASURE} }}
.line {{ fill: none; stroke: {_INK}; stroke-width: 1.6; stroke-linejoin: round }}
.part {{ fill: {_FILL}; stroke: {_INK}; stroke-width: 1.6; stroke-linejoin: round }}
.cut {{ fill: url(#hatch); stroke: {_INK}; stroke-width: 1.6 }}
.hole {{ fill: {_GROUND}; stroke: {_INK}; stroke-width: 1.3 }}
.hidden {{ fill: none; stroke: {_INK}; stroke-width: 1.1; stroke-dasharray: 5 3 }}
.axis {{ fill: none; stroke: {_SOFT}; stroke-width: .9; stroke-dasharray: 9 3 2 3 }}
.measure {{ fill: none; stroke: {_MEASURE}; stroke-width: .9 }}
.tip {{ fill: {_MEASURE} }}
"""
_HATCH = (
    '<pattern id="hatch" width="6" height="6" patternUnits="userSpaceOnUse"'
    f' patternTransform="rotate(45)"><rect width="6" height="6" fill="{_FILL}"/>'
    f'<path d="M0 0V6" stroke="{_SOFT}" stroke-width="1.2"/></pattern>'
)


class Paper:
    """One sheet; all places in units from the top left corner."""

    def __init__(self, height: float) -> None:
        self.height = height
        self._marks: list[str] = []

    def path(self, kind: str, d: str) -> None:
        """Any outline, as SVG writes it."""
        self._marks.append(f'<path class="{kind}" d="{d}"/>')

    def line(self, kind: str, *points: tuple[float, float], closed: bool = False) -> None:
        """From point to point."""
        at = " L".join(f"{x:.1f} {y:.1f}" for x, y in points)
        self.path(kind, f"M{at}{'Z' if closed else ''}")

    def box(self, kind: str, left: float, top: float, wide: float, high: float) -> None:
        """A rectangle."""
        self.path(kind, f"M{left:.1f} {top:.1f}h{wide:.1f}v{high:.1f}h{-wide:.1f}Z")

    def ring(self, kind: str, x: float, y: float, radius: float) -> None:
        """A circle."""
        self._marks.append(f'<circle class="{kind}" cx="{x:.1f}" cy="{y:.1f}" r="{radius:.1f}"/>')

    def say(self, x: float, y: float, words: str, kind: str = "", anchor: str = "start") -> None:
        """Words on one line."""
        self._marks.append(
            f'<text class="{kind}" x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}">'
            f"{escape(words)}</text>"
        )

    def along(self, left: float, right: float, y: float, words: str, below: bool = False) -> None:
        """A dimension from left to right, its words above the line or below it, or beside it."""
        self.line("measure", (left, y), (right, y))
        for x, way in ((left, 1), (right, -1)):
            self.line("measure", (x, y - 5), (x, y + 5))
            self.path("tip", f"M{x:.1f} {y:.1f}l{6 * way} -2.4v4.8Z")
        self.say((left + right) / 2, y + (14 if below else -4), words, "of", "middle")

    def beside(self, x: float, top: float, bottom: float, words: str, right: bool = True) -> None:
        """A dimension from top to bottom, its words to the right of the line or to the left."""
        self.line("measure", (x, top), (x, bottom))
        for y, way in ((top, 1), (bottom, -1)):
            self.line("measure", (x - 5, y), (x + 5, y))
            self.path("tip", f"M{x:.1f} {y:.1f}l-2.4 {6 * way}h4.8Z")
        at = (top + bottom) / 2 + 4.5
        self.say(x + (6 if right else -6), at, words, "of", "start" if right else "end")

    def point(self, x: float, y: float, to_x: float, to_y: float, words: str, end: str) -> None:
        """Words with a line to what they name. end: which end of the words is at the line."""
        self.line("measure", (x, y), (to_x, to_y))
        self.ring("tip", x, y, 1.8)
        gap = 4 if end == "start" else -4
        self.say(to_x + gap, to_y + 4.5, words, "of", end)

    def svg(self) -> str:
        """The sheet as an SVG file."""
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH:.0f}"'
            f' height="{self.height:.0f}" viewBox="0 0 {WIDTH:.0f} {self.height:.0f}">'
            f"<style>{_STYLE}</style><defs>{_HATCH}</defs>"
            f'<rect width="100%" height="100%" fill="{_GROUND}"/>{"".join(self._marks)}</svg>\n'
        )
