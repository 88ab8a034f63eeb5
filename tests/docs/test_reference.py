"""The reference in docs/ is what the program prints."""

from pathlib import Path

from buildbook.records.outputs.reference import reference
from buildbook.words.vocabulary.manual import manual


def test_the_reference_is_printed_anew() -> None:
    """If this fails: ``buildbook schema --reference > docs/reference.md``."""
    kept = (Path(__file__).parents[2] / "docs/reference.md").read_text("utf-8")

    assert kept == reference() + manual()
