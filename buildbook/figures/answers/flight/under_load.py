"""What a pack meets in the air: the power asked of it, and the most resistance that it may have.

That is its reading or the sag in the log over the current of those flights, whichever is more: at
most, for the lowest voltage of a flight is that of a burst. In the cold both grow by one law.
"""

from typing import NamedTuple

import msgspec

from buildbook.basis import amounts
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.flight.pack_in_flight import LoggedSag, sag_in_log
from buildbook.figures.answers.flight.rates import flown_watts
from buildbook.figures.answers.gathering import Lacking, default, from_figure, measured, number
from buildbook.figures.answers.packs.packs import (
    MOST_IN_COLD,
    nominal,
    resistance,
    resistance_at,
    rested_at_reserve,
)
from buildbook.figures.answers.propulsion.full_throttle import Full, full_throttle
from buildbook.figures.answers.propulsion.hover_ways import electrical
from buildbook.figures.answers.working import given_value
from buildbook.records.keeper import Keeper
from buildbook.report.figure import Input
from buildbook.report.state import ItemNow

BURST = "at most: bursts took more than the flight on average"


class Worst(NamedTuple):
    """The most resistance that a pack may have, as an input, and that of its reading.

    logged: the sag that it is by; None: it is by the reading.
    """

    given: Input
    by_reading: Input
    logged: LoggedSag | None

    @property
    def ohm(self) -> float:
        """In Ω."""
        return number(self.given)

    @property
    def by(self) -> str:
        """By which of both it is."""
        return "its resistance" if self.logged is None else "the sag in the log"

    @property
    def words(self) -> tuple[str, ...]:
        """Said where it is by the log: of which flights, and both resistances."""
        if self.logged is None:
            return ()
        most, read = (amounts.significant(1000 * number(one), 2) for one in self[:2])
        return (f"by {self.by}, {self.logged.words}: {most} mΩ, not {read}",)


def power_draw(craft: Craft, pack: ItemNow) -> Input:
    """The power in W that a discharge is simulated at: a hover, for a wing as it was flown."""
    if not craft.hovers:
        return flown_watts(craft, pack)
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


def worst_resistance(craft: Craft, pack: ItemNow, at_k: float | None) -> Worst:
    """In air of so many K where that is colder; at_k None: as it was read and flown.

    Lacking: no resistance is known.
    """
    words = f"worst resistance of {pack.tag}, {at_k}"
    return craft.once(words, _worst, craft, pack, at_k)


def at_field(craft: Craft, pack: ItemNow) -> Worst:
    """In the air of the field, where that is written."""
    return worst_resistance(craft, pack, craft.keeper.field_temperature_k)


def _worst(craft: Craft, pack: ItemNow, at_k: float | None) -> Worst:
    read = resistance_at(pack, at_k, "the field's ")
    logged = sag_in_log(craft, pack, at_k)
    if logged is None:
        return Worst(read, read, None)
    try:
        ohm = _logged_ohm(craft, pack, logged)
    except (Lacking, ValueError):
        return Worst(read, read, None)
    if ohm <= number(read):
        return Worst(read, read, None)
    name = msgspec.structs.replace(resistance(pack).called, further="by the sag in the log")
    given = measured(name, ohm, "Ω", logged.place)
    if logged.colder:
        given = default(name, ohm, "Ω", f"{BURST}; {MOST_IN_COLD}", logged.place)
    return Worst(msgspec.structs.replace(given, note=given.note or BURST), read, logged)


def _logged_ohm(craft: Craft, pack: ItemNow, logged: LoggedSag) -> float:
    """Over the current of its flights; where none wrote what it used, over that in the air.

    Lacking, ValueError: no current is known.
    """
    if logged.ohm is not None:
        return logged.ohm
    try:
        return logged.sag_v * number(nominal(pack)) / number(power_draw(craft, pack))
    except (Lacking, ValueError):
        return full_ohm(full_throttle(craft, pack), pack, craft.keeper, logged)


def full_ohm(full: Full, pack: ItemNow, keeper: Keeper, logged: LoggedSag) -> float:
    """Over the current that full throttle takes at the voltage which that sag leaves."""
    left_v = number(rested_at_reserve(pack, keeper)) - logged.sag_v
    return logged.sag_v / full.amps(**{**full.values(), "supply_v": left_v})
