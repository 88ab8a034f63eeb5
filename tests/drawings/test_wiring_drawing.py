"""The wiring drawing: a tree without crossings, leads in order, and when it declines."""

import re

import pytest
from drawn_samples import collisions, complaints, parsed, quad_wiring, view_box, words_of
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from buildbook.drawings.wiring.wiring import TALLEST, WIDTH, _sheet, wiring_drawing, wiring_table
from buildbook.drawings.wiring.wiring_tree import wiring_tree
from buildbook.report.drawn.plans import DrivePlan, RunPlan, WiringPlan


def run(from_, to, **more):
    """A run by its ends."""
    return RunPlan(from_=from_, to=to, **more)


def segments(sheet):
    """Straight pieces of the feed lines: a trunk down, a branch across."""
    for feed in sheet.feeds:
        yield (feed.x, feed.top, feed.x, feed.y)
        yield (feed.x, feed.y, feed.end, feed.y)


def crossings(sheet):
    """Pairs of an upright and a level piece that cut through each other."""
    pieces = list(segments(sheet))
    upright = [piece for piece in pieces if piece[0] == piece[2]]
    level = [piece for piece in pieces if piece[1] == piece[3]]
    return [
        (one, other)
        for one in upright
        for other in level
        if other[0] < one[0] < other[2] and one[1] < other[1] < one[3]
    ]


def test_the_drawing_suits_a_strict_page():
    """Well formed, no inline style or colour, and the same bytes each time."""
    svg = wiring_drawing(quad_wiring(), "w")

    assert [] == complaints(svg, "w")
    assert svg == wiring_drawing(quad_wiring(), "w")


def test_runs_say_gauge_length_plug_current_and_drop():
    """What a run is and what it carries stand beside its line."""
    svg = wiring_drawing(quad_wiring())

    assert ">14 AWG · 140 mm · bullet 4 mm<" in svg
    assert ">22 A · drop 51 mV (0.5 %)<" in svg
    assert ">16 AWG · 180 mm<" in svg
    assert 1 == svg.count(">5.5 A<")


def test_line_weight_follows_current():
    """The run that carries most is drawn heaviest."""
    plan = quad_wiring()
    sheet = _sheet(plan, wiring_tree(plan))
    weights = {feed.weight for feed in sheet.feeds}

    assert [pytest.approx(6.0), pytest.approx(1.4 + 4.6 * 0.5)] == sorted(weights, reverse=True)


def test_leads_enter_in_order():
    """Names from the first input downwards, and their numbers beside them."""
    svg = wiring_drawing(quad_wiring())
    told = re.findall(r'y="([\d.]+)"[^>]*>(throttle|rudder|elevator|aileron|mode)<', svg)
    inputs = re.findall(r'y="([\d.]+)"[^>]*>input (\d)<', svg)

    assert ["throttle", "rudder", "elevator", "aileron", "mode"] == [name for _, name in told]
    assert ["1", "2", "3", "4", "5"] == [number for _, number in inputs]
    assert [y for y, _ in told] == [y for y, _ in inputs]
    expected = "Receiver leads into the controller, in order: "
    assert expected + "1 throttle, 2 rudder, 3 elevator, 4 aileron, 5 mode." in words_of(svg)


def test_table_tells_the_same():
    """Runs, ESCs and leads, one row each."""
    columns, rows = wiring_table(quad_wiring())

    assert ("from", "to", "run", "load") == columns
    assert [
        ("pack", "distribution", "14 AWG · 140 mm · bullet 4 mm", "22 A · drop 51 mV (0.5 %)"),
        ("distribution", "each esc", "16 AWG · 180 mm", "5.5 A"),
        ("E-1 (front-left)", "M-1", "three phase leads", "output 3"),
    ] == list(rows[:3])
    assert ("receiver mode", "controller input 5", "servo lead", "") == rows[-1]


@pytest.mark.parametrize(
    "runs",
    [
        (run("pack", "a"), run("b", "c")),
        (run("pack", "a"), run("pack", "b"), run("a", "c"), run("b", "c")),
        (run("a", "b"), run("b", "a")),
        (run("pack", "a"), run("b", "c"), run("c", "b")),
        tuple(run("pack", f"part {number}") for number in range(30)),
        tuple(run(f"p{number}", f"p{number + 1}") for number in range(8)),
    ],
    ids=["two roots", "fed twice", "a ring", "a ring aside", "too many", "too deep"],
)
def test_what_is_no_small_tree_is_left_to_the_table(runs):
    """No drawing is better than a tangle."""
    assert wiring_drawing(quad_wiring(runs=runs, drives=())) is None


def test_too_many_leads_or_escs_are_left_to_the_table():
    """Seventeen leads or thirteen ESCs are no picture."""
    many = tuple(DrivePlan(station=f"s{number}") for number in range(13))

    assert wiring_drawing(quad_wiring(leads=("x",) * 17)) is None
    assert wiring_drawing(quad_wiring(drives=many)) is None
    assert wiring_drawing(WiringPlan(aircraft="New")) is None


def test_a_run_to_one_esc_stands_for_that_station():
    """Runs that name their ESC are drawn with its motor; the rest take the common run."""
    runs = (run("pack", "hub"), run("hub", "esc front-left", wire="18 AWG"), run("hub", "each esc"))
    tree = wiring_tree(quad_wiring(runs=runs))
    fed = {node.drive.station: node.feed for node in tree.walk() if node.drive}

    assert runs[1] == fed["front-left"]
    assert {runs[2]} == {fed[name] for name in ("front-right", "rear-right", "rear-left")}


NAMES = st.text("abcdefghijklmnop -", min_size=1, max_size=24).map(lambda text: f"{text}.")


@settings(max_examples=60, deadline=None)
@given(
    parents=st.lists(st.integers(0, 9), max_size=9),
    labels=st.lists(NAMES, min_size=10, max_size=10, unique=True),
    motors=st.integers(0, 8),
    lengthy=NAMES,
)
def test_trees_never_cross_themselves(parents, labels, motors, lengthy):
    """Whatever hangs from what, lines do not cross, words do not meet, nothing leaves."""
    runs = [
        run(labels[min(parent, place)], labels[place + 1], wire=lengthy, length_m=0.2)
        for place, parent in enumerate(parents)
    ]
    drives = tuple(DrivePlan(station=f"s-{n}", motor=lengthy, output=n) for n in range(motors))
    runs.append(run(labels[0], "each esc"))
    plan = WiringPlan(aircraft="Any", runs=tuple(runs), drives=drives, leads=("one", lengthy))
    tree = wiring_tree(plan)
    if tree is None:
        return
    sheet = _sheet(plan, tree)
    svg = wiring_drawing(plan)
    if svg is None:
        assert sheet.height > TALLEST
        return

    assert [] == crossings(sheet)
    assert [] == collisions(sheet.lines)
    assert [] == [line.text for line in sheet.lines if line.box.right > WIDTH]
    assert view_box(svg) == (WIDTH, sheet.height)
    assert parsed(svg) is not None


def test_a_shared_plan_with_other_words_keeps_ids_apart():
    """Two drawings on a page differ in their ids."""
    one, other = wiring_drawing(quad_wiring(), "a"), wiring_drawing(quad_wiring(), "b")

    assert "a-title" in one
    assert "a-title" not in other
    assert one != wiring_drawing(replace(quad_wiring(), aircraft="Reed"), "a")
