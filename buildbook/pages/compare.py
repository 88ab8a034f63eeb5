"""Motors, packs and aircraft of the hangar side by side, each column on one scale."""

from collections.abc import Callable, Iterable, Sequence

import msgspec

from buildbook.basis import amounts
from buildbook.pages.addresses import address_of
from buildbook.pages.charts import chart_of_hangar
from buildbook.pages.page import Page
from buildbook.report.reports import Reports
from buildbook.report.state import Counters, ItemNow


class Cell(msgspec.Struct, frozen=True, kw_only=True):
    """A value in words and its share of the greatest in the column; None: it cannot be said."""

    words: str
    share: float | None


class Subject(msgspec.Struct, frozen=True, kw_only=True):
    """One row: an item by its tag, or an aircraft by its slug."""

    key: str
    title: str
    where: str | None
    cells: tuple[Cell, ...]


class Bench(msgspec.Struct, frozen=True, kw_only=True):
    """A table of subjects of one kind. ``items``: whether they are items or aircraft."""

    name: str
    caption: str
    items: bool
    columns: tuple[str, ...]
    subjects: tuple[Subject, ...]


Values = tuple[float | None, ...]
Says = tuple[Callable[[float], str], ...]


def keys(_reports: Reports) -> Iterable[str]:
    """There is one."""
    return ("",)


def page(reports: Reports, _key: str) -> Page:
    """All benches that have at least two subjects."""
    benches = (_aircraft(reports), _packs(reports), _motors(reports))
    return Page(
        address=address_of("compare"),
        template="compare.html.j2",
        title="Compare",
        crumbs=((address_of("hangar"), reports.hangar.ledger.keeper.hangar),),
        facts={
            "benches": tuple(bench for bench in benches if len(bench.subjects) > 1),
            "flying": chart_of_hangar(reports),
        },
        about="Aircraft, packs and motors side by side, each column on one scale.",
    )


def on_one_scale(columns: Sequence[Values], says: Says) -> tuple[tuple[Cell, ...], ...]:
    """Rows of values as cells: each share is of the greatest value of its column."""
    most = [max((row[place] or 0.0 for row in columns), default=0.0) for place in range(len(says))]
    return tuple(
        tuple(
            Cell(
                words="cannot say" if value is None else say(value),
                share=None if value is None else (value / top if top > 0 else 0.0),
            )
            for value, say, top in zip(row, says, most, strict=True)
        )
        for row in columns
    )


def _whole(value: float) -> str:
    return amounts.trimmed(value, 0)


def _one_place(value: float) -> str:
    return amounts.fixed(value, 1)


def _hours(duration_s: float) -> str:
    return amounts.hours(duration_s) if duration_s else "none"


def _aircraft(reports: Reports) -> Bench:
    slugs = tuple(reports.hangar.aircraft)
    values = [_of_aircraft(reports, slug) for slug in slugs]
    says: Says = (amounts.mass, _two_places, amounts.duration, _hours, _whole, _whole)
    return Bench(
        name="aircraft",
        caption="Aircraft",
        items=False,
        columns=("all-up mass", "thrust to weight", "flight time", "flown", "flights", "crashes"),
        subjects=tuple(
            Subject(
                key=slug, title=reports.hangar.aircraft[slug].record.layout, where=None, cells=row
            )
            for slug, row in zip(slugs, on_one_scale(values, says), strict=True)
        ),
    )


def _two_places(value: float) -> str:
    return amounts.fixed(value, 2)


def _of_aircraft(reports: Reports, slug: str) -> Values:
    """Of the figures that go by pack: the heaviest mass, and the shortest time at its low end."""
    answers = reports.figures_of_aircraft(slug)
    counters = reports.hangar.aircraft[slug].counters

    def known(name: str, low: bool = False) -> list[float]:
        found = (figure for figure in answers.figures if figure.name == name)
        values = (
            figure.low if low and figure.low is not None else figure.value for figure in found
        )
        return [value for value in values if value is not None]

    return (
        max(known("all_up_mass"), default=None),
        min(known("thrust_to_weight"), default=None),
        min(known("flight_time", low=True), default=None),
        counters.duration_s,
        float(counters.flights),
        float(counters.crashes),
    )


def _packs(reports: Reports) -> Bench:
    packs = [
        item
        for item in reports.hangar.items.values()
        if item.is_pack and item.state.state in ("serviceable", "quarantined")
    ]
    says: Says = (amounts.share, _one_place, _whole, _whole, _hours)
    values = [
        (
            _health(pack),
            pack.counters.cycles,
            float(pack.counters.charges),
            float(pack.counters.flights),
            pack.counters.duration_s,
        )
        for pack in packs
    ]
    return Bench(
        name="packs",
        caption="Packs",
        items=True,
        columns=("capacity, of rated", "cycles", "charges", "flights", "flown"),
        subjects=_subjects(reports, packs, on_one_scale(values, says)),
    )


def _motors(reports: Reports) -> Bench:
    motors = [
        item
        for item in reports.hangar.items.values()
        if item.spec.kind == "motor" and item.state.state in ("serviceable", "quarantined")
    ]
    says: Says = (_hours, _whole, _whole, _whole)
    values = [_lived(motor.counters) for motor in motors]
    return Bench(
        name="motors",
        caption="Motors",
        items=True,
        columns=("run", "flights", "crashes", "hard landings"),
        subjects=_subjects(reports, motors, on_one_scale(values, says)),
    )


def _lived(counters: Counters) -> Values:
    return (
        counters.duration_s,
        float(counters.flights),
        float(counters.crashes),
        float(counters.hard_landings),
    )


def _health(pack: ItemNow) -> float | None:
    rated = pack.spec.capacity_ah
    return pack.capacities[-1].measured_ah / rated if rated and pack.capacities else None


def _subjects(
    reports: Reports, items: Iterable[ItemNow], cells: Iterable[tuple[Cell, ...]]
) -> tuple[Subject, ...]:
    return tuple(
        Subject(
            key=item.tag,
            title=item.spec.title,
            where=item.aircraft if item.aircraft in reports.hangar.aircraft else None,
            cells=row,
        )
        for item, row in zip(items, cells, strict=True)
    )
