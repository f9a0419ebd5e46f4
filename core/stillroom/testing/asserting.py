"""Comparisons of amounts that know units."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from functools import cache
from typing import Any

from ..errors import UnitError
from ..messages import Answer, Value
from ..units import Units

SAID = re.compile(
    r"\s*(?:(?P<name>[a-z_][a-z0-9_ ]*?)\s*[:=]\s*)?(?P<number>-?[\d.]+(?:e-?\d+)?)\s+(?P<unit>\S.*?)\s*\Z")


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


def spelled(unit: str, units: Units) -> str:
    """The name of a unit that is written as such or as people spell it (``ml``, ``%``).

    A spelling of several units stands for the first of them; one of none is given back as it is.
    """
    if unit in units:
        return unit
    return next((u.name for u in units if unit in u.words or unit == u.symbol), unit)


def assert_says(answer: Answer | Mapping[str, Any] | Iterable[Value], expected: str, units: Units | None = None,
                rel: float | None = None) -> None:
    """Assert that an answer says ``"12 gram"``, or ``"leaf: 12 gram; water: 1.5 liter"`` of values by name.

    ``answer`` is an Answer, values, or the JSON answer of a conversation.  Any unit of the right dimension will do.
    Without ``rel`` a value may be off by half a step of the last digit that is written.  An amount without a name is
    compared with the first value.  Raises AssertionError, which names the status where there is no number, and
    ValueError for an expectation that is none.
    """
    values, all_values = _values(answer)
    for part in expected.split(";"):
        said = SAID.match(part)
        if not said:
            raise ValueError(f"{part.strip()!r} is no number with a unit, such as '12 gram' or 'leaf: 12 gram'.")
        name, number, unit = said["name"], said["number"], said["unit"]
        found = values[0] if name is None else _named(all_values, name)
        want = float(number)
        step = 0.5 * 10.0 ** -len(number.partition(".")[2]) if "e" not in number else 0.0
        bound = rel if rel is not None else max(1e-9, 1.02 * step / abs(want) if want else 1.0)
        try:
            assert_same(found[1], found[2], want, spelled(unit, units or _own()), bound, units)
        except AssertionError as e:
            raise AssertionError(f"{found[0]}: {e}") from None


Found = tuple[str, float, str]


def _values(answer: Answer | Mapping[str, Any] | Iterable[Value]) -> tuple[list[Found], list[Found]]:
    if isinstance(answer, Answer):
        status, said = answer.status, answer.reason
        first, rest = list(answer.answer), list(answer.values)
    elif isinstance(answer, Mapping):
        status, said = str(answer["status"]), str(answer.get("text", ""))
        rows = [[(str(r["name"]), float(r["value"]), str(r["unit"])) for r in answer[k]] for k in ("answer", "values")]
        _answered(status, said, rows[0])
        return rows[0], rows[0] + rows[1]
    else:
        status, said, first = "answered", "", list(answer)
        rest = []
    found = [(v.name, v.value, v.unit) for v in first]
    _answered(status, said, found)
    return found, found + [(v.name, v.value, v.unit) for v in rest]


INSTEAD = {"asks": "it asks back", "declined": "it declines", "noted": "it takes a note"}


def _answered(status: str, said: str, found: list[Found]) -> None:
    if status != "answered" or not found:
        raise AssertionError(f"{INSTEAD.get(status, 'it gives no number')} instead of answering: {said}")


def _named(found: list[Found], name: str) -> Found:
    for row in found:
        if row[0].replace("_", " ") == name.replace("_", " "):
            return row
    raise AssertionError(f"there is no {name} among {', '.join(dict.fromkeys(r[0] for r in found))}")
