"""``python -m buildbook``, and what the installed script runs: a process of the program's own."""

import gc
import os
import sys
from contextlib import suppress


def start() -> None:
    """Run the command line, and end the process with it.

    What a command makes it needs to its end. So it is not searched for rubbish on the way, unless
    the command asks for that, nor taken apart at the end: the system has it back at once.
    """
    gc.disable()
    from buildbook.commands.main import main  # importing makes much and no rubbish

    status = main()
    if sys.getprofile() is None and sys.gettrace() is None:  # who measures is told of the end
        with suppress(AttributeError, OSError, ValueError):  # no stream, or one that takes no more
            sys.stdout.flush()
            sys.stderr.flush()
            os._exit(status)
    sys.exit(status)


if __name__ == "__main__":
    start()
