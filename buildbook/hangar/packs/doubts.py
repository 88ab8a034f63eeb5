"""Readings of packs that can hardly be right, or should not have come about. All are warnings.

``sure: true`` on the entry silences them. Limits are common practice, no source, unless a line
says another.
"""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from buildbook.basis import amounts
from buildbook.basis.days import minute_of_day
from buildbook.basis.place import Place
from buildbook.hangar.builders import ItemBuilder
from buildbook.hangar.folding import Fold
from buildbook.hangar.packs.limits import (
    FLAT_BELOW_V,
    IMPOSSIBLE_CELL_V,
    LITHIUM,
    MOST_OF_A_CELL_V,
    TOGETHER_MV,
    limits_of,
    millivolts,
)
from buildbook.records.entries import Capacity, Charge, Inspection
from buildbook.records.parts import Spec
from buildbook.report.history import FlightDone
from buildbook.report.packs.like_conditions import LEAST_LITHIUM_CELL_V, Conditions, is_of_one_cell

MOST_MEASURED, LEAST_MEASURED = 1.15, 0.20
MOST_PUT_IN, MOST_PUT_IN_NIMH = 1.10, 1.60
MOST_USED = 1.05
"""Shares of rated, rated, and last measured capacity; counters err."""

NEXT_TO_NOTHING_AH, SMALLEST_PACK_AH = 0.010, 0.100
"""No pack of that size or more gives or takes so little: written in Ah, with the unit of mAh."""

GREW = 1.08
"""So many times the capacity that was measured before, a pack has hardly got: a slip, or the
charger. Not believed until it is read again."""

NOT_FULL_MV = 50
"""So far under a full cell even the best of a pack is not charged full."""

TRIPLED, HALVED = 3.0, 0.5
COLD_PACK_K = 283.15
"""10 °C: below it a LiPo gives less, and sags more."""


def doubt_pack_charge(fold: Fold, pack: ItemBuilder, entry: Charge) -> None:
    """One pack of a charge: what was put in, its readings, its resistance against the last."""
    rated_ah = pack.spec.capacity_ah
    if entry.put_in_ah is not None and rated_ah:
        each_ah = entry.put_in_ah / len(entry.packs)
        if _is_next_to_nothing(pack, entry.put_in_ah):
            _meant_ah(fold, pack, entry.put_in_ah, "charged with", entry.place("put_in"),
                      entry.aircraft)  # fmt: skip
        if takes_too_much(pack.spec, each_ah):
            _too_much(fold, pack, each_ah, rated_ah, "charged with", entry.place("put_in"),
                      entry.aircraft)  # fmt: skip
    for volts in entry.resting_v:
        if millivolts(volts) > millivolts(IMPOSSIBLE_CELL_V) and len(entry.packs) == 1:
            _impossible(fold, pack, volts, entry.place("resting"), entry.aircraft)
            break
    _doubt_end(fold, pack, entry)
    if not entry.resistance_ohm or len(entry.packs) != 1:
        return
    before = next((one for one in reversed(pack.charges) if one.resistance_ohm), None)
    if before is None or before.packs_together != 1:
        return
    warm_k, was_k = entry.temperature_k, before.temperature_k
    if warm_k is not None and was_k is not None and abs(warm_k - was_k) > 5:
        return
    if len(before.resistance_ohm) != len(entry.resistance_ohm):
        return
    pairs = zip(before.resistance_ohm, entry.resistance_ohm, strict=True)
    for cell, (then, now) in enumerate(pairs, 1):
        if then > 0 and not HALVED < now / then < TRIPLED:
            moved = "tripled" if now > then else "halved"
            _warn(
                fold,
                f"cell {cell} of {pack.words} {moved}: {then * 1000:.1f} mΩ to {now * 1000:.1f} mΩ",
                entry.place("resistance"),
                "read it again at about the same temperature and charge, or correct the figure",
                entry.aircraft,
            )


def doubt_look(fold: Fold, pack: ItemBuilder, read_v: Sequence[float], entry: Inspection) -> None:
    """A voltage of a look that no cell has, unless it is that of the whole pack."""
    series = 1 if pack.spec.cells is None else pack.spec.cells.series
    for volts in read_v:
        each_v = volts / series if volts > MOST_OF_A_CELL_V else volts
        if millivolts(each_v) > millivolts(IMPOSSIBLE_CELL_V):
            _impossible(fold, pack, volts, entry.place("readings"), entry.aircraft)
            return


def _doubt_end(fold: Fold, pack: ItemBuilder, entry: Charge) -> None:
    """A pack said to be full whose cells are not, or at storage charge with cells as if full."""
    limits = limits_of(pack.spec)
    if not entry.resting_v or pack.spec.chemistry not in FLAT_BELOW_V or limits is None:
        return
    full_mv, read = millivolts(limits.full_v or 0.0), entry.resting_v
    wrong_v = None
    if entry.to == "full" and millivolts(max(read)) < full_mv - NOT_FULL_MV:
        wrong_v = max(read)
    elif entry.to == "storage" and millivolts(min(read)) >= full_mv:
        wrong_v = min(read)
    if full_mv and wrong_v is not None:
        _warn(
            fold,
            f"{pack.words} charged to {entry.to}, though its cells read {amounts.voltage(wrong_v)}",
            entry.place("resting"),
            "correct 'to' or the readings",
            entry.aircraft,
        )


def takes_too_much(spec: Spec, put_in_ah: float) -> bool:
    """Whether a charge put more into one pack than such a pack can hold."""
    if not spec.capacity_ah or put_in_ah <= spec.capacity_ah:
        return False
    most = MOST_PUT_IN_NIMH if spec.chemistry == "NiMH" else MOST_PUT_IN
    return round(put_in_ah / spec.capacity_ah, 6) > most


class Shared(NamedTuple):
    """What holds for all packs of one charge. unequal: in cells or chemistry.

    on_one_lead: they are equal, and were charged there; apart_mv: how far their cells lay apart at
    rest before, None where that is not known. most_a: what they may be charged at, where it is
    written what they were; None where a spec does not say.
    """

    unequal: bool = False
    on_one_lead: bool = False
    apart_mv: int | None = None
    most_a: float | None = None


ALONE = Shared()
"""Of one pack, and nobody wrote at what current."""


def shared_by(packs: Sequence[ItemBuilder], entry: Charge) -> Shared:
    """What the packs of one charge have in common, and in what they differ."""
    specs = [one.spec for one in packs]
    unequal = len({(one.cells and one.cells.series, one.chemistry) for one in specs}) > 1
    on_one_lead = entry.together and len(packs) > 1 and not unequal
    return Shared(
        unequal=unequal,
        on_one_lead=on_one_lead,
        apart_mv=_apart_mv(packs) if on_one_lead else None,
        most_a=None if entry.current_a is None else _most_current_a(specs, entry.together),
    )


def _most_current_a(specs: Sequence[Spec], together: bool) -> float | None:
    """What packs of one charge may be charged at; None where a spec does not say."""
    rates_a = [
        one.charge_rate_c * one.capacity_ah
        for one in specs
        if one.charge_rate_c and one.capacity_ah
    ]
    if len(rates_a) != len(specs) or not rates_a:
        return None
    return sum(rates_a) if together else min(rates_a)


def doubt_together(fold: Fold, packs: list[ItemBuilder], entry: Charge, shared: Shared) -> None:
    """Packs of one charge: unequal on one lead, or more current than they may take."""
    if shared.unequal:
        _warn(fold, f"{_listed(packs)} charged as one: cells or chemistry differ, not on one"
              " lead", entry.place("charge"), "charge them apart", entry.aircraft)  # fmt: skip
    elif shared.on_one_lead:
        _doubt_voltages(fold, packs, entry, shared.apart_mv)
    most_a = shared.most_a
    if entry.current_a is not None and most_a is None:
        _doubt_rate(fold, packs, entry, entry.current_a)
    if entry.current_a is not None and most_a is not None and more(entry.current_a, most_a):
        _warn(
            fold,
            f"{_listed(packs)} charged at {amounts.current(entry.current_a)}, rated"
            f" {amounts.current(most_a)}",
            entry.place("current"),
            "charge slower, or correct the figure or the rate of the spec",
            entry.aircraft,
        )


USUAL_RATE_C = 1.1
"""A charge at once the capacity in an hour, and what chargers round up, needs no rate of the spec.
Common practice, no source."""


def _doubt_rate(fold: Fold, packs: list[ItemBuilder], entry: Charge, current_a: float) -> None:
    """Faster than any pack may be charged of which nothing is said, where its spec says nothing."""
    without = [one for one in packs if one.spec.capacity_ah and not one.spec.charge_rate_c]
    held_ah = sum(one.spec.capacity_ah or 0.0 for one in (packs if entry.together else without[:1]))
    if without and held_ah and more(current_a / held_ah, USUAL_RATE_C):
        times = amounts.fixed(current_a / held_ah, 1)
        _warn(fold, f"{_listed(without)} charged at {amounts.current(current_a)}, {times} times the"
              f" capacity, and {without[0].spec.spec} says no charge_rate", entry.place("current"),
              "write what its maker allows, or charge at 1 C", entry.aircraft,
              again=f"{without[0].spec.spec} charged without a rate")  # fmt: skip


def _doubt_voltages(fold: Fold, packs: list[ItemBuilder], entry: Charge, apart: int | None) -> None:
    """On one lead the fuller pack charges the emptier one at whatever current the leads pass."""
    if apart is None:
        _warn(fold, f"{_listed(packs)} charged together, their voltages before unknown: not on one"
              " lead", entry.place("together"), "read each pack at rest first",
              entry.aircraft)  # fmt: skip
    elif apart > TOGETHER_MV:
        _warn(fold, f"{_listed(packs)} charged together, {apart} mV a cell apart: not on one lead",
              entry.place("together"), "bring them within 0.1 V a cell first",
              entry.aircraft)  # fmt: skip


def _apart_mv(packs: Sequence[ItemBuilder]) -> int | None:
    """How far the cells of packs lay apart at rest; None where one was not read since it flew."""
    read_mv: list[int] = []
    for pack in packs:
        read = pack.rests[-1] if pack.rests else None
        if read is None or (pack.flights and pack.flights[-1].seq > read.seq):
            return None
        read_mv += [millivolts(volts) for volts in read.cells_v]
    return max(read_mv) - min(read_mv) if read_mv else None


def doubt_grown(fold: Fold, pack: ItemBuilder, entry: Capacity) -> None:
    """More than was measured before, under conditions that are not known to differ."""
    if not pack.capacities:
        return
    last = pack.capacities[-1]
    then = Conditions(last.temperature_k, last.current_a, last.down_to_v)
    now = Conditions(entry.temperature_k, entry.current_a, entry.down_to_v)
    if more(entry.measured_ah, GREW * last.measured_ah) and not now.unlike(then):
        before = amounts.charge(last.measured_ah)
        _warn(fold, f"{pack.words} measured at {amounts.charge(entry.measured_ah)}, after {before}",
              entry.place("measured"), "no pack grows: measure it again, or correct the figure",
              entry.aircraft)  # fmt: skip


def doubt_measured(fold: Fold, pack: ItemBuilder, measured_ah: float, place: Place) -> None:
    """More measured than such a pack can hold, or next to nothing of it."""
    rated_ah = pack.spec.capacity_ah
    if not rated_ah:
        return
    if round(measured_ah / rated_ah, 6) > MOST_MEASURED:
        _too_much(fold, pack, measured_ah, rated_ah, "measured at", place, None)
    if _is_next_to_nothing(pack, measured_ah):
        _meant_ah(fold, pack, measured_ah, "measured at", place, None)
    elif round(measured_ah / rated_ah, 6) < LEAST_MEASURED:
        _warn(fold, f"{pack.words} measured at {amounts.charge(measured_ah)}, though rated"
              f" {amounts.charge(rated_ah)}", place,
              "was it full, and discharged in full? else correct the figure", None)  # fmt: skip


def more(found: float, most: float) -> bool:
    """Whether it is more, beyond the noise of binary fractions."""
    return round(found, 6) > round(most, 6)


def is_cold(temperature_k: float) -> bool:
    """Whether a LiPo flown at that temperature gives less."""
    return round(temperature_k, 3) < COLD_PACK_K


def doubt_flight(
    fold: Fold, pack: ItemBuilder, flight: FlightDone, used_ah: float | None, of_one: bool
) -> None:
    """One pack of a flight: used up, flown low, cold, impossible volts, or on two aircraft."""
    about, place = flight.aircraft, flight.place
    if used_ah is not None and _is_next_to_nothing(pack, used_ah):
        _meant_ah(fold, pack, used_ah, "gave", place, about)
    capacity_ah = pack.capacities[-1].measured_ah if pack.capacities else pack.spec.capacity_ah
    if (
        used_ah is not None
        and capacity_ah
        and used_ah > capacity_ah
        and round(used_ah / capacity_ah, 6) > MOST_USED
    ):
        held = "last measured" if pack.capacities else "rated"
        _warn(fold, f"{pack.words} gave {amounts.charge(used_ah)}, though {held}"
              f" {amounts.charge(capacity_ah)}", place,
              "correct the figure, or land earlier", about)  # fmt: skip
    if of_one and flight.volts is not None:
        _doubt_volts(fold, pack, flight)
    temperature_k = flight.temperature_k
    if temperature_k is not None and is_cold(temperature_k) and pack.spec.chemistry == "LiPo":
        _warn(fold, f"{pack.words} flown at {amounts.temperature(temperature_k)}",
              place, "below 10 °C a LiPo gives less: warm it first, fly shorter", about,
              again="flown cold")  # fmt: skip
    load = pack.last_load
    if (
        load is not None
        and load.on == fold.at.day
        and load.aircraft != about
        and load.until is not None
        and fold.at.time is not None
        and minute_of_day(fold.at.time) < load.until
    ):
        _warn(fold, f"{pack.words} flown on {about} and on {load.aircraft} at once", place,
              "correct a time or a pack", about)  # fmt: skip


def _doubt_volts(fold: Fold, pack: ItemBuilder, flight: FlightDone) -> None:
    cells, volts = pack.spec.cells, flight.volts
    if cells is None or volts is None:
        return
    limits = limits_of(pack.spec)
    for read_v in (volts.before_v, volts.lowest_v, volts.after_v):
        if read_v and millivolts(read_v / cells.series) > millivolts(IMPOSSIBLE_CELL_V):
            _impossible(fold, pack, read_v, flight.place, flight.aircraft)
            return
    before_v = volts.before_v
    if before_v and before_v < LEAST_LITHIUM_CELL_V and pack.spec.chemistry in LITHIUM:
        tenfold_v = 10 * before_v
        fits = LEAST_LITHIUM_CELL_V <= tenfold_v / cells.series <= IMPOSSIBLE_CELL_V
        _warn(fold, f"{amounts.voltage(before_v)} on {pack.words} of {amounts.cells(cells.series)}"
              " before a flight: nothing flies on that", flight.place,
              f"did you mean {tenfold_v:g} V?" if fits else "correct the figure",
              flight.aircraft)  # fmt: skip
    read = [one for one in (volts.lowest_v, volts.after_v) if one is not None]
    if not read or limits is None or limits.lowest_v is None:
        return
    of_one = is_of_one_cell(min(read), cells.series, pack.spec.chemistry)
    whole = f"is that of one cell? write that of the pack: {min(read) * cells.series:g} V; else "
    lowest_v = min(read) / cells.series
    if millivolts(lowest_v) < millivolts(limits.lowest_v):
        _warn(fold, f"{pack.words} flown down to {amounts.voltage(lowest_v)} a cell, less than"
              f" {amounts.voltage(limits.lowest_v)}", flight.place,
              f"{whole if of_one else ''}land earlier, and read each cell at rest", flight.aircraft,
              again=f"{pack.tag} flown low")  # fmt: skip


def _impossible(
    fold: Fold, pack: ItemBuilder, read_v: float, place: Place, about: str | None
) -> None:
    """A voltage that no cell has, with the cell count that it would fit."""
    cells = pack.spec.cells
    series = 1 if cells is None else cells.series
    fits = [count for count in range(1, 15) if 3.0 <= read_v / count <= 4.25]
    hint = "correct the figure"
    if series in fits:
        hint = "that is the whole pack: write the voltage of each cell"
    elif fits:
        hint = f"it fits {amounts.cells(fits[0])}: cell count on the charger, or another pack?"
    _warn(fold, f"{amounts.voltage(read_v)} on {pack.words} of {amounts.cells(series)}"
          f" is more than a cell can have", place, hint, about)  # fmt: skip


def _too_much(
    fold: Fold, pack: ItemBuilder, found_ah: float, of_ah: float, done: str, place: Place,
    about: str | None,
) -> None:  # fmt: skip
    _warn(fold, f"{pack.words} {done} {amounts.charge(found_ah)}, though rated"
          f" {amounts.charge(of_ah)}", place,
          "if so, look at the pack, its cells and the charger before it is charged again; else"
          " correct the figure, or the capacity of the spec", about)  # fmt: skip


def _is_next_to_nothing(pack: ItemBuilder, found_ah: float) -> bool:
    return 0 < found_ah < NEXT_TO_NOTHING_AH and (pack.spec.capacity_ah or 1) > SMALLEST_PACK_AH


def _meant_ah(
    fold: Fold, pack: ItemBuilder, found_ah: float, done: str, place: Place, about: str | None
) -> None:
    thousandfold = f"{found_ah * 1000:g}"
    _warn(fold, f"{pack.words} {done} {thousandfold} mAh", place,
          f"did you mean {thousandfold} Ah?", about)  # fmt: skip


def _listed(packs: Iterable[ItemBuilder]) -> str:
    return amounts.listed(pack.tag for pack in packs)


def _warn(
    fold: Fold, reason: str, place: Place, hint: str, about: str | None, again: str | None = None
) -> None:
    if not fold.sure:
        fold.objections.object(
            reason, place, again=again, severity="warning", hint=hint, about=about
        )
