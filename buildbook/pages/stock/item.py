"""The life of a part or pack: where it has been, what it lived through, how it stands."""

from collections.abc import Iterable, Iterator

import msgspec
from markupsafe import Markup

from buildbook.basis import amounts
from buildbook.basis.place import Place
from buildbook.drawings.charts.bars import health_bar
from buildbook.drawings.layout.layout import layout_thumbnail
from buildbook.pages.addresses import address_of
from buildbook.pages.aircraft.charts import charts_of_pack
from buildbook.pages.aircraft.figures import topics
from buildbook.pages.page import Page, crumbs
from buildbook.report.figure import Answers, CannotSay, Figure
from buildbook.report.history import Completion
from buildbook.report.packs.health import WEAK
from buildbook.report.part_life import Fits, PartLife, Siblings
from buildbook.report.reports import Reports
from buildbook.report.state import ItemNow
from buildbook.report.upkeep.work import NOTHING_TO_DO
from buildbook.words.logbook.entry_details import by_cell
from buildbook.words.measures.intervals import flights_words, flown_words, least_words, sure_words
from buildbook.words.names import kind_word
from buildbook.words.specs import spec_rows
from buildbook.words.upkeep.packs import returns

NEWEST_CHARGES = 8
FAR_DAYS = 3653
"""Ten years: a late end beyond that is not told."""


class Fact(msgspec.Struct, frozen=True):
    """A label, its words, and where it was written."""

    label: str
    words: str
    place: Place | None = None


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
    life = reports.part_life(tag)
    return Page(
        address=address_of("item", tag),
        template="item.html.j2",
        title=tag,
        crumbs=crumbs(reports),
        facts={
            "item": item,
            "standing": standing,
            "returns": returns(standing) if item.is_pack else "",
            "jobs": tuple(job for job in jobs if job.state not in NOTHING_TO_DO),
            "in_order": tuple(job for job in jobs if job.state == "ok"),
            "about": tuple(_about(reports, item)),
            "sheet": tuple(
                Fact(label, words, item.spec.place(key))
                for label, words, key in spec_rows(item.spec)
            ),
            "lived": tuple(_lived(reports, item)),
            "first": tuple(_carried(item)),
            "siblings": life.siblings,
            "siblings_ended": _ended(life.siblings),
            "health": _health(reports, item),
            "capacity": reports.health(tag) if item.is_pack else None,
            "weak": item.is_pack and reports.health(tag).state in WEAK,
            "charts": tuple(charts_of_pack(reports, tag)) if item.is_pack else (),
            "outlook": _outlook(item, answers),
            "figures": tuple(
                entry
                for topic in topics(reports, answers)
                for entry in topic.entries
                if not entry.name.startswith("component_")
            ),
            "spare": life.spare,
            "thumbs": _where_it_fits(reports, life),
            "inspected": _inspected(life),
            "remarks": life.remarks,
            "doubts": reports.doubts_about(tag),
            "unanswered": life.unanswered,
            "charges": item.charges[: -NEWEST_CHARGES - 1 : -1],
            "by_cell": by_cell,
        },
        about=f"{tag}, {item.spec.title}: where it has been and its life to date.",
    )


def _where_it_fits(reports: Reports, life: PartLife) -> tuple[tuple[str, Markup], ...]:
    """The outline of each aircraft that a spare fits, by slug."""
    plans = ((one.slug, reports.layout_outline(one.slug)) for one in _fits(life))
    return tuple((slug, layout_thumbnail(plan, f"fits-{slug}")) for slug, plan in plans if plan)


def _fits(life: PartLife) -> tuple[Fits, ...]:
    return life.spare.fits if life.spare else ()


def _inspected(life: PartLife) -> tuple[tuple[str, Completion], ...]:
    """The names of tasks done at once, and the first of them."""
    return tuple(
        (amounts.listed(name.replace("-", " ") for name in one.tasks), one.done)
        for one in life.inspected
    )


def _about(reports: Reports, item: ItemNow) -> Iterator[Fact]:
    """What is written of this one item."""
    record = item.item
    yield Fact("kind", kind_word(item.spec.kind), item.spec.place())
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


def _lived(reports: Reports, item: ItemNow) -> Iterator[Fact]:
    """What it has lived through, carried life included."""
    counters = item.counters
    least = least_words(counters)
    yield Fact("flown", flown_words(counters))
    yield Fact("flights", flights_words(counters))
    last = item.overhauled
    if last is not None:
        since = f"{amounts.hours(last.duration_s)}, {amounts.count('flight', last.flights)}"
        words = f"{since}; overhauled {reports.day(last.on)}"
        yield Fact("since overhaul", words, last.place)
    if item.is_pack:
        stored = sum(charge.to == "storage" for charge in item.charges)
        yield Fact("charges", f"{counters.charges}{f', {stored} to storage' if stored else ''}")
        yield Fact("equivalent full cycles", f"{least}{amounts.trimmed(counters.cycles, 1)}")
    if counters.crashes or counters.hard_landings:
        yield Fact("crashes", str(counters.crashes))
        yield Fact("hard landings", str(counters.hard_landings))


def _carried(item: ItemNow) -> Iterator[str]:
    carried = item.item.carried
    if carried is None:
        return
    if carried.basis == "unknown":
        yield "Earlier life unknown: every total is a minimum."
        return
    said = [amounts.hours(carried.duration_s)] if carried.duration_s else []
    said += [amounts.count("flight", carried.flights)] if carried.flights else []
    said += [amounts.count("cycle", carried.cycles)] if carried.cycles else []
    if said:
        yield f"Before these records: {', '.join(said)}, {carried.basis}."


def _ended(siblings: Siblings | None) -> str:
    """``3 came to their end, median 4.2 h``."""
    if siblings is None or siblings.ended_median_s is None:
        return ""
    sure = sure_words(at_least=siblings.ended_at_least, at_most=siblings.ended_at_most)
    after = f"{sure}{amounts.hours(siblings.ended_median_s)}"
    if siblings.ended == 1:
        return f"1 came to its end, after {after}"
    return f"{siblings.ended} came to their end, median {after}"


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
    if end is None:
        return ""
    if end.low_day is None:
        return end.verdict or ""
    early = amounts.month(end.low_day)
    if end.high_day is None or end.high is None or end.high > FAR_DAYS:
        return f"not before {early}"
    late = amounts.month(end.high_day)
    return f"in {early}" if early == late else f"between {early} and {late}"
