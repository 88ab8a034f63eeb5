"""What is said of a thrust-stand table and of its rows that are left out."""

from collections.abc import Iterator, Sequence
from itertools import groupby

from buildbook.basis import amounts
from buildbook.basis.place import Place
from buildbook.figures.answers.propulsion.bench.plausible import (
    TIMES_LIMIT,
    Held,
    LeftOut,
    Limits,
    Meant,
    Why,
)
from buildbook.figures.laws.constants import STANDARD_GRAVITY_M_S2
from buildbook.records.ledger import BenchTable

_NAMES = {
    "throttle_share": "throttle",
    "voltage_v": "voltage",
    "current_a": "current",
    "thrust_n": "thrust",
}


_ORDER: tuple[Why, ...] = ("blank", "still", "ideal", "current", "power", "not rising")


def whole_words(table: BenchTable, found: Held, limits: Limits) -> str:
    """Why the table does not serve, and what was probably meant."""
    file = table.file
    if found.whole == "missing":
        return f"{file} has no column of {amounts.listed(_NAMES[one] for one in found.missing)}"
    if found.whole == "few":
        return f"{file} has fewer than two rows that can be used{_lost(table, found, limits)}"
    if found.whole == "throttle a share":
        said = "its throttle is never above 1 %"
    elif found.whole == "poor" or found.first is None:
        said = "it takes over ten times the power that the air needs for its thrust"
    else:
        wrong = sum(one.why in ("ideal", "current", "power") for one in found.left_out)
        said = (
            f"line {found.first.row.line} has {_because(found.first, limits)} "
            f"(so on {wrong} of {found.rows} rows)"
        )
    return f"{file} cannot be right, and none of it is used: {said}{_then(table, found.meant)}"


def _lost(table: BenchTable, found: Held, limits: Limits) -> str:
    words = "; ".join(left_out_words(table, group, limits) for group in groups(found.left_out))
    return f": {words}" if words else ""


def groups(left_out: Sequence[LeftOut]) -> Iterator[list[LeftOut]]:
    """The rows left out, those for one reason together."""
    for why in _ORDER:
        # Nobody misses a row with the motor at rest.
        rows = [one for one in left_out if one.why == why and one.row.throttle_share != 0]
        for _, some in groupby(rows, key=lambda one: one.blank):
            yield list(some)


def left_out_words(table: BenchTable, rows: Sequence[LeftOut], limits: Limits) -> str:
    """One sentence for the rows left out for one reason."""
    lines = [one.row.line for one in rows]
    where = f"line {lines[0]}" if len(lines) == 1 else f"lines {_runs(lines)}"
    meant = next((one.meant for one in rows if one.meant is not None), None)
    return f"{where} of {table.file} left out: {_because(rows[0], limits)}{_then(table, meant)}"


def _runs(lines: Sequence[int]) -> str:
    """``3, 5 to 8``."""
    runs: list[list[int]] = []
    for line in lines:
        if runs and line == runs[-1][-1] + 1:
            runs[-1].append(line)
        else:
            runs.append([line])
    return ", ".join(str(run[0]) if len(run) == 1 else f"{run[0]} to {run[-1]}" for run in runs)


def _because(one: LeftOut, limits: Limits) -> str:
    row = one.row
    watts = amounts.power((row.voltage_v or 0.0) * (row.current_a or 0.0))
    match one.why:
        case "blank":
            return f"{amounts.listed(_NAMES[name] for name in one.blank)} not written"
        case "still":
            return "no throttle, no thrust or no power"
        case "ideal":
            pull = amounts.mass((row.thrust_n or 0.0) / STANDARD_GRAVITY_M_S2)
            size = amounts.length(limits.diameter_m or 0.0)
            return (
                f"{watts} for {pull} of thrust, and any propeller of {size} takes "
                f"{amounts.power(one.least_w)} at the least"
            )
        case "current":
            return (
                f"{amounts.current(row.current_a or 0.0)}, over {TIMES_LIMIT:g} times the "
                f"{amounts.current(limits.max_current_a or 0.0)} that the motor may carry"
            )
        case "power":
            return (
                f"{watts}, over {TIMES_LIMIT:g} times the "
                f"{amounts.power(limits.max_power_w or 0.0)} that the motor may take"
            )
        case "not rising":
            return "thrust and power do not rise with the throttle there"


def _then(table: BenchTable, meant: Meant | None) -> str:
    """What was probably meant, in the units of the column."""
    if meant is None:
        return ""
    from buildbook.records.reading.bench import COLUMNS  # only where a reading is odd

    head = next(one for one in table.heads if one in COLUMNS and COLUMNS[one][0] == meant.column)
    read = meant.read / COLUMNS[head][1]
    return (
        f"; line {meant.line} probably means {head} "
        f"{amounts.significant(read * meant.factor, 3)}, not {amounts.significant(read, 3)}"
    )


def place_of(found: Held) -> Place:
    """Where the table goes wrong: its first wrong row, else its heads."""
    line = 1 if found.first is None else found.first.row.line
    return Place(found.file, line)
