"""What a row is about and how it stands, in words that hold nothing private and no day."""

from collections.abc import Mapping

from buildbook.basis.counting import amount


def about(name: str, tag: str | None = None, station: str | None = None) -> str:
    """``spin-directions of front-left``, ``propeller-fit of R-01 at front-left``."""
    if tag is None:
        return name if station is None else f"{name} of {station}"
    return f"{name} of {tag}" if station is None else f"{name} of {tag} at {station}"


def stands(subject: str, state: str, first_by: str | None, left: Mapping[str, float]) -> str:
    """``motor-bearings of M-01 is overdue by 3 flights``; days are left to the pages."""
    value = left.get(first_by or "", 0)
    counted = first_by is not None and first_by != "days" and value != 0
    if state == "never done":
        return f"{subject} was never done"
    if not counted or first_by is None:
        return f"{subject} is {state}"
    size = amount(first_by, abs(value))
    if state == "overdue":
        return f"{subject} is overdue by {size}"
    if state == "in tolerance":
        return f"{subject} is in tolerance, {size} past due"
    if state in ("due soon", "ok"):
        return f"{subject} is {state}, {size} left"
    return f"{subject} is {state}"
