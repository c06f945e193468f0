"""What cannot be of batteries that are joined: too many cells, readings for others than there are."""

from collections.abc import Iterator

from builder.diagnostics.where import Where
from builder.model.build import Build, FittedPack

_MOST_CELLS = 14  # as SeriesCells of bounds_of_circuits.py, of one battery
Problem = tuple[str, str, Where, Where]  # what is wrong, how to mend it, and both places


def in_joined(build: Build) -> Iterator[Problem]:
    """What cannot be together in batteries that are joined."""
    for pack in build.packs.values():
        yield from _cells(pack)
        yield from _counts(pack)


def _cells(pack: FittedPack) -> Iterator[Problem]:
    one, whole = pack.part.cells, pack.cells
    if one is None or whole is None or whole.high <= _MOST_CELLS:
        return
    problem = (
        f"{pack.use.series} batteries of {one.label} in series are {whole.high} cells; such aircraft"
        f" fly on {_MOST_CELLS} at most."
    )
    hint = "Count the batteries again: `parallel` is for those that stand side by side."
    yield problem, hint, pack.where.at("series"), pack.shelf_where.at("cells")


def _counts(pack: FittedPack) -> Iterator[Problem]:
    read, others, joined = len(pack.use.each_volts), len(pack.use.beside), pack.joined
    at = pack.where
    if read and read != joined:
        problem = f"Here stand volts of {read} batteries, and {joined} of {pack.key!r} are joined."
        hint = (
            "Write the volts of each, or none; say in `series` and `parallel` how many there are."
        )
        yield problem, hint, at.at("each_volts"), at
    if others and others >= joined:
        problem = f"{others} of {joined} batteries of {pack.key!r} are of another kind."
        hint = "Name those in `beside` that stand beside one of `use`, and count all in `series` and `parallel`."
        yield problem, hint, at.at("beside"), at
