"""``python -m buildbook``: the program where no script was installed."""

import sys

from buildbook.commands.main import main

sys.exit(main())
