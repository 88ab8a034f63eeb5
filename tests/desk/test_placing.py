"""An entry goes to its place by day, and the rest of the text stays as it was, byte for byte."""

import datetime
from pathlib import Path, PureWindowsPath

import pytest
from hangars import loft, texts

from buildbook.commands.main import main
from buildbook.desk.placing import CannotPlace, placed

LOG = """\
# The log of Heron.

- on: 2026-03-01
  note: First.          # a remark
# about the second
- on: 2026-03-05
  note: |
    Long words
    # no comment
- {on: 2026-03-09, id: 2026-03-09-7, note: Third.}
# the end
"""
NOTE = {"note": "New."}


def put(log: str | bytes, on: str, **more: str) -> str:
    """The log with a note of that day."""
    data = log.encode() if isinstance(log, str) else log
    return placed("log.yaml", data, [{"on": on, **NOTE, **more}]).data.decode()


def test_an_entry_of_the_last_day_goes_to_the_end() -> None:
    """Behind the last comment."""
    new = "- on: 2026-03-10\n  id: 2026-03-10-1\n  note: New.\n"

    assert LOG + new == put(LOG, "2026-03-10")


def test_a_forgotten_entry_goes_above_the_comment_of_the_next() -> None:
    """The comment belongs to what stands below it."""
    new = "- on: 2026-03-03\n  id: 2026-03-03-1\n  note: New.\n"
    head, tail = LOG.split("# about")

    assert f"{head}{new}# about{tail}" == put(LOG, "2026-03-03")


def test_a_mark_inside_a_long_text_is_no_comment() -> None:
    """What is indented belongs to the text above."""
    new = "- on: 2026-03-06\n  id: 2026-03-06-1\n  note: New.\n"
    head, tail = LOG.split("- {on")

    assert f"{head}{new}- {{on{tail}" == put(LOG, "2026-03-06")


def test_an_entry_before_all_others_stands_first() -> None:
    """Below the comments at the top that no line parts from the first one, none here."""
    new = "- on: 2026-02-01\n  id: 2026-02-01-1\n  note: New.\n"

    assert LOG.replace("\n\n", f"\n\n{new}", 1) == put(LOG, "2026-02-01")


def test_an_id_is_the_next_of_its_day() -> None:
    """Counted as the reader counts; one that is taken is passed over."""
    log = "- {on: 2026-03-01, note: A}\n- {on: 2026-03-01, id: 2026-03-01-3, note: B}\n"

    assert "id: 2026-03-01-4\n" in put(log, "2026-03-01")
    assert "id: crash-1\n" in put(log, "2026-03-01", id="crash-1")


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_line_ends_and_mark_stay(end: str, mark: str) -> None:
    """Windows, old and new machines; new lines end as the others do."""
    log = (mark + LOG.replace("\n", end)).encode()
    new = "- on: 2026-03-10\n  id: 2026-03-10-1\n  note: New.\n".replace("\n", end)

    assert log.decode() + new == put(log, "2026-03-10")


@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_a_last_line_without_an_end_gets_one(end: str) -> None:
    """Nothing else is changed."""
    log = f"- on: 2026-03-01{end}  note: First."

    assert f"{log}{end}- on: 2026-03-02{end}  id: 2026-03-02-1{end}  note: New.{end}" == put(
        log, "2026-03-02"
    )


def test_free_lines_between_entries_are_kept_up() -> None:
    """At the end and in between."""
    each = "- on: 2026-03-0{}\n  note: A\n"
    log = "\n".join(each.format(day) for day in (1, 5, 9))
    new = "- on: {0}\n  id: {0}-1\n  note: New.\n"

    assert log + "\n" + new.format("2026-03-10") == put(log, "2026-03-10")
    assert log.replace("- on: 2026-03-05", new.format("2026-03-03") + "\n- on: 2026-03-05") == put(
        log, "2026-03-03"
    )


def test_indented_logs_stay_indented() -> None:
    """As deep as the first entry."""
    log = "  - on: 2026-03-01\n    note: A\n"

    assert log + "  - on: 2026-03-02\n    id: 2026-03-02-1\n    note: New.\n" == put(
        log, "2026-03-02"
    )


@pytest.mark.parametrize("log", ["", "# nothing yet\n", "[]\n"])
def test_an_empty_log_takes_its_first_entry(log: str) -> None:
    """Comments stay; the sign of an empty list can't."""
    new = "- on: 2026-03-02\n  id: 2026-03-02-1\n  note: New.\n"
    if log == "[]\n":
        with pytest.raises(CannotPlace):
            put(log, "2026-03-02")
    else:
        assert log + new == put(log, "2026-03-02")


def test_several_entries_go_to_their_places_at_once() -> None:
    """In the order of their days, those of one day in the order given; lines are told."""
    entries = [{"on": f"2026-03-{day}", "note": word} for day, word in (("10", "c"), ("02", "a"))]
    entries.append({"on": "2026-03-02", "note": "b"})

    done = placed("log.yaml", LOG.encode(), entries)

    lines = done.data.decode().splitlines()
    assert [(5, "2026-03-02-1"), (8, "2026-03-02-2"), (18, "2026-03-10-1")] == [
        (entry.line, entry.id) for entry in done.entries
    ]
    assert ["- on: 2026-03-02", "- on: 2026-03-02", "- on: 2026-03-10"] == [
        lines[entry.line - 1] for entry in done.entries
    ]
    data = done.data
    for at, length in reversed(done.added):
        data = data[:at] + data[at + length :]
    assert LOG.encode() == data


NO_LIST = "log.yaml is not a list of entries with hyphens; write it there by hand"
NO_ROOM = "an entry does not fit into log.yaml as it is laid out; write it there by hand"


@pytest.mark.parametrize(
    ("log", "reason"),
    [
        ("[{on: 2026-03-01, note: A}]\n", NO_LIST),
        ("on: 2026-03-01\n", NO_LIST),
        ("- on: 2026-03-01\n  note: A\n...\n", NO_ROOM),
        ("- on: 2026-03-01\n  note: 'A\n", "quotation mark without an end @ log.yaml:2"),
        ("- words\n", "log.yaml holds something that is not an entry; put that right first"),
    ],
)
def test_what_cannot_be_placed_is_refused(log: str, reason: str) -> None:
    """In one sentence, rather than written into something that would read otherwise."""
    with pytest.raises(CannotPlace) as refused:
        put(log, "2026-03-10")

    assert reason == str(refused.value)


def test_packs_that_are_charged_together_get_a_file_of_all(
    tmp_path: Path, fixed_day: datetime.date
) -> None:
    """Where one of them has none of its own; later charges of each of them go there too."""
    assert fixed_day
    hangar = loft(tmp_path / "loft")
    (hangar / "stores/p-1.yaml").unlink()
    for packs in ("P-2,P-3", "P-3", "P-1"):
        assert 0 == main(
            ["enter", "charge", packs, "--put-in", "900mAh", "--on", "2026-02-09", "--sure",
             "--hangar", str(hangar)]
        )  # fmt: skip

    assert {"stores/packs.yaml": 2, "stores/p-1.yaml": 1} == {
        path: text.count(b"charge:") for path, text in texts(hangar).items() if "stores/" in path
    }


def test_no_file_is_called_like_a_device_of_windows(
    tmp_path: Path, fixed_day: datetime.date
) -> None:
    """A tag, an aircraft. Held against the standard library's own list of them."""
    assert fixed_day
    items = "- {tag: COM1, spec: p}\n- {tag: M-1, spec: m}\n- {tags: P-1..P-2, spec: p}\n"
    hangar = loft(tmp_path / "loft", {"parts/items.yaml": items})
    at = ["--hangar", str(hangar)]
    assert 0 == main(
        ["enter", "charge", "COM1", "--put-in", "900mAh", "--on", "2026-02-09", "--sure", *at]
    )
    assert 0 == main(["begin", str(hangar), "--name", "Nul"])
    written = [PureWindowsPath(path) for path in texts(hangar)]

    assert [] == [path for path in written if path.is_reserved()]
    assert {
        PureWindowsPath("stores/com1-1.yaml"),
        PureWindowsPath("aircraft/nul-1/logbook.yaml"),
    } < {*written}
