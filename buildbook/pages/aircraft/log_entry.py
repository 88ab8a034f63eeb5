"""An entry of a log as pages tell it."""

import datetime

import msgspec

from buildbook.pages.linking import Piece
from buildbook.report.drawn.pictures import Picture
from buildbook.report.history import LogLine

Pieces = tuple[Piece, ...]


class Grid(msgspec.Struct, frozen=True):
    """The values of a gain set: axes as rows, terms as columns."""

    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


class Body(msgspec.Struct, frozen=True, kw_only=True):
    """What an entry says. details: label and words. flights: a line for each, where several."""

    kind: str
    line: Pieces
    details: tuple[tuple[str, Pieces], ...] = ()
    flights: tuple[Pieces, ...] = ()
    gains: Grid | None = None


class Amendment(msgspec.Struct, frozen=True, kw_only=True):
    """A later word on an entry."""

    verb: str
    on: datetime.date
    because: str
    uid: str


class Told(msgspec.Struct, frozen=True, kw_only=True):
    """An entry as the page shows it.

    was: the body as first written, where something else stands now; now: what counts, None where
    nothing does. gone, come: the details that changed. note_was, by_was, checked_by_was: as
    first written, where corrected. about: words and uid of the entry that it is about.
    meanwhile: what was open while it was flown. milestone: what makes it more than one of many.
    """

    uid: str
    kind: str
    on: datetime.date
    now: Body | None
    was: Body | None = None
    gone: tuple[tuple[str, Pieces], ...] = ()
    come: tuple[tuple[str, Pieces], ...] = ()
    amendments: tuple[Amendment, ...] = ()
    corrected_later: bool = False
    about: tuple[str, str] | None = None
    note: Pieces = ()
    note_was: Pieces = ()
    by: str | None = None
    by_was: str | None = None
    checked_by: str | None = None
    checked_by_was: str | None = None
    time: str | None = None
    late_days: int = 0
    pictures: tuple[Picture, ...] = ()
    meanwhile: str = ""
    milestone: str = ""
    total: str = ""
    tags: tuple[str, ...] = ()
    stations: tuple[str, ...] = ()
    line: LogLine
