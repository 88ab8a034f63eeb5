"""The keys of programmes/*.yaml, and the closed list of triggers."""

from collections.abc import Mapping

from buildbook.basis import notation
from buildbook.basis.counting import UNITS, Interval, Unit
from buildbook.basis.limits import Limits, between, plain
from buildbook.basis.nearest import did_you_mean
from buildbook.basis.notation import NotationError, said
from buildbook.records.fields import PUBLIC_OK, Field, Fields, OldGroup, key, table
from buildbook.records.parts import KINDS
from buildbook.records.programmes import STAGES, Follows, Trigger
from buildbook.records.shapes import FREE_TEXT, ByName, Several
from buildbook.records.tables.aircraft import ALTERABLE
from buildbook.records.values import (
    NAME,
    TEXT,
    TRUTH,
    Scalar,
    choice,
    hours,
    number,
    quantity,
    whole,
)

# Events that re-open a row; what stands after each, where something must.
TRIGGERS: Mapping[str, str | None] = {
    "fit": "a kind of item",
    "remove": "a kind of item",
    "move": "a kind of item",
    "repair": None,
    "crash": None,
    "hard landing": None,
    "water": None,
    "firmware": "a kind of item",
    "setting": "a name",
    "gains": None,
    "alteration": "a key of aircraft.yaml",
    "calibration": "a name",
    "transport": None,
    "idle": "a time",
    "another cell count": None,
}
_BARE = ("firmware",)
"""What may stand alone, and is then of any kind."""

_ALTERED = (*ALTERABLE, "mass")


def _trigger(text: str) -> Trigger:
    words = " ".join(text.split())
    if words in _BARE or (words in TRIGGERS and TRIGGERS[words] is None):
        return Trigger(words)
    event, _, subject = words.partition(" ")
    wanted = TRIGGERS.get(event)
    if wanted is None:
        known = [name if after is None else f"{name} …" for name, after in TRIGGERS.items()]
        raise NotationError(
            f"unknown trigger {said(text)}",
            did_you_mean(words, TRIGGERS)
            or did_you_mean(event, TRIGGERS)
            or f"one of {', '.join(known)}",
        )
    if not subject:
        raise NotationError(
            f"trigger {said(text)} does not name {wanted}", f"as in {_EXAMPLES[event]}"
        )
    if wanted == "a kind of item" and subject not in KINDS:
        raise NotationError(
            f"trigger {said(text)} names no kind of item", did_you_mean(subject, KINDS)
        )
    if event == "alteration" and subject not in _ALTERED:
        raise NotationError(
            f"trigger {said(text)} names no key of aircraft.yaml", did_you_mean(subject, _ALTERED)
        )
    if event == "idle":
        notation.age(subject)
    return Trigger(event, subject)


_EXAMPLES = {
    "fit": "fit motor",
    "remove": "remove motor",
    "move": "move controller",
    "firmware": "firmware controller",
    "setting": "setting start_throttle",
    "alteration": "alteration stations",
    "calibration": "calibration accelerometer",
    "idle": "idle 30 days",
}

TRIGGER = Scalar("a trigger", _trigger, {"type": "string", "description": "fit motor, crash, …"})
TRIGGER_LIST = Several(TRIGGER, single=True)


def _per(text: str) -> str:
    if text != "motor station" and text not in KINDS:
        raise NotationError(
            f"{said(text)} is neither 'motor station' nor a kind of item",
            did_you_mean(text, ("motor station", *KINDS)),
        )
    return text


def _each(text: str) -> str:
    if text != "aircraft" and text not in KINDS:
        raise NotationError(
            f"{said(text)} is neither 'aircraft' nor a kind of item",
            did_you_mean(text, ("aircraft", *KINDS)),
        )
    return text


_PER = Scalar("'motor station' or a kind of item", _per, {"enum": ["motor station", *KINDS]})
_EACH = Scalar("'aircraft' or a kind of item", _each, {"enum": ["aircraft", *KINDS]})
_COUNT = whole(plain(1, 100_000))
_PARTS = number(Limits(0.1, 100_000))
_HOURS = hours(Limits(1, 3.6e8, False, "1 s", "100000 hours"))


def _unit_key(unit: Unit) -> Field:
    """The key of a unit of counting; how it is read follows from its size."""
    value = _HOURS if unit.stored_ticks is not None else _PARTS if unit.divisible else _COUNT
    return key(unit.key, value, unit.doc, unit.example, unit.field)


INTERVAL: Fields = table(*map(_unit_key, UNITS.values()))
INTERVAL_VALUE = OldGroup(Interval, INTERVAL, "an interval")

FOLLOWS: Fields = table(
    key("after", TRIGGER_LIST, "What asks for it", "[fit motor]", required=True),
    key("flights", _COUNT, "So many flights later", "3", required=True),
)

_PROPELLERS = choice("off", "on")
_BASIS = key("basis", TEXT, "Where the row comes from", "common practice, no source")
_SECOND = key("second_person", TRUTH, "Whether a second person must check", "false")
_WHAT = key("what", TEXT, "What to do", "Run each motor up alone and compare.", required=True)
_PROPS = key("propellers", _PROPELLERS, "Whether propellers are on during it", "off")

CHECK: Fields = table(
    key("check", NAME, "Its name", "spin-directions", required=True),
    _WHAT,
    _PROPS,
    key("stage", choice(*STAGES), "When it is done, in the order of the set-up sheet", "plugged"),
    key("grounds", TRUTH, "Whether it grounds when never done, stale or failed", "true"),
    key("stale_after", TRIGGER_LIST, "What re-opens it", "[fit motor, crash]"),
    key("per", _PER, "A row for each motor station, or each item of a kind", "motor station"),
    key("readings", FREE_TEXT, "What is to be read, by name", "{each: cw or ccw}"),
    _SECOND,
    _BASIS,
    PUBLIC_OK,
)
TASK: Fields = table(
    key("task", NAME, "Its name", "motor-bearings", required=True),
    _WHAT,
    key("for", _EACH, "The aircraft, or a kind of item", "motor", "each"),
    key("every", INTERVAL_VALUE, "Whichever comes first", "{flights: 50, hours: 10, months: 6}"),
    key("tolerance", INTERVAL_VALUE, "How far beyond it may go", "{flights: 5}"),
    key(
        "counted_from",
        choice("earlier", "done", "planned"),
        "Where the next interval begins",
        "earlier",
    ),
    key(
        "month_rule",
        choice("exact", "end_of_month"),
        "Whether months run to the day, or to the end of the month",
        "end_of_month",
    ),
    key(
        "follows",
        OldGroup(Follows, FOLLOWS, "a look after an event"),
        "Instead of an interval: once, so many flights after an event",
        "{after: [fit motor], flights: 3}",
    ),
    key("also_after", TRIGGER_LIST, "What re-opens it", "[crash, hard landing]"),
    key(
        "when",
        TEXT,
        "A moment instead of an interval: shown on the going-flying list",
        "before each flight",
    ),
    key(
        "also_done_by",
        Several(NAME, single=True),
        "Checks or tasks of which a pass counts as doing it",
        "[failsafe]",
    ),
    _PROPS,
    _SECOND,
    _BASIS,
    PUBLIC_OK,
)
AT: Fields = table(
    key("flights", _COUNT, "Flights", "200"),
    key("hours", _HOURS, "Hours flown", "50", "duration_s"),
    key("cycles", _PARTS, "Full charge cycles", "300"),
    key("months", _COUNT, "Calendar months", "48"),
    key("years", _COUNT, "Years", "4"),
    key(
        "capacity",
        quantity("share", between("share", "1 %", "100 %")),
        "Share of rated capacity",
        "80 %",
        "capacity_share",
    ),
    key(
        "cell_resistance",
        quantity("share", between("share", "100 %", "1000 %")),
        "Share of its own first resistance",
        "200 %",
        "cell_resistance_share",
    ),
)
LIMIT: Fields = table(
    key("limit", NAME, "Its name", "pack-retire", required=True),
    key("for", _EACH, "A kind of item, or the aircraft", "battery", "each", required=True),
    key("what", TEXT, "What to do then", "Take it to a collection point."),
    key(
        "at",
        OldGroup(dict, AT, "a life limit"),
        "Where the life ends, whichever comes first",
        "{cycles: 300, years: 4}",
        "at",
        required=True,
    ),
    _BASIS,
    PUBLIC_OK,
)

PROGRAMME: Fields = table(
    key("programme", NAME, "Its name", "small-multirotor", "name", required=True),
    key("based_on", TEXT, "The programme that this one changes", "built-in small-multirotor"),
    key(
        "drop",
        ByName(TEXT, "rows with the reason"),
        "Rows of the base that don't apply, and why",
        "{compass: none on board}",
    ),
    key("note", TEXT, "Remarks", "for the club's trainers"),
    PUBLIC_OK,
)
