"""Templates that were compiled before, kept in the user's cache folder.

Each is found by its own text and by all of the program, whose filters may be worked out in it.
"""

import hashlib
import marshal
import sys
from importlib.util import MAGIC_NUMBER
from pathlib import Path

import jinja2
import msgspec
from jinja2.bccache import Bucket

from buildbook import __version__
from buildbook.basis.cache_folder import (
    DIGEST_SIZE,
    keep_under,
    name_for,
    recalled,
    state_of_program,
    usual_folder,
)

_SUFFIX = ".templates"
_PROGRAM = Path(__file__).parents[1]


class Compiled(jinja2.BytecodeCache):
    """The compiled templates of a theme: by template, a digest of its text and the code."""

    def __init__(self, theme: Path) -> None:
        digest = hashlib.blake2b(digest_size=DIGEST_SIZE)
        digest.update(f"{__version__} {sys.version} {jinja2.__version__}".encode())
        digest.update(MAGIC_NUMBER)
        digest.update(state_of_program((_PROGRAM,)))
        self._digest, self._name = digest.digest(), name_for(theme, _SUFFIX)
        self._codes: dict[str, tuple[str, bytes]] = {}
        self._grew = False
        folder = usual_folder()
        payload = None if folder is None else recalled(folder, self._name, self._digest)
        if payload is not None:
            self._codes = msgspec.msgpack.decode(payload, type=dict[str, tuple[str, bytes]])

    def load_bytecode(self, bucket: Bucket) -> None:
        """Give a template its code, where it was compiled before as it is now."""
        text, code = self._codes.get(bucket.key, ("", b""))
        if text == bucket.checksum:
            bucket.code = marshal.loads(code)

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Take in what was compiled."""
        self._codes[bucket.key] = bucket.checksum, marshal.dumps(bucket.code)
        self._grew = True

    def keep(self) -> None:
        """Keep what was compiled, if anything was; where that can't be done, nothing happens."""
        folder = usual_folder()
        if self._grew and folder is not None:
            payload = msgspec.msgpack.encode(self._codes)
            keep_under(folder, self._name, self._digest, payload)
            self._grew = False
