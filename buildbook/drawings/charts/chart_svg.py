"""A matplotlib figure as SVG for a page: variables for colours, no style, no metadata, own ids.

Charts are drawn in marker colours (`COLOURS`); each becomes a class of `drawings.css`. A run of
dots becomes one path of round line ends, which is a tenth of the size.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from xml.etree import ElementTree

from markupsafe import Markup, escape

COLOURS: Mapping[str, str] = {
    "ink": "#010101",
    "soft": "#020202",
    "line": "#030303",
    "accent": "#040404",
    "tint": "#050505",
    "good": "#060606",
    "warn": "#070707",
    "bad": "#080808",
    "paper": "#090909",
}
_NAMES = {colour: name for name, colour in COLOURS.items()}
_SVG = "{http://www.w3.org/2000/svg}"
_XLINK = "{http://www.w3.org/1999/xlink}href"
_KEPT = (
    "stroke-width",
    "stroke-dasharray",
    "stroke-linecap",
    "fill-opacity",
    "opacity",
    "stroke-opacity",
    "text-anchor",
    "font-size",
    "font-weight",
)
_NUMBER = re.compile(r"-?\d+\.\d+(?:e-?\d+)?")
_NO_TURN = re.compile(r"rotate\(-?0(?:\.0)? [^)]*\)")
_MOVE = re.compile(r"translate\(([-\d.]+)[ ,]([-\d.]+)\)")
_DOT = 5.0  # least diameter of a dot


def page_svg(raw: str, title: str, desc: str, prefix: str) -> Markup:
    """The SVG of a figure, `raw` as matplotlib wrote it, made fit for a page.

    ValueError: `no colour for ...` where a chart was drawn in a colour that is not in `COLOURS`,
    `cannot place ...` where a text is turned.
    """
    root = ElementTree.fromstring(raw)
    box = root.attrib["viewBox"]
    body = "\n".join(_written(_Shapes(root, prefix).shapes()))
    return Markup(
        f'<svg xmlns="http://www.w3.org/2000/svg" class="d" viewBox="{box}" role="img" '
        f'aria-labelledby="{prefix}-title {prefix}-desc" fill="none" stroke-linejoin="round">\n'
        f'<title id="{prefix}-title">{escape(title)}</title>\n'
        f'<desc id="{prefix}-desc">{escape(desc)}</desc>\n'
        f"{body}\n</svg>"
    )


class _Shapes:
    """The shapes of one figure, flat and in drawing order."""

    def __init__(self, root: ElementTree.Element, prefix: str) -> None:
        self.root = root
        self.prefix = prefix
        self.defined = {
            element.attrib["id"]: element
            for defs in root.iter(f"{_SVG}defs")
            for element in defs
            if "id" in element.attrib
        }

    def _clip(self, name: str) -> str:
        clips = [key for key, element in self.defined.items() if element.tag == f"{_SVG}clipPath"]
        return f"{self.prefix}-clip{clips.index(name) + 1}"

    def shapes(self) -> Iterator[tuple[str, dict[str, str], str]]:
        """Tag, attributes and text of each shape; clip paths first."""
        for name, element in self.defined.items():
            if element.tag == f"{_SVG}clipPath":
                rect = element[0]
                kept = {key: _tidy(rect.attrib[key]) for key in ("x", "y", "width", "height")}
                yield "clipPath", {"id": self._clip(name), **kept}, ""
        yield from self._inside(self.root)

    def _inside(self, parent: ElementTree.Element) -> Iterator[tuple[str, dict[str, str], str]]:
        dots: dict[tuple[str, str], list[tuple[str, str]]] = {}
        for element in parent:
            tag = element.tag.removeprefix(_SVG)
            if tag in ("defs", "metadata", "style"):
                continue
            if tag == "use":
                key = (element.attrib[_XLINK][1:], element.attrib.get("style", ""))
                place = _tidy(element.attrib["x"]), _tidy(element.attrib["y"])
                dots.setdefault(key, []).append(place)
            elif tag == "g":
                yield from self._inside(element)
            elif tag == "text":
                yield "text", self._attributes(element), element.text or ""
            else:
                attributes = self._attributes(element)
                if attributes.get("d") and "class" in attributes:
                    yield tag, attributes, ""
        for (name, style), places in dots.items():
            yield "path", self._markers(name, _style(style), places), ""

    def _markers(
        self, name: str, style: Mapping[str, str], places: Sequence[tuple[str, str]]
    ) -> dict[str, str]:
        """Dots as line ends; rings as rings."""
        radius = _radius(self._attributes(self.defined[name]).get("d", ""))
        filled = style.get("fill", "none") != "none" and style.get("fill-opacity") != "0"
        if not filled and "stroke" in style:
            return {
                "class": f"d-s-{_name(style['stroke'])}",
                "stroke-width": style.get("stroke-width", "1"),
                "d": "".join(_ring(x, y, radius) for x, y in places),
            }
        colour = style.get("fill") or style.get("stroke", "")
        return {
            "class": f"d-s-{_name(colour)}",
            "stroke-width": _tidy(f"{max(2 * radius, _DOT):.1f}"),
            "stroke-linecap": "round",
            "d": "".join(f"M{x} {y}h0" for x, y in places),
        }

    def _attributes(self, element: ElementTree.Element) -> dict[str, str]:
        style = _style(element.attrib.get("style", ""))
        made: dict[str, str] = {}
        classes = [
            f"d-{kind}-{_name(style[key])}"
            for kind, key in (("f", "fill"), ("s", "stroke"))
            if style.get(key, "none") != "none"
        ]
        if element.tag == f"{_SVG}text" and not classes:
            classes = ["d-f-ink"]
        if classes:
            made["class"] = " ".join(classes)
        made |= {key: _tidy(style[key]).removesuffix("px") for key in _KEPT if key in style}
        if "d-s-" not in made.get("class", ""):
            for key in ("stroke-width", "stroke-dasharray", "stroke-linecap"):
                made.pop(key, None)
        clip = element.attrib.get("clip-path")
        if clip:
            made["clip-path"] = f"url(#{self._clip(clip[5:-1])})"
        turn = element.attrib.get("transform", "")
        moved = _MOVE.fullmatch(turn)
        if moved:
            made |= {"x": _tidy(moved[1]), "y": _tidy(moved[2])}
        elif turn and not _NO_TURN.fullmatch(turn):
            raise ValueError(f"cannot place {turn!r}")
        for key in ("x", "y"):
            if key in element.attrib:
                made[key] = _tidy(element.attrib[key])
        if "d" in element.attrib:
            made["d"] = _path(element.attrib["d"])
        return made


def _written(shapes: Iterator[tuple[str, dict[str, str], str]]) -> Iterator[str]:
    for tag, attributes, text in shapes:
        if tag == "clipPath":
            name = attributes.pop("id")
            yield f'<clipPath id="{name}"><rect{_listed(attributes)}/></clipPath>'
        elif tag == "text":
            yield f"<text{_listed(attributes)}>{escape(text)}</text>"
        else:
            yield f"<{tag}{_listed(attributes)}/>"


def _listed(attributes: Mapping[str, str]) -> str:
    return "".join(f' {key}="{escape(value)}"' for key, value in attributes.items())


def _ring(x: str, y: str, radius: float) -> str:
    across = _tidy(f"{2 * radius:.1f}")
    half = _tidy(f"{radius:.1f}")
    left = _tidy(f"{float(x) - radius:.1f}")
    return f"M{left} {y}a{half} {half} 0 1 0 {across} 0a{half} {half} 0 1 0 -{across} 0"


def _style(text: str) -> dict[str, str]:
    pairs = (part.partition(":") for part in text.split(";") if ":" in part)
    return {key.strip(): value.strip() for key, _, value in pairs}


def _name(colour: str) -> str:
    if colour not in _NAMES:
        raise ValueError(f"no colour for {colour!r}")
    return _NAMES[colour]


def _tidy(text: str) -> str:
    """All numbers in a text with one decimal at most."""

    def shorter(found: re.Match[str]) -> str:
        value = f"{float(found.group()):.1f}".removesuffix(".0")
        return "0" if value == "-0" else value

    return _NUMBER.sub(shorter, text)


def _path(data: str) -> str:
    return re.sub(r" ?([MLCQZz]) ?", r"\1", _tidy(" ".join(data.split())))


def _radius(path: str) -> float:
    numbers = [abs(float(number)) for number in re.findall(r"-?\d+(?:\.\d+)?", path)]
    return max(numbers, default=0.0)
