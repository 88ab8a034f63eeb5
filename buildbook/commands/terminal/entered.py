"""What came of entering something, in words and as JSON."""

import sys
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from buildbook.basis.place import NOWHERE
from buildbook.basis.problems import Problem
from buildbook.commands.terminal.screen import toned, wrapped
from buildbook.desk.enter import Outcome
from buildbook.desk.placing import Written


class Flags(NamedTuple):
    """How to enter: only show it, in spite of warnings, with facts as JSON."""

    dry: bool
    sure: bool
    json: bool


def print_outcome(outcome: Outcome, assumed: Sequence[str], dry: bool) -> None:
    """What was written, where, and what it changed; or why nothing was."""
    print_problems((*outcome.problems, *outcome.doubts), outcome.written)
    if outcome.done or dry:
        for line in _entries(outcome.written):
            print(line)
        if assumed:
            print(wrapped(f"assumed: {', '.join(dict.fromkeys(assumed))}", hanging="    "))
        for change in outcome.changed:
            print(wrapped(change, hanging="    "))
    if dry:
        print("Nothing was written.")
    elif not outcome.done:
        print("Nothing was written.", file=sys.stderr)
        if not outcome.problems:
            print("Add --sure if it is right.", file=sys.stderr)


def _entries(written: Iterable[Written]) -> Iterator[str]:
    for entry in written:
        yield f"{entry.file}:{entry.line}"
        yield from (f"  {line}" for line in entry.text.splitlines())


def print_problems(problems: Iterable[Problem], written: Iterable[Written] = ()) -> None:
    """Problems and doubts; the place only where it is another than the entry itself."""
    own = {(entry.file, entry.line + at) for entry in written for at in range(99)}
    for each in problems:
        tone = "problem" if each.severity == "problem" else "doubt"
        here = each.place == NOWHERE or (each.place.file, each.place.line) in own
        mark = toned(tone, "bad" if tone == "problem" else "warn", sys.stderr)
        also = "".join(f", see {place}" for place in each.also)
        print(f"{mark}: {each.reason if here else each}{also}", file=sys.stderr)
        if hint := each.typed or each.hint:
            print(wrapped(hint, indent="    "), file=sys.stderr)


def outcome_shape(outcome: Outcome, assumed: Iterable[str]) -> dict[str, object]:
    """What was written, or why not, for ``--json``."""
    return {
        "done": outcome.done,
        "written": [
            {"file": each.file, "line": each.line, "id": each.id, "text": each.text}
            for each in outcome.written
        ],
        "assumed": list(assumed),
        "changed": list(outcome.changed),
        "problems": [
            {
                "reason": each.reason,
                "file": each.place.file,
                "line": each.place.line,
                "severity": each.severity,
                "hint": each.hint,
                "also": [str(place) for place in each.also],
            }
            for each in (*outcome.problems, *outcome.doubts)
        ],
    }
