"""All words that can be asked for, and the finding of one."""

from collections.abc import Iterable, Iterator, Mapping
from itertools import chain

from buildbook.basis.nearest import nearest
from buildbook.records.entries.kinds import KINDS
from buildbook.records.keys.fields import Field, fields_within
from buildbook.records.outputs.reference import Section, nested, sections
from buildbook.records.parts import spec_kinds
from buildbook.records.reading.programmes import built_in_programmes
from buildbook.report.figures.known_figures import KnownFigure, KnownFigures, Step
from buildbook.words.vocabulary.lists import (
    Term,
    columns,
    inserts,
    known_by,
    layouts,
    signals,
    states,
    stations,
    triggers,
)
from buildbook.words.vocabulary.programmes import programmes_themselves, rules


def figures(known: KnownFigures) -> Iterator[Term]:
    """One term a figure, in the order of the figures page."""
    yield from map(_figure, known.figures)


def _figure(figure: KnownFigure) -> Term:
    details = [("title", figure.title), ("topic", figure.topic)]
    for step in figure.steps:
        details.append(("method", step.method))
        details.append(("source", step.source))
        if step.valid:
            details.append(("holds for", step.valid))
    return Term(
        word=figure.name,
        kind="figure",
        what=figure.about or figure.line,
        where=("buildbook figures NAME, and the figures page of an aircraft or item",),
        details=tuple(details),
    )


def figures_page(known: KnownFigures) -> str:
    """Tables in Markdown by topic, in the order of the figures page; ends with a line break."""
    return "\n".join(_lines(known)) + "\n"


def _lines(known: KnownFigures) -> Iterator[str]:
    for topic, of_topic in known.topics().items():
        yield from (
            "",
            f"## {topic}",
            "",
            "| figure | what it is | how, and from where |",
            "|---|---|---|",
        )
        yield from map(_row, of_topic)


def _row(figure: KnownFigure) -> str:
    steps = "<br>".join(dict.fromkeys(map(_step, figure.steps))) or "as recorded"
    cells = (f"`{figure.name}`", figure.about or figure.line, steps)
    return "| " + " | ".join(" ".join(cell.replace("|", "\\|").split()) for cell in cells) + " |"


def _step(step: Step) -> str:
    how = step.method
    holds = f" Holds for {step.valid}." if step.valid else ""
    return f"{how} ({step.source}).{holds}" if step.source else f"{how}.{holds}"


def keys() -> Iterator[Term]:
    """One term for all places where a key is the same thing, so that nothing is said twice."""
    found: dict[tuple[str, str, str], list[str]] = {}
    fields: dict[tuple[str, str, str], Field] = {}
    for title, key, field in _all_keys():
        same = (key, field.doc, field.value.words)
        found.setdefault(same, []).append(title)
        fields.setdefault(same, field)
    for same, titles in found.items():
        field = fields[same]
        inner = ", ".join(fields_within(field))
        details = [("written", field.value.words + (f", with {inner}" if inner else ""))]
        if field.example:
            details.append(("as in", f"{field.key}: {field.example}"))
        if field.required:
            details.append(("required", "yes"))
        yield Term(
            word=same[0], kind="key", what=same[1], where=tuple(titles), details=tuple(details)
        )


def _all_keys() -> Iterator[tuple[str, str, Field]]:
    groups: Iterable[Section] = tuple(chain(sections(), nested()))
    own = {id(fields) for _, _, fields in groups}
    for title, _, fields in groups:
        yield from ((title, key, field) for key, field in fields.items())
        for outer, group in fields.items():
            inner = fields_within(group)
            if id(inner) not in own:  # a group without a section of its own: the receiver's
                yield from ((outer, key, field) for key, field in inner.items())
    for kind, fields in spec_kinds().items():
        yield from ((f"a spec of kind {kind}", key, field) for key, field in fields.items())
    for entry in KINDS.values():
        yield from ((f"entry: {entry.key}", key, field) for key, field in entry.fields.items())


def entries() -> Iterator[Term]:
    """The kinds of entries of a logbook."""
    for entry in KINDS.values():
        written = f"{entry.key}: {entry.own_key.example}"
        further = ", ".join(entry.fields)
        yield Term(
            word=entry.key,
            kind="entry",
            what=f"{entry.doc}.",
            where=("a logbook, or a file of stores/",),
            details=(
                ("the key itself", f"{entry.own_key.doc}: {entry.own_key.value.words}"),
                ("as in", written),
                *((("further keys", further),) if further else ()),
            ),
        )


def part_kinds() -> Iterator[Term]:
    """Each kind of part, with the keys that its specs may have beside those of all."""
    for kind, fields in spec_kinds().items():
        yield Term(
            word=kind,
            kind="kind of part",
            what="A kind of part, in parts/specs.yaml.",
            details=(("further keys", ", ".join(fields)),) if fields else (),
        )


def files() -> Iterator[Term]:
    """The files and the groups of keys in them."""
    for title, words, fields in (*sections(), *nested()):
        yield Term(
            word=title,
            kind="file or group of keys",
            what=words,
            details=(("keys", ", ".join(fields)),),
        )


def everything(known: KnownFigures) -> tuple[Term, ...]:
    """All words: of the files in the order of their manual, then states, then figures."""
    programmes = built_in_programmes().values()
    return (
        *files(),
        *entries(),
        *keys(),
        *part_kinds(),
        *rules(programmes),
        *programmes_themselves(programmes),
        *signals(),
        *triggers(),
        *layouts(),
        *stations(),
        *columns(),
        *inserts(),
        *states(),
        *known_by(),
        *figures(known),
    )


TRADE: Mapping[str, tuple[str, ...]] = {
    "swollen, swelling, swelled, puffed, puffy, puffing, puff, bloated, bulging, bulged": (
        "said-swollen",
        "pack-look",
        "quarantined",
    ),
    "failsafe drop, fail safe, fail-safe, link loss, link lost, lost link, signal loss,"
    " signal lost, no signal, return home": ("failsafe", "failsafe-again", "link-loss-action"),
    "sag, voltage sag": ("pack_sag",),
    "lipo, li-po, lithium, accumulator, akku, batt": ("battery",),
    "prop, props, airscrew": ("propeller",),
    "auw, all-up weight, all up weight, take-off weight, flying weight": (
        "all_up_mass",
        "weighing",
    ),
    "cog, centre of gravity, center of gravity, point of balance": ("balance", "balance-point"),
    "bec, ubec": ("regulator",),
    "fc, flight controller, autopilot": ("controller",),
    "speed controller, speed control": ("esc",),
    "rx": ("receiver",),
    "tx, radio control": ("transmitter",),
    "gps, barometer, airspeed": ("sensor",),
    "vtx, video transmitter, buzzer": ("other",),
    "airframe, fuselage": ("frame",),
    "landing gear, gear": ("undercarriage",),
    "c rating, c-rating, c rate": ("discharge_rate",),
    "motor direction, rotation": ("spin", "spin-directions"),
    "low voltage, cut-off, cutoff, lvc": ("low-voltage-alarm", "cutoff_cell_voltage"),
    "storage, storage charge, storage voltage": ("pack-storage-charge",),
    "nick, nicked, chipped, cracked blade": ("propeller-touch",),
    "pre-flight, walkaround": ("preflight-look",),
    "postflight, post-flight": ("postflight-look",),
    "bearing, bearings": ("motor-bearings",),
    "wet, dunked, swim": ("water", "drying"),
    "crashed, wreck, accident": ("incident", "crash"),
    "binding, bind, bound, rebind, trim, expo": ("setting",),
    "throw, throws, deflection, travel": ("surface-throws", "surfaces"),
    "thrust ratio, thrust to weight ratio": ("thrust_to_weight",),
    "internal resistance, ir": ("pack-resistance", "pack_resistance"),
    "mah": ("pack-capacity", "pack_capacity"),
    "vibration, vibrations, shaking, jello": ("vibration-look",),
    "prearm, disarm, kill switch, motor cut": ("arming", "throttle-cut"),
    "expired, reopened, re-opened": ("stale", "stale_after"),
    "bumpy landing, rough landing": ("hard landing",),
    "n/a, does not apply": ("not applicable",),
    "pid, pids, tuning, tune": ("gains",),
}
"""Words of the trade that no file has, apart by commas, and the words here that they lead to.
Common practice, no source.
"""

MEANT: Mapping[str, tuple[str, ...]] = {
    word: meant for words, meant in TRADE.items() for word in words.split(", ")
}


def found(text: str, terms: Iterable[Term]) -> tuple[Term, ...]:
    """What a text asks for: all terms of that word, else those of each word in it, as a message
    has them, the longest first; nothing where it names none.
    """
    by_word: dict[str, list[Term]] = {}
    for term in terms:
        by_word.setdefault(_plain(term.word), []).append(term)
    whole = by_word.get(_plain(text))
    if whole is not None:
        return tuple(whole)
    if _plain(text) in MEANT:
        return tuple(term for word in MEANT[_plain(text)] for term in by_word.get(word, ()))
    alike = [word for word in by_word if _joined(word) == _joined(_plain(text))]
    if alike:
        return tuple(term for word in alike for term in by_word[word])
    named: dict[str, None] = {}
    pieces = _plain(text).split()
    at = 0
    while at < len(pieces):
        for end in range(min(len(pieces), at + 4), at, -1):
            word = " ".join(piece.strip("'\"“”‘’.,:;()") for piece in pieces[at:end])
            if word in by_word and (_quoted(pieces[at:end]) or set(word) & set("-_.")):
                named[word] = None
                at = end
                break
        else:
            at += 1
    return tuple(term for word in named for term in by_word[word])


def _joined(word: str) -> str:
    return word.replace(" ", "-").replace("_", "-")


def like(text: str, terms: Iterable[Term]) -> str | None:
    """The word that is most like a text that names none."""
    return nearest(text, [*(term.word for term in terms), *MEANT])


def _quoted(pieces: list[str]) -> bool:
    return pieces[0][:1] in ("'", '"', "‘", "“") and pieces[-1].rstrip(".,:;)")[-1:] in "'\"’”"


def _plain(text: str) -> str:
    return " ".join(text.casefold().split())
