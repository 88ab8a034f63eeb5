"""Capacity and resistance of a pack over its life."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any, Literal

import msgspec

from buildbook.basis import amounts
from buildbook.basis.units import FREEZING_K
from buildbook.figures.answers.craft import Part
from buildbook.figures.answers.gathering import Lacking, default, measured, number
from buildbook.figures.answers.packs.packs import cells, resistance_at, unmeasured
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import (
    LEVEL,
    Answer,
    attempt,
    by_method,
    given_value,
)
from buildbook.figures.laws.law import SEN
from buildbook.figures.laws.statistics.odd_one import OddOne, odd_one_out
from buildbook.report.figure import A_CHARGE, Figure, Table
from buildbook.report.history import CapacityDone, ChargeDone
from buildbook.report.packs.like_conditions import (
    ACTIVATION_J_MOL,
    ACTIVATION_RANGE_J_MOL,
    Likes,
    charges_by,
    like_capacities,
    like_resistances,
    may_be_corrected,
    resistances_at,
)
from buildbook.report.state import ItemNow

if TYPE_CHECKING:
    from buildbook.figures.laws.statistics.trend import RobustLine

LATEST = by_method("last measurement; trend by Theil-Sen over the charges", SEN, "theil_sen")
TREND = by_method(
    "median of the slopes of all pairs of measurements, over the charges", SEN, "theil_sen"
)
WARMTH = by_method(
    "readings of lithium cells brought to the temperature of the last one: R times "
    "exp(E_a/R_g·(1/T - 1/T_read)), E_a 25 kJ/mol",
    "Arrhenius; E_a of small lithium cells, 20 to 35 kJ/mol, from memory",
)
LEAST = 3  # measurements from which a trend is told
LEAST_LIMITS = 5  # from which it has limits: of four, all slopes together hold the true one less
# Charges for each measurement up to which every one counts as measured: published records have a
# few charges without their discharge.
DENSE = 1.1
LEAST_CELLS = 3  # of two, nobody can say which one is odd


def numbered(
    pack: ItemNow, capacities: Sequence[CapacityDone]
) -> tuple[tuple[float, ...], Literal["measurements", "charges"]]:
    """A number for each measured capacity, and what is counted.

    Where every charge has its measurement, or charges are not recorded, the measurements
    themselves are counted; else the charges recorded up to each, those to storage left out.
    """
    charges = charges_by(pack, [one.seq for one in capacities])
    recorded = charges[-1] - charges[0] if charges else 0
    if recorded <= DENSE * (len(charges) - 1):
        return tuple(float(count) for count in range(1, len(charges) + 1)), "measurements"
    return tuple(float(count) for count in charges), "charges"


def pack_capacity(part: Part) -> Iterator[Answer]:
    """The last measured capacity, and how much of it goes with each charge."""
    yield attempt("pack_capacity", None, _capacity, part)
    if len(like_capacities(part.item).alike) >= LEAST:
        yield attempt("pack_capacity", A_CHARGE, _capacity_trend, part)


def _capacity(part: Part) -> Figure:
    item = part.item
    if not item.capacities:
        raise unmeasured(item)
    last = item.capacities[-1]
    inputs = [measured("last measured capacity", last.measured_ah, "Ah", last.place)]
    other, verdict = {}, None
    share = item.share_of_rated
    if share is not None:
        other["share of rated"] = share
        verdict = f"{amounts.share(share)} of the rated capacity"
    warm = "" if last.temperature_k is None else f" at {amounts.degrees(last.temperature_k)}"
    return given_value(
        "pack_capacity",
        last.measured_ah,
        unit="Ah",
        way=LATEST,
        inputs=inputs,
        verdict=verdict,
        other=other,
        in_verdict=tuple(other),
        notes=(
            f"measured on {amounts.day(last.on)}{warm}",
            "; ".join(
                (
                    f"measurements so far: {len(item.capacities)}",
                    *others_apart(like_capacities(item)),
                )
            ),
        ),
    )


def others_apart(likes: Likes[CapacityDone]) -> tuple[str, ...]:
    """How many measurements are left out, as they were taken under other conditions."""
    count = len(likes.unlike)
    if not count:
        return ()
    return (f"{count} {'is' if count == 1 else 'are'} not comparable with the rest",)


def _capacity_trend(part: Part) -> Figure:
    from buildbook.figures.laws.statistics.trend import theil_sen

    likes = like_capacities(part.item)
    done = likes.alike
    numbers, counted = numbered(part.item, done)
    any_stored = counted == "charges" and any(one.to == "storage" for one in part.item.charges)
    stored = ", those to storage left out" if any_stored else ""
    line = theil_sen(numbers, [one.measured_ah for one in done], level=LEVEL)
    inputs = [
        measured("measured capacities", len(done), "count", done[-1].place),
        measured("first capacity", done[0].measured_ah, "Ah", done[0].place),
        measured("last capacity", done[-1].measured_ah, "Ah", done[-1].place),
    ]
    return given_value(
        "pack_capacity",
        line.slope,
        unit="Ah",
        way=TREND,
        of=A_CHARGE,
        **_limits(line, len(done)),
        basis="fitted",
        inputs=inputs,
        notes=(
            f"by {counted} counted since the first{stored}",
            *_warmth([one.temperature_k for one in done]),
            *unlike_words(likes.unlike),
        ),
    )


def _limits(line: RobustLine, count: int) -> dict[str, Any]:
    """The limits of a slope; of too few readings the words that there are none."""
    if count < LEAST_LIMITS:
        return {"verdict": _too_few(count, "limits")}
    return {"low": line.slope_low, "high": line.slope_high, "level": LEVEL}


def _too_few(count: int, what: str) -> str:
    return f"too few readings for {what}: {count}, it takes {LEAST_LIMITS}"


def pack_resistance(part: Part) -> Iterator[Answer]:
    """The last resistance of the pack and of each cell, and the odd cell out."""
    item = part.item
    series = cells(item).series
    likes = like_resistances(item)
    readings = [one for one in likes.alike if len(one[1].resistance_ohm) == series]
    if not readings:
        raise Lacking(
            f"no resistance of each cell of {item.tag} is recorded: write 'resistance' in a charge",
            item.item.place() if not item.charges else item.charges[-1].place,
        )
    left_out = unlike_words([(charge, differs) for (_, charge), differs in likes.unlike])
    yield attempt("pack_resistance", None, _pack_resistance, part, readings, left_out)
    for cell in range(series):
        of = f"cell {cell + 1}"
        yield attempt("pack_resistance", of, _cell_resistance, part, readings, cell)


Numbered = Sequence[tuple[int, ChargeDone]]
"""Charges with readings of every cell, and their numbers."""


def _alike(part: Part, readings: Numbered, cell: int) -> list[float]:
    """The readings of a cell in Ω, all brought to the temperature of the last one."""
    warmth = readings[-1][1].temperature_k
    return [resistances_at(part.item, charge, warmth)[cell] for _, charge in readings]


def _pack_resistance(part: Part, readings: Numbered, left_out: Sequence[str]) -> Figure:
    last = readings[-1][1]
    odd = _odd_cell(last.resistance_ohm)
    rows: list[tuple[str | float | int | None, ...]] = []
    inputs = []
    for cell, ohms in enumerate(last.resistance_ohm):
        values = _alike(part, readings, cell)
        rows.append((f"cell {cell + 1}", values[0], ohms, *_slope(part, readings, values)))
        inputs.append(measured(f"resistance of cell {cell + 1}", ohms, "Ω", last.place))
    figure = given_value(
        "pack_resistance",
        sum(last.resistance_ohm),
        unit="Ω",
        way=by_method("sum over the cells of the last reading", "Ohm's law"),
        inputs=inputs,
        verdict=_odd_words(len(last.resistance_ohm), odd),
        odd=None if odd is None else odd.position + 1,
        table=Table(
            columns=("cell", "first_ohm", "last_ohm", "slope_ohm", "slope_low", "slope_high"),
            rows=tuple(rows),
        ),
        notes=(
            f"read on {amounts.day(last.on)}, readings so far: {len(readings)}",
            *_warmth([charge.temperature_k for _, charge in readings]),
            *_corrected(part, readings),
            *left_out,
        ),
        other=_at_the_field(part, last),
    )
    return _with_activation(figure, part, readings)


def _are_corrected(part: Part, readings: Numbered) -> bool:
    """Whether readings were brought to the temperature of the last one."""
    last = readings[-1][1]
    return last.temperature_k is not None and any(
        resistances_at(part.item, charge, last.temperature_k) != charge.resistance_ohm
        for _, charge in readings
    )


def _with_activation(figure: Figure, part: Part, readings: Numbered) -> Figure:
    """With what its trend assumes; the last reading, its value, does not rest on that."""
    if not _are_corrected(part, readings):
        return figure
    low, high = ACTIVATION_RANGE_J_MOL
    words = f"{low / 1000:.0f} to {high / 1000:.0f}, from memory; for the trend alone"
    name = "activation energy of the cells"
    given = default(name, ACTIVATION_J_MOL / 1000, "kJ/mol", words)
    return msgspec.structs.replace(figure, inputs=(*figure.inputs, given))


def _corrected(part: Part, readings: Numbered) -> tuple[str, ...]:
    """Said where readings were brought to the temperature of the last one."""
    kelvin = readings[-1][1].temperature_k
    if kelvin is None or not _are_corrected(part, readings):
        return ()
    usual, (low, high) = ACTIVATION_J_MOL / 1000, ACTIVATION_RANGE_J_MOL
    return (
        f"for the trend all are brought to {amounts.degrees(kelvin)}: R goes with exp(E_a/RT), "
        f"E_a {usual:.0f} kJ/mol, a default ({low / 1000:.0f} to {high / 1000:.0f}; from memory)",
    )


def _at_the_field(part: Part, last: ChargeDone) -> dict[str, float]:
    """The pack at the field's temperature: colder as margins take it, warmer if not too far."""
    field, read = part.keeper.field_temperature_k, last.temperature_k
    if field is None or read is None:
        return {}
    name = f"at the field's {amounts.degrees(field)}, Ω"
    if field < read:
        return {name: number(resistance_at(part.item, field))}
    if not may_be_corrected(field, read):
        return {}
    return {name: sum(resistances_at(part.item, last, field))}


def _slope(part: Part, readings: Numbered, values: Sequence[float]) -> tuple[float | None, ...]:
    """Change of a cell's resistance a charge with its limits; nothing from too few readings."""
    from buildbook.figures.laws.statistics.trend import theil_sen

    if len(readings) < LEAST_LIMITS:
        return (None, None, None)
    try:
        counts = charges_by(part.item, [charge.seq for _, charge in readings])
        line = theil_sen([float(count) for count in counts], values, level=LEVEL)
    except ValueError:
        return (None, None, None)
    return (line.slope, line.slope_low, line.slope_high)


def _cell_resistance(part: Part, readings: Numbered, cell: int) -> Figure:
    first, last = readings[0][1], readings[-1][1]
    values = _alike(part, readings, cell)
    slope, low, high = _slope(part, readings, values)
    figure = given_value(
        "pack_resistance",
        last.resistance_ohm[cell],
        unit="Ω",
        way=LATEST,
        of=f"cell {cell + 1}",
        inputs=[
            measured("last reading", last.resistance_ohm[cell], "Ω", last.place),
            measured("first reading", first.resistance_ohm[cell], "Ω", first.place),
        ],
    )
    trend = {"change a charge, Ω": slope, "low": low, "high": high}
    ratio = last.resistance_ohm[cell] / values[0] if values[0] > 0 else None
    other = {key: value for key, value in {**trend, "of the first": ratio}.items() if value}
    words = _trend_words(slope, low, high)
    if words is None and LEAST <= len(readings) < LEAST_LIMITS:
        words = _too_few(len(readings), "a trend")
    told = msgspec.structs.replace(figure, other=other, verdict=words, in_verdict=tuple(trend))
    return told if slope is None else _with_activation(told, part, readings)


def _trend_words(slope: float | None, low: float | None, high: float | None) -> str | None:
    """``0.02 mΩ more a charge (0.01 to 0.03)``; of too few readings nothing."""
    if slope is None or low is None or high is None:
        return None
    if low <= 0 <= high:
        return "no trend to be seen"
    least, most = sorted((abs(low), abs(high)))
    said = amounts.significant(1000 * abs(slope), 2, keep_zeros=True)
    places = len(said.partition(".")[2])
    ends = dict.fromkeys(amounts.fixed(1000 * end, places) for end in (least, most))
    between = f", {' to '.join(ends)} at 95 %" if len(ends) > 1 else ""
    return f"{said} mΩ {'more' if slope > 0 else 'less'} a charge{between}"


def _odd_cell(ohms: Sequence[float]) -> OddOne | None:
    return odd_one_out(ohms) if len(ohms) >= LEAST_CELLS else None


def _odd_words(cells: int, odd: OddOne | None) -> str | None:
    if cells < LEAST_CELLS:
        return None
    if odd is None:
        return "no cell stands out"
    return f"cell {odd.position + 1} stands out: {odd.share * 100:+.0f} % against the others"


def _warmth(kelvins: Sequence[float | None]) -> tuple[str, ...]:
    """Between which temperatures the readings were taken."""
    known = [kelvin - FREEZING_K for kelvin in kelvins if kelvin is not None]
    if not known:
        return ("temperatures not recorded",)
    missing = len(kelvins) - len(known)
    ends = dict.fromkeys(f"{end:.0f}" for end in (min(known), max(known)))
    words = f"readings at {' to '.join(ends)} °C"
    return (words + (f", {missing} without a temperature" if missing else ""),)


def unlike_words(
    unlike: Sequence[tuple[CapacityDone | ChargeDone, tuple[str, ...]]],
) -> tuple[str, ...]:
    """A note for each reading that is shown but not compared, and what differs."""
    return tuple(
        f"not comparable, so left out: {done.on.isoformat()}, "
        + (f"other {' and '.join(differs)}" if differs else "of an earlier series of readings")
        + (f" ({amounts.degrees(done.temperature_k)})" if done.temperature_k else "")
        for done, differs in unlike
    )


FIGURES = (
    FigureSpec(
        name="pack_capacity",
        title="Capacity trend",
        line="How the measured capacity moves.",
        about="The last measured capacity and its trend.",
        topic="Energy",
        unit="Ah",
        worded="fine charge",
        shown="public",
        of_pack=pack_capacity,
        methods=(
            LATEST,
            TREND,
        ),
        held_by=(
            "tests/published/test_upkeep_trends.py",
            "tests/published/test_upkeep_batteries.py",
            "tests/figures/answers/test_lives_and_air.py",
        ),
    ),
    FigureSpec(
        name="pack_resistance",
        title="Resistance trend",
        line="How the cells move, and the odd one out.",
        about="Resistance of the pack and its cells, the trend, and the odd cell out.",
        topic="Energy",
        unit="Ω",
        worded="milliohms",
        shown="public",
        of_pack=pack_resistance,
        laws=("series_resistance_ohm",),
        methods=(TREND, WARMTH),
        held_by=(
            "tests/published/test_upkeep_trends.py",
            "tests/published/test_upkeep_batteries.py",
            "tests/figures/answers/test_log_and_packs.py",
        ),
    ),
)
