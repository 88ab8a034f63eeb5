"""All that a text may betray, in the order in which it is told."""

from buildbook.audience.betrayal import contact, days, grids, money, places, secrets
from buildbook.audience.betrayal.pattern import Betrayal

BETRAYALS: tuple[Betrayal, ...] = (
    *places.PLACES,
    *grids.GRIDS,
    *secrets.SECRETS,
    *contact.CONTACT,
    *money.MONEY,
    *days.DAYS,
)
PATTERNS = (
    *places.PATTERNS,
    *grids.PATTERNS,
    *secrets.PATTERNS,
    *contact.PATTERNS,
    *money.PATTERNS,
    *days.PATTERNS,
)
"""Every regular expression that runs over texts: a test counts how far each may go back."""
