"""Set-up checks: what re-opens them, and for which station or item only."""

from programmes import STATIONS, WHOLE, built, check, hangar, on, programme, states, the_row, told, work
from written_logs import Log, aircraft

from buildbook.basis.place import Place
from buildbook.records.aircraft import StationPlan
from buildbook.upkeep.row import Because
from buildbook.upkeep.work_list import set_up, work_list

SPIN = check("spin-directions", "fit motor, fit esc, fit controller, firmware controller, alteration stations, crash", per="motor station")
LOG = "aircraft/a/logbook.yaml"


def test_one_motor_reopens_its_own_station_and_nothing_else() -> None:
    """Section 3: motor 3 fitted -> spin direction of its station is stale, the others fresh."""
    log = built(Log("aircraft/a"))
    log.check("01-02", "spin-directions")
    log.fit("05-10", {"rear-left": {"motor": "M-9"}}, instead_of={"M-3": "retired"})

    listed = work([log], [programme(SPIN)], items=[*WHOLE, "M-9"])

    assert {
        "front-left": "ok", "front-right": "ok", "rear-left": "stale", "rear-right": "ok",
    } == states(listed, "spin-directions")
    assert ["spin-directions of rear-left is stale"] == told(on(listed, "a"))
    assert "grounded" == on(listed, "a").state
    (reason,) = on(listed, "a").reasons
    assert Because(
        why="trigger",
        trigger="fit motor",
        entry=f"{LOG}#2026-05-10-1",
        on=reason.because.on,
        place=Place(LOG, 30),
        station="rear-left",
    ) == reason.because
