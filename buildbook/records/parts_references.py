"""Names in specs, items and notices that stand for something else."""

from buildbook.basis.notation import said
from buildbook.basis.problems import Problems
from buildbook.records.known import Known, Teller
from buildbook.records.ledger import Ledger
from buildbook.records.parts import Item, Spec
from buildbook.records.programmes import SIGNAL_TASKS


def check_parts(ledger: Ledger, known: Known, problems: Problems) -> None:
    """The bench files of specs, the specs of items, and the order of their days."""
    tell = Teller(problems, None)
    for spec in ledger.specs.values():
        if spec.bench is not None and spec.bench not in known.bench:
            _lost_bench(spec, spec.bench, known, tell)
    alike: dict[str, Item] = {}
    for item in ledger.items.values():
        tell = Teller(problems, item.aircraft)
        other = alike.setdefault(item.tag.casefold(), item)
        if other is not item:
            tell.refuse(
                f"tags {said(other.tag)} and {said(item.tag)} differ only in capitals",
                item.place("tag"),
                "a memory stick takes their pages for one; rename one of them",
                (other.place("tag"),),
            )
        if known.specs is not None and item.spec not in known.specs:
            tell.unknown("spec", item.spec, known.specs, item.place("spec"))
        if item.made and item.acquired and item.made > item.acquired:
            tell.refuse(
                f"{said(item.tag)} was made on {item.made}, after it was acquired, {item.acquired}",
                item.place("made"),
            )


def _lost_bench(spec: Spec, bench: str, known: Known, tell: Teller) -> None:
    plain = bench.removeprefix("bench/")
    if plain in known.bench:
        hint = f"write {plain}"
        tell.refuse(f"{said(bench)} names the folder too", spec.place("bench"), hint)
    else:
        tell.unknown("file of bench/", bench, known.bench, spec.place("bench"))


def check_notices(ledger: Ledger, known: Known, problems: Problems) -> None:
    """The specs of notices; and no notice may go by the name of a task or check."""
    tell = Teller(problems, None)
    taken = set(SIGNAL_TASKS)
    for programme in ledger.programmes.values():
        taken.update(rule.check for rule in programme.checks)
        taken.update(rule.task for rule in programme.tasks)
    for notice in ledger.notices.values():
        for spec in notice.specs:
            if known.specs is not None and spec not in known.specs:
                tell.unknown("spec", spec, known.specs, notice.place("spec"))
        if notice.notice in taken:
            tell.refuse(
                f"notice {said(notice.notice)} has the name of a task or check",
                notice.place("notice"),
                "give it another name",
            )
