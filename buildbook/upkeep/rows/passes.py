"""Passes that their readings don't bear out: one out of line, one that failed and is not read, or
is read as it was.

The keeper wrote a pass, so such a check has not failed, and grounds nothing by that: it stays open
until it is read again, something is done about it, or its entry is sure.
"""

from collections.abc import Iterable, Mapping, Sequence
from statistics import median

from buildbook.basis import amounts
from buildbook.figures.answers.gathering import number
from buildbook.figures.answers.setup.readings import (
    neutral_read,
    starts_apart,
    starts_of,
    starts_read,
)
from buildbook.records.programmes import CheckRule
from buildbook.records.readings import EACH, of_station
from buildbook.records.row_names import RECEIVER_NEUTRAL, START_SPREAD
from buildbook.report.history import Completion
from buildbook.report.state import AircraftNow, Hangar
from buildbook.report.upkeep.findings import NotReadAgain, ReadOtherwise
from buildbook.upkeep.counted.completions import CheckedStation

LEAST_BESIDE = 3
"""So many readings say what is usual; of fewer nobody knows which one is out of line."""

_DONE = (
    "repair",
    "overhaul",
    "setting",
    "fit",
    "firmware",
    "alteration",
    "calibration",
    "move",
    "rewired",
    "cleared defect",
)
"""What may have mended it: then the reading that failed is of what was."""


def not_borne_out(
    hangar: Hangar,
    aircraft: AircraftNow,
    rule: CheckRule,
    spot: CheckedStation,
    done: Sequence[Completion],
    passed: Completion,
) -> ReadOtherwise | NotReadAgain | None:
    """What speaks against a pass. done: all that covers the spot, oldest first."""
    if passed.uid in hangar.sure or passed.by_entry != "check":
        return None
    if rule.check == RECEIVER_NEUTRAL:
        found = _off_neutral(aircraft, passed)
    elif rule.check == START_SPREAD and spot.station is not None:
        found = _starts_apart(aircraft, spot.station, passed)
    else:
        found = None
    before = reversed([one for one in done if one.seq < passed.seq])
    return found or _not_read_again(aircraft, rule, spot, before, passed)


def _off_neutral(aircraft: AircraftNow, passed: Completion) -> ReadOtherwise | None:
    """The channel furthest outside; where all rest elsewhere, that is the neutral of the radio."""
    read = neutral_read(aircraft, passed)
    if read is None:
        return None
    off, middle = read.outside, median(read.found.values())
    if len(read.found) >= LEAST_BESIDE:
        off = tuple(name for name in off if abs(read.found[name] - middle) > read.band)
    if not off:
        return None
    neutral = number(read.neutral)
    worst = max(off, key=lambda name: abs(read.found[name] - neutral))
    return ReadOtherwise(
        of=worst,
        found=passed.readings[worst],
        expected=f"{neutral:g} ± {read.band:g} {read.unit}",
        against="neutral",
    )


def _starts_apart(aircraft: AircraftNow, station: str, passed: Completion) -> ReadOtherwise | None:
    read = starts_read(aircraft)
    starts = {name: value for name, (value, _) in read.items()}
    if len(starts) < LEAST_BESIDE or station not in starts_apart(starts):
        return None
    value, check = read[station]
    if check.uid != passed.uid:
        return None
    return ReadOtherwise(
        of="start",
        found=amounts.share(value),
        expected=amounts.share(median(starts.values())),
        against="others",
    )


def _not_read_again(
    aircraft: AircraftNow,
    rule: CheckRule,
    spot: CheckedStation,
    before: Iterable[Completion],
    passed: Completion,
) -> NotReadAgain | None:
    """A reading that failed, where nothing was done about it and no other was taken since."""
    now = _asked(rule, spot, passed)
    for one in before:
        read = _asked(rule, spot, one) if one.by_entry == "check" else {}
        if not read and one.result == "fail" and passed.readings:
            read = now = dict(one.readings if _same(one.readings, passed.readings) else {})
        if read and one.result == "pass":
            return None
        if read and one.result == "fail":
            if now and not _same(read, now):
                return None
            mended = any(
                one.seq < event.seq <= passed.seq and event.event in _DONE
                for event in aircraft.events
            )
            if mended:
                return None
            starts = starts_of(aircraft, one) if rule.check == START_SPREAD else {}
            if spot.station in starts and not now:
                late = starts_apart(starts) if len(starts) >= LEAST_BESIDE else ()
                if late and spot.station not in late:
                    return None
                # Of motors that start alike nobody knows which it was: one row for all of them.
                read = read if late else dict(one.readings)
            (name, said), *others = sorted(read.items())
            return NotReadAgain(
                of=name, found=said, others=tuple(others), again=bool(now), failed_on=one.on
            )
    return None


def _same(then: Mapping[str, str], now: Mapping[str, str]) -> bool:
    """Whether all that failed is read as it was."""
    return all(
        now.get(name, "").casefold().strip() == said.casefold().strip()
        for name, said in then.items()
    )


def _asked(rule: CheckRule, spot: CheckedStation, done: Completion) -> dict[str, str]:
    """The readings that the check asks for, as far as they are of the spot."""
    readings = dict(done.readings)
    if spot.station is not None:
        readings = of_station(readings, spot.station)
    if EACH in rule.readings:
        return readings
    return {name: said for name, said in readings.items() if name in rule.readings}
