"""A hangar that is read again when its files change, and its pages, made when they are asked for.

What was good last stays: a slip in a file takes no page away, it stands beside them.
"""

import datetime
import os
from collections.abc import Callable, Iterable, Iterator, Mapping
from hashlib import sha256
from pathlib import Path

import msgspec

from buildbook.audience.projected import projected
from buildbook.basis.collector import collector_paused
from buildbook.basis.place import Place
from buildbook.basis.problems import Problem, Problems
from buildbook.pages.addresses import address_of
from buildbook.pages.page import Page
from buildbook.pages.site import Work, make, plan
from buildbook.pages.story import inserts
from buildbook.pages.theme import BrokenTheme, Press
from buildbook.publish.fixed_files import fixed_files
from buildbook.publish.photos import photos_of
from buildbook.records.reading.connected import log_of_file
from buildbook.records.reading.files import gather
from buildbook.records.reading.reread import HeldFiles, read_held, with_texts
from buildbook.report.reports import Audience, Reports
from buildbook.reporting.opening import Opened, open_reading, open_reports
from buildbook.upkeep.work_list import Untouched, untouched

Stamp = str


class Shown(msgspec.Struct, frozen=True):
    """What a site is made of at one moment: its reports, pages by address, and pictures."""

    reports: Reports
    press: Press
    works: Mapping[str, Work]
    fixed: Mapping[str, bytes]


class Watched:
    """A hangar folder as a site that is made page by page.

    today: the day of the clock, asked for at each reading. Not for several threads at once.
    """

    def __init__(
        self,
        folder: Path,
        theme: tuple[Path, ...],
        audience: Audience,
        asked: datetime.date | None,
        today: Callable[[], datetime.date],
    ) -> None:
        self.problems: tuple[Problem, ...] = ()
        self.stamp: Stamp = ""
        self._folder, self._theme, self._audience = folder, theme, audience
        self._asked, self._today = asked, today
        self._held: HeldFiles | None = None
        self._told: Reports | None = None
        self._good: Shown | None = None
        self._made: dict[str, bytes] = {}
        self._pressed: Stamp = ""

    def renew(self) -> Stamp:
        """Read again what changed on the disk since the last time; the stamp of what is shown."""
        stamp = stamp_of((self._folder, *self._theme))
        if stamp == self.stamp:
            return stamp
        with collector_paused():  # all that is made is needed until the next time
            opened = self._opened()
            try:
                self.problems = self._take(opened)
            except BrokenTheme as error:
                self.problems = (self._broken_theme(error),)
        self.stamp = stamp
        return stamp

    def page(self, address: str) -> bytes | None:
        """A file of the site, as the last good state of the records has it; None: there is none."""
        good = self._good
        if good is None:
            return None
        if address in good.fixed:
            return good.fixed[address]
        if address not in self._made and address in good.works:
            leaf = make(good.reports, good.works[address])
            try:
                text = good.press.compose(leaf) if isinstance(leaf, Page) else leaf.text
            except BrokenTheme as error:
                self.problems = (self._broken_theme(error),)
                return None
            self._made[address] = text.encode("utf-8")
        return self._made.get(address)

    def _broken_theme(self, error: BrokenTheme) -> Problem:
        return Problem(str(error), Place(str(self._theme[0]), 1))

    def _opened(self) -> Opened:
        before, changed = self._held, self._changed_logs()
        if before is None or changed is None:
            held = read_held(self._folder)
        else:
            held = with_texts(before, changed) if changed else before
        kept = None
        if before is not None and held is not None and changed is not None:
            kept = self._untouched(before, held, changed)
        self._held = held
        if held is None:
            opened = open_reports(self._folder, self._asked, self._today())
        else:
            opened = open_reading(self._folder, held.reading, self._asked, self._today(), kept=kept)
        self._told = opened.reports
        return opened

    def _untouched(
        self, before: HeldFiles, now: HeldFiles, changed: Iterable[str]
    ) -> Untouched | None:
        """What stands as it did before the change; None where a reading was not whole."""
        ledger = now.reading.ledger
        if self._told is None or ledger is None or before.reading.problems or now.reading.problems:
            return None
        logs = map(log_of_file, changed)
        return untouched(self._told.work, now.connections.part(ledger, (), logs))

    def _changed_logs(self) -> dict[str, bytes] | None:
        """The logs that changed, where nothing else did; None: all must be read."""
        held = self._held
        files = None if held is None else gather(self._folder, Problems())
        if held is None or files is None:
            return None
        before, now = held.files, files
        alike = (before.content.keys(), before.slugs, before.photos) == (
            now.content.keys(),
            now.slugs,
            now.photos,
        )
        changed = {
            path: data for path, data in now.content.items() if before.content.get(path) != data
        }
        if not alike or not all(_is_log(path) for path in changed):
            return None
        return changed

    def _take(self, opened: Opened) -> tuple[Problem, ...]:
        """Show this state if it is good; else what is wrong with it, and the one before stays."""
        if opened.reports is None or opened.broken:
            return _grave(opened.problems)
        photos = photos_of(opened.reports.hangar, self._folder, self._audience)
        shown = projected(opened.reports, self._audience, photos.shown)
        found = _grave((*shown.problems, *inserts.problems(opened.reports), *photos.problems))
        if found:
            return found
        reports = shown.reports
        self._good = Shown(
            reports,
            self._press(reports),
            {address_of(work.kind, work.key): work for work in plan(reports)},
            fixed_files(reports, self._theme, photos.files),
        )
        self._made = {}
        return ()

    def _press(self, reports: Reports) -> Press:
        """One that has its templates compiled already, unless the theme changed."""
        stamp = stamp_of(self._theme)
        if self._good is not None and stamp == self._pressed:
            return self._good.press.over(reports)
        self._pressed = stamp
        return Press(reports, self._theme)


def _grave(found: tuple[Problem, ...]) -> tuple[Problem, ...]:
    return tuple(problem for problem in Problems(found) if problem.severity == "problem")


def _is_log(path: str) -> bool:
    parts = path.split("/")
    return parts[0] == "stores" or (parts[0] == "aircraft" and parts[2].startswith("logbook"))


def stamp_of(folders: tuple[Path, ...]) -> Stamp:
    """What tells one state of the files from another: names, sizes, times of change."""
    digest = sha256()
    for folder in folders:
        for name, size, changed_ns in _listed(folder):
            digest.update(f"{name}\0{size}\0{changed_ns}\n".encode("utf-8", "surrogateescape"))
    return digest.hexdigest()[:20]


def _listed(folder: Path) -> Iterator[tuple[str, int, int]]:
    for at, names, files in os.walk(folder):
        names[:] = sorted(name for name in names if not name.startswith("."))
        for name in sorted(files):
            path = os.path.join(at, name)
            try:
                found = os.stat(path)
            except OSError:  # went away between the two
                continue
            yield path, found.st_size, found.st_mtime_ns
