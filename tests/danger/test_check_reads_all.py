"""A18: ``check`` reads all that ``render`` reads, and says the same."""

import io
import subprocess
import sys
from pathlib import Path

import pytest
from hangar_on_disk import QUIET, Hangar, with_log, with_text
from PIL import Image

LOG = "aircraft/sedge/logbook.yaml"
STORY = "aircraft/sedge/write-up.md"
SHOWN = '# Sedge\n\n@ photo arm.jpg "The arm"\n'
NAMED = "- on: 2026-06-19\n  note: a look\n  photos: [arm.jpg]\n"


def _jpeg(orientation: int = 1) -> bytes:
    exif = Image.Exif()
    exif[0x0112] = orientation
    out = io.BytesIO()
    Image.effect_noise((160, 120), 40).save(out, "JPEG", exif=exif)
    return out.getvalue()


def _hangar(folder: Path, photo: bytes, files: dict[str, str]) -> Hangar:
    hangar = Hangar(folder, files)
    photos = hangar.folder / "aircraft/sedge/photos"
    photos.mkdir()
    (photos / "arm.jpg").write_bytes(photo)
    return hangar


def _rendered(hangar: Hangar, *more: str) -> str:
    site = hangar.folder.parent / "other-site"
    return hangar.run("render", str(hangar.folder), "--into", str(site), *more)[1]


@pytest.mark.parametrize(
    ("photo", "fault"),
    [
        (b"", "the file is empty"),
        (b"no picture", "the file is neither a JPEG nor a PNG picture"),
        (_jpeg()[:-900], "the picture is broken off or damaged"),
    ],
)
@pytest.mark.parametrize("where", ["story", "entry"])
def test_a_photo_that_render_refuses_is_a_problem_of_check(
    tmp_path: Path, photo: bytes, fault: str, where: str
) -> None:
    """In a story and at an entry: the same sentence, the same line, and status 1."""
    files = with_log("", **{STORY: SHOWN}) if where == "story" else with_log(NAMED)
    hangar = _hangar(tmp_path, photo, files)
    line = hangar.line(STORY, "@ photo") if where == "story" else hangar.line(LOG, "photos:")
    said = f"problem: cannot use the photo 'arm.jpg': {fault} @ {line}\n"

    assert said in hangar.check
    assert said in _rendered(hangar)
    assert 1 == hangar.run("check", str(hangar.folder))[0]


def test_a_photo_that_may_lie_on_its_side_is_a_warning_of_check(tmp_path: Path) -> None:
    """An orientation that EXIF does not know; both commands say so and go on."""
    hangar = _hangar(tmp_path, _jpeg(orientation=11), with_log("", **{STORY: SHOWN}))
    said = (
        "warning: the photo 'arm.jpg': its orientation can't be read, so it may lie on its side"
        f" @ {hangar.line(STORY, '@ photo')}\n"
    )

    assert said in hangar.check
    assert said in _rendered(hangar)
    assert 0 == hangar.run("check", str(hangar.folder))[0]


def test_a_sound_photo_is_quiet(tmp_path: Path) -> None:
    """Nothing of it."""
    hangar = _hangar(tmp_path, _jpeg(), with_log(NAMED, **{STORY: SHOWN}))

    assert "photo" not in hangar.check


def test_check_for_the_public_reads_the_photos_that_a_public_render_reads(tmp_path: Path) -> None:
    """Where photos are not shared none is opened, in either command."""
    hangar = _hangar(tmp_path, b"no picture", with_log("", **{STORY: SHOWN}))
    said = "cannot use the photo"

    assert said in hangar.check
    assert said not in hangar.run("check", str(hangar.folder), "--for", "public")[1]
    assert said not in _rendered(hangar, "--for", "public")


def test_a_bench_table_that_cannot_be_read_is_a_problem_of_check(tmp_path: Path) -> None:
    """Named by a spec: the same sentence at its own line as of render."""
    named = with_text("parts/specs.yaml", "kind: motor,", "kind: motor, bench: stand.csv,")
    bench = "throttle_%,current_A,thrust_g\n50,4.1,410\n100,nine,900\n"
    hangar = Hangar(tmp_path, {**named, "bench/stand.csv": bench})
    told = [line for line in hangar.check.splitlines() if "bench/stand.csv:3" in line]

    assert 1 == len(told)
    assert "problem: " == told[0][:9]
    assert told[0] in _rendered(hangar)


def test_a_hangar_without_photos_is_checked_without_a_decoder(tmp_path: Path) -> None:
    """It takes long to load, and nothing asks for it."""
    hangar = Hangar(tmp_path, QUIET)
    code = (
        "import sys; from buildbook.commands.main import main;"
        " main(['check', sys.argv[1]]); print('PIL' in sys.modules)"
    )
    words = [sys.executable, "-c", code, str(hangar.folder)]
    done = subprocess.run(words, capture_output=True, text=True, check=True)

    assert "False" == done.stdout.splitlines()[-1]
