"""Weight over area: disks of rotors, wings; and the speed below which a wing stalls."""

import math

import msgspec

from buildbook.basis import amounts
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import Lacking, declared, default, from_figure, number
from buildbook.figures.answers.mass.budget import mass_with
from buildbook.figures.answers.propulsion.air import density
from buildbook.figures.answers.propulsion.rotors import alike, diameter, propeller_of
from buildbook.figures.answers.spec import FigureSpec, hovering, winged
from buildbook.figures.answers.working import by_law, worked
from buildbook.figures.laws.aero.hover import disk_area_m2, disk_loading_n_m2, hover_thrust_n
from buildbook.figures.laws.aero.wing import (
    banked_stall_speed_m_s,
    stall_speed_m_s,
    wing_loading_kg_m2,
)
from buildbook.figures.laws.constants import STANDARD_GRAVITY_M_S2
from buildbook.figures.laws.law import CUSTOM
from buildbook.report.figure import Figure, Input, Name, Table
from buildbook.report.figures.known_figures import Headline

# Lift coefficient at the stall of a plain model wing. Common practice, no source.
MAX_LIFT_COEFFICIENT, MAX_LIFT_RANGE = 1.1, (0.8, 1.4)
BANKS = (0, 15, 30, 45, 60, 75)
STEEP = 60  # twice its weight


def _mass(craft: Craft) -> Input:
    pack = craft.pack
    return from_figure(mass_with(craft, pack), Name("all-up mass", "with", pack.tag))


def disk_loading(craft: Craft) -> Figure:
    """Hover thrust of a rotor over the area that it sweeps."""
    smallest = min(
        (diameter(propeller_of(craft, group.rotor)) for group in alike(craft)), key=number
    )
    rotors = len(craft.rotors)

    def loading(mass_kg: float, diameter_m: float) -> float:
        return disk_loading_n_m2(hover_thrust_n(mass_kg, rotors), disk_area_m2(diameter_m))

    law, thrust = by_law("disk_loading_n_m2"), by_law("hover_thrust_n")
    figure = worked(
        "disk_loading",
        loading,
        {"mass_kg": _mass(craft), "diameter_m": smallest},
        unit="Pa",
        way=law.written(f"{law.formula}; {thrust.formula}"),
        notes=("each of a pair one above the other counted alone",) if craft.coaxial else (),
    )
    kg_m2 = (figure.value or 0.0) / STANDARD_GRAVITY_M_S2
    return msgspec.structs.replace(
        figure,
        verdict=f"{amounts.significant(kg_m2, 3)} kg/m²",
        other={"kg/m²": kg_m2},
        in_verdict=("kg/m²",),
    )


def wing_area(craft: Craft) -> Input:
    """Wing area in m². Lacking: none is written."""
    record, wing = craft.now.record, craft.now.record.wing
    if wing is None or wing.area_m2 is None:
        raise Lacking(
            "the wing area is not recorded: write 'area' under 'wing' in aircraft.yaml",
            record.place("wing"),
        )
    return declared("wing area", wing.area_m2, "m²", record.place("wing.area"))


def wing_loading(craft: Craft) -> Figure:
    """Weight over wing area."""

    def loading(mass_kg: float, wing_area_m2: float) -> float:
        return wing_loading_kg_m2(mass_kg, wing_area_m2) * STANDARD_GRAVITY_M_S2

    law = by_law("wing_loading_kg_m2")
    figure = worked(
        "wing_loading",
        loading,
        {"mass_kg": _mass(craft), "wing_area_m2": wing_area(craft)},
        unit="Pa",
        way=law.written(f"{law.formula}, times g = {STANDARD_GRAVITY_M_S2} m/s²"),
    )
    kg_m2 = (figure.value or 0.0) / STANDARD_GRAVITY_M_S2
    return msgspec.structs.replace(
        figure,
        verdict=f"{amounts.significant(kg_m2, 3)} kg/m², {figure.value or 0.0:.1f} Pa",
        other={"kg/m²": kg_m2, "g/dm²": kg_m2 * 10},
        in_verdict=("kg/m²", "g/dm²"),  # the value is said in g/dm²
    )


def stall_speed(craft: Craft) -> Figure:
    """The stall speed in level flight, in m/s. Lacking: no wing area, or no mass."""
    record, wing = craft.now.record, craft.now.record.wing
    area = wing_area(craft)
    if wing is not None and wing.max_lift_coefficient is not None:
        place = record.place("wing.max_lift_coefficient")
        lift = declared("greatest lift coefficient", wing.max_lift_coefficient, "ratio", place)
    else:
        place = record.place("wing")
        words = f"{MAX_LIFT_RANGE[0]:g} to {MAX_LIFT_RANGE[1]:g}; {CUSTOM}"
        lift = default("greatest lift coefficient", MAX_LIFT_COEFFICIENT, "ratio", words, place)
    inputs = {
        "mass_kg": _mass(craft),
        "wing_area_m2": area,
        "max_lift_coefficient": lift,
        "density_kg_m3": density(craft),
    }
    values = {key: number(one) for key, one in inputs.items()}
    slow, fast = (
        stall_speed_m_s(**{**values, "max_lift_coefficient": most}) for most in MAX_LIFT_RANGE[::-1]
    )
    assumed = lift.basis == "default"
    return worked(
        "stall_speed",
        stall_speed_m_s,
        inputs,
        low=slow if assumed else None,
        high=fast if assumed else None,
        unit="m/s",
        way=by_law("stall_speed_m_s"),
        notes=("level flight; a turn or a gust takes more",),
    )


def banked_stall_speed(craft: Craft) -> Figure:
    """The speed below which the wing stalls in a level turn, for several banks."""
    stall = stall_speed(craft)
    level = from_figure(stall, "stall speed, level")
    law = by_law("banked_stall_speed_m_s")

    def speed(level_stall_speed_m_s: float, bank: float) -> float:
        return banked_stall_speed_m_s(level_stall_speed_m_s, math.radians(bank))

    rows = tuple(
        (f"{bank}°", speed(number(level), bank), 1 / math.cos(math.radians(bank))) for bank in BANKS
    )
    return worked(
        "banked_stall_speed",
        lambda level_stall_speed_m_s: speed(level_stall_speed_m_s, STEEP),
        {"level_stall_speed_m_s": level},
        unit="m/s",
        way=law,
        low=None if stall.low is None else speed(stall.low, STEEP),
        high=None if stall.high is None else speed(stall.high, STEEP),
        verdict=f"at {STEEP}° of bank",
        table=Table(columns=("bank", "stall_m_s", "times its weight"), rows=rows),
        notes=("a level turn; pulling harder stalls earlier",),
    )


FIGURES = (
    FigureSpec(
        name="disk_loading",
        title="Disk loading",
        line="Mass over the area that the propellers sweep.",
        about="Hover thrust of a rotor over the area that it sweeps.",
        topic="Mass and balance",
        unit="Pa",
        shown="public",
        asked_of=hovering,
        of_aircraft=disk_loading,
        laws=(
            "disk_loading_n_m2",
            "hover_thrust_n",
            "disk_area_m2",
        ),
        held_by=(
            "tests/published/test_flight_hover.py",
            "tests/figures/answers/test_small_quad.py",
        ),
    ),
    FigureSpec(
        name="wing_loading",
        title="Wing loading",
        line="Mass over the area of the wing.",
        about="Weight over wing area.",
        topic="Mass and balance",
        unit="Pa",
        worded="wing loading",
        shown="public",
        asked_of=winged,
        of_aircraft=wing_loading,
        laws=("wing_loading_kg_m2",),
        held_by=(
            "tests/published/test_flight_wing.py",
            "tests/figures/answers/test_weighed.py",
        ),
        headline=Headline(place=9),
    ),
    FigureSpec(
        name="stall_speed",
        title="Stall speed",
        line="The slowest level flight.",
        about="The speed below which the wing stalls in level flight.",
        topic="Mass and balance",
        unit="m/s",
        shown="public",
        asked_of=winged,
        of_aircraft=stall_speed,
        laws=("stall_speed_m_s",),
        held_by=(
            "tests/published/test_flight_wing.py",
            "tests/figures/answers/test_weighed.py",
        ),
        headline=Headline(place=10),
    ),
    FigureSpec(
        name="banked_stall_speed",
        title="Stall speed in a turn",
        line="The slowest level turn at 60° of bank, and at others.",
        about="The speed below which the wing stalls in a level turn, by its bank.",
        topic="Mass and balance",
        unit="m/s",
        shown="public",
        asked_of=winged,
        of_aircraft=banked_stall_speed,
        laws=("banked_stall_speed_m_s", "stall_speed_m_s"),
        held_by=(
            "tests/published/test_flight_wing.py",
            "tests/figures/answers/test_trim_and_turns.py",
        ),
    ),
)
