"""A13: full-throttle current against every rating that is recorded; cells against every part.

The bench is at 11.1 V, the nominal voltage of the 3S pack; the air is that of the field, which is
as the bench: 15 A a motor, 60 A together, whatever the law makes of them.
"""

from collections.abc import Mapping
from pathlib import Path

import pytest
from hangar_on_disk import AIRCRAFT, QUIET, SET_UP, SPECS, Hangar

BENCH = "throttle_%,voltage_V,current_A,thrust_N\n50,11.1,4,3.5\n100,11.1,15,8.4\n"
CRAFT = "aircraft/sedge/aircraft.yaml"
FIELD = "field_elevation: 0 m\nfield_temperature: 15 °C\n"
WIRING = """\
wiring:
  - {from: pack, to: distribution, plug: bullet 4 mm, plug_max_current: PACK}
  - {from: distribution, to: each esc, plug: bullet 2 mm, plug_max_current: ESC}
"""
SENSOR = "- {spec: shunt, kind: current_sensor, mass: 9 g, max_current: MOST}\n"


def _files(
    *,
    motor: str = "22 A",
    esc: str = "30 A",
    rate: str = "30C",
    plugs: tuple[str, str] = ("60 A", "15 A"),
    sensor: str = "60 A",
) -> Mapping[str, str]:
    """The quiet hangar with a bench table, plugs and a sensor, all just strong enough."""
    specs = SPECS.replace("max_current: 22 A", f"max_current: {motor}, bench: stand.csv")
    specs = specs.replace("continuous_current: 30 A", f"continuous_current: {esc}")
    specs = specs.replace("chemistry: LiPo", f"chemistry: LiPo, discharge_rate: {rate}")
    wiring = WIRING.replace("PACK", plugs[0]).replace("ESC", plugs[1])
    log = QUIET["aircraft/sedge/logbook.yaml"]
    return {
        **QUIET,
        "hangar.yaml": QUIET["hangar.yaml"] + FIELD,
        "bench/stand.csv": BENCH,
        "parts/specs.yaml": specs + SENSOR.replace("MOST", sensor),
        "parts/items.yaml": QUIET["parts/items.yaml"] + "- {tag: S-01, spec: shunt}\n",
        CRAFT: AIRCRAFT + wiring,
        "aircraft/sedge/logbook.yaml": log.replace(
            "receiver: X-01}", "receiver: X-01, current_sensor: S-01}"
        ),
    }


def test_what_is_just_strong_enough_is_quiet(tmp_path: Path) -> None:
    """60 A of 60 A, 15 A of 15 A: nothing is passed."""
    hangar = Hangar(tmp_path, _files(motor="15 A", esc="15 A"))

    assert ("nothing open", []) == (hangar.state(), hangar.reasons())


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        (
            {"sensor": "50 A"},
            "ratings of S-01 (current sensor) at centre exceeded: 60 A at full throttle with P-01,"
            " more than 50 A",
        ),
        (
            {"plugs": ("50 A", "15 A")},
            "ratings exceeded: the plug from pack to distribution carries 60 A"
            " at full throttle with P-01, more than 50 A",
        ),
        (
            {"plugs": ("60 A", "12 A")},
            "ratings exceeded: the plug from distribution to each esc carries 15 A"
            " at full throttle with P-01, more than 12 A",
        ),
        ({"rate": "20C"}, "ratings of P-01 exceeded: 60 A at full throttle, more than 44 A"),
    ],
)
def test_a_passed_current_is_a_row_that_grounds_nothing(
    tmp_path: Path, changed: dict[str, object], said: str
) -> None:
    """Sensor, plug of one run, plug of each of four, pack: the pages say it in the same words."""
    hangar = Hangar(tmp_path, _files(**changed))

    assert ("due soon", [said], 3) == (hangar.state(), hangar.reasons(), hangar.due[0])
    for page in (
        "index.html",
        "due.html",
        "aircraft/sedge/index.html",
        SET_UP.format(slug="sedge"),
    ):
        assert said in hangar.page(page), page
    assert "failed Ratings" in hangar.page("cards/sedge-field.html")


@pytest.mark.parametrize(("changed", "kind"), [({"motor": "14 A"}, "M"), ({"esc": "14 A"}, "E")])
def test_each_motor_and_each_esc_has_a_row(
    tmp_path: Path, changed: dict[str, str], kind: str
) -> None:
    """15 A each, 14 A allowed."""
    hangar = Hangar(tmp_path, _files(**changed))

    found = {row["tag"] for row in hangar.rows("ratings")}
    assert {f"{kind}-0{number}" for number in range(1, 5)} == found
    assert "15 A at full throttle with P-01, more than 14 A" in hangar.due[1]


def test_no_rating_and_no_default_in_its_place(tmp_path: Path) -> None:
    """A wire, plug or sensor without a recorded rating is no row, whatever it carries."""
    files = dict(_files())
    files[CRAFT] = files[CRAFT].replace(", plug_max_current: 60 A", ", wire: 26 AWG")
    files["parts/specs.yaml"] = files["parts/specs.yaml"].replace(", max_current: 60 A", "")
    hangar = Hangar(tmp_path, files)

    assert [] == hangar.rows("ratings")


def test_the_margin_names_the_first_of_all_limits(tmp_path: Path) -> None:
    """The plug of the pack comes before motor, ESC, sensor and pack.

    At 60 A of 61 A it would do; a full pack gives more.
    """
    hangar = Hangar(tmp_path, _files(plugs=("61 A", "16 A"), sensor="70 A"))

    said = " ".join(hangar.run("figures", "sedge", str(hangar.folder))[1].split())
    assert "the plug from pack to distribution is past its rating" in said
    assert "the plug from pack to distribution is the first limit, passed by " in said


def test_a_part_grounds_where_no_pack_has_its_cells(tmp_path: Path) -> None:
    """3S on ESCs for 4S to 6S, and P-01 is the only pack flown."""
    specs = SPECS.replace("cells: 2S-4S", "cells: 4S-6S")
    hangar = Hangar(tmp_path, {**QUIET, "parts/specs.yaml": specs})

    assert "grounded" == hangar.state()
    assert [] == hangar.silent_pages("ratings of E-01")
    assert "takes 4S to 6S, P-01 is 3S" in hangar.page("going-flying.html")


def test_cells_of_a_motor_hold_as_those_of_an_esc(tmp_path: Path) -> None:
    """3S flown where 4S to 6S are recorded: grounded, for no other pack was flown."""
    specs = SPECS.replace("kv: 870 rpm/V", "kv: 870 rpm/V, cells: 4S-6S")
    hangar = Hangar(tmp_path, {**QUIET, "parts/specs.yaml": specs})

    found = {row["tag"] for row in hangar.rows("ratings")}
    assert ("grounded", {"M-01", "M-02", "M-03", "M-04"}) == (hangar.state(), found)


def test_cells_of_a_regulator_hold_as_those_of_an_esc(tmp_path: Path) -> None:
    """3S flown into a regulator for 4S to 6S."""
    bec = "- {spec: bec, kind: regulator, mass: 8 g, cells: 4S-6S, voltage: 5 V}\n"
    log = "- on: 2026-05-01\n  fit: {centre: {regulator: B-01}}\n"
    files = {
        **QUIET,
        "parts/specs.yaml": SPECS + bec,
        "parts/items.yaml": QUIET["parts/items.yaml"] + "- {tag: B-01, spec: bec}\n",
        "aircraft/sedge/logbook.yaml": log + QUIET["aircraft/sedge/logbook.yaml"],
    }
    hangar = Hangar(tmp_path, files)

    assert "grounded" == hangar.state()
    assert ["ratings of B-01 at centre: failed, takes 4S to 6S, P-01 is 3S"] == hangar.reasons()
