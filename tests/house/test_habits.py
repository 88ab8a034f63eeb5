"""The habits of the house, held by the tools that know them."""

import ast
import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "buildbook"
MODULES = sorted(PACKAGE.rglob("*.py"))
LONGEST_FUNCTION, LONGEST_MODULE = 60, 400
MOST_MODULES = 15


def run(*words: str) -> subprocess.CompletedProcess[str]:
    """Run a tool of this environment in the root of the project."""
    return subprocess.run(
        [sys.executable, "-m", *words], cwd=ROOT, capture_output=True, text=True, check=False
    )


@pytest.mark.parametrize(
    "words",
    [
        ("ruff", "check", "."),
        ("ruff", "format", "--check", "."),
        ("mypy", "--strict", "-p", "buildbook"),
    ],
    ids=lambda words: " ".join(words[:2]),
)
def test_tool_finds_nothing(words: tuple[str, ...]) -> None:
    """The linter, the formatter and the type checker are content."""
    done = run(*words)

    assert done.returncode == 0, done.stdout + done.stderr


def test_floors_import_downward_only() -> None:
    """The contracts of import-linter are kept."""
    code = "import sys; from importlinter.cli import lint_imports_command as c; sys.exit(c())"
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=False
    )

    assert done.returncode == 0, done.stdout + done.stderr


def functions(path: Path) -> list[ast.FunctionDef | ast.AsyncFunctionDef]:
    """All functions of a module, nested ones too."""
    return [
        node
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
    ]


def length(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Lines of a function without its docstring and decorators."""
    documented = ast.get_docstring(function) is not None
    first = function.body[1] if documented and len(function.body) > 1 else function.body[0]
    assert function.end_lineno is not None
    return function.end_lineno - first.lineno + 1


def test_no_function_is_long() -> None:
    """Nobody has to scroll through a function."""
    found = [
        f"{path.relative_to(ROOT)}:{function.lineno} {function.name}"
        for path in MODULES
        for function in functions(path)
        if length(function) > LONGEST_FUNCTION
    ]

    assert found == []


def test_no_module_is_long() -> None:
    """Nobody has to scroll through a module."""
    found = [
        str(path.relative_to(ROOT))
        for path in MODULES
        if len(path.read_text("utf-8").splitlines()) > LONGEST_MODULE
    ]

    assert found == []


def test_no_module_is_a_drawer_for_everything() -> None:
    """Each module is named by a word of its subject."""
    vague = {"utils", "util", "helpers", "helper", "common", "misc", "tools"}

    assert [str(path) for path in MODULES if path.stem in vague] == []


def test_public_names_are_explained() -> None:
    """Each public module, class and function has a docstring."""
    found = []
    for path in MODULES:
        tree = ast.parse(path.read_text("utf-8"))
        nodes: list[ast.AST] = [tree, *(node for node in tree.body)]
        nodes += [
            method
            for node in tree.body
            if isinstance(node, ast.ClassDef) and not node.name.startswith("_")
            for method in node.body
        ]
        for node in nodes:
            if not isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef):
                continue
            name = getattr(node, "name", path.stem)
            if not name.startswith("_") and ast.get_docstring(node) is None:
                found.append(f"{path.relative_to(ROOT)}:{getattr(node, 'lineno', 1)} {name}")

    assert found == []


def test_no_clock_below_the_commands() -> None:
    """Only a command may ask what day it is."""
    asks = re.compile(r"date\.today\(|datetime\.now\(|(?<![.\w])time\.time\(|utcnow\(|localtime\(")
    found = [
        f"{path.relative_to(ROOT)}:{number}"
        for path in MODULES
        if "commands" not in path.parts
        for number, line in enumerate(path.read_text("utf-8").splitlines(), 1)
        if asks.search(line)
    ]

    assert found == []


@pytest.mark.parametrize("command", ["check", "due"])
def test_start_up_is_light(command: str, tmp_path: Path) -> None:
    """A command that only reads and counts loads no numbers, charts or templates."""
    code = (
        "import sys; from buildbook.commands.main import main; "
        f"status = main([{command!r}, {str(ROOT / 'content')!r}]); "
        "print([m for m in ('numpy', 'matplotlib', 'jinja2', 'markdown') if m in sys.modules])"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        check=True,
        env={"XDG_CACHE_HOME": str(tmp_path), "PATH": ""},
    )

    assert done.stdout.splitlines()[-1] == "[]"


def test_each_test_file_has_a_name_of_its_own() -> None:
    """Test folders are no packages, so two files of one name would hide each other."""
    names = [path.name for path in sorted((ROOT / "tests").rglob("test_*.py"))]

    assert sorted({name for name in names if names.count(name) > 1}) == []


def test_no_folder_of_a_room_holds_many_modules() -> None:
    """Somebody new sees at once what there is."""
    counts = {
        str(folder.relative_to(PACKAGE)): len(list(folder.glob("[!_]*.py")))
        for folder in PACKAGE.rglob("*")
        if folder.is_dir()
    }

    assert 60 < len(counts)
    assert {} == {folder: count for folder, count in counts.items() if count > MOST_MODULES}
