"""How much a pack has been used: charges, and equivalent full cycles."""

from collections.abc import Mapping

from buildbook.figures.answers.craft import Part
from buildbook.figures.answers.gathering import Lacking, declared, measured, number
from buildbook.figures.answers.packs.packs import rated_capacity
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import by_method, given_value
from buildbook.figures.laws.packs.cycles import equivalent_full_cycles
from buildbook.report.figure import Basis, Figure

STRETCHES = (
    "for each stretch between charges the greater of what flights used and what was put in; the "
    "sum over the rated capacity"
)
ABOUT = "about; what was before the log is estimated"
CYCLES = by_method(
    STRETCHES,
    "sum of charge over rated capacity; the counting rule of the records",
    "equivalent_full_cycles",
)
CHARGES = by_method("number of charges in the log", "the log")


def pack_cycles(part: Part) -> Figure:
    """Equivalent full cycles of the rated capacity."""
    item, rated = part.item, rated_capacity(part.item)
    found = item.through.stretches
    gaps = uncounted(part)
    through = sum(stretch.through_ah for stretch in found)
    inputs = [measured("charge through the pack", through, "Ah", part.last_place), rated]
    carried = item.item.carried
    if carried is not None and (carried.cycles or carried.basis != "unknown"):
        place = item.item.place("carried")
        known = measured if carried.basis == "measured" else declared
        inputs.append(known("cycles before the log", carried.cycles, "count", place))
    before = 0.0 if carried is None else carried.cycles
    value = before + equivalent_full_cycles(through, number(rated))
    counted = carried is None or carried.basis == "measured"
    basis: Mapping[str, Basis] = {"basis": "measured"} if counted else {}
    return given_value(
        "pack_cycles",
        value,
        unit="count",
        way=CYCLES,
        inputs=inputs,
        verdict=_sure(item.counters.basis, bool(gaps)),
        other={"charges": float(len(item.charges)), "flights": float(len(item.flights))},
        notes=gaps,
        **basis,
    )


def uncounted(part: Part) -> tuple[str, ...]:
    """Notes on the flights and charges that count nothing, as they have no figure.

    Lacking: none has one, so that there is no sum.
    """
    found = part.item.through.stretches
    gaps = [stretch for stretch in found if not stretch.is_known]
    carried = part.item.item.carried
    known = any(stretch.through_ah > 0 for stretch in found)
    if gaps and not known and (carried is None or carried.cycles <= 0):
        raise Lacking(
            f"charge through {part.item.tag} is not recorded: write 'put_in' in a charge or 'used' "
            "in a flight",
            part.last_place,
        )
    counts = (
        ("flights", sum(stretch.unknown_flights for stretch in gaps)),
        ("charges", sum(stretch.unknown_charges for stretch in gaps)),
    )
    return tuple(
        f"{what} without a figure, which count nothing: {count}" for what, count in counts if count
    )


def _sure(basis: str, partial: bool) -> str | None:
    if basis == "unknown" or partial:
        return "at least"
    return ABOUT if basis == "estimate" else None


def pack_charges(part: Part) -> Figure:
    """Those in the log, of storage too; what was before it is not counted."""
    item = part.item
    charges = len(item.charges)
    stored = sum(charge.to == "storage" for charge in item.charges)
    told = (
        *((f"{stored} of them to storage",) if stored else ()),
        *(("in this log; charges before it are not counted",) if item.item.carried else ()),
    )
    return given_value(
        "pack_charges",
        charges,
        unit="count",
        way=CHARGES,
        inputs=[measured("charges in the log", charges, "count", part.last_place)],
        verdict="; ".join(told) or None,
    )


FIGURES = (
    FigureSpec(
        name="pack_cycles",
        title="Full cycles",
        line="Charge through the pack, in rated capacities.",
        about="Charge through a pack in full cycles of its rated capacity.",
        topic="Energy",
        unit="count",
        worded="tenths",
        shown="public",
        of_pack=pack_cycles,
        methods=(CYCLES,),
        held_by=(
            "tests/published/test_upkeep_cycles.py",
            "tests/figures/answers/test_log_and_packs.py",
        ),
    ),
    FigureSpec(
        name="pack_charges",
        title="Charges",
        line="How often it was charged.",
        about="Number of charges.",
        topic="Energy",
        unit="count",
        shown="public",
        of_pack=pack_charges,
        methods=(CHARGES,),
        held_by=("tests/figures/answers/test_log_and_packs.py",),
    ),
)
