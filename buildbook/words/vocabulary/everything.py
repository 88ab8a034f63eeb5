"""All words that can be asked for, and the finding of one."""

from collections.abc import Iterable

from buildbook.basis.nearest import nearest
from buildbook.records.reading.programmes import built_in_programmes
from buildbook.report.figures.known_figures import KnownFigures
from buildbook.words.vocabulary.figures import figures
from buildbook.words.vocabulary.keys import entries, files, keys, part_kinds
from buildbook.words.vocabulary.lists import (
    columns,
    inserts,
    known_by,
    layouts,
    signals,
    states,
    stations,
    triggers,
)
from buildbook.words.vocabulary.rows import programmes_themselves, rules
from buildbook.words.vocabulary.term import Term


def everything(known: KnownFigures) -> tuple[Term, ...]:
    """All words: of the files in the order of their manual, then states, then figures."""
    programmes = built_in_programmes().values()
    return (
        *files(),
        *entries(),
        *keys(),
        *part_kinds(),
        *rules(programmes),
        *programmes_themselves(programmes),
        *signals(),
        *triggers(),
        *layouts(),
        *stations(),
        *columns(),
        *inserts(),
        *states(),
        *known_by(),
        *figures(known),
    )


def found(text: str, terms: Iterable[Term]) -> tuple[Term, ...]:
    """What a text asks for: all terms of that word, else those of each word in it, as a message
    has them, the longest first; nothing where it names none.
    """
    by_word: dict[str, list[Term]] = {}
    for term in terms:
        by_word.setdefault(_plain(term.word), []).append(term)
    whole = by_word.get(_plain(text))
    if whole is not None:
        return tuple(whole)
    named: dict[str, None] = {}
    pieces = _plain(text).split()
    at = 0
    while at < len(pieces):
        for end in range(min(len(pieces), at + 4), at, -1):
            word = " ".join(piece.strip("'\"“”‘’.,:;()") for piece in pieces[at:end])
            if word in by_word and (_quoted(pieces[at:end]) or set(word) & set("-_.")):
                named[word] = None
                at = end
                break
        else:
            at += 1
    return tuple(term for word in named for term in by_word[word])


def like(text: str, terms: Iterable[Term]) -> str | None:
    """The word that is most like a text that names none."""
    return nearest(text, [term.word for term in terms])


def _quoted(pieces: list[str]) -> bool:
    return pieces[0][:1] in ("'", '"', "‘", "“") and pieces[-1].rstrip(".,:;)")[-1:] in "'\"’”"


def _plain(text: str) -> str:
    return " ".join(text.casefold().split())
