"""Remarks of late, as the end of the work list tells them."""

from buildbook.basis import amounts
from buildbook.report.upkeep.remarks import Remarked

HEADING = "Remarked of late"
LED = "For you to judge: no rule reads such words."
MOST = 6
_LONGEST = 200


def remark_words(found: Remarked, aircraft: str | None) -> str:
    """``Curlew, 23 May 2026: elevator servo buzzes``; of a store entry its tags go first."""
    about = aircraft or ", ".join(found.tags) or "In the store"
    words = found.words
    if len(words) > _LONGEST:
        words = f"{words[:_LONGEST].rsplit(' ', 1)[0]} …"
    return f"{about}, {amounts.day(found.on)}: {words}"


def more_words(count: int) -> str:
    """``and 3 more in the logs``."""
    return f"and {count} more in the logs"
