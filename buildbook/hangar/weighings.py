"""Weighings, each with what was fitted then, so that later changes can be told from it."""

from buildbook.hangar.drafts import Draft, Moment
from buildbook.hangar.happened import Weighing
from buildbook.records.entries import Weigh


def weigh(draft: Draft, moment: Moment, entry: Weigh) -> None:
    """``weigh``: a snapshot of what sat where, and of the masses that alterations added."""
    aircraft = draft.home(entry)
    if aircraft is None:
        return
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
            fitted={
                fitted.tag: station
                for station, kinds in aircraft.fitted.items()
                for slot in kinds.values()
                for fitted in slot
            },
            alterations_kg=sum(change.mass_kg for change in aircraft.mass_changes),
        )
    )
