"""The files of a hangar become a ledger: what is broken is told and left out."""

import re
from collections.abc import Iterable, Iterator

import msgspec

from buildbook.basis.notation import quoted
from buildbook.basis.place import Place
from buildbook.basis.problems import Problem, Problems
from buildbook.records.aircraft import Aircraft
from buildbook.records.checking.known import Known
from buildbook.records.checking.parts_references import lost_parts_told_once
from buildbook.records.checking.references import check_references
from buildbook.records.checking.secrets import secret_numbers, without_secrets
from buildbook.records.entries import AnyEntry
from buildbook.records.keys.nodes import line_of
from buildbook.records.keys.plain_text import Fault, Unreadable, decoded
from buildbook.records.keys.yaml_nodes import MappingNode, Node, ScalarNode, compose
from buildbook.records.ledger import BenchTable, Ledger, Reading, WriteUp
from buildbook.records.notices import Notice
from buildbook.records.parts import Item, Spec
from buildbook.records.programmes import Programme
from buildbook.records.reading.aircraft import read_aircraft, read_keeper
from buildbook.records.reading.bench import read_bench
from buildbook.records.reading.corrections import amend
from buildbook.records.reading.files import HANGAR, Files, about
from buildbook.records.reading.logs import Draft, read_log
from buildbook.records.reading.parts import Named, read_items, read_specs
from buildbook.records.reading.programmes import built_in_programmes, read_notices, read_programme
from buildbook.records.reading.story_shape import faults_of, without_front_matter

_PLACE = re.compile(r"[^\s<>]{0,20}<[A-Za-z][^<>]*>( [^\s<>]{1,9})?").fullmatch


def to_fill(content: bytes, root: Node | None) -> list[Fault]:
    """Each unquoted text that is a place taken over and not filled in: ``<mass> g``."""
    if root is None or b"<" not in content:
        return []
    return [
        Fault(f"{quoted(node.value)} is still to be filled in", line_of(node), _HINT)
        for node in _plain(root)
        if _PLACE(node.value)
    ]


_HINT = "write what you read or measured in place of <…>, brackets too; or delete that line"


_LIKELY = re.compile(rb"[^\s#] +#[A-Za-z0-9]").search
_REST = re.compile(r" +(#[A-Za-z0-9][^\n]*)").match


def lost_to_comments(content: bytes, root: Node | None) -> Iterator[tuple[int, str]]:
    """Line and words of each comment that directly follows unquoted text, in the order of them.

    One with a space after the # is meant as a comment, and an entry with ``sure: true`` as it is.
    Most files have no such line at all.
    """
    if root is None or _LIKELY(content) is None:
        return
    lines = content.decode("utf-8", "replace").splitlines()
    for node in _plain(root):
        end = node.end_mark
        if end.line < len(lines):
            rest = _REST(lines[end.line][end.column :])
            if rest is not None:
                yield end.line + 1, rest.group(1).strip()


def _plain(root: Node) -> Iterator[ScalarNode]:
    """The unquoted texts below a node; a quoted one or a block keeps its #."""
    waiting = [root]
    while waiting:
        node = waiting.pop()
        if isinstance(node, MappingNode) and _is_sure(node):
            continue
        if isinstance(node, ScalarNode):
            if not node.style and node.value:
                yield node
        elif isinstance(node.value, list):
            for child in reversed(node.value):
                waiting += reversed(child) if isinstance(child, tuple) else (child,)


def _is_sure(node: MappingNode) -> bool:
    return any(key.value == "sure" and value.value == "true" for key, value in node.value)


_MOST_PLACES = 8


def read_files(
    files: Files, problems: Problems, *, entries: tuple[AnyEntry, ...] | None = None
) -> Reading:
    """What the files say; ``problems``: those of gathering them, others are added.

    entries: what all logs say, where they were read already and nothing was wrong with them.
    """
    ledger = interpret(files, problems, entries=entries)
    problems.extend(secret_numbers(files))
    told = (without_secrets(problem) for problem in problems)
    return Reading(ledger, tuple(counted(told)))


def counted(problems: Iterable[Problem]) -> Iterator[Problem]:
    """The problems in their order; repeats of one reason about one thing are one with a count."""
    groups: dict[object, list[Problem]] = {}
    for problem in problems:
        groups.setdefault(problem.known_by, []).append(problem)
    for first, *more in groups.values():
        if not more:
            yield first
            continue
        yield msgspec.structs.replace(
            first,
            reason=f"{first.reason}, {len(more) + 1} times in all",
            once=first.reason,
            also=(*first.also, *(problem.place for problem in more[:_MOST_PLACES])),
        )


def interpret(
    files: Files,
    problems: Problems,
    *,
    pure: bool = False,
    entries: tuple[AnyEntry, ...] | None = None,
) -> Ledger | None:
    """The ledger of the files; broken records are told and left out.

    pure: read with the parser that needs no libyaml. entries: as in ``read_files``.
    """
    reader = _Reader(files, problems, pure)
    keeper = None
    if HANGAR in files.content:
        root = reader.root(HANGAR)
        if HANGAR not in reader.unread:
            keeper = read_keeper(root, HANGAR, problems)
    reader.read_parts()
    reader.read_programmes()
    reader.read_notices()
    reader.read_aircraft()
    if entries is None:
        reader.read_logs()
        entries = tuple(draft.entry for draft in reader.drafts if draft.entry is not None)
    if keeper is None:
        return None
    ledger = Ledger(
        keeper=keeper,
        specs=reader.specs,
        items=reader.items,
        aircraft=reader.aircraft,
        entries=entries,
        programmes=reader.programmes,
        bench=reader.read_bench(),
        write_ups=reader.read_write_ups(),
        photos=files.photos,
        notices=reader.notices,
    )
    known, found = reader.known(), Problems()
    check_references(ledger, known, found)
    problems.extend(lost_parts_told_once(found, known))
    return ledger


class _Reader:
    """The records as they are read, file after file."""

    def __init__(self, files: Files, problems: Problems, pure: bool) -> None:
        self.files = files
        self.problems = problems
        self.pure = pure
        self.specs: dict[str, Spec] = {}
        self.items: dict[str, Item] = {}
        self.aircraft: dict[str, Aircraft] = {}
        self.programmes: dict[str, Programme] = {}
        self.drafts: list[Draft] = []
        self.spec_names = Named("spec")
        self.tags = Named("tag")
        self.programme_names = Named("programme")
        self.notices: dict[str, Notice] = {}
        self.unread: set[str] = set()  # files that are no YAML, which is told
        self.notice_names = Named("notice")

    def root(self, path: str, names: Named | None = None) -> Node | None:
        """The root node of a file; None where it is empty or, with a problem, unreadable."""
        try:
            root = compose(self.files.content[path], pure=self.pure)
            faults = to_fill(self.files.content[path], root)
            if faults:
                unreadable = Unreadable(faults[0].reason)
                unreadable.faults = faults
                raise unreadable
            for line, lost in lost_to_comments(self.files.content[path], root):
                self.problems.warn(
                    f"{quoted(lost)} is a comment: a # after a space ends the text before it",
                    Place(path, line),
                    hint="put the whole text in quotes; with a space after the # it is a comment"
                    " too, and is not read",
                    about=about(path),
                )
            return root
        except Unreadable as error:
            self.unreadable(error, path)
            self.unread.add(path)
            if names is not None:
                names.whole = False
            return None

    def unreadable(self, error: Unreadable, path: str) -> None:
        """Tell why a file was not read."""
        for reason, line, hint in error.faults:
            self.problems.add(reason, Place(path, line), hint=hint, about=about(path))

    def known(self) -> Known:
        """All names that were seen, those of broken records among them."""
        return Known(
            tags=self.tags.seen(),
            specs=self.spec_names.seen(),
            programmes=self.programme_names.seen(),
            notices=self.notice_names.seen(),
            bench=frozenset(path.removeprefix("bench/") for path in self.files.under("bench")),
        )

    def _of(self, name: str) -> list[str]:
        """A file of parts/, or the files of the folder of that name."""
        single = f"parts/{name}.yaml"
        return [
            *([single] if single in self.files.content else []),
            *self.files.under(f"parts/{name}"),
        ]

    def read_parts(self) -> None:
        """Specs, and the items of the hangar."""
        for path in self._of("specs"):
            root = self.root(path, self.spec_names)
            read_specs(root, path, self.problems, self.spec_names, self.specs)
        for path in self._of("items"):
            root = self.root(path, self.tags)
            read_items(root, path, self.problems, self.tags, self.items)

    def read_notices(self) -> None:
        """The notices of all files."""
        for path in self.files.under("notices"):
            root = self.root(path, self.notice_names)
            read_notices(root, path, self.problems, self.notice_names, self.notices)

    def read_programmes(self) -> None:
        """The built-in programmes and the keeper's own, those that are a base first."""
        self.programmes.update(built_in_programmes())
        known = dict(self.programmes)
        waiting = [
            (path, self.root(path, self.programme_names)) for path in self.files.under("programmes")
        ]
        for path, root in _bases_first(waiting):
            if path in self.unread:
                continue
            read = read_programme(root, path, self.problems, known)
            if read is None:
                continue
            if read.name in known:
                self.problems.add(
                    f"programme {quoted(read.name)} exists twice",
                    read.place("programme"),
                    hint="give one of them another name",
                    also=(known[read.name].place("programme"),),
                )
                continue
            known[read.name] = read
            self.programmes[read.name] = read

    def read_aircraft(self) -> None:
        """The aircraft, and the items that are listed with them."""
        for slug in self.files.slugs:
            path = f"aircraft/{slug}/aircraft.yaml"
            if path not in self.files.content:
                if not any(place.place.file == path for place in self.problems):
                    self.problems.add("the folder has no aircraft.yaml", Place(path, 1), about=slug)
                continue
            root = self.root(path, self.tags)
            if path in self.unread:
                continue
            aircraft = read_aircraft(root, path, slug, self.problems, self.tags, self.items)
            if aircraft is not None:
                self.aircraft[slug] = aircraft

    def read_logs(self) -> None:
        """All logs: those of the aircraft, then those of the stores."""
        for slug in self.files.slugs:
            home = f"aircraft/{slug}"
            single = f"{home}/logbook.yaml"
            paths = [single] if single in self.files.content else []
            paths += self.files.under(f"{home}/logbook")
            roots = [(path, self.root(path)) for path in paths]
            self.drafts += read_log(home, roots, self.problems, slug)
        for path in self.files.under("stores"):
            log = path.removesuffix(".yaml")
            self.drafts += read_log(log, [(path, self.root(path))], self.problems, None)
        amend(self.drafts)

    def read_bench(self) -> dict[str, BenchTable]:
        """The thrust-stand tables by file name."""
        tables = {}
        for path in self.files.under("bench"):
            table = read_bench(self.files.content[path], path, self.problems)
            if table is not None:
                tables[path.removeprefix("bench/")] = table
        return tables

    def read_write_ups(self) -> dict[str, WriteUp]:
        """The build stories by slug."""
        stories = {}
        for slug in self.files.slugs:
            path = f"aircraft/{slug}/write-up.md"
            if path in self.files.content:
                try:
                    text = without_front_matter(decoded(self.files.content[path]))
                except Unreadable as error:
                    self.unreadable(error, path)
                    continue
                faults = faults_of(text)
                for reason, line, hint in faults:
                    self.problems.add(reason, Place(path, line), hint=hint, about=slug)
                if not faults:
                    stories[slug] = WriteUp(file=path, text=text)
        return stories


def _bases_first(waiting: list[tuple[str, Node | None]]) -> list[tuple[str, Node | None]]:
    """Programmes in an order in which each comes after the one that it is based on."""
    names = {_plain_value(root, "programme"): path for path, root in waiting}
    bases = {path: names.get(_plain_value(root, "based_on")) for path, root in waiting}
    depth = {}
    for path, _ in waiting:
        steps, at = 0, bases[path]
        while at is not None and steps < len(waiting):
            steps, at = steps + 1, bases[at]
        depth[path] = steps
    return sorted(waiting, key=lambda each: depth[each[0]])


def _plain_value(root: Node | None, key: str) -> str | None:
    pairs = root.value if root is not None and isinstance(root.value, list) else []
    for pair in pairs:
        if isinstance(pair, tuple) and pair[0].value == key:
            return pair[1].value if isinstance(pair[1].value, str) else None
    return None
