"""What a server should say with each file: the pages' policy as a header, the kind of each file,
how long it keeps.

The recipes of the documentation say the same, and a test holds them to it; `benchleaf preview`
sends them.
"""

from collections.abc import Mapping
from pathlib import PurePosixPath

from builder.render.html.policy import POLICY

HEADERS: Mapping[str, str] = {
    "Content-Security-Policy": f"{POLICY}; frame-ancestors 'none'",
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "strict-origin-when-cross-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
}
KINDS: Mapping[str, str] = {
    ".html": "text/html; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".csv": "text/csv; charset=utf-8",
    ".txt": "text/plain; charset=utf-8",
    ".xml": "application/xml",
    ".svg": "image/svg+xml",
    ".png": "image/png",
    ".jpg": "image/jpeg",
    ".jpeg": "image/jpeg",
    ".webp": "image/webp",
    ".ico": "image/x-icon",
    ".pdf": "application/pdf",
    ".ttf": "font/ttf",
    ".woff2": "font/woff2",
}


def kind_of(address: str) -> str:
    """The media type of a published file."""
    if address == "feed.xml":
        return "application/atom+xml"
    return KINDS.get(PurePosixPath(address).suffix.casefold(), "application/octet-stream")
