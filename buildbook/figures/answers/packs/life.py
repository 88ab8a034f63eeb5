"""When a pack will be worn out: as a number of charges, and as a day."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from functools import lru_cache
from typing import TYPE_CHECKING

import msgspec

from buildbook.basis import amounts
from buildbook.basis.days import YEAR_DAYS
from buildbook.figures.answers.craft import Part
from buildbook.figures.answers.gathering import Lacking, measured, number
from buildbook.figures.answers.packs.health import numbered, others_apart, unlike_words
from buildbook.figures.answers.packs.packs import end_of_life, rated_capacity, unmeasured
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import by_method, given_value
from buildbook.figures.laws.law import CUSTOM
from buildbook.figures.laws.packs.fade_shapes import LEAST_POWER, MOST_BEND, MOST_POWER
from buildbook.records.parts import GONE
from buildbook.report.figure import Figure, Input, Name
from buildbook.report.history import ChargeDone
from buildbook.report.packs.like_conditions import like_capacities

if TYPE_CHECKING:
    from buildbook.figures.laws.packs.forecast import EndOfLife
    from buildbook.figures.laws.packs.forecast_days import DayForecast

LEVEL, WIDE = 0.8, 0.95
NUMBER = by_method(
    "each shape that a fade may have, carried on with its doubt and counted by what the readings "
    "say of it; the middle one of the numbers from which the capacity stays below the share of the "
    "rated one",
    "own, held by simulated packs and by the battery set of Saha and Goebel 2007",
    "forecast_end_of_life",
)
DAY = by_method(
    "charging as of the last 180 days and age together, each with its doubt; what the shelf takes "
    "goes with the square root of time",
    "Garwood 1936 for the rate; growth of the film on the anode, quoted widely, for age",
    "forecast_days",
)
UNFORESEEN = "a sudden loss after the last measurement cannot be predicted"
EVEN = "the interval is for all kinds of fade together: soon after a bend it holds less often"
PAST = "past already, as its readings go: measure the capacity once more"
TOGETHER = "by charging as in the last 180 days and by age together"
FAR = "the early end of the interval decides: of ten packs like it at most one ends sooner"
FAR_YEARS = 5
"""Beyond them no day is told: until then cells swell and keepers change. Common practice, no
source."""
FAR_DAYS = FAR_YEARS * YEAR_DAYS
PACE_DEFAULT = f"{CUSTOM}; seen from how readings hang together"


def _inputs(part: Part, found: EndOfLife) -> tuple[Input, ...]:
    done = like_capacities(part.item).alike
    return (
        measured("measured capacities", len(done), "count", done[-1].place),
        measured("last measured capacity", done[-1].measured_ah, "Ah", done[-1].place),
        rated_capacity(part.item),
        end_of_life(part.keeper),
        *_assumed(found),
    )


def _assumed(found: EndOfLife) -> Iterator[Input]:
    """What nobody measured: its range, and its share of the interval."""
    if found.state != "forecast":
        return
    yield Input(
        called=Name("shape of the fade"),
        value=f"a power of {LEAST_POWER:g} to {MOST_POWER:g} of the charges, or one bend by up to "
        f"{MOST_BEND:g} times; {found.shape_share * 100:.0f} % of the interval",
        unit="",
        basis="default",
        note=CUSTOM,
    )
    if found.wander > 0.0:
        yield Input(
            called=Name("pace of the fade to come"),
            value=f"as now, give or take {found.wander * 100:.0f} %; "
            f"{found.pace_share * 100:.0f} % of the interval",
            unit="",
            basis="default",
            note=PACE_DEFAULT,
        )


@lru_cache(maxsize=1)
def _worked_out(
    numbers: tuple[float, ...], measured_ah: tuple[float, ...], threshold_ah: float
) -> EndOfLife:
    """One forecast serves both figures of a pack."""
    from buildbook.figures.laws.packs.forecast import forecast_end_of_life

    return forecast_end_of_life(
        numbers, measured_ah, threshold_ah=threshold_ah, levels=(LEVEL, WIDE)
    )


def _forecast(part: Part) -> EndOfLife:
    """The forecast. Lacking: nothing measured, too early to say, or retired before its end."""
    item = part.item
    if not item.capacities:
        _refuse_gone(part)
        raise unmeasured(item)
    threshold = number(rated_capacity(item)) * number(end_of_life(part.keeper))
    likes = like_capacities(item)
    done = likes.alike
    found = _worked_out(
        tuple(numbered(item, done)[0]),
        tuple(one.measured_ah for one in done),
        threshold,
    )
    if found.state != "reached":
        _refuse_gone(part)
    if found.state == "too early" or found.number is None:
        raise Lacking(
            "; ".join((f"too early to say: {found.reason}", *others_apart(likes))),
            item.capacities[-1].place,
        )
    return found


def _refuse_gone(part: Part) -> None:
    """Lacking: a pack that is out of use has no end to come."""
    state = part.item.state
    if state.state in GONE:
        gone = f"{part.item.tag} is {state.state}: no forecast"
        raise Lacking(gone, state.place or part.item.item.place())


def pack_end_of_life(part: Part) -> Figure:
    """The number of charges from which the capacity stays below the share for good."""
    found = _forecast(part)
    narrow, wide = found.intervals
    is_over = found.state == "reached"  # then there is nothing to be unsure of
    likes = like_capacities(part.item)
    counted = numbered(part.item, likes.alike)[1]
    state = part.item.state.state
    told = [] if state == "serviceable" else [f"{part.item.tag} is {state}"]
    told += ["reached"] if is_over else []
    is_past = not is_over and (found.number or 0.0) <= _number_now(part)
    told += [PAST] if is_past else []
    aside = (f"{found.set_aside} single low readings set aside",) if found.set_aside else ()
    return given_value(
        "pack_end_of_life",
        found.number,
        unit="count",
        way=NUMBER,
        low=None if is_over else narrow.low,
        high=None if is_over else narrow.high,
        level=None if is_over else narrow.level,
        inputs=_inputs(part, found),
        verdict="; ".join(told) or None,
        judged="reached" if is_over else "past already" if is_past else None,
        other={
            **({} if is_over else {"low at 95 %": wide.low, "high at 95 %": wide.high}),
            "threshold, Ah": found.threshold_ah,
            "charges so far": _number_now(part),
        },
        notes=(
            *_part_charges(part, counted),
            f"{counted} since the first are counted; what is not recorded of temperature, current "
            "and cut-off is assumed to match",
            *unlike_words(likes.unlike),
            *((EVEN, UNFORESEEN) if found.state == "forecast" else ()),
            *aside,
        ),
    )


def _part_charges(part: Part, counted: str) -> tuple[str, ...]:
    """What a charge is, where some of them did not fill the pack."""
    if counted != "charges":
        return ()
    charges = part.item.charges
    stored = sum(charge.to == "storage" for charge in charges)
    some = sum(charge.to == "part" for charge in charges)
    so_far = f"{amounts.count('charge', len(charges) - stored)} so far"
    left_out = f"; {stored} to storage {'are' if stored > 1 else 'is'} not counted"
    in_part = f"; {some} in part {'count' if some > 1 else 'counts'} as one"
    return (f"{so_far}{left_out if stored else ''}{in_part if some else ''}",)


def _counting(part: Part) -> tuple[ChargeDone, ...]:
    """Those to storage are left out: one is no use of the pack, but its rest."""
    return tuple(charge for charge in part.item.charges if charge.counts)


def _number_now(part: Part) -> float:
    """As many as were counted so far, as the forecast counts."""
    numbers, counted = numbered(part.item, like_capacities(part.item).alike)
    return float(len(_counting(part))) if counted == "charges" else numbers[-1]


def pack_end_of_life_date(part: Part) -> Figure:
    """The same as a day, by the recent rate of charging and by age."""
    from buildbook.figures.laws.packs.forecast_days import History, forecast_days

    found, item = _forecast(part), part.item
    done = like_capacities(item).alike
    numbers, counted = numbered(item, done)
    counts = _counting(part) if counted == "charges" else done
    days = [one.on.toordinal() for one in counts]
    born = min(day for day in (item.born, done[0].on) if day is not None)
    history = History(
        numbers=numbers,
        capacities_ah=[one.measured_ah for one in done],
        reading_days=[one.on.toordinal() for one in done],
        born=born.toordinal(),
        charge_days=days,
    )
    today = part.hangar.as_of
    ahead = forecast_days(
        found, history, number_now=_number_now(part), today=today.toordinal(), level=LEVEL
    )
    place = item.capacities[-1].place
    if ahead.state == "reached":
        _refuse_gone(part)
        raise Lacking("reached already: see the number of charges", place)
    if ahead.days is not None and ahead.days <= 1.0:
        raise Lacking(PAST, place)
    inputs = (*_inputs(part, found), *_days_inputs(part, ahead, born))
    if _is_far(ahead):
        return given_value(
            "pack_end_of_life_date",
            None,
            unit="count",
            way=DAY,
            level=LEVEL,
            inputs=inputs,
            verdict=_not_within(ahead),
            notes=(TOGETHER, FAR, UNFORESEEN),
        )
    if ahead.days is None or ahead.low_days is None or ahead.high_days is None:
        raise Lacking(f"too early to say: {_why(ahead, today)}", item.item.place())
    figure = given_value(
        "pack_end_of_life_date",
        ahead.days,
        unit="count",
        way=DAY,
        low=ahead.low_days,
        high=ahead.high_days,
        level=LEVEL,
        inputs=inputs,
        verdict=_which_first(ahead, today),
        notes=(TOGETHER, UNFORESEEN),
    )
    return msgspec.structs.replace(
        figure,
        day=_after(today, ahead.days),
        low_day=_after(today, ahead.low_days),
        high_day=_after(today, ahead.high_days),
    )


def _is_far(ahead: DayForecast) -> bool:
    """Whether the middle day lies beyond what anybody plans for, and the early one a year off."""
    low, middle = ahead.low_days, ahead.days
    if low is None or low < YEAR_DAYS:
        return False
    return low >= FAR_DAYS or (middle is not None and middle > FAR_DAYS)


def _not_within(ahead: DayForecast) -> str:
    """``not within 4 years at this rate``: whole years before the early end, five at most."""
    years = min(int((ahead.low_days or 0.0) / YEAR_DAYS), FAR_YEARS)
    rate = "at this rate" if ahead.charges_a_day else "if it goes on lying uncharged"
    return f"not within {amounts.count('year', years)} {rate}"


def _which_first(ahead: DayForecast, today: datetime.date) -> str:
    """Whether charging or age would end it first, each by itself."""
    charging, age = (
        None if days is None or days > FAR_DAYS else days
        for days in (ahead.by_charging, ahead.by_lying)
    )
    if charging is None and age is None:
        return f"charging and age together; neither by itself within {FAR_YEARS} years"
    if charging is not None and (age is None or charging <= age):
        first, days, other, later = "charging", charging, "age", age
    else:
        first, days, other, later = "age", age or 0.0, "charging", charging
    then = f"not within {FAR_YEARS} years" if later is None else f"in {_month(today, later)}"
    return f"{first} ends it first: by itself in {_month(today, days)}, {other} by itself {then}"


def _month(today: datetime.date, days: float) -> str:
    return amounts.month(today + datetime.timedelta(days=round(days)))


def _days_inputs(part: Part, ahead: DayForecast, born: datetime.date) -> Iterator[Input]:
    from buildbook.figures.laws.packs.forecast_days import REST_LOSS, REST_LOSS_MONTHS

    a_day = ahead.charges_a_day or 0.0
    rate = measured("charges a day of late", a_day, "ratio", part.last_place)
    every = f"one in {amounts.significant(1 / a_day, 2)} days" if 0 < a_day < 1 else None
    yield msgspec.structs.replace(rate, note=every)
    yield Input(
        called=Name("first day of its age"),
        value=born.isoformat(),
        unit="",
        basis="spec" if born == part.item.born else "default",
        place=part.item.item.place(),
    )
    yield Input(
        called=Name("capacity lost on the shelf"),
        value=f"{REST_LOSS * 100:g} % in {REST_LOSS_MONTHS:g} months, as the root of time; half to "
        "twice as much",
        unit="",
        basis="default",
        note=f"growth of the film on the anode, quoted widely; range {CUSTOM}",
    )


def _why(ahead: DayForecast, today: datetime.date) -> str:
    """The reason, with the days between which it may be where these are known."""
    if ahead.low_days is None or ahead.high_days is None:
        return ahead.reason
    low, high = _after(today, ahead.low_days), _after(today, ahead.high_days)
    return f"{ahead.reason}, {low} to {high}"


def _after(day: datetime.date, days: float) -> datetime.date | None:
    """That many days later; None beyond the calendar."""
    if days > 36_500:
        return None
    return day + datetime.timedelta(days=round(days))


FIGURES = (
    FigureSpec(
        name="pack_end_of_life",
        title="End of life",
        line="The charge at which it stays below the limit.",
        about="The number of charges from which the capacity stays below the share for good.",
        topic="Energy",
        unit="count",
        worded="charges",
        shown="public",
        of_pack=pack_end_of_life,
        methods=(NUMBER,),
        held_by=("tests/published/test_upkeep_end_of_life_figure.py",),
    ),
    FigureSpec(
        name="pack_end_of_life_date",
        title="End of life, as a day",
        line="At the recent rate of charging, and by age.",
        about="The same as a day, at the recent rate of charging and by age.",
        topic="Energy",
        unit="count",
        shown="public",
        of_pack=pack_end_of_life_date,
        methods=(DAY,),
        held_by=("tests/published/test_upkeep_end_of_life_figure.py",),
    ),
)
