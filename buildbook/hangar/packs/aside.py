"""Packs that the records set aside, and what returns them.

A damaged pack is known by what its entries are, never by their words: a crash, water, a defect
of it, a look of it that failed, a voltage that no cell at rest should have, heat. What returns it:
a passed ``pack-look`` that names it, on a later day. After water, or a ``pack-look`` that read
swelling, a dent or wetness, only ``state: serviceable`` with its reason. A defect must be closed
as well. The keeper's own quarantine ends by his own word, however the pack looks.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence

import msgspec

from buildbook.basis import amounts
from buildbook.basis.amounts import listed
from buildbook.basis.problems import either
from buildbook.hangar.builders import AircraftBuilder, ItemBuilder
from buildbook.hangar.folding import Fold, Position, Struck
from buildbook.records.entries import Inspection
from buildbook.records.parts import GONE
from buildbook.records.readings import temperatures_read
from buildbook.records.row_names import PACK_LOOK
from buildbook.report.packs.pack_history import Aside, AsideWhy, Release

DAMAGE = ("swelling", "dent", "dents", "wet")
"""Readings of a look at a pack that end its use unless the keeper says why not."""

_NOTHING = ("", "no", "none", "not", "nil", "false", "dry", "0", "0 mm", "ok", "pass", "fine")


def set_pack_aside(
    fold: Fold,
    pack: ItemBuilder,
    why: AsideWhy,
    *,
    release: Release = "look",
    because: str | None = None,
    defect: str | None = None,
    detail: Mapping[str, str] = {},
    findings: str | None = None,
) -> None:
    """From here on the pack is quarantined for that; what is retired or scrapped stays so."""
    if pack.state.state in GONE:
        return
    aside = Aside(
        **fold.at.stamp(),
        why=why,
        release=release,
        defect=defect,
        detail=dict(detail),
        findings=findings,
    )
    pack.asides.append(aside)
    if pack.state.state != "quarantined":
        fold.put_in_state(pack, "quarantined", fold.at.place, because)
        pack.aside_log = None if why == "keeper" else fold.at.log


def inspected(fold: Fold, pack: ItemBuilder, entry: Inspection) -> None:
    """What a look that names a pack does: passed it may return it, failed it sets it aside."""
    damage = damage_of(entry.readings) if PACK_LOOK in entry.tasks else ()
    if damage or (entry.result == "fail" and entry.severity is None):
        found = {"task": entry.tasks[0].replace("-", " ")}
        if damage:
            found["found"] = ", ".join(damage)
        set_pack_aside(
            fold,
            pack,
            "failed look",
            release="word" if damage else "look",
            detail=found,
            findings=entry.findings,
        )
        return
    warmest_k = max(temperatures_read(entry.readings), default=None)
    if not read_warmth(fold, pack, warmest_k) and entry.result == "pass":
        _look(fold, pack, entry.tasks, entry.findings)


HOT_PACK_K = 333.15
"""60 °C: no lithium pack may get warmer, at rest or at work. Common practice, no source."""


def is_hot(temperature_k: float) -> bool:
    """Whether a pack that was read so warm is to be left alone until somebody looked at it."""
    return round(temperature_k, 3) > HOT_PACK_K


def read_warmth(fold: Fold, pack: ItemBuilder, temperature_k: float | None) -> bool:
    """What was read of a pack with the charger: a hot one is set aside. Whether it was hot."""
    if temperature_k is None or not is_hot(temperature_k):
        return False
    found = {"found": amounts.temperature(temperature_k)}
    set_pack_aside(fold, pack, "hot", detail=found)
    return True


def damage_of(readings: Mapping[str, str]) -> tuple[str, ...]:
    """What a look read of swelling, a dent or wetness, by the names of the readings."""
    return tuple(
        name
        for name, words in readings.items()
        if name.casefold() in DAMAGE and words.strip().casefold() not in _NOTHING
    )


def _look(fold: Fold, pack: ItemBuilder, tasks: Collection[str], findings: str | None) -> None:
    pack.asides = [
        msgspec.structs.replace(aside, looked=True) if _answers(fold, aside, tasks) else aside
        for aside in pack.asides
    ]
    return_if_whole(fold, pack, findings or "inspected")


def _answers(fold: Fold, aside: Aside, tasks: Collection[str]) -> bool:
    return aside.release == "look" and PACK_LOOK in tasks and aside.on < fold.at.day


def return_if_whole(fold: Fold, pack: ItemBuilder, because: str | None) -> None:
    """Return it to service once all that set it aside is released."""
    left = [aside for aside in pack.asides if not aside.looked or _is_open(fold, aside.defect)]
    if len(left) == len(pack.asides) and left:
        return
    pack.asides = left
    if not left and pack.state.state == "quarantined":
        fold.put_in_state(pack, "serviceable", fold.at.place, because)


def _is_open(fold: Fold, defect: str | None) -> bool:
    return defect is not None and defect in fold.defects and fold.defects[defect].open


def open_defect_of(fold: Fold, pack: ItemBuilder) -> str | None:
    """The uid of a grounding defect that keeps it aside, whatever else is said."""
    found = (aside.defect for aside in pack.asides if _is_open(fold, aside.defect))
    return next(found, None)


def said_serviceable(fold: Fold, pack: ItemBuilder) -> None:
    """The keeper's word releases all but open defects."""
    pack.asides = [aside for aside in pack.asides if _is_open(fold, aside.defect)]


def set_all_aside(
    fold: Fold,
    tags: Iterable[str],
    why: AsideWhy,
    *,
    release: Release = "look",
    because: str | None,
) -> None:
    """The same for packs by their tags."""
    for tag in tags:
        pack = fold.items.get(tag)
        if pack is not None and pack.is_pack:
            set_pack_aside(fold, pack, why, release=release, because=because)


def strike(
    fold: Fold,
    aircraft: AircraftBuilder,
    named: Sequence[str],
    why: AsideWhy,
    release: Release = "look",
    because: str | None = None,
) -> None:
    """Set aside the packs that are named, else those of the flight of that day.

    That is the last flight before the entry, else the first one after it.
    """
    if named:
        set_all_aside(fold, named, why, release=release, because=because)
        return
    struck = Struck(why, release, because, fold.at, fold.sure)
    last = aircraft.flights[-1] if aircraft.flights else None
    if last is None or last.on != fold.at.day:
        fold.struck.setdefault((aircraft.slug, fold.at.day), []).append(struck)
    elif last.row.packs:
        set_all_aside(fold, last.row.packs, why, release=release, because=because)
    else:
        fold.unnamed.append((aircraft.slug, struck))


def struck_before(fold: Fold, aircraft: AircraftBuilder, packs: Sequence[str]) -> None:
    """The first flight after such an entry, on its day, names the packs that it meant."""
    for struck in fold.struck.pop((aircraft.slug, fold.at.day), ()):
        set_all_aside(fold, packs, struck.why, release=struck.release, because=struck.because)


CHARGED_DAYS = 14
"""A pack charged no longer before a crash and not flown since may have been aboard. Common
practice, no source."""


def doubt_aboard(fold: Fold) -> None:
    """At the end: of each crash, or water, that names no pack and has no flight that does, which
    packs may have been aboard and were not looked at since."""
    left = [(slug, each) for (slug, _), found in fold.struck.items() for each in found]
    for slug, struck in (*fold.unnamed, *left):
        tags = _perhaps_aboard(fold, slug, struck.at)
        if struck.sure or not tags:
            continue
        fold.objections.object(
            f"{struck.because} on {struck.at.day} does not say which pack was aboard:"
            f" {listed(tags, 'or')}",
            struck.at.place,
            severity="warning",
            hint=f"write {either(f'packs: [{tags[0]}]', f'--packs {tags[0]}')} with it;"
            " until then none is set aside for it",
            about=slug,
        )


def _perhaps_aboard(fold: Fold, slug: str, at: Position) -> list[str]:
    """Packs charged before it and not flown since; where there is none, those it flew on."""
    packs = [
        pack
        for pack in fold.items.values()
        if pack.is_pack and pack.state.state not in GONE and not _is_answered(pack, at)
    ]
    charged = [pack.tag for pack in packs if _is_charged(pack, at)]
    return charged or [pack.tag for pack in packs if slug in pack.flown_on]


def _is_charged(pack: ItemBuilder, at: Position) -> bool:
    charges = [one for one in pack.charges if one.seq < at.sequence or one.on == at.day]
    if not charges or charges[-1].to == "storage":
        return False
    last = charges[-1]
    flown = any(last.seq < one.seq < at.sequence for one in pack.flights)
    return not flown and (at.day - last.on).days <= CHARGED_DAYS


def _is_answered(pack: ItemBuilder, at: Position) -> bool:
    """Whether it was set aside that day or later, or looked at after it."""
    looked = any(
        one.name == PACK_LOOK and one.result == "pass" and one.on > at.day
        for one in pack.inspections
    )
    return looked or any(one.on >= at.day for one in pack.asides)
