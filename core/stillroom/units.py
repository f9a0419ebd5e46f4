"""Units: our own small registry, and the only file that knows pint.

Definitions stand in CSV tables (the kernel's own ``units.csv`` and those that plugins
add); pint reads their ``definition`` column and says what each is worth.  What it says
is kept as plain numbers on the coherent base gram, centimetre (so millilitre), second,
kelvin, currency, mole: after that neither a registry nor a parser is needed, and no
text of a user ever reaches pint.

A unit has a *dimension* (the exponents of the base) and a *kind*, which keeps apart what
pint cannot: a percent by mass is not one by volume, a temperature is not a difference
of temperatures, a count is not a ratio.
"""

from __future__ import annotations

import csv
import hashlib
import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from importlib import resources
from importlib.metadata import version
from pathlib import Path
from typing import Any, TypeAlias

from .errors import NameClash, UnitError
from .files import keep, kept, sum_of

Dimension: TypeAlias = tuple[float, ...]
BASE = ("mass", "length", "time", "temperature", "currency", "substance")
NONE: Dimension = (0.0,) * len(BASE)
PERCENTS = frozenset({"percent", "ww", "vv", "wv"})


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: ``base = value * factor + offset``.

    ``system`` is the family it belongs to, ``state`` what it measures out where that
    matters (liquid, spoon), ``words`` its closed list of spellings, ``note`` what an answer that
    rests on it states.
    """

    name: str
    factor: float
    dimension: Dimension
    offset: float = 0.0
    kind: str = ""
    symbol: str = ""
    system: str = ""
    state: str = ""
    words: tuple[str, ...] = ()
    adjustable: bool = False
    note: str = ""

    @property
    def sized(self) -> bool:
        """False for a measure without a size of its own, such as a splash."""
        return self.factor == self.factor

    def to_base(self, value: float) -> float:
        """A value in this unit as a number on the coherent base."""
        return value * self.factor + self.offset

    def from_base(self, base: float) -> float:
        """A number on the coherent base as a value in this unit."""
        return (base - self.offset) / self.factor

    @property
    def json_name(self) -> str:
        """The name under which other programs know it: every hundredth part is ``percent``."""
        if self.kind in PERCENTS and abs(self.factor - 0.01) < 1e-12:
            return "percent"
        return "dimensionless" if self.kind == "ratio" else self.name


def read_rows(text: str) -> list[dict[str, str]]:
    """The rows of a unit table: name, definition, kind, symbol, system, state, words, source."""
    return list(csv.DictReader(text.splitlines()))


def own_rows() -> list[dict[str, str]]:
    """The kernel's own unit table."""
    return read_rows(resources.files(__package__).joinpath("units.csv").read_text("utf-8"))


class Units:
    """A frozen table of units, built from rows of definitions.

    Raises NameClash for a name defined twice and UnitError for a row without a name or a definition
    that pint cannot read.
    """

    def __init__(self, rows: Sequence[Mapping[str, str]] | None = None, cache: Path | None = None):
        rows = own_rows() if rows is None else rows
        seen: dict[str, str] = {}
        for row in rows:
            if not row.get("name") or "definition" not in row:
                owner = row.get("owner", "the kernel")
                raise UnitError(f"A unit of {owner} lacks a name or a definition: {dict(row)!r}.")
            if row["name"] in seen:
                raise NameClash(f"The unit {row['name']!r} is defined twice, by {seen[row['name']]} "
                                f"and by {row.get('owner', 'the kernel')}.")
            seen[row["name"]] = row.get("owner", "the kernel")
        worth = _worth(rows, cache)
        self._units: dict[str, Unit] = {}
        self._quotients: dict[str, Unit] = {}
        for row in rows:
            factor, offset, dimension = worth[row["name"]]
            words = tuple(w for w in (row.get("words") or "").split(";") if w)
            self._units[row["name"]] = Unit(
                row["name"], factor, tuple(dimension), offset, row.get("kind") or "", row.get("symbol") or "",
                row.get("system") or "", row.get("state") or "", words, row.get("adjustable") == "yes",
                row.get("note") or "")

    def __iter__(self) -> Iterator[Unit]:
        return iter(tuple(self._units.values()))

    def __contains__(self, name: str) -> bool:
        return name in self._units

    def __getitem__(self, name: str) -> Unit:
        """The unit of that name, or the quotient ``"gram / liter"`` of two.

        Raises UnitError, with the nearest names, for one that is not known.
        """
        unit = self._units.get(name) or self._quotients.get(name)
        if unit is None:
            unit = self._quotients[name] = self._quotient(name)
        return unit

    def _quotient(self, name: str) -> Unit:
        top, slash, bottom = (part.strip() for part in name.partition("/"))
        if not slash or top not in self._units or bottom not in self._units:
            from difflib import get_close_matches
            near = get_close_matches(name, self._units, 3)
            hint = f" Did you mean {', '.join(near)}?" if near else ""
            raise UnitError(f"There is no unit {name!r}.{hint}")
        a, b = self._units[top], self._units[bottom]
        dimension = tuple(x - y for x, y in zip(a.dimension, b.dimension, strict=True))
        return Unit(f"{top} / {bottom}", a.factor / b.factor, dimension, symbol=f"{a.symbol}/{b.symbol}",
                    system=b.system if b.system == a.system else "")

    def adjusted(self, sizes: Mapping[str, float]) -> Units:
        """The same table with some units resized (base numbers), for one chat's own measures.

        Only an ``adjustable`` unit takes a size, and only a positive one; any other is left as it is.
        """
        new = {n: replace(self._units[n], factor=size) for n, size in sizes.items()
               if n in self._units and self._units[n].adjustable and 0 < size < float("inf")}
        if not new:
            return self
        other = object.__new__(Units)
        other._units, other._quotients = {**self._units, **new}, {}
        return other

    def convert(self, value: float, unit: str, to: str) -> float:
        """A value from one unit to another of the same dimension.  Raises UnitError otherwise."""
        a, b = self[unit], self[to]
        if a.dimension != b.dimension:
            raise UnitError(f"{unit} cannot become {to}: they measure different things.")
        return b.from_base(a.to_base(value))


def _worth(rows: Sequence[Mapping[str, str]], cache: Path | None) -> dict[str, tuple[float, float, list[float]]]:
    text = "\n".join(f"{r['name']} = {r['definition']}" for r in rows)
    key = hashlib.sha256(f"{version('pint')}\n{text}".encode()).hexdigest()[:24]
    path = cache / f"units-{key}.json" if cache else None
    data = kept(path)
    known = data.get("worth") if isinstance(data, dict) else None
    if isinstance(known, dict) and known.keys() == {r["name"] for r in rows} and data.get("sum") == sum_of(known):
        try:
            return {n: (float("nan") if f is None else float(f), float(o), [float(x) for x in d])
                    for n, (f, o, d) in known.items()}
        except (TypeError, ValueError):
            pass
    worth = _ask_pint(tuple((r["name"], r["definition"]) for r in rows))
    plain = {n: [None if f != f else f, o, d] for n, (f, o, d) in worth.items()}
    keep(path, json.dumps({"worth": plain, "sum": sum_of(plain)}))
    return worth


@lru_cache(4)
def _ask_pint(rows: Sequence[tuple[str, str]]) -> dict[str, tuple[float, float, list[float]]]:
    import pint

    registry: Any = pint.UnitRegistry(None)
    base = dict(zip(("[mass]", "[length]", "[time]", "[temperature]", "[currency]", "[substance]"),
                    range(len(BASE)), strict=True))
    worth = {}
    for name, definition in rows:
        if not definition:
            worth[name] = (float("nan"), 0.0, list(NONE))
            continue
        try:
            registry.define(f"{name} = {definition}")
            unit = registry.Quantity(1.0, name)
            exponents = [0.0] * len(BASE)
            for dimension, power in unit.dimensionality.items():
                exponents[base[dimension]] = float(power)
            far = registry.Quantity(1e6, name).to_base_units().magnitude
            zero = registry.Quantity(0.0, name).to_base_units().magnitude
        except Exception as e:  # whatever pint raises, down to an AttributeError of its own
            raise UnitError(f"The unit {name!r} cannot be defined as {definition!r}: {e}.") from e
        worth[name] = ((far - zero) / 1e6, zero, exponents)
    return worth
