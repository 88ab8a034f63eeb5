"""The hangar as one audience sees it: the only thing that pages are made from."""

import datetime
import re
from collections.abc import Callable
from functools import lru_cache
from typing import Any, TypeVar

from buildbook.audience.leaks import LeakWatch
from buildbook.audience.pictures import Pictures
from buildbook.audience.projection import Projector
from buildbook.audience.sharing import Audience, Sharing, sharing_for
from buildbook.basis import saying
from buildbook.basis.naming import distinct, file_name
from buildbook.basis.problems import Problem
from buildbook.report.figure import Answers
from buildbook.report.state import Hangar
from buildbook.report.work import WorkList

_OF_PAGES = re.compile(r"main|m-\d{4}-\d{2}").fullmatch  # anchors of a logbook page itself
T = TypeVar("T")
Worker = Callable[[Hangar, str], Answers]


def no_figures(_hangar: Hangar, _name: str) -> Answers:
    """For a view that nobody will ask for figures."""
    return Answers()


class View:
    """The projected hangar and work list, and figures projected as they are asked for.

    problems: what would leak into public texts; a render with any writes nothing.
    pictures: cleaned photographs, where this audience may see them.
    """

    def __init__(
        self,
        hangar: Hangar,
        work: WorkList,
        audience: Audience,
        aircraft_figures: Worker = no_figures,
        item_figures: Worker = no_figures,
        pictures: Pictures | None = None,
    ) -> None:
        sharing = sharing_for(audience, hangar.ledger.keeper)
        watch = LeakWatch(hangar.ledger, sharing)
        projector = Projector(sharing, None if audience == "owner" else watch.see)
        self.sharing: Sharing = sharing
        self.hangar: Hangar = projector.show(hangar)
        self.work: WorkList = projector.show(work)
        self.problems: tuple[Problem, ...] = tuple(watch.problems)
        self.pictures: Pictures = {
            named: picture
            for named, picture in (pictures or {}).items()
            if audience == "owner" or (sharing.shares("photos") and picture.in_story)
        }
        self._projector = projector
        self._entries = hangar.ledger.entries
        self._kept: dict[Callable[[View], Any], Any] = {}
        self._figures = lru_cache(maxsize=None)(
            lambda kind, key: projector.show(
                (aircraft_figures if kind == "aircraft" else item_figures)(hangar, key)
            )
        )

    def once(self, make: Callable[["View"], T]) -> T:
        """What pages need of the whole hangar: worked out once, then kept with the view."""
        if make not in self._kept:
            self._kept[make] = make(self)
        found: T = self._kept[make]
        return found

    @property
    def is_public(self) -> bool:
        """Whether this is a render to be shared."""
        return self.sharing.audience == "public"

    def figures_of_aircraft(self, slug: str) -> Answers:
        """All figures of an aircraft."""
        found: Answers = self._figures("aircraft", slug)
        return found

    def figures_of_item(self, tag: str) -> Answers:
        """All figures of an item."""
        found: Answers = self._figures("item", tag)
        return found

    def day(self, on: datetime.date) -> str:
        """A day in words, or its month where days are not shared."""
        return saying.day(on) if self.sharing.exact_days else saying.month(on)

    def machine_day(self, on: datetime.date) -> str:
        """The same for machines: ``2026-03-01`` or ``2026-03``."""
        return on.isoformat() if self.sharing.exact_days else on.isoformat()[:7]

    def entry_uid(self, slug: str, written: str) -> str | None:
        """What this audience calls the entry of a logbook that has the id ``written``."""
        for entry in self._entries:
            if entry.aircraft == slug and entry.id == written:
                return self._projector.entry_name(entry.uid) if self.is_public else entry.uid
        return None

    def entry_anchor(self, uid: str) -> str:
        """The anchor of an entry on its logbook page; opaque for the public.

        An id is unique in its file only, so the name of the file goes before it, except where
        that adds nothing: ``2026-03-01-1`` of ``logbook.yaml`` or ``logbook/2026.yaml``.
        """
        if self.is_public:
            name = uid.rpartition("#")[2]
            return name if name.startswith("e") and name[1:].isdigit() else ""
        return self.once(_anchors).get(uid) or _wanted_anchor(uid)


def _wanted_anchor(uid: str) -> str:
    file, _, name = uid.rpartition("#")
    stem = file.rpartition("/")[2].removesuffix(".yaml")
    plain = stem == "logbook" or name.startswith(stem)
    anchor = file_name(name if plain else f"{stem}-{name}")
    return f"entry-{anchor}" if _OF_PAGES(anchor) else anchor


def _anchors(view: View) -> dict[str, str]:
    """The anchors of all entries; those of one logbook page are all different."""
    by_page: dict[str | None, dict[str, str]] = {}
    for entry in view.hangar.ledger.entries:
        by_page.setdefault(entry.aircraft, {})[entry.uid] = _wanted_anchor(entry.uid)
    return {uid: anchor for page in by_page.values() for uid, anchor in distinct(page).items()}
