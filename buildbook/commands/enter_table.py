"""``buildbook enter --from FILE``: bring in a table, or entries as JSON."""

import sys
import textwrap
from collections.abc import Iterable, Iterator
from pathlib import Path

import msgspec

from buildbook.basis.amounts import count, listed
from buildbook.basis.naming import file_name
from buildbook.basis.notation import quoted
from buildbook.basis.problems import Problem
from buildbook.commands.opening import WrongUse, today
from buildbook.commands.terminal.entered import Flags, outcome_shape, print_problems
from buildbook.commands.terminal.screen import print_json, wrapped
from buildbook.desk.bringing_in.bring_in import (
    Brought,
    entries_of,
    holds_entries,
    read_entries,
)
from buildbook.desk.bringing_in.guess import guess
from buildbook.desk.bringing_in.scheme import NoScheme, read_scheme, write_scheme
from buildbook.desk.bringing_in.tables import NoTable, read_table
from buildbook.desk.enter import Outcome, enter, held_hangar
from buildbook.desk.placing import one_line
from buildbook.records.reading.unread import MAPPING

_UNPLACED = (
    "Correct the rows; in the mapping file, say under names what a name is here, or under skip"
    " which lines are no entries."
)


def bring_in(
    folder: Path, path: Path, mapping: Path | None, sheet: str | None, flags: Flags
) -> int:
    """Bring in a table; at the first try only write how it is read, and show what would come.

    sheet: which of a book. 1 where rows have no place, or entries are wrong or doubted.
    WrongUse: it is no table.
    """
    own = path.with_name(f"{path.name}{f'.{file_name(sheet)}' if sheet else ''}{MAPPING}")
    try:
        return _bring_in(folder, path, mapping or own, sheet, flags)
    except (NoScheme, NoTable) as error:
        raise WrongUse(str(error)) from error


def _bring_in(folder: Path, path: Path, mapping: Path, sheet: str | None, flags: Flags) -> int:
    ledger = held_hangar(folder)[1]
    others: tuple[str, ...] = ()
    if holds_entries(path):
        first, brought = False, read_entries(path, ledger)
    else:
        first = not mapping.exists()
        scheme = None if first else read_scheme(mapping)
        if scheme is None:
            table = read_table(path, None, sheet)
            scheme = guess(table, ledger, path.stem, sheet)
            write_scheme(mapping, scheme, path.name)
        else:
            table = read_table(path, scheme.heads, scheme.sheet)
        others = table.other_sheets
        brought = entries_of(table, scheme, ledger)
    dry = first or bool(brought.unplaced) or flags.dry
    outcome = enter(folder, lambda _: brought.wanted, today(), sure=flags.sure, dry=dry, once=True)
    if flags.json:
        shape = outcome_shape(outcome, brought.assumed)
        rows = [{"line": each.line, "reason": each.reason} for each in brought.unplaced]
        print_json({**shape, "repeated": outcome.repeated, "unplaced": rows})
    else:
        if first:
            print(f"{mapping} says how {path.name} is read:\n")
            print(textwrap.indent(mapping.read_text("utf-8"), "  "))
            _print_remarks(brought)
            if others and sheet is None:
                names = listed([quoted(other) for other in others])
                print(f"Not read: sheet {names}. Bring one in with --sheet NAME.\n")
        _print_brought(outcome, brought, path.name, every=flags.dry)
        if first:
            print(f"Look over {mapping}, then run the same command again to write.")
    wrong = outcome.problems or brought.unplaced or (outcome.doubts and not flags.sure)
    return 1 if wrong else 0


_SHOWN = 10
_LINES = 4
_REMARKS = 20


def _by_reason(brought: Brought) -> dict[str, list[int]]:
    """The lines of rows without a place, by the reason: a name that nobody has is told once."""
    found: dict[str, list[int]] = {}
    for row in brought.unplaced:
        found.setdefault(row.reason, []).append(row.line)
    return found


def _print_remarks(brought: Brought) -> None:
    """Remarks come in as they are; whether one tells of a crash is for the keeper to say."""
    notes = [
        f"{each.entry['on']}: {each.entry['note']}" for each in brought.wanted
        if each.entry.get("note")
    ]  # fmt: skip
    if notes:
        print("Remarks become notes and change nothing else. Where one tells of a hard landing,")
        print("a crash or a defect, write that too, by enter incident or enter defect:")
        for note in notes[:_REMARKS]:
            print(wrapped(note, indent="  ", hanging="    "))
        if len(notes) > _REMARKS:
            print(f"  and {len(notes) - _REMARKS} more")
        print()


def _alike_once(doubts: Iterable[Problem]) -> Iterator[Problem]:
    """Of doubts that ask the same of an aircraft for the same cause the first, with how many."""
    by_cause: dict[object, list[Problem]] = {}
    for each in doubts:
        cause = (each.about, each.also, each.hint) if each.also and each.about else each
        by_cause.setdefault(cause, []).append(each)
    for first, *more in by_cause.values():
        times = f", and {count('time', len(more)).replace(' ', ' more ')}" if more else ""
        yield msgspec.structs.replace(first, reason=f"{first.reason}{times}")


def _print_brought(outcome: Outcome, brought: Brought, name: str, *, every: bool) -> None:
    """What a table gives: entries in a line each, rows without a place, and how many of each."""
    shown = outcome.written if every or not outcome.done else ()
    for entry in sorted(shown, key=lambda entry: entry.text)[: None if every else _SHOWN]:
        print(f"  {one_line(entry)}")
    if len(shown) > _SHOWN and not every:
        print(f"  and {count('entry', len(shown) - _SHOWN)} more; --dry-run shows all")
    reasons = _by_reason(brought)
    for reason, lines in list(reasons.items())[: None if every else 2 * _SHOWN]:
        where = ", ".join(map(str, lines[: None if every else _LINES]))
        more = "" if every or len(lines) <= _LINES else f" and {len(lines) - _LINES} more"
        print(f"could not be placed: {reason} @ {name}:{where}{more}", file=sys.stderr)
    if len(reasons) > 2 * _SHOWN and not every:
        print(f"and {count('reason', len(reasons) - 2 * _SHOWN)} more", file=sys.stderr)
    print_problems((*outcome.problems, *_alike_once(outcome.doubts)))
    if brought.assumed:
        units = list(brought.assumed)
        more = f" and {len(units) - _SHOWN} more" if len(units) > _SHOWN else ""
        print(wrapped(f"assumed: {', '.join(units[:_SHOWN])}{more}", hanging="    "))
    for change in outcome.changed:
        print(wrapped(change, hanging="    "))
    number = count("entry", len(outcome.written))
    there = f", {outcome.repeated} there already" if outcome.repeated else ""
    left = f", {count('row', len(brought.unplaced))} without a place" if brought.unplaced else ""
    verb = "Wrote" if outcome.done else "Nothing was written:"
    print(f"{verb} {number}{there}{left}.")
    if brought.unplaced:
        print(wrapped(_UNPLACED))
    elif outcome.doubts and not outcome.done:
        print("Add --sure if it is right.")
