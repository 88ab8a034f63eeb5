"""Where reading stands: the file, the record, and the problems found so far."""

from buildbook.basis.amounts import listed
from buildbook.basis.notation import quoted
from buildbook.basis.place import Place
from buildbook.basis.problems import Problems
from buildbook.records.keys.nodes import MappingNode, Node, ScalarNode, is_text, line_of, shape_of


class Scope:
    """One record being read.

    file, about: as in ``Problem``. line: of the record. lines: of its values by key path, where
    that is another line. here: whether the nodes stand in ``file`` (a correction's may not).
    """

    __slots__ = ("about", "file", "line", "lines", "problems")

    def __init__(self, file: str, line: int, problems: Problems, about: str | None = None) -> None:
        self.file = file
        self.line = line
        self.problems = problems
        self.about = about
        self.lines: dict[str, int] = {}

    def at(self, node: Node) -> "Scope":
        """The same file, at another record."""
        return Scope(self.file, line_of(node), self.problems, self.about)

    def remember(self, path: str, node: Node) -> None:
        """Keep the line of a value, where it isn't the record's own."""
        line: int = node.start_mark.line + 1
        if line != self.line:
            self.lines[path] = line

    def place(self, node: Node | None = None) -> Place:
        """The place of a node, or of the record."""
        return Place(self.file, self.line if node is None else line_of(node))

    def refuse(
        self,
        node: Node | None,
        reason: str,
        hint: str | None = None,
        also: tuple[Place, ...] = (),
    ) -> None:
        """Note a problem at a node, or at the record."""
        self.problems.add(
            reason, self.place(node), hint=hint, also=also, about=self.about, begins=self.line
        )

    def warn(
        self,
        node: Node | None,
        reason: str,
        hint: str | None = None,
        also: tuple[Place, ...] = (),
    ) -> None:
        """Note a warning at a node, or at the record."""
        self.problems.warn(reason, self.place(node), hint=hint, also=also, about=self.about)

    def expected(self, words: str, node: Node, path: str, hint: str | None = None) -> None:
        """Note that a node is not what is expected there."""
        if is_text(node) and not node.value:
            name = quoted(path.rpartition(".")[2])
            quotes = "; within brackets, a text with a comma needs quotes"
            hint = f"write {words}{quotes if words == 'text' else ''}"
            self.refuse(node, f"{name} has no value", hint)
        else:
            self.refuse(node, f"expected {words}, got {shape_of(node)}", hint)


Pairs = dict[str, tuple[Node, Node]]
"""The keys of a group, each with the node of the key and the node of the value."""


def pairs_of(node: MappingNode, scope: Scope) -> Pairs:
    """The keys of a group; a key that is written twice is a problem, and the first one stands."""
    pairs: Pairs = {}
    again: list[tuple[ScalarNode, Place]] = []
    for key, value in node.value:
        if key.id != "scalar":
            scope.refuse(key, "a list or a group stands where a key is expected")
        elif key.value in pairs:
            first = scope.place(pairs[key.value][0])
            if key.value == "on":  # two entries run into one: the rest would be told key by key
                hint = "begin a new entry with '- '"
                scope.refuse(key, "key 'on' is written twice", hint, (first,))
                break
            again.append((key, first))
        else:
            pairs[key.value] = (key, value)
    _refuse_again(again, scope)
    return pairs


def _refuse_again(again: list[tuple[ScalarNode, Place]], scope: Scope) -> None:
    """Keys that are written a second time: several at once have one cause, so one sentence."""
    if len(again) == 1:
        key, first = again[0]
        scope.refuse(key, f"key {quoted(key.value)} is written twice", "keep one", (first,))
    elif again:
        keys = listed([quoted(key.value) for key, _ in again])
        hint = "where two records ran into one, begin the second with '- '; else keep one of each"
        scope.refuse(again[0][0], f"keys {keys} are written twice", hint, (again[0][1],))
