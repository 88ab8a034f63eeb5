"""``buildbook render``: write the site."""

import argparse
import sys
from pathlib import Path

from buildbook.audience.view import View
from buildbook.basis.problems import Problems
from buildbook.basis.saying import count
from buildbook.commands.choices import add_as_of, add_hangar
from buildbook.commands.opening import WrongUse, open_hangar
from buildbook.commands.progress import Bar
from buildbook.commands.screen import tell_problems
from buildbook.figures.answers.everything import figures_of_aircraft, figures_of_item
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
    inserted = inserts.problems(opened.hangar) if opened.hangar is not None else ()
    if opened.hangar is None or opened.work is None or opened.broken:
        tell_problems(Problems([*opened.problems, *inserted]))
        print("Nothing was written.", file=sys.stderr)
        return 1
    photos = photos_of(opened.hangar, opened.folder)
    view = View(
        opened.hangar,
        opened.work,
        options.audience,
        figures_of_aircraft,
        figures_of_item,
        photos.shown,
    )
    found = Problems([*opened.problems, *view.problems, *inserted, *photos.problems])
    tell_problems(found)
    if found.any_problem:
        print("Nothing was written.", file=sys.stderr)
        return 1
    target = Path(options.into)
    try:
        with Bar(sys.stderr) as bar:
            files = render(view, target, theme, photos=photos.files, progress=bar.show)
    except CannotWrite as error:
        raise WrongUse(str(error)) from error
    print(f"Wrote {count('file', files)} for {_for(options.audience)}: {target / 'index.html'}")
    return 0


def _for(audience: str) -> str:
    return "the public" if audience == "public" else "the owner"
