"""Charges and measured capacities of packs, and weighings of aircraft."""

import msgspec

from buildbook.basis.place import Place
from buildbook.hangar.builders import ItemBuilder
from buildbook.hangar.doubts import doubt_capacity, doubt_charge, doubt_weighing
from buildbook.hangar.folding import Fold
from buildbook.hangar.packs.aside import read_warmth
from buildbook.hangar.packs.doubts import (
    ALONE,
    doubt_grown,
    doubt_measured,
    doubt_pack_charge,
    doubt_together,
    shared_by,
)
from buildbook.hangar.packs.rests import read_charge
from buildbook.records.entries import Capacity, Charge, Weigh
from buildbook.report.history import CapacityDone, ChargeDone, Weighing
from buildbook.report.packs.charge_tally import share_of_charge_ah


def on_charge(fold: Fold, entry: Charge) -> None:
    """``charge``: of one pack, or of several that shared the charger's figures."""
    shared = ALONE
    if len(entry.packs) > 1 or entry.current_a is not None:
        known = [one for tag in entry.packs if (one := fold.items.get(tag)) is not None]
        packs = [one for one in known if one.is_pack]
        shared = shared_by(packs, entry)
        doubt_together(fold, packs, entry, shared)
    at, place = fold.at, entry.place("charge")
    for tag in entry.packs:
        pack = _pack(fold, tag, place, entry.aircraft)
        if pack is None:
            continue
        aside = pack.is_out(at.day, at.log)
        if aside:
            fold.object_to_state(
                pack,
                f"charged on {at.day}",
                entry.place("charge"),
                entry.aircraft,
                severity="warning",
                again="charged",
            )
        doubt_charge(fold, pack, entry)
        doubt_pack_charge(fold, pack, entry)
        done = ChargeDone(
            seq=at.sequence,
            on=at.day,
            uid=at.uid,
            place=at.place,
            pack=tag,
            put_in_ah=entry.put_in_ah,
            resistance_ohm=entry.resistance_ohm,
            resting_v=entry.resting_v,
            temperature_k=entry.temperature_k,
            to=entry.to,
            packs_together=len(entry.packs),
            current_a=entry.current_a,
            set_aside=aside,
            sure=fold.sure,
            between=(at.uid, tag) in fold.between,
        )
        if shared != ALONE:
            done = msgspec.structs.replace(
                done,
                most_a=shared.most_a,
                unequal=shared.unequal,
                apart_v=None if shared.apart_mv is None else shared.apart_mv / 1000,
            )
        read_charge(fold, pack, entry)
        read_warmth(fold, pack, entry.temperature_k)
        pack.charges.append(done)
        pack.through.charged(done.seq, share_of_charge_ah(done))


def on_capacity(fold: Fold, entry: Capacity) -> None:
    """``capacity``: with the charges and cycles of the pack up to then."""
    pack = _pack(fold, entry.pack, entry.place("capacity"), entry.aircraft)
    if pack is None:
        return
    doubt_capacity(fold, pack, entry)
    doubt_grown(fold, pack, entry)
    doubt_measured(fold, pack, entry.measured_ah, entry.place("measured"))
    read_warmth(fold, pack, entry.temperature_k)
    pack.capacities.append(
        CapacityDone(
            **fold.at.stamp(),
            pack=entry.pack,
            measured_ah=entry.measured_ah,
            current_a=entry.current_a,
            temperature_k=entry.temperature_k,
            down_to_v=entry.down_to_v,
            charges=len(pack.charges),
            cycles=pack.cycles,
            sure=fold.sure,
        )
    )


def _pack(fold: Fold, tag: str, place: Place, about: str | None) -> ItemBuilder | None:
    """The pack of that tag; that another kind of item isn't charged is the reader's to say."""
    item = fold.item_used(tag, place, about)
    return item if item is not None and item.is_pack else None


def on_weigh(fold: Fold, entry: Weigh) -> None:
    """``weigh``: a snapshot of what sat where, and of the masses that alterations added."""
    aircraft = fold.aircraft_of(entry)
    if aircraft is None:
        return
    fitted = {
        item.tag: station
        for station, kinds in aircraft.fitted.items()
        for slot in kinds.values()
        for item in slot
    }
    doubt_weighing(fold, entry, fitted, aircraft.slug)
    aircraft.weighings.append(
        Weighing(
            **fold.at.stamp(),
            mass_kg=entry.mass_kg,
            pack=entry.pack,
            without=entry.without,
            cg_m=entry.cg_m,
            scales_kg=entry.scales_kg,
            fitted=fitted,
        )
    )
