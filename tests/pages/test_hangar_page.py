"""The front page: what is grounded first, what to do first, packs with quarantine first."""

import datetime

from msgspec import structs

from buildbook.pages.hangar import first_jobs, page
from buildbook.report.upkeep.jobs import Job
from buildbook.reporting.drawn.plans import MONTHS
from buildbook.reporting.registry import reports_of
from buildbook.words.measures.days import EXACT
from buildbook.words.work_list import job_title


def test_panels_say_how_each_aircraft_stands(owner):
    """State, flying and the first thing to do."""
    facts = page(owner, "").facts
    told = [
        (one.slug, one.state, one.layout, one.flights, one.flown, one.last_flown)
        for one in facts["panels"]
    ]

    assert [
        ("sedge", "grounded", "quad, X", 11, "1.3 h", datetime.date(2026, 6, 20)),
        ("rush", "building", "tricopter, Y", 0, "0.00 h", None),
    ] == told
    assert [("grounded", 1), ("building", 1)] == [one[:2] for one in facts["tallies"]]


def test_the_first_thing_to_do_is_named_and_the_rest_counted(owner):
    """One name and how many more."""
    sedge, rush = page(owner, "").facts["panels"]

    assert ("spin directions", 1) == (job_title(sedge.next, EXACT), sedge.more)
    assert (None, 0) == (rush.next, rush.more)


def test_packs_in_quarantine_come_before_health(owner):
    """P-1 is set aside and stands first."""
    facts = page(owner, "").facts

    assert [("P-1", "quarantined"), ("P-2", "nothing open")] == [
        (pack.tag, pack.state) for pack in facts["packs"]
    ]
    assert facts["quarantined"]


def test_the_work_list_on_the_front_page_is_what_is_open(owner):
    """Not what is in order."""
    facts = page(owner, "").facts

    assert ["spin directions", "screws"] == [job_title(job, EXACT) for job in facts["jobs"]]
    assert 0 == facts["more_jobs"]


def test_flying_is_shown_for_a_year_of_months(owner):
    """The sparkline has a bar a month, the last one that of the day shown."""
    sedge, rush = page(owner, "").facts["panels"]

    assert None is rush.flying
    assert 12 == MONTHS
    assert "Flights by month, Jul 2025 to Jun 2026" in sedge.flying
    assert "Oldest first: 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 11." in sedge.flying


def test_a_hangar_without_aircraft_says_so(open_changed):
    """An empty hangar is a page, not an error."""
    hangar = open_changed({}).hangar
    empty = structs.replace(hangar, aircraft={}, items={})

    assert () == page(reports_of(empty), "").facts["panels"]


def job(aircraft, group, number):
    """Something to do on an aircraft."""
    return Job(group=group, state="due", instruction=f"job {number}", aircraft=aircraft)


def test_one_long_list_does_not_hide_what_other_aircraft_ask_for():
    """Three of the one with four, then what comes up on the others; in the order of the list."""
    jobs = [
        *(job("a", "now", number) for number in range(4)),
        *(job(one, "soon", 9) for one in "abc"),
    ]

    assert [("a", 0), ("a", 1), ("a", 2), ("b", 9), ("c", 9)] == [
        (one.aircraft, int(one.instruction[4:])) for one in first_jobs(jobs)
    ]


def test_each_aircraft_has_a_turn_before_any_has_its_second():
    """Of six aircraft five; what comes up takes no place of another aircraft that asks now."""
    jobs = [
        *(job("a", "first", number) for number in range(4)),
        *(job(one, "now", 0) for one in "bcde"),
        job("f", "soon", 0),
    ]

    assert ["a", "b", "c", "d", "e"] == [one.aircraft for one in first_jobs(jobs)]
    assert [0, 1, 2, 3] == [int(one.instruction[4:]) for one in first_jobs(jobs[:4])]


def test_what_is_grounded_stands_first(demo_reports):
    """On the front page, among the panels and in the count."""
    facts = page(demo_reports, "").facts

    assert ["Hogweed", "Burdock", "Trefoil", "Thistledown", "Clover"] == [
        panel.name for panel in facts["panels"]
    ]
    assert ("grounded", 1) == facts["tallies"][0][:2]
    assert ["hogweed", "hogweed", "hogweed", "burdock", "trefoil"] == [
        job.aircraft for job in facts["jobs"]
    ]
    assert (1, 0) == (facts["more_jobs"], facts["soon"])
