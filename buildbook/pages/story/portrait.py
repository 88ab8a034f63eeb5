"""The picture of an aircraft that its keeper chose."""

from buildbook.report.drawn.pictures import Picture
from buildbook.report.reports import Reports


def portrait_of(reports: Reports, slug: str) -> Picture | None:
    """The photograph that ``story: portrait`` names, where this audience may see it."""
    story = reports.hangar.aircraft[slug].record.story
    return reports.pictures.get((slug, story.portrait)) if story and story.portrait else None
