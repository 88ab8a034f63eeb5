"""Events and what they touched: what re-opens a row of a programme."""

from collections.abc import Iterable

from buildbook.hangar.builders import AircraftBuilder
from buildbook.hangar.folding import Fold
from buildbook.records.entries import Note, Transport
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


def stations_of(fold: Fold, aircraft: AircraftBuilder | None, tag: str) -> tuple[str, ...]:
    """Where an item sits on this aircraft; for a shared ESC also the stations it serves."""
    item = fold.items.get(tag)
    if aircraft is None or item is None or item.fitted is None or item.aircraft != aircraft.slug:
        return ()
    return (item.fitted.station, *aircraft.serves.get(tag, ()))


def named(fold: Fold, aircraft: AircraftBuilder, names: Iterable[str]) -> Touch:
    """What names in an entry mean: a tag with its station, or a station with all that sits there.

    A name that is both is a tag.
    """
    stations: list[str] = []
    tags: list[str] = []
    for name in names:
        if name in fold.items:
            tags.append(name)
            stations.extend(stations_of(fold, aircraft, name))
        else:
            stations.append(name)
            tags.extend(aircraft.fitted_at(name))
    return Touch(stations, tags)


def note_event(
    fold: Fold,
    aircraft: AircraftBuilder | None,
    event: str,
    subject: str | None = None,
    touch: Touch = EVERYTHING,
    packs: tuple[str, ...] = (),
    row_index: int | None = None,
) -> None:
    """Note an event with the aircraft and with every item that it touched.

    packs: the packs on board, touched in any case. row_index: after which flight of its entry.
    """
    happened = Event(
        **fold.at.stamp(),
        event=event,
        subject=subject,
        aircraft=None if aircraft is None else aircraft.slug,
        stations=touch.stations,
        tags=(*touch.tags, *(pack for pack in packs if pack not in touch.tags)),
        everything=touch.everything,
        row_index=row_index,
    )
    touched = list(happened.tags)
    if aircraft is not None:
        aircraft.events.append(happened)
        if touch.everything:
            touched += aircraft.all_fitted()
    for tag in touched:
        if tag in fold.items:
            fold.items[tag].events.append(happened)


def note_rewired(fold: Fold, aircraft: AircraftBuilder, stations: Iterable[str]) -> None:
    """Motor leads or wires of these stations were changed; none of them: nothing was."""
    touch = named(fold, aircraft, stations)
    if not touch.everything:
        note_event(fold, aircraft, "rewired", touch=touch)


def on_transport(fold: Fold, entry: Transport) -> None:
    """``transport``: a long trip, which touches everything."""
    aircraft = fold.aircraft_of(entry)
    if aircraft is not None:
        note_event(fold, aircraft, "transport")


def on_note(fold: Fold, entry: Note) -> None:
    """``note``: is in the log, and changes nothing but what it says was rewired."""
    aircraft = fold.aircraft_of(entry)
    if aircraft is not None:
        note_rewired(fold, aircraft, entry.rewired)
