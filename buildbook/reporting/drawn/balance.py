"""What weighs where on an aircraft."""

from collections.abc import Mapping, Sequence

import msgspec

from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import Lacking
from buildbook.figures.answers.mass.centre import placed
from buildbook.figures.answers.mass.masses import parts
from buildbook.records.aircraft import Place3
from buildbook.records.layouts import arm_of
from buildbook.report.drawn.plans import Balance, BalancePlan, LayoutPlan, LoadPlan
from buildbook.report.figure import Answers
from buildbook.report.state import ItemNow
from buildbook.reporting.whole import Whole

FEWEST = 3
"""One or two masses make no picture."""


def balance(whole: Whole, slug: str) -> Balance | None:
    """All that is fitted and has a mass and a place, with the pack flown last where one is known.

    None where fewer than three masses have a place of their own.
    """
    craft = Craft(whole.hangar, slug)
    answers = whole.reports.figures_of_aircraft(slug)
    plan = whole.reports.layout(slug)
    pack = _pack(craft)
    pieces, lacking = parts(craft, pack)
    loads: list[LoadPlan] = []
    stations: dict[Place3, list[str]] = {}
    missing = len(lacking)
    for piece in pieces:
        mass = piece.mass.value
        try:
            at = placed(craft, piece)
        except Lacking:
            missing += 1
            continue
        if isinstance(mass, float) and piece.sign > 0:
            stations.setdefault(at, []).append(piece.station or "")
            loads.append(
                LoadPlan(
                    name=piece.what,
                    mass_kg=mass,
                    forward_m=at[0],
                    right_m=at[1],
                    down_m=at[2],
                )
            )
    if len(stations) < FEWEST:
        return None
    told = BalancePlan(
        aircraft=whole.hangar.aircraft[slug].record.aircraft,
        loads=tuple(loads),
        cg_m=_centre(answers),
        band_forward_m=_band(plan),
        words=plan.cg.words if plan and plan.cg else "",
    )
    drawn = msgspec.structs.replace(told, loads=_by_place(loads, stations))
    return Balance(
        drawn=drawn, told=told, without_place=missing, pack=None if pack is None else pack.tag
    )


def _by_place(
    loads: Sequence[LoadPlan], stations: Mapping[Place3, Sequence[str]]
) -> tuple[LoadPlan, ...]:
    """One load for each place, in the order in which places first come."""
    found: dict[Place3, list[LoadPlan]] = {}
    for load in loads:
        found.setdefault((load.forward_m, load.right_m, load.down_m), []).append(load)
    return tuple(
        msgspec.structs.replace(
            here[0],
            name=_place_name(here[0].name, len(here), stations[at]),
            mass_kg=sum(load.mass_kg for load in here),
        )
        for at, here in found.items()
    )


def _place_name(first: str, count: int, stations: Sequence[str]) -> str:
    """What is at one place, by its station; both halves of a coaxial pair by their arm."""
    named = tuple(dict.fromkeys(name for name in stations if name))
    arms = {arm_of(name) for name in named}
    at = named[0] if len(named) == 1 else next(iter(arms)) if len(arms) == 1 else ""
    if count == 1:
        return f"{at} {first}" if at and at != first else first
    return at or f"{first} and others"


def _pack(craft: Craft) -> ItemNow | None:
    try:
        return craft.pack
    except Lacking:
        return None


def _centre(answers: Answers) -> tuple[float, float, float] | None:
    """Forward, right, down; down is 0 where nobody knows how high it lies."""
    found = [answers.find("balance", axis) for axis in ("forward", "right", "down")]
    values = [None if figure is None else figure.value for figure in found]
    if values[0] is None:
        return None
    return (values[0], values[1] or 0.0, values[2] or 0.0)


def _band(plan: LayoutPlan | None) -> tuple[float, float] | None:
    """The limits, front end first, in m forward."""
    cg = plan.cg if plan else None
    if plan is None or cg is None:
        return None
    if cg.band_forward_m is not None:
        return cg.band_forward_m
    if cg.band_share is None or plan.wing is None:
        return None
    edge, chord = plan.wing.leading_edge_aft_m, plan.wing.mean_chord_m
    return (-(edge + cg.band_share[0] * chord), -(edge + cg.band_share[1] * chord))
