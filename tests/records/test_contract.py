"""The files as they stand in the contract are read as they are meant, in SI."""

import datetime
from pathlib import Path

import pytest
from small_hangar import WriteHangar

from buildbook.records import entries as kinds
from buildbook.records.aircraft import Bounds, Radio, StationPlan, Sundry, Wing
from buildbook.records.keeper import Person, Share
from buildbook.records.ledger import Ledger
from buildbook.records.parts import Carried, Cells, Money
from buildbook.records.reading.read import read_hangar

LOG = "aircraft/sedge/logbook.yaml"
HANGAR = """\
format: 1                             # of these files
hangar: Reedmere shed
keeper: Ida Quill                     # private
address: https://hangar.example.org/  # where the site will live
currency: EUR
as_of: 2026-11-20
soon: 30 days
soon_flights: 10
field_elevation: 120 m
field_temperature: 15 °C
reserve: 20 %
pack_end_of_life: 80 %
programme: small-multirotor
share: {names: false, places: false, incidents: true, photos: true, dates: month}
people: {ida: {name: Ida Quill}, jon: {name: Jon Pell}}
"""
ITEMS = """\
- tag: M-01
  spec: motor-a
  acquired: 2026-02-03
  made: 2025-11-01
  mass: 54.2 g
  mark: blue dot
  serial: K7731
  price: 14.50 EUR
  carried: {hours: 3.2, flights: 20, cycles: 0, basis: measured}
- {tags: R-01..R-08, spec: prop-a, acquired: 2026-02-03}
- {tags: M-02..M-04, spec: motor-a}
- {tags: P-01..P-02, spec: pack-a}
- {tag: C-01, spec: board-a}
- {tag: E-09, spec: esc-a}
"""
AIRCRAFT = """\
aircraft: Sedge
kind: multirotor
layout: quad-x
status: flying
registration: on the arm
carried: {hours: 4.2, flights: 31, basis: measured}
programme: small-multirotor
diagonal: 410 mm
stations:
  front-left:  {spin: ccw, output: 5}
  front-right: {spin: cw,  output: 2}
  rear-left:   {spin: cw,  output: 6}
  rear-right:  {spin: ccw, output: 4}
receiver:
  order: [throttle, rudder, elevator, mode, aileron]
radio: {memory: 4, mode: 2, reversed: [rudder], throttle_cut: left shoulder switch,
        failsafe: {throttle: cut, rest: hold},
        switches: {mode: {up: by hand, middle: rate held, down: angle held}}}
wiring:
  - {from: pack, to: distribution, wire: 14 AWG, length: 140 mm, plug: bullet 4 mm}
  - {from: distribution, to: each esc, wire: 1.5 mm², length: 180 mm}
sundries:
  - {what: straps and leads, mass: 38 g, at: [0 mm, 0 mm, 5 mm]}
positions:
  pack: [10 mm, 0 mm, 25 mm]
wing: {area: 0.32 m², span: 1400 mm, mean_chord: 230 mm, leading_edge: 310 mm,
       max_lift_coefficient: 1.2}
bounds: {max_mass: 1800 g, forward_cg: 20 %, aft_cg: -12 mm}
items:
  - {tag: E-01, spec: esc-a}
"""


@pytest.fixture
def ledger(write_hangar: WriteHangar) -> Ledger:
    """The example of the contract, without a log."""
    folder = write_hangar(
        {
            "hangar.yaml": HANGAR,
            "parts/items.yaml": ITEMS,
            "aircraft/sedge/aircraft.yaml": AIRCRAFT,
            LOG: "",
        }
    )
    return read(folder)


def read(folder: Path) -> Ledger:
    """The ledger of a hangar without faults."""
    reading = read_hangar(folder, None)
    assert () == reading.problems
    assert reading.ledger is not None
    return reading.ledger


def test_the_hangar(ledger: Ledger) -> None:
    """Kelvin, metres, ratios, days."""
    keeper = ledger.keeper

    assert ("Reedmere shed", "Ida Quill", "EUR") == (keeper.hangar, keeper.keeper, keeper.currency)
    assert datetime.date(2026, 11, 20) == keeper.as_of
    assert (30, 10) == (keeper.soon_days, keeper.soon_flights)
    assert (120.0, 288.15) == (keeper.field_elevation_m, keeper.field_temperature_k)
    assert (0.2, 0.8) == (keeper.reserve_share, keeper.pack_end_of_life_share)
    assert Share(incidents=True, photos=True) == keeper.share
    assert {"ida": Person(name="Ida Quill"), "jon": Person(name="Jon Pell")} == keeper.people


def test_the_items(ledger: Ledger) -> None:
    """One item with all its keys, a bag, and one that is listed with its aircraft."""
    motor = ledger.items["M-01"]

    assert 0.0542 == pytest.approx(motor.mass_kg)
    assert Money(14.5, "EUR") == motor.price
    assert Carried(duration_s=11520.0, flights=20) == motor.carried
    assert (datetime.date(2026, 2, 3), datetime.date(2025, 11, 1)) == (motor.acquired, motor.made)
    assert 8 == sum(tag.startswith("R-") for tag in ledger.items)
    assert ("sedge", "aircraft/sedge/aircraft.yaml:30") == (
        ledger.items["E-01"].aircraft,
        str(ledger.items["E-01"].place()),
    )
    assert Cells(3, 3, 1) == ledger.specs["pack-a"].cells


def test_the_aircraft(ledger: Ledger) -> None:
    """Every key of the example."""
    sedge = ledger.aircraft["sedge"]

    assert 0.41 == sedge.diagonal_m
    assert StationPlan(spin="cw", output=6) == sedge.stations["rear-left"]
    assert ("throttle", "rudder", "elevator", "mode", "aileron") == sedge.receiver
    assert (
        Radio(
            memory="4",
            mode=2,
            reversed=("rudder",),
            throttle_cut="left shoulder switch",
            failsafe={"throttle": "cut", "rest": "hold"},
            switches={"mode": {"up": "by hand", "middle": "rate held", "down": "angle held"}},
        )
        == sedge.radio
    )
    first, second = sedge.wiring
    assert ("pack", "distribution", 0.14, "14 AWG") == (
        first.start,
        first.end,
        first.length_m,
        first.wire and first.wire.written,
    )
    # ASTM B258: AWG 14 is 2.08 mm² of copper.
    assert 2.08e-6 == pytest.approx(first.wire.area_m2 if first.wire else 0, rel=1e-3)
    assert 1.5e-6 == pytest.approx(second.wire.area_m2 if second.wire else 0)
    assert (Sundry(what="straps and leads", mass_kg=0.038, at=(0, 0, 0.005), line=23),) == (
        sedge.sundries
    )
    assert {"pack": (0.01, 0.0, 0.025)} == sedge.positions
    wing = Wing(
        area_m2=0.32, span_m=1.4, mean_chord_m=0.23, leading_edge_m=0.31, max_lift_coefficient=1.2
    )
    assert wing == sedge.wing
    assert Bounds(max_mass_kg=1.8, forward_cg_share=0.2, aft_cg_m=-0.012) == sedge.bounds


def entry(write_hangar: WriteHangar, text: str) -> kinds.AnyEntry:
    """The last entry of a log that begins with a few others."""
    before = (
        "- {on: 2026-02-03, fit: {front-left: {motor: M-01}}}\n"
        "- {on: 2026-02-03, id: bump, incident: clipped a branch}\n"
        "- {on: 2026-02-03, gains: calm, values: {roll: {p: 38}}}\n"
    )
    folder = write_hangar(
        {
            "hangar.yaml": HANGAR,
            "parts/items.yaml": ITEMS,
            "aircraft/sedge/aircraft.yaml": AIRCRAFT,
            LOG: f"{before}- {{on: 2026-03-01, {text}}}\n",
        }
    )
    return read(folder).entries[-1]


def said(entry: kinds.AnyEntry) -> dict[str, object]:
    """What an entry says beyond the head that all have, without what it leaves unsaid."""
    head = set(kinds.Entry.__struct_fields__)
    return {
        name: getattr(entry, name)
        for name in entry.__struct_fields__
        if name not in head and getattr(entry, name) not in (None, (), {}, False)
    }


EXAMPLES: dict[str, tuple[str, dict[str, object]]] = {
    "fit": (
        "fit: {front-right: {motor: M-02, propeller: [R-01]}, centre: {esc: E-09}},"
        " instead_of: {R-02: scrapped}, serves: {E-09: [front-left, front-right]}",
        {
            "slots": (
                kinds.Slot("front-right", "motor", ("M-02",)),
                kinds.Slot("front-right", "propeller", ("R-01",)),
                kinds.Slot("centre", "esc", ("E-09",)),
            ),
            "instead_of": {"R-02": "scrapped"},
            "serves": {"E-09": ("front-left", "front-right")},
        },
    ),
    "remove": (
        "remove: [R-03], because: nicked, state: scrapped",
        {"tags": ("R-03",), "because": "nicked", "state": "scrapped"},
    ),
    "state": (
        "state: {P-02: quarantined}, because: puffed",
        {"states": {"P-02": "quarantined"}, "because": "puffed"},
    ),
    "flight": (
        "flight: 7 min 20 s, pack: [P-01, P-02], used: 1480 mAh, landing: hard, wind: 3 m/s,"
        " volts: {before: 12.6 V, lowest: 10.4 V, after: 11.1 V}, temperature: 50 °F,"
        " payload: 4 oz, place: meadow, preflight: done, purpose: check, result: pass,"
        " handling: soft, motor_run: 2:10, timing: armed, gains: calm",
        {
            "rows": (
                kinds.FlightRow(
                    duration_s=440.0, packs=("P-01", "P-02"), used_ah=1.48, landing="hard", line=4
                ),
            ),
            "wind": "3 m/s",
            "volts": kinds.Volts(before_v=12.6, lowest_v=10.4, after_v=11.1),
            "temperature_k": 283.15,
            "payload_kg": pytest.approx(0.113398, rel=1e-5),
            "where": "meadow",
            "preflight": "done",
            "purpose": "check",
            "result": "pass",
            "handling": "soft",
            "motor_run_s": 130.0,
            "timing": "armed",
            "gains": "calm",
        },
    ),
    "flights": (
        "flights: [[7:20, P-01, 1480 mAh], [6:50, P-02, 1.39 Ah, hard], [0:40, crash]]",
        {
            "rows": (
                kinds.FlightRow(duration_s=440.0, packs=("P-01",), used_ah=1.48, line=4),
                kinds.FlightRow(
                    duration_s=410.0, packs=("P-02",), used_ah=1.39, landing="hard", line=4
                ),
                kinds.FlightRow(duration_s=40.0, landing="crash", line=4),
            )
        },
    ),
    "charge": (
        "charge: P-01, put_in: 1540 mAh, resistance: [8.1 mΩ, 0.0083 ohm],"
        " resting: [4180 mV, 4.19 V], temperature: 21 °C, to: full",
        {
            "packs": ("P-01",),
            "put_in_ah": 1.54,
            "resistance_ohm": (0.0081, 0.0083),
            "resting_v": (4.18, 4.19),
            "temperature_k": pytest.approx(294.15),
            "to": "full",
        },
    ),
    "capacity": (
        "capacity: P-01, measured: 2140 mAh, current: 2 A, down_to: 9.9 V",
        {"pack": "P-01", "measured_ah": 2.14, "current_a": 2.0, "down_to_v": 9.9},
    ),
    "check": (
        "check: [spin-directions, start-spread], result: fail, stations: [front-left],"
        " readings: {front-left: {spin: ccw, start: 12 %}, all: [1, 2]}",
        {
            "checks": ("spin-directions", "start-spread"),
            "result": "fail",
            "stations": ("front-left",),
            "readings": {"front-left.spin": "ccw", "front-left.start": "12 %", "all": "1, 2"},
        },
    ),
    "calibration": (
        "calibration: accelerometer, surface: kitchen table",
        {
            "checks": ("accelerometer",),
            "result": "pass",
            "surface": "kitchen table",
            "taught": True,
        },
    ),
    "setting": (
        "setting: {start_throttle: 14 %, levelling: on a switch}, of: front-left, because: cold",
        {
            "settings": {"start_throttle": "14 %", "levelling": "on a switch"},
            "of": "front-left",
            "because": "cold",
        },
    ),
    "gains": (
        "gains: windy, from: calm, values: {roll: {p: 40, d: -1.5}}, because: gusts",
        {
            "name": "windy",
            "base": "calm",
            "values": {"roll": {"p": 40.0, "d": -1.5}},
            "because": "gusts",
        },
    ),
    "verdict": ("verdict: {calm: steady}", {"verdicts": {"calm": "steady"}}),
    "weigh": (
        "weigh: 1.342 kg, pack: P-01, without: [C-01], scales: {front-left: 331 g},"
        " cg: [4 mm, 0 mm, 1 cm]",
        {
            "mass_kg": 1.342,
            "pack": "P-01",
            "without": ("C-01",),
            "scales_kg": {"front-left": 0.331},
            "cg_m": (0.004, 0.0, 0.01),
        },
    ),
    "incident": (
        "incident: into the hedge, severity: light, touched: [front-left], cause: gust,"
        " injury: false, property: true, reportable: unsure",
        {
            "words": "into the hedge",
            "severity": "light",
            "touched": ("front-left",),
            "cause": "gust",
            "property": True,
            "reportable": "unsure",
        },
    ),
    "repair": (
        "repair: new arm, after: bump, touched: front-left",
        {"words": "new arm", "after": "bump", "touched": ("front-left",)},
    ),
    "opening": (
        "opening: {flights: 612, time: 88.4 h}",
        {"totals": kinds.Totals(flights=612, duration_s=318240.0)},
    ),
    "overhaul": (
        "overhaul: M-01, steps: [strip, clean, reassemble, test], because: rough",
        {
            "tags": ("M-01",),
            "steps": ("strip", "clean", "reassemble", "test"),
            "because": "rough",
        },
    ),
    "inspection": (
        "inspection: [motor-bearings], tags: [M-01], findings: slight play",
        {
            "tasks": ("motor-bearings",),
            "tags": ("M-01",),
            "result": "pass",
            "findings": "slight play",
            "assumed": True,
        },
    ),
    "defect": (
        "defect: switch sticks, item: C-01, station: front-left, severity: defer,"
        " deferred_until: {on: 2026-09-01, flights: 5, hours: 1.5},"
        " inoperative: deactivated, required: false, placard: leave it up",
        {
            "words": "switch sticks",
            "item": "C-01",
            "station": "front-left",
            "severity": "defer",
            "deferred_until": kinds.Until(
                on=datetime.date(2026, 9, 1), flights=5, duration_s=5400.0
            ),
            "inoperative": "deactivated",
            "placard": "leave it up",
        },
    ),
    "firmware": ("firmware: {C-01: 2.40}", {"versions": {"C-01": "2.40"}}),
    "alteration": (
        "alteration: longer arms, mass: -12 g, at: [0 mm, 0 mm, 5 mm], status: stored,"
        " stations: {front-left: {spin: cw}}",
        {
            "words": "longer arms",
            "keys": ("stations", "status"),
            "stations": {"front-left": StationPlan(spin="cw")},
            "status": "stored",
            "mass_kg": -0.012,
            "at": (0.0, 0.0, 0.005),
        },
    ),
    "transport": ("transport: by train", {"words": "by train"}),
    "water": ("water: wet grass", {"words": "wet grass"}),
    "note": ("note: new season", {"words": "new season"}),
}


@pytest.mark.parametrize("kind", EXAMPLES)
def test_an_entry_of_each_kind(kind: str, write_hangar: WriteHangar) -> None:
    """Every key of every kind, with the unit that its name says."""
    text, expected = EXAMPLES[kind]

    assert expected == said(entry(write_hangar, text))


def test_every_entry_may_say_who_and_when(write_hangar: WriteHangar) -> None:
    """The keys that all entries share."""
    found = entry(
        write_hangar,
        "water: dew, by: ida, checked_by: jon, note: dried, id: dew-1, entered: 2026-03-09",
    )

    assert ("ida", "jon", "dried", "dew-1", datetime.date(2026, 3, 9)) == (
        found.by,
        found.checked_by,
        found.note,
        found.id,
        found.entered,
    )
