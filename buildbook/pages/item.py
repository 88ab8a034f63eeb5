"""The life of a part or pack: where it has been, what it lived through, how it stands."""

from collections.abc import Iterable, Iterator
from statistics import median

import msgspec
from markupsafe import Markup

from buildbook.basis import amounts
from buildbook.basis.place import Place
from buildbook.drawings.bars import health_bar
from buildbook.pages.addresses import address_of
from buildbook.pages.charts import charts_of_pack
from buildbook.pages.figures import topics
from buildbook.pages.page import Page
from buildbook.report.figure import Answers, CannotSay, Figure
from buildbook.report.history import Completion
from buildbook.report.reports import Reports
from buildbook.report.state import Counters, ItemNow
from buildbook.words.specs import spec_rows

GONE = ("scrapped", "retired")
NEWEST_CHARGES = 8
MOST_SIBLINGS = 16
FAR_DAYS = 3653
"""Ten years: a forecast beyond that is not told."""


class Fact(msgspec.Struct, frozen=True):
    """A label, its words, and where it was written."""

    label: str
    words: str
    place: Place | None = None


class Sibling(msgspec.Struct, frozen=True, kw_only=True):
    """Another item of the same spec."""

    tag: str
    state: str
    where: str | None
    flown: str
    flights: int


class Siblings(msgspec.Struct, frozen=True, kw_only=True):
    """Items of a spec, how many there are, and the lives of those that came to their end."""

    items: tuple[Sibling, ...]
    among: int
    past: str


class Outlook(msgspec.Struct, frozen=True, kw_only=True):
    """What is expected of a pack, or why nobody can say yet. months: when, in words."""

    figure: Figure | None
    months: str
    missing: CannotSay | None


def keys(reports: Reports) -> Iterable[str]:
    """Each tagged part."""
    return tuple(reports.hangar.items)


def page(reports: Reports, tag: str) -> Page:
    """One item."""
    item = reports.hangar.items[tag]
    answers = reports.figures_of_item(tag)
    standing = reports.pack_standing(tag)
    jobs = reports.jobs_of_item(tag)
    return Page(
        address=address_of("item", tag),
        template="item.html.j2",
        title=tag,
        crumbs=((address_of("hangar"), reports.hangar.ledger.keeper.hangar),),
        facts={
            "item": item,
            "standing": standing,
            "jobs": tuple(job for job in jobs if job.state not in ("ok", "not applicable")),
            "in_order": tuple(job for job in jobs if job.state == "ok"),
            "about": tuple(_about(reports, item)),
            "sheet": tuple(
                Fact(label, words, item.spec.place(key))
                for label, words, key in spec_rows(item.spec)
            ),
            "lived": tuple(_lived(item)),
            "first": tuple(_carried(item)),
            "siblings": _siblings(reports, item),
            "health": _health(reports, item),
            "charts": tuple(charts_of_pack(reports, tag)) if item.is_pack else (),
            "outlook": _outlook(item, answers),
            "figures": tuple(
                entry
                for topic in topics(reports, answers)
                for entry in topic.entries
                if not entry.name.startswith("component_")
            ),
            "inspected": inspections_of(reports, item),
            "charges": item.charges[: -NEWEST_CHARGES - 1 : -1],
            "charge_words": charge_words,
        },
        about=f"{tag}, {item.spec.title}: where it has been and its life to date.",
    )


def inspections_of(reports: Reports, item: ItemNow) -> tuple[tuple[str, Completion], ...]:
    """Tasks done that named the item, or that are for its kind and named nothing.

    Those of one entry with one result are told together: their names, and the first of them.
    """
    tasks = {
        rule.task
        for programme in reports.hangar.ledger.programmes.values()
        for rule in programme.tasks
        if rule.each == item.spec.kind
    }
    told: dict[tuple[str, str], list[Completion]] = {}
    for done in item.inspections:
        if item.tag in done.tags or (not done.tags and done.name in tasks):
            told.setdefault((done.uid, done.result), []).append(done)
    return tuple(
        (amounts.listed(done.name.replace("-", " ") for done in together), together[0])
        for together in told.values()
    )


def _about(reports: Reports, item: ItemNow) -> Iterator[Fact]:
    """What is written of this one item."""
    record = item.item
    yield Fact("kind", item.spec.kind.replace("_", " "), item.spec.place())
    if record.mark:
        yield Fact("marked", record.mark, record.place("mark"))
    if record.acquired:
        yield Fact("acquired", reports.day(record.acquired), record.place("acquired"))
    if record.made:
        yield Fact("made", reports.day(record.made), record.place("made"))
    if item.mass_kg is not None:
        own = record.mass_kg is not None
        place = record.place("mass") if own else item.spec.place("mass")
        yield Fact("mass", f"{amounts.mass(item.mass_kg)}{'' if own else ', of its kind'}", place)
    if item.firmware:
        yield Fact("firmware", item.firmware)
    if record.serial:
        yield Fact("serial number", record.serial, record.place("serial"))
    if record.price:
        yield Fact(
            "price",
            amounts.money(record.price.amount, record.price.currency),
            record.place("price"),
        )
    if record.note:
        yield Fact("note", record.note, record.place("note"))


def _lived(item: ItemNow) -> Iterator[Fact]:
    """What it has lived through, carried life included."""
    counters = item.counters
    least = at_least(counters)
    yield Fact("flown", f"{least}{amounts.hours(counters.duration_s)}")
    yield Fact("flights", f"{least}{counters.flights}")
    if item.is_pack:
        yield Fact("charges", str(counters.charges))
        yield Fact("full cycles, as charge", f"{least}{amounts.trimmed(counters.cycles, 1)}")
    if counters.crashes or counters.hard_landings:
        yield Fact("crashes", str(counters.crashes))
        yield Fact("hard landings", str(counters.hard_landings))


def at_least(counters: Counters) -> str:
    """The word before a total whose beginning is not known for sure."""
    return {"measured": "", "estimate": "about ", "unknown": "at least "}[counters.basis]


def _carried(item: ItemNow) -> Iterator[str]:
    carried = item.item.carried
    if carried is None:
        return
    if carried.basis == "unknown":
        yield "Earlier life unknown: every total is at least what is told here."
        return
    said = [amounts.hours(carried.duration_s)] if carried.duration_s else []
    said += [amounts.count("flight", carried.flights)] if carried.flights else []
    said += [amounts.count("cycle", carried.cycles)] if carried.cycles else []
    if said:
        yield f"Before these records: {', '.join(said)}, {carried.basis}."


def _siblings(reports: Reports, item: ItemNow) -> Siblings | None:
    same = [other for other in reports.hangar.items.values() if other.spec.spec == item.spec.spec]
    if len(same) < 2:
        return None
    ended = [other.counters.duration_s for other in same if other.state.state in GONE]
    past = ""
    if ended:
        past = f"{len(ended)} came to their end, median {amounts.hours(median(ended))}"
        if len(ended) == 1:
            past = f"1 came to its end, after {amounts.hours(ended[0])}"
    shown = same if len(same) <= MOST_SIBLINGS else _nearest(item, same)
    return Siblings(
        items=tuple(
            Sibling(
                tag=other.tag,
                state=other.state.state,
                where=other.aircraft,
                flown=f"{at_least(other.counters)}{amounts.hours(other.counters.duration_s)}",
                flights=other.counters.flights,
            )
            for other in shown
        ),
        among=len(same),
        past=past,
    )


def _nearest(item: ItemNow, same: list[ItemNow]) -> list[ItemNow]:
    """Of a large family: the item itself, those on its aircraft, those that flew the longest."""
    ranked = sorted(
        same,
        key=lambda other: (
            other.tag != item.tag,
            item.aircraft is None or other.aircraft != item.aircraft,
            -other.counters.duration_s,
            other.tag,
        ),
    )
    nearest = {other.tag for other in ranked[:MOST_SIBLINGS]}
    return [other for other in same if other.tag in nearest]


def _health(reports: Reports, item: ItemNow) -> Markup | None:
    return health_bar(reports.health(item.tag), "health") if item.is_pack else None


def _outlook(item: ItemNow, answers: Answers) -> Outlook | None:
    if not item.is_pack:
        return None
    name = "pack_end_of_life"
    return Outlook(
        figure=answers.find(name),
        months=_months(answers.find("pack_end_of_life_date")),
        missing=next((found for found in answers.cannot_say if found.name == name), None),
    )


def _months(end: Figure | None) -> str:
    """The months between which the day lies; no day of a forecast is worth giving exactly."""
    if end is None or end.low_day is None:
        return ""
    early = amounts.month(end.low_day)
    if end.high_day is None or end.high is None or end.high > FAR_DAYS:
        return f"not before {early}"
    late = amounts.month(end.high_day)
    return f"in {early}" if early == late else f"between {early} and {late}"


def charge_words(values: Iterable[float], kind: str) -> str:
    """Readings by cell: ``8.1, 8.3, 8.0 mΩ``, ``4.18, 4.19 V``."""
    say, scale = (2, 1000.0) if kind == "mΩ" else (2, 1.0)
    said = ", ".join(amounts.fixed(value * scale, say) for value in values)
    return f"{said} {kind}" if said else ""
