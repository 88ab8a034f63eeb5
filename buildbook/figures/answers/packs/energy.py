"""Energy of a pack with its band for air travel, and the current to charge it with."""

from collections.abc import Iterator

import msgspec

from buildbook.figures.answers.craft import Part
from buildbook.figures.answers.gathering import Lacking, number, of_spec
from buildbook.figures.answers.packs.packs import capacity, nominal, rated_capacity, reserve
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import Answer, attempt, by_law, worked
from buildbook.figures.laws.law import own_table
from buildbook.figures.laws.packs.battery import pack_energy_wh, usable_energy_wh
from buildbook.figures.laws.packs.pack_transport import (
    ADVICE,
    TABLE_WRITTEN,
    WHICH_FIGURE_COUNTS,
    transport_band,
)
from buildbook.figures.laws.propulsion.margins import charge_current_a
from buildbook.report.figure import Figure


def pack_energy(part: Part) -> Iterator[Answer]:
    """Rated energy, which counts for air travel, and what of it is flown."""
    yield attempt("pack_energy", "rated", _rated, part)
    yield attempt("pack_energy", "usable", _usable, part)


def _rated(part: Part) -> Figure:
    figure = worked(
        "pack_energy",
        pack_energy_wh,
        {"capacity_ah": rated_capacity(part.item), "nominal_v": nominal(part.item)},
        unit="Wh",
        way=by_law("pack_energy_wh"),
        of="rated",
    )
    band = transport_band(figure.value or 0.0)
    return msgspec.structs.replace(
        figure,
        verdict=f"air travel: {band.label}; {ADVICE}",
        notes=(
            *figure.notes,
            f"what counts is {WHICH_FIGURE_COUNTS}",
            f"{band.rule} ({band.source}, {band.status}; {own_table(TABLE_WRITTEN)})",
        ),
    )


def _usable(part: Part) -> Figure:
    def usable(capacity_ah: float, nominal_v: float, reserve_share: float) -> float:
        return usable_energy_wh(pack_energy_wh(capacity_ah, nominal_v), reserve_share)

    return worked(
        "pack_energy",
        usable,
        {
            "capacity_ah": capacity(part.item),
            "nominal_v": nominal(part.item),
            "reserve_share": reserve(part.keeper),
        },
        unit="Wh",
        way=by_law("usable_energy_wh"),
        of="usable",
    )


def charge_current(part: Part) -> Figure:
    """The current of the recorded charge rate; refused without one."""
    item = part.item
    if item.state.state != "serviceable":
        raise Lacking(f"{item.tag} is {item.state.state}", item.state.place or item.item.place())
    rate = of_spec(item, item.spec.charge_rate_c, "charge_rate", "charge rate", "1/h")
    figure = worked(
        "charge_current",
        charge_current_a,
        {"capacity_ah": rated_capacity(item), "charge_rate_c": rate},
        unit="A",
        way=by_law("charge_current_a"),
        notes=("at most, from the rate recorded for this pack",),
    )
    return msgspec.structs.replace(figure, verdict=f"{number(rate):g}C of the rated capacity")


FIGURES = (
    FigureSpec(
        name="charge_current",
        title="Charge current",
        line="From the recorded rate of the pack.",
        about="The current of the charge rate that is recorded for the pack.",
        topic="Margins and wires",
        unit="A",
        shown="public",
        of_pack=charge_current,
        laws=("charge_current_a",),
        held_by=("tests/figures/answers/test_log_and_packs.py",),
    ),
    FigureSpec(
        name="pack_energy",
        title="Energy of a pack",
        line="Rated and usable, and its band for travel.",
        about="Rated energy with its band for air travel, and what of it is flown.",
        topic="Energy",
        unit="Wh",
        shown="public",
        of_pack=pack_energy,
        laws=(
            "pack_energy_wh",
            "usable_energy_wh",
            "transport_band",
        ),
        held_by=(
            "tests/published/test_flight_battery.py",
            "tests/figures/answers/test_log_and_packs.py",
        ),
    ),
)
