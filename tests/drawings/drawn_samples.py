"""Layout, wiring and chart samples for the drawing tests, and ways to read an SVG back."""

from __future__ import annotations

import math
import re
from xml.etree import ElementTree

from buildbook.records.layouts import LAYOUTS
from buildbook.report.drawn import plans

SVG = "{http://www.w3.org/2000/svg}"
INCH_M = 0.0254
RINGS = tuple(name for name, layout in LAYOUTS.items() if not layout.free)


OUTPUTS = {3: (2, 3, 1), 4: (3, 1, 4, 2), 6: (5, 2, 6, 1, 3, 4), 8: (4, 7, 1, 6, 8, 3, 2, 5)}
"""Outputs of as many stations, in no row that a keeper could take for a rule."""


def ring_plan(name, diagonal_m=0.5, propeller_m=9 * INCH_M, state="checked", **more):
    """A plan of a built-in layout: neighbours turn opposite ways, hands match."""
    stations = []
    layout = LAYOUTS[name].stations
    bearings = [math.atan2(at.right, at.forward) for at in layout]
    turned = [round((bearing - bearings[0]) % math.tau, 4) for bearing in bearings]
    arms = sorted(set(turned))
    for at, turn, output in zip(layout, turned, OUTPUTS[len(layout)], strict=True):
        turns = arms.index(turn) + (at.tier == "lower")
        spin = ("ccw", "cw")[turns % 2]
        stations.append(
            plans.StationPlan(
                name=at.name,
                forward_m=at.forward * diagonal_m / 2,
                right_m=at.right * diagonal_m / 2,
                spin=spin,
                spin_state=state,
                output=output,
                propeller_m=propeller_m,
                hand=spin,
            )
        )
    return plans.LayoutPlan(
        aircraft="Sedge", layout=name, stations=tuple(stations), diagonal_m=diagonal_m, **more
    )


def glider_plan():
    """A motor glider: one nose motor, a wing with its band and centre of gravity."""
    return plans.LayoutPlan(
        aircraft="Teal",
        layout="aeroplane",
        stations=(
            plans.StationPlan(
                name="nose", forward_m=0, right_m=0, spin="cw", output=3, propeller_m=10 * INCH_M
            ),
        ),
        wing=plans.WingPlan(span_m=1.4, mean_chord_m=0.23, area_m2=0.32, leading_edge_aft_m=0.31),
        cg=plans.CgPlan(forward_m=-0.31 - 0.27 * 0.23, band_share=(0.2, 0.33), words="weighed"),
    )


def twin_plan():
    """Two wing motors, and no centre of gravity yet."""
    return plans.LayoutPlan(
        aircraft="Heron",
        layout="aeroplane",
        stations=tuple(
            plans.StationPlan(
                name=name, forward_m=-0.2, right_m=right, spin="cw", output=output, propeller_m=0.2
            )
            for name, right, output in (("wing-left", -0.3, 4), ("wing-right", 0.3, 2))
        ),
        wing=plans.WingPlan(span_m=1.8, mean_chord_m=0.2, leading_edge_aft_m=0.26, tail_aft_m=0.9),
    )


def odd_plan():
    """Stations of the keeper's own, with long names and small three-bladed propellers."""
    places = (
        ("bow-left", 0.2, -0.1, 4),
        ("bow-right", 0.2, 0.1, 2),
        ("mid-port-outrigger", 0, -0.25, 6),
        ("mid-starboard-outrigger", 0, 0.25, 3),
        ("stern", -0.22, 0, 1),
    )
    return plans.LayoutPlan(
        aircraft="Odd",
        layout="custom",
        stations=tuple(
            plans.StationPlan(
                name=name,
                forward_m=forward,
                right_m=right,
                spin="cw",
                output=output,
                propeller_m=0.127,
                hand="cw",
                blades=3,
            )
            for name, forward, right, output in places
        ),
        cg=plans.CgPlan(forward_m=0.03, band_forward_m=(0.02, -0.02)),
    )


def all_layouts():
    """Every layout of the records, by name."""
    made = {name: ring_plan(name) for name in RINGS}
    return made | {"aeroplane": glider_plan(), "twin": twin_plan(), "custom": odd_plan()}


def quad_wiring(**more):
    """Pack, distribution and four ESCs, five leads."""
    facts = {
        "runs": (
            plans.RunPlan(
                from_="pack",
                to="distribution",
                wire="14 AWG",
                length_m=0.14,
                plug="bullet 4 mm",
                current_a=22.0,
                drop_v=0.051,
                drop_share=0.0046,
            ),
            plans.RunPlan(
                from_="distribution", to="each esc", wire="16 AWG", length_m=0.18, current_a=5.5
            ),
        ),
        "drives": tuple(
            plans.DrivePlan(station=station, esc=f"E-{n}", motor=f"M-{n}", output=output)
            for n, (station, output) in enumerate(
                {"front-left": 3, "front-right": 1, "rear-left": 4, "rear-right": 2}.items(), 1
            )
        ),
        "leads": ("throttle", "rudder", "elevator", "aileron", "mode"),
    }
    return plans.WiringPlan(aircraft="Sedge", **(facts | more))


def parsed(svg):
    """The SVG as an element; raises where it is not well formed."""
    return ElementTree.fromstring(svg)


def words_of(svg):
    """Title and description, joined."""
    root = parsed(svg)
    return f"{root.findtext(f'{SVG}title')} {root.findtext(f'{SVG}desc')}"


def view_box(svg):
    """Width and height of the drawing."""
    return tuple(float(number) for number in parsed(svg).attrib["viewBox"].split()[2:])


def disc_centres(svg):
    """Centres of propeller discs, in drawing order: circles of their class."""
    return [
        (float(circle.attrib["cx"]), float(circle.attrib["cy"]), float(circle.attrib["r"]))
        for circle in parsed(svg).iter(f"{SVG}circle")
        if circle.attrib.get("class") == "d-disc"
    ]


def bar_units(svg):
    """Units and metres of the scale bar, from its path and its words."""
    path = re.search(r"v8M14 [\d.]+h([\d.]+)", svg)
    words = re.search(r">([\d.]+) (mm|m)</text>", svg)
    metres = float(words[1]) * (0.001 if words[2] == "mm" else 1.0)
    return float(path[1]), metres


def complaints(svg, prefix):
    """What a strict page would refuse: inline style, literal colours, ids of others."""
    root = parsed(svg)
    found = []
    if root.attrib.get("role") != "img":
        found.append("no role")
    if root.attrib.get("aria-labelledby") != f"{prefix}-title {prefix}-desc":
        found.append("not labelled")
    if "width" in root.attrib or "height" in root.attrib:
        found.append("fixed size")
    for element in root.iter():
        name = element.tag.removeprefix(SVG)
        if name in ("style", "script", "metadata", "image"):
            found.append(f"element {name}")
        if name == "use" and not element.attrib.get("href", "").startswith(f"#{prefix}-"):
            found.append(f"use of {element.attrib}")
        for key, value in element.attrib.items():
            if key in ("style", "font-family") or (key in ("fill", "stroke") and value != "none"):
                found.append(f"{name} {key}={value}")
            if key == "id" and not value.startswith(f"{prefix}-"):
                found.append(f"id {value}")
            if key == "d" and ("nan" in value or "inf" in value):
                found.append("no number in a path")
    return found


def collisions(lines):
    """Pairs of texts whose boxes meet by the width model."""
    return [
        (one.text, other.text)
        for place, one in enumerate(lines)
        for other in lines[place + 1 :]
        if one.box.meets(other.box)
    ]
