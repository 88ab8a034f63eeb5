"""Problems and their places."""

from buildbook.basis.place import Place
from buildbook.basis.problems import Problem, Problems


def test_a_problem_reads_as_reason_and_place() -> None:
    """``reason @ file:line``."""
    problem = Problem("unknown key 'mas'", Place("parts/specs.yaml", 7))

    assert "unknown key 'mas' @ parts/specs.yaml:7" == str(problem)


def test_problems_come_sorted_by_place_and_once() -> None:
    """The order in which they were found does not show, nor how often."""
    problems = Problems()
    problems.add("late", Place("b.yaml", 2))
    problems.add("odd", Place("a.yaml", 10))
    problems.warn("bad", Place("a.yaml", 9), hint="write it well")
    problems.add("late", Place("b.yaml", 2))

    assert ["bad @ a.yaml:9", "odd @ a.yaml:10", "late @ b.yaml:2"] == [str(p) for p in problems]
    assert 3 == len(problems)
    assert problems.any_problem


def test_problems_found_elsewhere_join_in() -> None:
    """Two readers' findings become one list."""
    problems = Problems()
    problems.extend([Problem("late", Place("b.yaml", 2)), Problem("bad", Place("a.yaml", 9))])

    assert ["bad @ a.yaml:9", "late @ b.yaml:2"] == [str(p) for p in problems]


def test_a_warning_is_no_problem() -> None:
    """The site is written all the same."""
    problems = Problems([Problem("odd", Place("a.yaml", 1), "warning")])

    assert not problems.any_problem
    assert not Problems().any_problem
