"""The set-up sheet: the checks one after the other, then the first flights.

They stand in the order of doing, by stages; a step that fails stops those below it. Cautions
stand before the step that they are about.
"""

import datetime
from collections.abc import Iterable, Iterator
from itertools import groupby

import msgspec

from buildbook.pages.addresses import address_of, row_anchor
from buildbook.pages.page import Page, crumbs
from buildbook.report.reports import Reports
from buildbook.report.state import AircraftNow
from buildbook.report.upkeep.set_up import SetUpSpot, SetUpStep
from buildbook.report.upkeep.work import Row
from buildbook.words.names import name_words
from buildbook.words.sheets.set_up import (
    changed_words,
    difference_words,
    expected_at,
    expected_of_step,
    first_flights,
    off_words,
    read_last,
    stage_words,
    state_words,
)


class Spot(msgspec.Struct, frozen=True, kw_only=True):
    """A check at one station, of one item, or on the whole aircraft.

    differs: the last reading is another than can be expected here. difference: how far it was
    from it, in words. last_on, last_uid: of the entry that holds it, where that is not the check.
    """

    where: str
    row: Row
    expected: str
    last: str
    differs: bool = False
    difference: str = ""
    last_on: datetime.date | None = None
    last_uid: str | None = None


class Step(msgspec.Struct, frozen=True, kw_only=True):
    """One check of the sheet, see ``SetUpStep``. said: its state, or how much is left; wanted:
    readings to take, name and words; changes: that the propellers go on or come off, else empty."""

    anchor: str
    number: int
    first: bool
    name: str
    what: str
    state: str
    said: str
    on: datetime.date | None
    propellers_off: bool
    changes: str
    second_person: bool
    expected: str
    wanted: tuple[tuple[str, str], ...]
    spots: tuple[Spot, ...]


class Run(msgspec.Struct, frozen=True, kw_only=True):
    """Steps in a row that are done with the propellers on, or off. off: said above those."""

    off: str
    steps: tuple[Step, ...]


class Stretch(msgspec.Struct, frozen=True, kw_only=True):
    """Steps under one heading."""

    heading: str
    anchor: str
    words: str
    runs: tuple[Run, ...]

    @property
    def steps(self) -> Iterator[Step]:
        """All of its steps."""
        return (step for run in self.runs for step in run.steps)


def keys(reports: Reports) -> Iterable[str]:
    """Each aircraft that a programme has checks for."""
    return tuple(slug for slug in reports.hangar.aircraft if reports.set_up_checks(slug))


def page(reports: Reports, slug: str) -> Page:
    """The set-up sheet of an aircraft."""
    aircraft = reports.hangar.aircraft[slug]
    name = aircraft.record.aircraft
    sheet = reports.set_up(slug)
    return Page(
        address=address_of("set-up", slug),
        template="set_up.html.j2",
        title=f"Set-up sheet of {name}",
        crumbs=crumbs(reports, slug),
        facts={
            "slug": slug,
            "stretches": tuple(stretches(reports, slug)),
            "dropped": sheet.dropped,
            "first_flights": first_flights(
                wings=aircraft.record.kind == "aeroplane", motor=aircraft.record.has_motor
            ),
            "check_flight": sheet.check_flight,
        },
        about=f"The set-up checks of {name} in their order, to tick on paper or screen.",
    )


def stretches(reports: Reports, slug: str) -> Iterator[Stretch]:
    """The stages of setting up that have a step, in words."""
    aircraft = reports.hangar.aircraft[slug]
    for stage in reports.set_up(slug).stages:
        heading, words = stage_words(stage.stage, motor=aircraft.record.has_motor)
        yield Stretch(
            heading=heading,
            anchor=stage.stage.replace(" ", "-"),
            words=words,
            runs=tuple(_runs(aircraft, stage.steps)),
        )


def _runs(aircraft: AircraftNow, steps: Iterable[SetUpStep]) -> Iterator[Run]:
    for off, found in groupby(steps, lambda step: step.propellers_off):
        run = tuple(_step(aircraft, step) for step in found)
        yield Run(off=off_words(run[0].number, run[-1].number) if off else "", steps=run)


def _step(aircraft: AircraftNow, step: SetUpStep) -> Step:
    rule = step.rule
    return Step(
        anchor=row_anchor(step.name),
        number=step.number,
        first=step.first,
        name=name_words(step.name),
        what=rule.what if rule else "",
        state=step.state,
        said=state_words(step),
        on=step.on,
        propellers_off=step.propellers_off,
        changes=changed_words(step),
        second_person=rule is not None and rule.second_person,
        expected=expected_of_step(aircraft, step),
        wanted=tuple((rule.readings if rule else {}).items()),
        spots=tuple(_spot(aircraft, spot) for spot in step.spots),
    )


def _spot(aircraft: AircraftNow, spot: SetUpSpot) -> Spot:
    row, reading = spot.row, spot.reading
    return Spot(
        where=row.station or row.tag or "",
        row=row,
        expected=expected_at(aircraft, spot),
        last=read_last(spot),
        differs=spot.differs,
        difference=difference_words(reading) if reading else "",
        last_on=reading.on if reading else None,
        last_uid=reading.uid if reading else None,
    )
