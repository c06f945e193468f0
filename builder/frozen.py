"""Frozen values that are made by the thousand for every build, and what each of them works out
once.

To a type checker `value_class` is `dataclasses.dataclass`: what it marks as frozen is frozen, and
`make test` holds all of the code to that. At run time such a class sets its fields plainly, since a
frozen one sets each through `object.__setattr__`, which took a fifth of a publish. In Python's
development mode (`python -X dev`) they are frozen at run time as well; tests/test_frozen.py
publishes the demo in it.
"""

import dataclasses
import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from dataclasses import dataclass as value_class
    from functools import cached_property as worked_out_once
else:

    def value_class(*, frozen: bool, eq: bool = True, **more: bool):
        """As `dataclass(frozen=True, ...)`: equal by value and hashable, unless `eq` is off."""
        assert frozen
        return dataclasses.dataclass(frozen=sys.flags.dev_mode, eq=eq, unsafe_hash=eq, **more)

    class worked_out_once:
        """As functools.cached_property, without the lock that Python 3.11 takes each time and 3.12
        has dropped.
        """

        def __init__(self, work) -> None:
            self._work, self.__doc__ = work, work.__doc__

        def __set_name__(self, owner: type, name: str) -> None:
            self._name = name

        def __get__(self, instance, owner=None):
            if instance is None:
                return self
            value = instance.__dict__[self._name] = self._work(instance)
            return value


__all__ = ["value_class", "worked_out_once"]
