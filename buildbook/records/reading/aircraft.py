"""``hangar.yaml`` and ``aircraft.yaml`` from their nodes."""

from typing import Any

from buildbook.basis.problems import Problems
from buildbook.records.aircraft import Aircraft
from buildbook.records.keeper import Keeper
from buildbook.records.keys.fields import Fields, complete, fields_of, missing, read_fields
from buildbook.records.keys.nodes import shape_of
from buildbook.records.keys.scope import Pairs, Scope, pairs_of
from buildbook.records.keys.yaml_nodes import MappingNode, Node
from buildbook.records.parts import Item
from buildbook.records.reading.parts import Named, read_items


def keys_of_file(root: Node | None, scope: Scope, what: str) -> Pairs | None:
    """The keys of a file that is one group of keys; None, with a problem, where it isn't."""
    if root is None:
        scope.refuse(None, "the file is empty", f"it should describe {what}")
    elif not isinstance(root, MappingNode):
        scope.refuse(root, f"expected the keys of {what}, got {shape_of(root)}", "write key: value")
    else:
        return pairs_of(root, scope)
    return None


def _read(root: Node | None, scope: Scope, fields: Fields, what: str) -> dict[str, Any] | None:
    pairs = keys_of_file(root, scope, what)
    if pairs is None:
        return None
    pairs.pop("items", None)
    missing(pairs, fields, scope, None, what)
    read = read_fields(pairs, fields, scope, what)
    return read if complete(read, fields) else None


def read_keeper(root: Node | None, file: str, problems: Problems) -> Keeper | None:
    """``hangar.yaml``; None where what is required is missing or broken."""
    scope = Scope(file, 1, problems)
    if isinstance(root, MappingNode):
        for key, _ in root.value:
            if key.value == "items":
                scope.refuse(
                    key, "unknown key 'items' in the hangar", "items go to parts/items.yaml"
                )
    read = _read(root, scope, fields_of(Keeper), "the hangar")
    if read is None:
        return None
    return Keeper(file=file, line=1, lines=scope.lines, **read)


def read_aircraft(
    root: Node | None,
    file: str,
    slug: str,
    problems: Problems,
    tags: Named,
    items: dict[str, Item],
) -> Aircraft | None:
    """``aircraft.yaml``, and the items that are listed in it into ``items``."""
    scope = Scope(file, 1, problems, slug)
    if isinstance(root, MappingNode):
        for key, value in root.value:
            if key.value == "items":
                read_items(value, file, problems, tags, items, slug)
    read = _read(root, scope, fields_of(Aircraft), "an aircraft")
    if read is None:
        return None
    return Aircraft(file=file, line=1, lines=scope.lines, slug=slug, **read)
