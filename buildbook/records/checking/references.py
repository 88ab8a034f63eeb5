"""Names that stand for something else: each must be there, and be of the right kind."""

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from buildbook.basis.nearest import did_you_mean
from buildbook.basis.notation import quoted
from buildbook.basis.place import Place
from buildbook.basis.problems import Problems, either
from buildbook.records import entries as kinds
from buildbook.records.checking.aircraft_references import (
    Equipment,
    check_aircraft,
    check_bounds,
    check_drive,
    check_equipment,
    check_programme,
    check_stations,
    check_story,
)
from buildbook.records.checking.known import Faults, Known, Names, meant_station, names_of_logs
from buildbook.records.checking.parts_references import (
    check_notices,
    check_parts,
    former_names,
    renamed,
)
from buildbook.records.entries import AnyEntry, Correction, Void
from buildbook.records.entries.entry import tagged
from buildbook.records.keys.values import an
from buildbook.records.ledger import Ledger
from buildbook.records.row_names import SPIN_DIRECTIONS


def check_references(ledger: Ledger, known: Known, problems: Problems) -> None:
    """Tell every name in a ledger that stands for nothing, or for the wrong thing."""
    check_parts(ledger, known, problems)
    for slug, aircraft in ledger.aircraft.items():
        check_aircraft(aircraft, ledger, known, Faults(problems, slug))
        check_story(aircraft, ledger, Faults(problems, slug))
    check_notices(ledger, known, problems)
    former_names(ledger.programmes.values(), problems)
    keeper = ledger.keeper
    check_programme(keeper.programme, keeper, ledger, known, Faults(problems, None))
    names = names_of_logs(ledger, known)
    entries = _Entries(ledger, known)
    for entry in ledger.entries:
        if entry.aircraft is not None and entry.aircraft not in ledger.aircraft:
            continue  # why the aircraft could not be read is told; its log waits for that
        entries.check(entry, names[entry.log], Faults(problems, entry.aircraft))


SPINS = (
    *("cw", "ccw", "clockwise", "counter-clockwise", "counterclockwise"),
    *("anti-clockwise", "anticlockwise"),
)
"""How a spin may be read; of these upkeep knows which is which."""


def _ask_why(entry: kinds.Check | kinds.Inspection, name: str, tell: Faults) -> None:
    """Nothing is set aside without a reason."""
    if entry.because is None:
        reason = f"{quoted(name)} is not applicable, without a reason"
        tell.refuse(reason, entry.place("result"), f"add {either('because:', '--because')}")


class _Entries:
    """Entries of all kinds; one small rule a kind, in the table at the end of the class."""

    def __init__(self, ledger: Ledger, known: Known) -> None:
        self._ledger = ledger
        self._tags = known.tags
        self._equipment = Equipment(ledger, known)
        self._notices = known.notices
        self._amended = frozenset(
            one.original for one in ledger.entries if type(one) is Correction or type(one) is Void
        )
        self._corrected: AnyEntry | None = None
        self._people = frozenset(ledger.keeper.people)
        self._kind_of: dict[str, str] = {
            tag: ledger.specs[item.spec].kind
            for tag, item in ledger.items.items()
            if item.spec in ledger.specs
        }
        self._packs = frozenset(tag for tag, kind in self._kind_of.items() if kind == "battery")

    def check(self, entry: AnyEntry, names: Names, tell: Faults) -> None:
        """All names in one entry."""
        if self._people:
            for key, person in (("by", entry.by), ("checked_by", entry.checked_by)):
                if person is not None and person not in self._people:
                    tell.unknown("person", person, self._people, entry.place(key))
        if entry.photos and entry.aircraft is not None:
            there = self._ledger.photos.get(entry.aircraft, ())
            for photo in entry.photos:
                if photo not in there:
                    hint = did_you_mean(photo, there)
                    tell.warn(f"no photo {quoted(photo)} in photos/", entry.place("photos"), hint)
        if entry.entered is not None and entry.entered < entry.on:
            tell.refuse(
                f"entered on {entry.entered}, before the day of the entry, {entry.on}",
                entry.place("entered"),
                "entered is the day on which it was written down later",
            )
        if isinstance(entry, Correction):
            entry = self._corrected = entry.becomes
        for field in tagged(type(entry)):
            look_up = self.packs if field.of_packs else self.tags
            look_up(field.tags(entry), entry, field.key, tell)
        rule = _RULES.get(type(entry))
        if rule is not None:
            rule(self, entry, names, tell)

    def tags(
        self,
        tags: Iterable[str],
        entry: AnyEntry,
        path: str,
        tell: Faults,
        likely: frozenset[str] | None = None,
    ) -> None:
        """Tags that must be there, each once. likely: those that may be meant by an unknown one."""
        seen: set[str] = set()
        for tag in tags:
            if self._tags is not None and tag not in self._tags:
                choices = self._tags if likely is None else likely
                tell.unknown("tag", tag, choices, entry.place(f"{path}.{tag}"))
            elif tag in seen:
                tell.refuse(f"{quoted(tag)} is listed twice", entry.place(path))
            seen.add(tag)

    def packs(self, tags: Iterable[str], entry: AnyEntry, path: str, tell: Faults) -> None:
        """Tags of batteries."""
        tags = tuple(tags)
        self.tags(tags, entry, path, tell, self._packs)
        for tag in tags:
            kind = self._kind_of.get(tag, "battery")
            if kind != "battery":
                tell.refuse(f"{quoted(tag)} is {an(kind)}, not a pack", entry.place(path))

    def stations(
        self, stations: Iterable[str], entry: AnyEntry, path: str, names: Names, tell: Faults
    ) -> None:
        """Each must be one that the aircraft has."""
        for station in stations:
            if station not in names.stations:
                tell.unknown("station", station, names.stations, entry.place(f"{path}.{station}"))

    def touched(
        self, words: Iterable[str], entry: AnyEntry, path: str, names: Names, tell: Faults
    ) -> None:
        """Stations or tags."""
        for word in words:
            if word in names.stations or self._tags is None or word in self._tags:
                continue
            both = names.stations | self._tags
            tell.unknown("station or tag", word, both, entry.place(path))

    def _fit(self, entry: kinds.Fit, names: Names, tell: Faults) -> None:
        seen: dict[str, str] = {}
        check_drive(self._ledger.aircraft.get(entry.aircraft or ""), entry, tell)
        for slot in entry.slots:
            path = f"fit.{slot.station}.{slot.kind}"
            place = entry.place(path)
            for tag in slot.tags:
                kind = self._kind_of.get(tag, slot.kind)
                if self._tags is not None and tag not in self._tags:
                    tell.unknown("tag", tag, self._tags, place)
                elif tag in seen:
                    tell.refuse(f"{quoted(tag)} is fitted twice in one entry", place)
                elif kind != slot.kind:
                    tell.refuse(
                        f"{quoted(tag)} is {an(kind)}, not {an(slot.kind)}",
                        place,
                        f"write {either(f'{kind}: {tag}', f'{slot.station}.{kind}={tag}')}",
                    )
                seen.setdefault(tag, slot.station)
            self._fit_station(slot, entry, names, tell, place)
        for tag, stations in entry.serves.items():
            for station in stations:
                if names.motor_stations and station not in names.motor_stations:
                    place = entry.place(f"serves.{tag}")
                    tell.unknown("motor station", station, frozenset(names.motor_stations), place)

    def _fit_station(
        self, slot: kinds.Slot, entry: kinds.Fit, names: Names, tell: Faults, place: Place
    ) -> None:
        """Other stations are free words, but not slips of the pen for a motor station."""
        aircraft = self._ledger.aircraft.get(entry.aircraft or "")
        if not names.motor_stations or slot.station in names.motor_stations:
            return
        if aircraft is not None and slot.station in aircraft.positions:
            return
        meant = meant_station(slot.station, names.motor_stations)
        if meant is not None:
            hint = f"did you mean '{meant}'?"
            tell.refuse(f"unknown station {quoted(slot.station)}", place, hint)
        elif slot.kind in ("motor", "propeller") and not names.free:
            fitted = f"{an(slot.kind)} is fitted at {quoted(slot.station)}"
            has = f"the layout has {', '.join(names.motor_stations)}"
            tell.warn(f"{fitted}, which is not a motor station", place, has)

    def _flight(self, entry: kinds.Flight, names: Names, tell: Faults) -> None:
        for index, row in enumerate(entry.rows):
            path = f"flights.{index}"
            self.packs(row.packs, entry, path if path in entry.lines else "pack", tell)
        if entry.gains is not None:
            self.gain_set(entry.gains, entry, "gains", names, tell)

    def _opened(self, entry: kinds.Opening, _: Names, tell: Faults) -> None:
        if entry.totals == kinds.Totals():
            tell.refuse(
                "'opening' says no total",
                entry.place("opening"),
                "as in {flights: 612, time: 88.4 h}",
            )

    def gain_set(self, name: str, entry: AnyEntry, path: str, names: Names, tell: Faults) -> None:
        """Only slips of the pen: a set that is used before it was written is the fold's matter."""
        if name not in names.gains and did_you_mean(name, names.gains):
            tell.unknown("gain set", name, names.gains, entry.place(path))

    def _checked(self, entry: kinds.Check, names: Names, tell: Faults) -> None:
        place = entry.place("calibration" if entry.taught else "check")
        if names.checks is not None and names.tasks is not None:
            for check in entry.checks:
                if (former := renamed(check)) is not None:
                    tell.refuse(former[0], place, former[1])
                elif check not in names.checks | names.tasks:
                    tell.unknown("check", check, names.checks, place)
                elif check not in names.checks and not entry.sure:
                    reason = f"{quoted(check)} is an inspection, not a check"
                    tell.warn(
                        reason,
                        place,
                        f"write {either(f'inspection: {check}', f'enter inspection and {check}')}",
                    )
        if entry.result == "not applicable":
            for check in names.grounding.intersection(entry.checks):
                tell.refuse(
                    f"{quoted(check)} grounds, so an entry can't say that it is not applicable",
                    entry.place("result"),
                    "drop it in the programme, with the reason",
                )
            _ask_why(entry, entry.checks[0], tell)
        self.stations(entry.stations, entry, "stations", names, tell)
        self._read_at(entry, names, tell)

    def _read_at(self, entry: kinds.Check, names: Names, tell: Faults) -> None:
        """Readings by station: no slips of the pen, and of a spin nothing but a spin."""
        for key, value in entry.readings.items():
            place = entry.place(f"readings.{key}")
            at, _, of = key.partition(".")
            if at not in names.stations:
                slip = meant_station(at, names.motor_stations)
                if slip is not None:
                    hint = f"did you mean '{slip}'?"
                    tell.refuse(f"unknown station {quoted(at)}", place, hint)
            if entry.checks == (SPIN_DIRECTIONS,) and of in ("", "spin"):
                named = at == "each" or at in names.motor_stations
                if named and value.strip().casefold() not in SPINS:
                    tell.refuse(
                        f"{quoted(value)} is not a direction of spin", place, "write cw or ccw"
                    )

    def _inspected(self, entry: kinds.Inspection, names: Names, tell: Faults) -> None:
        place = entry.place("inspection")
        if names.jobs is not None and names.checks is not None:
            for task in entry.tasks:
                if task not in names.jobs and task not in names.checks:
                    tell.unknown("task", task, names.jobs | names.checks, place)
        amended = entry.uid in self._amended and entry is not self._corrected
        if entry.result == "fail" and not amended:
            self._found(entry, tell)
        for defect in entry.addressed:
            if defect.rpartition("#")[2] not in names.defects:
                tell.unknown("defect", defect, names.defects, entry.place("addressed"))
        if entry.result == "not applicable":
            self._not_applicable(entry, names, tell)

    def _found(self, entry: kinds.Inspection, tell: Faults) -> None:
        """A failed look says what it found: without that nobody can mend it, or release it."""
        if not (entry.findings or entry.note or entry.readings):
            tell.refuse(
                f"{', '.join(map(quoted, entry.tasks))} failed, and nothing says what was found",
                entry.place("result"),
                either(
                    "add findings:, or in an entry that corrects it set: {findings: …}",
                    "add --findings and what was found",
                ),
            )

    def _overhauled(self, entry: kinds.Overhaul, _: Names, tell: Faults) -> None:
        for tag in entry.tags:
            if self._kind_of.get(tag) == "battery":
                tell.refuse(
                    f"{quoted(tag)} is a battery, and packs are not overhauled",
                    entry.place("overhaul"),
                    either("write capacity:, charge: or state:", "enter capacity, charge or state"),
                )

    def _not_applicable(self, entry: kinds.Inspection, names: Names, tell: Faults) -> None:
        """Only a notice may be set aside by an entry, and never without a reason."""
        for task in entry.tasks:
            named = names.jobs is None or task in names.jobs
            if named and self._notices is not None and task not in self._notices:
                tell.refuse(
                    f"{quoted(task)} is not a notice, so it cannot be not applicable",
                    entry.place("result"),
                    "drop it in the programme, with the reason",
                )
        _ask_why(entry, entry.tasks[0], tell)

    def _weighed(self, entry: kinds.Weigh, names: Names, tell: Faults) -> None:
        for station in entry.scales_kg:
            meant = meant_station(station, names.motor_stations)
            if station not in names.stations and meant is not None:
                place = entry.place(f"scales.{station}")
                tell.refuse(f"unknown station {quoted(station)}", place, f"did you mean '{meant}'?")

    def _incident(self, entry: kinds.Incident, names: Names, tell: Faults) -> None:
        self.touched(entry.touched, entry, "touched", names, tell)

    def _repaired(self, entry: kinds.Repair, names: Names, tell: Faults) -> None:
        if entry.after is not None and entry.after.rpartition("#")[2] not in names.incidents:
            tell.unknown_id("incident", entry.after, names.incidents, entry.place("after"))
        self.touched(entry.touched, entry, "touched", names, tell)

    def _defect(self, entry: kinds.Defect, names: Names, tell: Faults) -> None:
        if entry.station is not None:
            self.stations((entry.station,), entry, "station", names, tell)
        if entry.deferred_until is not None and entry.severity != "defer":
            tell.warn(
                f"a defect of severity {quoted(entry.severity)} has 'deferred_until'",
                entry.place("deferred_until"),
                f"write {either('severity: defer', '--severity defer')}",
            )
        if entry.inoperative is not None and entry.severity != "defer" and not entry.required:
            tell.warn(
                f"a defect of severity {quoted(entry.severity)} has 'inoperative'",
                entry.place("inoperative"),
                f"write {either('severity: defer', '--severity defer')}",
            )

    def _altered(self, entry: kinds.Alteration, _: Names, tell: Faults) -> None:
        aircraft = self._ledger.aircraft.get(entry.aircraft or "")
        if aircraft is not None:
            check_stations(entry.stations, aircraft, entry, tell)
            check_bounds(entry.bounds, entry, tell)
            check_equipment(entry.surfaces, entry.radio, entry, self._equipment, tell)


def _setting(rules: _Entries, entry: kinds.Setting, names: Names, tell: Faults) -> None:
    if entry.of is not None:
        rules.touched((entry.of,), entry, "of", names, tell)


def _verdict(rules: _Entries, entry: kinds.Verdict, names: Names, tell: Faults) -> None:
    for name in entry.verdicts:
        rules.gain_set(name, entry, f"verdict.{name}", names, tell)


def _gains(rules: _Entries, entry: kinds.Gains, names: Names, tell: Faults) -> None:
    if entry.base is not None:
        rules.gain_set(entry.base, entry, "from", names, tell)
    if not entry.values:
        rules.gain_set(entry.name, entry, "gains", names, tell)


# What each kind of entry names beside the tags in fields that are declared to hold them.
_RULES: Mapping[type, Callable[[_Entries, Any, Names, Faults], None]] = {
    kinds.Fit: _Entries._fit,
    kinds.Flight: _Entries._flight,
    kinds.Opening: _Entries._opened,
    kinds.Check: _Entries._checked,
    kinds.Setting: _setting,
    kinds.Gains: _gains,
    kinds.Verdict: _verdict,
    kinds.Weigh: _Entries._weighed,
    kinds.Incident: _Entries._incident,
    kinds.Repair: _Entries._repaired,
    kinds.Overhaul: _Entries._overhauled,
    kinds.Inspection: _Entries._inspected,
    kinds.Defect: _Entries._defect,
    kinds.Alteration: _Entries._altered,
}
