"""What is known of a pack as a source of current: cells, capacity, resistance, voltages."""

from typing import NamedTuple

import msgspec

from buildbook.basis import amounts
from buildbook.basis.place import Place
from buildbook.figures.answers.gathering import (
    Lacking,
    declared,
    default,
    in_per_cent,
    measured,
    number,
    of_spec,
)
from buildbook.figures.laws.law import CUSTOM
from buildbook.figures.laws.packs.battery import (
    cell_curve,
    open_circuit_cell_v,
    pack_resistance_ohm,
    series_resistance_ohm,
)
from buildbook.hangar.alarm import alarm_of_a_cell_v, alarm_set, cutoff_set
from buildbook.hangar.packs.doubts import GREW, more
from buildbook.hangar.packs.limits import holds_impossibly, too_much_held
from buildbook.records.keeper import Keeper
from buildbook.records.parts import Cells
from buildbook.report.figure import Input, Name
from buildbook.report.history import ChargeDone
from buildbook.report.packs.health import END_OF_LIFE_SHARE, RESERVE_SHARE
from buildbook.report.packs.like_conditions import (
    ACTIVATION_J_MOL,
    ACTIVATION_RANGE_J_MOL,
    like_capacities,
    like_resistances,
    warmth_ratio,
)
from buildbook.report.state import AircraftNow, ItemNow

CHEMISTRY = "LiPo"
# Lowest voltage of a cell under load. Common practice, no source.
CUTOFF_CELL_V = {"LiPo": 3.3, "LiHV": 3.3, "LiIon": 2.8, "LiFe": 2.6, "NiMH": 1.0}
# Resistance of a cell times its capacity. Common practice, no source.
CELL_RESISTANCE_OHM_AH = 0.015
ROOM_K = 293.15  # at which a pack is taken to have been read where nobody wrote it
# Of a cell just charged, at most, and how warm a pack may start. Common practice, no source.
CHARGED_CELL_V = {"LiPo": 4.20, "LiHV": 4.35, "LiIon": 4.20, "LiFe": 3.60, "NiMH": 1.45}
WARM_PACK_K = 308.15


def cells(pack: ItemNow) -> Cells:
    """Cells in series and parallel. Lacking: the spec has none."""
    if pack.spec.cells is None:
        raise Lacking(
            f"cells of {pack.spec.spec} are not recorded: write 'cells' in its spec",
            pack.spec.place(),
        )
    return pack.spec.cells


def chemistry(pack: ItemNow) -> Input:
    """The chemistry by name; LiPo where none is written."""
    if pack.spec.chemistry is None:
        return Input(
            called=Name(f"chemistry of {pack.spec.spec}"),
            value=CHEMISTRY,
            unit="",
            basis="default",
            place=pack.spec.place(),
            note=CUSTOM,
        )
    return Input(
        called=Name(f"chemistry of {pack.spec.spec}"),
        value=pack.spec.chemistry,
        unit="",
        basis="spec",
        place=pack.spec.place("chemistry"),
    )


def rested(pack: ItemNow, state_of_charge: float) -> Input:
    """Voltage in V of the rested pack at a state of charge, off the usual curve of its chemistry.

    ValueError: unknown chemistry, or a state outside 0 to 1.
    """
    kind = str(chemistry(pack).value)
    value = cells(pack).series * open_circuit_cell_v(kind, state_of_charge)
    left = f"at {amounts.share(state_of_charge)} of its charge"
    name = Name("rested voltage", "of", pack.tag, "when full" if state_of_charge == 1 else left)
    words = f"usual curve of a {kind} cell: {CUSTOM}"
    return default(name, value, "V", words, chemistry(pack).place)


def rested_when_full(pack: ItemNow) -> Input:
    """The most in V that the pack rests at just charged, for what is asked of everything then.

    ValueError: unknown chemistry.
    """
    usual = rested(pack, 1.0)
    kind = str(chemistry(pack).value)
    value = cells(pack).series * CHARGED_CELL_V[kind]
    name = msgspec.structs.replace(usual.called, further=f"{usual.called.further}, at most")
    return default(name, value, "V", CUSTOM, usual.place)


def least_resistance(pack: ItemNow) -> Input:
    """The resistance of the whole pack in Ω when it starts warm: the least that it may have."""
    as_read = resistance(pack)
    if pack.spec.chemistry == "NiMH":
        return as_read
    times = min(1.0, warmth_ratio(WARM_PACK_K, read_at_k(pack), ACTIVATION_J_MOL))
    name = msgspec.structs.replace(
        as_read.called, further=f"when warm, {amounts.degrees(WARM_PACK_K)}"
    )
    words = f"{_against(pack)}; E_a {ACTIVATION_J_MOL / 1000:.0f} kJ/mol, from memory"
    return default(name, number(as_read) * times, "Ω", words, as_read.place)


def rested_at_reserve(pack: ItemNow, keeper: Keeper) -> Input:
    """The same when what the keeper leaves in a pack is left. ValueError: unknown chemistry."""
    return rested(pack, number(reserve(keeper)))


def rated_capacity(pack: ItemNow) -> Input:
    """Rated capacity in Ah. Lacking: the spec has none, or one that its cells cannot hold."""
    rated = of_spec(pack, pack.spec.capacity_ah, "capacity", "capacity", "Ah")
    if holds_impossibly(pack.spec, pack.mass_kg):
        raise Lacking(f"{rated.name} is {too_much_held(pack.spec, pack.mass_kg)}", rated.place)
    return rated


def capacity(pack: ItemNow) -> Input:
    """The last capacity measured under like conditions in Ah, else the rated one.

    One that is far above that before it is not believed until it is measured again.
    """
    if pack.capacities:
        last, *before = reversed(like_capacities(pack).alike)
        if before and not last.sure and more(last.measured_ah, GREW * before[0].measured_ah):
            last = before[0]
        return measured(Name("capacity", "of", pack.tag), last.measured_ah, "Ah", last.place)
    return rated_capacity(pack)


def nominal(pack: ItemNow) -> Input:
    """Nominal voltage in V: of the spec, else by chemistry. ValueError: unknown chemistry."""
    series = cells(pack).series
    name = Name("nominal voltage", "of", pack.tag)
    if pack.spec.nominal_cell_voltage_v is not None:
        value = pack.spec.nominal_cell_voltage_v * series
        return declared(name, value, "V", pack.spec.place("nominal_cell_voltage"))
    kind = chemistry(pack)
    value = cell_curve(str(kind.value)).nominal_v * series
    if kind.basis == "default":
        return default(name, value, "V", CUSTOM, kind.place)
    return declared(name, value, "V", kind.place)


class CutOff(NamedTuple):
    """What ends a flight by its voltage: of one cell under load, of the pack in V, whose it is."""

    of_cell: Input
    pack_v: float
    whose: str

    @property
    def words(self) -> str:
        """As a sentence names it: ``its cut-off of 9.90 V``."""
        return f"{self.whose} of {amounts.voltage(self.pack_v)}"


def cutoff(aircraft: AircraftNow, pack: ItemNow) -> CutOff:
    """The first that a falling voltage reaches: the pack's own, that set, a wing's alarm.

    A multirotor's alarm is set to its reserve, and ends nothing; with that of an aeroplane the
    motor is to stop. None is taken for a cell that never has so much.
    """
    kind, series = str(chemistry(pack).value), cells(pack).series
    found = [(_cutoff_of_pack(pack, kind), "its cut-off")]
    told = [(cutoff_set(aircraft), "the set cut-off")]
    if aircraft.record.kind == "aeroplane":
        told.append((alarm_set(aircraft), "the set alarm"))
    for setting, whose in told:
        cell_v = 0.0 if setting is None else alarm_of_a_cell_v(setting.alarm_v, pack)
        if setting is not None and cell_v < CHARGED_CELL_V.get(kind, cell_v):
            found.append((measured(f"{whose}, a cell", cell_v, "V", setting.place), whose))
    of_cell, whose = max(found, key=lambda one: number(one[0]))
    return CutOff(of_cell, number(of_cell) * series, whose)


def _cutoff_of_pack(pack: ItemNow, kind: str) -> Input:
    """The lowest voltage of a cell under load, in V."""
    name = f"cut-off of a cell of {pack.spec.spec}"
    if pack.spec.cutoff_cell_voltage_v is not None:
        place = pack.spec.place("cutoff_cell_voltage")
        return declared(name, pack.spec.cutoff_cell_voltage_v, "V", place)
    return default(name, CUTOFF_CELL_V.get(kind, 3.3), "V", CUSTOM, pack.spec.place())


def resistance(pack: ItemNow) -> Input:
    """Resistance of the whole pack in Ω: its latest reading, its spec, else by its capacity.

    One that cannot be compared with those before it is left out.
    """
    count, name, charge = cells(pack), Name("resistance", "of", pack.tag), last_read(pack)
    if charge is not None:
        value = series_resistance_ohm(charge.resistance_ohm)
        return measured(name, value, "Ω", charge.place)
    cell = pack.spec.cell_resistance_ohm
    if cell is not None:
        value = pack_resistance_ohm(cell, count.series, count.parallel)
        return declared(name, value, "Ω", pack.spec.place("cell_resistance"))
    if not pack.spec.capacity_ah:
        raise Lacking(
            f"cell resistance of {pack.spec.spec} is not recorded: write 'cell_resistance' in "
            "its spec",
            pack.spec.place(),
        )
    cell_ohm = CELL_RESISTANCE_OHM_AH * count.parallel / number(rated_capacity(pack))
    value = pack_resistance_ohm(cell_ohm, count.series, count.parallel)
    return default(name, value, "Ω", CUSTOM, pack.spec.place())


def last_read(pack: ItemNow) -> ChargeDone | None:
    """The latest charge with a reading of each cell that can be compared with those before it."""
    series, alike = cells(pack).series, like_resistances(pack).alike
    whole = (charge for _, charge in reversed(alike) if len(charge.resistance_ohm) == series)
    return next(whole, None)


def unmeasured(pack: ItemNow) -> Lacking:
    """Of a pack whose capacity nobody measured."""
    words = f"no capacity of {pack.tag} was measured: write a 'capacity' entry"
    return Lacking(words, pack.item.place())


def read_at_k(pack: ItemNow) -> float:
    """The temperature in K that its resistance is of; a room's where nobody wrote it."""
    charge = last_read(pack)
    return (None if charge is None else charge.temperature_k) or ROOM_K


def times_in_cold(pack: ItemNow, field_k: float, warm_k: float | None = None) -> float:
    """How many times its resistance it has in a field of so many K, at most; 1 where no colder.

    warm_k: against which it is; None is when it was read. However cold: a trend may leave out what
    cannot be compared, a margin may not.
    """
    if pack.spec.chemistry == "NiMH":
        return 1.0
    known_k = read_at_k(pack) if warm_k is None else warm_k
    return max(1.0, warmth_ratio(field_k, known_k, ACTIVATION_RANGE_J_MOL[1]))


def resistance_at(pack: ItemNow, at_k: float | None, whose: str = "") -> Input:
    """The same in air of so many K where that is colder: for margins, and in the timer.

    at_k: None is as it was read. whose: air it is, in words.
    """
    as_read = resistance(pack)
    times = 1.0 if at_k is None else times_in_cold(pack, at_k)
    if at_k is None or times == 1.0:
        return as_read
    further = f"at {whose}{amounts.degrees(at_k)}"
    name = msgspec.structs.replace(as_read.called, further=further)
    return default(name, number(as_read) * times, "Ω", against_read(pack), as_read.place)


MOST_IN_COLD = (
    f"E_a {ACTIVATION_RANGE_J_MOL[1] / 1000:.0f} kJ/mol, the most of small lithium cells, from "
    "memory"
)
"""What ``times_in_cold`` rests on."""


def against_read(pack: ItemNow) -> str:
    """The same, with how warm the pack was read."""
    return f"{_against(pack)}; {MOST_IN_COLD}"


def _against(pack: ItemNow) -> str:
    return f"against {amounts.degrees(read_at_k(pack))}"


def reserve(keeper: Keeper) -> Input:
    """The share of the capacity that is kept unflown."""
    if keeper.reserve_share is None:
        return in_per_cent(default("reserve", RESERVE_SHARE, "ratio", CUSTOM, keeper.place()))
    place = keeper.place("reserve")
    return in_per_cent(declared("reserve", keeper.reserve_share, "ratio", place))


def usable_ah(keeper: Keeper, pack: ItemNow) -> float:
    """The charge in Ah that is flown: the capacity less the reserve. Lacking: no capacity."""
    return number(capacity(pack)) * (1 - number(reserve(keeper)))


def end_of_life(keeper: Keeper) -> Input:
    """The share of the rated capacity below which a pack is worn out."""
    name = "pack end of life"
    if keeper.pack_end_of_life_share is None:
        return in_per_cent(default(name, END_OF_LIFE_SHARE, "ratio", CUSTOM, keeper.place()))
    place: Place = keeper.place("pack_end_of_life")
    return in_per_cent(declared(name, keeper.pack_end_of_life_share, "ratio", place))
