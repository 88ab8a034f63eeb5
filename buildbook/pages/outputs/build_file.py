"""``aircraft/<slug>/build.json``: what somebody needs to begin after a published build.

Keys and values are those of the record files, in the same notation, so each group can be written
into a file as it is. The file, as JSON::

    {
     "format": 1,                        of this file, always there
     "build": "Burdock",                 name of the aircraft
     "hangar": "Gorse End loft",         where it was built
     "licence": "CC BY 4.0",             of story and build, as the keeper wrote it; else null
     "caution": "…",                     a sentence to print before anything is used
     "left_out": ["outputs", …],         what a builder must find out anew
     "aircraft": {                       keys of aircraft.yaml; absent where not recorded
      "kind": "multirotor", "layout": "quad-x", "diagonal": "430 mm",
      "stations": {"front-left": {"spin": "ccw"}, …},   spin as planned; "at" in a custom layout
      "wiring": [{"from": "pack", "to": "distribution", "wire": "14 AWG", "length": "160 mm"}, …],
      "sundries": [{"what": "straps", "mass": "47 g", "at": ["0 mm", "0 mm", "6 mm"]}, …],
      "positions": {"pack": ["9 mm", "0 mm", "26 mm"], …},
      "surfaces": {"elevator": {"up": "9.5 mm", "chord": "41 mm", …}, …},   without servos
      "wing": {"span": "1900 mm", …}, "bounds": {"max_mass": "1250 g"}
     },
     "specs": [{"spec": "motor-a", "kind": "motor", "name": "…", "mass": "54 g", …}, …],
     "fitted": {"front-left": {"motor": ["motor-a"], "esc": ["esc-a"]}, …},
     "serves": [{"station": "centre", "spec": "esc-board", "stations": ["front", …]}, …],
     "packs": ["pack-3s", …]
    }

``specs`` holds each kind of part once: all that ``fitted``, ``serves`` and ``packs`` name, and no
other. ``fitted`` goes by station and kind of part; a list, for there may be several. All keys
of the top are always there. Never in it: outputs, the order of receiver leads, radio, settings,
gains; tags, marks, serial numbers, prices, registration, programme, notes, bench tables, days,
people. It is made for the public only, from what the public may see.
"""

import json
from collections.abc import Iterable, Iterator
from typing import Any

from buildbook.pages.addresses import address_of
from buildbook.pages.page import Sheet
from buildbook.records.parts import Spec
from buildbook.report.reports import Reports
from buildbook.report.state import AircraftNow, ItemNow
from buildbook.words import notation_of
from buildbook.words.notation_of import Written
from buildbook.words.public import licence_of

FORMAT = 1

CAUTION = (
    "Outputs, the order of the receiver leads, radio set-up and gains belong to one aircraft and "
    "its controller and are left out: find your own with the propellers off. Check every spin, "
    "every part and every length against yours before a battery goes in."
)
LEFT_OUT = ("outputs", "receiver", "radio", "settings", "gains")
_NOT_OF_A_SPEC = frozenset(("note", "public"))


def keys(reports: Reports) -> Iterable[str]:
    """Each aircraft, for the public."""
    return tuple(reports.hangar.aircraft) if reports.is_public else ()


def sheet(reports: Reports, slug: str) -> Sheet:
    """The build of an aircraft."""
    text = json.dumps(build_shape(reports, slug), ensure_ascii=False, indent=1)
    return Sheet(address=address_of("build-json", slug), text=text + "\n")


def build_shape(reports: Reports, slug: str) -> dict[str, Any]:
    """What the file holds."""
    aircraft = reports.hangar.aircraft[slug]
    items = reports.hangar.items
    packs = _packs(items.values(), slug)
    fitted: dict[str, dict[str, list[str]]] = {}
    used: dict[str, Spec] = {}
    for part in aircraft.items():
        if part.tag in items:
            spec = items[part.tag].spec
            used[spec.spec] = spec
            fitted.setdefault(part.station, {}).setdefault(spec.kind, []).append(spec.spec)
    used.update((pack.spec, pack) for pack in packs)
    return {
        "format": FORMAT,
        "build": aircraft.record.aircraft,
        "hangar": reports.hangar.ledger.keeper.hangar,
        "licence": licence_of(aircraft, reports.hangar.ledger.keeper),
        "caution": CAUTION,
        "left_out": list(LEFT_OUT),
        "aircraft": _aircraft(aircraft),
        "specs": [
            notation_of.written_keys(used[name], used[name].kind, _NOT_OF_A_SPEC)
            for name in sorted(used)
        ],
        "fitted": fitted,
        "serves": list(_serves(aircraft, reports)),
        "packs": [pack.spec for pack in packs],
    }


def _aircraft(aircraft: AircraftNow) -> Written:
    record = aircraft.record
    said: Written = {"kind": record.kind, "layout": record.layout}
    if record.diagonal_m is not None:
        said["diagonal"] = notation_of.length(record.diagonal_m)
    without_output, without_servo = frozenset(("output",)), frozenset(("servo",))
    groups: Written = {
        "stations": {
            station: notation_of.written_keys(plan, without=without_output)
            for station, plan in aircraft.stations.items()
        },
        "wiring": [notation_of.written_keys(run) for run in aircraft.wiring],
        "sundries": [notation_of.written_keys(sundry) for sundry in aircraft.sundries],
        "positions": {name: notation_of.place(at) for name, at in aircraft.positions.items()},
        "surfaces": {
            name: notation_of.written_keys(surface, without=without_servo)
            for name, surface in aircraft.surfaces.items()
        },
        "wing": notation_of.written_keys(record.wing) if record.wing else {},
        "bounds": _bounds(aircraft),
    }
    return {**said, **{name: group for name, group in groups.items() if group}}


def _bounds(aircraft: AircraftNow) -> Written:
    bounds = aircraft.bounds
    if bounds is None:
        return {}
    said = notation_of.written_keys(bounds)
    for end in ("forward_cg", "aft_cg"):
        share, along_m = getattr(bounds, f"{end}_share"), getattr(bounds, f"{end}_m")
        if share is not None:
            said[end] = notation_of.share(share)
        elif along_m is not None:
            said[end] = notation_of.length(along_m)
    return said


def _packs(items: Iterable[ItemNow], slug: str) -> tuple[Spec, ...]:
    """Kinds of pack that flew on it, each once, by name."""
    found = {item.spec.spec: item.spec for item in items if item.is_pack and slug in item.flown_on}
    return tuple(found[name] for name in sorted(found))


def _serves(aircraft: AircraftNow, reports: Reports) -> Iterator[Written]:
    """Shared ESCs with the motor stations that each serves."""
    stations = {part.tag: part.station for part in aircraft.items()}
    for tag, served in sorted(aircraft.serves.items()):
        if tag in stations and tag in reports.hangar.items:
            spec = reports.hangar.items[tag].spec.spec
            yield {"station": stations[tag], "spec": spec, "stations": list(served)}
