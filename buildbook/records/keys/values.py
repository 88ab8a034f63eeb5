"""How single values are read: a text becomes a number, a day, a choice, each with its limits.

Every class here has ``words`` for messages and the reference, ``schema()`` for the JSON Schema,
and ``read``, which gives ``UNSET`` after it has noted a problem.
"""

import datetime
import re
from collections.abc import Callable
from functools import lru_cache
from typing import Annotated, Any, Protocol

import msgspec
from msgspec import UNSET

from buildbook.basis import days, notation
from buildbook.basis.amounts import listed
from buildbook.basis.limits import LIMITS, Limits, within
from buildbook.basis.notation import NotationError, quoted
from buildbook.basis.sizes import most
from buildbook.basis.units import UNITS, Dimension, accepted
from buildbook.records.declare import PUBLIC
from buildbook.records.keys.hints import meant, typed_dash, typed_quote
from buildbook.records.keys.nodes import Node
from buildbook.records.keys.scope import Scope


class Cells(msgspec.Struct, frozen=True):
    """Cells in series (a range for an ESC) and strings in parallel."""

    series: Annotated[int, PUBLIC]
    series_most: Annotated[int, PUBLIC]
    parallel: Annotated[int, PUBLIC] = 1


class PropellerSize(msgspec.Struct, frozen=True):
    """Diameter and pitch, metres; ``written`` is the size as the keeper wrote it."""

    diameter_m: Annotated[float, PUBLIC]
    pitch_m: Annotated[float, PUBLIC]
    written: Annotated[str, PUBLIC]


class Money(msgspec.Struct, frozen=True):
    """An amount and its currency, as written."""

    amount: Annotated[float, PUBLIC]
    currency: Annotated[str, PUBLIC]


class Wire(msgspec.Struct, frozen=True):
    """A conductor: its copper area, and as the keeper wrote it (``16 AWG``)."""

    area_m2: Annotated[float, PUBLIC]
    written: Annotated[str, PUBLIC]


Schema = dict[str, Any]
_REMEMBERED = 4096
_FEW = 6


class Value(Protocol):
    """How the value of a key is read."""

    @property
    def words(self) -> str:
        """What is expected, for messages and the reference: ``a mass``."""

    def read(self, node: Node, scope: Scope, path: str) -> Any:
        """The value, or UNSET after a problem was noted. ``path``: the keys that lead to it."""

    def schema(self) -> Schema:
        """The JSON Schema of the value as a YAML reader in JSON's sense would load it."""


class Scalar:
    """A value on its own, read by a function that raises ``NotationError``.

    dimension: what it measures, where it has a unit.
    """

    def __init__(
        self,
        words: str,
        parse: Callable[[str], Any],
        schema: Schema | None = None,
        dimension: Dimension | None = None,
    ) -> None:
        self.words = words
        self.dimension = dimension
        self._parse = lru_cache(_REMEMBERED)(parse)
        self._schema = schema or {"type": ["string", "number"]}

    def read(self, node: Node, scope: Scope, path: str) -> Any:
        """The parsed value, or UNSET."""
        if node.id != "scalar" or not node.value:  # type: ignore[attr-defined]
            scope.expected(self.words, node, path)
            return UNSET
        try:
            return self._parse(node.value)
        except NotationError as error:
            hint = typed_quote(node.value) or typed_dash(node.value) or error.hint
            scope.refuse(node, error.reason, hint)
            return UNSET

    def parsed(self, text: str) -> Any:
        """The value of a text. NotationError: it is not one."""
        return self._parse(text)

    def schema(self) -> Schema:
        """As given."""
        return dict(self._schema)


def _limited(
    parse: Callable[[str], Any], limits: Limits, size: Callable[[Any], float] | None = None
) -> Callable[[str], Any]:
    """The same parser, which refuses what is out of the limits."""

    def parsed(text: str) -> Any:
        value = parse(text)
        measure = value if size is None else size(value)
        fault = within(measure, limits, text)
        if fault:
            raise NotationError(fault, limits.beyond if measure > limits.most else None)
        return value

    return parsed


def quantity(dimension: Dimension, limits: Limits | None = None) -> Scalar:
    """A number with a unit, in the unit that ``UNITS`` names for its dimension."""
    parse = _limited(lambda text: notation.quantity(text, dimension), limits or LIMITS[dimension])
    bare = {"type": ["string", "number"]} if dimension == "share" else {"type": "string"}
    schema: Schema = {**bare, "description": f"{UNITS[dimension].words} ({accepted(dimension)})"}
    return Scalar(UNITS[dimension].words, parse, schema, dimension)


def number(limits: Limits) -> Scalar:
    """A number that has no unit."""
    bounds = _bounds(limits)
    return Scalar("a number", _limited(notation.number, limits), {"type": "number", **bounds})


def whole(limits: Limits) -> Scalar:
    """A count: a number without decimals."""
    return Scalar(
        "a whole number",
        _limited(notation.whole, limits),
        {"type": "integer", **_bounds(limits)},
    )


def _bounds(limits: Limits) -> Schema:
    least = 0 if limits.zero_ok and limits.least > 0 else limits.least
    return {"minimum": least, "maximum": limits.most}


def _hours(text: str) -> float:
    """Seconds. ``1:30`` is never converted: nobody can say whether it is minutes or hours."""
    try:
        return round(notation.number(text) * 3600, 6)
    except NotationError:
        if not re.search("[a-z]", text):
            clock = re.fullmatch(r"(\d{1,6}):([0-5]?\d)(?::\d{1,2})?", text.strip())
            plain = int(clock[1]) + round(int(clock[2]) / 60, 2) if clock else 1.5
            hint = f"write {plain:g}"
        else:
            hint = "write a number, as in 1.5, or 1 h 30 min"
    try:
        if ":" not in text:
            return notation.duration_s(text)
    except NotationError:
        pass
    raise NotationError(f"{quoted(text)} is not a number of hours", hint)


def hours(limits: Limits) -> Scalar:
    """Hours as a bare number, or any duration; in seconds. ``limits`` are in seconds too."""
    return Scalar("a number of hours", _limited(_hours, limits))


def _text(text: str) -> str:
    if len(text) > most("text"):
        reason = f"text of {len(text):,} characters, more than {most('text'):,}"
        raise NotationError(reason, "a long text belongs in the write-up")
    return text.strip()


_LINK = re.compile(r"https?://[^\s/?#]+[^\s]*|mailto:[^\s@]+@[^\s@]+", re.IGNORECASE).fullmatch


def _link(text: str) -> str:
    link = text.strip()
    if not _LINK(link) or len(link) > most("link"):
        raise NotationError(
            f"{quoted(text)} is not a link", "write https://…, http://… or mailto:…"
        )
    return link


def truth(text: str) -> bool:
    """``true`` or ``false``, and nothing else."""
    if text == "true":
        return True
    if text == "false":
        return False
    meant = truth_meant(text)
    hint = f"did you mean {meant}?" if meant else "write true or false"
    raise NotationError(f"{quoted(text)} is neither true nor false", hint)


def truth_meant(text: str) -> str | None:
    """``true`` or ``false`` for a word that people write for it; None where it is no such word."""
    return _TRUTHS.get(text.strip().rstrip(".!").casefold())


_TRUTHS = {
    **dict.fromkeys(("true", "yes", "y", "on", "1", "ja", "wahr", "oui", "sí", "si"), "true"),
    **dict.fromkeys(
        ("false", "no", "n", "off", "0", "none", "nobody", "nein", "keine", "falsch", "non"),
        "false",
    ),
}


TEXT = Scalar("text", _text, {"type": ["string", "number", "boolean"]})
LINK = Scalar("a link", _link, {"type": "string", "pattern": "^(https?://|mailto:)"})
TRUTH = Scalar("true or false", truth, {"type": "boolean"})


def _day(text: str) -> datetime.date:
    day, time = days.parse_day(text)
    if time is not None:
        raise NotationError(f"{quoted(text)} has a time of day", f"write {day}")
    return day


def _moment(text: str) -> tuple[datetime.date, str | None]:
    day, time = days.parse_day(text)
    return day, None if time is None else time.isoformat("minutes")


_DAY_SCHEMA: Schema = {"type": "string", "pattern": r"^\d{4}-\d{2}-\d{2}$"}
DAY = Scalar("a day", _day, _DAY_SCHEMA)
MOMENT = Scalar(
    "a day", _moment, {"type": "string", "pattern": r"^\d{4}-\d{2}-\d{2}((T| +)\d{2}:\d{2})?$"}
)

_NAME = re.compile(r"\w(?:[\w.+-]*\w)?").fullmatch
_SLUG = re.compile(r"[a-z0-9](?:[a-z0-9-]*[a-z0-9])?").fullmatch


def _name(text: str) -> str:
    if len(text) > most("name") or not _NAME(text):
        raise NotationError(
            f"{quoted(text)} is not a name", "use letters, digits, hyphens and dots, without spaces"
        )
    return text


NAME = Scalar("a name", _name, {"type": ["string", "integer"]})


def is_slug(text: str) -> bool:
    """Whether a word is made of a-z, 0-9 and hyphens."""
    return len(text) <= most("name") and _SLUG(text) is not None


def choice(*options: str, what: str = "word") -> Scalar:
    """One of a closed list of words; ``what`` they are, where the list is long."""

    def parse(text: str) -> str:
        if text not in options:
            among, hint = listed(options, "or"), meant(text, frozenset(options))
            if len(options) <= _FEW:
                raise NotationError(f"{quoted(text)} is not {among}", hint)
            raise NotationError(f"unknown {what} {quoted(text)}", hint or f"write {among}")
        return text

    words = listed(options, "or") if len(options) <= _FEW else an(what)
    return Scalar(words, parse, {"enum": list(options)})


def _cells(text: str) -> Cells:
    return Cells(*notation.cells(text))


def _wire(text: str) -> Wire:
    area_m2 = notation.wire(text)
    if not 5e-9 <= area_m2 <= 1e-4:
        raise NotationError(f"{quoted(text)} is not a wire for a model", "0.005 mm² to 100 mm²")
    return Wire(area_m2, text)


def _propeller_size(text: str) -> PropellerSize:
    diameter_m, pitch_m = notation.propeller_size(text)
    if not 0.01 <= diameter_m <= 1.5:
        raise NotationError(
            f"{quoted(text)} is not the size of a model propeller", "10 mm to 1500 mm"
        )
    if not 0 <= pitch_m <= 2 * diameter_m:
        raise NotationError(
            f"{quoted(text)} has a pitch of more than twice its diameter", "write diameter x pitch"
        )
    return PropellerSize(diameter_m, pitch_m, text)


def _money(text: str) -> Money:
    return Money(*notation.money(text))


def _pattern(words: str) -> Schema:
    return {"type": "string", "description": words}


def cells(limits: Limits) -> Scalar:
    """A count of cells, limited in series."""
    words = "a count of cells"
    parse = _limited(_cells, limits, lambda count: count.series_most)
    return Scalar(words, parse, _pattern("3S, 3S1P or 2S-4S"))


WIRE = Scalar("a wire size", _wire, _pattern("16 AWG or 1.5 mm²"))
PROPELLER_SIZE = Scalar("a propeller size", _propeller_size, _pattern("10x4.5 or 254x114 mm"))
MONEY = Scalar("a sum of money", _money, _pattern("14.50 EUR"))


def rate(limits: Limits) -> Scalar:
    """A discharge or charge rate such as 25C."""
    return Scalar("a rate", _limited(notation.discharge_rate, limits), _pattern("25C"))


def _age_days(text: str) -> int:
    age = notation.age(text)
    return age.days + 30 * age.months


AGE_DAYS = Scalar("a number of days", _age_days, _pattern("30 days"))


def an(noun: str) -> str:
    """The noun with its article: ``a motor``, ``an esc``."""
    return f"an {noun}" if noun[:1] in "aeiou" else f"a {noun}"
