"""The numbers that the demo's stories tell in their own words are those of its records."""

import math

from buildbook.pages.aircraft import layout
from buildbook.records.entries import Weigh


def told(reports, slug):
    """The story of an aircraft on one line."""
    return " ".join(reports.hangar.ledger.write_ups[slug].text.split())


def test_an_aeroplanes_layout_page_has_its_throws(demo_public):
    """Beside the layout, for visitors too; a quad has no such table."""
    glider, quad = (layout.page(demo_public, slug) for slug in ("thistledown", "burdock"))

    assert [row[0] for row in glider.facts["surfaces"][1]] == [
        "aileron-left",
        "aileron-right",
        "elevator",
        "rudder",
    ]
    assert quad.facts["surfaces"] is None


def test_burdock_tells_the_lengths_of_its_record(demo_reports):
    """Diagonal, side and what is left between the tips (plane geometry); where the pack is."""
    aircraft = demo_reports.hangar.aircraft["burdock"]
    diagonal = aircraft.record.diagonal_m * 1000
    (propeller,) = {
        round(one.propeller_m * 1000) for one in demo_reports.layout("burdock").stations
    }
    side = diagonal / math.sqrt(2)
    text = told(demo_reports, "burdock")

    assert f"The *diagonal* of {diagonal:.0f} mm goes" in text
    assert f"The *side* of {side:.0f} mm goes" in text
    assert f"inches, {propeller} mm, there are {side - propeller:.0f} mm left" in text
    assert f"Both diagonals {diagonal:.0f} mm, all four sides {side:.0f} mm" in text
    pack = aircraft.positions["pack"]
    assert f"its middle {pack[2] * 1000:.0f} mm under the tubes and {pack[0] * 1000:.0f} mm" in text


def test_burdock_is_balanced_by_its_last_weighing(demo_reports):
    """The moments of four scales below the motors, about the middle."""
    aircraft = demo_reports.hangar.aircraft["burdock"]
    weighed = [one.stands for one in aircraft.log if isinstance(one.stands, Weigh)][-1]
    grams = {name: round(kg * 1000) for name, kg in weighed.scales_kg.items()}
    front, rear = (
        sum(mass for name, mass in grams.items() if name.startswith(end))
        for end in ("front", "rear")
    )
    ahead = aircraft.record.diagonal_m * 1000 / math.sqrt(8)
    text = told(demo_reports, "burdock")

    assert f"The front pair read {front} g and the rear pair {rear} g of {front + rear} g" in text
    assert f"({front} - {rear}) / {front + rear} x {ahead:.0f} mm, not quite 2 mm" in text
    assert 1.5 < (front - rear) / (front + rear) * ahead < 2


def test_thistledown_tells_where_it_balances(demo_reports):
    """As weighed first and last, behind the nose and behind the edge of a straight wing."""
    aircraft = demo_reports.hangar.aircraft["thistledown"]
    weighed = [one.stands for one in aircraft.log if isinstance(one.stands, Weigh)]
    first, last = (round(-one.cg_m[0] * 1000) for one in (weighed[0], weighed[-1]))
    text = told(demo_reports, "thistledown")

    assert f"it balanced at {first} mm behind the nose" in text
    assert f"that is {last} mm behind the nose" in text
    assert f"Balance it at {last} mm from the first day" in text
    wing = aircraft.record.wing
    root, tip = 225, 195
    assert (
        f"{wing.span_m * 500:.0f} long each, {root} deep at the root and {tip} at the tip" in text
    )
    out = (root + 2 * tip) / (3 * (root + tip))  # of the mean chord, in half spans (geometry)
    edge = wing.leading_edge_m * 1000 - (root - tip) / 4 * out
    assert f"one under each root, {last - edge:.0f} mm behind its leading edge" in text
    assert 0.01 > abs((root + tip) / 2000 * wing.span_m - wing.area_m2) / wing.area_m2
