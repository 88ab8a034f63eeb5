"""The pages of a watched hangar over HTTP, to this machine alone.

Only files of the site are known here, by their address; nothing asked for ever names a file of the
disk. A request that was meant for another host (a page elsewhere whose name leads here) is refused.
"""

import ipaddress
import mimetypes
import threading
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any
from urllib.parse import parse_qs, unquote, urlsplit

from markupsafe import Markup

from buildbook.basis.problems import Problem
from buildbook.pages.addresses import address_of
from buildbook.publish.preview.watched import Watched
from buildbook.words.preview import PROBLEMS_BESIDE, PROBLEMS_HEAD, PROBLEMS_ONLY, REFUSED_HOST

STAMP = "-/stamp"
SCRIPT = "-/reload.js"
_LOOPBACK_NAMES = ("localhost", "127.0.0.1", "::1")

# A page asks for another stamp than its own and is answered when there is one; a page that nobody
# looks at waits until it is looked at, for a browser asks one address only so often at a time.
_RELOAD = b"""const shown = document.currentScript.dataset.stamp;
const wait = after => new Promise(done => setTimeout(done, after));
const looked_at = () => !document.hidden || new Promise(done =>
  document.addEventListener("visibilitychange", done, {once: true}));
(async () => {
  for (;;) {
    try {
      await looked_at();
      const now = await (await fetch("/-/stamp?not=" + shown, {cache: "no-store"})).text();
      if (now !== shown) return location.reload();
    } catch { await wait(1000); /* the preview has ended */ }
  }
})();
"""
_LOOK_S = 0.1
_SETTLE_S = 0.03  # an editor may write a file in more than one go
_QUIET_LOOKS = 8  # so long nothing changed and no page was asked for by the one that waits
_LOOKS = 200  # then the page asks again: a browser that has gone away is noticed so


def is_loopback(address: str) -> bool:
    """Whether an address reaches this machine only."""
    try:
        return address == "localhost" or ipaddress.ip_address(address).is_loopback
    except ValueError:
        return False


class PreviewServer(ThreadingHTTPServer):
    """Serves one watched hangar; requests wait for each other, for one may read the records."""

    daemon_threads = True

    def __init__(self, address: tuple[str, int], watched: Watched) -> None:
        super().__init__(address, _Handler)
        self.watched = watched
        self.turn = threading.Lock()
        self.ending = threading.Event()

    @property
    def url(self) -> str:
        """Where a browser finds it."""
        host, port = self.server_address[:2]
        return f"http://{host!s}:{port}/"

    def server_close(self) -> None:
        """End, and let go whoever waits for a change."""
        self.ending.set()
        super().server_close()

    def changed_from(self, stamp: str) -> str:
        """The stamp of the disk once it is another and stays so; after a while the same."""
        now = self.watched.stamp_now()
        for look in range(_LOOKS):
            if now != stamp or self.ending.wait(_LOOK_S):
                break
            if look == _QUIET_LOOKS:
                with self.turn:
                    self.watched.rest()
            now = self.watched.stamp_now()
        while now != stamp and not self.ending.wait(_SETTLE_S):
            before, now = now, self.watched.stamp_now()
            if before == now:
                break
        return now

    def handle_error(self, request: Any, client_address: Any) -> None:
        """A browser that goes away is no fault worth a traceback."""


class _Handler(BaseHTTPRequestHandler):
    server: PreviewServer
    protocol_version = "HTTP/1.1"
    server_version = "buildbook"
    sys_version = ""
    timeout = 20

    def do_GET(self) -> None:
        """A page, a file, or the stamp of what is shown."""
        if not self._is_meant():
            self._send(HTTPStatus.MISDIRECTED_REQUEST, REFUSED_HOST.encode(), "text/plain")
            return
        address = unquote(urlsplit(self.path).path).removeprefix("/")
        if address.endswith("/") or not address:
            address += "index.html"
        if address == SCRIPT:
            self._send(HTTPStatus.OK, _RELOAD, "text/javascript")
            return
        asked = parse_qs(urlsplit(self.path).query).get("not")
        if address == STAMP and asked:
            self._send(HTTPStatus.OK, self.server.changed_from(asked[0]).encode(), "text/plain")
            return
        with self.server.turn:
            stamp = self.server.watched.renew()
            problems = self.server.watched.problems
            found = None if address == STAMP else self.server.watched.page(address)
            lost = None
            if found is None and address != STAMP:
                lost = self.server.watched.page(address_of("not-found"))
        if address == STAMP:
            self._send(HTTPStatus.OK, stamp.encode(), "text/plain")
        elif found is not None:
            kind = mimetypes.guess_type(address)[0] or "text/plain"
            data = with_problems(found, problems, stamp) if kind == "text/html" else found
            self._send(HTTPStatus.OK, data, kind)
        elif lost is None and problems:
            self._send(HTTPStatus.OK, problems_alone(problems, stamp), "text/html")
        else:
            data = with_problems(lost or b"", problems, stamp)
            self._send(HTTPStatus.NOT_FOUND, data, "text/html")

    do_HEAD = do_GET

    def _is_meant(self) -> bool:
        """Whether the request names this machine by an address of its own."""
        host = self.headers.get("Host", "")
        try:
            named = urlsplit(f"//{host}").hostname or ""
            port = urlsplit(f"//{host}").port
        except ValueError:
            return False
        here = str(self.connection.getsockname()[0])
        own = (*_LOOPBACK_NAMES, here) if is_loopback(here) else (here,)
        return named in own and port in (None, self.server.server_address[1])

    def _send(self, status: HTTPStatus, data: bytes, kind: str) -> None:
        self.send_response(status)
        text = kind.startswith("text/") or kind.endswith(("json", "xml"))
        self.send_header("Content-Type", f"{kind}; charset=utf-8" if text else kind)
        self.send_header("Content-Length", str(len(data)))
        self.send_header("Cache-Control", "no-store")
        self.send_header("X-Content-Type-Options", "nosniff")
        self.send_header("Cross-Origin-Resource-Policy", "same-origin")
        self.send_header("X-Frame-Options", "DENY")
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(data)

    def log_message(self, *_words: object) -> None:
        """The terminal stays for what matters."""


def _script(stamp: str) -> Markup:
    return Markup('<script src="/{}" data-stamp="{}"></script>').format(SCRIPT, stamp)


def _listed(problems: tuple[Problem, ...]) -> Markup:
    rows = Markup("").join(
        Markup("<li><p>{} <code>{}</code></p>{}</li>").format(
            problem.reason,
            str(problem.place or ""),
            Markup("<p class=soft>{}</p>").format(problem.hint) if problem.hint else "",
        )
        for problem in problems
    )
    return Markup("<ul class=problems>{}</ul>").format(rows)


def with_problems(page: bytes, problems: tuple[Problem, ...], stamp: str) -> bytes:
    """A page that knows when it is old, with what is wrong in the records beside it."""
    beside = Markup("")
    if problems:
        beside = Markup(
            '<aside class="caution preview" aria-label="{0}"><p><strong>{0}.</strong> {1}</p>{2}'
            "</aside>"
        ).format(PROBLEMS_HEAD, PROBLEMS_BESIDE, _listed(problems))
    head, opened, rest = page.partition(b"<main")
    if not opened:
        return page + str(beside + _script(stamp)).encode()
    body, closed, after = rest.rpartition(b"</body>")
    return b"".join(
        (head, str(beside).encode(), opened, body, str(_script(stamp)).encode(), closed, after)
    )


def problems_alone(problems: tuple[Problem, ...], stamp: str) -> bytes:
    """What is wrong, where no state of the records was good yet."""
    return str(
        Markup(
            '<!doctype html><html lang="en"><head><meta charset="utf-8">'
            '<meta name="viewport" content="width=device-width"><title>{0}</title></head>'
            "<body><main><h1>{0}</h1><p>{1}</p>{2}</main>{3}</body></html>"
        ).format(PROBLEMS_HEAD, PROBLEMS_ONLY, _listed(problems), _script(stamp))
    ).encode()
