"""Charges and measured capacities of packs."""

from buildbook.basis.place import Place
from buildbook.hangar.cycles import share_of_charge_ah
from buildbook.hangar.doubts import doubt_capacity, doubt_charge
from buildbook.hangar.drafts import Draft, ItemDraft, Moment
from buildbook.records.entries import Capacity, Charge
from buildbook.report.history import CapacityDone, ChargeDone


def charge(draft: Draft, moment: Moment, entry: Charge) -> None:
    """``charge``: of one pack, or of several that shared the charger's figures."""
    for tag in entry.packs:
        pack = _pack(draft, moment, tag, entry.place("charge"), entry.aircraft)
        if pack is None:
            continue
        if pack.is_out(moment):
            _object_to_charge(draft, moment, pack, entry)
        doubt_charge(draft, pack, entry)
        done = ChargeDone(
            seq=moment.seq,
            on=moment.on,
            uid=moment.uid,
            place=moment.place,
            pack=tag,
            put_in_ah=entry.put_in_ah,
            resistance_ohm=entry.resistance_ohm,
            resting_v=entry.resting_v,
            temperature_k=entry.temperature_k,
            to=entry.to,
            packs_together=len(entry.packs),
        )
        pack.charges.append(done)
        pack.through.charged(share_of_charge_ah(done))


def measure_capacity(draft: Draft, moment: Moment, entry: Capacity) -> None:
    """``capacity``: with the charges and cycles of the pack up to then."""
    pack = _pack(draft, moment, entry.pack, entry.place("capacity"), entry.aircraft)
    if pack is None:
        return
    doubt_capacity(draft, pack, entry)
    pack.capacities.append(
        CapacityDone(
            seq=moment.seq,
            on=moment.on,
            uid=moment.uid,
            place=moment.place,
            pack=entry.pack,
            measured_ah=entry.measured_ah,
            current_a=entry.current_a,
            temperature_k=entry.temperature_k,
            down_to_v=entry.down_to_v,
            charges=len(pack.charges),
            cycles=pack.cycles,
        )
    )


def _pack(
    draft: Draft, moment: Moment, tag: str, place: Place, about: str | None
) -> ItemDraft | None:
    """The pack of that tag; that another kind of item isn't charged is the reader's to say."""
    item = draft.used(moment, tag, place, about)
    return item if item is not None and item.is_pack else None


def _object_to_charge(draft: Draft, moment: Moment, pack: ItemDraft, entry: Charge) -> None:
    state = pack.state
    draft.objections.object(
        f"{pack.words} charged on {moment.on} though {state.state} since {state.on}",
        entry.place("charge"),
        again=f"{pack.tag} charged though {state.state} since {state.on}",
        severity="warning",
        also=() if state.place is None else (state.place,),
        about=entry.aircraft,
    )
