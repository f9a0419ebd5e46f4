"""Specs: what the lines add up to, and what a solution says of each line.

A line has an amount as it was said, from which its volume and its mass follow where a density is
known, and attributes: those it was given, then those that its substance's row supplies.  A sum
may stand on any of them.  What a line lacks is only asked for when a wanted value stands on it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from . import formula
from .declare import Lines, words_of
from .errors import Missing, NotAnswered, OutOfBounds, RequestError
from .messages import Line, Request
from .model import Model
from .units import Unit, Units

if TYPE_CHECKING:
    from .kernel import Kernel
    from .solver import Solution
    from .substances import Substance

VOLUME = (0.0, 3.0, 0.0, 0.0, 0.0, 0.0)
MASS = (1.0, 0.0, 0.0, 0.0, 0.0, 0.0)
OWN = frozenset({"amount", "volume", "mass"})


@dataclass(slots=True)
class Sums:
    """``values`` on the base units; by sum, the ``notes`` and ``sources`` it rests on and its
    ``lacking`` cells (attribute, thing)."""

    values: dict[str, float] = field(default_factory=dict)
    notes: dict[str, dict[str, None]] = field(default_factory=dict)
    sources: dict[str, dict[str, None]] = field(default_factory=dict)
    lacking: dict[str, dict[tuple[str, str], None]] = field(default_factory=dict)

    def cells(self, names: Iterable[str] | None = None) -> list[tuple[str, str]]:
        """Every cell that these sums (or all) lack, once, in the order of the lines."""
        kept = self.lacking if names is None else {n: self.lacking[n] for n in self.lacking if n in set(names)}
        return list(dict.fromkeys(cell for cells in kept.values() for cell in cells))

    def alone(self) -> list[tuple[str, str]]:
        """The cells that are all that some sum lacks: with one of them filled, one more sum is known."""
        single = [next(iter(cells)) for cells in self.lacking.values() if len(cells) == 1]
        return list(dict.fromkeys(single))

    def added_to(self, rest: Sums | None, model: Model) -> dict[str, float]:
        """The values of these lines and the others together, where both are known; of what runs out, the first."""
        if rest is None:
            return self.values
        least = model.calculator.lines.least if model.calculator.lines else {}
        both = {n: v + rest.values[n] for n, v in self.values.items() if n in rest.values and n not in least}
        short = {n: min(x[n] for x in (self.values, rest.values) if n in x) for n in least
                 if n in self.values or n in rest.values}
        return {**both, **short}

    def explain(self, missing: Missing, solve: Callable[[Mapping[str, float]], Solution]) -> Missing:
        """What is missing: the cells of the lines, if with them what is wanted could be found.

        ``solve`` tries to find it from more sums; what those would be worth does not matter.
        """
        if not self.lacking:
            return missing
        try:
            used: Iterable[str] | None = solve(dict.fromkeys(self.lacking, 1.0)).used
        except Missing as e:
            return e
        except NotAnswered:
            used = None
        cells = self.cells(used) or self.cells()
        return Missing(missing.wanted, [tuple(f"{attribute} of {thing}" for attribute, thing in cells)])

    def told(self, names: Iterable[str]) -> tuple[dict[str, None], dict[str, None]]:
        """The notes and the sources on which the sums among these names rest."""
        names = [n for n in self.values if n in set(names)]
        return ({text: None for n in names for text in self.notes.get(n, ())},
                {text: None for n in names for text in self.sources.get(n, ())})


@dataclass(frozen=True, slots=True)
class Cells:
    """The cells of one line, on the base units."""

    units: Units
    lines: Lines
    line: Line
    substance: Substance | None

    def own(self, name: str) -> float | None:
        """``amount``, ``volume`` or ``mass``; None where the amount is of another kind and no density is known."""
        if self.line.amount is None:
            return None
        dimension, base = self.units[self.line.amount.unit].dimension, self.line.amount.base
        if name == "amount" or dimension == (VOLUME if name == "volume" else MASS):
            return base
        density = 1.0 if name == "mass" and self.as_water else self._density
        if density is None or self.substance is None or dimension not in (VOLUME, MASS):
            return None
        if name == "volume":
            return base / density if self.substance.state == "liquid" else None
        return base * density

    @property
    def _density(self) -> float | None:
        return self.substance.number("density") if self.substance else None

    @property
    def as_water(self) -> bool:
        """Is it a liquid that is poured, and weighed as water because nobody knows its density?"""
        return self.poured and self.substance is not None and self.substance.state == "liquid" and self._density is None

    @property
    def poured(self) -> bool:
        """Is its amount a volume?"""
        return self.line.amount is not None and self.units[self.line.amount.unit].dimension == VOLUME

    def attribute(self, name: str) -> float | None:
        """A given attribute, or that of the substance."""
        if name in self.line.attributes:
            return self.line.attributes[name].base
        number = self.column(name)
        return None if number is None else self.unit(name).to_base(number)

    def unit(self, name: str) -> Unit:
        """The unit of an attribute; that of the amount where the attribute is ``amount``'s own kind."""
        declared = self.lines.columns.get(name, "")
        if declared in ("amount", "any"):
            return self.units[self.line.amount.unit if self.line.amount else "milliliter"]
        return self.units[declared]

    def may_hold(self, name: str) -> bool:
        """May a line whose ``name`` is not known have any of it?  Yes for a thing that nobody described."""
        kinds = self.lines.holds.get(name)
        return self.substance is None or kinds is None or bool(set(words_of(kinds)) & self.substance.kinds)

    def column(self, name: str) -> float | None:
        """The substance's number for an attribute, in the attribute's unit."""
        column = self.lines.fills.get(name)
        return self.substance.number(column) if self.substance and column else None


def sums_of(kernel: Kernel, model: Model, request: Request) -> Sums:
    """The declared sums over the lines of the request's spec that are not given themselves.

    Raises RequestError for an attribute that is measured in another way than its line's amount.
    """
    lines, sums = model.calculator.lines, Sums()
    if lines is None or not request.spec:
        return sums
    every = [Cells(kernel.units, lines, line, kernel.substances.get(line.substance or "")) for line in request.spec]
    for cells in every:
        _check(cells)
    for name, text in lines.sums.items():
        if name not in request.given:
            _add_up(name, text, model, every, sums)
    for name, text in lines.least.items():
        if name not in request.given:
            _smallest(name, text, every, sums)
    return sums


def _check(cells: Cells) -> None:
    for name, given in cells.line.attributes.items():
        if name not in cells.lines.columns:
            continue
        if cells.units[given.unit].dimension != cells.unit(name).dimension:
            raise RequestError(f"{cells.line.thing}: its {name} cannot be in {given.unit}.")


def _add_up(name: str, text: str, model: Model, every: Iterable[Cells], sums: Sums) -> None:
    tree = formula.parse(text)
    names = formula.names(tree) - set(model.constants)
    total, notes = 0.0, sums.notes.setdefault(name, {})
    lacking: dict[tuple[str, str], None] = {}
    sources, unknown = sums.sources.setdefault(name, {}), []
    for cells in every:
        thing, known = cells.line.thing, {}
        if cells.line.amount is None and names & OWN:
            lacking["amount", thing] = None
        for attribute in sorted(names - OWN):
            value = cells.attribute(attribute)
            if value is not None:
                known[attribute] = value
                if value and attribute not in cells.line.attributes and cells.substance:
                    unit = cells.unit(attribute)
                    notes[f"{thing}: {attribute} {cells.column(attribute):g} {unit.symbol}"] = None
                    sources[cells.substance.source] = None
            elif attribute in cells.lines.needs and cells.may_hold(attribute):
                lacking[attribute, thing] = None
            elif cells.may_hold(attribute):
                unknown.append(f"{attribute} of {thing}")
        if not names - OWN <= known.keys():
            continue
        for own in sorted(names & OWN):
            value = cells.own("volume" if own == "amount" and cells.lines.columns.get("amount") != "any" else own)
            if value is not None:
                known[own] = value
        if names <= known.keys():
            total += formula.evaluate(tree, {**model.constants, **known})
            if "mass" in names and cells.as_water and all(known[n] for n in names - OWN):
                notes[f"{thing}: weighed as water, its density is not known"] = None
        elif cells.poured and "mass" in names and names - OWN and all(known[n] for n in names - OWN):
            lacking["weight", thing] = None
        elif cells.line.amount is not None and all(known[n] for n in names - OWN):
            notes[f"{thing}: not counted in the {model.variables[name].title}, by which it is not measured"] = None
    if unknown:
        notes[f"not known, counted as none: {', '.join(unknown)}"] = None
    if lacking:
        sums.lacking[name] = lacking
    else:
        sums.values[name] = total


def _smallest(name: str, text: str, every: Iterable[Cells], sums: Sums) -> None:
    tree = formula.parse(text)
    names = formula.names(tree)
    found = []
    for cells in every:
        env = {n: v for n in names if (v := cells.own(n) if n in OWN else cells.attribute(n)) is not None}
        if names <= env.keys():
            try:
                found.append((formula.evaluate(tree, env), cells.line.thing))
            except ZeroDivisionError:
                raise OutOfBounds(f"{cells.line.thing}: an amount of nothing cannot run short.") from None
    if found:
        sums.values[name], thing = min(found)
        sums.notes[name] = {f"{thing} runs out first": None} if len(found) > 1 else {}


def values_of_lines(model: Model, request: Request, values: Mapping[str, float]) -> dict[str, tuple[float, Unit]]:
    """What the solution says of each line, by thing, in the line's own unit."""
    lines = model.calculator.lines
    if lines is None or not lines.each or not request.spec:
        return {}
    found: dict[str, tuple[float, Unit]] = {}
    for text in lines.each.values():
        tree = formula.parse(text)
        for line in request.spec:
            if line.amount is None or not formula.names(tree) <= {"amount", *values}:
                continue
            base = formula.evaluate(tree, {**values, "amount": line.amount.base})
            said, asked = model.units[line.amount.unit], model.units[request.units.get(line.thing, line.amount.unit)]
            found[line.thing] = (base, asked if asked.dimension == said.dimension else said)
    return found
