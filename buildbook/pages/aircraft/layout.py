"""Layout and wiring of an aircraft: drawings to scale, the same facts as tables, what is wrong."""

import msgspec

from buildbook.basis.place import Place
from buildbook.drawings.balance import balance_drawing, balance_table
from buildbook.drawings.layout.layout import layout_drawing, layout_table
from buildbook.drawings.layout.layout_faults import layout_faults
from buildbook.drawings.wiring.wiring import drawn_wiring, wiring_drawing, wiring_table
from buildbook.pages.addresses import address_of
from buildbook.pages.page import Page, crumbs
from buildbook.records.entries import Alteration
from buildbook.report.drawn.plans import Table
from buildbook.report.figure import Answers, Figure
from buildbook.report.history import LogLine
from buildbook.report.reports import Reports
from buildbook.report.state import AircraftNow
from buildbook.words.surfaces import THROWS, surface_rows
from buildbook.words.upkeep.packs import counted_words

_KEYS = frozenset(("stations", "receiver", "wiring", "positions", "sundries"))
_BESIDE = ("rotation_balance", "allocation", "rotor_loss")
_MATRIX = "matrix"  # of the allocation: numbers for the figures page


class Change(msgspec.Struct, frozen=True, kw_only=True):
    """An alteration of layout or wiring."""

    line: LogLine
    entry: Alteration


def page(reports: Reports, slug: str) -> Page:
    """Layout and wiring of one aircraft."""
    aircraft = reports.hangar.aircraft[slug]
    answers = reports.figures_of_aircraft(slug)
    plan = reports.layout(slug)
    wiring = reports.wiring(slug)
    balance = reports.balance(slug)
    return Page(
        address=address_of("layout", slug),
        template="layout.html.j2",
        title=f"{aircraft.record.aircraft}: layout and wiring",
        crumbs=crumbs(reports, slug),
        facts={
            "slug": slug,
            "aircraft": aircraft,
            "drawing": layout_drawing(plan) if plan else None,
            "table": without_empty_columns(layout_table(plan)) if plan else None,
            "faults": layout_faults(plan) if plan else (),
            "unchecked": () if reports.is_public else reports.spin_jobs(slug),
            "beside": _beside(answers),
            "surfaces": surface_rows(aircraft.surfaces),
            "throws": THROWS,
            "wiring": wiring_drawing(drawn_wiring(wiring)) if wiring else None,
            "wiring_table": without_empty_columns(wiring_table(wiring)) if wiring else None,
            "wiring_sockets": bool(wiring and (wiring.sockets or not wiring.controlled)),
            "load_point": wiring.load_point if wiring else None,
            "balance": balance_drawing(balance.drawn) if balance else None,
            "balance_table": balance_table(balance.told) if balance else None,
            "balance_pack": counted_words(balance.pack) if balance else "",
            "without_place": balance.without_place if balance else 0,
            "layout_places": _places(aircraft, "stations"),
            "wiring_places": _places(aircraft, "wiring", "receiver"),
            "changes": _changes(aircraft),
        },
        about=f"Layout, spin directions, outputs and wiring of {aircraft.record.aircraft}.",
    )


def without_empty_columns(table: Table) -> Table:
    """The same table without columns in which nothing stands."""
    columns, rows = table
    kept = [place for place in range(len(columns)) if any(row[place] for row in rows)]
    return (
        tuple(columns[place] for place in kept),
        tuple(tuple(row[place] for place in kept) for row in rows),
    )


def _beside(answers: Answers) -> tuple[Figure, ...]:
    """Figures that follow from the layout alone."""
    return tuple(
        figure for figure in answers.figures if figure.name in _BESIDE and figure.of != _MATRIX
    )


def _places(aircraft: AircraftNow, *names: str) -> tuple[Place, ...]:
    """Where these keys were last written: the first line in each file."""
    first: dict[str, Place] = {}
    for key, place in aircraft.places.items():
        if key.partition(".")[0] in names:
            first[place.file] = min(place, first.get(place.file, place), key=lambda at: at.line)
    return tuple(first[file] for file in sorted(first))


def _changes(aircraft: AircraftNow) -> tuple[Change, ...]:
    """Alterations of layout or wiring that stand, newest first."""
    return tuple(
        Change(line=line, entry=line.stands)
        for line in reversed(aircraft.log)
        if isinstance(line.stands, Alteration) and _KEYS & set(line.stands.keys)
    )
