"""The units in which upkeep counts, each declared once: on its field of ``Interval``.

Reading, counting, comparison, forecast, words and the keys of ``left`` are made from the
declaration; a field without one does not import.
"""

from collections.abc import Mapping
from typing import Annotated, Literal, NamedTuple, get_args, get_type_hints

import msgspec

from buildbook.basis import amounts

Counts = Literal["flying", "pack", "event", "calendar"]
"""Who counts: the flights, the charges of a pack, the events of one name, or the calendar."""


class Unit(NamedTuple):
    """One unit of counting.

    noun: one of it, in words. doc, example: of its key. counts: who counts it. counter: the field
    of the running total, or the name of the event. key: as written, where it is not the field.
    ticks: limits are compared in whole ticks; so many are one of what a row shows.
    stored_ticks: so many are one of what the field holds, where that is another size.
    symbol: written for the noun, as in ``10 h``.
    months: length of a calendar unit; 0 is days.
    """

    noun: str
    doc: str
    example: str
    counts: Counts
    counter: str = ""
    key: str = ""
    ticks: int = 1
    stored_ticks: int | None = None
    symbol: str = ""
    months: int = 0
    field: str = ""

    @property
    def plural(self) -> str:
        """Several of it, in words."""
        return amounts.plural(self.noun)

    @property
    def by_calendar(self) -> bool:
        """Whether time itself counts it, flown or not."""
        return self.counts == "calendar"

    @property
    def left_key(self) -> str:
        """The key under which a row says what is left: whatever the calendar counts is in days."""
        return "days" if self.by_calendar else self.key

    @property
    def foreseen(self) -> bool:
        """Whether it comes at a rate, so that it can be due soon and be expected on a day."""
        return self.counts != "event"

    @property
    def divisible(self) -> bool:
        """Whether there is less than one of it."""
        return self.ticks > 1

    def in_ticks(self, stored: float) -> int:
        """Whole ticks of what the field holds."""
        return round(stored * (self.stored_ticks or self.ticks))

    def from_stored(self, stored: float) -> float:
        """What the field holds, in the unit that a row shows."""
        return stored if self.stored_ticks is None else stored * self.stored_ticks / self.ticks

    def shown(self, ticks: int) -> float:
        """Ticks in the unit that a row shows: hours, cycles, a whole number of what is counted."""
        return ticks / self.ticks if self.divisible else ticks

    def said(self, value: float) -> str:
        """An amount as an interval has it: ``25 flights``, ``1 month``, ``10 h``."""
        number = round(value, 2)
        if self.symbol:
            return f"{number:g} {self.symbol}"
        return f"{number:g} {self.noun if number == 1 else self.plural}"


class Interval(msgspec.Struct, frozen=True, kw_only=True):
    """Whichever comes first; what is None does not count. The keys are those of a programme."""

    flights: Annotated[int | None, Unit("flight", "Flights", "50", "flying", "flights")] = None
    duration_s: Annotated[
        float | None,
        Unit(
            "hour",
            "Hours flown",
            "10",
            "flying",
            "duration_s",
            key="hours",
            ticks=3600,
            stored_ticks=1,
            symbol="h",
        ),
    ] = None
    months: Annotated[int | None, Unit("month", "Calendar months", "6", "calendar", months=1)] = (
        None
    )
    days: Annotated[int | None, Unit("day", "Days", "30", "calendar")] = None
    years: Annotated[int | None, Unit("year", "Years", "4", "calendar", months=12)] = None
    cycles: Annotated[
        float | None, Unit("cycle", "Full charge cycles", "50", "pack", "cycles", ticks=1000)
    ] = None
    charges: Annotated[
        int | None, Unit("charge", "Charges, those to storage left out", "20", "pack", "charges")
    ] = None
    flying_days: Annotated[
        int | None, Unit("flying day", "Days with a flight", "3", "flying", "flying_days")
    ] = None
    crashes: Annotated[int | None, Unit("crash", "Crashes", "1", "event", "crash")] = None
    hard_landings: Annotated[
        int | None,
        Unit("hard landing", "Hard landings, without crashes", "3", "event", "hard landing"),
    ] = None


def units_of(declared: type[msgspec.Struct]) -> dict[str, Unit]:
    """By key, the unit of each field, in the order of the fields.

    TypeError: a field that declares none, or one of which nothing would be counted.
    """
    found: dict[str, Unit] = {}
    hints = get_type_hints(declared, include_extras=True)
    for name in declared.__struct_fields__:
        unit = next((one for one in get_args(hints[name]) if isinstance(one, Unit)), None)
        where = f"{declared.__name__}.{name}"
        if unit is None:
            raise TypeError(f"{where} is not a unit of counting: annotate it with Unit(…)")
        if not unit.counter and unit.counts != "calendar":
            raise TypeError(f"{where} names no counter, so it would never be due")
        unit = unit._replace(field=name, key=unit.key or name)
        found[unit.key] = unit
    return found


UNITS: Mapping[str, Unit] = units_of(Interval)
"""Every unit by its key, in the order in which an interval is told."""


_BY_FIELD = {unit.field: unit for unit in UNITS.values()}


def parts(interval: msgspec.Struct) -> dict[str, float]:
    """By key, what an interval (or the counted part of a life limit) holds, as stored."""
    found: dict[str, float] = {}
    for field in interval.__struct_fields__:
        unit = _BY_FIELD.get(field)
        if unit is not None and (value := getattr(interval, field)) is not None:
            found[unit.key] = value
    return found


def shown_parts(interval: msgspec.Struct) -> dict[str, float]:
    """The same in the units that rows show: hours in hours."""
    return {key: UNITS[key].from_stored(value) for key, value in parts(interval).items()}


def amount(unit: str, value: float) -> str:
    """A number and its unit: ``25 flights``, ``1 month``, ``10 h``; a share as ``80 %``."""
    return f"{round(value * 100, 1):g} %" if unit == "share" else UNITS[unit].said(value)
