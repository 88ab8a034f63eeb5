"""Parts with a length as bodies, for the inertia: wings as plates, arms and fuselage as rods.

An even rod has the mass, centre and second moments of three points: a sixth of it at either end,
two thirds in the middle (Simpson's rule, exact for squares); a plate those of nine.
"""

from collections.abc import Iterator, Sequence
from itertools import product

from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import Lacking, number
from buildbook.figures.answers.mass.centre import placed
from buildbook.figures.answers.mass.masses import Piece
from buildbook.records.aircraft import Place3

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
