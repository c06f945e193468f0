"""Something private is about to be published.

Checks: every text of the build, and of every part that it uses. It looks for the secret of a radio
link, a password, a serial or operator number, a home address and exact co-ordinates.
Why: who knows the secret of the link can take the aircraft over; the rest leads a thief to the door.
Example: note 'link secret: otter holt'.
Mend: take it out of the source; a sheet does not need it. What was published once has to be
changed, too.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.data._private_words import private_in
from builder.rules.rule import Case, Found, Judged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = None
_HINT = "Take it out: a sheet does not need it."


def check(case: Case) -> Iterator[Outcome]:
    """The build's own texts, then those of its parts."""
    build = case.build
    found = False
    for path, what in private_in(build.tree):
        found = True
        yield Found(f"This would publish {what}.", _HINT, build.where(*path))
    entries = {f.shelf: (f.part, f.shelf_where) for f in build.parts.values()}
    entries |= {p.shelf: (p.part, p.shelf_where) for p in build.packs.values()}
    for shelf, (part, where) in entries.items():
        texts = {name: value for name, value in part if isinstance(value, str)}
        for path, what in private_in(texts):
            found = True
            yield Found(f"The part {shelf} would publish {what}.", _HINT, where.at(*path))
    if not found:
        yield Judged()
