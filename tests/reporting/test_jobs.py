"""Jobs: what is alike is one job, and it tells of all its rows."""

import datetime

from buildbook.basis.place import Place
from buildbook.records.keeper import Keeper
from buildbook.records.ledger import Ledger
from buildbook.report.state import Hangar
from buildbook.report.upkeep.jobs import Job, Range
from buildbook.report.upkeep.work import Row, WorkList
from buildbook.reporting.upkeep.jobs import jobs_of_work
from buildbook.words import work_list
from buildbook.words.measures.days import EXACT

DAY = datetime.date(2026, 6, 30)
EMPTY = Hangar(
    as_of=DAY,
    ledger=Ledger(
        keeper=Keeper(hangar="Loft", file="hangar.yaml", line=1),
        specs={},
        items={},
        aircraft={},
        programmes={},
        entries=(),
    ),
    aircraft={},
    items={},
)


def retirement(tag: str, share: float, by: datetime.date) -> Row:
    """A life limit of a pack with so much left."""
    return Row(
        aircraft=None,
        kind="limit",
        name="pack-retire",
        tag=tag,
        state="ok",
        first_by="share",
        left={"share": share},
        expected=(by, by),
        place=Place("programmes/own.yaml", 3),
        rank=20,
    )


def test_a_job_tells_the_least_and_the_most_of_its_packs():
    """Three packs are one line; the one with the least left is named, wherever it stands."""
    rows = (
        retirement("P-01", 0.162, datetime.date(2027, 1, 5)),
        retirement("P-02", 0.96, datetime.date(2029, 1, 5)),
        retirement("P-33", 0.044, datetime.date(2026, 8, 5)),
    )
    (job,) = jobs_of_work(EMPTY, WorkList(as_of=DAY, aircraft=(), packs=(), rows=rows))

    assert ("P-01", "P-02", "P-33") == job.tags
    assert "4.4 % (P-33) to 96 % left" == work_list.job_left(job, EXACT)
    assert "between 5 August 2026 and 5 January 2029" == work_list.expected(job, EXACT)


def test_what_is_left_of_a_job_in_words():
    """One amount where all rows have the same; over and left where some are past it."""

    def said(low: float, high: float, unit: str = "flights") -> str:
        left = {unit: Range(low=low, high=high, least_of="M-3")}
        return work_list.job_left(Job(group="later", state="ok", left=left, first_by=unit), EXACT)

    assert "3 flights left" == said(3, 3)
    assert "3 flights (M-3) to 9 flights left" == said(3, 9)
    assert "2 flights over (M-3) to 9 flights left" == said(-2, 9)
    assert "2 flights over" == said(-2, -2)


def stored(tag: str, by: datetime.date | None) -> Row:
    """A storage charge that is in order, of a full pack with its day, of any other without."""
    days = {} if by is None else {"days": (by - DAY).days}
    return Row(
        aircraft=None,
        kind="task",
        name="pack-storage-charge",
        tag=tag,
        state="ok",
        first_by=None if by is None else "days",
        left=days,
        due_on=by,
        place=Place("programmes/own.yaml", 9),
        rank=20,
    )


def test_a_day_is_told_of_those_packs_alone_that_have_it():
    """Two full ones are named with tomorrow; those that lie at storage are another job."""
    tomorrow = DAY + datetime.timedelta(days=1)
    days = {"P-05": tomorrow, "P-09": tomorrow, "P-01": None, "P-33": None}
    rows = tuple(stored(tag, by) for tag, by in days.items())
    jobs = jobs_of_work(EMPTY, WorkList(as_of=DAY, aircraft=(), packs=(), rows=rows))

    assert [
        (("P-05", "P-09"), "by 1 July 2026 (1 day)"),
        (("P-01", "P-33"), ""),
    ] == [(job.tags, work_list.job_left(job, EXACT)) for job in jobs]
