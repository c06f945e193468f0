"""Values that are made when they are first asked for, the last few of which are held."""

from collections.abc import Callable, Collection, Iterator, Mapping
from typing import Generic, TypeVar

from builder.load.lru_cache import LastFew

_V = TypeVar("_V")


class Lazily(Mapping[str, _V], Generic[_V]):
    """A value for each name, made by a function that gives an equal one whenever it is called."""

    def __init__(self, names: Collection[str], make: Callable[[str], _V], held: int) -> None:
        self._names, self._make = dict.fromkeys(names), make
        self._held: LastFew[_V] = LastFew(held)

    def hold(self, name: str, value: _V) -> _V:
        """Takes in a value that was made already."""
        return self._held.hold(name, value)

    def __getitem__(self, name: str) -> _V:
        if name not in self._names:
            raise KeyError(name)
        held = self._held.get(name)
        return held if held is not None else self.hold(name, self._make(name))

    def __iter__(self) -> Iterator[str]:
        return iter(self._names)

    def __len__(self) -> int:
        return len(self._names)

    def __contains__(self, name: object) -> bool:
        return name in self._names
