"""Templates compiled before: spared while their text is the same, and taken from nobody else."""

from pathlib import Path

import jinja2
import pytest

from buildbook.pages import compiled
from buildbook.pages.theme import Press, theme_folders
from buildbook.report.reports import Reports


@pytest.fixture
def compilings(monkeypatch: pytest.MonkeyPatch, private_cache: Path) -> list[str]:
    """The templates that were compiled, in a cache folder that only this test sees."""
    assert not private_cache.exists()
    seen: list[str] = []
    compiling = jinja2.Environment.compile

    def counting(self: jinja2.Environment, source: str, name: str, *more: object) -> object:
        seen.append(name)
        return compiling(self, source, name, *more)

    monkeypatch.setattr(jinja2.Environment, "compile", counting)
    return seen


@pytest.fixture
def themed(tmp_path: Path) -> tuple[Path, ...]:
    """A theme of one's own, with one template."""
    (tmp_path / "mine/templates").mkdir(parents=True)
    (tmp_path / "mine/templates/note.html.j2").write_text("{{ 'one'|upper }}", "utf-8")
    return theme_folders(str(tmp_path / "mine"))


def read(press: Press) -> str:
    """What the template of one's own says."""
    return press._environment.get_template("note.html.j2").render()


def test_what_was_compiled_is_not_compiled_again(
    themed: tuple[Path, ...], demo_reports: Reports, compilings: list[str]
) -> None:
    """The next process finds the code of every template, and it says the same."""
    assert "ONE" == read(Press(demo_reports, themed).ready())
    assert len(compilings) > 20
    compilings.clear()

    assert "ONE" == read(Press(demo_reports, themed).ready())
    assert [] == compilings


def test_a_template_that_changed_is_compiled_anew(
    themed: tuple[Path, ...], demo_reports: Reports, compilings: list[str]
) -> None:
    """And no other."""
    Press(demo_reports, themed).ready()
    compilings.clear()
    (themed[0] / "templates/note.html.j2").write_text("{{ 'two'|upper }}", "utf-8")

    assert "TWO" == read(Press(demo_reports, themed).ready())
    assert ["note.html.j2"] == compilings


def test_another_program_compiles_anew(
    themed: tuple[Path, ...],
    demo_reports: Reports,
    compilings: list[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Its filters may say something else of what is worked out when a template is compiled."""
    Press(demo_reports, themed).ready()
    before = len(compilings)
    monkeypatch.setattr(compiled, "state_of_program", lambda _: b"another")
    Press(demo_reports, themed).ready()

    assert 2 * before == len(compilings)


@pytest.mark.parametrize("open_to_others", ["folder", "file"])
def test_code_that_others_may_write_is_not_run(
    open_to_others: str,
    themed: tuple[Path, ...],
    demo_reports: Reports,
    compilings: list[str],
    private_cache: Path,
) -> None:
    """Neither from a folder nor from a file that is open to others."""
    Press(demo_reports, themed).ready()
    before = len(compilings)
    folder = private_cache / "buildbook"
    (kept,) = folder.glob("*.templates")
    (folder if open_to_others == "folder" else kept).chmod(0o777)
    Press(demo_reports, themed).ready()

    assert 2 * before == len(compilings)
