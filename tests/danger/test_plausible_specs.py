"""C: a value that cannot be beside what it is fitted with is a slip of the pen.

Bounds are common practice, no source; the speed of sound is 343 m/s at 20 °C. The arithmetic of
each is written out beside it.
"""

from pathlib import Path

import pytest
from aeroplane_on_disk import CRAFT, plane
from hangar_on_disk import Hangar, with_log, with_text

SPECS = "parts/specs.yaml"
SEDGE = "aircraft/sedge/aircraft.yaml"


def told(hangar: Hangar) -> list[str]:
    """The warnings of ``check``, without their places."""
    lines = hangar.check.splitlines()
    return [line[9:].partition(" @ ")[0] for line in lines if line.startswith("warning: ")]


@pytest.mark.parametrize(
    ("path", "was", "written", "said"),
    [
        # 8700 rpm/V x 11.1 V = 96570 rpm; x pi x 279.4 mm / 60 = 1413 m/s
        (SPECS, "kv: 870 rpm/V", "kv: 8700 rpm/V",
         "8700 rpm/V of motor would move the tips of a propeller of 279.4 mm at 1413 m/s"),
        # 10 rpm/V: 111 rpm, 1.6 m/s
        (SPECS, "kv: 870 rpm/V", "kv: 10 rpm/V",
         "10 rpm/V of motor would move the tips of a propeller of 279.4 mm at 2 m/s"),
        # 0.05 x 1.2 x (0.75 x 160.95 / s)^3 x 0.2794^5 m = 180 W; / 11.1 V = 16.2 A
        (SPECS, "continuous_current: 30 A", "continuous_current: 3.0 A",
         "esc is rated 3 A, where motor and propeller at front-left ask for about 16.2 A at full"
         " throttle"),
        (SEDGE, "diagonal: 410 mm", "diagonal: 410 cm",
         "sedge measures 4.1 m from motor to motor, with propellers of 279.4 mm"),
        (SPECS, "kind: frame, mass: 300 g", "kind: frame, mass: 3.00 g",
         "F-01 has 3 g, all other parts of sedge together 428 g"),
        (SPECS, ", size: 11x4.5, hand: ccw", ", size: 11x4.5",
         "prop-ccw has no hand, so nobody can say whether L-01 turns as its motor does"),
    ],
)  # fmt: skip
def test_a_value_is_held_against_what_is_beside_it(
    tmp_path: Path, path: str, was: str, written: str, said: str
) -> None:
    """The quiet hangar has none of these; a spec that is sure is left alone."""
    hangar = Hangar(tmp_path, with_text(path, was, written))
    assert said in told(hangar)


def test_a_spec_that_is_sure_is_left_alone(tmp_path: Path) -> None:
    """Whoever built it so knows."""
    text = with_text(SPECS, "kv: 870 rpm/V", "kv: 8700 rpm/V, sure: true")
    assert not any("tips" in one for one in told(Hangar(tmp_path, text)))


@pytest.mark.parametrize(
    ("left", "right", "doubted"), [("25 mm", "21 mm", True), ("25 mm", "23 mm", False),
                                   ("25 mm", "22.5 mm", False), ("22.5 mm", "25.1 mm", True),
                                   ("20°", "21 mm", False)],
)  # fmt: skip
def test_two_sides_move_alike(tmp_path: Path, left: str, right: str, doubted: bool) -> None:
    """A tenth of 25 mm is 2.5 mm; an angle is no length."""
    surfaces = (
        f"  flap-left: {{servo: V-01, down: {left}}}\n  flap-right: {{servo: V-02, down: {right}}}"
    )
    files = plane("", (CRAFT, "  aileron-left: V-01\n  aileron-right: V-02", surfaces))
    said = f"flap-left of heron goes down {left}, flap-right {right}"
    assert doubted == (said in told(Hangar(tmp_path, files)))


@pytest.mark.parametrize(
    ("entry", "said"),
    [
        # all parts of Sedge but the pack: 300 + 4 x (54 + 28 + 12) + 40 + 12 g = 728 g
        ("{weigh: 950 g, on: 2026-06-20}",
         "weighed 950 g without a pack, 222 g more than its parts: about P-01"),
        ("{weigh: 730 g, pack: P-01, on: 2026-06-20}",
         "weighed 730 g with P-01, 218 g less than its parts: about that pack"),
        ("{weigh: 730 g, on: 2026-06-20}", None),
        ("{weigh: 950 g, pack: P-01, on: 2026-06-20}", None),
        ("{weigh: 950 g, on: 2026-06-20, sure: true}", None),
    ],
)  # fmt: skip
def test_a_weighing_off_by_one_pack_is_asked_about(
    tmp_path: Path, entry: str, said: str | None
) -> None:
    """Else the mass of the pack is added to that of a pack, or is missing."""
    found = [one for one in told(Hangar(tmp_path, with_log(f"- {entry}\n"))) if "weighed" in one]
    assert ([] if said is None else [said]) == found


@pytest.mark.parametrize(
    ("entries", "said"),
    [
        ("- {on: 2026-06-20, note: ESC smoked a little}\n",
         "'ESC smoked a little' tells of smoke or fire, and grounds nothing"),
        ("- {on: 2026-06-20, note: no smoke at all}\n", None),
        ("- {on: 2026-06-20, note: ESC smoked a little, sure: true}\n", None),
        ("- {on: 2026-06-20, note: ESC smoked a little}\n"
         "- {on: 2026-06-20, defect: ESC smoked, item: E-01}\n", None),
    ],
)  # fmt: skip
def test_a_remark_of_smoke_is_asked_about(tmp_path: Path, entries: str, said: str | None) -> None:
    """Until it is a defect, or something is mended."""
    found = [one for one in told(Hangar(tmp_path, with_log(entries))) if "smoke" in one]
    assert ([] if said is None else [said]) == found


GAINS = "- {on: 2026-06-19, gains: soft, values: {roll: {p: 45, i: 80}, pitch: {p: 47}}}\n"


@pytest.mark.parametrize(
    ("entry", "said"),
    [
        ("{on: 2026-06-20, gains: firm, values: {roll: {p: 42}}}",
         "gain set 'firm' has no roll i and pitch p, which 'soft' has"),
        ("{on: 2026-06-20, gains: Soft, from: soft, values: {roll: {p: 42}}}",
         "there is a gain set 'soft' already"),
        ("{on: 2026-06-20, gains: firm, from: soft, values: {roll: {p: 42}}}", None),
    ],
)  # fmt: skip
def test_a_set_of_gains_that_lacks_terms_is_asked_about(
    tmp_path: Path, entry: str, said: str | None
) -> None:
    """With ``from`` what it does not name stays."""
    found = [
        one for one in told(Hangar(tmp_path, with_log(f"{GAINS}- {entry}\n"))) if "gain" in one
    ]
    assert ([] if said is None else [said]) == found


def test_a_channel_order_in_one_word_and_tags_in_one_are_told(tmp_path: Path) -> None:
    """AETR are four channels, M1-M4 four motors."""
    order = "order: [throttle, rudder, elevator, mode, aileron]"
    one = Hangar(tmp_path / "one", with_text(SEDGE, order, "order: [AETR, arm]"))
    row = with_text("parts/items.yaml", "tags: M-01..M-05", "tag: M1-M4")

    assert "did you mean 'aileron, elevator, throttle, rudder'?" in one.check
    assert "'M1-M4' is written as one tag, and looks like a row of them" in (
        Hangar(tmp_path / "row", row).check
    )


def test_spins_without_yaw_are_told_while_it_is_built(tmp_path: Path) -> None:
    """Both left motors one way, both right ones the other: nothing is due, but it cannot fly."""
    files = with_text(SEDGE, "kind:", "status: building\nkind:")
    files[SEDGE] = files[SEDGE].replace("rear-left: {spin: cw", "rear-left: {spin: ccw")
    files[SEDGE] = files[SEDGE].replace("rear-right: {spin: ccw", "rear-right: {spin: cw")

    assert "sedge: the planned spins leave no yaw control" in told(Hangar(tmp_path, files))


def test_a_lost_link_goes_before_how_it_landed(tmp_path: Path) -> None:
    """The reason of failsafe and range; of the rest it is the landing, that day or later."""
    lost = "- on: 2026-06-19\n  flight: 5:00\n  pack: P-01\n  noticed: [link lost]\n"
    same = Hangar(tmp_path / "same", with_log(f"{lost}  landing: hard\n"))
    later = "- {on: 2026-06-20, flight: '5:00', pack: P-02, landing: hard}\n"
    for hangar in (same, Hangar(tmp_path / "later", with_log(lost + later))):
        why = {row["name"]: row["because"] for row in hangar.json["rows"] if row["because"]}
        assert ["link lost", "link lost"] == [
            str(why[name]["trigger"]).partition("noticed ")[2] for name in ("failsafe", "range")
        ]


def test_a_crash_told_of_as_less_asks_for_all_its_looks(tmp_path: Path) -> None:
    """A light incident at one arm ticks no check of the others."""
    crash = "- {on: 2026-06-19, flight: '1:40', pack: P-01, landing: crash}\n"
    told_of = "- {on: 2026-06-19, incident: into a birch, severity: SEV, touched: [rear-right]}\n"
    light = Hangar(tmp_path / "light", with_log(crash + told_of.replace("SEV", "light")))
    hard = Hangar(tmp_path / "hard", with_log(crash + told_of.replace("SEV", "hard")))

    assert (4, 1) == (len(light.rows("spin-directions")), len(hard.rows("spin-directions")))
    assert "a landing of 2026-06-19 is a crash, and told of as a light incident" in told(light)
