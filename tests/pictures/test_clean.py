"""Photographs lose everything but their pixels (P05, P06 of the record rules of this project)."""

import io
import struct

import pytest
from PIL import Image, ImageDraw
from PIL.PngImagePlugin import PngInfo

from buildbook.pictures.clean import LARGE_PX, SMALL_PX, NoPicture, clean

SECRET = b"SN-CANARY-77"
ORIENTATION, MAKER, GPS = 0x0112, 0x010F, 0x8825


def gradient(size=(120, 80), mode="RGB"):
    """A picture in which every corner is another colour."""
    picture = Image.new("RGB", size)
    width, height = size
    for x in range(width):
        for y in range(height):
            picture.putpixel((x, y), (x * 255 // width, y * 255 // height, 90))
    return picture.convert(mode)


def jpeg(picture, *, orientation=1):
    """A JPEG with camera maker, place, comment and colour profile beside the pixels."""
    exif = Image.Exif()
    exif[ORIENTATION] = orientation
    exif[MAKER] = SECRET.decode()
    exif.get_ifd(GPS)[2] = (51.0, 28.0, 40.0)
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=95, exif=exif, comment=SECRET, icc_profile=SECRET * 20)
    return out.getvalue()


def png(picture):
    """A PNG with a text chunk."""
    info = PngInfo()
    info.add_text("Author", SECRET.decode())
    out = io.BytesIO()
    picture.save(out, "PNG", pnginfo=info)
    return out.getvalue()


def chunks(data):
    """The names of the chunks of a PNG (PNG specification, section 5)."""
    names, at = [], 8
    while at < len(data):
        (length,) = struct.unpack(">I", data[at : at + 4])
        names.append(data[at + 4 : at + 8])
        at += 12 + length
    return names


def segments(data):
    """The markers of a JPEG up to its first scan (ITU-T T.81, annex B)."""
    found, at = [], 2
    while data[at + 1] != 0xDA:
        found.append(data[at + 1])
        at += 2 + struct.unpack(">H", data[at + 2 : at + 4])[0]
    return found


def test_p05_a_jpeg_keeps_nothing_beside_its_pixels():
    """No EXIF, no profile, no comment: only the segments that a decoder needs."""
    source = jpeg(gradient())
    cleaned = clean(source)

    assert SECRET in source
    assert SECRET not in cleaned.large.data
    assert {0xE0, 0xDB, 0xC2, 0xC4} >= set(segments(cleaned.large.data))


def test_p05_a_png_keeps_nothing_beside_its_pixels():
    """No text chunk; the pixels are equal."""
    picture = gradient(mode="RGBA")
    cleaned = clean(png(picture))

    assert {b"IHDR", b"IDAT", b"IEND"} == set(chunks(cleaned.large.data))
    assert picture.tobytes() == Image.open(io.BytesIO(cleaned.large.data)).tobytes()


def test_p05_the_picture_still_stands_upright():
    """Orientation 6 of EXIF: the top is at the right; afterwards it is turned and needs no note."""
    turned = gradient().transpose(Image.Transpose.ROTATE_90)
    cleaned = clean(jpeg(turned, orientation=6))
    shown = Image.open(io.BytesIO(cleaned.large.data))

    assert (120, 80) == shown.size
    assert all(
        abs(is_ - was) < 12
        for corner in ((2, 2), (117, 2), (2, 77), (117, 77))
        for is_, was in zip(shown.getpixel(corner), gradient().getpixel(corner), strict=True)
    )


def test_p06_the_name_is_of_the_pixels():
    """The same picture under another name and with other notes has the same one."""
    picture = gradient()
    other = gradient((60, 80))

    assert clean(png(picture)).name == clean(png(picture.copy())).name
    assert clean(png(picture)).name != clean(png(other)).name
    assert clean(png(picture)).name.isalnum()


def test_large_pictures_are_scaled_and_small_ones_left():
    """The longer side is at most 1600 and 640 pixels; the shape is kept."""
    cleaned = clean(png(Image.new("RGB", (3200, 800), "navy")))
    little = clean(png(gradient()))

    assert (LARGE_PX, 400) == (cleaned.large.width, cleaned.large.height)
    assert cleaned.small is not None
    assert (SMALL_PX, 160) == (cleaned.small.width, cleaned.small.height)
    assert little.small is None
    assert (120, 80) == (little.large.width, little.large.height)


def test_a_small_size_that_is_no_lighter_is_left_out():
    """A drawing of a few colours: scaled, its edges have many, and it weighs more than before."""
    drawing = Image.new("RGB", (700, 700), "white")
    for ring in range(7, 500, 7):
        box = (350 - ring, 350 - ring, 350 + ring, 350 + ring)
        ImageDraw.Draw(drawing).ellipse(box, outline="black")

    cleaned = clean(png(drawing))

    assert cleaned.small is None
    assert (700, 700) == (cleaned.large.width, cleaned.large.height)


def test_the_same_file_gives_the_same_bytes():
    """Twice the same, so that a site is the same in every render."""
    source = jpeg(gradient((900, 700)))

    assert clean(source) == clean(source)


@pytest.mark.parametrize(
    ("data", "reason"),
    [
        (b"", "the file is empty"),
        (
            b"<svg xmlns='http://www.w3.org/2000/svg'/>",
            "the file is neither a JPEG nor a PNG picture",
        ),
        (jpeg(gradient())[:900], "the picture is broken off or damaged"),
        (png(gradient())[:200], "the picture is broken off or damaged"),
    ],
    ids=["empty", "svg", "half a jpeg", "half a png"],
)
def test_what_is_no_picture_is_told_in_one_sentence(data, reason):
    """Bad input is a reason, never a traceback."""
    with pytest.raises(NoPicture, match=reason):
        clean(data)


def test_a_drawing_on_light_paper_is_told_from_a_photograph():
    """By its few colours, most of it paper; a picture of many colours and a dark one are none."""
    paper = Image.new("RGB", (120, 80), "#fdfbf5")
    ImageDraw.Draw(paper).line((10, 10, 110, 70), "#20282e", 3)
    night = Image.new("RGB", (120, 80), "#20282e")
    ImageDraw.Draw(night).line((10, 10, 110, 70), "#fdfbf5", 3)

    assert [True, False, False, False] == [
        clean(data).drawn for data in (png(paper), png(gradient()), png(night), jpeg(paper))
    ]
