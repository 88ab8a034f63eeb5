"""The inserts of a build story, as one writes them."""

from collections.abc import Iterator, Mapping

from buildbook.words.vocabulary.term import Term

INSERTS: Mapping[str, tuple[str, str]] = {
    "layout": ("The layout drawing", "@ layout"),
    "wiring": ("The wiring drawing", "@ wiring"),
    "parts": ("The parts that are fitted", "@ parts"),
    "figure": (
        "A figure with its working; name a pack where there are several",
        "@ figure flight_time",
    ),
    "gains": ("A gain set", "@ gains soft"),
    "balance": ("What weighs where, as a drawing and a table", "@ balance"),
    "surfaces": ("The control surfaces of an aeroplane with their throws", "@ surfaces"),
    "timeline": ("What happened, on a timeline", "@ timeline"),
    "set-up": ("The set-up checks and their readings", "@ set-up"),
    "entry": ("An entry of the logbook", "@ entry 2026-05-17-1"),
    "photo": ("A photograph with its caption", '@ photo arm.jpg "The new arm"'),
}
"""What each shows, and an example. Each stands alone on its line."""


def inserts() -> Iterator[Term]:
    """One term an insert."""
    for name, (what, example) in INSERTS.items():
        yield Term(
            word=name,
            kind="insert",
            what=f"{what}.",
            where=("write-up.md, alone on its line",),
            details=(("as in", example),),
        )
