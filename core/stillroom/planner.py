"""Choosing a plan: what is determined, which defaults it takes, what else would be enough."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from . import formula
from .errors import Missing
from .formula import Tree
from .model import Model
from .plan import Plan, Step
from .structure import Order, order

MOST_MISSING = 3
MOST_DEFAULTS = 5


@dataclass(frozen=True, slots=True)
class Question:
    """What a plan is made for.

    ``given`` and ``wanted`` are variables, ``rows`` the (choice, row id) pairs that are settled,
    ``filled`` the variables for which those rows have a number.
    """

    given: frozenset[str]
    rows: tuple[tuple[str, str], ...]
    filled: tuple[str, ...]
    wanted: tuple[str, ...]
    spare: tuple[int, ...] = ()


class Planner:
    """Plans one question about one calculator."""

    def __init__(self, model: Model, question: Question):
        self.model, self.q = model, question
        self.settled = frozenset(c for c, _ in question.rows)
        self.pairs: list[tuple[Tree, Tree]] = [
            (_constants(a, model), _constants(b, model)) for a, b in model.equations]
        self.usable = [i for i, pair in enumerate(self.pairs)
                       if i not in question.spare and self._choices(pair) <= self.settled and self._serves(pair)]
        self.sets = [model.names[i] for i in self.usable]

    def _choices(self, pair: tuple[Tree, Tree]) -> frozenset[str]:
        return frozenset(n for t in pair for n in formula.names(t) if n in self.model.choices)

    def _serves(self, pair: tuple[Tree, Tree]) -> bool:
        rows = dict(self.q.rows)
        return all(self.model.serves(c, rows) for t in pair for c in formula.calls(t))

    def plan(self) -> Plan:
        """The plan.  Raises Missing, with each smallest set that would be enough."""
        wanted = self._sources(self.q.wanted)
        for defaults, free in self._attempts(wanted):
            found = self._derive(defaults, free, wanted)
            if found is not None:
                return found
        raise Missing(self.q.wanted, self.missing(wanted))

    def _sources(self, wanted: Sequence[str]) -> tuple[str, ...]:
        """Wanted whole things, as the variables that their steps take."""
        steps = {s.name: s.formula for s in self.model.calculator.steps}
        queue, found = list(wanted), []
        while queue:
            name = queue.pop(0)
            if name in steps and name not in self.q.given:
                queue += [n for n in sorted(formula.names(formula.parse(steps[name]))) if n in self.model.variables]
            else:
                found.append(name)
        return tuple(dict.fromkeys(found))

    def _order(self, known: frozenset[str], links: Sequence[tuple[str, Tree]] = ()) -> Order:
        extra = [frozenset({n}) | formula.names(t) for n, t in links]
        return order([*self.sets, *extra], known)

    def _enough(self, known: frozenset[str], wanted: Sequence[str], links: Sequence[tuple[str, Tree]] = ()) -> bool:
        o = self._order(known, links)
        have = known | {n for _, names in o.blocks for n in names}
        return all(w in have for w in wanted)

    def _attempts(self, wanted: Sequence[str]) -> Iterator[tuple[tuple[str, ...], str | None]]:
        given = self.q.given
        if self._enough(given, wanted):
            yield (), None
        if (free := self._free(given, wanted, ())) is not None:
            yield (), free
        candidates = self._candidates(wanted)
        for size in range(1, min(MOST_DEFAULTS, len(candidates)) + 1):
            for chosen in combinations(candidates, size):
                if self._enough(given | self._numbers(chosen), wanted, self._links(chosen)):
                    yield chosen, None
        for size in range(1, min(MOST_DEFAULTS, len(candidates)) + 1):
            for chosen in combinations(candidates, size):
                if (free := self._free(given, wanted, chosen)) is not None:
                    yield chosen, free

    def _candidates(self, wanted: Sequence[str]) -> list[str]:
        m, q = self.model, self.q
        names = [n for n in m.variables
                 if n not in q.given and (n in q.filled or m.variables[n].default is not None)]
        near = {n for s in self.sets for n in s if s & set(wanted)} & q.given
        return [n for n in names if n not in wanted or not near]

    def _numbers(self, chosen: Sequence[str]) -> frozenset[str]:
        return frozenset(n for n in chosen if n in self.q.filled or not isinstance(self.model.variables[n].default, str))

    def _links(self, chosen: Sequence[str]) -> list[tuple[str, Tree]]:
        numbers = self._numbers(chosen)
        return [(n, _constants(formula.parse(str(self.model.variables[n].default)), self.model))
                for n in chosen if n not in numbers]

    def _free(self, given: frozenset[str], wanted: Sequence[str], chosen: Sequence[str]) -> str | None:
        m = self.model
        if any(w not in m.variables or _amount(m, w) for w in wanted):
            return None
        known, links = given | self._numbers(chosen), self._links(chosen)
        if any(_amount(m, n) for n in known):
            return None
        for n in m.variables:
            if n not in known and _amount(m, n) and self._enough(known | {n}, wanted, links):
                return n
        return None

    def _derive(self, chosen: Sequence[str], free: str | None, wanted: Sequence[str]) -> Plan | None:
        from .derive import Unsolvable, solve_block

        known = self.q.given | self._numbers(chosen) | ({free} if free else set())
        links = self._links(chosen)
        pairs = [self.pairs[i] for i in self.usable] + [(n, t) for n, t in links]
        numbering = [*self.usable, *([-1] * len(links))]
        o = self._order(known, links)
        steps: list[Step] = []
        have = set(known)
        for rows, names in o.blocks:
            if not all((frozenset().union(*(self._vars(pairs[i]) for i in rows)) - set(names)) <= have for _ in (0,)):
                continue
            try:
                found = solve_block([pairs[i] for i in rows], names)
            except Unsolvable:
                continue
            for f in found:
                low, high = self._bracket(f.name, f.residual)
                if not f.roots and high is None:
                    continue
                steps.append(Step(f.name, f.roots, f.residual, low, high or 0.0, numbering[rows[0]]))
                have.add(f.name)
        if not all(w in have for w in wanted):
            return None
        needed, extra = _split(steps, wanted, known)
        early = known | {s.name for s in needed}
        checks = [p for i, p in zip(numbering, pairs, strict=True) if self._vars(p) <= early]
        late = [p for i, p in zip(numbering, pairs, strict=True) if p not in checks and self._vars(p) <= have]
        spare = [self.pairs[i] for i in self.q.spare if self._choices(self.pairs[i]) <= self.settled]
        checks += [p for p in spare if self._vars(p) <= early]
        inputs = [n for n in self.model.variables if n in known] + sorted(self.settled)
        return Plan(tuple(inputs), tuple(chosen), free, (*needed, *extra), len(needed), (*checks, *late), len(checks))

    def _vars(self, pair: tuple[Tree, Tree]) -> frozenset[str]:
        return frozenset(n for t in pair for n in formula.names(t) if n in self.model.variables)

    def _bracket(self, name: str, residual: Tree | None) -> tuple[float, float | None]:
        low, high = self.model.base_bounds(name)
        if residual is not None:
            for c in formula.calls(residual):
                domain = self.model.domain(c, dict(self.q.rows)) if c[-1] == name else None
                if domain:
                    low = domain[0] if low is None else max(low, domain[0])
                    high = domain[1] if high is None else min(high, domain[1])
        return low if low is not None else 0.0, high

    def missing(self, wanted: Sequence[str]) -> list[tuple[str, ...]]:
        """Each smallest set of variables (or choices) that would determine what is wanted."""
        m, q = self.model, self.q
        absent = [c for c in m.choices if c not in self.settled]
        if absent and self._needs_choice(wanted, absent):
            return [tuple(absent[:1])]
        names = [n for n, v in m.variables.items() if n not in q.given and n not in wanted and not v.hidden]
        base = q.given | {n for n in self._candidates(wanted) if n not in wanted} & self._numbers(list(m.variables))
        for known in (base, q.given):
            for size in range(1, MOST_MISSING + 1):
                sets = [s for s in combinations([n for n in names if n not in known], size)
                        if self._enough(known | set(s), wanted)]
                if sets:
                    return sets[:8]
        return []

    def _needs_choice(self, wanted: Sequence[str], absent: Sequence[str]) -> bool:
        whole = Planner(self.model, Question(
            self.q.given, (*self.q.rows, *((c, next(iter(self.model.choices[c].rows))) for c in absent)),
            tuple({*self.q.filled, *(v for c in absent for v in self.model.choices[c].fills)}), self.q.wanted))
        if whole._enough(self.q.given, wanted):
            return True
        return any(True for _ in whole._attempts(wanted))


def _split(steps: Sequence[Step], wanted: Sequence[str], known: frozenset[str] | set[str]) -> tuple[list[Step], list[Step]]:
    need, needed = set(wanted), []
    for s in reversed(steps):
        if s.name in need:
            needed.append(s)
            for t in (*s.roots, *([s.residual] if s.residual is not None else [])):
                need |= formula.names(t)
    needed.reverse()
    return needed, [s for s in steps if s not in needed]


def _amount(model: Model, name: str) -> bool:
    """Does a variable grow with the size of the batch (a mass, a volume, money or a count)?"""
    unit = model.unit[name]
    mass, length, time, temperature, money, moles = unit.dimension
    return (unit.dimension in _AMOUNTS) or unit.kind == "count"


_AMOUNTS = {(1.0, 0.0, 0.0, 0.0, 0.0, 0.0), (0.0, 3.0, 0.0, 0.0, 0.0, 0.0), (0.0, 0.0, 0.0, 0.0, 1.0, 0.0),
            (0.0, 0.0, 0.0, 0.0, 0.0, 1.0)}


def _constants(tree: Tree, model: Model) -> Tree:
    if isinstance(tree, str):
        return model.constants.get(tree, tree)
    if isinstance(tree, tuple):
        keep = 2 if tree[0] == "call" else 1
        return (*tree[:keep], *(_constants(t, model) for t in tree[keep:]))
    return tree
