"""build.json: parts, layout and wiring of a published build, as the record files have them."""

import datetime
import json

import pytest
import yaml
from msgspec.structs import replace

from buildbook.audience.projection import projected
from buildbook.pages.outputs import build_file
from buildbook.reporting.opening import open_reports
from buildbook.words import notation_of

TOP = [
    "format",
    "build",
    "hangar",
    "licence",
    "caution",
    "left_out",
    "aircraft",
    "specs",
    "fitted",
    "serves",
    "packs",
]


def test_a_build_holds_parts_layout_and_wiring_and_no_output_or_gain(public):
    """Spins as planned; neither outputs, receiver leads, radio, settings, gains nor tags."""
    shape = json.loads(build_file.sheet(public, "sedge").text)

    assert TOP == list(shape)
    assert {
        "kind": "multirotor",
        "layout": "quad-x",
        "diagonal": "400 mm",
        "stations": {
            "front-left": {"spin": "ccw"},
            "front-right": {"spin": "cw"},
            "rear-left": {"spin": "cw"},
            "rear-right": {"spin": "ccw"},
        },
        "wiring": [
            {"from": "pack", "to": "distribution", "wire": "14 AWG", "length": "140 mm"},
            {"from": "distribution", "to": "each esc", "wire": "16 AWG", "length": "180 mm"},
            {"from": "each esc", "to": "each motor", "wire": "18 AWG", "length": "60 mm"},
        ],
    } == shape["aircraft"]
    assert {"motor": ["m-1"], "esc": ["e-1"], "propeller": ["p-ccw"]} == shape["fitted"][
        "front-left"
    ]
    assert ["b-3s"] == shape["packs"]
    assert ["b-3s", "e-1", "m-1", "p-ccw", "p-cw"] == [spec["spec"] for spec in shape["specs"]]


def test_a_build_is_made_for_the_public_only(owner, public):
    """The owner's site has none, so that nobody hands on a file that was not looked over."""
    assert () == build_file.keys(owner)
    assert ("sedge",) == build_file.keys(public)


def test_all_that_a_build_says_can_be_read_back_from_record_files(demo, tmp_path):
    """Each group written into its file, nothing changed: the same specs, layout and wiring."""
    opened = open_reports(demo, None, datetime.date(2026, 11, 20))
    reports = projected(opened.reports, "public").reports
    specs = {}
    for slug in build_file.keys(reports):
        shape = json.loads(build_file.sheet(reports, slug).text)
        specs.update({spec["spec"]: spec for spec in shape["specs"]})
        aircraft = {"aircraft": shape["build"], **shape["aircraft"]}
        _put(tmp_path, f"aircraft/{slug}/aircraft.yaml", aircraft)
    _put(tmp_path, "parts/specs.yaml", list(specs.values()))
    _put(tmp_path, "hangar.yaml", {"format": 1, "hangar": "After others"})

    again = open_reports(tmp_path, None, datetime.date(2026, 11, 20))

    assert [] == [problem for problem in again.problems if problem.severity == "problem"]
    for slug, aircraft in reports.hangar.aircraft.items():
        read = again.reports.hangar.aircraft[slug]
        assert aircraft.record.diagonal_m == read.record.diagonal_m
        assert aircraft.positions == read.positions
        assert aircraft.bounds == read.bounds
        assert aircraft.record.wing == read.record.wing
        assert read.surfaces == {
            name: replace(surface, servos=()) for name, surface in aircraft.surfaces.items()
        }
        assert _runs(aircraft) == _runs(read)
    for name, spec in again.reports.hangar.ledger.specs.items():
        before = reports.hangar.ledger.specs[name]
        assert (before.mass_kg, before.size, before.cells) == (spec.mass_kg, spec.size, spec.cells)
        assert (before.resistance_ohm, before.capacity_ah) == (
            spec.resistance_ohm,
            spec.capacity_ah,
        )


@pytest.mark.parametrize(
    ("attribute", "value", "written"),
    [
        ("torque", 0.1 * 1.7 * 0.980665, "1.7 kg·cm"),
        ("torque", 0.15, "15 N·cm"),
        ("mass", 0.5 * 0.028349523125, "0.5 oz"),
        ("mass", 0.0169, "16.9 g"),
        ("mass", 1 / 3, "333.333333333 g"),
    ],
)
def test_a_build_says_an_amount_in_the_unit_that_it_was_written_in(demo, attribute, value, written):
    """1 kg·cm is 9.80665 N·cm, 1 oz is 28.349523125 g, both exact (NIST SP 811)."""
    reports = open_reports(demo, None, datetime.date(2026, 11, 20)).reports
    spec = reports.hangar.ledger.specs["servo-wing-9"]
    field = {"torque": "torque_nm", "mass": "mass_kg"}[attribute]
    changed = replace(spec, **{field: value})

    assert written == notation_of.written_keys(changed, spec.kind)[attribute]


def _runs(aircraft):
    return [(run.start, run.end, run.wire, run.length_m, run.plug) for run in aircraft.wiring]


def _put(folder, name, content):
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(yaml.safe_dump(content, allow_unicode=True), "utf-8")
