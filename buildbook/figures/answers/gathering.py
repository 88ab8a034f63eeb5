"""Inputs of figures: each value with its basis and the line where it can be changed."""

import math
from collections.abc import Iterable

import msgspec

from buildbook.basis.place import Place
from buildbook.records.record import Record
from buildbook.report.figure import Basis, Figure, Input, Name, called
from buildbook.report.state import ItemNow

# From the weakest to the strongest; a figure is as good as the weakest of its inputs.
STRENGTH: tuple[Basis, ...] = ("default", "spec", "fitted", "measured")


class Lacking(Exception):
    """What a figure lacks, in words that say where to write it, and that place.

    name: that of the input, where it is one.
    """

    def __init__(self, because: str, place: Place | None = None, name: str | None = None) -> None:
        super().__init__(because)
        self.because = because
        self.place = place
        self.name = name


def number(given: Input) -> float:
    """The value of a numeric input. Lacking: it has none, or none that is finite."""
    if isinstance(given.value, int | float) and math.isfinite(given.value):
        return float(given.value)
    raise Lacking(f"{given.name} is not recorded", given.place)


def weakest(bases: Iterable[Basis]) -> Basis:
    """The weakest basis of several; ``measured`` where there is none."""
    known = [basis if basis in STRENGTH else "fitted" for basis in bases]
    return min(known, key=STRENGTH.index, default="measured")


def weakest_links(inputs: Iterable[Input], basis: Basis, beside: str = "") -> tuple[str, ...]:
    """The names of the inputs of a basis; of one that was worked out, those that it rests on.

    beside: the subject that they are told beside, which they need not name again.
    """
    alike = [given for given in inputs if given.basis == basis]
    names = (one.links or (one.called.beside(beside, ""),) for one in alike)
    return tuple(dict.fromkeys(name for each in names for name in each))


def worked_out(name: Name | str, value: float, unit: str, inputs: Iterable[Input]) -> Input:
    """A value made of others: as good as the weakest of them, which it names."""
    inputs = tuple(inputs)
    basis = weakest(given.basis for given in inputs)
    return Input(
        called=called(name),
        value=value,
        unit=unit,
        basis=basis,
        place=next((given.place for given in inputs if given.place), None),
        links=weakest_links(inputs, basis),
    )


def measured(name: Name | str, value: float, unit: str, place: Place | None) -> Input:
    """A value that was read at the bench or at the field."""
    return Input(called=called(name), value=value, unit=unit, basis="measured", place=place)


def declared(name: Name | str, value: float, unit: str, place: Place | None) -> Input:
    """A value that a record states without a measurement of its own."""
    return Input(called=called(name), value=value, unit=unit, basis="spec", place=place)


def default(
    name: Name | str, value: float, unit: str, words: str, place: Place | None = None
) -> Input:
    """A value that nobody wrote; ``words`` say where it is from, ``place`` where to write one."""
    return Input(
        called=called(name), value=value, unit=unit, basis="default", place=place, note=words
    )


def in_per_cent(given: Input) -> Input:
    """A ratio that is a share of a whole, and said as such: 20 %, not 0.2."""
    return msgspec.structs.replace(given, worded="share")


def from_figure(figure: Figure, name: Name | str | None = None) -> Input:
    """A figure as the input of another; its place is that of its first input that has one."""
    place = next((given.place for given in figure.inputs if given.place), None)
    return Input(
        called=called(name or figure.name.replace("_", " ")),
        value=figure.value,
        unit=figure.unit,
        basis=figure.basis,
        place=place,
        links=weakest_links(figure.inputs, figure.basis),
    )


def of_record(
    record: Record, value: float | None, key: str, name: str, unit: str, where: str
) -> Input:
    """A value of a record. Lacking: it isn't there; ``where`` names the record."""
    if value is None:
        raise Lacking(f"{name} is not recorded: write {key!r} {where}", record.place())
    return declared(name, value, unit, record.place(key))


def of_spec(item: ItemNow, value: float | None, key: str, words: str, unit: str) -> Input:
    """A value of the spec of an item. Lacking: the spec does not have it."""
    name = f"{words} of {item.spec.spec}"
    return of_record(item.spec, value, key, name, unit, "in its spec")


def mass_of(item: ItemNow) -> Input:
    """The mass of an item in kg, measured or of its spec. Lacking: neither is there."""
    name = Name("mass", subject=item.tag)
    if item.item.mass_kg is not None:
        return measured(name, item.item.mass_kg, "kg", item.item.place("mass"))
    if item.spec.mass_kg is None:
        raise Lacking(
            f"{name.whole} is not recorded: write 'mass' in its spec {item.spec.spec} or in the "
            "item",
            item.spec.place(),
            name.whole,
        )
    return declared(name, item.spec.mass_kg, "kg", item.spec.place("mass"))
