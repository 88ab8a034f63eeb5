"""What to write next of an aircraft that is being built: a sentence, and the lines to write.

What only the keeper can know stands between angle brackets; nothing is filled in for him.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import NamedTuple, get_args

from buildbook.basis.amounts import count, listed
from buildbook.basis.problems import as_typed, as_written, either
from buildbook.records.aircraft import Untracked
from buildbook.records.parts import CHEMISTRIES
from buildbook.records.programmes import CheckRule, stage_of
from buildbook.report.next_step import Lack, NextStep, Wanted
from buildbook.words.sheets.checks_to_write import check_lines, of_seat, spin_of
from buildbook.words.sheets.set_up import stage_words


class ToWrite(NamedTuple):
    """Lines as they stand in a file of the hangar."""

    file: str
    lines: tuple[str, ...]


def step_sentence(step: NextStep, *, asked: bool = False) -> str:
    """What is lacking, and why it is asked for. asked: for somebody who only answers."""
    sentence = _SENTENCES[step.lack](step)
    return as_typed(sentence) if asked else as_written(sentence)


def step_points(step: NextStep) -> tuple[str, ...]:
    """What to do for it, one after the other."""
    looks = tuple(f"{rule.task}: {rule.what.rstrip('.')}" for rule in step.looks)
    scales = ("weigh it ready to fly, the pack in its place but not plugged in",)
    return (
        *looks,
        *(f"{rule.check}: {_done(rule)}" for rule in step.checks),
        *(scales if step.weigh and step.checks else ()),
    )


def _done(rule: CheckRule) -> str:
    return f"{'Propellers off. ' if rule.off_first else ''}{rule.what.rstrip('.')}"


def step_writes(step: NextStep) -> tuple[ToWrite, ...]:
    """What to write, file by file."""
    home = f"aircraft/{step.slug}"
    if step.lack == "parts":
        specs = tuple(line for one in step.parts for line in _spec_lines(one, _hand_of(step)))
        items = tuple(line for one in step.parts for line in _item_lines(one))
        both = (ToWrite("parts/specs.yaml", specs), ToWrite("parts/items.yaml", items))
        return tuple(one for one in both if one.lines)
    if step.lack == "hand":
        return (ToWrite("parts/specs.yaml", (f"hand: {_hand_of(step)}",)),)
    own = step.lack in ("size", "stations", "plan")
    file = f"{home}/{'aircraft' if own else 'logbook'}.yaml"
    return (ToWrite(file, tuple(_LINES[step.lack](step))),)


def _size(step: NextStep) -> str:
    if step.kind == "aeroplane":
        return "give the wing span, for the drawing and the wing loading"
    return "give the distance between opposite motor shafts, for the drawing and the balance"


def _stations(_step: NextStep) -> str:
    return (
        "name its motor stations, each with the way it turns, seen from above, the output that"
        " drives it, and its place"
    )


_LEFT_UNTAGGED = get_args(Untracked)


def _parts(step: NextStep) -> str:
    kinds = [one.kind for one in step.parts]
    what = listed([_NAMED.get(kind, kind) for kind in kinds], "and")
    parts = [f"record {what}, each part with a tag that you write on it"]
    if any(kind in _LEFT_UNTAGGED for kind in kinds):
        example = next(kind for kind in kinds if kind in _LEFT_UNTAGGED)
        parts.append(
            "what it has none of, or what bears no tag, you leave out"
            + either(
                f", and write not_tracked: [{example}] in aircraft/{step.slug}/aircraft.yaml",
                " by -; you are asked at the end whether it has none",
            )
        )
    if any(one.kind == "esc" and len(one.tags) > 1 for one in step.parts):
        parts.append(f"an ESC that drives several motors is one: {either('tag: ', '')}E-1 alone")
    if any(one.kind == "propeller" for one in step.parts):
        seen = _hand_from(step)
        parts.append(f"the hand of a propeller is the way it turns, seen from {seen}")
    parts += [
        f"the {'specs' if len(one.specs) > 1 else 'spec'} {listed(one.specs, 'and')} so far"
        f" {'are' if len(one.specs) > 1 else 'is'} of {listed(one.shared, 'and')}: write one of its"
        f" own where its {_NAMED.get(one.kind, one.kind)} is another"
        for one in step.parts
        if one.shared
    ]
    return "; ".join(parts)


_NAMED: Mapping[str, str] = {
    "motor": "motor",
    "esc": "ESC",
    "battery": "pack",
}


def _fit(step: NextStep) -> str:
    if all(seat.kind == "servo" and seat.station is None for seat in step.seats):
        tags = [tag for seat in step.seats for tag in seat.tags]
        return f"fit the servos that move its surfaces: {listed(tags, 'and')}"
    if all(seat.kind == "propeller" for seat in step.seats):
        by_hand = {
            hand: [seat.station or "" for seat in step.seats if seat.hand == hand]
            for hand in dict.fromkeys(seat.hand for seat in step.seats if seat.hand)
        }
        planned = [f"{hand} at {listed(stations, 'and')}" for hand, stations in by_hand.items()]
        by_plan = (
            f"; by the plan {listed(planned, 'and')}, seen from {_hand_from(step)}"
            if planned
            else ""
        )
        return f"fit the propellers now, the pack unplugged: which sits where{by_plan}"
    return "say what sits where: the tag of each part"


def _serves(step: NextStep) -> str:
    esc, *stations = step.serves
    return f"say that {esc} drives {listed(stations)}, in the entry that fitted it"


def _plan(step: NextStep) -> str:
    plan = step.plan
    parts: list[str] = []
    if plan.stations and plan.outputs:
        parts.append(
            "say which way each motor turns, seen from above, and which output drives it; read"
            " both from your controller's manual"
        )
    elif plan.stations:
        parts.append("say which way the motor turns, seen from behind")
    if plan.surfaces is None:
        what = "which servo moves each" if plan.servos is not None else "each with its throws"
        parts.append(
            f"say which surfaces steer it, {what}: leave out what it lacks"
            + either("; if it has none, write not_tracked: [surfaces]", "")
        )
    elif plan.surfaces:
        parts.append(
            f"say which servo moves the {listed(plan.surfaces, 'and')}"
            + either("; if it has none that bears a tag, write not_tracked: [servo]", "")
        )
    if plan.leads:
        parts.append(
            "give the channels in the order of the receiver's leads, or of one serial lead"
        )
    if plan.sockets:
        parts.append("give the channels in the order of the receiver's sockets")
    if plan.failsafe:
        parts.append("say what each channel does when the link is lost; set it first")
    begun = "" if not plan.begun else f". Put what belongs there below {listed(plan.begun, 'and')}"
    return ". ".join(one if n == 0 else one.capitalize() for n, one in enumerate(parts)) + begun


def _hand(step: NextStep) -> str:
    return (
        f"say which way each propeller turns, seen from {_hand_from(step)}, in its spec:"
        f" {listed(step.hands, 'and')}; one that turns the other way is a spec of its own"
    )


def _checks(step: NextStep) -> str:
    if not step.checks and not step.looks:
        return "weigh it ready to fly, the pack in its place but not plugged in"
    left = f"{count('set-up check', step.left)} left; now " if step.left else ""
    if not step.checks:
        return f"{left}look, and write down what you find; it will be open as soon as it flies"
    heading, _ = stage_words(stage_of(step.checks[0]), motor=step.motor)
    parts = [f"{left}{heading[0].lower()}{heading[1:]}, in this order; write what you find"]
    if any(rule.readings for rule in step.checks):
        parts.append("A reading that you don't take is left out")
    if not all(rule.grounds for rule in step.checks):
        said = either("write result: not applicable, and because: why", "answer n/a")
        parts.append(f"Where it has no such thing, {said}")
    return ". ".join(parts)


def _mended(step: NextStep) -> str:
    return f"its defect {step.mend} is open; mend it before anything gets power, and say how"


def _looked(step: NextStep) -> str:
    of = f" of {step.tag}" if step.tag else ""
    return f"before anything gets power put right what asks for {step.mend}{of}, and look again"


def _flying(_step: NextStep) -> str:
    return (
        "everything the program asks for is recorded; when it flies, say so; its check flight"
        f" ({either('purpose: check', '--purpose check')}) may come first"
    )


_SENTENCES: Mapping[Lack, Callable[[NextStep], str]] = {
    "size": _size,
    "stations": _stations,
    "parts": _parts,
    "fit": _fit,
    "serves": _serves,
    "plan": _plan,
    "hand": _hand,
    "mended": _mended,
    "looked": _looked,
    "checks": _checks,
    "flying": _flying,
}


def _hand_from(step: NextStep) -> str:
    """From where the hand of a propeller is seen: the spin of an aeroplane from the other side."""
    return "above" if step.kind == "multirotor" else "ahead"


def _hand_of(step: NextStep) -> str:
    return f"<cw or ccw seen from {_hand_from(step)}>"


def _size_lines(step: NextStep) -> Iterator[str]:
    if step.kind == "aeroplane":
        yield "wing: {span: <tip to tip> mm}"
    else:
        yield "diagonal: <motor shaft to motor shaft through the centre> mm"


def _station_lines(step: NextStep) -> Iterator[str]:
    place = ", at: [<forward> mm, <right> mm, <down> mm]" if step.placed else ""
    yield "stations:"
    yield f"  <station>: {{spin: {spin_of(step)}, output: <number>{place}}}"


_OF_SPEC: Mapping[str, str] = {
    "motor": "mass: <mass> g, kv: <kv> rpm/V",
    "esc": "mass: <mass> g, continuous_current: <current> A",
    "propeller": "mass: <mass> g, size: <diameter x pitch as in 5x4.3>",
    "battery": "cells: <as in 4S>, capacity: <capacity> mAh,"
    f" chemistry: <{' or '.join(CHEMISTRIES)}>, mass: <mass> g",
}


def _spec_lines(wanted: Wanted, either_hand: str) -> Iterator[str]:
    facts = _OF_SPEC.get(wanted.kind, "mass: <mass> g")
    for name, hand in wanted.new:
        turns = f", hand: {hand or either_hand}" if wanted.kind == "propeller" else ""
        yield f"- {{spec: {name}, kind: {wanted.kind}, {facts}{turns}}}"


def _item_lines(wanted: Wanted) -> Iterator[str]:
    """One line a spec that it may be of: some of the propellers turn the other way."""
    names = (*wanted.specs, *(name for name, _ in wanted.new))
    halves: tuple[tuple[str, tuple[str, ...]], ...]
    if wanted.first:
        halves = ((names[0], wanted.tags[: wanted.first]), (names[1], wanted.tags[wanted.first :]))
    else:
        halves = ((names[0] if len(names) == 1 else "<its spec>", wanted.tags),)
    for spec, tags in halves:
        aged = ", acquired: <day>" if wanted.kind == "battery" else ""
        yield f"- {{{_tags(tags, wanted.open_end)}, spec: {spec}{aged}}}"


def _tags(tags: tuple[str, ...], open_end: bool) -> str:
    if open_end:
        stem = tags[0].rstrip("0123456789")
        return f"tags: {tags[0]}..{stem}<last>"
    return f"tags: {tags[0]}..{tags[-1]}" if len(tags) > 1 else f"tag: {tags[0]}"


def _fit_lines(step: NextStep) -> Iterator[str]:
    yield f"- on: {step.day}"
    yield "  fit:"
    for station in dict.fromkeys(seat.station for seat in step.seats):
        slots = ", ".join(
            f"{seat.kind}: {of_seat(seat)}" for seat in step.seats if seat.station == station
        )
        yield f"    {station or '<where they sit as in wing>'}: {{{slots}}}"
    if step.serves:
        yield from _served_lines(step)


def _served_lines(step: NextStep) -> Iterator[str]:
    esc, *stations = step.serves
    yield f"  serves: {{{esc}: [{', '.join(stations)}]}}"


def _plan_lines(step: NextStep) -> Iterator[str]:
    plan = step.plan
    if plan.stations and "stations" not in plan.begun:
        yield "stations:"
    output = ", output: <number>" if plan.outputs else ""
    place = ", at: [<forward> mm, <right> mm, <down> mm]" if step.placed else ""
    for station in plan.stations:
        yield f"  {station}: {{spin: {spin_of(step)}{output}{place}}}"
    yield from _surface_lines(step)
    if plan.leads:
        yield "receiver: {order: [<channels in order as in aileron>]}"
    if plan.sockets:
        yield "sockets: [<channels in order as in aileron>]"
    if plan.failsafe:
        of = "throttle: <as in cut>" if step.motor else "<channel>: <as in slightly left>"
        failsafe = f"failsafe: {{{of}, rest: <as in centre or hold>}}"
        yield f"  {failsafe}" if "radio" in plan.begun else f"radio: {{{failsafe}}}"


_USUAL_SURFACES = ("elevator", "rudder", "aileron")


def _surface_lines(step: NextStep) -> Iterator[str]:
    plan = step.plan
    if plan.surfaces is None:
        yield "surfaces:"
    for name in _USUAL_SURFACES if plan.surfaces is None else plan.surfaces:
        if plan.servos is None:
            yield f"  {name}: {{up: <up> mm, down: <down> mm}}"
        else:
            yield f"  {name}: {plan.servos}<{'number' if plan.servos else 'its servo'}>"


def _mended_lines(step: NextStep) -> Iterator[str]:
    yield from (f"- on: {step.day}", f"  cleared: {step.mend}", "  how: <what was done>")


def _looked_lines(step: NextStep) -> Iterator[str]:
    yield from (f"- on: {step.day}", f"  inspection: {step.mend}")
    if step.tag:
        yield f"  tags: [{step.tag}]"
    yield "  result: <pass or fail>"


def _flying_lines(step: NextStep) -> Iterator[str]:
    yield from (f"- on: {step.day}", "  alteration: built and set up", "  status: flying")


_LINES: Mapping[Lack, Callable[[NextStep], Iterable[str]]] = {
    "size": _size_lines,
    "stations": _station_lines,
    "fit": _fit_lines,
    "serves": _served_lines,
    "plan": _plan_lines,
    "mended": _mended_lines,
    "looked": _looked_lines,
    "checks": check_lines,
    "flying": _flying_lines,
}
