"""The photographs that a site needs: read, cleaned, named; what can't be used is a problem."""

import os
import stat
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

import msgspec

from buildbook.audience.sharing import not_shared, sharing_for
from buildbook.basis.notation import quoted
from buildbook.basis.place import Place
from buildbook.basis.problems import Problem
from buildbook.basis.sizes import most
from buildbook.pages.story.insert_places import asked_in
from buildbook.pages.story.inserts import Misfit, read_insert
from buildbook.pictures.clean import Cleaned, NoPicture, clean, doubts_of
from buildbook.report.drawn.pictures import Picture
from buildbook.report.reports import Audience
from buildbook.report.state import Hangar

MOST_BYTES = most("photo")
_AT_ONCE = os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)

Named = tuple[str, str]
"""Slug of the aircraft and name of the file."""


class Photos(msgspec.Struct, frozen=True, kw_only=True):
    """Pictures as the pages show them, the bytes by address, and what is wrong."""

    shown: Mapping[Named, Picture] = {}
    files: Mapping[str, bytes] = {}
    problems: tuple[Problem, ...] = ()


def photos_of(
    hangar: Hangar,
    folder: Path,
    audience: Audience,
    cleaning: Callable[[bytes], Cleaned] | None = None,
) -> Photos:
    """Clean every photograph that a build story or an entry names and this audience may see.

    One that the audience wouldn't see is not even opened, so it stops nothing.
    cleaning: ``clean``, or what remembers what it gave before.
    """
    shown: dict[Named, Picture] = {}
    files: dict[str, bytes] = {}
    problems: list[Problem] = []
    told = dict(_of_builds(hangar))
    for named, place in _wanted(hangar, told, audience):
        try:
            cleaned = (cleaning or clean)(_bytes_of(folder, named))
        except NoPicture as fault:
            problems.append(_refused(named, place, fault))
            continue
        problems += _doubted(named, place, cleaned.doubts)
        shown[named], written = _shown(cleaned, named in told)
        files.update(written)
    return Photos(shown=shown, files=files, problems=tuple(problems))


def photo_problems(hangar: Hangar, folder: Path, audience: Audience) -> Iterator[Problem]:
    """What ``photos_of`` would say of the photographs; each is decoded, none is scaled."""
    for named, place in _wanted(hangar, dict(_of_builds(hangar)), audience):
        try:
            yield from _doubted(named, place, doubts_of(_bytes_of(folder, named)))
        except NoPicture as fault:
            yield _refused(named, place, fault)


def _wanted(
    hangar: Hangar, told: Mapping[Named, Place], audience: Audience
) -> list[tuple[Named, Place]]:
    """The photographs that an audience may see, by name. told: portraits and those of stories."""
    if not sharing_for(audience, hangar.ledger.keeper).shares("photos"):
        return []
    if audience == "owner":
        return sorted({**dict(_of_entries(hangar)), **told}.items())
    hidden = not_shared(hangar)
    return sorted((named, place) for named, place in told.items() if named[0] not in hidden)


def _bytes_of(folder: Path, named: Named) -> bytes:
    return photo_bytes(folder / "aircraft" / named[0] / "photos" / named[1])


def _refused(named: Named, place: Place, fault: NoPicture) -> Problem:
    reason = f"cannot use the photo {quoted(named[1])}: {fault}"
    hint = "save it as JPEG or PNG, or take it out of the text"
    return Problem(reason, place, "problem", hint, about=named[0])


def _doubted(named: Named, place: Place, doubts: tuple[str, ...]) -> list[Problem]:
    return [
        Problem(
            f"the photo {quoted(named[1])}: {doubt}",
            place,
            "warning",
            "save it anew",
            about=named[0],
        )
        for doubt in doubts
    ]


def _of_entries(hangar: Hangar) -> Iterator[tuple[Named, Place]]:
    """Each photograph that an entry names and that is there."""
    ledger = hangar.ledger
    for entry in ledger.entries:
        for photo in entry.photos:
            if entry.aircraft and photo in ledger.photos.get(entry.aircraft, ()):
                yield (entry.aircraft, photo), entry.place("photos")


def _of_builds(hangar: Hangar) -> Iterator[tuple[Named, Place]]:
    """Each portrait, and each photograph that a build story shows."""
    for slug, aircraft in hangar.aircraft.items():
        story = aircraft.record.story
        if story and story.portrait in hangar.ledger.photos.get(slug, ()):
            yield (slug, story.portrait), aircraft.record.place("story.portrait")
    yield from _of_stories(hangar)


def _of_stories(hangar: Hangar) -> Iterator[tuple[Named, Place]]:
    """Each photograph that a build story shows."""
    for slug, written in hangar.ledger.write_ups.items():
        for asked in asked_in(written.text) if slug in hangar.aircraft else ():
            try:
                insert = read_insert(asked)
            except Misfit:
                continue
            if insert.kind == "photo" and insert.name in hangar.ledger.photos.get(slug, ()):
                yield (slug, insert.name), Place(written.file, asked.line)


def photo_bytes(path: Path) -> bytes:
    """The bytes of a photo. NoPicture: it is too large or no file; a pipe is not waited for."""
    try:
        with open(os.open(path, _AT_ONCE), "rb") as file:
            if not stat.S_ISREG(os.fstat(file.fileno()).st_mode):
                raise NoPicture("it is a folder, pipe or device, not a file")
            data = file.read(MOST_BYTES + 1)
    except OSError as error:
        raise NoPicture((error.strerror or "it cannot be read").lower()) from None
    if len(data) > MOST_BYTES:
        raise NoPicture(f"the file is larger than {MOST_BYTES // 1_000_000} MB")
    return data


def _shown(cleaned: Cleaned, in_story: bool) -> tuple[Picture, Mapping[str, bytes]]:
    large, small = cleaned.large, cleaned.small
    address = f"pictures/{cleaned.name}.{cleaned.suffix}"
    files = {address: large.data}
    small_address, small_width = address, large.width
    if small is not None:
        small_address = f"pictures/{cleaned.name}-small.{cleaned.suffix}"
        small_width = small.width
        files[small_address] = small.data
    picture = Picture(
        address=address,
        width=large.width,
        height=large.height,
        small_address=small_address,
        small_width=small_width,
        in_story=in_story,
        drawn=cleaned.drawn,
    )
    return picture, files
