"""The bytes of a file become plain text, or the reasons why they are none."""

import re
import unicodedata
from typing import NamedTuple

from buildbook.basis.sizes import most

MOST_BYTES = most("file")
# Characters that no text needs and that a terminal, a calendar or a reader is misled by: control
# characters, those that turn the direction of what follows (Unicode Technical Report 36, 2.10),
# separators of lines that only some programs see, half surrogate pairs, and what is no character.
HARMFUL = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ud800-\udfff\ufeff\ufff9-\uffff]"
    "|["
    + "".join(f"{chr(plane << 16 | 0xFFFE)}{chr(plane << 16 | 0xFFFF)}" for plane in range(1, 17))
    + "]"
)


class Fault(NamedTuple):
    """One thing that keeps a file from being read; ``line`` counts from 1."""

    reason: str
    line: int
    hint: str | None


class Unreadable(Exception):
    """The text is no YAML that is accepted here; ``faults`` has one or more reasons."""

    def __init__(self, reason: str, line: int = 1, hint: str | None = None) -> None:
        super().__init__(reason)
        self.faults = [Fault(reason, line, hint)]


def decoded(data: bytes) -> str:
    """The text of a file. Unreadable: too large, binary, not UTF-8, control characters."""
    if len(data) > MOST_BYTES:
        raise Unreadable(
            f"file of {len(data) / 1048576:.1f} MB, more than the 4 MB that are read",
            hint="split it: a logbook may be a folder logbook/ of several files",
        )
    if b"\x00" in data:
        raise Unreadable("binary file, not text", hint="save it as plain text in UTF-8")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = _line_at(data[: error.start].decode("utf-8", "replace"))
        found = f"byte 0x{data[error.start]:02x}"
        raise Unreadable(f"not UTF-8 text: {found}", line, "save the file as UTF-8") from None
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    odd = first_harmful(text)
    if odd:
        line = _line_at(text[: odd.start()])
        raise Unreadable(control_words(odd.group()), line, "delete that character")
    return unicodedata.normalize("NFC", text)  # one spelling of an accent, wherever it was typed


def first_harmful(text: str) -> re.Match[str] | None:
    """The first harmful character of a text.

    What can be printed, lines and tabs aside, is harmless but for two signs of a lost character.
    """
    shown = text.replace("\n", "").replace("\t", "")
    if shown.isprintable() and "\ufffc" not in shown and "\ufffd" not in shown:
        return None  # nearly every file, and found out far quicker than by looking for each
    return HARMFUL.search(text)


def control_words(text: str) -> str:
    """The first harmful character of a text, named and never shown."""
    found = HARMFUL.search(text)
    code = ord(found.group()) if found else 0
    turns = 0x202A <= code <= 0x202E or 0x2066 <= code <= 0x2069
    what = "character that turns the direction of writing" if turns else "control character"
    return f"{what} U+{code:04X}"


def _line_at(before: str) -> int:
    return len(re.findall(r"\r\n|\r|\n", before)) + 1
