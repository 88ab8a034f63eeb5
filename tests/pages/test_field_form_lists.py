"""What the field form is filled from: the same reports as going flying and the set-up sheet."""

from pathlib import Path
from typing import Any

import pytest

from buildbook.pages.site import plan
from buildbook.pages.work.field_form import form_data

ESC_OF_2S = "- {spec: e-1, kind: esc, name: ESC 20 A, cells: 2S}\n"


def of(data: Any, slug: str) -> Any:
    """The part of one aircraft."""
    return next(one for one in data["aircraft"] if one["slug"] == slug)


def test_what_is_grounded_or_not_flying_says_why(owner):
    """No flight of either; each reason is a sentence."""
    data = form_data(owner)

    assert [("sedge", False), ("rush", False)] == [
        (one["slug"], one["flies"]) for one in data["aircraft"]
    ]
    assert ["It is still being built."] == of(data, "rush")["why"]
    assert "Spin directions at rear-left: never done." in of(data, "sedge")["why"]


def test_a_pack_set_aside_is_offered_nowhere(owner):
    """It stands with its reason under what is left where it is."""
    packs = {pack["tag"]: pack for pack in form_data(owner)["packs"]}

    assert ("quarantined.", 1) == (packs["P-1"]["aside"], len(packs["P-1"]["why"]))
    assert ("", []) == (packs["P-2"]["aside"], packs["P-2"]["why"])
    sedge = of(form_data(owner), "sedge")
    assert (["P-2"], []) == (sedge["packs"], sedge["others"])


def test_a_pack_of_other_cells_is_not_offered(open_changed):
    """3S where the ESCs take 2S; where they say nothing, it is offered."""
    log = "- on: 2026-02-01\n  fit: {front-left: {esc: E-1}}\n"
    of_3s = form_data(open_changed({"aircraft/sedge/logbook.yaml": log}))
    specs = (
        "- {spec: m-1, kind: motor}\n- {spec: p-cw, kind: propeller, size: 10x5, hand: cw}\n"
        "- {spec: p-ccw, kind: propeller, size: 10x5, hand: ccw}\n" + ESC_OF_2S +
        "- {spec: b-3s, kind: battery, cells: 3S, capacity: 2200 mAh}\n"
    )  # fmt: skip
    of_2s = form_data(open_changed({"aircraft/sedge/logbook.yaml": log, "parts/specs.yaml": specs}))

    assert ["P-2"] == of(of_3s, "sedge")["others"]
    assert [] == of(of_2s, "sedge")["others"]


def test_each_check_is_told_once_with_its_worst_state(owner):
    """By rule, with the stations that it goes by; what is flown is no check of the form."""
    data = form_data(owner)
    ((number, state, stations),) = of(data, "sedge")["checks"]

    assert {
        "check": "spin-directions",
        "words": "spin directions",
        "what": "Compare each direction with the layout.",
        "off": True,
        "readings": "",
    } == data["rules"][number]
    assert ("never done", ["front-left", "front-right", "rear-left", "rear-right"]) == (
        state, stations
    )  # fmt: skip
    assert len(data["rules"]) == len({rule["check"] for rule in data["rules"]})


@pytest.mark.parametrize("kind", ["field-form", "field-form-alone"])
def test_the_public_has_no_form(public, owner, kind: str):
    """It is for who keeps the records."""
    assert kind not in {work.kind for work in plan(public)}
    assert kind in {work.kind for work in plan(owner)}


def test_a_public_site_has_none_of_its_files(public_site: Path):
    """Neither page nor script nor style."""
    assert [] == sorted(path.name for path in public_site.glob("field*"))
