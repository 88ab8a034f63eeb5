"""The reference in docs/ is what the program prints."""

import re
from pathlib import Path

from buildbook.records.outputs.reference import reference
from buildbook.words.vocabulary.manual import manual


def test_the_reference_is_printed_anew() -> None:
    """If this fails: ``buildbook schema --reference > docs/reference.md``."""
    kept = (Path(__file__).parents[2] / "docs/reference.md").read_text("utf-8")

    assert (reference() + manual()).splitlines() == kept.splitlines()


def test_a_key_that_holds_keys_leads_to_them() -> None:
    """Each link of a row leads to a heading, and each group of the aircraft has one."""
    text = reference()
    headings = {
        re.sub(r"[^\w -]", "", line.removeprefix("## ").lower()).replace(" ", "-")
        for line in text.splitlines()
        if line.startswith("## ")
    }
    links = re.findall(r"see \[([^]]+)\]\(#([^)]+)\)", text)

    assert {anchor for _, anchor in links} <= headings
    assert {"share", "people", "carried", "radio", "rates", "wiring", "wing", "volts"} <= {
        title for title, _ in links
    }
    assert "| `volts` | volts, see [volts](#volts) |" in text
