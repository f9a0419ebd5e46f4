"""Choosing a plan: what is determined, which defaults it takes, what else would be enough."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from . import formula
from .errors import Missing
from .formula import Tree
from .isolate import isolated
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


@dataclass(frozen=True, slots=True)
class _Frame:
    """What follows from a choice of defaults: the known names, the equations and their order of solution."""

    chosen: tuple[str, ...]
    free: str | None
    known: frozenset[str]
    pairs: list[tuple[Tree, Tree]]
    numbering: list[int]
    order: Order


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

    def plan(self, any_amount: bool = True) -> Plan:
        """The plan.  Raises Missing, with each smallest set that would be enough.

        ``any_amount=False`` leaves out plans that fix an amount which may be anything: such a plan stands only
        if what is wanted turns out not to depend on it.
        """
        wanted = self._sources(self.q.wanted)
        for defaults, free in self._attempts(wanted):
            if free is not None and not any_amount:
                continue
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

    def enough(self, known: frozenset[str], wanted: Sequence[str], links: Sequence[tuple[str, Tree]] = ()) -> bool:
        o = self._order(known, links)
        have = known | {n for _, names in o.blocks for n in names}
        return all(w in have for w in wanted)

    def _attempts(self, wanted: Sequence[str]) -> Iterator[tuple[tuple[str, ...], str | None]]:
        given = self.q.given
        if self.enough(given, wanted):
            yield (), None
        if (free := self._free(given, wanted, ())) is not None:
            yield (), free
        candidates = self._candidates(wanted)
        for size in range(1, min(MOST_DEFAULTS, len(candidates)) + 1):
            for chosen in combinations(candidates, size):
                if self.enough(given | self._numbers(chosen), wanted, self._links(chosen)):
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
        return frozenset(n for n in chosen
                         if n in self.q.filled or not isinstance(self.model.variables[n].default, str))

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
            if n not in known and _amount(m, n) and self.enough(known | {n}, wanted, links):
                return n
        return None

    def _derive(self, chosen: Sequence[str], free: str | None, wanted: Sequence[str]) -> Plan | None:
        frame = self._frame(chosen, free)
        steps: list[Step] = []
        have = set(frame.known)
        for rows, names in frame.order.blocks:
            pairs = [frame.pairs[i] for i in rows]
            if not frozenset().union(*map(self._vars, pairs)) - set(names) <= have:
                continue
            block = _block(pairs, names)
            if block and all(s.roots or self._bracket(s.name, s.residual)[1] is not None for s in block):
                steps += block
                have.update(names)
        return self._plan(frame, steps, wanted) if have.issuperset(wanted) else None

    def restore(self, chosen: tuple[str, ...], free: str | None, steps: Sequence[Step]) -> Plan:
        """A plan from what was kept of it.  Raises ValueError unless this question leads to such a plan.

        What is assumed must be assumable and no more than is needed, and every equation that bears on what
        is wanted must be there to check the steps.
        """
        wanted, q = self._sources(self.q.wanted), self.q
        if len(set(chosen)) < len(chosen) or not set(chosen) <= set(self._candidates(wanted)):
            raise ValueError("a default that may not be used")
        if free is not None and free != self._free(q.given, wanted, chosen):
            raise ValueError("an amount that is not free")
        frame = self._frame(chosen, free)
        for d in chosen:
            rest = [c for c in chosen if c != d]
            if self.enough(q.given | self._numbers(rest) | ({free} if free else set()), wanted, self._links(rest)):
                raise ValueError("a default that is not needed")
        have = set(frame.known)
        for s in steps:
            used = frozenset().union(*map(formula.names, (*s.roots, s.residual or 0.0))) - self.settled
            if s.name in have or not used <= have | ({s.name} if not s.roots else set()):
                raise ValueError("a step out of order")
            if not s.roots and self._bracket(s.name, s.residual)[1] is None:
                raise ValueError("a search without an end")
            have.add(s.name)
        return self._plan(frame, steps, wanted)

    def _frame(self, chosen: Sequence[str], free: str | None) -> _Frame:
        links = self._links(chosen)
        pairs = [*(self.pairs[i] for i in self.usable), *links]
        known = self.q.given | self._numbers(chosen) | ({free} if free else set())
        return _Frame(tuple(chosen), free, known, pairs, [*self.usable, *[-1] * len(links)], self._order(known, links))

    def _plan(self, frame: _Frame, found: Sequence[Step], wanted: Sequence[str]) -> Plan:
        need, of = set(wanted), {}
        for rows, names in reversed(frame.order.blocks):
            of.update(dict.fromkeys(names, frame.numbering[rows[0]]))
            if need & set(names):
                need = need.union(*(self._vars(frame.pairs[i]) for i in rows))
        steps = [self._settled(s, of[s.name]) for s in found if s.name in of]
        have = frame.known | {s.name for s in steps}
        if len(steps) < len(found) or not need <= have:
            raise ValueError("steps that do not find what is wanted")
        needed, extra = [s for s in steps if s.name in need], [s for s in steps if s.name not in need]
        spare = [self.pairs[i] for i in self.q.spare
                 if self._choices(self.pairs[i]) <= self.settled and self._serves(self.pairs[i])]
        early = frame.known | need
        checks = [p for p in (*frame.pairs, *spare) if self._vars(p) <= early]
        late = [p for p in (*frame.pairs, *spare) if self._vars(p) <= have and not self._vars(p) <= early]
        inputs = [n for n in self.model.variables if n in frame.known] + sorted(self.settled)
        return Plan(tuple(inputs), frame.chosen, frame.free, (*needed, *extra), len(needed), (*checks, *late),
                    len(checks), _path(needed, wanted))

    def _settled(self, step: Step, equation: int) -> Step:
        if step.roots:
            return replace(step, equation=equation)
        low, high = self._bracket(step.name, step.residual)
        return replace(step, low=low, high=high or 0.0, equation=equation)

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
        names = [
            n for n, v in m.variables.items()
            if n not in q.given and n not in wanted and not v.hidden and v.role != "since"
        ]
        base = q.given | {n for n in self._candidates(wanted) if n not in wanted} & self._numbers(list(m.variables))
        for known in (base, q.given):
            for size in range(1, MOST_MISSING + 1):
                sets = [s for s in combinations([n for n in names if n not in known], size)
                        if self.enough(known | set(s), wanted)]
                if sets:
                    return sets[:8]
        return []

    def _needs_choice(self, wanted: Sequence[str], absent: Sequence[str]) -> bool:
        whole = Planner(self.model, Question(
            self.q.given, (*self.q.rows, *((c, next(iter(self.model.choices[c].rows))) for c in absent)),
            tuple({*self.q.filled, *(v for c in absent for v in self.model.choices[c].fills)}), self.q.wanted))
        if whole.enough(self.q.given, wanted):
            return True
        return any(True for _ in whole._attempts(wanted))


def _block(pairs: Sequence[tuple[Tree, Tree]], names: Sequence[str]) -> list[Step]:
    """The steps that find the unknowns of a block; none where that is beyond us."""
    if len(names) == 1 and (root := isolated(*pairs[0], names[0])) is not None:
        return [Step(names[0], (root,))]
    from .derive import Unsolvable, solve_block

    try:
        return [Step(f.name, f.roots, f.residual) for f in solve_block(pairs, names)]
    except Unsolvable:
        return []


def _path(steps: Sequence[Step], wanted: Sequence[str]) -> tuple[Step, ...]:
    need, path = set(wanted), []
    for s in reversed(steps):
        if s.name in need:
            path.append(s)
            need = need.union(*map(formula.names, (*s.roots, s.residual or 0.0)))
    return tuple(reversed(path))


def _amount(model: Model, name: str) -> bool:
    """Does a variable grow with the size of the batch (a mass, a volume, money or a count)?"""
    unit = model.unit[name]
    return unit.dimension in _AMOUNTS or unit.kind == "count"


_AMOUNTS = {(1.0, 0.0, 0.0, 0.0, 0.0, 0.0), (0.0, 3.0, 0.0, 0.0, 0.0, 0.0), (0.0, 0.0, 0.0, 0.0, 1.0, 0.0),
            (0.0, 0.0, 0.0, 0.0, 0.0, 1.0)}


def _constants(tree: Tree, model: Model) -> Tree:
    if isinstance(tree, str):
        return model.constants.get(tree, tree)
    if isinstance(tree, tuple):
        keep = 2 if tree[0] == "call" else 1
        return (*tree[:keep], *(_constants(t, model) for t in tree[keep:]))
    return tree
