"""A hangar folder becomes a ledger and a list of problems."""

from pathlib import Path
from typing import Literal

from buildbook.basis.cache_folder import usual_folder
from buildbook.basis.collector import collector_paused
from buildbook.basis.problems import Problems
from buildbook.records.ledger import Reading
from buildbook.records.reading.cache import digest_of, keep, recall
from buildbook.records.reading.files import Files, gather


def read_hangar(folder: Path, cache: Path | Literal["usual"] | None = "usual") -> Reading:
    """Read all records of a hangar; nothing is raised for bad input, everything is told.

    cache: the folder where readings are kept, None for none.
    """
    problems = Problems()
    with collector_paused():
        files = gather(folder, problems)
        if files is None:
            return Reading(None, tuple(problems))
        place = usual_folder() if cache == "usual" else cache
        digest = digest_of(files, tuple(problems))
        kept = None if place is None else recall(place, folder, digest)
        if kept is not None:
            return Reading(*kept, digest)
        reading = _interpreted(folder, files, problems, place)
        if place is not None:
            keep(place, folder, digest, (reading.ledger, reading.problems), files)
        return Reading(reading.ledger, reading.problems, digest)


def _interpreted(folder: Path, files: Files, problems: Problems, place: Path | None) -> Reading:
    from buildbook.records.reading import interpret, reread  # not where it was read before

    last = None if place is None else reread.from_last(folder, files, problems, place)
    return interpret.read_files(files, problems) if last is None else last
