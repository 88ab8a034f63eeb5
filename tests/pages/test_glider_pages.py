"""A glider without a motor: no page of it asks for a propeller, a throttle or a timer."""

import re
from pathlib import Path

import pytest

from buildbook.commands.main import main

FILES = {
    "hangar.yaml": "format: 1\nhangar: Slope\nas_of: 2026-06-30\n",
    "parts/specs.yaml": """\
- {spec: x, kind: receiver, mass: 9 g}
- {spec: s, kind: servo, mass: 9 g}
- {spec: body, kind: frame, mass: 240 g}
- {spec: wings, kind: wing, mass: 380 g}
- {spec: n, kind: battery, cells: 4S, capacity: 2000 mAh, chemistry: NiMH, mass: 110 g}
""",
    "parts/items.yaml": """\
- {tag: X-1, spec: x, acquired: 2026-01-02}
- {tags: S-1..S-2, spec: s, acquired: 2026-01-02}
- {tag: F-1, spec: body, acquired: 2026-01-02}
- {tag: W-1, spec: wings, acquired: 2026-01-02}
- {tag: P-1, spec: n, acquired: 2026-01-02}
""",
    "aircraft/kite/aircraft.yaml": """\
aircraft: Kite
kind: aeroplane
layout: glider
programme: small-glider
wing: {span: 1900 mm, area: 0.36 m², mean_chord: 190 mm, leading_edge: 300 mm}
surfaces: {elevator: S-1, rudder: S-2}
sockets: [rudder, elevator]
radio: {memory: 5, failsafe: {rudder: slightly left, rest: hold}}
positions: {fuselage: [-200 mm, 0 mm, 0 mm], pack: [-60 mm, 0 mm, 0 mm]}
""",
    "aircraft/kite/logbook.yaml": """\
- on: 2026-02-01
  fit: {fuselage: {receiver: X-1, frame: F-1, servo: [S-1, S-2], wing: W-1}}
- on: 2026-06-01
  check: [hinges, receiver-order, receiver-neutral, stick-sense, surface-sense, surface-throws]
  result: pass
- on: 2026-06-01
  check: [failsafe, range, balance-point]
  result: pass
- {on: 2026-06-01, inspection: full-inspection}
- {on: 2026-06-01, weigh: 758 g, pack: P-1}
- {on: 2026-06-02, flight: 4:10, pack: P-1, purpose: check, result: pass}
- {on: 2026-06-14, flights: [[12:30, P-1], [21:00, P-1]]}
""",
}
PAGES = ("aircraft/kite/index", "aircraft/kite/set-up", "aircraft/kite/layout")


@pytest.fixture
def slope(tmp_path: Path, private_cache: Path) -> Path:
    """The site of a hangar with nothing but the glider."""
    assert private_cache
    for name, text in FILES.items():
        path = tmp_path / "slope" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    assert 0 == main(["check", str(tmp_path / "slope")])
    assert 0 == main(["render", str(tmp_path / "slope"), "--into", str(tmp_path / "site")])
    return tmp_path / "site"


def words_of(page: Path) -> str:
    """What stands between head and foot, without markup and without what is said on every page."""
    main_part = page.read_text("utf-8").partition("<main")[2].partition("</main>")[0]
    return " ".join(re.sub(r"<[^>]+>", " ", main_part).split())


def test_its_pages_speak_of_no_drive(slope: Path) -> None:
    """But for the caution on first flights, which is the same everywhere."""
    drive = re.compile(
        r"[^.]*\b(?:propellers?|props|throttle|esc|timer|spin)\b[^.]*", re.IGNORECASE
    )
    cards = sorted(slope.glob("cards/kite-*.html"))
    pages = [slope / "going-flying.html", *cards, *(slope / f"{page}.html" for page in PAGES)]
    found = {page.name: drive.findall(words_of(page)) for page in pages}

    assert 2 == len(cards)
    assert {page.name: [] for page in pages} == found


def test_nothing_waits_for_a_motor(slope: Path, capsys) -> None:
    """Its figures are those of a wing, and none says that a motor station is missing."""
    capsys.readouterr()
    assert 0 == main(["figures", "kite", str(slope.parent / "slope")])
    said = capsys.readouterr().out

    assert "stall_speed" in said
    assert "motor" not in said.replace("change of motor, propeller or", "")


def test_it_is_calm(slope: Path, capsys) -> None:
    """After its checks and a look over it, nothing is open."""
    capsys.readouterr()
    assert 0 == main(["due", str(slope.parent / "slope")])

    assert "Kite  nothing open" in capsys.readouterr().out


def test_its_wing_is_drawn(slope: Path) -> None:
    """There is a plan of it though no motor has a place."""
    page = (slope / "aircraft/kite/layout.html").read_text("utf-8")

    assert "<svg" in page
    assert "No drawing" not in page
