"""Figures in words: their columns, cells and asides."""

from collections.abc import Iterator
from typing import NamedTuple

from buildbook.basis import amounts
from buildbook.report.figure import BASIS_WORDS, Basis, Figure, Sensitivity, Table
from buildbook.report.reports import Reports


class Meaning(NamedTuple):
    """What a figure is called and what it means, in one line."""

    title: str
    words: str


def meaning_of(reports: Reports, name: str) -> Meaning:
    """What a figure is called; one that is not declared is called by its name."""
    known = reports.known_figures().get(name)
    if known is None:
        return Meaning(name.replace("_", " ").capitalize(), "")
    return Meaning(known.title, known.line)


def basis_words(basis: Basis) -> str:
    """How a value is known, in words: ``from the log``."""
    return BASIS_WORDS[basis]


_COLUMN_UNITS = {
    "_kg": "kg",
    "_m_s": "m/s",
    "_m": "m",
    "_a": "A",
    "_v": "V",
    "_w": "W",
    "_n": "N",
    "_s": "s",
    "_h": "h",
    "_ohm": "Ω",
    "_ah": "Ah",
    "_wh": "Wh",
}
_SLOPES = ("slope_ohm", "slope_low", "slope_high")
"""Of a resistance, a charge: a few hundredths of a milliohm."""
_SHARES = ("share", "margin", "start")
_WAYS = {"forward_m": ("forward", "aft"), "right_m": ("right", "left")}
"""Columns of places: which way a number above zero lies, and one below."""


_AS_IN_TREND = "as the trend has it"
_HEADINGS = {
    "first_ohm": f"first, {_AS_IN_TREND}",
    "slope_ohm": "change a charge",
    "slope_low": "at least",
    "slope_high": "at most",
}
"""Columns of the cells of a pack; a trend brings readings to one temperature."""


def column_words(column: str) -> str:
    """The heading of a column: ``mass_kg`` is ``mass``."""
    if column in _HEADINGS:
        return _HEADINGS[column]
    for suffix in _COLUMN_UNITS:
        column = column.removesuffix(suffix)
    return column.replace("_", " ")


def _group_words(group: str) -> str:
    return "ESC" if group == "esc" else group.replace("_", " ")


def cell_words(column: str, value: str | float | None) -> str:
    """A cell in words, by the unit in the name of its column."""
    if value is None:
        return "not recorded"
    if isinstance(value, str):
        return _group_words(value) if column == "group" else value
    if column in _SLOPES:
        return f"{amounts.fixed(value * 1000, 3)} mΩ"
    if column == "margin" and value < 0:
        return f"{amounts.share(-value)} over"
    if column in _SHARES:
        return amounts.share(value)
    if column in _WAYS:
        said = amounts.length(abs(value))
        return said if said == "0 mm" else f"{said} {_WAYS[column][value < 0]}"
    for suffix, unit in _COLUMN_UNITS.items():
        if column.endswith(suffix):
            return amounts.figure(value, unit)
    return amounts.trimmed(value, 3)


ASIDE = ("note", "seen")
"""Columns that a line of a row leaves out."""


def table_lines(table: Table) -> Iterator[str]:
    """A table in lines, its columns first: ``group, part, mass``, ``battery, P-05, 212 g``."""
    shown = [index for index, column in enumerate(table.columns) if column not in ASIDE]
    yield ", ".join(column_words(table.columns[index]) for index in shown)
    for row in table.rows:
        yield ", ".join(cell_words(table.columns[index], row[index]) for index in shown)


_SHARES_BESIDE = (
    "aft_limit",
    "forward_limit",
    "of the first",
    "predicted against flown",
    "spread",
)
"""Other values of a figure that are shares, though their names do not say so."""


_LABELS = {
    "longest flight": "longest flight that left the reserve",
    "longest motor run": "longest motor run that left the reserve",
    "of the first": f"of the first, {_AS_IN_TREND},",
}
"""What the keys of other values are too short to say."""


def aside_words(name: str, value: float) -> tuple[str, str]:
    """A label and words for another value of a figure: ``simulated, s`` is a duration."""
    label, _, unit = name.rpartition(", ")
    if label and unit == "difference":
        return name, f"{'+' if value > 0 else ''}{amounts.share(value)}"
    if label:
        return _LABELS.get(label, label), amounts.figure(value, unit)
    if name.startswith("share") or name in _SHARES_BESIDE:
        return _LABELS.get(name, name).replace("_", " "), amounts.share(value)
    for suffix, suffix_unit in _COLUMN_UNITS.items():
        if name.endswith(suffix):
            return column_words(name), amounts.figure(value, suffix_unit)
    return name.replace("_", " "), amounts.significant(value, 3)


_POINTS = ("share", "margin", "usual margin", "throttle")
"""How shares of a whole are worded: of those nobody says what per cent of per cent is."""


def moved_words(figure: Figure, moved: Sensitivity) -> str:
    """What one per cent more of an input does: ``1.3 % more``; of a temperature one degree more."""
    share, said = moved.share_per_percent, ""
    warm = next((one for one in figure.inputs if one.called == moved.input), None)
    if warm is not None and warm.unit == "K" and isinstance(warm.value, float):
        share, said = share * 100 / warm.value, "by 1 °C "
    change = share * (figure.value or 0.0)
    more = "more" if change > 0 else "less"
    if figure.worded == "height":
        return f"{said}{amounts.altitude(abs(change))} {more}"
    if figure.worded in _POINTS:
        size = amounts.trimmed(abs(change) * 100, 1)
        unit = "percentage point" if size == "1" else "percentage points"
    else:
        size, unit = amounts.trimmed(abs(share) * 100, 1), "%"
        more = "more" if share > 0 else "less"
    return f"{said}{size} {unit} {more}" if size != "0" else "next to nothing"
