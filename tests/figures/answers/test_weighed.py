"""Weighings, what changed since, and wings."""

import re
from pathlib import Path

import pytest
from small_hangars import (
    KEEPER,
    LOG,
    QUAD,
    SMALL,
    SPECS,
    benched,
    found,
    logged,
    opened,
    quad,
    refused,
)

from buildbook.figures.answers.registry import figures_of_aircraft
from buildbook.words.measures.figure_values import value_words

PLANE = """\
aircraft: Teal
kind: aeroplane
layout: aeroplane
status: flying
stations:
  nose: {spin: cw, at: [60 mm, 0 mm, 0 mm]}
positions:
  pack: [-35 mm, 0 mm, 0 mm]
sundries:
  - {what: airframe, mass: 420 g, at: [-95 mm, 0 mm, 0 mm]}
  - {what: motor and propeller, mass: 138 g, at: [60 mm, 0 mm, 0 mm]}
  - {what: receiver and servos, mass: 82 g, at: [-140 mm, 0 mm, 0 mm]}
  - {what: tail servos, mass: 36 g, at: [-520 mm, 0 mm, 0 mm]}
wing: {area: 0.30 m², mean_chord: 220 mm, leading_edge: 40 mm, max_lift_coefficient: 1.2}
bounds: {forward_cg: 15 %, aft_cg: 25 %}
"""

PACKS = """\
- {spec: pack, kind: battery, mass: 210 g, cells: 3S, capacity: 2200 mAh, chemistry: LiPo}
"""

WEIGHED = """\
- on: 2026-03-01
  weigh: 1210 g
  pack: P-1
  scales: {front-left: 305 g, front-right: 305 g, rear-right: 300 g, rear-left: 300 g}
"""


def plane(log: str) -> dict[str, str]:
    """The aeroplane of the published example as a hangar, with a log."""
    return {
        "hangar.yaml": KEEPER,
        "parts/specs.yaml": PACKS,
        "parts/items.yaml": "- {tag: P-1, spec: pack, acquired: 2026-01-01}\n",
        "aircraft/teal/aircraft.yaml": PLANE,
        "aircraft/teal/logbook.yaml": log,
    }


FLOWN = "- {on: 2026-03-01, flight: 6 min, pack: P-1}\n"


def test_model_aeroplane_balance_as_share_of_the_chord(tmp_path: Path) -> None:
    """886 g, 78.07 mm aft; leading edge 40 mm, chord 220 mm: 17.30 %.

    Source: check values, section 2, "model CG" and "model %MAC" (own example there).
    """
    answers = figures_of_aircraft(opened(tmp_path, plane(FLOWN)), "teal")
    chord = found(answers, "balance")

    assert "mean chord" == chord.of
    assert pytest.approx(0.1730, abs=1e-4) == chord.value
    assert "within the limits" == chord.verdict
    forward = found(answers, "balance", "forward")
    assert pytest.approx(-0.07807, abs=1e-5) == forward.value
    assert forward.verdict is None
    assert {"forward_limit": 0.15, "aft_limit": 0.25} == chord.other
    assert pytest.approx(0.886) == found(answers, "all_up_mass", "P-1").value


def test_a_balance_on_its_limit_is_within_it(tmp_path: Path) -> None:
    """73 mm aft is 15 % of a chord of 220 mm from 40 mm on; in binary fractions a hair less."""
    assert (0.073 - 0.04) / 0.22 < 0.15
    log = FLOWN + "- {on: 2026-03-02, weigh: 886 g, pack: P-1, cg: [-73 mm, 0 mm, 0 mm]}\n"
    answers = figures_of_aircraft(opened(tmp_path, plane(log)), "teal")

    assert "within the limits" == found(answers, "balance").verdict
    assert "within its limits: none is needed" == found(answers, "ballast").verdict


def test_a_height_that_nobody_found_is_not_measured(tmp_path: Path) -> None:
    """Held up by the fingers at 73 mm aft; two parts of 420 and 36 g sit 20 and 130 mm higher.

    They are of 886 g: (420·20 + 36·130)/886 = 14.76 mm above the reference point.
    """
    files = plane(FLOWN + "- {on: 2026-03-02, weigh: 886 g, pack: P-1, cg: [-73 mm, 1 mm]}\n")
    craft = PLANE.replace("-95 mm, 0 mm, 0 mm", "-95 mm, 0 mm, -20 mm")
    craft = craft.replace("-520 mm, 0 mm, 0 mm", "-520 mm, 0 mm, -130 mm")
    hangar = opened(tmp_path, {**files, "aircraft/teal/aircraft.yaml": craft})
    answers = figures_of_aircraft(hangar, "teal")
    forward, right, down = (
        found(answers, "balance", axis) for axis in ("forward", "right", "down")
    )

    values = (forward.value, right.value, down.value)
    assert pytest.approx((-0.073, 0.001, -0.01476), abs=5e-6) == values
    assert ("measured", "measured") == (forward.basis, right.basis)
    assert "from the places of the parts: nobody found it at the scales" in down.notes
    assert "weighing" not in " ".join(one.name for one in down.inputs)


def test_wing_loading_and_stall_speed(tmp_path: Path) -> None:
    """1.5 kg on 0.30 m²: 5.000 kg/m² = 50.0 g/dm²; 8.1677 m/s with C_Lmax 1.2 at 1.225 kg/m³.

    Source: check values, section 7 (lift equation).
    """
    log = FLOWN + "- {on: 2026-03-02, weigh: 1500 g, pack: P-1}\n"
    answers = figures_of_aircraft(opened(tmp_path, plane(log)), "teal")
    loading = found(answers, "wing_loading")

    assert pytest.approx(5.0 * 9.80665) == loading.value
    assert "50.0 g/dm²" == value_words(loading, loading.value or 0.0)
    assert "5 kg/m², 49.0 Pa" == loading.verdict
    assert pytest.approx(8.1677, rel=1e-4) == found(answers, "stall_speed").value


def test_a_mass_added_since_the_weighing_moves_the_balance(tmp_path: Path) -> None:
    """612 g at 84.0 mm aft, 28 g added at 140 mm: 640 g, 86.45 mm, computed, not weighed.

    Source: R35 of the record rules (after FAA-H-8083-1).
    """
    log = FLOWN + (
        "- {on: 2026-03-02, weigh: 612 g, pack: P-1, cg: [-84 mm, 0 mm, 0 mm]}\n"
        "- {on: 2026-03-03, alteration: camera taped on, mass: 28 g, at: [-140 mm, 0 mm, 0 mm]}\n"
    )
    answers = figures_of_aircraft(opened(tmp_path, plane(log)), "teal")
    mass = found(answers, "all_up_mass", "P-1")

    assert pytest.approx(0.640) == mass.value
    assert ("from the last weighing; since then: camera taped on added",) == mass.notes
    assert pytest.approx(-0.08645) == found(answers, "balance", "forward").value
    table = found(answers, "balance", "weighings").table
    assert table is not None
    assert [
        ("weighing 1", 0.612, -0.084, 0.0, "last weighed"),
        ("now", pytest.approx(0.64), pytest.approx(-0.08645), 0.0, "from the last weighing"),
    ] == list(table.rows)


def test_a_new_weighing_supersedes_the_old_one(tmp_path: Path) -> None:
    """The old row stays, marked; the note about computing is gone."""
    log = FLOWN + (
        "- {on: 2026-03-02, weigh: 612 g, pack: P-1, cg: [-84 mm, 0 mm, 0 mm]}\n"
        "- {on: 2026-03-03, alteration: camera taped on, mass: 28 g, at: [-140 mm, 0 mm, 0 mm]}\n"
        "- {on: 2026-03-04, weigh: 641 g, pack: P-1, cg: [-86 mm, 0 mm, 0 mm]}\n"
    )
    answers = figures_of_aircraft(opened(tmp_path, plane(log)), "teal")
    mass = found(answers, "all_up_mass", "P-1")
    table = found(answers, "balance", "weighings").table
    assert table is not None

    assert (0.641, (), "measured") == (mass.value, mass.notes, mass.basis)
    assert ["superseded", "last weighed"] == [row[-1] for row in table.rows]


def weigh(*masses: str) -> str:
    """A weighing a day with the pack in, each with what is written of it."""
    return "".join(
        f"- {{on: 2026-03-0{day}, pack: P-1, weigh: {mass}}}\n"
        for day, mass in enumerate(masses, 1)
    )


BARE = {**SMALL, "parts/specs.yaml": re.sub(r", mass: \d+ g|  mass: \d+ g\n", "", SPECS)}
"""The small quad without the mass of any part."""


@pytest.mark.parametrize(
    ("files", "masses", "kg", "note"),
    [
        # its parts add up to 1200 g (small_hangars)
        (SMALL, ("1210 g", "1.21 g"), 1.210, "weighed 1.21 g, the last time 1210 g"),
        (SMALL, ("1.21 g",), 1.200, "weighed 1.21 g, its parts add up to 1200 g"),
        (SMALL, ("1.21 g", "1210 g"), 1.210, None),
        (SMALL, ("1210 g", "1.21 g", "1220 g"), 1.220, None),
        (SMALL, ("1210 g", "1.21 g, sure: true"), 0.00121, None),
        # of two that nothing tells apart neither; a third tells
        (BARE, ("1210 g", "1.21 g"), None, "weighed 1.21 g, the last time 1210 g"),
        (BARE, ("1.21 g", "1210 g"), None, "weighed 1210 g, the last time 1.21 g"),
        (BARE, ("1210 g", "1.21 g", "1220 g"), 1.220, None),
        (BARE, ("1.21 g", "1210 g", "1220 g"), 1.220, None),
        (BARE, ("1210 g", "1205 g", "1.21 g"), 1.205, "weighed 1.21 g, the last time 1205 g"),
    ],
)
def test_a_weighing_that_can_hardly_be_right_is_not_believed(
    tmp_path: Path, files: dict[str, str], masses: tuple[str, ...], kg: float | None, note: str
) -> None:
    """1.21 g typed for 1.21 kg: a thousandth, for a slip of the unit is a power of ten."""
    answers = quad(tmp_path, logged(weigh(*masses), files))

    if kg is None:
        assert refused(answers, "all_up_mass")[0].startswith(f"not believed: {note}; ")
        return
    figure = found(answers, "all_up_mass", "P-1")
    assert pytest.approx(kg) == figure.value
    told = [one for one in figure.notes if one.startswith("not believed")]
    assert ([] if note is None else [f"not believed: {note}"]) == told


def test_what_rests_on_the_mass_does_not_believe_it_either(tmp_path: Path) -> None:
    """The centre of gravity of 100 mm ahead, weighed with 1.21 g, is not taken over 10 mm."""
    first = "1210 g, cg: [10 mm, 0 mm, 0 mm]"
    log = weigh(first, "1.21 g, cg: [100 mm, 0 mm, 0 mm]")
    answers = quad(tmp_path, logged(log, benched()))
    forward = found(answers, "balance", "forward")
    table = found(answers, "balance", "weighings").table

    assert pytest.approx(0.010) == forward.value
    assert "not believed: weighed 1.21 g, the last time 1210 g" in forward.notes
    assert table is not None
    assert ["last weighed", "doubted"] == [row[-1] for row in table.rows]
    ratio = 33.6 / (1.210 * 9.80665)  # F/(m·g): four motors of 8.4 N, by the bench
    assert pytest.approx(ratio, rel=1e-3) == found(answers, "thrust_to_weight").value


def test_scales_under_the_stations(tmp_path: Path) -> None:
    """610 g ahead and 600 g behind, 0.16 m from the middle: 0.16·10/1210 = 1.322 mm ahead."""
    answers = quad(tmp_path, {**SMALL, "aircraft/sedge/logbook.yaml": LOG + WEIGHED})

    assert pytest.approx(1.21) == found(answers, "all_up_mass", "P-1").value
    forward = found(answers, "balance", "forward")
    assert pytest.approx(0.16 * 10 / 1210, rel=1e-4) == forward.value
    assert "measured" == forward.basis
    budget = found(answers, "mass_budget")
    assert "measured minus summed: 10 g (what the parts do not account for)" in budget.notes
    assert {
        "sum_kg": pytest.approx(1.2),
        "measured_kg": pytest.approx(1.21),
        "measured_minus_summed_kg": pytest.approx(0.01),
    } == budget.other


def test_mass_now_is_one_wherever_it_stands(tmp_path: Path) -> None:
    """Balanced at 1210 g, then only weighed, 1204 g; 10 g taped on since: 1214 g everywhere.

    Moments: 1210 g · 1.3223 mm = 1600 g·mm and 10 g · 100 mm; 2600/1220 = 2.131 mm ahead.
    """
    log = WEIGHED.replace("01", "02") + (
        "- {on: 2026-03-03, weigh: 1204 g, pack: P-1}\n"
        "- {on: 2026-03-04, alteration: camera taped on, mass: 10 g, at: [100 mm, 0 mm, 0 mm]}\n"
    )
    craft = SMALL["aircraft/sedge/aircraft.yaml"].replace(
        "{max_mass: 1300 g}", "{max_mass: 1300 g, forward_cg: 1 mm, aft_cg: -1 mm}"
    )
    files = {**SMALL, "aircraft/sedge/aircraft.yaml": craft}
    answers = quad(tmp_path, {**files, "aircraft/sedge/logbook.yaml": LOG + log})
    table = found(answers, "balance", "weighings").table
    assert table is not None
    forward = found(answers, "balance", "forward")
    moved = {given.name: given.value for given in found(answers, "battery_shift").inputs}

    assert pytest.approx(1.214) == found(answers, "all_up_mass", "P-1").value
    assert ("now", pytest.approx(1.214)) == table.rows[-1][:2]
    assert pytest.approx(1.214) == moved["all-up mass"]
    assert pytest.approx(2600 / 1220 / 1000, rel=1e-4) == forward.value
    words = "from the last weighing that found the balance; since then: camera taped on added"
    assert words in forward.notes
    assert {"last weighing that found the balance": 1.210, "last weighing": None} == {
        name: next((one.value for one in forward.inputs if one.name == name), None)
        for name in ("last weighing that found the balance", "last weighing")
    }
    assert [
        "last that found the balance",
        "last weighed",
        "from the last weighing, and from the last that found the balance",
    ] == [row[-1] for row in table.rows]


def test_a_part_taken_off_counts_from_its_own_mass(tmp_path: Path) -> None:
    """The controller of 30 g comes out: 1210 - 30 = 1180 g."""
    log = LOG + WEIGHED + "- {on: 2026-03-02, remove: [C-1]}\n"
    answers = quad(tmp_path, {**SMALL, "aircraft/sedge/logbook.yaml": log})
    mass = found(answers, "all_up_mass", "P-1")

    assert pytest.approx(1.18) == mass.value
    assert (
        "weakest inputs, from sheet or plan: mass of C-1",
        "from the last weighing; since then: C-1 taken off",
    ) == mass.notes
    assert "spec" == mass.basis


def test_what_was_left_off_the_scales_is_added(tmp_path: Path) -> None:
    """Weighed without its controller, which is still fitted: 1180 + 30 = 1210 g."""
    log = LOG + "- {on: 2026-03-01, weigh: 1180 g, pack: P-1, without: [C-1]}\n"
    answers = quad(tmp_path, {**SMALL, "aircraft/sedge/logbook.yaml": log})

    assert pytest.approx(1.21) == found(answers, "all_up_mass", "P-1").value


def test_a_pack_of_another_mass_takes_the_place_of_the_weighed_one(tmp_path: Path) -> None:
    """P-2 weighs 380 g instead of 350 g: 1240 g, and it is said which pack was weighed."""
    files = {
        **SMALL,
        "parts/items.yaml": SMALL["parts/items.yaml"]
        + "- {tag: P-2, spec: pack, mass: 380 g, acquired: 2026-01-01}\n",
        "aircraft/sedge/logbook.yaml": LOG
        + WEIGHED
        + "- {on: 2026-03-02, flight: 6 min, pack: P-2}\n",
    }
    mass = found(quad(tmp_path, files), "all_up_mass", "P-2")

    assert pytest.approx(1.24) == mass.value
    assert (
        "weakest inputs, from sheet or plan: mass of P-1",
        "weighed with P-1, P-2 put in its place",
    ) == mass.notes


def test_a_moved_pack_moves_the_balance(tmp_path: Path) -> None:
    """350 g go 24 mm ahead: 1.322 mm + 350·24/1210 = 8.264 mm."""
    log = (
        LOG
        + WEIGHED
        + ("- {on: 2026-03-02, alteration: tray moved, positions: {pack: [24 mm, 0 mm, 30 mm]}}\n")
    )
    answers = quad(tmp_path, {**SMALL, "aircraft/sedge/logbook.yaml": log})

    expected = 0.16 * 10 / 1210 + 0.35 * 0.024 / 1.21
    assert pytest.approx(expected, rel=1e-4) == found(answers, "balance", "forward").value


def test_a_missing_place_is_named(tmp_path: Path) -> None:
    """A missing arm is not an arm of zero (check values, section 2, traps)."""
    layout = QUAD.replace("positions:\n  pack: [0 mm, 0 mm, 30 mm]\n", "")
    answers = quad(tmp_path, {**SMALL, "aircraft/sedge/aircraft.yaml": layout})

    assert (
        "the place of pack is not recorded: write it under 'positions' in aircraft.yaml",
        "aircraft/sedge/aircraft.yaml:1",
    ) == refused(answers, "balance")


def test_over_the_limit_is_told_in_grams(tmp_path: Path) -> None:
    """1200 g against 1195 g."""
    layout = QUAD.replace("max_mass: 1300 g", "max_mass: 1195 g")
    answers = quad(tmp_path, {**SMALL, "aircraft/sedge/aircraft.yaml": layout})

    assert "5 g over the limit" == found(answers, "all_up_mass", "P-1").verdict


def test_mass_thresholds_stand_in_a_dated_table(tmp_path: Path) -> None:
    """1.2 kg is past 900 g and below 4 kg; nothing is called allowed."""
    figure = found(quad(tmp_path), "mass_class")
    assert figure.table is not None
    sides = {row[2]: row[5] for row in figure.table.rows}

    assert (
        "ask the authority; the program's own table, last looked over on 2026-11-25"
        == figure.verdict
    )
    assert "not on this side" == sides["mass of product class C1"]
    assert "on this side" == sides["mass of product class C2"]
    assert "allowed" not in repr(figure)


@pytest.mark.parametrize(
    ("load", "told"),
    [
        (
            "3000 g",
            "with the 3000 g of payload once flown it weighs 4200 g, on the other side of: "
            "mass of product class C2 (Regulation (EU) 2019/945, Annex part 3)",
        ),
        (
            "120 g",
            "with the 120 g of payload once flown it weighs 1320 g, on the same side of all",
        ),
    ],
)
def test_mass_thresholds_with_the_payload_that_was_flown(
    tmp_path: Path, load: str, told: str
) -> None:
    """1.2 kg and 3 kg are past 4 kg; the rules speak of what takes off."""
    log = LOG + f"- {{on: 2026-03-01, flight: 6 min, pack: P-1, payload: {load}}}\n"
    figure = found(quad(tmp_path, {**SMALL, "aircraft/sedge/logbook.yaml": log}), "mass_class")

    assert told == figure.notes[-1]


def with_servos(rating: str) -> dict[str, str]:
    """The aeroplane with three servos of 0.7 A and a regulator of that rating, or none."""
    files = plane(
        "- on: 2026-02-01\n  fit:\n    tail: {servo: [S-1, S-2, S-3]}\n"
        + ("    centre: {regulator: G-1}\n" if rating else "")
        + FLOWN
    )
    files["parts/specs.yaml"] += "- {spec: servo, kind: servo, mass: 9 g, max_current: 0.7 A}\n"
    files["parts/items.yaml"] += "- {tags: S-1..S-3, spec: servo, acquired: 2026-01-01}\n"
    if rating:
        files["parts/specs.yaml"] += (
            f"- {{spec: regulator, kind: regulator, mass: 9 g, max_current: {rating}}}\n"
        )
        files["parts/items.yaml"] += "- {tag: G-1, spec: regulator, acquired: 2026-01-01}\n"
    return files


def test_servos_against_the_regulator(tmp_path: Path) -> None:
    """3·0.7 A of 3 A leave 0.3; of 2 A they are over by 5 %."""
    enough = figures_of_aircraft(opened(tmp_path / "a", with_servos("3 A")), "teal")
    brown_out = figures_of_aircraft(opened(tmp_path / "b", with_servos("2 A")), "teal")

    assert pytest.approx(0.3) == found(enough, "regulator_margin").value
    assert pytest.approx(-0.05) == found(brown_out, "regulator_margin").value


def test_a_regulator_that_nobody_recorded(tmp_path: Path) -> None:
    """One inside an ESC must be written as an item too."""
    answers = figures_of_aircraft(opened(tmp_path, with_servos("")), "teal")

    assert (
        "no regulator is fitted: write it as an item of kind regulator, one inside an ESC too",
        "aircraft/teal/aircraft.yaml:1",
    ) == refused(answers, "regulator_margin")


@pytest.mark.parametrize(
    ("bounds", "verdict"),
    [
        ("forward_cg: 18 %, aft_cg: 25 %", "ahead of the forward limit"),
        ("forward_cg: 10 %, aft_cg: 17 %", "behind the aft limit"),
        ("max_mass: 2 kg", "limits forward and aft not recorded"),
    ],
)
def test_limits_on_the_chord(tmp_path: Path, bounds: str, verdict: str) -> None:
    """The centre of gravity is at 17.3 % of the chord."""
    files = plane(FLOWN)
    files["aircraft/teal/aircraft.yaml"] = PLANE.replace(
        "bounds: {forward_cg: 15 %, aft_cg: 25 %}", f"bounds: {{{bounds}}}"
    )
    answers = figures_of_aircraft(opened(tmp_path, files), "teal")

    assert verdict == found(answers, "balance", "mean chord").verdict


def test_before_the_first_flight_the_weighed_pack_is_the_one(tmp_path: Path) -> None:
    """P-2 lies in the drawer: with a weighing on P-1 it is left out; else both could be."""
    files = {
        **SMALL,
        "parts/items.yaml": SMALL["parts/items.yaml"]
        + "- {tag: P-2, spec: pack, acquired: 2026-01-01}\n",
    }
    weighed = {**files, "aircraft/sedge/logbook.yaml": LOG + WEIGHED}

    def masses(folder: Path, these: dict[str, str]) -> list[str | None]:
        return [one.of for one in quad(folder, these).figures if one.name == "all_up_mass"]

    assert ["P-1"] == masses(tmp_path / "a", weighed)
    assert ["P-1", "P-2"] == masses(tmp_path / "b", files)


LEADED = """\
- {on: 2026-03-01, weigh: 612 g, cg: [-84 mm, 0 mm, 0 mm]}
- {on: 2026-03-02, alteration: nose lead, mass: 28 g, at: [-140 mm, 0 mm, 0 mm]}
"""


def test_R35_added_mass_is_computed_not_weighed_where_no_pack_is_known(tmp_path: Path) -> None:
    """612 g at 84.0 mm, 28 g added at 140 mm: 640 g at 86.45 mm, computed, not weighed.

    Source: record rules, R35 (after FAA-H-8083-1).
    """
    files = plane(LEADED) | {"parts/items.yaml": ""}
    answers = figures_of_aircraft(opened(tmp_path, files), "teal")
    mass = found(answers, "all_up_mass", None)
    forward = found(answers, "balance", "forward")

    assert pytest.approx(0.640) == mass.value
    assert pytest.approx(-0.08645) == forward.value
    assert (
        "without a pack: none is known",
        "from the last weighing; since then: nose lead added",
    ) == mass.notes
    assert (
        "without a pack: none is known",
        "from the last weighing; since then: nose lead added",
    ) == forward.notes


def test_R36_a_mass_over_the_limit_is_told_in_grams(tmp_path: Path) -> None:
    """705 g weighed, 700 g allowed by the keeper: 5 g over. Source: record rules, R36."""
    log = "- {on: 2026-03-01, weigh: 705 g}\n"
    files = plane(log) | {
        "parts/items.yaml": "",
        "aircraft/teal/aircraft.yaml": PLANE.replace("bounds: {", "bounds: {max_mass: 700 g, "),
    }
    answers = figures_of_aircraft(opened(tmp_path, files), "teal")

    assert "5 g over the limit" == found(answers, "all_up_mass", None).verdict


NO_MASS = PACKS.replace("mass: 210 g, ", "")


def test_a_pack_without_a_mass_leaves_the_weighed_mass_and_balance(tmp_path: Path) -> None:
    """Weighed without a pack; P-1 is flown since and weighs nobody knows what."""
    files = plane(LEADED + "- {on: 2026-03-03, flight: 6 min, pack: P-1}\n")
    answers = figures_of_aircraft(opened(tmp_path, {**files, "parts/specs.yaml": NO_MASS}), "teal")
    mass = found(answers, "all_up_mass")
    forward = found(answers, "balance", "forward")
    table = found(answers, "mass_class").table
    assert table is not None

    assert (None, pytest.approx(0.640)) == (mass.of, mass.value)
    assert "without a pack: no mass of P-1 is recorded" == mass.notes[0] == forward.notes[0]
    assert pytest.approx(-0.08645) == forward.value
    assert ["all-up mass without a pack"] == [
        one.name for one in found(answers, "mass_class").inputs
    ]
    assert (
        "mass of P-1 is not recorded: write 'mass' in its spec pack or in the item",
        "parts/specs.yaml:1",
    ) == refused(answers, "all_up_mass", "P-1")
    budget = found(answers, "mass_budget")
    assert pytest.approx(0.640) == budget.other["measured_kg"]
    assert "not weighed yet" not in budget.notes


def test_a_pack_on_the_scales_needs_no_mass_of_its_own(tmp_path: Path) -> None:
    """Weighed with P-1: the scales know, whatever P-1 weighs; P-2 cannot take its place."""
    weighed = "- {on: 2026-03-01, weigh: 886 g, pack: P-1}\n"
    files = plane(weighed + "- {on: 2026-03-02, flight: 6 min, pack: P-2}\n")
    specs = NO_MASS + "- {spec: large, kind: battery, cells: 3S, capacity: 3000 mAh}\n"
    items = files["parts/items.yaml"] + "- {tag: P-2, spec: large, acquired: 2026-01-01}\n"
    answers = figures_of_aircraft(
        opened(tmp_path, {**files, "parts/specs.yaml": specs, "parts/items.yaml": items}), "teal"
    )

    assert pytest.approx(0.886) == found(answers, "all_up_mass", "P-1").value
    assert "P-1" == found(answers, "mass_class").of
    assert (
        "not counted, as the mass with it is not known: P-2"
        == found(answers, "mass_class").notes[-1]
    )
    assert (
        "mass of P-1 is not recorded: write 'mass' in its spec pack or in the item",
        "parts/specs.yaml:1",
    ) == refused(answers, "all_up_mass", "P-2")


def test_a_retired_pack_of_the_scales_stays_in_the_weighed_mass(tmp_path: Path) -> None:
    """P-1 without a mass is retired, P-2 cannot be put in its place: the mass is that with P-1."""
    log = (
        "- {on: 2026-03-01, weigh: 886 g, pack: P-1}\n"
        "- {on: 2026-03-02, flight: 6 min, pack: P-2}\n"
        "- {on: 2026-03-03, state: {P-1: retired}, because: swollen}\n"
    )
    files = plane(log) | {"parts/specs.yaml": NO_MASS}
    files["parts/specs.yaml"] += PACKS.replace("spec: pack", "spec: large")
    files["parts/items.yaml"] += "- {tag: P-2, spec: large, acquired: 2026-01-01}\n"
    mass = found(figures_of_aircraft(opened(tmp_path, files), "teal"), "all_up_mass")

    assert ("P-1", pytest.approx(0.886)) == (mass.of, mass.value)
    assert ("P-1 is retired",) == mass.notes


def test_no_mass_without_scales_or_packs(tmp_path: Path) -> None:
    """No weighing and no pack: what lacks is a pack, and the class lacks the same."""
    answers = figures_of_aircraft(opened(tmp_path, plane("") | {"parts/items.yaml": ""}), "teal")
    lacking = (
        "its pack is not recorded: weigh it with the pack in, write 'pack' there or with a flight",
        "aircraft/teal/aircraft.yaml:1",
    )

    assert lacking == refused(answers, "all_up_mass") == refused(answers, "mass_class")


def test_what_moved_is_told_apart_from_what_came_and_went(tmp_path: Path) -> None:
    """C-1 off, lead on, the pack to another place."""
    log = (
        LOG
        + WEIGHED
        + "- {on: 2026-03-02, remove: [C-1]}\n"
        + "- {on: 2026-03-02, alteration: lead, mass: 10 g, at: [0 mm, 0 mm, 0 mm]}\n"
        + "- {on: 2026-03-02, alteration: tray, positions: {pack: [24 mm, 0 mm, 30 mm]}}\n"
    )
    answers = quad(tmp_path, {**SMALL, "aircraft/sedge/logbook.yaml": log})

    assert (
        "weakest inputs, from sheet or plan: mass of C-1, mass of P-1",
        "from the last weighing; since then: lead added, C-1 taken off, P-1 changed",
    ) == found(answers, "balance", "forward").notes
