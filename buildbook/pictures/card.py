"""The picture beside a link to a story: the layout from above, the name, the promise.

1200 x 630 pixels, the size that services for links ask for (common practice, no source). Drawn
with the letters that come with matplotlib, so that every machine gives the same pixels.
"""

import io
import math
from pathlib import Path

import matplotlib
from PIL import Image, ImageDraw, ImageFont

from buildbook.report.drawn.plans import LayoutPlan, StationPlan, WingPlan

WIDTH_PX, HEIGHT_PX = 1200, 630
_FINER = 2  # drawn larger and scaled down, for smooth edges
_GROUND, _PAPER, _INK, _SOFT, _ACCENT = "#f4efe3", "#fbf8f0", "#20282e", "#55585a", "#1d5a74"
_FONTS = Path(matplotlib.get_data_path()) / "fonts" / "ttf"
_USUAL_ROTOR = 0.4  # of the farthest station, where no propeller is recorded
_CENTRE = (330.0, 315.0)
_REACH = 250.0  # pixels from the centre to the edge of the drawing
_WORDS_LEFT, _WORDS_WIDE = 650.0, 500.0
_LINES_OF_A_PROMISE = 4


def card(plan: LayoutPlan, name: str, promise: str, hangar: str) -> bytes:
    """A PNG without anything beside its pixels."""
    picture = Image.new("RGB", (WIDTH_PX * _FINER, HEIGHT_PX * _FINER), _GROUND)
    draw = ImageDraw.Draw(picture)
    _drawing(draw, plan)
    _words(draw, name, promise, hangar)
    small = picture.resize((WIDTH_PX, HEIGHT_PX), Image.Resampling.LANCZOS)
    out = io.BytesIO()
    small.quantize(64, dither=Image.Dither.NONE).save(out, "PNG", optimize=True)
    return out.getvalue()


class _Scale:
    """Metres from above, forward up, as pixels of the large picture; all of it in the middle."""

    def __init__(self, plan: LayoutPlan) -> None:
        self._far_m = max((math.hypot(s.forward_m, s.right_m) for s in plan.stations), default=0.1)
        ends = [
            (place + sign * self.rotor_m(station), axis)
            for station in plan.stations
            for axis, place in enumerate((station.forward_m, station.right_m))
            for sign in (-1, 1)
        ]
        if plan.wing is not None:
            ends = [(station.forward_m, 0) for station in plan.stations]
            ends += [(_tail_m(plan.wing), 0), (0.0, 0)]
            ends += [(plan.wing.span_m / 2, 1), (-plan.wing.span_m / 2, 1)]
        forward = [end for end, axis in ends if axis == 0] or [0.0]
        right = [end for end, axis in ends if axis == 1] or [0.0]
        self._middle = (max(forward) + min(forward)) / 2, (max(right) + min(right)) / 2
        reach = max(max(forward) - min(forward), max(right) - min(right)) / 2
        self.times = _REACH / max(reach, 1e-6)

    def rotor_m(self, station: StationPlan) -> float:
        """Radius of the propeller, or a usual one."""
        if station.propeller_m:
            return station.propeller_m / 2
        return self._far_m * _USUAL_ROTOR

    def at(self, forward_m: float, right_m: float) -> tuple[float, float]:
        """Pixels."""
        x, y = _CENTRE
        forward_m, right_m = forward_m - self._middle[0], right_m - self._middle[1]
        return (x + right_m * self.times) * _FINER, (y - forward_m * self.times) * _FINER

    def long(self, metres: float) -> float:
        """A length in pixels."""
        return metres * self.times * _FINER


def _tail_m(wing: WingPlan) -> float:
    """How far forward the tail sits, where nobody wrote it about half a span aft."""
    return -(wing.tail_aft_m if wing.tail_aft_m is not None else wing.span_m * 0.55)


def _drawing(draw: ImageDraw.ImageDraw, plan: LayoutPlan) -> None:
    scale = _Scale(plan)
    if plan.wing is not None:
        _wing(draw, plan, scale)
    middle = scale.at(0, 0)
    if plan.wing is None:
        for station in plan.stations:
            draw.line((middle, scale.at(station.forward_m, station.right_m)), _INK, 7 * _FINER)
    for station in plan.stations:
        _rotor(draw, station, scale, thin=plan.wing is not None)
    if plan.wing is None:
        x, y = middle
        size = 20 * _FINER
        body = [(x - size, y - size), (x, y - 1.7 * size), (x + size, y - size)]
        body += [(x + size, y + 1.2 * size), (x - size, y + 1.2 * size)]
        draw.polygon(body, fill=_PAPER, outline=_INK, width=4 * _FINER)


def _wing(draw: ImageDraw.ImageDraw, plan: LayoutPlan, scale: _Scale) -> None:
    """Fuselage and wing as far as they are recorded."""
    assert plan.wing is not None
    wing = plan.wing
    nose = max((station.forward_m for station in plan.stations), default=0.0)
    draw.line((scale.at(nose, 0), scale.at(_tail_m(wing), 0)), _INK, 8 * _FINER)
    front = -wing.leading_edge_aft_m
    corners = (
        *scale.at(front, -wing.span_m / 2),
        *scale.at(front - wing.mean_chord_m, wing.span_m / 2),
    )
    draw.rectangle(corners, fill=_PAPER, outline=_INK, width=4 * _FINER)


def _rotor(draw: ImageDraw.ImageDraw, station: StationPlan, scale: _Scale, *, thin: bool) -> None:
    """The disc of a propeller with an arrow for its spin; seen from the front a line."""
    x, y = scale.at(station.forward_m, station.right_m)
    radius = scale.long(scale.rotor_m(station))
    if thin:
        draw.line(((x - radius, y), (x + radius, y)), _INK, 6 * _FINER)
        return
    box = (x - radius, y - radius, x + radius, y + radius)
    draw.ellipse(box, fill=_PAPER, outline=_SOFT, width=2 * _FINER)
    turn = station.turns
    for begin in (200, 20) if turn else ():
        draw.arc(box, begin, begin + 75, fill=_ACCENT, width=5 * _FINER)
        end = begin + 75 if turn == "cw" else begin
        _head(draw, x, y, radius, math.radians(end), 1 if turn == "cw" else -1)
    hub = 6 * _FINER
    draw.ellipse((x - hub, y - hub, x + hub, y + hub), fill=_GROUND, outline=_INK, width=6)


def _head(
    draw: ImageDraw.ImageDraw, x: float, y: float, radius: float, at: float, sense: int
) -> None:
    """The head of an arrow on a circle; ``sense`` 1 is clockwise on the screen."""
    size = 13 * _FINER
    px, py = x + radius * math.cos(at), y + radius * math.sin(at)
    along = at + sense * math.pi / 2
    ax, ay = math.cos(along), math.sin(along)
    tip = (px + ax * size * 1.2, py + ay * size * 1.2)
    sides = [(px + s * ay * size * 0.7, py - s * ax * size * 0.7) for s in (1, -1)]
    draw.polygon([tip, *sides], fill=_ACCENT)


def _words(draw: ImageDraw.ImageDraw, name: str, promise: str, hangar: str) -> None:
    left = _WORDS_LEFT * _FINER
    top = 190 * _FINER
    title = _font("DejaVuSerif-Bold.ttf", 64)
    for line in _wrapped(draw, name, title)[:2]:
        draw.text((left, top), line, _INK, title)
        top += 76 * _FINER
    top += 14 * _FINER
    body = _font("DejaVuSerif.ttf", 30)
    for line in _wrapped(draw, promise, body)[:_LINES_OF_A_PROMISE]:
        draw.text((left, top), line, _INK, body)
        top += 42 * _FINER
    draw.text((left, 550 * _FINER), hangar, _SOFT, _font("DejaVuSans.ttf", 24))


def _font(name: str, size: int) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(
        str(_FONTS / name), size * _FINER, layout_engine=ImageFont.Layout.BASIC
    )


def _wrapped(draw: ImageDraw.ImageDraw, text: str, font: ImageFont.FreeTypeFont) -> list[str]:
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and draw.textlength(longer, font) <= _WORDS_WIDE * _FINER:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines
