"""Words on a terminal: 80 columns or what it has, colour and progress on a terminal only."""

import io
import os
import re
import stat
import sys
import textwrap
import time
from collections.abc import Callable, Iterable, Iterator
from contextlib import suppress
from pathlib import Path
from types import TracebackType
from typing import Literal, TextIO

from buildbook.basis.amounts import count
from buildbook.basis.problems import Problem
from buildbook.records.keys.plain_text import Unreadable, decoded

WIDTH = 80
"""No line of prose is longer, however wide the terminal is."""
_NARROWEST = 40
Tone = Literal["bad", "warn", "good", "soft", "strong"]
_CODES: dict[Tone, str] = {"bad": "31", "warn": "33", "good": "32", "soft": "2", "strong": "1"}


def any_terminal(*streams: TextIO) -> None:
    """Let streams take any text: UTF-8 into a file, replacements where a terminal lacks a sign.

    ``PYTHONIOENCODING`` names the encoding of both, files included.
    """
    for stream in streams:
        if not isinstance(stream, io.TextIOWrapper):
            continue
        if "PYTHONIOENCODING" not in os.environ and _is_file(stream):
            stream.reconfigure(encoding="utf-8", errors="replace")
        else:
            stream.reconfigure(errors="replace")


def _is_file(stream: TextIO) -> bool:
    try:
        return stat.S_ISREG(os.fstat(stream.fileno()).st_mode)
    except (OSError, ValueError):  # closed, or no file of the system
        return False


def mute(stream: TextIO) -> None:
    """Let whatever is still to be written to a stream go nowhere, also when the program ends."""
    with suppress(OSError, ValueError), open(os.devnull, "wb") as nowhere:
        os.dup2(nowhere.fileno(), stream.fileno())


def print_json(shape: object) -> None:
    """Print facts as JSON; signs that the encoding of the output lacks are escaped, not lost."""
    import json  # only where it is asked for

    encoding = (sys.stdout.encoding or "utf-8").lower().replace("_", "-")
    print(json.dumps(shape, ensure_ascii=encoding not in ("utf-8", "utf8"), indent=2))


def has_colour(stream: TextIO) -> bool:
    """Whether to colour: a terminal that hasn't asked for none."""
    return stream.isatty() and "NO_COLOR" not in os.environ and os.environ.get("TERM") != "dumb"


def toned(text: str, tone: Tone, stream: TextIO) -> str:
    """The text in a tone, where the stream shows colour."""
    return f"\x1b[{_CODES[tone]}m{text}\x1b[0m" if has_colour(stream) else text


def width() -> int:
    """Columns for prose: those of the terminal or of ``COLUMNS``, 40 at least and 80 at most."""
    return min(WIDTH, max(_NARROWEST, columns()))


def columns() -> int:
    """Of the terminal or of ``COLUMNS``, as ``shutil`` has them, which loads its compressors."""
    asked = os.environ.get("COLUMNS", "")
    if asked.isdecimal() and int(asked):
        return int(asked)
    try:
        return os.get_terminal_size(sys.__stdout__.fileno()).columns or WIDTH  # type: ignore[union-attr]
    except (AttributeError, ValueError, OSError):  # no terminal
        return WIDTH


def wrapped(text: str, *, indent: str = "", hanging: str | None = None) -> str:
    """The text in lines of the screen's width; words longer than that stay whole."""
    length = len(indent) + len(text)
    if "\n" not in text and (length <= _NARROWEST or length <= width()):  # most, and far quicker
        return f"{indent}{text}"
    return textwrap.fill(
        text,
        width(),
        initial_indent=indent,
        subsequent_indent=indent if hanging is None else hanging,
        break_long_words=False,
        break_on_hyphens=False,
    )


def print_problems(
    problems: Iterable[Problem],
    stream: TextIO | None = None,
    lines_of: Callable[[Problem], Iterable[str]] | None = None,
) -> None:
    """Print each problem as ``reason @ file:line`` with its hint, then how many there are.

    lines_of: lines to print between the two.
    """
    out = sys.stderr if stream is None else stream
    told = list(problems)
    for problem in told:
        tone: Tone = "bad" if problem.severity == "problem" else "warn"
        also = "".join(f", and {place}" for place in problem.also)
        mark = toned(problem.severity, tone, out)
        print(f"{mark}: {problem}{also}", file=out)
        for line in () if lines_of is None else lines_of(problem):
            print(line, file=out)
        if problem.hint:
            print(wrapped(problem.hint, indent="    "), file=out)
    if told:
        print(tally(told), file=out)


def tally(problems: Iterable[Problem]) -> str:
    """``2 problems, 1 warning``."""
    told = list(problems)
    wrong = sum(problem.severity == "problem" for problem in told)
    parts = [count("problem", wrong)] if wrong else []
    if len(told) > wrong:
        parts.append(count("warning", len(told) - wrong))
    return ", ".join(parts) or "no problems"


_WIDTH = 74  # of the line that is shown; a longer one is cut around the caret
_NAMED = re.compile(r"'([^']+)'")


def explained(problem: Problem, folder: Path) -> Iterator[str]:
    """The line with its number, and a caret below; nothing where the file has no such line.

    The caret stands under the first words that the reason quotes and the line has, else under
    where the line begins.
    """
    lines = _lines(folder / problem.place.file)
    number = problem.place.line
    if not 1 <= number <= len(lines) or not lines[number - 1].strip():
        return
    line = lines[number - 1].replace("\t", " ").rstrip()
    named = _NAMED.findall(problem.reason)
    found = [(line.index(words), len(words)) for words in named if words in line]
    column, length = found[0] if found else (len(line) - len(line.lstrip(" -")), 1)
    start = max(0, min(column - _WIDTH // 2, len(line) - _WIDTH))
    shown = line[start : start + _WIDTH]
    margin = f"{number:>5} | "
    yield f"{margin}{shown}"
    yield f"{' ' * (len(margin) + column - start)}{'^' * min(length, len(shown) - column + start)}"


def _lines(path: Path) -> list[str]:
    try:
        return decoded(path.read_bytes()).split("\n")
    except (OSError, ValueError, Unreadable):  # told as a problem of its own
        return []


_PATIENCE_S = 0.7
_EVERY_S = 0.1
_CELLS = 24


class Bar:
    """Use as a context; call ``show(done, total)`` after each page."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream
        self._started = time.monotonic()
        self._last = 0.0
        self._shown = False

    def __enter__(self) -> "Bar":
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        if self._shown:
            self._stream.write("\r\x1b[K")
            self._stream.flush()

    def show(self, done: int, total: int) -> None:
        """Draw the line anew, ten times a second at the most."""
        now = time.monotonic()
        if not self._stream.isatty() or now - self._started < _PATIENCE_S:
            return
        if now - self._last < _EVERY_S and done < total:
            return
        self._last, self._shown = now, True
        filled = _CELLS * done // max(total, 1)
        self._stream.write(f"\r  {'#' * filled}{'.' * (_CELLS - filled)} {done} of {total} pages")
        self._stream.flush()
