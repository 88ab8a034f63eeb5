"""How to bring the balance where it is wanted: by moving the pack, or by ballast."""

from collections.abc import Iterator
from typing import NamedTuple

import msgspec

from buildbook.basis import amounts
from buildbook.basis.place import Place
from buildbook.figures.answers.craft import NO_PACK, Craft
from buildbook.figures.answers.gathering import (
    Lacking,
    declared,
    from_figure,
    mass_of,
    number,
    worked_out,
)
from buildbook.figures.answers.mass.balance import NO_CHORD, judged_at
from buildbook.figures.answers.mass.budget import mass_with, pack_to_balance
from buildbook.figures.answers.mass.centre import Centre, centre_with
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import Answer, attempt, by_law, given_value, worked
from buildbook.figures.laws.airframe.balance import ballast_kg, shifted_item_arm_m
from buildbook.report.figure import Figure, Input, Name

WITHIN = "within its limits"
NEAR_M = 0.0005  # nobody sets a balance nearer than half a millimetre


class Aim(NamedTuple):
    """Balance as it is and as it is wanted, both aft of the reference point in m."""

    found: Centre
    mass: Input
    now: Input
    wanted: Input
    words: str


def ballast(craft: Craft) -> Iterator[Answer]:
    """The mass to fix at the nose or at the tail of an aeroplane."""
    if not craft.hovers and has_limits(craft):
        yield attempt("ballast", None, _ballast, craft)


def has_limits(craft: Craft) -> bool:
    """Whether the keeper wrote limits of the balance along the aircraft."""
    bounds = craft.now.bounds
    if bounds is None:
        return False
    shares = (bounds.forward_cg_share, bounds.aft_cg_share)
    return None not in shares or None not in (bounds.forward_cg_m, bounds.aft_cg_m)


def _aim(craft: Craft) -> Aim:
    pack = pack_to_balance(craft)
    found = centre_with(craft, pack)
    return Aim(
        found,
        from_figure(mass_with(craft, pack), "all-up mass"),
        _aft(worked_out("balance", -found.forward_m, "m", found.inputs)),
        *_wanted(craft),
    )


def _wanted(craft: Craft) -> tuple[Input, str]:
    """The middle of the keeper's limits, aft of the reference point.

    Lacking: they are shares of a chord that is not recorded.
    """
    bounds, wing = craft.now.bounds, craft.now.record.wing
    place = craft.where("bounds")
    if bounds is not None and bounds.forward_cg_m is not None and bounds.aft_cg_m is not None:
        value = -(bounds.forward_cg_m + bounds.aft_cg_m) / 2
        return _aim_at(value, place), "the middle of the limits"
    shares = () if bounds is None else (bounds.forward_cg_share, bounds.aft_cg_share)
    chord = None if wing is None else wing.mean_chord_m
    edge = None if wing is None else wing.leading_edge_m
    if chord is None or edge is None:
        raise Lacking(NO_CHORD, craft.now.record.place("wing"))
    middle = sum(one or 0.0 for one in shares) / 2
    words = f"{amounts.share(middle)} of the mean chord, the middle of the limits"
    return _aim_at(edge + middle * chord, place), words


def _aim_at(value: float, place: Place) -> Input:
    return _aft(declared("wanted balance", value, "m", place))


def _aft(given: Input) -> Input:
    """The same, saying from where it is told; in a note it keeps its short name."""
    name = msgspec.structs.replace(given.called, further="from the reference point")
    links = given.links or (given.name,)
    return msgspec.structs.replace(given, called=name, worded="aft", links=links)


def battery_shift(craft: Craft) -> Figure:
    """How far to move the pack, along the aircraft; nobody asks without limits of the balance."""
    pack = pack_to_balance(craft)
    if pack is None:
        raise Lacking(NO_PACK, craft.home)
    aim = _aim(craft)
    at = -craft.station_at("pack")[0]

    def shift(
        mass_kg: float, arm_m: float, wanted_arm_m: float, item_mass_kg: float, item_arm_m: float
    ) -> float:
        there = shifted_item_arm_m(mass_kg, arm_m, wanted_arm_m, item_mass_kg, item_arm_m)
        return there - item_arm_m

    law = by_law("shifted_item_arm_m")
    figure = worked(
        "battery_shift",
        shift,
        {
            "mass_kg": aim.mass,
            "arm_m": aim.now,
            "wanted_arm_m": aim.wanted,
            "item_mass_kg": mass_of(pack),
            "item_arm_m": _aft(
                declared(Name("place", "of", pack.tag), at, "m", craft.where("positions"))
            ),
        },
        unit="m",
        way=law.written(f"x_n - x_i; {law.formula}"),
        notes=(f"to {aim.words}", *aim.found.notes),
    )
    value = figure.value or 0.0
    side = "aft" if value > 0 else "forward"
    if _within(craft, aim):
        words = f"; {pack.tag} {amounts.length(abs(value))} {side} would bring it to the middle"
        return msgspec.structs.replace(
            figure,
            value=None,
            sensitivity=(),
            verdict=f"{WITHIN}: nothing to move{words if abs(value) >= NEAR_M else ''}",
            other={"to the middle, m": abs(value)},
            in_verdict=("to the middle, m",),
        )
    if abs(value) < NEAR_M:
        return msgspec.structs.replace(figure, verdict=f"{pack.tag} is where it should be")
    return msgspec.structs.replace(
        figure,
        value=abs(value),
        verdict=f"move {pack.tag} {side}{_outside(craft, -(at + value))}",
    )


def _outside(craft: Craft, forward_m: float) -> str:
    """That a place is ahead of the nose of an aeroplane or behind its tail, if those are known."""
    for end, sign in () if craft.hovers else (("nose", 1), ("tail", -1)):
        try:
            edge_m = craft.station_at(end)[0]
        except Lacking:
            continue
        if sign * (forward_m - edge_m) > 0:
            where = "ahead of the nose" if sign > 0 else "behind the tail"
            return f", which is {where}: the pack alone does not do it"
    return ""


def _within(craft: Craft, aim: Aim) -> bool:
    """Whether the balance is within the keeper's limits as it is."""
    return judged_at(craft.now, aim.found.forward_m) == "within the limits"


def _ballast(craft: Craft) -> Figure:
    aim = _aim(craft)
    if _within(craft, aim):
        return given_value(
            "ballast",
            None,
            unit="kg",
            way=by_law("ballast_kg"),
            inputs=(aim.mass, aim.now, aim.wanted),
            verdict=f"{WITHIN}: none is needed",
            notes=aim.found.notes,
        )
    off = number(aim.now) - number(aim.wanted)
    end = "nose" if off > 0 else "tail"
    at = -craft.station_at(end)[0]
    figure = worked(
        "ballast",
        ballast_kg,
        {
            "mass_kg": aim.mass,
            "arm_m": aim.now,
            "wanted_arm_m": aim.wanted,
            "ballast_arm_m": _aft(
                declared(f"place of the {end}", at, "m", craft.where("positions"))
            ),
        },
        unit="kg",
        way=by_law("ballast_kg"),
        notes=(
            f"to {aim.words}",
            "moving the pack weighs nothing",
            *aim.found.notes,
        ),
    )
    if abs(off) < NEAR_M:
        return msgspec.structs.replace(figure, verdict="none is needed")
    if (figure.value or 0.0) <= 0:
        raise ValueError(f"ballast at the {end} moves it the wrong way: {end} and balance overlap")
    return msgspec.structs.replace(figure, verdict=f"at the {end}")


FIGURES = (
    FigureSpec(
        name="battery_shift",
        title="Move the pack",
        line="How far, to bring the balance where it is wanted.",
        about="How far to move the pack so that the balance comes to the middle of its limits.",
        topic="Mass and balance",
        unit="m",
        shown="public",
        asked_of=has_limits,
        of_aircraft=battery_shift,
        laws=("shifted_item_arm_m",),
        held_by=(
            "tests/published/test_flight_balance.py",
            "tests/figures/answers/test_trim_and_turns.py",
        ),
    ),
    FigureSpec(
        name="ballast",
        title="Ballast",
        line="How much at the nose or the tail instead.",
        about="Mass at the nose or the tail that brings the balance to the middle of its limits.",
        topic="Mass and balance",
        unit="kg",
        shown="public",
        of_aircraft=ballast,
        laws=("ballast_kg",),
        held_by=(
            "tests/published/test_flight_balance.py",
            "tests/figures/answers/test_trim_and_turns.py",
        ),
    ),
)
