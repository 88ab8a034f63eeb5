"""``buildbook preview``: look at the site while you write the records."""

import argparse
import sys
from contextlib import suppress

from buildbook.basis.collector import collector_at_work
from buildbook.commands.opening import WrongUse, day_of, named_hangar, today
from buildbook.commands.terminal.command_line import add_as_of, add_hangar
from buildbook.pages.theme import UnknownTheme, theme_folders
from buildbook.publish.preview.server import PreviewServer, is_loopback
from buildbook.publish.preview.watched import Watched
from buildbook.records.reading.files import HANGAR

_PORT = 8741


def options(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    add_hangar(parser)
    parser.add_argument(
        "--for",
        dest="audience",
        choices=("owner", "public"),
        default="owner",
        help="owner: everything (default); public: only what you chose to share",
    )
    parser.add_argument(
        "--port",
        type=int,
        default=_PORT,
        metavar="PORT",
        help=f"the port (default: {_PORT}; 0: any free one)",
    )
    parser.add_argument(
        "--address",
        default="127.0.0.1",
        metavar="ADDRESS",
        help="the address to answer at (default: this machine)",
    )
    parser.add_argument(
        "--let-others-look",
        action="store_true",
        help="needed with an address that other machines can reach: they see everything",
    )
    add_as_of(parser)
    parser.add_argument("--theme", metavar="NAME", help="a theme by name, or its folder")


def run(options: argparse.Namespace) -> int:
    """Serve until Ctrl-C; 0 then."""
    if not is_loopback(options.address) and not options.let_others_look:
        raise WrongUse(
            f"--address {options.address} can be reached by others, who would see all records;"
            " if you mean it, add --let-others-look"
        )
    if not 0 <= options.port <= 65535:
        raise WrongUse(f"--port: expected 0 to 65535, got {options.port}")
    folder = named_hangar(options)
    if not (folder / HANGAR).is_file():
        raise WrongUse(f"no {HANGAR} in {folder}; name the folder of a hangar")
    try:
        theme = theme_folders(options.theme)
    except UnknownTheme as error:
        raise WrongUse(f"--theme: {error}") from error
    watched = Watched(folder, theme, options.audience, day_of(options), today)
    try:
        server = PreviewServer((options.address, options.port), watched)
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise WrongUse(
            f"cannot answer at {options.address}, port {options.port}: {reason};"
            " --port 0 takes a free one"
        ) from error
    # Ctrl-C may come as soon as the line is read.
    with collector_at_work(), server, suppress(KeyboardInterrupt):
        print(f"Preview of {folder}: {server.url} (Ctrl-C ends it)")
        sys.stdout.flush()
        server.serve_forever(poll_interval=0.1)
    print("Preview ended.")
    return 0
