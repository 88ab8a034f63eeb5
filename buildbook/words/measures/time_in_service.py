"""Totals of a life: how sure each is stands before it."""

from buildbook.basis import amounts
from buildbook.report.state import Counters
from buildbook.report.stock import PastLives

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
    """``at least 4.2 h``; a life before the log without hours makes it so, whatever its basis."""
    if not counters.duration_s and counters.time_at_least:
        return "not known"
    least = "at least " if counters.time_at_least else least_words(counters)
    return f"{least}{amounts.hours(counters.duration_s)}"


def lasted_words(life: PastLives, seconds: float) -> str:
    """How long a part lasted that is gone: ``at least 3.2 h``, ``not flown``, ``not known``."""
    if not seconds:
        return "not known" if life.at_least else "not flown"
    return f"{'at least ' if life.at_least else ''}{amounts.hours(seconds)}"
