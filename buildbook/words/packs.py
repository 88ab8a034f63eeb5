"""What is said of packs that are set aside."""

from collections.abc import Mapping

from buildbook.report.upkeep.findings import Remark
from buildbook.report.upkeep.work import Because, PackStanding

_WHY: Mapping[str, str] = {
    "crash": "it was in a crash",
    "incident": "it was in an incident",
    "water": "it got wet",
    "defect": "a defect of it was written",
    "failed look": "a look at it failed",
    "low cell": "a cell read at rest was too low",
    "high cell": "a cell read at rest was too high",
    "spread": "its cells lay too far apart at rest",
    "falling cell": "one cell fell more than the others while it lay",
}


def set_aside(because: Because) -> str:
    """Why a pack is set aside: ``set aside, a cell read at rest was too low: found 2.90 V``."""
    found = because.found
    if not isinstance(found, Remark):
        return "set aside"
    why = _WHY.get(found.cause or "", found.cause or "")
    detail = ", ".join(f"{name} {value}" for name, value in found.facts)
    return f"set aside, {why}{f': {detail}' if detail else ''}"


def returns(standing: PackStanding) -> str:
    """What ends the quarantine of a pack."""
    asked = {reason.row.name for reason in standing.reasons if reason.row is not None}
    if any(reason.row.kind == "defect" for reason in standing.reasons if reason.row is not None):
        return "clear its defect, and on a later day let a look at the pack, naming it, pass"
    if "set-aside" in asked:
        return "only state: serviceable, with because:, returns it"
    if any(reason.because.why == "set aside" for reason in standing.reasons):
        return "a look at the pack that names it and passes, on a later day, returns it"
    return "an inspection that names it, more than a routine reading, returns it"
