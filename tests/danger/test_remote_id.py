"""R50: a remote ID module stands on one registration at a time, and is heard before it flies."""

import io
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path

import pytest
from hangar_on_disk import AIRCRAFT, ITEMS, LOGBOOK, SPECS, Hangar, with_log

from buildbook.commands.main import main

SERIAL = "ZQ77KV90"
NAMES = ("update-registration", "broadcast-check")
FITTED = "- on: 2026-06-19\n  fit: {centre: {remote_id: B-1}}\n"
OUT = "- on: 2026-06-20\n  remove: [B-1]\n"
IN = FITTED.replace("06-19", "06-20")
REGISTERED = "- on: 2026-06-20\n  inspection: update-registration\n"
HEARD = "- on: 2026-06-20\n  inspection: broadcast-check\n"
WHY = "B-1 moved from Sedge to Teal on 20 June 2026"


def hangar(folder: Path, sedge: str = "", teal: str = "") -> Hangar:
    """Two quiet aircraft, the module on Sedge since 19 June, and more entries of each."""
    more = ITEMS
    other = LOGBOOK
    for prefix, most in (("M", 5), ("E", 5), ("R", 4), ("L", 4)):
        more = more.replace(f"{prefix}-01..{prefix}-0{most}", f"{prefix}-01..{prefix}-0{most + 4}")
        for number in range(4, 0, -1):
            other = other.replace(f"{prefix}-0{number}", f"{prefix}-0{number + 4}")
    for tag in ("F", "C", "X", "P"):
        other = other.replace(f"{tag}-01", f"{tag}-02")
    files = with_log(FITTED + sedge)
    files["parts/specs.yaml"] = SPECS + "- {spec: beacon, kind: remote_id, mass: 14 g}\n"
    files["parts/items.yaml"] = (
        more + f"- {{tag: B-1, spec: beacon, acquired: 2026-03-01, serial: {SERIAL}}}\n"
    )
    files["aircraft/teal/aircraft.yaml"] = AIRCRAFT.replace("Sedge", "Teal").replace(
        "memory: 4", "memory: 5"
    )
    files["aircraft/teal/logbook.yaml"] = other + teal
    return Hangar(folder, files)


def open_rows(of: Hangar) -> set[tuple[str, str]]:
    """Aircraft and name of each row of a moved module that is not in order."""
    return {(row["aircraft"], name) for name in NAMES for row in of.rows(name)}


def test_a_module_that_was_only_fitted_asks_for_nothing(tmp_path: Path) -> None:
    """It never was anywhere else; nor has it moved when it comes back to where it was."""
    first = hangar(tmp_path / "first")
    back = hangar(tmp_path / "back", OUT + IN)

    assert "no problems" in first.check
    assert (set(), set()) == (open_rows(first), open_rows(back))
    assert ("nothing open", "nothing open") == (first.state(), back.state())


def test_a_module_that_moved_is_open_on_both_aircraft(tmp_path: Path) -> None:
    """Registration on both, the broadcast where it is now; neither grounds."""
    moved = hangar(tmp_path, OUT, IN)

    assert {
        ("sedge", "update-registration"),
        ("teal", "update-registration"),
        ("teal", "broadcast-check"),
    } == open_rows(moved)
    assert ("due soon", "due soon") == (moved.state("sedge"), moved.state("teal"))
    for slug, names in (("sedge", NAMES[:1]), ("teal", NAMES)):
        for name in names:
            assert [] == moved.silent_commands(name.replace("-", " "), WHY, slug)
            assert [] == moved.silent_pages(name.replace("-", " "), slug)
    assert "broadcast check" not in moved.page("cards/sedge-field.html").lower()


@pytest.mark.parametrize(
    ("sedge", "teal", "expected"),
    [
        (REGISTERED, REGISTERED + HEARD, set()),
        (REGISTERED, "", {("teal", NAMES[0]), ("teal", NAMES[1])}),
        ("", REGISTERED + HEARD, {("sedge", NAMES[0])}),
        (REGISTERED, REGISTERED + HEARD + "  tags: [B-1]\n", set()),
        (REGISTERED, REGISTERED + HEARD + "  tags: [M-05]\n", {("teal", NAMES[1])}),
    ],
    ids=["all", "sedge", "teal", "by its tag", "of another part"],
)
def test_each_is_open_until_it_was_done_there(
    tmp_path: Path, sedge: str, teal: str, expected: set[tuple[str, str]]
) -> None:
    """An entry in the log of one aircraft closes nothing on the other."""
    assert expected == open_rows(hangar(tmp_path, OUT + sedge, IN + teal))


def test_a_broadcast_check_that_failed_grounds(tmp_path: Path) -> None:
    """One row, not two; and it is due again once what was found is cleared."""
    failed = HEARD + "  id: mute\n  result: fail\n  findings: silent\n"
    mute = hangar(tmp_path / "mute", OUT + REGISTERED, IN + REGISTERED + failed)
    cleared = "- on: 2026-06-20\n  cleared: mute\n  how: aerial back on\n"
    again = hangar(tmp_path / "again", OUT + REGISTERED, IN + REGISTERED + failed + cleared)

    assert ["failed"] == [row["state"] for row in mute.rows("broadcast-check")]
    assert "grounded" == mute.state("teal")
    assert ["due"] == [row["state"] for row in again.rows("broadcast-check")]


def test_moved_on_and_back_again(tmp_path: Path) -> None:
    """The newest move counts: what was done before it counts no more."""
    went = OUT + REGISTERED + "- on: 2026-06-20T20:00\n  fit: {centre: {remote_id: B-1}}\n"
    came = IN + REGISTERED + HEARD + "- on: 2026-06-20T19:00\n  remove: [B-1]\n"

    assert {
        ("sedge", "update-registration"),
        ("sedge", "broadcast-check"),
        ("teal", "update-registration"),
    } == open_rows(hangar(tmp_path, went, came))


def test_its_serial_is_never_public(tmp_path: Path) -> None:
    """In no file of the public site."""
    moved = hangar(tmp_path, OUT, IN)
    site = tmp_path / "public"
    with redirect_stdout(io.StringIO()), redirect_stderr(io.StringIO()):
        words = ["render", str(moved.folder), "--into", str(site), "--for", "public"]
        assert 0 == main(words)

    public = {path: path.read_bytes() for path in site.rglob("*") if path.is_file()}
    assert len(public) > 5
    assert [] == [path for path, found in public.items() if SERIAL.encode() in found]
    assert SERIAL in moved.page("items/B-1.html")


@pytest.mark.parametrize(
    ("entry", "said"),
    [
        ("fit: {centre: {remote_id: C-03}}", "'C-03' is a controller, not a remote_id"),
        ("inspection: broadcast-chek", "unknown task 'broadcast-chek'"),
    ],
)
def test_slips_are_told(tmp_path: Path, entry: str, said: str) -> None:
    """As problems, with what may be meant."""
    items = ITEMS.replace("C-01..C-02", "C-01..C-03")
    files = with_log(f"- on: 2026-06-20\n  {entry}\n", **{"parts/items.yaml": items})

    assert said in Hangar(tmp_path, files).check
