"""Days as an audience may see them: to the day, or no nearer than the month."""

import datetime
from typing import NamedTuple

from buildbook.basis import amounts


class Days(NamedTuple):
    """How days are written. exact: to the day; else months alone."""

    exact: bool = True

    def __call__(self, date: datetime.date) -> str:
        """``14 June 2026``, or ``June 2026``."""
        return amounts.day(date) if self.exact else amounts.month(date)

    def on(self, date: datetime.date) -> str:
        """``on 14 June 2026``, or ``in June 2026``."""
        return f"{'on' if self.exact else 'in'} {self(date)}"


EXACT = Days()
