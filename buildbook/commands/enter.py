"""``buildbook enter``: write an entry into its log."""

import argparse
import datetime
import os
import sys
import textwrap
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

from buildbook.basis.nearest import did_you_mean
from buildbook.basis.notation import NotationError, quoted
from buildbook.basis.problems import Problem
from buildbook.commands.opening import GIVEN_TWICE, WrongUse, clock, hangar_folder
from buildbook.commands.terminal.command_line import HelpWithExamples
from buildbook.commands.terminal.entered import Flags, outcome_shape, print_outcome, print_problems
from buildbook.commands.terminal.screen import print_json, wrapped
from buildbook.commands.terminal.spoken_days import SpokenDay, day_doubts, goes_on, spoken_day
from buildbook.desk.enter import CannotEnter, Outcome, check_is_hangar, enter, held_hangar
from buildbook.desk.keeping import CannotWrite, alone, take_back
from buildbook.desk.new_entry import with_new_part
from buildbook.desk.placing import CannotPlace, Wanted, Written
from buildbook.desk.said.kinds_said import IN_WORDS
from buildbook.desk.spoken import NewEntry, WrongWords, further, own_key, understood
from buildbook.records.entries.kinds import AMENDING, KINDS
from buildbook.records.keys.values import TRUTH, truth_meant
from buildbook.records.ledger import Ledger

_LATE_DAYS = 2
_MOST_LINES = 30
_OFFERED: Mapping[str, tuple[str, ...]] = {"flight": ("pack", "used"), "charge": ("put_in",)}
"""What is asked for on a terminal though an entry can do without."""

_EXAMPLES = """\
examples:
  buildbook enter flight sedge 7:20 --pack P-03 --used 1480mAh
  buildbook enter charge P-03 --put-in 1520mAh --resting 4.18,4.19,4.18
  buildbook enter check sedge failsafe pass
  buildbook enter defect sedge "mode switch sticks" --station rear-left
  buildbook enter gains sedge calm roll.p=38 roll.i=21 roll.d=9
  buildbook enter flight sedge 6:50 --on "yesterday 16:40"
  buildbook enter next tern
  buildbook enter --from flights.csv
  buildbook enter --undo
Any key of an entry is an option; buildbook enter KIND --help lists those of a kind.
"""


def options(parser: argparse.ArgumentParser) -> None:
    """Declare the options. The keys of an entry are options as well: they stay in ``words``."""
    parser.formatter_class = HelpWithExamples
    parser.epilog = _EXAMPLES
    parser.allow_abbrev = False
    parser.usage = "buildbook enter KIND [AIRCRAFT] WORD...\n           [--KEY VALUE]... [HANGAR]"
    kinds = f"one of {', '.join(_KINDS)}; or next, to be asked for what a new aircraft lacks"
    parser.add_argument("words", nargs=argparse.REMAINDER, metavar="KIND", help=kinds)
    parser.add_argument("--hangar", metavar="HANGAR", help="the folder with hangar.yaml")
    parser.add_argument("--on", metavar="DAY", help="the day: yesterday, 16:40, 2026-03-01T16:40")
    parser.add_argument("--from", dest="file", metavar="FILE", help="bring in CSV, XLSX, JSON")
    parser.add_argument(
        "--mapping", metavar="FILE", help="how its columns are read (default: beside it)"
    )
    parser.add_argument("--sheet", metavar="NAME", help="which sheet of an XLSX (else the first)")
    parser.add_argument("--sure", action="store_true", help="write despite warnings")
    parser.add_argument("--dry-run", action="store_true", help="only show what would be written")
    parser.add_argument("--undo", action="store_true", help="undo the last entry")
    parser.add_argument("--json", action="store_true", help="print the facts as JSON")


_KINDS = (*KINDS, *AMENDING)
_MEANT: Mapping[str, str] = {
    "accident": "incident",
    "absturz": "incident",
    "ausbau": "remove",
    "bind": 'setting, as in setting sedge bind="taught the transmitter anew"',
    "crash": "incident",
    "discharge": "charge, as in charge P-01 --to storage",
    "einbau": "fit",
    "fault": "defect",
    "flight-time": "flight",
    "flew": "flight",
    "flown": "flight",
    "flug": "flight",
    "fly": "flight",
    "fly-away": 'incident, as in incident sedge "flew away" --severity total',
    "flyaway": 'incident, as in incident sedge "flew away" --severity total',
    "install": "fit",
    "laden": "charge",
    "ladung": "charge",
    "landing": "flight",
    "look": "inspection",
    "lost": "state, as in state P-01 scrapped --because lost",
    "lost-link": 'flight, as in flight sedge 2:10 --noticed "link lost"',
    "measure": "capacity, as in capacity P-01 2110mAh",
    "notiz": "note",
    "pid": "gains, as in gains sedge calm roll.p=38",
    "repaired": "repair",
    "reparatur": "repair",
    "replace": "fit, as in fit sedge rear-left.motor=M-09 --instead-of M-02=scrapped",
    "resistance": "charge, as in charge P-01 --resistance 3.1,3.2,3.1",
    "retire": "state, as in state P-01 retired",
    "scrap": "state, as in state R-01 scrapped",
    "sell": 'alteration, as in alteration sedge "sold" --status sold',
    "sold": 'alteration, as in alteration sedge "sold" --status sold',
    "status": 'alteration, as in alteration sedge "put away" --status stored',
    "storage": "charge, as in charge P-01 --to storage",
    "swap": "fit, as in fit sedge rear-left.motor=M-09 --instead-of M-02=scrapped",
    "trim": "setting, as in setting sedge trim.elevator='2 mm up'",
    "update": "firmware, as in firmware sedge C-01=2.4.1",
    "wartung": "inspection",
    "weighing": "weigh",
    "weight": "weigh",
}
"""Words for a kind of entry that no spelling leads to."""
_FLAGS = ("sure", "dry-run", "undo", "json", "help")


def run(options: argparse.Namespace) -> int:
    """Write an entry; 1 where it is wrong or doubted, 2 where something is missing."""
    asked = _Asked(options)
    try:
        if asked.flag("undo"):
            return _undo(asked)
        if asked.file is not None:
            if asked.words:
                raise WrongUse(f"--from brings in a file; leave out {quoted(asked.words[0])}")
            from buildbook.commands.enter_table import bring_in  # loaded only where it is asked for

            return bring_in(
                asked.folder,
                Path(asked.file),
                None if asked.mapping is None else Path(asked.mapping),
                asked.sheet,
                Flags(*map(asked.flag, ("dry-run", "sure", "json"))),
            )
        if not asked.words:
            raise WrongUse(f"what? one of {', '.join(_KINDS)}")
        if asked.words[0] == "next":
            from buildbook.commands.enter_next import HELP, enter_next

            if asked.flag("help"):
                print(wrapped(HELP))
                return 0
            if not _can_ask():
                raise WrongUse("next asks, and needs a terminal; buildbook check prints the lines")
            return enter_next(asked.folder, asked.words[1:])
        return _enter(asked)
    except (CannotEnter, CannotPlace, CannotWrite, WrongWords) as error:
        raise WrongUse(str(error)) from error


class _Asked:
    """The command line: words, keys with their values, and flags, wherever they stand."""

    def __init__(self, options: argparse.Namespace) -> None:
        self.words: list[str] = []
        self.keys: dict[str, str] = {}
        self.assumed: list[str] = []
        self._flags = {flag for flag in _FLAGS if getattr(options, flag.replace("-", "_"), False)}
        hangar: str | None = options.hangar
        if options.on is not None:
            self.keys["on"] = options.on
        rest = list(reversed(options.words))
        while rest:
            word = rest.pop()
            name, equals, value = word.removeprefix("--").partition("=")
            if word == "--":
                self.words += reversed(rest)
                break
            if not word.startswith("--"):
                self.words.append(word)
            elif name in _FLAGS:
                self._flags.add(name)
            else:
                value = value if equals else self._value(name, rest)
                if self._is_switch(name):
                    value = truth_meant(value or "true") or value
                if not value:
                    how = "; the tag stands behind it, as in --new M-61" if name == "new" else ""
                    raise WrongUse(f"{word} has no value{how}")
                if name == "hangar":
                    if hangar is not None:
                        raise WrongUse("--hangar is given twice")
                    hangar = value
                else:
                    self._key(name.replace("-", "_"), value)
        if self.words and os.path.exists(os.path.join(self.words[-1], "hangar.yaml")):
            if hangar is not None:
                raise WrongUse(GIVEN_TWICE)
            hangar = self.words.pop()
        self.folder = hangar_folder(hangar)
        self.file: str | None = options.file
        self.mapping: str | None = options.mapping or self.keys.pop("mapping", None)
        self.sheet: str | None = options.sheet or self.keys.pop("sheet", None)
        if not self.words and self.file is None:
            self.file = self.keys.pop("from", None)

    def _value(self, name: str, rest: list[str]) -> str:
        """What stands behind a key, taken off the words that are left, the next of them last."""
        if not rest or rest[-1].startswith("--"):
            return ""
        if self._is_switch(name) and truth_meant(rest[-1]) is None:
            return ""
        value = rest.pop()
        if name == "on" and rest and goes_on(value, rest[-1], clock().date()):
            value = f"{value} {rest.pop()}"
        return value

    def _is_switch(self, name: str) -> bool:
        """Whether the key is true or false, so that it may stand alone: ``--together``."""
        kind = self.words[0] if self.words else ""
        field = further(kind).get(name.replace("-", "_")) if kind in _KINDS else None
        return field is not None and field.value is TRUTH

    def _key(self, key: str, value: str) -> None:
        if key in self.keys:
            raise WrongUse(f"--{key.replace('_', '-')} is given twice")
        self.keys[key] = value

    def flag(self, name: str) -> bool:
        """Whether a flag was given."""
        return name in self._flags


def _undo(asked: _Asked) -> int:
    if asked.words:
        raise WrongUse("--undo takes back what was entered last; leave out the rest")
    check_is_hangar(asked.folder)
    with alone(asked.folder):
        taken = take_back(asked.folder)
    for line, text in taken:
        print(f"took back {line}")
        if text.count("\n") <= _MOST_LINES:
            print(textwrap.indent(text.strip("\r\n"), "  "))
    return 0


def _enter(asked: _Asked) -> int:
    kind = asked.words[0]
    if kind not in _KINDS:
        meant = _MEANT.get(kind.casefold())
        hint = f"write {meant}" if meant else did_you_mean(kind, _KINDS)
        raise WrongUse(
            f"{quoted(kind)} is not a kind of entry; {hint or 'one of ' + ', '.join(_KINDS)}"
        )
    if asked.flag("help"):
        return _help(kind)
    moment = clock()
    now, sure = moment.date(), asked.flag("sure")
    on = _on(asked, now)
    dry = asked.flag("dry-run")
    doubted = () if sure or dry else day_doubts(on, moment)
    if doubted and not (_can_ask() and _meant_all_the_same(doubted)):
        return _told(asked, Outcome(doubts=() if _can_ask() else doubted), (), dry)
    assumed = list(asked.assumed)
    if _can_ask():
        ledger = held_hangar(asked.folder)[1]
        ledger, part = with_new_part(kind, asked.words, asked.keys, ledger)
        entry = _asked(kind, asked, ledger, now)
        assumed += entry.assumed
        wanted = (Wanted(entry.entry, entry.aircraft, entry.item, part),)
        outcome = enter(asked.folder, lambda _: wanted, now, sure=sure, dry=dry)
        open_ones = () if outcome.problems or outcome.done or dry else outcome.doubts
        if open_ones and _meant_all_the_same(open_ones, outcome.written):
            outcome = enter(asked.folder, lambda _: wanted, now, sure=True)
    else:

        def entries(ledger: Ledger) -> tuple[Wanted, ...]:
            words, keys = list(asked.words), dict(asked.keys)
            ledger, part = with_new_part(kind, words, keys, ledger)
            entry = understood(kind, words[1:], keys, ledger, now.isoformat())
            assumed[:] = [*asked.assumed, *entry.assumed]
            _whole(entry, now, ledger)
            return (Wanted(entry.entry, entry.aircraft, entry.item, part),)

        outcome = enter(asked.folder, entries, now, sure=sure, dry=dry)
    return _told(asked, outcome, assumed, dry)


def _meant_all_the_same(doubts: Iterable[Problem], written: Iterable[Written] = ()) -> bool:
    """Show the doubts and ask back; whether it is to be written in spite of them."""
    print_problems(doubts, written)
    return _answer("Write it all the same? y or n", "n") in ("y", "yes")


def _told(asked: _Asked, outcome: Outcome, assumed: Sequence[str], dry: bool) -> int:
    """Say what came of it, and give the exit status."""
    if asked.flag("json"):
        print_json(outcome_shape(outcome, assumed))
    else:
        print_outcome(outcome, assumed, dry)
    return 0 if outcome.done or (dry and not outcome.problems) else 1


def _asked(kind: str, asked: _Asked, ledger: Ledger, now: datetime.date) -> NewEntry:
    """The entry, asked for where words are missing."""
    entry = understood(kind, asked.words[1:], asked.keys, ledger, now.isoformat())
    _ask(entry, asked, ledger)
    _whole(entry, now, ledger)
    return entry


def _whole(entry: NewEntry, now: datetime.date, ledger: Ledger) -> None:
    """An entry that is written days later says so. WrongUse: something is missing."""
    if entry.missing:
        missing = ", ".join(_wanted(key, entry) for key in entry.missing)
        raise WrongUse(f"{entry.kind}: missing {missing}{_last_ones(entry, ledger)}")
    on = datetime.date.fromisoformat(str(entry.entry["on"])[:10])
    if (now - on).days >= _LATE_DAYS:
        entry.entry.setdefault("entered", now.isoformat())


def _last_ones(entry: NewEntry, ledger: Ledger) -> str:
    """The last entries, where the id of one is missing."""
    from buildbook.desk.usual import last_entries

    found = last_entries(entry, ledger) if {*AMENDING} & {*entry.missing} else ()
    return f"; the last are {', '.join(found)}" if found else ""


def _on(asked: _Asked, now: datetime.date) -> SpokenDay | None:
    """The day that was said, if one was; it and others are then as a record has them."""
    for key in {"acquired", "made"} & asked.keys.keys():
        asked.keys[key] = _day(asked, key, now).text[:10]
    return _day(asked, "on", now) if "on" in asked.keys else None


def _day(asked: _Asked, key: str, now: datetime.date) -> SpokenDay:
    try:
        said = spoken_day(asked.keys[key], now)
    except NotationError as error:
        hint = f"; {error.hint}" if error.hint else ""
        raise WrongUse(f"--{key}: {error.reason}{hint}") from error
    if said.guessed:
        asked.assumed.append(f"{asked.keys[key]} → {said.text}")
    asked.keys[key] = said.text
    return said


def _can_ask() -> bool:
    return sys.stdin.isatty() and sys.stdout.isatty()


def _ask(entry: NewEntry, asked: _Asked, ledger: Ledger) -> None:
    """Ask for what is missing, and for what is usually said; an empty answer takes the offer."""
    from buildbook.desk.usual import usual  # only where somebody can be asked

    kind = entry.kind
    if "aircraft" in entry.missing:
        slug = _answer("aircraft", usual(entry, "aircraft", ledger))
        entry.missing.remove("aircraft")
        again = understood(kind, [slug, *asked.words[1:]], asked.keys, ledger, _on_of(entry))
        entry.aircraft, entry.item = again.aircraft, again.item
        entry.entry, entry.missing = again.entry, again.missing
    was_missing = bool(entry.missing)
    fields = {**further(kind), kind: own_key(kind)}
    for key in [*entry.missing, *(_OFFERED.get(kind, ()) if was_missing else ())]:
        if key not in fields or entry.entry.get(key):
            continue
        if last := _last_ones(entry, ledger) if key in AMENDING else "":
            print(wrapped(last.removeprefix("; ").capitalize()))
        answer = _answer(_wanted(key, entry), usual(entry, key, ledger), key in entry.missing)
        if answer:
            entry.add(fields[key], answer)
    entry.missing = [key for key in entry.missing if not entry.entry.get(key)]


def _on_of(entry: NewEntry) -> str:
    return str(entry.entry["on"])


def _answer(what: str, offer: str | None, needed: bool = True) -> str:
    shown = f" [{offer}]" if offer else "" if needed else " [none]"
    try:
        return input(f"{what}{shown}: ").strip() or offer or ""
    except EOFError:
        raise WrongUse("stopped; nothing was written") from None


def _wanted(key: str, entry: NewEntry) -> str:
    """A key with an example of it."""
    fields = {**further(entry.kind), entry.kind: own_key(entry.kind)}
    if key == "aircraft":
        return "aircraft (its slug or name)"
    example = fields[key].example
    option = f"--{key.replace('_', '-')}" if key != entry.kind else key
    return f"{option} (as in {example})" if example else option


def _help(kind: str) -> int:
    """The keys of a kind, each with what it is and an example."""
    said = f"buildbook enter {kind}: {own_key(kind).doc}, as in {own_key(kind).example}"
    print(wrapped(said, hanging="    "))
    if kind in IN_WORDS:
        print(wrapped(f"in words: buildbook enter {IN_WORDS[kind]}", hanging="    "))
    for key, field in further(kind).items():
        example = f", as in {field.example}" if field.example else ""
        text = f"--{key.replace('_', '-')}: {field.doc}{example}"
        print(wrapped(text, indent="  ", hanging="      "))
    return 0
