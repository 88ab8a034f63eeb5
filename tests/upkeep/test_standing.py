"""The state of an aircraft and of a pack, with every reason, worst first."""

from programmes import WHOLE, built, check, limit, on, programme, task, told, worded, work
from written_logs import Log, aircraft, item

from buildbook.basis.place import Place
from buildbook.records.parts import Carried

LOG = "aircraft/a/logbook.yaml"
EVERYTHING = programme(
    check("spin-directions", "fit motor", per="motor station"),
    check("failsafe", "fit receiver"),
    check("check-flight", "fit motor"),
    check("balance-point", "repair", grounds=False),
    task("big-look", {"flights": 4}, grounds=True),
    task("light-look", {"flights": 4}),
    task("small-look", {"flights": 5}, tolerance={"flights": 3}),
    task("touch", {"flights": 6}),
    task("screws", {"flights": 7}),
    limit("motor-out", "motor", flights=6),
)


def test_S2_reasons_are_all_told_worst_first() -> None:
    """Rules, section 2, in the order of upkeep: one of each kind."""
    log = built(Log("aircraft/a"))
    log.check("01-02", "failsafe", "fail")
    for _ in range(6):
        log.flight("01-03")
    log.fit("01-04", {"front-left": {"motor": "M-9"}}, instead_of={"M-1": "serviceable"})
    log.state("01-04", R_2="quarantined")
    log.remove("01-04", "R-3")
    log.defect("01-05", item=None)

    listed = work([log], [EVERYTHING], items=[*WHOLE, "M-9"])

    standing = on(listed, "a")
    assert "grounded" == standing.state
    assert [
        (0, "defect: grounds, open for 360 days, found on 5 January 2026"),
        (1, "motor out of M-2 at front-right: reached, by flights"),
        (1, "motor out of M-3 at rear-left: reached, by flights"),
        (1, "motor out of M-4 at rear-right: reached, by flights"),
        (2, "R-2 at front-right: quarantined on 4 January 2026"),
        (3, "rear-left: no propeller fitted"),
        (4, "failsafe: failed on 2 January 2026"),
        (5, "spin directions at front-left: never done"),
        (5, "spin directions at front-right: never done"),
        (5, "spin directions at rear-left: never done"),
        (5, "spin directions at rear-right: never done"),
        (6, "big look: overdue by 2 flights"),
        (7, "fly a check flight next"),
        (8, "light look: overdue by 2 flights"),
        (9, "small look: in tolerance, 1 flight past due"),
        (10, "touch: due"),
        (11, "screws: due soon, 1 flight left"),
        (12, "balance point: never done"),
    ] == [(reason.rank, worded(reason)) for reason in standing.reasons]
    assert [reason.rank < 7 for reason in standing.reasons] == [
        reason.grounding for reason in standing.reasons
    ]


def test_S2a_one_thing_without_a_record_is_not_fine() -> None:
    """Rules, section 2 (a): everything ok and one unknown is not green."""
    log = built(Log("aircraft/a"))
    log.check("01-02", "failsafe")
    club = programme(
        check("failsafe", "fit receiver"), check("balance-point", "repair", grounds=False)
    )

    listed = work([log], [club], items=WHOLE)

    assert ("due soon", ["balance point: never done"]) == (
        on(listed, "a").state,
        told(on(listed, "a")),
    )


def test_S2b_an_open_defect_comes_before_what_is_overdue() -> None:
    """Rules, section 2 (b)."""
    log = built(Log("aircraft/a"))
    log.flight("01-02")
    log.flight("01-02")
    log.defect("01-03")

    listed = work([log], [programme(task("look", {"flights": 1}))], items=WHOLE)

    assert [
        "defect: grounds, open for 362 days, found on 3 January 2026",
        "look: overdue by 1 flight",
    ] == told(on(listed, "a"))


def test_S2c_without_a_programme_nothing_can_be_said() -> None:
    """Rules, section 2 (c): no maintenance programme recorded."""
    log = built(Log("aircraft/a"))

    listed = work([log], items=WHOLE, fleet=[aircraft("a")])

    standing = on(listed, "a")
    assert ("cannot say", None, ["no maintenance programme recorded"]) == (
        standing.state,
        standing.programme,
        told(standing),
    )
    assert Place("aircraft/a/aircraft.yaml", 1) == standing.reasons[0].place

    log.defect("01-02")
    listed = work([log], items=WHOLE, fleet=[aircraft("a")])
    assert (
        "grounded",
        [
            "defect: grounds, open for 363 days, found on 2 January 2026",
            "no maintenance programme recorded",
        ],
    ) == (
        on(listed, "a").state,
        told(on(listed, "a")),
    )


def test_grounded_outweighs_what_cannot_be_said() -> None:
    """And all reasons are there."""
    log = built(Log("aircraft/a"))
    log.remove("01-02", "R-1")
    motor = item("M-1", carried=Carried(basis="unknown"))
    club = programme(limit("motor-out", "motor", flights=100))

    listed = work([log], [club], items=[motor, *WHOLE[1:]])

    assert "grounded" == on(listed, "a").state
    assert [
        "front-left: no propeller fitted",
        "motor out of M-1 at front-left: cannot say, at least 0 flights, earlier history unknown",
    ] == told(on(listed, "a"))


def test_an_empty_station_names_what_it_lacks_and_where_it_went() -> None:
    """An ESC that serves the station from elsewhere is there."""
    log = built(Log("aircraft/a"))
    log.remove("01-02", "E-1", "E-2", "E-3", "E-4", "M-4")
    log.fit("01-03", {"centre": {"esc": "E-9"}}, serves={"E-9": ("front-left", "front-right")})

    listed = work([log], [programme()], items=[*WHOLE, "E-9"])

    assert [
        ("rear-left: no ESC fitted", Place(LOG, 20)),
        ("rear-right: no motor or ESC fitted", Place(LOG, 20)),
    ] == [(worded(reason), reason.place) for reason in on(listed, "a").reasons]


def test_an_esc_at_no_motor_station_that_names_none_may_drive_any() -> None:
    """An aeroplane with the motor in the nose and the ESC behind it."""
    log = Log("aircraft/a")
    log.fit("01-01", {"nose": {"motor": "M-1", "propeller": "R-1"}, "centre": {"esc": "E-1"}})
    plane = aircraft("a", programme="club", kind="aeroplane", layout="aeroplane")

    listed = work([log], [programme()], items=["M-1", "R-1", "E-1"], fleet=[plane])

    assert [] == told(on(listed, "a"))


def test_what_was_never_recorded_is_said_once_and_is_not_missing() -> None:
    """An aircraft of which nobody wrote what is fitted: not recorded, which grounds nothing."""
    listed = work([Log("aircraft/a")], [programme()], fleet=[aircraft("a", programme="club")])

    standing = on(listed, "a")
    assert ["no motor, ESC or propeller was ever recorded"] == told(standing)
    assert "due soon" == standing.state


def test_a_quarantined_pack_says_so_first_until_it_is_inspected() -> None:
    """After a crash; its health comes after that."""
    log = built(Log("aircraft/a"))
    log.flight("01-02", packs="P-1", landing="crash")
    club = programme(task("pack-look", {"flights": 1}, "battery"))

    listed = work([log], [club], items=[*WHOLE, "P-1"])
    pack = listed.packs[0]
    assert ("quarantined", ["P-1 is set aside: it was in a crash on 2 January 2026"]) == (
        pack.state,
        told(pack),
    )
    assert Place(LOG, 20) == pack.reasons[0].place

    log.inspection("01-03", "pack-look", "P-1")
    listed = work([log], [club], items=[*WHOLE, "P-1"])
    assert ("due soon", ["pack look of P-1: due soon, 1 flight left"]) == (
        listed.packs[0].state,
        told(listed.packs[0]),
    )


def test_a_retired_pack_raises_nothing() -> None:
    """It shows its state."""
    log = Log("aircraft/a")
    log.flight("01-02", packs="P-1")
    log.state("01-03", P_1="retired")
    club = programme(task("pack-look", {"flights": 1}, "battery"))
    plane = aircraft("a", programme="club", kind="aeroplane", layout="aeroplane")

    listed = work([log], [club], items=["P-1"], fleet=[plane])

    assert ("retired", ()) == (listed.packs[0].state, listed.packs[0].rows)


def test_the_work_list_is_in_the_order_of_the_work() -> None:
    """The worst first, then what comes first, then what is fine."""
    log = built(Log("aircraft/a"), "01-01")
    for _ in range(4):
        log.flight("01-02")
    club = programme(
        task("yearly", {"years": 1}),
        task("touch", {"flights": 4}),
        task("monthly", {"months": 6}),
        task("look", {"flights": 3}),
    )

    listed = work([log], [club], items=WHOLE, as_of="01-03")

    assert ["look", "touch", "monthly", "yearly"] == [row.name for row in listed.rows]


def test_exactly_one_row_for_each_thing() -> None:
    """Item and task, check and station, limit and item."""
    log = built(Log("aircraft/a"))
    log.flight("01-02", packs="P-1")
    listed = work([log], [EVERYTHING], items=[*WHOLE, "P-1"], programme="club")

    keys = [(row.kind, row.name, row.aircraft, row.tag, row.station) for row in listed.rows]
    assert len(set(keys)) == len(keys)


def test_only_of_a_flying_aircraft_what_sits_on_it_is_told() -> None:
    """A stored one keeps a part that is out of service, and says that it is stored."""
    log = built(Log("aircraft/a"))
    log.state("01-04", R_2="quarantined")
    fleet = {
        status: aircraft("a", programme="club", status=status) for status in ("flying", "stored")
    }
    told_of = {
        status: on(work([log], [programme()], items=WHOLE, fleet=[plane]), "a")
        for status, plane in fleet.items()
    }

    assert ["R-2 at front-right: quarantined on 4 January 2026"] == told(told_of["flying"])
    assert ("stored", []) == (told_of["stored"].state, told(told_of["stored"]))


def test_the_keepers_word_on_a_pack_comes_before_its_rows() -> None:
    """Also before a defect that grounds; it is told where the records set it aside as well."""
    log = built(Log("aircraft/a"))
    log.flight("01-02", packs="P-1")
    log.state("01-03", P_1="quarantined")
    log.defect("01-04", item="P-1")
    fallen = built(Log("aircraft/a"))
    fallen.flight("01-02", packs="P-1", landing="crash")
    fallen.state("01-03", P_1="quarantined")
    said, both = (
        told(work([one], [programme()], items=[*WHOLE, "P-1"]).packs[0]) for one in (log, fallen)
    )

    assert [
        "P-1: quarantined on 3 January 2026",
        "defect of P-1: grounds, open for 361 days, found on 4 January 2026",
    ] == said
    assert [
        "P-1 is set aside: it was in a crash on 2 January 2026",
        "P-1: quarantined on 2 January 2026",
    ] == both


def test_a_stale_check_comes_before_one_that_was_never_done() -> None:
    """Of two that ground nothing."""
    club = programme(
        check("balance-point", "repair", grounds=False), check("sockets", grounds=False)
    )
    log = Log("aircraft/a")
    log.check("01-02", "balance-point")
    log.repair("01-03")
    plane = aircraft("a", programme="club", kind="aeroplane", layout="aeroplane")

    reasons = on(work([log], [club], fleet=[plane]), "a").reasons

    assert [(10, "balance-point"), (12, "sockets")] == [
        (reason.rank, reason.row.name) for reason in reasons if reason.row is not None
    ]
