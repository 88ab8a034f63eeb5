"""What a set-up check should read, and how far the last reading was from it."""

from buildbook.basis import amounts
from buildbook.report.upkeep.set_up import Expected, ReadingUnit


def reading_words(value: float, unit: ReadingUnit) -> str:
    """``3.68 V a cell``, ``1030 g``, ``6.7 %``, ``57 mm``."""
    match unit:
        case "kg":
            return amounts.mass(value)
        case "V a cell":
            return f"{amounts.voltage(value)} a cell"
        case "ratio":
            return amounts.share(value)
        case _:
            return amounts.length(value)


def cell_words(voltage_v: float, cells: int | None) -> str:
    """The voltage of a pack a cell, ``3.68 V``; of the pack where nobody knows its cells."""
    return amounts.voltage(voltage_v / cells) if cells else f"{amounts.voltage(voltage_v)} in all"


def expected_words(found: Expected) -> str:
    """``3.68 V a cell with P-01``, ``below 6.7 %``, ``57 mm behind the leading edge …``."""
    said = reading_words(abs(found.value) if _is_place(found) else found.value, found.unit)
    if found.most:
        return f"below {said}"
    if found.unit == "m behind":
        where = "behind" if found.value >= 0 else "ahead of"
        return f"{said} {where} the leading edge of the mean chord"
    if found.unit == "m forward":
        where = "forward of" if found.value >= 0 else "behind"
        return f"{said} {where} the reference point"
    return f"{said} with {found.pack}" if found.pack else said


def last_words(found: Expected) -> str:
    """The last reading in the unit of the expectation; empty where there is none."""
    if found.last is None:
        return ""
    return reading_words(found.last, found.unit)


def difference_words(found: Expected) -> str:
    """``0.02 V a cell more``, ``3 g less``, ``no difference``; empty where nothing was read."""
    if found.last is None:
        return ""
    apart = found.last - found.value
    size = reading_words(abs(apart), found.unit)
    if reading_words(found.last, found.unit) == reading_words(found.value, found.unit):
        return "just at it" if found.most else "no difference"
    if found.unit == "ratio":  # a share of a share would be another thing
        size = f"{amounts.fixed(abs(apart) * 100, 1)} percentage points"
    if found.most:
        return f"{size} {'above' if apart > 0 else 'below'} it"
    if found.unit == "m behind":
        return f"{size} further {'back' if apart > 0 else 'forward'}"
    return f"{size} {'more' if apart > 0 else 'less'}"


def _is_place(found: Expected) -> bool:
    return found.unit in ("m behind", "m forward")
