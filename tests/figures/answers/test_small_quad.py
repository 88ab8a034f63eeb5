"""A quad of 1.2 kg whose figures are worked out by hand in the docstrings."""

from pathlib import Path

import pytest
from small_hangars import LOG, QUAD, SMALL, SPECS, found, quad, refused

from buildbook.figures.answers.registry import FIGURES


@pytest.fixture(scope="module")
def answers(tmp_path_factory: pytest.TempPathFactory):  # type: ignore[no-untyped-def]
    """The figures of the small quad as it stands."""
    return quad(tmp_path_factory.mktemp("quad"))


def test_all_up_mass_is_the_sum_of_parts_until_it_is_weighed(answers) -> None:  # type: ignore[no-untyped-def]
    """500 + 4·(50 + 20 + 10) + 30 + 350 = 1200 g."""
    figure = found(answers, "all_up_mass", "P-1")

    assert pytest.approx(1.2) == figure.value
    assert ("added up from the parts, never weighed",) == figure.notes
    assert "100 g below the limit" == figure.verdict
    assert "spec" == figure.basis
    assert ("sum of the masses of all parts", True) == (figure.formula, figure.by_method)


def test_the_budget_lists_every_part_with_its_share(answers) -> None:  # type: ignore[no-untyped-def]
    """15 rows: 12 on the arms, frame, controller, pack; the frame is 500 of 1200 g."""
    table = found(answers, "mass_budget").table
    assert table is not None

    assert ("group", "part", "mass_kg", "share") == table.columns
    assert 15 == len(table.rows)
    assert ("frame", "F-1", 0.5, pytest.approx(500 / 1200)) in table.rows


def test_hover_power_by_momentum_theory(answers) -> None:  # type: ignore[no-untyped-def]
    """1.2 kg on four 0.254 m disks at 1.225 kg/m³ and figure of merit 0.65: 88.135 W.

    Source: actuator disk theory, row "quad hover" of the check values, section 3. That is at the
    shafts; from the pack it is over the default efficiencies of motor and ESC, 0.78 and 0.95
    (from memory; 0.92 to 0.97 for the ESC in the list of figures).
    """
    figure = found(answers, "hover_power")

    assert pytest.approx(88.135 / (0.78 * 0.95), rel=1e-4) == figure.value
    assert "hover_power_w" == figure.law
    assert figure.formula == "P = F^1.5 / (M·sqrt(2·ρ·A)), over η_motor·η_ESC"
    assert (
        "what motor and ESC lose is a default: 70 % to 86 % and 92 % to 97 % of the power come"
        " through"
    ) in figure.notes


def test_hover_power_changes_most_with_mass(answers) -> None:  # type: ignore[no-untyped-def]
    """Power goes as mass^1.5 and as 1/D and 1/M: 1 % more gives 1.504 %, -0.990 %, -0.990 %."""
    power = found(answers, "hover_power")
    moved = {one.input.whole: one.share_per_percent for one in power.sensitivity}

    assert "all-up mass with P-1" == next(iter(moved))
    assert pytest.approx(1.01**1.5 - 1) == moved["all-up mass with P-1"]
    assert pytest.approx(1 / 1.01 - 1) == moved["diameter of prop-ccw"]
    assert pytest.approx(1 / 1.01 - 1) == moved["figure of merit of prop-ccw"]


def test_hover_current_is_power_over_nominal_voltage(answers) -> None:  # type: ignore[no-untyped-def]
    """118.94 W over 3·3.7 V = 10.715 A."""
    assert (
        pytest.approx(88.135 / (0.78 * 0.95) / 11.1, rel=1e-4)
        == found(answers, "hover_current").value
    )


def test_disk_loading(answers) -> None:  # type: ignore[no-untyped-def]
    """2.94200 N on 0.050671 m²: 58.061 N/m². Source: check values, section 3, quad hover."""
    figure = found(answers, "disk_loading")

    assert pytest.approx(58.061, rel=1e-4) == figure.value
    assert "Pa" == figure.unit


def test_air_of_the_field(answers) -> None:  # type: ignore[no-untyped-def]
    """Sea level and 15 °C are the standard atmosphere: 1.225 kg/m³, 0 m (ISA)."""
    assert pytest.approx(1.225, rel=1e-5) == found(answers, "air_density").value
    assert pytest.approx(0.0, abs=0.1) == found(answers, "density_altitude").value


def test_balance_from_the_places_of_parts(answers) -> None:  # type: ignore[no-untyped-def]
    """Only the pack is off the plane: 350 g 30 mm down of 1200 g is 8.75 mm down."""
    assert pytest.approx(0.0, abs=1e-12) == found(answers, "balance", "forward").value
    assert pytest.approx(0.0, abs=1e-12) == found(answers, "balance", "right").value
    assert pytest.approx(0.00875) == found(answers, "balance", "down").value
    assert ("from the places of the parts, never weighed",) == found(
        answers, "balance", "forward"
    ).notes


def test_inertia_about_three_axes(answers) -> None:  # type: ignore[no-untyped-def]
    """Four times 80 g at (±0.16, ±0.16) m give 4·0.08·0.0256 = 8.192e-3 in the plane.

    The frame of 500 g, even rods to the motors: a third of what it would give at their ends,
    0.5·0.0256/3 = 4.2667e-3 (m·l²/3 of a rod about its end).
    Down: frame and arms 8.75 mm, pack 21.25 mm from the centre of gravity:
    0.85·0.00875² + 0.35·0.02125² = 2.2313e-4. I = sum of m r² (definition).
    """
    about = {
        axis: found(answers, "balance", f"inertia about the {axis} axis").value
        for axis in ("forward", "right", "down")
    }

    assert pytest.approx(8.192e-3 + 4.2667e-3 + 2.2313e-4, rel=1e-4) == about["forward"]
    assert pytest.approx(8.192e-3 + 4.2667e-3 + 2.2313e-4, rel=1e-4) == about["right"]
    assert pytest.approx(2 * (8.192e-3 + 4.2667e-3), rel=1e-4) == about["down"]


def test_flight_time_before_the_first_flight(answers) -> None:  # type: ignore[no-untyped-def]
    """24.42 Wh, 80 % of it, at 118.94 W are 9.9 min at even voltage; the curve moves it a bit.

    The low end is the headline, and it is said that nothing was flown.
    """
    figure = found(answers, "flight_time", "P-1")
    assert figure.value is not None
    assert figure.low is not None
    assert figure.high is not None

    assert pytest.approx(24.42 * 0.8 / (88.135 / 0.78 / 0.95) * 3600, rel=0.06) == figure.value
    assert figure.low < figure.value < figure.high
    assert figure.verdict is not None
    assert figure.verdict.endswith("; not yet flown")
    assert "the reserve ends it; 20 % of the capacity is kept" in figure.notes


def test_timer_is_the_low_end(answers) -> None:  # type: ignore[no-untyped-def]
    """The reserve is kept in the flight time already, so it is not taken off twice."""
    time, timer = found(answers, "flight_time", "P-1"), found(answers, "timer_setting", "P-1")

    assert time.low == timer.value


def test_spins_of_a_quad(answers) -> None:  # type: ignore[no-untyped-def]
    """Diagonal pairs alike, neighbours opposite: usable (check values, section 8)."""
    figure = found(answers, "rotation_balance")

    assert 0 == figure.value
    assert "the spins cancel; roll, pitch, yaw and height are all controllable" == figure.verdict
    assert "rank 4" == found(answers, "allocation", "matrix").verdict


def test_even_shares_about_the_middle(answers) -> None:  # type: ignore[no-untyped-def]
    """The centre of gravity is in the middle: each rotor carries a quarter."""
    table = found(answers, "allocation", "hover shares").table
    assert table is not None

    assert [pytest.approx(0.25)] * 4 == [row[1] for row in table.rows]


def test_places_point_at_the_lines_to_change(answers) -> None:  # type: ignore[no-untyped-def]
    """Each input names the file and line of its value."""
    inputs = {given.name: given for given in found(answers, "flight_time", "P-1").inputs}

    assert "parts/specs.yaml:11" == str(inputs["capacity of pack"].place)
    assert "hangar.yaml:6" == str(inputs["reserve"].place)
    assert "parts/specs.yaml:15" == str(inputs["resistance of P-1"].place)
    assert "default" == inputs["cut-off of a cell of pack"].basis


@pytest.mark.parametrize(
    ("name", "of", "because", "place"),
    [
        (
            "thrust_to_weight",
            None,
            "no bench table of motor: write 'bench' in its spec; and without it: kv of motor is "
            "not recorded: write 'kv' in its spec",
            "parts/specs.yaml:2",
        ),
        (
            "hover_throttle",
            None,
            "neither a bench table nor the motor's constants give it: kv of motor is not "
            "recorded: write 'kv' in its spec",
            "parts/specs.yaml:2",
        ),
        (
            "flown_current",
            None,
            "flights with their charge so far: 0; it takes 4: write what each took, as 'used'",
            "aircraft/sedge/aircraft.yaml:1",
        ),
        (
            "failure_rate",
            None,
            "nothing was flown yet",
            "aircraft/sedge/aircraft.yaml:1",
        ),
        (
            "gain_changes",
            None,
            "no gain set is recorded: write down the one in the controller, as 'gains'",
            "aircraft/sedge/aircraft.yaml:1",
        ),
        (
            "receiver_neutral",
            None,
            "no readings of receiver-neutral are recorded: do the check and write its 'readings'",
            "aircraft/sedge/aircraft.yaml:1",
        ),
    ],
)
def test_what_cannot_be_said(answers, name, of, because, place) -> None:  # type: ignore[no-untyped-def]
    """The words name what is missing and where to write it."""
    assert (because, place) == refused(answers, name, of)


def test_a_part_without_a_mass_is_listed_and_stops_the_sum(tmp_path: Path) -> None:
    """No mass is not zero mass."""
    specs = SPECS.replace("kind: controller, mass: 30 g", "kind: controller")
    answers = quad(tmp_path, {**SMALL, "parts/specs.yaml": specs})
    because = "mass of C-1 is not recorded: write 'mass' in its spec controller or in the item"

    assert (because, "parts/specs.yaml:6") == refused(answers, "all_up_mass", "P-1")
    budget = found(answers, "mass_budget")
    assert budget.table is not None
    assert ("unknown", "mass of C-1", None, None) == budget.table.rows[-1]
    assert "each share is of what has a mass" in budget.notes
    assert because in budget.notes


def test_a_wrong_hand_is_told_by_station(tmp_path: Path) -> None:
    """A cw propeller where ccw is planned pushes down."""
    log = LOG.replace("propeller: R-3", "propeller: R-2").replace(
        "rear-left: {motor: M-4, esc: E-4, propeller: R-2}",
        "rear-left: {motor: M-4, esc: E-4, propeller: R-3}",
    )
    figure = found(
        quad(tmp_path, {**SMALL, "aircraft/sedge/logbook.yaml": log}), "rotation_balance"
    )

    assert (
        "front-left: a cw propeller where ccw is planned; rear-left: a ccw propeller where cw is "
        "planned; the spins cancel; roll, pitch, yaw and height are all controllable"
    ) == figure.verdict


def test_front_pair_alike_is_rank_three(tmp_path: Path) -> None:
    """Both front ccw, both rear cw: the sum is zero, yet yaw cannot be told from pitch.

    Source: check values, section 8, "pairs alike front/rear".
    """
    layout = QUAD.replace("front-right: {spin: cw,", "front-right: {spin: ccw,").replace(
        "rear-right:  {spin: ccw,", "rear-right:  {spin: cw,"
    )
    answers = quad(tmp_path, {**SMALL, "aircraft/sedge/aircraft.yaml": layout})
    figure = found(answers, "rotation_balance")

    assert 0 == figure.value
    assert str(figure.verdict).endswith(
        "rank below 4: yaw cannot be controlled apart from roll and pitch"
    )
    assert ("the layout must have rank 4, got 3", None) == refused(
        answers, "allocation", "hover shares"
    )


def test_defaults_are_named_in_the_same_breath(tmp_path: Path) -> None:
    """Without field, reserve or figure of merit the figures say what they rest on."""
    files = {
        **SMALL,
        "hangar.yaml": "format: 1\nhangar: Test shed\n",
        "parts/specs.yaml": SPECS.replace(", figure_of_merit: 0.65", ""),
    }
    answers = quad(tmp_path, files)
    figure = found(answers, "hover_power")

    assert "default" == figure.basis
    assert (
        "rests on what is assumed: field elevation, field temperature, figure of merit of prop-ccw,"
        " efficiency of the motors, efficiency of the ESCs"
    ) == figure.notes[0]
    assert (
        "rests on what is assumed: field elevation, field temperature"
        == (found(answers, "air_density").notes[0])
    )


def test_figures_stand_in_the_order_of_the_registry(answers) -> None:  # type: ignore[no-untyped-def]
    """So that a page and the terminal read alike."""
    order = [spec.name for spec in FIGURES if spec.is_of_aircraft]
    positions = [order.index(figure.name) for figure in answers.figures]

    assert sorted(positions) == positions


def test_what_motor_and_esc_may_lose_widens_the_time(answers) -> None:  # type: ignore[no-untyped-def]
    """Power 15 % off either way, and the ranges of both efficiencies: 0.70 to 0.86, 0.92 to 0.97.

    Time goes nearly as one over power: the low end near 1/(1.15·1.151) of the value, the high
    end near 1/(0.85·0.888). The low end is that of a pack at 15 °C, not 20: 2.5 % less.
    """
    figure = found(answers, "flight_time", "P-1")
    most = 1.15 * (0.78 * 0.95) / (0.70 * 0.92)
    least = 0.85 * (0.78 * 0.95) / (0.86 * 0.97)

    assert pytest.approx(figure.value / most * 0.975, rel=0.03) == figure.low
    assert pytest.approx(figure.value / least, rel=0.03) == figure.high
