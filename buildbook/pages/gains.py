"""Gain sets side by side: what differs, what was flown on each, what was thought of it."""

import datetime
from collections.abc import Iterable, Iterator, Mapping

import msgspec
from markupsafe import Markup

from buildbook.basis import amounts
from buildbook.drawings.bars import gain_bars
from buildbook.pages.addresses import address_of
from buildbook.pages.page import Page
from buildbook.report.figure import Answers, Figure
from buildbook.report.history import FlightDone, GainSet, GainsVerdict
from buildbook.report.plans import GainPlan
from buildbook.report.reports import Reports
from buildbook.report.state import AircraftNow
from buildbook.words.figures import cell_words, column_words

BELONGS = "These gains belong to this aircraft and its controller; check yours."
"""Said wherever a gain set is shown."""

Values = Mapping[str, Mapping[str, float]]


class Cell(msgspec.Struct, frozen=True, kw_only=True):
    """A value of a set; change: against the set it is compared with, None where that lacks it."""

    value: str
    change: str = ""
    up: bool = False
    same: bool = False


class Term(msgspec.Struct, frozen=True, kw_only=True):
    """One axis and term across all sets; a set without it has an empty cell."""

    axis: str
    term: str
    cells: tuple[Cell | None, ...]


class Period(msgspec.Struct, frozen=True, kw_only=True):
    """A time in which a set was in force."""

    since: datetime.date
    uid: str
    until: datetime.date | None
    because: str | None


class Changes(msgspec.Struct, frozen=True, kw_only=True):
    """The set in force against another, term by term. words: which set that is, what differs."""

    against: str
    words: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


class SetShown(msgspec.Struct, frozen=True, kw_only=True):
    """A gain set and what became of it. against: the set that its differences are told against."""

    gains: GainSet
    against: str | None
    in_force: bool
    periods: tuple[Period, ...]
    flights: int
    duration_s: float
    first: FlightDone | None
    last: FlightDone | None
    used: Figure | None
    verdicts: tuple[GainsVerdict, ...]


def keys(reports: Reports) -> Iterable[str]:
    """Each aircraft that has a gain set."""
    return tuple(slug for slug, found in reports.hangar.aircraft.items() if found.gain_sets)


def page(reports: Reports, slug: str) -> Page:
    """The gain sets of an aircraft."""
    aircraft = reports.hangar.aircraft[slug]
    name = aircraft.record.aircraft
    answers = reports.figures_of_aircraft(slug)
    shown = tuple(_set(reports, slug, gains) for gains in aircraft.gain_sets.values())
    return Page(
        address=address_of("gains", slug),
        template="gains.html.j2",
        title=f"Gains of {name}",
        crumbs=(
            (address_of("hangar"), reports.hangar.ledger.keeper.hangar),
            (address_of("aircraft", slug), name),
        ),
        facts={
            "slug": slug,
            "sets": shown,
            "terms": tuple(terms(aircraft)),
            "in_force": aircraft.gains,
            "bars": bars(aircraft),
            "changes": tuple(_changes(answers)),
            "belongs": BELONGS,
        },
        about=f"The gain sets of {name} side by side, and what was flown on each.",
    )


def _changes(answers: Answers) -> Iterator[Changes]:
    for figure in answers.figures:
        if figure.name == "gain_changes" and figure.table is not None:
            columns = figure.table.columns
            yield Changes(
                against=figure.of or "",
                words=figure.verdict or "",
                columns=tuple(map(column_words, columns)),
                rows=tuple(
                    tuple(map(cell_words, columns, row))  # each cell by the name of its column
                    for row in figure.table.rows
                ),
            )


def compared_with(aircraft: AircraftNow) -> Mapping[str, str | None]:
    """Which set each one is told against: the one it was made from, else the one before it."""
    found: dict[str, str | None] = {}
    before = None
    for name, gains in aircraft.gain_sets.items():
        found[name] = gains.base if gains.base in aircraft.gain_sets else before
        before = name
    return found


def bars(aircraft: AircraftNow, name: str | None = None, prefix: str = "gains") -> Markup | None:
    """A set drawn as bars beside the one it is told against; without a name, the one in force."""
    gains = aircraft.gain_sets.get(name or aircraft.gains or "")
    if gains is None:
        return None
    against = compared_with(aircraft)[gains.name]
    before = aircraft.gain_sets[against].values if against else None
    return gain_bars(
        GainPlan(
            name=gains.name,
            values=_copied(gains.values),
            before_name=against or "",
            before=_copied(before) if before is not None else None,
        ),
        prefix,
    )


def terms(aircraft: AircraftNow) -> Iterator[Term]:
    """Every axis and term that a set has, in the order of writing, with the differences."""
    sets = aircraft.gain_sets
    against = compared_with(aircraft)
    pairs = dict.fromkeys(
        (axis, term)
        for gains in sets.values()
        for axis, found in gains.values.items()
        for term in found
    )
    axes = list(dict.fromkeys(axis for axis, _ in pairs))
    for axis, term in sorted(pairs, key=lambda pair: axes.index(pair[0])):
        yield Term(
            axis=axis,
            term=term,
            cells=tuple(
                _cell(
                    _at(gains.values, axis, term),
                    _at(sets[other].values, axis, term) if (other := against[name]) else None,
                )
                for name, gains in sets.items()
            ),
        )


def _at(values: Values, axis: str, term: str) -> float | None:
    return values.get(axis, {}).get(term)


def _cell(value: float | None, before: float | None) -> Cell | None:
    if value is None:
        return None
    said = amounts.trimmed(value, 4)
    if before is None:
        return Cell(value=said)
    change = value - before
    if change == 0:
        return Cell(value=said, same=True)
    words = f"{amounts.trimmed(abs(change), 4)} {'more' if change > 0 else 'less'}"
    return Cell(value=said, change=words, up=change > 0)


def _copied(values: Values) -> dict[str, dict[str, float]]:
    return {axis: dict(found) for axis, found in values.items()}


def _set(reports: Reports, slug: str, gains: GainSet) -> SetShown:
    aircraft = reports.hangar.aircraft[slug]
    flights = [flight for flight in aircraft.flights if flight.gains == gains.name]
    return SetShown(
        gains=gains,
        against=compared_with(aircraft)[gains.name],
        in_force=gains.name == aircraft.gains,
        periods=tuple(
            Period(since=found.on, uid=found.uid, until=found.until, because=found.because)
            for found in aircraft.gain_periods
            if found.name == gains.name
        ),
        flights=len(flights),
        duration_s=sum(flight.duration_s for flight in flights),
        first=flights[0] if flights else None,
        last=flights[-1] if flights else None,
        used=reports.figures_of_aircraft(slug).find("flown_current", f"gains {gains.name}"),
        verdicts=tuple(found for found in aircraft.gain_verdicts if found.name == gains.name),
    )
