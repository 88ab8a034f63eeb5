"""One build for others: what it is made of, what is set, and where the rest stands."""

from buildbook.drawings.layout.layout import layout_portrait
from buildbook.pages.addresses import address_of
from buildbook.pages.aircraft.figure_summary import as_flown
from buildbook.pages.aircraft.gains import BELONGS
from buildbook.pages.page import Page, crumbs
from buildbook.pages.story.linked import portrait_of
from buildbook.report.reports import Reports
from buildbook.words.logbook.entry_details import gain_rows
from buildbook.words.public import four_figures, kind_of_build, licence_of, parts_total, story_facts


def page(reports: Reports, slug: str) -> Page:
    """The parts, settings and gains of a build, in place of the keeper's page of an aircraft."""
    aircraft = reports.hangar.aircraft[slug]
    record = aircraft.record
    keeper = reports.hangar.ledger.keeper
    plan = reports.layout(slug)
    headlines = reports.headlines(slug)
    gains = aircraft.gain_sets.get(aircraft.gains or "")
    return Page(
        address=address_of("aircraft", slug),
        template="build.html.j2",
        title=record.aircraft,
        crumbs=crumbs(reports),
        facts={
            "slug": slug,
            "record": record,
            "kind": kind_of_build(aircraft),
            "promise": record.story.promise if record.story else None,
            "portrait": portrait_of(reports, slug),
            "drawing": layout_portrait(plan) if plan else None,
            "figures": four_figures(aircraft, headlines),
            "story_facts": story_facts(aircraft),
            "headlines": tuple(one for one in as_flown(headlines.shown) if one.figure),
            "parts": reports.parts_of_aircraft(slug),
            "parts_total": parts_total(reports.figures_of_aircraft(slug)),
            "gains": (gains.name, gain_rows(gains.values)) if gains else None,
            "belongs": BELONGS,
            "settings": tuple(
                sorted(aircraft.settings.values(), key=lambda one: (one.of or "", one.name))
            ),
            "licence": licence_of(aircraft, keeper),
        },
        about=(record.story.promise if record.story else None)
        or f"What {record.aircraft} is made of, how it is wired, and what it does.",
    )
