"""What servos need: torque to hold surfaces against the air, current from the regulator."""

import math
from collections.abc import Iterator

from buildbook.basis import amounts
from buildbook.basis.place import Place
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import (
    Lacking,
    declared,
    default,
    from_figure,
    number,
    of_spec,
)
from buildbook.figures.answers.mass.loading import stall_speed
from buildbook.figures.answers.propulsion.air import density
from buildbook.figures.answers.propulsion.loads import warned_of
from buildbook.figures.answers.spec import FigureSpec, winged
from buildbook.figures.answers.working import Answer, Way, attempt, by_law, worked
from buildbook.figures.laws.aero.wing import hinge_moment_nm, servo_torque_nm
from buildbook.figures.laws.law import CUSTOM
from buildbook.figures.laws.propulsion.margins import current_margin
from buildbook.records.surfaces import Surface, throw_read
from buildbook.report.figure import Figure, Input, Name, Table, called
from buildbook.report.state import ItemNow

# Of a plain flap, a degree of deflection. NACA Report 278 as quoted second-hand: 18 x 1.8 in at
# 40 mph take 2, 3.2 and 6.4 oz·in at 5°, 10° and 20°, which are 0.0151, 0.0121 and 0.0121 a degree.
PER_DEGREE_RANGE = (0.0121, 0.0151)
OVER_STALL = 3.5  # of a dive. Common practice, no source.
SHARES = (0.5, 0.75, 1.0, 1.25)


def servo_torque(craft: Craft) -> Iterator[Answer]:
    """For each surface with a servo of its own record."""
    if not craft.hovers:
        for name, surface in craft.now.surfaces.items():
            yield attempt("servo_torque", name, _torque, craft, name, surface)


def _speed(craft: Craft) -> Input:
    wing, record = craft.now.record.wing, craft.now.record
    if wing is not None and wing.fastest_m_s is not None:
        return declared("fastest", wing.fastest_m_s, "m/s", record.place("wing.fastest"))
    stall = number(from_figure(stall_speed(craft)))
    words = (
        f"{OVER_STALL:g} times the stall speed, as in a dive: {CUSTOM}; "
        "'fastest' under 'wing' replaces it"
    )
    return default("fastest", OVER_STALL * stall, "m/s", words, record.place("wing"))


def _torque(craft: Craft, name: str, surface: Surface) -> Figure:
    place = craft.now.places.get(f"surfaces.{name}", craft.where("surfaces"))
    chord = _written(surface.chord_m, Name("chord", "of", name), "chord", place)
    inputs = {
        "airspeed_m_s": _speed(craft),
        "density_kg_m3": density(craft),
        "surface_chord_m": chord,
        "surface_length_m": _written(surface.length_m, Name("length", "of", name), "length", place),
        "per_degree": default(
            "hinge moment coefficient a degree",
            PER_DEGREE_RANGE[1],
            "ratio",
            f"{PER_DEGREE_RANGE[0]:g} to {PER_DEGREE_RANGE[1]:g}, the most of it taken: a plain "
            "flap, NACA Report 278, second-hand",
        ),
        "degrees": _deflection(surface, name, number(chord), place),
        **_arms(surface, place),
    }
    servos = max(1, len(surface.servos))

    def torque(
        per_degree: float,
        degrees: float,
        servo_arm_m: float,
        horn_m: float,
        **air: float,
    ) -> float:
        moment = hinge_moment_nm(**air, hinge_coefficient=per_degree * degrees)
        return servo_torque_nm(moment, servo_arm_m, horn_m, math.radians(degrees)) / servos

    given = {key: number(one) for key, one in inputs.items()}
    _must_reach(name, given["servo_arm_m"], given["horn_m"], given["degrees"])
    needed = torque(**given)
    item = _weakest(craft, surface)
    rated = None if item is None else item.spec.torque_nm
    speeds = [given["airspeed_m_s"] * share for share in SHARES]
    least = torque(**{**given, "per_degree": PER_DEGREE_RANGE[0]})
    rows = tuple(_row(speed, torque(**{**given, "airspeed_m_s": speed}), rated) for speed in speeds)
    hinge, rod = by_law("hinge_moment_nm"), by_law("servo_torque_nm")
    return worked(
        "servo_torque",
        torque,
        inputs,
        unit="N·m",
        way=Way(
            formula=f"{hinge.formula}; {rod.formula}",
            source=f"{hinge.source}; {rod.source}",
            law="servo_torque_nm",
            by_method=hinge.by_method,
        ),
        of=name,
        low=least,
        high=needed,
        verdict=_against(needed, item, rated) + _drives_too(craft, name, surface),
        table=Table(columns=("speed_m_s", "torque", "share"), rows=rows),
        notes=(
            "surface held out all the way, in calm air; what the wing's own angle adds is left out",
            *((f"shared by {servos} servos",) if servos > 1 else ()),
        ),
    )


def _must_reach(name: str, servo_arm_m: float, horn_m: float, degrees: float) -> None:
    """ValueError: no turn of the servo moves the surface so far."""
    if horn_m * math.sin(math.radians(degrees)) >= servo_arm_m:
        raise ValueError(
            f"a servo arm of {amounts.length(servo_arm_m)} cannot throw {name} "
            f"{amounts.angle(degrees)} by a horn of {amounts.length(horn_m)}: 'servo_arm', 'horn' "
            "or the throw is wrong"
        )


def _weakest(craft: Craft, surface: Surface) -> ItemNow | None:
    """The servo with the least torque, or of which none is recorded; None: there is no servo."""
    items = [one for one in map(craft.hangar.items.get, surface.servos) if one is not None]
    return min(items, key=lambda one: one.spec.torque_nm or 0.0, default=None)


def _drives_too(craft: Craft, name: str, surface: Surface) -> str:
    """What else a servo of it drives, which is not in its number."""
    others = [
        other
        for other, one in craft.now.surfaces.items()
        if other != name and {*one.servos} & {*surface.servos}
    ]
    return f"; it drives {amounts.listed(others)} too: add both" if others else ""


def _row(speed: float, torque: float, rated: float | None) -> tuple[float, str, float | None]:
    return speed, amounts.torque(torque), None if rated is None else torque / rated


def _against(needed: float, item: ItemNow | None, rated: float | None) -> str:
    if item is None:
        return "no servo is recorded for it"
    if rated is None:
        return f"no torque of {item.spec.spec} is recorded: write 'torque' in its spec"
    return f"up to {needed / rated * 100:.0f} % of the {amounts.servo_rating(rated)} of {item.tag}"


def _written(value: float | None, name: Name | str, key: str, place: Place) -> Input:
    if value is None:
        raise Lacking(
            f"the {called(name).whole} is not recorded: write {key!r} under 'surfaces'", place
        )
    return declared(name, value, "m", place)


def _arms(surface: Surface, place: Place) -> dict[str, Input]:
    """Both arms as written, else alike: then the servo has the moment of the hinge."""
    if surface.servo_arm_m is not None and surface.horn_m is not None:
        return {
            "servo_arm_m": _written(surface.servo_arm_m, "servo arm", "servo_arm", place),
            "horn_m": _written(surface.horn_m, "horn", "horn", place),
        }
    words = "arm and horn taken as alike; 'servo_arm' and 'horn' of the surface replace it"
    return {
        "servo_arm_m": default("servo arm", 0.01, "m", words),
        "horn_m": default("horn", 0.01, "m", words),
    }


def _deflection(surface: Surface, name: str, chord_m: float, place: Place) -> Input:
    """The largest throw of any rate, in degrees. Lacking: none is written."""
    throws = [surface, *surface.rates.values()]
    written = [
        one
        for each in throws
        for one in (each.up, each.down, each.left, each.right)
        if one is not None
    ]
    if not written:
        raise Lacking(f"no throw of {name} is recorded: write 'up' and 'down' of it", place)
    largest = max(_degrees(one, chord_m) for one in written)
    return declared(Name("largest throw", "of", name), largest, "deg", place)


def _degrees(written: str, chord_m: float) -> float:
    throw, dimension = throw_read(written)
    if dimension == "angle":
        return throw
    if throw >= chord_m:
        raise ValueError(f"a throw of {written} is more than the chord of the surface")
    return math.degrees(math.asin(throw / chord_m))


def _all_of_kind(craft: Craft, kind: str) -> list[ItemNow]:
    items = (craft.hangar.items.get(one.tag) for one in craft.now.items() if one.kind == kind)
    return sorted((item for item in items if item is not None), key=lambda item: item.tag)


def regulator_margin(craft: Craft) -> Figure:
    """All servos at once against the regulator."""
    servos = _all_of_kind(craft, "servo")
    if not servos:
        raise Lacking("no servo is fitted: write it as 'fit' once it is on", craft.home)
    regulators = _all_of_kind(craft, "regulator")
    if not regulators:
        raise Lacking(
            "no regulator is fitted: write it as an item of kind regulator, one inside an ESC too",
            craft.home,
        )
    loads = {
        f"servo_{index}": of_spec(
            servo, servo.spec.max_current_a, "max_current", f"current of {servo.tag}", "A"
        )
        for index, servo in enumerate(servos)
    }
    regulator = regulators[0]
    rating = of_spec(
        regulator, regulator.spec.max_current_a, "max_current", "greatest current", "A"
    )

    def margin(rating_a: float, **servo_amps: float) -> float:
        return current_margin(sum(servo_amps.values()), rating_a)

    law = by_law("current_margin")
    inputs = {"rating_a": rating, **loads}
    return worked(
        "regulator_margin",
        margin,
        inputs,
        unit="ratio",
        way=law.written(f"{law.formula}; I of all servos"),
        verdict="; ".join(warned_of(margin(**{key: number(one) for key, one in inputs.items()})))
        or None,
        notes=("all servos at their greatest current at once",),
    )


FIGURES = (
    FigureSpec(
        name="regulator_margin",
        title="Margin of the regulator",
        line="Load of the servos against it.",
        about="What all servos at once leave of the regulator's rating.",
        topic="Margins and wires",
        unit="ratio",
        worded="margin",
        shown="public",
        asked_of=winged,
        of_aircraft=regulator_margin,
        laws=("current_margin",),
        held_by=("tests/figures/answers/test_weighed.py",),
    ),
    FigureSpec(
        name="servo_torque",
        title="Torque of the servos",
        line="Needed at its fastest, against what the servo is rated for.",
        about="Torque that a servo needs to hold its surface out, by speed, against its rating.",
        topic="Margins and wires",
        unit="N·m",
        worded="torque",
        shown="public",
        of_aircraft=servo_torque,
        laws=("hinge_moment_nm", "servo_torque_nm"),
        held_by=(
            "tests/published/test_flight_wing.py",
            "tests/figures/answers/test_trim_and_turns.py",
        ),
    ),
)
