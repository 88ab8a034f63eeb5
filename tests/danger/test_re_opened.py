"""A10: what an alteration re-opens, by the rows of the rules for records, section 3.

All of it common practice, no source, as that table says. The quiet hangar has every check done.
"""

from collections.abc import Mapping
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
    """By its new place, and a check flight; the spins, which it does not touch, stay fresh."""
    hangar = Hangar(tmp_path, with_log(MOVED))

    assert {*MOUNTED, "balance-point"} == set(_stale(hangar))
    assert "grounded" == hangar.state()
    assert [] == hangar.silent_pages("accelerometer")


MOUNTED = {"sensors-answer", "accelerometer", "correction-sense", "compass", "check-flight"}


@pytest.mark.parametrize(
    ("entry", "more"),
    [
        (
            "positions: {controller: [5 mm, 0 mm, 0 mm]}\n  alteration: further ahead",
            {"balance-point"},
        ),
        ("setting: {board_yaw: 90}", set()),
        ("setting: {align board: '0 0 90'}", set()),
    ],
)
def test_a_controller_turned_as_people_write_it(tmp_path: Path, entry: str, more: set[str]) -> None:
    """A10: by what it is, where its station was meant, or by what it was told of how it sits."""
    hangar = Hangar(tmp_path, with_log(f"- {entry}\n  on: 2026-06-20\n"))

    assert MOUNTED | more == set(_stale(hangar))
    assert "grounded" == hangar.state()


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("Turned the controller 90°, new tape", "Turned the controller 90°"),
        ("soft mounts; flight controller re-mounted", "flight controller re-mounted"),
        ("moved the controller ahead", "moved the controller ahead"),
        ("turned the controller on by the bench", None),
        ("controller not moved", None),
        ("speed controller moved to the arm", None),
        ("new lead to the controller", None),
    ],
)
@pytest.mark.parametrize("kind", ["alteration", "repair", "note"])
def test_words_alone_of_a_controller_mounted_anew_are_asked_about(
    tmp_path: Path, kind: str, words: str, told: str | None
) -> None:
    """They re-open nothing, which ``check`` says; nothing where its keeper is sure."""
    entry = f'- on: 2026-06-20\n  {kind}: "{words}"\n'
    doubt = (
        f"warning: '{told}' may mean that the controller was mounted anew, which re-opens nothing"
        " here @ aircraft/sedge/logbook.yaml:24\n"
        "    write an alteration with positions of its station, or a setting with\n"
        "    board_orientation; sure: true, if it stayed as it was\n"
    )

    found = Hangar(tmp_path / "a", with_log(entry)).check
    assert (told is not None) == found.startswith(doubt)
    assert (told is not None) == ("mounted anew" in found)
    for name, then in (("b", "  sure: true\n"), ("c", "- on: 2026-06-20\n" + MOVED_ON)):
        assert "mounted anew" not in Hangar(tmp_path / name, with_log(entry + then)).check


MOVED_ON = "  alteration: as it sits\n  positions: {centre: [5 mm, 0 mm, 0 mm]}\n"


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


MOTORS = ("front-left", "front-right", "rear-left", "rear-right")
WORK: Mapping[str, tuple[str, Mapping[str, tuple[str, ...]]]] = {
    "another motor": (
        "fit: {front-left: {motor: M-05}}\n  instead_of: {M-01: serviceable}",
        {
            "motor-screws": MOTORS[:1],
            "spin-directions": MOTORS[:1],
            "start-spread": MOTORS[:1],
            "propeller-fit": MOTORS[:1],
            "propeller-balance": MOTORS[:1],
            "screws-and-mounts": (),
            "check-flight": (),
        },
    ),
    "two motor wires swapped": (
        "note: leads\n  rewired: [front-left]",
        {"spin-directions": MOTORS[:1], "propeller-fit": MOTORS[:1], "check-flight": ()},
    ),
    "another ESC": (
        "fit: {front-left: {esc: E-05}}\n  instead_of: {E-01: serviceable}",
        {
            "spin-directions": MOTORS[:1],
            "esc-endpoints": MOTORS[:1],
            "start-spread": MOTORS[:1],
            "compass": (),
            "solder-and-leads": (),
            "check-flight": (),
        },
    ),
    "another receiver": (
        "fit: {centre: {receiver: X-02}}\n  instead_of: {X-01: serviceable}",
        {
            "receiver-order": (),
            "receiver-neutral": (),
            "stick-sense": (),
            "mode-switches": (),
            "arming": (),
            "throttle-cut": (),
            "failsafe": (),
            "range": (),
            "esc-endpoints": MOTORS,
            "check-flight": (),
        },
    ),
    "another controller": (
        "fit: {centre: {controller: C-02}}\n  instead_of: {C-01: serviceable}",
        {
            "accelerometer": (),
            "compass": (),
            "correction-sense": (),
            "sensors-answer": (),
            "receiver-order": (),
            "receiver-neutral": (),
            "stick-sense": (),
            "mode-switches": (),
            "arming": (),
            "throttle-cut": (),
            "low-voltage-alarm": (),
            "spin-directions": MOTORS,
            "failsafe": (),
            "check-flight": (),
        },
    ),
    "firmware of the controller": (
        "firmware: {C-01: '2.1'}",
        {
            "accelerometer": (),
            "compass": (),
            "correction-sense": (),
            "sensors-answer": (),
            "receiver-order": (),
            "mode-switches": (),
            "arming": (),
            "throttle-cut": (),
            "low-voltage-alarm": (),
            "spin-directions": MOTORS,
            "failsafe": (),
            "check-flight": (),
        },
    ),
    "another gain set": ("gains: calm\n  values: {roll: {p: 20}}", {"check-flight": ()}),
    "power leads": (
        "alteration: longer\n  wiring: [{from: pack, to: distribution, wire: 14 AWG}]",
        {"compass": (), "range": (), "check-flight": ()},
    ),
    "a long trip": ("transport: by train", {"compass": ()}),
    "a structural repair": (
        "repair: arm glued\n  touched: [front-left]",
        {"balance-point": (), "screws-and-mounts": (), "range": (), "check-flight": ()},
    ),
    "a hard landing": (
        "flight: 3:00\n  pack: P-01\n  landing: hard",
        {
            "sensors-answer": (),
            "failsafe": (),
            "range": (),
            "propeller-fit": MOTORS,
            "propeller-balance": MOTORS,
            "propeller-touch": MOTORS,
            "motor-bearings": MOTORS,
            "screws-and-mounts": (),
            "solder-and-leads": (),
            "check-flight": (),
        },
    ),
    "a hard knock at one arm": (
        "incident: clipped a branch\n  severity: hard\n  touched: [front-left]",
        {
            "sensors-answer": (),
            "failsafe": (),
            "range": (),
            "spin-directions": MOTORS[:1],
            "propeller-fit": MOTORS[:1],
            "propeller-balance": MOTORS[:1],
            "full-inspection": (),
            "check-flight": (),
        },
    ),
    "water": (
        "water: came down in the ditch",
        {"failsafe": (), "range": (), "motor-bearings": MOTORS, "solder-and-leads": ()},
    ),
    "12 g more of 1096 g": ("alteration: camera\n  mass: 12 g", {}),
    "23 g more of 1096 g": ("alteration: camera\n  mass: 23 g", {"weighing": ()}),
}
"""By what was done to the quiet multirotor, all that is stale then, with its stations."""


@pytest.mark.parametrize("work", WORK)
def test_work_re_opens_what_depends_on_it_and_nothing_else(tmp_path: Path, work: str) -> None:
    """Each row of section 3 that a multirotor can have; of a station touched, that one."""
    entry, expected = WORK[work]
    hangar = Hangar(tmp_path, with_log(f"- on: 2026-06-19\n  {entry}\n"))

    stale = {
        name: tuple(sorted(station for station in stations if station))
        for name, stations in _stale(hangar).items()
        if not name.startswith("pack-")
    }
    assert {name: tuple(sorted(stations)) for name, stations in expected.items()} == stale


def test_ninety_days_in_the_cupboard_re_open_the_failsafe(tmp_path: Path) -> None:
    """Last flown on 18 June: not on 16 September, the 90th day, but on the day after."""

    def stale(as_of: str) -> set[str]:
        keeper = QUIET["hangar.yaml"].replace("2026-06-20", as_of)
        return set(_stale(Hangar(tmp_path / as_of, {**QUIET, "hangar.yaml": keeper})))

    assert ("failsafe" in stale("2026-09-16"), "failsafe" in stale("2026-09-17")) == (False, True)


@pytest.mark.parametrize(
    ("between", "expected"),
    [
        ("", set()),
        ("- on: 2026-06-19\n  alteration: camera\n  mass: 12 g\n", {"balance-point"}),
        (
            "- on: 2026-06-19\n  alteration: moved\n  positions: {pack: [9 mm, 0 mm, 0 mm]}\n",
            {"balance-point"},
        ),
    ],
)
def test_a_pack_flown_only_before_mass_or_balance_changed_is_another(
    tmp_path: Path, between: str, expected: set[str]
) -> None:
    """A heavy pack, the usual one, then something moved, all looked at, and the heavy one again."""
    spec = "- {spec: heavy, kind: battery, cells: 3S, mass: 300 g, capacity: 3000 mAh}\n"
    heavy = "- on: {day}\n  flight: 6:00\n  pack: P-09\n"
    usual = "- on: 2026-06-18\n  flight: 6:00\n  pack: P-01\n"
    looked = "- on: 2026-06-19\n  check: [balance-point, compass, check-flight]\n  result: pass\n"
    log = heavy.format(day="2026-06-18") + usual + between + looked
    files = {
        "parts/specs.yaml": QUIET["parts/specs.yaml"] + spec,
        "parts/items.yaml": QUIET["parts/items.yaml"] + "- {tag: P-09, spec: heavy}\n",
    }
    hangar = Hangar(tmp_path, with_log(log + heavy.format(day="2026-06-20"), **files))

    assert expected == set(_stale(hangar)) & {"balance-point"}


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("Re-bound the receiver after the update", "Re-bound the receiver after the update"),
        ("new aerial, receiver bound again", "receiver bound again"),
        ("rudder horn was binding, filed free", None),
        ("rebound off the grass, nothing broken", None),
        ("receiver not bound anew", None),
    ],
)
def test_words_alone_of_a_receiver_bound_anew_are_asked_about(
    tmp_path: Path, words: str, told: str | None
) -> None:
    """A10: where its failsafe went nobody knows; a setting that says so re-opens it."""
    entry = f"- on: 2026-06-20\n  note: '{words}'\n"
    doubt = (
        f"warning: '{told}' may mean that the receiver was bound anew, which re-opens nothing here"
        " @ aircraft/sedge/logbook.yaml:24\n"
        "    write setting: {bind: anew}; sure: true, if it stayed as it was\n"
    )

    found = Hangar(tmp_path / "a", with_log(entry)).check
    assert (told is not None) == found.startswith(doubt)
    assert (told is not None) == ("bound anew" in found)
    bound = entry + "- {on: 2026-06-20, setting: {bind: anew}}\n"
    assert "bound anew" not in Hangar(tmp_path / "b", with_log(bound)).check
