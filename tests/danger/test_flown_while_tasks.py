"""A11 of tasks that ground, of checks of one item, and after a long time without flying."""

from pathlib import Path

import pytest
from hangar_on_disk import AIRCRAFT, AS_OF, QUIET, Hangar, with_four_cells, with_log

LOG = "aircraft/sedge/logbook.yaml"
ARMS = """\
programme: mine
based_on: built-in small-multirotor
tasks:
  - task: arm-look
    what: Look at the arms.
    grounds: true
    every: {flights: 3}
    also_after: [setting arm_lock]
"""
BOARD = """\
programme: mine
based_on: built-in small-multirotor
checks:
  - check: board-look
    what: Look at the board.
    per: controller
    stale_after: [setting board_mount]
"""


def flights(day: str, count: int = 1) -> str:
    """So many flights of a day, each an entry."""
    return f"- on: {day}\n  flight: 5:00\n  pack: P-01\n" * count


LOOKED = "- on: {day}\n  inspection: arm-look\n"
CHECKED = "- on: 2026-06-19\n  check: board-look\n  result: pass\n"


def own(entries: str, programme: str) -> dict[str, str]:
    """Sedge under a programme of its keeper's own."""
    craft = AIRCRAFT.replace("programme: small-multirotor", "programme: mine")
    changed = {"aircraft/sedge/aircraft.yaml": craft, "programmes/mine.yaml": programme}
    return with_log(entries, **changed)


def hangar(folder: Path, entries: str, programme: str) -> Hangar:
    """The same on disk."""
    return Hangar(folder, own(entries, programme))


def flown_while(of: Hangar) -> list[str]:
    """What ``check --all`` says was flown while something was open, without its place."""
    said = of.run("check", str(of.folder), "--all")[1]
    return [
        line.partition(" @ ")[0].removeprefix("warning: sedge flown ")
        for line in said.splitlines()
        if line.startswith("warning: sedge flown ") and " while " in line
    ]


@pytest.mark.parametrize(
    ("entries", "said"),
    [
        # one flight in the quiet hangar: the third makes it due, and only after the fourth is it
        # overdue
        (flights("2026-06-20", 3), []),
        (
            flights("2026-06-19", 3) + flights("2026-06-20", 2),
            ["2 times while arm-look was open, on 2026-06-20"],
        ),
        (
            flights("2026-06-19", 3) + LOOKED.format(day="2026-06-19") + flights("2026-06-20", 2),
            [],
        ),
        (
            LOOKED.format(day="2026-06-19")
            + "- on: 2026-06-19\n  setting: {arm_lock: new clips}\n"
            + flights("2026-06-20", 2),
            ["2 times while arm-look was open, on 2026-06-20"],
        ),
    ],
    ids=["within", "past it", "looked in time", "re-opened"],
)
def test_a_task_that_grounds_is_open_past_its_interval(
    tmp_path: Path, entries: str, said: list[str]
) -> None:
    """Each flight is judged by what was flown and written before it."""
    assert said == flown_while(hangar(tmp_path, entries, ARMS))


def test_it_says_when_it_was_done_at_last(tmp_path: Path) -> None:
    """At the first flight past it; and where it still is not."""
    late = flights("2026-06-19", 3) + flights("2026-06-20", 2)
    open_ = hangar(tmp_path / "open", late, ARMS)
    done = hangar(tmp_path / "done", late + LOOKED.format(day="2026-06-20"), ARMS)

    assert "    not passed since: arm-look\n" in open_.check
    assert "    passed or cleared on 2026-06-20\n" in done.check
    assert "flown while arm look was open" in done.page("aircraft/sedge/logbook.html")


def test_a_task_that_does_not_ground_is_no_stretch(tmp_path: Path) -> None:
    """Being overdue alone keeps nothing down."""
    mild = ARMS.replace("    grounds: true\n", "")
    late = flights("2026-06-19", 3) + flights("2026-06-20", 2)

    assert [] == flown_while(hangar(tmp_path, late, mild))


def test_a_rule_that_holds_since_a_later_day_marks_nothing_before(tmp_path: Path) -> None:
    """A task that comes round from July on is not open on flights of June, in check and logbook."""
    late = flights("2026-06-19", 3) + flights("2026-06-20", 2)
    later = hangar(
        tmp_path, late, ARMS.replace("    grounds", "    since: 2026-07-01\n    grounds")
    )

    assert [] == flown_while(later)
    assert "flown while" not in later.page("aircraft/sedge/logbook.html")


def test_a_task_of_an_item_counts_while_it_sits_there(tmp_path: Path) -> None:
    """M-01 was overdue for one flight, then it came out; the one in its place is new."""
    motors = ARMS.replace("arm-look", "bell-look").replace(
        "    grounds: true\n", "    grounds: true\n    for: motor\n"
    )
    swap = (
        "- on: 2026-06-19\n  fit: {front-left: {motor: M-05}}\n  instead_of: {M-01: serviceable}\n"
    )
    looked = "- on: 2026-06-19\n  inspection: bell-look\n  tags: [M-02, M-03, M-04]\n"
    log = flights("2026-06-19", 4) + swap + looked + flights("2026-06-20", 2)
    found = " ".join(flown_while(hangar(tmp_path, log, motors)))

    assert "1 time while bell-look of M-01, M-02, M-03, M-04 was open, on 2026-06-19" in found
    assert "M-05" not in found


def test_a_check_of_one_item_is_walked_too(tmp_path: Path) -> None:
    """Never done from the first check on; stale by its trigger; quiet where it holds."""
    never = hangar(tmp_path / "never", flights("2026-06-19"), BOARD)
    held = hangar(tmp_path / "held", CHECKED + flights("2026-06-20"), BOARD)
    moved = "- on: 2026-06-19\n  setting: {board_mount: soft}\n"
    stale = hangar(tmp_path / "stale", CHECKED + moved + flights("2026-06-20", 2), BOARD)

    before = "1 time while board-look of C-01 was open, on 2026-06-18"
    assert ["2 times while board-look of C-01 was open, 2026-06-18 to 2026-06-19"] == (
        flown_while(never)
    )
    assert [before] == flown_while(held)
    assert [before, "2 times while board-look of C-01 was open, on 2026-06-20"] == (
        flown_while(stale)
    )


WINTER = QUIET["hangar.yaml"].replace(AS_OF, "2026-12-20")
FAILSAFE = "- on: {day}\n  check: failsafe\n  result: pass\n"


@pytest.mark.parametrize(
    ("entries", "said"),
    [
        (
            flights("2026-12-01", 2),
            ["2 times while failsafe was open, on 2026-12-01"],
        ),
        (FAILSAFE.format(day="2026-11-30") + flights("2026-12-01", 2), []),
        (
            FAILSAFE.format(day="2026-07-01") + flights("2026-12-01"),
            ["1 time while failsafe was open, on 2026-12-01"],
        ),
        (flights("2026-09-16"), []),
        (flights("2026-09-17"), ["1 time while failsafe was open, on 2026-09-17"]),
        (
            flights("2026-12-01") + FAILSAFE.format(day="2026-12-01") + flights("2026-12-02"),
            ["1 time while failsafe was open, on 2026-12-01"],
        ),
    ],
    ids=["open", "passed after", "passed too early", "90 days", "91 days", "passed between"],
)
def test_long_idling_opens_what_it_re_opens(tmp_path: Path, entries: str, said: list[str]) -> None:
    """``idle 90 days`` of the built-in failsafe: the last flight before was on 18 June."""
    of = Hangar(tmp_path, with_log(entries, **{"hangar.yaml": WINTER}))

    assert said == flown_while(of)


CELLS = """\
programme: mine
based_on: built-in small-multirotor
tasks:
  - task: lead-look
    what: Look at the leads of the pack.
    for: battery
    grounds: true
    every: {flights: 2}
"""


def test_a_task_of_a_pack_that_grounds_counts_its_own_flights(tmp_path: Path) -> None:
    """Those of another pack in between are no part of it, and the pack stays at home."""
    log = (
        flights("2026-06-19", 2)
        + "- on: 2026-06-19\n  flight: 5:00\n  pack: P-02\n"
        + flights("2026-06-20", 2)
    )
    open_ = hangar(tmp_path / "open", log, CELLS)
    looked = "- on: 2026-06-19\n  inspection: lead-look\n  tags: [P-01]\n"
    in_time = log.replace("- on: 2026-06-20", f"{looked}- on: 2026-06-20", 1)
    closed = hangar(tmp_path / "closed", in_time, CELLS)

    assert ["2 times while lead-look of P-01 was open, on 2026-06-20"] == flown_while(open_)
    assert ("grounded", "lead look of P-01: overdue by 3 flights") == (
        open_.pack("P-01")[0], open_.pack("P-01")[1][0],
    )  # fmt: skip
    assert "due soon" == open_.pack("P-02")[0]
    assert [] == flown_while(closed)


ALARM = """\
programme: mine
based_on: built-in small-multirotor
checks:
  - check: low-voltage-alarm
    grounds: true
"""


def on_four(count: int) -> str:
    """So many flights on a 4S pack, each an entry."""
    return "- on: 2026-06-20\n  flight: 5:00\n  pack: Q-01\n" * count


@pytest.mark.parametrize(
    ("mass_g", "check", "entries", "said"),
    [
        (220, "low-voltage-alarm", on_four(1), []),
        (220, "low-voltage-alarm", on_four(3), ["2 times"]),
        (
            220,
            "low-voltage-alarm",
            on_four(1)
            + "- on: 2026-06-20\n  check: low-voltage-alarm\n  result: pass\n"
            + on_four(2),
            [],
        ),
        (280, "balance-point", on_four(2), ["1 time"]),
        (220, "weighing", on_four(2), []),
    ],
    ids=["the first", "flown on", "checked at once", "another mass", "of neither"],
)
def test_another_pack_opens_what_it_re_opens_from_its_first_flight_on(
    tmp_path: Path, mass_g: int, check: str, entries: str, said: list[str]
) -> None:
    """More cells, or over a tenth heavier: what was flown after it, until the check."""
    files = own(entries, ALARM.replace("low-voltage-alarm", check))
    of = Hangar(tmp_path, with_four_cells(files, mass_g))

    found = [one for one in flown_while(of) if check in one]
    assert [f"{times} while {check} was open, on 2026-06-20" for times in said] == found
