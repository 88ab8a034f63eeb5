"""The form for the field: what is written down there is kept by the browser and brought in later.

The lists of aircraft, packs and checks are data on the page; the script of the theme fills the
form from them. A second copy holds style and script in itself: one file, to be kept on a phone.
"""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from buildbook.pages.addresses import address_of
from buildbook.pages.lapses import lapse_of
from buildbook.pages.page import Page, crumbs
from buildbook.pages.work.going_flying import NOT_FLOWN
from buildbook.records.aircraft import LEFT
from buildbook.records.programmes import CheckRule
from buildbook.report.outing import Candidate
from buildbook.report.packs.health import PackLine
from buildbook.report.reports import Reports
from buildbook.report.upkeep.set_up import NOT_ON_THE_SHEET, WORST
from buildbook.report.upkeep.work import Row
from buildbook.words.measures.days import Days
from buildbook.words.names import name_words, sentence
from buildbook.words.work_list import jobs_said, lapse_words, not_flying, reasons_said

Data = Mapping[str, Any]
"""What the script is given: texts, numbers and lists of them."""


def page(reports: Reports, _key: str) -> Page:
    """The form as a page of the site."""
    return _page(reports, "field-form")


def alone(reports: Reports, _key: str) -> Page:
    """The form as one file that needs no other."""
    return _page(reports, "field-form-alone")


def _page(reports: Reports, kind: str) -> Page:
    return Page(
        address=address_of(kind),
        template=f"{kind.replace('-', '_')}.html.j2",
        title="Field form",
        crumbs=crumbs(reports),
        facts={"form": reports.once(form_data)},
        about="Write flights, charges, defects and checks down where there is no network.",
    )


def form_data(reports: Reports) -> Data:
    """The lists of the form: aircraft that go stand first, and the packs that they fly."""
    going = reports.going_flying().candidates
    goes = {one.slug for one in going if one.goes}
    rules: dict[str, int] = {}
    said: list[Data] = []
    slugs = [one.slug for one in going]
    slugs += [
        slug
        for slug, now in reports.hangar.aircraft.items()
        if now.status not in LEFT and slug not in slugs
    ]
    candidates = {one.slug: one for one in going}
    aircraft = [_aircraft(reports, slug, candidates.get(slug), rules, said) for slug in slugs]
    packs = [line for line in reports.packs() if line.at_hand]
    packs.sort(key=lambda line: (goes.isdisjoint(line.flown_on), line.tag))
    keeper = reports.hangar.ledger.keeper
    return {
        "hangar": keeper.hangar,
        "people": list(keeper.people),
        "aircraft": aircraft,
        "packs": [_pack(reports, line, goes) for line in packs],
        "rules": said,
    }


def _aircraft(
    reports: Reports,
    slug: str,
    candidate: Candidate | None,
    rules: dict[str, int],
    said: list[Data],
) -> Data:
    """One aircraft; why: each reason why no flight of it is offered; look: what is open on it;
    lapse: from which day on there is none, and why.

    rules, said: the checks of all aircraft so far, each told once.
    """
    now, days = reports.hangar.aircraft[slug], Days(reports.exact_days)
    return {
        "slug": slug,
        "name": now.record.aircraft,
        "flies": candidate is not None and candidate.goes,
        "why": list(
            not_flying(now.status) if candidate is None else jobs_said(candidate.grounds, days)
        ),
        "lapse": _lapse(reports, slug),
        "look": list(jobs_said(candidate.open if candidate else (), days)),
        "check_flight": candidate is not None and candidate.check_flight,
        "packs": list(candidate.packs if candidate else ()),
        "others": list(candidate.others if candidate else ()),
        "motor": now.record.kind == "aeroplane" and now.record.has_motor,
        "stations": list(now.motor_stations),
        "checks": list(_checks(reports.set_up_checks(slug), rules, said)),
    }


def _lapse(reports: Reports, slug: str) -> list[str]:
    row = lapse_of(reports, reports.aircraft_standing(slug))
    if row is None or row.grounds_from is None:
        return []
    words = lapse_words(row, Days(reports.exact_days))
    return [row.grounds_from.isoformat(), f"{sentence(words)}."]


def _checks(rows: Iterable[Row], rules: dict[str, int], said: list[Data]) -> Iterator[list[Any]]:
    """Each check: the number of its rule, its worst state, and its stations where it has some."""
    by_name: dict[str, list[Row]] = {}
    for row in rows:
        if row.name not in NOT_ON_THE_SHEET and row.state in WORST[:-1]:
            by_name.setdefault(row.name, []).append(row)
    for name, found in by_name.items():
        rule = found[0].rule if isinstance(found[0].rule, CheckRule) else None
        what = rule.what if rule else ""
        number = rules.setdefault(f"{name} {what}", len(said))
        if number == len(said):
            readings = rule.readings if rule else {}
            said.append(
                {
                    "check": name,
                    "words": name_words(name),
                    "what": what,
                    "off": rule is None or rule.propellers == "off",
                    "readings": "; ".join(f"{each}: {how}" for each, how in readings.items()),
                }
            )
        state = min((row.state for row in found), key=WORST.index)
        yield [number, state, [row.station for row in found if row.station]]


def _pack(reports: Reports, line: PackLine, goes: set[str]) -> Data:
    """One pack; why: each reason why it is neither flown nor charged."""
    aside = line.standing in NOT_FLOWN
    standing = reports.pack_standing(line.tag)
    days = Days(reports.exact_days)
    return {
        "tag": line.tag,
        "title": line.title,
        "left": line.rest.left,
        "first": not goes.isdisjoint(line.flown_on),
        "aside": f"{line.standing}." if aside else "",
        "why": list(reasons_said(standing.reasons[:1], days)) if aside else [],
    }
