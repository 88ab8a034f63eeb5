"""Runs of the wiring as a tree that hangs from the pack, so that no line ever crosses another."""

from __future__ import annotations

from collections.abc import Iterator

import msgspec

from buildbook.report.drawn.plans import DrivePlan, RunPlan, WiringPlan

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
