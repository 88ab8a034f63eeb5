"""The demo hangar is kept as its programmes ask: newcomers copy what they see."""

import datetime
from functools import cache

from buildbook.hangar.fold import fold
from buildbook.pages.shipped import shipped
from buildbook.records.reading.read import read_hangar
from buildbook.report.state import Hangar
from buildbook.upkeep.work_list import work_list
from buildbook.words.measures.days import EXACT
from buildbook.words.reasons import reason_words

DAY = datetime.timedelta(days=1)


def grounding(hangar: Hangar) -> dict[str, set[str]]:
    """What grounds each aircraft."""
    return {
        standing.slug: {
            reason_words(reason, EXACT) for reason in standing.reasons if reason.grounding
        }
        for standing in work_list(hangar).aircraft
    }


def test_no_aircraft_of_the_demo_flew_while_it_was_grounded() -> None:
    """Nothing that grounded it on the eve still did so at the end of a day on which it flew."""
    ledger = read_hangar(shipped("content"), None).ledger
    assert ledger is not None
    last = fold(ledger, ledger.keeper.as_of or datetime.date.max)
    flown = {
        (flight.on, slug) for slug, aircraft in last.aircraft.items() for flight in aircraft.flights
    }

    assert len(flown) > 100
    grounds = cache(lambda day: grounding(fold(ledger, day)))
    eves = {(on, slug): eve for on, slug in flown if (eve := grounds(on - DAY).get(slug))}
    assert [] == [
        (str(on), slug, sorted(both))
        for (on, slug), eve in sorted(eves.items())
        if (both := eve & grounds(on).get(slug, set()))
    ]


def test_dangers_were_found_and_mended_in_the_demo() -> None:
    """Failed checks of each of these names are there, and a pass of the same name came later."""
    ledger = read_hangar(shipped("content"), None).ledger
    assert ledger is not None
    last = fold(ledger, ledger.keeper.as_of or datetime.date.max)
    checks = [
        (check.name, check.result, check.on)
        for aircraft in last.aircraft.values()
        for check in aircraft.checks
    ]
    failed = {(name, on) for name, result, on in checks if result == "fail"}
    mended = {
        name
        for name, on in failed
        if any(other == name and result == "pass" and at >= on for other, result, at in checks)
    }

    assert {"propeller-fit", "failsafe", "range", "spin-directions"} <= mended
