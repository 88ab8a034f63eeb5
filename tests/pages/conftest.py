"""A small hangar with known facts, seen by its owner and by the public."""

import datetime
from collections.abc import Callable
from pathlib import Path

import pytest

from buildbook.audience.projection import projected
from buildbook.pages.theme import Press, theme_folders
from buildbook.report.drawn.pictures import Pictures
from buildbook.report.reports import Audience, Reports
from buildbook.reporting.opening import open_reports

FILES = {
    "hangar.yaml": """\
format: 1
hangar: Sedge bank
keeper: Ida Quill
as_of: 2026-06-30
programme: few
share: {incidents: false}
""",
    "programmes/few.yaml": """\
programme: few
note: Just enough.
checks:
  - check: spin-directions
    what: Compare each direction with the layout.
    per: motor station
    stale_after: [fit motor]
tasks:
  - task: screws
    what: Try every screw.
    every: {flights: 10}
    tolerance: {flights: 2}
    counted_from: done
  - task: look-round
    what: Look all round.
    when: before each flight
life_limits:
  - limit: motor-retire
    for: motor
    what: Bin it.
    at: {hours: 100}
""",
    "parts/specs.yaml": """\
- {spec: m-1, kind: motor, name: 2213 motor, mass: 55 g}
- {spec: e-1, kind: esc, name: ESC 20 A}
- {spec: p-cw, kind: propeller, name: 10x5 cw, size: 10x5, hand: cw}
- {spec: p-ccw, kind: propeller, name: 10x5 ccw, size: 10x5, hand: ccw}
- {spec: b-3s, kind: battery, name: 3S 2200, cells: 3S, capacity: 2200 mAh}
""",
    "parts/items.yaml": """\
- {tags: M-1..M-5, spec: m-1, acquired: 2026-01-01}
- {tags: E-1..E-4, spec: e-1, acquired: 2026-01-01}
- {tags: R-1..R-3, spec: p-cw, acquired: 2026-01-01}
- {tags: L-1..L-4, spec: p-ccw, acquired: 2026-01-01}
- {tag: P-1, spec: b-3s, acquired: 2026-01-01}
- {tag: P-2, spec: b-3s, acquired: 2026-01-01}
""",
    "aircraft/sedge/aircraft.yaml": """\
aircraft: Sedge
kind: multirotor
layout: quad-x
registration: XX-PRIVATE-1
programme: few
diagonal: 400 mm
stations:
  front-left: {spin: ccw, output: 3}
  front-right: {spin: cw, output: 1}
  rear-left: {spin: cw, output: 4}
  rear-right: {spin: ccw, output: 2}
receiver: {order: [throttle, rudder, elevator, aileron]}
radio: {memory: 4, mode: 2, reversed: [rudder], throttle_cut: left switch,
        failsafe: {throttle: cut},
        switches: {mode: {up: by hand, middle: rate held, down: angle held}}}
wiring:
  - {from: pack, to: distribution, wire: 14 AWG, length: 140 mm}
  - {from: distribution, to: each esc, wire: 16 AWG, length: 180 mm}
  - {from: each esc, to: each motor, wire: 18 AWG, length: 60 mm}
""",
    "aircraft/sedge/logbook.yaml": """\
- on: 2026-02-01
  fit:
    front-left: {motor: M-1, esc: E-1, propeller: L-1}
    front-right: {motor: M-2, esc: E-2, propeller: R-1}
    rear-right: {motor: M-3, esc: E-3, propeller: L-2}
    rear-left: {motor: M-4, esc: E-4, propeller: R-2}
- on: 2026-02-02
  check: spin-directions
  result: pass
  stations: [front-left, front-right, rear-right]
- on: 2026-02-03
  inspection: screws
- on: 2026-02-03
  setting: {start_throttle: 12 %}
- on: 2026-02-03
  gains: soft
  values: {roll: {p: 38, i: 21.5}, yaw: {p: 60}}
- on: 2026-06-06
  flights: [[6:00, P-1], [6:30, P-2]]
- on: 2026-06-20
  flights: [[7:00, P-1], [7:00, P-1], [7:00, P-2], [7:10, P-1], [7:00, P-1], [7:00, P-1],
            [6:50, P-2], [7:00, P-1], [7:20, P-1]]
- on: 2026-06-21
  alteration: "Leads <of> the ESCs swapped"
  stations:
    rear-right: {spin: ccw, output: 2}
- on: 2026-06-22
  note: Ida's secret words
""",
    "aircraft/rush/aircraft.yaml": """\
aircraft: Rush
kind: multirotor
layout: tri-y
status: building
programme: few
radio: {memory: 4, mode: 1}
""",
    "stores/packs.yaml": """\
- on: 2026-06-25
  charge: P-2
  to: full
- on: 2026-06-26
  state: {P-1: quarantined}
  because: swollen corner
""",
}

Open = Callable[..., Reports]


def write_hangar(folder: Path, changed: dict[str, str]) -> Path:
    """The small hangar as files, some of them replaced."""
    for name, text in {**FILES, **changed}.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    return folder


TODAY = datetime.date(2026, 6, 30)


def reports_for(
    folder: Path,
    audience: Audience,
    day: datetime.date | None = None,
    pictures: Pictures | None = None,
) -> Reports:
    """The reports of a hangar folder as one audience sees them; reading it finds no problem."""
    opened = open_reports(folder, day, TODAY)
    assert opened.reports is not None
    return projected(opened.reports, audience, pictures).reports


@pytest.fixture(scope="session")
def small_files() -> dict[str, str]:
    """The files of the small hangar."""
    return dict(FILES)


@pytest.fixture(scope="session")
def owner(tmp_path_factory: pytest.TempPathFactory) -> Reports:
    """The small hangar, for its owner."""
    return reports_for(write_hangar(tmp_path_factory.mktemp("owner"), {}), "owner")


@pytest.fixture(scope="session")
def public(tmp_path_factory: pytest.TempPathFactory) -> Reports:
    """The small hangar, for the public: months for days, no private words."""
    return reports_for(write_hangar(tmp_path_factory.mktemp("public"), {}), "public")


@pytest.fixture(scope="session")
def demo_reports(demo: Path) -> Reports:
    """The demo hangar, for its owner."""
    return reports_for(demo, "owner")


@pytest.fixture(scope="session")
def demo_public(demo: Path) -> Reports:
    """The demo hangar, for the public."""
    return reports_for(demo, "public")


@pytest.fixture
def files() -> dict[str, str]:
    """The files of the small hangar."""
    return dict(FILES)


@pytest.fixture
def open_changed(tmp_path: Path) -> Open:
    """Open the small hangar with some files replaced."""

    def opened(
        changed: dict[str, str],
        audience: Audience = "owner",
        day: datetime.date | None = None,
    ) -> Reports:
        return reports_for(write_hangar(tmp_path, changed), audience, day)

    return opened


@pytest.fixture(scope="session")
def owner_press(owner: Reports) -> Press:
    """The templates of the theme, for the owner's reports."""
    return Press(owner, theme_folders(None))


@pytest.fixture(scope="session")
def public_press(public: Reports) -> Press:
    """The templates of the theme, for the public reports."""
    return Press(public, theme_folders(None))
