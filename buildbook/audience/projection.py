"""Copy what may be shown, and nothing else: all reports as one audience may see them."""

import datetime
import re
from collections.abc import Callable, Iterable, Mapping
from typing import Any, TypeVar

import msgspec

from buildbook.audience.leaks.personal import is_private_name
from buildbook.audience.leaks.watch import LeakWatch
from buildbook.audience.sharing import Sharing, not_shared, sharing_for
from buildbook.basis.place import NOWHERE, Place
from buildbook.basis.problems import Problem
from buildbook.records.declare import Shown, shown
from buildbook.records.entries import Entry, Note
from buildbook.report.drawn.pictures import Pictures
from buildbook.report.figure import Answers, Figure
from buildbook.report.figures.known_figures import KnownFigures
from buildbook.report.history import LogLine
from buildbook.report.reports import Audience, Reports
from buildbook.report.snapshots import Snapshot
from buildbook.report.state import ItemNow
from buildbook.report.tally import Tally
from buildbook.report.upkeep.work import Row

T = TypeVar("T")

BLANK: Mapping[str, Any] = {
    "place": NOWHERE,
    "since_place": NOWHERE,
    "file": "",
    "line": 0,
    "log": "",
    "words": "",
    "because": "",
    "corrects": "",
    "voids": "",
    "defect": "",
    "severity": "",
    "preflight": "",
    "entries": (),
}
ENTRY_NAMES = frozenset(
    (
        "uid",
        "id",
        "original",
        "target",
        "done_uid",
        "again_uid",
        "cleared_uid",
        "flight_uid",
        "after_uid",
    )
)
_BY_KEEPERS_NAMES = frozenset(("settings", "readings"))
_BY_AIRCRAFT = frozenset(("aircraft", "write_ups", "photos", "flown_on"))
PEOPLE = frozenset(("by", "checked_by", "author"))

A_TABLE = "a bench table"

Witness = Callable[[str, Place], None]


class Projector:
    """One projection of one hangar: keeps the opaque names that it gave to entries.

    witness: called with each text that passes, and where it was written, so that somebody can
    look for what should not stand in it. hidden: aircraft of which nothing is shown; what a part
    went through on them counts in its totals and is told nowhere. tables: names of files of
    bench/, which the keeper gave them and nobody else needs.
    """

    def __init__(
        self,
        sharing: Sharing,
        witness: Witness | None = None,
        hidden: frozenset[str] = frozenset(),
        tables: Iterable[str] = (),
    ) -> None:
        self._sharing = sharing
        self._hidden = hidden
        longest_first = sorted(tables, key=len, reverse=True)
        names = "|".join(map(re.escape, longest_first)) or "(?!)"
        self._tables = re.compile(rf"(?<!\w)bench/(?:{names})")
        self._witness = witness
        self._names: dict[str, str] = {}
        self._parts: dict[int, tuple[Any, Any]] = {}  # with the part itself, which keeps its id

    def show(self, value: T) -> T:
        """The value as this audience may see it; an owner sees the value itself."""
        if self._sharing.audience == "owner":
            return value
        copy: T = self._walk(value, NOWHERE)
        return copy

    def entry_name(self, uid: str) -> str:
        """An opaque name for an entry, the same each time within one projection."""
        return self._names.setdefault(uid, f"e{len(self._names) + 1}")

    def _walk(self, value: Any, near: Place) -> Any:
        if value is None or isinstance(value, bool | int | float):
            return value
        if isinstance(value, str):
            if "bench/" in value:
                value = self._tables.sub(A_TABLE, value)
            if self._witness is not None:
                self._witness(value, near)
            return value
        if isinstance(value, datetime.date):
            return value if self._sharing.exact_days else value.replace(day=1)
        if isinstance(value, msgspec.Struct):
            return self._struct(value, near)
        if isinstance(value, tuple):
            return tuple(
                self._walk(part, near)
                for part in without_notes(value)
                if not (self._hidden and self._is_of_hidden(part))
            )
        if isinstance(value, Mapping):
            return {self._walk(key, near): self._walk(part, near) for key, part in value.items()}
        return Tally() if isinstance(value, Tally) else None

    def _struct(self, value: msgspec.Struct, near: Place) -> Any:
        kind = type(value)
        marked = shown(kind)
        if not any(mark != "private" for mark in marked.values()):
            return None
        if isinstance(value, Answers):
            value = self._shared_answers(value)
        elif isinstance(value, KnownFigures):
            seen = tuple(known for known in value.figures if self._may_see(known.shown))
            value = msgspec.structs.replace(value, figures=seen)
        elif isinstance(value, Figure) and value.unjudged:
            value = msgspec.structs.replace(value, verdict=None)
        elif isinstance(value, ItemNow) and value.aircraft in self._hidden:
            value = msgspec.structs.replace(value, aircraft=None, fitted=None)
        near = _place_of(value) or near
        copied: dict[str, Any] = {}
        for name in kind.__struct_fields__:
            if self._may_see(marked.get(name, "private")):
                part = getattr(value, name)
                field = self._shared_field if kind is Snapshot else self._field
                copied[name] = field(name, part, near)
            elif name in BLANK:
                copied[name] = BLANK[name]
        if isinstance(value, Entry):  # the same name as the uid has wherever it is referred to
            copied["id"] = self.entry_name(value.uid)
        if isinstance(value, Row) and value.kind == "defect":  # named by its entry, with a day
            copied["name"] = "defect"
        return kind(**copied)

    def _shared_field(self, name: str, part: Any, near: Place) -> Any:
        """What many snapshots hold is copied once for all of them."""
        if id(part) not in self._parts:
            self._parts[id(part)] = part, self._field(name, part, near)
        return self._parts[id(part)][1]

    def _is_of_hidden(self, value: Any) -> bool:
        """Whether it tells of an aircraft that is not shown."""
        if not isinstance(value, msgspec.Struct):
            return False
        slug = getattr(value, "slug", None) or getattr(value, "aircraft", None)
        return isinstance(slug, str) and slug in self._hidden

    def _may_see(self, mark: Shown) -> bool:
        if mark in ("public", "private"):
            return mark == "public"
        return self._sharing.shares(mark)

    def _shared_answers(self, answers: Answers) -> Answers:
        """Without figures that only the keeper sees, and why those could not be said."""
        return Answers(
            figures=tuple(each for each in answers.figures if self._may_see(each.shown)),
            cannot_say=tuple(each for each in answers.cannot_say if self._may_see(each.shown)),
        )

    def _field(self, name: str, part: Any, near: Place) -> Any:
        if name in ENTRY_NAMES or (name == "entry" and isinstance(part, str)):
            return None if part is None else self.entry_name(part)
        if name in PEOPLE:
            return self._person(part)
        if self._hidden and name in _BY_AIRCRAFT:
            part = _without(part, self._hidden)
        if name == "left" and isinstance(part, Mapping) and not self._sharing.exact_days:
            part = {unit: left for unit, left in part.items() if unit != "days"}
        if name in _BY_KEEPERS_NAMES and isinstance(part, Mapping):
            part = {key: value for key, value in part.items() if not _is_secret(key)}
        if name == "setting_log":
            part = tuple(each for each in part if not _is_secret(each.name))
        if name in ("photos", "portrait"):  # names of files, which no page shows
            return part
        return self._walk(part, near)

    def _person(self, alias: str | None) -> str | None:
        return None if alias is None else self._sharing.people.get(alias)


def without_notes(parts: tuple[Any, ...]) -> tuple[Any, ...]:
    """A log without remarks, of which nothing may be seen, nor that there are any; nor what was
    corrected of them. Other tuples as they are."""
    if not parts or not isinstance(parts[0], LogLine):
        return parts
    notes = {one.entry.uid for one in parts if isinstance(one.stands or one.entry, Note)}
    return tuple(
        one
        for one in parts
        if one.entry.uid not in notes and getattr(one.entry, "original", "") not in notes
    )


def _without(part: Any, hidden: frozenset[str]) -> Any:
    """A mapping or list of aircraft without those."""
    if isinstance(part, Mapping):
        return {slug: value for slug, value in part.items() if slug not in hidden}
    if isinstance(part, tuple):
        return tuple(slug for slug in part if not isinstance(slug, str) or slug not in hidden)
    return part


def _is_secret(key: Any) -> bool:
    """Whether a setting or reading is never for the public; ``key`` is its name, or (of, name)."""
    return is_private_name(str(key[-1] if isinstance(key, tuple) else key))


def _place_of(value: msgspec.Struct) -> Place | None:
    place = getattr(value, "place", None)
    if isinstance(place, Place):
        return place
    file = getattr(value, "file", "")
    return Place(file, getattr(value, "line", 0) or 1) if file else None


class Projected(msgspec.Struct, frozen=True, kw_only=True):
    """Reports for one audience. problems: what would leak into public texts; with any of them
    nothing is written."""

    reports: Reports
    problems: tuple[Problem, ...] = ()


def projected(
    whole: Reports,
    audience: Audience,
    pictures: Pictures | None = None,
    despite: tuple[Problem, ...] = (),
) -> Projected:
    """The same reports for that audience; days are rounded last, and nothing is computed after.

    despite: problems that the owner is told of on every page; the public sees no such site.
    """
    ledger = whole.hangar.ledger
    sharing = sharing_for(audience, ledger.keeper)
    if audience == "owner":
        return Projected(
            reports=Reports(
                lambda name, key: whole.ask(name, *key), pictures=pictures, despite=despite
            )
        )
    shared = whole.as_shared()
    watch = LeakWatch(ledger, sharing)
    hidden = not_shared(whole.hangar)
    projector = Projector(sharing, watch.see, hidden, ledger.bench)
    shown = Reports(
        lambda name, key: projector.show(shared.ask(name, *key)),
        audience=audience,
        exact_days=sharing.exact_days,
        pictures={
            named: picture
            for named, picture in (pictures or {}).items()
            if sharing.shares("photos") and picture.in_story and named[0] not in hidden
        },
    )
    # All texts of the records pass here, so each leak is known before a page is made; and entries
    # get their opaque names in one order, whatever is asked for first.
    shown.ask("hangar")
    shown.ask("work")
    return Projected(reports=shown, problems=watch.problems)
