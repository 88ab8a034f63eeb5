"""The list of reports: what can be asked for is worked out somewhere, as the type that it says."""

import inspect
import pkgutil
import typing
from importlib import import_module

import msgspec

import buildbook.report
from buildbook.records.declare import shown
from buildbook.report.reports import Reports
from buildbook.reporting.registry import REPORTS, worker_of

TYPES = {
    name: kind
    for module in pkgutil.walk_packages(buildbook.report.__path__, "buildbook.report.")
    for name, kind in vars(import_module(module.name)).items()
    if isinstance(kind, type)
}
NO_REPORTS = {
    "ask",
    "ready",
    "once",
    "day",
    "machine_day",
    "entry_anchor",
    "is_public",
}


def asked() -> dict[str, typing.Any]:
    """Each report that can be asked for, and the type of its answer."""
    found = {}
    for name, member in vars(Reports).items():
        if not name.startswith("_") and name not in NO_REPORTS:
            method = member.fget if isinstance(member, property) else member
            found[name] = typing.get_type_hints(method, localns=TYPES)["return"]
    return found


def test_every_report_has_a_worker_and_every_worker_a_report():
    """Neither list holds a name that the other lacks."""
    assert sorted(asked()) == sorted(REPORTS)


def test_a_worker_gives_what_its_report_says():
    """Type and keys of both are the same."""
    assert asked()
    for name, kind in asked().items():
        worker = worker_of(name)
        method = vars(Reports)[name]
        method = method.fget if isinstance(method, property) else method

        assert kind == typing.get_type_hints(worker, localns=TYPES)["return"], name
        assert (
            list(inspect.signature(method).parameters)[1:]
            == (list(inspect.signature(worker).parameters)[1:])
        ), name


def structs_in(kind: typing.Any, seen: set[type]) -> None:
    """All Structs that an answer of that type may hold."""
    for part in typing.get_args(kind):
        structs_in(part, seen)
    origin = typing.get_origin(kind) or kind
    if isinstance(origin, type) and issubclass(origin, msgspec.Struct) and origin not in seen:
        seen.add(origin)
        for field in typing.get_type_hints(origin, localns=TYPES).values():
            structs_in(field, seen)


def test_every_struct_of_an_answer_says_who_may_see_it():
    """One without a mark would be nothing to the public, and nobody would notice."""
    seen: set[type] = set()
    for kind in asked().values():
        structs_in(kind, seen)

    assert 100 < len(seen)
    private = {"Place", "Problem", "BenchTable", "BenchRow"}  # files and lines, and bench tables
    assert private == {kind.__name__ for kind in seen if not shown(kind)}
