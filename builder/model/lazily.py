"""Values that are made when they are first asked for, the last few of which are held."""

from collections import OrderedDict
from collections.abc import Callable, Collection, Iterator, Mapping
from typing import Generic, TypeVar

V = TypeVar("V")


class Lazily(Mapping[str, V], Generic[V]):
    """A value for each name, made by a function that gives an equal one whenever it is called."""

    def __init__(self, names: Collection[str], make: Callable[[str], V], held: int) -> None:
        self._names, self._make, self._most = dict.fromkeys(names), make, held
        self._held: OrderedDict[str, V] = OrderedDict()

    def hold(self, name: str, value: V) -> V:
        """Takes in a value that was made already."""
        self._held[name] = value
        self._held.move_to_end(name)
        if len(self._held) > self._most:
            self._held.popitem(last=False)
        return value

    def __getitem__(self, name: str) -> V:
        if name not in self._names:
            raise KeyError(name)
        return self.hold(name, self._held[name] if name in self._held else self._make(name))

    def __iter__(self) -> Iterator[str]:
        return iter(self._names)

    def __len__(self) -> int:
        return len(self._names)

    def __contains__(self, name: object) -> bool:
        return name in self._names
