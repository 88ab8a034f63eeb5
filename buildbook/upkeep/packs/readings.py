"""What the readings of a pack ask for: rows, and notes that are only a mark on its page.

A row is closed by a better reading, or by a passed look of its name, or ``pack-look``, after it.
A pack that is set aside has none of them: it is not to be charged to see whether it still works.
The page also marks what cannot be compared, and conditions that are not recorded.
"""

from collections.abc import Collection, Iterable, Iterator, Sequence

from buildbook.hangar.packs.doubts import MOST_USED
from buildbook.hangar.packs.limits import (
    FELL_ROW_MV,
    SPREAD_MARK_MV,
    SPREAD_ROW_MV,
    limits_of,
    millivolts,
)
from buildbook.records.row_names import (
    CELL_VOLTAGES,
    CHARGED_WRONGLY,
    FALLING_CELL,
    FLOWN_LOW,
    INTO_RESERVE,
    LOW_CELLS,
    PACK_LOOK,
    READ_AT_REST,
    SAID_SWOLLEN,
    USED_TOO_MUCH,
)
from buildbook.report.history import CapacityDone, ChargeDone, FlightDone, Recorded
from buildbook.report.packs.like_conditions import (
    Conditions,
    like_capacities,
    like_resistances,
    of_capacity,
    of_charges,
    resistances,
)
from buildbook.report.packs.pack_history import RestReading
from buildbook.report.state import ItemNow
from buildbook.report.upkeep.pack_findings import (
    AtCutOff,
    CannotCompare,
    CellFell,
    CellLow,
    CellsApart,
    NotFull,
    NotJudged,
    ToldSwollen,
    UsedShare,
)
from buildbook.report.upkeep.work import Reason, Row
from buildbook.upkeep.packs.pack_rows import charged_wrongly, found_note, found_row
from buildbook.upkeep.packs.reserve import Judged, capacity_then_ah

USED_NOTED = 0.80
"""Of the last measured capacity, else of the rated; counters err. Common practice, no source."""


def reading_rows(pack: ItemNow, into: Judged, timed: Collection[str]) -> Iterator[Row]:
    """A row for each reading that asks for something. into: its flights into the reserve.

    timed: the entries, by uid, of which the time is known.
    """
    if pack.state.state != "serviceable":
        return
    flown = (*_flown_low(pack), *_flown(pack))
    reserve = _into_reserve(pack, into, {row.because.entry for row in flown if row.because})
    for row in (*_told(pack), *_at_rest(pack), *flown, *reserve, *charged_wrongly(pack)):
        if not _looked_at(pack, row, timed):
            yield row


def reading_notes(pack: ItemNow, rows: Iterable[Row], into: Judged) -> tuple[Reason, ...]:
    """What is worth a mark, and what cannot be judged. rows: those that the pack has anyway."""
    told = {row.because.entry for row in rows if row.because}
    reached, low = into.reached, at_cut_off(pack)
    return (
        *_spread_noted(pack),
        *(found_note(pack, *one) for one in reached[-1:] if one[0].uid not in told),
        *(found_note(pack, *one) for one in (low,) if one and one[0].uid not in told),
        *_flight_noted(pack, reached[-1][0].uid if reached else None),
        *_not_judged(pack),
        *unlike_notes(pack),
    )


def _looked_at(pack: ItemNow, row: Row, timed: Collection[str]) -> bool:
    seen = next(
        (
            one
            for one in (*pack.told, *pack.rests, *pack.flights, *pack.charges)
            if row.because is not None and one.uid == row.because.entry
        ),
        None,
    )
    return any(
        (seen is None or (look.seq > seen.seq and not _may_be_before(pack, look, seen, row, timed)))
        and look.result == "pass"
        and look.name in (row.name, PACK_LOOK)
        for look in pack.inspections
        if not look.tags or pack.tag in look.tags
    )


def _may_be_before(
    pack: ItemNow, look: Recorded, seen: Recorded, row: Row, timed: Collection[str]
) -> bool:
    """Whether nobody can say that it was looked at after a flight of its day: of two logs without
    times, and not below a charge that came after it. What the next good landing closes as well is
    left alone."""
    if row.name not in _ASK_A_LOOK or look.on != seen.on or look.place.file == seen.place.file:
        return False
    charged = any(
        seen.seq < one.seq < look.seq and one.place.file == look.place.file and not one.between
        for one in pack.charges
    )
    return not charged and not (look.uid in timed and seen.uid in timed)


_ASK_A_LOOK = (FLOWN_LOW, CHARGED_WRONGLY)


def _told(pack: ItemNow) -> Iterator[Row]:
    """The last words that tell of swelling, unless the keeper wrote since why it stays in use."""
    told = pack.told[-1] if pack.told else None
    if told is not None and not any(one.seq > told.seq for one in pack.kept):
        yield found_row(pack, SAID_SWOLLEN, told, ToldSwollen(words=told.words))


def _at_rest(pack: ItemNow) -> Iterator[Row]:
    low, apart, fell = low_at_rest(pack), apart_at_rest(pack), fell_at_rest(pack)
    if low is not None:
        yield found_row(pack, LOW_CELLS, pack.rests[-1], low)
    if apart is not None:
        yield found_row(pack, CELL_VOLTAGES, _spreads(pack)[-1], apart)
    if fell is not None:
        yield found_row(pack, FALLING_CELL, pack.rests[-1], fell)


def low_at_rest(pack: ItemNow) -> CellLow | None:
    """The lowest cell of the last reading at rest, where it is under its limit."""
    limits = limits_of(pack.spec)
    if not pack.rests or limits is None or limits.rest_row_v is None:
        return None
    lowest = millivolts(min(pack.rests[-1].cells_v))
    if lowest >= millivolts(limits.rest_row_v):
        return None
    return CellLow(when="at rest", cell_v=lowest / 1000, least_v=limits.rest_row_v)


def apart_at_rest(pack: ItemNow) -> CellsApart | None:
    """Cells of the last reading far apart, or of two running a little."""
    spread = _spreads(pack)
    if not spread:
        return None
    found_mv, far = _spread(spread[-1]), _spread(spread[-1]) > SPREAD_ROW_MV
    if not far and (len(spread) < 2 or min(map(_spread, spread[-2:])) <= SPREAD_MARK_MV):
        return None
    most = SPREAD_ROW_MV if far else SPREAD_MARK_MV
    return CellsApart(spread_v=found_mv / 1000, most_v=most / 1000, twice=not far)


def fell_at_rest(pack: ItemNow) -> CellFell | None:
    """The cell that fell more than the others before the last reading."""
    last = pack.rests[-1] if pack.rests else None
    if last is None or last.fell_mv is None or last.fell_mv < FELL_ROW_MV:
        return None
    return CellFell(cell=last.fell_cell or 0, fell_v=last.fell_mv / 1000, most_v=FELL_ROW_MV / 1000)


def at_cut_off(pack: ItemNow) -> tuple[FlightDone, AtCutOff] | None:
    """The last flight whose lowest volts are known, where it came down to the cut-off of the pack.

    That is what its spec says, or below what its chemistry may have in flight.
    """
    cut_off_v = pack.spec.cutoff_cell_voltage_v
    for flight in reversed(pack.flights):
        lowest_v = None if flight.volts is None else cell_v(pack, flight.volts.lowest_v, flight)
        if lowest_v is not None:
            if cut_off_v is None or millivolts(lowest_v) > millivolts(cut_off_v):
                below = lowest_below(pack, flight)
                cut_off_v = None if below is None else below[1]
            if cut_off_v is None:
                return None
            return flight, AtCutOff(cell_v=lowest_v, cut_off_v=cut_off_v, on=flight.on)
    return None


def _spreads(pack: ItemNow) -> list[RestReading]:
    return [reading for reading in pack.rests if reading.spread_mv is not None]


def _spread(reading: RestReading) -> int:
    return reading.spread_mv or 0


def _spread_noted(pack: ItemNow) -> Iterator[Reason]:
    spread = _spreads(pack)
    if not spread or not SPREAD_MARK_MV < _spread(spread[-1]) <= SPREAD_ROW_MV:
        return
    if len(spread) > 1 and _spread(spread[-2]) > SPREAD_MARK_MV:
        return  # a row says it
    apart = CellsApart(spread_v=_spread(spread[-1]) / 1000, most_v=SPREAD_MARK_MV / 1000)
    yield found_note(pack, spread[-1], apart)


def cell_v(pack: ItemNow, volts: float | None, flight: FlightDone) -> float | None:
    """Volts a cell of a reading in flight; None where it is of several packs or not recorded."""
    cells = pack.spec.cells
    if volts is None or cells is None or len(flight.row.packs) != 1:
        return None
    return volts / cells.series


def lowest_below(pack: ItemNow, flight: FlightDone) -> tuple[float, float] | None:
    """The lowest volts a cell of a flight, and the limit that they are below."""
    limits = None if flight.volts is None else limits_of(pack.spec)
    if limits is None or limits.lowest_v is None or flight.volts is None:
        return None
    found_v = cell_v(pack, flight.volts.lowest_v, flight)
    if found_v is None or millivolts(found_v) >= millivolts(limits.lowest_v):
        return None
    return found_v, limits.lowest_v


def used_share(pack: ItemNow, flight: FlightDone) -> float | None:
    """What a flight used of the capacity last measured before it, else of the rated one."""
    if flight.row.used_ah is None or not flight.row.packs:
        return None
    capacity_ah = capacity_then_ah(pack, flight)
    if not capacity_ah:
        return None
    return flight.row.used_ah / len(flight.row.packs) / capacity_ah


def _flown_low(pack: ItemNow) -> Iterator[Row]:
    """The last flight that took a cell too low: open until somebody looked at the pack since."""
    for flight in reversed(pack.flights):
        below = lowest_below(pack, flight)
        if below is not None:
            low = CellLow(when="in flight", cell_v=below[0], least_v=below[1])
            yield found_row(pack, FLOWN_LOW, flight, low)
            return


def _into_reserve(pack: ItemNow, into: Judged, told: Collection[str | None]) -> Iterator[Row]:
    """The last flight that went into the reserve, while nobody read the pack since.

    Open as ``Judged`` says, until the cells are read. told: entries that a row is about already.
    """
    last = into.open
    if last is None or last[0].uid in told:
        return
    flight, found = last
    series = pack.spec.cells.series if pack.spec.cells else 1
    read = [one for one in pack.rests if len(one.cells_v) >= series]
    if not any(one.seq > flight.seq for one in (*read, *pack.capacities)):
        yield found_row(pack, INTO_RESERVE, flight, found)


def _flown(pack: ItemNow) -> Iterator[Row]:
    since = pack.rests[-1].seq if pack.rests else -1
    flights = [flight for flight in pack.flights if flight.seq >= since]
    if not flights:
        return
    last = flights[-1]
    below = lowest_below(pack, last)
    share = used_share(pack, last)
    if share is not None and round(share, 6) > MOST_USED:
        yield found_row(pack, USED_TOO_MUCH, last, UsedShare(share=share, most_share=MOST_USED))
    limits = limits_of(pack.spec)
    after_v = cell_v(pack, last.volts.after_v if last.volts else None, last)
    if after_v is None or limits is None or limits.rest_row_v is None or below is not None:
        return
    if millivolts(after_v) < millivolts(limits.rest_row_v):
        yield found_row(
            pack, READ_AT_REST, last, CellLow(when="right after a flight", cell_v=after_v)
        )


def _flight_noted(pack: ItemNow, told: str | None) -> Iterator[Reason]:
    """Of the last flight. told: the entry of which a row or note says already what it used."""
    if not pack.flights:
        return
    last = pack.flights[-1]
    share = used_share(pack, last) if last.uid != told else None
    if share is not None and USED_NOTED < round(share, 6) <= MOST_USED:
        yield found_note(pack, last, UsedShare(share=share))
    limits = limits_of(pack.spec)
    before_v = cell_v(pack, last.volts.before_v if last.volts else None, last)
    if before_v is None or limits is None or limits.full_v is None:
        return
    charged = [one for one in pack.charges if one.seq < last.seq and one.on == last.on]
    flown = [one for one in pack.flights if charged and charged[-1].seq < one.seq < last.seq]
    if (
        charged
        and charged[-1].to == "full"
        and not flown
        and millivolts(before_v) < millivolts(limits.full_v)
    ):
        yield found_note(pack, last, NotFull(cell_v=before_v))


def _not_judged(pack: ItemNow) -> Iterator[Reason]:
    read: Iterable[Recorded] = (
        *pack.rests,
        *(flight for flight in pack.flights if flight.volts is not None),
    )
    last = max(read, key=lambda one: one.seq, default=None)
    if last is not None and limits_of(pack.spec) is None:
        yield found_note(pack, last, NotJudged(lacks="chemistry"))


Unlike = tuple[CapacityDone | ChargeDone, tuple[str, ...]]


def unlike_notes(pack: ItemNow) -> Iterator[Reason]:
    """One for the last capacity and resistance that stand apart; one for what is taken as like."""
    capacities: list[Unlike] = [*like_capacities(pack).unlike]
    charges: list[Unlike] = [(one, differs) for (_, one), differs in like_resistances(pack).unlike]
    for of, unlike in (("capacity", capacities), ("resistance", charges)):
        if unlike:
            reading, differs = unlike[-1]
            found = CannotCompare(of=of, differs=differs, on=reading.on)
            yield found_note(pack, reading, found)
    yield from _taken_as_like(pack)


def _taken_as_like(pack: ItemNow) -> Iterator[Reason]:
    """Said once, where two readings are compared of which one has a condition and one not."""
    charges = [one for _, one in resistances(pack)]
    read: tuple[tuple[str, Sequence[CapacityDone | ChargeDone], list[Conditions]], ...] = (
        ("capacity", pack.capacities, [of_capacity(pack, one) for one in pack.capacities]),
        (
            "resistance",
            charges,
            [*map(of_charges(pack), charges)],
        ),
    )
    for of, done, conditions in read:
        if len(done) > 1 and any(_unrecorded(of, one) for one in conditions):
            yield found_note(pack, done[-1], CannotCompare(of=of))


def _unrecorded(of: str, conditions: Conditions) -> bool:
    known = conditions[:1] if of == "resistance" else conditions
    return None in known
