"""What the reference says beyond the keys of the files: layouts, programmes, tables, inserts."""

from collections.abc import Iterable, Iterator, Sequence

from buildbook.basis.units import UNITS
from buildbook.records.layouts import (
    AEROPLANE_MOTOR_STATIONS,
    LAYOUTS,
    Layout,
    MotorStation,
    arm_of,
)
from buildbook.records.programmes import CheckRule
from buildbook.records.reading.programmes import built_in_programmes
from buildbook.words.vocabulary.lists import Term, columns, inserts, states_of
from buildbook.words.vocabulary.programmes import Rule, rule_term

_WIDTH = 56  # columns of a drawing in signs


def manual() -> str:
    """Markdown that follows the reference of the keys; ends with a line break."""
    return "\n".join(_lines()) + "\n"


def _lines() -> Iterator[str]:
    yield from _written()
    yield from _layouts()
    yield from _programmes()
    yield from _table(
        "bench tables",
        "A CSV in bench/: of a thrust stand, one row for each throttle setting; or of a propeller, "
        "CT and CP over rpm, or over J in flight. Its first line names the columns.",
        ("column", "values"),
        ((term.word, _of(term, "from")) for term in columns()),
    )
    yield from _table(
        "inserts",
        "In write-up.md, each alone on its line; in a sentence a figure, as in `@[hover_current]`.",
        ("insert", "what stands there", "example"),
        ((term.word, term.what, f"`{_of(term, 'as in')}`") for term in inserts()),
    )
    yield from _table(
        "states",
        "The states of aircraft, rows and parts.",
        ("state", "whose", "what it means"),
        states_of(),
    )


def _written() -> Iterator[str]:
    yield from _table(
        "how values are written",
        "A number, a space if you like, and a unit. A day is `2026-03-01`, with a time"
        " `2026-03-01T16:40` or `2026-03-01 16:40`; a duration `7:20` (minutes and seconds),"
        " `7 min 20 s`, `90 s` or `1.5 h`; an age `30 days`, `6 months`, `1 year 6 months`.",
        ("what", "units", "kept in"),
        (
            (
                quantity.words,
                ", ".join(f"`{unit}`" if unit else "a bare number" for unit in quantity.units),
                quantity.kept_in,
            )
            for quantity in UNITS.values()
        ),
    )


def _layouts() -> Iterator[str]:
    yield from ("", "## layouts", "", "Seen from above, front ahead; stations in reading order.")
    for layout in LAYOUTS.values():
        yield from ("", f"### {layout.name}", "", f"{layout.words[:1].upper()}{layout.words[1:]}.")
        if layout.free:
            yield _free(layout)
        else:
            yield from ("", "```", *drawn(layout.stations), "```")
        if layout.tail_servo:
            yield "Its tail servo takes no motor station."


def _free(layout: Layout) -> str:
    if layout.motorless:
        return "Nothing on it turns a propeller; parts sit at stations that you name."
    if layout.name != "aeroplane":
        return "Its stations are those that `stations:` declares."
    names = ", ".join(f"`{name}`" for name in AEROPLANE_MOTOR_STATIONS)
    return f"A motor may sit at {names}; other parts at stations that you name."


def drawn(stations: Sequence[MotorStation]) -> list[str]:
    """The stations where they sit, in signs; a coaxial pair shares its place."""
    rows: dict[float, dict[float, str]] = {}
    for station in stations:
        name = arm_of(station.name)
        said = f"{name} ×2" if station.tier != "single" else name
        rows.setdefault(round(station.forward, 3), {})[station.right] = said
    lines = []
    for forward in sorted(rows, reverse=True):
        line = ""
        for right, name in sorted(rows[forward].items()):
            middle = round((right + 1) / 2 * _WIDTH) + 6
            line = line.ljust(max(len(line) + 1 if line else 0, middle - len(name) // 2)) + name
        lines += [line, ""]
    return lines[:-1]


def _programmes() -> Iterator[str]:
    for programme in built_in_programmes().values():
        yield from ("", f"## built-in programme {programme.name}", "", programme.note or "")
        found: Sequence[tuple[Sequence[Rule], Sequence[str]]] = (
            (programme.checks, ("check", "what", "readings", "asked again after", "grounds")),
            (
                programme.tasks,
                ("task", "what", "for", "every", "tolerance", "asked again after", "grounds"),
            ),
            (programme.life_limits, ("life limit", "what", "of", "at")),
        )
        for rules, heads in found:
            yield ""
            yield from _rows(heads, (_cells(rule, heads) for rule in rules))


def _cells(rule: Rule, heads: Sequence[str]) -> Sequence[str]:
    term = rule_term(rule)
    readings = rule.readings if isinstance(rule, CheckRule) else {}
    read = "; ".join(f"{name}: {what}" for name, what in readings.items())
    further = (read if head == "readings" else _under(term, head) for head in heads[2:])
    return [f"`{term.word}`", term.what, *further]


def _under(term: Term, head: str) -> str:
    if head == "every":
        return _of(term, "every") or _of(term, "when") or _of(term, "once")
    return _of(term, head)


def _of(term: Term, label: str) -> str:
    return next((text for name, text in term.details if name == label), "")


def _table(
    title: str, words: str, heads: Sequence[str], rows: Iterable[Sequence[str]]
) -> Iterator[str]:
    yield from ("", f"## {title}", "", words, "")
    yield from _rows(heads, rows)


def _rows(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> Iterator[str]:
    yield f"| {' | '.join(heads)} |"
    yield "|" + "---|" * len(heads)
    for row in rows:
        yield "| " + " | ".join(cell.replace("|", "\\|") for cell in row) + " |"
