"""Every kind of mistake, with the whole message: the cases stand in ``mistakes.txt``.

A case is a title, one file of the small hangar as it was spoilt, and what is told, line by line:
``reason @ file:line (hint) [also places]``.
"""

import re
from pathlib import Path

import pytest
from small_hangar import WriteHangar

from buildbook.basis.problems import Problem
from buildbook.records.reading.read import read_hangar

CASES = re.split(r"(?m)^=== ", (Path(__file__).parent / "mistakes.txt").read_text())[1:]


def told(problem: Problem) -> str:
    """A problem as a line of the cases."""
    line = f"{'warning: ' if problem.severity == 'warning' else ''}{problem}"
    if problem.hint:
        line += f" ({problem.hint})"
    if problem.also:
        line += f" [also {', '.join(map(str, problem.also))}]"
    return line


@pytest.mark.parametrize("case", CASES, ids=[case.partition("\n")[0] for case in CASES])
def test_a_mistake_gets_one_clear_sentence(case: str, write_hangar: WriteHangar) -> None:
    """The problems of a spoilt file are exactly those of the case."""
    spoilt, _, expected = case.partition("\n")[2].partition(">>>\n")
    path, _, content = spoilt.removeprefix("--- ").partition("\n")

    found = read_hangar(write_hangar({path: content})).problems

    assert expected.strip().splitlines() == [told(problem) for problem in found]


def test_the_small_hangar_has_no_fault(write_hangar: WriteHangar) -> None:
    """What the cases tell is due to the one file that was spoilt."""
    assert () == read_hangar(write_hangar({})).problems


@pytest.mark.parametrize("case", CASES, ids=[case.partition("\n")[0] for case in CASES])
def test_no_message_ends_with_a_full_stop(case: str) -> None:
    """Reasons are lower case unless they name a word, without a full stop."""
    for line in case.partition(">>>\n")[2].strip().splitlines():
        reason = line.removeprefix("warning: ").partition(" @ ")[0]

        assert not reason.endswith(".")
        assert reason[0] == "'" or reason[0].islower()
