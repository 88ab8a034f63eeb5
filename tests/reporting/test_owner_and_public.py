"""What the public is told is what the owner is told, or the same rounded, or nothing.

Pages of both are made from the same generated hangars, and every number and state of a public one
must stand on the page of the owner too.
"""

import html
import json
import re
from collections import Counter
from collections.abc import Iterator

from histories import History, histories
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec import structs
from programmes import check, hangar, limit, programme, task
from written_logs import Log, aircraft

from buildbook.audience.projection import projected
from buildbook.hangar.fold import fold
from buildbook.pages.page import Page
from buildbook.pages.site import make, plan
from buildbook.pages.theme import Press, theme_folders
from buildbook.report.reports import Reports
from buildbook.reporting.registry import reports_of

CLUB = programme(
    check("esc-endpoints", "fit motor, firmware esc, idle 9 days", per="motor station"),
    check("failsafe", "water, crash, hard landing"),
    task("screws", {"flights": 4, "days": 10}, tolerance={"flights": 1}),
    task("bearings", {"hours": 1, "flying_days": 3}, each="motor"),
    task("pack-look", {"charges": 3, "days": 20}, each="battery"),
    limit("motor-retire", each="motor", hours=1),
)
_NUMBER = re.compile(r"(?<![\w.])[-−]?\d+(?:[.,:]\d+)*")
_MARK = re.compile(r'<span class="mark [\w ]+">(?:<svg.*?</svg>)?([^<]*)</span>')
_SUMS = re.compile(
    r"<summary>.*?</summary>|<p class=\"soft\">\d+\sflights?, [\d.]+\sh</p>", re.DOTALL
)
_UNSEEN = re.compile(r"<(script|style)\b.*?</\1>|<[^>]+>", re.DOTALL)


def opened(history: History, status: str, ago: int) -> Reports:
    """The reports of a history under the programme, some days after its last entry."""
    written = history.ledger()
    planes = {
        slug: structs.replace(plane, programme="club", status=status if slug == "a" else "flying")
        for slug, plane in written.aircraft.items()
    }
    written = structs.replace(written, aircraft=planes, programmes={"club": CLUB})
    last = max((entry.on for entry in written.entries), default=history.on)
    folded = fold(written, last.fromordinal(last.toordinal() + ago))
    return reports_of(folded)


def composed(reports: Reports) -> Iterator[tuple[str, str]]:
    """Address and text of every page and JSON file."""
    press = Press(reports, theme_folders(None))
    for work in plan(reports):
        leaf = make(reports, work)
        if isinstance(leaf, Page):
            yield leaf.address, press.compose(leaf)
        elif leaf.address.endswith(".json"):
            yield leaf.address, leaf.text


def listed(text: str) -> str:
    """A logbook without the sums of its months and folds: what they add up stands under them."""
    return _SUMS.sub(" ", text)


def numbers(text: str) -> set[str]:
    """All numbers that a reader sees."""
    return set(_NUMBER.findall(html.unescape(_UNSEEN.sub(" ", text))))


def states(text: str) -> Counter[str]:
    """All marks of state, and how often each stands there."""
    return Counter(_MARK.findall(text))


def rows(text: str) -> list[object]:
    """What JSON says of each row of upkeep, without days and numbers of days."""
    return [
        (
            row["kind"],
            "defect" if row["kind"] == "defect" else row["name"],
            row["tag"],
            row["station"],
            row["state"],
            {unit: left for unit, left in row["left"].items() if unit != "days"},
        )
        for row in json.loads(text).get("rows", ())
    ]


@settings(max_examples=12, deadline=None, suppress_health_check=list(HealthCheck))
@given(
    history=histories(most=40),
    status=st.sampled_from(("flying", "stored", "building")),
    ago=st.integers(0, 40),
)
def test_every_number_and_state_of_the_public_is_the_owners(history, status, ago):
    """Counts, times and states are the same, though days are told as months."""
    owner = opened(history, status, ago)
    public = projected(owner, "public").reports
    told = dict(composed(owner))
    everywhere = {number for text in told.values() for number in numbers(text)}

    for address, text in composed(public):
        if address == "index.html" or address.endswith("/index.html"):  # made for others alone
            assert set() == numbers(text) - everywhere, address
            continue
        if address.endswith("/build.json"):  # the owner has his records
            assert set() == numbers(text) - {"1"} - everywhere, address
            continue
        if address.endswith(".json"):
            assert rows(told[address]) == rows(text), address
            continue
        seen = listed(text) if "/logbook" in address else text
        assert set() == numbers(seen) - numbers(told[address]), address
        assert Counter() == states(text) - states(told[address]), address


def test_a_check_of_a_stored_aircraft_holds_for_the_public_too():
    """Idle since the 15th, checked on the 20th: told in months, the order is not turned round."""
    log = Log("aircraft/a")
    log.flight("06-05")
    log.check("06-20", "failsafe")
    idle = programme(check("failsafe", "idle 9 days"))
    stored = aircraft("a", programme="club", status="stored")
    at = hangar([log], [idle], fleet=[stored], as_of="07-02")
    owner = reports_of(at)
    public = projected(owner, "public").reports

    assert ["ok"] == [row.state for row in owner.set_up_checks("a")]
    assert ["ok"] == [row.state for row in public.set_up_checks("a")]
