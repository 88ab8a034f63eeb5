"""The pages for others: the front page with each build, and the page of one build."""

import msgspec
from markupsafe import Markup

from buildbook.drawings.layout.layout import layout_portrait
from buildbook.pages.addresses import address_of
from buildbook.pages.aircraft.figures import as_flown
from buildbook.pages.aircraft.gains import BELONGS
from buildbook.pages.page import Page, crumbs
from buildbook.pages.story.linked import portrait_of
from buildbook.report.drawn.pictures import Picture
from buildbook.report.reports import Reports
from buildbook.words.logbook.entry_details import gain_rows
from buildbook.words.public import (
    Said,
    four_figures,
    kind_of_build,
    licence_of,
    parts_total,
    story_facts,
)

PICTURED = 12  # so many have a picture on the front page; the rest have a line each


class Build(msgspec.Struct, frozen=True, kw_only=True):
    """One build. entry: kind of the page that a visitor opens first."""

    slug: str
    name: str
    kind: str
    promise: str | None
    entry: str
    portrait: Picture | None
    drawing: Markup | None
    figures: tuple[Said, ...]
    facts: tuple[Said, ...]


def page(reports: Reports, _key: str) -> Page:
    """All that is shared, stories first."""
    keeper = reports.hangar.ledger.keeper
    shared = enumerate(in_order(reports))
    builds = tuple(_build(reports, slug, number < PICTURED) for number, slug in shared)
    return Page(
        address=address_of("hangar"),
        template="builds.html.j2",
        title=keeper.hangar,
        facts={"builds": builds, "pictured": PICTURED, "licences": _licences(reports)},
        about=keeper.about or f"What is built at {keeper.hangar}, with drawings and parts.",
    )


def in_order(reports: Reports) -> tuple[str, ...]:
    """Builds with a story first, then those in the air, each by name."""
    found = reports.hangar.aircraft
    told = reports.hangar.ledger.write_ups
    return tuple(
        sorted(
            found,
            key=lambda slug: (
                slug not in told,
                found[slug].status != "flying",
                found[slug].record.aircraft,
            ),
        )
    )


def _build(reports: Reports, slug: str, pictured: bool) -> Build:
    aircraft = reports.hangar.aircraft[slug]
    story = aircraft.record.story
    plan = reports.layout_outline(slug) if pictured else None
    return Build(
        slug=slug,
        name=aircraft.record.aircraft,
        kind=kind_of_build(aircraft),
        promise=story.promise if story else None,
        entry="write-up" if slug in reports.hangar.ledger.write_ups else "aircraft",
        portrait=portrait_of(reports, slug),
        drawing=layout_portrait(plan, f"build-{slug}") if plan else None,
        figures=four_figures(aircraft, reports.headlines(slug)),
        facts=story_facts(aircraft),
    )


def _licences(reports: Reports) -> tuple[Said, ...]:
    """The licence of all; where they differ, that of each build."""
    keeper = reports.hangar.ledger.keeper
    by_name = {
        aircraft.record.aircraft: licence
        for aircraft in reports.hangar.aircraft.values()
        if (licence := licence_of(aircraft, keeper))
    }
    different = set(by_name.values())
    if len(different) == 1 and len(by_name) == len(reports.hangar.aircraft):
        return (Said("All builds", different.pop()),)
    return tuple(Said(name, licence) for name, licence in by_name.items())


def build_page(reports: Reports, slug: str) -> Page:
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
