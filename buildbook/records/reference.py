"""The reference of the files as Markdown, made from the tables that read them."""

from collections.abc import Iterator

from buildbook.basis.sizes import SIZES
from buildbook.records.fields import Fields, fields_of
from buildbook.records.keeper import Keeper, Person, Share
from buildbook.records.parts import Carried, Item, Spec, spec_kinds
from buildbook.records.tables.aircraft import (
    AIRCRAFT,
    BOUNDS,
    RADIO,
    RUN,
    STATION,
    SUNDRY,
    WING,
)
from buildbook.records.tables.entries import CORRECTS, KINDS, VOIDS
from buildbook.records.tables.entry_kind import COMMON
from buildbook.records.tables.flying import VOLTS
from buildbook.records.tables.looking import UNTIL
from buildbook.records.tables.notices import NOTICE
from buildbook.records.tables.programmes import (
    AT,
    CHECK,
    FOLLOWS,
    INTERVAL,
    LIMIT,
    PROGRAMME,
    TASK,
    TRIGGERS,
)

# The sections in the order of the manual: title, words, keys.
SECTIONS: tuple[tuple[str, str, Fields], ...] = (
    ("hangar.yaml", "Who keeps the hangar, what may be shared, the defaults.", fields_of(Keeper)),
    (
        "share",
        "In hangar.yaml: opt-ins of a public render; all are off unless said.",
        fields_of(Share),
    ),
    ("people", "In hangar.yaml: each person by a short name.", fields_of(Person)),
    ("parts/specs.yaml", "A list of kinds of part. All kinds have these keys.", fields_of(Spec)),
    ("parts/items.yaml", "A list of tagged physical parts.", fields_of(Item)),
    ("carried", "Life before these records, of an item or an aircraft.", fields_of(Carried)),
    ("aircraft.yaml", "What an aircraft was when its log began.", AIRCRAFT),
    ("stations", "In aircraft.yaml: each motor station by its name.", STATION),
    ("radio", "In aircraft.yaml.", RADIO),
    ("wiring", "In aircraft.yaml: a list of runs.", RUN),
    ("sundries", "In aircraft.yaml: a list.", SUNDRY),
    ("wing", "In aircraft.yaml.", WING),
    ("bounds", "In aircraft.yaml.", BOUNDS),
    ("programmes/*.yaml", "What must be checked, and when it comes round again.", PROGRAMME),
    ("checks", "In a programme: set-up checks hold until something happens.", CHECK),
    ("tasks", "In a programme: what comes round again.", TASK),
    ("every, tolerance", "Of a task; whichever comes first.", INTERVAL),
    ("follows", "Of a task: one look after each event.", FOLLOWS),
    ("life_limits", "In a programme: the end of a life; no tolerance.", LIMIT),
    ("at", "Of a life limit; whichever comes first.", AT),
    (
        "notices/*.yaml",
        "A list of what makers ask to be done to every part of a spec. It is open on each item of"
        " it until an inspection of its name closes it.",
        NOTICE,
    ),
    ("every entry", "Keys that any entry of a logbook may have.", COMMON),
)
_NESTED = (("volts", "Of a flight.", VOLTS), ("deferred_until", "Of a defect.", UNTIL))


def reference() -> str:
    """The whole reference; ends with a line break."""
    return "\n".join(_lines()) + "\n"


def _lines() -> Iterator[str]:
    yield "# The files of a hangar"
    yield ""
    yield "Keys in bold must be there. Made from the tables that read the files."
    for title, words, fields in SECTIONS:
        yield from _section(title, words, fields)
    for kind, fields in spec_kinds().items():
        if fields:
            yield from _section(f"a spec of kind {kind}", "Further keys.", fields)
    yield from _triggers()
    for entry in KINDS.values():
        yield from _section(
            f"entry: {entry.key}",
            f"{entry.doc}.",
            {entry.key: entry.heart} | dict(entry.fields),
            entry.key,
        )
    yield from _section(
        "entry: corrects",
        "A later word on an earlier entry. Beside set, or a whole new kind key.",
        CORRECTS,
    )
    yield from _section("entry: voids", "An earlier entry counts no more.", VOIDS)
    for title, words, fields in _NESTED:
        yield from _section(title, words, fields)
    yield from _sizes()


def _section(title: str, words: str, fields: Fields, heart: str = "") -> Iterator[str]:
    yield from ("", f"## {title}", "", words, "")
    yield "| key | value | what it is | example |"
    yield "|---|---|---|---|"
    for key, field in fields.items():
        name = f"**`{key}`**" if field.required or key == heart else f"`{key}`"
        example = f"`{field.example}`" if field.example else ""
        cells = (name, field.value.words, field.doc, example)
        yield "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |"


def _sizes() -> Iterator[str]:
    words = "What is larger is a problem that names the limit; nobody comes near by writing."
    yield from ("", "## limits", "", words, "")
    yield "| what | most |"
    yield "|---|---|"
    for size in SIZES.values():
        yield f"| {size.what} | {size} |"


def _triggers() -> Iterator[str]:
    yield from ("", "## triggers", "", "What may re-open a check or a task.", "")
    yield "| trigger | what stands after it |"
    yield "|---|---|"
    for event, after in TRIGGERS.items():
        yield f"| `{event}` | {after or ''} |"
