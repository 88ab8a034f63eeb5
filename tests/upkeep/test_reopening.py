"""What re-opens a check or a task: packs of another mass, and what befell an item itself."""

from programmes import STATIONS, WHOLE, built, check, programme, states, task, the_row, work
from written_logs import Log, item

BALANCE = programme(check("balance-point", "another pack mass"))
MASSES_KG = {"P-1": 0.200, "P-2": 0.220, "P-3": 0.300, "P-4": None}
PACKS = [item(tag, mass_kg=mass_kg) for tag, mass_kg in MASSES_KG.items()]


def balanced(*later: str, altered_before: int | None = None) -> str:
    """State of the balance check of an aircraft flown on P-1, checked, and then flown on these."""
    log = Log("aircraft/a")
    log.flight("01-01", packs="P-1")
    log.check("01-02", "balance-point")
    for number, packs in enumerate(later):
        if number == altered_before:
            log.alteration(f"0{number + 2}-01", keys=("sundries",))
            log.check(f"0{number + 2}-01", "balance-point")
        log.flight(f"0{number + 2}-02", packs=packs)
    return the_row(work([log], [BALANCE], items=PACKS), "balance-point").state


def test_a_pack_of_another_mass_re_opens_the_balance() -> None:
    """More than a tenth; 220 g after 200 g is at the line and not over it."""
    assert "ok" == balanced("P-1")
    assert "ok" == balanced("P-2")
    assert "stale" == balanced("P-3")
    assert "stale" == balanced("P-1 P-2")


def test_a_flight_with_a_pack_of_no_known_mass_tells_nothing() -> None:
    """Neither that the mass is another nor what was flown before."""
    assert "ok" == balanced("P-4")
    assert "ok" == balanced("P-3 P-4")
    assert "stale" == balanced("P-3 P-4", "P-3")


def test_after_an_alteration_only_the_pack_flown_last_is_known() -> None:
    """The balance with an earlier one is another since."""
    assert "ok" == balanced("P-3", "P-3", altered_before=1)
    assert "stale" == balanced("P-3", "P-1", altered_before=1)


def test_a_crash_before_an_item_sat_there_does_not_touch_it() -> None:
    """A motor that was looked at on the bench and fitted after it."""
    rule = task("bearings", {"hours": 100}, each="motor", also_after="crash")
    log = built(Log("aircraft/a"))
    log.inspection("01-02", "bearings", " ".join(["M-9", *WHOLE[:4]]))
    log.incident("02-01", severity="total")
    log.fit("03-01", {STATIONS[0]: {"motor": "M-9"}})
    found = states(work([log], [programme(rule)], items=[*WHOLE, "M-9"]), "bearings")

    assert dict.fromkeys(STATIONS, "stale") | {STATIONS[0]: "ok"} == found


def test_a_motor_stood_idle_as_long_as_its_aircraft_did() -> None:
    """One that lies in a drawer flew nowhere, so no time without flying re-opens it."""
    rule = task("bearings", {"hours": 100}, each="motor", also_after="idle 30 days")
    log = built(Log("aircraft/a"))
    log.inspection("01-02", "bearings", " ".join(WHOLE[:4]))
    log.flight("01-05")
    items = [*WHOLE, "M-9"]

    for as_of, state in (("02-04", "ok"), ("02-05", "stale")):
        found = states(work([log], [programme(rule)], items=items, as_of=as_of), "bearings")
        assert dict.fromkeys(STATIONS, state) == found
