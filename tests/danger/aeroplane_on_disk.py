"""A quiet aeroplane on disk: Heron, four surfaces, a servo for each, nothing open."""

from collections.abc import Mapping

from hangar_on_disk import ITEMS, PACK, QUIET, SPECS

CRAFT = "aircraft/heron/aircraft.yaml"
LOG = "aircraft/heron/logbook.yaml"

AIRCRAFT = """\
aircraft: Heron
kind: aeroplane
layout: aeroplane
programme: small-aeroplane
in_service: 2026-05-01
stations:
  nose: {spin: cw, output: 3}
receiver: {order: [rudder, aileron, throttle, elevator]}
radio: {memory: 7, mode: 2, throttle_cut: left shoulder switch, failsafe: {throttle: cut}}
surfaces:
  aileron-left: V-01
  aileron-right: V-02
  elevator: {servo: V-03, up: 12 mm, down: 10 mm, rates: {low: {up: 7 mm}}}
  rudder: V-04
"""
FITTED = """\
- on: 2026-05-01
  fit:
    nose: {motor: M-01, esc: E-01, propeller: L-01}
    fuselage: {frame: F-01, receiver: X-01}
    wing-left: {servo: V-01}
    wing-right: {servo: V-02}
    tray: {servo: [V-03, V-04]}
"""
CHECKED = """\
- on: 2026-05-02
  check: [hinges, motor-screws, propeller-balance, receiver-order, receiver-neutral, stick-sense,
    low-voltage-alarm, surface-sense, surface-throws, esc-endpoints, throttle-cut, spin-directions,
    start-spread, failsafe, range, propeller-fit, balance-point]
  result: pass
- {on: 2026-05-02, weigh: 674 g, pack: P-01}
- on: 2026-05-02
  inspection: [screws-and-mounts, solder-and-leads, hinges-and-linkages]
"""
FLOWN = """\
- on: 2026-06-18
  flight: 6:10
  pack: P-01
  purpose: check
  result: pass
- on: 2026-06-19
  inspection: [screws-after-motor, propeller-touch]
"""
QUIET_PLANE: Mapping[str, str] = {
    "hangar.yaml": QUIET["hangar.yaml"],
    "parts/specs.yaml": SPECS + "- {spec: servo, kind: servo, mass: 9 g}\n"
    "- {spec: transmitter, kind: transmitter, mass: 720 g}\n",
    "parts/items.yaml": ITEMS + "- {tags: V-01..V-06, spec: servo, acquired: 2026-03-01}\n"
    "- {tags: T-01..T-02, spec: transmitter, acquired: 2026-03-01}\n",
    CRAFT: AIRCRAFT,
    LOG: FITTED + CHECKED + FLOWN,
    "stores/p-01.yaml": PACK,
}


def plane(entries: str = "", *changes: tuple[str, str, str]) -> dict[str, str]:
    """The quiet aeroplane with more entries, and words of its files replaced: path, old, new."""
    files = dict(QUIET_PLANE)
    for path, old, new in changes:
        assert files[path].count(old) == 1, (path, old)
        files[path] = files[path].replace(old, new)
    return {**files, LOG: files[LOG] + entries}
