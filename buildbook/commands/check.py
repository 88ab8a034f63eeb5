"""``buildbook check``: what is wrong in the records."""

import argparse
import re
import sys
from functools import partial

from buildbook.basis.amounts import count
from buildbook.basis.problems import Problem, Problems
from buildbook.commands.opening import Opened, WrongUse, and_folder, open_hangar
from buildbook.commands.terminal.command_line import add_as_of, add_hangar, add_json
from buildbook.commands.terminal.screen import print_json, print_problems, tally, wrapped
from buildbook.records.outputs.seal import BrokenSeal, changed_entries, read_seal
from buildbook.report.next_step import NextStep
from buildbook.report.reports import Audience, Reports
from buildbook.words.upkeep.check import failed_so_far, open_rows, with_dangers


def options(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    add_hangar(parser)
    add_as_of(parser)
    add_json(parser)
    parser.add_argument(
        "--for",
        dest="audience",
        choices=("owner", "public"),
        default="owner",
        help="public: also report anything that would give private details away",
    )
    parser.add_argument(
        "--all",
        action="store_true",
        help="also list old flights made while something that grounds was open",
    )
    parser.add_argument(
        "--explain", action="store_true", help="also show each line, with a caret under the fault"
    )
    parser.add_argument(
        "--seal",
        action="store_true",
        help="write a digest of each entry to seal.json, so that a silent change shows later",
    )


def run(options: argparse.Namespace) -> int:
    """Print the problems; 1 where one stands."""
    opened = open_hangar(options)
    inserted = _inserted(opened)
    leaked = _leaked(opened) if options.audience == "public" else ()
    earlier = _earlier(opened) if options.all else ()
    photos = _photos(opened, options.audience)
    of_records = with_dangers(opened.problems, opened.dangers)
    lost = _lost_links(opened)
    found = Problems([*of_records, *inserted, *lost, *leaked, *photos, *earlier, *_seals(opened)])
    broken = found.any_problem
    sealed = _seal(opened, broken) if options.seal else None
    if options.json:
        from buildbook.words.for_machines import problems_shape  # each only where it is asked for

        print_json(problems_shape(found))
        return 1 if broken else 0
    shown = None
    if options.explain:
        from buildbook.commands.terminal.screen import explained

        shown = partial(explained, folder=opened.folder)
    print_problems(found, sys.stdout, shown)
    if opened.reports is not None and not broken:
        ledger = opened.reports.hangar.ledger
        read = ", ".join(
            (
                count("aircraft", len(ledger.aircraft)),
                count("item", len(ledger.items)),
                count("entry", len(ledger.entries)),
            )
        )
        told = "" if not found else f", {tally(found)}"
        print(f"Read {read}: no problems{told}.")
        print(wrapped(open_rows(opened.reports.work)))
        _print_next(opened.reports, and_folder(opened.folder))
    if sealed is not None:
        print(f"Sealed {count('entry', sealed)} that had no seal yet.")
    return 1 if broken else 0


def _print_next(reports: Reports, folder: str) -> None:
    """What to write next of each aircraft that is being built."""
    for slug, aircraft in reports.hangar.aircraft.items():
        if aircraft.status != "building":
            continue  # no step, and what looks for it takes long to load
        step = reports.next_step(slug)
        if step is not None:
            failed = failed_so_far(reports.set_up_checks(slug))
            if failed:
                print(wrapped(f"{step.name}: {failed}"))
            _print_step(step, folder)


def _print_step(step: NextStep, folder: str) -> None:
    """The lines begin at the edge, as they do in the file, so that they can be taken over."""
    from buildbook.words.next_steps import step_points, step_sentence, step_writes

    print(wrapped(f"Next for {step.name}: {step_sentence(step)}."))
    for point in step_points(step):
        print(wrapped(f"  {point}.", hanging="    "))
    if step.names:
        print(wrapped(f"Then: {', '.join(step.names)}", hanging="    "))
    for file, lines in step_writes(step):
        print(f"In {file}:\n")
        print("\n".join(lines))
        print()
    print(wrapped(f"To be asked for it instead: buildbook enter next {step.slug}{folder}"))


def _earlier(opened: Opened) -> tuple[Problem, ...]:
    """What is else told as one count."""
    from buildbook.upkeep.dangers.flown_while import flown_while_earlier
    from buildbook.upkeep.packs.reserve import reserve_warnings_earlier

    if opened.reports is None or opened.gathered is None:
        return ()
    hangar, gathered = opened.reports.hangar, opened.gathered
    return (
        *flown_while_earlier(hangar, gathered.triggers),
        *reserve_warnings_earlier(hangar, gathered.into_reserve),
    )


def _inserted(opened: Opened) -> tuple[Problem, ...]:
    """What is wrong with the inserts of build stories, where there are any."""
    if opened.reports is None or not opened.reports.hangar.ledger.write_ups:
        return ()
    from buildbook.pages.story import inserts

    return inserts.problems(opened.reports)


_LINKED = re.compile(r"(?<!!)\[[^]]*\]\((?!https?:|mailto:|#)|^ {0,3}\[[^]^]+\]:", re.MULTILINE)
"""What may be a link to a page of the site, and no picture: without one no page is made."""


def _lost_links(opened: Opened) -> tuple[Problem, ...]:
    """Links of build stories that lead nowhere in public; only where a story has such a link."""
    if opened.reports is None:
        return ()
    written = opened.reports.hangar.ledger.write_ups
    if not any(_LINKED.search(one.text) for one in written.values()):
        return ()
    from buildbook.audience.projection import projected
    from buildbook.pages.lost_links import lost_links

    return tuple(lost_links(opened.reports, projected(opened.reports, "public").reports))


def _leaked(opened: Opened) -> tuple[Problem, ...]:
    """What a public render would refuse to write."""
    from buildbook.audience.projection import projected  # only here: the owner's check is quicker

    return () if opened.reports is None else projected(opened.reports, "public").problems


def _photos(opened: Opened, audience: Audience) -> tuple[Problem, ...]:
    """What a render would say of the photographs."""
    if opened.reports is None or not any(opened.reports.hangar.ledger.photos.values()):
        return ()
    from buildbook.publish.photos import photo_problems  # only here: a decoder takes long to load

    return tuple(photo_problems(opened.reports.hangar, opened.folder, audience))


def _seals(opened: Opened) -> tuple[Problem, ...]:
    if opened.reports is None:
        return ()
    try:
        return tuple(changed_entries(opened.reports.hangar.ledger, read_seal(opened.folder)))
    except BrokenSeal as error:
        raise WrongUse(str(error)) from error


def _seal(opened: Opened, broken: bool) -> int:
    if opened.reports is None or broken:
        raise WrongUse("--seal: the records have problems; nothing was sealed")
    from buildbook.desk.seal import CannotSeal, seal

    try:
        return seal(opened.folder, opened.reports.hangar.ledger)
    except (BrokenSeal, CannotSeal) as error:
        raise WrongUse(str(error)) from error
