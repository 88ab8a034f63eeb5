"""Which earlier entries the new ones speak of: that a wrong one was named is seen at once."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from buildbook.desk.placing import Written, one_line, standing
from buildbook.records.entries import AnyEntry, Cleared, Correction, Void


def amended(
    written: Sequence[Written], entries: Sequence[AnyEntry], content: Mapping[str, bytes]
) -> tuple[str, ...]:
    """A sentence for each entry that is corrected, voided or cleared: as it stands in its file."""
    files = {each.file for each in written}
    new = {f"{each.file}#{each.id}" for each in written}
    there = [entry for entry in entries if entry.file in files and entry.uid in new]
    return tuple(_sentences(there, entries, content))


def _sentences(
    new: Iterable[AnyEntry], entries: Iterable[AnyEntry], content: Mapping[str, bytes]
) -> Iterator[str]:
    of = {uid: verb for entry in new for uid, verb in _named(entry)}
    if not of:
        return
    for entry in entries:
        if entry.uid in of:
            text = standing(content[entry.file], entry.line)
            original = Written(entry.file, entry.line, entry.id, entry.on, text, 0)
            yield f"{of[entry.uid]}: {one_line(original)}"


def _named(entry: AnyEntry) -> Iterator[tuple[str, str]]:
    """The uid of the entry that it speaks of, and what it does to it."""
    if isinstance(entry, Correction):
        yield entry.original, "corrected"
    elif isinstance(entry, Void):
        yield entry.original, "voided"
    elif isinstance(entry, Cleared):
        yield entry.target, "cleared"
