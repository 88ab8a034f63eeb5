"""All dangers of one aircraft, in the order in which they stand here."""

from collections.abc import Collection, Iterator

from buildbook.records.readings import FAILSAFE
from buildbook.report.state import AircraftNow, Hangar
from buildbook.report.upkeep.work import Row
from buildbook.upkeep.dangers.hands import hand_rows, nut_rows, rank_rows, unlike_rows
from buildbook.upkeep.dangers.link_lost import link_lost_rows, memory_rows
from buildbook.upkeep.dangers.low_readings import alarm_rows, range_rows
from buildbook.upkeep.dangers.missing import missing_rows
from buildbook.upkeep.dangers.noticed import wet_rows
from buildbook.upkeep.dangers.ratings import rating_rows


def set_up_dangers(hangar: Hangar, aircraft: AircraftNow, checks: Collection[str]) -> Iterator[Row]:
    """What is wrong with how it is set up, whatever its status. checks: of its programme."""
    yield from wet_rows(aircraft)
    yield from hand_rows(hangar, aircraft)
    yield from rank_rows(hangar, aircraft)
    yield from unlike_rows(hangar, aircraft)
    yield from nut_rows(hangar, aircraft)
    yield from link_lost_rows(aircraft, FAILSAFE in checks)


def dangers_of(hangar: Hangar, aircraft: AircraftNow, checks: Collection[str]) -> Iterator[Row]:
    """All of an aircraft that is flown."""
    yield from missing_rows(aircraft)
    yield from set_up_dangers(hangar, aircraft, checks)
    yield from memory_rows(hangar, aircraft)
    yield from alarm_rows(hangar, aircraft)
    yield from range_rows(aircraft)
    if aircraft.bounds is not None:
        from buildbook.upkeep.dangers.bounds import bounds_rows  # with all figures of the balance

        yield from bounds_rows(hangar, aircraft)
    yield from rating_rows(hangar, aircraft)
