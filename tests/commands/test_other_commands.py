"""``check``, ``figures``, ``render``, ``begin`` and ``schema`` as somebody types them."""

import json
import os
from pathlib import Path

import pytest


def test_check_counts_what_it_read(run, loft: Path) -> None:
    """A sound hangar is one line."""
    said = (
        "Read 1 aircraft, 3 items, 3 entries: no problems.\n"
        "1 row is open or due; run: buildbook due\n"
    )
    assert run("check", loft) == (0, said, "")


def test_check_tells_all_mistakes_at_once(run, loft: Path) -> None:
    """Three mistakes in three files, each with its line and a suggestion."""
    (loft / "parts/specs.yaml").write_text(
        (loft / "parts/specs.yaml").read_text("utf-8").replace("50 g", "50 grams"), "utf-8"
    )
    (loft / "aircraft/heron/aircraft.yaml").write_text(
        (loft / "aircraft/heron/aircraft.yaml").read_text("utf-8") + "colour: red\n", "utf-8"
    )
    log = loft / "aircraft/heron/logbook.yaml"
    log.write_text(log.read_text("utf-8").replace("motor: M-1", "motor: M-l"), "utf-8")

    ran = run("check", loft, "--json")

    told = [
        f"{found['reason']} @ {found['file']}:{found['line']}"
        for found in json.loads(ran.out)["problems"]
    ]
    assert ran.status == 1
    assert told == [
        "unknown key 'colour' in an aircraft @ aircraft/heron/aircraft.yaml:7",
        "unknown tag 'M-l' @ aircraft/heron/logbook.yaml:2",
        "'50 grams' is not a mass @ parts/specs.yaml:1",
    ]


def test_check_and_render_tell_a_wrong_insert_alike(run, loft: Path, tmp_path: Path) -> None:
    """Both read the write-ups, whatever else is wrong; nothing is written."""
    (loft / "aircraft/heron/write-up.md").write_text("# H\n\n@ layuot\n", "utf-8")
    told = "unknown insert 'layuot' @ aircraft/heron/write-up.md:3"

    checked = run("check", loft)
    rendered = run("render", loft, "--into", tmp_path / "site")

    assert (1, True) == (checked.status, told in checked.out)
    assert (1, True) == (rendered.status, told in rendered.err)
    assert not (tmp_path / "site").exists()

    log = loft / "aircraft/heron/logbook.yaml"
    log.write_text(log.read_text("utf-8").replace("M-1", "M-9"), "utf-8")
    both = (run("check", loft).out, run("render", loft, "--into", tmp_path / "site").err)
    assert all(told in each and "M-9" in each for each in both)


def test_check_warns_of_links_that_a_story_loses_in_public(run, loft: Path) -> None:
    """To a page that is the owner's alone, to an anchor that is not there; others are quiet."""
    (loft / "aircraft/heron/write-up.md").write_text(
        "# H\n\nSee [the log](logbook.html), [the figures](figures.html#all_up_mass),\n"
        "[the sheet](set-up.html) and [the mass](figures.html#no_such_figure).\n"
        "[Elsewhere](https://example.org/x), [above](#h).\n",
        "utf-8",
    )

    ran = run("check", loft, "--json")

    assert 0 == ran.status
    assert [
        (
            "the link to 'figures.html#no_such_figure' leads to a place that its page lacks in"
            " public",
            4,
            "warning",
        ),
        (
            "the link to 'set-up.html' leads to no page that the public gets; its words stand"
            " there alone",
            4,
            "warning",
        ),
    ] == [
        (one["reason"], one["line"], one["severity"])
        for one in json.loads(ran.out)["problems"]
        if one["file"] == "aircraft/heron/write-up.md"
    ]


def test_check_tells_what_upkeep_finds_wrong(run, loft: Path) -> None:
    """A programme that stands on itself, a deferral without a limit: all commands tell of them."""
    programme = loft / "programmes/shop.yaml"
    programme.write_text(
        programme.read_text("utf-8").replace(
            "programme: shop\n", "programme: shop\nbased_on: shop\n"
        ),
        "utf-8",
    )
    log = loft / "aircraft/heron/logbook.yaml"
    log.write_text(
        log.read_text("utf-8") + "- {on: 2026-02-09, id: d1, defect: rattle, severity: defer}\n",
        "utf-8",
    )

    told = [
        f"{found['reason']} @ {found['file']}:{found['line']}"
        for found in json.loads(run("check", loft, "--json").out)["problems"]
    ]

    assert told == [
        "defect d1 is deferred without a limit @ aircraft/heron/logbook.yaml:8",
        "programme 'shop' is based on itself by way of 'shop' @ programmes/shop.yaml:2",
    ]
    assert [1, 1, 1, 1] == [
        run(*words).status
        for words in (
            ("check", loft),
            ("due", loft),
            ("figures", "heron", loft),
            ("render", loft, "--into", loft.parent / "site"),
        )
    ]


def test_figures_of_an_item(run, loft: Path) -> None:
    """Counters of a part, in words."""
    ran = run("figures", "M-1", loft)

    assert ran.status == 0
    assert ran.out.splitlines()[:3] == [
        "Figures of M-1, record to 20 November 2026",
        "  component_hours: 0.30 h [measured]",
        "  component_flights: 3 [measured]",
    ]


def test_a_figure_that_is_a_table_is_printed_with_its_columns(run, loft: Path) -> None:
    """A count of rows would tell nothing."""
    log = loft / "aircraft/heron/logbook.yaml"
    gains = "- {{on: 2026-02-0{}, gains: {}, values: {{roll: {{p: {}, i: 6}}}}}}\n"
    more = gains.format(7, "soft", 30) + gains.format(8, "crisp", 34.5)
    log.write_text(log.read_text("utf-8") + more, "utf-8")

    lines = run("figures", "heron", loft).out.splitlines()
    at = lines.index("      axis, term, in force, against, change")

    assert ["      roll, p, 34.5, 30, 4.5", "      roll, i, 6, 6, 0"] == lines[at + 1 : at + 3]


def test_figures_of_an_aircraft_by_its_name(run, loft: Path) -> None:
    """As enter takes it."""
    assert (
        run("figures", "heron", loft).out.splitlines()[1:]
        == (run("figures", "HERON", loft).out.splitlines()[1:])
    )


def test_figures_of_nobody(run, loft: Path) -> None:
    """A near miss gets a suggestion."""
    assert run("figures", "M-7", loft) == (
        2,
        "",
        "buildbook figures: no aircraft or item is called 'M-7'; did you mean 'M-1'?\n",
    )


def test_figures_json_has_the_shape_of_the_contract(run, loft: Path) -> None:
    """Every key is there for each figure, and nothing but numbers JSON knows."""
    ran = run("figures", "heron", loft, "--json")

    shape = json.loads(ran.out, parse_constant=lambda name: pytest.fail(f"{name} in JSON"))
    wanted = ["name", "of", "value", "unit", "low", "high", "level", "basis", "inputs", "formula"]
    assert list(shape) == ["aircraft", "as_of", "figures", "cannot_say"]
    assert all(list(figure)[:10] == wanted for figure in shape["figures"])
    assert all("source" in figure for figure in shape["figures"])
    assert {tuple(missing) for missing in shape["cannot_say"]} == {
        ("name", "of", "because", "place")
    }


def test_render_writes_nothing_when_something_is_wrong(run, loft: Path, tmp_path: Path) -> None:
    """The problem is told, and there is no site."""
    (loft / "parts/items.yaml").write_text("- {tag: M-1\n", "utf-8")

    ran = run("render", loft, "--into", tmp_path / "site")

    assert ran.status == 1
    assert ran.err.endswith("Nothing was written.\n")
    assert not (tmp_path / "site").exists()


def test_render_says_where_the_site_is(run, loft: Path, tmp_path: Path) -> None:
    """The number of files and the page to open."""
    site = tmp_path / "site"

    ran = run("render", loft, "--into", site)

    files = sum(path.is_file() for path in site.rglob("*")) - 1  # the mark of a site
    assert ran == (0, f"Wrote {files} files for the owner: {site / 'index.html'}\n", "")


def test_a_render_changes_no_record(run, loft: Path, tmp_path: Path) -> None:
    """R43: the records are the same bytes before and after, and nothing was added."""

    def bytes_of() -> dict[str, bytes]:
        return {str(path): path.read_bytes() for path in loft.rglob("*") if path.is_file()}

    before = bytes_of()
    run("render", loft, "--into", tmp_path / "site")

    assert bytes_of() == before


@pytest.mark.skipif(os.geteuid() == 0, reason="the superuser may write anywhere")
def test_a_folder_without_rights_is_one_sentence(run, loft: Path, tmp_path: Path) -> None:
    """The system's own word for it is passed on."""
    closed = tmp_path / "closed"
    closed.mkdir(mode=0o500)

    ran = run("render", loft, "--into", closed / "site")

    assert ran.status == 2
    assert ran.err == (
        f"buildbook render: could not write the site to {closed / 'site'}: permission denied\n"
    )


def test_an_unknown_theme_is_wrong_use(run, loft: Path) -> None:
    """Exit status 2 before anything is read."""
    assert run("render", loft, "--theme", "velvet") == (
        2,
        "",
        "buildbook render: --theme: no theme is called 'velvet', and there is no such folder\n",
    )


def test_begin_wants_an_empty_folder(run, loft: Path) -> None:
    """Nothing of the keeper's is overwritten."""
    assert run("begin", loft) == (
        2,
        "",
        f"buildbook begin: {loft} is a hangar already; --name adds an aircraft to it\n",
    )


def test_begin_leaves_a_hangar_that_reads(run, tmp_path: Path) -> None:
    """What ``begin`` writes, ``check`` has nothing to say against."""
    begun = run("begin", tmp_path / "new")
    checked = run("check", tmp_path / "new")

    assert begun.out.splitlines()[0] == f"Wrote 11 files to {tmp_path / 'new'}."
    assert (checked.status, checked.err) == (0, "")
    assert checked.out.splitlines()[0] == "Read 1 aircraft, 0 items, 0 entries: no problems."


def test_schema_is_json_schema(run) -> None:
    """It says which draft it is written in."""
    ran = run("schema")

    assert json.loads(ran.out)["$schema"] == "https://json-schema.org/draft/2020-12/schema"


def test_the_demo_has_no_problems_or_warnings(run, demo: Path) -> None:
    """What newcomers copy is sound."""
    ran = run("check", demo, "--json")

    assert (ran.status, json.loads(ran.out)) == (0, {"problems": []})


def test_a_date_after_today_is_a_warning(run, loft: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Only where nobody named the day; the entry is left out."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1770422400")  # 7 February 2026
    (loft / "hangar.yaml").write_text("format: 1\nhangar: Loft\n", "utf-8")

    ran = run("check", loft)

    assert ran.status == 0
    assert ran.out.splitlines()[0] == (
        "warning: the entry is dated 2026-02-08, after today (2026-02-07)"
        " @ aircraft/heron/logbook.yaml:6"
    )
