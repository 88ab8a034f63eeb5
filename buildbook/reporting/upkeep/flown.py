"""Flights flown while something was open; apart from the work list, which starts faster without."""

from buildbook.report.upkeep.flown import MarkedFlight
from buildbook.reporting.whole import Whole
from buildbook.upkeep.warnings.marked_flights import marked_flights as found_of


def marked_flights(whole: Whole, slug: str) -> tuple[MarkedFlight, ...]:
    """By entry, in the order of the log."""
    aircraft = whole.hangar.aircraft[slug]
    return found_of(whole.hangar, whole.past_limits, whole.triggers, whole.programmes, aircraft)
