"""How an aircraft or a pack stands, with every reason, worst first."""

from collections.abc import Iterable

from buildbook.report.state import AircraftNow, Hangar, ItemNow
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.findings import InState
from buildbook.report.upkeep.work import AircraftState, Because, PackStanding, Reason, Row, Standing
from buildbook.upkeep.packs.readings import reading_notes
from buildbook.upkeep.packs.reserve import Judged

_OUT_OF_SERVICE = ("quarantined", "retired", "scrapped")


def standing(
    hangar: Hangar, aircraft: AircraftNow, rows: Iterable[Row], programme: str | None
) -> Standing:
    """The state of an aircraft from its rows and from what sits on it."""
    rows = tuple(rows)
    reasons = [_reason(row) for row in rows if row.rank < ranks.FINE]
    if aircraft.status == "flying":
        reasons += _out_of_service(hangar, aircraft)
        if programme is None:
            reasons.append(_no_programme(aircraft))
    reasons.sort(key=lambda reason: reason.rank)
    return Standing(
        slug=aircraft.slug,
        name=aircraft.record.aircraft,
        state=_state(aircraft, reasons),
        reasons=tuple(reasons),
        rows=rows,
        programme=programme,
    )


def pack_standing(
    pack: ItemNow, rows: Iterable[Row], into: Judged, *, programmed: bool
) -> PackStanding:
    """The state of a pack: that of the item where it is out of service, else from its rows.

    into: its flights that went into the reserve.
    """
    rows = tuple(rows)
    reasons = [_reason(row) for row in rows if row.rank < ranks.FINE]
    state = pack.state
    if _said_by_keeper(pack):
        reasons.append(_item_state(pack, _whys(pack)))
    elif not programmed and state.state == "serviceable":
        reasons.append(
            Reason(
                place=pack.item.place(),
                rank=ranks.NOT_RECORDED,
                grounding=False,
                because=Because(why="no programme", tag=pack.tag),
            )
        )
    first = ranks.ITEM_OUT_OF_SERVICE
    reasons.sort(key=lambda reason: (reason.rank != first, reason.rank))
    said = state.state if state.state != "serviceable" else _of_reasons(reasons)
    return PackStanding(
        tag=pack.tag,
        state=said,
        reasons=tuple(reasons),
        rows=rows,
        notes=reading_notes(pack, rows, into) if state.state == "serviceable" else (),
    )


def _said_by_keeper(pack: ItemNow) -> bool:
    """Whether it is out of service by the keeper's own word; else a row says why."""
    if pack.state.state != "quarantined":
        return pack.state.state != "serviceable"
    return any(aside.why == "keeper" for aside in pack.asides)


def _whys(pack: ItemNow) -> tuple[str, ...]:
    """Why its keeper set it aside, each reason once, beside whatever else did."""
    if pack.state.state != "quarantined":
        return ()
    said = [one.findings for one in pack.asides if one.why == "keeper"]
    return tuple(dict.fromkeys(why for why in said if why))


def _state(aircraft: AircraftNow, reasons: list[Reason]) -> AircraftState:
    return _of_reasons(reasons) if aircraft.status == "flying" else aircraft.status


def _of_reasons(reasons: list[Reason]) -> AircraftState:
    if any(reason.grounding for reason in reasons):
        return "grounded"
    if any(_cannot_say(reason) for reason in reasons):
        return "cannot say"
    return "due soon" if reasons else "nothing open"


def _cannot_say(reason: Reason) -> bool:
    if reason.because.why == "no programme":
        return True
    row = reason.row
    return row is not None and row.kind == "limit" and row.unknown


def _reason(row: Row) -> Reason:
    because = row.because or Because(why="interval", tag=row.tag, station=row.station)
    return Reason(
        place=row.place,
        rank=row.rank,
        grounding=row.grounds,
        because=because,
        row=row,
    )


def _item_state(item: ItemNow, whys: tuple[str, ...] = ()) -> Reason:
    state, fitted = item.state, item.fitted
    return Reason(
        place=state.place or item.item.place(),
        rank=ranks.ITEM_OUT_OF_SERVICE,
        grounding=True,
        because=Because(
            why="item state",
            on=state.on,
            place=state.place,
            tag=item.tag,
            station=None if fitted is None else fitted.station,
            found=InState(state=state.state, whys=whys),
        ),
    )


def _out_of_service(hangar: Hangar, aircraft: AircraftNow) -> list[Reason]:
    items = [hangar.items[here.tag] for here in aircraft.items() if here.tag in hangar.items]
    return [_item_state(item) for item in items if item.state.state in _OUT_OF_SERVICE]


def _no_programme(aircraft: AircraftNow) -> Reason:
    return Reason(
        place=aircraft.record.place("programme"),
        rank=ranks.NOT_RECORDED,
        grounding=False,
        because=Because(why="no programme"),
    )
