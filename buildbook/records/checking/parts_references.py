"""Names in specs, items, notices and programmes that stand for something else; lost files."""

from collections.abc import Iterable, Iterator, Mapping

from buildbook.basis.amounts import count
from buildbook.basis.naming import first_alike
from buildbook.basis.notation import quoted
from buildbook.basis.place import Place
from buildbook.basis.problems import Problem, Problems
from buildbook.records.checking.known import Faults, Known
from buildbook.records.ledger import Ledger
from buildbook.records.parts import Spec
from buildbook.records.programmes import Programme
from buildbook.records.row_names import SIGNAL_TASKS, START_SPREAD


def check_parts(ledger: Ledger, known: Known, problems: Problems) -> None:
    """The bench files of specs, the specs of items, and the order of their days."""
    tell = Faults(problems, None)
    for spec in ledger.specs.values():
        for key, file in (("bench", spec.bench), ("table", spec.table)):
            if file is not None and file not in known.bench:
                _lost_bench(spec, key, file, known, tell)
    for first, second in first_alike(ledger.items):
        one, other = ledger.items[first], ledger.items[second]
        here = Faults(problems, other.aircraft)
        _tell_alike("tags", (first, second), (one.place("tag"), other.place("tag")), here)
    names = {
        name.removeprefix("built-in "): programme.place("programme")
        for name, programme in ledger.programmes.items()
    }
    for first, second in first_alike(names):
        _tell_alike("programmes", (first, second), (names[first], names[second]), tell)
    for item in ledger.items.values():
        tell = Faults(problems, item.aircraft)
        if known.specs is not None and item.spec not in known.specs:
            tell.unknown("spec", item.spec, known.specs, item.place("spec"))
        if item.made and item.acquired and item.made > item.acquired:
            days = f"{item.made}, after it was acquired, {item.acquired}"
            tell.refuse(f"{quoted(item.tag)} was made on {days}", item.place("made"))


def _tell_alike(
    what: str, names: tuple[str, str], places: tuple[Place, Place], tell: Faults
) -> None:
    """Two names that are one on a memory stick, so that one page would replace the other."""
    tell.refuse(
        f"{what} {quoted(names[0])} and {quoted(names[1])} differ only in capitals",
        places[1],
        "a memory stick takes their pages for one; rename one of them",
        (places[0],),
    )


def _lost_bench(spec: Spec, key: str, bench: str, known: Known, tell: Faults) -> None:
    plain = bench.removeprefix("bench/")
    if plain in known.bench:
        hint = f"write {plain}"
        tell.refuse(f"{quoted(bench)} names the folder too", spec.place(key), hint)
    else:
        tell.unknown("file of bench/", bench, known.bench, spec.place(key))


def check_notices(ledger: Ledger, known: Known, problems: Problems) -> None:
    """The specs of notices; and no notice may go by the name of a task or check."""
    tell = Faults(problems, None)
    taken = set(SIGNAL_TASKS)
    for programme in ledger.programmes.values():
        taken.update(rule.check for rule in programme.checks)
        taken.update(rule.task for rule in programme.tasks)
    for notice in ledger.notices.values():
        for spec in notice.specs:
            if known.specs is not None and spec not in known.specs:
                tell.unknown("spec", spec, known.specs, notice.place("spec"))
        if notice.notice in taken:
            tell.refuse(
                f"notice {quoted(notice.notice)} has the name of a task or check",
                notice.place("notice"),
                "give it another name",
            )


_FEWEST = 2  # a single name is told where it stands
_MANY = 5  # so many names that are in no file are one lost file rather than slips of the pen
_LOST = "bring it back, from a backup or from version control"


def lost_parts_told_once(found: Problems, known: Known) -> Problems:
    """The same problems, where no tag or no spec is there at all with one for all that name them,
    and where many are not there.

    known: of None for names that could not be read, which is told where that was tried.
    """
    problems = list(found)
    for what, names, file in (
        ("tag", known.tags, "parts/items.yaml"),
        ("spec", known.specs, "parts/specs.yaml"),
    ):
        unknown = [each for each in problems if each.unknown and each.unknown[0] == what]
        named = list(dict.fromkeys(each.unknown[1] for each in unknown if each.unknown))
        if names is None or len(named) < (_MANY if names else _FEWEST):
            continue
        problems = [each for each in problems if each not in unknown]
        if names:
            first = ", ".join(map(quoted, named[: _MANY - 1]))
            reason = f"{count(what, len(named))} are in no file of {file.removesuffix('.yaml')}"
            hint = f"is one of them lost or empty? {_LOST}"
            told = f"{reason}: {first} and {len(named) - _MANY + 1} more"
            problems.append(Problem(told, unknown[0].place, hint=hint, once=reason))
            continue
        lost = f"the file is lost or empty: no {what} is known"
        problems.append(
            Problem(
                f"{lost}, though {count(what, len(named))} are named",
                Place(file, 1),
                hint=_LOST,
                once=lost,
            )
        )
    return Problems(problems)


FORMER_CHECKS: Mapping[str, str] = {
    "levelling-switch": "mode-switches",
    "motor-start": START_SPREAD,
    "sensor-test": "sensors-answer",
}


def renamed(name: str) -> tuple[str, str] | None:
    """Reason and hint where a check of that name has another one now."""
    now = FORMER_CHECKS.get(name)
    if now is None:
        return None
    return f"check {quoted(name)} is called {quoted(now)} now", f"write {now}"


def former_names(programmes: Iterable[Programme], problems: Problems) -> None:
    """Each former name in the programmes is a problem, at its line."""
    for programme in programmes:
        for name, place in _named(programme):
            found = renamed(name)
            if found is not None:
                problems.add(found[0], place, hint=found[1])


def _named(programme: Programme) -> Iterator[tuple[str, Place]]:
    """What a programme says of checks: its rows, what it drops, triggers."""
    for check in programme.checks:
        yield check.check, check.place("check")
    for name in programme.drop:
        yield name, programme.place(f"drop.{name}")
    for rule, triggers, key in (
        *((each, each.stale_after, "stale_after") for each in programme.checks),
        *((each, each.also_after, "also_after") for each in programme.tasks),
    ):
        for trigger in triggers:
            if trigger.event == "calibration" and trigger.subject is not None:
                yield trigger.subject, rule.place(key)
