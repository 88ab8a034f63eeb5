"""Layout drawings against the published rotor geometry.

Source: `layouts/rotor_layouts.csv` and `layouts/quad_x_spin_cases.csv` (ring geometry and spin
sets of Du, Quan, Yang and Cai 2015, J. Guidance, Control, and Dynamics, doi 10.2514/1.G000731;
the cases of a quad enumerated for these tests, see the notes beside the data).
"""

import csv
import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from buildbook.drawings.layout.layout import layout_drawing
from buildbook.drawings.layout.layout_faults import layout_faults
from buildbook.report.drawn.plans import LayoutPlan, StationPlan

DATA = Path(__file__).parent / "data" / "layouts"
ARM_M = 0.25
SVG = "{http://www.w3.org/2000/svg}"


def rows(name):
    """The rows of a data file."""
    with (DATA / name).open(encoding="utf-8") as lines:
        return list(csv.DictReader(lines))


ROTORS = rows("rotor_layouts.csv")
SINGLE = sorted({row["layout"] for row in ROTORS if "coaxial" not in row["layout"]})
COAXIAL = sorted({row["layout"] for row in ROTORS if "coaxial" in row["layout"]})


def plan_of(layout):
    """A plan with the published places at a 250 mm arm; coaxial rows pair up in order."""
    stations = []
    for place, row in enumerate(row for row in ROTORS if row["layout"] == layout):
        level = ("-upper", "-lower")[place % 2] if "coaxial" in layout else ""
        number = place // 2 if level else place
        stations.append(
            StationPlan(
                name=f"r{number}{level}",
                forward_m=ARM_M * float(row["x_forward_over_arm_dimensionless"]),
                right_m=ARM_M * float(row["y_right_over_arm_dimensionless"]),
                spin=row["spin_seen_from_above"].lower(),
                spin_state="checked",
                propeller_m=0.12,
            )
        )
    return LayoutPlan(aircraft="Ring", layout="custom", stations=tuple(stations))


def discs(svg):
    """Centres of the discs in drawing order."""
    return [
        (float(circle.attrib["cx"]), float(circle.attrib["cy"]))
        for circle in ElementTree.fromstring(svg).iter(f"{SVG}circle")
        if circle.attrib.get("class") == "d-disc"
    ]


@pytest.mark.parametrize("layout", [*SINGLE, *COAXIAL])
def test_discs_stand_at_the_published_places(layout):
    """Forward is up and right is right: places over the arm equal the source to the drawn digit."""
    published = [
        (
            float(row["x_forward_over_arm_dimensionless"]),
            float(row["y_right_over_arm_dimensionless"]),
        )
        for row in ROTORS
        if row["layout"] == layout
    ]
    published = list(dict.fromkeys(published))
    svg = layout_drawing(plan_of(layout))
    bar = float(re.search(r"v8M14 [\d.]+h([\d.]+)", svg)[1])
    metres = float(re.search(r">([\d.]+) mm</text>", svg)[1]) / 1000
    arm = ARM_M * bar / metres
    axis_x, axis_y = re.search(r'14 3 2 3" d="M([\d.]+) 28V[\d.]+M8 ([\d.]+)H', svg).groups()
    drawn = [((float(axis_y) - y) / arm, (x - float(axis_x)) / arm) for x, y in discs(svg)]

    assert published == [pytest.approx(place, abs=3e-3) for place in drawn]


@pytest.mark.parametrize("layout", SINGLE)
def test_arcs_run_the_published_way_round(layout):
    """The arcs of a clockwise rotor sweep clockwise on the plate, which is seen from above."""
    published = [row["spin_seen_from_above"] for row in ROTORS if row["layout"] == layout]
    strokes = re.findall(r'd-s-accent"[^>]*', layout_drawing(plan_of(layout)))
    arcs = [
        sweep for stroke in strokes for sweep in re.findall(r"A[\d.]+ [\d.]+ 0 0 ([01]) ", stroke)
    ]
    drawn = ["CW" if sweep == "1" else "CCW" for sweep in arcs]

    assert [spin for spin in published for _ in range(2)] == drawn


def test_twin_spins_are_marked_on_exactly_the_unusable_quads():
    """Of sixteen spin sets of a quad X two are usable; these and no others are unmarked."""
    places = {
        "front_right": (1, 1),
        "rear_right": (-1, 1),
        "rear_left": (-1, -1),
        "front_left": (1, -1),
    }
    cases = rows("quad_x_spin_cases.csv")
    marked = []
    for case in cases:
        stations = tuple(
            StationPlan(
                name=name.replace("_", "-"),
                forward_m=forward,
                right_m=right,
                spin=case[f"{name}_spin"].lower(),
            )
            for name, (forward, right) in places.items()
        )
        plan = LayoutPlan(aircraft="Quad", layout="quad-x", stations=stations)
        marked.append(bool(layout_faults(plan)))

    assert [case["usable_flag"] == "0" for case in cases] == marked
