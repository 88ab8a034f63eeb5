"""The layout drawing: places to scale, spin, hands, words, problems."""

import math
import re

import pytest
from drawn_samples import (
    RINGS,
    all_layouts,
    bar_units,
    collisions,
    complaints,
    disc_centres,
    glider_plan,
    parsed,
    ring_plan,
    view_box,
    words_of,
)
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from buildbook.drawings.layout.layout import (
    THUMBNAIL_WIDTH,
    WIDTH,
    _head_lines,
    layout_drawing,
    layout_portrait,
    layout_table,
    layout_thumbnail,
)
from buildbook.drawings.layout.layout_faults import layout_faults
from buildbook.drawings.layout.layout_scene import build_scene
from buildbook.drawings.layout.layout_strip import build_strip
from buildbook.drawings.layout.wing_shape import taper_ratio
from buildbook.drawings.lettering import Box
from buildbook.report.drawn.plans import CgPlan, Fault, LayoutPlan, StationPlan

LAYOUTS = all_layouts()


def lines_of(plan):
    """All words that a layout drawing writes, and the box that they must stay in."""
    scene = build_scene(plan, layout_faults(plan), WIDTH)
    strip = build_strip(plan, scene, WIDTH)
    head = _head_lines(plan, scene.plate.x(0))
    return (*head, *scene.lettering.lines, *strip.lines), Box(0, 0, WIDTH, strip.height)


@pytest.mark.parametrize("name", LAYOUTS)
def test_every_layout_suits_a_strict_page(name):
    """All three drawings are well formed, without inline style, colours or foreign ids."""
    assert [] == complaints(layout_drawing(LAYOUTS[name], "a"), "a")
    assert [] == complaints(layout_thumbnail(LAYOUTS[name], "b"), "b")
    assert [] == complaints(layout_portrait(LAYOUTS[name], "c"), "c")


@pytest.mark.parametrize("name", ["quad-plus", "hexa-plus", "octo-plus"])
@pytest.mark.parametrize("fitted", [True, False])
def test_the_arrow_of_a_thumbnail_stands_clear_of_the_front_disc(name, fitted):
    """Also while no propeller is fitted: such a disc has a size of its own, whatever the scale."""
    plan = LAYOUTS[name]
    if not fitted:
        bare = (replace(station, propeller_m=None) for station in plan.stations)
        plan = replace(plan, stations=tuple(bare))
    scene = build_scene(plan, (), THUMBNAIL_WIDTH, lettered=False)

    foot_of_arrow = 15.0
    assert foot_of_arrow < min(rotor.site.y - rotor.site.radius for rotor in scene.rotors)


@pytest.mark.parametrize("name", LAYOUTS)
def test_the_same_plan_gives_the_same_bytes(name):
    """Nothing but the plan goes into a drawing."""
    assert layout_drawing(LAYOUTS[name]) == layout_drawing(LAYOUTS[name])


@pytest.mark.parametrize("name", LAYOUTS)
def test_description_and_table_name_every_station(name):
    """Who cannot see the drawing reads the same stations."""
    plan = LAYOUTS[name]
    told = words_of(layout_drawing(plan))
    names = [station.name for station in plan.stations]

    assert names == [row[0] for row in layout_table(plan)[1]]
    assert [] == [name for name in names if f"{name}, turns" not in told]


@pytest.mark.parametrize("name", LAYOUTS)
def test_words_never_meet_or_leave_the_drawing(name):
    """By the width model no two texts share room and none crosses the edge."""
    lines, edge = lines_of(LAYOUTS[name])

    assert [] == collisions(lines)
    assert [] == [line.text for line in lines if not line.box.within(edge)]


@pytest.mark.parametrize("name", RINGS)
def test_every_station_of_a_ring_is_named_on_its_plate(name):
    """No station of a built-in layout falls back to the key."""
    plan = LAYOUTS[name]
    scene = build_scene(plan, (), WIDTH)

    assert () == scene.lettering.keyed


@settings(max_examples=60, deadline=None)
@given(
    name=st.sampled_from(RINGS),
    diagonal_m=st.floats(0.06, 3.0),
    share=st.one_of(st.none(), st.floats(0.05, 1.2)),
    balanced=st.booleans(),
)
def test_words_keep_clear_at_any_size(name, diagonal_m, share, balanced):
    """Whatever the size of frame and propeller, words neither meet nor leave."""
    cg = CgPlan(forward_m=-0.01, words="weighed") if balanced else None
    size = None if share is None else share * diagonal_m
    plan = ring_plan(name, diagonal_m, size, cg=cg)
    lines, edge = lines_of(plan)

    assert [] == over_a_rim(plan)
    assert [] == collisions(lines)
    assert [] == [line.text for line in lines if not line.box.within(edge)]


def over_a_rim(plan):
    """Station words that cut through the rim of a disc, where no discs overlap."""
    if any(fault.kind == "overlap" for fault in layout_faults(plan)):
        return []
    scene = build_scene(plan, (), WIDTH)
    return [
        (line.text, rotor.site.name)
        for line in scene.lettering.lines
        for rotor in scene.rotors
        if cuts(line.box, rotor.site)
    ]


def cuts(box, site):
    """Whether a box is partly in a disc and partly out of it."""
    near_x, near_y = min(max(site.x, box.left), box.right), min(max(site.y, box.top), box.bottom)
    far_x = max(abs(box.left - site.x), abs(box.right - site.x))
    far_y = max(abs(box.top - site.y), abs(box.bottom - site.y))
    near = math.hypot(site.x - near_x, site.y - near_y)
    return near < site.radius - 1.0 and math.hypot(far_x, far_y) > site.radius + 1.0


PLACES = st.tuples(st.floats(-2, 2), st.floats(-2, 2), st.floats(0.02, 0.8))


@settings(max_examples=60, deadline=None)
@given(places=st.lists(PLACES, min_size=1, max_size=10))
def test_stations_anywhere_are_drawn_and_told(places):
    """A custom layout with stations anywhere is well formed and names each on plate or key."""
    stations = tuple(
        StationPlan(name=f"place-{n}", forward_m=x, right_m=y, propeller_m=size, spin="cw")
        for n, (x, y, size) in enumerate(places)
    )
    plan = LayoutPlan(aircraft="Odd", layout="custom", stations=stations)
    lines, edge = lines_of(plan)
    text = " ".join(line.text for line in lines).replace("- ", "-")

    assert [] == complaints(layout_drawing(plan), "layout")
    assert [] == collisions(lines)
    assert [] == [line.text for line in lines if not line.box.within(edge)]
    assert [] == [at.name for at in stations if at.name not in text]


def test_discs_stand_where_the_scale_bar_says():
    """Distances on the plate divided by the bar are metres: a 410 mm quad with 254 mm discs."""
    svg = layout_drawing(ring_plan("quad-x", 0.41, 0.254))
    units, metres = bar_units(svg)
    (x0, y0, radius), _, _, (x3, y3, _) = disc_centres(svg)
    diagonal = ((x3 - x0) ** 2 + (y3 - y0) ** 2) ** 0.5

    assert 0.41 == pytest.approx(diagonal / units * metres, rel=2e-3)
    assert 0.254 == pytest.approx(2 * radius / units * metres, rel=2e-3)


def test_planned_spin_is_dashed_and_checked_spin_is_solid():
    """A declared spin is no checked one: the arc shows which, and the legend says so."""
    planned = layout_drawing(ring_plan("quad-x", state="planned"))
    checked = layout_drawing(ring_plan("quad-x", state="checked"))
    arc = re.compile(r'<path class="d-s-accent"[^>]*A[^>]*>')

    assert [True] * 4 == ["stroke-dasharray" in path for path in arc.findall(planned)]
    assert [False] * 4 == ["stroke-dasharray" in path for path in arc.findall(checked)]
    assert (True, False) == ("spin planned" in planned, "spin checked" in planned)
    assert (False, True) == ("spin planned" in checked, "spin checked" in checked)


def test_a_failed_spin_check_is_marked_at_its_station():
    """The arcs of that station are in the colour of trouble and crossed, the words say it."""
    plan = ring_plan("quad-x")
    first = replace(plan.stations[0], spin_state="failed")
    svg = layout_drawing(replace(plan, stations=(first, *plan.stations[1:])))

    assert "spin check failed" in svg
    assert "front-left, turns ccw, check failed" in words_of(svg)
    assert "check failed" == layout_table(replace(plan, stations=(first,)))[1][0][2]


def test_a_spin_seen_otherwise_is_drawn_as_seen_beside_the_plan():
    """One arc as it turned, one dashed as planned; both directions in words, and a problem."""
    plan = ring_plan("quad-x")
    first = replace(plan.stations[0], spin_state="failed", seen="cw")
    changed = replace(plan, stations=(first, *plan.stations[1:]))
    svg = layout_drawing(changed)

    assert [True, False] == [
        re.search(rf"A[\d.]+ [\d.]+ 0 0 {sweep} ", path) is not None
        for sweep, path in zip((1, 1), spin_paths(svg)[:2], strict=True)
    ]
    assert ">seen cw, not ccw<" in svg
    assert "front-left, seen to turn cw, planned ccw, output 3" in words_of(svg)
    assert "front-left: seen to turn cw, planned ccw" in words_of(svg)
    assert ("seen cw, planned ccw", "check failed") == layout_table(changed)[1][0][1:3]
    assert ("spin seen, not as planned" in svg, "spin planned" in svg) == (True, True)


def spin_paths(svg):
    """The arcs of the first rotor, in drawing order."""
    return re.findall(
        r'<path class="d-s-(?:accent|bad)" stroke-linecap="butt"[^>]* d="(M[^"]*A[^"]*)"', svg
    )


def test_a_station_read_as_planned_is_not_crossed_because_another_failed():
    """It has not passed either: the words say so, and no cross stands on it."""
    plan = ring_plan("quad-x")
    first = replace(plan.stations[0], spin_state="read", seen="ccw")
    changed = replace(plan, stations=(first, *plan.stations[1:]))
    svg = layout_drawing(changed)

    assert ("spin as planned, check not passed" in svg, "d-s-bad" in svg) == (True, False)
    said = "turns as planned, but the check as a whole failed"
    assert ("ccw", said) == layout_table(changed)[1][0][1:3]


def test_a_station_without_a_place_is_listed_below():
    """It cannot be drawn, but nobody may think that it is not there."""
    lost = StationPlan(name="wing-left", forward_m=0, right_m=0, spin="cw", output=4)
    plan = replace(glider_plan(), unplaced=(lost,))
    svg = layout_drawing(plan)

    assert ">wing-left · cw · output 4 · place not recorded<" in svg
    assert "wing-left, turns cw, planned, output 4, place not recorded." in words_of(svg)
    assert ("wing-left", "not recorded") == (
        layout_table(plan)[1][1][0],
        layout_table(plan)[1][1][5],
    )


def test_the_leading_edge_of_a_blade_shows_its_hand():
    """A cw propeller has the heavy edge of its right-hand blade below, a ccw one above."""
    edges = {}
    for hand in ("cw", "ccw"):
        station = StationPlan(
            name="mid", forward_m=0, right_m=0, propeller_m=0.25, spin=hand, hand=hand
        )
        svg = layout_drawing(LayoutPlan(aircraft="One", layout="custom", stations=(station,)))
        cx, cy, _ = disc_centres(svg)[0]
        drawn = re.findall(r'<path class="d-s-ink" stroke-width="1.7" d="([^"]+)"', svg)
        heavy = re.findall(r"M([\d.]+) ([\d.]+)C", "".join(drawn))
        right = next((float(x), float(y)) for x, y in heavy if float(x) > cx)
        edges[hand] = right[1] - cy

    assert edges["cw"] > 0 > edges["ccw"]


def test_faults_name_what_is_wrong():
    """Wrong hand, twin spins and overlapping discs, in words."""
    plan = ring_plan("quad-x", 0.41, 0.3048)
    wrong = replace(plan.stations[1], hand="ccw", spin="ccw")
    wrong = replace(wrong, hand="cw")
    plan = replace(plan, stations=(plan.stations[0], wrong, *plan.stations[2:]))

    expected = (
        "front-right: cw propeller, motor turns ccw",
        "front-left and front-right both turn ccw",
        "front-right and rear-right both turn ccw",
        "discs of front-left and front-right overlap by 15 mm",
        "discs of front-left and rear-left overlap by 15 mm",
        "discs of front-right and rear-right overlap by 15 mm",
        "discs of rear-left and rear-right overlap by 15 mm",
    )
    assert expected == tuple(fault.words for fault in layout_faults(plan))


def test_a_given_fault_is_marked_and_told():
    """A verdict computed elsewhere is drawn beside those found here."""
    fault = Fault(kind="other", stations=("rear",), words="tail servo does not centre")
    svg = layout_drawing(ring_plan("tri-y", faults=(fault,)))

    assert "Problems: tail servo does not centre." in words_of(svg)
    assert 2 == len(re.findall(r'class="d-mark"[^>]*>a<', svg))


def test_a_sound_layout_has_no_fault():
    """Every built-in ring with alternating spins and matching hands is quiet."""
    assert [] == [name for name in RINGS if layout_faults(ring_plan(name, 0.9))]


def test_a_coaxial_pair_is_told_apart():
    """Upper and lower are written in their halves, and turn against each other."""
    plan = ring_plan("quad-coaxial")
    svg = layout_drawing(plan)

    assert 4 == svg.count(">upper ccw<") + svg.count(">upper cw<")
    assert 4 == svg.count(">lower ccw<") + svg.count(">lower cw<")
    assert 4 == len(disc_centres(svg))
    assert () == layout_faults(plan)


def test_a_coaxial_pair_that_turns_one_way_is_a_fault():
    """Both rotors of a pair turning alike give no balance of torque at that arm."""
    plan = ring_plan("y6")
    lower = replace(plan.stations[1], spin="ccw", hand="ccw")
    plan = replace(plan, stations=(plan.stations[0], lower, *plan.stations[2:]))

    expected = ["front-left-upper and front-left-lower both turn ccw"]
    assert expected == [fault.words for fault in layout_faults(plan)]


def test_only_a_tri_has_a_tail_servo():
    """The servo stands on the rear arm of a tri and nowhere else."""
    assert ["tri-y"] == [name for name in LAYOUTS if "tail servo" in layout_drawing(LAYOUTS[name])]


def test_a_wing_shows_its_balance_as_a_share_of_mean_chord():
    """The legend and the description give the same shares; spin is seen from behind."""
    svg = layout_drawing(glider_plan())

    assert ">CG 27 % of mean chord, weighed<" in svg
    assert ">CG band 20 to 33 % of mean chord<" in svg
    assert "CG band 20 to 33 % of mean chord." in words_of(svg)
    assert ">spin from behind<" in svg


def test_wing_span_is_to_scale():
    """The tips of a 1.4 m wing are 1.4 m apart by the scale bar."""
    svg = layout_drawing(glider_plan())
    units, metres = bar_units(svg)
    wing = re.search(r'd-f-paper d-s-ink" stroke-width="1.6" d="([^"]+)"', svg)
    assert wing is not None
    corners = [float(x) for x in re.findall(r"Q([\d.]+) ", wing[1])]

    assert 1.4 == pytest.approx((max(corners) - min(corners)) / units * metres, rel=3e-3)


@given(taper=st.floats(0.05, 1.0), root=st.floats(0.05, 0.6), span=st.floats(0.3, 4.0))
@settings(max_examples=40)
def test_taper_follows_from_area_span_and_mean_chord(taper, root, span):
    """Geometry of a trapezoid: its mean aerodynamic chord is two thirds root (1+t+t²)/(1+t)."""
    area = span * root * (1 + taper) / 2
    mean = 2 / 3 * root * (1 + taper + taper**2) / (1 + taper)

    assert taper == pytest.approx(taper_ratio(span, area, mean), abs=2e-3)


def test_without_a_diagonal_it_says_that_there_is_no_scale():
    """No scale bar is invented; places are given in arms."""
    plan = replace(ring_plan("quad-x", 2.0, None), diagonal_m=None, to_scale=False)
    svg = layout_drawing(plan)

    assert ">not to scale: no diagonal recorded<" in svg
    assert "0.71 arm forward, 0.71 arm left" == layout_table(plan)[1][0][5]


def test_names_from_records_cannot_break_out():
    """Markup in a name stays text."""
    station = StationPlan(name='<b>"&', forward_m=0, right_m=0)
    svg = layout_drawing(
        LayoutPlan(aircraft="</title><script>", layout="custom", stations=(station,))
    )

    assert "<script>" not in svg
    assert '<b>"&' in words_of(svg)
    assert (340.0,) == view_box(svg)[:1]
    assert parsed(svg) is not None


def test_a_plan_without_stations_is_still_a_drawing():
    """An aircraft being built may have no station yet."""
    svg = layout_drawing(LayoutPlan(aircraft="New", layout="custom", stations=()))

    assert [] == complaints(svg, "layout")


@pytest.mark.parametrize(
    ("name", "sentence", "below"),
    [
        ("quad-x", "Diagonal 520 mm, side 368 mm.", "diagonal 520 mm, side 368 mm"),
        ("quad-plus", "Diagonal 520 mm, side 368 mm.", "diagonal 520 mm, side 368 mm"),
        ("quad-coaxial", "Diagonal 520 mm, side 368 mm.", "diagonal 520 mm, side 368 mm"),
        ("hexa-x", "Diagonal 520 mm.", "diagonal 520 mm"),
        ("y6", "Arm 260 mm, motors 450 mm apart.", "arm 260 mm"),
        ("tri-y", "Arm 260 mm, motors 450 mm apart.", "arm 260 mm"),
    ],
)
def test_a_y_has_no_diagonal(name, sentence, below):
    """No motor has one opposite: 260 mm times the root of three is 450 mm (geometry)."""
    svg = layout_drawing(ring_plan(name, 0.52))

    assert sentence in svg
    assert f">{below}</text>" in svg


def test_no_number_but_the_output_stands_at_a_motor():
    """Notes beside the drawing go by the names of the stations."""
    svg = layout_drawing(LAYOUTS["quad-x"])
    outputs = [station.output for station in LAYOUTS["quad-x"].stations]

    assert [str(output) for output in outputs] == re.findall(r">output (\d)</text>", svg)
    assert [] == re.findall(r">\d,? [\w-]+</text>", svg)
