"""What simply happens to an aircraft: transport, water; and notes, which do nothing."""

from buildbook.hangar.drafts import Draft, Moment
from buildbook.hangar.touching import happen
from buildbook.records.entries import Note, Transport, Water


def transport(draft: Draft, moment: Moment, entry: Transport) -> None:
    """``transport``: a long trip, which touches everything."""
    aircraft = draft.home(entry)
    if aircraft is not None:
        happen(draft, moment, aircraft, "transport")


def get_wet(draft: Draft, moment: Moment, entry: Water) -> None:
    """``water``: touches everything."""
    aircraft = draft.home(entry)
    if aircraft is not None:
        happen(draft, moment, aircraft, "water")


def note(draft: Draft, moment: Moment, entry: Note) -> None:
    """``note``: is in the log, and changes nothing."""
