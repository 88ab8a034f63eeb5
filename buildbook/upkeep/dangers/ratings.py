"""More than a recorded rating, never a default one: cells, servo currents, regulator volts."""

from collections.abc import Iterator

from buildbook.basis import amounts
from buildbook.basis.place import Place
from buildbook.figures.answers.craft import Craft
from buildbook.report.state import AircraftNow, Hangar, ItemNow
from buildbook.report.work import Because, Row
from buildbook.upkeep.dangers.rows import Ask, danger_row, remark, worded

RATINGS = "ratings"

MOST_OVER = 1.2
"""So many times its rated voltage a servo takes. Common practice, no source."""

_ASK = Ask(
    name=RATINGS,
    what="Fly another pack, or fit parts that carry it; correct the spec where it is wrong.",
)


def rating_rows(hangar: Hangar, aircraft: AircraftNow) -> Iterator[Row]:
    """A row for each item that is asked for more than its spec says; it grounds nothing.

    A pack outside the cells of an ESC is told with each pack that was flown so.
    """
    craft = Craft(hangar, aircraft.slug)
    fitted = [
        (here.station, here.place, item)
        for here in aircraft.items()
        if (item := hangar.items.get(here.tag)) is not None
    ]
    for station, place, item in fitted:
        cells = item.spec.cells
        if item.spec.kind != "esc" or cells is None:
            continue
        wrong = [
            pack.tag
            for pack in craft.packs
            if pack.spec.cells is not None
            and aircraft.slug in pack.flown_on
            and not cells.series <= pack.spec.cells.series <= cells.series_most
        ]
        if wrong:
            said = f"{', '.join(wrong)} outside the cells of {item.tag}"
            yield _row(aircraft, item, station, place, said)
    yield from _regulated(aircraft, [(station, place, item) for station, place, item in fitted])


def _regulated(aircraft: AircraftNow, fitted: list[tuple[str, Place, ItemNow]]) -> Iterator[Row]:
    regulators = [one for one in fitted if one[2].spec.kind == "regulator"]
    if len(regulators) != 1:
        return
    station, place, regulator = regulators[0]
    fed = [item for _, _, item in fitted if item.spec.kind == "servo"]
    drawn = [item.spec.max_current_a for item in fed if item.spec.max_current_a is not None]
    most = regulator.spec.max_current_a
    if most is not None and round(sum(drawn), 6) > round(most, 6):
        said = f"servos draw {amounts.current(sum(drawn))}, more than {amounts.current(most)}"
        yield _row(aircraft, regulator, station, place, said)
        return
    gives = regulator.spec.voltage_v
    for item in fed:
        needs = item.spec.voltage_v
        if gives is None or needs is None or needs <= gives <= needs * MOST_OVER:
            continue
        said = f"gives {amounts.voltage(gives)}, {item.tag} needs {amounts.voltage(needs)}"
        yield _row(aircraft, regulator, station, place, said)
        return


def _row(aircraft: AircraftNow, item: ItemNow, station: str, place: Place, said: str) -> Row:
    because = Because(
        why="rating", place=place, tag=item.tag, station=station, found=remark({"found": said})
    )
    what = f"{RATINGS} of {item.tag} at {station} are passed: {said}"
    return danger_row(aircraft, _ASK, worded(because, what), place, grounds=False)
