"""``true`` and ``false``, and the words that people write for them."""

from buildbook.basis.notation import NotationError, quoted


def truth(text: str) -> bool:
    """``true`` or ``false``, and nothing else."""
    if text == "true":
        return True
    if text == "false":
        return False
    meant = _TRUTHS.get(text.strip().casefold())
    hint = f"did you mean {meant}?" if meant else "write true or false"
    raise NotationError(f"{quoted(text)} is neither true nor false", hint)


_TRUTHS = {
    **dict.fromkeys(("true", "yes", "y", "on", "1", "ja", "wahr"), "true"),
    **dict.fromkeys(("false", "no", "n", "off", "0", "nein", "falsch"), "false"),
}
