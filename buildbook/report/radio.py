"""What is set up in the transmitter, for which aircraft."""

from typing import Annotated

import msgspec

from buildbook.basis.place import Place
from buildbook.records.aircraft import Aircraft, Radio
from buildbook.records.declare import PRIVATE, made, of
from buildbook.report.marks import Public


class Memory(msgspec.Struct, frozen=True, kw_only=True):
    """The radio of one aircraft. twins: others that are set up under the same memory."""

    slug: Annotated[str, of(Aircraft, "slug")]
    name: Annotated[str, of(Aircraft, "aircraft")]
    status: Annotated[str, of(Aircraft, "status")]
    radio: Annotated[Radio, of(Aircraft, "radio")]
    twins: Annotated[tuple[str, ...], made("public", (of(Radio, "memory"),))]
    place: Annotated[Place | None, PRIVATE]


class RadioReport(msgspec.Struct, frozen=True, kw_only=True):
    """All memories, by number; the stick modes in use; aircraft without a radio on record."""

    memories: Public[tuple[Memory, ...]]
    modes: Annotated[tuple[int, ...], made("public", (of(Radio, "mode"),))]
    silent: Public[tuple[str, ...]]
