"""The portrait of an aircraft: to scale, turning as recorded, its words in their own room."""

import math
import re

import pytest
from drawn_samples import all_layouts, collisions, glider_plan, ring_plan
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from buildbook.drawings.layout.layout import layout_portrait
from buildbook.drawings.layout.portrait import WIDTH, build_sheet
from buildbook.drawings.lettering import Box
from buildbook.report.drawn.plans import SurfacePlan

LAYOUTS = all_layouts()


def said(plan):
    """The words of a portrait."""
    sheet = build_sheet(plan)
    return [line.words.text for line in sheet.lengths] + [line.text for line in sheet.words]


def test_a_portrait_tells_the_main_lengths():
    """Between the shafts and the propeller of a quad; the span and the propeller of a plane."""
    assert ["side 354 mm", "Ø 229 mm", "forward", "grid 100 mm"] == said(ring_plan("quad-x"))
    assert ["span 1400 mm", "Ø 254 mm", "forward", "grid 200 mm"] == said(glider_plan())


def test_without_a_scale_no_length_is_told():
    """Places in arm lengths say which way, and no more."""
    plan = ring_plan("quad-x", to_scale=False)

    assert ["forward"] == said(plan)
    assert "" == build_sheet(plan).paper.grid


@pytest.mark.parametrize("name", LAYOUTS)
def test_words_of_a_portrait_keep_their_room(name):
    """No two texts meet, and none leaves the sheet."""
    sheet = build_sheet(LAYOUTS[name])
    lines = [*(length.words for length in sheet.lengths), *sheet.words]

    assert [] == collisions(lines)
    assert [] == [one for one in lines if not one.box.within(Box(0, 0, WIDTH, sheet.height))]


@settings(max_examples=40, deadline=None)
@given(
    name=st.sampled_from([name for name in LAYOUTS if name not in ("aeroplane", "twin", "custom")]),
    diagonal_m=st.floats(0.06, 3.0),
    share=st.one_of(st.none(), st.floats(0.05, 1.2)),
)
def test_a_portrait_holds_at_any_size(name, diagonal_m, share):
    """Whatever the size of frame and propeller, words neither meet nor leave."""
    size = None if share is None else share * diagonal_m
    sheet = build_sheet(ring_plan(name, diagonal_m, size))
    lines = [*(length.words for length in sheet.lengths), *sheet.words]

    assert [] == collisions(lines)
    assert [] == [one for one in lines if not one.box.within(Box(0, 0, WIDTH, sheet.height))]


def placed(matrix, points):
    """Points under a matrix of SVG (its specification, 8.5)."""
    a, b, c, d, e, f = (float(number) for number in re.findall(r"-?[\d.]+", matrix))
    return [(a * x + c * y + e, b * x + d * y + f) for x, y in points]


def points_of(path):
    """All pairs of numbers of a path."""
    return [(float(x), float(y)) for x, y in re.findall(r"(-?[\d.]+) (-?[\d.]+)", path)]


def test_left_and_right_mirror_each_other():
    """Blades of the front pair, and of the rear one, lean the same way from the middle."""
    ((_, rotors),) = build_sheet(ring_plan("quad-x")).decks
    points = points_of(rotors.blades)
    mirrored = [(WIDTH - x, y) for x, y in points]

    assert 56 == len(points)
    assert [] == [one for one in mirrored if 0.2 < min(math.dist(one, other) for other in points)]


def test_a_disc_is_as_broad_as_its_propeller_and_squashed_by_the_dip():
    """A level circle seen along parallel lines: breadth whole, depth its sine (plane geometry)."""
    ((_, rotors),) = build_sheet(ring_plan("quad-x")).decks
    rim = [(math.cos(n / 50 * math.pi), math.sin(n / 50 * math.pi)) for n in range(100)]
    xs, ys = zip(*placed(rotors.matrix, rim), strict=True)

    assert math.sin(math.radians(38)) == pytest.approx(
        (max(ys) - min(ys)) / (max(xs) - min(xs)), rel=0.01
    )


def test_forward_points_at_whoever_looks():
    """Nose to the left and near: what is ahead lies lower on the picture, right is on the left."""
    ((_, rotors),) = build_sheet(ring_plan("quad-x")).decks
    middle, ahead, right = placed(rotors.matrix, [(200, 200), (200, 100), (300, 200)])

    assert (True, True) == (ahead[1] > middle[1], right[0] < middle[0])


def test_the_lower_deck_hangs_below_the_arms():
    """As far below as the upper one stands above; the propellers of each read as their own."""
    (lower_motors, lower), (_, upper) = build_sheet(ring_plan("y6")).decks
    ((_, low),), ((_, high),) = placed(lower.matrix, [(0, 0)]), placed(upper.matrix, [(0, 0)])

    assert low > high
    assert (6, 6) == (upper.blades.count("Z"), lower.blades.count("Z"))
    assert 3 == len(re.findall("M", lower_motors.faces))
    assert [6, 6] == [len(turning.arcs) for deck in (lower, upper) for turning in deck.turning]


@pytest.mark.parametrize(("down_m", "below"), [(0.026, True), (-0.028, False), (None, False)])
def test_a_pack_is_drawn_on_the_side_where_it_is(down_m, below):
    """Under the plates or on them; where no record says, on them as a sketch."""
    drawn = build_sheet(replace(ring_plan("quad-x"), pack_down_m=down_m)).frame

    assert (below, below) == (drawn.pack_below, drawn.board is not None)


@pytest.mark.parametrize(("state", "dashed"), [("checked", False), ("planned", True)])
def test_a_spin_that_is_only_planned_is_dashed(state, dashed):
    """As on the layout drawing."""
    drawn = layout_portrait(ring_plan("quad-x", state=state), "p")
    (arc,) = re.findall(r'<path class="d-s-accent"[^>]*>', drawn)

    assert dashed == ("stroke-dasharray" in arc)


def test_recorded_surfaces_stand_at_the_trailing_edge():
    """An aileron each side and an elevator; what has no size, or cannot be seen, is not drawn."""
    bare = glider_plan()
    surfaces = (
        SurfacePlan(name="aileron-left", chord_m=0.04, length_m=0.5),
        SurfacePlan(name="aileron-right", chord_m=0.04, length_m=0.5),
        SurfacePlan(name="elevator", chord_m=0.05, length_m=0.4),
        SurfacePlan(name="rudder", chord_m=0.06, length_m=0.2),
        SurfacePlan(name="flap"),
    )
    plan = replace(bare, wing=replace(bare.wing, surfaces=surfaces))

    without, drawn = build_sheet(bare).glider, build_sheet(plan).glider

    assert ("", "") == (without.surfaces, without.elevator)
    assert (2, 1) == (drawn.surfaces.count("M"), drawn.elevator.count("M"))


@pytest.mark.parametrize(
    ("layout", "length"),
    [
        ("quad-x", "side 354 mm"),
        ("quad-plus", "diagonal 500 mm"),
        ("hexa-x", "diagonal 500 mm"),
        ("y6", "side 433 mm"),
        ("octo-x", "across 462 mm"),
    ],
)
def test_a_length_says_which_one_it_is(layout: str, length: str) -> None:
    """Side and diagonal of a quad are never taken for each other (plane geometry)."""
    assert length == said(ring_plan(layout))[0]
