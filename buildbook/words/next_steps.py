"""What to write next of an aircraft that is being built: a sentence, and the lines to write.

What only the keeper can know stands between angle brackets; nothing is filled in for him.
"""

from collections.abc import Callable, Mapping
from typing import get_args

from buildbook.basis.amounts import count, listed
from buildbook.records.aircraft import Untracked
from buildbook.report.next_step import Lack, NextStep


def step_sentence(step: NextStep) -> str:
    """What is lacking, and why it is asked for."""
    return _SENTENCES[step.lack](step)


def step_lines(step: NextStep) -> tuple[str, ...]:
    """What to write, as it stands in the file."""
    return _LINES[step.lack](step)


def _size(step: NextStep) -> str:
    if step.kind == "aeroplane":
        return "give the wing span, for the drawing and the wing loading"
    return "give the distance between opposite motor shafts, for the drawing and the balance"


def _parts(step: NextStep) -> str:
    (kind,) = step.slots
    what = "ESC" if kind == "esc" else kind
    at = "" if kind in _LEFT_UNTAGGED else f" for {step.station}"
    return f"record the {what}{at}{_with_tag(step, what)}{_or_not(step, kind)}"


def _with_tag(step: NextStep, what: str) -> str:
    """A spec is asked for only where there is none of that kind yet."""
    if step.specs:
        return ", with a tag"
    return f": its spec in parts/specs.yaml, and the {what} itself, with a tag"


_LEFT_UNTAGGED = get_args(Untracked)


def _or_not(step: NextStep, kind: str) -> str:
    """The way out of a question about what may bear no tag, or is not there at all."""
    if kind not in _LEFT_UNTAGGED:
        return ""
    return (
        f"; if it has none that bears a tag, write not_tracked: [{kind}] in"
        f" aircraft/{step.slug}/aircraft.yaml"
    )


def _surfaces(step: NextStep) -> str:
    if step.station is not None:
        return f"say which servo moves the {step.station}{_or_not(step, 'servo')}"
    what = ", and which servo moves each" if step.slots else ", each with its throws"
    return f"say which surfaces steer it{what}; if it has none, write not_tracked: [surfaces]"


def _fit(step: NextStep) -> str:
    if step.tags:
        return f"fit the servos that move its surfaces: {listed(step.tags, 'and')}"
    return f"fit what {step.station} lacks: {listed(step.slots, 'and')}"


def _stations(step: NextStep) -> str:
    if step.kind == "aeroplane":
        return f"say which way the motor of {step.station} turns, seen from behind"
    if step.station is None:
        return (
            "name its motor stations, each with the way it turns, seen from above, the output that"
            " drives it, and its place"
        )
    return (
        f"say which way {step.station} turns, seen from above, and which output drives it;"
        " read both from your controller's manual"
    )


def _serves(step: NextStep) -> str:
    esc, *stations = step.slots
    return f"say that {esc} drives {listed(stations)}, in the entry that fitted it"


def _leads(_step: NextStep) -> str:
    return "give the order of the receiver's leads; of one serial lead, the channels on it"


def _sockets(_step: NextStep) -> str:
    return "give the channels in the order of the receiver's sockets"


def _failsafe(_step: NextStep) -> str:
    return "say what each channel does when the link is lost; set it in the receiver first"


def _pack(step: NextStep) -> str:
    return f"record a pack{_with_tag(step, 'pack')}{_or_not(step, 'battery')}"


def _weighing(_step: NextStep) -> str:
    return "weigh it ready to fly, the pack in its place but not plugged in"


def _check(step: NextStep) -> str:
    assert step.check is not None
    left = f"{count('set-up check', step.left)} left; next {step.check.check}. "
    off = "Propellers off. " if step.check.off_first else ""
    none = "" if step.check.grounds else _NONE
    return f"{left}{off}{step.check.what.rstrip('.')}{none}"


_NONE = ". If it has no such thing, write result: not applicable, and because: why"


def _flying(_step: NextStep) -> str:
    return (
        "everything the program asks for is recorded; when it flies, say so; its check flight"
        " (purpose: check) may come first"
    )


_SENTENCES: Mapping[Lack, Callable[[NextStep], str]] = {
    "size": _size,
    "parts": _parts,
    "fit": _fit,
    "surfaces": _surfaces,
    "stations": _stations,
    "serves": _serves,
    "leads": _leads,
    "sockets": _sockets,
    "failsafe": _failsafe,
    "pack": _pack,
    "weighing": _weighing,
    "check": _check,
    "flying": _flying,
}


def _size_lines(step: NextStep) -> tuple[str, ...]:
    if step.kind == "aeroplane":
        return ("wing: {span: <tip to tip, in mm>}",)
    return ("diagonal: <motor shaft to motor shaft through the centre, in mm>",)


def _parts_lines(step: NextStep) -> tuple[str, ...]:
    spec = step.specs[0] if len(step.specs) == 1 else "<its spec>"
    return (f"- {{tag: <its tag>, spec: {spec}, acquired: <the day>}}",)


def _surface_lines(step: NextStep) -> tuple[str, ...]:
    each = "<its servo>" if step.slots else "{up: <in mm>, down: <in mm>}"
    if step.station is not None:
        return (f"surfaces: {{{step.station}: {each}}}",)
    return ("surfaces:", f"  <surface>: {each}")


def _fit_lines(step: NextStep) -> tuple[str, ...]:
    if step.tags:
        tags = step.tags[0] if len(step.tags) == 1 else f"[{', '.join(step.tags)}]"
        return (f"- on: {step.day}", f"  fit: {{<where they sit>: {{servo: {tags}}}}}")
    slots = ", ".join(f"{slot}: <its tag>" for slot in step.slots)
    return (f"- on: {step.day}", f"  fit: {{{step.station}: {{{slots}}}}}")


def _station_lines(step: NextStep) -> tuple[str, ...]:
    output = "" if step.kind == "aeroplane" else ", output: <number>"
    place = ", at: [<forward>, <right>, <down>]" if step.placed else ""
    at = step.station or "<station>"
    return ("stations:", f"  {at}: {{spin: <cw or ccw>{output}{place}}}")


def _serves_lines(step: NextStep) -> tuple[str, ...]:
    esc, *stations = step.slots
    return (f"  serves: {{{esc}: [{', '.join(stations)}]}}",)


def _socket_lines(_step: NextStep) -> tuple[str, ...]:
    return ("sockets: [<channel>, <channel>]",)


def _lead_lines(_step: NextStep) -> tuple[str, ...]:
    return ("receiver: {order: [<channel>, <channel>]}",)


def _failsafe_lines(step: NextStep) -> tuple[str, ...]:
    if not step.motor:
        return ("radio: {failsafe: {<channel>: <what it does>, rest: <what the others do>}}",)
    return ("radio: {failsafe: {throttle: <cut>, rest: <what the others do>}}",)


def _weighing_lines(step: NextStep) -> tuple[str, ...]:
    return (f"- on: {step.day}", "  weigh: <mass, in g>")


def _check_lines(step: NextStep) -> tuple[str, ...]:
    assert step.check is not None
    return (f"- on: {step.day}", f"  check: {step.check.check}", "  result: <pass or fail>")


def _flying_lines(step: NextStep) -> tuple[str, ...]:
    return (f"- on: {step.day}", "  alteration: built and set up", "  status: flying")


_LINES: Mapping[Lack, Callable[[NextStep], tuple[str, ...]]] = {
    "size": _size_lines,
    "parts": _parts_lines,
    "fit": _fit_lines,
    "surfaces": _surface_lines,
    "stations": _station_lines,
    "serves": _serves_lines,
    "leads": _lead_lines,
    "sockets": _socket_lines,
    "failsafe": _failsafe_lines,
    "pack": _parts_lines,
    "weighing": _weighing_lines,
    "check": _check_lines,
    "flying": _flying_lines,
}
