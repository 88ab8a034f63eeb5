"""How much is read at most: one table, which the reference of the files prints.

A hangar that somebody keeps by hand stays far below each of them; what is above was made by a
machine or by mistake, and is refused in one sentence before it takes minutes or all memory.
"""

from collections.abc import Mapping

import msgspec


class Size(msgspec.Struct, frozen=True):
    """A limit. unit: of ``most``, where ``what`` does not say what is counted."""

    what: str
    most: int
    unit: str = ""

    def __str__(self) -> str:
        return f"{self.most:,} {self.unit}".strip()


SIZES: Mapping[str, Size] = {
    "file": Size("A file of records", 4 * 1024 * 1024, "bytes"),
    "hangar": Size("All files of records together", 64 * 1024 * 1024, "bytes"),
    "folder": Size("Files in one folder", 20_000),
    "folders": Size("Folders within each other, from stores/ or logbook/ on", 4),
    "records": Size("Entries, kinds of part, parts or notices of one file", 50_000),
    "depth": Size("Levels of nesting in a YAML file", 40),
    "list": Size("Values of one list", 2_000),
    "readings": Size("Levels of nested readings", 6),
    "name": Size("A tag or another name", 80, "characters"),
    "text": Size("A text", 20_000, "characters"),
    "link": Size("A link", 2_000, "characters"),
    "bag": Size("Tags of one row such as R-01..R-08", 500),
    "corrections": Size("Corrections of one entry", 100),
    "bench": Size("Rows of a thrust-stand table", 3_000),
    "story": Size("A write-up", 200_000, "characters"),
    "paragraph": Size("A paragraph or table of a write-up", 20_000, "characters"),
    "headings": Size("Headings of a write-up", 500),
    "marks": Size("Square brackets, angle brackets and backticks of a write-up, each", 3_000),
    "paragraph marks": Size("The same in one paragraph or table", 600),
    "quotes": Size("Lists and quotations within each other in a write-up", 8),
    "definitions": Size("Definitions in one paragraph of a write-up", 50),
    "promise": Size("The promise of a story", 160, "characters"),
    "table": Size("A table that is brought in", 20 * 1024 * 1024, "bytes"),
    "rows": Size("Rows of a table that is brought in", 50_000),
    "columns": Size("Columns of a table that is brought in", 200),
    "facts": Size("A JSON file that is brought in", 4 * 1024 * 1024, "bytes"),
    "build": Size("A build.json that a hangar begins after", 1024 * 1024, "bytes"),
    "photo": Size("A photograph", 60_000_000, "bytes"),
    "pixels": Size("A photograph", 80_000_000, "pixels"),
    "side": Size("A side of a photograph", 30_000, "pixels"),
}
"""By a short name. Set by measuring: each at its limit is read within about a second."""


def most(name: str) -> int:
    """The limit of that short name."""
    return SIZES[name].most
