"""What to set before a flight: the timer, and the voltage of the alarm."""

from buildbook.basis import amounts
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.flight.cold import AS_READ, freezing
from buildbook.figures.answers.flight.few_flights import HIGHEST, draw_a, few_flights, is_by_few
from buildbook.figures.answers.flight.flight_time import planned_by, refuse_unfit, time_with
from buildbook.figures.answers.flight.pack_in_flight import (
    LOWEST_V,
    flights_with_lowest,
    flown_as,
    longest_beside,
    longest_kept_s,
    lowest_v,
    out_since_charged_ah,
    sag_in_log,
)
from buildbook.figures.answers.flight.plan import (
    ended_in,
    freezing_note,
    loaded,
    planned_s,
    time_words,
)
from buildbook.figures.answers.flight.prediction import discharge_with
from buildbook.figures.answers.flight.rates import (
    MAH_PER_MINUTE,
    flights_with_charge,
    flown_watts,
    glides,
)
from buildbook.figures.answers.flight.under_load import power_draw
from buildbook.figures.answers.gathering import Lacking, from_figure, measured, number, worked_out
from buildbook.figures.answers.packs.packs import (
    capacity,
    cells,
    cutoff,
    nominal,
    reserve,
    resistance,
    rested,
    rested_at_reserve,
    usable_ah,
)
from buildbook.figures.answers.propulsion.loads import Load, loads, steady_loads
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import (
    by_law,
    by_method,
    given_value,
)
from buildbook.hangar.alarm import alarm_of_a_cell_v, alarm_set
from buildbook.hangar.time_in_service import LEAST_FITTED
from buildbook.report.figure import (
    AT_FREEZING_S,
    FLIGHTS_BEHIND,
    LOADED_AT_FREEZING_S,
    LOADED_S,
    LOADED_V,
    PAYLOAD_KG,
    Figure,
    Input,
)
from buildbook.report.figures.known_figures import Headline
from buildbook.report.state import ItemNow

ALARM_BELOW_V = 0.05
"""So much below the voltage of a cell where its reserve begins an alarm sounds too late: what that
rests on is hardly known better. Common practice, no source."""
FARTHER = 1.05
"""A timer so many times what was flown is told to be longer. Common practice, no source."""
SET_LATE = "set to, a cell, V"
"""Beside the voltage of the alarm: what it is set to, where that is too late."""
ASKED_BELOW_V = 0.1
"""So much below it the alarm is asked to be set anew: a pack whose sag nobody read may be as far
off. Common practice, no source."""
OF_CELL = "a cell, V"
TIMER = by_method(
    "the low end of the flight time, of a glider that of its motor endurance; the reserve is "
    "already kept there",
    "own",
)


def timer_setting(craft: Craft, pack: ItemNow) -> Figure:
    """Flight timer for each pack."""
    if pack.state.state != "serviceable":
        raise Lacking(f"{pack.tag} is {pack.state.state}", pack.state.place or craft.home)
    refuse_unfit(craft, pack)
    time = time_with(craft, pack)
    _refuse_overloaded(craft, pack, time)
    if time.low is None or time.low <= 0:
        ended = ended_in(craft, pack, None) or "the flight time has no low end"
        raise Lacking(f"{pack.tag}: {ended}", craft.home)
    end = f"low end of the {'motor endurance' if glides(craft) else 'flight time'}"
    kept = reserve(craft.keeper)  # chosen, not known more or less well
    assumed = (one for one in time.inputs if one.basis == "default" and one != kept)
    low = worked_out(end, time.low, "s", (from_figure(time), *assumed))
    other, words, notes = _beside(craft, pack)
    longer, flown = _longer_than_flown(craft, pack, time.low)
    words, other = (*longer, *words), {**flown, **other}
    guessed = time.basis == "default" and not flights_with_charge(craft, pack)
    field_k = craft.keeper.field_temperature_k
    warm = () if field_k is None else (f"for a pack at {amounts.temperature(field_k)}",)
    return given_value(
        "timer_setting",
        time.low,
        unit="s",
        way=TIMER,
        of=pack.tag,
        inputs=[low, kept],
        basis=low.basis,
        verdict="; ".join((*warm, *words, *planned_by(craft, pack, time), *_passed(craft, pack)))
        or None,
        other={**other, **({FLIGHTS_BEHIND: 0.0} if guessed else {})},
        in_verdict=tuple(other),
        notes=(
            *_of_motor(craft),
            *(() if warm else (AS_READ,)),
            *notes,
        ),
    )


def _of_motor(craft: Craft) -> tuple[str, ...]:
    """Said of a glider's timer; and of a payload, for which it has no other."""
    if not glides(craft):
        return ()
    carried = any(flight.payload_kg for flight in craft.now.flights)
    same = "with a payload it is the same: the motor draws as much, and it climbs less"
    return ("of the motor's running time", *((same,) if carried else ()))


def _longer_than_flown(
    craft: Craft, pack: ItemNow, low_s: float
) -> tuple[tuple[str, ...], dict[str, float]]:
    """Said of a timer that is longer than all that was flown on the pack with its reserve left."""
    motor = glides(craft)
    longest_s = longest_kept_s(craft, pack, flights_with_charge(craft, pack), by_motor=motor)
    if longest_s is None or low_s <= FARTHER * longest_s:
        return (), {}
    what = f"the longest {'motor run' if motor else 'flight'} behind it"
    words = f"longer than {what} that left the reserve, {amounts.duration(longest_s)}"
    return (words,), longest_beside(longest_s, by_motor=motor)


def _refuse_overloaded(craft: Craft, pack: ItemNow, time: Figure) -> None:
    """Lacking: the flight that the timer is for takes more than a part of it is rated for."""
    volts, when = number(nominal(pack)), "as flown"
    if is_by_few(time):
        amps = time.other[HIGHEST] / MAH_PER_MINUTE
    elif time.basis == "fitted":
        amps = number(flown_watts(craft, pack)) / volts
    else:
        amps = number(power_draw(craft, pack)) / volts
        when = "in a hover" if craft.hovers else when
    over = [one for one in steady_loads(craft, pack, amps, volts) if one.passed]
    if over:
        most = min(over, key=lambda one: one.margin)
        raise Lacking(f"{when} {_more_than(most)}", most.place)


def _passed(craft: Craft, pack: ItemNow) -> tuple[str, ...]:
    """Said of a timer where full throttle passes a rating."""
    try:
        over = [one for one in loads(craft, pack) if one.passed and not one.fed_by]
    except (Lacking, ValueError):
        return ()
    most = min(over, key=lambda one: one.margin, default=None)
    return () if most is None else (f"at full throttle {_more_than(most)}",)


def _more_than(load: Load) -> str:
    asked, rating = (amounts.figure(one, load.unit) for one in (load.asked, load.rating))
    return f"the {load.name} is past its rating, {asked} of {rating}"


def _beside(
    craft: Craft, pack: ItemNow
) -> tuple[dict[str, float], tuple[str, ...], tuple[str, ...]]:
    """The timer of a pack at freezing, and of one that carries what was flown: words and notes."""
    other: dict[str, float] = {}
    said, notes = [], []
    cold, load = freezing(craft, pack), loaded(craft, pack)
    if cold is not None:
        other[AT_FREEZING_S] = planned_s(craft, pack, cold)
        ended = ended_in(craft, pack, cold)
        none = "" if other[AT_FREEZING_S] > 0 or ended is None else f": {ended}"
        said.append(f"at 0 °C {time_words(other[AT_FREEZING_S])}{none}")
        notes.append("; ".join(filter(None, (freezing_note(cold), ended))))
    if load is not None:
        other |= {PAYLOAD_KG: load.kg, LOADED_S: planned_s(craft, pack, load=load)}
        words = f"{load.words} {time_words(other[LOADED_S])}"
        if cold is not None:
            other[LOADED_AT_FREEZING_S] = planned_s(craft, pack, cold, load)
            words += f", at 0 °C {time_words(other[LOADED_AT_FREEZING_S])}"
        said.append(words)
        notes.append(load.note)
    return other, tuple(said), tuple(notes)


def power_in_the_air(craft: Craft, pack: ItemNow) -> Input:
    """Power in W as flown where that is known, else in a hover."""
    if time_with(craft, pack).basis == "fitted":
        return flown_watts(craft, pack)
    return power_draw(craft, pack)


def _least_power(craft: Craft, pack: ItemNow) -> Input:
    """That in the air; of one to three flights the least draw of theirs, where that is less.

    Less power holds the voltage up: an alarm by more than is drawn would sound late.
    """
    flown = flights_with_charge(craft, pack)
    few = few_flights(craft, pack) if len(flown) < LEAST_FITTED else ()
    if not few:
        return power_in_the_air(craft, pack)
    least = min(few, key=draw_a)
    watts = draw_a(least) * number(nominal(pack))
    drawn = measured("least power of the first flights", watts, "W", least.place)
    try:
        theory = power_in_the_air(craft, pack)
    except Lacking:
        return drawn
    return drawn if watts < number(theory) else theory


def alarm_voltage(craft: Craft, pack: ItemNow) -> Figure:
    """Voltage under load at which the reserve begins, for each pack."""
    power = _least_power(craft, pack)
    found = discharge_with(craft, pack, number(power))
    each = found.end_voltage_v / cells(pack).series
    law = by_law("constant_power_discharge")
    logged, early = _as_logged(craft, pack, found.end_voltage_v)
    notes = (
        f"the {found.ended_by} ends the flight there",
        "under load; at rest it reads higher",
        *(() if glides(craft) else ("more throttle than is flown on average takes it lower",)),
        *early,
    )
    under, other = _went_under(craft, pack, found.end_voltage_v)
    late, set_to = _set_late(craft, pack, each)
    carrying, with_load = _with_load(craft, pack, number(power))
    return given_value(
        "alarm_voltage",
        found.end_voltage_v,
        unit="V",
        way=law.written(f"{law.formula}; voltage at its end"),
        of=pack.tag,
        inputs=[
            capacity(pack),
            resistance(pack),
            power,
            reserve(craft.keeper),
            cutoff(craft.now, pack).of_cell,
            rested(pack, found.end_state_of_charge),
        ],
        verdict="; ".join((f"{each:.2f} V a cell", *late, *carrying, *logged, *under)),
        other={OF_CELL: each, **set_to, **other, **with_load},
        in_verdict=(OF_CELL, *set_to, *other, *with_load),
        notes=notes,
    )


def _set_late(
    craft: Craft, pack: ItemNow, reserve_v: float
) -> tuple[tuple[str, ...], dict[str, float]]:
    """What the alarm is set to, a cell, where it sounds in the reserve."""
    set_v = _set_of_cell_v(craft, pack)
    if set_v is None or not _is_late(set_v, reserve_v):
        return (), {}
    return (f"it is set to {set_v:.2f} V, in the reserve",), {SET_LATE: set_v}


def reserve_before_alarm_v(craft: Craft, pack: ItemNow) -> float | None:
    """Volts a cell under load at which the reserve begins, where the set alarm sounds much later.

    None too where that cannot be told, or the chemistry is not recorded.
    """
    set_v = None if pack.spec.chemistry is None else _set_of_cell_v(craft, pack)
    try:
        at_rest_v = number(rested_at_reserve(pack, craft.keeper)) / cells(pack).series
        if set_v is None or not _is_late(set_v, at_rest_v, ASKED_BELOW_V):
            return None  # no load lifts it
        reserve_v = alarm_voltage(craft, pack).other[OF_CELL]
    except (Lacking, ValueError):
        return None
    return reserve_v if _is_late(set_v, reserve_v, ASKED_BELOW_V) else None


def _set_of_cell_v(craft: Craft, pack: ItemNow) -> float | None:
    """What the alarm is set to. None of a glider: it lands anyhow."""
    told = alarm_set(craft.now)
    return None if told is None or glides(craft) else alarm_of_a_cell_v(told.alarm_v, pack)


def _is_late(set_v: float, reserve_v: float, by_v: float = ALARM_BELOW_V) -> bool:
    return round(reserve_v - set_v, 3) > by_v


def _with_load(
    craft: Craft, pack: ItemNow, power_w: float
) -> tuple[tuple[str, ...], dict[str, float]]:
    """The alarm with the heaviest payload flown."""
    load = loaded(craft, pack)
    if load is None:
        return (), {}
    volts = discharge_with(craft, pack, power_w * load.times_power).end_voltage_v
    return (f"{load.words} {amounts.voltage(volts)}",), {LOADED_V: volts}


def _went_under(
    craft: Craft, pack: ItemNow, alarm_v: float
) -> tuple[tuple[str, ...], dict[str, float]]:
    """On how many flights of the log less was read, and on how many of them the reserve was there.

    As both are written, to hundredths: a reading in tenths is taken as it stands. Flights on one
    charge count together.
    """
    flights = flights_with_lowest(craft, pack)
    under = [one for one in flights if round(lowest_v(one), 2) < round(alarm_v, 2)]
    if not under:
        return (), {}
    volts = min(map(lowest_v, under))
    count = f"{len(under)} of {amounts.count('flight', len(flights))}"
    if len(flights) == 1:
        count = "the one flight of which it was read"
    words = f"{count} went under the alarm, down to {amounts.voltage(volts)}"
    other = {"flights under it": float(len(under)), LOWEST_V: volts}
    usable = usable_ah(craft.keeper, pack)
    out_ah = out_since_charged_ah(pack, number(capacity(pack)))
    ends = [out_ah.get(flown_as(one)) for one in under]
    early = sum(out is not None and out < usable for out in ends)
    if early:
        which = "all " if early == len(under) else f"{early} of them "
        words += f", {which if len(under) > 1 else ''}before the reserve by the charge used"
        other["of them before the reserve"] = float(early)
    return (words,), other


def _as_logged(
    craft: Craft, pack: ItemNow, alarm_v: float
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Where the sag in the log puts the reserve, if that is lower; and why the alarm stays.

    The lowest of a flight is that of a burst. An alarm as low as that would let a flight without
    one go on past the reserve.
    """
    logged = sag_in_log(craft, pack, craft.keeper.field_temperature_k)
    if logged is None:
        return (), ()
    reached_v = number(rested_at_reserve(pack, craft.keeper)) - logged.sag_v
    if round(reached_v, 2) >= round(alarm_v, 2):
        return (), ()
    cut, sag = cutoff(craft.now, pack), f"burst of throttle: by the sag in the log, {logged.words}"
    if round(reached_v, 2) < round(cut.pack_v, 2):
        return (f"in a burst of throttle {cut.words} comes first",), (sag,)
    return (
        (f"in a burst of throttle the reserve begins at {amounts.voltage(reached_v)}",),
        (sag, "the higher of both: set to the lower, it would sound late in steady flight"),
    )


FIGURES = (
    FigureSpec(
        name="timer_setting",
        title="Timer",
        line="What to set the flight timer to.",
        about="What to set the flight timer to.",
        topic="Time in the air",
        unit="s",
        shown="public",
        with_each_pack=timer_setting,
        methods=(TIMER,),
        held_by=(
            "tests/figures/answers/test_small_quad.py",
            "tests/figures/answers/test_time_in_the_cold.py",
            "tests/figures/answers/test_loaded_flights.py",
        ),
    ),
    FigureSpec(
        name="alarm_voltage",
        title="Alarm voltage",
        line="Voltage under load at the reserve.",
        about="Voltage under load at which the reserve begins.",
        topic="Time in the air",
        unit="V",
        shown="public",
        with_each_pack=alarm_voltage,
        laws=(
            "constant_power_discharge",
            "terminal_v",
        ),
        held_by=(
            "tests/published/test_flight_battery.py",
            "tests/figures/answers/test_bench_and_wire.py",
        ),
        headline=Headline(place=4, pick="most", words="highest alarm"),
    ),
)
