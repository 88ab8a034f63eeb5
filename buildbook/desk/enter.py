"""Write entries into the logs of a hangar: all of them or none, and never what makes it wrong."""

import datetime
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from pathlib import Path

import msgspec

from buildbook.basis.amounts import count
from buildbook.basis.place import Place
from buildbook.basis.problems import Problem
from buildbook.desk.changes import as_it_was, what_changed
from buildbook.desk.entry_text import Tree
from buildbook.desk.keeping import Change, Overtaken, alone, replace
from buildbook.desk.placing import (
    Placed,
    Wanted,
    Written,
    aircraft_under,
    log_of_item,
    placed_in_logs,
)
from buildbook.desk.remarks import (
    amended,
    left_out,
    recorded_new,
    unclosed_doubts,
    with_grounded,
    written_again,
    written_with_aircraft,
)
from buildbook.records.entries import AnyEntry
from buildbook.records.entries.kinds import common
from buildbook.records.ledger import Ledger, Reading
from buildbook.records.reading.connected import Connections, log_of_file
from buildbook.records.reading.files import HANGAR
from buildbook.records.reading.reread import (
    HeldFiles,
    keep_reading,
    read_held,
    with_texts,
)
from buildbook.reporting.opening import Opened, open_reading
from buildbook.words.upkeep.check import with_dangers

_TRIES = 5
_FEW = 4
SURE = "sure"
"""The key of an entry that says that it is meant as it stands, where the records have it."""


class CannotEnter(Exception):
    """Nothing can be entered; the text is one sentence."""


class Outcome(msgspec.Struct, frozen=True, kw_only=True):
    """What came of it.

    written: the entries as they stand, or would stand, in the files. problems: why nothing was
    written. doubts: what the entries would be asked about; nothing was written for them unless it
    was said to be sure. changed: what is another now, a sentence each. repeated: how many were
    left out because they are there already.
    """

    written: tuple[Written, ...] = ()
    problems: tuple[Problem, ...] = ()
    doubts: tuple[Problem, ...] = ()
    changed: tuple[str, ...] = ()
    done: bool = False
    repeated: int = 0


WantedOf = Callable[[Ledger], Sequence[Wanted]]
"""Gives the entries for a hangar as it is read once nobody else writes."""


def enter(
    folder: Path,
    wanted_of: WantedOf,
    today: datetime.date,
    *,
    sure: bool = False,
    dry: bool = False,
    once: bool = False,
) -> Outcome:
    """Write the entries, unless they make something wrong, or raise a doubt and it isn't sure.

    dry: only say what would come of it. once: leave out what is in the logs already.
    CannotEnter: there is no hangar, or it can't be read.
    CannotPlace, CannotWrite: as they say.
    """
    check_is_hangar(folder)
    for _ in range(_TRIES):
        try:
            with alone(folder):
                return _enter(folder, wanted_of, today, sure, dry, once)
        except Overtaken as error:
            overtaken = error
    raise CannotEnter(f"{overtaken} is being changed by another program; nothing was written")


def _enter(
    folder: Path, wanted_of: WantedOf, today: datetime.date, sure: bool, dry: bool, once: bool
) -> Outcome:
    held, old = held_hangar(folder)
    wanted = given = [_at_home(each, held, old) for each in wanted_of(old)]
    if once:
        wanted = new_names(given, old.entries)
    texts, after = _with(held, old, wanted)
    if once and after.reading.ledger is not None:
        missing = _missing(wanted, texts, after.reading.ledger, old)
        if len(missing) < len(wanted):
            wanted = [wanted[number] for number in missing]
            texts, after = _with(held, old, wanted)
    repeated = len(given) - len(wanted)
    if not wanted:
        return Outcome(written=(), repeated=repeated, done=not dry)
    written = tuple(entry for each in texts.values() for entry in each.entries)
    day, names = day_of(old, today, wanted), names_in(wanted)
    look = _Look(folder, day, today, names, frozenset(texts), held.connections)
    opened, before = look.at(after.reading), as_it_was(look.part(old))
    problems, doubts = _raised(held.reading, opened, look, written)
    if all("charge" in each.entry for each in wanted):  # of a flight that stands: check tells it
        doubts = tuple(each for each in doubts if not each.of_flight)
    flown = _aircraft_of(wanted, written, "flight", "flights")
    if after.reading.ledger is not None:
        doubts += () if once else written_again(written, old, after.reading.ledger)
    if once:  # a table of old flights asks nobody whether they should have been flown
        doubts = tuple(each for each in doubts if not (each.of_standing and each.once))
    elif opened.reports is not None:
        checked = _aircraft_of(wanted, written, "check")
        doubts += unclosed_doubts(checked, opened.reports)
        doubts = with_grounded(doubts, flown, before, day)
    spoken_of = recorded_new(wanted) + _spoken_of(written, after)
    if problems or dry or (doubts and not sure):
        changed = spoken_of if dry else ()
        return Outcome(
            written=written, problems=problems, doubts=doubts, changed=changed, repeated=repeated
        )
    if doubts and SURE in common():
        wanted = _meant(wanted, written, doubts)
        texts, after = _with(held, old, wanted)
        written = tuple(entry for each in texts.values() for entry in each.entries)
        opened = look.at(after.reading)
    _write(folder, held, texts)
    keep_reading(after)
    struck = _aircraft_of(wanted, written, "incident", "water", "defect")
    slugs = frozenset((*flown.values(), *struck.values()))
    changed = spoken_of + what_changed(before(day)[1], opened.reports, names, slugs)
    changed += written_with_aircraft([(each.aircraft, each.item) for each in wanted])
    changed += left_out([(each.aircraft, dict(each.entry)) for each in wanted], old)
    frozen = old.keeper.as_of
    if frozen is not None and any(each.on > frozen for each in written):
        changed += (f"hangar.yaml says as_of: {frozen}; what is shown ends before that",)
    return Outcome(written=written, doubts=doubts, changed=changed, repeated=repeated, done=True)


def _aircraft_of(
    wanted: Sequence[Wanted], written: Iterable[Written], *kinds: str
) -> dict[Written, str]:
    """The entries of these kinds, each with the slug of its aircraft."""
    whose = ((entry, wanted[entry.number]) for entry in written)
    return {
        entry: each.aircraft for entry, each in whose
        if each.aircraft is not None and each.entry.keys() & {*kinds}
    }  # fmt: skip


def _at_home(each: Wanted, held: HeldFiles, ledger: Ledger) -> Wanted:
    """An entry of a part that has no store file is one of the aircraft on which it sits."""
    if each.aircraft is not None or each.item is None:
        return each
    if log_of_item(ledger, each.item) in held.files.content:
        return each
    part = held.connections.part(ledger, (each.item,))
    slug = aircraft_under(part, each.item, str(each.entry["on"]))
    return msgspec.structs.replace(each, aircraft=slug)


def _spoken_of(written: Sequence[Written], after: HeldFiles) -> tuple[str, ...]:
    """What the entries are about, where it may be another thing than the keeper thinks of."""
    ledger = after.reading.ledger
    if ledger is None:
        return ()
    return amended(written, ledger.entries, after.files.content)


def new_names(wanted: Sequence[Wanted], there: Iterable[AnyEntry]) -> list[Wanted]:
    """Without those whose own id an entry of the same aircraft, or of the shelf, has already."""
    taken = {(entry.aircraft, entry.id) for entry in there}
    new = []
    for each in wanted:
        name = (each.aircraft, str(each.entry["id"])) if "id" in each.entry else None
        if name is None or name not in taken:
            new.append(each)
        if name is not None:
            taken.add(name)
    return new


def _meant(
    wanted: Sequence[Wanted], written: Sequence[Written], doubts: Sequence[Problem]
) -> list[Wanted]:
    """The entries, those that are doubted with the key that says that they are meant so."""
    numbers = {
        entry.number
        for entry in written
        if any(_is_about(doubt, _lines((entry,))) for doubt in doubts)
    }
    return [
        msgspec.structs.replace(each, entry={**each.entry, SURE: "true"})
        if number in numbers
        else each
        for number, each in enumerate(wanted)
    ]


def _write(folder: Path, held: HeldFiles, texts: Mapping[str, Placed]) -> None:
    summary = tuple(
        ": ".join((path, *([", ".join(one.id for one in text.entries)] if text.entries else [])))
        if len(text.entries) <= _FEW
        else f"{path}: {count('entry', len(text.entries))}"
        for path, text in texts.items()
    )
    changes = [
        Change(path, held.files.content.get(path), text.data, text.added)
        for path, text in texts.items()
    ]
    replace(folder, changes, summary)


def _with(
    held: HeldFiles, old: Ledger, wanted: Sequence[Wanted]
) -> tuple[dict[str, Placed], HeldFiles]:
    """The texts of the logs with the entries in them, and the hangar with those texts."""
    texts = placed_in_logs(held, old, wanted)
    return texts, with_texts(held, {path: each.data for path, each in texts.items()})


def _missing(
    wanted: Sequence[Wanted], texts: Mapping[str, Placed], new: Ledger, old: Ledger
) -> list[int]:
    """The numbers of the entries that were not in the logs before; what has a name is new."""
    from buildbook.desk.changes import not_there  # only of what is brought in

    numbers = {
        f"{each.file}#{each.id}": each.number
        for text in texts.values()
        for each in text.entries
        if "id" not in wanted[each.number].entry
    }
    ours = [(numbers[entry.uid], entry) for entry in new.entries if entry.uid in numbers]
    unread = set(range(len(wanted))) - {number for number, _ in ours}  # named, or wrong: it is told
    return sorted([*not_there(ours, old.entries), *unread])


def check_is_hangar(folder: Path) -> None:
    """CannotEnter: there is no hangar."""
    if not (folder / HANGAR).is_file():
        raise CannotEnter(f"{folder} is not a hangar: it has no {HANGAR}")


def held_hangar(folder: Path) -> tuple[HeldFiles, Ledger]:
    """The hangar with its files. CannotEnter: there is none, or hangar.yaml can't be read."""
    check_is_hangar(folder)
    held = read_held(folder)
    if held is None or held.reading.ledger is None:
        why = f": {held.reading.problems[0]}" if held and held.reading.problems else ""
        raise CannotEnter(f"{folder / HANGAR} can't be read{why}")
    return held, held.reading.ledger


class _Look(msgspec.Struct, frozen=True):
    """How the hangar is looked at, before and after: only what the entries have to do with."""

    folder: Path
    day: datetime.date
    today: datetime.date
    names: frozenset[str]
    paths: frozenset[str]
    connections: Connections

    def part(self, ledger: Ledger) -> Ledger:
        """What the entries can change."""
        logs = {log_of_file(path) for path in self.paths}
        return self.connections.part(ledger, self.names, logs)

    def at(self, reading: Reading) -> Opened:
        """That part on the day, with all that is told of it, and what reading told of the rest."""
        if reading.ledger is not None:
            reading = Reading(self.part(reading.ledger), reading.problems)
        return open_reading(self.folder, reading, self.day, self.today, each=True)


def names_in(wanted: Iterable[Wanted]) -> frozenset[str]:
    """The aircraft, and every word of the entries that may be the tag of an item."""
    names: set[str] = set()
    for each in wanted:
        names |= {name for name in (each.aircraft, each.item) if name}
        names.update(_words_of(each.entry))
    return frozenset(names)


def _words_of(tree: Tree) -> Iterator[str]:
    if isinstance(tree, str):
        yield tree
    elif isinstance(tree, Mapping):
        for key, value in tree.items():
            yield key
            yield from _words_of(value)
    else:
        for value in tree:
            yield from _words_of(value)


def day_of(ledger: Ledger, today: datetime.date, wanted: Sequence[Wanted]) -> datetime.date:
    """The day as of which the hangar is looked at: the keeper's or today, not before an entry.

    An entry of a later day than today is told as a doubt in any case.
    """
    named = ledger.keeper.as_of or today
    days = [datetime.date.fromisoformat(str(each.entry["on"])[:10]) for each in wanted]
    return max([named, *(day for day in days if day <= max(today, named))])


def _raised(
    before: Reading, opened: Opened, look: _Look, written: Sequence[Written]
) -> tuple[tuple[Problem, ...], tuple[Problem, ...]]:
    """Problems and warnings that were not there before the entries."""
    lines = _lines(written)
    told = with_dangers(opened.problems, opened.dangers)
    raised = [each for each in told if _is_about(each, lines)]
    rest = [each for each in told if not _is_about(each, lines)]
    known: Counter[object] = Counter()
    if rest:
        there = look.at(before)
        known.update(each.known_by for each in with_dangers(there.problems, there.dangers))
    for each in rest:
        if known[each.known_by]:
            known[each.known_by] -= 1
        else:
            raised.append(each)
    latest = max(look.today, look.day)
    raised += [_future(entry, look.today) for entry in written if entry.on > latest]
    problems = tuple(each for each in raised if each.severity == "problem")
    return problems, tuple(each for each in raised if each.severity != "problem")


def _lines(written: Iterable[Written]) -> set[tuple[str, int]]:
    """The lines that entries take, by file."""
    return {
        (entry.file, entry.line + offset)
        for entry in written
        for offset in range(entry.text.count("\n"))
    }


def _future(entry: Written, today: datetime.date) -> Problem:
    return Problem(
        f"the entry is dated after today ({today.isoformat()})",
        Place(entry.file, entry.line),
        "warning",
        hint="until then it is left out",
    )


def _is_about(problem: Problem, lines: set[tuple[str, int]]) -> bool:
    return any((place.file, place.line) in lines for place in (problem.place, *problem.also))
