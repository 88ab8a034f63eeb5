"""The thresholds of law that the all-up mass stands against; the authority decides."""

from collections.abc import Iterator

from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import from_figure, number
from buildbook.figures.answers.mass import mass_with
from buildbook.figures.answers.working import Said, attempt, by_law, given_value
from buildbook.figures.figure import Figure, Table
from buildbook.figures.laws.mass_classes import ADVICE, TABLE_WRITTEN, mass_bands

COLUMNS = ("jurisdiction", "rule", "what", "boundary", "threshold_kg", "this mass", "note", "seen")


def mass_class(craft: Craft) -> Iterator[Said]:
    """A row for each threshold, with the side on which the mass is."""
    yield attempt("mass_class", None, _mass_class, craft)


def _mass_class(craft: Craft) -> Figure:
    packs = craft.packs or (craft.pack,)
    heaviest = max((mass_with(craft, pack) for pack in packs), key=lambda one: one.value or 0.0)
    mass = from_figure(heaviest, f"all-up mass with {heaviest.of}")
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
        verdict=f"{ADVICE}; table of {TABLE_WRITTEN}",
        notes=(
            "a class label belongs to a product sold with it: a home-built aircraft has none",
            *heaviest.notes,
        ),
    )
