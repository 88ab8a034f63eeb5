"""Problems are collected and told all at once, each as ``reason @ file:line``."""

import re
from collections.abc import Iterable, Iterator
from typing import Literal

import msgspec

from buildbook.basis.place import Place

Severity = Literal["problem", "warning"]

TOLD_DAYS = 90
"""Of what happened longer ago ``check`` does not tell one by one."""


_EITHER = re.compile("\x0e([^\x0f]*)\x0f([^\x0e]*)\x0e")


def either(written: str, typed: str) -> str:
    """What a hint asks for: as it is written in a file, and as it is typed on a command line."""
    return f"\x0e{written}\x0f{typed}\x0e"


SURE = either("sure: true", "confirm it")
"""How an entry says that it is meant as it stands."""

MEANT = f"{either('write sure: true', 'confirm it')} if it is right"


def as_written(hint: str) -> str:
    """A hint for somebody who writes in files."""
    return _EITHER.sub(r"\1", hint)


def as_typed(hint: str) -> str:
    """A hint for somebody who types commands."""
    return _EITHER.sub(r"\2", hint)


class Problem(msgspec.Struct, frozen=True):
    """Something wrong in the records.

    reason: lower case, no full stop, names the value that was found.
    hint: what to write instead, or nothing; it may be given with ``either``. typed: the same for a
    command line, where it differs. also: further places that take part.
    about: the slug of the one aircraft that it silences, where it is only one.
    unknown: what it names that is not there, by kind and name. once: the reason less how often it
    came, where it counts that. begins: the line on which the record begins that could not be read
    as it stands. of_flight: it asks about the flight at its place, whichever charge shows it.
    of_standing: it tells that the aircraft was flown as it stood then.
    """

    reason: str
    place: Place
    severity: Severity = "problem"
    hint: str | None = None
    also: tuple[Place, ...] = ()
    about: str | None = None
    unknown: tuple[str, str] | None = None
    once: str | None = None
    begins: int | None = None
    of_flight: bool = False
    of_standing: bool = False
    typed: str | None = None

    def __post_init__(self) -> None:
        if self.hint is not None and _EITHER.search(self.hint):
            msgspec.structs.force_setattr(self, "typed", as_typed(self.hint))
            msgspec.structs.force_setattr(self, "hint", as_written(self.hint))

    def __str__(self) -> str:
        return f"{self.reason} @ {self.place}"

    @property
    def known_by(self) -> tuple[str, Severity, str]:
        """The same for a problem when its lines have moved, or when it has come once more."""
        return self.once or self.reason, self.severity, self.about or self.place.file


class Problems:
    """A growing list of problems; iterating gives them sorted by place, each once."""

    def __init__(self, found: Iterable[Problem] = ()) -> None:
        self._found: list[Problem] = list(found)

    def add(
        self,
        reason: str,
        place: Place,
        *,
        hint: str | None = None,
        also: tuple[Place, ...] = (),
        about: str | None = None,
        unknown: tuple[str, str] | None = None,
        begins: int | None = None,
    ) -> None:
        """Note a problem: the site is not written while one stands."""
        problem = Problem(reason, place, "problem", hint, also, about, unknown, begins=begins)
        self._found.append(problem)

    def warn(
        self,
        reason: str,
        place: Place,
        *,
        hint: str | None = None,
        also: tuple[Place, ...] = (),
        about: str | None = None,
        once: str | None = None,
    ) -> None:
        """Note a warning: worth a look, and the site is written all the same."""
        self._found.append(Problem(reason, place, "warning", hint, also, about, once=once))

    def extend(self, found: Iterable[Problem]) -> None:
        """Take over problems found elsewhere."""
        self._found.extend(found)

    def __iter__(self) -> Iterator[Problem]:
        def order(problem: Problem) -> tuple[str, int, str, str]:
            return (problem.place.file, problem.place.line, problem.severity, problem.reason)

        return iter(sorted(dict.fromkeys(self._found), key=order))

    def __len__(self) -> int:
        return len(dict.fromkeys(self._found))

    @property
    def any_problem(self) -> bool:
        """Whether one of them is more than a warning."""
        return any(problem.severity == "problem" for problem in self._found)
