"""The preview: pages when they are asked for, old ones kept beside problems, nobody else let in."""

import http.client
import io
import os
import re
import shutil
import signal
import subprocess
import sys
import threading
from pathlib import Path

import jinja2
import pytest
from PIL import Image

from buildbook.basis.days import parse_day
from buildbook.commands.main import main
from buildbook.pages.theme import theme_folders
from buildbook.pictures.clean import clean
from buildbook.publish.preview import watched
from buildbook.publish.preview.server import PreviewServer, is_loopback
from buildbook.publish.preview.watched import Watched
from buildbook.records.reading import interpret

AIRCRAFT = "aircraft: Tern\nkind: multirotor\nlayout: quad-x\nstatus: building\n"
LOG = "- on: 2026-02-01\n  note: First cut\n"


@pytest.fixture
def hangar(tmp_path):
    """One aircraft with one note."""
    folder = tmp_path / "hangar"
    (folder / "aircraft/tern").mkdir(parents=True)
    (folder / "hangar.yaml").write_text("hangar: Shed\n")
    (folder / "aircraft/tern/aircraft.yaml").write_text(AIRCRAFT)
    (folder / "aircraft/tern/logbook.yaml").write_text(LOG)
    return folder


@pytest.fixture
def server(hangar):
    """A preview of it at a free port."""
    day = parse_day("2026-03-01")[0]
    watched = Watched(hangar, theme_folders(None), "owner", None, lambda: day)
    with PreviewServer(("127.0.0.1", 0), watched) as made:
        thread = threading.Thread(target=made.serve_forever, args=(0.02,), daemon=True)
        thread.start()
        yield made
        made.shutdown()


def ask(server, path, method="GET", **headers):
    """Status and text of an answer."""
    connection = http.client.HTTPConnection("127.0.0.1", server.server_address[1], timeout=20)
    connection.request(method, path, headers=headers)
    answer = connection.getresponse()
    text = answer.read().decode()
    connection.close()
    return answer.status, text


def test_a_page_is_made_when_it_is_asked_for(server):
    """The front page, a page below it, the stylesheet; an address of no page is not found."""
    assert (200, True) == (ask(server, "/")[0], "Tern" in ask(server, "/")[1])
    assert "First cut" in ask(server, "/aircraft/tern/logbook.html")[1]
    assert 200 == ask(server, "/style.css")[0]
    assert 404 == ask(server, "/aircraft/none.html")[0]


def test_a_change_is_seen_at_once_and_its_stamp_differs(server, hangar):
    """The page that a browser holds asks for the stamp, and loads again when it is another."""
    before = ask(server, "/-/stamp")[1]
    log = hangar / "aircraft/tern/logbook.yaml"
    log.write_text(LOG + "- on: 2026-02-02\n  note: Second cut\n")
    after = ask(server, "/-/stamp")[1]

    assert before != after == ask(server, "/-/stamp")[1]
    page = ask(server, "/aircraft/tern/logbook.html")[1]
    assert ("Second cut" in page, f'data-stamp="{after}"' in page) == (True, True)


def same_as_fresh(watched, folder, day, pages):
    """Whether pages are, byte for byte, those of a preview that has just begun."""
    fresh = Watched(folder, theme_folders(None), "owner", None, lambda: day)
    fresh.renew()
    watched.renew()
    return [page for page in pages if watched.page(page) != fresh.page(page)] == []


def test_what_stands_as_before_is_told_as_in_a_fresh_reading(tmp_path):
    """A grounding defect in each logbook of the demo, one after another, and a charge of a pack."""
    folder = tmp_path / "hangar"
    shutil.copytree(Path(__file__).parents[2] / "content", folder)
    day = parse_day("2026-06-01")[0]
    watched = Watched(folder, theme_folders(None), "owner", None, lambda: day)
    watched.renew()
    logs = sorted(folder.glob("aircraft/*/logbook.yaml"))
    pages = ["due.html", *(f"aircraft/{log.parent.name}/index.html" for log in logs)]
    written = [(log, "- {on: 2026-05-20, defect: loose, severity: grounds}\n") for log in logs]
    for store in sorted(folder.glob("stores/*.yaml")):
        pack = re.search(r"charge: ([\w-]+)", store.read_text())
        written += [(store, f"- {{on: 2026-05-20, charge: {pack[1]}}}\n")] if pack else []
    for log, entry in written:
        log.write_text(log.read_text() + entry)

        assert same_as_fresh(watched, folder, day, pages)
        assert () == watched.problems
    assert len(written) > 2


def test_an_aircraft_on_the_memory_of_another_is_told_what_is_written_of_that(hangar):
    """They share no part; the row of one goes when the other is retired."""
    radio = "status: flying\nradio: {memory: 3}\n"
    for slug in ("tern", "sedge"):
        home = hangar / "aircraft" / slug
        home.mkdir(exist_ok=True)
        (home / "aircraft.yaml").write_text(AIRCRAFT.replace("status: building\n", radio))
        (home / "logbook.yaml").write_text(LOG)
    day = parse_day("2026-03-01")[0]
    watched = Watched(hangar, theme_folders(None), "owner", None, lambda: day)
    watched.renew()
    before = watched.page("due.html")
    log = hangar / "aircraft/sedge/logbook.yaml"
    log.write_text(LOG + "- {on: 2026-02-02, alteration: put away, status: retired}\n")

    assert same_as_fresh(watched, hangar, day, ["due.html", "aircraft/tern/index.html"])
    assert (True, False) == (b"memory" in before, b"memory" in watched.page("due.html"))


EDITS = {
    "parts/items/packs.yaml": (b"mass: 213 g", b"mass: 231 g"),
    "parts/specs/propellers.yaml": (b"mass: 11.6 g", b"mass: 14.2 g"),
    "hangar.yaml": (b"reserve: 20 %", b"reserve: 25 %"),
    "aircraft/burdock/write-up.md": (b"\n\n", b"\n\nOne thing more.\n\n"),
    "aircraft/burdock/aircraft.yaml": (b"diagonal: 430", b"diagonal: 434"),
}


@pytest.mark.parametrize("file", EDITS)
def test_what_is_no_logbook_is_read_anew_alone(tmp_path, monkeypatch, file):
    """The logs are not read again; the pages are those of a preview that has just begun."""
    folder = tmp_path / "hangar"
    shutil.copytree(Path(__file__).parents[2] / "content", folder)
    day = parse_day("2026-06-01")[0]
    watched = Watched(folder, theme_folders(None), "owner", None, lambda: day)
    watched.renew()
    text = (folder / file).read_bytes()
    assert EDITS[file][0] in text
    (folder / file).write_bytes(text.replace(*EDITS[file], 1))
    logs = []
    monkeypatch.setattr(interpret._Reader, "read_logs", logs.append)
    watched.renew()
    monkeypatch.undo()

    assert [] == logs
    pages = ["due.html", "aircraft/burdock/index.html", "aircraft/burdock/write-up.html"]
    assert same_as_fresh(watched, folder, day, [*pages, "stock.html", "index.html"])


def test_a_log_that_comes_or_goes_is_read_with_the_rest(hangar):
    """So is one beside another file; a log that was wrong is read again too."""
    day = parse_day("2026-03-01")[0]
    watched = Watched(hangar, theme_folders(None), "owner", None, lambda: day)
    watched.renew()
    log, aircraft = (hangar / "aircraft/tern" / name for name in ("logbook.yaml", "aircraft.yaml"))
    told = []
    for text in (None, LOG, LOG.replace("note", "nte"), LOG + LOG):
        log.write_text(text) if text else log.unlink()
        aircraft.write_text(AIRCRAFT + f"# {len(told)}\n")
        watched.renew()
        told.append((len(watched.problems), watched.page("aircraft/tern/logbook.html") or b""))

    assert [0, 0, 1, 0] == [count for count, _ in told]
    assert [0, 1, 1, 2] == [page.count(b">First cut") for _, page in told]
    assert same_as_fresh(watched, hangar, day, ["aircraft/tern/logbook.html", "index.html"])


def test_a_photo_is_scaled_once(hangar, monkeypatch):
    """Not again at each entry; another picture under its name is."""
    photo, home = io.BytesIO(), hangar / "aircraft/tern"
    Image.new("RGB", (40, 30), "navy").save(photo, "PNG")
    (home / "photos").mkdir()
    (home / "photos/arm.png").write_bytes(photo.getvalue())
    (home / "write-up.md").write_text('# Tern\n\n@ photo arm.png "The arm"\n')
    scaled = []
    monkeypatch.setattr(watched, "clean", lambda data: (scaled.append(data), clean(data))[1])
    day = parse_day("2026-03-01")[0]
    followed = Watched(hangar, theme_folders(None), "owner", None, lambda: day)
    followed.renew()
    (home / "logbook.yaml").write_text(LOG + "- {on: 2026-02-02, note: More}\n")
    followed.renew()

    assert ((), 1) == (followed.problems, len(scaled))
    other = io.BytesIO()
    Image.new("RGB", (40, 30), "red").save(other, "PNG")
    (home / "photos/arm.png").write_bytes(other.getvalue())
    followed.renew()
    assert [photo.getvalue(), other.getvalue()] == scaled


def test_a_question_for_another_stamp_is_answered_when_there_is_one(server, hangar):
    """At once where the page is old; else once a file changes, and others are served meanwhile."""
    first = ask(server, "/-/stamp")[1]
    answers = []
    waiting = threading.Thread(
        target=lambda: answers.append(ask(server, f"/-/stamp?not={first}")[1])
    )
    waiting.start()
    assert 200 == ask(server, "/")[0]
    assert [] == answers
    (hangar / "aircraft/tern/logbook.yaml").write_text(LOG + "- {on: 2026-02-02, note: More}\n")
    waiting.join(20)

    assert [ask(server, "/-/stamp")[1]] == answers
    assert answers[0] != first
    assert answers[0] == ask(server, f"/-/stamp?not={first}")[1]


def test_who_waits_is_let_go_when_the_preview_ends(server):
    """And told the stamp that it knows."""
    stamp = ask(server, "/-/stamp")[1]
    answers = []
    waiting = threading.Thread(target=lambda: answers.append(server.changed_from(stamp)))
    waiting.start()
    server.ending.set()
    waiting.join(20)

    assert [stamp] == answers


def test_a_change_of_the_theme_reads_no_records(hangar, tmp_path, monkeypatch):
    """What was wrong in them still stands beside the page."""
    templates = tmp_path / "mine/templates"
    templates.mkdir(parents=True)
    day = parse_day("2026-03-01")[0]
    watched = Watched(hangar, theme_folders(str(tmp_path / "mine")), "owner", None, lambda: day)
    watched.renew()
    (hangar / "aircraft/tern/logbook.yaml").write_text(LOG + "- on: 2026-02-02\n  nte: More\n")
    watched.renew()
    found = watched.problems
    opened = []
    monkeypatch.setattr(Watched, "_opened", opened.append)
    (templates / "logbook.html.j2").write_text("<title>Mine</title>")
    watched.renew()

    assert ([], 1, found) == (opened, len(found), watched.problems)
    assert b"<title>Mine</title>" == watched.page("aircraft/tern/logbook.html")


def test_templates_are_compiled_again_only_after_a_change_of_the_theme(
    hangar, tmp_path, monkeypatch
):
    """A new entry shows at once without them; a new template shows too."""
    templates = tmp_path / "mine/templates"
    templates.mkdir(parents=True)
    (templates / "notes.html.j2").write_text("")
    day = parse_day("2026-03-01")[0]
    watched = Watched(hangar, theme_folders(str(tmp_path / "mine")), "owner", None, lambda: day)
    compiled = []
    compiling = jinja2.Environment.compile
    monkeypatch.setattr(
        jinja2.Environment,
        "compile",
        lambda self, source, name=None, *more, **named: (
            compiled.append(name),
            compiling(self, source, name, *more, **named),
        )[1],
    )
    watched.renew()
    watched.page("aircraft/tern/logbook.html")
    first = len(compiled)
    (hangar / "aircraft/tern/logbook.yaml").write_text(LOG + "- {on: 2026-02-02, note: Second}\n")
    watched.renew()

    assert b"Second" in watched.page("aircraft/tern/logbook.html")
    assert 0 < first == len(compiled)
    (templates / "logbook.html.j2").write_text("<title>Mine</title>")
    watched.renew()

    assert b"<title>Mine</title>" == watched.page("aircraft/tern/logbook.html")


def test_the_last_good_page_stays_and_problems_stand_beside_it(server, hangar):
    """With file, line and hint; mended, they are gone."""
    ask(server, "/")
    log = hangar / "aircraft/tern/logbook.yaml"
    log.write_text(LOG + "- on: 2026-02-02\n  nte: <b>Second cut\n")
    page = ask(server, "/aircraft/tern/logbook.html")[1]

    assert "First cut" in page
    assert "<code>aircraft/tern/logbook.yaml:" in page
    assert "Problems in the records" in page
    assert "<b>Second" not in page
    log.write_text(LOG)
    assert "Problems in the records" not in ask(server, "/aircraft/tern/logbook.html")[1]


def test_without_any_good_state_the_problems_stand_alone(server, hangar):
    """From the first request on; the page comes as soon as they are mended."""
    (hangar / "hangar.yaml").write_text("hangr: Shed\n")
    status, page = ask(server, "/")

    assert (200, True) == (status, "hangar.yaml:1" in page)
    (hangar / "hangar.yaml").write_text("hangar: Shed\n")
    assert "Tern" in ask(server, "/")[1]


@pytest.mark.parametrize(
    "host", ["evil.example", "evil.example:80", "127.0.0.1:1", "", "[::1", "a b"]
)
def test_a_foreign_host_is_refused(server, host):
    """A page elsewhere whose name leads here reads nothing."""
    status, text = ask(server, "/", Host=host)

    assert (421, "This preview answers to the address of this machine only.\n") == (status, text)


@pytest.mark.parametrize(
    "path",
    [
        "/../hangar.yaml",
        "/%2e%2e/hangar.yaml",
        "/hangar.yaml",
        "//etc/passwd",
        "/aircraft/tern/logbook.yaml",
    ],
)
def test_no_file_of_the_disk_can_be_asked_for(server, path):
    """Only addresses of pages are known."""
    assert 404 == ask(server, path)[0]


def test_only_reading_is_answered(server):
    """Nothing can be sent, and a HEAD has no body."""
    assert 501 == ask(server, "/", method="POST")[0]
    assert (200, "") == ask(server, "/", method="HEAD")


def test_loopback_is_known():
    """Names and addresses of this machine, in both families."""
    told = {name: is_loopback(name) for name in ("127.0.0.1", "::1", "localhost", "127.9.9.9")}
    assert {True} == set(told.values())
    assert [False] * 3 == [is_loopback(name) for name in ("0.0.0.0", "192.168.1.4", "shed.example")]


def test_an_address_that_others_reach_must_be_meant(hangar, capsys):
    """Refused in one sentence that says how to mean it."""
    assert 2 == main(["preview", str(hangar), "--address", "0.0.0.0", "--port", "0"])
    assert (
        "buildbook preview: --address 0.0.0.0 can be reached by others, who would see all records;"
        " if you mean it, add --let-others-look\n"
    ) == capsys.readouterr().err


def test_a_folder_that_is_no_hangar_is_wrong_use(tmp_path, capsys):
    """As for every command."""
    assert 2 == main(["preview", str(tmp_path)])
    assert f"buildbook preview: no hangar.yaml in {tmp_path}" in capsys.readouterr().err


@pytest.mark.usefixtures("signals_are_heard")
def test_ctrl_c_ends_it_cleanly(hangar):
    """Exit status 0, one line, no traceback."""
    words = [sys.executable, "-m", "buildbook", "preview", str(hangar), "--port", "0"]
    running = subprocess.Popen(
        words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env={**os.environ}
    )
    first = running.stdout.readline()
    running.send_signal(signal.SIGINT)
    rest, faults = running.communicate(timeout=20)

    assert first.startswith(f"Preview of {hangar}: http://127.0.0.1:")
    assert ("Preview ended.\n", "", 0) == (rest, faults, running.returncode)


@pytest.mark.browser
@pytest.mark.skipif(shutil.which("chromium") is None, reason="needs Chromium")
def test_an_open_page_follows_the_records_in_a_browser(server, hangar):
    """With a problem it shows both; mended it is whole again; the benchmark measures how soon."""
    from playwright.sync_api import sync_playwright

    log = hangar / "aircraft/tern/logbook.yaml"
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=shutil.which("chromium"), args=["--no-sandbox", "--disable-gpu"]
        )
        page = browser.new_page()
        page.goto(server.url + "aircraft/tern/logbook.html")
        page.get_by_text("First cut").first.wait_for()
        log.write_text(LOG + "- on: 2026-02-02\n  note: Second cut\n")
        page.get_by_text("Second cut").first.wait_for()
        log.write_text(LOG + "- on: 2026-02-02\n  note: [\n")
        page.locator("aside.preview").wait_for()
        kept = page.get_by_text("Second cut").count()
        log.write_text(LOG)
        page.locator("aside.preview").wait_for(state="detached")
        browser.close()

    assert kept > 0
