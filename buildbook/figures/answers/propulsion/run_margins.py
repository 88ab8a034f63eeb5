"""Plugs, sensors and wires at full throttle against what they may carry."""

from collections.abc import Iterator
from contextlib import suppress
from operator import itemgetter

import msgspec

from buildbook.basis import amounts
from buildbook.basis.units import area_of_gauge_m2
from buildbook.figures.answers.craft import FULL_THROTTLE, Craft
from buildbook.figures.answers.gathering import (
    Lacking,
    declared,
    default,
    from_figure,
    number,
    worked_out,
)
from buildbook.figures.answers.propulsion.loads import Load, Rated, loads, share_of_run
from buildbook.figures.answers.propulsion.peak import peak_current
from buildbook.figures.answers.propulsion.supply import fresh_supply, warned_fresh
from buildbook.figures.answers.propulsion.wiring import (
    USUAL_A_MM2,
    amps_of_run,
    area_of_run,
)
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import Answer, Way, attempt, by_law, worked
from buildbook.figures.laws.constants import COPPER_REFERENCE_K, HOT_COPPER_K
from buildbook.figures.laws.law import CUSTOM
from buildbook.figures.laws.propulsion.margins import current_margin
from buildbook.figures.laws.propulsion.wire import heating_s
from buildbook.records.aircraft import Run
from buildbook.report.figure import Figure, Input, Name
from buildbook.report.state import ItemNow

SOON_HOT_S = 3.0
"""So soon hot at full throttle, a run is told of. Common practice, no source."""
HOT_AFTER = "20 °C to 80 °C uncooled, s"
GAUGES = range(26, -1, -2)  # that shops have, the thinnest first


def plug_margin(craft: Craft) -> Iterator[Answer]:
    """Each plug whose rating is recorded."""
    for run in craft.now.wiring:
        if run.plug_max_current_a is not None:
            yield attempt("plug_margin", run.label, _of_load, craft, "plug", run.label)


def sensor_margin(craft: Craft) -> Iterator[Answer]:
    """Each current sensor whose rating is recorded."""
    for here in craft.now.items():
        item = craft.hangar.items.get(here.tag)
        if (
            item is not None
            and item.spec.kind == "current_sensor"
            and item.spec.max_current_a is not None
        ):
            what: Rated = "current sensor"
            yield attempt("sensor_margin", here.tag, _of_load, craft, what, here.station, here.tag)


def wire_margin(craft: Craft) -> Iterator[Answer]:
    """Each run against what is usual for its copper."""
    for run in craft.now.wiring:
        for state in craft.loads:
            yield attempt("wire_margin", f"{run.label}, {state}", _of_wire, craft, run, state)


def _of_load(craft: Craft, what: Rated, at: str, tag: str | None = None) -> Figure:
    load = next((one for one in loads(craft, craft.pack) if _is(one, what, at, tag)), None)
    if load is None:
        raise Lacking(f"what flows there is not known: no motor is behind {at}", craft.home)
    warned, fresh = warned_fresh(
        craft, craft.known_packs, load.margin, lambda one: _is(one, what, at, tag)
    )
    name = Name(load.name, load=FULL_THROTTLE)
    law = by_law("current_margin")
    return worked(
        "plug_margin" if what == "plug" else "sensor_margin",
        current_margin,
        {
            "current_a": Input(called=name, value=load.asked, unit="A", basis="spec"),
            "rating_a": declared(f"rating of the {load.name}", load.rating, "A", load.place),
        },
        unit="ratio",
        way=law.written(f"{law.formula}; I at full throttle"),
        of=at if tag is None else tag,
        verdict="; ".join(warned) or None,
        other=fresh,
        in_verdict=tuple(fresh),
        notes=(_standing(craft),),
    )


def _standing(craft: Craft) -> str:
    return f"at full throttle, standing still, at the nominal voltage of {craft.pack.tag}"


def _is(one: Load, what: Rated, at: str, tag: str | None) -> bool:
    return one.what == what and one.at == at and tag in (None, one.item and one.item.tag)


def _of_wire(craft: Craft, run: Run, state: str) -> Figure:
    most = USUAL_A_MM2[1]
    words = f"{most} A/mm², the most that many builders put on short leads: {CUSTOM}"
    amps, when = _amps(craft, run, state)
    area = area_of_run(craft, run)

    def margin(current_a: float, wire_area_m2: float, usual_a_mm2: float) -> float:
        return current_margin(current_a, usual_a_mm2 * wire_area_m2 * 1e6)

    law = by_law("current_margin")
    figure = worked(
        "wire_margin",
        margin,
        {
            "current_a": amps,
            "wire_area_m2": area,
            "usual_a_mm2": default("load of the copper", float(most), "A/mm²", words),
        },
        unit="ratio",
        way=Way(formula=f"{law.formula}, I_max of the copper", source=CUSTOM, law=law.law),
        of=f"{run.label}, {state}",
        notes=(f"against {words}; the rating of your wire takes precedence", when),
        about=run.label,
        load=state,
    )
    if (figure.value or 0.0) >= 0:
        return figure
    hot = heating_s(number(amps), number(area), COPPER_REFERENCE_K, HOT_COPPER_K)
    return msgspec.structs.replace(
        figure,
        verdict=f"{wanted_copper(number(amps) / most)}; {_soon(hot)} of it take the copper "
        "from 20 °C to 80 °C if nothing cools it",
        other={HOT_AFTER: hot},
        in_verdict=(HOT_AFTER,),
    )


def is_too_thin(margin: Figure) -> bool:
    """Whether a run carries more than is usual in a hover, or is hot in no time at full throttle.

    margin: its ``wire_margin``.
    """
    hot_s = margin.other.get(HOT_AFTER)
    return hot_s is not None and (margin.load != FULL_THROTTLE or hot_s < SOON_HOT_S)


def _soon(seconds: float) -> str:
    return amounts.figure(seconds, "s") if seconds >= 1 else f"{amounts.significant(seconds, 1)} s"


def wanted_copper(area_mm2: float) -> str:
    """What would carry it as is usual: ``8.6 mm² of copper would carry it, such as 6 AWG``."""
    said = f"{amounts.significant(area_mm2, 2)} mm² of copper would carry it"
    gauge = next((one for one in GAUGES if area_of_gauge_m2(one) * 1e6 >= area_mm2), None)
    return said if gauge is None else f"{said}, such as {gauge} AWG"


def _amps(craft: Craft, run: Run, state: str) -> tuple[Input, str]:
    """What flows in a run, and when: the peak of all packs where it is known."""
    if state != FULL_THROTTLE:
        return amps_of_run(craft, run, state), "in a hover"
    peak = craft.once("greatest peak", _greatest_peak, craft)
    if peak is None:
        return amps_of_run(craft, run, state), _standing(craft)
    share, _ = share_of_run(craft, run)
    name = Name("current", "from", run.label, load=FULL_THROTTLE)
    given = from_figure(peak, f"peak current on {peak.of}")
    return (
        worked_out(name, number(given) * share, "A", (given,)),
        f"at full throttle, standing still, with {peak.of} full",
    )


def _greatest_peak(craft: Craft) -> Figure | None:
    """Of all packs flown here the one that gives the most; only its figure is worked out."""
    peaks: list[tuple[float, ItemNow]] = []
    for pack in craft.packs:
        with suppress(Lacking, ValueError, ArithmeticError):
            peaks.append((fresh_supply(craft, pack).amps, pack))
    if not peaks:
        return None
    _, pack = max(peaks, key=itemgetter(0))
    found = attempt("peak_current", pack.tag, peak_current, craft, pack)
    return found if isinstance(found, Figure) else None


FIGURES = (
    FigureSpec(
        name="plug_margin",
        title="Margin of the plugs",
        line="At full throttle, against their rating.",
        about="What is left of a plug's rating at full throttle.",
        topic="Margins and wires",
        unit="ratio",
        worded="margin",
        shown="public",
        of_aircraft=plug_margin,
        laws=("current_margin",),
        held_by=("tests/figures/answers/test_ends_of_pack.py",),
    ),
    FigureSpec(
        name="sensor_margin",
        title="Margin of the current sensor",
        line="At full throttle, against its rating.",
        about="What is left of a current sensor's rating at full throttle.",
        topic="Margins and wires",
        unit="ratio",
        worded="margin",
        shown="public",
        of_aircraft=sensor_margin,
        laws=("current_margin",),
        held_by=("tests/figures/answers/test_ends_of_pack.py",),
    ),
    FigureSpec(
        name="wire_margin",
        title="Margin of the wires",
        line="Against what is usual for the copper; no rating.",
        about=(
            "What is left of the current that many builders put on such a wire, in a hover and at "
            "full throttle on a full pack; no rating."
        ),
        topic="Margins and wires",
        unit="ratio",
        worded="usual margin",
        shown="public",
        of_aircraft=wire_margin,
        laws=("current_margin", "heating_s"),
        held_by=(
            "tests/published/test_flight_wire.py",
            "tests/figures/answers/test_ends_of_pack.py",
        ),
    ),
)
