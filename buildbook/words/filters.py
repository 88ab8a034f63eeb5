"""The filters of the templates: numbers, days and amounts in words."""

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from buildbook.basis import amounts
from buildbook.basis.place import NOWHERE, Place
from buildbook.report.figure import Figure
from buildbook.words.figures import basis_words
from buildbook.words.logbook.entries import entry_kind, entry_line
from buildbook.words.measures import figure_values
from buildbook.words.measures.intervals import flights_words, flown_words, least_words
from buildbook.words.measures.lengths import size_words
from buildbook.words.names import MISSING, kind_word, kind_words, name_words, sentence
from buildbook.words.public import spec_words
from buildbook.words.upkeep.packs import health_mark, health_words


def _or_missing(say: Callable[[Any], str]) -> Callable[[Any], str]:
    def said(value: Any) -> str:
        return MISSING if value is None else say(value)

    return said


def counted(number: int, noun: str) -> str:
    """``3 flights``."""
    return amounts.count(noun, number)


def figure_in_words(value: float | None, unit: str) -> str:
    """A figure with its unit as people say it."""
    return MISSING if value is None else amounts.figure(value, unit)


def value_words(figure: Figure, value: float | None) -> str:
    """The value of a figure, or an end of its interval, as people say it."""
    return MISSING if value is None else figure_values.value_words(figure, value)


def shown_place(place: Place | None) -> str:
    """``file:line`` for an owner; nothing where the place isn't shared."""
    return "" if place is None or place == NOWHERE else str(place)


def shown_places(places: Iterable[Place], slug: str) -> str:
    """The same of several, each file once; ``…`` is the folder of the aircraft itself."""
    home, lines = f"aircraft/{slug}/", dict[str, list[str]]()
    for written in filter(None, map(shown_place, places)):
        file, _, line = written.rpartition(":")
        short = f"…/{file.removeprefix(home)}" if file.startswith(home) else file
        lines.setdefault(short, []).append(line)
    return ", ".join(f"{file}:{', '.join(at)}" for file, at in lines.items())


def spaced(key: str) -> str:
    """A key of the files as words: ``start_throttle`` becomes ``start throttle``."""
    return name_words(key)


def plain_number(value: float) -> str:
    """A number of the keeper's own, such as a gain: ``38``, ``0.045``."""
    return amounts.trimmed(value, 6)


def one_place(value: float) -> str:
    """A count with a fraction, such as equivalent full cycles: ``41.2``."""
    return amounts.fixed(value, 1)


FILTERS: Mapping[str, Callable[..., str]] = {
    "mass": _or_missing(amounts.mass),
    "voltage": _or_missing(amounts.voltage),
    "current": _or_missing(amounts.current),
    "charge": _or_missing(amounts.charge),
    "energy": _or_missing(amounts.energy),
    "power": _or_missing(amounts.power),
    "resistance": _or_missing(amounts.resistance),
    "temperature": _or_missing(amounts.temperature),
    "duration": _or_missing(amounts.duration),
    "hours": _or_missing(amounts.hours),
    "share": _or_missing(amounts.share),
    "counted": counted,
    "figure": figure_in_words,
    "value_words": value_words,
    "basis_words": basis_words,
    "size_words": size_words,
    "input_words": figure_values.input_words,
    "shown_place": shown_place,
    "shown_places": shown_places,
    "distance": _or_missing(amounts.length),
    "plain_number": plain_number,
    "one_place": one_place,
    "kind_word": kind_word,
    "kind_words": kind_words,
    "spaced": spaced,
    "entry_kind": entry_kind,
    "entry_line": entry_line,
    "sentence": sentence,
    "spec_words": spec_words,
    "flights_words": flights_words,
    "flown_words": flown_words,
    "least_words": least_words,
    "health_mark": health_mark,
    "health_words": health_words,
}
