"""Trend charts by matplotlib: drawn for a phone's width, on one reused figure, as page SVG.

The only module that imports matplotlib. The same series gives the same bytes.
"""

from __future__ import annotations

import io
from collections.abc import Callable, Iterable, Sequence
from functools import cache
from typing import Any

import matplotlib as mpl
from markupsafe import Markup
from matplotlib.axes import Axes
from matplotlib.backends.backend_svg import FigureCanvasSVG
from matplotlib.figure import Figure
from matplotlib.ticker import MaxNLocator

from buildbook.basis import amounts
from buildbook.drawings.charts.chart_svg import COLOURS, page_svg
from buildbook.report.drawn.series import (
    CapacitySeries,
    ConsumptionSeries,
    CrashSeries,
    FlownSeries,
    MonthSeries,
    Point,
    ResistanceSeries,
)
from buildbook.words.charts import (
    capacity_words,
    charges_axis,
    consumption_words,
    crash_words,
    flown_words,
    month_words_of,
    resistance_words,
)
from buildbook.words.measures.days import MONTH_WORDS, every_month, month_number

_WIDTH_PT, _HEIGHT_PT = 360.0, 226.0
_SIZE = 12.5  # at 320 px wide this is 11 px
_PLACE = (0.125, 0.2, 0.845, 0.66)  # of the axes on the figure, from its left and its foot
_ROW = 0.08  # a line of the key, in heights of the figure
_SETTINGS: dict[Any, Any] = {
    "svg.fonttype": "none",
    "svg.hashsalt": "buildbook",
    "font.family": "DejaVu Sans",
    "font.size": _SIZE,
    "path.simplify": True,
    "axes.unicode_minus": False,
}
_DASHES = ((), (6, 2), (2, 2), (8, 2, 2, 2), (1, 2), (4, 4))


@cache
def _figure() -> Figure:
    """The figure that all charts are drawn on, one after the other: making one costs most."""
    figure = Figure(figsize=(_WIDTH_PT / 72, _HEIGHT_PT / 72), dpi=72)
    FigureCanvasSVG(figure)
    figure.patch.set_visible(False)
    return figure


def _chart(
    paint: Callable[[Axes], None], title: str, words: str, prefix: str, unit: str, below: str
) -> Markup:
    """One chart: the unit at the head of the upright axis, words for the other below it."""
    with mpl.rc_context():
        mpl.rcdefaults()  # whatever settings the reader keeps, the bytes are the same
        mpl.rcParams.update(_SETTINGS)
        figure = _figure()
        for drawn in (*figure.axes, *figure.texts):
            drawn.remove()  # to clear them would make all their ticks anew
        axes = figure.add_axes(_PLACE)
        axes.set_facecolor("none")
        for side in ("top", "right", "left"):
            axes.spines[side].set_visible(False)
        axes.spines["bottom"].set_color(COLOURS["ink"])
        axes.grid(axis="y", color=COLOURS["line"], linewidth=0.8)
        axes.set_axisbelow(True)
        axes.tick_params(length=0, pad=5, labelcolor=COLOURS["soft"], labelsize=_SIZE)
        axes.xaxis.set_major_locator(MaxNLocator(nbins=6, integer=True))
        axes.yaxis.set_major_locator(MaxNLocator(nbins=4))
        paint(axes)
        figure.text(0.0, 0.896, unit, color=COLOURS["soft"])
        axes.text(1.0, -0.25, below, transform=axes.transAxes, ha="right", color=COLOURS["soft"])
        written = io.StringIO()
        figure.savefig(written, format="svg", metadata={"Date": None, "Creator": None})
    return page_svg(written.getvalue(), title, words, prefix)


def _key(axes: Axes, columns: int = 3) -> None:
    """What is what, in a row above the chart, right aligned; a second row takes its own room."""
    handles, _ = axes.get_legend_handles_labels()
    if not handles:
        return
    if len(handles) > columns:
        axes.set_position((*_PLACE[:3], _PLACE[3] - _ROW))
    legend = axes.legend(
        loc="lower right",
        bbox_to_anchor=(1.02, 1.0),
        ncols=columns,
        frameon=False,
        handlelength=1.3,
        handletextpad=0.45,
        columnspacing=1.0,
        borderaxespad=0.0,
    )
    for text in legend.get_texts():
        text.set_color(COLOURS["soft"])


def _xy(points: Sequence[Point]) -> tuple[list[float], list[float]]:
    return [x for x, _ in points], [y for _, y in points]


def _times_1000(points: Iterable[Point]) -> list[Point]:
    """In mAh, or mΩ: as packs and chargers are lettered."""
    return [(at, value * 1000) for at, value in points]


def _dots(axes: Axes, points: Sequence[Point], label: str = "") -> None:
    size = 5.5 if len(points) <= 60 else 3.6
    axes.plot(
        *_xy(points), "o", ms=size, mew=0, color=COLOURS["ink"], label=label or "_", clip_on=False
    )


def _rings(axes: Axes, points: Sequence[Point]) -> None:
    """Readings under other conditions: shown, but compared with none."""
    if points:
        ink = COLOURS["ink"]
        axes.plot(
            *_xy(points),
            "o",
            ms=6,
            mew=1.2,
            mfc="none",
            mec=ink,
            label="not comparable",
            clip_on=False,
        )


def _area(axes: Axes, corners: Sequence[Point], label: str) -> None:
    axes.fill(*_xy(corners), color=COLOURS["tint"], linewidth=0, label=label)


def _limit(axes: Axes, value: float, words: str) -> None:
    axes.axhline(value, color=COLOURS["bad"], linewidth=1.4, dashes=(5, 3))
    axes.annotate(
        words,
        (0.0, value),
        xycoords=("axes fraction", "data"),
        xytext=(2, -13),
        textcoords="offset points",
        color=COLOURS["bad"],
    )


def capacity_chart(series: CapacitySeries, prefix: str) -> Markup:
    """Measured capacity in mAh over charges: trend, forecast band, rated capacity and limit."""

    def paint(axes: Axes) -> None:
        if series.band:
            low = _times_1000((x, bottom) for x, bottom, _ in series.band)
            high = _times_1000((x, top) for x, _, top in reversed(series.band))
            _area(axes, [*low, *high], "forecast")
        if series.line:
            line = _times_1000(series.line)
            axes.plot(*_xy(line), color=COLOURS["accent"], linewidth=2.2, label="trend")
        apart = set(series.apart)
        points = _times_1000(series.points)
        _dots(axes, [one for at, one in enumerate(points) if at not in apart], label="measured")
        _rings(axes, [points[at] for at in series.apart])
        if series.rated_ah is not None:
            axes.axhline(series.rated_ah * 1000, color=COLOURS["soft"], linewidth=0.9)
        limit_mah = None if series.limit_ah is None else series.limit_ah * 1000
        if series.limit_ah is not None and limit_mah is not None:
            _limit(axes, limit_mah, f"limit {amounts.charge(series.limit_ah)}")
        _room(axes, below=limit_mah)
        _whole_steps(axes)
        _key(axes)

    title = f"Capacity of {series.tag} over its charges"
    return _chart(paint, title, capacity_words(series), prefix, "mAh", charges_axis(series))


def _whole_steps(axes: Axes) -> None:
    """Room for whole numbers on the level axis, also where there is a single one."""
    low, high = axes.get_xlim()
    if high - low < 2.0:
        middle = round((low + high) / 2)
        axes.set_xlim(middle - 1.5, middle + 1.5)


def _room(axes: Axes, below: float | None) -> None:
    """Keep the limit and its words inside the chart."""
    low, high = axes.get_ylim()
    if below is not None:
        low = min(low, below - 0.16 * (high - low))
    axes.set_ylim(low, high)


def resistance_chart(series: ResistanceSeries, prefix: str) -> Markup:
    """Resistance of each cell over charges; the odd cell out is strong, the rest are quiet."""

    def paint(axes: Axes) -> None:
        few = len(series.cells) <= 3
        for number, cell in enumerate(series.cells, 1):
            odd = number == series.odd_cell
            alike = _times_1000(point for point in cell if point[0] not in series.apart)
            axes.plot(
                *_xy(alike),
                color=COLOURS["bad" if odd else "accent"],
                linewidth=2.4 if odd else 1.5,
                dashes=_DASHES[(number - 1) % len(_DASHES)] or (None, None),
                label=f"cell {number}" if few else str(number),
            )
        odd_ones = [point for cell in series.cells for point in cell if point[0] in series.apart]
        _rings(axes, _times_1000(odd_ones))
        if series.limit_ohm is not None:
            _limit(axes, series.limit_ohm * 1000, f"limit {series.limit_ohm * 1000:.1f} mΩ")
        _whole_steps(axes)
        _key(axes, min(max(len(series.cells), 1), 7))

    title = f"Cell resistance of {series.tag} over its charges"
    unit = "mΩ" if len(series.cells) <= 3 else "mΩ, by cell"
    return _chart(paint, title, resistance_words(series), prefix, unit, charges_axis(series))


def flying_by_month_chart(series: MonthSeries, prefix: str) -> Markup:
    """Flights of each month as bars."""
    months = every_month(series.months)

    def paint(axes: Axes) -> None:
        axes.bar(
            range(len(months)),
            [month.flights for month in months],
            width=0.68,
            color=COLOURS["accent"],
            linewidth=0,
        )
        axes.yaxis.set_major_locator(MaxNLocator(nbins=4, integer=True))
        numbers = [month_number(month.month) for month in months]
        every = max(1, -(-len(months) // 6))
        ticks = [place for place, number in enumerate(numbers) if number % every == 0]
        axes.set_xticks(ticks, _month_ticks([numbers[place] for place in ticks]))

    title = f"Flights of {series.name} by month"
    return _chart(paint, title, month_words_of(series), prefix, "flights", "")


def _month_ticks(numbers: Sequence[int]) -> list[str]:
    """The month, and the year below it where it differs from the tick before."""
    years = [number // 12 for number in numbers]
    return [
        MONTH_WORDS[number % 12] + (f"\n{year}" if place == 0 or year != years[place - 1] else "")
        for place, (number, year) in enumerate(zip(numbers, years, strict=True))
    ]


def predicted_flown_chart(series: FlownSeries, prefix: str) -> Markup:
    """Flown against predicted time in minutes, with the line where both agree and 10 % about it."""

    def paint(axes: Axes) -> None:
        points = [(predicted / 60, flown / 60) for predicted, flown in series.points]
        values = [value for point in points for value in point] or [0.0, 1.0]
        low = min(values) * 0.9
        high = max(max(values) * 1.08, low + 0.5)
        wedge = [(low, low * 0.9), (high, high * 0.9), (high, high * 1.1), (low, low * 1.1)]
        _area(axes, wedge, "within 10 %")
        axes.plot([low, high], [low, high], color=COLOURS["accent"], linewidth=1.6, label="equal")
        _dots(axes, points, label="flight")
        axes.set_xlim(low, high)
        axes.set_ylim(low, high)
        # Whole minutes where there are enough: a long number under the last tick is cut off.
        axes.xaxis.set_major_locator(MaxNLocator(nbins=6, integer=high - low > 6))
        _key(axes)

    title = f"Predicted against flown time, {series.name}"
    return _chart(paint, title, flown_words(series), prefix, "min flown", "min predicted")


def consumption_chart(series: ConsumptionSeries, prefix: str) -> Markup:
    """Charge per minute flight by flight, centre and control limits, signals ringed in place."""

    def paint(axes: Axes) -> None:
        for points, label in ((series.lower, "limits"), (series.upper, "_")):
            if points:
                x, y = _xy(points)
                axes.plot(x, y, color=COLOURS["bad"], linewidth=1.4, dashes=(5, 3), label=label)
        if series.centre is not None:
            axes.axhline(series.centre, color=COLOURS["accent"], linewidth=1.8, label="usual")
        signals = {place for place in series.signals if 0 <= place < len(series.points)}
        quiet = [point for place, point in enumerate(series.points) if place not in signals]
        axes.plot(*_xy(series.points), color=COLOURS["soft"], linewidth=0.7)
        _dots(axes, quiet)
        if signals:
            loud = [series.points[place] for place in sorted(signals)]
            axes.plot(*_xy(loud), "o", ms=9, mew=0, color=COLOURS["bad"], label="signal")
        _whole_steps(axes)
        _key(axes)

    title = f"Charge used per minute, {series.name}"
    return _chart(paint, title, consumption_words(series), prefix, "mAh/min", "flights")


def crash_gaps_chart(series: CrashSeries, prefix: str) -> Markup:
    """Hours flown up to each crash, and the hours since the last one, still running."""

    def paint(axes: Axes) -> None:
        places = list(range(1, len(series.gaps_h) + 1))
        axes.bar(places, series.gaps_h, width=0.6, color=COLOURS["bad"], linewidth=0)
        last = len(places) + 1
        axes.bar([last], [series.since_h], width=0.6, color=COLOURS["accent"], linewidth=0)
        axes.set_xlim(0.4, max(last, 4) + 0.6)
        every = max(1, -(-last // 8))
        ticks = [place for place in places if place % every == 0]
        axes.set_xticks([*ticks, last], [*map(str, ticks), "since"])

    title = f"Hours between crashes of {series.name}"
    return _chart(paint, title, crash_words(series), prefix, "hours flown", "crashes")
