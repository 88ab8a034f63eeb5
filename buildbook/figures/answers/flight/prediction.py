"""How long a pack lasts by theory: a discharge at the power of a hover, simulated."""

from buildbook.basis import amounts
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.flight.cold import Cold, cold_at_field, cold_notes
from buildbook.figures.answers.flight.rates import flown_watts
from buildbook.figures.answers.gathering import default, from_figure, in_per_cent, number
from buildbook.figures.answers.packs.packs import (
    CUSTOM,
    capacity,
    cells,
    chemistry,
    cutoff_cell,
    reserve,
    resistance,
    rested,
)
from buildbook.figures.answers.propulsion.hover_ways import Method, electrical
from buildbook.figures.answers.working import by_law, given_value, worked
from buildbook.figures.laws.packs.discharge import Discharge, constant_power_discharge
from buildbook.report.figure import Figure, Input, Name
from buildbook.report.state import ItemNow

# How far the power in the air may be off before anything has been flown. Common practice, no
# source; replaced by the interval of the log from ten flights on.
UNFLOWN_SHARE = 0.15


def simulated(craft: Craft, pack: ItemNow) -> Figure:
    """The time in s by the simulated discharge, whatever was flown."""
    return craft.once(f"simulated time with {pack.tag}", _simulated, craft, pack)


def simulated_s(craft: Craft, pack: ItemNow) -> float:
    """The time in s alone, for beside what was flown."""
    return craft.once(f"simulated seconds with {pack.tag}", _seconds, craft, pack)


def _seconds(craft: Craft, pack: ItemNow) -> float:
    return discharge_with(craft, pack, number(power_draw(craft, pack))).duration_s


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


def discharge_with(
    craft: Craft, pack: ItemNow, power_w: float, cold: Cold | None = None
) -> Discharge:
    """The discharge of a pack at a power, as it was read, or in the cold."""
    return constant_power_discharge(
        str(chemistry(pack).value),
        cells(pack).series,
        number(capacity(pack)) * (cold.capacity_share if cold else 1.0),
        number(resistance(pack)) * (cold.resistance_times if cold else 1.0),
        power_w,
        number(reserve(craft.keeper)),
        number(cutoff_cell(pack)),
    )


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
    spread = in_per_cent(default("spread of the power", UNFLOWN_SHARE, "ratio", CUSTOM))
    cold = cold_at_field(craft, pack)
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
        low=shortest(craft, pack, number(power) * unflown_most(craft, pack), cold),
        high=longest.duration_s,
        notes=(
            *(() if method is None or method.aside is None else (method.aside,)),
            "hovering" if craft.hovers else "at the power as flown",
            f"the {whole.ended_by} ends it; {reserve_words(craft)}",
            *cold_notes(craft, pack),
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
    """The time in s at more power or in the cold; nothing where the pack cannot give it."""
    try:
        return discharge_with(craft, pack, power_w, cold).duration_s
    except ValueError:
        return 0.0
