"""Checks that were entered as passed without the readings that their programme asks for."""

from collections.abc import Iterator, Sequence

from buildbook.desk.entry_text import Tree
from buildbook.records.checking.known import programme_chain
from buildbook.records.ledger import Ledger

Named = tuple[str | None, dict[str, Tree]]
"""The slug of an aircraft, and an entry of it."""


def readings_left(entries: Sequence[Named], ledger: Ledger) -> tuple[str, ...]:
    """One sentence, or none: which checks, and what is read at the first of them."""
    left = dict(_left(entries, ledger))
    if not left:
        return ()
    (first, how), *more = left.items()
    return (
        f"no readings written of {', '.join([f'{first} ({how})', *(name for name, _ in more)])}",
    )


def _left(entries: Sequence[Named], ledger: Ledger) -> Iterator[tuple[str, str]]:
    for slug, entry in entries:
        checks = entry.get("check") or ()
        if (
            slug is None
            or slug not in ledger.aircraft
            or entry.get("readings")
            or entry.get("result") != "pass"
        ):
            continue
        chain = programme_chain(ledger.programmes, ledger.aircraft[slug].programme)
        for name in [checks] if isinstance(checks, str) else checks:
            rules = (rule for programme in chain for rule in programme.checks if rule.check == name)
            rule = next(rules, None)
            if rule is not None and rule.readings:
                reading, how = next(iter(rule.readings.items()))
                yield str(name), f"{reading}: {how}"
