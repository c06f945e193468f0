"""What a log says was replaced: parts and batteries of the build, a piece of one, or what the shelf
has, for a part that is no longer fitted.
"""

from collections.abc import Collection, Iterator, Sequence

from builder.diagnostics.nearest import did_you_mean
from builder.model.source.build_log import Incident, Maintenance
from builder.model.source.build_source import BuildSource


def _number(source: BuildSource, name: str) -> str:
    """What is wrong with the number of a piece, as in `motor.5` of four; '' where nothing is."""
    key, _, piece = name.partition(".")
    many = source.parts[key].count
    if piece.isdecimal() and len(piece) < 7 and 1 <= int(piece) <= many:
        return ""
    return f"There is no {name}: this build has {many} {key}."


def is_piece(source: BuildSource, name: str) -> bool:
    """Whether a name is a part of the build, or a piece of one as in `motor.3`."""
    key, dot, piece = name.partition(".")
    return key in source.parts and (not dot or (piece.isdecimal() and not _number(source, name)))


def unknown_replaced(
    source: BuildSource, shelf: Collection[str]
) -> Iterator[tuple[str, str, tuple[str | int, ...]]]:
    """Each name under `replaced` that is no part: the problem, the hint, and where it stands."""
    known = (*source.parts, *source.packs)
    logs: tuple[tuple[str, Sequence[Incident | Maintenance]], ...] = (
        ("incidents", source.incidents),
        ("maintenance", source.maintenance),
    )
    for log, lines in logs:
        for i, line in enumerate(lines):
            for j, name in enumerate(line.replaced):
                key, dot, _ = name.partition(".")
                place = (log, i, "replaced", j)
                if name in known or name in shelf:
                    continue
                if dot and key in source.parts:
                    problem = _number(source, name)
                    if problem:
                        yield problem, f"Write {key}, or {key}.1 for its first piece.", place
                    continue
                hint = f"{did_you_mean(name, known)} A part that is gone has its name of the shelf."
                yield f"This build has no part {name!r} that was replaced.", hint, place
