"""Currents against ratings, and which limit is reached first."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import NamedTuple

from buildbook.basis import amounts
from buildbook.figures.answers.craft import NO_STATION, Craft, Rotor
from buildbook.figures.answers.gathering import Lacking, number, of_spec
from buildbook.figures.answers.packs.packs import rated_capacity
from buildbook.figures.answers.propulsion.full_throttle import Full, full_throttle
from buildbook.figures.answers.propulsion.hover_ways import Method, electrical
from buildbook.figures.answers.propulsion.loads import Load, Rated, constant_loads, loads, unrated
from buildbook.figures.answers.propulsion.rotors import esc_of, motor_of
from buildbook.figures.answers.propulsion.supply import fresh_loads, warned_fresh
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import (
    Answer,
    attempt,
    by_law,
    worked,
)
from buildbook.figures.laws.propulsion.margins import (
    current_margin,
    discharge_rate_c,
    power_margin,
    rated_current_a,
)
from buildbook.report.figure import FRESH_SHARE, Figure, Input, Table
from buildbook.report.state import ItemNow

FOR_SECONDS = "against what it carries for seconds; its continuous current is not recorded"
CONTINUOUS = "against the continuous rating; standing still at full throttle takes the most"


class _Row(NamedTuple):
    """A rating of what is fitted at a motor station. asked, and the rating: in ``rating.unit``."""

    margin: float
    station: str
    tag: str
    asked: float
    rating: Input


def _ratings(craft: Craft, rotor: Rotor, kind: str) -> list[Input]:
    """What is recorded of it. Lacking: nothing."""
    if kind == "esc":
        esc = esc_of(craft, rotor)
        steady, burst = esc.spec.continuous_current_a, esc.spec.burst_current_a
        if steady is None and burst is not None:
            return [of_spec(esc, burst, "burst_current", "current for seconds", "A")]
        return [of_spec(esc, steady, "continuous_current", "continuous current", "A")]
    motor = motor_of(craft, rotor)
    amps, watts = motor.spec.max_current_a, motor.spec.max_power_w
    current = (amps, "max_current", "greatest current", "A")
    power = (watts, "max_power", "greatest power", "W")
    known = [one for one in (current, power) if one[0] is not None]
    return [of_spec(motor, *one) for one in known or [current]]


def _asked(current_a: float, supply_v: float, rating: Input) -> float:
    return current_a * supply_v if rating.unit == "W" else current_a


def _margin_of(rating: Input) -> Callable[[float, float], float]:
    return power_margin if rating.unit == "W" else current_margin


def _station_rows(craft: Craft, kind: str) -> list[_Row]:
    """Each rating of each motor station, least margin first."""
    full = full_throttle(craft, craft.pack)
    values = full.values()
    points = full.points(values)
    amps = {_kind(rotor): point.current_a for rotor, point in zip(full.kinds, points, strict=True)}
    rows = []
    for rotor in craft.rotors:
        item = rotor.esc if kind == "esc" else rotor.motor
        current = amps.get(_kind(rotor), max(amps.values()))
        for rating in _ratings(craft, rotor, kind):
            asked = _asked(current, values["supply_v"], rating)
            margin = _margin_of(rating)(asked, number(rating))
            rows.append(_Row(margin, rotor.station, item.tag if item else "", asked, rating))
    if not rows:
        raise Lacking(NO_STATION, craft.home)
    return sorted(rows, key=lambda row: row[:3])


def _kind(rotor: Rotor) -> str | None:
    return None if rotor.motor is None else rotor.motor.spec.spec


def _least(craft: Craft, kind: str) -> Figure:
    rows = _station_rows(craft, kind)
    full = full_throttle(craft, craft.pack)
    least = rows[0]
    worst = [
        index
        for index, rotor in enumerate(full.kinds)
        if _kind(rotor) == _kind(_rotor(craft, least.station))
    ]

    def margin(rating: float, **values: float) -> float:
        current = full.points(values)[worst[0] if worst else 0].current_a
        return _margin_of(least.rating)(_asked(current, values["supply_v"], least.rating), rating)

    of_kind: tuple[Rated, ...] = ("ESC",) if kind == "esc" else ("motor", "power of the motor")
    law = by_law(_margin_of(least.rating).__name__)
    what = "P" if least.rating.unit == "W" else "I"
    warned, fresh = warned_fresh(
        craft, craft.known_packs, least.margin, lambda one: one.what in of_kind
    )
    for_seconds = kind == "esc" and _for_seconds_alone(_rotor(craft, least.station).esc)
    return worked(
        f"{kind}_margin",
        margin,
        {"rating": least.rating, **full.inputs},
        unit="ratio",
        way=law.written(f"{law.formula}; {what} at full throttle"),
        further=full.further,
        verdict="; ".join(
            (
                f"least at {least.station} ({least.tag})",
                *warned,
                first_limit(craft),
            )
        ),
        table=_table(rows),
        notes=(FOR_SECONDS if for_seconds else CONTINUOUS, *full.notes),
        other={**(_burst(craft, least) if kind == "esc" else {}), **fresh},
        in_verdict=tuple(fresh),
    )


def _for_seconds_alone(esc: ItemNow | None) -> bool:
    """Whether only what an ESC carries for seconds is recorded."""
    return esc is not None and esc.spec.continuous_current_a is None


def _burst(craft: Craft, least: _Row) -> dict[str, float]:
    """What is left of the current for seconds, where that is recorded beside the continuous."""
    esc = _rotor(craft, least.station).esc
    burst = None if esc is None else esc.spec.burst_current_a
    if burst is None or _for_seconds_alone(esc):
        return {}
    return {"share left of what it carries for seconds": current_margin(least.asked, burst)}


def _table(rows: Sequence[_Row]) -> Table:
    """Amperes, and watts in rows of their own where a power is recorded."""
    if all(row.rating.unit == "A" for row in rows):
        return Table(
            columns=("station", "item", "current_a", "rating_a", "margin"),
            rows=tuple(
                (row.station, row.tag, row.asked, number(row.rating), row.margin) for row in rows
            ),
        )
    return Table(
        columns=("station", "item", "asked", "rating", "margin"),
        rows=tuple(
            (
                row.station,
                row.tag,
                amounts.figure(row.asked, row.rating.unit),
                amounts.figure(number(row.rating), row.rating.unit),
                row.margin,
            )
            for row in rows
        ),
    )


def _rotor(craft: Craft, station: str) -> Rotor:
    return next(rotor for rotor in craft.rotors if rotor.station == station)


def first_limit(craft: Craft) -> str:
    """Which recorded rating is nearest at full throttle, of whatever it is, in words.

    With the pack that asks for most when it is full; at the nominal voltage where no pack tells.
    """
    return craft.once("first limit", _first_limit, craft)


def _first_limit(craft: Craft) -> str:
    found, when = _at_worst(craft)
    if not found:
        return "no limit is known"
    unknown = unrated(found)
    wrong = next((one for one in found if one.fed_by and one.item is not None), None)
    if wrong is not None and wrong.item is not None:
        return f"{wrong.fed_by} is outside the cells of {wrong.item.tag}"
    least = _first_of(found)
    past = "is past its rating" if least.passed else "is the first limit"
    rest = f"; no rating known of {', '.join(unknown)}" if unknown else ""
    return f"the {least.name} {past}{when}{rest}"


def _first_of(found: Iterable[Load]) -> Load:
    return min(found, key=lambda one: (one.margin, one.name))


def _is_all_told(craft: Craft, pack: ItemNow) -> bool:
    """Whether a pack past its rating is all that the first limit would tell."""
    found, when = _at_worst(craft)
    if not found or when or unrated(found) or any(one.fed_by for one in found):
        return False
    least = _first_of(found)
    return least.passed and least.item is not None and least.item.tag == pack.tag


def _at_worst(craft: Craft) -> tuple[Sequence[Load], str]:
    """All loads with the pack of which the least is left, and when, if that is not when full."""
    full = [found for pack in craft.packs if (found := fresh_loads(craft, pack))]
    if full:
        return min(full, key=lambda found: min(one.margin for one in found)), ""
    try:
        return loads(craft, craft.pack), " at the nominal voltage"
    except (Lacking, ValueError):
        return tuple(constant_loads(craft, craft.pack)) if craft.packs else (), ""


def _rate(pack: ItemNow) -> Input:
    rate = pack.spec.discharge_rate_c
    return of_spec(pack, rate, "discharge_rate", "discharge rate", "1/h")


def battery_margin(craft: Craft, pack: ItemNow) -> Figure:
    """The margin of each pack at full throttle."""
    full = full_throttle(craft, pack)

    def margin(capacity_ah: float, discharge_rate_c: float, **values: float) -> float:
        return current_margin(full.amps(**values), rated_current_a(capacity_ah, discharge_rate_c))

    law = by_law("current_margin")
    inputs = {"capacity_ah": rated_capacity(pack), "discharge_rate_c": _rate(pack), **full.inputs}
    at_nominal = margin(**{key: number(one) for key, one in inputs.items()})
    warned, fresh = warned_fresh(craft, (pack,), at_nominal, lambda one: one.what == "pack")
    over = fresh.get(FRESH_SHARE, 0.0) < 0 and _is_all_told(craft, pack)
    first = (first_limit(craft),) if pack.tag == craft.pack.tag and not over else ()
    return worked(
        "battery_margin",
        margin,
        inputs,
        unit="ratio",
        way=law.written(f"{law.formula}, with {by_law('rated_current_a').formula}"),
        of=pack.tag,
        further=full.further,
        verdict="; ".join((*warned, *first)) or None,
        other=fresh,
        in_verdict=tuple(fresh),
        notes=("against the rating printed on the pack", *full.notes),
    )


def discharge_rate(craft: Craft) -> Iterator[Answer]:
    """Current over capacity for each pack, in a hover and at full throttle."""
    for pack in craft.known_packs:
        if craft.hovers:
            yield attempt("discharge_rate", f"{pack.tag}, hover", _hover_rate, craft, pack)
        yield attempt("discharge_rate", f"{pack.tag}, full throttle", _full_rate, craft, pack)


def _hover_rate(craft: Craft, pack: ItemNow) -> Figure:
    return _drawn_rate(pack, "hover", electrical(craft, pack))


def _full_rate(craft: Craft, pack: ItemNow) -> Figure:
    return _drawn_rate(pack, "full throttle", full_throttle(craft, pack))


def _drawn_rate(pack: ItemNow, when: str, drawn: Method | Full) -> Figure:
    """The current drawn, held against the rated capacity."""

    def rate(capacity_ah: float, **values: float) -> float:
        return discharge_rate_c(drawn.amps(**values), capacity_ah)

    inputs = {"capacity_ah": rated_capacity(pack), **drawn.inputs}
    return worked(
        "discharge_rate",
        rate,
        inputs,
        unit="ratio",
        way=by_law("discharge_rate_c"),
        of=f"{pack.tag}, {when}",
        about=pack.tag,
        load=when,
        further=drawn.further,
        verdict=_against_rating(pack, rate(**{key: number(one) for key, one in inputs.items()})),
        notes=("times the rated capacity an hour", *drawn.notes),
    )


def _against_rating(pack: ItemNow, rate_c: float) -> str:
    rated = pack.spec.discharge_rate_c
    if rated is None:
        return "no discharge rate recorded"
    return f"{rate_c / rated * 100:.0f} % of its rating of {rated:g}C"


FIGURES = (
    FigureSpec(
        name="discharge_rate",
        title="Discharge rate",
        line="In capacities an hour, against the rating.",
        about="Current over capacity, in a hover and at full throttle.",
        topic="Margins and wires",
        unit="ratio",
        worded="capacities an hour",
        shown="public",
        of_aircraft=discharge_rate,
        laws=("discharge_rate_c",),
        held_by=("tests/figures/answers/test_bench_and_wire.py",),
    ),
    FigureSpec(
        name="battery_margin",
        title="Margin of the pack",
        line="At full throttle, against its rating.",
        about="What is left of the pack's rating at full throttle.",
        topic="Margins and wires",
        unit="ratio",
        worded="margin",
        shown="public",
        with_each_pack=battery_margin,
        laws=(
            "current_margin",
            "rated_current_a",
        ),
        held_by=("tests/figures/answers/test_bench_and_wire.py",),
    ),
    FigureSpec(
        name="esc_margin",
        title="Margin of the ESCs",
        line="At full throttle, against their rating.",
        about="What is left of the ESC's rating at full throttle.",
        topic="Margins and wires",
        unit="ratio",
        worded="margin",
        shown="public",
        of_aircraft=lambda craft: _least(craft, "esc"),
        laws=("current_margin",),
        held_by=("tests/figures/answers/test_bench_and_wire.py",),
    ),
    FigureSpec(
        name="motor_margin",
        title="Margin of the motors",
        line="At full throttle, against their limit.",
        about="What is left of the motor's rating at full throttle.",
        topic="Margins and wires",
        unit="ratio",
        worded="margin",
        shown="public",
        of_aircraft=lambda craft: _least(craft, "motor"),
        laws=("current_margin", "power_margin"),
        held_by=("tests/figures/answers/test_bench_and_wire.py",),
    ),
)
