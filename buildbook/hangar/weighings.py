"""Weighings, each with what was fitted then, so that later changes can be told from it."""

from buildbook.hangar.doubts import doubt_weighing
from buildbook.hangar.drafts import Draft, Moment
from buildbook.records.entries import Weigh
from buildbook.report.history import Weighing


def weigh(draft: Draft, moment: Moment, entry: Weigh) -> None:
    """``weigh``: a snapshot of what sat where, and of the masses that alterations added."""
    aircraft = draft.home(entry)
    if aircraft is None:
        return
    fitted = {
        item.tag: station
        for station, kinds in aircraft.fitted.items()
        for slot in kinds.values()
        for item in slot
    }
    doubt_weighing(draft, moment, entry, fitted, aircraft.slug)
    aircraft.weighings.append(
        Weighing(
            seq=moment.seq,
            on=moment.on,
            uid=moment.uid,
            place=moment.place,
            mass_kg=entry.mass_kg,
            pack=entry.pack,
            without=entry.without,
            cg_m=entry.cg_m,
            scales_kg=entry.scales_kg,
            fitted=fitted,
            alterations_kg=sum(change.mass_kg for change in aircraft.mass_changes),
        )
    )
