"""Whatever is missing, zero, absurd or contradictory: a finite figure, or words why not."""

import json
import math
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import msgspec
import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from small_hangars import LAST, LOG, benched, opened
from test_log_and_packs import flights

from buildbook.basis import amounts
from buildbook.figures.answers.registry import (
    FIGURES,
    figures_of_aircraft,
    figures_of_item,
)
from buildbook.hangar.fold import fold
from buildbook.records.aircraft import Wing
from buildbook.records.ledger import Ledger
from buildbook.records.parts import Cells
from buildbook.report.figure import Answers
from buildbook.report.state import Hangar

UNITS = {spec.name: {spec.unit, *spec.further_units} for spec in FIGURES}
BASES = {"measured", "spec", "default", "fitted"}
MORE = (
    "- {on: 2026-02-20, gains: one, values: {roll: {p: 0, i: 0}, pitch: {p: 4, i: 2}}}\n"
    "- {on: 2026-02-20, weigh: 1210 g, pack: P-1, scales: {front-left: 600 g, rear-right: 610 g}}\n"
    "- {on: 2026-02-20, capacity: P-1, measured: 2150 mAh}\n"
)
AWKWARD = st.sampled_from(
    [None, 0.0, -1.0, 1e-12, 1e-3, 0.5, 1.0, 3.0, 40.0, 1e6, 1e300, math.inf, math.nan]
)
SPEC_FIELDS = (
    "mass_kg",
    "kv_rpm_v",
    "resistance_ohm",
    "no_load_current_a",
    "max_current_a",
    "continuous_current_a",
    "thrust_coefficient",
    "power_coefficient",
    "figure_of_merit",
    "capacity_ah",
    "discharge_rate_c",
    "charge_rate_c",
    "cell_resistance_ohm",
    "nominal_cell_voltage_v",
    "cutoff_cell_voltage_v",
)
KEEPER_FIELDS = (
    "field_elevation_m",
    "field_temperature_k",
    "reserve_share",
    "pack_end_of_life_share",
)


class Whole:
    """Holds a hangar, with a name that is short enough to be printed."""

    def __init__(self, hangar: Hangar) -> None:
        self.hangar = hangar

    def __repr__(self) -> str:
        return "Whole"


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Whole:
    """A hangar in which nearly everything is written."""
    return Whole(opened(tmp_path_factory.mktemp("whole"), benched(MORE + flights(14))))


def all_answers(hangar: Hangar) -> list[Answers]:
    """Of every aircraft and every item."""
    found = [figures_of_aircraft(hangar, slug) for slug in hangar.aircraft]
    return found + [figures_of_item(hangar, tag) for tag in hangar.items]


def check(answers: Answers) -> None:
    """Finite numbers, known units and bases, words, and JSON all the way."""
    for figure in answers.figures:
        numbers = [figure.value, figure.low, figure.high, *figure.other.values()]
        numbers += [moved.share_per_percent for moved in figure.sensitivity]
        numbers += [cell for row in figure.table.rows for cell in row] if figure.table else []
        for number in numbers:
            assert number is None or isinstance(number, str) or math.isfinite(number), figure
        assert figure.unit in UNITS[figure.name], figure
        assert figure.basis in BASES, figure
        assert figure.formula, figure
        assert figure.source, figure
        assert figure.value is not None or figure.table is not None or figure.verdict, figure
        for one in figure.inputs:
            assert one.basis in BASES, figure
            if isinstance(one.value, int | float):
                assert amounts.figure(one.value, one.unit), figure
    for missing in answers.cannot_say:
        assert missing.because, missing
        assert "Traceback" not in missing.because
    json.dumps(msgspec.to_builtins(answers), allow_nan=False)


def with_specs(ledger: Ledger, changes: Mapping[str, Any]) -> Ledger:
    """The ledger with the same fields of every spec replaced."""
    specs = {name: msgspec.structs.replace(spec, **changes) for name, spec in ledger.specs.items()}
    return msgspec.structs.replace(ledger, specs=specs)


def test_a_full_hangar_answers_every_name(whole: Whole) -> None:
    """Each name of the registry is answered or refused, for the kinds that it applies to."""
    answers = figures_of_aircraft(whole.hangar, "sedge")
    named = {one.name for one in (*answers.figures, *answers.cannot_say)}

    assert {
        "wing_loading",
        "stall_speed",
        "regulator_margin",
        "rotor_loss",
        "battery_shift",
        "motor_endurance",
        "plug_margin",
        "sensor_margin",
        "banked_stall_speed",
        "ballast",
        "climb_rate",
        "pitch_speed",
        "servo_torque",
    } == ({spec.name for spec in FIGURES if spec.is_of_aircraft} - named)
    answers = figures_of_item(whole.hangar, "P-1")
    named = {one.name for one in (*answers.figures, *answers.cannot_say)}
    assert {spec.name for spec in FIGURES if spec.of_item or spec.of_pack} == named


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@example(
    spec={"max_current_a": math.nan},
    keeper={},
    chemistry=None,
    cells=Cells(3, 3),
    diagonal=None,
    layout="quad-x",
)
@given(
    spec=st.dictionaries(st.sampled_from(SPEC_FIELDS), AWKWARD, max_size=4),
    keeper=st.dictionaries(st.sampled_from(KEEPER_FIELDS), AWKWARD, max_size=2),
    chemistry=st.sampled_from([None, "LiPo", "NiMH", "Unobtainium"]),
    cells=st.sampled_from([None, Cells(0, 0), Cells(3, 3), Cells(200, 200, 0)]),
    diagonal=AWKWARD,
    layout=st.sampled_from(["quad-x", "custom", "aeroplane", "nowhere"]),
)
def test_any_values_give_figures_or_words(
    whole: Whole,
    spec: dict[str, Any],
    keeper: dict[str, Any],
    chemistry: str | None,
    cells: Cells | None,
    diagonal: float | None,
    layout: str,
) -> None:
    """Values that no reader would let through change nothing about that."""
    ledger = with_specs(whole.hangar.ledger, {**spec, "chemistry": chemistry, "cells": cells})
    record = msgspec.structs.replace(
        ledger.aircraft["sedge"],
        diagonal_m=diagonal,
        layout=layout,
        kind="aeroplane" if layout == "aeroplane" else "multirotor",
        wing=Wing(area_m2=diagonal, mean_chord_m=diagonal, leading_edge_m=0.0),
    )
    ledger = msgspec.structs.replace(
        ledger,
        keeper=msgspec.structs.replace(ledger.keeper, **keeper),
        aircraft={"sedge": record},
    )

    for answers in all_answers(fold(ledger, LAST)):
        check(answers)


@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(kept=st.sets(st.integers(min_value=0, max_value=39)), days=st.integers(0, 300))
def test_any_part_of_a_log_gives_figures_or_words(whole: Whole, kept: set[int], days: int) -> None:
    """Entries left out, on any day."""
    import datetime

    entries = tuple(
        entry for number, entry in enumerate(whole.hangar.ledger.entries) if number not in kept
    )
    ledger = msgspec.structs.replace(whole.hangar.ledger, entries=entries)
    day = datetime.date(2026, 1, 1) + datetime.timedelta(days=days)

    for answers in all_answers(fold(ledger, day)):
        check(answers)


def test_an_empty_aircraft_says_what_it_lacks(tmp_path: Path) -> None:
    """Nothing but a name and a layout."""
    files = {
        "hangar.yaml": "format: 1\nhangar: Empty\n",
        "aircraft/bare/aircraft.yaml": "aircraft: Bare\nkind: multirotor\nlayout: hexa-x\n",
    }
    answers = figures_of_aircraft(opened(tmp_path, files), "bare")

    check(answers)
    assert {"air_density", "density_altitude", "aircraft_hours", "aircraft_flights"} == {
        figure.name for figure in answers.figures
    }
    assert all(missing.place is not None for missing in answers.cannot_say)


def test_the_demo_figures_hold_no_gap(tmp_path: Path) -> None:
    """The same twice, and every input of the small hangar has a place or is a default."""
    hangar = opened(tmp_path, benched(flights(14)))
    answers = figures_of_aircraft(hangar, "sedge")

    assert answers == figures_of_aircraft(hangar, "sedge")
    without = [
        (figure.name, given.name)
        for figure in answers.figures
        for given in figure.inputs
        if given.place is None and given.basis != "default"
    ]
    assert [] == without
    assert LOG.startswith("- on:")
