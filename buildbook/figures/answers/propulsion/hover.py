"""What a hover takes: power, current, throttle; by the best way that the records allow."""

from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import Lacking, number
from buildbook.figures.answers.propulsion.hover_ways import Method, methods_of
from buildbook.figures.answers.spec import FigureSpec, hovering
from buildbook.figures.answers.working import by_method, worked
from buildbook.report.figure import Figure
from buildbook.report.figures.known_figures import Headline
from buildbook.report.state import ItemNow


def hover_power_with(craft: Craft, pack: ItemNow) -> Figure:
    """Power of all motors in W in a hover with a pack; other ways beside it."""
    return craft.once(f"hover power with {pack.tag}", _power, craft, pack)


def hover_current_with(craft: Craft, pack: ItemNow) -> Figure:
    """Current in A from a pack in a hover with it."""
    return craft.once(f"hover current with {pack.tag}", _current, craft, pack)


def hover_throttle_with(craft: Craft, pack: ItemNow) -> Figure:
    """Throttle in a hover with a pack. Lacking: neither bench nor motor's constants tell it."""
    return craft.once(f"hover throttle with {pack.tag}", _throttle, craft, pack)


def _power(craft: Craft, pack: ItemNow) -> Figure:
    methods = methods_of(craft, pack, ("bench", "momentum theory", "motor constants"))
    best = methods[0]
    inputs = {key: given for key, given in best.inputs.items() if key in _used_for_power(best)}
    values = {key: number(given) for key, given in best.inputs.items()}
    fixed = {key: value for key, value in values.items() if key not in inputs}
    total = best.total_w(**values)
    return worked(
        "hover_power",
        lambda **given: best.total_w(**{**fixed, **given}),
        inputs,
        unit="W",
        way=best.way,
        further=best.further,
        notes=best.notes,
        other=_others(methods, total, "W"),
    )


def _used_for_power(method: Method) -> frozenset[str]:
    """Momentum theory does not ask for a voltage."""
    keys = frozenset(method.inputs)
    return keys - {"supply_v"} if method.key == "momentum theory" else keys


def _others(methods: list[Method], value: float, unit: str) -> dict[str, float]:
    """What the other ways give, and by what share they differ."""
    other: dict[str, float] = {}
    for method in methods[1:]:
        values = {key: number(given) for key, given in method.inputs.items()}
        found = method.total_w(**values)
        other[f"by {method.key}, {unit}"] = found
        other[f"by {method.key}, difference"] = found / value - 1
    return other


def _current(craft: Craft, pack: ItemNow) -> Figure:
    methods = methods_of(craft, pack, ("bench", "motor constants", "momentum theory"))
    best = methods[0]
    words = f"I = P / U, with P: {best.way.formula}"
    way = by_method(words, best.way.source, best.way.law)
    return worked(
        "hover_current",
        best.amps,
        best.inputs,
        unit="A",
        way=way,
        further=best.further,
        notes=best.notes,
    )


def _throttle(craft: Craft, pack: ItemNow) -> Figure:
    try:
        best = methods_of(craft, pack, ("bench", "motor constants"))[0]
    except (Lacking, ValueError) as refused:
        motor = craft.rotors[0].motor if craft.rotors else None
        place = craft.home if motor is None else motor.spec.place()
        raise Lacking(
            f"neither a bench table nor the motor's constants give it: {refused}",
            getattr(refused, "place", None) or place,
        ) from refused
    return worked(
        "hover_throttle",
        best.throttle,
        best.inputs,
        unit="ratio",
        way=best.way,
        further=best.further,
        notes=best.notes,
    )


FIGURES = (
    FigureSpec(
        name="hover_throttle",
        title="Hover throttle",
        line="Stick position in a hover.",
        about="Throttle in a hover, off the bench or by the motor's constants.",
        topic="Thrust and hover",
        unit="ratio",
        worded="share",
        shown="public",
        asked_of=hovering,
        of_aircraft=lambda craft: hover_throttle_with(craft, craft.pack),
        laws=(
            "bench_point",
            "loaded_motor_v",
            "table_rotation_for_thrust_rev_s",
            "coefficients_at",
        ),
        held_by=(
            "tests/published/test_flight_propellers.py",
            "tests/published/test_flight_crosschecks.py",
            "tests/figures/answers/test_bench_and_wire.py",
            "tests/figures/answers/test_propeller_tables.py",
        ),
        headline=Headline(place=7),
    ),
    FigureSpec(
        name="hover_power",
        title="Hover power",
        line="Electrical power in a hover.",
        about="Power in a hover: off the bench, else by momentum theory; all ways side by side.",
        topic="Thrust and hover",
        unit="W",
        shown="public",
        asked_of=hovering,
        of_aircraft=lambda craft: hover_power_with(craft, craft.pack),
        laws=(
            "bench_point",
            "hover_power_w",
            "coaxial_hover_power_w",
            "loaded_motor_current_a",
        ),
        held_by=(
            "tests/published/test_flight_hover.py",
            "tests/figures/answers/test_small_quad.py",
            "tests/figures/answers/test_bench_and_wire.py",
        ),
    ),
    FigureSpec(
        name="hover_current",
        title="Hover current",
        line="Current in a hover.",
        about="Current from the pack in a hover, at its nominal voltage.",
        topic="Thrust and hover",
        unit="A",
        shown="public",
        asked_of=hovering,
        of_aircraft=lambda craft: hover_current_with(craft, craft.pack),
        laws=(
            "bench_point",
            "hover_power_w",
        ),
        held_by=(
            "tests/published/test_flight_hover.py",
            "tests/figures/answers/test_small_quad.py",
            "tests/figures/answers/test_bench_and_wire.py",
        ),
        headline=Headline(place=8),
    ),
)
