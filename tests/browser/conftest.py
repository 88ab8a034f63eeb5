"""One browser for all tests here, and the demo served from a disk and from a sub-path."""

import os
import shutil
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

from .kinds import visit

FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
    "--force-color-profile=srgb",
]
SUB_PATH = "some/folder/book"


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Everything in this folder opens a browser."""
    for item in items:
        if Path(__file__).parent in item.path.parents:
            item.add_marker(pytest.mark.browser)


def _chromium() -> str:
    found = shutil.which("chromium") or shutil.which("chromium-browser")
    if found is None and os.environ.get("CI"):
        pytest.fail("no Chromium on this machine, and here there must be one")
    if found is None:
        pytest.skip("no Chromium on this machine")
    return found


@pytest.fixture(scope="package")
def browser() -> Iterator[Browser]:
    """Debian's Chromium, without a window."""
    path = _chromium()
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=FLAGS)
        yield browser
        browser.close()


Looks = Callable[..., Page]


@pytest.fixture(scope="package")
def looks(browser: Browser) -> Iterator[Looks]:
    """A page that looks in a given way (colour scheme, scripts on or off), one for each way."""
    pages: dict[str, tuple[BrowserContext, Page]] = {}

    def page(width: int = 1280, height: int = 900, **ways: Any) -> Page:
        key = repr(sorted(ways.items()))
        if key not in pages:
            context = browser.new_context(**ways)
            pages[key] = context, context.new_page()
        found = pages[key][1]
        found.set_viewport_size({"width": width, "height": height})
        return found

    yield page
    for context, _ in pages.values():
        context.close()


@contextmanager
def on_paper(page: Page, path: Path, **ways: Any) -> Iterator[None]:
    """A file as it is printed, in whatever other way it is looked at; afterwards a screen again."""
    page.emulate_media(media="print", **ways)
    try:
        visit(page, path)
        yield
    finally:
        page.emulate_media(media="null", **dict.fromkeys(ways, "null"))


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, *_words: object) -> None:
        """Nothing on the terminal."""

    def copyfile(self, source: Any, outputfile: Any) -> None:
        """A reader who turns the page before it is all there is no fault."""
        with suppress(BrokenPipeError, ConnectionResetError):
            super().copyfile(source, outputfile)


@pytest.fixture(scope="package")
def served(owner_site: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of the owner's copy on a server of this machine, in a sub-path."""
    root = tmp_path_factory.mktemp("served")
    folder = root / SUB_PATH
    folder.parent.mkdir(parents=True)
    folder.symlink_to(owner_site, target_is_directory=True)
    with ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=str(root))) as server:
        thread = threading.Thread(target=server.serve_forever, daemon=True)
        thread.start()
        yield f"http://127.0.0.1:{server.server_port}/{SUB_PATH}/"
        server.shutdown()
        thread.join()
