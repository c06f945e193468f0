"""The page at the bench of one build as a site has it: with assets, worker and manifest; from a file,
or served over loopback.
"""

import functools
import http.server
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from builder.model.site import Site
from builder.pages.bench.at_bench_page import at_bench_page
from builder.pages.sheet_input import SheetInput
from builder.pages.site.site_pages import site_pages
from builder.render.assets import asset_files
from builder.render.data.away_files import away_files
from builder.render.html.page import Renderer, template_texts

KEPT = "This page is kept for where there is no network."


class _Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, format: str, *given: object) -> None:
        """Nothing is said."""


def write_bench_page(folder: Path, sheet: SheetInput, site: Site) -> Path:
    """Writes the page of a sheet over what is there; its path."""
    page = at_bench_page(sheet)
    content = Renderer(template_texts(None)).page(page, site_pages(site))
    files = {page.address: content, **away_files(page.address, content, page.title)}
    if not (folder / "assets").exists():
        files |= asset_files(None)
    for address, data in files.items():
        (folder / address).parent.mkdir(parents=True, exist_ok=True)
        (folder / address).write_bytes(data)
    return folder / page.address


@contextmanager
def served_folder(folder: Path) -> Iterator[str]:
    """Where a folder is served."""
    _Quiet.extensions_map[".webmanifest"] = "application/manifest+json"
    handler = functools.partial(_Quiet, directory=str(folder))
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_port}"
    finally:
        server.shutdown()
        server.server_close()
