"""Rows of upkeep as jobs: what is alike is one job, grouped by what to do first."""

import datetime

from buildbook.pages.theme import Press, theme_folders
from buildbook.pages.work.due import MOST_IN_SIGHT, by_aircraft, in_order, page
from buildbook.records.triggers import Trigger
from buildbook.report.upkeep.jobs import Job
from buildbook.report.upkeep.work import Because
from buildbook.words import work_list
from buildbook.words.measures.days import EXACT, Days
from buildbook.words.reasons import because_words
from buildbook.words.work_list import job_title


def test_rows_that_are_alike_are_one_job(owner):
    """Three stations whose check holds are one line; the one that was never done is another."""
    told = [
        (job.group, job.state, job_title(job, EXACT), job.tags, job.stations, job.aircraft)
        for job in owner.jobs()
    ]

    assert [
        ("first", "never done", "spin directions", (), ("rear-left",), "sedge"),
        ("now", "in tolerance", "screws", (), (), "sedge"),
        (
            "later",
            "ok",
            "spin directions",
            (),
            ("front-left", "front-right", "rear-right"),
            "sedge",
        ),
        ("later", "ok", "motor retirement", ("M-1", "M-2", "M-3", "M-4"), (), "sedge"),
        ("later", "ok", "motor retirement", ("M-5",), (), None),
    ] == told


def test_a_job_carries_the_instruction_of_its_programme(owner):
    """What to do, and whether the propellers come off first."""
    first = owner.jobs()[0]

    assert ("Compare each direction with the layout.", True) == (first.what, first.propellers_off)


def test_jobs_of_an_aircraft_are_its_own(owner):
    """The building one has no work."""
    assert ["sedge"] * 4 == [job.aircraft for job in owner.jobs_of_aircraft("sedge")]
    assert () == owner.jobs_of_aircraft("rush")


def test_groups_come_in_the_order_in_which_to_act(owner):
    """Empty groups are left out."""
    assert ["first", "now", "later"] == [group for group, _ in work_list.grouped(owner.jobs())]


def test_what_is_in_order_goes_by_aircraft_and_the_drawer_last(owner):
    """Checks that hold apart from what comes round."""
    found = in_order(job for job in owner.jobs() if job.group == "later")

    assert ["sedge", None] == [one.aircraft for one in found]
    assert ["spin directions"] == [job_title(job, EXACT) for job in found[0].holding]
    assert ["motor retirement"] == [job_title(job, EXACT) for job in found[0].coming]


def test_what_is_set_aside_and_fitted_is_a_job_without_a_row(open_changed):
    """A reason that no row stands for is not lost."""
    logbook = (
        "- on: 2026-02-01\n  fit: {front-left: {motor: M-1, esc: E-1, propeller: L-1}}\n"
        "- on: 2026-02-02\n  state: {M-1: quarantined}\n"
    )
    jobs = open_changed({"aircraft/sedge/logbook.yaml": logbook}).jobs()

    without_row = [(job.group, job.state) for job in jobs if job.row is None]
    assert [("first", "grounded")] == without_row


def test_a_defect_is_told_in_its_words_to_the_owner_only(open_changed):
    """The public, with incidents not shared, learns that there is one."""
    logbook = (
        "- on: 2026-06-01\n  defect: Crack in the rear arm\n  station: rear-left\n"
        "  id: rear-crack\n"
    )
    changed = {"aircraft/sedge/logbook.yaml": logbook}
    told = {
        audience: next(
            (job_title(job, EXACT), job.what, job.row.name)
            for job in open_changed(changed, audience).jobs()
            if job.row is not None and job.row.kind == "defect"
        )
        for audience in ("owner", "public")
    }

    assert ("defect", "Crack in the rear arm", "rear-crack") == told["owner"]
    assert ("defect", "", "defect") == told["public"]


def test_the_due_page_asks_for_props_off_where_hands_are_on(owner):
    """The caution stands before the first step."""
    facts = page(owner, "").facts

    assert (True, False) == (facts["hands_on"], facts["check_flight"])
    assert ("few",) == facts["programmes"]


def test_why_is_told_with_its_day_or_its_month():
    """A public reader is told the month, with the word that goes with a month."""
    because = Because(why="trigger", trigger=Trigger("hard landing"), on=datetime.date(2026, 6, 14))

    assert "re-opened: hard landing on 14 June 2026" == because_words(because, EXACT)
    assert "re-opened: hard landing in June 2026" == because_words(because, Days(exact=False))


NOTICE = """\
- notice: sb-7
  spec: e-1
  issued: 2026-06-02
  revision: 2
  what: Look for a cracked joint at the lead.
  source: the maker
  grounds: true
- {notice: sb-9, spec: m-1, issued: 2026-07-02, what: Later than the day shown.}
"""


def test_a_notice_is_a_job_on_every_part_that_it_is_about(open_changed):
    """Four fitted ESCs are one line that grounds; what was issued later is not told yet."""
    reports = open_changed({"notices/makers.yaml": NOTICE})
    job = next(
        job for job in reports.jobs() if job_title(job, EXACT) == "sb 7" and job.aircraft == "sedge"
    )

    assert ("first", "due", ("E-1", "E-2", "E-3", "E-4")) == (job.group, job.state, job.tags)
    assert "Look for a cracked joint at the lead." == job.what
    assert "notice of 2 June 2026, revision 2" == because_words(job.row.because, EXACT)
    assert [("sb-7", ("ESC 20 A",))] == [
        (told.notice.notice, told.parts) for told in page(reports, "").facts["notices"]
    ]


def test_notices_stand_on_the_due_page(open_changed):
    """With what they ask for, escaped and with their place for the owner."""
    reports = open_changed({"notices/makers.yaml": NOTICE.replace("joint", "<joint>")})
    text = Press(reports, theme_folders(None)).compose(page(reports, ""))

    assert "Look for a cracked &lt;joint&gt; at the lead." in text
    assert "notices/makers.yaml:1" in text
    assert "Later than the day shown." not in text


def test_what_comes_round_has_a_line_for_each_value_on_a_phone(owner_press, owner):
    """Three columns, of which the last is long: each cell knows the name of its own."""
    html = owner_press.compose(page(owner, ""))

    assert '<table class="coming stacks">' in html
    assert 'data-label="due first"' in html


def test_a_long_work_list_is_folded_by_aircraft_and_loses_nothing():
    """Worst first within an aircraft; every job stands in exactly one fold."""
    jobs = tuple(
        Job(group="later", state="ok", instruction=f"job {number}", aircraft=f"a{number % 3}")
        for number in range(MOST_IN_SIGHT + 1)
    )

    folds = by_aircraft(jobs)

    assert ["a0", "a1", "a2"] == [slug for slug, _ in folds]
    assert sorted(job.what for job in jobs) == sorted(
        job.what for _, found in folds for job in found
    )
    assert ["job 0", "job 3", "job 6"] == [job.what for job in folds[0][1]][:3]
