"""``render --despite-problems``: one slip of the pen does not stop the owner's site."""

import re
from pathlib import Path


def slip(loft: Path) -> None:
    """Two entries of the log that can't be read, among those that can."""
    with (loft / "aircraft/heron/logbook.yaml").open("a", encoding="utf-8") as log:
        log.write("- on: 2026-02-30\n  note: lost\n- on: 2026-03-02\n  flihgt: 6:00\n")


def test_what_stands_is_written_and_each_problem_is_on_a_page(
    run, loft: Path, tmp_path: Path
) -> None:
    """With status 1, since the records have problems all the same."""
    slip(loft)
    done = run("render", loft, "--into", tmp_path / "site", "--despite-problems")

    assert done.status == 1
    assert done.out.startswith("Wrote ")
    assert done.out.endswith(
        f" files for the owner, despite problems: {tmp_path / 'site/index.html'}\n"
    )
    assert "2 problems" in done.err
    page = (tmp_path / "site/problems.html").read_text("utf-8")
    assert "<code>aircraft/heron/logbook.yaml:8</code>" in page
    assert "Entry has no kind key, but &#39;flihgt&#39;" in page
    assert "&#39;2026-02-30&#39; is not in the calendar" in page
    for name in ("index.html", "due.html", "aircraft/heron/index.html"):
        text = (tmp_path / "site" / name).read_text("utf-8")
        assert "Written despite problems." in text
        assert "The records have 2 problems" in text


def refused(run, *words: object) -> str:
    """The sentence; nothing is written."""
    ran = run("render", *words, "--despite-problems")
    assert (ran.status, ran.out) == (2, "")
    return ran.err.removeprefix("buildbook render: ").rstrip("\n")


def test_without_it_nothing_is_written(run, loft: Path, tmp_path: Path) -> None:
    """As before."""
    slip(loft)
    done = run("render", loft, "--into", tmp_path / "site")

    assert (done.status, done.out) == (1, "")
    assert done.err.endswith("Nothing was written.\n")
    assert not (tmp_path / "site").exists()


def test_it_is_never_public(run, loft: Path, tmp_path: Path) -> None:
    """Neither asked for, nor over a public site that stands."""
    public = tmp_path / "public"
    assert run("render", loft, "--into", public, "--for", "public").status == 0
    before = {path: path.read_bytes() for path in public.rglob("*") if path.is_file()}
    slip(loft)

    assert refused(run, loft, "--into", public) == (
        f"{public} is a public site; say --for public to renew it, or --for owner"
        " --replace-audience"
    )
    for words in (("--for", "public"), ("--for", "owner", "--replace-audience")):
        assert refused(run, loft, "--into", public, *words) == (
            "--despite-problems writes an owner's site only, and over no public one;"
            " mend the records first"
        )
    assert before == {path: path.read_bytes() for path in public.rglob("*") if path.is_file()}


def test_where_nothing_is_wrong_it_is_a_render_like_any(run, loft: Path, tmp_path: Path) -> None:
    """Byte for byte."""
    assert run("render", loft, "--into", tmp_path / "one").status == 0
    assert run("render", loft, "--into", tmp_path / "two", "--despite-problems").status == 0

    def files(site: Path) -> dict[str, bytes]:
        return {
            path.relative_to(site).as_posix(): path.read_bytes()
            for path in site.rglob("*")
            if path.is_file()
        }

    assert files(tmp_path / "one") == files(tmp_path / "two")


def test_the_banner_goes_with_the_last_problem(run, loft: Path, tmp_path: Path) -> None:
    """A later render takes the page away."""
    log = loft / "aircraft/heron/logbook.yaml"
    whole = log.read_text("utf-8")
    slip(loft)
    run("render", loft, "--into", tmp_path / "site", "--despite-problems")
    log.write_text(whole, "utf-8")

    assert run("render", loft, "--into", tmp_path / "site").status == 0
    assert not (tmp_path / "site/problems.html").exists()
    assert "despite" not in (tmp_path / "site/index.html").read_text("utf-8")


def test_a_hangar_that_cannot_be_read_at_all_writes_nothing(
    run, loft: Path, tmp_path: Path
) -> None:
    """Nothing stands of it."""
    (loft / "hangar.yaml").write_text(": [}\n", "utf-8")
    done = run("render", loft, "--into", tmp_path / "site", "--despite-problems")

    assert done.status == 1
    assert done.err.endswith("Nothing was written.\n")
    assert not (tmp_path / "site").exists()


def test_a_figure_that_is_none_has_no_link_to_its_working(run, loft: Path, tmp_path: Path) -> None:
    """The story says that it can't be said; one that is known leads to its working."""
    (loft / "aircraft/heron/write-up.md").write_text(
        "Before.\n\n@ figure flight_tme\n\n@ figure all_up_mass\n", "utf-8"
    )
    done = run("render", loft, "--into", tmp_path / "site", "--despite-problems")

    assert done.status == 1
    text = (tmp_path / "site/aircraft/heron/write-up.html").read_text("utf-8")
    assert "flight_tme" not in "".join(re.findall('href="[^"]*"', text))
    (link,) = re.findall('href="([^"]*)">Its working', text)
    page, _, anchor = link.partition("#")
    assert f'id="{anchor}"' in (tmp_path / "site/aircraft/heron" / page).read_text("utf-8")
