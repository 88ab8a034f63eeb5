"""Odd but honest aircraft, each written as a keeper of such a one would, much left out."""

from collections.abc import Mapping

KEEPER = "format: 1\nhangar: Odd shed\n"


def _hangar(
    craft: str, log: str = "", specs: str = "", items: Mapping[str, str] = {}
) -> dict[str, str]:
    """specs, items: without what they share; items by the key of their spec."""
    files = {"hangar.yaml": KEEPER, "aircraft/odd/aircraft.yaml": craft}
    if specs:
        files["parts/specs.yaml"] = specs
        files["parts/items.yaml"] = "".join(
            f"- {{{'tags' if '..' in tags else 'tag'}: {tags}, spec: {spec}, "
            "acquired: 2026-01-01}\n"
            for spec, tags in items.items()
        )
    if log:
        files["aircraft/odd/logbook.yaml"] = log
    return files


GLIDER = _hangar(
    """\
aircraft: Lark
kind: aeroplane
layout: aeroplane
wing: {area: 0.42 m², span: 2000 mm}
surfaces:
  rudder: {servo: S-1, left: 25°, right: 25°, chord: 60 mm, length: 200 mm}
""",
    """\
- {on: 2026-02-01, fit: {fuselage: {frame: F-1}, wing: {wing: W-1}, tail: {servo: S-1}}}
- {on: 2026-03-01, flight: 12 min, pack: P-1}
- {on: 2026-03-02, flight: 25 min}
""",
    """\
- {spec: f, kind: frame, mass: 310 g}
- {spec: w, kind: wing}
- {spec: s, kind: servo, mass: 9 g, torque: 1.5 kg·cm}
- {spec: p, kind: battery, cells: 2S, capacity: 450 mAh, chemistry: LiPo}
""",
    {"f": "F-1", "w": "W-1", "s": "S-1", "p": "P-1"},
)

TAIL_DRAGGER = _hangar(
    """\
aircraft: Rook
kind: aeroplane
layout: aeroplane
stations:
  nose: {spin: cw}
wing: {span: 1500 mm}
bounds: {forward_cg: 60 mm, aft_cg: 40 mm, max_mass: 2 kg}
""",
    """\
- {on: 2026-02-01, fit: {fuselage: {frame: F-1}, nose: {motor: M-1, propeller: R-1}}}
- {on: 2026-02-02, weigh: 1720 g, pack: P-1}
- {on: 2026-03-01, flight: 8 min, pack: P-1, used: 2100 mAh}
""",
    """\
- {spec: f, kind: frame, mass: 900 g}
- {spec: m, kind: motor, mass: 150 g, kv: 700 rpm/V, max_current: 40 A}
- {spec: r, kind: propeller, mass: 30 g, size: 13x6.5}
- {spec: p, kind: battery, cells: 4S, capacity: 3300 mAh, chemistry: LiPo, mass: 340 g}
""",
    {"f": "F-1", "m": "M-1", "r": "R-1", "p": "P-1"},
)

TRICOPTER = _hangar(
    """\
aircraft: Three
kind: multirotor
layout: tri-y
diagonal: 500 mm
stations:
  front-left: {spin: ccw}
  front-right: {spin: ccw}
  rear: {spin: ccw}
""",
    """\
- on: 2026-02-01
  fit:
    centre: {frame: F-1}
    front-left: {motor: M-1, propeller: R-1}
    front-right: {motor: M-2, propeller: R-2}
    rear: {motor: M-3, propeller: R-3, servo: S-1}
- {on: 2026-03-01, flight: 8 min, pack: P-1}
""",
    """\
- {spec: f, kind: frame, mass: 250 g}
- {spec: m, kind: motor, mass: 50 g, kv: 900 rpm/V, resistance: 120 mΩ, no_load_current: 0.6 A}
- {spec: r, kind: propeller, mass: 10 g, size: 10x4.5, hand: ccw}
- {spec: s, kind: servo, mass: 20 g, max_current: 1 A}
- {spec: p, kind: battery, cells: 3S, capacity: 2200 mAh, chemistry: LiPo, mass: 190 g}
""",
    {"f": "F-1", "m": "M-1..M-3", "r": "R-1..R-3", "s": "S-1", "p": "P-1"},
)

TANDEM = _hangar(
    """\
aircraft: Twin
kind: aeroplane
layout: aeroplane
stations:
  nose: {spin: cw, at: [400 mm, 0 mm, 0 mm]}
wing: {area: 0.36 m², span: 1000 mm, mean_chord: 180 mm, leading_edge: -300 mm}
bounds: {forward_cg: 20 %, aft_cg: 140 %}
positions:
  fuselage: [0 mm, 0 mm, 0 mm]
  front: [250 mm, 0 mm, 0 mm]
  rear: [-250 mm, 0 mm, -40 mm]
  pack: [50 mm, 0 mm, 20 mm]
""",
    """\
- on: 2026-02-01
  fit:
    fuselage: {frame: F-1}
    front: {wing: W-1}
    rear: {wing: V-1}
    nose: {motor: M-1, propeller: R-1}
- {on: 2026-03-01, flight: 8 min, pack: P-1}
""",
    """\
- {spec: f, kind: frame, mass: 600 g}
- {spec: w, kind: wing, mass: 200 g}
- {spec: v, kind: wing, mass: 220 g}
- {spec: m, kind: motor, mass: 90 g, kv: 1000 rpm/V}
- {spec: r, kind: propeller, mass: 15 g, size: 9x6}
- {spec: p, kind: battery, cells: 3S, capacity: 2200 mAh, chemistry: LiPo, mass: 180 g}
""",
    {"f": "F-1", "w": "W-1", "v": "V-1", "m": "M-1", "r": "R-1", "p": "P-1"},
)

COAXIAL = _hangar(
    """\
aircraft: Six
kind: multirotor
layout: y6
diagonal: 600 mm
stations:
  front-left-upper: {spin: ccw}
  front-left-lower: {spin: cw}
  front-right-upper: {spin: ccw}
  front-right-lower: {spin: cw}
  rear-upper: {spin: ccw}
  rear-lower: {spin: cw}
bounds: {max_mass: 2500 g}
""",
    """\
- on: 2026-02-01
  fit:
    centre: {frame: F-1}
    front-left-upper: {motor: M-1, propeller: R-1}
    front-left-lower: {motor: M-2, propeller: U-1}
    front-right-upper: {motor: M-3, propeller: R-2}
    front-right-lower: {motor: M-4, propeller: U-2}
    rear-upper: {motor: M-5, propeller: R-3}
    rear-lower: {motor: M-6, propeller: U-3}
- {on: 2026-02-03, weigh: 1980 g, pack: P-1}
- {on: 2026-03-01, flight: 8 min, pack: P-1}
""",
    """\
- {spec: f, kind: frame, mass: 400 g}
- {spec: m, kind: motor, mass: 60 g, kv: 700 rpm/V, resistance: 120 mΩ, no_load_current: 0.6 A}
- spec: r
  kind: propeller
  mass: 14 g
  size: 10x5
  hand: ccw
  blades: 3
  thrust_coefficient: 0.17
  power_coefficient: 0.09
- spec: u
  kind: propeller
  mass: 14 g
  size: 10x5
  hand: cw
  blades: 3
  thrust_coefficient: 0.17
  power_coefficient: 0.09
- {spec: p, kind: battery, cells: 4S, capacity: 5000 mAh, chemistry: LiPo, mass: 480 g}
""",
    {"f": "F-1", "m": "M-1..M-6", "r": "R-1..R-3", "u": "U-1..U-3", "p": "P-1"},
)

HEAVY = _hangar(
    """\
aircraft: Bustard
kind: aeroplane
layout: aeroplane
stations:
  nose: {spin: cw, at: [700 mm, 0 mm, 0 mm]}
wing: {area: 1.1 m², span: 2600 mm, mean_chord: 430 mm, leading_edge: 0 mm, fastest: 45 m/s}
positions: {pack: [300 mm, 0 mm, 0 mm]}
bounds: {max_mass: 14 kg, forward_cg: 24 %, aft_cg: 32 %}
""",
    """\
- {on: 2026-02-01, fit: {fuselage: {frame: F-1}, nose: {motor: M-1, propeller: R-1}}}
- {on: 2026-02-02, weigh: 12.4 kg, pack: P-1, cg: [-190 mm, 0 mm, 0 mm]}
- {on: 2026-03-01, flight: 8 min, pack: P-1}
""",
    """\
- {spec: f, kind: frame, mass: 9 kg}
- spec: m
  kind: motor
  mass: 800 g
  kv: 190 rpm/V
  resistance: 20 mΩ
  no_load_current: 2 A
  max_power: 5000 W
- spec: r
  kind: propeller
  mass: 200 g
  size: 24x12
  thrust_coefficient: 0.11
  power_coefficient: 0.05
- {spec: p, kind: battery, cells: 12S, capacity: 5000 mAh, chemistry: LiPo, mass: 1500 g}
""",
    {"f": "F-1", "m": "M-1", "r": "R-1", "p": "P-1"},
)

INDOOR = _hangar(
    """\
aircraft: Gnat
kind: aeroplane
layout: aeroplane
stations:
  nose: {spin: cw, at: [100 mm, 0 mm, 0 mm]}
wing: {area: 0.06 m², span: 500 mm}
""",
    """\
- {on: 2026-02-01, fit: {nose: {motor: M-1, propeller: R-1}}}
- {on: 2026-02-02, weigh: 30 g, pack: P-1}
- {on: 2026-03-01, flight: 8 min, pack: P-1}
""",
    """\
- {spec: m, kind: motor, mass: 4 g, kv: 2500 rpm/V}
- {spec: r, kind: propeller, mass: 1 g, size: 5x3}
- {spec: p, kind: battery, cells: 1S, capacity: 120 mAh, chemistry: LiPo, mass: 4 g}
""",
    {"m": "M-1", "r": "R-1", "p": "P-1"},
)

HYDROPLANE = _hangar(
    """\
aircraft: Coot
kind: aeroplane
layout: aeroplane
stations:
  nose: {spin: cw, at: [12 in, 0 in, 0 in]}
wing: {area: 580 in², span: 58 in, mean_chord: 10 in, leading_edge: 0 in, fastest: 60 mph}
surfaces:
  elevator: {servo: S-1, up: 0.5 in, down: 0.5 in, chord: 2 in, length: 20 in}
positions:
  pack: [6 in, 0 in, 0 in]
  fuselage: [-4 in, 0 in, 0 in]
  floats: [0 in, 0 in, 6 in]
  tail: [-30 in, 0 in, 0 in]
bounds: {max_mass: 5 lb, forward_cg: 25 %, aft_cg: 33 %}
""",
    """\
- on: 2026-02-01
  fit:
    fuselage: {frame: F-1}
    floats: {undercarriage: U-1}
    nose: {motor: M-1, propeller: R-1}
    tail: {servo: S-1}
- {on: 2026-03-01, flight: 8 min, pack: P-1}
""",
    """\
- {spec: f, kind: frame, mass: 41 oz}
- {spec: u, kind: undercarriage, mass: 9 oz}
- {spec: m, kind: motor, mass: 5 oz, kv: 800 rpm/V}
- {spec: r, kind: propeller, mass: 1 oz, size: 12x6}
- {spec: s, kind: servo, mass: 1 oz, torque: 50 oz·in}
- {spec: p, kind: battery, cells: 4S, capacity: 3300 mAh, chemistry: LiPo, mass: 12 oz}
""",
    {"f": "F-1", "u": "U-1", "m": "M-1", "r": "R-1", "s": "S-1", "p": "P-1"},
)

NOTHING = _hangar("aircraft: Nix\nkind: multirotor\nlayout: quad-x\n")
NO_PLANE = _hangar("aircraft: Nix\nkind: aeroplane\nlayout: aeroplane\n")
