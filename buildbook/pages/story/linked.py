"""A story for machines that read pages and those who pass on a link to it; its portrait."""

import json
from typing import Any

from markupsafe import Markup

from buildbook.basis import amounts
from buildbook.basis.naming import file_name
from buildbook.pages.addresses import address_of
from buildbook.records.story import WrittenWhen
from buildbook.report.drawn.pictures import Picture
from buildbook.report.reports import Reports
from buildbook.words.public import licence_of


def card_address(slug: str) -> str:
    """The picture that stands beside a link to the story."""
    return f"pictures/card-{file_name(slug)}.png"


def whole_address(reports: Reports, address: str) -> str | None:
    """The address on the web; None where the keeper does not say where the site will live."""
    home = reports.hangar.ledger.keeper.address
    return f"{home.rstrip('/')}/{address}" if home else None


def author_of(reports: Reports, slug: str) -> str | None:
    """The full name of who tells it: to the owner, and to others where that person agreed.

    A projection has put the name in place of the alias, or nothing.
    """
    story = reports.hangar.aircraft[slug].record.story
    if story is None or story.author is None:
        return None
    person = reports.hangar.ledger.keeper.people.get(story.author)
    return person.name if person else story.author


def written_words(reports: Reports, when: WrittenWhen | None) -> tuple[str, str] | None:
    """When it was written: for machines, and in words."""
    if when is None:
        return None
    if when.by_month or not reports.exact_days:
        return when.day.isoformat()[:7], amounts.month(when.day)
    return when.day.isoformat(), amounts.day(when.day)


def linked_data(reports: Reports, slug: str, title: str) -> Markup:
    """A data block after schema.org, which no script policy touches."""
    aircraft = reports.hangar.aircraft[slug]
    keeper = reports.hangar.ledger.keeper
    story = aircraft.record.story
    said: dict[str, Any] = {
        "@context": "https://schema.org",
        "@type": "Article",
        "headline": title,
        "about": {"@type": "Thing", "name": aircraft.record.aircraft},
        "inLanguage": "en",
        "isPartOf": {"@type": "WebSite", "name": keeper.hangar},
        "dateModified": reports.machine_day(reports.hangar.as_of),
    }
    author = author_of(reports, slug)
    written = written_words(reports, story.written if story else None)
    portrait = portrait_of(reports, slug)
    more = {
        "description": story.promise if story else None,
        "author": {"@type": "Person", "name": author} if author else None,
        "datePublished": written[0] if written else None,
        "license": licence_of(aircraft, keeper),
        "url": whole_address(reports, address_of("write-up", slug)),
        "image": whole_address(reports, portrait.address) if portrait else None,
    }
    said.update((key, value) for key, value in more.items() if value)
    text = json.dumps(said, ensure_ascii=False)
    return Markup(text.replace("&", "\\u0026").replace("<", "\\u003c").replace(">", "\\u003e"))


def portrait_of(reports: Reports, slug: str) -> Picture | None:
    """The photograph that ``story: portrait`` names, where this audience may see it."""
    story = reports.hangar.aircraft[slug].record.story
    return reports.pictures.get((slug, story.portrait)) if story and story.portrait else None
