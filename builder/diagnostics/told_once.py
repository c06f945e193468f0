"""One mistake is one message: what a broken part brings with it is not told again for each build."""

from collections.abc import Iterable

from builder.diagnostics.finding import Finding

_BROUGHT = "data/broken-part"
_CHAPTERS = "guide"  # the folder of chapters


def told_once(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings without those that only say again that a part of the shelf cannot be read, where
    its own mistake is among them, and without mistakes of a chapter that variants show as well.
    """
    listed = tuple(findings)
    broken = tuple(filter(None, map(_part_of, listed)))
    first = {_line_of(f): f for f in reversed(listed)}
    return tuple(f for f in listed if not _again(f, broken) and first[_line_of(f)] is f)


def _line_of(finding: Finding) -> tuple[object, ...]:
    """What is said at which line of a chapter; of anything else the finding with its build."""
    where = finding.where
    if where is None or f"/{_CHAPTERS}/" not in where.file:
        return (id(finding),)
    return where, str(finding.message)


def _part_of(finding: Finding) -> str:
    """The part of the shelf that a finding stands at, as messages name it; '' for none."""
    where = finding.where
    if where is None or not where.path:
        return ""
    if not where.file.startswith("shelf/"):
        return ""
    return repr(where.path[0])


def _again(finding: Finding, broken: tuple[str, ...]) -> bool:
    if finding.code != _BROUGHT:
        return False
    return any(name in finding.message for name in broken)
