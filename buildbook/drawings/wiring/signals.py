"""Signal leads as they run: from the receiver's sockets to the controller, from its outputs on.

Both ends stand in their own order, so that a lead crosses another where it really does.
"""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from buildbook.drawings.environment import short
from buildbook.drawings.lettering import FACT, WIDTH, Anchor, Line, Role, shorten, text_width
from buildbook.report.drawn.plans import DrivePlan, WiringPlan

_HEAD = 13.0
_NAME = 12.0
_PITCH, _CLOSE = 20.0, 17.0  # from pin to pin; the second where there are many
_MANY = 10
_PIN = 4.0  # half the side of a pin
_LEFT = (12.0, 90.0)  # the receiver, its edges
_MIDDLE = (136.0, 180.0)  # the controller
_RIGHT = 230.0  # what hangs from its outputs
_ALONE = (12.0, 116.0)  # the receiver, where no controller is fitted
_SERVOS = 190.0


class Block(msgspec.Struct, frozen=True, kw_only=True):
    """A receiver or a controller; dashed where none is recorded."""

    left: float
    right: float
    top: float
    bottom: float
    recorded: bool


class Lead(msgspec.Struct, frozen=True, kw_only=True):
    """One lead between two pins; open where nobody wrote where it ends."""

    start: tuple[float, float]
    end: tuple[float, float]
    open: bool = False

    @property
    def path(self) -> str:
        """Out of the pin, across, and into the other."""
        (x1, y1), (x2, y2) = self.start, self.end
        reach = 0.5 * (x2 - x1)
        points = ((x1 + reach, y1), (x2 - reach, y2), (x2, y2))
        return f"M{short(x1)} {short(y1)}C" + " ".join(f"{short(x)} {short(y)}" for x, y in points)


class Signals(msgspec.Struct, frozen=True, kw_only=True):
    """All of it; `pins` are small squares, filled."""

    blocks: tuple[Block, ...]
    leads: tuple[Lead, ...]
    pins: tuple[tuple[float, float], ...]
    lines: tuple[Line, ...]
    top: float
    bottom: float


class _Sheet:
    """Collects shapes and words."""

    def __init__(self, top: float, most: int) -> None:
        self.top = top
        self.pitch = _PITCH if most <= _MANY else _CLOSE
        self.first = top + 42.0  # of the first row of pins
        self.blocks: list[Block] = []
        self.leads: list[Lead] = []
        self.pins: list[tuple[float, float]] = []
        self.lines: list[Line] = []

    def write(
        self,
        text: str,
        x: float,
        y: float,
        anchor: Anchor,
        size: float = FACT,
        role: Role = "fact",
    ) -> None:
        self.lines.append(Line(text=text, x=x, y=y, size=size, anchor=anchor, role=role))

    def head(self, text: str, x: float, anchor: Anchor) -> None:
        self.write(text, x, self.top + 16.0, anchor, _HEAD, "name")

    def block(self, edges: tuple[float, float], rows: float, recorded: bool = True) -> None:
        bottom = self.first + (max(rows, 1) - 1) * self.pitch + 14.0
        self.blocks.append(
            Block(
                left=edges[0],
                right=edges[1],
                top=self.first - 15.0,
                bottom=bottom,
                recorded=recorded,
            )
        )

    def lead(self, start: tuple[float, float], end: tuple[float, float]) -> None:
        self.leads.append(Lead(start=start, end=end))

    def stub(self, start: tuple[float, float]) -> None:
        self.leads.append(Lead(start=start, end=(start[0] + 16.0, start[1]), open=True))

    def done(self) -> Signals:
        rows = [block.bottom for block in self.blocks] + [line.y + 6.0 for line in self.lines]
        return Signals(
            blocks=tuple(self.blocks),
            leads=tuple(self.leads),
            pins=tuple(dict.fromkeys(self.pins)),
            lines=tuple(self.lines),
            top=self.top,
            bottom=max(rows),
        )


def signals(plan: WiringPlan, top: float) -> Signals | None:
    """The signal leads below `top`; None where neither leads nor outputs are recorded."""
    outputs = [drive for drive in plan.drives if drive.output is not None]
    if not plan.leads and not (outputs and plan.controlled):
        return None
    sheet = _Sheet(top, max(len(plan.leads), len(plan.sockets), len(outputs)))
    if plan.controlled:
        _into_controller(sheet, plan)
        _out_of_controller(sheet, plan, outputs)
        used = max(len(_socketed(plan)), len(plan.leads), _rows_of(outputs))
        sheet.block(_MIDDLE, used, plan.controller is not None)
        sheet.head("controller", sum(_MIDDLE) / 2, "middle")
    else:
        _to_servos(sheet, plan)
    return sheet.done()


def _socketed(plan: WiringPlan) -> tuple[tuple[str, str], ...]:
    """Number of the socket and channel, in the order of the receiver; no number: not recorded."""
    if not plan.sockets:
        return tuple(("", name) for name in plan.leads)
    numbered = [(str(number), name) for number, name in enumerate(plan.sockets, 1)]
    return (*numbered, *(("", name) for name in plan.leads if name not in plan.sockets))


def _receiver(sheet: _Sheet, plan: WiringPlan, edges: tuple[float, float]) -> dict[str, float]:
    """The receiver with its channels; the height of each."""
    rows = _socketed(plan)
    heights: dict[str, float] = {}
    sheet.head("receiver", edges[0], "start")
    sheet.block(edges, len(rows), plan.receiver is not None)
    for place, (number, name) in enumerate(rows):
        y = sheet.first + place * sheet.pitch
        room = edges[1] - edges[0] - 16.0 - text_width(number, FACT)
        sheet.write(shorten(name, FACT, room), edges[0] + 7.0, y + 4.0, "start")
        if number:
            sheet.write(number, edges[1] - 8.0, y + 4.0, "end")
        sheet.pins.append((edges[1], y))
        heights.setdefault(name, y)
    return heights


def _into_controller(sheet: _Sheet, plan: WiringPlan) -> None:
    if not plan.leads:
        return
    heights = _receiver(sheet, plan, _LEFT)
    for number, name in enumerate(plan.leads, 1):
        y = sheet.first + (number - 1) * sheet.pitch
        sheet.write(str(number), _MIDDLE[0] + 8.0, y + 4.0, "start")
        sheet.pins.append((_MIDDLE[0], y))
        sheet.lead((_LEFT[1], heights[name]), (_MIDDLE[0], y))
    for name, y in heights.items():
        if name not in plan.leads:
            sheet.stub((_LEFT[1], y))


def _names_of(station: str) -> tuple[str, ...]:
    """A name in one line, or broken at its last hyphen that leaves both short."""
    room = WIDTH - 8.0 - _RIGHT - 9.0
    if text_width(station, _NAME, True) <= room:
        return (station,)
    head, hyphen, tail = station.rpartition("-")
    if not hyphen:
        return (shorten(station, _NAME, room, True),)
    return shorten(f"{head}-", _NAME, room, True), shorten(tail, _NAME, room, True)


def _rows_of(outputs: Sequence[DrivePlan]) -> float:
    """How many rows the stations take; a name of two lines takes one and a half."""
    return sum(0.7 * len(_names_of(drive.station)) + 0.3 for drive in outputs)


def _out_of_controller(sheet: _Sheet, plan: WiringPlan, outputs: Sequence[DrivePlan]) -> None:
    """Outputs in the order of their numbers at the left, stations in reading order at the right."""
    if not outputs:
        return
    boards = {drive.esc for drive in plan.drives}
    board = next(iter(boards)) if len(boards) == 1 and len(plan.drives) > 1 else None
    sheet.head(shorten(board or "ESC", _HEAD, 84.0, True), _RIGHT - _PIN, "start")
    places: list[float] = []
    y = sheet.first
    for drive in outputs:
        names = _names_of(drive.station)
        tall = 0.7 * (len(names) - 1) * sheet.pitch
        places.append(y + tall / 2)
        for row, name in enumerate(names):
            sheet.write(name, _RIGHT + 9.0, y + 4.0 + 14.0 * row, "start", _NAME, "name")
        y += sheet.pitch + tall
    numbered = sorted(range(len(outputs)), key=lambda place: (outputs[place].output or 0, place))
    for at, place in zip(places, numbered, strict=True):
        sheet.write(str(outputs[place].output), _MIDDLE[1] - 8.0, at + 4.0, "end")
        sheet.pins += ((_MIDDLE[1], at), (_RIGHT, places[place]))
        sheet.lead((_MIDDLE[1], at), (_RIGHT, places[place]))


class End(msgspec.Struct, frozen=True):
    """What a lead of a receiver without controller drives: a servo, or an ESC."""

    channel: str
    name: str
    fact: str


def ends_of(plan: WiringPlan) -> tuple[End, ...]:
    """The ends of the leads in the order of the channels; a channel may have none or several."""
    found: list[End] = []
    for channel in plan.sockets or plan.leads:
        found += (End(channel, servo.drives, servo.tag) for servo in plan.servos_of(channel))
        if channel == "throttle":
            found += (End(channel, drive.station, drive.esc or "ESC") for drive in plan.drives)
    return tuple(found)


def _to_servos(sheet: _Sheet, plan: WiringPlan) -> None:
    """Without a controller a lead ends at a servo or an ESC, or nobody wrote where."""
    heights = _receiver(sheet, plan, _ALONE)
    ends = ends_of(plan)
    shift = max(0.0, (len(heights) - len(ends)) / 2 * sheet.pitch)
    if ends:
        sheet.head("servos and ESC", _SERVOS - _PIN, "start")
    for place, end in enumerate(ends):
        y = sheet.first + shift + place * sheet.pitch
        sheet.pins.append((_SERVOS, y))
        sheet.lead((_ALONE[1], heights[end.channel]), (_SERVOS, y))
        room = WIDTH - 14.0 - _SERVOS - 9.0 - text_width(end.fact, FACT)
        name = shorten(end.name, _NAME, room, True)
        sheet.write(name, _SERVOS + 9.0, y + 4.0, "start", _NAME, "name")
        sheet.write(end.fact, WIDTH - 12.0, y + 4.0, "end")
    for name, y in heights.items():
        count = sum(end.channel == name for end in ends)
        if count == 0:
            sheet.stub((_ALONE[1], y))
        elif count > 1:
            sheet.write("Y", _ALONE[1] + 8.0, y - 5.0, "start")
