"""Links of build stories that lead nowhere once the site is made for the public."""

from collections.abc import Iterator
from os.path import dirname, join, normpath
from urllib.parse import unquote

from buildbook.basis.notation import quoted
from buildbook.basis.place import Place
from buildbook.basis.problems import Problem
from buildbook.pages.addresses import address_of
from buildbook.pages.page import Page
from buildbook.pages.site import make, plan
from buildbook.pages.story.story_text import story
from buildbook.pages.story.write_up import leads_of
from buildbook.pages.theme import Press, theme_folders
from buildbook.report.reports import Reports


def links_within(text: str) -> tuple[str, ...]:
    """The links of a story to pages of the site, each once, as the keeper wrote them."""
    found: dict[str, None] = {}

    def note(link: str) -> bool:
        found[link] = None
        return True

    story(text, leads=note)
    return tuple(link for link in found if not link.startswith("mailto:"))


def lost_links(whole: Reports, public: Reports) -> Iterator[Problem]:
    """A warning for each link of a story that the public reads and cannot follow.

    whole: the reports of the owner; public: the same as the public gets them.
    """
    told = public.hangar.ledger.write_ups
    for slug, written in whole.hangar.ledger.write_ups.items():
        if slug not in public.hangar.aircraft or slug not in told:
            continue
        home = address_of("write-up", slug)
        leads = leads_of(public, home)
        for link in links_within(told[slug].text):
            place = Place(written.file, _line_of(link, written.text))
            if leads is not None and not leads(link):
                yield Problem(
                    f"the link to {quoted(link)} leads to no page that the public gets; its words"
                    " stand there alone",
                    place,
                    "warning",
                    "link to a page that is shared, or leave the link out",
                    about=slug,
                )
            elif not _holds(public, home, link):
                yield Problem(
                    f"the link to {quoted(link)} leads to a place that its page lacks in public",
                    place,
                    "warning",
                    "link to the page alone",
                    about=slug,
                )


def _holds(public: Reports, home: str, link: str) -> bool:
    """Whether the page that is linked to has the anchor, where one is named."""
    path, _, anchor = link.partition("#")
    if not anchor:
        return True
    wanted = normpath(join(dirname(home), unquote(path)))
    press = Press(public, theme_folders(None))
    for work in plan(public):
        if address_of(work.kind, work.key) == wanted:
            page = make(public, work)
            text = press.compose(page) if isinstance(page, Page) else ""
            return f'id="{unquote(anchor)}"' in text
    return False


def _line_of(link: str, text: str) -> int:
    """The line on which a link stands first."""
    lines = text.splitlines()
    return next((at for at, line in enumerate(lines, 1) if link in line), 1)
