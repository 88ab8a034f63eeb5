"""``check --explain``: the line of each problem, and where in it."""

from pathlib import Path


def test_the_line_is_shown_with_a_caret(run, loft: Path) -> None:
    """The caret stands under the words that the reason quotes; the hint follows."""
    log = loft / "aircraft/heron/logbook.yaml"
    log.write_text(log.read_text("utf-8").replace("motor: M-1", "motor: M-l"), "utf-8")

    ran = run("check", loft, "--explain")

    assert (
        1,
        "problem: unknown tag 'M-l' @ aircraft/heron/logbook.yaml:2\n"
        "    2 |   fit: {nose: {motor: M-l, esc: E-1, propeller: R-1}}\n"
        "                              ^^^\n"
        "    did you mean 'M-1'?\n"
        "1 problem\n",
        "",
    ) == ran


def test_a_long_line_is_cut_around_the_caret(run, loft: Path) -> None:
    """What is quoted stays in sight."""
    log = loft / "aircraft/heron/logbook.yaml"
    log.write_text(
        f"- {{on: 2026-02-01, flight: 7:20, note: {'x' * 200}, landing: nobdy}}\n", "utf-8"
    )

    line, caret = run("check", loft, "--explain").out.splitlines()[1:3]

    assert "nobdy" == line[caret.index("^") : caret.rindex("^") + 1]
    assert max(len(line), len(caret)) <= 82


def test_a_file_that_is_not_there_shows_no_line(run, loft: Path) -> None:
    """The sentence is all that there is."""
    (loft / "aircraft/teal").mkdir()

    ran = run("check", loft, "--explain")

    assert (1, True) == (ran.status, " | " not in ran.out)
