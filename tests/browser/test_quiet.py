"""Pages that say nothing to the console and ask nobody else for anything."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Page

from .conftest import Looks
from .kinds import KINDS, fullest


@contextmanager
def heard(page: Page, top: str) -> Iterator[list[str]]:
    """What the page says or asks for that it should not."""
    said: list[str] = []
    listeners = {
        "console": lambda message: said.append(f"console: {message.text}"),
        "pageerror": lambda error: said.append(f"error: {error.message}"),
        "requestfailed": lambda request: said.append(f"failed: {request.url}"),
        "request": lambda request: (
            None if request.url.startswith((top, "data:")) else said.append(f"asks {request.url}")
        ),
        "response": lambda got: (
            said.append(f"{got.status} {got.url}") if got.status > 399 else None
        ),
    }
    for event, listener in listeners.items():
        page.on(event, listener)
    yield said
    page.wait_for_load_state()
    for event, listener in listeners.items():
        page.remove_listener(event, listener)


@pytest.mark.parametrize("kind", KINDS)
def test_page_on_a_disk_is_quiet(looks: Looks, owner_site: Path, kind: str) -> None:
    """Opened from a folder: no message, no failed request, none outside the folder."""
    page, top = looks(), owner_site.as_uri()
    page.goto("about:blank")  # what a page before still waited for fails here

    with heard(page, top) as said:
        page.goto(f"{top}/{fullest(owner_site, kind)}")

    assert "" == "\n".join(said)


@pytest.mark.parametrize("kind", KINDS)
def test_page_on_a_server_is_quiet(looks: Looks, owner_site: Path, served: str, kind: str) -> None:
    """Served from a sub-path: no message, no failed request, none outside the sub-path.

    And nothing is refused under the policy that DESIGN.md says a server may send, which silences
    no page. The form as one file is for a phone's storage: it has a policy and a script of its
    own inside.
    """
    policy = "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data:"
    page = looks()
    page.goto("about:blank")
    if kind != "field-form-alone":
        page.route(
            "**/*.html",
            lambda route: route.fulfill(
                response=(got := route.fetch()),
                headers={**got.headers, "Content-Security-Policy": policy},
            ),
        )

    with heard(page, served) as said:
        page.goto(served + fullest(owner_site, kind))
    page.unroute("**/*.html")

    assert "" == "\n".join(said)
