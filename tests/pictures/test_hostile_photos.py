"""Damaged, huge and odd photographs: used, or refused with the reason that is true."""

import io
import os
import struct
import warnings

import pytest
from hostile_photos import (
    MAKER,
    ORIENTATION,
    RATIONAL,
    gradient,
    jpeg,
    png,
    png_of_size,
    tiff,
    ways_to_spoil,
)
from PIL import Image

from buildbook.pictures.clean import NoPicture, clean

UNKNOWN = "its orientation can't be read, so it may lie on its side"
RIGHT_SIDE_UP = (ORIENTATION, 3, 1, b"\0\x06\0\0")  # 6: the top is at the right
FUZZED = int(os.environ.get("FUZZED_PHOTOS", "300"))


def refusal(data: bytes) -> str:
    """Why a picture can't be used."""
    with pytest.raises(NoPicture) as told:
        clean(data)
    return str(told.value)


@pytest.mark.parametrize(
    "neighbour",
    [
        (MAKER, 2, 4_000_000, b"\xff\xff\xff\xff"),  # text far outside the file
        (RATIONAL, 5, 1, b"\0\0\0\x01"),  # a fraction that points into the head
        (MAKER, 99, 1, b"\0\0\0\0"),  # a type that there isn't
        (RATIONAL, 3, 1, b"\0\x01\0\0"),  # a whole number where a fraction belongs
    ],
    ids=["text far away", "fraction in the head", "no such type", "wrong type"],
)
def test_a_damaged_note_beside_the_orientation_does_no_harm(neighbour) -> None:
    """The picture is turned upright all the same, and nothing is doubted."""
    cleaned = clean(jpeg(exif=tiff(neighbour, RIGHT_SIDE_UP)))

    assert (80, 120) == (cleaned.large.width, cleaned.large.height)
    assert () == cleaned.doubts


@pytest.mark.parametrize(
    "exif",
    [
        tiff((ORIENTATION, 2, 4, b"six\0")),
        tiff((ORIENTATION, 3, 1, b"\0\x09\0\0")),
        tiff((ORIENTATION, 3, 1, b"\0\0\0\0")),
        tiff((ORIENTATION, 5, 1, b"\0\0\0\x08")),
        tiff((ORIENTATION, 11, 1, struct.pack(">f", 6.0))),
        b"Exif\0\0no notes at all",
    ],
    ids=["text", "nine", "zero", "fraction", "float", "no notes"],
)
def test_an_orientation_of_the_wrong_type_is_a_doubt(exif) -> None:
    """The picture is used as its pixels lie, and the keeper hears of it."""
    cleaned = clean(jpeg(exif=exif))

    assert (120, 80) == (cleaned.large.width, cleaned.large.height)
    assert (UNKNOWN,) == cleaned.doubts


def test_each_orientation_is_turned_as_the_standard_says() -> None:
    """EXIF 2.3, tag 274: the corner that is top left to somebody who looks, of a picture
    whose four corners differ."""
    corners = Image.new("L", (64, 48))
    for at, grey in (((0, 0), 20), ((32, 0), 90), ((0, 24), 160), ((32, 24), 230)):
        corners.paste(grey, (*at, at[0] + 32, at[1] + 24))
    # orientation n: which stored corner (20 top left, 90 top right, 160, 230 bottom) is shown first
    first_and_second = {
        1: (20, 90), 2: (90, 20), 3: (230, 160), 4: (160, 230),
        5: (20, 160), 6: (160, 20), 7: (230, 90), 8: (90, 230),
    }  # fmt: skip
    assert first_and_second
    for orientation, expected in first_and_second.items():
        data = jpeg(corners, tiff((ORIENTATION, 3, 1, struct.pack(">HH", orientation, 0))))

        shown = Image.open(io.BytesIO(clean(data).large.data))
        found = (shown.getpixel((5, 5)), shown.getpixel((shown.width - 6, 5)))
        assert all(abs(want - is_) < 6 for want, is_ in zip(expected, found, strict=True))


def test_sizes_that_are_refused() -> None:
    """By the number of pixels, by the side; the numbers are named where the file says them."""
    assert refusal(png_of_size(80_000_000, 1)) == (
        "the picture has 80000000 x 1 pixels; a side may have 30000 at most"
    )
    assert refusal(png_of_size(10_000, 9_000)) == (
        "the picture has 10000 x 9000 pixels; more than 80 million pixels are too many"
    )
    assert refusal(png_of_size(20_000, 20_000)) == "more than 80 million pixels are too many"


def test_a_long_narrow_picture_is_used() -> None:
    """20,000 pixels on a side are no fault by themselves."""
    cleaned = clean(png_of_size(20_000, 4))

    assert (1600, 1) == (cleaned.large.width, cleaned.large.height)


def test_files_that_are_refused() -> None:
    """Empty, cut off at several lengths, of another kind."""
    whole = png(gradient())

    assert refusal(b"") == "the file is empty"
    assert refusal(b"GIF89a" + bytes(40)) == "the file is neither a JPEG nor a PNG picture"
    assert {"the picture is broken off or damaged"} == {
        refusal(whole[:length]) for length in (40, 60, len(whole) // 2)
    }
    assert refusal(whole[:6]) == "the file is neither a JPEG nor a PNG picture"


def test_an_animated_picture_shows_its_first_one() -> None:
    """With a doubt."""
    data = png(
        gradient(), save_all=True, append_images=[Image.new("RGB", (120, 80), "navy")], duration=90
    )
    cleaned = clean(data)

    shown = Image.open(io.BytesIO(cleaned.large.data))
    assert ("it is animated; only its first picture is shown",) == cleaned.doubts
    assert gradient().tobytes() == shown.convert("RGB").tobytes()


def test_the_several_pictures_of_a_camera_are_a_jpeg() -> None:
    """A camera's multi-picture file (CIPA DC-007) begins with the photograph itself."""

    out = io.BytesIO()
    gradient().save(out, "MPO", save_all=True, append_images=[Image.new("RGB", (20, 20), "red")])
    cleaned = clean(out.getvalue())

    assert ("jpg", 120, 80, ()) == (
        cleaned.suffix,
        cleaned.large.width,
        cleaned.large.height,
        cleaned.doubts,
    )


def test_print_colours_and_sixteen_bits_keep_their_tones() -> None:
    """CMYK becomes RGB; 16 bits of grey are scaled, not cut off at white."""

    cmyk = Image.open(io.BytesIO(clean(jpeg(gradient(mode="CMYK"))).large.data))
    grey = Image.new("I;16", (60, 40), 0x8000)
    deep = Image.open(io.BytesIO(clean(png(grey)).large.data))

    assert "RGB" == cmyk.mode
    assert all(
        abs(want - is_) < 16
        for at in ((5, 5), (100, 70))
        for want, is_ in zip(gradient().getpixel(at), cmyk.getpixel(at), strict=True)
    )
    assert ("L", 128) == (deep.mode, deep.getpixel((30, 20)))


def test_spoilt_at_random_it_is_a_picture_or_a_reason() -> None:
    """Never another error, never a warning of the decoder; FUZZED_PHOTOS sets how many."""
    reasons: set[str] = set()
    used = 0
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        for seed in range(FUZZED):
            try:
                cleaned = clean(ways_to_spoil(seed))
            except NoPicture as reason:
                reasons.add(str(reason).split(";")[-1].strip())
            else:
                used += 1
                assert b"Exif" not in cleaned.large.data

    assert reasons <= {
        "the file is empty",
        "the file is neither a JPEG nor a PNG picture",
        "the picture is broken off or damaged",
        "more than 80 million pixels are too many",
        "a side may have 30000 at most",
    }
    assert used > FUZZED // 20
    assert len(reasons) >= 2
