"""The page on figures says of each what the program declares, and all that is assumed."""

import ast
import re
from pathlib import Path

import pytest

from buildbook.figures.answers.flight.climb import (
    GLIDE_RANGE,
    GLIDE_RATIO,
    OVER_RANGE,
    PROPELLER_EFFICIENCY,
    PROPELLER_RANGE,
)
from buildbook.figures.answers.flight.climb import OVER_STALL as OVER_IN_CLIMB
from buildbook.figures.answers.flight.prediction import UNFLOWN_SHARE
from buildbook.figures.answers.mass.loading import MAX_LIFT_COEFFICIENT, MAX_LIFT_RANGE
from buildbook.figures.answers.mass.payload import WANTED
from buildbook.figures.answers.packs.packs import (
    CELL_RESISTANCE_OHM_AH,
    CHEMISTRY,
    CUTOFF_CELL_V,
    END_OF_LIFE_SHARE,
    RESERVE_SHARE,
)
from buildbook.figures.answers.propulsion.loads import LITTLE
from buildbook.figures.answers.propulsion.losses import (
    ESC_EFFICIENCY,
    ESC_EFFICIENCY_RANGE,
    INTERFERENCE,
    INTERFERENCE_RANGE,
    MOTOR_EFFICIENCY,
    MOTOR_EFFICIENCY_RANGE,
)
from buildbook.figures.answers.propulsion.rotors import FIGURE_OF_MERIT, YAW_ARM_SHARE
from buildbook.figures.answers.propulsion.servos import OVER_STALL, PER_DEGREE_RANGE
from buildbook.figures.answers.propulsion.wiring import USUAL_A_MM2
from buildbook.figures.answers.setup.readings import NEUTRAL_AT, NEUTRAL_BAND, START_BAND
from buildbook.figures.laws.constants import HOT_COPPER_K
from buildbook.report.packs.like_conditions import (
    ACTIVATION_J_MOL,
    ACTIVATION_RANGE_J_MOL,
    may_be_corrected,
)
from buildbook.reporting.figures.known_figures import all_known_figures
from buildbook.words.vocabulary.glossary import figures_page

ROOT = Path(__file__).parents[2]
TEXT = (ROOT / "docs/figures.md").read_text("utf-8")


def percent(share: float) -> str:
    """As the page has it."""
    return f"{share * 100:g} %"


def between(ends: tuple[float, float]) -> str:
    """Both ends of a range."""
    return f"{percent(ends[0])} to {percent(ends[1])}"


VALUES = {
    "reserve": f"{percent(RESERVE_SHARE)} of the capacity",
    "pack end of life": f"{percent(END_OF_LIFE_SHARE)} of rated",
    "chemistry": CHEMISTRY,
    "cut-off of a cell": ", ".join(f"{name} {volts:g} V" for name, volts in CUTOFF_CELL_V.items()),
    "resistance of a pack": f"{CELL_RESISTANCE_OHM_AH:g} Ω·Ah a cell, over its capacity",
    "efficiency of the motors": f"{percent(MOTOR_EFFICIENCY)}, {between(MOTOR_EFFICIENCY_RANGE)}",
    "efficiency of the ESCs": f"{percent(ESC_EFFICIENCY)}, {between(ESC_EFFICIENCY_RANGE)}",
    "interference of a pair": f"{INTERFERENCE:.2f} times the induced power of two apart, "
        f"{INTERFERENCE_RANGE[0]:.2f} to {INTERFERENCE_RANGE[1]:.2f}",
    "wanted thrust to weight": f"{WANTED:g}",
    "efficiency of the propeller in flight":
        f"{percent(PROPELLER_EFFICIENCY)}, {between(PROPELLER_RANGE)}",
    "glide ratio": f"{GLIDE_RATIO:g}, {GLIDE_RANGE[0]:g} to {GLIDE_RANGE[1]:g}",
    "speed over the stall speed":
        f"{OVER_IN_CLIMB:g} in the climb, {OVER_RANGE[0]:g} to {OVER_RANGE[1]:g}",
    "fastest": f"{OVER_STALL:g} times the stall speed, as in a dive",
    "hinge moment coefficient a degree":
        f"{PER_DEGREE_RANGE[1]:g} of {PER_DEGREE_RANGE[0]:g} to {PER_DEGREE_RANGE[1]:g}, "
        "of a plain flap",
    "load of the copper": f"{USUAL_A_MM2[1]:g} A/mm², in a hover and at full throttle",
    "figure of merit": f"{FIGURE_OF_MERIT:g}",
    "yaw arm": f"{YAW_ARM_SHARE:g} of the diameter",
    "greatest lift coefficient":
        f"{MAX_LIFT_COEFFICIENT:g}, {MAX_LIFT_RANGE[0]:g} to {MAX_LIFT_RANGE[1]:g}",
    "hot copper": f"{HOT_COPPER_K - 273.15:g} °C",
    "spread of the power": f"{percent(UNFLOWN_SHARE)} either way, before the first flight",
    "receiver neutral": f"nought of the travel, {NEUTRAL_AT['µs']:g} µs of a pulse",
    "band of receiver neutral":
        f"{NEUTRAL_BAND['%']:g} % of the travel, {NEUTRAL_BAND['µs']:g} µs of a pulse",
    "band of the start": f"{percent(START_BAND)} throttle between motors",
}  # fmt: skip


@pytest.mark.parametrize("name", VALUES)
def test_an_assumption_has_the_value_of_the_code(name: str) -> None:
    """A value that is changed is changed on the page."""
    cells = re.search(rf"^\| {re.escape(name)} \| ([^|]+) \|", TEXT, re.M)

    assert cells is not None
    assert VALUES[name] == cells[1]


def test_what_is_said_of_warmth_and_of_margins_is_that_of_the_code() -> None:
    """Both are limits of what is told, and no input of a figure."""
    low, high = (f"{end / 1000:g}" for end in ACTIVATION_RANGE_J_MOL)
    words = " ".join(TEXT.split())

    assert f"E_a {ACTIVATION_J_MOL / 1000:g} kJ/mol, from memory" in words
    assert f"its range of {low} to {high} kJ/mol" in words
    assert f"Less than {percent(LITTLE)} left of a rating" in words
    assert may_be_corrected(293.15, 281.15)
    assert not may_be_corrected(293.15, 280.15)


_PART_OF = {
    "receiver neutral": "neutral",
    "band of receiver neutral": "band",
    "band of the start": "band",
    "efficiency of the motors": "efficiency",
    "efficiency of the ESCs": "efficiency",
    "resistance of a pack": "resistance",
}
"""What stands in the code of a name that goes on with the part in question."""


def text_of(node: ast.AST, named: dict[str, str]) -> str | None:
    """A text of the code; of one with parts what stands before the first, without its ``of``."""
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Name":
        node = node.args[0]
    if isinstance(node, ast.JoinedStr):
        node = node.values[0]
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return node.value.removesuffix(" of ")
    return named.get(node.id) if isinstance(node, ast.Name) else None


def texts_of(function: ast.FunctionDef) -> dict[str, str]:
    """The names that stand for a text in a function."""
    found: dict[str, str] = {}
    for node in function.body:
        if isinstance(node, ast.Assign):
            target, value = node.targets[0], node.value
            both = isinstance(target, ast.Tuple) and isinstance(value, ast.Tuple)
            names = target.elts if both else [target]
            for name, each in zip(names, value.elts if both else [value], strict=True):
                if isinstance(name, ast.Name) and (text := text_of(each, {})):
                    found[name.id] = text
    return found


def assumed(function: ast.FunctionDef) -> set[str]:
    """What a function names where it makes an input of a default."""
    names, found = texts_of(function), set()
    for node in ast.walk(function):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            keywords = {word.arg: word.value for word in node.keywords}
            if node.func.id == "default":
                found.add(text_of(node.args[0], names))
            elif node.func.id == "Input" and "default" in ast.unparse(keywords["basis"]):
                found.add(text_of(keywords["called"], names))
    return {name for name in found if name}


def test_nothing_is_assumed_that_the_page_does_not_name() -> None:
    """Each place of the answers that makes a default has its row, and each row its place."""
    names = {
        name
        for path in (ROOT / "buildbook/figures/answers").rglob("*.py")
        for function in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(function, ast.FunctionDef)
        for name in assumed(function)
    }
    table = TEXT.partition("## What is")[2].partition("No charge")[0]
    rows = re.findall(r"^\| ([a-z][^|]*) \|", table, re.M)
    rows = [_PART_OF.get(row, row) for row in rows if row != "what"]

    assert names == set(rows)


def test_the_figures_are_those_that_are_declared() -> None:
    """If this fails: ``buildbook schema --figures``, below the words of the page."""
    printed = figures_page(all_known_figures()).splitlines()
    there = set(TEXT.splitlines())

    assert [] == [line for line in printed if line not in there]
    assert printed == TEXT.splitlines()[-len(printed) :]
    assert TEXT.count("\n## ") == 1 + len(all_known_figures().topics())
