"""The gain set in force, term by term, against the one before it and the one flown most."""

from collections.abc import Iterator

from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import Lacking, measured
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import Answer, by_method, given_value
from buildbook.report.figure import Figure, Input, Name, Table
from buildbook.report.history import GainSet

DIFFERENCE = by_method(
    "each term of the set in force less the same term of the other set", "arithmetic"
)
NAME = "gain_changes"
COLUMNS = ("axis", "term", "in_force", "against", "change")


def gain_changes(craft: Craft) -> Iterator[Answer]:
    """A table for each set that the one in force is held against; for information only."""
    if not craft.now.gain_sets and not craft.hovers:
        return
    periods = craft.now.gain_periods
    if not periods:
        raise Lacking(
            "no gain set is recorded: write down the one in the controller, as 'gains'", craft.home
        )
    now = craft.now.gain_sets[periods[-1].name]
    before, most = _before(craft, now), _flown_most(craft)
    if before is None and (most is None or most is now):
        raise Lacking(f"{now.name} is the only gain set so far", now.place)
    if before is not None:
        both = ", and the one flown most" if before is most else ""
        yield _against(now, before, f"the set in force before it{both}")
    if most is not None and most not in (now, before):
        yield _against(now, most, "the set flown most")


def _before(craft: Craft, now: GainSet) -> GainSet | None:
    """The set that was in force before this one."""
    for period in reversed(craft.now.gain_periods[:-1]):
        if period.name != now.name:
            return craft.now.gain_sets.get(period.name)
    return None


def _flown_most(craft: Craft) -> GainSet | None:
    """The set with the longest time in the air; of equals the one written first."""
    flown_s = dict.fromkeys(craft.now.gain_sets, 0.0)
    for flight in craft.now.flights:
        if flight.gains in flown_s:
            flown_s[flight.gains] += flight.duration_s
    name = max(flown_s, key=lambda name: flown_s[name], default=None)
    return craft.now.gain_sets[name] if name is not None and flown_s[name] else None


def _against(now: GainSet, other: GainSet, which: str) -> Figure:
    pairs = dict.fromkeys(
        (axis, term)
        for gains in (now, other)
        for axis, terms in gains.values.items()
        for term in terms
    )
    axes = list(dict.fromkeys(axis for axis, _ in pairs))
    rows = []
    inputs: list[Input] = []
    differ = 0
    for axis, term in sorted(pairs, key=lambda pair: axes.index(pair[0])):
        here, there = (_term(gains, axis, term) for gains in (now, other))
        differ += here != there
        change = None if here is None or there is None else round(here - there, 9)
        rows.append((axis, term, here, there, change))
        inputs += [
            measured(Name(f"{axis} {term}", "of", gains.name), value, "count", gains.place)
            for gains, value in ((now, here), (other, there))
            if value is not None
        ]
    return given_value(
        NAME,
        None,
        unit="count",
        way=DIFFERENCE,
        of=other.name,
        inputs=inputs,
        table=Table(columns=COLUMNS, rows=tuple(rows)),
        verdict=f"{which}: {_words(differ)} of {len(rows)} terms differ",
        notes=("for information only",),
    )


def _term(gains: GainSet, axis: str, term: str) -> float | None:
    return gains.values.get(axis, {}).get(term)


def _words(count: int) -> str:
    return str(count) if count else "none"


FIGURES = (
    FigureSpec(
        name="gain_changes",
        title="Changes of gains",
        line="Against the set in force before it and the one flown most; no advice.",
        about="The gain set in force, term by term, against the one before and the one flown most.",
        topic="Layout and control",
        unit="count",
        shown="public",
        of_aircraft=gain_changes,
        methods=(DIFFERENCE,),
        held_by=("tests/figures/answers/test_log_and_packs.py",),
    ),
)
