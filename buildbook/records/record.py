"""What every record has: the place where it and each of its values were written."""

from collections.abc import Mapping
from typing import Annotated, Literal

import msgspec

from buildbook.basis.place import Place
from buildbook.records.declare import key


class Record(msgspec.Struct, frozen=True, kw_only=True):
    """Base of all records.

    ``lines`` gives the line of a value by its key path in the file (``used``,
    ``fit.front-left.motor``, ``values.roll.p``) where that isn't the record's own line.
    public: the keeper has looked at its texts and lets them stand in a public render as they are.
    """

    file: str
    line: int
    lines: Mapping[str, int] = {}
    public: Annotated[
        Literal["ok"] | None,
        key(
            "Lets its texts be published although they look like something private",
            "ok",
        ),
    ] = None

    def place(self, path: str = "") -> Place:
        """The place of the value at that key path, or of the nearest part that has one."""
        while path:
            if path in self.lines:
                return Place(self.file, self.lines[path])
            path = path.rpartition(".")[0]
        return Place(self.file, self.line)
