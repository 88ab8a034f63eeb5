"""Which readings of a pack were taken under like conditions, so that they may be compared.

Cold raises the resistance and takes capacity, a larger current or a higher cut-off takes capacity
too. Resistances of lithium cells are brought to one temperature as far as that is known. A
condition that is not recorded is taken as like. Limits of likeness: common practice, no source.

The resistance of a lithium cell goes with exp(E_a / (R_gas·T)); E_a of small ones is about 20 to
35 kJ/mol. Both from memory, as texts on cells give them. Where the spread of E_a alone moves a
reading by more than a fifth, it is not corrected: then it may not be compared.
"""

import math
from bisect import bisect_right
from collections.abc import Callable, Iterable, Sequence
from typing import Generic, NamedTuple, TypeVar

from buildbook.report.history import CapacityDone, ChargeDone
from buildbook.report.state import ItemNow

MOST_K = 5.0
MOST_OF_CURRENT = 0.2
MOST_CELL_V = 0.1
LEAST_CELL_V = {"NiMH": 0.5}
LEAST_LITHIUM_CELL_V = 2.0
_ROOM = 1e-6


class Conditions(NamedTuple):
    """What a reading depends on; None where it is not recorded."""

    temperature_k: float | None = None
    current_a: float | None = None
    cell_v: float | None = None  # at which the discharge stopped
    corrected: bool = False  # whether a reading is brought to the temperature of another

    def unlike(self, other: "Conditions") -> tuple[str, ...]:
        """What differs too much to compare: ``temperature``, ``current``, ``cut-off``."""
        found = []
        if self._warmth_apart(other):
            found.append("temperature")
        if self.current_a is not None and _apart(
            self.current_a, other.current_a, MOST_OF_CURRENT * self.current_a
        ):
            found.append("current")
        if _apart(self.cell_v, other.cell_v, MOST_CELL_V):
            found.append("cut-off")
        return tuple(found)

    def to_correct_k(self, other: "Conditions") -> float:
        """Over how many K a reading would have to be corrected."""
        if not self.corrected or self.temperature_k is None or other.temperature_k is None:
            return 0.0
        return abs(self.temperature_k - other.temperature_k)

    def _warmth_apart(self, other: "Conditions") -> bool:
        one, two = self.temperature_k, other.temperature_k
        if not _apart(one, two, MOST_K) or one is None or two is None:
            return False
        return not (self.corrected and may_be_corrected(one, two))

    def then(self, later: "Conditions") -> "Conditions":
        """The later ones, filled up by these.

        What is corrected keeps the temperature of the first, which the others are brought to.
        """
        warm, cool = self.temperature_k, later.temperature_k
        anchored = self.corrected and warm is not None
        return Conditions(
            temperature_k=warm if anchored or cool is None else cool,
            current_a=self.current_a if later.current_a is None else later.current_a,
            cell_v=self.cell_v if later.cell_v is None else later.cell_v,
            corrected=later.corrected,
        )


def _apart(one: float | None, other: float | None, most: float) -> bool:
    return one is not None and other is not None and abs(one - other) > most + _ROOM


Reading = TypeVar("Reading")


Series = tuple[list[int], Conditions]
"""Numbers of readings, and what is known of their conditions."""


class Likes(NamedTuple, Generic[Reading]):
    """Readings that may be compared, oldest first, and those that may not, with what differs."""

    alike: tuple[Reading, ...]
    unlike: tuple[tuple[Reading, tuple[str, ...]], ...] = ()


def like_readings(
    readings: Sequence[Reading], conditions: Callable[[Reading], Conditions]
) -> Likes[Reading]:
    """The newest series of two or more readings under like conditions, else the longest one.

    readings: oldest first. A reading goes on the newest series that it is like.
    """
    found = [conditions(reading) for reading in readings]
    if found.count(found[0]) == len(found) if found else True:
        return Likes(tuple(readings))
    series: list[Series] = []
    for index, own in enumerate(found):
        _taken_up(series, index, own)
    confirmed = [one for one in series if len(one[0]) > 1]
    members, known = confirmed[-1] if confirmed else series[-1]
    kept = set(members)
    return Likes(
        tuple(readings[index] for index in members),
        tuple(
            (reading, known.unlike(found[index]))
            for index, reading in enumerate(readings)
            if index not in kept
        ),
    )


def like_before(
    readings: Sequence[Reading], conditions: Callable[[Reading], Conditions]
) -> tuple[Sequence[int], ...]:
    """For each reading the earlier ones that it goes on, as they stood when it was taken."""
    found = [conditions(reading) for reading in readings]
    if found and found.count(found[0]) == len(found):
        return tuple(map(range, range(len(found))))
    series: list[Series] = []
    return tuple(_taken_up(series, index, own) for index, own in enumerate(found))


def _taken_up(series: list[Series], index: int, own: Conditions) -> list[int]:
    """Take a reading into the newest series that it is like; the readings before it there.

    What has to be corrected goes to the series that is nearest in temperature.
    """
    like = [at for at in reversed(range(len(series))) if not series[at][1].unlike(own)]
    if not like:
        series.append(([index], own))
        return []
    members, known = series.pop(min(like, key=lambda at: series[at][1].to_correct_k(own)))
    before = list(members)
    members.append(index)
    series.append((members, known.then(own)))
    return before


def like_capacities(pack: ItemNow) -> Likes[CapacityDone]:
    """Measured capacities of a pack that may be compared."""
    return like_readings(pack.capacities, lambda done: of_capacity(pack, done))


def of_capacity(pack: ItemNow, done: CapacityDone) -> Conditions:
    """Under which a capacity was measured."""
    return Conditions(done.temperature_k, done.current_a, cutoff_cell_v(pack, done.down_to_v))


def like_resistances(pack: ItemNow) -> Likes[tuple[int, ChargeDone]]:
    """Charges with resistances of this pack alone that may be compared, with their number."""
    conditions = of_charges(pack)
    return like_readings(resistances(pack), lambda one: conditions(one[1]))


def resistances(pack: ItemNow) -> list[tuple[int, ChargeDone]]:
    """Charges with resistances of this pack alone, with their number as the capacity counts it."""
    read = [one for one in pack.charges if one.resistance_ohm and one.packs_together == 1]
    return list(zip(charges_by(pack, [one.seq for one in read]), read, strict=True))


def charges_by(pack: ItemNow, moments: Iterable[int]) -> tuple[int, ...]:
    """Charges up to each moment that count: one to storage is no use of the pack, but its rest."""
    counting = [charge.seq for charge in pack.charges if charge.counts]
    return tuple(bisect_right(counting, moment) for moment in moments)


def of_charges(pack: ItemNow) -> Callable[[ChargeDone], Conditions]:
    """Under which resistances of a pack were read, made once for each temperature."""
    corrected = _is_lithium(pack)
    made: dict[float | None, Conditions] = {}

    def conditions(charge: ChargeDone) -> Conditions:
        kelvin = charge.temperature_k
        if kelvin not in made:
            made[kelvin] = Conditions(kelvin, corrected=corrected)
        return made[kelvin]

    return conditions


def resistances_at(pack: ItemNow, charge: ChargeDone, kelvin: float | None) -> tuple[float, ...]:
    """The readings of each cell in Ω, brought to a temperature; as read where it is not known."""
    if charge.temperature_k is None or kelvin is None or not _is_lithium(pack):
        return charge.resistance_ohm
    return tuple(at_temperature(ohm, charge.temperature_k, kelvin) for ohm in charge.resistance_ohm)


def _is_lithium(pack: ItemNow) -> bool:
    return pack.spec.chemistry != "NiMH"


def cutoff_cell_v(pack: ItemNow, down_to_v: float | None) -> float | None:
    """Volts of a cell at the end of a discharge that stopped at so many volts of the pack.

    What no pack of so many cells can have is taken for the voltage of one cell.
    """
    if down_to_v is None or pack.spec.cells is None:
        return down_to_v
    series = pack.spec.cells.series
    if is_of_one_cell(down_to_v, series, pack.spec.chemistry):
        return down_to_v
    return down_to_v / series


def is_of_one_cell(down_to_v: float, series: int, chemistry: str | None) -> bool:
    """Whether a cut-off can only be that of one cell: too low for so many in series."""
    least = LEAST_CELL_V.get(chemistry or "", LEAST_LITHIUM_CELL_V)
    return series > 1 and down_to_v / series < least <= down_to_v


GAS_CONSTANT_J_MOL_K = 8.314462618
ACTIVATION_J_MOL, ACTIVATION_RANGE_J_MOL = 25_000.0, (20_000.0, 35_000.0)
MOST_SPREAD = 0.2
"""Of a reading. Common practice, no source; what is looked for is half as much again, or twice."""


def warmth_ratio(temperature_k: float, reference_k: float, activation_j_mol: float) -> float:
    """Resistance at a temperature over that at another, both in K (above 0)."""
    return math.exp(activation_j_mol / GAS_CONSTANT_J_MOL_K * (1 / temperature_k - 1 / reference_k))


def may_be_corrected(temperature_k: float, reference_k: float) -> bool:
    """Whether the spread of E_a leaves a reading good to within a fifth."""
    usual = warmth_ratio(temperature_k, reference_k, ACTIVATION_J_MOL)
    ends = (warmth_ratio(temperature_k, reference_k, end) for end in ACTIVATION_RANGE_J_MOL)
    return all(abs(math.log(end / usual)) <= math.log(1 + MOST_SPREAD) for end in ends)


def at_temperature(resistance_ohm: float, temperature_k: float, reference_k: float) -> float:
    """A reading as it would be at another temperature."""
    return resistance_ohm * warmth_ratio(reference_k, temperature_k, ACTIVATION_J_MOL)
