"""The reference of the files as Markdown, made from the declarations of their keys."""

import re
from collections.abc import Iterator

from buildbook.basis.sizes import SIZES
from buildbook.records.aircraft import (
    Aircraft,
    Bounds,
    Marking,
    Radio,
    Run,
    StationPlan,
    Sundry,
    Wing,
)
from buildbook.records.entries import Correction, Entry, Totals, Until, Void, Volts
from buildbook.records.entries.kinds import KINDS
from buildbook.records.keeper import Keeper, Person, Share
from buildbook.records.keys.fields import Fields, fields_of, fields_within
from buildbook.records.notices import Notice
from buildbook.records.parts import Carried, CellVolts, Item, Spec, spec_kinds
from buildbook.records.programmes import (
    CheckRule,
    Follows,
    LimitRule,
    Programme,
    TaskRule,
    interval_keys,
)
from buildbook.records.story import StoryFacts
from buildbook.records.surfaces import Surface, Throws
from buildbook.records.triggers import TRIGGERS

Section = tuple[str, str, Fields]


def sections() -> tuple[Section, ...]:
    """Those before the entries, in the order of the manual: title, words, keys."""
    return (*_of_the_hangar(), *_of_an_aircraft(), *_of_programmes())


def _of_the_hangar() -> tuple[Section, ...]:
    return (
        (
            "hangar.yaml",
            "Who keeps the hangar, what may be shared, the defaults.",
            fields_of(Keeper),
        ),
        (
            "share",
            "In hangar.yaml: opt-ins of a public render; all are off by default.",
            fields_of(Share),
        ),
        ("people", "In hangar.yaml: each person by a short name.", fields_of(Person)),
        (
            "parts/specs.yaml",
            "A list of kinds of part. All kinds have these keys.",
            fields_of(Spec),
        ),
        ("parts/items.yaml", "A list of tagged physical parts.", fields_of(Item)),
        ("carried", "Life before these records, of an item or an aircraft.", fields_of(Carried)),
    )


def _of_an_aircraft() -> tuple[Section, ...]:
    return (
        ("aircraft.yaml", "What an aircraft was when its log began.", fields_of(Aircraft)),
        ("stations", "In aircraft.yaml: each motor station by its name.", fields_of(StationPlan)),
        ("marking", "In aircraft.yaml.", fields_of(Marking)),
        ("radio", "In aircraft.yaml.", fields_of(Radio)),
        (
            "surfaces",
            "In aircraft.yaml: each surface by its name; the tag of its servo may stand alone.",
            fields_of(Surface),
        ),
        ("rates", "Of a surface: each rate by its name.", fields_of(Throws)),
        ("wiring", "In aircraft.yaml: a list of runs.", fields_of(Run)),
        ("sundries", "In aircraft.yaml: a list.", fields_of(Sundry)),
        ("wing", "In aircraft.yaml.", fields_of(Wing)),
        ("bounds", "In aircraft.yaml.", fields_of(Bounds)),
        (
            "story",
            "In aircraft.yaml: what introduces the build story, which is write-up.md.",
            fields_of(StoryFacts),
        ),
    )


def _of_programmes() -> tuple[Section, ...]:
    return (
        (
            "programmes/*.yaml",
            "What must be checked, and when it comes round again.",
            fields_of(Programme),
        ),
        (
            "checks",
            "In a programme: set-up checks, each valid until something happens.",
            fields_of(CheckRule),
        ),
        ("tasks", "In a programme: what comes round again.", fields_of(TaskRule)),
        ("every, tolerance", "Of a task; whichever comes first.", interval_keys()),
        ("follows", "Of a task: one inspection after each event.", fields_of(Follows)),
        (
            "life_limits",
            "In a programme: the end of a part's life; no tolerance.",
            fields_of(LimitRule),
        ),
        ("at", "Of a life limit; whichever comes first.", fields_of(LimitRule, under="at")),
        (
            "notices/*.yaml",
            "A list of what makers ask to be done to every part of a spec. It is open on each"
            " item of it until an inspection of its name closes it.",
            fields_of(Notice),
        ),
        ("every entry", "Keys that any entry of a logbook may have.", fields_of(Entry)),
    )


def nested() -> tuple[Section, ...]:
    """Those after the entries: groups of keys within them."""
    return (
        ("volts", "Of a flight.", fields_of(Volts)),
        ("volts of a cell", "Of a spec of kind battery.", fields_of(CellVolts)),
        ("deferred_until", "Of a defect.", fields_of(Until)),
        (
            "totals",
            "Of an opening, as the logbook showed them; half of the last decimal may be apart.",
            fields_of(Totals),
        ),
    )


def reference() -> str:
    """The whole reference; ends with a line break."""
    return "\n".join(_lines()) + "\n"


def _lines() -> Iterator[str]:
    yield "# The files of a hangar"
    yield ""
    yield "Keys in bold are required. Made from the declarations by which the files are read."
    for title, words, fields in sections():
        yield from _section(title, words, fields)
    for kind, fields in spec_kinds().items():
        if fields:
            yield from _section(f"a spec of kind {kind}", "Further keys.", fields)
    yield from _triggers()
    for entry in KINDS.values():
        yield from _section(
            f"entry: {entry.key}",
            f"{entry.doc}.",
            {entry.key: entry.own_key} | dict(entry.fields),
            entry.key,
        )
    yield from _section(
        "entry: corrects",
        "An earlier entry is corrected, by set or by a whole new kind key.",
        fields_of(Correction, beyond=Entry),
    )
    yield from _section(
        "entry: voids", "An earlier entry is voided.", fields_of(Void, beyond=Entry)
    )
    for title, words, fields in nested():
        yield from _section(title, words, fields)
    yield from _sizes()


def _section(title: str, words: str, fields: Fields, kind: str = "") -> Iterator[str]:
    yield from ("", f"## {title}", "", words, "")
    yield "| key | value | what it is | example |"
    yield "|---|---|---|---|"
    below = {id(each): title for title, _, each in (*sections(), *nested())}
    for key, field in fields.items():
        name = f"**`{key}`**" if field.required or key == kind else f"`{key}`"
        example = f"`{field.example}`" if field.example else ""
        inner = below.get(id(fields_within(field)))
        where = f", see [{inner}](#{_anchor(inner)})" if inner else ""
        cells = (name, f"{field.value.words}{where}", field.doc, example)
        yield "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |"


def _anchor(title: str) -> str:
    """The anchor of a heading as Markdown readers make it."""
    return re.sub(r"[^\w -]", "", title.lower()).replace(" ", "-")


def _sizes() -> Iterator[str]:
    words = (
        "Anything larger is a problem that names the limit; records written by hand come"
        " nowhere near."
    )
    yield from ("", "## limits", "", words, "")
    yield "| what | most |"
    yield "|---|---|"
    for size in SIZES.values():
        yield f"| {size.what} | {size} |"


def _triggers() -> Iterator[str]:
    yield from ("", "## triggers", "", "What may re-open a check or a task.", "")
    yield "| trigger | what follows it |"
    yield "|---|---|"
    for event, after in TRIGGERS.items():
        yield f"| `{event}` | {after or ''} |"
