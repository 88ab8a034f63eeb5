"""The formula of a law, as text and as MathML, derived from the law's own code.

A law of kind "formula" is a few lines: guards, perhaps named steps, one `return`. The walk leaves
the guards out, puts steps that are used once in their place, lists the others after "where", and
prints symbols for names. So what a reader sees cannot drift from what is computed.
"""

import ast
import inspect
import textwrap
from collections import Counter
from collections.abc import Callable, Iterator
from functools import cache
from html import escape
from typing import Any, NamedTuple

from buildbook.figures.laws.constants import CONSTANTS
from buildbook.figures.laws.flight_registry import FLIGHT
from buildbook.figures.laws.law import Law
from buildbook.figures.laws.quantities import INTERMEDIATES

Function = Callable[..., Any]

# How tightly a piece of text holds together; a looser piece inside a tighter one gets brackets.
SUM, PRODUCT, QUOTIENT, SIGN, POWER, ATOM = range(6)

SUPERSCRIPTS = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
NAMED_FUNCTIONS = frozenset({"exp", "log", "sin", "cos", "tan"})


class Equation(NamedTuple):
    """A symbol and the expression that it stands for."""

    symbol: str
    expression: ast.expr


class Derivation(NamedTuple):
    """What the walk found: the result, the steps used more than once, the constants by symbol."""

    result: Equation
    steps: tuple[Equation, ...]
    constants: tuple[tuple[str, float, str], ...]
    symbols: dict[str, str]


def law_text(law: Law) -> str:
    """The formula of a law as text: `v_s = sqrt(2·m·g / (ρ·S·C_Lmax)), where g = …`.

    A law of kind "method" gives `method: …`.
    ValueError: its code holds something that is no formula, with the line.
    """
    if law.kind == "method":
        return f"method: {law.method}"
    found = _derivation(law.function, law.result.symbol, tuple(law.parameters.items()))
    equations = [
        f"{equation.symbol} = {_text(equation.expression, found.symbols)[0]}"
        for equation in (found.result, *found.steps)
    ]
    constants = [
        f"{symbol} = {_number_text(value)} {unit}".rstrip()
        for symbol, value, unit in found.constants
    ]
    further = [*equations[1:], *constants]
    return equations[0] + (f", where {'; '.join(further)}" if further else "")


def law_mathml(law: Law) -> str:
    """The formula of a law as one MathML Core `<math>` element.

    A law of kind "method" gives its words in `<mtext>`, which does not wrap: on a page its text is
    the better choice. ValueError: as `law_text`.
    """
    if law.kind == "method":
        return f"<math><mtext>method: {escape(law.method)}</mtext></math>"
    found = _derivation(law.function, law.result.symbol, tuple(law.parameters.items()))
    rows = [
        f"{_symbol_mathml(symbol)}<mo>=</mo>{_mathml(expression, found.symbols)}"
        for symbol, expression in (found.result, *found.steps)
    ]
    rows += [
        f"{_symbol_mathml(symbol)}<mo>=</mo>{_number_mathml(value)}"
        + (f'<mspace width="0.3em"></mspace><mtext>{escape(unit)}</mtext>' if unit else "")
        for symbol, value, unit in found.constants
    ]
    if len(rows) == 1:
        return f'<math display="block"><mrow>{rows[0]}</mrow></math>'
    cells = (f'<mstyle displaystyle="true">{row}</mstyle>' for row in rows)
    lines = "".join(f"<mtr><mtd>{cell}</mtd></mtr>" for cell in cells)
    return f'<math display="block"><mtable>{lines}</mtable></math>'


# ------------------------------------------------------------------ from code to expressions


@cache
def _derivation(
    function: Function, result_symbol: str, parameters: tuple[tuple[str, Any], ...]
) -> Derivation:
    definition = _definition(function)
    steps, returned = _steps_and_return(function.__name__, definition)
    uses = Counter(
        node.id
        for expression in (returned, *steps.values())
        for node in ast.walk(expression)
        if isinstance(node, ast.Name)
    )
    once = {name: step for name, step in steps.items() if uses[name] <= 1}
    kept = {name: _Substitute(once).visit(step) for name, step in steps.items() if uses[name] > 1}
    result = _Substitute(once).visit(returned)
    symbols = {name: quantity.symbol for name, quantity in parameters}
    symbols |= {name: INTERMEDIATES[name].symbol for name in kept}
    constants = []
    for name in _names([result, *kept.values()]):
        if name in CONSTANTS:
            quantity = CONSTANTS[name]
            symbols[name] = quantity.symbol
            constants.append(
                (quantity.symbol, inspect.unwrap(function).__globals__[name], quantity.unit)
            )
    return Derivation(
        result=Equation(result_symbol, result),
        steps=tuple(Equation(symbols[name], step) for name, step in kept.items()),
        constants=tuple(constants),
        symbols=symbols,
    )


def _definition(function: Function) -> ast.FunctionDef:
    source = textwrap.dedent(inspect.getsource(function))
    definition = ast.parse(source).body[0]
    if not isinstance(definition, ast.FunctionDef):
        raise ValueError(f"{function.__name__} is not a plain function")
    return definition


def _steps_and_return(
    name: str, definition: ast.FunctionDef
) -> tuple[dict[str, ast.expr], ast.expr]:
    """Named steps in order and the returned expression; guards and calls for effect left out."""
    steps: dict[str, ast.expr] = {}
    for statement in definition.body:
        match statement:
            case ast.Return(value=ast.expr() as returned):
                return steps, returned
            case ast.Assign(targets=[ast.Name(id=step)], value=value):
                steps[step] = value
            case ast.Expr():
                continue
            case ast.If(body=[*_, ast.Raise()], orelse=[]):
                continue
            case _:
                raise _no_formula(name, statement)
    raise ValueError(f"{name} returns nothing that can be shown as a formula")


def _no_formula(name: str, node: ast.stmt | ast.expr) -> ValueError:
    kind = type(node).__name__
    return ValueError(f"{name} cannot be shown as a formula: {kind} in its line {node.lineno}")


class _Substitute(ast.NodeTransformer):
    """Puts the expression of a step in the place of its name, as deep as it goes."""

    def __init__(self, steps: dict[str, ast.expr]) -> None:
        self.steps = steps

    def visit_Name(self, node: ast.Name) -> ast.expr:
        step = self.steps.get(node.id)
        if step is None:
            return node
        replaced: ast.expr = self.visit(step)
        return replaced


def _names(expressions: list[ast.expr]) -> Iterator[str]:
    """Names in the order in which they are read, each once."""
    seen: set[str] = set()
    for expression in expressions:
        for node in _in_order(expression):
            if isinstance(node, ast.Name) and node.id not in seen:
                seen.add(node.id)
                yield node.id


def _in_order(node: ast.AST) -> Iterator[ast.AST]:
    yield node
    for child in ast.iter_child_nodes(node):
        yield from _in_order(child)


class _Shape(NamedTuple):
    """An expression reduced to what both printers know: a kind and its pieces."""

    kind: str  # number, symbol, sum, difference, product, quotient, power, minus, root, call
    pieces: tuple[ast.expr, ...] = ()
    word: str = ""
    value: float = 0.0


_BINARY = {
    ast.Add: "sum",
    ast.Sub: "difference",
    ast.Mult: "product",
    ast.Div: "quotient",
    ast.Pow: "power",
}


def _shape(node: ast.expr, symbols: dict[str, str]) -> _Shape:
    match node:
        case ast.Constant(value=int() | float() as value):
            return _Shape("number", value=value)
        case ast.Name(id=name) if name in symbols:
            return _Shape("symbol", word=symbols[name])
        case ast.Attribute(value=ast.Name(id="math"), attr="pi"):
            return _Shape("symbol", word="π")
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            return _Shape("minus", (operand,))
        case ast.BinOp(left=left, op=op, right=right) if type(op) in _BINARY:
            return _Shape(_BINARY[type(op)], (left, right))
        case ast.Call(func=ast.Attribute(value=ast.Name(id="math"), attr=word), args=pieces):
            if word == "sqrt":
                return _Shape("root", tuple(pieces))
            if word == "pow":
                return _Shape("power", tuple(pieces))
            if word in NAMED_FUNCTIONS:
                return _Shape("call", tuple(pieces), word)
        case ast.Call(func=ast.Name(id=name), args=pieces, keywords=[]) if name in FLIGHT:
            return _Shape("call", tuple(pieces), FLIGHT[name].result.symbol)
    raise _no_formula(ast.unparse(node), node)


# ---------------------------------------------------------------------------------- as text


def _text(node: ast.expr, symbols: dict[str, str]) -> tuple[str, int]:
    """Text of an expression and how tightly it holds together."""
    shape = _shape(node, symbols)
    pieces = [_text(piece, symbols) for piece in shape.pieces]
    match shape.kind:
        case "number":
            text = _number_text(shape.value)
            return text, ATOM if "·" not in text else PRODUCT
        case "symbol":
            return shape.word, ATOM
        case "minus":
            return f"-{_held(pieces[0], POWER)}", SIGN
        case "root":
            return f"sqrt({pieces[0][0]})", ATOM
        case "call":
            return f"{shape.word}({', '.join(text for text, _ in pieces)})", ATOM
        case "power":
            return _power_text(pieces[0], pieces[1]), POWER
    left, right = pieces
    match shape.kind:
        case "sum":
            return f"{left[0]} + {_held(right, PRODUCT)}", SUM
        case "difference":
            return f"{left[0]} - {_held(right, PRODUCT)}", SUM
        case "product":
            tight_left = left if left[1] in (PRODUCT, SIGN) else (_held(left, POWER), ATOM)
            tight_right = right if right[1] == PRODUCT else (_held(right, POWER), ATOM)
            return f"{tight_left[0]}·{tight_right[0]}", PRODUCT
        case _:
            over = left if left[1] in (PRODUCT, SIGN) else (_held(left, POWER), ATOM)
            return f"{over[0]} / {_held(right, POWER)}", QUOTIENT


def _held(piece: tuple[str, int], least: int) -> str:
    text, holds = piece
    return text if holds >= least else f"({text})"


def _power_text(base: tuple[str, int], exponent: tuple[str, int]) -> str:
    held = _held(base, ATOM)
    if exponent[0].isdigit():
        return held + exponent[0].translate(SUPERSCRIPTS)
    return f"{held}^{_held(exponent, ATOM)}"


def _number_parts(value: float) -> tuple[str, str]:
    """Digits and power of ten of a number, the latter empty where it is not needed."""
    digits, _, exponent = repr(value).partition("e")
    return digits.removesuffix(".0"), str(int(exponent)) if exponent else ""


def _number_text(value: float) -> str:
    digits, exponent = _number_parts(value)
    return f"{digits}·10^{exponent}" if exponent else digits


# -------------------------------------------------------------------------------- as MathML


def _mathml(node: ast.expr, symbols: dict[str, str]) -> str:
    """MathML of an expression; brackets only where a fraction or a root does not hold it."""
    shape = _shape(node, symbols)
    pieces = [_mathml(piece, symbols) for piece in shape.pieces]
    match shape.kind:
        case "number":
            return _number_mathml(shape.value)
        case "symbol":
            return _symbol_mathml(shape.word)
        case "minus":
            return f"<mrow><mo>−</mo>{_bracketed(shape.pieces[0], pieces[0], symbols, SIGN)}</mrow>"
        case "root":
            return f"<msqrt>{pieces[0]}</msqrt>"
        case "call":
            inside = "<mo>,</mo>".join(pieces)
            return (
                f"<mrow>{_symbol_mathml(shape.word)}"
                f"<mrow><mo>(</mo>{inside}<mo>)</mo></mrow></mrow>"
            )
        case "quotient":
            return f"<mfrac>{pieces[0]}{pieces[1]}</mfrac>"
        case "power":
            base = _bracketed(shape.pieces[0], pieces[0], symbols, ATOM)
            return f"<msup>{base}{pieces[1]}</msup>"
    sign = {"sum": "+", "difference": "−", "product": "·"}[shape.kind]
    left = pieces[0]
    if shape.kind == "product":
        left = _bracketed(shape.pieces[0], left, symbols, PRODUCT)
    least = SIGN + 1 if shape.kind == "product" else PRODUCT
    right = _bracketed(shape.pieces[1], pieces[1], symbols, least)
    return f"<mrow>{left}<mo>{sign}</mo>{right}</mrow>"


def _bracketed(node: ast.expr, inner: str, symbols: dict[str, str], least: int) -> str:
    """`inner` in brackets when its expression holds together less than `least`."""
    holds = _text(node, symbols)[1]
    if holds >= least or (holds in (PRODUCT, QUOTIENT) and least == SIGN + 1):
        return inner
    return f"<mrow><mo>(</mo>{inner}<mo>)</mo></mrow>"


def _number_mathml(value: float) -> str:
    digits, exponent = _number_parts(value)
    if not exponent:
        return f"<mn>{digits}</mn>"
    sign = "<mo>−</mo>" if exponent.startswith("-") else ""
    ten = f"<msup><mn>10</mn><mrow>{sign}<mn>{exponent.lstrip('-')}</mn></mrow></msup>"
    return f"<mrow><mn>{digits}</mn><mo>·</mo>{ten}</mrow>"


def _symbol_mathml(symbol: str) -> str:
    base, _, below = symbol.partition("_")
    if not below:
        return f"<mi>{escape(base)}</mi>"
    tag = "mn" if below.isdigit() else "mi"
    return f"<msub><mi>{escape(base)}</mi><{tag}>{escape(below)}</{tag}></msub>"
