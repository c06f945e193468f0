"""The preview's server: this machine only, the site only, with the headers that a published site
should have.

A page of somebody else's that is open in the same browser must not read unpublished sheets: a
request that names another host is refused (a name can be made to lead to 127.0.0.1), and no other
origin may load what lies here.
"""

import hashlib
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from threading import Condition
from urllib.parse import parse_qs, unquote, urlsplit

from builder.cli.common import count
from builder.diagnostics.finding import Severity
from builder.diagnostics.show import as_text
from builder.pipeline.preview.preview import Preview
from builder.pipeline.preview.preview_state import State
from builder.render.headers import HEADERS, kind_of
from builder.render.html.preview_marks import NEWS, marked, news, preview_files

LOOPBACK = "127.0.0.1"
_HOLD = 20.0  # seconds for which a question for news is held when there are none


class PreviewServer(ThreadingHTTPServer):
    """Serves a preview; `changed` is called when the sources became others."""

    daemon_threads = True
    block_on_close = False  # a held question must not hold up the end

    def __init__(self, preview: Preview, port: int) -> None:
        super().__init__((LOOPBACK, port), _Handler)
        self.preview = preview
        self.news = Condition()
        self.own = preview_files()

    @property
    def hosts(self) -> tuple[str, ...]:
        """Under which names this server answers."""
        port = self.server_address[1]
        return tuple(f"{name}:{port}" for name in (LOOPBACK, "localhost"))

    @property
    def address(self) -> str:
        """Where the preview is to be seen."""
        return f"http://{LOOPBACK}:{self.server_address[1]}/"

    def changed(self) -> None:
        """Wakes every page that waits for news."""
        with self.news:
            self.news.notify_all()

    def handle_error(self, request: object, client_address: object) -> None:
        """A browser that went away in the middle is nothing to report."""


class _Handler(BaseHTTPRequestHandler):
    server: PreviewServer
    server_version = "benchleaf-preview"
    sys_version = ""
    protocol_version = "HTTP/1.1"
    timeout = 60

    def do_GET(self) -> None:
        """One file of the site, or news for a page."""
        if self.headers.get("Host", "") not in self.server.hosts:
            self._send(
                HTTPStatus.FORBIDDEN, b"This preview answers on this machine only.\n", "text/plain"
            )
            return
        opened = (
            self.headers.get("Sec-Fetch-Mode") == "navigate"
            and self.headers.get("Sec-Fetch-Dest") == "document"
        )
        if self.headers.get("Sec-Fetch-Site", "none") not in ("none", "same-origin") and not opened:
            self._send(
                HTTPStatus.FORBIDDEN, b"This preview answers its own pages only.\n", "text/plain"
            )
            return
        parts = urlsplit(self.path)
        address = unquote(parts.path).removeprefix("/")
        if address == NEWS:
            self._news(parse_qs(parts.query))
        elif address in self.server.own:
            self._send(HTTPStatus.OK, self.server.own[address], kind_of(address))
        else:
            self._page(address)

    do_HEAD = do_GET

    def _page(self, address: str) -> None:
        preview = self.server.preview
        name = f"{address}index.html" if not address or address.endswith("/") else address
        content = preview.file(name)
        if content is None and preview.file(f"{name}/index.html") is not None:
            self._send(
                HTTPStatus.MOVED_PERMANENTLY, b"", "text/plain", {"Location": f"/{address}/"}
            )
            return
        status = HTTPStatus.OK if content is not None else HTTPStatus.NOT_FOUND
        if content is None:
            content, name = preview.missing(), "404.html"
        if name.endswith(".html"):
            content = marked(content, preview.state(_address_of(address)).page)
        self._send(status, content, kind_of(name))

    def _news(self, query: dict[str, list[str]]) -> None:
        address = _address_of(query.get("page", ["/"])[0].removeprefix("/"))
        own, seen = query.get("own", [""])[0], query.get("seen", [""])[0]
        turn = self.server.preview.sources.turn
        state, text, mark = self._told(address)
        if (state.page, mark) == (own, seen):
            with self.server.news:
                self.server.news.wait_for(lambda: self.server.preview.sources.turn != turn, _HOLD)
            state, text, mark = self._told(address)
        answer = news(state.page, mark, _head(state), text, bad=bool(state.stops))
        self._send(HTTPStatus.OK, answer, kind_of(NEWS))

    def _told(self, address: str) -> tuple[State, str, str]:
        state, loaded = self.server.preview.state(address), self.server.preview.sources.loaded
        said = [as_text(f, loaded) for f in state.findings]
        said += [f"benchleaf: an error inside Benchleaf while {e}" for e in state.errors]
        text = "\n".join(dict.fromkeys(said))  # a mistake that a variant inherits is said once
        return state, text, hashlib.sha256(text.encode()).hexdigest()[:16]

    def _send(
        self, status: HTTPStatus, content: bytes, kind: str, more: dict[str, str] | None = None
    ) -> None:
        mark = f'"{hashlib.sha256(content).hexdigest()[:32]}"'
        same = status == HTTPStatus.OK and self.headers.get("If-None-Match") == mark
        self.send_response(HTTPStatus.NOT_MODIFIED if same else status)
        fixed = {
            "ETag": mark,
            "Cache-Control": "no-cache",
            "Cross-Origin-Resource-Policy": "same-origin",
        }
        for name, value in {**HEADERS, **fixed, **(more or {})}.items():
            self.send_header(name, value)
        if not same:
            self.send_header("Content-Type", kind)
            self.send_header("Content-Length", str(len(content)))
        self.end_headers()
        if not same and self.command != "HEAD":
            self.wfile.write(content)

    def log_message(self, format: str, *args: object) -> None:
        """The terminal belongs to findings."""


def _address_of(path: str) -> str:
    """The file that a path of the address bar shows."""
    return f"{path}index.html" if not path or path.endswith("/") else path


def _head(state: State) -> str:
    kinds = [(Severity.MISTAKE, "mistake"), (Severity.FAULT, "fault"), (Severity.REMARK, "remark")]
    numbers = [(sum(f.severity == s for f in state.findings), word) for s, word in kinds]
    said = [count(n, word) for n, word in numbers if n]
    if state.errors:
        said.append(count(len(state.errors), "error") + " inside Benchleaf")
    kept = " What cannot be read keeps its last page." if numbers[0][0] or state.errors else ""
    return f"Preview: {', '.join(said) or 'nothing found'}.{kept}"
