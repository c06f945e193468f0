"""The last few of many values, by name: what is used again soon is held, what is not is let go."""

from collections import OrderedDict
from typing import Generic, TypeVar

_V = TypeVar("_V")


class LastFew(Generic[_V]):
    """Holds so many values; one that is taken in or looked at counts as the newest."""

    def __init__(self, most: int) -> None:
        self._most = most
        self._held: OrderedDict[str, _V] = OrderedDict()

    def hold(self, name: str, value: _V) -> _V:
        """Takes a value in; the oldest goes where there are too many."""
        self._held[name] = value
        self._held.move_to_end(name)
        if len(self._held) > self._most:
            self._held.popitem(last=False)
        return value

    def get(self, name: str) -> _V | None:
        """A value that is held still; None for any other."""
        if name in self._held:
            self._held.move_to_end(name)
        return self._held.get(name)
