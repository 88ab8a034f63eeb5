"""Small hangars in which nearly everything is written, for figures as they were before."""

import datetime
from collections.abc import Mapping

from small_hangars import ITEMS, KEEPER, LOG, QUAD, SPECS

from buildbook.figures.answers.registry import figures_of_aircraft, figures_of_item
from buildbook.report.figure import Answers, CannotSay, Figure
from buildbook.report.state import Hangar

BENCH = """\
throttle_%,voltage_V,current_A,thrust_N,rpm
20,11.1,0.5,0.8,2000
40,11.1,2.0,2.4,3500
60,11.0,5.0,4.6,4900
80,10.9,9.5,6.6,5900
100,10.7,15.0,8.4,6600
"""
SAGGING = BENCH.replace("10.7", "9.9")
MORE_ITEMS = """\
- tag: P-2
  spec: pack
  mass: 362 g
  acquired: 2026-01-01
  price: 30 EUR
  carried: {cycles: 40, basis: measured}
- {tag: P-3, spec: pack, acquired: 2026-01-01}
- {tag: C-2, spec: controller, acquired: 2026-01-01, carried: {hours: 30, basis: estimate}}
- {tag: R-9, spec: prop-cw, mass: 11 g, acquired: 2026-01-01, price: 4 EUR}
"""
CONSTANTS = "max_current: 18 A, kv: 870 rpm/V, resistance: 90 mΩ, no_load_current: 0.5 A"
COEFFICIENTS = "thrust_coefficient: 0.1229, power_coefficient: 0.0497"
HIGH = KEEPER.replace("elevation: 0 m", "elevation: 450 m").replace("15 °C", "24 °C")


def _log() -> str:
    """Two packs, flown apart, with charges, capacities, checks, gains, a crash and a weighing."""
    first = datetime.date(2026, 3, 1)
    lines = [
        "- {on: 2026-02-20, weigh: 1215 g, pack: P-1, scales: {front-left: 306 g, "
        "front-right: 305 g, rear-right: 302 g, rear-left: 302 g}}",
        "- {on: 2026-02-20, gains: one, values: {roll: {p: 32, i: 16, d: 4}, "
        "pitch: {p: 40, i: 22}}}",
        "- {on: 2026-02-21, check: receiver-neutral, result: pass, readings: {roll: 2, pitch: -3, "
        "yaw: 6, throttle: -100}}",
        "- {on: 2026-02-21, check: start-spread, result: pass, readings: {front-left: 6 %, "
        "front-right: 7 %, rear-right: 9 %, rear-left: 6 %}}",
    ]
    for number in range(46):
        day = first + datetime.timedelta(days=3 * number)
        pack = "P-2" if number % 3 == 2 else "P-1"
        seconds = 290 + 13 * (number % 7) + number
        used = round((8.6 + 0.15 * (number % 4) + (0.5 if pack == "P-2" else 0)) * seconds / 3.6)
        warm = f", temperature: {12 + number % 15} °C" if number % 2 else ""
        hard = ", landing: hard" if number in (11, 30) else ""
        lines.append(
            f"- {{on: {day}, flight: {seconds} s, pack: {pack}, used: {used} mAh{warm}{hard}}}"
        )
        ohms = [5.0 + 0.02 * number, 5.2 + 0.02 * number, 5.1 + 0.05 * number]
        read = ", ".join(f"{one:.2f} mΩ" for one in ohms)
        lines.append(
            f"- {{on: {day}, charge: {pack}, put_in: {used + 30} mAh, resistance: [{read}], "
            f"temperature: {18 + number % 6} °C}}"
        )
        if number % 4 == 0:
            left = 2190 - 6 * number + 7 * (number % 3)
            lines.append(
                f"- {{on: {day}, capacity: P-1, measured: {left} mAh, "
                f"temperature: 2{number % 5} °C}}"
            )
        if number == 20:
            lines.append(
                f"- {{on: {day}, gains: two, values: {{roll: {{p: 36, i: 16}}, pitch: {{p: 42}}}}}}"
            )
        if number == 25:
            lines += [
                f"- {{on: {day}, incident: tipped over, severity: light, cause: wind, "
                "touched: [front-right]}",
                f"- {{on: {day}, fit: {{front-right: {{propeller: R-9}}}}, "
                "instead_of: {R-1: scrapped}}",
                f"- {{on: {day}, alteration: camera, mass: 42 g, at: [60 mm, 0 mm, 10 mm]}}",
            ]
    return (
        LOG
        + "\n".join(lines)
        + "\n- {on: 2026-08-01, state: {P-2: quarantined}, because: puffed}\n"
    )


def full_quad() -> dict[str, str]:
    """A quad with a bench table, motor constants and propeller coefficients."""
    specs = SPECS.replace("max_current: 18 A", f"{CONSTANTS}, bench: motor.csv")
    return {
        "hangar.yaml": HIGH,
        "parts/specs.yaml": specs.replace("hand: cw,", f"hand: cw, {COEFFICIENTS},").replace(
            "hand: ccw,", f"hand: ccw, {COEFFICIENTS},"
        ),
        "parts/items.yaml": ITEMS + MORE_ITEMS,
        "bench/motor.csv": BENCH,
        "aircraft/sedge/aircraft.yaml": QUAD
        + "carried: {hours: 4.2, flights: 31, basis: measured}\n",
        "aircraft/sedge/logbook.yaml": _log(),
    }


def unbenched_quad() -> dict[str, str]:
    """The same without a bench table, and the field not described."""
    files = full_quad()
    files["parts/specs.yaml"] = files["parts/specs.yaml"].replace(", bench: motor.csv", "")
    files["hangar.yaml"] = "format: 1\nhangar: Test shed\ncurrency: EUR\n"
    files["aircraft/sedge/logbook.yaml"] = LOG + "- {on: 2026-03-01, flight: 6 min, pack: P-1}\n"
    return files


def sagging_quad() -> dict[str, str]:
    """The unbenched quad with a table whose supply sags at full throttle; one motor differs."""
    files = full_quad() | {"bench/motor.csv": SAGGING, "aircraft/sedge/logbook.yaml": LOG}
    files["parts/specs.yaml"] += (
        "- {spec: other-motor, kind: motor, mass: 55 g, max_current: 20 A, kv: 900 rpm/V, "
        "resistance: 80 mΩ, no_load_current: 0.6 A, bench: motor.csv}\n"
    )
    files["parts/items.yaml"] = files["parts/items.yaml"].replace(
        "M-1..M-4, spec: motor", "M-2..M-4, spec: motor"
    )
    files["parts/items.yaml"] += "- {tag: M-1, spec: other-motor, acquired: 2026-01-01}\n"
    files["aircraft/sedge/logbook.yaml"] += "- {on: 2026-03-01, flight: 6 min, pack: P-1}\n"
    return files


def bare_quad() -> dict[str, str]:
    """Nothing but a layout."""
    return {
        "hangar.yaml": "format: 1\nhangar: Test shed\ncurrency: EUR\n",
        "aircraft/bare/aircraft.yaml": "aircraft: Bare\nkind: multirotor\nlayout: quad-x\n",
    }


def coaxial() -> dict[str, str]:
    """Six rotors in three pairs on one bench table, with a pack that has no rating."""
    arms = [
        f"{arm}-{tier}"
        for arm in ("front-left", "front-right", "rear")
        for tier in ("upper", "lower")
    ]
    slots = "".join(
        f"    {station}: {{motor: M-{count}, esc: E-{count}, propeller: "
        f"{'R' if count % 2 else 'L'}-{count}}}\n"
        for count, station in enumerate(arms, 1)
    )
    plans = "".join(
        f"  {station}: {{spin: {'cw' if count % 2 else 'ccw'}}}\n"
        for count, station in enumerate(arms, 1)
    )
    items = "".join(
        f"- {{tags: {mark}-1..{mark}-6, spec: {spec}, acquired: 2026-01-01}}\n"
        for mark, spec in (("M", "motor"), ("E", "esc"), ("R", "prop-cw"), ("L", "prop-ccw"))
    )
    specs = SPECS.replace("max_current: 18 A", "max_current: 18 A, bench: motor.csv")
    return {
        "hangar.yaml": HIGH,
        "bench/motor.csv": BENCH,
        "parts/specs.yaml": specs.replace("  discharge_rate: 30C\n  charge_rate: 2C\n", ""),
        "parts/items.yaml": items + "- {tag: P-1, spec: pack, acquired: 2026-01-01}\n",
        "aircraft/ring/aircraft.yaml": (
            "aircraft: Ring\nkind: multirotor\nlayout: y6\ndiagonal: 550 mm\n"
            f"stations:\n{plans}positions:\n  pack: [8 mm, -3 mm, 0 mm]\n"
            "sundries:\n  - {what: frame, mass: 700 g, at: [0 mm, 0 mm, 0 mm]}\n"
        ),
        "aircraft/ring/logbook.yaml": (
            f"- on: 2026-02-01\n  fit:\n{slots}- {{on: 2026-03-01, flight: 6 min, pack: P-1}}\n"
        ),
    }


def told(answers: Answers) -> str:
    """Every figure with all that is in it, numbers to six digits, one fact a line."""
    lines: list[str] = []
    for figure in answers.figures:
        lines += _figure(figure)
    lines += [_missing(missing) for missing in answers.cannot_say]
    return "\n".join(lines)


def told_hangar(hangar: Hangar, tags: tuple[str, ...]) -> str:
    """All aircraft, then those items."""
    parts = [f"# {slug}\n{told(figures_of_aircraft(hangar, slug))}" for slug in hangar.aircraft]
    parts += [f"# {tag}\n{told(figures_of_item(hangar, tag))}" for tag in tags]
    return "\n".join(parts) + "\n"


def _number(value: object) -> str:
    if not isinstance(value, float):
        return str(value)
    return "0" if abs(value) < 1e-9 else f"{value:.6g}"


def _numbers(values: Mapping[str, float]) -> str:
    return "; ".join(f"{key} {_number(value)}" for key, value in values.items())


def _figure(figure: Figure) -> list[str]:
    limits = (
        ""
        if figure.low is None and figure.high is None
        else (f" from {_number(figure.low)} to {_number(figure.high)} at {figure.level}")
    )
    lines = [
        f"{figure.name}, {figure.of}: {_number(figure.value)} {figure.unit}{limits} "
        f"[{figure.basis}] {figure.verdict} {figure.day or ''}"
    ]
    lines += [f"  - {note}" for note in figure.notes]
    lines += [
        f"  in {one.name}: {_number(one.value)} {one.unit} [{one.basis}] {one.place} "
        f"{one.note or ''}"
        for one in figure.inputs
    ]
    if figure.other:
        lines.append(f"  other {_numbers(figure.other)}")
    if figure.sensitivity:
        moved = {one.input.whole: one.share_per_percent for one in figure.sensitivity}
        lines.append(f"  moves {_numbers(moved)}")
    for row in figure.table.rows if figure.table else ():
        lines.append("  row " + " | ".join(_number(cell) for cell in row))
    return [line.rstrip() for line in lines]


def _missing(missing: CannotSay) -> str:
    return f"cannot say {missing.name}, {missing.of}: {missing.because} @ {missing.place}"
