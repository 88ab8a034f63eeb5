"""Events and what they touched: the raw material of triggers."""

from collections.abc import Iterable

from buildbook.hangar.drafts import AircraftDraft, Draft, Moment
from buildbook.report.history import Event


class Touch:
    """What an event touched: stations and tags; nothing at all means everything."""

    __slots__ = ("stations", "tags")

    def __init__(self, stations: Iterable[str] = (), tags: Iterable[str] = ()) -> None:
        self.stations = tuple(dict.fromkeys(stations))
        self.tags = tuple(dict.fromkeys(tags))

    @property
    def everything(self) -> bool:
        """Whether it names nothing."""
        return not self.stations and not self.tags


EVERYTHING = Touch()


def stations_of(draft: Draft, aircraft: AircraftDraft | None, tag: str) -> tuple[str, ...]:
    """Where an item sits on this aircraft; for a shared ESC also the stations it serves."""
    item = draft.items.get(tag)
    if aircraft is None or item is None or item.fitted is None or item.aircraft != aircraft.slug:
        return ()
    return (item.fitted.station, *aircraft.serves.get(tag, ()))


def named(draft: Draft, aircraft: AircraftDraft, names: Iterable[str]) -> Touch:
    """What names in an entry mean: a tag with its station, or a station with all that sits there.

    A name that is both is a tag.
    """
    stations: list[str] = []
    tags: list[str] = []
    for name in names:
        if name in draft.items:
            tags.append(name)
            stations.extend(stations_of(draft, aircraft, name))
        else:
            stations.append(name)
            tags.extend(aircraft.fitted_at(name))
    return Touch(stations, tags)


def happen(
    draft: Draft,
    moment: Moment,
    aircraft: AircraftDraft | None,
    event: str,
    subject: str | None = None,
    touch: Touch = EVERYTHING,
    packs: tuple[str, ...] = (),
) -> None:
    """Note an event with the aircraft and with every item that it touched.

    packs: the packs on board, touched in any case.
    """
    happened = Event(
        seq=moment.seq,
        on=moment.on,
        uid=moment.uid,
        place=moment.place,
        event=event,
        subject=subject,
        aircraft=None if aircraft is None else aircraft.slug,
        stations=touch.stations,
        tags=(*touch.tags, *(pack for pack in packs if pack not in touch.tags)),
        everything=touch.everything,
    )
    touched = list(happened.tags)
    if aircraft is not None:
        aircraft.events.append(happened)
        if touch.everything:
            touched += aircraft.all_fitted()
    for tag in touched:
        if tag in draft.items:
            draft.items[tag].events.append(happened)
