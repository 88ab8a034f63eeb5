"""Did you mean, remembered: the same slip in a thousand entries is looked up once."""

import re
from functools import lru_cache

from buildbook.basis.nearest import did_you_mean

# Words for a choice or key that no spelling leads to. Common practice, no source.
_SAME = {
    "clockwise": "cw",
    "counterclockwise": "ccw",
    "counter-clockwise": "ccw",
    "anticlockwise": "ccw",
    "anti-clockwise": "ccw",
    "ok": "pass",
    "okay": "pass",
    "good": "pass",
    "bad": "fail",
    "throw": "surfaces",
    "throws": "surfaces",
}


@lru_cache(4096)
def meant(word: str, choices: frozenset[str]) -> str | None:
    """A hint such as ``did you mean 'used'?``, or None where no choice is close."""
    same = _SAME.get(word.casefold())
    if same in choices:
        return f"did you mean '{same}'?"
    return did_you_mean(word, choices)


_OPENING = re.compile("(?:^|[\\s:])([\u2018\u201a\u201c\u201e\u00ab])").search
_DASH = re.compile("[\u2010-\u2015\u2212]").search


def typed_quote(text: str) -> str | None:
    """A hint where a typographic quotation mark opens, as word processors set them."""
    found = _OPENING(text)
    return (
        f"{found[1]} is not a quotation mark here: write a straight one, or none" if found else None
    )


def typed_dash(text: str) -> str | None:
    """A hint where a typographic dash or minus stands."""
    found = _DASH(text)
    return f"{found.group()} is not a hyphen: write -" if found else None
