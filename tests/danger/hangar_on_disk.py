"""A small hangar on disk, and what every command and page says of it.

The quiet hangar has one multirotor, Sedge, one pack and nothing open. A test adds one danger to
its files, as a keeper would write it, and looks whether it is heard everywhere.
"""

import datetime
import html
import io
import json
import re
from collections.abc import Mapping
from contextlib import redirect_stderr, redirect_stdout
from functools import cached_property
from pathlib import Path
from typing import Any

from buildbook.commands.main import main
from buildbook.pages.addresses import address_of
from buildbook.pages.page import Page
from buildbook.pages.site import Work, make, plan
from buildbook.pages.theme import Press, theme_folders
from buildbook.report.reports import Reports
from buildbook.reporting.opening import open_reports

AS_OF = "2026-06-20"

_OF_AIRCRAFT = ("aircraft/{slug}/index.html", "cards/{slug}-field.html")
SET_UP = "aircraft/{slug}/set-up.html"

SPECS = """\
- {spec: motor, kind: motor, mass: 54 g, kv: 870 rpm/V, max_current: 22 A}
- {spec: esc, kind: esc, mass: 28 g, continuous_current: 30 A, cells: 2S-4S}
- {spec: prop-cw, kind: propeller, mass: 12 g, size: 11x4.5, hand: cw}
- {spec: prop-ccw, kind: propeller, mass: 12 g, size: 11x4.5, hand: ccw}
- {spec: frame, kind: frame, mass: 300 g}
- {spec: controller, kind: controller, mass: 40 g}
- {spec: receiver, kind: receiver, mass: 12 g}
- {spec: pack, kind: battery, mass: 220 g, cells: 3S, capacity: 2200 mAh, chemistry: LiPo}
"""
ITEMS = """\
- {tags: M-01..M-05, spec: motor, acquired: 2026-03-01}
- {tags: E-01..E-05, spec: esc, acquired: 2026-03-01}
- {tags: R-01..R-04, spec: prop-cw, acquired: 2026-03-01}
- {tags: L-01..L-04, spec: prop-ccw, acquired: 2026-03-01}
- {tags: F-01..F-02, spec: frame, acquired: 2026-03-01}
- {tags: C-01..C-02, spec: controller, acquired: 2026-03-01}
- {tags: X-01..X-02, spec: receiver, acquired: 2026-03-01}
- {tags: P-01..P-02, spec: pack, acquired: 2026-03-01}
"""
AIRCRAFT = """\
aircraft: Sedge
kind: multirotor
layout: quad-x
diagonal: 410 mm
programme: small-multirotor
in_service: 2026-05-01
stations:
  front-left: {spin: ccw, output: 5}
  front-right: {spin: cw, output: 2}
  rear-left: {spin: cw, output: 6}
  rear-right: {spin: ccw, output: 3}
receiver: {order: [throttle, rudder, elevator, mode, aileron]}
radio: {memory: 4, mode: 2, throttle_cut: left shoulder switch, failsafe: {throttle: cut}}
"""
ALL_CHECKS = """\
- on: 2026-05-02
  check: [motor-screws, receiver-order, receiver-neutral, stick-sense, mode-switches,
    low-voltage-alarm, sensors-answer, accelerometer, esc-endpoints, arming, throttle-cut,
    spin-directions, start-spread, correction-sense, failsafe, range, compass, propeller-balance,
    propeller-fit, balance-point]
  result: pass
- {on: 2026-05-02, weigh: 1096 g, pack: P-01}
- on: 2026-05-02
  inspection: [screws-and-mounts, solder-and-leads]
"""
LOGBOOK = (
    """\
- on: 2026-05-01
  fit:
    front-left: {motor: M-01, esc: E-01, propeller: L-01}
    front-right: {motor: M-02, esc: E-02, propeller: R-01}
    rear-left: {motor: M-03, esc: E-03, propeller: R-02}
    rear-right: {motor: M-04, esc: E-04, propeller: L-02}
    centre: {frame: F-01, controller: C-01, receiver: X-01}
"""
    + ALL_CHECKS
    + """\
- on: 2026-06-18
  flight: 6:10
  pack: P-01
  purpose: check
  result: pass
- on: 2026-06-19
  inspection: [screws-after-motor, propeller-touch]
"""
)
PACK = """\
- on: 2026-06-19
  charge: P-01
  to: storage
- on: 2026-06-19
  inspection: [pack-look]
  tags: [P-01]
"""
QUIET: Mapping[str, str] = {
    "hangar.yaml": f"format: 1\nhangar: Reedmere shed\nas_of: {AS_OF}\n"
    "programme: small-multirotor\n",
    "parts/specs.yaml": SPECS,
    "parts/items.yaml": ITEMS,
    "aircraft/sedge/aircraft.yaml": AIRCRAFT,
    "aircraft/sedge/logbook.yaml": LOGBOOK,
    "stores/p-01.yaml": PACK,
}


def with_log(entries: str, **files: str) -> dict[str, str]:
    """The quiet hangar with more entries in the logbook of Sedge. ``files``: by their path."""
    changed = {**QUIET, **files}
    path = "aircraft/sedge/logbook.yaml"
    return {**changed, path: changed[path] + entries}


def with_text(path: str, old: str, new: str, entries: str = "") -> dict[str, str]:
    """The quiet hangar with words of a file replaced, which must stand there once."""
    assert QUIET[path].count(old) == 1, (path, old)
    changed = {**QUIET, path: QUIET[path].replace(old, new)}
    log = "aircraft/sedge/logbook.yaml"
    return {**changed, log: changed[log] + entries}


def with_parts(files: Mapping[str, str], specs: str, items: str) -> dict[str, str]:
    """A hangar with more specs and items."""
    more = {"parts/specs.yaml": specs, "parts/items.yaml": items}
    return {**files, **{path: files[path] + text for path, text in more.items()}}


def with_four_cells(files: Mapping[str, str], mass_g: int = 280) -> dict[str, str]:
    """A hangar with a pack of four cells, Q-01."""
    spec = f"spec: four, kind: battery, mass: {mass_g} g, cells: 4S, capacity: 2200 mAh"
    return with_parts(
        files,
        f"- {{{spec}, chemistry: LiPo}}\n",
        "- {tag: Q-01, spec: four, acquired: 2026-06-01}\n",
    )


class Hangar:
    """A hangar in a folder, and what the program says of it; each is asked for once."""

    def __init__(self, folder: Path, files: Mapping[str, str]) -> None:
        self.folder = folder / "hangar"
        for path, text in files.items():
            (self.folder / path).parent.mkdir(parents=True, exist_ok=True)
            (self.folder / path).write_text(text, "utf-8")

    def run(self, *words: str) -> tuple[int, str]:
        """Exit status and all that was printed."""
        out = io.StringIO()
        with redirect_stdout(out), redirect_stderr(out):
            status = main(list(words))
        return status, out.getvalue()

    def line(self, path: str, words: str) -> str:
        """``path:line`` of the one line of a file that holds these words."""
        lines = (self.folder / path).read_text("utf-8").splitlines()
        found = [number for number, line in enumerate(lines, 1) if words in line]
        assert len(found) == 1, (words, found)
        return f"{path}:{found[0]}"

    @cached_property
    def check(self) -> str:
        """What ``check`` prints."""
        return self.run("check", str(self.folder))[1]

    @cached_property
    def due(self) -> tuple[int, str]:
        """Exit status of ``due`` and what it prints, white space made one."""
        status, said = self.run("due", str(self.folder))
        return status, " ".join(said.split())

    @cached_property
    def json(self) -> dict[str, Any]:
        """What ``due --json`` prints."""
        found: dict[str, Any] = json.loads(self.run("due", str(self.folder), "--json")[1])
        return found

    def state(self, slug: str = "sedge") -> str:
        """The state of an aircraft."""
        return next(str(one["state"]) for one in self.json["aircraft"] if one["slug"] == slug)

    def reasons(self, slug: str = "sedge") -> list[str]:
        """The reasons of an aircraft, worst first."""
        return [
            str(reason["what"])
            for one in self.json["aircraft"]
            if one["slug"] == slug
            for reason in one["reasons"]
        ]

    def pack(self, tag: str) -> tuple[str, list[str]]:
        """State and reasons of a pack."""
        found = next(one for one in self.json["packs"] if one["tag"] == tag)
        return str(found["state"]), [str(reason["what"]) for reason in found["reasons"]]

    def rows(self, name: str) -> list[dict[str, Any]]:
        """The rows of that name that are not in order."""
        return [
            row
            for row in self.json["rows"]
            if row["name"] == name and row["state"] not in ("ok", "not applicable")
        ]

    def silent_pages(self, words: str, slug: str = "sedge", *more: str) -> list[str]:
        """The pages that do not say these words, in whatever case and with hyphens or without.

        Hangar page, aircraft, work list, *going flying* and field card; ``more``: others as well.
        """
        pages = ("index.html", "due.html", "going-flying.html", *_OF_AIRCRAFT, *more)
        addresses = (page.format(slug=slug) for page in pages)
        return [page for page in addresses if _plain(words) not in _plain(self.page(page))]

    def silent_commands(
        self, name: str, why: str, slug: str = "sedge", *, warned: bool = False
    ) -> list[str]:
        """The commands that do not say a row of that name, with why; ``warned``: check as well."""
        aircraft = next(one["name"] for one in self.json["aircraft"] if one["slug"] == slug)
        due = _plain(self.due[1])
        rows = [row for row in self.rows(name.replace(" ", "-")) if row["aircraft"] == slug]
        reasons = _plain(" ".join(self.reasons(slug)))
        says = {
            "due": _plain(f"{aircraft}: {name}") in due and _plain(why) in due,
            "due --json": bool(rows) and _plain(why) in reasons,
            "check": not warned or _plain(why) in _plain(self.check),
        }
        return [place for place, said in says.items() if not said]

    @cached_property
    def _pages(self) -> tuple[Reports, Press, dict[str, Work]]:
        opened = open_reports(self.folder, None, datetime.date.today())
        assert opened.reports is not None
        assert not opened.broken, [str(problem) for problem in opened.problems]
        works = {address_of(work.kind, work.key): work for work in plan(opened.reports)}
        return opened.reports, Press(opened.reports, theme_folders(None)), works

    def source(self, address: str) -> str:
        """A page of the owner as ``render`` writes it: ``aircraft/sedge.html``, ``index.html``."""
        reports, press, works = self._pages
        leaf = make(reports, works[address])
        return press.compose(leaf) if isinstance(leaf, Page) else leaf.text

    def page(self, address: str) -> str:
        """The words of a page, white space made one."""
        text = re.sub(r"<(script|style)\b.*?</\1>", " ", self.source(address), flags=re.DOTALL)
        return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", text)).split())


def _plain(words: str) -> str:
    return words.lower().replace("-", " ")
