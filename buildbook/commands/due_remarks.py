"""The end of ``due``: what was remarked of late, word for word, for the keeper to judge."""

import sys

from buildbook.commands.terminal.screen import toned, wrapped
from buildbook.report.reports import Reports
from buildbook.words.logbook.remarks import HEADING, LED, MOST, more_words, remark_words


def print_remarks(reports: Reports, only: str | None) -> None:
    """The newest few, with their places; nothing where nothing was remarked. only: of an aircraft
    and of the store."""
    told = [one for one in reports.remarks() if only in (None, one.aircraft) or not one.aircraft]
    if not told:
        return
    print(f"\n{toned(HEADING, 'strong', sys.stdout)}")
    print(f"  {LED}")
    for one in told[:MOST]:
        aircraft = reports.hangar.aircraft.get(one.aircraft or "")
        name = None if aircraft is None else aircraft.record.aircraft
        print(wrapped(f"{remark_words(one, name)} @ {one.place}", indent="  ", hanging="      "))
    if len(told) > MOST:
        print(f"  {more_words(len(told) - MOST)}")
