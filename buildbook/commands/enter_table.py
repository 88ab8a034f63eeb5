"""``buildbook enter --from FILE``: bring in a table, or entries as JSON."""

import sys
import textwrap
from pathlib import Path

from buildbook.basis.amounts import count
from buildbook.commands.entered import Flags, one_line, outcome_shape, print_problems
from buildbook.commands.opening import WrongUse, today
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


def bring_in(folder: Path, path: Path, mapping: Path | None, flags: Flags) -> int:
    """Bring in a table; at the first try only write how it is read, and show what would come.

    1 where rows have no place, or entries are wrong or doubted. WrongUse: it is no table.
    """
    try:
        return _bring_in(
            folder, path, mapping or path.with_name(f"{path.name}.mapping.yaml"), flags
        )
    except (NoScheme, NoTable) as error:
        raise WrongUse(str(error)) from error


def _bring_in(folder: Path, path: Path, mapping: Path, flags: Flags) -> int:
    ledger = held_hangar(folder)[1]
    if holds_entries(path):
        first, brought = False, read_entries(path, ledger)
    else:
        first = not mapping.exists()
        scheme = None if first else read_scheme(mapping)
        table = read_table(path, None if scheme is None else scheme.heads)
        if scheme is None:
            scheme = guess(table, ledger, path.stem)
            write_scheme(mapping, scheme, path.name)
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
        _print_brought(outcome, brought, path.name, every=flags.dry)
        if first:
            print(f"Look over {mapping}, then run the same command again to write.")
    wrong = outcome.problems or brought.unplaced or (outcome.doubts and not flags.sure)
    return 1 if wrong else 0


_SHOWN = 10


def _print_brought(outcome: Outcome, brought: Brought, name: str, *, every: bool) -> None:
    """What a table gives: entries in a line each, rows without a place, and how many of each."""
    shown = outcome.written if every or not outcome.done else ()
    for entry in sorted(shown, key=lambda entry: entry.text)[: None if every else _SHOWN]:
        print(f"  {one_line(entry)}")
    if len(shown) > _SHOWN and not every:
        print(f"  and {count('entry', len(shown) - _SHOWN)} more; --dry-run shows all")
    for row in brought.unplaced[: None if every else 2 * _SHOWN]:
        print(f"could not be placed: {row.reason} @ {name}:{row.line}", file=sys.stderr)
    print_problems((*outcome.problems, *outcome.doubts))
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
        print("Correct the rows, or name their lines under skip in the mapping file.")
    elif outcome.doubts and not outcome.done:
        print("Add --sure if it is right.")
