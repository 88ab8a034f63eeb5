"""The reports that a public render may be made from."""

import msgspec

from buildbook.report.reports import Reports
from buildbook.reporting.everything import reports_of
from buildbook.reporting.whole import Whole


def as_shared(whole: Whole) -> Reports:
    """All reports, as if no elevation of the field were written unless the keeper shares it.

    The density of the air goes into powers, currents and times, so whoever has one of these could
    work the elevation out; without it they rest on the default, and say so.
    """
    keeper = whole.hangar.ledger.keeper
    if keeper.field_elevation_m is None or keeper.share.elevation:
        return whole.reports
    keeper = msgspec.structs.replace(keeper, field_elevation_m=None)
    ledger = msgspec.structs.replace(whole.hangar.ledger, keeper=keeper)
    return reports_of(msgspec.structs.replace(whole.hangar, ledger=ledger), like=whole)
