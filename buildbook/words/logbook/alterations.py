"""What an alteration changed, in words: stations, leads, radio, wiring, masses, limits."""

from collections.abc import Iterator

from buildbook.basis import amounts
from buildbook.records.aircraft import Bounds, Place3, Radio, Run, StationPlan
from buildbook.records.entries import Alteration
from buildbook.words.surfaces import surface_words

Said = tuple[str, str]
"""A label and what stands beside it."""


def alteration_details(entry: Alteration) -> Iterator[Said]:
    """Each thing that was changed, in the order of the keys of the file."""
    for name, plan in entry.stations.items():
        yield f"station {name}", station_words(plan)
    if entry.receiver:
        yield "receiver leads", ", ".join(entry.receiver)
    if entry.sockets:
        yield "receiver sockets", ", ".join(entry.sockets)
    if entry.radio:
        yield "radio", radio_words(entry.radio)
    for name, surface in entry.surfaces.items():
        yield f"surface {name}", surface_words(surface)
    for run in entry.wiring:
        yield f"wire {run.label}", run_words(run)
    for name, at in entry.positions.items():
        yield f"place of {name}", place_words(at)
    for sundry in entry.sundries:
        yield "sundry", f"{sundry.what}, {amounts.mass(sundry.mass_kg)}"
    if entry.bounds:
        yield "limits", bounds_words(entry.bounds)
    if entry.status:
        yield "status", entry.status
    if entry.mass_kg is not None:
        yield "mass", f"{'+' if entry.mass_kg > 0 else ''}{amounts.mass(entry.mass_kg)}"
    if entry.at is not None:
        yield "at", place_words(entry.at)


def station_words(plan: StationPlan) -> str:
    """``spin ccw, output 3``."""
    said = (
        f"spin {plan.spin}" if plan.spin else "",
        f"output {plan.output}" if plan.output is not None else "",
        place_words(plan.at) if plan.at else "",
    )
    return ", ".join(word for word in said if word)


def place_words(at: Place3) -> str:
    """``10 mm forward, 5 mm left, 25 mm down``; what is zero is left out."""
    ends = (("forward", "aft"), ("right", "left"), ("down", "up"))
    said = [
        f"{amounts.length(abs(length_m))} {ahead if length_m > 0 else behind}"
        for length_m, (ahead, behind) in zip(at, ends, strict=True)
        if length_m
    ]
    return ", ".join(said) or "at the reference point"


def run_words(run: Run) -> str:
    """``14 AWG, 140 mm, bullet 4 mm``."""
    said = (
        run.wire.written if run.wire else "",
        amounts.length(run.length_m) if run.length_m is not None else "",
        run.plug or "",
    )
    return ", ".join(word for word in said if word) or "as recorded"


def radio_words(radio: Radio) -> str:
    """``memory 4, mode 2, rudder reversed, …``."""
    said = [
        f"memory {radio.memory}" if radio.memory else "",
        f"mode {radio.mode}" if radio.mode else "",
        f"transmitter {radio.transmitter}" if radio.transmitter else "",
        f"{amounts.listed(radio.reversed)} reversed" if radio.reversed else "",
        f"throttle cut: {radio.throttle_cut}" if radio.throttle_cut else "",
    ]
    said += [f"failsafe {name}: {does}" for name, does in radio.failsafe.items()]
    said += [
        f"{name} switch {', '.join(f'{at}: {does}' for at, does in ends.items())}"
        for name, ends in radio.switches.items()
    ]
    return "; ".join(word for word in said if word)


def bounds_words(bounds: Bounds) -> str:
    """``at most 1800 g, balance 20 % to 33 % of the chord``."""
    said = []
    if bounds.max_mass_kg is not None:
        said.append(f"at most {amounts.mass(bounds.max_mass_kg)}")
    if bounds.forward_cg_share is not None and bounds.aft_cg_share is not None:
        said.append(
            f"balance {amounts.share(bounds.forward_cg_share)} to "
            f"{amounts.share(bounds.aft_cg_share)} of the chord"
        )
    if bounds.forward_cg_m is not None and bounds.aft_cg_m is not None:
        said.append(
            f"balance {amounts.length(bounds.forward_cg_m)} to "
            f"{amounts.length(bounds.aft_cg_m)} forward of the reference point"
        )
    return ", ".join(said)
