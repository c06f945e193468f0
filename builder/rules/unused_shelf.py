"""Shelf entries that no build uses: a remark about the workspace, not about one build."""

from collections.abc import Mapping

from builder.diagnostics.finding import Finding, Severity
from builder.model.build import Build, ShelfEntry

CODE = "data/unused-on-shelf"


def unused_on_shelf(
    shelf: Mapping[str, ShelfEntry], builds: Mapping[str, Build]
) -> tuple[Finding, ...]:
    """One remark for each part that no build fits, flies on, screws in or names as an alternative."""
    used: set[str] = set()
    for build in builds.values():
        used |= {f.shelf for f in build.parts.values()} | {p.shelf for p in build.packs.values()}
        used |= {s.shelf for s in build.screws}
        used.update(other for p in build.packs.values() for other in p.part.alternatives)
        for f in build.parts.values():
            used.update(f.use.alternatives, f.part.alternatives)
    hint = "Take it off the shelf, or leave it for a build to come."
    unused = [(name, entry.where) for name, entry in shelf.items() if name not in used]
    return tuple(
        Finding(CODE, Severity.REMARK, f"No build uses the part {name!r}.", hint, where)
        for name, where in unused
    )
