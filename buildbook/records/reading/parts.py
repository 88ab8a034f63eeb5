"""Specs and items from their nodes."""

import re
from collections.abc import Mapping
from functools import cache
from typing import Any

from buildbook.basis import notation
from buildbook.basis.amounts import plural
from buildbook.basis.notation import NotationError, quoted
from buildbook.basis.place import Place
from buildbook.basis.problems import Problems
from buildbook.basis.sizes import most
from buildbook.records.keys.fields import Owners, fields_of, key_owners, missing, read_fields
from buildbook.records.keys.nodes import shape_of
from buildbook.records.keys.scope import Pairs, Scope, pairs_of
from buildbook.records.keys.values import NAME, an
from buildbook.records.keys.yaml_nodes import MappingNode, Node, ScalarNode, SequenceNode
from buildbook.records.parts import Item, Spec, spec_kinds

_HYPHENED_RANGE = re.compile(r"(.*?)([0-9]{1,6})[-–]\1([0-9]{1,6})").fullmatch
_WORDED_RANGE = re.compile(r"(\S*\d)\s+(?:to|bis|until|through|[-–])\s+(\S*\d)").fullmatch
_RANGE = re.compile(r"(.*?)([0-9]{1,6})\s*\.\.\s*(.*?)([0-9]{1,6})").fullmatch
_MOST_IN_A_BAG = most("bag")
_MOST_ODD = 12

# The most that one part of a kind weighs before it is warned about. Common practice, no source.
HEAVIEST: Mapping[str, str] = {
    "motor": "3 kg",
    "esc": "1 kg",
    "propeller": "1 kg",
    "battery": "15 kg",
    "servo": "1 kg",
    "controller": "1 kg",
    "receiver": "500 g",
    "sensor": "1 kg",
}


class Named:
    """Records of one kind by name; ``seen`` has the names of broken ones too."""

    def __init__(self, what: str) -> None:
        self.what = what
        self.places: dict[str, Place] = {}
        self.whole = True  # whether every file of theirs could be read

    def seen(self) -> frozenset[str] | None:
        """All names, or None where some file of theirs could not be read."""
        return frozenset(self.places) if self.whole else None

    def add(self, name: str, node: Node, scope: Scope) -> bool:
        """Whether the name is new; else a problem with both places."""
        if name in self.places:
            scope.refuse(
                node,
                f"{self.what} {quoted(name)} exists twice",
                "give one of them another name",
                (self.places[name],),
            )
            return False
        self.places[name] = scope.place(node)
        return True


def records_in(root: Node | None, scope: Scope, what: str) -> list[MappingNode]:
    """The members of a list of records; anything else in it is a problem."""
    if root is None:
        return []
    if not isinstance(root, SequenceNode):
        reason = f"expected a list of {plural(what)}, got {shape_of(root)}"
        scope.refuse(root, reason, "begin each with '- '")
        return []
    if len(root.value) > most("records"):
        reason = f"list of {len(root.value):,} {plural(what)}, more than {most('records'):,}"
        scope.refuse(root, reason, "split the file")
        return []
    members = [member for member in root.value if isinstance(member, MappingNode)]
    if len(members) < len(root.value):
        odd = [member for member in root.value if not isinstance(member, MappingNode)]
        for member in odd[:_MOST_ODD]:
            scope.refuse(member, f"expected {an(what)}, got {shape_of(member)}")
        if len(odd) > _MOST_ODD:
            more = len(odd) - _MOST_ODD
            scope.refuse(odd[_MOST_ODD], f"{more} more that are no {plural(what)}")
    return members


def read_specs(
    root: Node | None, file: str, problems: Problems, names: Named, specs: dict[str, Spec]
) -> None:
    """Read one file of specs into ``specs``."""
    for node in records_in(root, Scope(file, 1, problems), "spec"):
        scope = Scope(file, node.start_mark.line + 1, problems)
        spec = _spec(pairs_of(node, scope), scope, names)
        if spec is not None:
            specs[spec.spec] = spec


def _spec(pairs: Pairs, scope: Scope, names: Named) -> Spec | None:
    kind_pair = pairs.get("kind")
    kind = kind_pair[1].value if kind_pair and isinstance(kind_pair[1], ScalarNode) else ""
    fields, owners = fields_of(Spec, kind), _spec_owners()
    what = an(kind) if kind in owners.kinds else "a spec"
    absent = missing(
        pairs, fields, scope, None, _called("spec", pairs) if "spec" in pairs else what
    )
    others = owners.of if kind in owners.kinds else {}
    if kind not in owners.kinds:  # that is told; which keys it may have is not known
        pairs = {key: pair for key, pair in pairs.items() if key not in owners.of}
    read = read_fields(pairs, fields, scope, what, kind=kind, owners=others)
    new = "spec" in read and names.add(read["spec"], pairs["spec"][1], scope)
    needed = [field.attribute for field in fields.values() if field.required]
    if absent or not new or any(attribute not in read for attribute in needed):
        return None
    heaviest = HEAVIEST.get(kind)
    if heaviest and "mass_kg" in read and not read.get("sure"):
        node = pairs["mass"][1]
        if read["mass_kg"] > notation.quantity(heaviest, "mass"):
            scope.warn(node, f"{an(kind)} of {quoted(node.value)} is heavier than {heaviest}")
    return Spec(file=scope.file, line=scope.line, lines=scope.lines, **read)


@cache
def _spec_keys() -> frozenset[str]:
    """The keys that a spec of any kind may have."""
    return frozenset((*fields_of(Spec, ""), *_spec_owners().of))


@cache
def _spec_owners() -> Owners:
    """Which kinds of spec have a key."""
    return key_owners(spec_kinds())


def _called(what: str, pairs: Pairs) -> str:
    node = pairs[what][1]
    return f"{what} {quoted(node.value)}" if isinstance(node, ScalarNode) else an(what)


def read_items(
    root: Node | None,
    file: str,
    problems: Problems,
    names: Named,
    items: dict[str, Item],
    aircraft: str | None = None,
) -> None:
    """Read one file of items, or the items of one aircraft, into ``items``."""
    for node in records_in(root, Scope(file, 1, problems, aircraft), "item"):
        scope = Scope(file, node.start_mark.line + 1, problems, aircraft)
        pairs, fields = pairs_of(node, scope), fields_of(Item)
        absent = missing(
            pairs, fields, scope, None, _called("tag", pairs) if "tag" in pairs else "an item"
        )
        for key in [key for key in pairs if key not in fields and key in _spec_keys()]:
            hint = "its spec says it, in parts/specs.yaml"
            scope.refuse(pairs.pop(key)[0], f"unknown key {quoted(key)} in an item", hint)
        read = read_fields(pairs, fields, scope, "an item")
        tags = _tags(read, pairs, scope)
        if not tags and ("tag" in pairs or "tags" in pairs):
            names.whole = False  # whose tags they are is told here, not wherever they are named
        spec = read.get("spec")
        for tag in tags:
            here = pairs["tag" if "tag" in pairs else "tags"][1]
            if names.add(tag, here, scope) and spec is not None and not absent:
                items[tag] = Item(
                    file=file,
                    line=scope.line,
                    lines=scope.lines,
                    tag=tag,
                    aircraft=aircraft,
                    **read,
                )


def _tags(read: dict[str, Any], pairs: Pairs, scope: Scope) -> list[str]:
    """The tags of one record, a bag spread out; ``read`` loses its tags."""
    one, bag = read.pop("tag", None), read.pop("tags", None)
    if "tag" in pairs and "tags" in pairs:
        scope.refuse(pairs["tags"][0], "an item has 'tag' and 'tags'", "keep one of them")
    elif "tag" not in pairs and "tags" not in pairs:
        scope.refuse(None, "an item has no 'tag'", "as in tag: M-01, or tags: R-01..R-08")
    if one is not None:
        row = _HYPHENED_RANGE(one)
        if row and row[1] and int(row[2]) < int(row[3]):
            scope.refuse(
                pairs["tag"][1],
                f"{quoted(one)} is written as one tag, and looks like a row of them",
                f"write tags: {row[1]}{row[2]}..{row[1]}{row[3]}, or another tag",
            )
        return [one]
    if bag is None or "tags" not in pairs:
        return []
    node = pairs["tags"][1]
    tags: list[str] = []
    for text in bag:
        try:
            tags.extend(spread(text))
        except NotationError as error:
            scope.refuse(node, error.reason, error.hint)
    return tags


def spread(text: str) -> tuple[str, ...]:
    """``R-01..R-08`` as eight tags; a plain tag as itself. NotationError: any other form."""
    found = _RANGE(text)
    if found is None:
        worded = _WORDED_RANGE(text)
        if ".." in text or worded:
            hint = f"write {worded[1]}..{worded[2]}" if worded else "as in R-01..R-08"
            raise NotationError(f"{quoted(text)} is not a row of tags", hint)
        hyphened = _HYPHENED_RANGE(text)
        if hyphened and int(hyphened[2]) < int(hyphened[3]):
            before, first, last = hyphened.groups()
            raise NotationError(
                f"{quoted(text)} is not a row of tags",
                f"write {before}{first}..{before}{last}, or tag: if it is one tag",
            )
        return (str(NAME.parsed(text)),)
    before, first, again, last = found.groups()
    padded = len(first) if len(first) == len(last) else 1
    if again not in (before, ""):
        raise NotationError(
            f"{quoted(text)} does not begin and end the same way",
            f"as in {before}{first}..{before}{last}",
        )
    low, high = int(first), int(last)
    if high < low:
        raise NotationError(
            f"{quoted(text)} runs backwards", f"write {before}{last}..{before}{first}"
        )
    if padded == 1 and len(str(low)) != len(first):
        longest = max(len(first), len(last))
        raise NotationError(
            f"{quoted(text)} does not begin and end the same way",
            f"as in {before}{low:0{longest}d}..{before}{high:0{longest}d}",
        )
    if high - low >= _MOST_IN_A_BAG:
        raise NotationError(
            f"{quoted(text)} is a row of {high - low + 1} tags, more than {_MOST_IN_A_BAG}",
            "write several rows",
        )
    tags = tuple(f"{before}{number:0{padded}d}" for number in range(low, high + 1))
    NAME.parsed(tags[0])
    return tags
