"""What was open while an aircraft was flown, in a few words."""

from collections.abc import Iterable

from buildbook.basis import amounts
from buildbook.report.upkeep.flown import Meanwhile
from buildbook.words.names import name_words

_MOST = 3


def meanwhile_words(what: Iterable[Meanwhile]) -> str:
    """``flown with P-03 set aside; while failsafe was open``: of checks the first few."""
    what = tuple(what)
    names = dict.fromkeys(name_words(one.name) for one in what if one.kind in ("check", "look"))
    named = [*names][:_MOST]
    if len(names) > _MOST:
        named.append(f"{len(names) - _MOST} more")
    said = [_other(one) for one in what if one.kind not in ("check", "look")]
    if named:
        said.append(f"while {amounts.listed(named)} {'was' if len(names) == 1 else 'were'} open")
    return f"flown {'; '.join(dict.fromkeys(said))}"


def _other(one: Meanwhile) -> str:
    match one.kind:
        case "limit":
            of = f" of {one.of}" if one.of else ""
            return f"with {name_words(one.name)}{of} reached"
        case "pack":
            return f"with {one.name} set aside"
        case "reserve":
            return f"into the reserve of {one.name}"
        case "status":
            return f"while {one.name}"
        case "defect":
            return "with a grounding defect open"
        case "missing part":
            return "with a part missing"
        case _:
            return "before the check flight"
