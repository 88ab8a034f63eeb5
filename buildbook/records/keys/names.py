"""Types of names, tags and words, each with how it is written."""

from typing import Annotated

from buildbook.records.keys.shapes import Several
from buildbook.records.keys.values import LINK, NAME, TEXT, Scalar

TAG = Scalar("a tag", str.strip, {"type": ["string", "integer"]})
TAGS = Several(TAG, single=True, least=1)
SOME_TEXTS = Several(TEXT, single=True, least=1)

Name = Annotated[str, NAME]
Link = Annotated[str, LINK]
Tag = Annotated[str, TAG]
Tags = Annotated[tuple[str, ...], TAGS]
"""One tag, or a list of them."""
Texts = Annotated[tuple[str, ...], Several(TEXT, single=True)]
"""One text, or a list of them."""
SomeTexts = Annotated[tuple[str, ...], SOME_TEXTS]
"""The same, but not none."""
Names = Annotated[tuple[str, ...], Several(NAME, single=True)]
