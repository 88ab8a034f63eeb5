"""Figures that go by subject: a line for those told alike, and their working likewise."""

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple, TypeVar

import msgspec
from markupsafe import Markup

from buildbook.basis.place import Place
from buildbook.report.figure import Basis, Figure, Input, Name
from buildbook.words.measures.figure_values import value_words

Moves = tuple[tuple[str, str], ...]
T = TypeVar("T")
MANY = 4  # inputs written in one place: so many have one line
WRAPS, NARROW = 12, 38
"""Letters: of a column of words, and of a row that a phone has room for."""

ALL = "all"
"""The subject of a figure that is of none, beside others that are of one."""


class Shown(msgspec.Struct, frozen=True, kw_only=True):
    """One figure, ready to be shown.

    formula: MathML where the law has one, else None and ``method`` tells how. other: label and
    words of the same by another way. moves: what changes it most. numeric: columns of numbers.
    """

    figure: Figure
    inputs: tuple[Input, ...]
    formula: Markup | None
    method: str
    valid: str
    columns: tuple[str, ...] = ()
    numeric: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
    other: tuple[tuple[str, str], ...] = ()
    moves: tuple[tuple[Name, str], ...] = ()

    def beside(self, name: Name) -> str:
        """The name of an input as it stands beside the subject of this figure."""
        return name.beside(self.figure.about or self.figure.of or "", self.figure.load or "")

    @property
    def is_narrow(self) -> bool:
        """Whether a phone has room for a row of its table: words wrap, numbers do not."""
        columns = zip(self.columns, *self.rows, strict=True)
        widths = ((column[0], max(map(len, column))) for column in columns)
        return sum(w if name in self.numeric else min(w, WRAPS) for name, w in widths) <= NARROW


class Column(msgspec.Struct, frozen=True, kw_only=True):
    """An input that is not the same for all subjects; its basis where that is.

    notes: each once, with the subjects that it holds for, none where it holds for all.
    """

    name: str
    basis: str
    notes: tuple[tuple[tuple[str, ...], str], ...]


class Row(msgspec.Struct, frozen=True, kw_only=True):
    """What went in for these subjects, a cell for each column."""

    subjects: tuple[str, ...]
    cells: tuple[Input | None, ...]

    def places(self, shared: Sequence[Input]) -> tuple[Place, ...]:
        """Where that is written, once each; shared: what stands elsewhere, with its place."""
        own = (cell for cell in self.cells if cell is not None and cell not in shared)
        return tuple(dict.fromkeys(cell.place for cell in own if cell.place))


class Named(NamedTuple):
    """A figure, and what it is called on the page."""

    name: str
    title: str


class Worked(msgspec.Struct, frozen=True, kw_only=True):
    """One way in which figures of a name were come by.

    of: the subject, where there is one alone. same: inputs that all of them share. columns, rows:
    the others. notes: with the subjects that they hold for, none where they hold for all.
    moves: for the first subject of those that the same inputs move. rows_of: the figure above at
    which the same rows stand, where there is one.
    """

    one: Shown
    of: str
    same: tuple[Input, ...]
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    notes: tuple[tuple[tuple[str, ...], tuple[str, ...]], ...]
    moves: tuple[tuple[str, Moves], ...]
    rows_of: Named | None = None

    def together(self, shared: Sequence[Input]) -> tuple[tuple[Input, ...], ...]:
        """Of its own inputs many that are written in one place and known alike: told in one line.

        shared: those that stand elsewhere.
        """
        by: dict[tuple[Place | None, Basis], list[Input]] = {}
        for given in self.same:
            if given not in shared and not given.note:
                by.setdefault((given.place, given.basis), []).append(given)
        return tuple(tuple(found) for found in by.values() if len(found) >= MANY)

    def alone(self, shared: Sequence[Input]) -> tuple[Input, ...]:
        """Its own inputs that have a line each."""
        together = {given for found in self.together(shared) for given in found}
        return tuple(one for one in self.same if one not in shared and one not in together)


def ways_of(shown: Iterable[Shown], told: tuple[str, ...]) -> Iterator[Worked]:
    """Each way once. told: notes that stand above all of them already."""
    by_method: dict[str, list[Shown]] = {}
    for one in shown:
        by_method.setdefault(one.method, []).append(one)
    for method in sorted(by_method):
        yield _worked(by_method[method], told)


def _worked(found: list[Shown], told: tuple[str, ...]) -> Worked:
    subjects = tuple(one.figure.of or ALL for one in found)
    of_subjects = [*zip(found, subjects, strict=True)]
    given = [_by_name(one, len(found) > 1) for one in found]
    names = tuple(dict.fromkeys(name for each in given for name in each))
    same = {name for name in names if all(each.get(name) == given[0].get(name) for each in given)}
    own = tuple(name for name in names if name not in same)
    notes = (
        (subject, note)
        for one, subject in of_subjects
        for note in one.figure.notes
        if note not in told
    )
    moves = {
        tuple(sorted(name for name, _ in moved)): (subject, moved)
        for subject, moved in reversed([*_moves(found)])
    }
    return Worked(
        one=found[0],
        of=found[0].figure.of or "" if len(found) == 1 else "",
        same=tuple(given[0][name] for name in names if name in same),
        columns=tuple(_column(name, subjects, given) for name in own),
        rows=tuple(_rows(own, subjects, given)) if own else (),
        notes=tuple(_by_subjects(_unless_all(gathered(notes), len(found)))),
        moves=tuple(reversed(moves.values())),
    )


def _by_name(one: Shown, one_of_several: bool) -> dict[str, Input]:
    """The inputs of a figure by their names without its subject, which stands beside them."""
    found: dict[str, Input] = {}
    for each in one.inputs:
        name = one.beside(each.called) if one_of_several else each.name
        name = each.name if name in found else name
        found[name] = msgspec.structs.replace(each, called=Name(name))
    return found


def _column(name: str, subjects: tuple[str, ...], given: list[dict[str, Input]]) -> Column:
    cells = [
        (subject, each[name]) for subject, each in zip(subjects, given, strict=True) if name in each
    ]
    basis = {cell.basis for _, cell in cells}
    notes = gathered((subject, cell.note) for subject, cell in cells if cell.note)
    return Column(
        name=name,
        basis=basis.pop() if len(basis) == 1 else "",
        notes=tuple(_unless_all(notes, len(cells))),
    )


def _rows(
    own: tuple[str, ...], subjects: tuple[str, ...], given: list[dict[str, Input]]
) -> Iterator[Row]:
    """Subjects for which all of it is the same have one row."""
    cells = (tuple(each.get(name) for name in own) for each in given)
    for together, row in gathered(zip(subjects, cells, strict=True)):
        yield Row(subjects=together, cells=row)


def _moves(found: Iterable[Shown]) -> Iterator[tuple[str, Moves]]:
    for one in found:
        if one.moves:
            yield (
                one.figure.of or "",
                tuple((one.beside(name), words) for name, words in one.moves),
            )


def gathered(found: Iterable[tuple[str, T]]) -> tuple[tuple[tuple[str, ...], T], ...]:
    """What is the same for several subjects once, with all of them, in the order they come."""
    by: list[tuple[list[str], T]] = []
    for subject, value in found:
        at = next((each for each in by if each[1] == value), None)
        if at is None:
            by.append(([subject], value))
        else:
            at[0].append(subject)
    return tuple((tuple(subjects), value) for subjects, value in by)


def _unless_all(
    gathered: Iterable[tuple[tuple[str, ...], T]], many: int
) -> Iterator[tuple[tuple[str, ...], T]]:
    for subjects, value in gathered:
        yield (() if len(subjects) == many else subjects), value


def _by_subjects(
    notes: Iterable[tuple[tuple[str, ...], str]],
) -> Iterator[tuple[tuple[str, ...], tuple[str, ...]]]:
    """Notes that hold for the same subjects together."""
    by: dict[tuple[str, ...], list[str]] = {}
    for subjects, note in notes:
        by.setdefault(subjects, []).append(note)
    for subjects, found in by.items():
        yield subjects, tuple(found)


class Told(msgspec.Struct, frozen=True, kw_only=True):
    """What is told of a subject: value, ends of the interval and its level, and the rest in words.

    value, low and high are empty where there are none.
    """

    value: str
    low: str
    high: str
    level: float | None
    basis: Basis
    verdict: str
    other: tuple[tuple[str, str], ...]


class AnswerLine(msgspec.Struct, frozen=True, kw_only=True):
    """Subjects of which the same is told."""

    subjects: tuple[str, ...]
    told: Told


def answer_lines(shown: Iterable[Shown]) -> Iterator[AnswerLine]:
    """In the order of their first subjects."""
    for subjects, told in gathered((one.figure.of or ALL, _told(one)) for one in shown):
        yield AnswerLine(subjects=subjects, told=told)


def _told(one: Shown) -> Told:
    figure = one.figure
    ranged = figure.low is not None and figure.high is not None
    return Told(
        value=_words(figure, figure.value),
        low=_words(figure, figure.low) if ranged else "",
        high=_words(figure, figure.high) if ranged else "",
        level=figure.level if ranged else None,
        basis=figure.basis,
        verdict=figure.verdict or "",
        other=one.other,
    )


def _words(figure: Figure, value: float | None) -> str:
    return "" if value is None else value_words(figure, value)
