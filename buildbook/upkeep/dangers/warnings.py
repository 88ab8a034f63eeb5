"""Dangers as warnings of ``check``, each at the line where it was written."""

from collections.abc import Iterable, Iterator

from buildbook.basis.problems import Problem
from buildbook.report.upkeep.findings import NoYaw, NutAgainst, SameMemory, WithoutLink, WrongHand
from buildbook.report.upkeep.work import Row, Why

TOLD: frozenset[Why] = frozenset(("hand", "plan", "link lost", "memory", "nut"))
"""Why a row is open that ``check`` tells as well: what was written contradicts itself, or kills."""


def danger_warnings(rows: Iterable[Row]) -> Iterator[Problem]:
    """One warning for each, but one for all stations of a plan."""
    seen: set[tuple[str | None, str | None]] = set()
    for row in rows:
        because = row.because
        if because is None or because.why not in TOLD or row.state != "failed":
            continue
        if because.why == "plan":
            if (row.aircraft, because.why) in seen:
                continue
            seen.add((row.aircraft, because.why))
        yield _warning(row)


def _fault(row: Row) -> str:
    """What is wrong, in one clause."""
    found = row.because.found if row.because is not None else None
    match found:
        case WrongHand():
            return f"{row.station}: {found.tag} is {found.hand}, not {found.wanted}"
        case NoYaw():
            return "the planned spins leave no yaw control"
        case WithoutLink():
            return "link lost, the motor keeps running"
        case SameMemory():
            whose = " and ".join(f"{name}'s" for name in found.others)
            return f"memory {found.memory} is also {whose}: move the sticks first"
        case NutAgainst():
            nut = f"propeller nut of {found.tag} at {found.station}"
            return f"{nut}: does its {found.thread}-hand thread tighten?"
        case _:
            return f"{row.name} is {row.state}"


def _warning(row: Row) -> Problem:
    return Problem(
        f"{row.aircraft}: {_fault(row)}",
        row.place,
        "warning",
        getattr(row.rule, "what", None),
        (),
        row.aircraft,
    )
