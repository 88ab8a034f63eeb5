"""Aircraft, packs and motors side by side."""

from collections.abc import Container, Iterable, Iterator, Mapping, Sequence

import msgspec

from buildbook.records.parts import AT_HAND
from buildbook.report.figure import RATIO_AT_RESERVE, Answers
from buildbook.report.figures.comparison import (
    Best,
    Column,
    Compared,
    Comparison,
    Measure,
    Purpose,
)
from buildbook.report.packs.health import PackHealth
from buildbook.report.state import ItemNow
from buildbook.reporting.figures.headlines import on_usual_pack
from buildbook.reporting.whole import Whole

FIRST_ALIKE = 4
"""So many may be first together, as the motors of a quad; of more nobody is told which to take."""

Values = tuple[float | None, ...]

_MOST, _LEAST = 1, -1
_PURPOSES: Mapping[str, Mapping[Purpose, tuple[Column, int]]] = {
    "aircraft": {
        "longest in the air": ("flight time", _MOST),
        "most thrust": ("at the reserve", _MOST),
        "lightest": ("all-up mass", _LEAST),
        "most flown": ("flown", _MOST),
    },
    "packs": {
        "most capacity left": ("capacity, of rated", _MOST),
        "most worn": ("capacity, of rated", _LEAST),
    },
    "motors": {"run longest": ("run", _MOST)},
}


def comparisons(whole: Whole) -> tuple[Comparison, ...]:
    """Each kind of which there are at least two."""
    found = (_aircraft(whole), _packs(whole), _motors(whole))
    goes = {one.slug for one in whole.reports.going_flying().candidates if one.goes}
    at_home = whole.hangar.aircraft.keys() - goes
    return tuple(
        msgspec.structs.replace(one, best=tuple(best(one, at_home)))
        for one in found
        if len(one.rows) > 1
    )


def best(found: Comparison, without: Container[str] = ()) -> Iterator[Best]:
    """The first for each purpose, of those that could be taken.

    without: keys of those that something keeps at home. A count of nought, or one told of a single
    subject, is none, and nobody is first where all are alike.
    """
    for purpose, (column, sign) in _PURPOSES[found.of].items():
        at = found.columns.index(column)
        values = {row.key: row.measures[at].value for row in found.rows}
        known = {key: value for key, value in values.items() if value and key not in without}
        if len(known) > 1:
            first = max(sign * value for value in known.values())
            keys = tuple(key for key, value in known.items() if sign * value == first)
            if len(keys) <= FIRST_ALIKE and len(keys) < len(known):
                yield Best(purpose=purpose, column=column, keys=keys)


def on_one_scale(rows: Sequence[Values]) -> tuple[tuple[Measure, ...], ...]:
    """Each share is of the greatest value of its column."""
    most = [max(value or 0.0 for value in column) for column in zip(*rows, strict=True)]
    return tuple(
        tuple(
            Measure(value, None if value is None else (value / top if top > 0 else 0.0))
            for value, top in zip(row, most, strict=True)
        )
        for row in rows
    )


def _aircraft(whole: Whole) -> Comparison:
    found = whole.hangar.aircraft
    measures = on_one_scale([_of_aircraft(whole, slug) for slug in found])
    return Comparison(
        of="aircraft",
        columns=(
            "all-up mass",
            "thrust to weight",
            "at the reserve",
            "flight time",
            "flown",
            "flights",
            "crashes",
        ),
        rows=tuple(
            Compared(
                key=slug,
                title=found[slug].record.layout,
                where=None,
                measures=row,
                counters=found[slug].counters,
            )
            for slug, row in zip(found, measures, strict=True)
        ),
    )


def _of_aircraft(whole: Whole, slug: str) -> Values:
    """Of what goes by pack: the heaviest mass, the least thrust, the time to plan with."""
    answers = whole.reports.figures_of_aircraft(slug)
    counters = whole.hangar.aircraft[slug].counters

    def known(name: str) -> list[float]:
        found = (figure.value for figure in answers.figures if figure.name == name)
        return [value for value in found if value is not None]

    return (
        max(known("all_up_mass"), default=None),
        min(known("thrust_to_weight"), default=None),
        _thrust_left(answers),
        _planned_s(whole, slug, answers),
        counters.duration_s,
        float(counters.flights),
        float(counters.crashes),
    )


def _planned_s(whole: Whole, slug: str, answers: Answers) -> float | None:
    """The low end on the pack that it flew on most, else the shortest of all."""
    usual = on_usual_pack(whole, slug, answers, "flight_time")
    times = (one for one in answers.figures if one.name == "flight_time")
    lows = (one.value if one.low is None else one.low for one in ([usual] if usual else times))
    return min((low for low in lows if low is not None), default=None)


def _thrust_left(answers: Answers) -> float | None:
    """The thrust to weight with the reserve left; None where nobody knows it."""
    figures = (one for one in answers.figures if one.name == "thrust_to_weight")
    known = (one.other.get(RATIO_AT_RESERVE) for one in figures)
    return min((one for one in known if one is not None), default=None)


def _packs(whole: Whole) -> Comparison:
    packs = [one for one in _at_hand(whole) if one.is_pack]
    measures = on_one_scale(
        [
            (
                pack.counters.cycles,
                float(pack.counters.charges),
                float(pack.counters.flights),
                pack.counters.duration_s,
            )
            for pack in packs
        ]
    )
    return Comparison(
        of="packs",
        columns=("capacity, of rated", "cycles", "charges", "flights", "flown"),
        rows=_rows(
            whole,
            packs,
            [
                (_capacity(whole.reports.health(pack.tag)), *row)
                for pack, row in zip(packs, measures, strict=True)
            ],
        ),
    )


def _capacity(health: PackHealth) -> Measure:
    if health.share is None:
        return Measure(None, None)
    room = 1 - health.limit_share
    left = (health.share - health.limit_share) / room if room > 0 else 0.0
    return Measure(health.share, min(max(left, 0.0), 1.0))


def _motors(whole: Whole) -> Comparison:
    motors = [one for one in _at_hand(whole) if one.spec.kind == "motor"]
    return Comparison(
        of="motors",
        columns=("run", "flights", "crashes", "hard landings"),
        rows=_rows(
            whole,
            motors,
            on_one_scale(
                [
                    (
                        motor.counters.duration_s,
                        float(motor.counters.flights),
                        float(motor.counters.crashes),
                        float(motor.counters.hard_landings),
                    )
                    for motor in motors
                ]
            ),
        ),
    )


def _at_hand(whole: Whole) -> Iterable[ItemNow]:
    return (item for item in whole.hangar.items.values() if item.state.state in AT_HAND)


def _rows(
    whole: Whole, items: Sequence[ItemNow], measures: Sequence[tuple[Measure, ...]]
) -> tuple[Compared, ...]:
    return tuple(
        Compared(
            key=item.tag,
            title=item.spec.title,
            where=item.aircraft if item.aircraft in whole.hangar.aircraft else None,
            measures=row,
            counters=item.counters,
        )
        for item, row in zip(items, measures, strict=True)
    )
