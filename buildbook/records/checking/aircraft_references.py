"""Names in what is said of an aircraft, in its file or by an alteration of it."""

from collections.abc import Iterable, Mapping

from buildbook.basis.amounts import listed
from buildbook.basis.nearest import alike, did_you_mean
from buildbook.basis.notation import quoted
from buildbook.records.aircraft import Aircraft, Bounds, Radio, StationPlan
from buildbook.records.checking.known import Faults, Known, meant_station, programme_chain
from buildbook.records.entries import Fit
from buildbook.records.keys.values import an
from buildbook.records.layouts import LAYOUTS, WINGED
from buildbook.records.ledger import Ledger
from buildbook.records.parts import DRIVE
from buildbook.records.programmes import BUILT_IN
from buildbook.records.record import Record
from buildbook.records.surfaces import Surface


def check_programme(
    name: str | None, record: Record, ledger: Ledger, known: Known, tell: Faults
) -> None:
    """A programme that is named must be there."""
    if name is None or known.programmes is None or programme_chain(ledger.programmes, name):
        return
    if name not in known.programmes:
        own = frozenset(each.removeprefix(BUILT_IN) for each in ledger.programmes)
        tell.unknown("programme", name, own, record.place("programme"))


def check_aircraft(aircraft: Aircraft, ledger: Ledger, known: Known, tell: Faults) -> None:
    """All names in an ``aircraft.yaml``."""
    check_programme(aircraft.programme, aircraft, ledger, known, tell)
    fits_kind: tuple[str, ...] = (*WINGED, "custom")
    if aircraft.kind == "multirotor":
        fits_kind = tuple(name for name in LAYOUTS if name not in WINGED)
    if aircraft.layout not in fits_kind:
        tell.refuse(
            f"layout {quoted(aircraft.layout)} does not suit {an(aircraft.kind)}",
            aircraft.place("layout"),
            f"one of {', '.join(fits_kind)}",
        )
    check_stations(aircraft.stations, aircraft, aircraft, tell)
    check_bounds(aircraft.bounds, aircraft, tell)
    equipment = Equipment(ledger, known)
    check_equipment(aircraft.surfaces, aircraft.radio, aircraft, equipment, tell)
    _check_channels(aircraft, tell)
    outputs: dict[int, str] = {}
    for station, plan in aircraft.stations.items():
        if plan.output is None or aircraft.kind == "aeroplane":
            continue
        if plan.output in outputs:
            tell.refuse(
                f"output {plan.output} is given to {quoted(outputs[plan.output])}"
                f" and {quoted(station)}",
                aircraft.place(f"stations.{station}.output"),
            )
        outputs.setdefault(plan.output, station)


_CHANNELS = ("aileron", "elevator", "rudder", "throttle")
_SHORT = {"ail": "aileron", "ele": "elevator", "elev": "elevator", "rud": "rudder",
          "thr": "throttle"}  # fmt: skip
_INITIALS = {"a": "aileron", "e": "elevator", "t": "throttle", "r": "rudder"}
"""Of an order written in one word: AETR."""
_SLIP = 0.8
"""So much alike two names are hardly two channels."""


def _check_channels(aircraft: Aircraft, tell: Faults) -> None:
    """A channel is found by its name: one that is shortened or misspelt leads to no surface."""
    known, usual = dict.fromkeys((*aircraft.surfaces, *_CHANNELS)), listed(_CHANNELS, "or")
    for key, channels in (("receiver.order", aircraft.receiver), ("sockets", aircraft.sockets)):
        for channel in channels:
            if channel not in known and (meant := _channel_meant(channel, known)):
                tell.warn(
                    f"the channel {quoted(channel)} is no surface and not {usual}",
                    aircraft.place(key),
                    f"did you mean {quoted(meant)}?",
                )


def _channel_meant(channel: str, known: Iterable[str]) -> str | None:
    low = channel.casefold()
    if len(low) > 2 and set(low) <= _INITIALS.keys() and len(set(low)) == len(low):
        return ", ".join(_INITIALS[letter] for letter in low)
    if low in _SHORT or low in known:
        return _SHORT.get(low, low)
    return next(
        (
            name
            for name in known
            if alike(low, name) >= _SLIP and not (low.startswith(name) or name.startswith(low))
        ),
        None,
    )


def check_story(aircraft: Aircraft, ledger: Ledger, tell: Faults) -> None:
    """Who tells the story, and its portrait."""
    story = aircraft.story
    if story is None:
        return
    people = frozenset(ledger.keeper.people)
    if story.author is not None and story.author not in people:
        tell.unknown("person", story.author, people, aircraft.place("story.author"))
    there = ledger.photos.get(aircraft.slug, ())
    if story.portrait is not None and story.portrait not in there:
        tell.refuse(
            f"no photo {quoted(story.portrait)} in photos/",
            aircraft.place("story.portrait"),
            did_you_mean(story.portrait, there) or f"the folder is aircraft/{aircraft.slug}/photos",
        )


def check_bounds(bounds: Bounds | None, record: Record, tell: Faults) -> None:
    """Shares of the chord grow aft, lengths forward."""
    if bounds is None:
        return
    shares = (bounds.forward_cg_share, bounds.aft_cg_share)
    lengths_m = (bounds.aft_cg_m, bounds.forward_cg_m)
    for least, most in (shares, lengths_m):
        if least is not None and most is not None and least >= most:
            tell.refuse(
                "the foremost centre of gravity does not lie before the rearmost",
                record.place("bounds.forward_cg"),
                "shares of the chord grow aft, lengths from the reference point forward",
            )


def check_stations(
    stations: Mapping[str, StationPlan], aircraft: Aircraft, record: Record, tell: Faults
) -> None:
    """Stations that the layout has; a custom one says where each is."""
    layout = LAYOUTS[aircraft.layout]
    for station, plan in stations.items():
        place = record.place(f"stations.{station}")
        if layout.motorless and (plan.spin is not None or plan.output is not None):
            reason = (
                f"layout {quoted(layout.name)} has no motor, so none turns at {quoted(station)}"
            )
            tell.refuse(reason, place, _WITH_A_MOTOR)
        elif not layout.free and station not in layout.names:
            meant = meant_station(station, layout.names)
            hint = f"did you mean '{meant}'?" if meant else f"it has {', '.join(layout.names)}"
            tell.refuse(
                f"layout {quoted(layout.name)} has no station {quoted(station)}", place, hint
            )
        elif layout.name == "custom" and plan.at is None and record is aircraft:
            tell.refuse(
                f"station {quoted(station)} of a custom layout has no 'at'",
                place,
                "as in at: [120 mm, -90 mm, 0 mm]",
            )


_WITH_A_MOTOR = "with a motor it is layout: aeroplane"


def check_drive(aircraft: Aircraft | None, entry: Fit, tell: Faults) -> None:
    """Nothing that turns a propeller is fitted to an aircraft without a motor."""
    if aircraft is None or aircraft.has_motor:
        return
    slot = next((slot for slot in entry.slots if slot.kind in DRIVE), None)
    if slot is not None:
        reason = f"{an(slot.kind)} is fitted, and layout {quoted(aircraft.layout)} has no motor"
        tell.refuse(reason, entry.place(f"fit.{slot.station}.{slot.kind}"), _WITH_A_MOTOR)


class Equipment:
    """The tags of a hangar with the kind of each."""

    def __init__(self, ledger: Ledger, known: Known) -> None:
        self.tags = known.tags
        self.kind_of = {
            tag: ledger.specs[item.spec].kind
            for tag, item in ledger.items.items()
            if item.spec in ledger.specs
        }


def check_equipment(
    surfaces: Mapping[str, Surface],
    radio: Radio | None,
    record: Record,
    equipment: Equipment,
    tell: Faults,
) -> None:
    """The servos of surfaces and the transmitter must be there, and be of that kind."""
    named = [
        (tag, "servo", f"surfaces.{name}")
        for name, surface in surfaces.items()
        for tag in surface.servos
    ]
    if radio is not None and radio.transmitter is not None:
        named.append((radio.transmitter, "transmitter", "radio.transmitter"))
    for tag, wanted, path in named:
        kind = equipment.kind_of.get(tag, wanted)
        if equipment.tags is not None and tag not in equipment.tags:
            tell.unknown("tag", tag, equipment.tags, record.place(path))
        elif kind != wanted:
            tell.refuse(f"{quoted(tag)} is {an(kind)}, not {an(wanted)}", record.place(path))
