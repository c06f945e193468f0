"""What `benchleaf preview` adds to a page: a script that asks for news, and the answer to it as a
classic script.

Both work under the pages' own policy: scripts come from the same place, and nothing else is asked
for.
"""

import json
from pathlib import Path

from builder.render.html.page import template_folder

PREFIX = "-/preview/"  # no build can be called '-'
NEWS = f"{PREFIX}news.js"
_FILES = (f"{PREFIX}preview.js", f"{PREFIX}preview.css")


def preview_files() -> dict[str, bytes]:
    """The bar's script and style by address."""
    folder: Path = template_folder() / "preview"
    return {name: (folder / name.removeprefix(PREFIX)).read_bytes() for name in _FILES}


def marked(page: bytes, mark: str) -> bytes:
    """A page with the preview's script; `mark` is the state that it shows."""
    script, style = (f"/{name}" for name in _FILES)
    added = (
        f'<link rel="stylesheet" href="{style}"><script src="{script}" data-mark="{mark}"'
        " defer></script></head>"
    )
    return page.replace(b"</head>", added.encode(), 1)


def news(page: str, seen: str, head: str, text: str, *, bad: bool) -> bytes:
    """The answer to a page that asked: which state it should show, and what the bar says."""
    record = {"page": page, "seen": seen, "head": head, "text": text, "bad": bad}
    return (
        f"benchleafPreview({json.dumps(record)});\n".encode()
    )  # ASCII: no line separator that scripts trip over
