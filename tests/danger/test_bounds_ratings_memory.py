"""A12 mass and balance, A13 ratings, A21 radio settings, A22 memories, A26 water, A27 nuts."""

from pathlib import Path

import pytest
from aeroplane_on_disk import plane
from hangar_on_disk import (
    AIRCRAFT,
    QUIET,
    SET_UP,
    SPECS,
    Hangar,
    with_four_cells,
    with_log,
    with_parts,
    with_text,
)

CRAFT = "aircraft/sedge/aircraft.yaml"
RADIO = "radio: {memory: 4"


def test_weighed_above_its_bounds_grounds(tmp_path: Path) -> None:
    """1096 g on the scales, 1000 g allowed."""
    hangar = Hangar(tmp_path, with_text(CRAFT, RADIO, "bounds: {max_mass: 1000 g}\n" + RADIO))

    assert ("grounded", ["over the mass limit with P-01: 1096 g, limit 1000 g"]) == (
        hangar.state(),
        hangar.reasons(),
    )
    assert [] == hangar.silent_pages("mass limit", "sedge", SET_UP)


def test_computed_above_its_bounds_asks_for_scales(tmp_path: Path) -> None:
    """A camera of 12 g since: no scales have seen that it passes 1100 g."""
    heavier = "- on: 2026-06-19\n  alteration: camera\n  mass: 12 g\n"
    files = with_text(CRAFT, RADIO, "bounds: {max_mass: 1100 g}\n" + RADIO, heavier)
    hangar = Hangar(tmp_path, files)

    assert ["over the mass limit with P-01: 1108 g, limit 1100 g; weigh it"] == hangar.reasons()
    assert ("due soon", 3) == (hangar.state(), hangar.due[0])


def test_within_its_bounds_is_quiet(tmp_path: Path) -> None:
    """At the limit itself nothing is passed."""
    hangar = Hangar(tmp_path, with_text(CRAFT, RADIO, "bounds: {max_mass: 1096 g}\n" + RADIO))

    assert ("nothing open", []) == (hangar.state(), hangar.reasons())


def test_a_load_that_takes_it_over_its_mass(tmp_path: Path) -> None:
    """On the last flight: 1096 g and 120 g, 1200 g allowed; the next one without closes it."""
    load = "- on: 2026-06-19\n  flight: 4:00\n  pack: P-01\n  payload: 120 g\n"
    bounds = "bounds: {max_mass: 1200 g}\n"
    files = with_text(CRAFT, RADIO, bounds + RADIO, load)
    loaded = Hangar(tmp_path / "1", files)
    after = Hangar(
        tmp_path / "2", with_text(CRAFT, RADIO, bounds + RADIO, load + load.split("  payload")[0])
    )
    light = Hangar(
        tmp_path / "3", with_text(CRAFT, RADIO, bounds + RADIO, load.replace("120", "104"))
    )

    said = (
        "over the mass limit with P-01 and 120 g of load, on the last flight: 1216 g, limit 1200 g"
    )
    assert ("due soon", said, 3) == (loaded.state(), loaded.reasons()[0], loaded.due[0])
    assert [] == loaded.silent_pages(said)
    assert ([], []) == (after.rows("mass-limit"), light.rows("mass-limit"))


def test_weighed_balance_outside_its_bounds_grounds(tmp_path: Path) -> None:
    """20 mm ahead of the reference point, 10 mm allowed."""
    weighed = "- on: 2026-06-19\n  weigh: 1096 g\n  pack: P-01\n  cg: [20 mm, 0 mm, 0 mm]\n"
    bounds = "bounds: {forward_cg: 10 mm, aft_cg: -10 mm}\n"
    hangar = Hangar(tmp_path, with_text(CRAFT, RADIO, bounds + RADIO, weighed))

    assert ("grounded", ["balance limit: ahead of the forward limit"]) == (
        hangar.state(),
        hangar.reasons(),
    )


def test_a_balance_outside_its_bounds_is_said_though_it_cannot_be_worked_out_now(
    tmp_path: Path,
) -> None:
    """A camera whose place nobody wrote came on since: what the scales said last still stands."""
    entries = (
        "- on: 2026-06-19\n  weigh: 1096 g\n  pack: P-01\n  cg: [20 mm, 0 mm, 0 mm]\n"
        "- on: 2026-06-19\n  alteration: camera\n  mass: 12 g\n"
    )
    bounds = "bounds: {forward_cg: 10 mm, aft_cg: -10 mm}\n"
    hangar = Hangar(tmp_path, with_text(CRAFT, RADIO, bounds + RADIO, entries))

    said = "balance limit: ahead of the forward limit when last weighed; changed since, weigh it"
    assert said in hangar.reasons()
    assert 3 == hangar.due[0]


def test_a_pack_outside_the_cells_of_an_esc_is_told(tmp_path: Path) -> None:
    """3S flown on ESCs for 4S to 6S: a row for each of them, one job."""
    hangar = Hangar(tmp_path, with_text("parts/specs.yaml", "cells: 2S-4S", "cells: 4S-6S"))

    assert [
        f"ratings of E-0{number} at {station}: failed, takes 4S to 6S, P-01 is 3S"
        for number, station in enumerate(
            ("front-left", "front-right", "rear-left", "rear-right"), 1
        )
    ] == hangar.reasons()
    assert 3 == hangar.due[0]
    assert 1 == hangar.due[1].count("Sedge: ratings of E-01, E-02, E-03, E-04 (ESCs) - failed")


def test_a_pack_that_was_only_weighed_is_told_too(tmp_path: Path) -> None:
    """A13: 4S on ESCs for 2S to 3S, not flown yet: the pack is grounded, the aircraft is not."""
    weighed = "- {on: 2026-06-20, weigh: 1176 g, pack: Q-01}\n"
    files = with_text("parts/specs.yaml", "cells: 2S-4S", "cells: 2S-3S", weighed)
    files = with_four_cells(files, 300)
    files["stores/q-01.yaml"] = "- {on: 2026-06-20, charge: Q-01, to: full}\n"
    hangar = Hangar(tmp_path, files)

    said = "pack cells of Q-01: failed, E-01 takes 2S to 3S, Q-01 is 4S"
    assert (3, "due soon") == (hangar.due[0], hangar.state())
    assert ("grounded", said) == (hangar.pack("Q-01")[0], hangar.pack("Q-01")[1][0])
    assert 4 == len([one for one in hangar.reasons() if "takes 2S to 3S, Q-01 is 4S" in one])
    kept = hangar.page("going-flying.html").partition("Do not charge or fly")[2]
    assert "Q-01" in kept.partition("To charge")[0]
    assert "Q-01" not in kept.partition("Charged")[2].partition("Spares")[0]
    assert "E-01 takes 2S to 3S, Q-01 is 4S" in hangar.page("items/Q-01.html")


@pytest.mark.parametrize(
    ("regulator", "servo", "said", "state"),
    [
        (
            "max_current: 2 A, voltage: 5 V",
            "max_current: 2.5 A",
            "ratings of B-01 (regulator) at centre exceeded: servos draw 2.5 A, more than 2 A",
            "grounded",
        ),
        ("voltage: 5 V", "voltage: 6 V", "gives 5.00 V; V-01 is for 6.00 V", "due soon"),
        ("voltage: 8.4 V", "voltage: 5 V", "gives 8.40 V; V-01 is for 5.00 V", "due soon"),
    ],
)
def test_a_regulator_that_cannot_feed_its_servo_is_told(
    tmp_path: Path, regulator: str, servo: str, said: str, state: str
) -> None:
    """Too little current, a brown-out, or too many volts. One that is overloaded grounds: when it
    gives way, receiver and surfaces go with it."""
    specs = SPECS + f"- {{spec: bec, kind: regulator, mass: 8 g, {regulator}}}\n"
    specs += f"- {{spec: servo, kind: servo, mass: 9 g, {servo}}}\n"
    items = QUIET["parts/items.yaml"] + "- {tag: B-01, spec: bec}\n- {tag: V-01, spec: servo}\n"
    fitted = "- on: 2026-06-19\n  fit: {centre: {regulator: B-01, servo: V-01}}\n"
    files = {"parts/specs.yaml": specs, "parts/items.yaml": items}
    hangar = Hangar(tmp_path, with_log(fitted, **files))

    (row,) = hangar.rows("ratings")
    assert said in " ".join(hangar.reasons())
    assert ("B-01", "failed", state) == (row["tag"], row["state"], hangar.state())
    assert "Sedge: ratings of B-01 (regulator) - failed" in hangar.due[1]


@pytest.mark.parametrize(
    ("setting", "stale"),
    [
        ("{reverse_rudder: yes it is}", True),
        ("{elevator end points: 110 percent}", True),
        ("{failsafe: throttle cut}", True),
        ("{model-memory: 5}", True),
        ("{rudder_mix: 20 percent}", True),
        ("{trim_elevator: 3 clicks}", False),
        ("{expo: 20 percent, rates: low}", False),
    ],
)
def test_a_setting_of_the_radio_re_opens_what_an_alteration_does(
    tmp_path: Path, setting: str, stale: bool
) -> None:
    """Reversing, mixing, ends, failsafe, memory; trim, rates and expo are nothing."""
    hangar = Hangar(tmp_path, with_log(f"- on: 2026-06-19\n  setting: {setting}\n"))

    assert ("grounded" if stale else "nothing open") == hangar.state()
    assert stale == bool(hangar.rows("failsafe"))


def test_two_aircraft_on_one_memory_are_told_on_both_cards(tmp_path: Path) -> None:
    """A row of both, a warning, and what to do at the field."""
    other = AIRCRAFT.replace("aircraft: Sedge", "aircraft: Burdock")
    hangar = Hangar(tmp_path, with_log("", **{"aircraft/burdock/aircraft.yaml": other}))

    said = "memory 4 is also Burdock's: move the sticks first"
    assert ("due soon", [said]) == (hangar.state(), hangar.reasons())
    assert f"warning: sedge: {said} @ {hangar.line(CRAFT, RADIO)}\n" in hangar.check
    for card in ("cards/sedge-field.html", "cards/sedge-bench.html"):
        assert "Memory 4 is also Burdock's: move the sticks first." in hangar.page(card)
    assert "Memory 4 is also Sedge's" in hangar.page("cards/burdock-field.html")


def test_water_re_opens_failsafe_and_range(tmp_path: Path) -> None:
    """Stale, and grounded."""
    hangar = Hangar(tmp_path, with_log("- on: 2026-06-19\n  water: landed in wet grass\n"))

    assert "grounded" == hangar.state()
    assert {"failsafe", "range"} <= {
        row["name"] for row in hangar.json["rows"] if row["state"] == "stale"
    }


def test_a_nut_that_its_motor_unscrews_is_asked_about(tmp_path: Path) -> None:
    """A right-hand thread wants ccw from above: the two cw motors are named."""
    hangar = Hangar(
        tmp_path, with_text("parts/specs.yaml", "kind: motor,", "kind: motor, nut: right,")
    )

    assert [
        "propeller nut of M-02 at front-right: does its right-hand thread tighten?",
        "propeller nut of M-03 at rear-left: does its right-hand thread tighten?",
    ] == hangar.reasons()
    assert 2 == hangar.check.count("does its right-hand thread tighten?")


def test_cells_do_not_hide_the_servos_of_a_regulator(tmp_path: Path) -> None:
    """One regulator, wrong in both: 3S on 4S to 6S, and 5 V for a servo of 7.4 V."""
    specs = SPECS + "- {spec: bec, kind: regulator, mass: 8 g, cells: 4S-6S, voltage: 5 V}\n"
    specs += "- {spec: servo, kind: servo, mass: 9 g, voltage: 7.4 V}\n"
    items = QUIET["parts/items.yaml"] + "- {tag: B-01, spec: bec}\n- {tag: V-01, spec: servo}\n"
    fit = "- on: 2026-06-20\n  fit: {centre: {regulator: B-01, servo: V-01}}\n"
    files = {**with_log(fit), "parts/specs.yaml": specs, "parts/items.yaml": items}
    hangar = Hangar(tmp_path, files)

    said = (
        "ratings of B-01 (regulator) at centre exceeded: takes 4S to 6S, P-01 is 3S;"
        " gives 5.00 V; V-01 is for 7.40 V"
    )
    assert said in hangar.reasons()
    assert said in hangar.due[1]
    assert "gives 5.00 V; V-01 is for 7.40 V" in hangar.page("due.html")


def test_a_memory_that_a_setting_names_is_the_one_in_force(tmp_path: Path) -> None:
    """A22: Teal went from memory 5 to that of Sedge by a setting; both cards say so."""
    teal = {
        "aircraft/teal/aircraft.yaml": AIRCRAFT.replace("Sedge", "Teal").replace(
            "memory: 4", "memory: 5"
        ),
        "aircraft/teal/logbook.yaml": "- on: 2026-06-19\n  setting: {memory: 4}\n",
    }
    hangar = Hangar(tmp_path, with_log("", **teal))

    assert "memory 4 is also Teal's: move the sticks first" in hangar.reasons()
    assert "memory 4 is also Sedge's: move the sticks first @ aircraft/teal/logbook.yaml:2" in (
        hangar.check
    )
    for card in ("cards/sedge-field.html", "cards/teal-field.html"):
        assert "move the sticks first" in hangar.page(card)
    assert "memory 5" not in hangar.page("cards/teal-field.html")


def test_too_much_current_does_not_hide_too_many_volts(tmp_path: Path) -> None:
    """A13: one regulator, wrong in both: four servos of 1 A on 3 A, and 7.4 V for 4.8 V."""
    parts = (
        "- {spec: bec, kind: regulator, mass: 8 g, voltage: 7.4 V, max_current: 3 A}\n",
        "- {tag: G-01, spec: bec}\n",
    )
    files = with_parts(plane("- on: 2026-06-19\n  fit: {tray: {regulator: G-01}}\n"), *parts)
    specs, servo = "parts/specs.yaml", "kind: servo, mass: 9 g"
    files[specs] = files[specs].replace(servo, f"{servo}, voltage: 4.8 V, max_current: 1 A")

    (said,) = [one for one in Hangar(tmp_path, files).reasons("heron") if "G-01" in one]
    assert (
        "ratings of G-01 (regulator) at tray exceeded: servos draw 4 A, more than 3 A;"
        " gives 7.40 V; V-01, V-02, V-03 and V-04 are for 4.80 V"
    ) == said
