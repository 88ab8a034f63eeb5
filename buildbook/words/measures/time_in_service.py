"""Totals of a life: how sure each is stands before it."""

from buildbook.basis import amounts
from buildbook.report.state import Counters

_SURE = {"measured": "", "estimate": "about ", "unknown": "at least "}


def least_words(counters: Counters) -> str:
    """The word before a count whose beginning is not known for sure."""
    return _SURE[counters.basis]


def flown_words(counters: Counters) -> str:
    """``at least 4.2 h``; a life before the log without hours makes it so, whatever its basis."""
    least = "at least " if counters.time_at_least else least_words(counters)
    return f"{least}{amounts.hours(counters.duration_s)}"
