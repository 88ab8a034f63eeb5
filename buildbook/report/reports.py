"""All that pages, commands and feeds ever hold: what can be asked of a hangar, and for whom."""

from __future__ import annotations  # marks are looked at for the public only

import datetime
from collections.abc import Callable
from typing import TYPE_CHECKING, Any, Literal, TypeVar

from buildbook.basis import amounts
from buildbook.report.entry_anchors import EntryName, anchors_of, wanted_anchor

if TYPE_CHECKING:  # types of answers: whoever asks for none of them need not load them
    from buildbook.basis.problems import Problem
    from buildbook.report.drawn.pictures import Pictures
    from buildbook.report.drawn.plans import (
        Balance,
        LayoutPlan,
        MonthPlan,
        TimelinePlan,
        WiringPlan,
    )
    from buildbook.report.drawn.series import (
        CapacitySeries,
        ConsumptionSeries,
        CrashSeries,
        FlownSeries,
        MonthSeries,
        ResistanceSeries,
    )
    from buildbook.report.figure import Answers
    from buildbook.report.figures.comparison import Comparison
    from buildbook.report.figures.gains import GainsRaised, GainsReport
    from buildbook.report.figures.headlines import Headlines
    from buildbook.report.figures.known_figures import KnownFigures
    from buildbook.report.history import DefectState, RepairDone
    from buildbook.report.next_step import NextStep
    from buildbook.report.outing import GoingFlying
    from buildbook.report.packs.health import PackHealth, PackLine
    from buildbook.report.part_life import PartLife, PartsLine
    from buildbook.report.state import Hangar
    from buildbook.report.stock import RadioReport, Stock
    from buildbook.report.upkeep.flown import MarkedFlight, RecordDoubt, Remarked, Silence
    from buildbook.report.upkeep.jobs import Glance, Job
    from buildbook.report.upkeep.programme import ProgrammeReport
    from buildbook.report.upkeep.set_up import Expected, SetUp
    from buildbook.report.upkeep.work import PackStanding, Row, Standing, WorkList

Audience = Literal["owner", "public"]

Key = tuple[str | float, ...]

Source = Callable[[str, Key], Any]
"""Gives the report of that name and key."""

T = TypeVar("T")


class Reports:
    """The reports of one hangar for one audience, each worked out when first asked for and kept.

    source: where they come from: the whole truth, or a projection of it. exact_days: whether days
    may stand, or only months. pictures: cleaned photographs that this audience may see.
    despite: problems of the records that the owner's site is written in spite of.
    """

    def __init__(
        self,
        source: Source,
        *,
        audience: Audience = "owner",
        exact_days: bool = True,
        pictures: Pictures | None = None,
        despite: tuple[Problem, ...] = (),
    ) -> None:
        self._source = source
        self._kept: dict[tuple[str, Key], Any] = {}
        self._once: dict[Callable[[Reports], Any], Any] = {}
        self.audience: Audience = audience
        self.exact_days = exact_days
        self.pictures: Pictures = pictures or {}
        self.despite = despite

    def ask(self, name: str, *key: str | float) -> Any:
        """The report of that name; the methods below say which there are, and give it its type."""
        if (name, key) not in self._kept:
            self._kept[name, key] = self._source(name, key)
        return self._kept[name, key]

    @property
    def hangar(self) -> Hangar:
        """The hangar on the day."""
        return self.ask("hangar")

    def silence(self) -> Silence | None:
        """That nothing was written for long; the public is not told."""
        return self.ask("silence")

    @property
    def work(self) -> WorkList:
        """All that is stale, due, grounded or fine."""
        return self.ask("work")

    def figures_of_aircraft(self, slug: str) -> Answers:
        """All figures of an aircraft."""
        return self.ask("figures_of_aircraft", slug)

    def figures_of_item(self, tag: str) -> Answers:
        """All figures of an item."""
        return self.ask("figures_of_item", tag)

    def known_figures(self) -> KnownFigures:
        """What is known of every figure before anything is worked out."""
        return self.ask("known_figures")

    def set_up_checks(self, slug: str) -> tuple[Row, ...]:
        """The checks of an aircraft as they stand, whatever its status."""
        return self.ask("set_up_checks", slug)

    def set_up(self, slug: str) -> SetUp:
        """The set-up sheet of an aircraft: its checks by stages, and where to go on."""
        return self.ask("set_up", slug)

    def expected_readings(self, slug: str) -> tuple[Expected, ...]:
        """What set-up checks should read, beside what they read last."""
        return self.ask("expected_readings", slug)

    def marked_flights(self, slug: str) -> tuple[MarkedFlight, ...]:
        """Entries of flights that were flown while something was open."""
        return self.ask("marked_flights", slug)

    def remarks(self) -> tuple[Remarked, ...]:
        """What was remarked on the last days of the log, newest first; the public sees none."""
        return tuple(filter(None, self.ask("remarks")))

    def unanswered_on(self, slug: str) -> tuple[Remarked, ...]:
        """Remarks of a danger on an aircraft, its parts or packs, at which nobody looked since."""
        return tuple(filter(None, self.ask("unanswered_on", slug)))

    def doubts_about(self, name: str) -> tuple[RecordDoubt, ...]:
        """What is doubted in the records about an aircraft or item; the public sees none."""
        return tuple(filter(None, self.ask("doubts_about", name)))

    def current_repairs(self, slug: str) -> tuple[RepairDone, ...]:
        """Repairs that are still in an aircraft, oldest first."""
        return tuple(self.ask("current_repairs", slug))

    def inoperative(self, slug: str) -> tuple[DefectState, ...]:
        """Open defects of what was taken out or put out of use, oldest first."""
        return tuple(self.ask("inoperative", slug))

    def next_step(self, slug: str) -> NextStep | None:
        """What to write next of an aircraft that is being built; None of any other."""
        return self.ask("next_step", slug)

    def jobs(self) -> tuple[Job, ...]:
        """All jobs of the hangar, worst group first, else in the order of the work list."""
        return self.ask("jobs")

    def jobs_of_aircraft(self, slug: str) -> tuple[Job, ...]:
        """The jobs of one aircraft."""
        return self.ask("jobs_of_aircraft", slug)

    def jobs_of_item(self, tag: str) -> tuple[Job, ...]:
        """The jobs of one item."""
        return self.ask("jobs_of_item", tag)

    def glance(self, slug: str) -> Glance:
        """What to do first on an aircraft, and how much else is open."""
        return self.ask("glance", slug)

    def work_around(self, slug: str) -> WorkList:
        """The work list of one aircraft, of what it carries, and of the packs flown on it."""
        return self.ask("work_around", slug)

    def jobs_around(self, slug: str) -> tuple[Job, ...]:
        """The jobs of that part of the work list."""
        return self.ask("jobs_around", slug)

    def spin_jobs(self, slug: str) -> tuple[Job, ...]:
        """Spin directions that no check holds for."""
        return self.ask("spin_jobs", slug)

    def aircraft_standing(self, slug: str) -> Standing:
        """How an aircraft stands."""
        return self.ask("aircraft_standing", slug)

    def pack_standing(self, tag: str) -> PackStanding:
        """How a pack stands."""
        return self.ask("pack_standing", tag)

    def health(self, tag: str) -> PackHealth:
        """The health of a pack, counted only."""
        return self.ask("health", tag)

    def packs(self) -> tuple[PackLine, ...]:
        """All packs: quarantined ones first, gone ones last, then by tag."""
        return self.ask("packs")

    def stock(self) -> Stock:
        """What is on no aircraft, and how long parts lasted."""
        return self.ask("stock")

    def part_life(self, tag: str) -> PartLife:
        """Others of a part's kind, and what was done to it."""
        return self.ask("part_life", tag)

    def parts_of_aircraft(self, slug: str) -> tuple[PartsLine, ...]:
        """What is fitted, items of one spec together, in the order of the stations."""
        return self.ask("parts_of_aircraft", slug)

    def radio(self) -> RadioReport:
        """Which memory of the transmitter is which aircraft."""
        return self.ask("radio")

    def dated_work(self) -> tuple[Row, ...]:
        """Rows of the work list with a day of their own, by day, aircraft and name."""
        return self.ask("dated_work")

    def going_flying(self) -> GoingFlying:
        """What to take to the field, and what falls due on a usual day out."""
        return self.ask("going_flying")

    def falls_due(self, slug: str, duration_s: float) -> tuple[Row, ...]:
        """Rows of an aircraft that a flight of that length would bring to due."""
        return self.ask("falls_due", slug, duration_s)

    def layout(self, slug: str) -> LayoutPlan | None:
        """The layout of an aircraft with its balance; None where no station has a place."""
        return self.ask("layout", slug)

    def layout_outline(self, slug: str) -> LayoutPlan | None:
        """The same without what only figures know: cheap, for lists and cards."""
        return self.ask("layout_outline", slug)

    def wiring(self, slug: str) -> WiringPlan | None:
        """The wiring with its loads; None where none is recorded."""
        return self.ask("wiring", slug)

    def balance(self, slug: str) -> Balance | None:
        """What weighs where; None where fewer than three masses have a place."""
        return self.ask("balance", slug)

    def months_flown(self, slug: str) -> tuple[MonthPlan, ...]:
        """Flights and hours of an aircraft in each of the last twelve months."""
        return self.ask("months_flown", slug)

    def timeline(self, slug: str) -> TimelinePlan | None:
        """Flying by month with crashes, repairs and alterations."""
        return self.ask("timeline", slug)

    def capacity_trend(self, tag: str) -> CapacitySeries | None:
        """Measured capacities of a pack, with limit and forecast."""
        return self.ask("capacity_trend", tag)

    def resistance_trend(self, tag: str) -> ResistanceSeries | None:
        """Resistance of each cell of a pack, charge by charge."""
        return self.ask("resistance_trend", tag)

    def charge_a_minute(self, slug: str) -> ConsumptionSeries | None:
        """Charge of each flight since the last change of motor, propeller or mass."""
        return self.ask("charge_a_minute", slug)

    def between_crashes(self, slug: str) -> CrashSeries | None:
        """Hours flown up to each crash."""
        return self.ask("between_crashes", slug)

    def flying_by_month(self) -> MonthSeries | None:
        """Flights of all aircraft by month, two years at most."""
        return self.ask("flying_by_month")

    def predicted_flown(self, slug: str) -> FlownSeries | None:
        """Time by theory for the charge used against time flown, flight by flight."""
        return self.ask("predicted_flown", slug)

    def programmes(self) -> tuple[str, ...]:
        """The programmes that apply to something, and what they are based on, by name."""
        return self.ask("programmes")

    def programme(self, name: str) -> ProgrammeReport:
        """One programme with everything that it is based on."""
        return self.ask("programme", name)

    def gains(self, slug: str) -> GainsReport:
        """The gain sets of an aircraft side by side, and what was flown on each."""
        return self.ask("gains", slug)

    def gains_raised(self, slug: str) -> GainsRaised | None:
        """Gains raised much before the last crash, notice or remark; the public is not told."""
        return self.ask("gains_raised", slug)

    def headlines(self, slug: str) -> Headlines:
        """The figures of the front page of an aircraft."""
        return self.ask("headlines", slug)

    def comparisons(self) -> tuple[Comparison, ...]:
        """Aircraft, packs and motors side by side."""
        return self.ask("comparisons")

    def figure_names(self) -> tuple[str, ...]:
        """The names of all figures that an aircraft may have."""
        return self.ask("figure_names")

    def entry_named(self, slug: str, written: str) -> EntryName | None:
        """The name of the entry of a logbook that has the id ``written``; None: there is none."""
        return self.ask("entry_named", slug, written)

    def as_shared(self) -> Reports:
        """What a public render may be made from."""
        return self.ask("as_shared")

    def once(self, make: Callable[[Reports], T]) -> T:
        """What pages need of the whole hangar: worked out once, then kept."""
        if make not in self._once:
            self._once[make] = make(self)
        found: T = self._once[make]
        return found

    @property
    def is_public(self) -> bool:
        """Whether this is a render to be shared."""
        return self.audience == "public"

    def day(self, on: datetime.date) -> str:
        """A day in words, or its month where days are not shared."""
        return amounts.day(on) if self.exact_days else amounts.month(on)

    def machine_day(self, on: datetime.date) -> str:
        """The same for machines: ``2026-03-01`` or ``2026-03``."""
        return on.isoformat() if self.exact_days else on.isoformat()[:7]

    def entry_anchor(self, uid: str) -> str:
        """The anchor of an entry on its logbook page; opaque for the public.

        An id is unique in its file only, so the name of the file goes before it, except where
        that adds nothing: ``2026-03-01-1`` of ``logbook.yaml`` or ``logbook/2026.yaml``.
        """
        if self.is_public:
            name = uid.rpartition("#")[2]
            return name if name.startswith("e") and name[1:].isdigit() else ""
        return self.once(_anchors).get(uid) or wanted_anchor(uid)


def _anchors(reports: Reports) -> dict[str, str]:
    return anchors_of(reports.hangar.ledger.entries)
