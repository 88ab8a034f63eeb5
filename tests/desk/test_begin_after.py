"""A hangar begins after a published build: parts, layout, wiring; no spin, output or gain."""

import copy
import json
from pathlib import Path
from typing import Any

import pytest
import yaml

from buildbook.records.reading.read import read_hangar

BUILD: dict[str, Any] = {
    "format": 1,
    "build": "Dunnock",
    "hangar": "Fen loft",
    "licence": "CC BY 4.0",
    "caution": "Mind it.",
    "left_out": ["outputs"],
    "aircraft": {
        "kind": "multirotor",
        "layout": "quad-x",
        "diagonal": "350 mm",
        "stations": {"front-left": {"spin": "cw"}, "rear-right": {"spin": "cw", "output": 3}},
        "wiring": [{"from": "pack", "to": "distribution", "wire": "14 AWG", "length": "90 mm"}],
    },
    "specs": [
        {"spec": "m-1", "kind": "motor", "mass": "41 g", "poles": 14},
        {"spec": "b-1", "kind": "battery", "cells": "3S", "capacity": "1900 mAh"},
    ],
    "fitted": {"front-left": {"motor": ["m-1"]}, "rear-right": {"motor": ["m-1"]}},
    "serves": [],
    "packs": ["b-1"],
}

GROUPS = (
    "kind",
    "layout",
    "diagonal",
    "wing",
    "surfaces",
    "wiring",
    "positions",
    "sundries",
    "bounds",
)


def build_file(folder: Path, **changed: Any) -> Path:
    """A build with some of its groups replaced."""
    path = folder / "build.json"
    path.write_text(json.dumps({**BUILD, **changed}))
    return path


def aircraft(**changed: Any) -> dict[str, Any]:
    """The group of the aircraft with some keys replaced."""
    return {**copy.deepcopy(BUILD["aircraft"]), **changed}


def as_texts(value: Any) -> Any:
    """The same with numbers as texts, as a file of records has them."""
    if isinstance(value, dict):
        return {key: as_texts(each) for key, each in value.items()}
    if isinstance(value, list):
        return [as_texts(each) for each in value]
    return value if value is None else str(value)


@pytest.mark.parametrize("slug", ["burdock", "hogweed", "thistledown", "trefoil"])
def test_the_builds_of_the_demo_come_back(
    public_site: Path, tmp_path: Path, run: Any, slug: str
) -> None:
    """Published, begun after, read: the same layout, wiring, places and specs; it renders."""
    file = public_site / f"aircraft/{slug}/build.json"
    build = json.loads(file.read_text("utf-8"))
    new = tmp_path / "new"

    begun = run("begin", new, "--after", file)
    checked = run("check", new)

    assert (0, "") == (begun.status, begun.err)
    assert "Before you use any of it: Outputs, the order of the receiver leads," in begun.out
    assert (0, "") == (checked.status, checked.err)
    assert "Read 1 aircraft, 0 items, 0 entries: no problems." == checked.out.splitlines()[0]
    assert f"Next for {build['build']}: record " in checked.out
    written = (new / f"aircraft/{slug}/aircraft.yaml").read_text("utf-8")
    record = yaml.load(written, yaml.BaseLoader)
    there = build["aircraft"]
    for name in GROUPS:
        assert as_texts(there.get(name)) == record.get(name), name
    assert {"receiver", "radio"}.isdisjoint(record)
    assert {"at"} >= {key for plan in record.get("stations", {}).values() for key in plan}
    specs = yaml.load((new / "parts/specs.yaml").read_text("utf-8"), yaml.BaseLoader)
    assert as_texts(build["specs"]) == specs
    assert 0 == run("render", new, "--into", tmp_path / "site").status
    assert (tmp_path / f"site/aircraft/{slug}/layout.html").is_file()


def test_spins_stand_as_comments_and_outputs_nowhere(tmp_path: Path, run: Any) -> None:
    """With the caution, whose build it was, and its licence; parts and places as lines to fill."""
    run("begin", tmp_path / "new", "--after", build_file(tmp_path), "--name", "Wren")
    text = (tmp_path / "new/aircraft/wren/aircraft.yaml").read_text("utf-8")

    assert (
        "Begun after the build Dunnock of Fen loft, under CC BY 4.0. Lengths and masses are those"
        " of that aircraft: measure yours. Outputs, the order of the receiver leads, "
    ) in " ".join(line.removeprefix("# ") for line in text.splitlines() if line[:1] == "#")
    assert text.endswith(
        "# There the motors were planned to turn like this; whether yours do is to be seen:\n"
        "#   front-left: cw\n#   rear-right: cw\n"
    )
    assert "output: 3" not in text
    assert (
        (tmp_path / "new/parts/items.yaml")
        .read_text("utf-8")
        .endswith(
            "# What the build is made of; complete a line when you have the parts:\n"
            "# - {tags: <2 tags>, spec: m-1, acquired: <the day>}  # front-left, rear-right\n"
            "# - {tag: <1 tag>, spec: b-1, acquired: <the day>}  # a pack\n"
        )
    )
    assert (
        (tmp_path / "new/aircraft/wren/logbook.yaml")
        .read_text("utf-8")
        .endswith(
            "# - on: <the day>\n#   fit:\n#     front-left: {motor: <tag of m-1>}\n"
            "#     rear-right: {motor: <tag of m-1>}\n"
        )
    )


def test_places_of_a_custom_layout_are_taken_without_spins(tmp_path: Path, run: Any) -> None:
    """Each station with where it is and nothing else."""
    stations = {
        name: {"spin": "ccw", "at": [x, y, "0 mm"]}
        for name, x, y in (
            ("a", "90 mm", "-90 mm"),
            ("b", "90 mm", "90 mm"),
            ("c", "-90 mm", "0 mm"),
        )
    }
    file = build_file(tmp_path, aircraft=aircraft(layout="custom", stations=stations), fitted={})

    assert (0, "") == run("begin", tmp_path / "new", "--after", file)[::2]
    text = (tmp_path / "new/aircraft/dunnock/aircraft.yaml").read_text("utf-8")
    assert "# to the stations below:\n" in text
    assert {name: {"at": plan["at"]} for name, plan in stations.items()} == yaml.load(
        text, yaml.BaseLoader
    )["stations"]


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("{", "build.json is no JSON, so no build.json either"),
        ("[" * 100_000, "build.json is no JSON, so no build.json either"),
        ('{"format": NaN}', "build.json is no JSON, so no build.json either"),
        ("[]", "build.json is not a build.json of a published site"),
        ('{"format": true}', "build.json is not a build.json of a published site"),
        ('{"name": "x", "version": 1}', "build.json is not a build.json of a published site"),
        ('{"format": 2}', "build.json has format 2, and this program reads 1"),
        ('{"format": 1, "build": "A"}',
         "build.json is no build: 'aircraft' is missing, or of another kind"),
        ('"' + "x" * 1024 * 1024 + '"',
         "build.json is larger than the 1 MB that are read of a build"),
    ],
)  # fmt: skip
def test_what_is_no_build_is_told_and_writes_nothing(
    tmp_path: Path, run: Any, text: str, reason: str
) -> None:
    """Broken, foreign, newer, too large: one sentence each."""
    (tmp_path / "build.json").write_text(text)

    assert (2, "", f"buildbook begin: {reason}\n") == run(
        "begin", tmp_path / "new", "--after", tmp_path / "build.json"
    )
    assert not (tmp_path / "new").exists()


@pytest.mark.parametrize(
    ("changed", "reason"),
    [
        ({"aircraft": aircraft(kind="boat")}, "builds neither a multirotor nor an aeroplane"),
        ({"aircraft": aircraft(layout="ring")}, "can't be used: unknown layout 'ring'"),
        ({"aircraft": aircraft(diagonal="380")}, "can't be used: '380' has no unit"),
        ({"aircraft": aircraft(wiring=[{"run": "x"}])},
         "can't be used: a run of wire has no 'from'; as in from: pack, and 2 more problems"),
        ({"aircraft": aircraft(stations=[1])},
         "is no build: one of its groups has another shape"),
        ({"fitted": {"front-left": "m-1", "x": {"motor": 3}}},
         "is no build: one of its groups has another shape"),
        ({"specs": [{"spec": "../../etc", "kind": "motor"}]},
         "can't be used: '../../etc' is not a name"),
        ({"specs": [{"spec": "a", "kind": "motor", "<<": {"mass": "1 g"}}]},
         "can't be used: unknown key '<<'"),
        ({"specs": [3]}, "is no build: one of its groups has another shape"),
        ({"specs": [{"spec": "a", "kind": "motor", "serial": "K7"}]},
         "can't be used: unknown key 'serial'"),
    ],
)  # fmt: skip
def test_what_can_be_no_record_is_told_and_writes_nothing(
    tmp_path: Path, run: Any, changed: dict[str, Any], reason: str
) -> None:
    """The reader of all records judges it before anything stands on the disk."""
    ran = run("begin", tmp_path / "new", "--after", build_file(tmp_path, **changed))

    assert (2, "") == ran[:2]
    assert ran.err.startswith(f"buildbook begin: build.json {reason}")
    assert 1 == ran.err.count("\n")
    assert not (tmp_path / "new").exists()


def test_words_of_a_build_stay_words(tmp_path: Path, run: Any) -> None:
    """Line feeds, YAML and paths in a name write neither key nor file; a bench table is left."""
    file = build_file(
        tmp_path,
        build="../../Dun\nstations:\n  front-left: {spin: cw, output: 1}",
        licence="CC\nradio: {memory: 1}",
        specs=[{"spec": "m-1", "kind": "motor", "bench": "../../secret.csv", "name": "a: [b\n- c"}],
        packs=[],
    )

    assert (0, "") == run("begin", tmp_path / "new", "--after", file)[::2]
    (record,) = (tmp_path / "new/aircraft").glob("*/aircraft.yaml")
    read = yaml.load(record.read_text("utf-8"), yaml.BaseLoader)
    assert ["aircraft", "kind", "layout", "status", "programme", "diagonal", "wiring"] == list(read)
    ledger = read_hangar(tmp_path / "new", None).ledger
    assert ledger is not None
    assert "a: [b\n- c" == ledger.specs["m-1"].name
    assert "secret" not in (tmp_path / "new/parts/specs.yaml").read_text("utf-8")


@pytest.mark.parametrize(
    ("words", "reason"),
    [
        (("--layout", "y6"), "--after takes that from the build; leave out --layout"),
        (("--demo",), "--demo copies what is there; leave out --after"),
        (("--programme", "mine"), "'mine' is not a built-in programme; it is one of built-in"
         " small-aeroplane, built-in small-glider, built-in small-multirotor"),
    ],
)  # fmt: skip
def test_what_does_not_go_with_a_build_is_refused(
    tmp_path: Path, run: Any, words: tuple[str, ...], reason: str
) -> None:
    """It would be ignored, or is nothing."""
    told = run("begin", tmp_path / "new", "--after", build_file(tmp_path), *words)

    assert (2, "", f"buildbook begin: {reason}\n") == told


def test_a_build_that_is_not_there_is_told(tmp_path: Path, run: Any) -> None:
    """With the reason of the system."""
    assert f"buildbook begin: {tmp_path}/none.json can't be read: no such file or directory\n" == (
        run("begin", tmp_path / "new", "--after", tmp_path / "none.json").err
    )


@pytest.mark.parametrize("name", ["small-multirotor", "built-in small-multirotor"])
def test_a_programme_goes_by_its_short_name_too(tmp_path: Path, run: Any, name: str) -> None:
    """The whole name stands in the files."""
    assert 0 == run("begin", tmp_path / "new", "--programme", name).status
    assert "\nprogramme: built-in small-multirotor\n" in (
        tmp_path / "new/aircraft/first/aircraft.yaml"
    ).read_text("utf-8")
