"""The tests that a figure names fail when the figure is wrong: each is broken, and they are run."""

import datetime
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import wraps
from pathlib import Path
from typing import Any

import msgspec
import pytest

from buildbook.figures.answers.registry import FIGURES
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import Answer
from buildbook.figures.laws.registry import LAWS
from buildbook.report.figure import CannotSay

TESTS = Path(__file__).parents[1]
CLAIMS = [(spec.name, file) for spec in FIGURES for file in spec.held_by]
WRONG = 1.07


def wrong(value: Any) -> Any:
    """The same value seven per cent off, or another one of its type."""
    if isinstance(value, bool):
        return not value
    if isinstance(value, int):
        return value + 1
    if isinstance(value, float):
        return value * WRONG if value else 1.0
    if isinstance(value, datetime.date):
        return value + datetime.timedelta(days=400)
    if isinstance(value, str):
        return f"not {value}"
    if isinstance(value, tuple):
        return tuple(wrong(part) for part in value)
    if isinstance(value, msgspec.Struct):
        fields = {name: wrong(getattr(value, name)) for name in value.__struct_fields__}
        return type(value)(**fields)
    return value


def wrong_answer(said: Answer) -> Answer:
    """The figure with another value, verdict and table."""
    if isinstance(said, CannotSay):
        return said
    names = ("value", "low", "high", "verdict", "day", "low_day", "high_day")
    changed = {name: wrong(getattr(said, name)) for name in names}
    if said.table is not None:
        rows = wrong(said.table.rows)
        changed["table"] = msgspec.structs.replace(said.table, rows=rows)
    return msgspec.structs.replace(said, **changed)


def wrong_law(law: Callable[..., Any]) -> Callable[..., Any]:
    """The law with another result."""

    @wraps(law)
    def broken(*args: Any, **keywords: Any) -> Any:
        return wrong(law(*args, **keywords))

    return broken


@contextmanager
def broken(spec: FigureSpec, patch: pytest.MonkeyPatch) -> Iterator[None]:
    """The program with that figure and its laws wrong; tests are imported anew, under it."""
    marked = FigureSpec._marked

    def all_marked(self: FigureSpec, said: Answer) -> Answer:
        right = marked(self, said)
        return wrong_answer(right) if self.name == spec.name else right

    keys = {*spec.laws, *(way.law for way in spec.methods if way.law is not None)}
    with patch.context() as patched:
        patched.setattr(FigureSpec, "_marked", all_marked)
        for key in keys:
            right = LAWS[key].function
            for module in list(sys.modules.values()):
                if getattr(module, "__name__", "").startswith("buildbook.figures"):
                    for name, member in list(vars(module).items()):
                        if member is right:
                            patched.setattr(module, name, wrong_law(right))
        _forget_tests()
        _forget_results()
        try:
            yield
        finally:
            _forget_tests()
    _forget_results()


def _forget_tests() -> None:
    for name, module in list(sys.modules.items()):
        file = getattr(module, "__file__", None)
        if file and Path(file).is_relative_to(TESTS) and Path(file) != Path(__file__):
            del sys.modules[name]


def _forget_results() -> None:
    for name, module in list(sys.modules.items()):
        if name.startswith("buildbook.figures"):
            for member in list(vars(module).values()):
                clear = getattr(member, "cache_clear", None)
                if clear is not None:
                    clear()


@pytest.mark.slow
@pytest.mark.parametrize(("name", "file"), CLAIMS)
def test_a_broken_figure_fails_the_tests_that_hold_it(
    name: str, file: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """With the answer and its laws seven per cent off, the file that is named has a failure."""
    spec = next(spec for spec in FIGURES if spec.name == name)
    with broken(spec, monkeypatch):
        status = pytest.main(["-x", "-q", "-p", "no:cacheprovider", str(TESTS.parent / file)])

    assert pytest.ExitCode.TESTS_FAILED == status, capsys.readouterr().out
