"""Full throttle on a fresh pack: the most that anything is asked for, and what gives way first."""

from buildbook.basis import amounts
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.propulsion.full_throttle import full_throttle
from buildbook.figures.answers.propulsion.loads import Load, loads, unrated, warned_of
from buildbook.figures.answers.propulsion.supply import (
    AT_A_VOLTAGE,
    fresh_inputs,
    fresh_supply,
    held_supply,
    without_supply,
)
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import by_method, worked
from buildbook.report.figure import Figure, Table
from buildbook.report.state import ItemNow

PEAK = by_method(
    "current I at which the motors at full throttle take the voltage U_0 - I·R that the pack holds",
    AT_A_VOLTAGE,
    "terminal_v",
)
MOMENT = (
    "for the first seconds, standing still, the pack just charged and warm, the copper cold; in "
    "the air the propeller takes less"
)


def peak_current(craft: Craft, pack: ItemNow) -> Figure:
    """Full throttle on a pack, charged full. Lacking, ValueError: it cannot be told."""
    return craft.once(f"peak with {pack.tag}", _peak, craft, pack)


def _peak(craft: Craft, pack: ItemNow) -> Figure:
    full = full_throttle(craft, pack)
    known, notes = fresh_inputs(craft, pack)
    inputs = {**known, **without_supply(full.inputs)}

    def amps(
        open_circuit_v: float, resistance_ohm: float, leads_ohm: float = 0.0, **values: float
    ) -> float:
        return held_supply(full, open_circuit_v, resistance_ohm + leads_ohm, values).amps

    held = fresh_supply(craft, pack)
    found = sorted(loads(craft, pack, held.volts), key=lambda one: (one.margin, one.name, one.at))
    return worked(
        "peak_current",
        amps,
        inputs,
        unit="A",
        way=PEAK,
        of=pack.tag,
        further=full.further,
        verdict=_first(found),
        table=_table(found),
        other={"voltage held, V": held.volts},
        notes=(MOMENT, *notes, *full.asides),
    )


def _first(found: list[Load]) -> str:
    if not found:
        return "no rating is recorded to hold it against"
    least = found[0]
    share = amounts.share(abs(least.margin))
    if least.fed_by:
        return f"{least.fed_by} has other cells than the {least.name} takes"
    if least.passed:
        return f"the {least.name} is the first limit, passed by {share}"
    unknown = unrated(found)
    return "; ".join(
        (
            f"the {least.name} is the first limit, {share} left",
            *warned_of(least.margin),
            *((f"no rating known of {', '.join(unknown)}",) if unknown else ()),
        )
    )


def _table(found: list[Load]) -> Table:
    return Table(
        columns=("limit", "at", "asked", "rating", "margin"),
        rows=tuple(
            (
                one.name,
                one.at,
                amounts.figure(one.asked, one.unit),
                amounts.figure(one.rating, one.unit),
                one.margin,
            )
            for one in found
        ),
    )


FIGURES = (
    FigureSpec(
        name="peak_current",
        title="Peak current",
        line="Full throttle on a fresh pack, against every rating.",
        about="Current at full throttle on a full pack, and the first of all recorded limits.",
        topic="Margins and wires",
        unit="A",
        shown="public",
        with_each_pack=peak_current,
        laws=("bench_full_throttle", "full_throttle_point"),
        methods=(PEAK,),
        held_by=("tests/figures/answers/test_ends_of_pack.py",),
    ),
)
