"""axe-core in a page that is open, with what it says of each colour scheme."""

from typing import Any

from axe_playwright_python.sync_playwright import Axe

# What it found right is not written out, which is half of its time. Colours are all that differs in
# the dark, so that there it judges them alone.
_LIGHT = {"resultTypes": ["violations"]}
_DARK = _LIGHT | {"runOnly": ["color-contrast"]}


def axe_violations(page: Any, scheme: str) -> list[dict[str, Any]]:
    """What axe finds wrong with a page in the `light` or the `dark`."""
    done = Axe().run(page, options=_DARK if scheme == "dark" else _LIGHT)
    found: list[dict[str, Any]] = done.response["violations"]
    return found
