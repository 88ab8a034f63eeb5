"""The transmitter: which memory is which aircraft, switches, reversals, failsafe."""

from collections.abc import Iterable

import msgspec

from buildbook.audience.view import View
from buildbook.basis.place import Place
from buildbook.pages.addresses import address_of
from buildbook.pages.page import Page
from buildbook.records.aircraft import Radio


class Memory(msgspec.Struct, frozen=True, kw_only=True):
    """The radio of one aircraft. twins: others that are set up under the same memory."""

    slug: str
    name: str
    status: str
    radio: Radio
    twins: tuple[str, ...]
    place: Place | None


def keys(_view: View) -> Iterable[str]:
    """There is one."""
    return ("",)


def page(view: View, _key: str) -> Page:
    """All memories, by number."""
    found = memories(view)
    modes = {memory.radio.mode for memory in found if memory.radio.mode is not None}
    silent = tuple(slug for slug, now in view.hangar.aircraft.items() if now.radio is None)
    return Page(
        address=address_of("radio"),
        template="radio.html.j2",
        title="Radio",
        crumbs=((address_of("hangar"), view.hangar.ledger.keeper.hangar),),
        facts={"memories": found, "modes": tuple(sorted(modes)), "silent": silent},
        about="Memories of the transmitter by aircraft: switches, reversals, failsafe.",
    )


def memories(view: View) -> tuple[Memory, ...]:
    """Each aircraft with a radio, in the order of the memories; those without one last."""
    radios = {slug: now.radio for slug, now in view.hangar.aircraft.items() if now.radio}
    found = [
        Memory(
            slug=slug,
            name=view.hangar.aircraft[slug].record.aircraft,
            status=view.hangar.aircraft[slug].status,
            radio=radio,
            twins=tuple(
                other
                for other, its in radios.items()
                if other != slug and radio.memory is not None and its.memory == radio.memory
            ),
            place=view.hangar.aircraft[slug].places.get("radio"),
        )
        for slug, radio in radios.items()
    ]
    return tuple(sorted(found, key=lambda memory: (_number(memory.radio.memory), memory.name)))


def _number(memory: str | None) -> tuple[int, int, str]:
    """Numbers by size, then names by letter, then none."""
    if memory is None:
        return (2, 0, "")
    return (0, int(memory), "") if memory.isdecimal() else (1, 0, memory)
