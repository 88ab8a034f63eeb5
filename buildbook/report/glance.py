"""An aircraft at a glance."""

import msgspec

from buildbook.report.marks import Public
from buildbook.report.upkeep.jobs import Job


class Glance(msgspec.Struct, frozen=True, kw_only=True):
    """What to do first, or what comes round first, and how much else is open.

    more: other jobs that are open or due soon. open_checks: set-up checks that do not hold while
    it is being built, each counted once, at however many stations.
    """

    first: Public[Job | None]
    more: Public[int]
    open_checks: Public[int]
