"""Photographs for the site: the picture and nothing else, in two sizes, under a neutral name.

A camera writes where and when and with what a picture was taken, and a small copy of it, beside
the pixels. All of that stays behind: the pixels are copied into a new picture that is encoded
anew. The same file gives the same bytes.
"""

import hashlib
import io
import warnings
from collections.abc import Mapping

import msgspec
from PIL import Image, UnidentifiedImageError

from buildbook.basis.sizes import most

LARGE_PX, SMALL_PX = 1600, 640
"""The longer side of each size."""

MOST_PIXELS = most("pixels")
MOST_SIDE_PX = most("side")
_DAMAGED = "the picture is broken off or damaged"
_EMPTY_NOTES = 14  # bytes of EXIF without a single note
_QUALITY = 85
_FORMATS = ("JPEG", "PNG")
_SUFFIXES = {"JPEG": "jpg", "PNG": "png"}
_ORIENTATION = 0x0112
_TURNS: Mapping[int, Image.Transpose] = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}
"""How to turn a picture upright, by its orientation (EXIF 2.3, tag 274)."""


class NoPicture(Exception):
    """The file is no picture that can be used; the reason in lower case."""


class Sized(msgspec.Struct, frozen=True):
    """A picture in one size."""

    width: int
    height: int
    data: bytes


class Cleaned(msgspec.Struct, frozen=True, kw_only=True):
    """A picture without anything beside its pixels.

    name: of its pixels, not of its file. doubts: what was odd about it and how it is shown.
    drawn: lines on plain light paper, which a dark page may turn into light ones.
    """

    name: str
    suffix: str
    large: Sized
    small: Sized | None
    doubts: tuple[str, ...] = ()
    drawn: bool = False


def clean(data: bytes) -> Cleaned:
    """Decode, turn upright, copy the pixels, scale, encode. NoPicture: it can't be decoded."""
    kind, bare, doubts = _decoded(data)
    marks = f"{bare.mode} {bare.width} {bare.height} ".encode()
    name = hashlib.sha256(marks + bare.tobytes()).hexdigest()[:20]
    large = _sized(bare, kind, LARGE_PX)
    small = _sized(bare, kind, SMALL_PX) if max(bare.size) > SMALL_PX else None
    if small and len(small.data) >= len(large.data):  # a drawing of few colours grows by scaling
        small = None
    return Cleaned(
        name=name,
        suffix=_SUFFIXES[kind],
        large=large,
        small=small,
        doubts=doubts,
        drawn=kind == "PNG" and _is_drawn(bare),
    )


_MOST_COLOURS, _LIGHTEST, _PAPER_SHARE = 4096, 225, 0.5
"""No photograph has so few colours; half of a drawing and more is its paper."""


def _is_drawn(picture: Image.Image) -> bool:
    """Whether it has few colours, most of it one light one."""
    colours = picture.convert("RGB").getcolors(_MOST_COLOURS)
    if not colours:
        return False
    count, paper = max(colours)
    light = isinstance(paper, tuple) and min(paper) >= _LIGHTEST
    return light and count >= _PAPER_SHARE * picture.width * picture.height


def doubts_of(data: bytes) -> tuple[str, ...]:
    """What is odd about a picture, nothing written. NoPicture: as ``clean`` says it."""
    return _decoded(data)[2]


def _decoded(data: bytes) -> tuple[str, Image.Image, tuple[str, ...]]:
    """The format, the bare picture upright, and what was odd about it."""
    if not data:
        raise NoPicture("the file is empty")
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of damaged notes and large pictures: told here
            with Image.open(io.BytesIO(data), formats=_FORMATS) as found:
                # A camera's file of several pictures begins with a JPEG and is a kind of its own.
                kind = "PNG" if found.format == "PNG" else "JPEG"
                _refuse_size(*found.size)
                several = getattr(found, "is_animated", False) and kind == "PNG"
                found.load()
                bare = _bare(found, kind)
                turn, doubt = _turn(found)
    except NoPicture:
        raise
    except UnidentifiedImageError:
        begins = data.startswith((b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n"))
        raise NoPicture(
            _DAMAGED if begins else "the file is neither a JPEG nor a PNG picture"
        ) from None
    except Image.DecompressionBombError:
        raise NoPicture(_too_many()) from None
    except Exception:  # a decoder meets damaged bytes with nearly any error
        raise NoPicture(_DAMAGED) from None
    doubts = ["it is animated; only its first picture is shown"] if several else []
    if doubt is not None:
        doubts.append(doubt)
    return kind, bare if turn is None else bare.transpose(turn), tuple(doubts)


def _refuse_size(width: int, height: int) -> None:
    if width < 1 or height < 1:
        raise NoPicture(_DAMAGED)
    if width * height > MOST_PIXELS:
        raise NoPicture(f"the picture has {width} x {height} pixels; {_too_many()}")
    if max(width, height) > MOST_SIDE_PX:
        raise NoPicture(
            f"the picture has {width} x {height} pixels; a side may have {MOST_SIDE_PX} at most"
        )


def _too_many() -> str:
    return f"more than {MOST_PIXELS // 1_000_000} million pixels are too many"


def _turn(picture: Image.Image) -> tuple[Image.Transpose | None, str | None]:
    """How to turn it upright; or why that can't be known, and it stays as its pixels lie.

    Only the orientation is looked at, so that a damaged note beside it does no harm.
    """
    unknown = "its orientation can't be read, so it may lie on its side"
    try:
        exif = picture.getexif()
        if not exif and len(picture.info.get("exif", b"")) > _EMPTY_NOTES:
            return None, unknown
        orientation = exif.get(_ORIENTATION, 1)
    except Exception:  # damaged notes are met with nearly any error
        return None, unknown
    if orientation == 1 and type(orientation) is int:
        return None, None
    if type(orientation) is not int or orientation not in _TURNS:
        return None, unknown
    return _TURNS[orientation], None


def _bare(picture: Image.Image, kind: str) -> Image.Image:
    """The pixels alone, in a mode that the format can hold."""
    if picture.mode.startswith("I"):  # 16 bits of grey; a plain conversion would cut them off
        picture = picture.convert("I").point(lambda value: value * (1 / 256)).convert("L")
    mode = "RGB"
    if kind == "PNG" and ("A" in picture.getbands() or "transparency" in picture.info):
        mode = "RGBA"
    elif picture.mode in ("1", "L"):
        mode = "L"
    plain = picture.convert(mode)
    return Image.frombytes(mode, plain.size, plain.tobytes())


def _sized(picture: Image.Image, kind: str, longest_px: int) -> Sized:
    share = min(1.0, longest_px / max(picture.size))
    size = (max(1, round(picture.width * share)), max(1, round(picture.height * share)))
    scaled = picture if share == 1.0 else picture.resize(size, Image.Resampling.LANCZOS)
    out = io.BytesIO()
    if kind == "JPEG":
        scaled.save(out, "JPEG", quality=_QUALITY, optimize=True, progressive=True)
    else:
        scaled.save(out, "PNG", optimize=True)
    return Sized(*size, out.getvalue())
