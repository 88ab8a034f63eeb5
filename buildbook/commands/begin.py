"""``buildbook begin FOLDER``: start a hangar."""

import argparse
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path

from buildbook.basis.amounts import count, listed
from buildbook.basis.notation import quoted
from buildbook.commands.opening import today
from buildbook.commands.terminal.command_line import WrongUse
from buildbook.commands.terminal.screen import wrapped
from buildbook.desk.begin import (
    USUAL,
    CannotBegin,
    First,
    begin,
    check_is_free,
    layouts_of,
    starter,
)
from buildbook.records.keys.hints import likely, meant, same_as
from buildbook.records.keys.values import an

_ASKED = ("name", "kind", "layout", "diagonal", "span", "programme")
_UNASKED = (
    "Nothing was asked, as this is no terminal; no answer was read. The aircraft is called First,"
    " a multirotor: --name, --kind, --layout, and --diagonal or --span say what it is."
)
_LEFT = (
    "Left to you: which way each motor turns and which output drives it. One wrong line "
    "flips an aircraft at take-off; aircraft.yaml says where they go."
)
_LEFT_WINGED = (
    "Left to you: which socket of the receiver drives what, and which way the motor turns. A "
    "surface that goes the wrong way brings an aircraft down at take-off; aircraft.yaml says where "
    "they go."
)
_LEFT_UNPOWERED = (
    "Left to you: which socket of the receiver drives what. A surface that goes the wrong way "
    "brings an aircraft down at take-off; aircraft.yaml says where they go."
)
_LEFT_OF: Mapping[str, str] = {"aeroplane": _LEFT_WINGED, "glider": _LEFT_UNPOWERED}
_OF_THE_BUILD = ("kind", "layout", "diagonal", "span")


def options(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument(
        "folder",
        metavar="FOLDER",
        help="a new or empty folder; with --name also a hangar that is there",
    )
    parser.add_argument("--demo", action="store_true", help="copy the demo hangar into it")
    parser.add_argument(
        "--after", metavar="FILE", help="the build.json of a published build, to begin after it"
    )
    parser.add_argument("--name", metavar="NAME", help="name of the first aircraft")
    parser.add_argument(
        "--kind",
        metavar="KIND",
        type=_kind,
        choices=tuple(USUAL),
        help=f"kind of the first aircraft: {listed(tuple(USUAL), 'or')}",
    )
    parser.add_argument("--layout", metavar="LAYOUT", help="its layout, as in hexa-x")
    parser.add_argument(
        "--diagonal",
        metavar="LENGTH",
        help="motor shaft to motor shaft of a multirotor: 430mm",
    )
    parser.add_argument("--span", metavar="LENGTH", help="of an aeroplane or a glider: tip to tip")
    parser.add_argument(
        "--programme", metavar="NAME", help="its maintenance programme: small-multirotor"
    )


def _kind(text: str) -> str:
    """A kind of aircraft; of another word the one that is meant is told."""
    hint = None if text in USUAL else meant(text, frozenset(USUAL))
    if hint is not None:
        among = listed(tuple(USUAL), "or")
        raise argparse.ArgumentTypeError(f"{quoted(text)} is not {among}; {hint}")
    return text


def run(options: argparse.Namespace) -> int:
    """Begin, and say what to do next. On a terminal, ask for what no option says."""
    asked = {name: getattr(options, name) for name in _ASKED if getattr(options, name) is not None}
    if options.demo and (asked or options.after):
        raise WrongUse(f"--demo copies what is there; leave out --{next(iter(asked), 'after')}")
    try:
        another = "name" in asked and options.after is None
        if not another:
            check_is_free(Path(options.folder))
        first, files = _begun(asked, options.after, demo=options.demo)
        written = begin(Path(options.folder), files, another=another)
    except CannotBegin as error:
        raise WrongUse(str(error)) from error
    print(f"Wrote {count('file', written)} to {options.folder}.")
    if first == First() and not asked:
        print(wrapped(_UNASKED))
    if options.after is not None:
        from buildbook.desk.begin_after import CAUTION

        print(wrapped(f"Before you use any of it: {CAUTION}"))
    if first is not None:
        print(wrapped(_LEFT_OF.get(first.kind, _LEFT)))
        print(f"What to write next: buildbook check {options.folder}")
        print(f"To be asked for it instead: buildbook enter next {options.folder}")
    print(f"Next: buildbook render {options.folder} --into {options.folder}-site")
    return 0


def _begun(
    asked: dict[str, str], after: str | None, *, demo: bool
) -> tuple[First | None, Mapping[str, str] | None]:
    """The first aircraft and its files; None: the demo's. CannotBegin: what is asked can't be."""
    if demo:
        return None, None
    if after is not None:
        given = next((name for name in _OF_THE_BUILD if name in asked), None)
        if given is not None:
            raise WrongUse(f"--after takes that from the build; leave out --{given}")
        from buildbook.desk.begin_after import files_after  # loaded only where it is asked for

        return files_after(Path(after), asked.get("name"), asked.get("programme"), today())
    if not asked and sys.stdin.isatty() and sys.stdout.isatty():
        asked = _answers()
    first = _first(asked)
    return first, starter(first)


def _first(asked: dict[str, str]) -> First:
    """The aircraft of these options. WrongUse: a size of the other kind."""
    kind = asked.get("kind") or ("aeroplane" if "span" in asked else "multirotor")
    own, other = ("diagonal", "span") if kind == "multirotor" else ("span", "diagonal")
    if other in asked:
        raise WrongUse(f"{an(kind)} has no --{other}; its size is --{own}")
    plain = {name: asked[name] for name in ("name", "layout", "programme") if name in asked}
    return First(kind=kind, across=asked.get(own), **plain)


def _answers() -> dict[str, str]:
    """What is asked for on a terminal; an empty answer takes what stands in brackets."""
    print("About the first aircraft. Enter takes the answer in brackets, or leaves it for later.")
    answers = {"name": _ask("its name", "First")}
    answers["kind"] = _choice("its kind", tuple(USUAL), "multirotor")
    layouts = layouts_of(answers["kind"])
    answers["layout"] = _choice("its layout", layouts, USUAL[answers["kind"]])
    size = "diagonal" if answers["kind"] == "multirotor" else "span"
    words = {
        "span": "its span, tip to tip, as in 1400 mm",
        "diagonal": "motor shaft to motor shaft, diagonally, as in 430 mm",
    }
    offer = ""
    while across := _ask(words[size], offer):
        try:
            starter(_first(answers | {size: across}))
        except CannotBegin as error:
            print(wrapped(f"{error}."))
            offer = f"{across} mm" if across.isdigit() else ""
        else:
            return answers | {size: across}
    return answers


def _choice(what: str, choices: Sequence[str], usual: str) -> str:
    """One of them, or a word of the trade for it; what is near one is offered in brackets."""
    while True:
        answer = _ask(f"{what}: {', '.join(choices)}", usual)
        same = [one for one in choices if one == "-".join(answer.casefold().split())]
        if same:
            return same[0]
        if means := same_as(answer, frozenset(choices)):
            print(f"{answer} → {means}")
            return means
        print(f"{answer!r} is none of them.")
        parts = answer.casefold() in usual.split("-")
        usual = usual if parts else likely(answer, frozenset(choices)) or usual


def _ask(what: str, usual: str) -> str:
    shown = f" [{usual}]" if usual else ""
    try:
        return input(f"{what}{shown}: ").strip() or usual
    except EOFError:
        raise WrongUse("nothing was written: the answers ended early") from None
