"""``buildbook render``: write the site."""

import argparse
import sys
from collections.abc import Iterable
from pathlib import Path

from buildbook.audience.projection import projected
from buildbook.basis.amounts import count
from buildbook.basis.collector import collector_at_work
from buildbook.basis.problems import Problem, Problems
from buildbook.commands.opening import Opened, WrongUse, named_hangar, open_hangar
from buildbook.commands.terminal.command_line import add_as_of, add_hangar
from buildbook.commands.terminal.screen import Bar, print_problems
from buildbook.pages.story import inserts
from buildbook.pages.theme import BrokenTheme, UnknownTheme, theme_folders
from buildbook.publish.photos import Photos, photos_of
from buildbook.publish.render import render
from buildbook.publish.renewal import audience_for, repair
from buildbook.publish.where import CannotWrite, site_folder
from buildbook.words.upkeep.check import with_dangers

_KEPT_NAMED = 10


def options(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    add_hangar(parser)
    parser.add_argument("--into", metavar="SITE", default="site", help="the folder to write")
    parser.add_argument(
        "--for",
        dest="audience",
        choices=("owner", "public"),
        help="owner: everything (default, but not over a public site); "
        "public: only what you chose to share",
    )
    parser.add_argument(
        "--replace-audience",
        action="store_true",
        help="let an owner's site become a public one, or a public one an owner's",
    )
    parser.add_argument(
        "--despite-problems",
        action="store_true",
        help="write what stands, with a banner and the list of problems; for the owner only",
    )
    add_as_of(parser)
    parser.add_argument("--theme", metavar="NAME", help="a theme by name, or its folder")


def run(options: argparse.Namespace) -> int:
    """Render; 1 where the records have a problem, and then nothing is written."""
    try:
        theme = theme_folders(options.theme)
        target = site_folder(options.into, named_hangar(options))
        repair(target, options.into)
        audience = audience_for(target, options.into, options.audience, options.replace_audience)
    except UnknownTheme as error:
        raise WrongUse(f"--theme: {error}") from error
    except CannotWrite as error:
        raise WrongUse(str(error)) from error
    if options.despite_problems and (audience == "public" or options.replace_audience):
        raise WrongUse(
            "--despite-problems writes an owner's site only, and over no public one;"
            " mend the records first"
        )
    opened = open_hangar(options)
    inserted = () if opened.reports is None else inserts.problems(opened.reports)
    if opened.reports is None or (opened.broken and not options.despite_problems):
        print_problems(Problems([*_told(opened), *inserted]))
        print("Nothing was written.", file=sys.stderr)
        return 1
    photos = photos_of(opened.reports.hangar, opened.folder, audience)
    despite = _despite(opened, inserted, photos) if options.despite_problems else ()
    shown = projected(opened.reports, audience, photos.shown, despite)
    found = Problems([*_told(opened), *shown.problems, *inserted, *photos.problems])
    print_problems(found)
    if found.any_problem and not despite:
        print("Nothing was written.", file=sys.stderr)
        return 1
    try:
        with Bar(sys.stderr) as bar, collector_at_work():
            written = render(
                shown.reports,
                target,
                theme,
                called=options.into,
                replace_audience=options.replace_audience,
                photos=photos.files,
                progress=bar.show,
            )
    except BrokenTheme as error:
        raise WrongUse(f"--theme: {error}") from error
    except CannotWrite as error:
        raise WrongUse(str(error)) from error
    for address in written.kept[:_KEPT_NAMED]:
        print(f"kept, as no render wrote it in this form: {address}", file=sys.stderr)
    if len(written.kept) > _KEPT_NAMED:
        print(f"kept likewise: {len(written.kept) - _KEPT_NAMED} more", file=sys.stderr)
    index = Path(options.into) / "index.html"
    what = f"{count('file', written.files)} for {_for(audience)}"
    print(f"Wrote {what}{', despite problems' if despite else ''}: {index}")
    return 1 if despite else 0


def _told(opened: Opened) -> tuple[Problem, ...]:
    return with_dangers(opened.problems, opened.dangers)


def _despite(opened: Opened, inserted: Iterable[Problem], photos: Photos) -> tuple[Problem, ...]:
    """The problems, warnings apart, that the site is written in spite of."""
    found = Problems([*opened.problems, *inserted, *photos.problems])
    return tuple(problem for problem in found if problem.severity == "problem")


def _for(audience: str) -> str:
    return "the public" if audience == "public" else "the owner"
