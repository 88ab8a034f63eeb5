"""What the servos take against what the regulator gives: an aeroplane's brown-out."""

from collections.abc import Iterator

from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import Lacking, number, of_spec
from buildbook.figures.answers.propulsion.loads import warned_of
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import Answer, attempt, by_law, worked
from buildbook.figures.laws.propulsion.margins import current_margin
from buildbook.report.figure import Figure
from buildbook.report.state import ItemNow


def regulator_margin(craft: Craft) -> Iterator[Answer]:
    """All servos at once against the regulator."""
    if not craft.hovers:
        yield attempt("regulator_margin", None, _margin, craft)


def _fitted(craft: Craft, kind: str) -> list[ItemNow]:
    items = (craft.hangar.items.get(one.tag) for one in craft.now.items() if one.kind == kind)
    return sorted((item for item in items if item is not None), key=lambda item: item.tag)


def _margin(craft: Craft) -> Figure:
    servos = _fitted(craft, "servo")
    if not servos:
        raise Lacking("no servo is fitted: write it as 'fit' once it is on", craft.home)
    regulators = _fitted(craft, "regulator")
    if not regulators:
        raise Lacking(
            "no regulator is fitted: write it as an item of kind regulator, one inside an ESC too",
            craft.home,
        )
    loads = {
        f"servo_{index}": of_spec(
            servo, servo.spec.max_current_a, "max_current", f"current of {servo.tag}", "A"
        )
        for index, servo in enumerate(servos)
    }
    regulator = regulators[0]
    rating = of_spec(
        regulator, regulator.spec.max_current_a, "max_current", "greatest current", "A"
    )

    def margin(rating_a: float, **servo_amps: float) -> float:
        return current_margin(sum(servo_amps.values()), rating_a)

    law = by_law("current_margin")
    inputs = {"rating_a": rating, **loads}
    return worked(
        "regulator_margin",
        margin,
        inputs,
        unit="ratio",
        way=law.written(f"{law.formula}; I of all servos"),
        verdict="; ".join(warned_of(margin(**{key: number(one) for key, one in inputs.items()})))
        or None,
        notes=("all servos at their greatest current at once",),
    )


FIGURES = (
    FigureSpec(
        name="regulator_margin",
        title="Margin of the regulator",
        line="Load of the servos against it.",
        about="What all servos at once leave of the regulator's rating.",
        topic="Margins and wires",
        unit="ratio",
        worded="margin",
        shown="public",
        of_aircraft=regulator_margin,
        laws=("current_margin",),
        held_by=("tests/figures/answers/test_weighed.py",),
    ),
)
