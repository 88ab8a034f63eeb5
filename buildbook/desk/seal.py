"""Seal the entries of a hangar: write a digest of each beside the records."""

import json
import os
import tempfile
from pathlib import Path

from buildbook.desk.keeping import settle
from buildbook.records.ledger import Ledger
from buildbook.records.outputs.seal import SEAL, digests, read_seal


class CannotSeal(Exception):
    """The seal can't be written; the text is one sentence for the terminal."""


def seal(folder: Path, ledger: Ledger) -> int:
    """Seal what isn't sealed yet; gives how many entries that were.

    What was sealed before keeps its digest, so a changed entry stays told until it is put back.
    BrokenSeal: the old seal can't be read. CannotSeal: no rights, or no room.
    """
    old = dict(read_seal(folder))
    new = {uid: digest for uid, digest in digests(ledger).items() if uid not in old}
    text = json.dumps({"entries": dict(sorted({**old, **new}.items()))}, indent=1) + "\n"
    try:
        handle, name = tempfile.mkstemp(prefix=f".{SEAL}-", dir=folder)
        try:
            with os.fdopen(handle, "w", encoding="utf-8") as file:
                file.write(text)
                file.flush()
                os.fsync(file.fileno())
            Path(name).chmod(0o644)
            os.replace(name, folder / SEAL)
            settle(folder)
        except OSError:
            Path(name).unlink(missing_ok=True)
            raise
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise CannotSeal(f"could not write {folder / SEAL}: {reason}") from error
    return len(new)
