"""The reports of a hangar become a folder of files."""

import os
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

import msgspec

from buildbook.basis.naming import first_alike
from buildbook.pages.addresses import address_of
from buildbook.pages.aircraft.charts import chart_of_hangar
from buildbook.pages.page import Page
from buildbook.pages.site import Work, make, plan
from buildbook.pages.story import write_up
from buildbook.pages.story.linked import card_address
from buildbook.pages.theme import BrokenTheme, Press, more_script, more_style, script, stylesheet
from buildbook.publish.renewal import renewed
from buildbook.publish.share_out import share_out
from buildbook.publish.where import CannotWrite
from buildbook.report.reports import Reports
from buildbook.words.public import kind_of_build


def fixed_files(
    reports: Reports, theme: tuple[Path, ...], photos: Mapping[str, bytes]
) -> Mapping[str, bytes]:
    """All of them. photos: bytes by address; only those that the audience may see are taken."""
    found = {
        address_of("style"): stylesheet(theme).encode("utf-8"),
        **{address: more_style(theme, address).encode("utf-8") for address in _more(reports)},
    }
    if not reports.is_public:
        found |= {
            address: more_script(theme, address).encode("utf-8")
            for address in (address_of("form-script"), address_of("form-worker"))
        }
    book = script(theme)
    if book is not None:
        found[address_of("script")] = book.encode("utf-8")
    shown = reports.pictures.values()
    addresses = {picture.address for picture in shown} | {one.small_address for one in shown}
    return found | {address: photos[address] for address in sorted(addresses & photos.keys())}


def _more(reports: Reports) -> tuple[str, ...]:
    """Styles that only some pages load; nobody else sees cards or the form for the field."""
    kinds = ("inner-style", "story-style")
    more = () if reports.is_public else ("card-style", "form-style")
    return tuple(map(address_of, (*kinds, *more)))


def cards_of(reports: Reports) -> Mapping[str, bytes]:
    """One for each story with a layout, where others may read it."""
    if not reports.is_public:
        return {}
    plans = {slug: reports.layout_outline(slug) for slug in write_up.keys(reports)}
    if not any(plans.values()):
        return {}
    from buildbook.drawings.layout.layout import layout_portrait
    from buildbook.pictures.card import card  # only here: letters and pixels take long to load

    made = {}
    for slug, outline in plans.items():
        aircraft = reports.hangar.aircraft[slug]
        story = aircraft.record.story
        if outline is not None:
            promise = (story.promise if story else None) or kind_of_build(aircraft).capitalize()
            name = aircraft.record.aircraft
            made[card_address(slug)] = card(
                layout_portrait(outline, lettered=False),
                name,
                promise,
                reports.hangar.ledger.keeper.hangar,
            )
    return made


Progress = Callable[[int, int], None]


class Written(msgspec.Struct, frozen=True):
    """How many files a site has, and which stayed because they were changed by hand."""

    files: int
    kept: tuple[str, ...]


def render(
    reports: Reports,
    target: Path,
    theme: tuple[Path, ...],
    *,
    called: str | None = None,
    replace_audience: bool = False,
    photos: Mapping[str, bytes] | None = None,
    workers: int | None = None,
    progress: Progress | None = None,
) -> Written:
    """Write the whole site and renew the folder from it.

    called: the folder as the user names it. replace_audience: over a site of the other audience.
    photos: bytes of the pictures by address; only those that the audience may see are written.
    workers: processes to use; the bytes don't depend on it. CannotWrite: told in one sentence,
    and the old site stays as it was. BrokenTheme: likewise.
    """
    works = list(plan(reports))
    for one, other in first_alike(address_of(work.kind, work.key) for work in works):
        raise CannotWrite(f"{one} and {other} would be one file on some disks; nothing was written")
    press = Press(reports, theme).ready()
    _ready(reports)
    fixed = {**fixed_files(reports, theme, photos or {}), **cards_of(reports)}
    with renewed(
        target, called or str(target), reports.audience, replace_audience=replace_audience
    ) as renewal:
        folder = renewal.folder
        for address, data in fixed.items():
            _write_bytes(folder, address, data)
        share_out(
            lambda part, done: _write_part(reports, press, folder, part, done),
            works,
            workers=workers or os.cpu_count() or 1,
            progress=progress,
            told=(BrokenTheme,),
            together=lambda work: work.key or work.kind,
        )
    return Written(files=len(works) + len(fixed), kept=renewal.kept)


def _ready(reports: Reports) -> None:
    """Ask for and import what many pages of any key need, before processes are forked off."""
    for name in ("known_figures", "jobs", "packs", "programmes"):
        reports.ask(name)
    if not reports.is_public:
        reports.remarks()
        reports.doubts_about("")  # of any name: those of all are worked out
    chart_of_hangar(reports)  # unless it was drawn before, what draws is imported for all


def _write_part(
    reports: Reports,
    press: Press,
    folder: Path,
    part: Sequence[Work],
    done: Callable[[], None],
) -> None:
    for work in part:
        leaf = make(reports, work)
        text = press.compose(leaf) if isinstance(leaf, Page) else leaf.text
        _write(folder, leaf.address, text)
        done()


def _write(folder: Path, address: str, text: str) -> None:
    _write_bytes(folder, address, text.encode("utf-8"))


def _write_bytes(folder: Path, address: str, data: bytes) -> None:
    path = folder / address
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(data)
