"""The wiring drawing: a tree without crossings, leads in order, and when it declines."""

import pytest
from drawn_samples import collisions, complaints, parsed, quad_wiring, view_box, words_of
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from buildbook.drawings.wiring.signals import signals
from buildbook.drawings.wiring.wiring import (
    TALLEST,
    WIDTH,
    Numbers,
    _sheet,
    drawn_wiring,
    numbers_of,
    wiring_drawing,
    wiring_table,
    wiring_tree,
)
from buildbook.report.drawn.plans import DrivePlan, RunPlan, ServoPlan, WiringPlan


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


def test_runs_are_numbered_as_the_notes_beside_them():
    """In the order of the records; that of the leads to each motor stands once, at the first."""
    told = quad_wiring()
    whole = replace(told, runs=(*told.runs, run("each esc", "each motor", wire="18 AWG")))
    drawn = drawn_wiring(whole)
    sheet = _sheet(drawn, wiring_tree(drawn), numbers_of(whole, drawn))
    numbers = [line.text for line in sheet.lines if line.text.isdecimal() and line.role == "name"]

    assert [str(at) for at in range(1, 1 + len(whole.runs))] == numbers
    assert [] == collisions(sheet.lines)


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
    sheet = _sheet(plan, wiring_tree(plan), Numbers())
    weights = {feed.weight for feed in sheet.feeds}

    assert [pytest.approx(6.0), pytest.approx(1.4 + 4.6 * 0.5)] == sorted(weights, reverse=True)


def leads_of(plan):
    """Ends of the leads: heights at the left and at the right, in rows from the top."""
    sheet = signals(plan, 0.0)
    rows = sorted({round(y, 1) for lead in sheet.leads for y in (lead.start[1], lead.end[1])})
    return [(rows.index(lead.start[1]), rows.index(lead.end[1])) for lead in sheet.leads]


def test_leads_enter_in_order():
    """Names from the first input downwards, numbers of the inputs beside them, no lead crosses."""
    plan = quad_wiring(drives=())
    told = [line.text for line in signals(plan, 0.0).lines]

    assert ["receiver", "throttle", "rudder", "elevator", "aileron", "mode"] == told[:6]
    assert ["1", "2", "3", "4", "5", "controller"] == told[6:]
    assert [(row, row) for row in range(5)] == leads_of(plan)
    expected = "Receiver leads into the controller, in order: "
    told = words_of(wiring_drawing(quad_wiring()))
    assert expected + "1 throttle, 2 rudder, 3 elevator, 4 aileron, 5 mode." in told


def test_leads_cross_where_the_order_differs_at_both_ends():
    """Each lead runs from the socket of its channel to its input; a socket may go elsewhere."""
    sockets = ("aileron", "elevator", "throttle", "rudder", "gear", "mode")
    plan = quad_wiring(drives=(), sockets=sockets)
    sheet = signals(plan, 0.0)

    assert [(2, 0), (3, 1), (1, 2), (0, 3), (5, 4), (4, 4)] == leads_of(plan)
    assert [False] * 5 + [True] == [lead.open for lead in sheet.leads]
    words = "Sockets of the receiver, in order: 1 aileron, 2 elevator, 3 throttle, 4 rudder, "
    assert words + "5 gear, 6 mode." in words_of(wiring_drawing(plan))
    assert ("receiver socket 6 mode", "controller input 5", "servo lead", "") in wiring_table(plan)[
        1
    ]


def test_signal_leads_run_from_each_output_to_its_station():
    """Outputs 1 to 4 from the top, stations in reading order: 3, 1, 4, 2."""
    plan = quad_wiring(leads=())
    told = [line.text for line in signals(plan, 0.0).lines]

    assert [(0, 1), (1, 3), (2, 0), (3, 2)] == leads_of(plan)
    assert ["front-left", "front-right", "rear-left", "rear-right"] == told[1:5]
    row = ("controller output 3", "E-1 (front-left)", "signal lead", "")
    assert row in wiring_table(plan)[1]


def test_a_controller_that_is_not_recorded_is_dashed():
    """A multirotor has one, recorded or not; the drawing says which."""
    recorded = signals(quad_wiring(controller="C-1", receiver="X-1"), 0.0)
    unknown = signals(quad_wiring(), 0.0)

    assert ([True, True], [False, False]) == tuple(
        [block.recorded for block in sheet.blocks] for sheet in (recorded, unknown)
    )


def test_without_a_controller_leads_go_to_servos_and_the_esc():
    """Both aileron servos hang from one channel; of the rudder nobody wrote which servo it is."""
    plan = quad_wiring(
        controlled=False,
        leads=("rudder", "aileron", "throttle", "elevator"),
        drives=(DrivePlan(station="nose", esc="E-41"),),
        servos=(
            ServoPlan(tag="V-1", drives="aileron-left"),
            ServoPlan(tag="V-2", drives="aileron-right"),
            ServoPlan(tag="V-3", drives="elevator"),
        ),
    )
    sheet = signals(plan, 0.0)

    assert 1 == len(sheet.blocks)
    assert [(1, 0), (1, 1), (2, 2), (3, 3), (0, 0)] == leads_of(plan)
    assert [False] * 4 + [True] == [lead.open for lead in sheet.leads]
    told = words_of(wiring_drawing(replace(plan, runs=(run("pack", "esc nose"),))))
    assert (
        "No controller is fitted. Leads of the receiver: 1 rudder, 2 aileron, 3 throttle, "
        "4 elevator. aileron to V-1 (aileron-left). aileron to V-2 (aileron-right). "
        "throttle to E-41 (nose). elevator to V-3 (elevator)."
    ) in told
    rows = [row[:2] for row in wiring_table(plan)[1]]
    assert ("receiver rudder", "not recorded") in rows
    assert ("receiver aileron", "V-2 (aileron-right)") in rows


@settings(max_examples=60, deadline=None)
@given(
    order=st.permutations([f"channel {number}" for number in range(9)]),
    sockets=st.permutations([f"channel {number}" for number in range(9)]),
    outputs=st.permutations(list(range(1, 9))),
    stations=st.lists(
        st.text("abcdefgh-", min_size=1, max_size=22), min_size=8, max_size=8, unique=True
    ),
)
def test_every_lead_has_its_two_ends_and_no_words_meet(order, sockets, outputs, stations):
    """Whatever the orders are: as many leads as channels and outputs, each pin met once."""
    drives = tuple(
        DrivePlan(station=name, esc=f"E-{output}", output=output)
        for name, output in zip(stations, outputs, strict=True)
    )
    plan = quad_wiring(leads=tuple(order), sockets=tuple(sockets), drives=drives)
    sheet = signals(plan, 0.0)

    ends = [end for lead in sheet.leads for end in (lead.start, lead.end)]
    assert (17, 34) == (len(sheet.leads), len(set(ends)))
    assert set(ends) == set(sheet.pins)
    assert [] == collisions(sheet.lines)
    assert [] == [line.text for line in sheet.lines if line.box.right > WIDTH]


def test_table_tells_the_same():
    """Runs, ESCs and leads, one row each."""
    columns, rows = wiring_table(quad_wiring())

    assert ("from", "to", "run", "load") == columns
    assert [
        ("pack", "distribution", "14 AWG · 140 mm · bullet 4 mm", "22 A · drop 51 mV (0.5 %)"),
        ("distribution", "each esc", "16 AWG · 180 mm", "5.5 A"),
        ("E-1 (front-left)", "M-1", "three phase leads", "output 3"),
    ] == list(rows[:3])
    assert ("receiver mode", "controller input 5", "servo lead", "") == rows[-5]
    assert ("controller output 2", "E-4 (rear-right)", "signal lead", "") == rows[-1]


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


def test_stations_on_one_board_are_led_to_and_fed_as_one():
    """Four signal leads, one run: the board takes the power."""
    drives = tuple(DrivePlan(station=name, esc="E-9", output=n) for n, name in enumerate("abcd", 1))
    plan = drawn_wiring(quad_wiring(drives=drives, runs=(run("pack", "esc board"),), leads=()))
    sheet = _sheet(plan, wiring_tree(plan), Numbers())

    assert (2, 4) == (len(sheet.parts), len(sheet.signals.leads))
    assert "E-9" in [line.text for line in sheet.lines]


def test_a_socket_with_two_ends_takes_a_y_lead():
    """One lead that parts, in the table and on the drawing; a socket with one end has none."""
    servos = tuple(
        ServoPlan(tag=tag, drives=name)
        for tag, name in (("V-1", "aileron-left"), ("V-2", "aileron-right"), ("V-3", "rudder"))
    )
    plan = WiringPlan(
        aircraft="Glider", leads=("aileron", "rudder"), servos=servos, controlled=False
    )
    _, rows = wiring_table(plan)
    sheet = _sheet(plan, None, Numbers())

    assert ["Y-lead", "Y-lead", "servo lead"] == [row[2] for row in rows]
    assert 1 == [line.text for line in sheet.lines].count("Y")
    assert [] == collisions(sheet.lines)


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
    sheet = _sheet(plan, tree, Numbers())
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


def test_what_hangs_from_the_only_esc_is_drawn_below_it():
    """``from: esc`` is the ESC that ``to: esc`` leads to, by the name of its station."""
    whole = quad_wiring()
    runs = (run("pack", "esc"), run("esc", "regulator"), run("regulator", "receiver"))
    tree = wiring_tree(drawn_wiring(replace(whole, drives=whole.drives[:1], runs=runs)))

    assert tree is not None
    assert [
        ("pack", 0),
        (f"esc {whole.drives[0].station}", 1),
        ("regulator", 2),
        ("receiver", 3),
    ] == [(node.name, node.depth) for node in tree.walk()]
