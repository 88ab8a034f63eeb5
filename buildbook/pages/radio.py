"""The transmitter: which memory is which aircraft, switches, reversals, failsafe."""

from collections.abc import Iterable

import msgspec

from buildbook.basis.place import Place
from buildbook.pages.addresses import address_of
from buildbook.pages.page import Page
from buildbook.records.aircraft import Radio
from buildbook.report.reports import Reports


class Memory(msgspec.Struct, frozen=True, kw_only=True):
    """The radio of one aircraft. twins: others that are set up under the same memory."""

    slug: str
    name: str
    status: str
    radio: Radio
    twins: tuple[str, ...]
    place: Place | None


def keys(_reports: Reports) -> Iterable[str]:
    """There is one."""
    return ("",)


def page(reports: Reports, _key: str) -> Page:
    """All memories, by number."""
    found = memories(reports)
    modes = {memory.radio.mode for memory in found if memory.radio.mode is not None}
    silent = tuple(slug for slug, now in reports.hangar.aircraft.items() if now.radio is None)
    return Page(
        address=address_of("radio"),
        template="radio.html.j2",
        title="Radio",
        crumbs=((address_of("hangar"), reports.hangar.ledger.keeper.hangar),),
        facts={"memories": found, "modes": tuple(sorted(modes)), "silent": silent},
        about="Memories of the transmitter by aircraft: switches, reversals, failsafe.",
    )


def memories(reports: Reports) -> tuple[Memory, ...]:
    """Each aircraft with a radio, in the order of the memories; those without one last."""
    radios = {slug: now.radio for slug, now in reports.hangar.aircraft.items() if now.radio}
    found = [
        Memory(
            slug=slug,
            name=reports.hangar.aircraft[slug].record.aircraft,
            status=reports.hangar.aircraft[slug].status,
            radio=radio,
            twins=tuple(
                other
                for other, its in radios.items()
                if other != slug and radio.memory is not None and its.memory == radio.memory
            ),
            place=reports.hangar.aircraft[slug].places.get("radio"),
        )
        for slug, radio in radios.items()
    ]
    return tuple(sorted(found, key=lambda memory: (_number(memory.radio.memory), memory.name)))


def _number(memory: str | None) -> tuple[int, int, str]:
    """Numbers by size, then names by letter, then none."""
    if memory is None:
        return (2, 0, "")
    return (0, int(memory), "") if memory.isdecimal() else (1, 0, memory)
