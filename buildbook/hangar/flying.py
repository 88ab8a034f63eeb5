"""Flights: tallies of aircraft and packs, bad landings, and packs that should have stayed down."""

from collections.abc import Mapping

from buildbook.basis.notation import said
from buildbook.basis.place import Place
from buildbook.hangar.cycles import share_of_flight_ah
from buildbook.hangar.doubts import doubt_amount
from buildbook.hangar.drafts import AircraftDraft, Draft, ItemDraft, Landed, Moment
from buildbook.hangar.incidents import CRASHES, touched_by
from buildbook.hangar.item_states import crashed
from buildbook.hangar.touching import EVERYTHING, happen
from buildbook.records.entries import Flight, FlightRow
from buildbook.report.history import FlightDone, IncidentDone


def fly(draft: Draft, moment: Moment, entry: Flight) -> None:
    """``flight`` and ``flights``: one ``FlightDone`` a row."""
    aircraft = draft.home(entry)
    if aircraft is None:
        return
    _object_to_flying(draft, moment, aircraft)
    gains = _gains(draft, aircraft, entry)
    firmware = firmware_fitted(draft, aircraft)
    for index, row in enumerate(entry.rows):
        place = Place(entry.file, row.line) if row.line else moment.place
        flight = FlightDone(
            seq=moment.seq,
            on=moment.on,
            uid=moment.uid,
            place=place,
            aircraft=aircraft.slug,
            row=row,
            row_index=index,
            gains=gains,
            volts=entry.volts,
            wind=entry.wind,
            temperature_k=entry.temperature_k,
            payload_kg=entry.payload_kg,
            where=entry.where,
            preflight=entry.preflight,
            purpose=entry.purpose,
            result=entry.result,
            handling=entry.handling,
            motor_run_s=entry.motor_run_s,
            timing=entry.timing,
            note=entry.note,
            firmware=firmware,
        )
        aircraft.flights.append(flight)
        aircraft.tally.add(moment.seq, moment.on, row.duration_s)
        if row.packs:
            _fly_packs(draft, moment, aircraft, flight)
        if row.landing != "normal":
            _land_badly(draft, moment._replace(place=place), aircraft, index, row)


def firmware_fitted(draft: Draft, aircraft: AircraftDraft) -> Mapping[str, str]:
    """The firmware of what is fitted, by tag; gathered anew only after a change."""
    if aircraft.firmware is None:
        versions = ((tag, draft.items[tag].firmware) for tag in aircraft.all_fitted())
        aircraft.firmware = {tag: version for tag, version in versions if version is not None}
    return aircraft.firmware


def _gains(draft: Draft, aircraft: AircraftDraft, entry: Flight) -> str | None:
    """The set flown: the one that the entry names, else the one in force."""
    if entry.gains is None:
        return aircraft.gain_periods[-1].name if aircraft.gain_periods else None
    if entry.gains not in aircraft.gain_sets:
        draft.objections.object(
            f"gain set {said(entry.gains)} flown on {entry.on} before its values were written",
            entry.place("gains"),
            again=f"flown with gain set {entry.gains}",
            hint=f"write it first: gains: {entry.gains} with values:",
            about=aircraft.slug,
        )
    return entry.gains


def _object_to_flying(draft: Draft, moment: Moment, aircraft: AircraftDraft) -> None:
    """Flown while building; flown after it was retired or sold; flown with a grounding defect.

    ``status: retired`` in aircraft.yaml, without an alteration, says how the story ended.
    """
    slug, status, since = aircraft.slug, aircraft.status, aircraft.status_since
    if status == "building" or (status in ("retired", "sold") and since is not None):
        draft.objections.object(
            f"{slug} flown on {moment.on}, though {status}"
            + ("" if since is None else f" since {since}"),
            moment.place,
            again=f"flown though {status} since {since}",
            severity="warning" if status == "building" else "problem",
            hint="write the change as an alteration with status: flying",
            also=(aircraft.places["status"],),
            about=slug,
        )
    for state in aircraft.grounding.values():
        draft.objections.object(
            f"{slug} flown on {moment.on} with a grounding defect open since {state.on}:"
            f" {said(state.defect.words)}",
            moment.place,
            again=f"flown with defect {state.uid}",
            severity="warning",
            also=(state.place,),
            about=slug,
        )


def _fly_packs(draft: Draft, moment: Moment, aircraft: AircraftDraft, flight: FlightDone) -> None:
    used_ah = share_of_flight_ah(flight)
    for tag in flight.row.packs:
        pack = draft.used(moment, tag, flight.place, aircraft.slug)
        if pack is None:
            continue
        if pack.is_out(moment):
            _object_to_pack(draft, moment, aircraft, pack, flight.place)
        if used_ah is not None:
            doubt_amount(draft, pack, used_ah, "gave", flight.place, aircraft.slug)
        pack.flights.append(flight)
        pack.tally.add(moment.seq, moment.on, flight.duration_s)
        pack.through.flown(used_ah)
        if tag not in aircraft.packs:
            aircraft.packs[tag] = None
            pack.flown_on.append(aircraft.slug)


def _object_to_pack(
    draft: Draft, moment: Moment, aircraft: AircraftDraft, pack: ItemDraft, place: Place
) -> None:
    state = pack.state
    draft.objections.object(
        f"{pack.words} flown on {aircraft.slug} on {moment.on}"
        f" though {state.state} since {state.on}",
        place,
        again=f"{pack.tag} flown though {state.state} since {state.on}",
        severity="warning",
        also=() if state.place is None else (state.place,),
        about=aircraft.slug,
    )


def _land_badly(
    draft: Draft, moment: Moment, aircraft: AircraftDraft, index: int, row: FlightRow
) -> None:
    """A hard landing or crash, with the incident of the same day that tells of it, if any."""
    if row.landing == "crash":
        for tag in row.packs:
            if tag in draft.items:
                crashed(moment, draft.items[tag], aircraft.slug)
    told = draft.incident_after.get(Landed(moment.uid, index))
    crash = row.landing == "crash"
    touch = EVERYTHING
    if told is not None:
        incident = told[1]
        crash = crash or incident.severity in CRASHES
        touch = touched_by(draft, aircraft, incident)
    else:
        aircraft.incidents.append(
            IncidentDone(
                seq=moment.seq,
                on=moment.on,
                uid=moment.uid,
                place=moment.place,
                aircraft=aircraft.slug,
                severity="hard" if crash else "light",
                flight_uid=moment.uid,
            )
        )
    event = "crash" if crash else "hard landing"
    happen(draft, moment, aircraft, event, touch=touch, packs=row.packs)
