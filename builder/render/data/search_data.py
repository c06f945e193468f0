"""find.js: what can be found in a build's pages, as a script, so that it is read from a folder too.

Lines stand by the page that they are on. Each is a digit for its kind (its place in `KINDS`), its
anchor without what anchors of that kind begin with, a blank, and its words.
"""

import json
from collections.abc import Iterable

from builder.pages.site.findable import BEGINS, KINDS, Findable
from builder.render.data.in_script import in_script


def _line(found: Findable, anchor: str) -> str:
    name = anchor.removeprefix(BEGINS.get(found.kind, ""))
    told = "" if found.kind == "contact" else found.text  # its anchor says it
    return f"{KINDS.index(found.kind)}{name} {told}"


def find_js(build: str, title: str, found: Iterable[Findable]) -> bytes:
    """The script."""
    by_page: dict[str, list[str]] = {}
    for each in found:
        page, _, anchor = each.address.partition("#")
        of_build = page.startswith(f"{build}/")
        place = page.removeprefix(f"{build}/") if of_build else f"../{page}"
        by_page.setdefault(place, []).append(_line(each, anchor))
    held = {place: "\n".join(lines) for place, lines in by_page.items()}
    named = json.dumps([build, title], ensure_ascii=False)
    text = f"{named},{json.dumps(held, ensure_ascii=False, separators=(',', ':'))}"
    return f"benchleafFind({in_script(text)});\n".encode()
