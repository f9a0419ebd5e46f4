"""A calculator made ready for solving: its equations as trees on the base units, checked.

Registration refuses an equation whose sides measure different things, a percent by
mass applied to a volume (or by volume to a mass), and names that nobody declared.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

from . import formula
from .declare import Calculator, Choice, Function, Limit, Variable, parsed
from .errors import DeclarationError, DimensionError
from .formula import Tree
from .units import NONE, Dimension, Unit, Units

ONE_ARGUMENT = frozenset({"ceil", "floor"})


@dataclass(frozen=True)
class Model:
    """A registered calculator.  ``id`` is ``plugin.calculator``."""

    id: str
    calculator: Calculator
    units: Units
    _cache: dict[str, object] = field(default_factory=dict, compare=False)

    @cached_property
    def variables(self) -> Mapping[str, Variable]:
        return self.calculator.variables

    @cached_property
    def choices(self) -> Mapping[str, Choice]:
        return self.calculator.choices

    @cached_property
    def unit(self) -> Mapping[str, Unit]:
        """The declared unit of each variable."""
        return {n: self.units[v.unit] for n, v in self.variables.items()}

    @cached_property
    def functions(self) -> Mapping[str, Function]:
        return {f.name: f for f in self.calculator.functions}

    @cached_property
    def constants(self) -> Mapping[str, float]:
        """Declared constants on the base units."""
        return {n: self.units[u].to_base(v) for n, (v, u) in self.calculator.constants.items()}

    @cached_property
    def equations(self) -> tuple[tuple[Tree, Tree], ...]:
        return tuple(parsed(self.calculator))

    @cached_property
    def names(self) -> tuple[frozenset[str], ...]:
        """The variables in each equation."""
        return tuple(frozenset(n for n in formula.names(a) | formula.names(b) if n in self.variables)
                     for a, b in self.equations)

    @cached_property
    def limits(self) -> tuple[tuple[Limit, str, Tree, Tree, frozenset[str]], ...]:
        """Each limit with its sign, its two sides and the names that stand in them."""
        parts = ((x, *formula.comparison(x.test)) for x in self.calculator.limits)
        return tuple((x, sign, a, b, formula.names(a) | formula.names(b)) for x, sign, a, b in parts)

    @cached_property
    def base_functions(self) -> Mapping[str, Callable[..., float]]:
        """Every function that a formula may call, on the base units."""
        return {**formula.BUILTINS, **{n: self.base_function(n) for n in self.functions}}

    @cached_property
    def fingerprint(self) -> str:
        """What a kept plan depends on: the declaration and its tables, but not how it is worded."""
        c = self.calculator
        used = {*(v.unit for v in self.variables.values()), *(u for _, u in c.constants.values()),
                *(u for f in c.functions for u in (*f.takes, f.gives) if u != "choice")}
        shape = (c.equations, sorted(c.constants.items()),
                 [(u, self.units[u].factor, self.units[u].offset) for u in sorted(used)],
                 [(v.name, v.unit, v.low, v.high, v.usual, v.default) for v in self.variables.values()],
                 [(k.name, sorted(k.rows), sorted(k.fills.items())) for k in self.choices.values()],
                 [(f.name, f.takes, f.gives, str(f.domain), f.version) for f in c.functions],
                 [(s.name, s.formula) for s in c.steps], c.lines and sorted(c.lines.sums.items()))
        return hashlib.sha256(repr(shape).encode()).hexdigest()[:24]

    def base_bounds(self, name: str) -> tuple[float | None, float | None]:
        """The physical bounds of a variable on the base units."""
        v, u = self.variables[name], self.unit[name]
        return (None if v.low is None else u.to_base(v.low), None if v.high is None else u.to_base(v.high))

    def base_usual(self, name: str) -> tuple[float, float] | None:
        """The usual range of a variable on the base units."""
        v, u = self.variables[name], self.unit[name]
        return (u.to_base(v.usual[0]), u.to_base(v.usual[1])) if v.usual else None

    def serves(self, call: tuple[Any, ...], rows: Mapping[str, str]) -> bool:
        """Is a function declared for the chosen rows that stand in a call of it?"""
        f = self.functions.get(call[1])
        if f is None or not isinstance(f.domain, Mapping):
            return True
        return any(rows.get(a) in f.domain for a in call[2:] if isinstance(a, str) and a in self.choices)

    def domain(self, call: tuple[Any, ...], rows: Mapping[str, str]) -> tuple[float, float] | None:
        """The range of a call's last argument on the base units, if it is declared."""
        f = self.functions.get(call[1])
        found = f.domain if f else None
        if isinstance(found, Mapping):
            found = next((found[rows[a]] for a in call[2:] if a in rows and rows[a] in found), None)
        if f is None or found is None:
            return None
        unit = self.units[f.takes[-1]]
        return unit.to_base(found[0]), unit.to_base(found[1])

    def base_function(self, name: str) -> Callable[..., float]:
        """A declared function that takes and gives base numbers, and row ids for choices."""
        made = self._cache.get("f:" + name)
        if made is None:
            made = self._cache["f:" + name] = _on_base(self.functions[name], self.units)
        return made  # type: ignore[return-value]

    def check(self) -> None:
        """Raise DeclarationError (or one of its kinds) if the declaration cannot work."""
        c = self.calculator
        for name, v in self.variables.items():
            self.units[v.unit], self.units[v.show]
            if self.units[v.show].dimension != self.unit[name].dimension:
                raise DimensionError(f"{self.id}: {name} is in {v.unit} and cannot be shown in {v.show}.")
            if v.named_by and v.named_by[0] not in self.choices:
                raise DeclarationError(f"{self.id}: {name} is named by {v.named_by[0]!r}, which is no choice.")
        for k in self.choices.values():
            for target in k.fills:
                if target not in self.variables:
                    raise DeclarationError(f"{self.id}: the choice {k.name} fills {target!r}, which is no variable.")
        for v in self.variables.values():
            for other in v.ratio or ():
                if other not in self.variables:
                    raise DeclarationError(f"{self.id}: the ratio {v.name} names {other!r}, which is no variable.")
        for name in c.asked:
            if name not in self.variables:
                raise DeclarationError(f"{self.id}: asked names {name!r}, which is no variable.")
        trees = [(text, a, b) for text, (a, b) in zip(c.equations, self.equations, strict=True)]
        for x in c.limits:
            _, a, b = formula.comparison(x.test)
            trees.append((x.test, a, b))
        trees += [(f"{s.name} := {s.formula}", s.name, formula.parse(s.formula)) for s in c.steps]
        trees += [(f"default {v.name} = {v.default}", v.name, formula.parse(v.default))
                  for v in self.variables.values() if isinstance(v.default, str)]
        for text, a, b in trees:
            left, right = self._measure(a, text), self._measure(b, text)
            if left != right and not (_zero(a) or _zero(b)):
                raise DimensionError(
                    f"{self.id}: in '{text}' the left side measures {_say(left)}, the right {_say(right)}.")
            if self._differ(self._kind(a), self._kind(b)):
                raise DimensionError(f"{self.id}: '{text}' equates a percent by mass with one by volume.")

    def _measure(self, tree: Tree, text: str) -> Dimension:
        if isinstance(tree, float):
            return NONE
        if isinstance(tree, str):
            if tree in self.variables:
                return self.unit[tree].dimension
            if tree in self.calculator.constants:
                return self.units[self.calculator.constants[tree][1]].dimension
            raise DeclarationError(f"{self.id}: '{text}' names {tree!r}, which is not declared.")
        head = tree[0]
        if head == "call":
            return self._measure_call(tree, text)
        parts = [self._measure(t, text) for t in tree[1:]]
        if head == "neg":
            return parts[0]
        if head in ("+", "-"):
            if parts[0] != parts[1] and not (_zero(tree[1]) or _zero(tree[2])):
                raise DimensionError(f"{self.id}: '{text}' adds {_say(parts[0])} and {_say(parts[1])}.")
            return parts[0] if not _zero(tree[1]) else parts[1]
        if head == "**":
            power = _literal(tree[2])
            if power is not None:
                return tuple(x * power for x in parts[0])
            if parts[0] != NONE or parts[1] != NONE:
                raise DimensionError(f"{self.id}: '{text}' has a power that is not a plain number.")
            return NONE
        sign = 1 if head == "*" else -1
        whole = tuple(x + sign * y for x, y in zip(parts[0], parts[1], strict=True))
        if head == "*":
            self._check_percent(tree, whole, text)
        return whole

    def _check_percent(self, tree: tuple[Any, ...], whole: Dimension, text: str) -> None:
        kinds = {self.unit[n].kind for n in tree[1:] if isinstance(n, str) and n in self.variables}
        mass, length = whole[0], whole[1]
        if "ww" in kinds and mass == 0 and length == 3:
            raise DimensionError(f"{self.id}: '{text}' takes a percent by mass of a volume.")
        if "vv" in kinds and length == 0 and mass == 1:
            raise DimensionError(f"{self.id}: '{text}' takes a percent by volume of a mass.")

    def _measure_call(self, tree: tuple[Any, ...], text: str) -> Dimension:
        name, args = tree[1], tree[2:]
        if name in formula.BUILTINS:
            if not args or (name in ONE_ARGUMENT and len(args) > 1):
                raise DeclarationError(f"{self.id}: '{text}': {name} cannot take {len(args)} arguments.")
            parts = [self._measure(a, text) for a in args]
            if any(p != parts[0] for p in parts):
                raise DimensionError(f"{self.id}: '{text}' compares things that are measured differently.")
            return parts[0]
        f = self.functions.get(name)
        if f is None:
            raise DeclarationError(f"{self.id}: '{text}' calls {name!r}, which is not among its functions.")
        if len(f.takes) != len(args):
            raise DeclarationError(f"{self.id}: '{text}': {name} takes {len(f.takes)} arguments, not {len(args)}.")
        for taken, arg in zip(f.takes, args, strict=True):
            if taken == "choice":
                if arg not in self.choices:
                    raise DeclarationError(f"{self.id}: '{text}': {arg!r} is no choice.")
            elif self._measure(arg, text) != self.units[taken].dimension:
                raise DimensionError(
                    f"{self.id}: '{text}': {name} takes {taken}, not {_say(self._measure(arg, text))}.")
            elif self._differ(self.units[taken].kind, self._kind(arg)):
                raise DimensionError(f"{self.id}: '{text}': {name} takes {taken}, not {self.unit[arg].name}.")
        return self.units[f.gives].dimension

    def _kind(self, tree: Tree) -> str:
        """The kind of a side that is one name or one call; of anything else it is not known."""
        if isinstance(tree, str) and tree in self.unit:
            return self.unit[tree].kind
        if isinstance(tree, tuple) and tree[0] == "call" and tree[1] in self.functions:
            return self.units[self.functions[tree[1]].gives].kind
        return ""

    @staticmethod
    def _differ(one: str, other: str) -> bool:
        return {one, other} == {"ww", "vv"}


def _literal(tree: Tree) -> float | None:
    if isinstance(tree, tuple) and tree[0] == "neg":
        inner = _literal(tree[1])
        return None if inner is None else -inner
    return tree if isinstance(tree, float) else None


def _zero(tree: Tree) -> bool:
    return tree == 0.0


def _say(dimension: Dimension) -> str:
    """A dimension in words: ``mass``, ``mass per volume``."""
    from .units import BASE
    over = [_power(n, p) for n, p in zip(BASE, dimension, strict=True) if p > 0]
    under = [_power(n, -p) for n, p in zip(BASE, dimension, strict=True) if p < 0]
    text = " ".join(over) + (f" per {' '.join(under)}" if under else "")
    return text.strip() or "a plain number"


def _power(name: str, power: float) -> str:
    if name == "length" and power == 3:
        return "volume"
    return name if power == 1 else f"{name}^{power:g}"


def _on_base(f: Function, units: Units) -> Callable[..., float]:
    takes = [None if t == "choice" else units[t] for t in f.takes]
    gives, call = units[f.gives], f.call
    if all(t is None or (t.factor == 1.0 and t.offset == 0.0) for t in takes):
        return lambda *a: gives.to_base(call(*a))
    return lambda *a: gives.to_base(call(*(x if t is None else t.from_base(x) for t, x in zip(takes, a, strict=True))))
