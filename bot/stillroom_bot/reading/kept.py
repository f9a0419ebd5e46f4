"""What is worked out when it is first asked for, and then kept with its object."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Generic, TypeVar, overload

S = TypeVar("S")
T = TypeVar("T")


class kept(Generic[S, T]):
    """The library's ``cached_property`` without its lock: a message is read by one thread, and there are many."""

    def __init__(self, make: Callable[[S], T]):
        self.make, self.name, self.__doc__ = make, make.__name__, make.__doc__

    @overload
    def __get__(self, of: None, owner: type[S]) -> kept[S, T]: ...

    @overload
    def __get__(self, of: S, owner: Any = None) -> T: ...

    def __get__(self, of: S | None, owner: Any = None) -> kept[S, T] | T:
        if of is None:
            return self
        value = of.__dict__[self.name] = self.make(of)
        return value
