"""The thresholds of law that the all-up mass stands against; the authority decides."""

from buildbook.basis import amounts
from buildbook.basis.amounts import listed
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import from_figure, number
from buildbook.figures.answers.mass.budget import known_masses
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import by_law, given_value
from buildbook.figures.laws.airframe.mass_classes import ADVICE, TABLE_WRITTEN, mass_bands
from buildbook.figures.laws.law import own_table
from buildbook.report.figure import Figure, Table

COLUMNS = ("jurisdiction", "rule", "what", "boundary", "threshold_kg", "this mass", "note", "seen")


def mass_class(craft: Craft) -> Figure:
    """A row for each threshold, with the side on which the mass is."""
    masses = known_masses(craft)
    heaviest = max(masses, key=lambda one: one.value or 0.0)
    said = {one.of for one in masses}
    unknown = [pack.tag for pack in craft.packs if heaviest.of and pack.tag not in said]
    words = f"all-up mass with {heaviest.of}" if heaviest.of else "all-up mass without a pack"
    mass = from_figure(heaviest, words)
    rows = tuple(
        (
            band.threshold.jurisdiction,
            band.threshold.rule,
            band.threshold.label,
            band.threshold.boundary,
            band.threshold.mass_kg,
            "on this side" if band.applies else "not on this side",
            band.threshold.note,
            band.threshold.status,
        )
        for band in mass_bands(number(mass))
    )
    return given_value(
        "mass_class",
        None,
        unit="kg",
        way=by_law("mass_bands"),
        of=heaviest.of,
        inputs=(mass,),
        table=Table(columns=COLUMNS, rows=rows),
        verdict=f"{ADVICE}; {own_table(TABLE_WRITTEN)}",
        notes=(
            "a class label belongs to a product sold with it: a home-built aircraft has none",
            *heaviest.notes,
            *_loaded(craft, number(mass)),
            *(
                [f"not counted, as the mass with it is not known: {listed(unknown)}"]
                if unknown
                else []
            ),
        ),
    )


def _loaded(craft: Craft, mass_kg: float) -> tuple[str, ...]:
    """On which thresholds the heaviest payload that was flown tells; none where none was."""
    load_kg = max((flight.payload_kg or 0.0 for flight in craft.now.flights), default=0.0)
    if not load_kg:
        return ()
    there = zip(mass_bands(mass_kg), mass_bands(mass_kg + load_kg), strict=True)
    crossed = [
        f"{bare.threshold.label} ({bare.threshold.rule})"
        for bare, loaded in there
        if bare.applies != loaded.applies
    ]
    with_it = f"with the {amounts.mass(load_kg)} of payload once flown it weighs"
    tells = f"on the other side of: {listed(crossed)}" if crossed else "on the same side of all"
    return (f"{with_it} {amounts.mass(mass_kg + load_kg)}, {tells}",)


FIGURES = (
    FigureSpec(
        name="mass_class",
        title="Mass class",
        line="Thresholds of law that the mass crosses.",
        about="Thresholds of law on either side of the mass; ask the authority.",
        topic="Mass and balance",
        unit="kg",
        shown="public",
        of_aircraft=mass_class,
        laws=("mass_bands",),
        held_by=(
            "tests/published/test_flight_mass_classes.py",
            "tests/figures/answers/test_weighed.py",
        ),
    ),
)
