"""What the page at the bench needs where there is no network: the file that a browser registers as
a service worker, and a manifest (W3C, Web Application Manifest) by which a device shows the page as
a thing of its own.
"""

import hashlib
import json

_WORKER = 'self.DIGEST = "{}";\nimportScripts("../../assets/away-worker.js");\n'


def away_files(page_address: str, page: bytes, title: str) -> dict[str, bytes]:
    """Both by address, beside the page. A new revision of the page has another digest."""
    folder = page_address.removesuffix("index.html")
    digest = hashlib.sha256(page).hexdigest()[:16]
    manifest = {
        "name": title,
        "short_name": title,
        "start_url": "./",
        "scope": "./",
        "display": "standalone",
    }
    content = json.dumps(manifest, ensure_ascii=False, indent=1) + "\n"
    return {
        f"{folder}away.js": _WORKER.format(digest).encode(),
        f"{folder}away.webmanifest": content.encode(),
    }
