"""The names that records may refer to, those of broken records among them."""

import re
from collections.abc import Iterable, Mapping

import msgspec

from buildbook.basis.amounts import listed
from buildbook.basis.nearest import alike, did_you_mean
from buildbook.basis.notation import quoted
from buildbook.basis.place import Place
from buildbook.basis.problems import Problems
from buildbook.records.aircraft import Aircraft
from buildbook.records.entries import Alteration, AnyEntry, Correction, Defect, Fit, Gains, Incident
from buildbook.records.keys.hints import meant
from buildbook.records.layouts import AEROPLANE_MOTOR_STATIONS, LAYOUTS
from buildbook.records.ledger import Ledger
from buildbook.records.programmes import BUILT_IN, Programme
from buildbook.records.row_names import SIGNAL_TASKS

_ALIKE = 0.84
_FEW_IDS = 3
_NOTHING = frozenset(("none", "no", "nothing", "unknown", "n/a", "na", "null", "-", "?", "keine"))


class Known(msgspec.Struct, frozen=True, kw_only=True):
    """What was seen in the files. A name of None means that some could not be read: all pass."""

    tags: frozenset[str] | None
    specs: frozenset[str] | None
    programmes: frozenset[str] | None
    notices: frozenset[str] | None
    bench: frozenset[str]


class Names(msgspec.Struct, frozen=True, kw_only=True):
    """What an entry of one log may name. ``checks`` and ``tasks`` of None: anything.

    grounding: the checks that ground.

    jobs: all that an inspection may name: tasks, notices, and what signals open.
    """

    stations: frozenset[str]
    motor_stations: tuple[str, ...]
    free: bool
    checks: frozenset[str] | None
    grounding: frozenset[str]
    tasks: frozenset[str] | None
    jobs: frozenset[str] | None
    gains: frozenset[str]
    incidents: frozenset[str]
    defects: frozenset[str]


_BETWEEN = re.compile(r"\s*(?:[+&/;]|\band\b)\s*").split
_AMOUNT = re.compile(r"[\d.,]+ ?[^\W\d]+").fullmatch


def _no_tag(name: str, tags: frozenset[str]) -> str | None:
    """Several tags in one text, or an amount where a tag belongs."""
    parts = _BETWEEN(name)
    if len(parts) > 1 and tags.issuperset(parts):
        return f"several are a list: [{', '.join(parts)}]"
    return "a tag belongs here; an amount has a key of its own" if _AMOUNT(name) else None


class Faults:
    """Notes what is wrong in one record, at the place of a value of it."""

    def __init__(self, problems: Problems, about: str | None) -> None:
        self._problems = problems
        self.about = about

    def unknown(self, what: str, name: str, choices: frozenset[str], place: Place) -> None:
        """A name that is not there, with the one that may be meant."""
        hint = meant(name, choices)
        if hint is None and name.casefold() in _NOTHING:
            hint = "where there is none, leave the key out"
        if hint is None and what in ("check", "task"):
            hint = "buildbook due names those that are open"
        if hint is None and what == "tag":
            hint = _no_tag(name, choices)
        self._problems.add(
            f"unknown {what} {quoted(name)}",
            place,
            hint=hint,
            about=self.about,
            unknown=(what, name),
        )

    def unknown_id(self, what: str, name: str, there: frozenset[str], place: Place) -> None:
        """An id that is not there; where no spelling leads to one, the last few are told."""
        hint = did_you_mean(name, there)
        if hint is None and there:
            last = [quoted(each) for each in sorted(there)[-_FEW_IDS:]]
            hint = f"there is {listed(last, 'or')}"
        self.refuse(f"unknown {what} {quoted(name)}", place, hint)

    def refuse(
        self, reason: str, place: Place, hint: str | None = None, also: tuple[Place, ...] = ()
    ) -> None:
        """Any other problem."""
        self._problems.add(reason, place, hint=hint, also=also, about=self.about)

    def warn(self, reason: str, place: Place, hint: str | None = None) -> None:
        """What may be meant, and is worth a look."""
        self._problems.warn(reason, place, hint=hint, about=self.about)


def motor_stations(aircraft: Aircraft) -> tuple[str, ...]:
    """The stations that may carry a motor as the layout says."""
    layout = LAYOUTS[aircraft.layout]
    if aircraft.layout == "aeroplane":
        return (*AEROPLANE_MOTOR_STATIONS, *aircraft.stations)
    return layout.names or tuple(aircraft.stations)


def meant_station(station: str, stations: Iterable[str]) -> str | None:
    """The motor station of which another word is a slip of the pen, or None.

    Stricter than did-you-mean, as other stations are free words: ``front-arm`` is no slip.
    """
    words = sorted(station.casefold().replace("_", "-").split("-"))
    flat = "-".join(station.casefold().replace("_", "-").split())
    for other in stations:
        if sorted(other.split("-")) == words or other.replace("-", "") == flat.replace("-", ""):
            return other
        if alike(flat, other) >= _ALIKE and abs(len(flat) - len(other)) <= 2:
            return other
    return None


def names_of_logs(ledger: Ledger, known: Known) -> dict[str, Names]:
    """For each log, what its entries may name."""
    by_log: dict[str, list[AnyEntry]] = {}
    for entry in ledger.entries:
        by_log.setdefault(entry.log, []).append(entry)
    return {
        log: _names(ledger.aircraft.get(entries[0].aircraft or ""), entries, ledger, known)
        for log, entries in by_log.items()
    }


def _names(
    aircraft: Aircraft | None, entries: list[AnyEntry], ledger: Ledger, known: Known
) -> Names:
    stations: set[str] = set()
    gains: set[str] = set()
    incidents: set[str] = set()
    defects: set[str] = set()
    motors: tuple[str, ...] = ()
    if aircraft is not None:
        motors = motor_stations(aircraft)
        stations.update(motors, aircraft.stations, aircraft.positions, aircraft.surfaces)
    for entry in entries:
        spoken = entry.becomes if type(entry) is Correction else entry
        if type(spoken) is Fit:
            stations.update(slot.station for slot in spoken.slots)
        elif type(spoken) is Alteration:
            stations.update(spoken.stations, spoken.positions, spoken.surfaces)
        elif type(spoken) is Gains and spoken.values:
            gains.add(spoken.name)
        if type(entry) is Incident:
            incidents.add(entry.id)
        elif type(entry) is Defect:
            defects.add(entry.id)
    checks, tasks, grounding = _programme_names(aircraft, ledger, known)
    jobs = None
    if tasks is not None and known.notices is not None:
        jobs = tasks | known.notices | frozenset(SIGNAL_TASKS)
    return Names(
        stations=frozenset(stations),
        motor_stations=motors,
        free=aircraft is None or LAYOUTS[aircraft.layout].free,
        checks=checks,
        grounding=grounding,
        tasks=tasks,
        jobs=jobs,
        gains=frozenset(gains),
        incidents=frozenset(incidents),
        defects=frozenset(defects),
    )


def _programme_names(
    aircraft: Aircraft | None, ledger: Ledger, known: Known
) -> tuple[frozenset[str] | None, frozenset[str] | None, frozenset[str]]:
    """Checks, tasks, and checks that ground: of its programme, else of all programmes."""
    if known.programmes is None:
        return None, None, frozenset()
    chain = programme_chain(ledger.programmes, aircraft.programme if aircraft else None)
    if aircraft is not None and aircraft.programme and not chain:
        return None, None, frozenset()  # told where the programme is named
    rows = chain or list(ledger.programmes.values())
    checks = frozenset(rule.check for programme in rows for rule in programme.checks)
    tasks = frozenset(rule.task for programme in rows for rule in programme.tasks)
    return checks, tasks, _grounding(rows, of_one=bool(chain))


def _grounding(rows: Iterable[Programme], *, of_one: bool) -> frozenset[str]:
    """The checks that ground: in the chain of one programme its nearest rule says, else any."""
    rules: dict[str, list[bool]] = {}
    for rule in (rule for programme in rows for rule in programme.checks):
        rules.setdefault(rule.check, []).append(rule.grounds)
    return frozenset(name for name, said in rules.items() if (said[0] if of_one else any(said)))


def programme_chain(programmes: Mapping[str, Programme], name: str | None) -> list[Programme]:
    """The programme of that name and those that it is based on, itself first.

    It may be based on the built-in one of its own name, never on itself; where a base is not
    found, the chain ends with the programme that names it.
    """
    chain: list[Programme] = []
    while name is not None:
        for found in (programmes.get(name), programmes.get(BUILT_IN + name)):
            if found is not None and all(found is not earlier for earlier in chain):
                chain.append(found)
                name = found.based_on
                break
        else:
            break
    return chain
