"""find.js: what can be found in a build's pages, as a script, so that it is read from a folder too.

Lines stand by the folder of the page that they are on. Each is a digit for its kind (its place in
`KINDS`), its anchor without what anchors of that kind begin with, `=` for that of the line above,
a blank, and its words. Contacts that follow each other share a line: what their anchors begin with, a blank, and what each ends
with. Parts share one folder, and are named by theirs.
"""

import json
from collections.abc import Iterable

from builder.pages.site.findable import BEGINS, KINDS, Findable
from builder.render.data.in_script import in_script

_INDEX = "index.html"
_AGAIN = "="  # for an anchor: that of the line above


def _place(found: Findable) -> tuple[str, str, str]:
    """The page of a line, and its anchor; of a part the folder of all parts, and its own."""
    if found.kind == "part":
        folder, _, rest = found.address.partition("/")
        return f"{folder}/", "#", rest.removesuffix(f"/{_INDEX}")
    return found.address.partition("#")


def _line(found: Findable, name: str) -> str:
    return f"{KINDS.index(found.kind)}{name} {found.text}"


def _contact(lines: list[str], name: str) -> None:
    """Adds a contact, to the last line where that one begins alike."""
    digit = str(KINDS.index("contact"))
    last = lines[-1] if lines else ""
    begins = last[1:].partition(" ")[0] if last.startswith(digit) else ""
    if begins and name.startswith(begins):
        lines[-1] = f"{last} {name.removeprefix(begins)}"
        return
    first, dash, end = name.partition("-")
    lines.append(f"{digit}{first}{dash} {end}")


def find_js(build: str, title: str, found: Iterable[Findable]) -> bytes:
    """The script."""
    by_page: dict[str, list[str]] = {}
    above: dict[str, str] = {}  # the anchor of the last line of each page
    for each in found:
        page, _, anchor = _place(each)
        of_build = page.startswith(f"{build}/")
        place = page.removeprefix(f"{build}/") if of_build else f"../{page}"
        place = place.removesuffix(_INDEX)
        lines = by_page.setdefault(place, [])
        name = anchor.removeprefix(BEGINS.get(each.kind, ""))
        if each.kind == "contact":
            _contact(lines, name)
        else:
            again = len(name) > 1 and above.get(place) == name
            lines.append(_line(each, _AGAIN if again else name))
        above[place] = name
    held = {place: "\n".join(lines) for place, lines in by_page.items()}
    named = json.dumps([build, title], ensure_ascii=False)
    text = f"{named},{json.dumps(held, ensure_ascii=False, separators=(',', ':'))}"
    return f"benchleafFind({in_script(text)});\n".encode()
