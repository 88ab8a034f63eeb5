"""The wiring: from the pack down to the motors, and the signal leads in order."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import msgspec
from markupsafe import Markup

from buildbook.drawings.environment import draw
from buildbook.drawings.lettering import FACT, NAME, WIDTH, Line, Role, shorten, text_width
from buildbook.drawings.wiring.signals import Signals, ends_of, signals
from buildbook.report.drawn.plans import DrivePlan, RunPlan, Table, WiringPlan
from buildbook.words.measures.lengths import length_words

EACH_ESC = "each esc"
MOST_DRIVES = 12
MOST_LEADS = 16
MOST_NODES = 24
DEEPEST = 5


class Node(msgspec.Struct, frozen=True, kw_only=True):
    """A part of the power path: the run that feeds it, and what it feeds in turn.

    `drive` is set where the node is one ESC with its motor.
    """

    name: str
    depth: int
    feed: RunPlan | None = None
    drive: DrivePlan | None = None
    children: tuple[Node, ...] = ()

    def walk(self) -> Iterator[Node]:
        """This node, then everything that hangs from it, in order."""
        yield self
        for child in self.children:
            yield from child.walk()


def wiring_tree(plan: WiringPlan) -> Node | None:
    """The tree of power, or None where the runs are no tree or too many to draw.

    A tree has one root and feeds each part once. ESCs without a run hang from nothing and make
    it None too, unless there are no runs at all.
    """
    runs = plan.runs
    if len(plan.drives) > MOST_DRIVES or len(plan.leads) > MOST_LEADS:
        return None
    targets = [run.to for run in runs]
    sources = {run.from_ for run in runs}
    roots = [name for name in dict.fromkeys(run.from_ for run in runs) if name not in targets]
    if len(roots) != 1 or len(set(targets)) != len(targets) or EACH_ESC in sources:
        return None
    drives = {drive.station: drive for drive in plan.drives if not drive.on_board}
    named = [_esc_station(run.to, drives) for run in runs]
    if drives and EACH_ESC not in targets and set(filter(None, named)) != set(drives):
        return None
    root = _node(roots[0], None, 0, plan)
    nodes = list(root.walk())
    whole = {node.name for node in nodes} >= {name for name in targets if name != EACH_ESC}
    if not whole or len(nodes) > MOST_NODES or max(node.depth for node in nodes) > DEEPEST:
        return None
    return root


def _esc_station(name: str, drives: dict[str, DrivePlan]) -> str | None:
    """The station that a run to one ESC names: `esc front-left`, `front-left esc`, `front-left`."""
    for station in drives:
        if name in (station, f"esc {station}", f"{station} esc"):
            return station
    return None


def _node(name: str, feed: RunPlan | None, depth: int, plan: WiringPlan) -> Node:
    drives = {drive.station: drive for drive in plan.drives if not drive.on_board}
    children: list[Node] = []
    for run in plan.runs:
        if run.from_ != name or depth > DEEPEST:
            continue
        if run.to != EACH_ESC:
            station = _esc_station(run.to, drives)
            node = _node(run.to, run, depth + 1, plan)
            drive = drives[station] if station else None
            children.append(msgspec.structs.replace(node, drive=drive))
            continue
        own = {_esc_station(other.to, drives) for other in plan.runs}
        for drive in drives.values():
            if drive.station not in own:
                label = f"esc {drive.station}"
                children.append(Node(name=label, depth=depth + 1, feed=run, drive=drive))
        if not drives:
            children.append(Node(name=run.to, depth=depth + 1, feed=run))
    return Node(name=name, depth=depth, feed=feed, children=tuple(children))


TALLEST = 920.0  # on one page of A4 or Letter its words are still 8 point
_LEFT = 16.0
_INDENT = 22.0
_BOX = 26.0


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """A box of the drawing, with its motor where it is an ESC."""

    x: float
    y: float  # of its middle
    width: float
    motor_x: float | None = None


class Feed(msgspec.Struct, frozen=True, kw_only=True):
    """The line into a part: down from `top` at `x`, then right to `end` at `y`."""

    x: float
    top: float
    y: float
    end: float
    weight: float


class Sheet(msgspec.Struct, frozen=True, kw_only=True):
    """All shapes and words of a wiring drawing."""

    parts: tuple[Part, ...]
    feeds: tuple[Feed, ...]
    signals: Signals | None
    lines: tuple[Line, ...]
    height: float


def run_words(run: RunPlan) -> tuple[str, str]:
    """What a run is (gauge, length, plug) and what it carries (current, drop)."""
    is_parts = [run.wire, None if run.length_m is None else length_words(run.length_m), run.plug]
    loads = []
    if run.current_a is not None:
        loads.append(f"{run.current_a:.1f} A" if run.current_a < 10 else f"{run.current_a:.0f} A")
    if run.drop_v is not None:
        share = "" if run.drop_share is None else f" ({run.drop_share * 100:.1f} %)"
        loads.append(f"drop {run.drop_v * 1000:.0f} mV{share}")
    return " · ".join(filter(None, is_parts)), " · ".join(loads)


def _weights(plan: WiringPlan) -> dict[RunPlan, float]:
    """Line weight of each run, 1.4 to 6 units, by the square root of its share of most current."""
    most = max((run.current_a or 0.0 for run in plan.runs), default=0.0)
    return {
        run: 2.0 if not most or run.current_a is None else 1.4 + 4.6 * (run.current_a / most) ** 0.5
        for run in plan.runs
    }


class Numbers(msgspec.Struct, frozen=True):
    """The numbers of notes beside the drawing, by run as drawn; of the leads to each motor."""

    runs: Mapping[RunPlan, int] = {}
    motors: int | None = None


def numbers_of(whole: WiringPlan, drawn: WiringPlan) -> Numbers:
    """Each run of the whole plan in its order; ``drawn`` has them without those of each ESC."""
    told = [at for at, run in enumerate(whole.runs, 1) if run.from_ != EACH_ESC]
    motors = [at for at, run in enumerate(whole.runs, 1) if run.from_ == EACH_ESC]
    return Numbers(dict(zip(drawn.runs, told, strict=True)), motors[0] if motors else None)


class _Pen:
    """Collects parts, feeds and words from the top of the sheet downwards."""

    def __init__(self, numbers: Numbers) -> None:
        self.numbers = numbers
        self.leads = numbers.motors  # its number, until it stands at the first motor
        self.y = 14.0
        self.parts: list[Part] = []
        self.feeds: list[Feed] = []
        self.lines: list[Line] = []

    def write(self, text: str, x: float, y: float, role: Role = "fact", room: float = 999) -> None:
        size = NAME if role == "name" else FACT
        room = min(room, WIDTH - 8.0 - x)
        fitting = shorten(text, size, room, role == "name")
        self.lines.append(Line(text=fitting, x=x, y=y, size=size, role=role, anchor="start"))

    def node(self, node: Node, weights: dict[RunPlan, float], tell: bool) -> float:
        """Draw a node and all below it; the height of its middle comes back."""
        x = _LEFT + _INDENT * node.depth
        if tell and node.feed is not None:
            self.y += 4.0
            number = self.numbers.runs.get(node.feed)
            if number is not None:
                self.write(str(number), x - 3.0, self.y + 13.0, "name")
            said = [words for words in run_words(node.feed) if words]
            for words in said or ([""] if number is not None else []):
                self.y += 13.0
                self.write(words, x - 3.0 if number is None else x + 12.0, self.y)
            self.y += 6.0
        middle = self.y + _BOX / 2
        self.part(node, x, middle)
        self.y += _BOX + 7.0
        told: RunPlan | None = None
        top = middle + (_BOX / 2 if node.drive is None else 11.0)
        trunk = x + 10.0
        reached: list[Feed] = []
        for child in node.children:
            at = self.node(child, weights, child.feed is not told)
            told = child.feed
            weight = weights[child.feed] if child.feed else 2.0
            end = x + _INDENT
            reached.append(Feed(x=trunk, top=top, y=at, end=end, weight=weight))
        self.feeds += reversed(reached)
        return middle

    def part(self, node: Node, x: float, middle: float) -> None:
        drive = node.drive
        if drive is None:
            width = min(text_width(node.name, NAME, True) + 22.0, WIDTH - 12.0 - x)
            self.parts.append(Part(x=x, y=middle, width=width))
            self.write(node.name, x + 11.0, middle + 4.5, "name", width - 14.0)
            return
        label = drive.esc or "ESC"
        width = min(max(text_width(label, FACT) + 18.0, 48.0), 128.0)
        motor_x = x + width + 42.0
        self.parts.append(Part(x=x, y=middle, width=width, motor_x=motor_x))
        self.write(label, x + 9.0, middle + 4.0, room=width - 12.0)
        if self.leads is not None:
            self.write(str(self.leads), x + width + 11.0, middle + 4.5, "name")
            self.leads = None
        at = motor_x + 17.0
        self.write(drive.station, at, middle - 1.0, "name")
        output = "" if drive.output is None else f"output {drive.output}"
        words = [" · ".join(filter(None, (output, drive.motor)))]
        if text_width(words[0], FACT) > WIDTH - 8.0 - at:
            words = [output, drive.motor or ""]
        for row, text in enumerate(filter(None, words)):
            self.write(text, at, middle + 11.5 + 13.0 * row)
            self.y += 13.0 if row else 0.0


def _sheet(plan: WiringPlan, tree: Node | None, numbers: Numbers) -> Sheet:
    pen = _Pen(numbers)
    if tree is not None:
        pen.node(tree, _weights(plan), tell=False)
    below = signals(plan, pen.y + (12.0 if tree is not None else 0.0))
    return Sheet(
        parts=tuple(pen.parts),
        feeds=tuple(pen.feeds),
        signals=below,
        lines=(*pen.lines, *(below.lines if below else ())),
        height=round((below.bottom + 8.0 if below else pen.y) + 6.0),
    )


def wiring_drawing(
    plan: WiringPlan, prefix: str = "wiring", numbers: Numbers | None = None
) -> Markup | None:
    """Power from the pack downwards and leads in order; legible from 288 px, one page in print.

    numbers: those of the notes beside the drawing.
    None where there is nothing to draw or more than can be drawn sensibly: the table stands alone.
    """
    tree = wiring_tree(plan) if plan.runs else None
    if (plan.runs and tree is None) or len(plan.leads) > 16 or not (plan.runs or plan.leads):
        return None
    sheet = _sheet(plan, tree, numbers or Numbers())
    if sheet.height > TALLEST:
        return None
    return draw(
        "wiring",
        prefix=prefix,
        width=WIDTH,
        title=f"Wiring of {plan.aircraft}",
        desc=wiring_words(plan),
        sheet=sheet,
    )


def wiring_words(plan: WiringPlan) -> str:
    """All facts of the drawing in sentences."""
    sentences = []
    for run in plan.runs:
        words = ", ".join(filter(None, run_words(run))).replace(" · ", ", ")
        sentences.append(f"{run.from_} to {run.to}{': ' if words else ''}{words}.")
    for drive in plan.drives:
        parts = [f"{drive.station}: {drive.esc or 'ESC'} drives {drive.motor or 'the motor'}"]
        if drive.output is not None:
            parts.append(f"output {drive.output}")
        sentences.append(", ".join(parts) + ".")
    sentences += _lead_sentences(plan)
    return " ".join(sentences)


def _numbered(names: Sequence[str]) -> str:
    return ", ".join(f"{number} {name}" for number, name in enumerate(names, 1))


def _lead_sentences(plan: WiringPlan) -> Iterator[str]:
    if plan.sockets:
        yield f"Sockets of the receiver, in order: {_numbered(plan.sockets)}."
    if plan.leads and plan.controlled:
        yield f"Receiver leads into the controller, in order: {_numbered(plan.leads)}."
    elif plan.leads:
        ends = "".join(f" {end.channel} to {end.fact} ({end.name})." for end in ends_of(plan))
        yield f"No controller is fitted. Leads of the receiver: {_numbered(plan.leads)}.{ends}"


def wiring_table(plan: WiringPlan) -> Table:
    """One row a run, an ESC or a lead: from, to, what it is, what it carries."""
    rows = [(run.from_, run.to, *run_words(run)) for run in plan.runs]
    for drive in plan.drives:
        output = "" if drive.output is None else f"output {drive.output}"
        esc = f"{drive.esc or 'ESC'} ({drive.station})"
        rows.append((esc, drive.motor or f"motor {drive.station}", "three phase leads", output))
    rows += _lead_rows(plan)
    return ("from", "to", "run", "load"), tuple(rows)


def _lead_rows(plan: WiringPlan) -> Iterator[tuple[str, str, str, str]]:
    sockets = {name: f" socket {number}" for number, name in enumerate(plan.sockets, 1)}
    for number, name in enumerate(plan.leads, 1):
        start = f"receiver{sockets.get(name, '')} {name}"
        if plan.controlled:
            yield start, f"controller input {number}", "servo lead", ""
            continue
        ends = [end for end in ends_of(plan) if end.channel == name]
        for end in ends:
            lead = "Y-lead" if len(ends) > 1 else "servo lead"
            yield start, f"{end.fact} ({end.name})", lead, ""
        if not ends:
            yield start, "not recorded", "servo lead", ""
    for drive in plan.drives if plan.controlled else ():
        if drive.output is not None:
            esc = f"{drive.esc or 'ESC'} ({drive.station})"
            yield f"controller output {drive.output}", esc, "signal lead", ""


_ONE_ESC = ("esc", "the esc", "speed controller")


def drawn_wiring(plan: WiringPlan) -> WiringPlan:
    """The same as a tree: without runs beyond the ESCs, which the table tells of.

    A run to or from ``esc`` on an aircraft with one drive is one of the ESC of that station. Motors
    that share one ESC board hang from no run of their own, so only the board is drawn.
    """
    only = f"esc {plan.drives[0].station}" if len(plan.drives) == 1 else None
    shared = len(plan.drives) > 1 and len({drive.esc for drive in plan.drives}) == 1
    on_board = shared and all(run.to != EACH_ESC for run in plan.runs)
    return msgspec.structs.replace(
        plan,
        drives=tuple(msgspec.structs.replace(drive, on_board=on_board) for drive in plan.drives),
        runs=tuple(
            msgspec.structs.replace(run, from_=_one(run.from_, only), to=_one(run.to, only))
            for run in plan.runs
            if run.from_ != EACH_ESC
        ),
    )


def _one(end: str, only: str | None) -> str:
    """The end of a run by the name of its station, where it is of the only ESC."""
    return only if only and end in _ONE_ESC else end
