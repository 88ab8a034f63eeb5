"""``buildbook enter next``: asks for what an aircraft that is being built lacks, and writes it."""

import re
import textwrap
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from pathlib import Path
from typing import get_args

import msgspec

from buildbook.basis.amounts import listed
from buildbook.basis.nearest import did_you_mean
from buildbook.basis.notation import NotationError, quoted
from buildbook.commands.opening import WrongUse, and_folder, clock, is_none, no_hangar, today
from buildbook.commands.terminal.entered import print_problems
from buildbook.commands.terminal.screen import wrapped
from buildbook.commands.terminal.spoken_days import SpokenDay, day_doubts, spoken_day
from buildbook.desk.enter import Outcome, enter
from buildbook.desk.entry_text import scalar
from buildbook.desk.fill_in import (
    Piece,
    Place,
    append,
    entry_of,
    first_place,
    pieces,
    stemmed,
    with_answer,
    without_place,
)
from buildbook.desk.placing import Wanted
from buildbook.records.aircraft import Untracked
from buildbook.records.keys.hints import same_as
from buildbook.records.ledger import named_aircraft
from buildbook.records.parts import stem_of
from buildbook.report.next_step import NextStep
from buildbook.report.reports import Reports
from buildbook.reporting.opening import open_reports
from buildbook.words.next_steps import step_points, step_sentence, step_writes

_HOW = (
    "An empty answer leaves a value out, or what was not done yet; - leaves out the whole line; n/a"
    " says that it has no such thing. Ctrl-D ends; what was written stays."
)
HELP = (
    "buildbook enter next [AIRCRAFT] [HANGAR]: asks, group by group, for what an aircraft that is"
    f" being built lacks, and writes each answer at once. {_HOW}"
)
_SAID = {"p": "pass", "f": "fail", "y": "pass", "yes": "pass", "ok": "pass"}
_NOT_APPLICABLE = ("n/a", "na", "none", "not applicable")


_STILL = "What was written leaves it open: {} says why. Write it again once that is put right."


class _Left(Exception):
    """The keeper leaves this out."""


def enter_next(folder: Path, words: list[str]) -> int:
    """Ask, group by group, until nothing is lacking or the keeper ends it."""
    print(wrapped(_HOW))
    day = SpokenDay(today().isoformat())
    before: NextStep | None = None
    try:
        while True:
            step = _step(folder, words)
            print()
            if step == before:  # it was written, and leaves it open
                print(wrapped(_STILL.format(f"buildbook due{and_folder(folder)}")))
                return 0
            before = step
            print(wrapped(f"{step.name}: {step_sentence(step, asked=True)}."))
            if step.plan.begun or step.lack in ("hand", "serves"):
                print("That goes into lines that are there already; buildbook check shows how.")
                return 0
            if step.lack in _DATED:
                day = _day(day)
                step = msgspec.structs.replace(step, day=day.day)
            if not _group(folder, step, day):
                again = f"buildbook enter next {step.slug}{and_folder(folder)}"
                print(wrapped(f"What was left out is for later: {again} asks for it again."))
                return 0
            if step.lack == "flying":
                return 0
    except EOFError:
        print()
        return 0


def _step(folder: Path, words: list[str]) -> NextStep:
    """What the aircraft meant lacks. WrongUse: it is not clear which, or none is being built."""
    opened = open_reports(folder, None, today())
    reports = opened.reports
    if is_none(opened):
        raise no_hangar(opened)
    if reports is None or opened.broken:
        tells = f"buildbook check{and_folder(folder)}"
        raise WrongUse(f"the records have problems; {tells} tells them")
    slug = _meant(reports, words)
    step = reports.next_step(slug)
    if step is None:
        raise WrongUse(f"{slug} is not being built")
    return msgspec.structs.replace(step, day=today())


def _meant(reports: Reports, words: list[str]) -> str:
    ledger = reports.hangar.ledger
    if words:
        slug = named_aircraft(" ".join(words), ledger)
        if slug is None:
            hint = did_you_mean(words[0], ledger.aircraft) or f"one of {', '.join(ledger.aircraft)}"
            raise WrongUse(f"{quoted(words[0])} is no aircraft; {hint}")
        return slug
    built = [slug for slug, one in reports.hangar.aircraft.items() if one.status == "building"]
    if len(built) != 1:
        raise WrongUse(f"of which? {listed(built, 'or')}" if built else "nothing is being built")
    return built[0]


def _group(folder: Path, step: NextStep, day: SpokenDay) -> bool:
    """Ask for each of its pieces, and write it at once: what is written can't be lost.

    day: of its entries, perhaps with a time. False: something was left out, and is for later.
    """
    points = iter(step_points(step))
    left: set[str] = set()
    alike: dict[str, str] = {}
    for file, lines in step_writes(step):
        for piece in pieces(lines):
            if step.lack == "checks":
                print(wrapped(f"{next(points)}.", hanging="    "))
            if _named(piece) in left:
                continue
            if not _written(folder, step, file, piece.at(day.text), alike):
                left.add(_named(piece))
    return not left or _never_again(folder, step, left)


def _named(piece: Piece) -> str:
    """The spec that a part is of; else its first words."""
    first = piece.lines[0]
    found = _SPEC(first)
    return found[1] if found else first


_SPEC = re.compile(r".*\bspec: ([^,}]+)").match


def _never_again(folder: Path, step: NextStep, left: set[str]) -> bool:
    """Ask whether what was left out is not there; whether none of it is to be asked for again."""
    of_spec = {
        name: one.kind for one in step.parts for name in (*one.specs, *(new for new, _ in one.new))
    }
    kinds = {of_spec.get(name, name.rstrip(":")) for name in left}
    untagged = [kind for kind in _UNTRACKED if kind in kinds]
    if not untagged:
        return False
    said = f"  Has it no {listed(untagged, 'and no')}, or none that bears a tag? y or n [n]: "
    if _asked(said) not in ("y", "yes"):
        return False
    file = f"aircraft/{step.slug}/aircraft.yaml"
    text = f"not_tracked: [{', '.join(untagged)}]\n"
    outcome = _asked_back(partial(_append, folder, file, text))
    return outcome.done and len(untagged) == len(kinds)


_UNTRACKED = get_args(Untracked)
_DATED = ("fit", "checks", "flying")


def _day(usual: SpokenDay) -> SpokenDay:
    """The day of the next entries: that of the ones before, unless another is said."""
    while True:
        answer = _asked(f"  day [{usual.text}]: ")
        try:
            said = spoken_day(answer, today()) if answer else usual
        except NotationError as error:
            hint = f"; {error.hint}" if error.hint else ""
            print(wrapped(f"{error.reason}{hint}", indent="  "))
            continue
        doubts = day_doubts(said, clock()) if answer else ()
        print_problems(doubts)
        if answer and said.guessed and not doubts:
            print(f"  {answer} → {said.text}")
        if not doubts or _asked("  Is that right? y or n [n]: ") in ("y", "yes"):
            return said


def _written(folder: Path, step: NextStep, file: str, piece: Piece, alike: dict[str, str]) -> bool:
    """Ask until it can be written; False where it is left out.

    alike: what was answered of a part of the same kind, which goes on to be filled.
    """
    fixed = all(first_place(line) is None and not _TAGS(line) for line in piece.lines)
    if fixed:
        usual = "n" if step.lack == "flying" else "y"
        print(textwrap.indent(piece.text, "  "), end="")
        if (_asked(f"  Write that? y or n [{usual}]: ") or usual) not in ("y", "yes"):
            return False
    answers = _Answers(alike=alike)
    while True:
        try:
            filled = Piece(tuple(_filled(piece, answers)))
        except _Left:
            return False
        if filled.is_empty:
            return False
        if file.endswith("logbook.yaml"):
            wanted = (Wanted(entry_of(filled), step.slug),)
            write = partial(_enter, folder, wanted)
        else:
            write = partial(_append, folder, file, filled.text)
        written = _asked_back(write).done
        if written or fixed:
            return written
        print(wrapped(_AGAIN, indent="  "))
        answers = _Answers(answers, alike)


_AGAIN = (
    "It was not written. Once more: an empty answer takes what stands in brackets, -- leaves that"
    " value out, - the whole line."
)


class _Answers:
    """Those to the places of a piece, by question; asked again, each offers the one before."""

    def __init__(
        self, before: "_Answers | None" = None, alike: dict[str, str] | None = None
    ) -> None:
        self._before = {} if before is None else before._now
        self._alike = {} if alike is None else alike
        self._now: dict[str, str] = {}

    def ask(self, question: str, usual: str = "", like: str = "") -> str:
        """What is answered, or what stood in brackets.

        like: what it has in common with a question about a part of the same kind.
        """
        offered = self._before.pop(question, self._alike.get(like, usual))
        answer = _asked(f"  {question}{f' [{offered}]' if offered else ''}: ") or offered
        self._now[question] = "" if answer == "--" else answer
        if like:
            self._alike[like] = self._now[question]
        return self._now[question]


def _enter(folder: Path, wanted: Sequence[Wanted], sure: bool) -> Outcome:
    return enter(folder, lambda _: wanted, today(), sure=sure)


def _append(folder: Path, file: str, text: str, sure: bool) -> Outcome:
    return append(folder, file, text, today(), sure=sure)


def _asked_back(write: Callable[[bool], Outcome]) -> Outcome:
    """Write it; where it is doubted, only if the keeper says that it is meant."""
    outcome = write(False)
    print_problems((*outcome.problems, *outcome.doubts), outcome.written)
    open_ones = () if outcome.problems or outcome.done else outcome.doubts
    if open_ones and _asked("Write it all the same? y or n [n]: ") in ("y", "yes"):
        return write(True)
    return outcome


def _filled(piece: Piece, answers: _Answers) -> Iterator[str]:
    """Its lines, each place answered. _Left: all of it is left out."""
    for line in piece.lines:
        now: str | None = _tagged(line, answers) if _TAGS(line) else line
        while now is not None and (place := first_place(now)) is not None:
            kind = _KIND(line)
            like = f"{kind[1]} {place.key}" if kind else ""
            answer = answers.ask(_question(place), like=like)
            if answer == "-" or (not answer and place.key in _NEEDED):
                raise _Left
            if place.key == "result" and answer.casefold() in _NOT_APPLICABLE:
                yield with_answer(now, "not applicable")
                yield f"  because: {scalar(answers.ask('because') or 'it has none')}"
                return
            if place.choices:
                chosen = _choice(answer, place.choices)
                if chosen is None:
                    continue
                answer = chosen
            if place.asked == "day" and answer:
                answer = _bought(answer)
            now = with_answer(now, answer) if answer else without_place(now)
        if now is not None:
            yield now
        if now is not None and now.strip() == "result: fail":
            key = "findings" if "inspection:" in piece.text else "note"
            yield f"  {key}: {scalar(answers.ask('what was found') or 'not said')}"


def _bought(answer: str) -> str:
    """A day as a record has it; what is none stays, and is told when it is read."""
    try:
        return spoken_day(answer, today()).day.isoformat()
    except NotationError:
        return answer


_KIND = re.compile(r"- \{spec: [^,]+, kind: ([^,]+),").match
_NEEDED = ("result", "spin", "weigh")


def _question(place: Place) -> str:
    """``motor mass, g``."""
    words = f"{place.of} {place.key}".strip() or place.asked
    hint = place.asked if place.asked not in (place.key, words, "number") else ""
    hint = f"{place.stem}{hint or '…'}" if place.stem else hint
    unit = f", {place.unit}" if place.unit else ""
    words, hint = words.strip('"'), hint.replace(" seen ", ", seen ")
    return f"{words}{unit}{f' ({hint})' if hint else ''}"


def _choice(answer: str, choices: tuple[str, ...]) -> str | None:
    """One of the words, of which the beginning is enough, in small or capital letters."""
    low = answer.casefold()
    if "pass" in choices:
        low = _SAID.get(low, low)
    if not low:
        return low
    by_word = {one.casefold(): one for one in choices}
    if low in by_word:
        return by_word[low]
    meant = [one for one in choices if one.casefold().startswith(low)]
    found = meant[0] if len(meant) == 1 else same_as(answer, frozenset(choices))
    if found is not None:
        return found
    print(f"  {quoted(answer)} is neither {listed(choices, 'nor')}")
    return None


_TAGS = re.compile(r"- \{tags?: ([^,]+), spec: ([^,}]+)").match


_TAGS_APART = re.compile(r"(\.\.|[,\s\[\]]+)").split


def _tagged(line: str, answers: _Answers) -> str:
    """The line with other tags, where the parts have some."""
    found = _TAGS(line)
    assert found is not None
    offered = found[1].partition("..")[0] if "<" in found[1] else found[1]
    stem = stem_of([offered])
    asked = f" (all of them, as in {offered}..{stem}4)" if "<" in found[1] else ""
    answer = answers.ask(f"tag or tags of {found[2]}{asked}", offered) or offered
    if answer == "-":
        raise _Left
    answer = "".join(stemmed(one, stem) for one in _TAGS_APART(answer))
    several = ".." in answer or "," in answer
    said = f"[{answer.strip('[]')}]" if "," in answer else answer
    return f"- {{{'tags' if several else 'tag'}: {said}{line[found.end(1) :]}"


def _asked(what: str) -> str:
    return input(what).strip()
