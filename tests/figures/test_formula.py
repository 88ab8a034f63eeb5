"""The shown formula says what the code computes: text and MathML are read back and evaluated."""

import ast
import inspect
import itertools
import math
import re
from xml.etree import ElementTree

import pytest

from buildbook.figures.formula import law_mathml, law_text
from buildbook.figures.laws.constants import CONSTANTS
from buildbook.figures.laws.law import Law, Quantity
from buildbook.figures.laws.quantities import INPUTS
from buildbook.figures.laws.registry import LAWS

FORMULAS = sorted(name for name, law in LAWS.items() if law.kind == "formula")
METHODS = sorted(name for name, law in LAWS.items() if law.kind == "method")
PLAIN_DIGITS = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹", "0123456789")


def inputs(law):
    """A few sets of arguments inside the range of a law, by parameter name.

    A range is cut to an ordinary model's end of it so that guards across parameters hold.
    """
    ordinary = {
        "supply_v": (8.0, 25.0),
        "no_load_current_a": (0.2, 2.0),
        "winding_resistance_ohm": (0.02, 0.2),
        "open_circuit_v": (10.0, 25.0),
        "resistance_ohm": (0.0, 0.05),
        "power_w": (50.0, 300.0),
        "current_a": (1.0, 60.0),
        "density_kg_m3": (0.9, 1.3),
        "thrust_n": (1.0, 8.0),
        "disk_area_m2": (0.03, 0.12),
        "thrust_coefficient": (0.08, 0.12),
        "power_coefficient": (0.04, 0.06),
        "diameter_m": (0.1, 0.3),
        "rotation_rev_s": (50.0, 150.0),
        "wanted_arm_m": (0.05, 0.1),
        "ballast_arm_m": (-0.2, -0.1),
        "mass_change_kg": (-0.4, 0.4),
        "mass_kg": (0.5, 2.0),
        "motor_current_a": (5.0, 30.0),
        "cold_k": (280.0, 300.0),
        "hot_k": (340.0, 380.0),
    }
    for share in (0.13, 0.5, 0.81):
        arguments = {}
        for index, name in enumerate(law.parameters):
            low, high = ordinary.get(name, (INPUTS[name].least, INPUTS[name].most))
            part = (share + 0.17 * index) % 1.0
            arguments[name] = low + part * (high - low)
        yield arguments


def namespace(law, arguments):
    """What the symbols of a formula stand for: arguments by symbol, functions by symbol."""
    known = {"sqrt": math.sqrt, "exp": math.exp, "log": math.log, "cos": math.cos, "π": math.pi}
    source = ast.parse(inspect.getsource(law.function))
    for node in ast.walk(source):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in LAWS:
            known[LAWS[node.func.id].result.symbol] = LAWS[node.func.id].function
    return known | {law.parameters[name].symbol: value for name, value in arguments.items()}


def evaluated(equations, known):
    """Value of the first (symbol, Python expression) with the others solved first, as they come."""
    first, *further = equations
    waiting = list(further)
    while waiting:
        symbol, expression = waiting.pop(0)
        try:
            known[symbol] = eval(expression, {"__builtins__": {}}, known)
        except NameError:
            waiting.append((symbol, expression))
    return eval(first[1], {"__builtins__": {}}, known)


def text_equations(text):
    """The equations of a formula in text as Python; a unit after a number is dropped."""
    main, _, further = text.partition(", where ")
    for equation in [main, *(further.split("; ") if further else [])]:
        symbol, _, expression = equation.partition(" = ")
        number = re.fullmatch(r"([\d.]+(?:·10\^-?\d+)?)( \S+)?", expression)
        expression = number[1] if number else expression
        expression = re.sub(
            "[⁰¹²³⁴⁵⁶⁷⁸⁹]+", lambda found: "**" + found[0].translate(PLAIN_DIGITS), expression
        )
        yield symbol, expression.replace("·", "*").replace("^", "**").replace(" / ", "/")


def python_of(element):
    """Python of a MathML element."""
    inner = [python_of(child) for child in element]
    match element.tag:
        case "mi" | "mn":
            return element.text
        case "mo":
            return {"·": "*", "−": "-"}.get(element.text, element.text)
        case "mfrac":
            return f"(({inner[0]})/({inner[1]}))"
        case "msup":
            return f"(({inner[0]})**({inner[1]}))"
        case "msqrt":
            return f"sqrt({''.join(inner)})"
        case "msub":
            return "_".join(inner)
        case "mtext" | "mspace":
            return ""
        case _:
            return "".join(inner)


def mathml_equations(markup):
    """The equations of a formula in MathML as Python."""
    root = ElementTree.fromstring(markup)
    lines = root.findall("./mtable/mtr/mtd") or [root]
    for line in lines:
        symbol, _, expression = python_of(line).partition("=")
        yield symbol, expression


@pytest.mark.parametrize("name", FORMULAS)
def test_text_computes_what_the_law_computes(name):
    """The text, read back as arithmetic, gives the law's own value."""
    law = LAWS[name]
    equations = list(text_equations(law_text(law)))
    for arguments in inputs(law):
        assert law.function(**arguments) == pytest.approx(
            evaluated(equations, namespace(law, arguments)), rel=1e-12
        )


@pytest.mark.parametrize("name", FORMULAS)
def test_mathml_computes_what_the_law_computes(name):
    """The MathML, read back as arithmetic, gives the law's own value."""
    law = LAWS[name]
    equations = list(mathml_equations(law_mathml(law)))
    for arguments in inputs(law):
        assert law.function(**arguments) == pytest.approx(
            evaluated(equations, namespace(law, arguments)), rel=1e-12
        )


@pytest.mark.parametrize("name", FORMULAS)
def test_symbols_of_a_formula_are_distinct(name):
    """No two names of one formula share a symbol, and every parameter appears in it."""
    law = LAWS[name]
    symbols = [quantity.symbol for quantity in law.parameters.values()]
    used = {
        quantity.symbol
        for key, quantity in CONSTANTS.items()
        if key in inspect.getsource(law.function)
    }

    assert len(symbols) == len(set(symbols))
    assert set() == used & set(symbols)
    for symbol in symbols:
        assert symbol in law_text(law).partition(" = ")[2]


@pytest.mark.parametrize("name", METHODS)
def test_a_method_is_told_in_words(name):
    """A law that is no formula gives its words, in both forms."""
    law = LAWS[name]

    assert f"method: {law.method}" == law_text(law)
    assert f"method: {law.method}" == ElementTree.fromstring(law_mathml(law))[0].text


def test_text_as_it_reads():
    """A fraction under a root, with the constant told after it."""
    assert "v_s = sqrt(2·m·g / (ρ·S·C_Lmax)), where g = 9.80665 m/s²" == law_text(
        LAWS["stall_speed_m_s"]
    )
    assert "A = π·D² / 4" == law_text(LAWS["disk_area_m2"])


def test_steps_used_twice_are_told_after_the_result():
    """Steps that come once stand in place, others follow after 'where'."""
    assert (
        "n = 2·U_d / (b + sqrt(b² + 4·(C_P·ρ·D⁵·R / b)·U_d)), "
        "where U_d = U - I_0·R; b = t_min / K_V; t_min = 60 s"
    ) == law_text(LAWS["full_throttle_rotation_rev_s"])


def test_mathml_as_it_reads():
    """Fraction, root and subscript are elements, not words."""
    assert (
        '<math display="block"><mrow><mi>A</mi><mo>=</mo><mfrac><mrow><mi>π</mi><mo>·</mo>'
        "<msup><mi>D</mi><mn>2</mn></msup></mrow><mn>4</mn></mfrac></mrow></math>"
    ) == law_mathml(LAWS["disk_area_m2"])


def test_mathml_core_elements_only():
    """Nothing outside MathML Core, so no script is needed to show it."""
    core = {
        "math",
        "mrow",
        "mi",
        "mn",
        "mo",
        "mfrac",
        "msqrt",
        "msup",
        "msub",
        "mtext",
        "mspace",
        "mstyle",
        "mtable",
        "mtr",
        "mtd",
    }
    found = {
        element.tag
        for law in LAWS.values()
        for element in ElementTree.fromstring(law_mathml(law)).iter()
    }

    assert set() == found - core


def looping(mass_kg):
    total = 0.0
    for _ in range(3):
        total += mass_kg
    return total


def branching(mass_kg):
    return mass_kg if mass_kg > 1 else 1.0


def empty(mass_kg):
    if mass_kg < 0:
        raise ValueError("negative")


@pytest.mark.parametrize(
    ("function", "expected"),
    [
        (looping, "looping cannot be shown as a formula: For in its line 3"),
        (
            branching,
            "mass_kg if mass_kg > 1 else 1.0 cannot be shown as a formula: IfExp in its line 2",
        ),
        (empty, "empty returns nothing that can be shown as a formula"),
    ],
)
def test_what_is_no_formula_is_refused(function, expected):
    """A loop, a branch or no result is told with its line, never shown half."""
    law = Law(function, Quantity("m", "kg"), {"mass_kg": Quantity("m", "kg")}, "", "")
    with pytest.raises(ValueError, match=f"^{re.escape(expected)}$"):
        law_text(law)


def nested(mass_kg, arm_m, power_w):
    return -((mass_kg - (arm_m - power_w)) ** 2) * (-mass_kg) / (arm_m / (power_w / mass_kg))


def negative_power(mass_kg, arm_m, power_w):
    return (mass_kg / arm_m) ** -power_w - (-arm_m) * (mass_kg * (arm_m + 1.5e-7)) ** 2


@pytest.mark.parametrize("function", [nested, negative_power])
def test_brackets_stand_where_they_must(function):
    """Awkward nesting keeps its meaning in both forms."""
    parameters = {
        name: Quantity(symbol, "")
        for name, symbol in (("mass_kg", "m"), ("arm_m", "x"), ("power_w", "P"))
    }
    law = Law(function, Quantity("y", ""), parameters, "", "")
    for values in itertools.product((0.7, 2.0), (1.3, 2.9), (0.4, 3.1)):
        known = {"sqrt": math.sqrt} | dict(zip("mxP", values, strict=True))
        expected = function(*values)

        assert expected == pytest.approx(
            evaluated(list(text_equations(law_text(law))), dict(known)), rel=1e-12
        )
        assert expected == pytest.approx(
            evaluated(list(mathml_equations(law_mathml(law))), dict(known)), rel=1e-12
        )
