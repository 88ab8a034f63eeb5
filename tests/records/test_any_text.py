"""Whatever stands in a file, reading ends with a reading: nothing is raised."""

from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from small_hangar import SMALL, write_to

from buildbook.basis.problems import Problems
from buildbook.records.entries.kinds import KINDS
from buildbook.records.reading.files import Files, gather
from buildbook.records.reading.interpret import interpret
from buildbook.records.reading.read import read_hangar

PATHS = [*SMALL, "programmes/mine.yaml", "stores/packs.yaml", "bench/a.csv"]
WORDS = [*KINDS, "on", "id", "set", "corrects", "voids", "because", "tags", "2026-02-01", "7:20"]
WORDS += ["P-01", "M-01..M-03", "1480 mAh", "[", "]", "{", "}", ": ", "- ", ", ", "\n", "\n  ", "-"]
WORDS += ["motor", "front-left", "crash", "fit motor", "1e999", "-0", "٣", "\u2028", "#", "a\n"]
KEYS = sorted({key for kind in KINDS.values() for key in kind.fields} | {"set", "id", "by"})
FEW = settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))


def read(path: str, content: bytes, *, pure: bool = False) -> list[str]:
    """What is told of the small hangar with one file of that content."""
    files = {name: text.encode() for name, text in SMALL.items()} | {path: content}
    problems = Problems()
    interpret(Files(content=files, slugs=("sedge",)), problems, pure=pure)
    return [str(problem) for problem in problems]


@FEW
@given(st.sampled_from(PATHS), st.binary(max_size=60))
def test_any_bytes(path: str, content: bytes) -> None:
    """Any bytes in any file."""
    read(path, content)


@FEW
@given(st.sampled_from(PATHS), st.text(max_size=60))
def test_any_text(path: str, content: str) -> None:
    """Any text in any file, at the end of what stands there."""
    read(path, (SMALL.get(path, "") + content).encode("utf-8", "surrogatepass"))


@settings(FEW, max_examples=150)
@given(st.sampled_from(PATHS), st.lists(st.sampled_from(WORDS), max_size=14))
def test_any_words_of_the_trade(path: str, words: list[str]) -> None:
    """Words that mean something, in an order that does not."""
    read(path, "".join(words).encode())


VALUES = st.recursive(
    st.sampled_from(WORDS[:-10]) | st.text("ab1-:. ", max_size=6),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(
            st.sampled_from([*WORDS[:26], "front-left", "motor", "roll"]), inner, max_size=3
        )
    ),
    max_leaves=6,
)


def flow(value: object) -> str:
    """A value as YAML within brackets, its words quoted."""
    if isinstance(value, list):
        return f"[{', '.join(map(flow, value))}]"
    if isinstance(value, dict):
        return "{" + ", ".join(f"{flow(key)}: {flow(each)}" for key, each in value.items()) + "}"
    words = str(value).replace("\\", "").replace('"', "").replace("\n", " ").replace("\u2028", " ")
    return f'"{words}"'


@settings(FEW, max_examples=120)
@given(
    st.lists(
        st.tuples(
            st.sampled_from([*KINDS, "corrects", "voids"]),
            st.dictionaries(
                st.sampled_from(KEYS),
                VALUES,
                max_size=4,
            ),
            VALUES,
        ),
        max_size=4,
    )
)
def test_any_shape_of_entry(entries: list[tuple[str, dict[str, object], object]]) -> None:
    """Every kind with values of any shape under any key, and twice with the same outcome."""
    lines = [
        f"- {flow({'on': '2026-02-01', kind: heart, **more})}\n" for kind, more, heart in entries
    ]
    content = "".join(lines).encode()

    told = read("aircraft/sedge/logbook.yaml", content)

    assert told == read("aircraft/sedge/logbook.yaml", content)


@pytest.mark.parametrize("path", PATHS)
def test_an_empty_file_is_told_or_means_nothing(path: str) -> None:
    """No file needs anything in it to be read without a crash."""
    expected = {
        "hangar.yaml": ["the file is empty @ hangar.yaml:1"],
        "programmes/mine.yaml": ["the file is empty @ programmes/mine.yaml:1"],
        "bench/a.csv": ["the table has no header @ bench/a.csv:1"],
        "aircraft/sedge/aircraft.yaml": ["the file is empty @ aircraft/sedge/aircraft.yaml:1"],
    }
    if not path.startswith("parts/"):
        assert expected.get(path, []) == read(path, b"")


def test_the_demo_reads_the_same_with_the_pure_parser(demo: Path) -> None:
    """Where libyaml is missing, ledger and problems are equal."""
    files = gather(demo, Problems())
    assert files is not None
    fast, pure = Problems(), Problems()

    assert interpret(files, fast) == interpret(files, pure, pure=True)
    assert list(fast) == list(pure)


def test_reading_does_not_change_a_file() -> None:
    """The hangar is the keeper's: nothing is written there."""
    with TemporaryDirectory() as place:
        folder = write_to(Path(place), {})
        before = sorted((path, path.stat().st_mtime_ns) for path in folder.rglob("*"))
        read_hangar(folder, None)

        assert before == sorted((path, path.stat().st_mtime_ns) for path in folder.rglob("*"))
