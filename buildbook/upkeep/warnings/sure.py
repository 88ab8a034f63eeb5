"""What its keeper is sure of: ``sure: true`` on an entry or a spec silences the doubts about it."""

from buildbook.report.state import Hangar


def sure_entries(hangar: Hangar) -> frozenset[str]:
    """The entries, by uid as first written, that stand and are sure; a correction may say so."""
    logs = [*(aircraft.log for aircraft in hangar.aircraft.values()), hangar.store_log]
    return frozenset(
        line.entry.uid for log in logs for line in log if line.stands and line.stands.sure
    )
