"""A10: what an alteration re-opens, by the rows of the rules for records, section 3.

All of it common practice, no source, as that table says. The quiet hangar has every check done.
"""

from pathlib import Path

import pytest
from hangar_on_disk import LOGBOOK, QUIET, Hangar, with_log

FRAME = """\
- on: 2026-06-19
  fit: {centre: {frame: F-02}}
  instead_of: {F-01: retired}
"""
MOVED = "- on: 2026-06-19\n  alteration: board turned\n  positions: {centre: [10 mm, 0 mm, 0 mm]}\n"
ESC = "- on: 2026-06-19\n  firmware: {E-01: '1.4'}\n"


def _stale(hangar: Hangar) -> dict[str, set[str | None]]:
    found: dict[str, set[str | None]] = {}
    for row in hangar.json["rows"]:
        if row["state"] == "stale":
            found.setdefault(row["name"], set()).add(row.get("station"))
    return found


@pytest.mark.parametrize(
    "written", ["bind: anew", "re-bind: yes it is", "rebind: twice", "receiver_bound: again"]
)
def test_a_receiver_bound_anew_re_opens_failsafe_order_range_and_ends(
    tmp_path: Path, written: str
) -> None:
    """However the setting is named; range and failsafe ground, and each page says so."""
    hangar = Hangar(tmp_path, with_log(f"- on: 2026-06-19\n  setting: {{{written}}}\n"))

    expected = {"receiver-order", "esc-endpoints", "failsafe", "range", "check-flight"}
    assert expected == set(_stale(hangar))
    assert ("grounded", 3) == (hangar.state(), hangar.due[0])
    assert [] == hangar.silent_pages("failsafe")


@pytest.mark.parametrize("written", ["rebound_damping: 12", "binder: blue", "upper_bound: 9"])
def test_a_setting_that_only_sounds_like_binding_re_opens_nothing(
    tmp_path: Path, written: str
) -> None:
    """Whole words only."""
    hangar = Hangar(tmp_path, with_log(f"- on: 2026-06-19\n  setting: {{{written}}}\n"))

    assert ("nothing open", {}) == (hangar.state(), _stale(hangar))


def test_another_frame_re_opens_what_sits_on_it(tmp_path: Path) -> None:
    """Screws of every motor, level, correction, compass, balance, and a check flight."""
    hangar = Hangar(tmp_path, with_log(FRAME))

    stale = _stale(hangar)
    assert {
        "motor-screws",
        "screws-and-mounts",
        "accelerometer",
        "correction-sense",
        "compass",
        "balance-point",
        "check-flight",
    } == set(stale)
    assert {"front-left", "front-right", "rear-left", "rear-right"} == stale["motor-screws"]
    assert "grounded" == hangar.state()
    assert [] == hangar.silent_pages("motor screws")


def test_a_controller_mounted_anew_re_opens_level_and_correction(tmp_path: Path) -> None:
    """By its new place; the spins, which it does not touch, stay fresh."""
    hangar = Hangar(tmp_path, with_log(MOVED))

    assert {"accelerometer", "correction-sense", "compass", "balance-point"} == set(_stale(hangar))
    assert "grounded" == hangar.state()
    assert [] == hangar.silent_pages("accelerometer")


def test_firmware_of_an_esc_re_opens_its_own_station(tmp_path: Path) -> None:
    """The spin of front-left, its ends and start, and whether it arms and stops at all."""
    hangar = Hangar(tmp_path, with_log(ESC))

    stale = _stale(hangar)
    of_station = {"spin-directions", "esc-endpoints", "start-spread"}
    assert of_station | {"arming", "throttle-cut", "check-flight"} == set(stale)
    assert [{"front-left"}] * 3 == [stale[name] for name in sorted(of_station)]
    assert "grounded" == hangar.state()
    assert [] == hangar.silent_pages("spin directions")


@pytest.mark.parametrize(
    ("pack", "expected"),
    [
        ("3S, mass: 242 g", set()),
        ("3S, mass: 243 g", {"balance-point", "check-flight"}),
        ("3S, mass: 197 g", {"balance-point", "check-flight"}),
        ("4S, mass: 220 g", {"low-voltage-alarm", "balance-point", "check-flight"}),
    ],
)
def test_a_pack_not_flown_before_re_opens_balance(
    tmp_path: Path, pack: str, expected: set[str]
) -> None:
    """After 220 g: a tenth more is the line, and another cell count at any mass."""
    spec = f"- {{spec: new, kind: battery, cells: {pack}, capacity: 2200 mAh, chemistry: LiPo}}\n"
    flown = "- on: 2026-06-19\n  flight: 6:00\n  pack: P-09\n"
    files = {
        "parts/specs.yaml": QUIET["parts/specs.yaml"] + spec,
        "parts/items.yaml": QUIET["parts/items.yaml"] + "- {tag: P-09, spec: new}\n",
    }
    hangar = Hangar(tmp_path, with_log(flown, **files))

    assert expected == set(_stale(hangar))


def test_the_same_before_the_checks_re_opens_nothing(tmp_path: Path) -> None:
    """Work that was checked since: nothing is open."""
    first = LOGBOOK.index("- on: 2026-05-02")
    before = (ESC + "- on: 2026-06-19\n  setting: {bind: anew}\n").replace("06-19", "05-01")
    log = LOGBOOK[:first] + before + LOGBOOK[first:]
    hangar = Hangar(tmp_path, {**QUIET, "aircraft/sedge/logbook.yaml": log})

    assert ("nothing open", {}) == (hangar.state(), _stale(hangar))
