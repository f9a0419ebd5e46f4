"""A comparison of amounts that knows units."""

from __future__ import annotations

from functools import cache

from ..errors import UnitError
from ..units import Units


@cache
def _own() -> Units:
    return Units()


def assert_same(value: float, unit: str, want: float, want_unit: str, rel: float = 1e-9,
                units: Units | None = None) -> None:
    """Assert that two amounts are the same to ``rel`` of the larger, each in a unit of its own.

    ``units`` are those of a kernel with plugins; without it the kernel's own will do.  Raises AssertionError,
    with both amounts in the wanted unit; for two dimensions or two kinds of percent too.
    """
    table = units or _own()
    try:
        here, there = table[unit], table[want_unit]
    except UnitError as e:
        raise AssertionError(str(e)) from None
    if here.dimension != there.dimension or {here.kind, there.kind} == {"ww", "vv"}:
        raise AssertionError(f"{value:g} {unit} and {want:g} {want_unit} measure different things")
    a, b = here.to_base(value), there.to_base(want)
    if not abs(a - b) <= rel * max(abs(a), abs(b)):
        raise AssertionError(f"{there.from_base(a):.12g} {want_unit} is not {want:.12g} {want_unit} (to {rel:g})")
