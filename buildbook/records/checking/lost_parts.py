"""A file of parts that is lost or empty: one cause, one sentence, whoever names its records."""

from buildbook.basis.amounts import count
from buildbook.basis.place import Place
from buildbook.basis.problems import Problem, Problems
from buildbook.records.checking.known import Known

_FEWEST = 2  # a single name is told where it stands


def lost_parts_told_once(found: Problems, known: Known) -> Problems:
    """The same problems, where no tag or no spec is there at all with one for all that name them.

    known: of None for names that could not be read, which is told where that was tried.
    """
    problems = list(found)
    for what, names, file in (
        ("tag", known.tags, "parts/items.yaml"),
        ("spec", known.specs, "parts/specs.yaml"),
    ):
        unknown = [each for each in problems if each.unknown and each.unknown[0] == what]
        named = len({each.unknown for each in unknown})
        if names is None or names or named < _FEWEST:
            continue
        problems = [each for each in problems if each not in unknown]
        problems.append(
            Problem(
                f"the file is lost or empty: no {what} is known, "
                f"though {count(what, named)} are named",
                Place(file, 1),
                hint="bring it back, from a backup or from version control",
            )
        )
    return Problems(problems)
