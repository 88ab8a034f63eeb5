"""What the figures page begins with: the figures that matter, and packs side by side."""

from collections.abc import Iterator, Sequence

import msgspec

from buildbook.report.figure import Answers, Figure, least_share
from buildbook.report.figures.headlines import Headline
from buildbook.report.reports import Reports
from buildbook.words.figures import meaning_of
from buildbook.words.measures.figure_values import value_words

_MARGINS = ("motor_margin", "esc_margin", "battery_margin")
_MARGIN_AFTER = ("hover_throttle", "hover_current")
_FLOWN_INSTEAD = {"hover_current": "flown_current"}
"""What theory says, and the figure of the log that is shown in its place where there is one."""

_ELSEWHERE = ("rotation_balance", "start_spread")
"""Seen at the bench: the set-up sheet tells them."""


class PackRow(msgspec.Struct, frozen=True, kw_only=True):
    """A figure of several packs: one cell for each pack, empty where it has none."""

    name: str
    title: str
    cells: tuple[str, ...]


class PackTable(msgspec.Struct, frozen=True, kw_only=True):
    """Figures that go by pack, packs as columns; same: those that are alike with each of them."""

    tags: tuple[str, ...]
    rows: tuple[PackRow, ...]
    same: tuple[PackRow, ...]

    @property
    def names(self) -> tuple[str, ...]:
        """Of all figures that are told here."""
        return tuple(row.name for row in (*self.rows, *self.same))


def summary(reports: Reports, slug: str) -> tuple[Headline, ...]:
    """Those of the front page, with the margin that is used up first."""
    return tuple(_summary(reports, slug))


def _summary(reports: Reports, slug: str) -> Iterator[Headline]:
    margin = _first_margin(reports.figures_of_aircraft(slug))
    shown = as_flown(reports.headlines(slug).shown)
    after = next((one for one in reversed(shown) if one.name in _MARGIN_AFTER), None)
    told = False
    for one in shown:
        again = told and margin is not None and one.name == margin.name  # so little that both tell
        if one.name not in _ELSEWHERE and not again:
            yield one
        if one is after and margin is not None:
            told = True
            yield margin


def as_flown(headlines: Sequence[Headline]) -> tuple[Headline, ...]:
    """Without what theory says of that which the log tells too."""
    known = {one.name for one in headlines if one.figure is not None}
    return tuple(one for one in headlines if _FLOWN_INSTEAD.get(one.name) not in known)


def _first_margin(answers: Answers) -> Headline | None:
    found = [
        (least_share(figure), _MARGINS.index(figure.name), figure)
        for figure in answers.figures
        if figure.name in _MARGINS and figure.value is not None
    ]
    if not found:
        return None
    least = min(found, key=lambda one: one[:2])[2]
    return Headline(name=least.name, figure=least)


def pack_table(reports: Reports, answers: Answers) -> PackTable | None:
    """What is told of two packs or more, side by side; None where nothing is."""
    by_name: dict[str, dict[str, Figure]] = {}
    for figure in answers.figures:
        item = reports.hangar.items.get(figure.of or "")
        if figure.of and item is not None and item.is_pack and figure.value is not None:
            by_name.setdefault(figure.name, {})[figure.of] = figure
    by_name = {name: found for name, found in by_name.items() if len(found) > 1}
    tags = tuple(sorted({tag for found in by_name.values() for tag in found}))
    rows = tuple(
        PackRow(
            name=name,
            title=meaning_of(reports, name).title,
            cells=tuple(_value(found.get(tag)) for tag in tags),
        )
        for name, found in by_name.items()
    )
    alike = tuple(row for row in rows if row.cells[0] and len(set(row.cells)) == 1)
    unlike = tuple(row for row in rows if row not in alike)
    return PackTable(tags=tags, rows=unlike, same=alike) if rows else None


def _value(figure: Figure | None) -> str:
    if figure is None or figure.value is None:
        return ""
    return value_words(figure, figure.value)
