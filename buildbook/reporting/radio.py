"""Which memory of the transmitter is which aircraft."""

from buildbook.report.radio import Memory, RadioReport
from buildbook.reporting.whole import Whole


def radio(whole: Whole) -> RadioReport:
    """All memories, by number; aircraft with a radio but no memory come last."""
    aircraft = whole.hangar.aircraft
    radios = {slug: now.radio for slug, now in aircraft.items() if now.radio}
    found = [
        Memory(
            slug=slug,
            name=aircraft[slug].record.aircraft,
            status=aircraft[slug].status,
            radio=radio,
            twins=tuple(
                other
                for other, its in radios.items()
                if other != slug
                and radio.memory is not None
                and its.memory == radio.memory
                and its.transmitter in (None, radio.transmitter or its.transmitter)
            ),
            place=aircraft[slug].places.get("radio"),
        )
        for slug, radio in radios.items()
    ]
    modes = {radio.mode for radio in radios.values() if radio.mode is not None}
    return RadioReport(
        memories=tuple(sorted(found, key=lambda one: (_number(one.radio.memory), one.name))),
        modes=tuple(sorted(modes)),
        silent=tuple(slug for slug, now in aircraft.items() if now.radio is None),
    )


def _number(memory: str | None) -> tuple[int, int, str]:
    """Numbers by size, then names by letter, then none."""
    if memory is None:
        return (2, 0, "")
    return (0, int(memory), "") if memory.isdecimal() else (1, 0, memory)
