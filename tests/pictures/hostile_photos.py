"""Photographs that nobody's camera should write, made byte by byte."""

import io
import random
import struct
import zlib

from PIL import Image

ORIENTATION, MAKER, RATIONAL = 0x0112, 0x010F, 0x011A


def gradient(size=(120, 80), mode="RGB"):
    """A picture in which each corner differs."""
    ramp = Image.linear_gradient("L").resize(size)
    flat = Image.new("L", size, 40)
    picture = Image.merge("RGB", (ramp, ramp.transpose(Image.Transpose.ROTATE_180), flat))
    return picture.convert(mode)


def tiff(*fields):
    """EXIF notes of (tag, type, count, four bytes) as TIFF 6.0 orders them, big-endian."""
    body = b"".join(
        struct.pack(">HHI", tag, kind, count) + value for tag, kind, count, value in fields
    )
    return b"Exif\0\0MM\0*\0\0\0\x08" + struct.pack(">H", len(fields)) + body + b"\0\0\0\0"


def jpeg(picture=None, exif=b"", **more):
    """A JPEG with the EXIF notes as they are given, damaged or not."""
    out = io.BytesIO()
    (picture or gradient()).save(out, "JPEG", quality=95, **more)
    data = out.getvalue()
    if not exif:
        return data
    return data[:2] + b"\xff\xe1" + struct.pack(">H", len(exif) + 2) + exif + data[2:]


def png(picture, **more):
    """A PNG."""
    out = io.BytesIO()
    picture.save(out, "PNG", **more)
    return out.getvalue()


def chunk(name, data):
    """A chunk of a PNG (PNG specification, section 5.3)."""
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))


def png_of_size(width, height):
    """A PNG that says it has this size; its pixels are zero, packed, one bit each."""
    line = b"\0" * (1 + (width + 7) // 8)
    packer = zlib.compressobj(9)
    pixels = b"".join(packer.compress(line) for _ in range(height)) + packer.flush()
    head = struct.pack(">IIBBBBB", width, height, 1, 0, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", pixels) + chunk(b"IEND", b"")
    )


def ways_to_spoil(seed):
    """A picture spoilt at random, the same for the same seed."""
    dice = random.Random(seed)
    modes = ("RGB", "L", "CMYK") if dice.random() < 0.5 else ("RGB", "RGBA", "L", "P", "1", "I;16")
    mode = dice.choice(modes)
    size = (dice.randint(1, 90), dice.randint(1, 90))
    base = gradient(size, "L").convert("I").convert(mode) if mode == "I;16" else None
    picture = base or gradient(size).convert(mode)
    if mode in ("RGB", "L", "CMYK") and dice.random() < 0.6:
        fields = [
            (
                dice.choice((ORIENTATION, MAKER, RATIONAL)),
                dice.randint(0, 14),
                dice.choice((0, 1, 2, 9, 2**31)),
                dice.randbytes(4),
            )
            for _ in range(dice.randint(0, 4))
        ]
        data = bytearray(jpeg(picture, tiff(*fields) if fields else b""))
    elif mode == "CMYK":
        data = bytearray(jpeg(picture))
    else:
        data = bytearray(png(picture))
    for _ in range(dice.choice((0, 1, 1, 3, 20))):
        at = dice.randrange(len(data))
        what = dice.randrange(4)
        if what == 0:
            data[at] = dice.randrange(256)
        elif what == 1:
            data[at : at + dice.randint(1, 40)] = b""
        elif what == 2:
            data[at:at] = dice.randbytes(dice.randint(1, 40))
        else:
            data[at : at + 4] = dice.choice((b"\0\0\0\0", b"\xff\xff\xff\xff", b"\x7f\xff\xff\xff"))
        if not data:
            break
    return bytes(data[: dice.randrange(len(data))] if data and dice.random() < 0.2 else data)
