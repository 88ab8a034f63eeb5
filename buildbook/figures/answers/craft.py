"""One aircraft or item as the answers look at it: packs, rotors, places."""

from collections.abc import Callable
from functools import cached_property
from typing import ParamSpec, TypeVar

import msgspec

from buildbook.basis.place import Place
from buildbook.figures.answers.gathering import Lacking, declared
from buildbook.hangar.weighings import Weighed, judged_weighings
from buildbook.records.aircraft import Place3
from buildbook.records.keeper import Keeper
from buildbook.records.layouts import LAYOUTS
from buildbook.records.parts import GONE
from buildbook.report.drawn.station_place import place_of_station
from buildbook.report.figure import Figure, Input
from buildbook.report.snapshots import Snapshot
from buildbook.report.state import AircraftNow, Hangar, ItemNow

Found = TypeVar("Found")
Given = ParamSpec("Given")

NO_STATION = "no motor station is known: write 'stations'"
NOT_FLOWN = "nothing was flown yet"
NO_PACK = "its pack is not recorded: weigh it with the pack in, write 'pack' there or with a flight"
FULL_THROTTLE = "full throttle"
MOST_STRANGERS = 6  # packs of the hangar offered for an aircraft that none has flown on


class Rotor(msgspec.Struct, frozen=True, kw_only=True):
    """A motor station with what is fitted there. ``spin``: +1 ccw, -1 cw, seen from above."""

    station: str
    tier: str
    spin: int | None
    motor: ItemNow | None
    esc: ItemNow | None
    propeller: ItemNow | None


class Craft:
    """The aircraft, its hangar, and what several answers ask of it, gathered once."""

    def __init__(self, hangar: Hangar, slug: str) -> None:
        self.hangar = hangar
        self.slug = slug
        self.now: AircraftNow = hangar.aircraft[slug]
        self._kept: dict[str, object] = {}

    def once(
        self,
        key: str,
        work: Callable[Given, Found],
        *args: Given.args,
        **keywords: Given.kwargs,
    ) -> Found:
        """What ``work`` gives, worked out the first time only; what it raises it raises again."""
        if key not in self._kept:
            try:
                self._kept[key] = work(*args, **keywords)
            except (Lacking, ValueError) as refused:
                self._kept[key] = refused
        kept = self._kept[key]
        if isinstance(kept, Exception):
            raise kept
        return kept  # type: ignore[return-value]

    @property
    def keeper(self) -> Keeper:
        """The hangar's defaults."""
        return self.hangar.ledger.keeper

    @property
    def home(self) -> Place:
        """Where the aircraft is described."""
        return self.now.record.place()

    def where(self, key: str, line: int = 0) -> Place:
        """Where what is in force under a key is written, and its line there where it has one."""
        place = self.now.places.get(key, self.home)
        return Place(place.file, line) if line else place

    @cached_property
    def weighed(self) -> Weighed:
        """Its weighings: those that are believed, and those that are doubted."""
        return judged_weighings(self.hangar, self.now)

    @property
    def hovers(self) -> bool:
        """Whether it is carried by its rotors."""
        return self.now.hovers

    @property
    def loads(self) -> tuple[str, ...]:
        """At which loads its figures are told: a wing does not hover."""
        return ("hover", FULL_THROTTLE) if self.hovers else (FULL_THROTTLE,)

    @property
    def yaw_by(self) -> str | None:
        """What holds yaw, where that is not the spins of its rotors."""
        layout, rotors = LAYOUTS.get(self.now.record.layout), len(self.now.motor_stations)
        if layout is not None and layout.tail_servo:
            return "a tail servo holds yaw"
        if rotors < 3:
            return "so few rotors are steered by vanes or by the angle of their blades"
        servo = any(here.kind == "servo" for here in self.now.items())
        return "a servo holds yaw" if rotors == 3 and servo else None

    @cached_property
    def rotors(self) -> tuple[Rotor, ...]:
        """The motor stations in the order of the layout."""
        layout = LAYOUTS.get(self.now.record.layout)
        tiers = {} if layout is None else {one.name: one.tier for one in layout.stations}
        return tuple(
            Rotor(
                station=station,
                tier=tiers.get(station, "single"),
                spin=self._spin(station),
                motor=self.hangar.item_at(self.now, station, "motor"),
                esc=self.hangar.item_at(self.now, station, "esc"),
                propeller=self.hangar.item_at(self.now, station, "propeller"),
            )
            for station in self.now.motor_stations
        )

    @property
    def coaxial(self) -> bool:
        """Whether rotors turn one above the other."""
        return any(rotor.tier != "single" for rotor in self.rotors)

    def _spin(self, station: str) -> int | None:
        plan = self.now.stations.get(station)
        if plan is None or plan.spin is None:
            return None
        return 1 if plan.spin == "ccw" else -1

    @cached_property
    def packs(self) -> tuple[ItemNow, ...]:
        """Packs that are flown on it, by tag; before the first flight those that could be.

        Retired and scrapped packs are left out unless there is no other.
        """
        items = self.hangar.items
        weighed = {weighing.pack for weighing in self.now.weighings}
        known = sorted(
            tag
            for tag in {*self.now.packs_flown, *weighed}
            if tag is not None and tag in items and items[tag].is_pack
        )
        current = [tag for tag in known if items[tag].state.state not in GONE]
        chosen = current or known or self._packs_that_fit()
        return tuple(items[tag] for tag in chosen)

    def _packs_that_fit(self) -> list[str]:
        """Serviceable packs of the hangar with a number of cells that every ESC fitted takes."""
        ranges = [rotor.esc.spec.cells for rotor in self.rotors if rotor.esc is not None]
        fitting = [
            tag
            for tag, item in sorted(self.hangar.items.items())
            if item.is_pack
            and item.state.state == "serviceable"
            and item.spec.cells is not None
            and not item.flown_on
            and all(
                cells is None or cells.series <= item.spec.cells.series <= cells.series_most
                for cells in ranges
            )
        ]
        return fitting[:MOST_STRANGERS]

    @property
    def pack(self) -> ItemNow:
        """The pack that figures of the whole aircraft are for: of the last flight, else the first.

        Lacking: there is no pack.
        """
        if not self.packs:
            raise Lacking(NO_PACK, self.home)
        tags = {pack.tag for pack in self.packs}
        for flight in reversed(self.now.flights[-50:]):
            for tag in flight.row.packs:
                if tag in tags:
                    return self.hangar.items[tag]
        return self.packs[0]

    @property
    def known_packs(self) -> tuple[ItemNow, ...]:
        """The packs that are flown on it. Lacking: there is none."""
        return self.packs or (self.pack,)

    @cached_property
    def arm(self) -> Input:
        """Half the diagonal, in m. Lacking: no diagonal is written."""
        diagonal = self.now.record.diagonal_m
        if diagonal is None:
            raise Lacking(
                "the diagonal is not recorded: write 'diagonal' in aircraft.yaml", self.home
            )
        return declared("arm", diagonal / 2, "m", self.now.record.place("diagonal"))

    def station_at(self, station: str) -> Place3:
        """Where a station is: forward, right, down, in m. Lacking: nobody says."""
        return self.located(station, None)

    def located(self, station: str, then: Snapshot | None) -> Place3:
        """As ``station_at``, of the aircraft as it was then. Lacking: nobody says."""
        found = place_of_station(self.now, station, then)
        if found is not None:
            return found.at_m
        layout = LAYOUTS.get(self.now.record.layout)
        if layout is not None and station in layout.names:
            _ = self.arm  # lacks the diagonal, and says so
        raise Lacking(
            f"the place of {station} is not recorded: write it under 'positions' in aircraft.yaml",
            self.where("positions"),
        )

    def rotor_places(self) -> tuple[tuple[float, float], ...]:
        """Forward and right of each rotor in m. Lacking: a place is missing."""
        return tuple(self.station_at(rotor.station)[:2] for rotor in self.rotors)

    def spins(self) -> tuple[int, ...]:
        """The spin of each rotor. Lacking: one isn't written."""
        found = []
        for rotor in self.rotors:
            if rotor.spin is None:
                raise Lacking(
                    f"the spin of {rotor.station} is not recorded: write 'spin' under 'stations'",
                    self.where(f"stations.{rotor.station}"),
                )
            found.append(rotor.spin)
        if not found:
            raise Lacking(NO_STATION, self.home)
        return tuple(found)

    def spin_place(self, station: str) -> Place:
        """The line on which the spin of a station stands."""
        return self.where(f"stations.{station}")


def named(figure: Figure, name: str) -> Figure:
    """The same figure under another name."""
    return msgspec.structs.replace(figure, name=name)


class Part(msgspec.Struct, frozen=True):
    """The item and its hangar."""

    hangar: Hangar
    item: ItemNow

    @property
    def keeper(self) -> Keeper:
        """The hangar's defaults."""
        return self.hangar.ledger.keeper

    @property
    def last_place(self) -> Place | None:
        """The newest line that tells of its life: a flight, a charge, or where it was fitted."""
        for told in (self.item.flights, self.item.charges):
            if told:
                return told[-1].place
        return self.item.stays[-1].since_place if self.item.stays else None
