"""What changed is read anew, when all the rest of a hangar was read already.

What comes out is what reading the whole hangar gives, in a fraction of the time. Where that can't
be held (something was wrong before, entries of other logs speak of this one), the whole is read.
"""

from itertools import chain, groupby
from operator import attrgetter
from pathlib import Path
from typing import Literal

import msgspec

from buildbook.basis.cache_folder import usual_folder
from buildbook.basis.collector import collector_paused
from buildbook.basis.problems import Problems
from buildbook.records.checking.known import Known
from buildbook.records.checking.references import check_references
from buildbook.records.checking.secrets import secret_numbers
from buildbook.records.entries import AnyEntry
from buildbook.records.entries.kinds import AMENDING
from buildbook.records.keys.plain_text import Unreadable
from buildbook.records.keys.yaml_nodes import Node, compose
from buildbook.records.ledger import Ledger, Reading
from buildbook.records.reading.cache import digest_of, keep, recall, recall_last
from buildbook.records.reading.connected import (
    Connections,
    Speaker,
    log_of_file,
    log_spoken_of,
    that_speak_of_others,
)
from buildbook.records.reading.corrections import amend
from buildbook.records.reading.files import HANGAR, Files, about, gather
from buildbook.records.reading.interpret import lost_to_comments, read_files, to_fill
from buildbook.records.reading.logs import Draft, read_log


class HeldFiles(msgspec.Struct, frozen=True):
    """The files of a hangar, and what they say.

    gathered: what was told of the files themselves. connections: of the reading, and of all that
    was read before it and after it.
    """

    folder: Path
    files: Files
    gathered: Problems
    reading: Reading
    connections: Connections


def read_held(folder: Path, cache: Path | Literal["usual"] | None = "usual") -> HeldFiles | None:
    """Read a hangar and hold its files; None where there is no hangar."""
    gathered = Problems()
    with collector_paused():
        files = gather(folder, gathered)
        if files is None or HANGAR not in files.content:
            return None
        place = usual_folder() if cache == "usual" else cache
        digest = digest_of(files, tuple(gathered))
        kept = None if place is None else recall(place, folder, digest)
        reading = read_files(files, Problems(gathered)) if kept is None else Reading(*kept)
        if place is not None and kept is None:
            keep(place, folder, digest, (reading.ledger, reading.problems), files)
        connections = Connections()
        if reading.ledger is not None:
            connections.add(reading.ledger)
        return HeldFiles(folder, files, gathered, reading, connections)


def from_last(folder: Path, files: Files, gathered: Problems, place: Path) -> Reading | None:
    """The reading of files, from the one kept last; None where more than logs changed since.

    place: the folder where readings are kept.
    """
    last = recall_last(place, folder, files)
    if last is None or not all(map(_is_log, last[1])):
        return None
    reading, connections = Reading(*last[0]), Connections()
    if reading.ledger is None or reading.problems:
        return None
    connections.add(reading.ledger)
    held = HeldFiles(folder, files, gathered, reading, connections)
    return _with_logs(held, files, {path: files.content[path] for path in last[1]})


def with_texts(held: HeldFiles, texts: dict[str, bytes]) -> HeldFiles:
    """The hangar as it is with other texts of some logs."""
    files = Files(
        content={**held.files.content, **texts}, slugs=held.files.slugs, photos=held.files.photos
    )
    with collector_paused():
        reading = _with_logs(held, files, texts) if all(map(_is_log, texts)) else None
        if reading is None:
            reading = read_files(files, Problems(held.gathered))
            if reading.ledger is not None:
                held.connections.add(reading.ledger)
    return HeldFiles(held.folder, files, held.gathered, reading, held.connections)


class Anew(msgspec.Struct, frozen=True):
    """A hangar read again. logs: the ones that changed, where nothing else did that counts for how
    anything stands; None: all may have changed."""

    held: HeldFiles
    logs: frozenset[str] | None


def read_again(held: HeldFiles) -> Anew | None:
    """The hangar as its files are now; None where there is none any more."""
    gathered = Problems()
    files = gather(held.folder, gathered)
    if files is None or HANGAR not in files.content:
        return None
    before, now = held.files.content, files.content
    changed = {path for path in before.keys() | now.keys() if before.get(path) != now.get(path)}
    logs = {path for path in changed if _is_log(path)}
    alike = files.slugs == held.files.slugs and tuple(gathered) == tuple(held.gathered)
    both = logs & before.keys() & now.keys()
    if alike and logs and both == changed and files.photos == held.files.photos:
        texts = {path: now[path] for path in logs}
        return Anew(with_texts(held, texts), frozenset(map(log_of_file, logs)))
    if not alike or logs:
        whole = read_held(held.folder, None)
        return None if whole is None else Anew(whole, None)
    stories = all(path.endswith(_STORY) for path in changed)
    return Anew(_beside_logs(held, files), frozenset() if stories else None)


_STORY = "/write-up.md"


def _is_log(path: str) -> bool:
    parts = path.split("/")
    return parts[0] == "stores" or (parts[0] == "aircraft" and parts[2].startswith("logbook"))


def _beside_logs(held: HeldFiles, files: Files) -> HeldFiles:
    """The hangar with other files than its logs read anew."""
    old = held.reading
    entries = None if old.ledger is None or old.problems else old.ledger.entries
    with collector_paused():
        reading = read_files(files, Problems(held.gathered), entries=entries)
        if reading.ledger is not None:
            held.connections.add(reading.ledger)
    return HeldFiles(held.folder, files, held.gathered, reading, held.connections)


def keep_reading(held: HeldFiles) -> None:
    """Keep the reading for the next command, once the files are what they are held as."""
    place = usual_folder()
    if place is not None:
        digest = digest_of(held.files, tuple(held.gathered))
        keep(place, held.folder, digest, (held.reading.ledger, held.reading.problems), held.files)


def _with_logs(held: HeldFiles, files: Files, texts: dict[str, bytes]) -> Reading | None:
    """The reading with these logs read anew; None where the whole has to be read."""
    old = held.reading.ledger
    if old is None or held.reading.problems or len(held.gathered):
        return None
    logs = {log_of_file(path) for path in texts}
    if any(_crosses(entry, logs) for entry in that_speak_of_others(old.entries)):
        return None
    problems = Problems()
    drafts: dict[str, list[Draft]] = {}
    try:
        for log in logs:
            roots = [(path, compose(files.content[path])) for path in _files_of(log, files)]
            if any(_is_told(files.content[path], root) for path, root in roots):
                return None
            drafts[log] = read_log(log, roots, problems, about(f"{log}/"))
    except Unreadable:
        return None
    for read in drafts.values():
        ids = {draft.id for draft in read} | {draft.uid for draft in read}
        for draft in read:
            if draft.kind in (*AMENDING, "cleared"):
                named = getattr(draft.pairs[draft.kind][1], "value", None)
                if named not in ids:
                    return None  # perhaps of another log
        amend(read)
    if len(problems):
        return None  # read as a whole, so that they are counted and told as always
    ledger = msgspec.structs.replace(old, entries=_joined(old, files, drafts))
    for read in drafts.values():
        held.connections.add_entries(ledger, _entries(read))
    part = held.connections.part(ledger, (), logs)
    check_references(part, _known(ledger, files), problems)
    problems.extend(secret_numbers(Files(content=texts)))
    if len(problems):
        return None
    return Reading(ledger, ())


def _is_told(content: bytes, root: Node | None) -> bool:
    """Whether there is something to say of a text that was read."""
    return bool(to_fill(content, root)) or any(lost_to_comments(content, root))


def _files_of(log: str, files: Files) -> list[str]:
    """The files of a log in the order in which they are read."""
    if not log.startswith("aircraft/"):
        return [f"{log}.yaml"]
    single = f"{log}/logbook.yaml"
    return [*([single] if single in files.content else []), *files.under(f"{log}/logbook")]


def _crosses(entry: Speaker, logs: set[str]) -> bool:
    """Whether an entry speaks of another log than its own, and one of the two is read anew."""
    other = log_spoken_of(entry)
    return other != entry.log and (other in logs or entry.log in logs)


def _entries(read: list[Draft]) -> list[AnyEntry]:
    return [draft.entry for draft in read if draft.entry is not None]


def _joined(old: Ledger, files: Files, drafts: dict[str, list[Draft]]) -> tuple[AnyEntry, ...]:
    """The entries of all logs in the order in which logs are read."""
    by_log: dict[str, list[AnyEntry]] = {}
    for log, entries in groupby(old.entries, attrgetter("log")):
        by_log.setdefault(log, []).extend(entries)
    by_log |= {log: _entries(read) for log, read in drafts.items()}
    order = [f"aircraft/{slug}" for slug in files.slugs]
    order += [path.removesuffix(".yaml") for path in files.under("stores")]
    return tuple(chain.from_iterable(by_log.get(log, ()) for log in order))


def _known(ledger: Ledger, files: Files) -> Known:
    """All names, where every record could be read."""
    return Known(
        tags=frozenset(ledger.items),
        specs=frozenset(ledger.specs),
        programmes=frozenset(ledger.programmes),
        notices=frozenset(ledger.notices),
        bench=frozenset(path.removeprefix("bench/") for path in files.under("bench")),
    )
