"""A calculator as the reader sees it: what never changes from message to message, worked out once."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from stillroom.declare import Lines, Variable
from stillroom.model import Model
from stillroom.units import PERCENTS, Unit

from .candidate import MONEY

SUM = re.compile(r"\s*([a-z][a-z0-9_]*)\s*=\s*([a-z][a-z0-9_]*(?:\s*\+\s*[a-z][a-z0-9_]*)+)\s*\Z")
PRODUCT = re.compile(r"(?<![a-z0-9_])([a-z][a-z0-9_]*) \* ([a-z][a-z0-9_]*)(?![a-z0-9_(])")


@dataclass(frozen=True, slots=True)
class Slot:
    """A variable that a number may fill.

    ``before`` counts the variables of the same measure that the job speaks of before it, ``before_percent``
    those with any kind of percent.
    """

    name: str
    variable: Variable
    unit: Unit
    things: frozenset[str]
    before: int
    before_percent: int


class Profile:
    """The reader's view of one calculator."""

    def __init__(self, model: Model):
        self.model = model
        self.id = model.id
        self.spec: Lines | None = model.calculator.lines
        shown = [(n, v) for n, v in model.variables.items() if not v.hidden]
        self.slots: dict[str, Slot] = {}
        measures: dict[object, int] = {}
        percents = 0
        for name, v in shown:
            unit = model.unit[name]
            key = (unit.kind, unit.dimension)
            percent = unit.kind in PERCENTS
            n = measures.get(key, 0)
            self.slots[name] = Slot(name, v, unit, frozenset(v.things), n, percents if percent else n)
            measures[key] = n + 1
            percents += percent
        self._slots_of: dict[frozenset[str], frozenset[str]] = {}
        self.fitting: dict[tuple[tuple[str, ...], str], list[tuple[Slot, str, float]]] = {}
        self.fitting_roles: dict[tuple[tuple[str, ...], str], frozenset[str]] = {}
        self.all_roles = frozenset(s.variable.role for s in self.slots.values())
        self.things = frozenset(t for s in self.slots.values() for t in s.things)
        self.any_thing = "any" in self.things
        self.counts_money = any(s.unit.dimension == MONEY for s in self.slots.values())
        self.ratios = any(s.variable.ratio for s in self.slots.values())
        self.timed = any(s.unit.dimension[2] for s in self.slots.values())
        self.place = {n: i for i, n in enumerate(dict.fromkeys([*model.calculator.asked, *model.variables]))}
        self.roles = {c: next((w[5:] for w in k.words if w.startswith("role:")), "") for c, k in model.choices.items()}
        self.must = [c for c, k in model.choices.items() if k.default is None]

    def slots_of(self, kinds: frozenset[str]) -> frozenset[str]:
        """The variables that take a thing of such kinds; kept, as things are of few kinds together."""
        found = self._slots_of.get(kinds)
        if found is None:
            found = frozenset(n for n, s in self.slots.items() if s.things & kinds)
            self._slots_of[kinds] = found
        return found

    @cached_property
    def counted_out(self) -> bool:
        """Is a variable shown in a measure that a chat may size (drops, dashes, barspoons)?"""
        return any(s.variable.show and self.model.units[s.variable.show].adjustable for s in self.slots.values())

    @cached_property
    def wholes(self) -> dict[str, frozenset[str]]:
        """The variables that are the sum of others (``total = drink + milk``), with their parts."""
        found: dict[str, frozenset[str]] = {}
        for e in self.model.calculator.equations:
            if (sum_ := SUM.match(e)) and sum_[1] in self.slots:
                parts = frozenset(p.strip() for p in sum_[2].split("+"))
                if len(parts) > 1 and parts <= set(self.slots):
                    found[sum_[1]] = parts
        return found

    @cached_property
    def times(self) -> dict[str, str]:
        """The variables that are the time between two days by another name (``age = elapsed``), with that time."""
        pairs = (e.split(" = ") for e in self.model.calculator.equations)
        return {p[0]: p[1] for p in pairs if len(p) == 2 and p[1] in self.slots
                and self.slots[p[1]].variable.role == "since"}

    @cached_property
    def afters(self) -> frozenset[str]:
        """The variables that say how something is afterwards, where one of the same name says how it was before."""
        before = [s for s in self.slots.values() if s.variable.role == "from"]
        return frozenset(
            n
            for n, s in self.slots.items()
            if s.variable.role == "to"
            and any(o.unit == s.unit and not set(o.variable.words).isdisjoint(s.variable.words) for o in before)
        )

    @cached_property
    def so_many_times(self) -> dict[str, tuple[str, str]]:
        """The variables that are told of each, with a count and what comes of both (``need = serves * each``)."""
        found: dict[str, tuple[str, str]] = {}
        for e in self.model.calculator.equations:
            whole, _, product = e.partition(" = ")
            parts = product.split(" * ")
            if whole not in self.slots or len(parts) != 2 or not {*parts} <= self.slots.keys():
                continue
            for count, each in (parts, parts[::-1]):
                slot = self.slots[each]
                if slot.variable.role == "each" and self.slots[count].unit.kind == "count":
                    found[each] = count, whole
        return found

    @cached_property
    def totals(self) -> frozenset[str]:
        """The variables that are called a total outright."""
        return frozenset(n for n, s in self.slots.items() if n == "total" or "total" in s.variable.words)

    @cached_property
    def parts(self) -> frozenset[str]:
        """The variables that are parts of a whole, and no whole themselves."""
        return frozenset(p for parts in self.wholes.values() for p in parts) - set(self.wholes)

    @cached_property
    def sharing(self) -> frozenset[str]:
        """Choices that take their rows from the same table as another one."""
        tables = {c: frozenset(k.rows) for c, k in self.model.choices.items()}
        return frozenset(c for c in tables if any(c != d and tables[c] & tables[d] for d in tables))

    @cached_property
    def shares(self) -> Mapping[str, str]:
        """An amount and its own strength, by the products of the equations (``abv_from * spirit``)."""
        found: dict[str, str] = {}
        for e in self.model.calculator.equations:
            for a, b in PRODUCT.findall(e):
                for strength, amount in ((a, b), (b, a)):
                    percent = strength in self.slots and self.slots[strength].unit.kind in PERCENTS
                    if percent and amount in self.slots and self.slots[amount].unit.kind not in PERCENTS:
                        found[strength] = found[amount] = amount
        return found if len(set(found.values())) > 1 else {}

    @cached_property
    def groups(self) -> Mapping[str, str]:
        """``first_mass`` and ``first_brix`` go together where there is a ``second_mass`` too: variable to group."""
        parts = {n: n.split("_", 1) for n in self.slots if "_" in n}
        tops = dict.fromkeys(a for a, _ in parts.values() if a in self.slots)
        parts |= {n: [n, ""] for n in tops}
        return {
            n: a
            for n, (a, b) in parts.items()
            if any(x != a and y == b for x, y in parts.values()) and sum(x == a for x, _ in parts.values()) > 1
        }
