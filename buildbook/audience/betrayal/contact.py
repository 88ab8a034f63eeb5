"""How the keeper is reached: e-mail, telephone, and the name of a user in the path of a file.

Telephone numbers have at most 15 digits (ITU-T E.164); the shapes of national ones are common
practice, no source.
"""

import re
from collections.abc import Iterator

from buildbook.audience.betrayal.pattern import Betrayal

_MAIL = re.compile(r"(?<![\w.+-])[\w.+-]{1,64} ?@ ?[\w-]{1,63}(?:\.[\w-]{1,63}){1,8}")
_SPELT_MAIL = re.compile(
    r"(?<![\w.+-])[\w.+-]{1,64} ?[\[({] ?at ?[\])}] ?[\w-]{1,63}"
    r"|(?<![\w.+-])[\w.+-]{1,64} at [\w-]{1,63} (?:\[|\()?dot(?:\]|\))? [a-z]{2,20}",
    re.IGNORECASE,
)
_ABROAD = re.compile(r"(?<![\w+])(?:\+ ?|00)[1-9]\d{0,2}(?:[ ./()-]{0,3}\d){6,13}(?!\d)")
_AT_HOME = re.compile(
    r"(?<![\w.,:/+-])\(?0\d{1,5}\)?(?:[ -]{0,2}[/ -] ?\d{2,8}){1,5}(?!\d)(?![.,:/]\d)"
    r"|(?<![\w.,:/+-])0\d(?:\.\d\d){4}(?!\.?\d)"
    r"|(?<![\w.,:/+-])0[1-9]\d{8,10}(?![\w.,:/]\w)(?!\d)"
    r"|(?<![\w.,:/+-])\(?[2-9]\d{2}\)?[ .-]\d{3}[ .-]\d{4}(?!\.?\d)"
)
_CALLED = re.compile(
    r"\b(?:tel|phone|telephone|mobile|cell|call|ring|whatsapp|sms|fax)\b[.:]? ?"
    r"(?:me |us |on |at |no\.? ?|number ){0,3}\(?\+?\d(?:[ ./()-]{0,2}\d){5,14}(?!\d)",
    re.IGNORECASE,
)
_DATE = re.compile(r"\d\d[-/ ]\d\d[-/ ](?:19|20)?\d\d|0\d{2,3}(?: \d{2,4}){0,1}")
_FEWEST_DIGITS = 8
_MOST_DIGITS = 14
_PATH = re.compile(
    r"(?<![\w.])(?:/(?:mnt/[a-z]/|var/|export/|media/[^/\s]{1,40}/|cygdrive/[a-z]/)?"
    r"(?:home|Users|users)/[^\s/\"']{1,60}"
    r"|(?:[A-Za-z]:)?[\\/]{1,2}(?:Users|Documents and Settings)[\\/]{1,2}[^\s/\\\"']{1,60}"
    r"|/root/[^\s/\"']{1,60})",
    re.IGNORECASE,
)
_LINK_BEFORE = re.compile(r"https?:/{0,2}[^\s]{0,200}$", re.IGNORECASE)


def _mail(text: str) -> Iterator[int]:
    for pattern in (_MAIL, _SPELT_MAIL):
        for found in pattern.finditer(text):
            yield found.start()


def _telephone(text: str) -> Iterator[int]:
    for pattern in (_ABROAD, _CALLED):
        for found in pattern.finditer(text):
            yield found.start()
    for found in _AT_HOME.finditer(text):
        digits = sum(sign.isdigit() for sign in found.group())
        if _FEWEST_DIGITS <= digits <= _MOST_DIGITS and not _DATE.fullmatch(found.group()):
            yield found.start()


def _user_folder(text: str) -> Iterator[int]:
    for found in _PATH.finditer(text):
        if not _LINK_BEFORE.search(text[max(0, found.start() - 200) : found.start()]):
            yield found.start()


CONTACT = (
    Betrayal("looks like an e-mail address", _mail, "anything"),
    Betrayal("looks like a telephone number", _telephone),
    Betrayal("the path of a file with the name of a user", _user_folder, "anything"),
)
PATTERNS = (*(_MAIL, _SPELT_MAIL, _ABROAD, _AT_HOME, _CALLED, _DATE, _PATH, _LINK_BEFORE),)
