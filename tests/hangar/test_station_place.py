"""One place for a station, whichever records name it."""

import pytest
from written_logs import Log, aircraft, folded

from buildbook.figures.answers.craft import Craft
from buildbook.records.aircraft import Aircraft, StationPlan
from buildbook.report.drawn.station_place import StationPlace, place_of_station

AT, POSITION = (0.1, 0.0, 0.0), (0.3, 0.0, 0.0)
WRITTEN = StationPlan(at=AT)


def place(record: Aircraft, *logs: Log) -> StationPlace | None:
    """Of the nose of aircraft ``a``."""
    return place_of_station(
        folded(logs or [Log("aircraft/a")], fleet=[record]).aircraft["a"], "nose"
    )


def record(**more: object) -> Aircraft:
    """A custom layout, in which stations may say where they sit."""
    return aircraft("a", layout="custom", **more)


@pytest.mark.parametrize(
    ("more", "expected"),
    [
        ({"stations": {"nose": WRITTEN}}, StationPlace(AT, "station")),
        ({"positions": {"nose": POSITION}}, StationPlace(POSITION, "positions")),
        (
            {"stations": {"nose": WRITTEN}, "positions": {"nose": POSITION}},
            StationPlace(POSITION, "positions"),
        ),
        ({}, None),
    ],
)
def test_of_two_records_one_holds_and_is_named(
    more: dict[str, object], expected: StationPlace | None
) -> None:
    """The drawing and the figures ask the same."""
    assert expected == place(record(**more))


def test_the_figures_compute_where_the_drawing_draws() -> None:
    """With both records on one station, no two answers."""
    both = record(stations={"nose": WRITTEN}, positions={"nose": POSITION})
    hangar = folded([Log("aircraft/a")], fleet=[both])
    drawn = place_of_station(hangar.aircraft["a"], "nose", arm_m=1.0)

    assert drawn is not None
    assert drawn.at_m == Craft(hangar, "a").station_at("nose")


def test_an_alteration_replaces_whichever_record_there_was() -> None:
    """The later word holds, under whichever key it is written; the past keeps its own."""
    log = Log("aircraft/a")
    log.alteration("03-01", stations={"nose": WRITTEN})
    log.alteration("03-02", positions={"nose": POSITION})
    log.alteration("03-03", stations={"nose": WRITTEN})
    now = folded([log], fleet=[record(positions={"nose": POSITION})]).aircraft["a"]

    assert [POSITION, AT, POSITION, AT] == [
        found.at_m
        for seq in (-1, 0, 1, 2)
        if (found := place_of_station(now, "nose", now.after(seq))) is not None
    ]


def test_a_layout_places_its_stations_by_the_diagonal_and_the_centre_is_the_reference() -> None:
    """Without a diagonal only a drawing that is not to scale has places."""
    now = folded([Log("aircraft/a")], fleet=[aircraft("a", layout="quad-plus")]).aircraft["a"]

    assert place_of_station(now, "front") is None
    assert StationPlace((1.0, 0.0, 0.0), "layout") == place_of_station(now, "front", arm_m=1.0)
    assert StationPlace((0.0, 0.0, 0.0), "reference") == place_of_station(now, "centre")
