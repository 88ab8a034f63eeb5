"""Sparklines, health, gains, balance and timeline."""

import itertools
import math
import re

import pytest
from drawn_samples import collisions, complaints, words_of
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from buildbook.drawings.balance import balance_drawing, balance_table, build_balance
from buildbook.drawings.charts.bars import (
    gain_bars,
    gain_table,
    health_bar,
    sparkline,
)
from buildbook.drawings.charts.timeline import _axis_lines, _keys, timeline_drawing, timeline_table
from buildbook.drawings.lettering import Box
from buildbook.report.drawn.plans import (
    BalancePlan,
    EventPlan,
    GainPlan,
    LoadPlan,
    MonthPlan,
    TimelinePlan,
)
from buildbook.report.packs.health import PackHealth
from buildbook.words.measures.days import every_month, month_number, month_words
from buildbook.words.upkeep.packs import health_words

GAINS = GainPlan(
    name="spring",
    values={"roll": {"p": 38.0, "i": 21.0}, "yaw": {"p": 60.0}},
    before_name="first",
    before={"roll": {"p": 34.0, "i": 21.0, "d": 4.0}, "yaw": {"p": 60.0}},
)
TIMELINE = TimelinePlan(
    aircraft="Sedge",
    months=(
        MonthPlan(month="2025-11", flights=4, hours=0.5),
        MonthPlan(month="2026-02", flights=9),
    ),
    events=(
        EventPlan(month="2025-11", day=14, kind="crash", words="lost orientation"),
        EventPlan(month="2026-01", kind="repair", words="new arm"),
    ),
)
BALANCE = BalancePlan(
    aircraft="Sedge",
    loads=(
        LoadPlan(name="nose weight", mass_kg=0.02, forward_m=0.1),
        LoadPlan(name="right tip", mass_kg=0.08, forward_m=0.0, right_m=0.2),
        LoadPlan(name="pack", mass_kg=0.3, forward_m=-0.1, down_m=0.05),
    ),
    cg_m=(-0.06, 0.03, 0.02),
    band_forward_m=(-0.05, -0.08),
    words="weighed",
)
DRAWINGS = {
    "sparkline": lambda prefix: sparkline([1, 0, 5], "flights by month", prefix),
    "health": lambda prefix: health_bar(PackHealth(tag="P-01", state="good", share=0.9), prefix),
    "gains": lambda prefix: gain_bars(GAINS, prefix),
    "timeline": lambda prefix: timeline_drawing(TIMELINE, prefix),
    "balance": lambda prefix: balance_drawing(BALANCE, prefix),
}


@pytest.mark.parametrize("name", DRAWINGS)
def test_small_drawings_suit_a_strict_page(name):
    """Well formed, no inline style or colour, own ids, the same bytes each time."""
    draw = DRAWINGS[name]

    assert [] == complaints(draw("x"), "x")
    assert draw("x") == draw("x")


@pytest.mark.parametrize(
    ("state", "share", "expected"),
    [
        ("good", 0.96, "good, 96 %"),
        ("near", 0.83, "near limit, 83 %"),
        ("worn", 0.79, "below limit, 79 %"),
        ("quarantined", 0.96, "quarantined, 96 %"),
        ("unknown", None, "not measured"),
        ("quarantined", None, "quarantined"),
    ],
)
def test_health_is_told_in_words_with_its_share(state, share, expected):
    """The bar says in words what it shows."""
    health = PackHealth(tag="P-01", state=state, share=share)

    assert expected == health_words(health)
    assert f"P-01: {expected}" in words_of(health_bar(health, "h"))


def test_health_states_differ_in_shape_too():
    """Without colour the five states still differ."""
    plans = [
        PackHealth(tag="P", state=state, share=share)
        for state, share in (
            ("good", 0.95),
            ("near", 0.82),
            ("worn", 0.5),
            ("quarantined", 0.9),
            ("unknown", None),
        )
    ]
    heads = [health_bar(plan, "h").partition("<text")[0].partition("</desc>")[2] for plan in plans]
    shapes = {re.sub(r'class="[^"]*" ', "", head).strip() for head in heads}

    assert 5 == len(shapes)


def test_a_sparkline_is_as_high_as_its_values():
    """Bars stand in proportion; nothing is drawn for nothing."""
    svg = sparkline([2, 0, 4], "flights by month", "s")
    heights = [float(high) for high in re.findall(r"v-([\d.]+)h", svg)]

    assert 2 == len(heights)
    assert 0.5 == pytest.approx(heights[0] / heights[1], rel=0.01)
    assert "Oldest first: 2, 0, 4." in words_of(svg)
    assert [] == complaints(sparkline([], "flights by month", "s"), "s")


def test_gains_show_what_changed():
    """Changed values say what they are in the set beside, dropped terms that there is none."""
    svg = gain_bars(GAINS)

    assert ">38 (34)<" in svg
    assert ">21<" in svg
    assert ">none (4)<" in svg
    assert [("roll", "p", "38", "34", "+4"), ("roll", "i", "21", "21", "")] == list(
        gain_table(GAINS)[1][:2]
    )


def test_a_first_gain_set_has_nothing_before():
    """Without a set beside it there is no tick and no second value."""
    svg = gain_bars(GainPlan(name="first", values={"roll": {"p": 30.0}}))

    assert "(" not in svg.split("</desc>")[1]
    assert "tick" not in svg
    assert (
        "The tick marks the value in first, which stands in brackets. Each term has its own scale."
        in gain_bars(GAINS)
    )
    assert "v14" not in svg


def test_the_balance_stands_nose_up_like_the_layout():
    """Forward is up in both views, right is right from above, down is right from the right side."""
    top, side = build_balance(BALANCE).views
    pack, tip, nose = top.discs  # the heaviest first
    side_pack, _, side_nose = side.discs

    assert nose.y < tip.y < pack.y
    assert (True, True) == (tip.x > nose.x, nose.x == pack.x == top.x)
    assert (nose.y, pack.y) == (side_nose.y, side_pack.y)
    assert side_pack.x > side_nose.x == side.x


def test_the_balance_says_which_way_is_forward_and_which_is_up():
    """The word forward over both arrows; up and down at the left and right end below the side."""
    sheet = build_balance(BALANCE)
    side = sheet.views[1]
    said = {line.text: line for line in sheet.lines}
    forward = [line for line in sheet.lines if line.text == "forward"]

    assert ["up", "down"] == [text for text in said if text in {"up", "down"}]
    assert (2, {37.0}) == (len(forward), {line.y for line in forward})
    assert said["up"].x < side.x < said["down"].x
    assert side.area.bottom < said["up"].y == said["down"].y < sheet.floor
    assert [(1, 6.0), (-1, -6.0)] == [(math.copysign(1, e.back), e.back) for e in sheet.ends]


def test_long_words_of_the_centre_of_gravity_get_a_line_of_their_own():
    """Beside the length of the scale while both have room, else below it."""
    short = build_balance(replace(BALANCE, words="weighed"))
    long = build_balance(replace(BALANCE, words="weighed, adjusted for all changes since then"))

    assert (short.base, long.base + 20.0) == (short.cg_mark[1], long.cg_mark[1])
    assert 20 == long.height - short.height


def test_the_key_has_every_load_the_heaviest_first():
    """Numbers of the drawing, names, masses; the area of a disc is its mass."""
    sheet = build_balance(BALANCE)
    pack, tip, _ = sheet.views[0].discs

    assert [("1", "pack", "300 g"), ("2", "right tip", "80 g"), ("3", "nose weight", "20 g")] == [
        (one.number.text, one.name.text, one.mass.text) for one in sheet.key
    ]
    assert pytest.approx(300 / 80) == (pack.r / tip.r) ** 2


def test_balance_tells_every_load():
    """The words and the table hold all loads, drawn names or not."""
    told = words_of(balance_drawing(BALANCE))

    assert "right tip 80 g, 200 mm right." in told
    assert "Centre of gravity 60 mm aft, 30 mm right, weighed." in told
    assert ("pack", "300.0 g", "100 mm aft", "50 mm") == balance_table(BALANCE)[1][2]


def test_the_timeline_fills_months_without_flying():
    """November to February is four months, two of them empty."""
    months = every_month(TIMELINE.months)

    assert ["2025-11", "2025-12", "2026-01", "2026-02"] == [month.month for month in months]
    assert [4, 0, 0, 9] == [month.flights for month in months]
    assert "13 flights, 0.5 h, Nov 2025 to Feb 2026." in words_of(timeline_drawing(TIMELINE))


def test_the_timeline_tells_what_happened():
    """Each month with flying or an event has a row; a day is told only where it is given."""
    assert [
        ("Nov 2025", "4", "0.5 h", "crash: lost orientation"),
        ("Jan 2026", "0", "0.0 h", "repair: new arm"),
        ("Feb 2026", "9", "0.0 h", ""),
    ] == list(timeline_table(TIMELINE)[1])
    told = words_of(timeline_drawing(TIMELINE))
    assert "14 Nov 2025: crash, lost orientation. Jan 2026: repair, new arm." in told


@pytest.mark.parametrize("count", [1, 2, 3, 4, 5])
def test_marks_of_the_key_keep_clear_of_its_words(count):
    """Whatever kinds of events occur: a mark reaches 5.5 to each side and its word begins after."""
    kinds = ("crash", "hard landing", "repair", "alteration", "note")
    for some in itertools.combinations(kinds, count):
        keys = _keys(some, 100.0)
        marks = [Box(mark.x - 5.5, mark.y - 5.5, mark.x + 5.5, mark.y + 5.5) for mark, _ in keys]
        lines = [words for _, words in keys]

        assert [] == collisions(lines)
        assert [] == [line.text for line in lines for box in marks if line.box.meets(box)]
        assert [] == [line.text for line in lines if line.box.right > 340]


@settings(max_examples=60)
@given(first=st.integers(24000, 24400), count=st.integers(1, 240))
def test_month_and_year_words_keep_clear(first, count):
    """However long the life of an aircraft, the words under its axis do not meet."""
    lines = _axis_lines(first, count, 324.0 / count)

    assert [] == collisions(lines)
    assert [] == [line.text for line in lines if line.box.right > 340 or line.box.left < 0]


def test_months_are_read_strictly():
    """What is no month is refused with the words that were found."""
    assert "Mar 2026" == month_words(month_number("2026-03"))
    with pytest.raises(ValueError, match=r"^expected a month like 2026-03, got '2026-13'$"):
        month_number("2026-13")


@settings(max_examples=40, deadline=None)
@given(
    loads=st.lists(
        st.tuples(st.floats(0, 5), st.floats(-2, 2), st.floats(-1, 1), st.floats(-0.3, 0.3)),
        max_size=14,
    )
)
def test_any_balance_is_drawn(loads):
    """Loads anywhere, of any mass, nothing too: well formed, no stray number."""
    plan = BalancePlan(
        aircraft="Any",
        loads=tuple(
            LoadPlan(name=f"load {n}", mass_kg=m, forward_m=x, right_m=y, down_m=z)
            for n, (m, x, y, z) in enumerate(loads)
        ),
    )

    assert [] == complaints(balance_drawing(plan), "balance")
    for view in build_balance(plan).views:
        numbers = [number.line for number in view.numbers]
        assert [] == collisions(numbers)
        assert [] == [
            (line.text, disc) for line in numbers for disc in view.discs if on_disc(disc, line)
        ]


def on_disc(disc, line):
    """Whether the words of a line reach into a disc."""
    box = line.box
    x, y = min(max(disc.x, box.left), box.right), min(max(disc.y, box.top), box.bottom)
    return math.hypot(disc.x - x, disc.y - y) < disc.r


def test_the_timeline_of_what_never_flew_counts_no_flights():
    """A row of work has no column of noughts beside it."""
    plan = replace(
        TIMELINE, months=tuple(replace(month, flights=0, hours=0.0) for month in TIMELINE.months)
    )

    assert ("month", "what happened") == timeline_table(plan)[0]
    assert "Not flown yet, " in words_of(timeline_drawing(plan, "t"))
    assert ("month", "flights", "flown", "what happened") == timeline_table(TIMELINE)[0]
