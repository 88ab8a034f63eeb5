"""Balance: the centre of gravity against its limits, the inertia, and all weighings so far."""

from collections.abc import Iterator, Sequence
from contextlib import suppress
from itertools import product

import msgspec

from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import Lacking, declared, measured, number, worked_out
from buildbook.figures.answers.mass.budget import mass_with, pack_to_balance
from buildbook.figures.answers.mass.centre import (
    BY_PARTS,
    NO_HEIGHT,
    Centre,
    balanced_by,
    centre_by_parts,
    centre_of_weighing,
    centre_with,
    placed,
)
from buildbook.figures.answers.mass.masses import Piece, parts
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import (
    Answer,
    Way,
    attempt,
    attempt_each,
    by_law,
    by_method,
    given_value,
    worked,
)
from buildbook.figures.laws.airframe.balance import chord_position, inertia_tensor_kg_m2
from buildbook.records.aircraft import Bounds, Place3
from buildbook.report.figure import Figure, Judged, Table
from buildbook.report.figures.known_figures import Headline
from buildbook.report.state import AircraftNow, ItemNow

SIMPSON = ((-0.5, 1 / 6), (0.0, 2 / 3), (0.5, 1 / 6))

Points = list[tuple[float, Place3]]

ARMS = "the frame taken as even rods to the motors, all else as points"
WINGS = "wings taken as even plates, the fuselage as an even rod from nose to tail, all else points"


def bodies(craft: Craft, pieces: Sequence[Piece]) -> tuple[Points, str]:
    """Masses in kg and their places in m that stand for the bodies, and what is taken of them.

    Lacking: a place is not recorded, or an aeroplane's wing or length is not.
    """
    work = _multirotor if craft.hovers else _aeroplane
    return [point for piece in pieces for point in work(craft, pieces, piece)], (
        ARMS if craft.hovers else WINGS
    )


def _rod(mass_kg: float, start: Place3, end: Place3) -> Iterator[tuple[float, Place3]]:
    for along, share in SIMPSON:
        x, y, z = (a + (b - a) * (along + 0.5) for a, b in zip(start, end, strict=True))
        yield mass_kg * share, (x, y, z)


def _multirotor(
    craft: Craft, pieces: Sequence[Piece], piece: Piece
) -> Iterator[tuple[float, Place3]]:
    """A frame in the middle reaches to every motor; one at a motor is the arm that bears it."""
    mass, at = number(piece.mass), placed(craft, piece)
    ends = dict(zip((one.station for one in craft.rotors), craft.rotor_places(), strict=True))
    arms = any(one.group == "frame" and one.station in ends for one in pieces)
    if piece.group != "frame" or not ends:
        yield mass, at
    elif piece.station in ends:
        yield from _rod(mass, (0.0, 0.0, at[2]), at)
    elif arms:
        yield mass, at
    else:
        for x, y in ends.values():
            yield from _rod(mass / len(ends), at, (x, y, at[2]))


def _aeroplane(
    craft: Craft, pieces: Sequence[Piece], piece: Piece
) -> Iterator[tuple[float, Place3]]:
    wings = [one for one in pieces if one.group == "wing"]
    if not wings:
        raise Lacking(
            "its inertia needs the wing as a part: write it as an item of kind wing and fit it",
            craft.home,
        )
    mass, at = number(piece.mass), placed(craft, piece)
    if piece.group == "wing":
        yield from _plate(craft, len(wings), mass, at)
    elif piece.group == "frame":
        half = _length_m(craft) / 2
        yield from _rod(mass, (at[0] - half, at[1], at[2]), (at[0] + half, at[1], at[2]))
    else:
        yield mass, at


def _plate(craft: Craft, panels: int, mass_kg: float, at: Place3) -> Iterator[tuple[float, Place3]]:
    wing, record = craft.now.record.wing, craft.now.record
    if wing is None or wing.span_m is None or wing.mean_chord_m is None:
        key = "span" if wing is None or wing.span_m is None else "mean_chord"
        raise Lacking(
            f"the {key.replace('_', ' ')} of the wing is not recorded: write {key!r} under 'wing' "
            "in aircraft.yaml",
            record.place("wing"),
        )
    for (chordwise, one), (spanwise, other) in product(SIMPSON, SIMPSON):
        x = at[0] + chordwise * wing.mean_chord_m
        y = at[1] + spanwise * wing.span_m / panels
        yield mass_kg * one * other, (x, y, at[2])


def _length_m(craft: Craft) -> float:
    """From nose to tail. Lacking: either has no place."""
    return abs(craft.station_at("nose")[0] - craft.station_at("tail")[0])


AXES = ("forward", "right", "down")

NO_LIMITS = "limits forward and aft not recorded"

Row = tuple[str | float | int | None, ...]


def balance(craft: Craft) -> Iterator[Answer]:
    """The centre of gravity with the pack of the last flight, inertia, and the weighings."""
    yield from attempt_each("balance", _balance, craft)
    if craft.now.weighings:
        yield attempt("balance", "weighings", _weighings, craft)


def _balance(craft: Craft) -> Iterator[Answer]:
    found = centre_with(craft, pack_to_balance(craft))
    wing = craft.now.record.wing
    if not craft.hovers:
        if wing is None or wing.mean_chord_m is None or wing.leading_edge_m is None:
            key = "wing" if wing is None else "wing.mean_chord"
            yield from attempt_each("balance", _no_chord, craft, key)
        else:
            yield attempt("balance", "mean chord", _on_chord, craft, found)
    for axis, value in zip(AXES, (found.forward_m, found.right_m, found.down_m), strict=True):
        if value is not None:
            yield _along(craft, found, axis, value)
    if found.down_m is None:
        yield from _height(craft)
    for index, axis in enumerate(AXES):
        yield attempt("balance", f"inertia about the {axis} axis", _inertia, craft, index)


def _height(craft: Craft) -> Iterator[Answer]:
    """How high it lies by the places of the parts; nothing where they do not tell."""
    with suppress(Lacking, ValueError):
        found = centre_by_parts(craft, pack_to_balance(craft), (NO_HEIGHT,))
        yield _along(craft, found, "down", found.down_m or 0.0)


def judged_with(craft: Craft, pack: ItemNow | None) -> Judged | None:
    """How the balance with a pack stands to its limits; None: no limit. Lacking: not known."""
    return judged_at(craft.now, centre_with(craft, pack).forward_m)


def judged_at(now: AircraftNow, forward_m: float) -> Judged | None:
    """How a centre of gravity stands to the keeper's limits, in m or on the chord; None: no limit.

    ValueError: it lies nowhere near the wing.
    """
    in_metres, wing = _against_metres(now.bounds, forward_m), now.record.wing
    if in_metres is not None or wing is None:
        return in_metres
    if wing.mean_chord_m is None or wing.leading_edge_m is None:
        return None
    share = chord_position(-forward_m, wing.leading_edge_m, wing.mean_chord_m)
    return _against_chord(now.bounds, share)


NO_CHORD = (
    "the mean chord and leading edge are not recorded: write 'mean_chord' and "
    "'leading_edge' under 'wing' in aircraft.yaml"
)


def _no_chord(craft: Craft, key: str) -> Iterator[Answer]:
    raise Lacking(NO_CHORD, craft.now.record.place(key))
    yield  # pragma: no cover (makes this an iterator)


def _way(found: Centre) -> Way:
    way = by_law("centre_of_gravity_m")
    if not found.weighed:
        return way
    words = "off the scales, then mass times place of what changed since"
    return by_method(words, way.source, way.law)


def _along(craft: Craft, found: Centre, axis: str, value: float) -> Figure:
    judged = _against_metres(craft.now.bounds, value) if axis == "forward" else None
    asked = axis == "forward" and craft.hovers
    return given_value(
        "balance",
        value,
        unit="m",
        way=_way(found),
        of=axis,
        inputs=found.inputs,
        verdict=judged or (NO_LIMITS if asked else None),
        judged=judged,
        unjudged=asked and not judged,
        weighed=found.weighed and not found.corrected,
        notes=found.notes,
    )


def _on_chord(craft: Craft, found: Centre) -> Figure:
    record, wing = craft.now.record, craft.now.record.wing
    if wing is None or wing.mean_chord_m is None or wing.leading_edge_m is None:
        raise Lacking("no wing is recorded", craft.home)
    words = "centre of gravity, aft of the reference point"
    aft = worked_out(words, -found.forward_m, "m", found.inputs)
    figure = worked(
        "balance",
        chord_position,
        {
            "arm_m": aft,
            "leading_edge_m": declared(
                "leading edge", wing.leading_edge_m, "m", record.place("wing.leading_edge")
            ),
            "mean_chord_m": declared(
                "mean chord", wing.mean_chord_m, "m", record.place("wing.mean_chord")
            ),
        },
        unit="ratio",
        way=by_law("chord_position"),
        of="mean chord",
        weighed=found.weighed and not found.corrected,
        notes=found.notes,
    )
    bounds = craft.now.bounds
    judged = _against_chord(bounds, figure.value or 0.0)
    limits = {} if bounds is None else _limits_on_chord(bounds)
    return msgspec.structs.replace(
        figure, verdict=judged or NO_LIMITS, judged=judged, unjudged=not judged, other=limits
    )


def _limits_on_chord(bounds: Bounds) -> dict[str, float]:
    limits = {"forward_limit": bounds.forward_cg_share, "aft_limit": bounds.aft_cg_share}
    return {key: limit for key, limit in limits.items() if limit is not None}


def _against_chord(bounds: Bounds | None, share: float) -> Judged | None:
    if bounds is None:
        return None
    return _between(share, bounds.forward_cg_share, bounds.aft_cg_share)


def _against_metres(bounds: Bounds | None, forward_m: float) -> Judged | None:
    if bounds is None:
        return None
    ahead, behind = bounds.forward_cg_m, bounds.aft_cg_m
    return _between(
        -forward_m, None if ahead is None else -ahead, None if behind is None else -behind
    )


def _between(at: float, forward: float | None, aft: float | None) -> Judged | None:
    """All three count towards the tail; what a sum of fractions leaves behind is no excess."""
    if forward is None and aft is None:
        return None
    if forward is not None and round(at - forward, 9) < 0:
        return "ahead of the forward limit"
    if aft is not None and round(at - aft, 9) > 0:
        return "behind the aft limit"
    return "within the limits"


def _inertia(craft: Craft, index: int) -> Figure:
    """A moment of inertia about an axis through the centre of gravity."""
    pieces, lacking = parts(craft, craft.pack)
    if lacking:
        raise lacking[0]
    points, words = bodies(craft, pieces)
    tensor = inertia_tensor_kg_m2(
        tuple(mass for mass, _ in points), tuple(place for _, place in points)
    )
    return given_value(
        "balance",
        tensor[index][index],
        unit="kg·m²",
        way=by_law("inertia_tensor_kg_m2"),
        of=f"inertia about the {AXES[index]} axis",
        inputs=[piece.mass for piece in pieces],
        notes=(words,),
    )


def _weighings(craft: Craft) -> Figure:
    """Every weighing; all but the last that is believed are superseded, or doubted."""
    rows: list[Row] = []
    inputs = []
    newest = max((one.seq for one in craft.weighed.believed), default=None)
    balanced, doubted = _balanced(craft), [one.weighing for one in craft.weighed.doubted]
    for count, weighing in enumerate(craft.now.weighings, 1):
        try:
            at = centre_of_weighing(craft, weighing)
        except (Lacking, ValueError):
            at = None
        forward, right = (None, None) if at is None else at[:2]
        if weighing.seq == newest:
            state = "last weighed"
        elif weighing.seq == balanced:
            state = "last that found the balance"
        else:
            state = "doubted" if weighing in doubted else "superseded"
        rows.append((f"weighing {count}", weighing.mass_kg, forward, right, state))
        name = f"weighing {count}, {state}"
        inputs.append(measured(name, weighing.mass_kg, "kg", weighing.place))
    rows += _now(craft)
    return given_value(
        "balance",
        None,
        unit="kg",
        way=by_law("centre_of_gravity_m"),
        of="weighings",
        inputs=inputs,
        table=Table(
            columns=("weighing", "mass_kg", "forward_m", "right_m", "state"), rows=tuple(rows)
        ),
    )


def _balanced(craft: Craft) -> int | None:
    """The entry of the weighing that the balance is from."""
    with suppress(Lacking, ValueError):
        found = balanced_by(craft)
        return None if found is None else found[0].seq
    return None


def _now(craft: Craft) -> list[Row]:
    """A row for the mass and balance since; none where nothing changed, or nobody knows."""
    try:
        pack = pack_to_balance(craft)
        found, mass = centre_with(craft, pack), mass_with(craft, pack)
    except (Lacking, ValueError):
        return []
    if found.weighed and not found.corrected:
        return []
    newest = {one.seq for one in craft.weighed.believed[-1:]}
    if not found.weighed:
        state = BY_PARTS
    elif _balanced(craft) in newest:
        state = "from the last weighing"
    else:
        state = "from the last weighing, and from the last that found the balance"
    return [("now", mass.value, found.forward_m, found.right_m, state)]


FIGURES = (
    FigureSpec(
        name="balance",
        title="Balance",
        line="Centre of gravity, and inertia about three axes.",
        about=(
            "Centre of gravity, for a wing as a share of its mean chord, and the inertia "
            "about three axes."
        ),
        topic="Mass and balance",
        unit="ratio",
        further_units=(
            "kg",
            "kg·m²",
            "m",
        ),
        worded="share",
        shown="public",
        of_aircraft=balance,
        laws=(
            "centre_of_gravity_m",
            "chord_position",
            "inertia_tensor_kg_m2",
        ),
        held_by=(
            "tests/published/test_flight_balance.py",
            "tests/figures/answers/test_small_quad.py",
            "tests/figures/answers/test_weighed.py",
        ),
        headline=Headline(place=11, of=("mean chord", "forward")),
    ),
)
