"""Flown while something that grounds was open, stored, or without a part: one warning a stretch.

What was open during the very same flights is one warning; it says when that was closed.
"""

import datetime
from collections.abc import Iterable, Iterator, Sequence

from buildbook.basis import amounts
from buildbook.basis.problems import TOLD_DAYS, Problem
from buildbook.records.row_names import CHECK_FLIGHT
from buildbook.report.state import Hangar
from buildbook.report.upkeep.flown import Meanwhile
from buildbook.upkeep.counted.completions import checks_of
from buildbook.upkeep.dangers.stretches import Stretch
from buildbook.upkeep.dangers.task_stretches import all_stretches_of
from buildbook.upkeep.programme import Programmes
from buildbook.upkeep.rows.triggers import Triggers


def flown_while(hangar: Hangar, triggers: Triggers, each: bool = False) -> Iterator[Problem]:
    """A warning for each that ended of late, and one that counts the others.

    What is closed again, and flown by a keeper who was sure, is not told. each: a warning for every
    one, however long ago.
    """
    since = hangar.as_of - datetime.timedelta(days=TOLD_DAYS)
    if each:
        since = datetime.date.min
    found = _together(hangar, triggers)
    late = [alike for alike in found if _last(alike) >= since]
    yield from (_problem(hangar, one) for one in late if each or not _answered(hangar, one))
    yield from _never_checked(hangar, since)
    earlier = [alike for alike in found if _last(alike) < since]
    if earlier:
        times = "once" if len(earlier) == 1 else f"{len(earlier)} times"
        yield Problem(
            f"{times} before {since} it was flown while something that grounds was open",
            earlier[-1][0].flights[0].place,
            "warning",
            "check --all lists them",
        )


def flown_while_earlier(hangar: Hangar, triggers: Triggers) -> tuple[Problem, ...]:
    """A warning for each that ``flown_while`` only counts."""
    since = hangar.as_of - datetime.timedelta(days=TOLD_DAYS)
    found = _together(hangar, triggers)
    return tuple(
        _problem(hangar, alike)
        for alike in found
        if _last(alike) < since or _answered(hangar, alike)
    )


def _together(hangar: Hangar, triggers: Triggers) -> list[list[Stretch]]:
    """By aircraft; those that are about the same flights and the same kind of thing together."""
    programmes = Programmes(hangar.ledger.programmes, hangar.as_of)
    found: dict[tuple[object, ...], list[Stretch]] = {}
    for slug in sorted(hangar.aircraft):
        aircraft = hangar.aircraft[slug]
        programme = programmes.named(aircraft.programme)
        for one in all_stretches_of(hangar, triggers, aircraft, programme):
            first, last = one.flights[0], one.flights[-1]
            kind = "open" if one.what.kind in ("check", "look") else one.what.kind
            key = (slug, kind, first.seq, first.row_index, last.seq, len(one.flights))
            found.setdefault(key, []).append(one)
    return list(found.values())


def _answered(hangar: Hangar, alike: Sequence[Stretch]) -> bool:
    """Whether it is closed, and the keeper was sure of each of its flights."""
    return all(one.closed_on is not None for one in alike) and all(
        flight.uid in hangar.sure for flight in alike[0].flights
    )


def _last(alike: Sequence[Stretch]) -> datetime.date:
    return alike[0].flights[-1].on


def _problem(hangar: Hangar, alike: Sequence[Stretch]) -> Problem:
    one = alike[0]
    first, last = one.flights[0], one.flights[-1]
    times = amounts.count("time", len(one.flights))
    when = f"on {first.on}" if first.on == last.on else f"{first.on} to {last.on}"
    stations = hangar.aircraft[one.aircraft].motor_stations
    return Problem(
        f"{one.aircraft} flown {times} while {_open(alike, stations)}, {when}",
        first.place,
        "warning",
        _closed(alike, stations),
        (),
        one.aircraft,
        of_standing=True,
    )


def _never_checked(hangar: Hangar, since: datetime.date) -> Iterator[Problem]:
    """Flown, while of all that grounds it until it was checked nothing was written: one warning.

    From its first check on the stretches tell what was open.
    """
    programmes = Programmes(hangar.ledger.programmes, hangar.as_of)
    for slug, aircraft in sorted(hangar.aircraft.items()):
        programme = programmes.named(aircraft.programme)
        if programme is None or aircraft.status != "flying" or not aircraft.flights:
            continue
        asked = {one.rule.check for one in programme.checks if one.rule.grounds} - {CHECK_FLIGHT}
        if not asked or asked & {*checks_of(aircraft)} or aircraft.flights[-1].on < since:
            continue
        times = amounts.count("time", len(aircraft.flights))
        yield Problem(
            f"{slug} flown {times}, and no check of it is written",
            aircraft.flights[0].place,
            "warning",
            "it is grounded until its checks are done: buildbook due lists them",
            (),
            slug,
            once=f"{slug} flown, and no check of it is written",
            of_standing=True,
        )


def _open(alike: Sequence[Stretch], stations: Sequence[str]) -> str:
    """``failsafe and range were open``, ``missing a part``, ``stored``."""
    what = alike[0].what
    if what.kind == "missing part":
        return "missing a part"
    if what.kind == "status":
        return what.name
    names = _names((one.what for one in alike), stations)
    return f"{amounts.listed(names)} {'was' if len(names) == 1 else 'were'} open"


def _names(what: Iterable[Meanwhile], stations: Sequence[str]) -> list[str]:
    """Each check and look once, with the stations or items where not all of them were open."""
    found: dict[str, list[str]] = {}
    for one in what:
        found.setdefault(one.name, []).extend([one.of] if one.of else [])
    return [
        f"{name} of {', '.join(of)}" if of and set(of) != set(stations) else name
        for name, of in found.items()
    ]


def _closed(alike: Sequence[Stretch], stations: Sequence[str]) -> str | None:
    """When it was passed, or what still is not."""
    if alike[0].what.kind not in ("check", "look"):
        return None
    still = [one.what for one in alike if one.closed_on is None]
    if still:
        return f"not passed since: {amounts.listed(_names(still, stations))}"
    days = [one.closed_on for one in alike if one.closed_on is not None]
    return f"passed or cleared on {days[0]}" if len(set(days)) == 1 else f"all by {max(days)}"
