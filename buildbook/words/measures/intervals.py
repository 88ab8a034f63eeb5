"""Intervals, limits and totals of a life in words: how sure a total is stands before it."""

from buildbook.basis import amounts
from buildbook.basis.amounts import listed
from buildbook.basis.counting import Interval, amount, shown_parts
from buildbook.records.programmes import Follows, LimitRule, limit_parts
from buildbook.report.state import Counters
from buildbook.report.stock import PastLives


def interval_words(interval: Interval) -> str | None:
    """``50 flights, 10 h or 6 months``; None where nothing counts."""
    return _joined([amount(unit, value) for unit, value in shown_parts(interval).items()])


def follow_words(follows: Follows) -> str:
    """``3 flights after fit motor``."""
    after = listed([str(trigger) for trigger in follows.after], "or")
    return f"{amount('flights', follows.flights)} after {after}"


def limit_words(rule: LimitRule) -> str | None:
    """``300 cycles, 4 years, capacity 80 % or cell resistance 200 %``."""
    said = [
        f"{unit.replace('_', ' ')} {amount('share', value)}"
        if unit in ("capacity", "cell_resistance")
        else amount(unit, value)
        for unit, value in limit_parts(rule).items()
    ]
    return _joined(said)


def _joined(said: list[str]) -> str | None:
    if len(said) < 2:
        return said[0] if said else None
    return f"{', '.join(said[:-1])} or {said[-1]}"


_SURE = {"measured": "", "estimate": "about ", "unknown": "at least "}


def least_words(counters: Counters) -> str:
    """The word before a count whose beginning is not known for sure."""
    return _SURE[counters.basis]


def flights_words(counters: Counters) -> str:
    """``about 102``, ``at least 1``, ``not known``."""
    if not counters.flights and counters.basis == "unknown":
        return "not known"
    return f"{least_words(counters)}{counters.flights}"


def flown_words(counters: Counters) -> str:
    """``at least 4.2 h``; a life before the log without hours makes it so, whatever its basis.

    ``at most 6.5 h`` of a motor, where flights count whole that do not say how long it ran; of one
    of unknown history they count nothing.
    """
    if counters.time_at_least:
        least_s = counters.duration_s - counters.untold_s
        return f"at least {amounts.hours(least_s)}" if least_s > 0 else "not known"
    most = "at most " if counters.time_at_most else ""
    return f"{most}{least_words(counters)}{amounts.hours(counters.duration_s)}"


def lasted_words(life: PastLives, seconds: float) -> str:
    """How long a part lasted that is gone: ``at least 3.2 h``, ``not flown``, ``not known``."""
    if not seconds:
        return "not known" if life.at_least else "not flown"
    return f"{sure_words(at_least=life.at_least, at_most=life.at_most)}{amounts.hours(seconds)}"


def sure_words(*, at_least: bool, at_most: bool) -> str:
    """The word before a time among several lives: of some more was flown, of some perhaps less."""
    if at_least and at_most:
        return "about "
    return "at least " if at_least else "at most " if at_most else ""
