"""The picture beside a link to a story: the portrait, the name, the promise.

1200 x 630 pixels, the size that services for links ask for (common practice, no source). Drawn
with the letters that come with matplotlib, so that every machine gives the same pixels.
"""

import io
from pathlib import Path

import matplotlib
from PIL import Image, ImageDraw, ImageFont

from buildbook.pictures.line_art import drawn

WIDTH_PX, HEIGHT_PX = 1200, 630
_FINER = 2  # drawn larger and scaled down, for smooth edges
_GROUND, _INK, _SOFT = "#f4efe3", "#20282e", "#55585a"
_COLOURS = {
    "ground": _GROUND,
    "paper": "#fbf8f0",
    "ink": _INK,
    "soft": _SOFT,
    "line": "#cdc5b3",
    "accent": "#1d5a74",
    "tint": "#cfe0e4",
    "good": "#33663f",
    "warn": "#865400",
    "bad": "#9c2b1b",
}
_FONTS = Path(matplotlib.get_data_path()) / "fonts" / "ttf"
_DRAWN_LEFT, _DRAWN_WIDE = 24, 640
_WORDS_LEFT, _WORDS_WIDE = 696.0, 460.0
_LINES_OF_A_PROMISE = 4


def card(portrait: str, name: str, promise: str, hangar: str) -> bytes:
    """A PNG without anything beside its pixels. portrait: a drawing of ours, as SVG."""
    picture = Image.new("RGB", (WIDTH_PX * _FINER, HEIGHT_PX * _FINER), _GROUND)
    draw = ImageDraw.Draw(picture)
    lines = drawn(portrait, _COLOURS, _GROUND, _DRAWN_WIDE * _FINER)
    picture.paste(lines, (_DRAWN_LEFT * _FINER, (picture.height - lines.height) // 2))
    _words(draw, name, promise, hangar)
    small = picture.resize((WIDTH_PX, HEIGHT_PX), Image.Resampling.LANCZOS)
    out = io.BytesIO()
    small.quantize(128, dither=Image.Dither.NONE).save(out, "PNG", optimize=True)
    return out.getvalue()


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
