"""The plan form of a wing from its span, area and mean chord, and a sketch of body and tail."""

from __future__ import annotations

import math

import msgspec

from buildbook.report.drawn.plans import LayoutPlan, SurfacePlan, WingPlan

_FROM_TIP = 0.05  # of the half span, outside of ailerons; a sketch

Outline = tuple[tuple[float, float], ...]
"""Corners as (forward, right) in metres."""


class WingShape(msgspec.Struct, frozen=True):
    """Wing to scale; body and tail are a sketch, as no record gives their shape."""

    wing: Outline
    body: Outline
    tail: Outline


def taper_ratio(span_m: float, area_m2: float, mean_chord_m: float) -> float:
    """Tip over root chord of the straight-tapered wing that has this area and mean chord.

    span_m, area_m2, mean_chord_m > 0. The mean aerodynamic chord of a trapezoid with taper t is
    4/3 (1 + t + t^2) / (1 + t)^2 times area over span (geometry of the trapezoid); the ratio runs
    from 1 (rectangle) to 4/3 (triangle) and is clipped to that range.
    """
    ratio = min(max(mean_chord_m * span_m / area_m2, 1.0), 4.0 / 3.0)
    # 3/4 ratio (1 + t)^2 = 1 + t + t^2, a quadratic in t
    lead = 1.0 - 0.75 * ratio
    middle = 1.0 - 1.5 * ratio
    if lead < 1e-9:
        return 0.0
    root = math.sqrt(max(middle * middle - 4.0 * lead * lead, 0.0))
    return max((-middle - root) / (2.0 * lead), 0.0)


def shape_of(plan: LayoutPlan) -> WingShape | None:
    """Outlines, where there is a wing; the body begins at the foremost station in its middle."""
    if plan.wing is None:
        return None
    noses = [at.forward_m for at in plan.stations if abs(at.right_m) < 1e-6]
    return wing_shape(plan.wing, max(noses, default=None))


def wing_shape(wing: WingPlan, nose_forward_m: float | None) -> WingShape:
    """Outlines of wing, body and tail; the quarter-chord line of the wing is straight across.

    nose_forward_m: where the body begins, or None for a sketched nose.
    """
    area = wing.area_m2 or wing.span_m * wing.mean_chord_m
    taper = taper_ratio(wing.span_m, area, wing.mean_chord_m)
    root = 2.0 * area / (wing.span_m * (1.0 + taper))
    tip = taper * root
    chord = wing.mean_chord_m
    quarter = -(wing.leading_edge_aft_m + 0.25 * chord)
    half = wing.span_m / 2.0
    outline = (
        (quarter + 0.25 * tip, -half),
        (quarter + 0.25 * root, 0.0),
        (quarter + 0.25 * tip, half),
        (quarter - 0.75 * tip, half),
        (quarter - 0.75 * root, 0.0),
        (quarter - 0.75 * tip, -half),
    )
    nose = nose_forward_m if nose_forward_m is not None else quarter + 1.3 * chord
    tail = -wing.tail_aft_m if wing.tail_aft_m is not None else quarter - 2.6 * chord
    body = _body(nose, quarter, tail - 0.3 * chord, chord)
    reach = 0.17 * wing.span_m
    stabiliser = (
        (tail + 0.18 * chord, -reach),
        (tail + 0.26 * chord, 0.0),
        (tail + 0.18 * chord, reach),
        (tail - 0.22 * chord, reach),
        (tail - 0.28 * chord, 0.0),
        (tail - 0.22 * chord, -reach),
    )
    return WingShape(outline, body, stabiliser)


def _body(nose: float, wing: float, end: float, chord: float) -> Outline:
    """A fuselage that is widest at the wing: a blunt nose, a slim boom to the tail."""
    wide, thin = 0.17 * chord, 0.05 * chord
    stations = (
        (nose, 0.42 * wide),
        (nose - 0.12 * (nose - wing), 0.68 * wide),
        (nose - 0.5 * (nose - wing), 0.94 * wide),
        (wing, wide),
        (wing - 0.3 * (wing - end), 0.62 * wide),
        (wing - 0.6 * (wing - end), 0.36 * wide),
        (end, thin),
    )
    right = tuple(stations)
    left = tuple((forward, -half) for forward, half in reversed(stations))
    return right + left


def _moved_edge(outline: Outline, inner_m: float, outer_m: float, chord_m: float) -> Outline:
    """The strip of so much chord at the trailing edge of a wing or tail, between two places across.

    outline: as of ``wing_shape``, six corners, the trailing edge being the last three.
    """

    def trailing(right_m: float) -> float:
        (tip, half), (root, _) = outline[3], outline[4]
        return root + (tip - root) * min(abs(right_m) / half, 1.0)

    rear = [(trailing(right_m), right_m) for right_m in (outer_m, inner_m)]
    fore = [(forward + chord_m, right_m) for forward, right_m in reversed(rear)]
    return (*fore, *rear)


def panels_of(surface: SurfacePlan, wing: WingPlan, shape: WingShape) -> tuple[Outline, ...]:
    """A surface from above, at the trailing edge: its size is recorded, its place along is not."""
    if surface.chord_m is None or surface.length_m is None:
        return ()
    kind = surface.name.split("-")[0]
    half = wing.span_m / 2.0
    if kind == "elevator":
        reach = min(surface.length_m / 2.0, shape.tail[2][1])
        return (_moved_edge(shape.tail, -reach, reach, surface.chord_m),)
    if kind not in ("aileron", "flap", "elevon", "flaperon"):
        return ()
    long = min(surface.length_m, 0.9 * half)
    end = half * (1.0 - _FROM_TIP) if kind != "flap" else 0.08 * half + long
    sides = [
        side
        for side, other in ((-1, "right"), (1, "left"))
        if not surface.name.endswith(f"-{other}")
    ]
    return tuple(
        _moved_edge(
            shape.wing,
            min(side * (end - long), side * end),
            max(side * (end - long), side * end),
            surface.chord_m,
        )
        for side in sides
    )
