"""Entries about entries: corrections, voids and cleared defects find what they speak of."""

import datetime
import re
from collections.abc import Sequence
from functools import cached_property
from typing import Any

import msgspec
from msgspec import UNSET

from buildbook.basis.amounts import listed
from buildbook.basis.nearest import did_you_mean
from buildbook.basis.notation import quoted
from buildbook.basis.sizes import most
from buildbook.records.entries import Correction, Entry, Void
from buildbook.records.entries.kinds import AMENDING, KINDS, common, owners
from buildbook.records.keys.fields import fields_of, missing, read_fields
from buildbook.records.keys.hints import meant
from buildbook.records.keys.scope import Pairs, Scope, pairs_of
from buildbook.records.keys.values import TEXT
from buildbook.records.keys.yaml_nodes import MappingNode, Node, ScalarNode
from buildbook.records.reading.logs import Draft, made, read_kind

COMMON = common()
CORRECTS = fields_of(Correction, beyond=Entry)
VOIDS = fields_of(Void, beyond=Entry)
_MOST_GUESSED = 400
_LONGEST_CHAIN = most("corrections")
_OF_SET = frozenset((*COMMON, *CORRECTS))
_COUNTED = re.compile(r"\d{4}-\d\d-\d\d-\d+").fullmatch
"""A name that was counted: each log may have it, so that one of another log may not be meant."""
_KEPT = ("on", "id", "corrects", "voids", "because", "set")


class Ids:
    """Entries by the id that others use for them: in the same file, the same log, the hangar."""

    def __init__(self, drafts: Sequence[Draft]) -> None:
        self._drafts = drafts

    @cached_property
    def _by_uid(self) -> dict[str, Draft]:
        return {draft.uid: draft for draft in self._drafts}

    @cached_property
    def _by_id(self) -> dict[str, list[Draft]]:
        found: dict[str, list[Draft]] = {}
        for draft in self._drafts:
            found.setdefault(draft.id, []).append(draft)
        return found

    def find(self, reference: str, draft: Draft, node: Node | None) -> Draft | None:
        """The entry meant by ``draft``; None, with a problem, where that is not one entry."""
        exact = self._by_uid.get(f"{draft.scope.file}#{reference}") or self._by_uid.get(reference)
        if exact is not None:
            return exact
        everywhere = self._by_id.get(reference, [])
        log = draft.head["log"]
        here = [one for one in everywhere if one.head["log"] == log]
        if everywhere and not here and _COUNTED(reference):
            draft.scope.refuse(
                node,
                f"{quoted(reference)} is an entry of another log and none of this one",
                f"write it in that log, or name the file too, as in {everywhere[0].uid}",
                tuple(one.place() for one in everywhere[:4]),
            )
            return None
        for candidates in (here, everywhere):
            if len(candidates) == 1:
                return candidates[0]
            if candidates:
                draft.scope.refuse(
                    node,
                    f"more than one entry is called {quoted(reference)}",
                    f"name the file too, as in {candidates[0].uid}",
                    tuple(one.place() for one in candidates[:4]),
                )
                return None
        near = [
            name
            for name, drafts in self._by_id.items()
            if any(one.head["log"] == log for one in drafts) or not _COUNTED(name)
            if name[:7] == reference[:7] or name[:1] not in "12"
        ]
        hint = did_you_mean(reference, near[:_MOST_GUESSED])
        draft.scope.refuse(node, f"unknown entry {quoted(reference)}", hint)
        return None


class _Step(msgspec.Struct):
    """One correction: what it makes of the entry. ``kind`` is None where only keys change."""

    draft: Draft
    kind: str | None
    changes: dict[str, Any]
    keys: tuple[str, ...]
    lines: dict[str, int]


def amend(drafts: Sequence[Draft]) -> None:
    """Make the entries of all corrections and voids of a hangar, and join cleared defects."""
    ids = Ids(drafts)
    amending = [draft for draft in drafts if draft.kind in AMENDING]
    amending.sort(key=lambda draft: (draft.on, draft.scope.file, draft.head["index"]))
    targets = {draft.uid: target for draft in amending if (target := _target(draft, ids))}
    voided: dict[str, datetime.date] = {}
    for draft in amending:
        if draft.kind == "voids" and draft.uid in targets:
            _void(draft, targets[draft.uid], voided)
    chains: dict[str, list[_Step]] = {}
    for draft in amending:
        if draft.kind == "corrects" and draft.uid in targets:
            _correct(draft, targets, voided, chains)
    for draft in drafts:
        if draft.kind == "cleared":
            _join_defect(draft, ids)


def _target(draft: Draft, ids: Ids) -> Draft | None:
    """The entry that a correction or void names; None, with a problem, where it can't be used."""
    key = draft.kind
    node = draft.pairs[key][1]
    reference = TEXT.read(node, draft.scope, key)
    if reference is UNSET:
        return None
    target = ids.find(reference, draft, node)
    if target is None:
        return None
    if target is draft:
        draft.scope.refuse(node, f"entry {quoted(reference)} names itself")
    elif target.kind == "voids":
        hint = "write the entry again"
        draft.scope.refuse(node, f"{quoted(reference)} is a void", hint, (target.place(),))
    elif target.on > draft.on:
        draft.scope.refuse(
            node,
            f"entry {quoted(reference)} is of a later day, {target.on}",
            None,
            (target.place(),),
        )
    else:
        return target
    return None


def _own(draft: Draft, fields: Any) -> dict[str, Any] | None:
    """What a correction or void says of itself; None where its reason is missing."""
    absent = missing(draft.pairs, fields, draft.scope, None, quoted(draft.kind))
    own = {
        key: pair
        for key, pair in draft.pairs.items()
        if key in ("because", "corrects", "voids") or (key in COMMON and key not in ("on", "id"))
    }
    read = read_fields(own, {**COMMON, **fields}, draft.scope, quoted(draft.kind))
    return None if absent or "because" not in read else read


def _void(draft: Draft, target: Draft, voided: dict[str, datetime.date]) -> None:
    for key, (node, _) in draft.pairs.items():
        if key not in COMMON and key not in VOIDS:
            draft.scope.refuse(
                node, f"unknown key {quoted(key)} in 'voids'", did_you_mean(key, VOIDS)
            )
    read = _own(draft, VOIDS)
    if target.uid in voided:
        draft.scope.warn(draft.pairs["voids"][1], f"{quoted(target.id)} is voided twice")
    voided.setdefault(target.uid, draft.on)
    if read is None or (target.entry is None and target.kind not in AMENDING):
        return
    scope = draft.scope
    draft.entry = Void(
        file=scope.file,
        line=scope.line,
        lines=scope.lines,
        original=target.uid,
        **draft.head,
        **read,
    )


def _correct(
    draft: Draft,
    targets: dict[str, Draft],
    voided: dict[str, datetime.date],
    chains: dict[str, list[_Step]],
) -> None:
    read = _own(draft, CORRECTS)
    root = _root(draft, targets)
    if root is None or root.read is None:
        return  # what it corrects could not be read: that is told there
    chain = chains.setdefault(root.uid, [])
    if len(chain) >= _LONGEST_CHAIN:
        reason = f"entry {quoted(root.id)} is corrected more than {_LONGEST_CHAIN} times"
        draft.scope.refuse(None, reason, "void it and write it again", (root.place(),))
        return
    standing = [
        earlier
        for earlier in chain
        if not (earlier.draft.uid in voided and voided[earlier.draft.uid] <= draft.on)
    ]
    kind = root.kind
    for earlier in standing:
        kind = earlier.kind or kind
    step = _step(draft, root, kind)
    if step is None or read is None:
        return
    chain.append(step)
    scope = draft.scope
    becomes = _become(root, [*standing, step])
    if "sure" in read:
        becomes = msgspec.structs.replace(becomes, sure=read["sure"])
    draft.entry = Correction(
        file=scope.file,
        line=scope.line,
        lines=scope.lines,
        original=root.uid,
        becomes=becomes,
        changed=step.keys,
        **draft.head,
        **read,
    )


def _root(draft: Draft, targets: dict[str, Draft]) -> Draft | None:
    """The entry at the root of a chain of corrections."""
    seen = {draft.uid: draft}
    target = targets[draft.uid]
    while target.kind == "corrects":
        if len(seen) > _LONGEST_CHAIN:
            draft.scope.refuse(None, f"a chain of more than {_LONGEST_CHAIN} corrections")
            return None
        if target.uid in seen:
            _tell_circle(draft, list(seen.values()), target)
            return None
        seen[target.uid] = target
        following = targets.get(target.uid)
        if following is None:
            return None
        target = following
    return target


def _tell_circle(draft: Draft, chain: list[Draft], again: Draft) -> None:
    """Corrections that lead back to themselves: told once, at the first of the circle."""
    circle = chain[chain.index(again) :]
    first, *others = sorted(circle, key=lambda one: (one.scope.file, one.head["index"]))
    if draft is first:
        names = listed([quoted(one.id) for one in (first, *others)])
        draft.scope.refuse(
            draft.pairs["corrects"][1],
            f"{names} correct each other",
            None,
            tuple(one.place() for one in others),
        )


def _step(draft: Draft, root: Draft, kind: str) -> _Step | None:
    """What one correction changes, read with the table of the kind as it stands."""
    pairs, scope = draft.pairs, draft.scope
    anew = [key for key in pairs if key in KINDS and key not in _KEPT and key != "note"]
    if "set" in pairs and anew:
        node = pairs[anew[0]][0]
        scope.refuse(node, f"a correction has 'set' and {quoted(anew[0])}", "keep one of them")
        return None
    if "set" in pairs:
        return _set(draft, root, kind) if _set_alone(pairs, kind, scope) else None
    if not anew:
        hint = "as in set: {used: 1480 mAh}, or write the whole entry again"
        scope.refuse(None, "a correction has neither 'set' nor a new kind key", hint)
        return None
    new = {key for key in anew if not any(key in KINDS[other].fields for other in anew)}
    if len(new) != 1:
        scope.refuse(pairs[anew[-1]][0], "a correction of two kinds", "keep one of them")
        return None
    key = new.pop()
    own = {name: pair for name, pair in pairs.items() if name not in _KEPT and name not in COMMON}
    inner = _beside(draft, root)
    read = read_kind(KINDS[key], own, inner)
    return None if read is None else _Step(draft, key, read, (), _lines(inner, draft, root))


def _set_alone(pairs: Pairs, kind: str, scope: Scope) -> bool:
    """Whether nothing stands beside ``set`` that a reader would take for a part of it."""
    beside = [key for key in pairs if key not in _KEPT and key not in COMMON]
    for key in beside:
        hint = f"move it into set: {{{key}: …}}" if key in KINDS[kind].all else meant(key, _OF_SET)
        scope.refuse(pairs[key][0], f"{quoted(key)} is written beside 'set'", hint or "delete it")
    return not beside


def _set(draft: Draft, root: Draft, kind: str) -> _Step | None:
    """The keys of ``set``; a key that the entry cannot have is a problem."""
    node = draft.pairs["set"][1]
    if not isinstance(node, MappingNode):
        draft.scope.expected("the keys to set, with their values", node, "set")
        return None
    if not node.value:
        draft.scope.refuse(node, "'set' names no key", "as in set: {used: 1480 mAh}")
        return None
    pairs = pairs_of(node, draft.scope)
    for key in ("on", "id"):
        if key in pairs:
            draft.scope.refuse(
                pairs.pop(key)[0],
                f"{quoted(key)} of an entry can't be corrected",
                "void the entry and write it again",
            )
    inner = _beside(draft, root)
    read = read_fields(pairs, KINDS[kind].all, inner, quoted(kind), kind=kind, owners=owners().of)
    if not read:
        return None
    if kind in pairs:
        read["line_of_value"] = pairs[kind][1].start_mark.line + 1
    return _Step(draft, None, read, tuple(pairs), _lines(inner, draft, root))


def _beside(draft: Draft, root: Draft) -> Scope:
    """The file of the correction, with lines told against the line of the original."""
    return Scope(draft.scope.file, root.scope.line, draft.scope.problems, draft.scope.about)


def _lines(inner: Scope, draft: Draft, root: Draft) -> dict[str, int]:
    """The lines of the new values, where they stand in the file of the original."""
    return inner.lines if draft.scope.file == root.scope.file else {}


def _become(root: Draft, steps: list[_Step]) -> Any:
    """The original with all steps applied, at its own place and day."""
    kind, read = root.kind, dict(root.read or {})
    lines = dict(root.scope.lines)
    for step in steps:
        if step.kind is not None:
            common = {
                field.attribute: read[field.attribute]
                for field in COMMON.values()
                if field.attribute in read
            }
            kind, read = step.kind, common | step.changes
            lines = {}
        else:
            read = read | step.changes
        lines.update(step.lines)
    scope = Scope(root.scope.file, root.scope.line, root.scope.problems, root.scope.about)
    scope.lines = lines
    return made(KINDS[kind], read, root.head, scope)


_CLEARABLE = ("defect", "inspection", "check", "calibration")
"""Kinds of entry that may have found something."""


def _join_defect(draft: Draft, ids: Ids) -> None:
    """Give a cleared defect the entry that it clears."""
    if draft.read is None or draft.entry is None:
        return
    node = draft.pairs["cleared"][1]
    target = ids.find(str(draft.read["defect"]), draft, node)
    if target is not None and target.kind not in _CLEARABLE:
        draft.scope.refuse(
            node,
            f"entry {quoted(target.id)} is not a defect but {quoted(target.kind)}",
            None,
            (target.place(),),
        )
        target = None
    if target is None or not isinstance(node, ScalarNode):
        draft.entry = None
        return
    draft.entry = msgspec.structs.replace(draft.entry, target=target.uid)
