"""Voltage lost, heat and load of each run of wire, at hover and at full current, hot copper."""

from collections.abc import Callable, Iterator, Mapping

import msgspec

from buildbook.basis import amounts
from buildbook.figures.answers.craft import FULL_THROTTLE, Craft
from buildbook.figures.answers.gathering import (
    Lacking,
    declared,
    default,
    from_figure,
    measured,
    number,
    worked_out,
)
from buildbook.figures.answers.packs.packs import nominal
from buildbook.figures.answers.propulsion.full_throttle import full_throttle
from buildbook.figures.answers.propulsion.hover import hover_current_with, hover_throttle_with
from buildbook.figures.answers.propulsion.loads import (
    motors_behind,
    place_of_run,
    replaced,
    share_of_run,
)
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import (
    Answer,
    Way,
    attempt,
    by_law,
    by_method,
    given_value,
    worked,
)
from buildbook.figures.laws.constants import HOT_COPPER_K
from buildbook.figures.laws.law import CUSTOM
from buildbook.figures.laws.propulsion.wire import (
    current_density_a_m2,
    run_drop_v,
    run_loss_w,
    run_resistance_ohm,
)
from buildbook.records.aircraft import Run
from buildbook.report.figure import OF_VOLTAGE, Figure, Input, Name

MOTOR_SIDE = (
    "between ESC and motor flows the motor's current: the pack's, over the throttle; the ESC is "
    "taken as without loss"
)
USUAL_A_MM2 = (5, 15)  # short leads of models. Common practice, no source.


class Carried(msgspec.Struct, frozen=True):
    """A run with what flows in it, and how many like it there are."""

    run: Run
    label: str
    amps: Input
    count: int
    notes: tuple[str, ...] = ()


def wire_drop(craft: Craft) -> Iterator[Answer]:
    """Voltage lost on each run and on the way from the pack to a motor."""
    yield from _each(craft, "wire_drop", _drop)
    for state in craft.loads:
        if craft.now.wiring:
            yield attempt("wire_drop", f"all runs, {state}", _whole_way, craft, state)


def wire_loss(craft: Craft) -> Iterator[Answer]:
    """Heat of each run, all that are alike together."""
    yield from _each(craft, "wire_loss", _loss)


def wire_load(craft: Craft) -> Iterator[Answer]:
    """Current in each run, with its density in the copper."""
    yield from _each(craft, "wire_load", _load)


def _each(
    craft: Craft, name: str, work: Callable[[Craft, Carried, str], Figure]
) -> Iterator[Answer]:
    if not craft.now.wiring:
        yield attempt(name, None, _no_wiring, craft)
    for run in craft.now.wiring:
        for state in craft.loads:
            label = f"{run.label}, {state}"
            yield attempt(name, label, _of_run, craft, run, state, work)


def _of_run(
    craft: Craft, run: Run, state: str, work: Callable[[Craft, Carried, str], Figure]
) -> Figure:
    figure = work(craft, _carried(craft, run, state), f"{run.label}, {state}")
    return msgspec.structs.replace(figure, about=run.label, load=state)


def _no_wiring(craft: Craft) -> Figure:
    raise Lacking("no wiring is recorded: write 'wiring' in aircraft.yaml", craft.home)


def _carried(craft: Craft, run: Run, state: str) -> Carried:
    """The current in a run. Lacking: nobody can tell what flows there."""
    total = _total(craft, state)
    share, count = share_of_run(craft, run)
    throttle = _behind_esc(craft, run, state)
    amps = worked_out(
        Name("current", "from", run.label, load=state),
        number(total) * share / number(throttle),
        "A",
        (total, throttle),
    )
    notes = () if number(throttle) == 1 else (MOTOR_SIDE,)
    if state == FULL_THROTTLE:
        notes = (full_throttle(craft, craft.pack).at_nominal,)
    return Carried(run, run.label, amps, count, notes)


def _behind_esc(craft: Craft, run: Run, state: str) -> Input:
    """By what the pack's current is less than that in the run: the throttle, behind an ESC.

    Lacking, ValueError: the throttle of a hover is not known.
    """
    if state != "hover" or not run.is_behind_esc:
        return measured("throttle", 1.0, "ratio", None)
    return from_figure(hover_throttle_with(craft, craft.pack), "hover throttle")


def _total(craft: Craft, state: str) -> Input:
    """Current from the pack in a state of flight."""
    pack = craft.pack
    if state == "hover":
        return from_figure(hover_current_with(craft, pack), "hover current")
    full = full_throttle(craft, pack)
    return worked_out(
        "full current",
        full.amps(**full.values()),
        "A",
        (*full.further, *full.inputs.values()),
    )


def _copper(craft: Craft, run: Run) -> Mapping[str, Input]:
    """Length, area and temperature of a run. Lacking: wire or length is not written."""
    place, label = place_of_run(craft, run), run.label
    if run.length_m is None:
        raise Lacking(f"the length from {label} is not recorded: write 'length'", place)
    return {
        "one_way_length_m": declared(Name("length", "from", label), run.length_m, "m", place),
        "wire_area_m2": area_of_run(craft, run),
        "wire_temperature_k": default("hot copper", HOT_COPPER_K, "K", CUSTOM),
    }


def amps_of_run(craft: Craft, run: Run, state: str) -> Input:
    """The current in a run in A. Lacking: nobody can tell what flows there."""
    return _carried(craft, run, state).amps


def area_of_run(craft: Craft, run: Run) -> Input:
    """The copper of a run in m². Lacking: its wire is not written."""
    if run.wire is None:
        raise Lacking(
            f"the wire from {run.label} is not recorded: write 'wire'",
            place_of_run(craft, run),
        )
    name = f"copper of {run.wire.written}"
    return declared(name, run.wire.area_m2, "m²", place_of_run(craft, run))


def _drop(craft: Craft, carried: Carried, of: str) -> Figure:
    def drop(current_a: float, **copper: float) -> float:
        return run_drop_v(current_a, run_resistance_ohm(**copper))

    figure = worked(
        "wire_drop",
        drop,
        {"current_a": carried.amps, **_copper(craft, carried.run)},
        unit="V",
        way=_with_resistance("run_drop_v"),
        of=of,
        notes=carried.notes,
    )
    return _of_pack(figure, (figure.value or 0.0) / number(nominal(craft.pack)))


def _of_pack(drop: Figure, share: float) -> Figure:
    """A drop beside the voltage of the pack."""
    return msgspec.structs.replace(
        drop,
        verdict=f"{amounts.share(share)} of the pack's voltage",
        other={OF_VOLTAGE: share},
        in_verdict=(OF_VOLTAGE,),
    )


def _loss(craft: Craft, carried: Carried, of: str) -> Figure:
    count = carried.count

    def loss(current_a: float, **copper: float) -> float:
        return count * run_loss_w(current_a, run_resistance_ohm(**copper))

    return worked(
        "wire_loss",
        loss,
        {"current_a": carried.amps, **_copper(craft, carried.run)},
        unit="W",
        way=_with_resistance("run_loss_w"),
        of=of,
        notes=(*((f"{count} runs together",) if count > 1 else ()), *carried.notes),
    )


def _load(craft: Craft, carried: Carried, of: str) -> Figure:
    area = area_of_run(craft, carried.run)
    density = current_density_a_m2(number(carried.amps), number(area)) / 1e6
    least, most = USUAL_A_MM2
    words = f"many builders keep short leads at {least} to {most} A/mm²: {CUSTOM}"
    return given_value(
        "wire_load",
        number(carried.amps),
        unit="A",
        way=by_law("current_density_a_m2"),
        of=of,
        inputs=(carried.amps, area),
        verdict=f"{density:.1f} A/mm²" + (", more than is usual" if density > most else ""),
        notes=(words, *carried.notes),
        other={"A/mm²": density},
        in_verdict=("A/mm²",),
    )


def _with_resistance(key: str) -> Way:
    law, resistance = by_law(key), by_law("run_resistance_ohm")
    return Way(
        formula=f"{law.formula}; {resistance.formula}",
        source=f"{law.source}; {resistance.source}",
        law=law.law,
    )


def whole_way(craft: Craft, state: str) -> tuple[Figure, Input]:
    """The drop in V from pack to the motor that loses most, and the pack's current in A.

    Lacking: no run leads to a motor, or its wire or length is not written.
    """
    return _whole_way(craft, state), _total(craft, state)


def _whole_way(craft: Craft, state: str) -> Figure:
    """The drop from the pack to the motor that loses most: the runs that feed it, in a row."""
    drops = [
        (run, _drop(craft, _carried(craft, run, state), run.label))
        for run in craft.now.wiring
        if motors_behind(craft, run)
    ]
    if not drops:
        raise Lacking(
            "no run leads to an ESC or motor: write the 'wiring' as far as there" + replaced(craft),
            craft.where("wiring"),
        )
    ways = [
        [(run, figure) for run, figure in drops if rotor.station in motors_behind(craft, run)]
        for rotor in craft.rotors
    ]
    longest = max(ways, key=lambda way: sum(figure.value or 0.0 for _, figure in way))
    total = sum(figure.value or 0.0 for _, figure in longest)
    volts = nominal(craft.pack)
    inputs = [
        msgspec.structs.replace(
            from_figure(figure, Name("drop", "from", figure.of or "")),
            place=place_of_run(craft, run),
        )
        for run, figure in longest
    ]
    drop = given_value(
        "wire_drop",
        total,
        unit="V",
        way=by_method("sum over the runs that feed one motor", "Ohm's law"),
        of=f"all runs, {state}",
        about="all runs",
        load=state,
        inputs=(*inputs, volts),
    )
    return _of_pack(drop, total / number(volts))


FIGURES = (
    FigureSpec(
        name="wire_load",
        title="Load of the wires",
        line="Current over area of copper, run by run.",
        about="Current in each run and its density in the copper.",
        topic="Margins and wires",
        unit="A",
        shown="public",
        of_aircraft=wire_load,
        laws=("current_density_a_m2",),
        held_by=("tests/figures/answers/test_bench_and_wire.py",),
    ),
    FigureSpec(
        name="wire_drop",
        title="Voltage lost in the wires",
        line="Run by run, hot copper.",
        about="Voltage lost on each run of hot copper, both conductors.",
        topic="Margins and wires",
        unit="V",
        shown="public",
        of_aircraft=wire_drop,
        laws=(
            "run_drop_v",
            "run_resistance_ohm",
        ),
        held_by=(
            "tests/published/test_flight_wire.py",
            "tests/figures/answers/test_bench_and_wire.py",
        ),
    ),
    FigureSpec(
        name="wire_loss",
        title="Power lost in the wires",
        line="Run by run, hot copper.",
        about="Heat of each run.",
        topic="Margins and wires",
        unit="W",
        shown="public",
        of_aircraft=wire_loss,
        laws=(
            "run_loss_w",
            "run_resistance_ohm",
        ),
        held_by=(
            "tests/published/test_flight_wire.py",
            "tests/figures/answers/test_bench_and_wire.py",
        ),
    ),
)
