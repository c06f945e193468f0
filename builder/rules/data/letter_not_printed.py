"""A letter that the fonts of the bench sheet lack.

Checks: every text of the build, of its parts and of the site against the letters of the fonts that
bench sheets are printed in.
Why: on paper an empty box stands in its place, and the page has it only where the reader's own fonts
do.
Example: a part called 小さい枠.
Mend: write it in letters that the fonts have, which are those of Latin and Greek.
Source: the fonts' own tables (OpenType 1.9, cmap)
"""

import unicodedata
from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.diagnostics.where import Where
from builder.rules.data._printed_letters import (
    is_common,
    printed_letters,
    texts_of,
    unprinted_in,
)
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import code_point

SEVERITY = Severity.REMARK
SIGNAL = None
_HINT = "Write it in letters that are printed, those of Latin or Greek, or leave it out."
_MOST = 3  # letters that a message names
_PRINTED_OF_SITE = ("title", "author", "disclosure")


def _texts(case: Case) -> Iterator[tuple[Where, str]]:
    build = case.build
    for path, is_key, text in texts_of(build.tree):
        where = build.where(*path)
        yield Where(where.file, where.path, is_key), text
    entries = {f.shelf: (f.part, f.shelf_where) for f in build.parts.values()}
    entries |= {p.shelf: (p.part, p.shelf_where) for p in build.packs.values()}
    for part, where in entries.values():
        own = {name: value for name, value in part if isinstance(value, str)}
        for path, _, text in texts_of(own):
            yield where.at(*path), text
    for name in _PRINTED_OF_SITE:
        yield Where("site.yaml", (name,)), getattr(build.site, name) or ""


def _named(letter: str) -> str:
    return f"{letter} ({code_point(letter)}, {unicodedata.name(letter, 'no name').lower()})"


def check(case: Case) -> Iterator[Outcome]:
    """Each text once; one finding for a text however many of its letters are lacking."""
    rare = [(where, text) for where, text in _texts(case) if not is_common(text)]
    if rare and not printed_letters():
        yield NotJudged("letters of the fonts of bench sheets unknown: the fonts are not installed")
        return
    found = False
    for where, text in rare:
        lacking = unprinted_in(text)
        if not lacking:
            continue
        found = True
        named = ", ".join([_named(letter) for letter in lacking[:_MOST]])
        more = f" and {len(lacking) - _MOST} more" if len(lacking) > _MOST else ""
        yield Found(f"The bench sheet would print a box for {named}{more}.", _HINT, where)
    if not found:
        yield Judged()
