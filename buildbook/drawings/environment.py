"""The one place where drawing templates are loaded and rendered."""

from __future__ import annotations

from functools import cache

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup


def pair(point: tuple[float, float]) -> str:
    """Both coordinates of a point."""
    return f"{short(point[0])} {short(point[1])}"


def short(value: float) -> str:
    """A coordinate with at most one decimal and no trailing zero."""
    text = f"{value:.1f}"
    text = text.removesuffix(".0")
    return "0" if text == "-0" else text


@cache
def environment() -> Environment:
    """The environment of `svg/*.svg.j2`: escaping on, an undefined name stops the build."""
    made = Environment(
        loader=PackageLoader("buildbook.drawings", "svg"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    made.filters["n"] = short
    return made


def draw(template: str, **facts: object) -> Markup:
    """Render `svg/<template>.svg.j2`; the result is safe to print in an HTML page."""
    text = environment().get_template(f"{template}.svg.j2").render(**facts)
    return Markup("\n".join(line for line in text.split("\n") if line))
