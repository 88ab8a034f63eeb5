"""The portrait of an aircraft: to scale, turning as recorded, its words in their own room."""

import itertools
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
    assert ["side 354 mm", "Ø 229 mm", "forward", "100 mm"] == said(ring_plan("quad-x"))
    assert ["span 1400 mm", "Ø 254 mm", "forward", "200 mm"] == said(glider_plan())


def test_without_a_scale_no_length_is_told():
    """Places in arm lengths say which way, and no more."""
    plan = ring_plan("quad-x", to_scale=False)

    assert ["forward"] == said(plan)
    assert "" == build_sheet(plan).crosses


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


def test_left_and_right_mirror_each_other():
    """Blades of the front pair, and of the rear one, lean the same way from the middle."""
    drawn = build_sheet(ring_plan("quad-x")).rotors.blades
    points = [(float(x), float(y)) for x, y in re.findall(r"(-?[\d.]+) (-?[\d.]+)", drawn)]
    mirrored = [(WIDTH - x, y) for x, y in points]

    assert 56 == len(points)
    assert [] == [one for one in mirrored if 0.2 < min(math.dist(one, other) for other in points)]


@pytest.mark.parametrize(("state", "dashed"), [("checked", False), ("planned", True)])
def test_a_spin_that_is_only_planned_is_dashed(state, dashed):
    """As on the layout drawing."""
    drawn = layout_portrait(ring_plan("quad-x", state=state), "p")
    (arc,) = re.findall(r'<path class="d-s-accent"[^>]*>', drawn)

    assert dashed == ("stroke-dasharray" in arc)


def test_a_pair_shows_both_its_rotors():
    """Two blades above, two below in grey, and an arc of each, on each of three arms."""
    rotors = build_sheet(ring_plan("y6")).rotors

    assert (6, 6) == (rotors.blades.count("Z"), rotors.lower.count("Z"))
    assert [6] == [len(turning.arcs) for turning in rotors.turning]


@pytest.mark.parametrize("name", ["y6", "quad-coaxial"])
def test_arcs_of_a_pair_do_not_lie_on_each_other(name):
    """The middles of any two arcs are further apart than one arc is long."""
    sheet = build_sheet(ring_plan(name))
    middles = [
        tuple(float(number) for number in re.findall(r"-?[\d.]+", arc.cross)[:2])
        for turning in sheet.rotors.turning
        for arc in turning.arcs
    ]
    apart = [math.dist(one, other) for one, other in itertools.combinations(middles, 2)]

    assert 30.0 < min(apart)


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

    assert 0 == build_sheet(bare).airframe.surfaces.count("M")
    assert 3 == build_sheet(plan).airframe.surfaces.count("M")


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
