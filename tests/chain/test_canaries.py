"""No private field of any record is in a public site, in no dress; and every public text is read.

Both are made from the declarations of the fields, so that a new field is in them by itself. After
section 6 of the record rules of this project (P01, P05, P06, P07).
"""

import base64
import datetime
import io
import zipfile
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any, get_args, get_type_hints

import msgspec
import pytest
from PIL import Image, PngImagePlugin

from buildbook.audience.leaks.watch import LeakWatch
from buildbook.audience.projection import Projector, projected
from buildbook.audience.sharing import sharing_for
from buildbook.hangar.fold import fold
from buildbook.pages.theme import theme_folders
from buildbook.publish.photos import photos_of
from buildbook.publish.render import render
from buildbook.records import entries
from buildbook.records.keeper import Share
from buildbook.records.ledger import Ledger, WriteUp
from buildbook.records.notices import Notice
from buildbook.records.reading.read import read_hangar
from buildbook.report.reports import Audience
from buildbook.reporting.registry import reports_of
from tests.chain.canaries import (
    DAY,
    STRUCTURE,
    Canaries,
    every_field,
    plain_types,
    texts_that_may_hold_anything,
)
from tests.chain.searching import sightings

NOTHING = Share()
EVERYTHING = Share(names=True, places=True, incidents=True, photos=True, costs=True, dates="day")
SWITCHES = frozenset(
    ("places", "incidents", "photos", "costs")
)  # a name needs the person's own word
READ = frozenset(("time",))  # as a clock time when records are folded; see P13
Least = tuple[Ledger, Canaries, dict[str, bytes]]
PHOTO = {"Zq0photoexifXw": "EXIF of a photo", "Zq0phototextXw": "text of a photo"}


@pytest.fixture(scope="module")
def ledger(demo: Path) -> Ledger:
    """The demo, which has every kind of entry."""
    found = read_hangar(demo).ledger
    assert found is not None
    kinds = {type(entry) for entry in found.entries}
    kinds |= {type(e.becomes) for e in found.entries if isinstance(e, entries.Correction)}
    assert set(get_args(entries.Plain)) <= kinds
    notice = Notice(
        file="notices/a.yaml",
        line=1,
        notice="sb-7",
        specs=(next(iter(found.specs)),),
        what="Look for a crack.",
        issued=datetime.date(2026, 4, 2),
    )
    return msgspec.structs.replace(found, notices={"sb-7": notice})


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the photos of the build story lie, with secrets in their heads."""
    photos = tmp_path_factory.mktemp("hangar") / "aircraft/burdock/photos"
    photos.mkdir(parents=True)
    exif = Image.Exif()
    exif[0x010E] = "Zq0photoexifXw"  # ImageDescription
    text = PngImagePlugin.PngInfo()
    text.add_text("Comment", "Zq0phototextXw", zip=True)
    plain = Image.new("RGB", (64, 48), "gray")
    plain.save(photos / "tube-joint.jpg", "JPEG", exif=exif)
    plain.save(photos / "tube-joint.png", "PNG", pnginfo=text, exif=exif)
    return photos.parents[2]


@pytest.fixture(scope="module")
def least(ledger: Ledger, folder: Path, tmp_path_factory: pytest.TempPathFactory) -> Least:
    """The public site of the poisoned demo with nothing shared.

    What a repair names as the incident before it stays: the page leads there, without its name.
    So do the times, for they decide the order of the entries of a day, which is shown.
    """
    changed, canaries = poisoned(ledger, NOTHING, frozenset(), READ | {"after"})
    return changed, canaries, site_of(changed, "public", folder, tmp_path_factory.mktemp("site"))


def site_of(ledger: Ledger, audience: Audience, folder: Path, into: Path) -> dict[str, bytes]:
    """All files of the site of a ledger, by address."""
    hangar = fold(ledger, DAY)
    reports = reports_of(hangar)
    photos = photos_of(hangar, folder, audience)
    shown = projected(reports, audience, photos.shown)
    assert [] == [str(problem) for problem in shown.problems]
    render(shown.reports, into, theme_folders(None), photos=photos.files)
    return {
        str(path.relative_to(into)): path.read_bytes() for path in into.rglob("*") if path.is_file()
    }


def poisoned(
    ledger: Ledger, share: Share, shared: frozenset[str], kept: frozenset[str] = frozenset()
) -> tuple[Ledger, Canaries]:
    """The ledger with a canary in each private field, and what is shared."""
    canaries = Canaries(shared, kept)
    found: Ledger = canaries.poisoned(ledger, Ledger)
    keeper = msgspec.structs.replace(found.keeper, share=share)
    story = found.write_ups["burdock"]
    both = {
        **found.write_ups,
        "burdock": WriteUp(file=story.file, text=story.text + '\n@ photo tube-joint.png "Plate"\n'),
    }
    there = {"burdock": ("tube-joint.jpg", "tube-joint.png")}
    return msgspec.structs.replace(found, keeper=keeper, write_ups=both, photos=there), canaries


def test_every_private_text_gets_a_canary(ledger: Ledger) -> None:
    """No text that only the owner may see is forgotten: where none was written, one is put."""
    _, canaries = poisoned(ledger, NOTHING, frozenset())

    assert set() == texts_that_may_hold_anything() - canaries.sat


def test_p01_no_private_field_is_in_a_public_site(least: Least) -> None:
    """In no file, no name of a file, no picture and no archive."""
    _, canaries, public = least

    assert len(canaries.words) > 1000
    assert [] == sightings({**canaries.words, **PHOTO}, public)


def test_p01_nor_where_all_that_can_be_shared_is(
    ledger: Ledger, folder: Path, tmp_path: Path
) -> None:
    """With every switch on there are still notes, serials, prices and people who did not agree."""
    changed, canaries = poisoned(ledger, EVERYTHING, SWITCHES, READ)

    public = site_of(changed, "public", folder, tmp_path / "site")

    assert len(canaries.words) > 1000
    assert [] == sightings({**canaries.words, **PHOTO}, public)


def test_no_private_value_changes_a_public_site(
    ledger: Ledger, folder: Path, tmp_path: Path, least: Least
) -> None:
    """Other serials, prices, notes, names, places, injuries, elevations: the same bytes.

    So no number, length, order or count in it follows from what is private either.
    """
    changed, _, other = least
    same = {"keeper": msgspec.structs.replace(ledger.keeper, share=NOTHING)}
    same |= {"write_ups": changed.write_ups, "photos": changed.photos}
    plain = msgspec.structs.replace(ledger, **same)

    one = site_of(plain, "public", folder, tmp_path / "one")

    assert [] == sorted(
        address for address in {*one, *other} if one.get(address) != other.get(address)
    )


def test_p01_the_owner_sees_them(ledger: Ledger, folder: Path, tmp_path: Path) -> None:
    """The canaries are alive: the same search finds them in the owner's site."""
    changed, canaries = poisoned(ledger, NOTHING, frozenset(), READ)

    owner = site_of(changed, "owner", folder, tmp_path / "site")

    seen = {found.partition(" in ")[0] for found in sightings(canaries.words, owner)}
    assert seen >= {
        "Item.serial",
        "Money.amount",
        "Item.note",
        "Aircraft.registration",
        "Flight.note",
        "Flight.by",
        "Flight.where",
        "Flight.wind",
        "Flight.handling",
        "Incident.words",
        "Incident.cause",
        "Defect.words",
        "Remove.because",
        "Inspection.findings",
        "Note.words",
    }


DRESSES: Mapping[str, Callable[[str], tuple[str, bytes]]] = {
    "raw": lambda word: ("a.html", f"<p>{word}</p>".encode()),
    "case": lambda word: ("a.html", word.upper().encode()),
    "name": lambda word: (f"x/{word}.html", b""),
    "percent name": lambda word: ("".join(f"%{ord(s):02x}" for s in word), b""),
    "references": lambda word: ("a.html", "".join(f"&#{ord(s)};" for s in word).encode()),
    "percent": lambda word: ("a.html", "".join(f"%{ord(s):02x}" for s in word).encode()),
    "escapes": lambda word: ("a.json", "".join(f"\\u{ord(s):04x}" for s in word).encode()),
    "base64": lambda word: ("a.svg", b"data:," + base64.b64encode(f"<svg>{word}</svg>".encode())),
    "archive": lambda word: ("a.zip", _archive(word)),
    "picture": lambda word: ("a.png", _picture(word)),
    "exif": lambda word: ("a.jpg", _exif(word)),
}


def _archive(word: str) -> bytes:
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("in.txt", word * 20)
    return made.getvalue()


def _picture(word: str) -> bytes:
    text = PngImagePlugin.PngInfo()
    text.add_text("Comment", word, zip=True)
    made = io.BytesIO()
    Image.new("RGB", (4, 4)).save(made, "PNG", pnginfo=text)
    return made.getvalue()


def _exif(word: str) -> bytes:
    exif = Image.Exif()
    exif[0x010E] = word
    made = io.BytesIO()
    Image.new("RGB", (4, 4)).save(made, "JPEG", exif=exif)
    return made.getvalue()


@pytest.mark.parametrize("dress", DRESSES.values(), ids=DRESSES)
def test_the_search_finds_a_word_in_every_dress(dress: Callable[[str], tuple[str, bytes]]) -> None:
    """The search can fail: each way in which a word may hide is seen through."""
    address, content = dress("Zq1flightXw")

    found = sightings({"Zq1flightXw": "it"}, {address: content, "other.html": b"nothing"})
    assert found
    assert all(line.startswith("it in ") for line in found)


PUBLIC_TEXTS = [
    (kind, name)
    for kind, name, shown in every_field()
    if shown in ("public", *SWITCHES) and name not in STRUCTURE
    if str in plain_types(get_type_hints(kind)[name])
]
OPAQUE = {"id", "target", "original"}  # shown as e1, e2, ...
NEVER_SHOWN = {"portrait"}  # the name of a file; its picture gets another


@pytest.fixture(scope="module")
def firsts(ledger: Ledger) -> Mapping[type, Any]:
    """The first record of each type that the keeper of the demo wrote himself."""
    found: dict[type, Any] = {}
    for one in samples(ledger):
        if "built-in" not in getattr(one, "file", ""):
            found.setdefault(type(one), one)
    return found


@pytest.mark.parametrize(("kind", "name"), PUBLIC_TEXTS, ids=lambda part: str(part))
def test_every_public_text_is_looked_at(
    kind: type, name: str, ledger: Ledger, firsts: Mapping[type, Any]
) -> None:
    """A price in any text that the public may read is a problem at its record."""
    if kind not in firsts:
        pytest.skip("the demo has none")
    changed = msgspec.structs.replace(firsts[kind], **{name: "worth 20 EUR"})
    keeper = msgspec.structs.replace(ledger.keeper, share=EVERYTHING)
    sharing = sharing_for("public", keeper)
    alone = Ledger(keeper=keeper, specs={}, items={}, aircraft={}, entries=(), programmes={})
    watch = LeakWatch(alone, sharing)
    Projector(sharing, watch.see).show(changed)

    told = {problem.reason for problem in watch.problems}
    if name in OPAQUE | NEVER_SHOWN:
        assert set() == told
    else:
        assert {"looks like a price in a text that would be public"} == told


def samples(value: Any) -> Iterator[Any]:
    """All structures inside another, and itself."""
    if isinstance(value, msgspec.Struct):
        yield value
        for name in value.__struct_fields__:
            yield from samples(getattr(value, name))
    elif isinstance(value, Mapping):
        for part in value.values():
            yield from samples(part)
    elif isinstance(value, tuple):
        for part in value:
            yield from samples(part)
