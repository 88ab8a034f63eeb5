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
    assert ["354 mm", "Ø 229 mm", "forward", "100 mm"] == said(ring_plan("quad-x"))
    assert ["1400 mm", "Ø 254 mm", "forward", "200 mm"] == said(glider_plan())


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
    """Blades of the front pair lean the same way from the middle."""
    rotors = build_sheet(ring_plan("quad-x")).rotors
    left, right = rotors[0], rotors[1]

    def points(path, site):
        found = re.findall(r"(-?[\d.]+) (-?[\d.]+)", path)
        return [(float(x) - site.x, float(y) - site.y) for x, y in found]

    pairs = zip(points(left.blades, left.site), points(right.blades, right.site), strict=True)
    tips = {0.0}
    for (x, y), (other_x, other_y) in pairs:
        tips.add(
            min(math.dist((x, y), (-other_x, other_y)), math.dist((x, y), (other_x, -other_y)))
        )
    assert 0.2 > max(tips)


@pytest.mark.parametrize(("state", "dashed"), [("checked", False), ("planned", True)])
def test_a_spin_that_is_only_planned_is_dashed(state, dashed):
    """As on the layout drawing."""
    drawn = layout_portrait(ring_plan("quad-x", state=state), "p")

    assert dashed == ("stroke-dasharray" in drawn)


def test_a_pair_shows_both_its_rotors():
    """Two blades above, two below in grey, an arc of each that does not lie on the other."""
    rotor = build_sheet(ring_plan("y6")).rotors[0]

    assert 2 == rotor.blades.count("Z")
    assert 2 == rotor.lower.count("Z")
    assert [1, 1] == [len(turning.arcs) for turning in rotor.turning]


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
