"""``true`` and ``false``, and the words that people write for them."""

from buildbook.basis.notation import NotationError, quoted


def truth(text: str) -> bool:
    """``true`` or ``false``, and nothing else."""
    if text == "true":
        return True
    if text == "false":
        return False
    meant = truth_meant(text)
    hint = f"did you mean {meant}?" if meant else "write true or false"
    raise NotationError(f"{quoted(text)} is neither true nor false", hint)


def truth_meant(text: str) -> str | None:
    """``true`` or ``false`` for a word that people write for it; None where it is no such word."""
    return _TRUTHS.get(text.strip().rstrip(".!").casefold())


_TRUTHS = {
    **dict.fromkeys(("true", "yes", "y", "on", "1", "ja", "wahr", "oui", "sí", "si"), "true"),
    **dict.fromkeys(
        ("false", "no", "n", "off", "0", "none", "nobody", "nein", "keine", "falsch", "non"),
        "false",
    ),
}
