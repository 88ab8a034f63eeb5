"""Notices by spec: R28 of the record rules, from the files to the work list.

Source of the rule: 14 CFR 91.417(a)(2)(v), status of directives with number, revision, method and
next due; AMC1 ML.A.305(c), what is not applicable needs a reason.
"""

from programmes import on, rows, states, the_row, worded
from written_files import hangar_of, read

from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.findings import Revised
from buildbook.report.upkeep.work import WorkList
from buildbook.upkeep.work_list import work_list

NOTICE = """\
- notice: sb-7
  spec: esc-x
  issued: 2026-03-10
  revision: 2
  what: Look for a cracked joint.
  source: the maker
"""
PARTS = {
    "parts/specs.yaml": """\
- {spec: esc-x, kind: esc}
- {spec: esc-y, kind: esc}
- {spec: pack-x, kind: battery, cells: 3S, capacity: 2000 mAh}
""",
    "parts/items.yaml": """\
- {tags: E-01..E-04, spec: esc-x, acquired: 2026-01-01}
- {tag: Y-01, spec: esc-y, acquired: 2026-01-01}
- {tag: P-01, spec: pack-x, acquired: 2026-01-01}
""",
}


def plane(name: str, log: str) -> dict[str, str]:
    return {
        f"aircraft/{name}/aircraft.yaml": (
            f"aircraft: {name.title()}\nkind: aeroplane\nlayout: aeroplane\n"
        ),
        f"aircraft/{name}/logbook.yaml": log,
    }


FITTED = {
    **PARTS,
    **plane("a", "- {on: 2026-02-01, fit: {nose: {esc: E-01}, tail: {esc: Y-01}}}\n"),
    **plane("b", "- {on: 2026-02-01, fit: {nose: {esc: E-02}}}\n"),
}


def work(files: dict[str, str], as_of: str = "2026-12-31") -> WorkList:
    return work_list(hangar_of({**files, "notices/makers.yaml": NOTICE}, as_of))


def test_R28_a_notice_is_open_where_the_part_is_carried_until_it_is_done() -> None:
    """A and B carry the ESC, only A has it applied: B is open, and another spec is untouched."""
    done = FITTED["aircraft/a/logbook.yaml"] + "- {on: 2026-03-12, inspection: sb-7, by: ida}\n"

    listed = work({**FITTED, "aircraft/a/logbook.yaml": done})

    found = {row.tag: (row.aircraft, row.state) for row in rows(listed, "sb-7")}
    assert {
        "E-01": ("a", "ok"),
        "E-02": ("b", "due"),
        "E-03": (None, "due"),
        "E-04": (None, "due"),
    } == found
    assert ["sb 7 of E-02 at nose: due, notice of 10 March 2026, revision 2"] == [
        worded(reason)
        for reason in on(listed, "b").reasons
        if reason.row is not None and reason.row.name == "sb-7"
    ]
    assert not any(reason.row is not None for reason in on(listed, "a").reasons)


def test_R28_the_row_tells_the_notice_and_what_was_done() -> None:
    """Its revision and place while it is open; who did it and where once it is done."""
    before = work(FITTED, "2026-03-11")
    done = FITTED["aircraft/b/logbook.yaml"] + "- {on: 2026-03-12, inspection: sb-7, by: ida}\n"
    after = work({**FITTED, "aircraft/b/logbook.yaml": done}, "2026-03-12")

    (row,) = (row for row in rows(before, "sb-7") if row.tag == "E-02")
    assert row.because is not None
    assert ("notice", Revised(revision="2")) == (row.because.why, row.because.found)
    assert "notices/makers.yaml:1" == str(row.place)
    assert "Look for a cracked joint." == getattr(row.rule, "what", None)
    assert ("task", "nose", ranks.DUE, False) == (row.kind, row.station, row.rank, row.grounds)
    (row,) = (row for row in rows(after, "sb-7") if row.tag == "E-02")
    assert ("ok", "ida", "aircraft/b/logbook.yaml:2") == (row.state, row.by, str(row.place))


def test_R28_a_notice_is_not_there_before_it_was_issued() -> None:
    """As of the day before there is no row; on the day itself it is open."""
    assert [] == rows(work(FITTED, "2026-03-09"), "sb-7")
    assert {"due"} == set(states(work(FITTED, "2026-03-10"), "sb-7").values())


def test_R28_what_was_done_before_the_day_of_issue_does_not_count() -> None:
    """So a later revision with a later day asks for it again."""
    early = FITTED["aircraft/b/logbook.yaml"] + "- {on: 2026-03-09, inspection: sb-7}\n"
    just = FITTED["aircraft/b/logbook.yaml"] + "- {on: 2026-03-10, inspection: sb-7}\n"

    def state(log: str) -> str:
        listed = work({**FITTED, "aircraft/b/logbook.yaml": log})
        return next(row.state for row in rows(listed, "sb-7") if row.tag == "E-02")

    assert ("due", "ok") == (state(early), state(just))


def test_R28_only_the_tags_that_are_named_are_closed() -> None:
    """Without tags an inspection is of all that sits on the aircraft."""
    log = (
        "- {on: 2026-02-01, fit: {wing-left: {esc: E-01}, wing-right: {esc: E-02}}}\n"
        "- {on: 2026-03-12, inspection: sb-7, tags: [E-02]}\n"
    )

    listed = work({**PARTS, **plane("a", log)})

    assert {"E-01": "due", "E-02": "ok"} == {
        row.tag: row.state for row in rows(listed, "sb-7") if row.aircraft == "a"
    }


def test_R28_not_applicable_closes_it_with_a_reason() -> None:
    """The row stays, as not applicable, at the entry that says so."""
    log = FITTED["aircraft/b/logbook.yaml"] + (
        "- {on: 2026-03-12, inspection: sb-7, result: not applicable, because: the later board}\n"
    )

    listed = work({**FITTED, "aircraft/b/logbook.yaml": log})

    (row,) = (row for row in rows(listed, "sb-7") if row.tag == "E-02")
    assert (
        "not applicable",
        "sb 7 of E-02 at nose: not applicable, looked at on 12 March 2026",
    ) == (row.state, worded(row))
    assert ("aircraft/b/logbook.yaml:2", ranks.NOT_APPLICABLE) == (str(row.place), row.rank)


def test_R28_not_applicable_without_a_reason_is_a_problem() -> None:
    """Also of a task, which is dropped in the programme instead."""
    log = FITTED["aircraft/b/logbook.yaml"] + (
        "- {on: 2026-03-12, inspection: sb-7, result: not applicable}\n"
        "- on: 2026-03-13\n"
        "  inspection: motor-bearings\n"
        "  result: not applicable\n"
        "  because: none\n"
    )

    _, told = read({**FITTED, "aircraft/b/logbook.yaml": log, "notices/makers.yaml": NOTICE})

    assert [
        "'sb-7' is not applicable, without a reason @ aircraft/b/logbook.yaml:2 (add because:)",
        "'motor-bearings' is not a notice, so it cannot be not applicable"
        " @ aircraft/b/logbook.yaml:5 (drop it in the programme, with the reason)",
    ] == told


def test_R28_a_recurring_notice_counts_from_when_it_was_done() -> None:
    """Whichever comes first, like a task; due exactly at the interval."""
    notice = NOTICE + "  every: {flights: 3, months: 6}\n"
    log = FITTED["aircraft/b/logbook.yaml"] + "- {on: 2026-03-12, inspection: sb-7}\n"

    def row(flights: int, as_of: str = "2026-04-01") -> tuple[str, float, str | None]:
        flown = "".join("- {on: 2026-03-13, flight: 5:00}\n" for _ in range(flights))
        files = {**FITTED, "aircraft/b/logbook.yaml": log + flown, "notices/m.yaml": notice}
        found = rows(work_list(hangar_of(files, as_of)), "sb-7")
        one = next(row for row in found if row.tag == "E-02")
        return one.state, one.left["flights"], str(one.due_on)

    assert ("ok", 3, "2026-09-12") == row(0)
    assert ("due soon", 1, "2026-09-12") == row(2)
    assert ("due", 0, "2026-09-12") == row(3)
    assert ("overdue", -1, "2026-09-12") == row(4)
    assert ("due", 3, "2026-09-12") == row(0, "2026-09-12")


def test_R28_a_notice_grounds_only_where_it_says_so() -> None:
    """Open, or overdue where it recurs; but a failed look grounds in any case."""
    log = FITTED["aircraft/b/logbook.yaml"]
    flown = "- {on: 2026-03-12, inspection: sb-7}\n" + "- {on: 2026-03-13, flight: 5:00}\n" * 2

    def grounds(more: str, entries: str = "") -> bool:
        files = {
            **FITTED,
            "aircraft/b/logbook.yaml": log + entries,
            "notices/m.yaml": NOTICE + more,
        }
        found = rows(work_list(hangar_of(files)), "sb-7")
        return next(row for row in found if row.tag == "E-02").grounds

    assert (False, True) == (grounds(""), grounds("  grounds: true\n"))
    recurring = "  every: {flights: 1}\n"
    assert not grounds(recurring, flown)
    assert grounds(recurring + "  grounds: true\n", flown)
    assert grounds("", "- {on: 2026-03-12, inspection: sb-7, result: fail, findings: cracked}\n")


def test_R28_a_pack_has_its_notices_too_and_a_retired_part_none() -> None:
    """Quarantined parts keep theirs, as they may come back."""
    log = (
        "- {on: 2026-02-02, state: {E-03: retired, E-04: quarantined}}\n"
        "- {on: 2026-02-02, charge: P-01}\n"
    )
    notice = NOTICE.replace("esc-x", "[esc-x, pack-x]")

    files = {**FITTED, "stores/shelf.yaml": log, "notices/m.yaml": notice}
    listed = work_list(hangar_of(files))

    assert ["E-01", "E-02", "E-04", "P-01"] == sorted(row.tag or "" for row in rows(listed, "sb-7"))
    assert "sb-7" in {row.name for row in listed.packs[0].rows}


def test_R28_aircraft_that_do_not_fly_have_no_open_notices() -> None:
    """A stored aircraft raises no rows but life limits."""
    files = {**FITTED}
    files["aircraft/b/aircraft.yaml"] += "status: stored\n"

    assert "E-02" not in {row.tag for row in rows(work(files), "sb-7")}


def test_R28_mistakes_in_a_notice_are_told_with_their_place() -> None:
    """A missing key, an unknown spec, a name that is taken, a key with a slip."""
    notices = """\
- {notice: sb-1, spec: esc-z, issued: 2026-03-10, what: Look.}
- {notice: sb-1, spec: esc-x, issued: 2026-03-10, what: Look.}
- {notice: motor-bearings, spec: esc-x, issued: 2026-03-10, what: Look.}
- {notice: sb-2, spec: esc-x, what: Look.}
- {notice: sb-3, spec: [], issued: 2026-03-10, what: Look., sourze: x}
- {notice: sb-4, spec: esc-x, issued: 2026-03-10, what: Look., every: {}}
"""
    log = "- {on: 2026-02-02, inspection: sb-22, tags: [E-03]}\n"

    _, told = read({**FITTED, "notices/m.yaml": notices, "stores/shelf.yaml": log})

    assert [
        "unknown spec 'esc-z' @ notices/m.yaml:1 (did you mean 'esc-x'?)",
        "notice 'sb-1' exists twice @ notices/m.yaml:2 (give one of them another name)",
        "notice 'motor-bearings' has the name of a task or check @ notices/m.yaml:3"
        " (give it another name)",
        "notice 'sb-2' has no 'issued' @ notices/m.yaml:4 (as in issued: 2026-04-02)",
        "'spec' is an empty list @ notices/m.yaml:5",
        "unknown key 'sourze' in a notice @ notices/m.yaml:5 (did you mean 'source'?)",
        "unknown task 'sb-22' @ stores/shelf.yaml:1 (did you mean 'sb-2'?)",
    ] == told


def test_the_row_of_a_notice_is_named_once_for_each_part() -> None:
    """Two notices of one spec, or one notice twice over the same spec, are no more rows."""
    notice = NOTICE.replace("esc-x", "[esc-x, esc-x]")

    files = {**FITTED, "notices/m.yaml": notice}
    listed = work_list(hangar_of(files))

    assert 4 == len(rows(listed, "sb-7"))
    assert (
        "E-02"
        == the_row(
            WorkList(
                as_of=listed.as_of,
                aircraft=(),
                packs=(),
                rows=tuple(row for row in listed.rows if row.aircraft == "b"),
            ),
            "sb-7",
        ).tag
    )
