"""A small builder of ledgers for the tests of this room: entries are written as in a log."""

import datetime
from collections.abc import Mapping, Sequence
from typing import Any

import msgspec

from buildbook.hangar.fold import fold
from buildbook.records.aircraft import Aircraft, Radio
from buildbook.records.entries import (
    Alteration,
    AnyEntry,
    Capacity,
    Charge,
    Check,
    Cleared,
    Correction,
    Defect,
    Firmware,
    Fit,
    Flight,
    FlightRow,
    Gains,
    Incident,
    Inspection,
    Note,
    Opening,
    Overhaul,
    Remove,
    Repair,
    Setting,
    Slot,
    StateChange,
    Totals,
    Transport,
    Verdict,
    Void,
    Water,
    Weigh,
)
from buildbook.records.keeper import Keeper
from buildbook.records.ledger import Ledger
from buildbook.records.parts import Item, Spec
from buildbook.report.state import Hangar

END = datetime.date(2026, 12, 31)

PREFIXES = {
    "M": "motor",
    "E": "esc",
    "R": "propeller",
    "P": "battery",
    "C": "controller",
    "X": "receiver",
    "S": "sensor",
    "V": "servo",
    "F": "frame",
}


def day(text: str) -> datetime.date:
    """``05-01`` is of 2026."""
    return datetime.date.fromisoformat(text if len(text) > 5 else f"2026-{text}")


class Log:
    """One log in the making: each method writes an entry and gives it back."""

    def __init__(self, name: str, file: str | None = None) -> None:
        self.name = name
        self.aircraft = name.partition("/")[2] if name.startswith("aircraft/") else None
        self.file = file or (f"{name}/logbook.yaml" if self.aircraft else f"{name}.yaml")
        self.entries: list[AnyEntry] = []

    def write(self, kind: type[Any], on: str, **values: Any) -> Any:
        """An entry of any kind; ids are ``<day>-<n>``."""
        number = 1 + sum(entry.on == day(on) for entry in self.entries)
        common = {
            "file": self.file,
            "line": 10 * (len(self.entries) + 1),
            "log": self.name,
            "aircraft": self.aircraft,
            "index": len(self.entries),
            "id": f"{day(on)}-{number}",
            "on": day(on),
        }
        entry = kind(**{**common, **values})
        self.entries.append(entry)
        return entry

    def fit(self, on: str, slots: Mapping[str, Mapping[str, str]], **more: Any) -> Fit:
        """``slots`` as in the file: station, kind, tag or several (``S-1 S-2``)."""
        found = tuple(
            Slot(station, kind, tuple(tags.split()))
            for station, kinds in slots.items()
            for kind, tags in kinds.items()
        )
        return self.write(Fit, on, slots=found, **more)

    def remove(self, on: str, *tags: str, **more: Any) -> Remove:
        return self.write(Remove, on, tags=tags, **more)

    def state(self, on: str, because: str | None = None, **states: str) -> StateChange:
        """Tags as keywords, ``P_02="retired"``."""
        named = {tag.replace("_", "-"): state for tag, state in states.items()}
        return self.write(StateChange, on, states=named, because=because)

    def flight(
        self,
        on: str,
        duration_s: float = 300.0,
        packs: str = "",
        used_ah: float | None = None,
        landing: str = "normal",
        **more: Any,
    ) -> Flight:
        row = FlightRow(
            duration_s=duration_s,
            packs=tuple(packs.split()),
            used_ah=used_ah,
            landing=landing,  # type: ignore[arg-type]
        )
        return self.write(Flight, on, rows=(row,), **more)

    def flights(self, on: str, *rows: FlightRow, **more: Any) -> Flight:
        return self.write(Flight, on, rows=rows, **more)

    def charge(self, on: str, packs: str, put_in_ah: float | None = None, **more: Any) -> Charge:
        return self.write(Charge, on, packs=tuple(packs.split()), put_in_ah=put_in_ah, **more)

    def capacity(self, on: str, pack: str, measured_ah: float) -> Capacity:
        return self.write(Capacity, on, pack=pack, measured_ah=measured_ah)

    def check(self, on: str, name: str, result: str = "pass", **more: Any) -> Check:
        return self.write(Check, on, checks=(name,), result=result, **more)

    def setting(
        self, on: str, of: str | None = None, because: str | None = None, **settings: str
    ) -> Setting:
        return self.write(Setting, on, settings=settings, of=of, because=because)

    def gains(self, on: str, name: str, **more: Any) -> Gains:
        return self.write(Gains, on, name=name, **more)

    def verdict(self, on: str, **verdicts: str) -> Verdict:
        return self.write(Verdict, on, verdicts=verdicts)

    def weigh(self, on: str, mass_kg: float, **more: Any) -> Weigh:
        return self.write(Weigh, on, mass_kg=mass_kg, **more)

    def incident(self, on: str, words: str = "came down", **more: Any) -> Incident:
        return self.write(Incident, on, words=words, **more)

    def repair(self, on: str, words: str = "mended", **more: Any) -> Repair:
        return self.write(Repair, on, words=words, **more)

    def overhaul(self, on: str, *tags: str, **more: Any) -> Overhaul:
        more.setdefault("steps", ("strip", "reassemble", "test"))
        return self.write(Overhaul, on, tags=tags, **more)

    def inspection(self, on: str, task: str, tags: str = "", **more: Any) -> Inspection:
        return self.write(Inspection, on, tasks=(task,), tags=tuple(tags.split()), **more)

    def defect(self, on: str, words: str = "loose", **more: Any) -> Defect:
        return self.write(Defect, on, words=words, **more)

    def cleared(self, on: str, defect: AnyEntry, **more: Any) -> Cleared:
        return self.write(Cleared, on, defect=defect.id, target=defect.uid, **more)

    def firmware(self, on: str, **versions: str) -> Firmware:
        named = {tag.replace("_", "-"): version for tag, version in versions.items()}
        return self.write(Firmware, on, versions=named)

    def alteration(self, on: str, words: str = "changed", **more: Any) -> Alteration:
        more.setdefault("keys", tuple(key for key in more if key not in ("mass_kg", "at", "lines")))
        return self.write(Alteration, on, words=words, **more)

    def transport(self, on: str) -> Transport:
        return self.write(Transport, on, words="by car")

    def water(self, on: str, **more: Any) -> Water:
        return self.write(Water, on, words="wet grass", **more)

    def opening(self, on: str, flights: int, duration_s: float) -> Opening:
        return self.write(Opening, on, totals=Totals(flights=flights, duration_s=duration_s))

    def note(self, on: str, words: str = "so it is") -> Note:
        return self.write(Note, on, words=words)

    def corrects(
        self, on: str, entry: AnyEntry, word: AnyEntry | None = None, /, **new: Any
    ) -> Any:
        """``word``: the earlier correction that is corrected, if it isn't the entry itself."""
        said = word if word is not None else entry
        becomes = said.becomes if isinstance(said, Correction) else said
        return self.write(
            Correction,
            on,
            corrects=said.id,
            original=entry.uid,
            becomes=msgspec.structs.replace(becomes, **new),
            changed=tuple(new),
            because="misread",
        )

    def voids(self, on: str, entry: AnyEntry) -> Void:
        return self.write(Void, on, voids=entry.id, original=entry.uid, because="not mine")


def aircraft(slug: str, **more: Any) -> Aircraft:
    """A multirotor with a quad-x layout unless told otherwise."""
    common: dict[str, Any] = {
        "file": f"aircraft/{slug}/aircraft.yaml",
        "line": 1,
        "slug": slug,
        "aircraft": slug.title(),
        "kind": "multirotor",
        "layout": "quad-x",
        "radio": Radio(failsafe={"throttle": "cut"}),
    }
    return Aircraft(**{**common, **more})


def item(tag: str, line: int = 1, **more: Any) -> Item:
    """An item whose spec is its kind, which its prefix gives."""
    return Item(file="parts/items.yaml", line=line, tag=tag, spec=PREFIXES[tag[0]], **more)


def ledger(
    logs: Sequence[Log], items: Sequence[str | Item] = (), fleet: Sequence[Aircraft] = ()
) -> Ledger:
    """A ledger of these logs; aircraft are as their logs name them unless given in ``fleet``."""
    specs = {
        kind: Spec(
            file="parts/specs.yaml",
            line=1,
            spec=kind,
            kind=kind,
            capacity_ah=2.0 if kind == "battery" else None,
            chemistry="LiPo" if kind == "battery" else None,
        )
        for kind in PREFIXES.values()
    }
    found = [
        item(given, line=number) if isinstance(given, str) else given
        for number, given in enumerate(items, start=1)
    ]
    slugs = [log.aircraft for log in logs if log.aircraft]
    planes = {slug: aircraft(slug) for slug in dict.fromkeys(slugs)}
    planes.update({given.slug: given for given in fleet})
    return Ledger(
        keeper=Keeper(file="hangar.yaml", line=1, hangar="Shed"),
        specs=specs,
        items={given.tag: given for given in found},
        aircraft=planes,
        entries=tuple(entry for log in logs for entry in log.entries),
        programmes={},
    )


def folded(
    logs: Sequence[Log],
    items: Sequence[str | Item] = (),
    fleet: Sequence[Aircraft] = (),
    as_of: str | None = None,
) -> Hangar:
    """The hangar of these logs on a day."""
    return fold(ledger(logs, items, fleet), END if as_of is None else day(as_of))


def problems(hangar: Hangar) -> list[str]:
    """What is wrong, as told: ``severity: reason @ place``."""
    return [f"{problem.severity}: {problem}" for problem in hangar.problems]
