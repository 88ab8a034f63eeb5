"""YAML text becomes nodes that know their line; nothing is converted, everything is a string.

PyYAML's C parser reads where libyaml is there, its pure parser elsewhere, with the same results.
"""

import operator
import re
from collections.abc import Iterator, Sequence
from typing import Any

import yaml
from yaml.composer import Composer
from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode
from yaml.parser import Parser
from yaml.reader import Reader
from yaml.resolver import BaseResolver
from yaml.scanner import Scanner

from buildbook.basis.notation import quoted
from buildbook.basis.sizes import most
from buildbook.records.keys.hints import typed_dash, typed_quote
from buildbook.records.keys.nodes import line_of
from buildbook.records.keys.plain_text import (
    HARMFUL,
    Fault,
    Unreadable,
    control_words,
    decoded,
)

try:
    from yaml import cyaml
except ImportError:  # no libyaml: slower, same nodes
    cyaml = None  # type: ignore[assignment]

MOST_DEPTH = most("depth")
_MOST_FAULTS = 100

_PLAIN = "plain"  # the tag of every node that was written without one
_PERHAPS_MARKED = re.compile(r"(?:^|[\s\[{,:?-])[&*!]\S", re.MULTILINE)
_DEEP_PREFIX = re.compile(rf"\n[ ?:-]{{{MOST_DEPTH},}}")


class _Strings(BaseResolver):
    """Every node that was written without a tag gets the same one."""

    def resolve(self, *_: Any) -> str:
        return _PLAIN

    # Called before and after every node, for nothing here: so as quickly as can be.
    descend_resolver: Any = operator.is_
    ascend_resolver: Any = tuple


class _PureParser(Reader, Scanner, Parser, Composer, _Strings):
    def __init__(self, text: str) -> None:
        Reader.__init__(self, text)
        Scanner.__init__(self)
        Parser.__init__(self)
        Composer.__init__(self)
        _Strings.__init__(self)


if cyaml is not None:

    class _FastParser(cyaml.CParser, _Strings):  # type: ignore[name-defined, misc]
        def __init__(self, text: str) -> None:
            cyaml.CParser.__init__(self, text)  # type: ignore[attr-defined]
            _Strings.__init__(self)


def compose(data: bytes, *, pure: bool = False) -> Node | None:
    """The root node of one YAML document, or None where the file holds nothing.

    pure: use the parser that needs no libyaml. Unreadable: anything else than one plain
    document in UTF-8, of at most 4 MB, without anchors and tags.
    """
    text = decoded(data)
    pure = pure or cyaml is None
    try:
        _look_for_marks_and_depth(text, pure)
        node: Node | None = _parser(text, pure).get_single_node()
    except yaml.MarkedYAMLError as error:
        raise _explained(error, text) from None
    except RecursionError:
        raise _too_deep(1) from None
    except yaml.YAMLError as error:
        raise Unreadable(f"not readable as YAML: {error}".splitlines()[0]) from None
    if "\\" in text:
        _look_for_escapes(node)
    if isinstance(node, ScalarNode) and not (node.value or node.style):
        return None  # nothing but the line of hyphens that begins a document
    return node


def _look_for_escapes(root: Node | None) -> None:
    """Unreadable: a text in double quotes names a harmful character, as in ``"\\e"``."""
    faults: list[Fault] = []
    waiting = [] if root is None else [root]
    while waiting:
        node = waiting.pop()
        if isinstance(node, ScalarNode):
            if HARMFUL.search(node.value):
                hint = "delete that character"
                faults.append(Fault(control_words(node.value), line_of(node), hint))
        elif isinstance(node, MappingNode):
            waiting.extend(part for pair in node.value for part in pair)
        else:
            waiting.extend(node.value)
    if faults:
        faults.sort(key=lambda fault: fault.line)
        unreadable = Unreadable(faults[0].reason)
        unreadable.faults = faults[:_MOST_FAULTS]
        raise unreadable


def _parser(text: str, pure: bool) -> Any:
    return _PureParser(text) if pure else _FastParser(text)


def _look_for_marks_and_depth(text: str, pure: bool) -> None:
    """Walk the events before the nodes are built, where the text gives a reason to.

    Unreadable: anchors, aliases and tags, all of them; or too deep a nesting.
    """
    marked = any(mark in text for mark in "&*!") and _PERHAPS_MARKED.search(text)
    if not (marked or _DEEP_PREFIX.search(f"\n{text}") or _many_open(text)):
        return
    parser = _parser(text, pure)
    faults: list[Fault] = []
    depth = 0
    while parser.check_event():
        event = parser.get_event()
        line = event.start_mark.line + 1 if event.start_mark else 1
        faults.extend(_marks(event, line))
        if isinstance(event, yaml.CollectionStartEvent):
            depth += 1
        elif isinstance(event, yaml.CollectionEndEvent):
            depth -= 1
        if depth > MOST_DEPTH:
            raise _too_deep(line)
    if faults:
        unreadable = Unreadable(faults[0].reason)
        unreadable.faults = faults[:_MOST_FAULTS]
        raise unreadable


def _marks(event: Any, line: int) -> Iterator[Fault]:
    """The anchor, alias or tag of an event, as faults."""
    anchor, tag = getattr(event, "anchor", None), getattr(event, "tag", None)
    if anchor is not None:
        sign = "*" if isinstance(event, yaml.AliasEvent) else "&"
        hint = "write the value out, or put the text in quotes"
        yield Fault(f"anchors and aliases are not read: '{sign}{anchor}'", line, hint)
    if tag is not None:
        short = tag.replace("tag:yaml.org,2002:", "!!")
        hint = "leave it out, or put the text in quotes"
        yield Fault(f"tags of YAML are not read: {quoted(short)}", line, hint)


def _many_open(text: str) -> bool:
    """Whether brackets may be nested deeply: cheap, and wrong only by saying yes too often."""
    if text.count("[") + text.count("{") < MOST_DEPTH:
        return False
    brackets = re.sub(r"[^\[\]{}]+", "", text)
    for _ in range(4):
        brackets = brackets.replace("[]", "").replace("{}", "")
    return len(brackets) >= MOST_DEPTH


def _too_deep(line: int) -> Unreadable:
    return Unreadable(f"nested more than {MOST_DEPTH} levels deep", line, "write it flatter")


_MERGE_MARK = re.compile(r"(?:<{7}|>{7}|={7})(?: |$)").match


def _explained(error: yaml.MarkedYAMLError, text: str) -> Unreadable:
    """One sentence of our own, whichever parser found the fault."""
    problem, context = error.problem or "", error.context or ""
    mark = error.problem_mark or error.context_mark
    lines = re.split(r"\r\n|\r|\n", text)
    last = max(1, len(lines) - (not lines[-1]))  # a fault at the end is told at the last line
    number = min(mark.line + 1, last) if mark else 1
    if "nesting depth" in problem:
        return _too_deep(number)
    if "single document" in context:
        return Unreadable(
            "more than one document in the file", number, "remove the line of three hyphens"
        )
    merge = next((at for at, row in enumerate(lines, 1) if _MERGE_MARK(row)), None)
    if merge is not None:
        hint = "keep what both say, and remove the lines of <<<<<<<, ======= and >>>>>>>"
        return Unreadable("both sides of a merge stand here", merge, hint)
    line = lines[number - 1]
    if "\t" in line[: len(line) - len(line.lstrip("- \t"))]:
        return Unreadable("tab used for indentation", number, "indent with spaces")
    begun = error.context_mark.line + 1 if error.context_mark else number
    if "quoted scalar" in context:
        return Unreadable("quotation mark without an end", begun, "close the quotation")
    if "flow" in context and ";" in re.sub(r"\"[^\"]*\"|'[^']*'", "", line):
        reason = f"{quoted(line.strip())} has a semicolon between its keys"
        return Unreadable(reason, number, "write a comma")
    if "flow" in context:
        return Unreadable(
            "bracket without an end, or a comma missing", begun, "close every [ and {"
        )
    slip = _slip_of(lines, number, mark.column if mark and "mapping values" in problem else None)
    if slip is not None:
        return slip
    if "mapping values" in problem:
        return Unreadable(
            "a colon inside a value", number, "put the value in quotes, or break the line"
        )
    if "cannot start any token" in problem:
        value = line.strip().partition(": ")[2] or line.strip()
        return Unreadable(
            f"{quoted(value)} begins with a reserved character",
            number,
            "put the value in quotes",
        )
    return Unreadable(
        f"not readable as YAML near {quoted(line.strip())}"
        if line.strip()
        else "not readable as YAML",
        number,
        "look at the indentation and the colons of this line and the one above",
    )


_UNSPACED_KEY = re.compile(r"\s*(?:- +)?\w+:[^\s:/]").match
_DAY_RUN_IN = re.compile(r"\s*- +on( +|:)([0-9][^#]*?) *(?:#.*)?").fullmatch
_UNSPACED_DASH = re.compile(r"-(?:\w+:(?: |$)|[\[{])").match
_EQUALS = re.compile(r"(\s*(?:- +)?)(\w+) ?= ?(?=\S)").match
_AFTER_QUOTE = re.compile(r"""\s*(?:- +)?\w+: +(?:"[^"]*"|'[^']*') *[^\s#,\]}]""").match
_KEY_AND_WORDS = re.compile(r"( +)([a-z_]+) ([^-#:].*)").fullmatch
_KEY_AT_THE_EDGE = re.compile(r"\w+:(?: |$)").match


def _without_colon(rows: Sequence[tuple[str, int]]) -> Unreadable | None:
    """``check failsafe`` beside keys that have their colon; the last row is that of the fault."""
    depth = len(rows[-1][0]) - len(rows[-1][0].lstrip())
    for row, at in rows:
        found = _KEY_AND_WORDS(row)
        if found and len(found[1]) == depth and ": " not in row and not row.endswith(":"):
            hint = f"write {found[2]}: {found[3]}"[:60]
            hint += "; or indent it further where it goes on with the line above"
            return Unreadable(f"{quoted(row.strip())} has no colon", at, hint)
    return None


def _slip_of(lines: list[str], number: int, colon: int | None) -> Unreadable | None:
    """What a person did by mistake where the parsers only say that they can't go on.

    colon: the column of the colon that stands where none is expected.
    """
    line = lines[number - 1]
    above = next((row for row in reversed(lines[: number - 1]) if row.strip()), "")
    for row, at in ((above, number - 1), (line, number)):
        sign = typed_dash(row.lstrip()[:2]) or (typed_quote(row) if row is line else None)
        if sign is not None:
            return Unreadable(f"not readable as YAML near {quoted(row.strip())}", at, sign)
    if _UNSPACED_DASH(above) or _UNSPACED_DASH(line):
        row, at = (above, number - 1) if _UNSPACED_DASH(above) else (line, number)
        return Unreadable(f"{quoted(row)} has no space after its hyphen", at, "write '- '")
    if _EQUALS(line) and ":" not in line.partition("=")[0]:
        better = re.sub(r"^(\s*(?:- +)?\w+) ?= ?", r"\1: ", line).strip()
        reason = f"{quoted(line.strip())} has an equals sign for its colon"
        return Unreadable(reason, number, f"write {better}"[:80])
    colonless = _without_colon(((above, number - 1), (line, number)))
    if colon is None and colonless is not None:
        return colonless
    if _AFTER_QUOTE(line):
        reason = f"text goes on after its closing quotation mark in {quoted(line.strip())}"
        return Unreadable(reason, number, "put all of it in quotes, of the other sort")
    for row, at in ((above, number - 1), (line, number)):
        day = _DAY_RUN_IN(row)
        if day:
            lacks = "space after the colon" if day[1] == ":" else "colon after on"
            return Unreadable(f"{quoted(row.strip())} has no {lacks}", at, f"write on: {day[2]}")
    if colon is not None:
        if ":" not in line[:colon] and line[:1] == " " and above.strip():
            hint = "let it begin below the key that it stands beside"
            return Unreadable(f"{quoted(line.strip())} is indented too far", number, hint)
        return None
    if _UNSPACED_KEY(line):
        reason = f"{quoted(line.strip())} has no space after the colon"
        return Unreadable(reason, number, "write it as in note: gusty")
    if _KEY_AT_THE_EDGE(line) and any(row.startswith("- ") for row in lines[: number - 1]):
        hint = "begin a new entry with '- ', or indent the line to go on with the one above"
        return Unreadable(f"{quoted(line)} stands outside of the list", number, hint)
    return None


__all__ = [
    "MappingNode",
    "Node",
    "ScalarNode",
    "SequenceNode",
    "compose",
]
