"""The reports of a hangar as one audience may see them: each a copy, made when first asked for."""

import msgspec

from buildbook.audience.leaks import LeakWatch
from buildbook.audience.projection import Projector
from buildbook.audience.sharing import not_shared, sharing_for
from buildbook.basis.problems import Problem
from buildbook.report.drawn.pictures import Pictures
from buildbook.report.reports import Audience, Reports


class Projected(msgspec.Struct, frozen=True, kw_only=True):
    """Reports for one audience. problems: what would leak into public texts; with any of them
    nothing is written."""

    reports: Reports
    problems: tuple[Problem, ...] = ()


def projected(
    whole: Reports,
    audience: Audience,
    pictures: Pictures | None = None,
    despite: tuple[Problem, ...] = (),
) -> Projected:
    """The same reports for that audience; days are rounded last, and nothing is computed after.

    despite: problems that the owner is told of on every page; the public sees no such site.
    """
    ledger = whole.hangar.ledger
    sharing = sharing_for(audience, ledger.keeper)
    if audience == "owner":
        return Projected(
            reports=Reports(
                lambda name, key: whole.ask(name, *key), pictures=pictures, despite=despite
            )
        )
    shared = whole.as_shared()
    watch = LeakWatch(ledger, sharing)
    hidden = not_shared(whole.hangar)
    projector = Projector(sharing, watch.see, hidden, ledger.bench)
    shown = Reports(
        lambda name, key: projector.show(shared.ask(name, *key)),
        audience=audience,
        exact_days=sharing.exact_days,
        pictures={
            named: picture
            for named, picture in (pictures or {}).items()
            if sharing.shares("photos") and picture.in_story and named[0] not in hidden
        },
    )
    # All texts of the records pass here, so each leak is known before a page is made; and entries
    # get their opaque names in one order, whatever is asked for first.
    shown.ask("hangar")
    shown.ask("work")
    return Projected(reports=shown, problems=watch.problems)
