"""Photographs on their way into a site."""

import io
import os
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image

from buildbook.commands.main import main
from buildbook.pictures.clean import NoPicture
from buildbook.publish.photos import photo_bytes

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

    names = sorted(path.name for path in (site / "pictures").iterdir())
    pictures = [name for name in names if not name.startswith("card-")]  # drawn, not taken
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

    kept = (site / "pictures").glob("*")
    assert [] == [path.name for path in kept if not path.name.startswith("card-")]
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


def test_a_photo_that_nobody_would_see_stops_nothing(tmp_path: Path) -> None:
    """Photos are not shared: a broken one is the owner's trouble, not the public site's."""
    folder = hangar(tmp_path / "h", "{photos: false}", b"no picture at all")

    assert main(["render", str(folder), "--into", str(tmp_path / "s"), "--for", "public"]) == 0
    assert main(["render", str(folder), "--into", str(tmp_path / "t")]) == 1


@pytest.mark.parametrize("audience", ["owner", "public"])
def test_a_photo_that_only_an_entry_names_is_the_owners(tmp_path: Path, audience: str) -> None:
    """A broken one stops the owner's render alone, although photos are shared."""
    folder = hangar(tmp_path / "h", "{photos: true}", a_jpeg())
    (folder / "aircraft/reed/photos/unused.jpg").write_bytes(b"no picture at all")
    (folder / "aircraft/reed/logbook.yaml").write_text(
        "- {on: 2026-02-03, note: Seen, photos: [unused.jpg]}\n", "utf-8"
    )

    status = main(["render", str(folder), "--into", str(tmp_path / "s"), "--for", audience])
    assert {"owner": 1, "public": 0}[audience] == status


def spoil_with_pipe(photo: Path) -> None:
    """A pipe that nobody writes to."""
    os.mkfifo(photo)


def spoil_with_device(photo: Path) -> None:
    """A link to a device that never ends."""
    photo.symlink_to("/dev/zero")


def spoil_with_folder(photo: Path) -> None:
    """A folder of that name."""
    photo.mkdir()


def spoil_with_nothing(photo: Path) -> None:
    """A file without a byte."""
    photo.write_bytes(b"")


def spoil_with_size(photo: Path) -> None:
    """A file with a hole in it, larger than any photo."""
    with photo.open("wb") as file:
        file.truncate(200_000_000)


@pytest.mark.parametrize(
    ("spoil", "reason"),
    [
        (spoil_with_pipe, f"no photo '{OLD_NAME}.jpg' in photos/"),
        (spoil_with_device, f"no photo '{OLD_NAME}.jpg' in photos/"),
        (spoil_with_folder, f"no photo '{OLD_NAME}.jpg' in photos/"),
        (spoil_with_nothing, f"cannot use the photo '{OLD_NAME}.jpg': the file is empty"),
        (
            spoil_with_size,
            f"cannot use the photo '{OLD_NAME}.jpg': the file is larger than 60 MB",
        ),
    ],
)
def test_what_stands_in_the_place_of_a_photo(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], spoil: Callable[[Path], None], reason: str
) -> None:
    """Nothing is waited for or read without end; one sentence at the line of the story."""
    folder = hangar(tmp_path / "h", "{photos: true}", a_jpeg())
    photo = folder / "aircraft/reed/photos" / f"{OLD_NAME}.jpg"
    photo.unlink()
    spoil(photo)

    assert main(["render", str(folder), "--into", str(tmp_path / "site")]) == 1
    told = " ".join(capsys.readouterr().err.split())
    assert f"problem: {reason} @ aircraft/reed/write-up.md:3 " in told
    assert not (tmp_path / "site").exists()


@pytest.mark.parametrize("spoil", [spoil_with_pipe, spoil_with_device])
def test_a_photo_that_became_a_pipe_is_not_waited_for(
    tmp_path: Path, spoil: Callable[[Path], None]
) -> None:
    """Since the folder was looked through."""
    spoil(tmp_path / "photo.jpg")

    with pytest.raises(NoPicture, match=r"^it is a folder, pipe or device, not a file$"):
        photo_bytes(tmp_path / "photo.jpg")


def test_a_doubted_photo_is_shown_with_a_warning(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Notes that can't be read stop nothing."""
    exif = Image.Exif()
    exif[0x0112] = 9
    out = io.BytesIO()
    Image.new("RGB", (90, 60), "teal").save(out, "JPEG", exif=exif)
    folder = hangar(tmp_path / "h", "{photos: true}", out.getvalue())

    assert main(["render", str(folder), "--into", str(tmp_path / "site")]) == 0
    told = " ".join(capsys.readouterr().err.split())
    assert (
        f"warning: the photo '{OLD_NAME}.jpg': its orientation can't be read, so it may lie on "
        "its side @ aircraft/reed/write-up.md:3" in told
    )
    assert (tmp_path / "site" / "pictures").is_dir()
