"""The examples in words that ``enter KIND --help`` shows can be entered into the demo hangar."""

import shlex

import pytest

from buildbook.commands.main import main
from buildbook.desk.said.kinds_said import IN_WORDS


@pytest.mark.usefixtures("beside_the_demo")
def test_the_examples_in_words_are_understood(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Each writes an entry of its kind; the help of the kind has it below its first line."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1795262400")  # 21 November 2026
    for kind, words in IN_WORDS.items():
        status = main(["enter", *shlex.split(words), "--dry-run", "--sure"])
        out, err = capsys.readouterr()
        assert (0, True) == (status, f"    {kind}: " in out), f"{words}: {err}"
        assert 0 == main(["enter", kind, "--help"])
        help_lines = " ".join(capsys.readouterr().out.split())
        assert f"in words: buildbook enter {words}" in help_lines
