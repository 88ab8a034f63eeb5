"""A hangar from the files of a keeper, read as they stand, for tests from YAML to work list."""

import datetime
from collections.abc import Mapping

from buildbook.basis.problems import Problems
from buildbook.hangar.fold import fold
from buildbook.records.reading.files import Files
from buildbook.records.reading.interpret import interpret
from buildbook.report.state import Hangar


def read(files: Mapping[str, str], as_of: str = "2026-12-31") -> tuple[Hangar, list[str]]:
    """The hangar on a day, and what the reader tells of its files."""
    content = {path: text.encode() for path, text in {"hangar.yaml": _HANGAR, **files}.items()}
    slugs = sorted({path.split("/")[1] for path in content if path.startswith("aircraft/")})
    problems = Problems()
    ledger = interpret(Files(content=content, slugs=tuple(slugs)), problems)
    assert ledger is not None
    return fold(ledger, datetime.date.fromisoformat(as_of)), [
        f"{problem} ({problem.hint})" if problem.hint else str(problem) for problem in problems
    ]


def hangar_of(files: Mapping[str, str], as_of: str = "2026-12-31") -> Hangar:
    """The same, where nothing may be wrong with the files or with what they say."""
    hangar, told = read(files, as_of)
    assert [] == told
    assert () == hangar.problems
    return hangar


_HANGAR = "format: 1\nhangar: Test shed\n"
