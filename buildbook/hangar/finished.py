"""The draft made into the frozen hangar."""

import datetime
from collections.abc import Iterable, Mapping
from itertools import pairwise

import msgspec

from buildbook.hangar.defects import aged
from buildbook.hangar.drafts import AircraftDraft, Draft, ItemDraft
from buildbook.hangar.fitting import stay
from buildbook.hangar.time_in_service import flown_on_stays
from buildbook.records.layouts import AEROPLANE_MOTOR_STATIONS, LAYOUTS
from buildbook.records.parts import Carried
from buildbook.report.history import DefectState, Event, GainsPeriod, Stay
from buildbook.report.state import AircraftNow, Counters, Hangar, ItemNow
from buildbook.report.tally import Flown

NEW = Carried()


def finished(draft: Draft, as_of: datetime.date, left_out: int) -> Hangar:
    """The hangar on that day."""
    defects = aged(draft)
    of_aircraft: dict[str, list[DefectState]] = {}
    of_item: dict[str, list[DefectState]] = {}
    for state in defects:
        if state.aircraft is not None:
            of_aircraft.setdefault(state.aircraft, []).append(state)
        if state.defect.item is not None:
            of_item.setdefault(state.defect.item, []).append(state)
    return Hangar(
        as_of=as_of,
        ledger=draft.ledger,
        aircraft={
            slug: _aircraft(aircraft, of_aircraft.get(slug, ()))
            for slug, aircraft in draft.aircraft.items()
        },
        items={tag: _item(draft, item, of_item.get(tag, ())) for tag, item in draft.items.items()},
        store_log=tuple(draft.store_log),
        left_out=left_out,
        problems=tuple(draft.objections),
    )


def _aircraft(aircraft: AircraftDraft, defects: Iterable[DefectState]) -> AircraftNow:
    return AircraftNow(
        slug=aircraft.slug,
        record=aircraft.record,
        status=aircraft.status,
        programme=aircraft.record.programme,
        motor_stations=_motor_stations(aircraft),
        stations=aircraft.stations,
        receiver=aircraft.receiver,
        radio=aircraft.radio,
        wiring=aircraft.wiring,
        positions=aircraft.positions,
        sundries=aircraft.sundries,
        bounds=aircraft.bounds,
        places=aircraft.places,
        fitted={
            station: {kind: tuple(slot) for kind, slot in kinds.items()}
            for station, kinds in aircraft.fitted.items()
        },
        serves=aircraft.serves,
        settings=aircraft.settings,
        setting_log=tuple(aircraft.setting_log),
        gain_sets=aircraft.gain_sets,
        gain_periods=_closed(aircraft.gain_periods),
        gain_verdicts=tuple(aircraft.gain_verdicts),
        flights=tuple(aircraft.flights),
        tally=aircraft.tally,
        counters=_counters(aircraft.record.carried, aircraft.tally.total, aircraft.events),
        events=tuple(aircraft.events),
        checks=tuple(aircraft.checks),
        inspections=tuple(aircraft.inspections),
        weighings=tuple(aircraft.weighings),
        mass_changes=tuple(aircraft.mass_changes),
        defects=tuple(defects),
        incidents=tuple(aircraft.incidents),
        repairs=tuple(aircraft.repairs),
        log=tuple(aircraft.log),
    )


def _motor_stations(aircraft: AircraftDraft) -> tuple[str, ...]:
    """Of the layout; where that is free, those declared, then those with a motor or propeller."""
    layout = LAYOUTS.get(aircraft.record.layout)
    if layout is not None and not layout.free:
        return layout.names
    declared = [
        name
        for name, plan in aircraft.stations.items()
        if layout is None
        or layout.name != "aeroplane"
        or name in AEROPLANE_MOTOR_STATIONS
        or plan.spin is not None
    ]
    driven = [
        station
        for station, kinds in aircraft.fitted.items()
        if "motor" in kinds or "propeller" in kinds
    ]
    return tuple(dict.fromkeys((*declared, *driven)))


def _closed(periods: list[GainsPeriod]) -> tuple[GainsPeriod, ...]:
    """Each period with its end, which is the beginning of the next."""
    ended = [
        msgspec.structs.replace(period, until=following.on, until_seq=following.seq)
        for period, following in pairwise(periods)
    ]
    return (*ended, *periods[-1:])


def _item(draft: Draft, item: ItemDraft, defects: Iterable[DefectState]) -> ItemNow:
    stays = tuple(_stays(draft.aircraft, item))
    flown = (
        item.tally.total
        if item.is_pack
        else flown_on_stays(stays, lambda slug: draft.aircraft[slug].tally)
    )
    counters = _counters(item.item.carried, flown, item.events)
    if item.is_pack:
        counters = msgspec.structs.replace(counters, cycles=item.cycles, charges=len(item.charges))
    return ItemNow(
        tag=item.tag,
        item=item.item,
        spec=item.spec,
        state=item.state,
        fitted=item.fitted,
        aircraft=item.aircraft,
        stays=stays,
        counters=counters,
        firmware=item.firmware,
        events=tuple(item.events),
        inspections=tuple(item.inspections),
        defects=tuple(defects),
        flights=tuple(item.flights),
        flown_on=tuple(item.flown_on),
        tally=item.tally,
        charges=tuple(item.charges),
        capacities=tuple(item.capacities),
    )


def _stays(aircraft: Mapping[str, AircraftDraft], item: ItemDraft) -> list[Stay]:
    """The ended ones, and the one that goes on."""
    if item.fitted is None or item.aircraft is None:
        return item.stays
    return [*item.stays, stay(aircraft[item.aircraft], item.fitted, None)]


def _counters(carried: Carried | None, flown: Flown, events: Iterable[Event]) -> Counters:
    before = carried or NEW
    names = [event.event for event in events]
    return Counters(
        duration_s=before.duration_s + flown.duration_s,
        flights=before.flights + flown.flights,
        flying_days=flown.flying_days,
        cycles=before.cycles,
        crashes=names.count("crash"),
        hard_landings=names.count("hard landing"),
        basis=before.basis,
    )
