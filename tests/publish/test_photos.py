"""Photographs on their way into a site."""

import io
from pathlib import Path

import pytest
from PIL import Image

from buildbook.commands.main import main

pytestmark = pytest.mark.usefixtures("private_cache")

OLD_NAME = "home-12-mill-lane"


def a_jpeg() -> bytes:
    """A picture of one colour with a maker's name beside it."""
    exif = Image.Exif()
    exif[0x010F] = "CanaryMaker"
    out = io.BytesIO()
    Image.new("RGB", (900, 600), "teal").save(out, "JPEG", exif=exif)
    return out.getvalue()


def hangar(folder: Path, share: str, photo: bytes) -> Path:
    """A hangar with one story that shows a photo."""
    home = folder / "aircraft/reed"
    (home / "photos").mkdir(parents=True)
    (folder / "hangar.yaml").write_text(
        f"format: 1\nhangar: Bank\nas_of: 2026-06-30\nshare: {share}\n", "utf-8"
    )
    (home / "aircraft.yaml").write_text("aircraft: Reed\nkind: multirotor\nlayout: quad-x\n")
    (home / "write-up.md").write_text(f'# Reed\n\n@ photo {OLD_NAME}.jpg "A tube"\n')
    (home / "photos" / f"{OLD_NAME}.jpg").write_bytes(photo)
    (home / "photos" / "unused.jpg").write_bytes(photo)
    return folder


def test_p06_the_old_name_is_nowhere(tmp_path: Path) -> None:
    """Two sizes under a neutral name, for the public too where photos are shared."""
    folder = hangar(tmp_path / "h", "{photos: true}", a_jpeg())
    site = tmp_path / "site"
    assert main(["render", str(folder), "--into", str(site), "--for", "public"]) == 0
    everything = b"".join(path.read_bytes() for path in site.rglob("*") if path.is_file())

    pictures = sorted(path.name for path in (site / "pictures").iterdir())
    assert len(pictures) == 2
    assert pictures[0].removesuffix("-small.jpg") == pictures[1].removesuffix(".jpg")
    assert OLD_NAME.encode() not in everything
    assert b"CanaryMaker" not in everything
    assert b'alt="A tube"' in everything


def test_no_photo_and_no_words_of_it_where_photos_are_not_shared(tmp_path: Path) -> None:
    """Neither file nor alternative text."""
    folder = hangar(tmp_path / "h", "{photos: false}", a_jpeg())
    site = tmp_path / "site"
    assert main(["render", str(folder), "--into", str(site), "--for", "public"]) == 0

    assert not (site / "pictures").exists()
    assert b"A tube" not in (site / "aircraft/reed/write-up.html").read_bytes()


def test_a_broken_photo_stops_the_render(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """With the line of the story that asks for it."""
    folder = hangar(tmp_path / "h", "{photos: true}", b"no picture at all")
    site = tmp_path / "site"

    assert main(["render", str(folder), "--into", str(site)]) == 1
    told = " ".join(capsys.readouterr().err.split())
    assert (
        f"cannot use the photo '{OLD_NAME}.jpg': the file is neither a JPEG nor a PNG picture @ "
        "aircraft/reed/write-up.md:3" in told
    )
    assert not site.exists()
