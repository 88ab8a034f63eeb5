"""A hangar that is read again when its files change, and its pages, made when they are asked for.

What was good last stays: a slip in a file takes no page away, it stands beside them.
"""

import datetime
import gc
import os
from collections.abc import Callable, Iterable, Iterator, Mapping
from hashlib import sha256
from pathlib import Path

import msgspec

from buildbook.audience.projection import projected
from buildbook.basis.collector import collector_paused, rubbish_collected
from buildbook.basis.place import Place
from buildbook.basis.problems import Problem, Problems
from buildbook.pages.addresses import address_of
from buildbook.pages.page import Page
from buildbook.pages.site import Work, make, plan
from buildbook.pages.story import inserts
from buildbook.pages.theme import BrokenTheme, Press
from buildbook.pictures.clean import Cleaned, clean
from buildbook.publish.photos import photos_of
from buildbook.publish.render import fixed_files
from buildbook.records.reading.reread import HeldFiles, read_again, read_held
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
    photos: Mapping[str, bytes]


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
        self._cleaned: dict[bytes, Cleaned] = {}  # by a digest of what was in the file
        self._found: tuple[Problem, ...] = ()  # in the records; a broken theme comes beside them
        self._read: Stamp = ""
        self._pressed: Stamp = ""
        self._is_tidy = True

    def stamp_now(self) -> Stamp:
        """The stamp of what is on the disk; may be asked while another thread renews."""
        return stamp_of((self._folder,)) + stamp_of(self._theme)

    def renew(self) -> Stamp:
        """Read again what changed on the disk since the last time; the stamp of what is shown."""
        records, theme = stamp_of((self._folder,)), stamp_of(self._theme)
        if records + theme == self.stamp:
            return self.stamp
        before = self._good
        with collector_paused():  # all that is made is needed until the next time
            try:
                if records != self._read:
                    self._found = self._take(self._opened())
                elif self._good is not None:
                    self._good = self._set_anew(self._good)
                self.problems = self._found
            except BrokenTheme as error:
                self.problems = (*self._found, self._broken_theme(error))
            gc.freeze()  # walked only when there is time for it: see rest()
        if self._good is not before:
            self._made = {}
        self._read, self.stamp, self._is_tidy = records, records + theme, False
        return self.stamp

    def rest(self) -> None:
        """Nobody waits for a page: what earlier states left is collected now."""
        if not self._is_tidy:
            self._is_tidy = True
            rubbish_collected()

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
                self.problems = (*self._found, self._broken_theme(error))
                return None
            self._made[address] = text.encode("utf-8")
        return self._made.get(address)

    def _broken_theme(self, error: BrokenTheme) -> Problem:
        return Problem(str(error), Place(str(self._theme[0]), 1))

    def _opened(self) -> Opened:
        before = self._held
        kept = None
        if before is None:
            self._held = read_held(self._folder)
        else:
            anew = read_again(before)
            self._held = None if anew is None else anew.held
            if anew is not None and anew.logs is not None:
                kept = self._untouched(before, anew.held, anew.logs)
        held = self._held
        if held is None:
            opened = open_reports(self._folder, self._asked, self._today())
        else:
            opened = open_reading(self._folder, held.reading, self._asked, self._today(), kept=kept)
        self._told = opened.reports
        return opened

    def _untouched(
        self, before: HeldFiles, now: HeldFiles, logs: Iterable[str]
    ) -> Untouched | None:
        """What stands as it did before the change; None where a reading was not whole."""
        ledger = now.reading.ledger
        if self._told is None or ledger is None or before.reading.problems or now.reading.problems:
            return None
        return untouched(self._told.work, now.connections.part(ledger, (), logs))

    def _take(self, opened: Opened) -> tuple[Problem, ...]:
        """Show this state if it is good; else what is wrong with it, and the one before stays."""
        if opened.reports is None or opened.broken:
            return _grave(opened.problems)
        hangar = opened.reports.hangar
        photos = photos_of(hangar, self._folder, self._audience, self._clean)
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
            photos.files,
        )
        return ()

    def _clean(self, data: bytes) -> Cleaned:
        """A photo is scaled when it is new, which takes longer than all else of a change."""
        key = sha256(data).digest()
        if key not in self._cleaned:
            self._cleaned[key] = clean(data)
        return self._cleaned[key]

    def _set_anew(self, good: Shown) -> Shown:
        """The same reports in another theme."""
        return msgspec.structs.replace(
            good,
            press=self._press(good.reports),
            fixed=fixed_files(good.reports, self._theme, good.photos),
        )

    def _press(self, reports: Reports) -> Press:
        """One that has its templates compiled already, unless the theme changed."""
        stamp = stamp_of(self._theme)
        if self._good is not None and stamp == self._pressed:
            return self._good.press.over(reports)
        self._pressed = stamp
        return Press(reports, self._theme)


def _grave(found: tuple[Problem, ...]) -> tuple[Problem, ...]:
    return tuple(problem for problem in Problems(found) if problem.severity == "problem")


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
