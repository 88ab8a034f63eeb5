"""Contradictions found while folding; repeats of one on one aircraft become one line."""

from collections.abc import Iterator

import msgspec

from buildbook.basis.place import Place
from buildbook.basis.problems import Problem, Problems, Severity


class Objections:
    """A growing list of contradictions.

    Two objections repeat each other when they are about the same aircraft and have the same
    ``again``, which names the contradiction without its day.
    """

    def __init__(self) -> None:
        self._first: dict[tuple[str | None, str], Problem] = {}
        self._counts: dict[tuple[str | None, str], int] = {}

    def object(
        self,
        reason: str,
        place: Place,
        *,
        again: str | None = None,
        severity: Severity = "problem",
        hint: str | None = None,
        also: tuple[Place, ...] = (),
        about: str | None = None,
    ) -> None:
        """Note one; ``again`` defaults to the reason itself."""
        key = (about, again or reason)
        self._counts[key] = self._counts.get(key, 0) + 1
        if key not in self._first:
            self._first[key] = Problem(reason, place, severity, hint, also, about)

    def __iter__(self) -> Iterator[Problem]:
        """All of them, sorted by place, each with its count where it came more than once."""
        found = Problems(
            problem
            if self._counts[key] == 1
            else msgspec.structs.replace(
                problem,
                reason=f"{problem.reason}, {self._counts[key]} times in all",
                once=problem.reason,
            )
            for key, problem in self._first.items()
        )
        return iter(found)
