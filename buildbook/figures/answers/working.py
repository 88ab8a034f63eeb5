"""How an answer becomes a figure: its law, its inputs, what would change it most, its doubt."""

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Any, ParamSpec

import msgspec

from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import Lacking, number, weakest, weakest_links
from buildbook.report.figure import BASIS_WORDS, Basis, CannotSay, Figure, Input, Sensitivity
from buildbook.report.state import ItemNow

Answer = Figure | CannotSay
Given = ParamSpec("Given")
STEP = 0.01
LEVEL = 0.95  # of the limits that are told beside a value
NAMED = 3


class Way(msgspec.Struct, frozen=True, kw_only=True):
    """How a figure was come by: the text of its formula, its source, the key of its law.

    by_method: the text is no formula but words.
    """

    formula: str
    source: str
    law: str | None = None
    by_method: bool = False

    def written(self, formula: str) -> "Way":
        """The same, with its formula written otherwise."""
        return msgspec.structs.replace(self, formula=formula)


def by_law(key: str) -> Way:
    """The way of a registered law of flight. KeyError: there is none of that name."""
    # Here, as the work list needs methods only, and all laws take longer to load than it runs.
    from buildbook.figures.formula import law_text
    from buildbook.figures.laws.flight_registry import FLIGHT

    law = FLIGHT[key]
    by_method = law.kind == "method"
    formula = law.method if by_method else law_text(law)
    return Way(formula=formula, source=law.source, law=key, by_method=by_method)


def by_method(words: str, source: str, law: str | None = None) -> Way:
    """A way that is no straight formula, in words."""
    return Way(formula=words, source=source, law=law, by_method=True)


def worked(
    name: str,
    compute: Callable[..., float],
    inputs: Mapping[str, Input],
    *,
    unit: str,
    way: Way,
    of: str | None = None,
    further: Iterable[Input] = (),
    notes: Iterable[str] = (),
    **fields: Any,
) -> Figure:
    """A figure of one number from a law.

    inputs: by the parameter of ``compute``; further: inputs that are no number of the law (a
    file, a chemistry). Raises what the law raises; Lacking where an input has no number.
    """
    values = {key: number(given) for key, given in inputs.items()}
    value = finite(compute(**values))
    return given_value(
        name,
        value,
        unit=unit,
        way=way,
        of=of,
        inputs=(*inputs.values(), *further),
        notes=notes,
        sensitivity=_sensitivity(compute, inputs, values, value),
        **fields,
    )


def given_value(
    name: str,
    value: float | None,
    *,
    unit: str,
    way: Way,
    inputs: Iterable[Input],
    of: str | None = None,
    notes: Iterable[str] = (),
    **fields: Any,
) -> Figure:
    """A figure whose value is known; its basis is the weakest of its inputs."""
    inputs = tuple(inputs)
    for given in inputs:
        if isinstance(given.value, float) and not math.isfinite(given.value):
            raise ValueError(f"{given.name} is not a finite number")
    for key in ("low", "high"):
        if fields.get(key) is not None:
            fields[key] = finite_or_none(fields[key])
    basis: Basis | None = fields.setdefault("basis", None)
    fields["basis"] = basis or weakest(given.basis for given in inputs)
    return Figure(
        name=name,
        of=of,
        value=None if value is None else finite(value),
        unit=unit,
        inputs=inputs,
        formula=way.formula,
        source=way.source,
        law=way.law,
        by_method=way.by_method,
        notes=(
            *rests_on(inputs, stated=basis is not None, beside=fields.get("about") or of or ""),
            *notes,
        ),
        **fields,
    )


def rests_on(inputs: Sequence[Input], *, stated: bool = False, beside: str = "") -> tuple[str, ...]:
    """The note that names the weakest of the inputs; none where all are known equally well.

    stated: the figure has a basis of its own; then only defaults are named. beside: the subject
    of the figure, which what is assumed of it need not name again.
    """
    basis = weakest(given.basis for given in inputs)
    names = weakest_links(inputs, basis, beside if basis == "default" else "")
    if basis == "default":
        return (f"rests on what is assumed: {', '.join(names)}",)
    if stated or len({given.basis for given in inputs}) < 2:
        return ()
    said = ", ".join(names[:NAMED])
    more = f" and {len(names) - NAMED} more" if len(names) > NAMED else ""
    return (f"weakest inputs, {BASIS_WORDS[basis]}: {said}{more}",)


def finite(value: float) -> float:
    """The value itself. ValueError: it is no finite number."""
    if not math.isfinite(value):
        raise ValueError("the inputs give no finite number")
    return float(value)


def finite_or_none(value: float) -> float | None:
    """A limit of an interval, or None where it has none on that side."""
    return float(value) if math.isfinite(value) else None


def attempt(
    name: str,
    of: str | None,
    work: Callable[Given, Figure],
    *args: Given.args,
    **keywords: Given.kwargs,
) -> Answer:
    """The figure that the work gives, or why it cannot: what is lacking, or the law's words."""
    try:
        return work(*args, **keywords)
    except Lacking as lacking:
        return CannotSay(name=name, of=of, because=lacking.because, place=lacking.place)
    except (ValueError, ArithmeticError) as refused:
        return CannotSay(name=name, of=of, because=str(refused))


def attempt_each(
    name: str,
    work: Callable[Given, Figure | Iterator[Answer]],
    *args: Given.args,
    **keywords: Given.kwargs,
) -> Iterator[Answer]:
    """All figures of a name; what stops the gathering of them becomes a cannot say."""
    try:
        found = work(*args, **keywords)
        yield from (found,) if isinstance(found, Figure) else found
    except Lacking as lacking:
        yield CannotSay(name=name, because=lacking.because, place=lacking.place)
    except (ValueError, ArithmeticError) as refused:
        yield CannotSay(name=name, because=str(refused))


def attempt_packs(
    name: str, craft: Craft, work: Callable[[Craft, ItemNow], Figure]
) -> Iterator[Answer]:
    """A figure for each pack that is flown on an aircraft; a single cannot say where none is."""
    try:
        packs = craft.known_packs
    except Lacking as lacking:
        yield CannotSay(name=name, because=lacking.because, place=lacking.place)
        return
    for pack in packs:
        yield attempt(name, pack.tag, work, craft, pack)


def _sensitivity(
    compute: Callable[..., float],
    inputs: Mapping[str, Input],
    values: Mapping[str, float],
    value: float,
) -> tuple[Sensitivity, ...]:
    """Change of the value, as a share of it, when each input grows by one percent."""
    if value == 0:
        return ()
    found = []
    for key, given in inputs.items():
        if given.unit == "count" or values[key] == 0:
            continue
        try:
            moved = compute(**{**values, key: values[key] * (1 + STEP)})
        except (ValueError, ArithmeticError):
            continue  # one percent more is out of the law's range
        share = (moved - value) / value
        if math.isfinite(share):
            found.append(Sensitivity(input=given.called, share_per_percent=share))
    return tuple(sorted(found, key=lambda one: -abs(one.share_per_percent)))
