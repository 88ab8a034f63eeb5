"""``buildbook render``: write the site."""

import argparse
import sys
from pathlib import Path

from buildbook.audience.projected import projected
from buildbook.basis.problems import Problems
from buildbook.basis.saying import count
from buildbook.commands.choices import add_as_of, add_hangar
from buildbook.commands.opening import WrongUse, open_hangar
from buildbook.commands.progress import Bar
from buildbook.commands.screen import tell_problems
from buildbook.pages import inserts
from buildbook.pages.theme import UnknownTheme, theme_folders
from buildbook.publish.photos import photos_of
from buildbook.publish.render import render
from buildbook.publish.swap import CannotWrite


def options(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    add_hangar(parser)
    parser.add_argument("--into", metavar="SITE", default="site", help="the folder to write")
    parser.add_argument(
        "--for",
        dest="audience",
        choices=("owner", "public"),
        default="owner",
        help="owner: everything (default); public: only what you chose to share",
    )
    add_as_of(parser)
    parser.add_argument("--theme", metavar="NAME", help="a theme by name, or its folder")


def run(options: argparse.Namespace) -> int:
    """Render; 1 where the records have a problem, and then nothing is written."""
    try:
        theme = theme_folders(options.theme)
    except UnknownTheme as error:
        raise WrongUse(f"--theme: {error}") from error
    opened = open_hangar(options)
    inserted = () if opened.reports is None else inserts.problems(opened.reports.hangar)
    if opened.reports is None or opened.broken:
        tell_problems(Problems([*opened.problems, *inserted]))
        print("Nothing was written.", file=sys.stderr)
        return 1
    photos = photos_of(opened.reports.hangar, opened.folder)
    shown = projected(opened.reports, options.audience, photos.shown)
    found = Problems([*opened.problems, *shown.problems, *inserted, *photos.problems])
    tell_problems(found)
    if found.any_problem:
        print("Nothing was written.", file=sys.stderr)
        return 1
    target = Path(options.into)
    try:
        with Bar(sys.stderr) as bar:
            files = render(shown.reports, target, theme, photos=photos.files, progress=bar.show)
    except CannotWrite as error:
        raise WrongUse(str(error)) from error
    print(f"Wrote {count('file', files)} for {_for(options.audience)}: {target / 'index.html'}")
    return 0


def _for(audience: str) -> str:
    return "the public" if audience == "public" else "the owner"
