"""Random but valid histories: every entry is possible after those before it."""

import datetime
from dataclasses import dataclass, field

from hypothesis import strategies as st
from written_logs import Log, ledger

from buildbook.records.entries import AnyEntry, FlightRow
from buildbook.records.ledger import Ledger

SLUGS = ("a", "b", "c")
MOTORS = ("M-1", "M-2", "M-3", "M-4", "M-5")
PACKS = ("P-1", "P-2")
STATIONS = ("front-left", "front-right")
BEGIN = datetime.date(2026, 3, 1)

ACTIONS = (
    "fit",
    "fit",
    "exchange",
    "flight",
    "flight",
    "charge",
    "charge",
    "remove",
    "exchange",
    "flight",
    "flights",
    "hard",
    "crash",
    "incident",
    "charge",
    "capacity",
    "gains",
    "setting",
    "check",
    "inspection",
    "overhaul",
    "defect",
    "water",
    "firmware",
    "aside",
    "weigh",
    "note",
)


@dataclass
class History:
    """Logs in the making, and what they have led to so far."""

    logs: dict[str, Log]
    store: Log
    on: datetime.date = BEGIN
    slots: dict[tuple[str, str], str] = field(default_factory=dict)
    crashed: dict[str, datetime.date] = field(default_factory=dict)
    aside: set[str] = field(default_factory=set)

    def ledger(self) -> Ledger:
        """All of it, as read."""
        return ledger([*self.logs.values(), self.store], [*MOTORS, *PACKS])

    def drawer(self) -> list[str]:
        """The motors that are fitted nowhere and may be."""
        sitting = {*self.slots.values(), *self.aside}
        return [motor for motor in MOTORS if motor not in sitting]

    def ready(self) -> list[str]:
        """The packs that may be flown and charged today."""
        return [pack for pack in PACKS if pack not in self.crashed]


@st.composite
def histories(draw: st.DrawFn, most: int = 30) -> History:
    """A history of up to so many entries in three logbooks and a store."""
    history = History({slug: Log(f"aircraft/{slug}") for slug in SLUGS}, Log("stores/packs"))
    for action, days, slug, station, motor, number in draw(
        st.lists(
            st.tuples(
                st.sampled_from(ACTIONS),
                st.integers(0, 2),
                st.sampled_from(SLUGS),
                st.sampled_from(STATIONS),
                st.sampled_from(MOTORS),
                st.integers(1, 9),
            ),
            min_size=most // 3,
            max_size=most,
        )
    ):
        history.on += datetime.timedelta(days=days if days == 2 else 0)
        _act(history, action, slug, station, motor, number)
    return history


def _act(
    history: History, action: str, slug: str, station: str, motor: str, number: int
) -> AnyEntry | None:
    """One entry, if it is possible now."""
    log, store, on = history.logs[slug], history.store, history.on.isoformat()
    sitting = history.slots.get((slug, station))
    free = motor in history.drawer()
    ready = history.ready()
    pack = ready[number % len(ready)] if ready else ""
    if action == "fit" and sitting is None and free:
        history.slots[slug, station] = motor
        return log.fit(on, {station: {"motor": motor}})
    if action == "aside" and sitting is not None:
        if sitting in history.aside:
            history.aside.remove(sitting)
            return log.state(on, "heard again", **{sitting: "serviceable"})
        history.aside.add(sitting)
        return log.state(on, **{sitting: "quarantined"})
    if action == "remove" and sitting is not None:
        del history.slots[slug, station]
        return log.remove(on, sitting)
    if action == "exchange" and sitting is not None and free:
        history.slots[slug, station] = motor
        return log.fit(on, {station: {"motor": motor}}, instead_of={sitting: "serviceable"})
    if action in ("flight", "hard"):
        landing = "normal" if action == "flight" else "hard"
        return log.flight(on, 30.0 * number, pack, number / 10, landing)
    if action == "flights":
        rows = [FlightRow(duration_s=60.0 * n, packs=tuple(pack.split())) for n in (1, number)]
        return log.flights(on, *rows)
    if action == "crash" and pack:
        history.crashed[pack] = history.on
        return log.flight(on, 30.0, pack, landing="crash")
    if action == "inspection" and history.crashed:
        crashed = [tag for tag, day in history.crashed.items() if day < history.on]
        history.crashed = {tag: day for tag, day in history.crashed.items() if tag not in crashed}
        history.on += datetime.timedelta(days=1 if crashed else 0)
        return store.inspection(on, "pack-look", " ".join(crashed)) if crashed else None
    if action == "charge" and pack:
        return store.charge(on, pack, number / 10)
    return _act_harmlessly(history, action, slug, station, number)


def _act_harmlessly(
    history: History, action: str, slug: str, station: str, number: int
) -> AnyEntry | None:
    """Entries that are always possible."""
    log, on = history.logs[slug], history.on.isoformat()
    if action == "incident" and number > 5:  # on a day of its own: it hits no pack of a flight
        history.on += datetime.timedelta(days=1)
        entry: AnyEntry = log.incident(history.on.isoformat(), touched=(station,), sure=True)
        history.on += datetime.timedelta(days=1)
        return entry
    if action == "incident":
        return log.incident(on, severity="light", touched=(station,), sure=True)  # of a crash, too
    if action == "capacity":
        return history.store.capacity(on, PACKS[number % 2], 1.5)
    if action == "gains":
        return log.gains(on, f"set-{number % 3}", values={"roll": {"p": float(number % 3)}})
    if action == "setting":
        return log.setting(on, of=station, start=f"{number} %")
    if action == "check":
        return log.check(on, "esc-endpoints", stations=(station,), taught=number > 5)
    if action == "overhaul":
        return log.overhaul(on, MOTORS[number % 5])
    if action == "defect":
        return log.defect(on, severity="note")
    if action == "water":
        history.on += datetime.timedelta(days=1)
        wet: AnyEntry = log.water(history.on.isoformat(), sure=True)
        history.on += datetime.timedelta(days=1)
        return wet
    if action == "firmware":
        return log.firmware(on, **{MOTORS[number % 5]: str(number)})
    if action == "weigh":
        return log.weigh(on, 1.0 + number / 10)
    return log.note(on)
