"""Gain sets: kept whole as first written, with the periods in which each was in force."""

from collections.abc import Mapping

from buildbook.basis.notation import said
from buildbook.basis.place import Place
from buildbook.hangar.drafts import AircraftDraft, Draft, Moment
from buildbook.hangar.touching import happen
from buildbook.records.entries import Gains, Verdict
from buildbook.report.history import GainSet, GainsPeriod, GainsVerdict

Values = Mapping[str, Mapping[str, float]]


def set_gains(draft: Draft, moment: Moment, entry: Gains) -> None:
    """``gains``: a new set, or a name alone that returns to a set."""
    aircraft = draft.home(entry)
    if aircraft is None:
        return
    known = aircraft.gain_sets.get(entry.name)
    values = _whole(draft, moment, aircraft, entry)
    if known is None:
        if values is None:
            return
        aircraft.gain_sets[entry.name] = GainSet(
            seq=moment.seq,
            on=moment.on,
            uid=moment.uid,
            place=moment.place,
            name=entry.name,
            values=values,
            base=entry.base,
            because=entry.because,
        )
    elif values is not None and values != known.values:
        draft.objections.object(
            f"gain set {said(entry.name)} written with other values on {moment.on}"
            f" than on {known.on}",
            entry.place("gains"),
            hint="give the new values a name of their own",
            also=(known.place,),
            about=aircraft.slug,
        )
    in_force = aircraft.gain_periods[-1].name if aircraft.gain_periods else None
    if in_force != entry.name:
        aircraft.gain_periods.append(
            GainsPeriod(
                seq=moment.seq,
                on=moment.on,
                uid=moment.uid,
                place=moment.place,
                name=entry.name,
                because=entry.because,
            )
        )
        happen(draft, moment, aircraft, "gains")


def _whole(draft: Draft, moment: Moment, aircraft: AircraftDraft, entry: Gains) -> Values | None:
    """All values of the set as written here; None where it is a name alone, or can't be known.

    What an axis of a set with ``from`` leaves out is that of the base too.
    """
    if entry.base is None:
        if not entry.values and entry.name not in aircraft.gain_sets:
            _object_unknown(
                draft, aircraft, entry.name, entry.place("gains"), moment, "returned to"
            )
        return entry.values or None
    base = aircraft.gain_sets.get(entry.base)
    if base is None:
        _object_unknown(draft, aircraft, entry.base, entry.place("from"), moment, "used as a base")
        return entry.values or None
    return {
        axis: {**base.values.get(axis, {}), **entry.values.get(axis, {})}
        for axis in dict.fromkeys((*base.values, *entry.values))
    }


def judge(draft: Draft, moment: Moment, entry: Verdict) -> None:
    """``verdict``: words on sets that were written before."""
    aircraft = draft.home(entry)
    if aircraft is None:
        return
    for name, words in entry.verdicts.items():
        place = entry.place(f"verdict.{name}")
        if name not in aircraft.gain_sets:
            _object_unknown(draft, aircraft, name, place, moment, "judged")
            continue
        aircraft.gain_verdicts.append(
            GainsVerdict(
                seq=moment.seq, on=moment.on, uid=moment.uid, place=place, name=name, words=words
            )
        )


def _object_unknown(
    draft: Draft, aircraft: AircraftDraft, name: str, place: Place, moment: Moment, done: str
) -> None:
    draft.objections.object(
        f"gain set {said(name)} {done} on {moment.on} before its values were written",
        place,
        hint=f"write it first: gains: {name} with values:",
        about=aircraft.slug,
    )
