"""All-up mass by pack, and where it is."""

from collections.abc import Iterator

from buildbook.figures.answers.craft import NO_PACK, Craft
from buildbook.figures.answers.gathering import Lacking, mass_of, measured, number
from buildbook.figures.answers.mass.masses import (
    NO_LIMIT,
    Piece,
    added_up,
    changes,
    disbelieved,
    parts,
    signed,
    told,
    weighed_pack,
    without_pack,
)
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import (
    Answer,
    attempt,
    by_method,
    given_value,
)
from buildbook.figures.laws.law import FAA_BALANCE
from buildbook.report.figure import SUMMED_KG, WEIGHED_KG, Figure, Table
from buildbook.report.figures.known_figures import Headline
from buildbook.report.history import Weighing
from buildbook.report.state import ItemNow

SUMMED = by_method("sum of the masses of all parts", "addition")
CORRECTED = by_method(
    "last weighing, plus what was fitted since, less what was removed since", FAA_BALANCE
)
WEIGHED = by_method("last weighing", "the scales")
PARTIAL = "each share is of what has a mass"


def mass_with(craft: Craft, pack: ItemNow | None) -> Figure:
    """The all-up mass in kg with a pack, or without any. Lacking: a mass is not known."""
    return craft.once(f"mass with {pack and pack.tag}", _mass_with, craft, pack)


def known_masses(craft: Craft) -> tuple[Figure, ...]:
    """The mass with each pack that has one; as weighed where none has.

    Lacking: no pack has a mass, or no part, and the aircraft was not weighed.
    """
    found: list[Figure] = []
    lacking: list[Lacking] = []
    for pack in craft.packs:
        try:
            found.append(mass_with(craft, pack))
        except Lacking as missing:
            lacking.append(missing)
    if found:
        return tuple(found)
    if craft.weighed.believed:
        return (mass_with(craft, as_weighed(craft)),)
    raise lacking[0] if lacking else Lacking(NO_PACK, craft.home)


def pack_to_balance(craft: Craft) -> ItemNow | None:
    """The pack of the last flight; where it has no mass, or none is known, that of the scales.

    None: the scales had none. Lacking: no pack is known and the aircraft was not weighed.
    """
    if not craft.weighed.believed:
        return craft.pack
    if not craft.packs:
        return None
    pack = craft.pack
    try:
        mass_with(craft, pack)
    except Lacking:
        return as_weighed(craft)
    return pack


def as_weighed(craft: Craft) -> ItemNow | None:
    """The pack that was on the scales at the last weighing, if any was."""
    return weighed_pack(craft, craft.weighed.believed[-1])


def all_up_mass(craft: Craft) -> Iterator[Answer]:
    """The mass as flown, for each pack."""
    with_packs = [attempt("all_up_mass", pack.tag, mass_with, craft, pack) for pack in craft.packs]
    if not any(isinstance(said, Figure) for said in with_packs):
        if craft.weighed.believed:
            pack = as_weighed(craft)
            said = attempt("all_up_mass", pack.tag if pack else None, mass_with, craft, pack)
            if isinstance(said, Figure) or not with_packs:
                yield said
        elif not with_packs:
            raise Lacking(NO_PACK, craft.home)
    yield from with_packs


def _mass_with(craft: Craft, pack: ItemNow | None) -> Figure:
    weighing = craft.weighed.believed[-1] if craft.weighed.believed else None
    tag = None if pack is None else pack.tag
    notes = _of_pack(craft, pack)
    if weighing is None:
        pieces, lacking = parts(craft, pack)
        if lacking:
            why = "; ".join((*disbelieved(craft), lacking[0].because))
            raise Lacking(why, lacking[0].place, lacking[0].name)
        return given_value(
            "all_up_mass",
            signed(pieces),
            unit="kg",
            way=SUMMED,
            of=tag,
            inputs=[piece.mass for piece in pieces],
            notes=(*notes, *disbelieved(craft), added_up(craft, "added up from the parts")),
            verdict=_against_bound(craft, signed(pieces)),
        )
    scales = measured("last weighing", weighing.mass_kg, "kg", weighing.place)
    moved = changes(craft, weighing)
    swap = _swap(craft, weighing, pack)
    value = weighing.mass_kg + signed(moved) + signed(swap)
    if moved:
        notes = (*notes, told(moved))
    if swap and pack is not None:
        notes = (*notes, _swapped(weighing, pack))
    notes = (*notes, *disbelieved(craft))
    return given_value(
        "all_up_mass",
        value,
        unit="kg",
        way=CORRECTED if moved or swap else WEIGHED,
        of=tag,
        inputs=[scales, *(piece.mass for piece in [*moved, *swap])],
        notes=notes,
        verdict=_against_bound(craft, value),
    )


def _of_pack(craft: Craft, pack: ItemNow | None) -> tuple[str, ...]:
    """What a reader should know of the pack before the mass."""
    if pack is None:
        return (without_pack(craft),)
    return () if pack.state.state == "serviceable" else (f"{pack.tag} is {pack.state.state}",)


def _swap(craft: Craft, weighing: Weighing, pack: ItemNow | None) -> list[Piece]:
    """The pack of the weighing out, the other one in."""
    if pack is None:
        return []
    weighed = weighed_pack(craft, weighing)
    if weighed is not None and weighed.tag == pack.tag:
        return []
    if weighed is not None and weighed.spec is pack.spec and weighed.mass_kg == pack.mass_kg:
        return []
    pieces = [] if weighed is None else [_pack_piece(weighed, -1)]
    return [*pieces, _pack_piece(pack, 1)]


def _pack_piece(pack: ItemNow, sign: int) -> Piece:
    return Piece(what=pack.tag, group="battery", mass=mass_of(pack), station="pack", sign=sign)


def _swapped(weighing: Weighing, pack: ItemNow) -> str:
    if weighing.pack is None:
        return f"weighed without a pack, {pack.tag} added"
    return f"weighed with {weighing.pack}, {pack.tag} put in its place"


def _against_bound(craft: Craft, mass_kg: float) -> str:
    bounds = craft.now.bounds
    if bounds is None or bounds.max_mass_kg is None:
        return NO_LIMIT
    over_g = round(mass_kg * 1000) - round(bounds.max_mass_kg * 1000)
    return f"{over_g} g over the limit" if over_g > 0 else f"{-over_g} g below the limit"


def mass_budget(craft: Craft) -> Figure:
    """A row for each part, with its share of the sum; parts without a mass are rows too."""
    pack = craft.pack if craft.packs else None
    pieces, lacking = parts(craft, pack)
    if not pieces and not lacking:
        raise Lacking(
            "nothing that weighs is recorded: write 'fit' entries or 'sundries'", craft.home
        )
    total = signed(pieces)
    ordered = sorted(pieces, key=lambda piece: (piece.group, -number(piece.mass), piece.what))
    rows = [
        (piece.group, piece.what, number(piece.mass), number(piece.mass) / total if total else None)
        for piece in ordered
    ]
    unknown = [("unknown", missing.name, None, None) for missing in lacking]
    notes, other = _measured_minus_summed(craft, total, bool(lacking))
    return given_value(
        "mass_budget",
        None,
        unit="kg",
        way=SUMMED,
        of=None if pack is None else pack.tag,
        inputs=[piece.mass for piece in ordered],
        table=Table(columns=("group", "part", "mass_kg", "share"), rows=(*rows, *unknown)),
        notes=(
            *(missing.because for missing in lacking),
            *((PARTIAL,) if lacking and pieces else ()),
            *notes,
        ),
        other={SUMMED_KG: total, **other},
    )


def _measured_minus_summed(
    craft: Craft, total: float, partial: bool
) -> tuple[tuple[str, ...], dict[str, float]]:
    """The last weighing, brought up to date, less the sum of parts."""
    if not craft.weighed.believed:
        return disbelieved(craft) or ("not weighed yet",), {}
    try:
        weighed = mass_with(craft, pack_to_balance(craft)).value
    except (Lacking, ValueError):
        return (), {}
    if weighed is None:
        return (), {}
    words = "the sum lacks what has no mass" if partial else "what the parts do not account for"
    difference_g = round((weighed - total) * 1000)
    return (
        (f"measured minus summed: {difference_g} g ({words})",),
        {WEIGHED_KG: weighed, "measured_minus_summed_kg": weighed - total},
    )


FIGURES = (
    FigureSpec(
        name="all_up_mass",
        title="All-up mass",
        line="As flown, with the pack named.",
        about=(
            "Mass as flown, for each pack: the last weighing with what changed since, else "
            "the sum of the parts."
        ),
        topic="Mass and balance",
        unit="kg",
        shown="public",
        of_aircraft=all_up_mass,
        methods=(
            WEIGHED,
            CORRECTED,
            SUMMED,
        ),
        held_by=(
            "tests/figures/answers/test_small_quad.py",
            "tests/figures/answers/test_weighed.py",
        ),
        headline=Headline(place=1, pick="most", words="heaviest"),
    ),
    FigureSpec(
        name="mass_budget",
        title="Mass budget",
        line="What weighs how much, and what has no mass yet.",
        about="Every part with its mass and share, and what the parts do not account for.",
        topic="Mass and balance",
        unit="kg",
        shown="public",
        of_aircraft=mass_budget,
        methods=(SUMMED,),
        held_by=("tests/figures/answers/test_small_quad.py",),
    ),
)
