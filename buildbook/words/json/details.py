"""What was found, for machines: short facts by name, as text."""

from buildbook.basis import amounts
from buildbook.report.upkeep.findings import (
    AlarmLow,
    CoveredBy,
    DefectFound,
    Drifted,
    FailedAs,
    Finding,
    InState,
    MassComputed,
    Moved,
    NotFitted,
    Noticed,
    NotReadAgain,
    NoYaw,
    NutAgainst,
    OverRated,
    PartAgain,
    RangeFell,
    ReadOtherwise,
    Revised,
    SameMemory,
    TooHeavy,
    Unbalanced,
    UnlikePart,
    WithoutLink,
    WrongHand,
)
from buildbook.report.upkeep.pack_findings import (
    AtCutOff,
    CapacityLow,
    CellFell,
    CellLow,
    CellsApart,
    CellsOutside,
    IntoReserve,
    OddCell,
    ReadAtLimit,
    SetAside,
    UsedAside,
    UsedShare,
)
from buildbook.words.measures.days import EXACT
from buildbook.words.reasons import finding_words
from buildbook.words.upkeep.dangers import alarm_found, mass_found, ratings_found
from buildbook.words.upkeep.pack_findings import millivolts

Facts = dict[str, str]


def detail(found: Finding | None) -> Facts:
    """What was found, by name; nothing where the reason says it all."""
    match found:
        case ReadOtherwise():
            return {"of": found.of, "found": found.found, "expected": found.expected}
        case NotReadAgain():
            return {"of": found.of, "found": found.found, **dict(found.others)}
        case MassComputed():
            return {"change_g": f"{found.change_kg * 1000:+.0f}"}
        case InState():
            return {"state": found.state}
        case Revised():
            return {"revision": found.revision}
        case Drifted():
            return {"found": finding_words(found, EXACT)}
        case DefectFound():
            opened = {} if found.days_open is None else {"days_open": str(found.days_open)}
            limit = {} if found.limited else {"limit": "none"}
            out = {"inoperative": found.inoperative} if found.inoperative else {}
            return {**opened, "severity": found.severity, **limit, **out}
        case Noticed():
            return {"found": found.what}
        case FailedAs():
            findings = {"findings": found.findings} if found.findings else {}
            return {**findings, **dict(found.readings)}
        case Moved():
            return {"tag": found.tag, "from": found.came_from, "to": found.went_to}
        case PartAgain():
            of = {"defect": found.defect, "crashed": found.crashed}
            return {"tag": found.tag, **{name: said for name, said in of.items() if said}}
        case CoveredBy():
            return {"by": found.task}
        case _:
            return _of_danger(found) or _of_pack(found)


def _of_danger(found: Finding | None) -> Facts:
    match found:
        case NotFitted():
            kinds = ", ".join(found.kinds)
            return {"lacks": kinds} if found.recorded else {"not recorded": kinds}
        case WrongHand():
            return {"of": found.tag, "found": found.hand, "expected": found.wanted}
        case NoYaw():
            return {"found": f"rank {found.rank}"}
        case WithoutLink():
            return {"throttle": found.throttle or "not recorded"}
        case TooHeavy():
            basis = {} if found.weighed else {"basis": "computed"}
            limit = f"{amounts.mass(found.limit_kg)} or less"
            return {**basis, "expected": limit, "found": mass_found(found)}
        case Unbalanced():
            basis = {} if found.by == "scales" else {"basis": found.by}
            packs = {"with": ", ".join(found.packs)} if found.packs else {}
            return {**basis, "found": found.judged, **packs}
        case AlarmLow():
            return {"found": alarm_found(found)}
        case RangeFell():
            return {"found": amounts.length(found.read_m), "before": amounts.length(found.before_m)}
        case UnlikePart():
            return {"found": found.found, "expected": found.others, "of": found.tag}
        case OverRated():
            return {"found": ratings_found(found)}
        case SameMemory():
            return {"also": ", ".join(found.others), "memory": found.memory}
        case NutAgainst():
            return {"spin from the nut": found.spin, "thread": f"{found.thread}-hand"}
        case _:
            return {}


def _of_pack(found: Finding | None) -> Facts:
    match found:
        case SetAside():
            return dict(found.facts)
        case UsedAside():
            return {"charged": str(found.charged), "flown": str(found.flown)}
        case OddCell() | CapacityLow() | ReadAtLimit():
            return {"found": finding_words(found, EXACT)}
        case CellLow():
            volts, least_v = amounts.voltage(found.cell_v), found.least_v
            least = {} if least_v is None else {"expected": f"{amounts.voltage(least_v)} or more"}
            return {**least, "found": volts}
        case AtCutOff():
            more = f"more than {amounts.voltage(found.cut_off_v)}"
            return {"expected": more, "found": amounts.voltage(found.cell_v)}
        case CellsApart():
            most = f"{millivolts(found.most_v)} or less"
            return {"expected": most, "found": millivolts(found.spread_v)}
        case CellFell():
            most = f"less than {millivolts(found.most_v)}"
            return {"expected": most, "found": millivolts(found.fell_v)}
        case UsedShare():
            most_share = found.most_share
            limit = (
                {} if most_share is None else {"expected": f"{amounts.share(most_share)} or less"}
            )
            return {**limit, "found": amounts.share(found.share)}
        case IntoReserve():
            usable = f"{amounts.charge(found.usable_ah)} or less"
            return {"expected": usable, "found": amounts.charge(found.out_ah)}
        case CellsOutside():
            return {
                "found": ", ".join(f"{each}S" for each in found.series),
                "expected": f"{found.least}S to {found.most}S",
            }
        case _:
            return {}
