"""Trend charts: fit for a strict page, small, the same every time, and honest about nothing."""

import re
import subprocess
import sys

import pytest
from drawn_samples import SVG, complaints, parsed, view_box, words_of
from msgspec.structs import replace

from buildbook.drawings.charts.chart_svg import page_svg
from buildbook.drawings.charts.charts import (
    capacity_chart,
    consumption_chart,
    crash_gaps_chart,
    flying_by_month_chart,
    predicted_flown_chart,
    resistance_chart,
)
from buildbook.report.drawn.plans import MonthPlan
from buildbook.report.drawn.series import (
    CapacitySeries,
    ConsumptionSeries,
    CrashSeries,
    FlownSeries,
    MonthSeries,
    ResistanceSeries,
)
from buildbook.words.charts import (
    capacity_lead,
    capacity_table,
    capacity_words,
    consumption_lead,
    consumption_table,
    crash_gaps_table,
    crash_lead,
    flying_by_month_table,
    predicted_flown_table,
    resistance_lead,
    resistance_table,
)

CAPACITY = CapacitySeries(
    tag="P-01",
    points=tuple((float(n), 2.2 - 0.002 * n) for n in range(0, 180, 10)),
    line=((0.0, 2.2), (260.0, 1.68)),
    band=((170.0, 1.84, 1.88), (260.0, 1.6, 1.74)),
    limit_ah=1.76,
    rated_ah=2.2,
)
RESISTANCE = ResistanceSeries(
    tag="P-01",
    cells=tuple(
        tuple((float(n), 0.008 + 0.00002 * n * rise) for n in range(0, 150, 12))
        for rise in (1.0, 1.1, 2.0)
    ),
    limit_ohm=0.016,
    odd_cell=3,
)
MONTHS = MonthSeries(
    name="the hangar",
    months=(
        MonthPlan(month="2025-05", flights=3, hours=0.4),
        MonthPlan(month="2026-10", flights=12, hours=1.5),
    ),
)
FLOWN = FlownSeries(name="Sedge", points=((480.0, 470.4), (480.0, 500.0), (450.0, 380.0)))
USED = ConsumptionSeries(
    name="P-01",
    points=tuple((float(n), 200.0 + n % 7) for n in range(1, 400)),
    centre=203.0,
    lower=((1.0, 196.0), (399.0, 196.0)),
    upper=((1.0, 210.0), (399.0, 210.0)),
    signals=(12,),
)
CRASHES = CrashSeries(name="Sedge", gaps_h=(2.1, 6.4), since_h=9.0)
CHARTS = {
    "capacity": (capacity_chart, CAPACITY, CapacitySeries(tag="P", points=())),
    "resistance": (resistance_chart, RESISTANCE, ResistanceSeries(tag="P", cells=())),
    "months": (flying_by_month_chart, MONTHS, MonthSeries(name="x", months=())),
    "flown": (predicted_flown_chart, FLOWN, FlownSeries(name="x", points=())),
    "consumption": (consumption_chart, USED, ConsumptionSeries(name="x", points=())),
    "crashes": (crash_gaps_chart, CRASHES, CrashSeries(name="x", gaps_h=(), since_h=0.0)),
}


@pytest.mark.parametrize("name", CHARTS)
def test_charts_suit_a_strict_page(name):
    """No style, font, metadata or colour of their own, at most 12 kB, ids prefixed."""
    draw, series, _ = CHARTS[name]
    svg = draw(series, "c")

    assert [] == complaints(svg, "c")
    assert len(svg.encode()) <= 12_000
    assert (360.0, 226.0) == view_box(svg)


@pytest.mark.parametrize("name", CHARTS)
def test_the_same_series_gives_the_same_bytes(name):
    """The figure is reused: what was drawn before leaves no trace."""
    draw, series, _ = CHARTS[name]
    first = draw(series, "c")
    capacity_chart(CAPACITY, "other")
    flying_by_month_chart(MONTHS, "other")

    assert first == draw(series, "c")


def test_settings_of_the_reader_change_nothing():
    """A matplotlibrc of one's own does not reach the charts, and is left as it was."""
    import matplotlib as mpl

    plain = capacity_chart(CAPACITY, "c")
    with mpl.rc_context({"font.size": 30, "axes.grid": True, "svg.fonttype": "path"}):
        assert plain == capacity_chart(CAPACITY, "c")
        assert 30 == mpl.rcParams["font.size"]


def test_only_charts_need_matplotlib():
    """Every other drawing comes without it: pages that have no trend start quickly."""
    code = (
        "import sys\n"
        "from buildbook.drawings import balance\n"
        "from buildbook.drawings.charts import bars, timeline\n"
        "from buildbook.drawings.layout import layout\n"
        "from buildbook.drawings.wiring import wiring\n"
        "print([name for name in ('matplotlib', 'numpy') if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert "[]\n" == done.stdout


@pytest.mark.parametrize("name", CHARTS)
def test_a_chart_of_nothing_says_so(name):
    """An empty series is drawn without a warning, and described in words."""
    draw, _, empty = CHARTS[name]
    svg = draw(empty, "c")

    assert [] == complaints(svg, "c")
    assert re.search(r"No |Nothing ", words_of(svg))


@pytest.mark.parametrize("name", CHARTS)
def test_text_is_legible_on_a_phone(name):
    """At 320 px wide every text is at least 11 px high, and it is text, not outlines."""
    draw, series, _ = CHARTS[name]
    texts = list(parsed(draw(series, "c")).iter(f"{SVG}text"))

    assert len(texts) > 4
    assert [] == [text.text for text in texts if float(text.attrib["font-size"]) * 320 / 360 < 11]


def test_one_measurement_is_enough_for_a_chart():
    """A single point has no spread; it is still drawn."""
    single = CapacitySeries(tag="P", points=((1.0, 2.2),))

    assert [] == complaints(capacity_chart(single, "c"), "c")
    assert [] == complaints(
        predicted_flown_chart(FlownSeries(name="x", points=((0, 0),)), "c"), "c"
    )


def test_descriptions_tell_the_facts():
    """What a chart shows, in a sentence."""
    assert (
        "18 measured, 2200 mAh at charge 0, 1860 mAh at charge 170. Rated 2200 mAh. "
        "Limit 1760 mAh. Forecast: falls below 80 % of rated at about charge 260."
    ) in words_of(capacity_chart(CAPACITY, "c"))
    assert "Cell 3 differs from the others." in words_of(resistance_chart(RESISTANCE, "c"))
    assert "15 flights, May 2025 to Oct 2026; most in Oct 2026, 12." in words_of(
        flying_by_month_chart(MONTHS, "c")
    )
    assert (
        "3 flights, 2 within 10 % of the prediction; median flown -2 % against predicted."
    ) in words_of(predicted_flown_chart(FLOWN, "c"))
    assert "outside the limits: flight 13." in words_of(consumption_chart(USED, "c"))
    assert "2 crashes; 2.1, 6.4 h before each, 9.0 h since the last." in words_of(
        crash_gaps_chart(CRASHES, "c")
    )


def test_tables_hold_the_data():
    """Every point of a chart is a row of its table."""
    assert ("170", "1860 mAh", "84.5 %") == capacity_table(CAPACITY)[1][-1]
    assert ("0", "8.00 mΩ", "8.00 mΩ", "8.00 mΩ") == resistance_table(RESISTANCE)[1][0]
    assert 18 == len(flying_by_month_table(MONTHS)[1])
    assert ("8:00", "7:50", "-2 %") == predicted_flown_table(FLOWN)[1][0]
    assert ("13", "206 mAh/min", "signal") == consumption_table(USED)[1][12]
    assert ("since the last", "9.0 h") == crash_gaps_table(CRASHES)[1][-1]


def test_points_are_drawn_where_they_are():
    """Two dots and two grid lines apart by the same rule: capacity falls evenly on the page."""
    svg = capacity_chart(CAPACITY, "c")
    dots = re.search(r'stroke-linecap="round" d="(M[^"]+)"', svg)[1]
    places = [tuple(map(float, pair.split())) for pair in re.findall(r"M([\d. ]+)h0", dots)]
    steps = {round(places[n + 1][0] - places[n][0], 0) for n in range(len(places) - 1)}

    assert len(CAPACITY.points) == len(places)
    assert 1 == len(steps)
    assert sorted(y for _, y in places) == [y for _, y in places]


def test_a_stray_colour_is_refused():
    """A chart drawn in a colour outside the list would not follow the theme."""
    raw = (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1">'
        '<path style="fill: #ff0000" d="M 0 0 L 1 1"/></svg>'
    )
    with pytest.raises(ValueError, match=r"^no colour for '#ff0000'$"):
        page_svg(raw, "t", "d", "p")


def test_a_sentence_above_each_chart_says_what_it_shows():
    """How fast a pack fades and how far its limit is; which cell and which flight stand out."""
    fading = CapacitySeries(
        tag="P-1",
        points=((1, 2.2), (100, 2.0)),
        line=((100, 2.0), (300, 1.6)),
        limit_ah=1.6,
        change_ah=-0.00202,
    )
    assert (
        "Has lost about 2 mAh a charge. Falls below its limit at about charge 300, "
        "as its readings go."
    ) == capacity_lead(fading)
    assert "Falls below its limit at about charge 300, as its readings go." == capacity_lead(
        replace(fading, change_ah=0.0001)
    )
    assert (
        "2 measured, 2200 mAh at charge 1, 2000 mAh at charge 100. Limit 1600 mAh. "
        "Forecast: falls below its limit at about charge 300."
    ) == capacity_words(fading)
    assert (
        "Too few readings, or too similar, to say how fast it loses capacity."
    ) == capacity_lead(replace(fading, line=()))
    cells = (((1, 0.004), (2, 0.0041)), ((1, 0.004), (2, 0.0062)), ((1, 0.004), (2, 0.0043)))
    odd = ResistanceSeries(tag="P-1", cells=cells, odd_cell=2)
    assert "Cell 2 differs: 6.2 mΩ, the others 4.1 to 4.3 mΩ." == resistance_lead(odd)
    assert "No cell stands out: 4.1 to 6.2 mΩ." == resistance_lead(replace(odd, odd_cell=None))
    used = ConsumptionSeries(name="x", points=((1, 90), (2, 130)), centre=100.0, signals=(1,))
    assert (
        "Usually 100 mAh a minute. Outside the limits: flight 2 (130). "
        "Look at propellers and bearings, and at the wind of that day."
    ) == consumption_lead(used)
    assert "Usually 100 mAh a minute. No flight outside the limits." == consumption_lead(
        replace(used, signals=())
    )
    assert ("4.0 h since the last crash: longer than the longest stretch before it.") == crash_lead(
        CrashSeries(name="x", gaps_h=(1.0, 3.0), since_h=4.0)
    )


def test_readings_that_are_compared_with_none_are_rings():
    """Dots are readings that count; what was read warmer or colder is drawn hollow."""
    first = RESISTANCE.cells[0][0][0]
    plain, apart = (
        resistance_chart(series, "c")
        for series in (RESISTANCE, replace(RESISTANCE, apart=(first,)))
    )
    ring = re.compile(r'<path class="d-s-ink" stroke-width="1.2" d="(?:M[\d.]+ [\d.]+a[^M"]+)+"/>')

    assert 0 == len(ring.findall(plain))
    assert 2 == len(ring.findall(apart))


def test_a_key_of_two_rows_lies_within_its_chart():
    """It takes the room of the chart, not that of the sentence above."""
    first = RESISTANCE.cells[0][0][0]
    svg = resistance_chart(replace(RESISTANCE, apart=(first,)), "c")
    heads = [float(y) for y in re.findall(r'<text[^>]* y="(-?[\d.]+)"', svg)]

    assert 12.5 <= min(heads)
