"""Names that built-in checks had before, each with the one that it has now."""

from collections.abc import Iterable, Iterator, Mapping

from buildbook.basis.notation import quoted
from buildbook.basis.place import Place
from buildbook.basis.problems import Problems
from buildbook.records.programmes import Programme
from buildbook.records.row_names import START_SPREAD

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
