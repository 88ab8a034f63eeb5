"""How long a pack lasts by theory: a discharge at the power of a hover, simulated."""

from buildbook.basis import amounts
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.flight.cold import Cold, cold_at_field, cold_notes
from buildbook.figures.answers.flight.pack_in_flight import sag_in_log
from buildbook.figures.answers.flight.rates import flown_watts, glides
from buildbook.figures.answers.gathering import (
    Lacking,
    default,
    from_figure,
    in_per_cent,
    number,
)
from buildbook.figures.answers.packs.packs import (
    capacity,
    cells,
    chemistry,
    cutoff_cell,
    cutoff_v,
    nominal,
    reserve,
    resistance,
    rested,
)
from buildbook.figures.answers.propulsion.full_throttle import full_throttle
from buildbook.figures.answers.propulsion.hover_ways import Method, electrical
from buildbook.figures.answers.working import by_law, given_value, worked
from buildbook.figures.laws.law import CUSTOM
from buildbook.figures.laws.packs.discharge import Discharge, constant_power_discharge
from buildbook.report.figure import Figure, Input, Name
from buildbook.report.state import ItemNow

# How far the power in the air may be off before anything has been flown. Common practice, no
# source; replaced by the interval of the log from ten flights on.
UNFLOWN_SHARE = 0.15
NO_CUTOFF_CELL_V = 0.5  # so low that only the reserve ends a discharge


def simulated(craft: Craft, pack: ItemNow) -> Figure:
    """The time in s by the simulated discharge, whatever was flown."""
    return craft.once(f"simulated time with {pack.tag}", _simulated, craft, pack)


def simulated_s(craft: Craft, pack: ItemNow) -> float:
    """The time in s alone, for beside what was flown; of a pack as cold as the field."""
    return craft.once(f"simulated seconds with {pack.tag}", _seconds, craft, pack)


def _seconds(craft: Craft, pack: ItemNow) -> float:
    watts, cold = number(power_draw(craft, pack)), cold_at_field(craft, pack)
    if cold is None:
        return discharge_with(craft, pack, watts).duration_s
    return shortest(craft, pack, watts, cold)


def power_draw(craft: Craft, pack: ItemNow) -> Input:
    """The power in W that a discharge is simulated at: a hover, for a wing as it was flown."""
    if not craft.hovers:
        return flown_watts(craft)
    method = electrical(craft, pack)
    values = {key: number(given) for key, given in method.inputs.items()}
    figure = given_value(
        "hover_power",
        method.total_w(**values),
        unit="W",
        way=method.way,
        inputs=(*method.inputs.values(), *method.further),
    )
    return from_figure(figure, f"power in a hover, {method.key}")


def discharge_with(craft: Craft, pack: ItemNow, power_w: float) -> Discharge:
    """The discharge of a pack at a power, as it was read."""
    ohm = number(resistance(pack))
    return _discharge(craft, pack, power_w, ohm, number(cutoff_cell(pack)))


def to_reserve_s(craft: Craft, pack: ItemNow, power_w: float) -> float:
    """The time in s down to the reserve, whatever its voltage: as a rate by the log counts it.

    As it was flown, so with the sag in the log. ValueError: it cannot give the power so long.
    """
    as_read = number(resistance(pack))
    found = [
        _discharge(craft, pack, power_w, ohm, NO_CUTOFF_CELL_V)
        for ohm in (max(as_read, _logged_ohm(craft, pack, None)), as_read)
    ]
    return next((one for one in found if one.ended_by == "reserve"), found[-1]).duration_s


def _discharge(
    craft: Craft, pack: ItemNow, power_w: float, ohm: float, cutoff_cell_v: float, share: float = 1
) -> Discharge:
    return constant_power_discharge(
        str(chemistry(pack).value),
        cells(pack).series,
        number(capacity(pack)) * share,
        ohm,
        power_w,
        number(reserve(craft.keeper)),
        cutoff_cell_v,
    )


def power_spread() -> Input:
    """By how much the power may be off where little or nothing was flown."""
    return in_per_cent(default("spread of the power", UNFLOWN_SHARE, "ratio", CUSTOM))


def reserve_words(craft: Craft) -> str:
    """How much is kept, in words."""
    return f"{amounts.share(number(reserve(craft.keeper)))} of the capacity is kept"


def _simulated(craft: Craft, pack: ItemNow) -> Figure:
    kind = chemistry(pack)
    power = power_draw(craft, pack)
    series = Input(
        called=Name(f"cells in series of {pack.spec.spec}"),
        value=float(cells(pack).series),
        unit="count",
        basis="spec",
        place=pack.spec.place("cells"),
    )
    inputs = {
        "cells_in_series": series,
        "capacity_ah": capacity(pack),
        "resistance_ohm": resistance(pack),
        "power_w": power,
        "reserve_share": reserve(craft.keeper),
        "cutoff_cell_v": cutoff_cell(pack),
    }

    def duration(cells_in_series: float, **values: float) -> float:
        found = constant_power_discharge(str(kind.value), int(cells_in_series), **values)
        return found.duration_s

    whole = discharge_with(craft, pack, number(power))
    method = electrical(craft, pack) if craft.hovers else None
    least = 1.0 if method is None else method.spread[0]
    longest = discharge_with(craft, pack, number(power) * least * (1 - UNFLOWN_SHARE))
    spread = power_spread()
    cold, most_w = cold_at_field(craft, pack), number(power) * unflown_most(craft, pack)
    return worked(
        "flight_time",
        duration,
        inputs,
        unit="s",
        way=by_law("constant_power_discharge"),
        of=pack.tag,
        further=(
            rested(pack, whole.end_state_of_charge),
            spread,
            *_assumed(method),
            *(cold.inputs if cold else ()),
        ),
        low=shortest(craft, pack, most_w, cold),
        high=longest.duration_s,
        notes=(
            *(() if method is None or method.aside is None else (method.aside,)),
            "hovering" if craft.hovers else "at the power as flown",
            f"the {whole.ended_by} ends it; {reserve_words(craft)}",
            *cold_notes(craft, pack),
            *low_end_notes(craft, pack, most_w, cold),
        ),
    )


def unflown_most(craft: Craft, pack: ItemNow) -> float:
    """How many times the power by theory the low end of a time by theory is planned at."""
    most = electrical(craft, pack).spread[1] if craft.hovers else 1.0
    return most * (1 + UNFLOWN_SHARE)


def _assumed(method: Method | None) -> tuple[Input, ...]:
    """The defaults behind the power of a hover, by name."""
    if method is None:
        return ()
    found = {given.name: given for given in method.inputs.values()}
    return tuple(given for given in found.values() if given.unit == "ratio")


def shortest(craft: Craft, pack: ItemNow, power_w: float, cold: Cold | None) -> float:
    """The time in s at more power or in the cold; nothing where the pack cannot give it.

    Its resistance is that of its readings or of the sag in the log, whichever is more.
    """
    found = _least(craft, pack, power_w, cold)
    return 0.0 if found is None else found.duration_s


def _least(craft: Craft, pack: ItemNow, power_w: float, cold: Cold | None) -> Discharge | None:
    how = None if cold is None else cold.at_k
    words = f"least of {pack.tag} at {power_w} W, {how}"
    return craft.once(words, _least_discharge, craft, pack, power_w, cold)


def _least_discharge(
    craft: Craft, pack: ItemNow, power_w: float, cold: Cold | None
) -> Discharge | None:
    ohm = number(resistance(pack)) * (cold.resistance_times if cold else 1.0)
    ohm = max(ohm, _logged_ohm(craft, pack, None if cold is None else cold.at_k))
    share = cold.capacity_share if cold else 1.0
    try:
        return _discharge(craft, pack, power_w, ohm, number(cutoff_cell(pack)), share)
    except ValueError:
        return None


def _logged_ohm(craft: Craft, pack: ItemNow, at_k: float | None) -> float:
    """Resistance in Ω by the sag in the log; 0 where it, or the current then, is not known.

    A glider's motor takes the current of the log; any other sagged most at full throttle, and less
    current than that would make it more.
    """
    logged = sag_in_log(craft, pack, at_k)
    if logged is None:
        return 0.0
    try:
        if glides(craft):
            return logged.sag_v * number(nominal(craft.pack)) / number(flown_watts(craft))
        full = full_throttle(craft, pack)
        return logged.sag_v / full.amps(**full.values())
    except (Lacking, ValueError):
        return 0.0


def low_end_notes(
    craft: Craft, pack: ItemNow, power_w: float, cold: Cold | None
) -> tuple[str, ...]:
    """Said where the low end of a time is no longer ended by the reserve."""
    found = _least(craft, pack, power_w, cold)
    if found is not None and found.ended_by == "reserve":
        return ()
    return (f"its low end: {ended_words(craft, pack, power_w, cold)}",)


def ended_words(craft: Craft, pack: ItemNow, power_w: float, cold: Cold | None) -> str:
    """What ends it before the reserve, and by which resistance."""
    at_k = None if cold is None else cold.at_k
    by_charger = number(resistance(pack)) * (cold.resistance_times if cold else 1.0)
    by = "the sag in the log" if _logged_ohm(craft, pack, at_k) > by_charger else "its resistance"
    found = _least(craft, pack, power_w, cold)
    when = "at once" if found is None else "before the reserve"
    return f"by {by} it reaches its cut-off of {amounts.voltage(cutoff_v(pack))} {when}"
