"""What is said of packs that are set aside."""

from collections.abc import Mapping

from buildbook.report.upkeep.findings import Remark
from buildbook.report.upkeep.work import Because, PackStanding

_WHY: Mapping[str, str] = {
    "crash": "it was in a crash",
    "incident": "it was in an incident",
    "water": "it got wet",
    "defect": "it has a defect",
    "failed look": "it failed an inspection",
    "low cell": "a cell was too low at rest",
    "high cell": "a cell was too high at rest",
    "spread": "cells were too far apart at rest",
    "falling cell": "one cell fell more than the others while it lay",
}


def set_aside(because: Because) -> str:
    """Why: ``set aside: a cell was too low at rest (2.90 V, expected 3.00 V or more)``."""
    found = because.found
    if not isinstance(found, Remark):
        return "set aside"
    why = _WHY.get(found.cause or "", found.cause or "")
    facts = dict(found.facts)
    read = [facts.pop("found")] if "found" in facts else []
    detail = ", ".join([*read, *(f"{name} {value}" for name, value in facts.items())])
    return f"set aside: {why}{f' ({detail})' if detail else ''}"


def returns(standing: PackStanding) -> str:
    """What ends the quarantine of a pack, as a clause."""
    asked = {reason.row.name for reason in standing.reasons if reason.row is not None}
    if any(reason.row.kind == "defect" for reason in standing.reasons if reason.row is not None):
        return "clear its defect, and on a later day pass a pack-look that names it"
    if "set-aside" in asked:
        return "only state: serviceable with because: releases it"
    if any(reason.because.why == "set aside" for reason in standing.reasons):
        return "only a passed pack-look that names it, on a later day, releases it"
    return "only an inspection that names it, beyond a routine reading, releases it"
