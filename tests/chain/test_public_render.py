"""The public render of a hangar with a canary in every private field holds none of them.

After section 6 of the record rules of this project (P01, P08, P10, P11, P13).
"""

import base64
import html
import re
import urllib.parse
from pathlib import Path

import pytest
from PIL import Image

from buildbook.commands.main import main
from buildbook.figures.laws.airframe.mass_classes import TABLE_WRITTEN

pytestmark = pytest.mark.usefixtures("private_cache")

PRIVATE = (
    "keeper",
    "person",
    "registration",
    "serial",
    "item-note",
    "spec-note",
    "mark-place",
    "entry-note",
    "note-words",
    "by",
    "checked-by",
    "where",
    "wind",
    "handling",
    "incident",
    "cause",
    "injured",
    "findings",
    "because",
    "state-because",
    "setting-because",
    "gains-because",
    "correction-because",
    "void-because",
    "how",
    "transport",
    "water",
    "photo",
    "defect-words",
)
CANARY = {name: f"Zq{number:02d}{name.replace('-', '')}Xw" for number, name in enumerate(PRIVATE)}
CLOCK = "18:05"
PRICE = "89.90"


def hangar_files() -> dict[str, str]:
    """A small hangar in which every private field holds its canary."""
    c = CANARY
    return {
        "hangar.yaml": (
            f"format: 1\nhangar: Meadow loft\nkeeper: {c['keeper']}\nas_of: 2026-11-20\n"
            f"people:\n  {c['by']}: {{name: {c['person']}}}\n"
            f"  {c['checked-by']}: {{name: {c['person']} the second}}\n"
        ),
        "parts/specs.yaml": (
            f"- {{spec: m, kind: motor, mass: 89.9 g, kv: 900 rpm/V, note: {c['spec-note']}}}\n"
            "- {spec: p, kind: battery, cells: 3S, capacity: 2200 mAh, chemistry: LiPo}\n"
        ),
        "parts/items.yaml": (
            f"- {{tag: M-1, spec: m, acquired: 2026-01-02, serial: {c['serial']}, "
            f"price: {PRICE} EUR, note: {c['item-note']}}}\n"
            "- {tag: M-2, spec: m, acquired: 2026-01-02}\n"
            "- {tag: P-1, spec: p, acquired: 2026-01-02}\n"
        ),
        "aircraft/heron/aircraft.yaml": (
            "aircraft: Heron\nkind: multirotor\nlayout: quad-x\ndiagonal: 400 mm\n"
            f"programme: built-in small-multirotor\nregistration: {c['registration']}\n"
        ),
        "aircraft/heron/logbook.yaml": _log(c),
    }


def _log(c: dict[str, str]) -> str:
    return f"""\
- on: 2026-03-03
  fit: {{front-left: {{motor: M-1}}}}
  by: {c["by"]}
  note: {c["entry-note"]}
- on: 2026-03-03
  check: spin-directions
  result: pass
  stations: [front-left]
  checked_by: {c["checked-by"]}
- on: 2026-03-10T{CLOCK}
  flight: 7:20
  pack: P-1
  used: 900 mAh
  place: {c["where"]}
  wind: {c["wind"]}
  handling: {c["handling"]}
  photos: [{c["photo"]}.jpg]
- on: 2026-03-17T{CLOCK}
  id: tumble
  incident: {c["incident"]}
  severity: hard
  cause: {c["cause"]}
  note: {c["injured"]}
- {{on: 2026-03-18, inspection: full-inspection, result: pass, findings: {c["findings"]}}}
- {{on: 2026-03-19, remove: [M-1], because: {c["because"]}}}
- {{on: 2026-03-19, fit: {{front-right: {{motor: M-2}}}}}}
- {{on: 2026-03-20, state: {{M-1: quarantined}}, because: {c["state-because"]}}}
- {{on: 2026-03-21, setting: {{idle: 6 %}}, because: {c["setting-because"]}}}
- {{on: 2026-03-22, gains: first, values: {{roll: {{p: 4}}}}, because: {c["gains-because"]}}}
- {{on: 2026-03-23, id: wrong, flight: 5:00, pack: P-1, used: 700 mAh}}
- {{on: 2026-03-24, corrects: wrong, set: {{used: 710 mAh}}, because: {c["correction-because"]}}}
- {{on: 2026-03-25, id: twice, flight: 5:00, pack: P-1, used: 700 mAh}}
- {{on: 2026-03-26, voids: twice, because: {c["void-because"]}}}
- {{on: 2026-03-27, id: crack, defect: {c["defect-words"]}, severity: note}}
- {{on: 2026-03-28, cleared: crack, how: {c["how"]}}}
- {{on: 2026-03-29, transport: {c["transport"]}}}
- {{on: 2026-03-30, water: {c["water"]}}}
- {{on: 2026-03-31, note: {c["note-words"]}}}
"""


def write(folder: Path, files: dict[str, str]) -> Path:
    """Write a hangar."""
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    return folder


def disguises(word: str) -> set[bytes]:
    """A word as it may stand in a file: plain, escaped, percent-encoded, in base64."""
    plain = word.encode()
    shifted = {base64.b64encode(b" " * lead + plain)[4 * (lead > 0) : -4] for lead in range(3)}
    return {
        plain,
        html.escape(word).encode(),
        urllib.parse.quote(word).encode(),
        plain.lower(),
        *shifted,
    }


def files_of(site: Path) -> dict[str, bytes]:
    """All files of a site, by address; a space that holds a number to its unit is a space."""
    return {
        str(path.relative_to(site)): path.read_bytes().replace("\u00a0".encode(), b" ")
        for path in sorted(site.rglob("*"))
        if path.is_file()
    }


@pytest.fixture
def public(tmp_path: Path) -> dict[str, bytes]:
    """The public site of the canary hangar."""
    folder = write(tmp_path / "hangar", hangar_files())
    site = tmp_path / "site"
    assert main(["render", str(folder), "--into", str(site), "--for", "public"]) == 0
    return files_of(site)


def test_p01_no_canary_stands_anywhere(public: dict[str, bytes]) -> None:
    """No private value is in a file or a file name, in no disguise."""
    found = [
        f"{name} in {address}"
        for name, word in CANARY.items()
        for disguise in disguises(word)
        for address, content in public.items()
        if disguise in content or disguise in address.encode()
    ]

    assert found == []


def test_p01_the_owner_does_see_them(tmp_path: Path) -> None:
    """The canaries are alive: the owner's copy shows at least the notes, names and places."""
    folder = write(tmp_path / "hangar", hangar_files())
    site = tmp_path / "site"
    assert main(["render", str(folder), "--into", str(site)]) == 0
    everything = b"".join(files_of(site).values())

    for name in ("entry-note", "where", "incident", "serial", "defect-words", "findings"):
        assert CANARY[name].encode() in everything, name


def test_p10_no_price_but_the_mass(public: dict[str, bytes]) -> None:
    """The price is absent and the mass of nearly the same digits is there."""
    everything = b"".join(public.values())

    assert PRICE.encode() not in everything
    assert b"89.9 g" in everything


def test_p13_no_day_and_no_clock(public: dict[str, bytes]) -> None:
    """With days not shared there is no exact day, weekday or clock time on any page.

    A feed must give a full moment (RFC 4287): it gives the first of the month at midnight. The
    day on which the tables of mass and energy classes were written is not a day of the keeper's.
    """
    weekday = "Monday|Tuesday|Wednesday|Thursday|Friday|Saturday|Sunday"
    months = "January|February|March|April|May|June|July|August|September|October|November|December"
    exact = re.compile(rf"2026-\d\d-\d\d|\b\d{{1,2}} (?:{months}) 20|\b(?:{weekday})\b|{CLOCK}")
    rounded = {"feed.xml": ("2026-03-01", "2026-11-01")}
    found = [
        f"{address}: {match.group()}"
        for address, content in public.items()
        for match in exact.finditer(content.decode("utf-8", "ignore"))
        if match.group() not in (TABLE_WRITTEN, *rounded.get(address.rpartition("/")[2], ()))
    ]

    assert found == []


def test_chores_and_stock_are_not_for_others(public: dict[str, bytes]) -> None:
    """No work list, calendar, stock, cards, radio, programmes, lives of parts: builds alone."""
    assert [
        ".buildbook-site",
        "404.html",
        "aircraft/heron.json",
        "aircraft/heron/build.json",
        "aircraft/heron/feed.xml",
        "aircraft/heron/figures.html",
        "aircraft/heron/gains.html",
        "aircraft/heron/index.html",
        "aircraft/heron/layout.html",
        "aircraft/heron/logbook.html",
        "aircraft/heron/timeline.html",
        "book.js",
        "feed.xml",
        "figure-sources.html",
        "index.html",
        "inner.css",
        "stories.css",
        "style.css",
    ] == sorted(public)


def test_an_aircraft_that_is_not_shared_is_nowhere(tmp_path: Path) -> None:
    """Neither one that is held back nor one that is being built, in no file and no name of one;
    its betraying texts stop nothing, and a part that came from it says nothing of it."""
    files = hangar_files()
    files["parts/items.yaml"] += "- {tag: M-3, spec: m, acquired: 2026-01-02}\n"
    for slug, more in (("ospreyq", "share: false\n"), ("wrenq", "status: building\n")):
        name = slug.capitalize()
        files[f"aircraft/{slug}/aircraft.yaml"] = (
            f"aircraft: {name}\nkind: multirotor\nlayout: quad-x\ndiagonal: 200 mm\n{more}"
        )
    files["aircraft/ospreyq/logbook.yaml"] = (
        "- {on: 2026-01-05, fit: {front-left: {motor: M-3}}}\n"
        "- {on: 2026-01-06, flight: '9:41', note: 'call 0151 496 0123'}\n"
        "- {on: 2026-01-07, repair: 'At 12.3456, -45.6789'}\n"
        "- {on: 2026-01-08, remove: [M-3]}\n"
    )
    files["aircraft/ospreyq/write-up.md"] = "# Story of 12.3456, -45.6789\n"
    files["aircraft/heron/logbook.yaml"] += "- {on: 2026-04-02, fit: {rear-left: {motor: M-3}}}\n"
    folder = write(tmp_path / "hangar", files)
    site = tmp_path / "site"

    assert main(["render", str(folder), "--into", str(site), "--for", "public"]) == 0

    everything = files_of(site)
    assert "aircraft/heron/index.html" in everything
    for word in ("ospreyq", "wrenq"):
        assert [] == [
            address
            for address, content in everything.items()
            if word.encode() in content.lower() or word in address
        ]
    assert b"9 min 41 s" not in b"".join(everything.values())


def test_an_aircraft_being_built_is_shown_where_its_keeper_says_so(tmp_path: Path) -> None:
    """With ``share: true`` it stands among the builds, and says that it is not finished."""
    files = hangar_files()
    files["aircraft/wrenq/aircraft.yaml"] = (
        "aircraft: Wrenq\nkind: multirotor\nlayout: quad-x\nstatus: building\nshare: true\n"
    )
    folder = write(tmp_path / "hangar", files)
    site = tmp_path / "site"

    assert main(["render", str(folder), "--into", str(site), "--for", "public"]) == 0

    assert "Quad, X, being built" in (site / "index.html").read_text("utf-8")


def test_p06_a_portrait_loses_the_name_of_its_file(tmp_path: Path) -> None:
    """The picture stands under a name of its pixels; with photos not shared it stands nowhere."""
    files = hangar_files()
    files["aircraft/heron/aircraft.yaml"] += (
        "story: {promise: It flies., portrait: home-12-mill-lane.jpg, cost: 240 EUR}\n"
    )
    for share, shown in (("{photos: true, costs: true}", True), ("{}", False)):
        files["hangar.yaml"] = hangar_files()["hangar.yaml"] + f"share: {share}\n"
        folder = write(tmp_path / f"hangar-{shown}", files)
        (folder / "aircraft/heron/photos").mkdir()
        Image.new("RGB", (900, 600), "teal").save(
            folder / "aircraft/heron/photos/home-12-mill-lane.jpg"
        )
        site = tmp_path / f"site-{shown}"
        assert main(["render", str(folder), "--into", str(site), "--for", "public"]) == 0
        everything = files_of(site)
        assert shown == any(address.startswith("pictures/") for address in everything)
        assert shown == (b"about 240 EUR" in everything["index.html"])
        assert b"mill-lane" not in b"".join(everything.values())
        assert not any("mill-lane" in address for address in everything)


def test_p08_a_second_render_leaves_nothing_behind(tmp_path: Path) -> None:
    """What was shared in the first render and isn't in the second is gone, files and all."""
    files = hangar_files()
    open_files = dict(files)
    open_files["hangar.yaml"] += "share: {incidents: true, dates: day}\n"
    site = tmp_path / "site"
    first = write(tmp_path / "one", open_files)
    assert main(["render", str(first), "--into", str(site), "--for", "public"]) == 0
    before = files_of(site)
    assert CANARY["incident"].encode() in b"".join(before.values())
    second = write(tmp_path / "two", files)

    assert main(["render", str(second), "--into", str(site), "--for", "public"]) == 0
    after = files_of(site)
    assert set(before) >= set(after)
    assert CANARY["incident"].encode() not in b"".join(after.values())


def test_p02_a_serial_in_a_public_text_stops_the_render(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The message names the place and what it is, never the value."""
    files = hangar_files()
    files["aircraft/heron/logbook.yaml"] += (
        f"- {{on: 2026-04-01, repair: Took the shaft of {CANARY['serial']}}}\n"
    )
    folder = write(tmp_path / "hangar", files)
    site = tmp_path / "site"

    assert main(["render", str(folder), "--into", str(site), "--for", "public"]) == 1
    told = capsys.readouterr().err
    assert "the serial number of an item stands in a text that would be public @ " in told
    assert "aircraft/heron/logbook.yaml:" in told
    assert CANARY["serial"] not in told
    assert not site.exists()


@pytest.mark.parametrize(
    ("words", "reason"),
    [
        ("Flown at 12.3456, -45.6789", "looks like coordinates in a text that would be public"),
        ("Name ZZZ1a2b3c4d5e6f7", "looks like an operator number in a text that would be public"),
    ],
)
def test_p04_p09_numbers_that_give_away(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], words: str, reason: str
) -> None:
    """Coordinates and operator numbers in a public text stop a public render, not an owner's."""
    files = hangar_files()
    files["aircraft/heron/logbook.yaml"] += f'- {{on: 2026-04-01, repair: "{words}"}}\n'
    folder = write(tmp_path / "hangar", files)
    site = tmp_path / "site"

    assert main(["render", str(folder), "--into", str(site), "--for", "public"]) == 1
    assert reason in capsys.readouterr().err
    assert main(["render", str(folder), "--into", str(site)]) == 0


def test_front_matter_is_in_no_site(tmp_path: Path) -> None:
    """Keys above a build story are told to nobody, and what they say is no problem."""
    files = hangar_files()
    files["aircraft/heron/write-up.md"] = (
        f"---\nserial: {CANARY['serial']}\nplace: 52.51631, 13.37770\n---\n# Heron\n\nBuilt.\n"
    )
    folder = write(tmp_path / "hangar", files)
    for audience in ("public", "owner"):
        site = tmp_path / audience
        assert main(["render", str(folder), "--into", str(site), "--for", audience]) == 0
        story = (site / "aircraft/heron/write-up.html").read_text("utf-8")
        assert "Built." in story
        assert CANARY["serial"] not in story
        assert "52.516" not in story


def test_names_need_the_consent_of_each_person(tmp_path: Path) -> None:
    """The switch of the keeper shares nobody: not without people:, not without public: true."""
    for people in ("", "people: {ann: {name: Ann Oakley}, bob: {name: Bob Reed}}\n"):
        files = {
            "hangar.yaml": f"hangar: Loft\nas_of: 2026-11-20\nshare: {{names: true}}\n{people}",
            "aircraft/heron/aircraft.yaml": (
                "aircraft: Heron\nkind: multirotor\nlayout: quad-x\n"
                "programme: built-in small-multirotor\n"
            ),
            "aircraft/heron/logbook.yaml": "- {on: 2026-03-03, repair: skid, by: ann}\n",
        }
        folder = write(tmp_path / f"hangar{len(people)}", files)
        site = tmp_path / f"site{len(people)}"
        assert main(["render", str(folder), "--into", str(site), "--for", "public"]) == 0
        for content in files_of(site).values():
            assert not re.search(rb"\b(?:ann|Ann|Oakley)\b", content)
