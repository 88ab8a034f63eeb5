"""What the layout can do: spins, the matrix of thrusts and moments, and the loss of a rotor."""

from collections.abc import Iterator

from buildbook.basis import amounts
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import (
    Lacking,
    declared,
    default,
    from_figure,
    number,
    worked_out,
)
from buildbook.figures.answers.mass.budget import mass_with
from buildbook.figures.answers.mass.centre import centre_with
from buildbook.figures.answers.propulsion.full_throttle import full_throttle
from buildbook.figures.answers.propulsion.losses import interference, pair_notes
from buildbook.figures.answers.propulsion.rotors import yaw_arm
from buildbook.figures.answers.spec import FigureSpec, hovering
from buildbook.figures.answers.working import Answer, attempt, by_law, given_value
from buildbook.figures.laws.airframe.allocation import (
    allocation_matrix,
    allocation_rank,
    hover_thrust_shares,
    losses_held,
    spin_sum,
    spin_verdict,
)
from buildbook.figures.laws.constants import STANDARD_GRAVITY_M_S2
from buildbook.records.row_names import SPIN_DIRECTIONS
from buildbook.report.figure import Figure, Input, Name, Table
from buildbook.report.figures.known_figures import Headline
from buildbook.report.history import Completion
from buildbook.report.state import AircraftNow

HAND = {1: "ccw", -1: "cw"}
VERDICTS = {
    "usable": "the spins cancel; roll, pitch, yaw and height are all controllable",
    "rank below 4": "rank below 4: yaw cannot be controlled apart from roll and pitch",
    "spins do not cancel": "the spins do not cancel",
}
HELD_BY_NONE = "after losing any one motor not all of roll, pitch, yaw and height can be held"
GEOMETRY_ONLY = (
    "geometry and greatest thrust only: your controller may not do it",
    "all of roll, pitch, yaw and height together; giving up yaw is another question",
)
MANY = (6, 8)
TURNS = (("fit", "motor"), ("fit", "esc"), ("setting", "direction"), ("alteration", "stations"))
"""What may turn the motor of a station round; what may turn any of them is next."""
TURNS_ALL = ("rewired", "firmware", "crash")


def allocation(craft: Craft) -> Iterator[Answer]:
    """The layout as a matrix with its rank, and the share of the weight on each rotor."""
    if craft.hovers:
        yield attempt("allocation", "matrix", _matrix, craft)
        yield attempt("allocation", "hover shares", _shares, craft)


def rotor_loss(craft: Craft) -> Iterator[Answer]:
    """For 6 and 8 rotors: the single losses after which all four axes could still be held."""
    if craft.hovers and len(craft.rotors) in MANY:
        yield attempt("rotor_loss", None, _rotor_loss, craft)


def spin_inputs(craft: Craft) -> tuple[Input, ...]:
    """The spin of each station, with its line: as seen at the bench, else as planned.

    Lacking: one isn't written.
    """
    return tuple(
        _spin_input(craft, rotor.station, HAND[spin])
        for rotor, spin in zip(craft.rotors, craft.spins(), strict=True)
    )


def _spin_input(craft: Craft, station: str, planned: str) -> Input:
    seen = _seen(craft, station, planned)
    return Input(
        called=Name("spin", "of", station),
        value=planned,
        unit="",
        basis="spec" if seen is None else "measured",
        place=craft.spin_place(station) if seen is None else seen.place,
    )


def _seen(craft: Craft, station: str, planned: str) -> Completion | None:
    """The check that saw it turn as planned, unless something has changed there since."""
    about = (one for one in reversed(craft.now.checks) if one.name == SPIN_DIRECTIONS)
    last = next((one for one in about if not one.stations or station in one.stations), None)
    if last is None or last.result != "pass":
        return None
    if last.readings.get(station, planned).strip().lower() != planned:
        return None
    return None if any(_may_turn(craft.now, station, last.seq)) else last


def _may_turn(aircraft: AircraftNow, station: str, seq: int) -> Iterator[bool]:
    """Whether each thing since then may have turned a motor there round."""
    for event in reversed(aircraft.events):
        if event.seq <= seq:
            return
        where = event.everything or not event.stations or station in event.stations
        yield (where and (event.event, event.subject) in TURNS) or event.event in TURNS_ALL


def rotation_balance(craft: Craft) -> Figure:
    """Sum of the spins, with the verdict, and the hand of each propeller against its spin."""
    spins = craft.spins()
    rows: list[tuple[str | None, ...]] = []
    wrong, inputs = [], list(spin_inputs(craft))
    for rotor, spin in zip(craft.rotors, spins, strict=True):
        propeller = rotor.propeller
        hand = None if propeller is None else propeller.spec.hand
        agrees = "not known" if hand is None else "yes" if hand == HAND[spin] else "no"
        tag = None if propeller is None else propeller.tag
        rows.append((rotor.station, HAND[spin], tag, hand, agrees))
        if propeller is not None and hand is not None:
            name = Name(f"hand of {propeller.spec.spec} at {rotor.station}")
            place = propeller.spec.place("hand")
            inputs.append(Input(called=name, value=hand, unit="", basis="spec", place=place))
        if agrees == "no":
            wrong.append(f"{rotor.station}: a {hand} propeller where {HAND[spin]} is planned")
    found = "usable" if craft.yaw_by else _verdict(craft, spins)
    verdict = craft.yaw_by or VERDICTS[found]
    total = spin_sum(spins)
    return given_value(
        "rotation_balance",
        total,
        unit="count",
        way=by_law("spin_verdict"),
        inputs=inputs,
        verdict="; ".join([*wrong, verdict]),
        fault=None if found == "usable" else verdict,
        table=Table(columns=("station", "spin", "propeller", "hand", "agrees"), rows=tuple(rows)),
        other=_yaw_moment(craft, total),
        notes=() if wrong or all(row[4] == "yes" for row in rows) else ("a hand is not known",),
    )


def _verdict(craft: Craft, spins: tuple[int, ...]) -> str:
    return spin_verdict(craft.rotor_places(), spins)


def _yaw_moment(craft: Craft, total: int) -> dict[str, float]:
    """Yaw moment in N·m when every rotor gives its share of the weight."""
    try:
        arm = number(yaw_arm(craft))
        mass = number(from_figure(mass_with(craft, craft.pack)))
    except (Lacking, ValueError):
        return {}
    thrust = mass * STANDARD_GRAVITY_M_S2 / len(craft.rotors)
    return {"yaw moment at equal thrust, N·m": total * arm * thrust}


def _place_inputs(craft: Craft) -> tuple[Input, ...]:
    """The arm of the layout, or the places that stations name themselves."""
    try:
        return (craft.arm,)
    except Lacking:
        return tuple(
            declared(
                f"place of {rotor.station}, forward",
                craft.station_at(rotor.station)[0],
                "m",
                craft.spin_place(rotor.station),
            )
            for rotor in craft.rotors
        )


def _matrix(craft: Craft) -> Figure:
    places, spins, arm = craft.rotor_places(), craft.spins(), yaw_arm(craft)
    matrix = allocation_matrix(places, spins, number(arm))
    rank = allocation_rank(places, spins)
    rows: tuple[tuple[str | float, ...], ...] = tuple(
        (axis, *(float(value) for value in row))
        for axis, row in zip(("thrust", "roll", "pitch", "yaw"), matrix, strict=True)
    )
    columns = ("axis", *(rotor.station for rotor in craft.rotors))
    return given_value(
        "allocation",
        None,
        unit="ratio",
        way=by_law("allocation_matrix"),
        of="matrix",
        inputs=(*_place_inputs(craft), arm, *spin_inputs(craft)),
        table=Table(columns=columns, rows=rows),
        verdict=f"rank {rank}" + (f"; {craft.yaw_by}" if craft.yaw_by else ""),
        other={"rank": float(rank)},
        in_verdict=("rank",),
    )


def _shares(craft: Craft) -> Figure:
    if craft.yaw_by:
        raise Lacking(f"the shares are not worked out: {craft.yaw_by}", craft.home)
    found = centre_with(craft, craft.pack)
    arm = yaw_arm(craft)
    shares = hover_thrust_shares(
        craft.rotor_places(), craft.spins(), number(arm), (found.forward_m, found.right_m)
    )
    rows = tuple((rotor.station, share) for rotor, share in zip(craft.rotors, shares, strict=True))
    most = max(rows, key=lambda row: row[1])
    return given_value(
        "allocation",
        None,
        unit="ratio",
        way=by_law("hover_thrust_shares"),
        of="hover shares",
        inputs=(*found.inputs, *_place_inputs(craft), arm, *spin_inputs(craft)),
        table=Table(columns=("station", "share"), rows=rows),
        verdict=_carries_most(most[0], most[1] * len(rows) - 1),
    )


def _carries_most(station: str, more: float) -> str:
    if more < 0.0005:
        return "all carry the same"
    return f"{station} carries most, {amounts.share(more)} more than an even share"


def _rotor_loss(craft: Craft) -> Figure:
    places, spins, arm = craft.rotor_places(), craft.spins(), yaw_arm(craft)
    pack = craft.pack
    mass = from_figure(mass_with(craft, pack), Name("all-up mass", "with", pack.tag))
    weight = number(mass) * STANDARD_GRAVITY_M_S2
    most = _greatest_thrust(craft, weight)
    held = losses_held(places, spins, number(arm), weight, number(most))
    names = [rotor.station for rotor in craft.rotors]
    kept = [name for name, one in zip(names, held, strict=True) if one]
    lost = [name for name, one in zip(names, held, strict=True) if not one]
    told = [f"could be held after losing {', '.join(kept)}"] if kept else []
    told += [f"not after losing {', '.join(lost)}"] if lost else []
    notes = (*GEOMETRY_ONLY, *pair_notes(craft))
    return given_value(
        "rotor_loss",
        len(kept),
        unit="count",
        way=by_law("losses_held"),
        inputs=(*_place_inputs(craft), arm, mass, most, *spin_inputs(craft)),
        verdict="; ".join(told) if kept else HELD_BY_NONE,
        table=Table(
            columns=("lost", "could be held"),
            rows=tuple(
                (name, "yes" if one else "no") for name, one in zip(names, held, strict=True)
            ),
        ),
        notes=notes,
    )


def _greatest_thrust(craft: Craft, weight_n: float) -> Input:
    """Full-throttle thrust of the weakest rotor, else twice its share of the weight."""
    try:
        full, pair = full_throttle(craft, craft.pack), interference(craft)
        values = {key: number(one) for key, one in pair.items()}
        return worked_out(
            "greatest thrust of a rotor",
            full.least_thrust(**full.values(), **values),
            "N",
            (*full.further, *full.inputs.values(), *pair.values()),
        )
    except (Lacking, ValueError):
        words = "twice its share of the weight, since full throttle is not known"
        return default(
            "greatest thrust of a rotor", 2 * weight_n / len(craft.rotors), "N", words, craft.home
        )


FIGURES = (
    FigureSpec(
        name="rotation_balance",
        title="Rotation",
        line="Whether the spins balance each other.",
        about="Sum of the spins with a verdict, and each propeller's hand against its spin.",
        topic="Layout and control",
        unit="count",
        shown="public",
        asked_of=hovering,
        of_aircraft=rotation_balance,
        laws=(
            "spin_verdict",
            "spin_sum",
            "allocation_rank",
            "yaw_arm_m",
        ),
        held_by=(
            "tests/published/test_flight_layouts.py",
            "tests/figures/answers/test_small_quad.py",
        ),
        headline=Headline(place=12),
    ),
    FigureSpec(
        name="allocation",
        title="Allocation",
        line="What each rotor does for thrust and each axis.",
        about="The layout as a matrix of thrust, roll, pitch and yaw, and each rotor's share.",
        topic="Layout and control",
        unit="ratio",
        shown="public",
        of_aircraft=allocation,
        laws=(
            "allocation_matrix",
            "allocation_rank",
            "hover_thrust_shares",
        ),
        held_by=(
            "tests/published/test_flight_layouts.py",
            "tests/figures/answers/test_small_quad.py",
        ),
    ),
    FigureSpec(
        name="rotor_loss",
        title="Loss of a rotor",
        line="Geometry only; your controller may not do it.",
        about=(
            "After which single losses roll, pitch, yaw and height could still be held, by "
            "geometry and greatest thrust alone."
        ),
        topic="Layout and control",
        unit="count",
        shown="public",
        of_aircraft=rotor_loss,
        laws=(
            "losses_held",
            "controllability_index",
        ),
        held_by=(
            "tests/published/test_flight_layouts.py",
            "tests/figures/answers/test_rings.py",
        ),
    ),
)
