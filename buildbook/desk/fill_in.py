"""Lines with places to fill, ``mass: <mass> g``: taken apart, answered, written into their file."""

import datetime
import re
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

import msgspec

from buildbook.basis.problems import Problem, Problems
from buildbook.desk.enter import Outcome, held_hangar
from buildbook.desk.entry_text import Entry, as_tree, scalar
from buildbook.desk.keeping import Change, alone, replace
from buildbook.desk.placing import appended
from buildbook.records.ledger import Reading
from buildbook.records.reading.interpret import read_files
from buildbook.reporting.opening import open_reading
from buildbook.words.upkeep.check import with_dangers

_PLACE = re.compile(r"(?P<stem>[^\s<>{}\[\],:.]*)<(?P<asked>[^<>]+)>")
_ROUND = r"(?P<stem>[^\s<>{}\[\],:]*)<[^<>]+>(?: [^\s,}]+)?"
_KEY = re.compile(rf"(?P<before>, )?[\w.\"-]+: \[?{_ROUND}\]?(?P<after>, )?")
_ALONE = re.compile(rf"\s*(?:- )?[\w.\"-]+: \[?{_ROUND}\]?$")


class Piece(msgspec.Struct, frozen=True):
    """Lines of a file that belong together: a part, an entry, a key with what is below it."""

    lines: tuple[str, ...]

    @property
    def text(self) -> str:
        """As it stands in the file."""
        return "".join(f"{line}\n" for line in self.lines)

    @property
    def is_empty(self) -> bool:
        """Whether nothing is left of an entry but its day, and keys with nothing below them."""
        return all(line.startswith("- on:") or line.endswith(":") for line in self.lines)

    def at(self, on: str) -> "Piece":
        """The same; of an entry, with its time where one was said."""
        first, *rest = self.lines
        return Piece((f"- on: {on}", *rest)) if first == f"- on: {on[:10]}" else self


class Place(msgspec.Struct, frozen=True):
    """A place to fill. of: the part or station that it is about; key: what it is the value of;
    asked: what to write; unit: what follows.

    stem: what a tag begins with. choices: where it is one of some words.
    """

    of: str
    key: str
    asked: str
    stem: str
    unit: str
    choices: tuple[str, ...]


def pieces(lines: Iterable[str]) -> Iterator[Piece]:
    """Each begins at the edge."""
    found: list[list[str]] = []
    for line in lines:
        if found and line.startswith(" "):
            found[-1].append(line)
        else:
            found.append([line])
    return (Piece(tuple(one)) for one in found)


def first_place(line: str) -> Place | None:
    """The first place of a line that is still to be filled."""
    found = _PLACE.search(line)
    if found is None:
        return None
    before = re.findall(r"([\w.\"-]+):", line[: found.start()])
    unit = re.match(r" ([^\s,}\]]+)", line[found.end() :])
    asked = found["asked"]
    words = asked.partition(" seen ")[0]
    choices = tuple(words.split(" or ")) if " or " in words and "as in" not in words else ()
    groups = re.findall(r"([\w.\"-]+): \{", line[: found.start()])
    groups = [name for name in groups if name not in ("fit", "readings")]
    spec = re.search(r"spec: ([\w-]+)", line)
    return Place(
        of=groups[-1] if groups else spec[1] if spec else "",
        key=before[-1] if before else "",
        asked=asked,
        stem=found["stem"],
        unit=unit[1] if unit else "",
        choices=choices,
    )


def with_answer(line: str, answer: str) -> str:
    """The line with its first place filled.

    The keeper may write the beginning of a tag or the unit again; several tags become a list.
    """
    place, found = first_place(line), _PLACE.search(line)
    if place is None or found is None:
        return line
    before, after = line[: found.start()], line[found.end() :]
    answer = _DECIMAL_COMMA.sub(".", answer) if not before.endswith("[") else answer
    if place.unit and not _NUMBER(answer):
        after = after.removeprefix(f" {place.unit}")  # one of his own
    if before.endswith("["):
        several = answer.split("," if "," in answer else None)
        value = ", ".join(scalar(one.strip(), in_brackets=True) for one in several)
    elif place.stem and before.endswith(".."):
        value = stemmed(answer, place.stem)
    elif place.stem:
        tags = [stemmed(one, place.stem) for one in re.split(r"[\s,]+", answer.strip("[]"))]
        value = tags[0] if len(tags) == 1 else f"[{', '.join(tags)}]"
    else:
        value = scalar(answer, in_brackets=True)
    return before + value + after


_DECIMAL_COMMA = re.compile(r"(?<=\d),(?=\d{1,2}(?:\D|$))")
_NUMBER = re.compile(r"[-+]?[0-9][0-9.,]*").fullmatch


def stemmed(answer: str, stem: str) -> str:
    """The tag that ``4``, ``m4`` or ``m-4`` means; anything else stays as it was written."""
    letters = stem.rstrip("-_").casefold()
    begun = answer.casefold().startswith(letters)
    number = answer[len(letters) :].lstrip("-_ ") if begun else answer
    return f"{stem}{number}" if number[:1].isdigit() else answer


def without_place(line: str) -> str | None:
    """The line without the key whose value was to be written; None where nothing is left of it."""
    found = None if _ALONE.match(line) else _KEY.search(line)
    if found is None:
        return None
    between = ", " if found["before"] and found["after"] else ""
    shorter = line[: found.start()] + between + line[found.end() :]
    return None if re.search(r"\{\}|\[\]", shorter) else shorter


def entry_of(piece: Piece) -> Entry:
    """An entry of a log, as ``enter`` takes it."""
    tree = as_tree(piece.text)
    (entry,) = () if isinstance(tree, str) else tree
    assert isinstance(entry, Mapping)
    return entry


def append(
    folder: Path, file: str, text: str, today: datetime.date, *, sure: bool = False
) -> Outcome:
    """Write lines at the end of a file, unless they make something wrong, or raise a doubt and it
    isn't sure.

    CannotWrite, Overtaken: as they say.
    """
    with alone(folder):
        held, _ = held_hangar(folder)
        before = held.files.content.get(file, b"")
        now = appended(before, text)
        files = msgspec.structs.replace(held.files, content={**held.files.content, file: now.data})
        after = read_files(files, Problems(held.gathered))
        known = {(each.reason, each.place) for each in _told(folder, held.reading, today)}
        raised = [
            each for each in _told(folder, after, today) if (each.reason, each.place) not in known
        ]
        problems = tuple(each for each in raised if each.severity == "problem")
        doubts = tuple(each for each in raised if each.severity != "problem")
        here = [each for each in doubts if each.place.file == file or not _of_parts(each)]
        if problems or (here and not sure):
            return Outcome(problems=problems, doubts=doubts)
        change = Change(file, before, now.data, now.added)
        replace(folder, (change,), (file,))
        return Outcome(doubts=doubts, done=True)


def _of_parts(doubt: Problem) -> bool:
    """What is written of a part elsewhere is told, for no other answer here would mend it."""
    return doubt.place.file.startswith("parts/")


def _told(folder: Path, reading: Reading, today: datetime.date) -> tuple[Problem, ...]:
    opened = open_reading(folder, reading, None, today)
    return with_dangers(opened.problems, opened.dangers)
