"""What stands many times on a page of a screen is drawn once and shown again. Never for paper: its
printer shows nothing there.
"""

from markupsafe import Markup

# A solid triangle with an exclamation mark cut out of it; drawn here, so that it needs no font and
# no background.
TRIANGLE = '<path d="M12 .5l11.6 21H.4ZM10.4 7.4l.6 7h2l.6-7ZM10.6 15.8v2.9h2.8v-2.9Z"/>'
_BOX = ' viewBox="0 0 24 22"'
ALERT = f"<svg class=alert{_BOX} aria-hidden=true>{TRIANGLE}</svg>"
_AGAIN = "<svg class=alert aria-hidden=true><use href=#alert /></svg>"
_FIRST = _AGAIN.replace("<use", f"<symbol id=alert{_BOX}>{TRIANGLE}</symbol><use")


def drawn_once(body: Markup) -> Markup:
    """The same page with its safety alert symbol drawn by the first that needs it."""
    before, first, after = str(body).partition(ALERT)
    if ALERT not in after:
        return body
    return Markup(before + _FIRST + after.replace(first, _AGAIN))
