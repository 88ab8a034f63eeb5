"""Photographs for the site: the picture and nothing else, in two sizes, under a neutral name.

A camera writes where and when and with what a picture was taken, and a small copy of it, beside
the pixels. All of that stays behind: the pixels are copied into a new picture that is encoded
anew. The same file gives the same bytes.
"""

import hashlib
import io
import warnings

import msgspec
from PIL import Image, ImageOps, UnidentifiedImageError

from buildbook.basis.sizes import most

LARGE_PX, SMALL_PX = 1600, 640
"""The longer side of each size."""

MOST_PIXELS = most("pixels")
_QUALITY = 85
_SUFFIXES = {"JPEG": "jpg", "PNG": "png"}


class NoPicture(Exception):
    """The file is no picture that can be used; the reason in lower case."""


class Sized(msgspec.Struct, frozen=True):
    """A picture in one size."""

    width: int
    height: int
    data: bytes


class Cleaned(msgspec.Struct, frozen=True, kw_only=True):
    """A picture without anything beside its pixels. name: of its pixels, not of its file."""

    name: str
    suffix: str
    large: Sized
    small: Sized | None


def clean(data: bytes) -> Cleaned:
    """Decode, turn upright, copy the pixels, scale, encode. NoPicture: it can't be decoded."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)
            with Image.open(io.BytesIO(data), formats=tuple(_SUFFIXES)) as found:
                kind = found.format or ""
                if found.width * found.height > MOST_PIXELS:
                    raise NoPicture(f"the picture has {found.width} x {found.height} pixels")
                upright = ImageOps.exif_transpose(found)
                bare = _bare(upright, kind)
    except UnidentifiedImageError:
        raise NoPicture("the file is neither a JPEG nor a PNG picture") from None
    except (OSError, ValueError, SyntaxError, Image.DecompressionBombError):
        raise NoPicture("the picture is broken off or damaged") from None
    marks = f"{bare.mode} {bare.width} {bare.height} ".encode()
    name = hashlib.sha256(marks + bare.tobytes()).hexdigest()[:20]
    small = _sized(bare, kind, SMALL_PX) if max(bare.size) > SMALL_PX else None
    return Cleaned(
        name=name, suffix=_SUFFIXES[kind], large=_sized(bare, kind, LARGE_PX), small=small
    )


def _bare(picture: Image.Image, kind: str) -> Image.Image:
    """The pixels alone, in a mode that the format can hold."""
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
