"""What cold takes from a pack: the low end of a time plans with it, and cold flights are named.

No published relation of capacity and cold is at hand: so much a degree is a stated default, at
most. The resistance goes with the greatest activation energy that small cells are said to have.
"""

from collections.abc import Sequence
from typing import NamedTuple

from buildbook.basis import amounts
from buildbook.basis.units import FREEZING_K
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import default, in_per_cent
from buildbook.figures.answers.packs.packs import ROOM_K, against_read, times_in_cold
from buildbook.figures.laws.law import CUSTOM
from buildbook.hangar.packs.doubts import COLD_PACK_K, is_cold
from buildbook.report.figure import Input
from buildbook.report.history import FlightDone
from buildbook.report.packs.like_conditions import like_capacities
from buildbook.report.state import ItemNow

MOST_LOST_A_KELVIN = 0.005  # of its capacity. Common practice, no source.
AS_READ = "holds for a pack at about 20 °C: a cold one gives less"


class Cold(NamedTuple):
    """A pack as cold as the field, against when it was read; inputs: what is assumed of that."""

    at_k: float
    capacity_share: float
    resistance_times: float
    inputs: tuple[Input, ...]
    note: str


def cold_at_field(craft: Craft, pack: ItemNow) -> Cold | None:
    """The pack at the field's temperature; None where that is not written, or no colder."""
    field_k = craft.keeper.field_temperature_k
    return None if field_k is None else cold_at(craft, pack, field_k)


def cold_at(craft: Craft, pack: ItemNow, field_k: float) -> Cold | None:
    """The pack as cold as a field of so many K; None where it was read no warmer."""
    read_k = _measured_at_k(pack)
    lost = MOST_LOST_A_KELVIN * max(0.0, read_k - field_k)
    times = times_in_cold(pack, field_k)
    if lost == 0.0 and times == 1.0:
        return None
    place = craft.keeper.place("field_temperature")
    at = f"{amounts.degrees(field_k)}, at most"
    words = f"half a per cent for each degree under {amounts.degrees(read_k)}; {CUSTOM}"
    found = [
        default(f"capacity lost in the cold of {at}", lost, "ratio", words, place),
        default(
            f"more resistance in the cold of {at}", times - 1, "ratio", against_read(pack), place
        ),
    ]
    return Cold(
        field_k,
        1 - lost,
        times,
        tuple(in_per_cent(one) for one in found if one.value),
        f"its low end: a pack as cold as the field, {amounts.degrees(field_k)}, all the way",
    )


def is_colder(craft: Craft) -> bool:
    """Whether freezing is colder than the field that is planned for."""
    field_k = craft.keeper.field_temperature_k
    return field_k is None or field_k > FREEZING_K


def freezing(craft: Craft, pack: ItemNow) -> Cold | None:
    """The pack at freezing, where that is colder than the field."""
    return cold_at(craft, pack, FREEZING_K) if is_colder(craft) else None


def cold_notes(craft: Craft, pack: ItemNow) -> tuple[str, ...]:
    """At which warmth of the pack a time holds."""
    cold = cold_at_field(craft, pack)
    if cold is not None:
        return (cold.note,)
    return (AS_READ,) if craft.keeper.field_temperature_k is None else ()


def flown_cold(flights: Sequence[FlightDone], those: str) -> tuple[str, ...]:
    """Said where some of these flights were flown in the cold. those: what they are called."""
    count = sum(one.temperature_k is not None and is_cold(one.temperature_k) for one in flights)
    if not count:
        return ()
    one = "flown" if len(flights) == 1 else f"{count} of {those} flown"
    which = f"all of {those} flown" if count == len(flights) > 1 else one
    return (f"{which} under {amounts.degrees(COLD_PACK_K)}",)


def _measured_at_k(pack: ItemNow) -> float:
    """The temperature in K at which its capacity was measured; a room's where nobody wrote it."""
    measured_k = like_capacities(pack).alike[-1].temperature_k if pack.capacities else None
    return measured_k or ROOM_K
