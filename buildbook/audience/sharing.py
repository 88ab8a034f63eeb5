"""Who looks, and what the keeper chose to share with them."""

from collections.abc import Mapping

import msgspec

from buildbook.records.keeper import Keeper, Share
from buildbook.report.reports import Audience
from buildbook.report.state import Hangar


class Sharing(msgspec.Struct, frozen=True, kw_only=True):
    """What an audience may see. ``people``: aliases that may be shown, and as what."""

    audience: Audience
    share: Share
    people: Mapping[str, str] = {}

    @property
    def exact_days(self) -> bool:
        """Whether days may stand, or only months."""
        return self.audience == "owner" or self.share.dates == "day"

    def shares(self, switch: str) -> bool:
        """Whether that opt-in is on; an owner has them all."""
        if switch == "days":
            return self.exact_days
        return self.audience == "owner" or bool(getattr(self.share, switch))


def sharing_for(audience: Audience, keeper: Keeper) -> Sharing:
    """The sharing of a render. A name needs the keeper's switch and the person's own consent."""
    if audience == "owner":
        return Sharing(audience=audience, share=keeper.share)
    consenting = {alias: who.name for alias, who in keeper.people.items() if who.public}
    return Sharing(
        audience=audience,
        share=keeper.share,
        people=consenting if keeper.share.names else {},
    )


def not_shared(hangar: Hangar) -> frozenset[str]:
    """The aircraft that a public render does not show: those that the keeper holds back, and
    those that are being built, unless he says ``share: true``."""
    return frozenset(
        slug
        for slug, aircraft in hangar.aircraft.items()
        if aircraft.record.share is False
        or (aircraft.status == "building" and not aircraft.record.share)
    )
