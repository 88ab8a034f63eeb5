"""What lies in a keeper's folder and is no record: comments, names of files, heads of photographs.

After section 6 of the record rules of this project (P01, P05, P06). A word of its own stands in
each odd place of a copy of the demo, and in no file of the public site.
"""

import re
import shutil
from pathlib import Path

import pytest
from PIL import Image, PngImagePlugin

from buildbook.commands.main import main
from tests.chain.searching import sightings

pytestmark = pytest.mark.usefixtures("private_cache")

STORY = """\
---
place: Zqfrontxw
---
<!-- Zqhtmlcommentxw -->

[//]: # (Zqlinkcommentxw)
[never]: http://example.org/Zqnevertakenxw

# Burdock again

[Shelf](../../stores/Zqstorexw.yaml), [pack](../../items/Zqitemxw.html), [list](../../due.html),
[out](../../../../etc/Zqoutsidexw), [there](//Zqhostxw.example.org/a), [run](javascript:Zqjsxw()),
[drawn](../hogweed/layout.html#layout), [front](../../index.html), [far](https://example.org/a).

![The arm](Zqphotoxw.jpg)

![Its plate](Zqplatexw.png "A plate")
"""
TABLE = "2216-760-11x5.csv"


@pytest.fixture(scope="module")
def hangar(demo: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo with a word in each odd place."""
    folder = tmp_path_factory.mktemp("keeper") / "hangar"
    shutil.copytree(demo, folder)
    for at, path in enumerate(sorted(folder.rglob("*.yaml"))):
        text = path.read_text("utf-8").replace(TABLE, "Zqtablexw-mill-lane.csv")
        path.write_text(f"# Zqabove{at}xw\n{text}\n# Zqbelow{at}xw\n", "utf-8")
    (folder / "bench" / TABLE).rename(folder / "bench/Zqtablexw-mill-lane.csv")
    for unread in ("Zqtextxw.txt", "aircraft/burdock/Zqdraftxw.md", "stores/Zqchargerxw.csv"):
        (folder / unread).write_text("Zqunreadxw", "utf-8")
    _photos(folder / "aircraft/burdock/photos")
    (folder / "aircraft/burdock/write-up.md").write_text(STORY, "utf-8")
    return folder


def _photos(folder: Path) -> None:
    exif = Image.Exif()
    exif[0x010E], exif[0x013B] = "Zqdescriptionxw", "Zqartistxw"
    exif.get_ifd(0x8769).update({0x9286: b"ASCII\0\0\0Zqcommentxw", 0xA431: "Zqcameraxw"})
    exif.get_ifd(0x8825).update({1: "N", 2: (52.0, 31.0, 7.0), 29: "Zqgpsxw"})
    text = PngImagePlugin.PngInfo()
    text.add_text("Comment", "Zqpngtextxw", zip=True)
    text.add_itxt("XML:com.adobe.xmp", "Zqpngxmpxw")
    picture = Image.linear_gradient("L").convert("RGB").resize((640, 480))
    jpeg, png = folder / "Zqphotoxw.jpg", folder / "Zqplatexw.png"
    picture.save(jpeg, exif=exif, comment=b"Zqjpegcommentxw", xmp=b"<x>Zqxmpxw</x>")
    jpeg.write_bytes(jpeg.read_bytes() + b"Zqtrailingxw")
    picture.transpose(Image.Transpose.ROTATE_90).save(png, pnginfo=text, exif=exif)
    picture.save(folder / "Zqnotinthestoryxw.jpg", exif=exif)


@pytest.fixture(scope="module")
def words(hangar: Path) -> dict[str, str]:
    """Every word that was hidden, and where."""
    found: dict[str, str] = {}
    for path in sorted(hangar.rglob("*")):
        held = path.read_bytes() if path.is_file() else b""
        for word in re.findall(rb"Zq[a-z0-9]+xw", path.name.encode() + b"\n" + held):
            found[word.decode()] = str(path.relative_to(hangar))
    return found


@pytest.fixture(scope="module")
def site(hangar: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """All files of the public site."""
    into = tmp_path_factory.mktemp("site") / "site"
    assert 0 == main(["render", str(hangar), "--into", str(into), "--for", "public"])
    return {
        str(path.relative_to(into)): path.read_bytes() for path in into.rglob("*") if path.is_file()
    }


def test_no_name_and_no_comment_of_a_keeper_is_public(
    hangar: Path, words: dict[str, str], site: dict[str, bytes]
) -> None:
    """Photographs of the stories are there, by the names of their pixels."""
    assert 60 < len(words)
    stories = (path.read_text("utf-8") for path in hangar.glob("aircraft/*/write-up.md"))
    written = [name for text in stories for name in re.findall(r"^!\[.*\]\((\S+)", text, re.M)]
    shown = [name for name in site if re.fullmatch(r"pictures/[0-9a-f]+\.\w+", name)]
    assert 2 < len(written) == len(shown)
    assert [] == sightings(words, site)


def test_a_bench_table_is_named_for_what_it_is(site: dict[str, bytes]) -> None:
    """The reader of a figure learns that there is one, and of which motor."""
    figures = site["aircraft/burdock/figures.html"].decode()

    assert "<dt>Bench table of motor-2216-760</dt><dd>a bench table " in figures
    assert b"mill-lane" not in b"".join(site.values())


def test_links_of_a_story_lead_to_builds_or_out_of_the_site(site: dict[str, bytes]) -> None:
    """What lies only on the keeper's disk or in the keeper's own site keeps its words, no link."""
    story = site["aircraft/burdock/write-up.html"].decode()

    assert (
        "<p>Shelf, pack, list,\nout, there, run,\n"
        '<a href="../hogweed/layout.html#layout" rel="noreferrer">drawn</a>, '
        '<a href="../../index.html" rel="noreferrer">front</a>, '
        '<a href="https://example.org/a" rel="noreferrer">far</a>.</p>'
    ) in story
