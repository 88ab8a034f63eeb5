"""How long a pack lasts by theory: a discharge at the power of a hover, simulated."""

from buildbook.basis import amounts
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.flight.cold import Cold, cold_at_field, cold_notes
from buildbook.figures.answers.flight.under_load import Worst, power_draw, worst_resistance
from buildbook.figures.answers.gathering import (
    default,
    in_per_cent,
    number,
)
from buildbook.figures.answers.packs.packs import (
    capacity,
    cells,
    chemistry,
    cutoff,
    reserve,
    resistance,
    rested,
)
from buildbook.figures.answers.propulsion.hover_ways import Method, electrical
from buildbook.figures.answers.working import by_law, worked
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


def simulated_at(craft: Craft, pack: ItemNow) -> str:
    """At which warmth of the pack that is, in words; nothing where it is as it was read."""
    cold = cold_at_field(craft, pack)
    return "" if cold is None else f" at {amounts.degrees(cold.at_k)}"


def _seconds(craft: Craft, pack: ItemNow) -> float:
    watts, cold = number(power_draw(craft, pack)), cold_at_field(craft, pack)
    if cold is None:
        return discharge_with(craft, pack, watts).duration_s
    return shortest(craft, pack, watts, cold)


def discharge_with(craft: Craft, pack: ItemNow, power_w: float) -> Discharge:
    """The discharge of a pack at a power, as it was read."""
    ohm, cut = number(resistance(pack)), cutoff(craft.now, pack)
    return _discharge(craft, pack, power_w, ohm, number(cut.of_cell))


Lasting = tuple[float, float]
"""Seconds by the reading of its resistance, and by the most that it may be."""


def to_reserve(craft: Craft, pack: ItemNow, power_w: float) -> Lasting:
    """The time down to the reserve, whatever its voltage: as a rate by the log counts it.

    As it was read and flown. ValueError: it cannot give the power so long.
    """
    worst = worst_resistance(craft, pack, None)
    by_reading, by_most = (
        _discharge(craft, pack, power_w, number(ohm), NO_CUTOFF_CELL_V)
        for ohm in (worst.by_reading, worst.given)
    )
    if by_most.ended_by != "reserve":
        by_most = by_reading
    return by_reading.duration_s, by_most.duration_s


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
        "cutoff_cell_v": cutoff(craft.now, pack).of_cell,
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
    worst = worst_in(craft, pack, cold)
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
            *((worst.given,) if worst.logged else ()),
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
    return lasting(craft, pack, power_w, cold)[1]


def lasting(craft: Craft, pack: ItemNow, power_w: float, cold: Cold | None) -> Lasting:
    """The same, and by its reading alone."""
    by_reading, by_most = _endings(craft, pack, power_w, cold)
    return by_reading.duration_s if by_reading else 0.0, by_most.duration_s if by_most else 0.0


def least_share(after: Lasting, before: Lasting) -> float:
    """How much less a time is than another: like is held against like, the lesser share counts."""
    return min(one / other if other > 0 else 0.0 for one, other in zip(after, before, strict=True))


def worst_in(craft: Craft, pack: ItemNow, cold: Cold | None) -> Worst:
    """The resistance that such a time is by."""
    return worst_resistance(craft, pack, None if cold is None else cold.at_k)


Endings = tuple[Discharge | None, Discharge | None]


def _endings(craft: Craft, pack: ItemNow, power_w: float, cold: Cold | None) -> Endings:
    how = None if cold is None else cold.at_k
    words = f"endings of {pack.tag} at {power_w} W, {how}"
    return craft.once(words, _discharges, craft, pack, power_w, cold)


def _discharges(craft: Craft, pack: ItemNow, power_w: float, cold: Cold | None) -> Endings:
    """None: it cannot give the power."""
    worst = worst_in(craft, pack, cold)
    share = cold.capacity_share if cold else 1.0
    cut = number(cutoff(craft.now, pack).of_cell)

    def ends(ohm: Input) -> Discharge | None:
        try:
            return _discharge(craft, pack, power_w, number(ohm), cut, share)
        except ValueError:
            return None

    return ends(worst.by_reading), ends(worst.given)


def low_end_notes(
    craft: Craft, pack: ItemNow, power_w: float, cold: Cold | None
) -> tuple[str, ...]:
    """Said where the low end of a time is no longer ended by the reserve."""
    _, found = _endings(craft, pack, power_w, cold)
    if found is not None and found.ended_by == "reserve":
        return ()
    return (f"its low end: {ended_words(craft, pack, power_w, cold)}",)


def ended_words(craft: Craft, pack: ItemNow, power_w: float, cold: Cold | None) -> str:
    """What ends it before the reserve, and by which resistance."""
    worst = worst_in(craft, pack, cold)
    _, found = _endings(craft, pack, power_w, cold)
    when = "at once" if found is None else "before the reserve"
    return f"by {worst.by} it reaches {cutoff(craft.now, pack).words} {when}"
