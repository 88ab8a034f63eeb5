"""More than a recorded rating, never a default one: cells, currents, regulator volts."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from buildbook.basis.place import Place
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import Lacking
from buildbook.figures.answers.propulsion.loads import Load, Rated, loads
from buildbook.hangar.packs.limits import takes
from buildbook.report.state import AircraftNow, Fitted, ItemNow
from buildbook.report.upkeep.findings import (
    Carries,
    OverRated,
    PassedRating,
    ServosDraw,
    ServosFed,
)
from buildbook.report.upkeep.pack_findings import CellsOutside
from buildbook.report.upkeep.work import Because, Row
from buildbook.upkeep.dangers.danger_rows import Ask, danger_row
from buildbook.upkeep.packs.pack_rows import outside

RATINGS = "ratings"

MOST_OVER = 1.2
"""So many times its rated voltage a servo takes. Common practice, no source."""

TOLD_APART: tuple[Rated, ...] = ("cells", "regulator")
"""Loads with rows of their own here: they do not come with full throttle."""

_ASK = Ask(
    name=RATINGS,
    what="Unplug the pack. Fly another pack, or fit parts rated for it; correct the spec if it"
    " is wrong.",
)


_CELLS = Ask(
    name=RATINGS,
    what="Unplug the pack. Fly another pack, or fit what takes so many cells; correct the spec"
    " if it is wrong. A pack flown once by mistake leaves by inspection: pack-cells with its tag.",
)
_FED = Ask(
    name=RATINGS,
    what="Unplug the pack. Fit a regulator for these servos, or servos for this regulator; one that"
    " gives way takes receiver and surfaces with it. Correct the spec if it is wrong.",
)
_FED_AND_CELLS = Ask(
    name=RATINGS,
    what="Unplug the pack. Fit a regulator for these servos and these cells, or servos and a pack"
    " for this regulator; one that gives way takes receiver and surfaces with it. Correct the spec"
    " if it is wrong.",
)


class Passed(NamedTuple):
    """A rating that is passed. item None: of a plug. station empty: of a pack, or a plug."""

    item: ItemNow | None
    station: str
    place: Place
    rating: PassedRating
    grounds: bool = False


def rating_rows(craft: Craft) -> Iterator[Row]:
    """A row for each item that is asked for more than its spec says, and one for the plugs.

    It grounds where no pack of the aircraft has cells that a part of it takes, and where the servos
    draw more than the regulator gives: its receiver would go with it.
    """
    aircraft = craft.now
    fitted = [
        (here, item)
        for here in aircraft.items()
        if (item := craft.hangar.items.get(here.tag)) is not None
    ]
    together: dict[tuple[str | None, str], list[Passed]] = {}
    for one in (*_cells(craft, fitted), *_currents(craft), *_regulated(fitted)):
        key = (None if one.item is None else one.item.tag, one.station)
        together.setdefault(key, []).append(one)
    for of_one in together.values():
        yield _row(aircraft, of_one)


def _flown(craft: Craft) -> list[ItemNow]:
    return [pack for pack in craft.packs if craft.slug in pack.flown_on]


def _cells(craft: Craft, fitted: Iterable[tuple[Fitted, ItemNow]]) -> Iterator[Passed]:
    """A pack outside the cells of what it feeds; told with each that was flown, or weighed, so."""
    packs = [pack for pack in craft.packs if pack.spec.cells is not None]
    for here, item in fitted:
        wrong = [pack for pack in packs if not takes(item.spec, pack.spec)]
        if wrong:
            grounds = len(wrong) == len(craft.packs)
            yield Passed(item, here.station, here.place, outside(item, wrong), grounds)


def _currents(craft: Craft) -> Iterator[Passed]:
    """Full throttle, standing still, with each pack flown: the most of them is told."""
    over: dict[tuple[str, str, str], list[tuple[Load, ItemNow]]] = {}
    for pack in _flown(craft):
        try:
            found = loads(craft, pack)
        except (Lacking, ValueError):
            continue
        for load in found:
            if load.passed and load.what not in TOLD_APART:
                tag = "" if load.item is None else load.item.tag
                over.setdefault((load.what, load.at, tag), []).append((load, pack))
    for told in over.values():
        load = max((load for load, _ in told), key=lambda one: one.asked)
        carries = Carries(
            asked=load.asked,
            rating=load.rating,
            unit=load.unit,
            packs=() if load.what == "pack" else tuple(pack.tag for _, pack in told),
            plug_from=load.at if load.what == "plug" else None,
        )
        station = "" if load.item is None else load.at
        yield Passed(load.item, station, load.place, carries)


def _regulated(fitted: list[tuple[Fitted, ItemNow]]) -> Iterator[Passed]:
    regulators = [one for one in fitted if one[1].spec.kind == "regulator"]
    if len(regulators) != 1:
        return
    here, regulator = regulators[0]
    fed = [item for _, item in fitted if item.spec.kind == "servo"]
    drawn = [item.spec.max_current_a for item in fed if item.spec.max_current_a is not None]
    most = regulator.spec.max_current_a
    if most is not None and round(sum(drawn), 6) > round(most, 6):
        draw = ServosDraw(drawn_a=sum(drawn), most_a=most)
        yield Passed(regulator, here.station, here.place, draw, grounds=True)
    gives = regulator.spec.voltage_v
    wrong: dict[float, list[str]] = {}
    for item in fed:
        needs = item.spec.voltage_v
        if gives is None or needs is None or needs <= gives <= needs * MOST_OVER:
            continue
        wrong.setdefault(needs, []).append(item.tag)
    if wrong:
        servos = tuple((for_v, tuple(tags)) for for_v, tags in wrong.items())
        feeds = ServosFed(gives_v=gives or 0.0, servos=servos)
        yield Passed(regulator, here.station, here.place, feeds)


def _row(aircraft: AircraftNow, found: list[Passed]) -> Row:
    first = found[0]
    tag, station = None if first.item is None else first.item.tag, first.station or None
    kind = None if first.item is None or first.item.is_pack else first.item.spec.kind
    passed = tuple(one.rating for one in found)
    over = OverRated(tag=tag, kind=kind, station=station, passed=passed)
    alone = passed[0] if len(passed) == 1 and isinstance(passed[0], CellsOutside) else None
    because = Because(
        why="rating", place=first.place, tag=tag, station=station, found=alone or over
    )
    grounds = any(one.grounds for one in found)
    return danger_row(aircraft, _asked(found), because, first.place, grounds=grounds)


def _asked(found: list[Passed]) -> Ask:
    """What to do about all of them; the servos of a regulator come before its cells."""
    fed = any(isinstance(one.rating, ServosDraw | ServosFed) for one in found)
    if fed:
        return _FED_AND_CELLS if isinstance(found[0].rating, CellsOutside) else _FED
    cells = all(isinstance(one.rating, CellsOutside) for one in found)
    return _CELLS if cells else _ASK
