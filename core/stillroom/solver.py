"""Solving: run a kept plan on numbers, and let nothing out that its equations do not bear out."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass, replace
from functools import cache
from importlib.metadata import version
from pathlib import Path
from types import MappingProxyType
from typing import Any

from . import formula
from . import plan as plans
from .errors import Contradiction, Missing, NotAnswered, OutOfBounds, Refused, SeveralRoots
from .files import keep, kept, stamp, sum_of
from .isolate import bound
from .model import Model
from .plan import Plan, Runner
from .planner import Planner, Question
from .ready import Ready, bounds, make_ready, same, usable
from .units import NONE

MOST_PLANS = 400
FORMAT = 8


@dataclass(slots=True, eq=False)
class Solution:
    """What is known after solving, on the base units, and where each value came from."""

    values: Mapping[str, float]
    origin: Mapping[str, str]
    plan: Plan
    usual_chose: tuple[str, ...] = ()

    @property
    def used(self) -> frozenset[str]:
        """The names on which what was wanted rests."""
        return self.plan.used


_Call = tuple[Sequence[str], ...]


@dataclass(slots=True, eq=False)
class _Kept:
    """A plan made ready for the calls that give, choose and want the same names."""

    question: Question
    run: Ready
    origin: Mapping[str, str]
    plan: Plan


class _Depends(Exception):
    """What is wanted depends on the amount that was taken to be free."""


class Solver:
    """Keeps the plans of one calculator, in memory and in one file."""

    def __init__(self, model: Model, cache: Path | None = None):
        self.model = model
        self._path = cache / f"{model.id}-{model.fingerprint}-{FORMAT}.json" if cache else None
        self._plans: dict[Question, Plan | Missing] = {}
        self._runners: dict[tuple[Question, str], Runner] = {}
        self._ready: dict[_Call, _Kept | None] = {}
        self._spare: tuple[int, ...] | None = None
        self._file: dict[str, Any] | None = None
        self._stamp = 0
        self._read_back: set[Question] = set()
        self._blaming = False

    def solve(self, given: Mapping[str, float], rows: Mapping[str, str], wanted: Sequence[str]) -> Solution:
        """Find ``wanted`` from base numbers and chosen rows.

        Raises Missing, Contradiction, OutOfBounds, SeveralRoots or Refused.
        """
        call = (*given, *rows.items(), tuple(wanted))
        kept = self._ready.get(call)
        if kept is not None and (values := kept.run(given)) is not None:
            return Solution(values, kept.origin, kept.plan)
        solution = self._the_long_way(given, rows, wanted)
        if kept is None:
            self._prepare(call, solution, given, rows, wanted)
        return solution

    def _prepare(self, call: _Call, solution: Solution, given: Mapping[str, float], rows: Mapping[str, str],
                 wanted: Sequence[str]) -> None:
        """Make a plan ready when it is used for the second time."""
        if call not in self._ready:
            while len(self._ready) >= MOST_PLANS:
                del self._ready[next(iter(self._ready))]
            self._ready[call] = None
        elif usable(solution.plan) and not solution.usual_chose:
            assumed = self._assumed(solution.plan, given, self._filled(given, rows))
            run = make_ready(solution.plan, self.model, tuple(given), assumed, rows)
            question = self.question(given, rows, wanted)
            self._ready[call] = _Kept(question, run, MappingProxyType(dict(solution.origin)), solution.plan)

    def _the_long_way(self, given: Mapping[str, float], rows: Mapping[str, str], wanted: Sequence[str]) -> Solution:
        for name, value in given.items():
            self.inside(name, value)
        filled = self._filled(given, rows)
        question = self.question(given, rows, wanted)
        for _ in range(2):
            try:
                return self._solved(question, given, filled, rows)
            except _Depends:
                self._again(question, any_amount=False)
            except NotAnswered:
                if question not in self._read_back:
                    raise
                self._again(question)
        return self._solved(question, given, filled, rows)

    def _again(self, question: Question, any_amount: bool = True) -> None:
        self._forget(question)
        self._plans[question] = self._derive(question, any_amount)

    def _filled(self, given: Iterable[str], rows: Mapping[str, str]) -> dict[str, float]:
        return {v: float(number) for c, k in self.model.choices.items() if c in rows
                for v, column in k.fills.items() if v not in given
                and (number := k.rows[rows[c]].values.get(column)) not in (None, "")}

    def question(self, given: Iterable[str], rows: Mapping[str, str], wanted: Sequence[str]) -> Question:
        """What a plan is kept under: the names that are given, the chosen rows and what is wanted."""
        names = frozenset(given)
        return Question(names, tuple(sorted(rows.items())), tuple(sorted(self._filled(names, rows))), tuple(wanted))

    def _solved(self, question: Question, given: Mapping[str, float], filled: Mapping[str, float],
                rows: Mapping[str, str]) -> Solution:
        plan = self.plan(question)
        values, usual_chose = self._run(question, plan, {**given, **self._assumed(plan, given, filled)}, rows)
        assumed = set(plan.defaults)
        origin = {n: "given" if n in given else "assumed" if n in assumed else "found" for n in values}
        return Solution(values, origin, plan, usual_chose)

    def _assumed(self, plan: Plan, given: Mapping[str, float], filled: Mapping[str, float]) -> dict[str, float]:
        """Base numbers of the plan's inputs that nobody gave: from the chosen rows, else the defaults."""
        m = self.model
        return {n: m.unit[n].to_base(filled[n] if n in filled else float(m.variables[n].default or 0.0))
                for n in plan.inputs if n not in given and (n in filled or n in plan.defaults)}

    def plan(self, question: Question) -> Plan:
        """The kept plan of a question; derived, and kept, the first time.  Raises Missing.

        The least recently used plan makes room where there are too many.
        """
        plan = self._plans.pop(question, None)
        if plan is None:
            plan = self._from_file(question) or self._derive(question)
            while len(self._plans) >= MOST_PLANS:
                self._forget(next(iter(self._plans)))
        self._plans[question] = plan
        if isinstance(plan, Missing):
            raise Missing(plan.wanted, plan.sets)
        return plan

    def _forget(self, question: Question) -> None:
        self._plans.pop(question, None)
        self._read_back.discard(question)
        self._ready = {c: k for c, k in self._ready.items() if k is None or k.question != question}
        for part in ("needed", "extra"):
            self._runners.pop((question, part), None)

    def _planner(self, question: Question) -> Planner:
        return Planner(self.model, replace(question, spare=self.spare()))

    def _derive(self, question: Question, any_amount: bool = True) -> Plan | Missing:
        made: Plan | Missing
        try:
            made = self._planner(question).plan(any_amount)
            data: Any = plans.to_json(made)
        except Missing as e:
            made, data = e, {"missing": [list(s) for s in e.sets]}
        self._keep(_key(question), data)
        return made

    def spare(self) -> tuple[int, ...]:
        """Equations that follow from the others, and so serve only as checks."""
        if self._spare is None:
            self._spare = self._found_spare()
        return self._spare

    def _found_spare(self) -> tuple[int, ...]:
        data = self._read().get("spare")
        if isinstance(data, list) and all(type(i) is int and 0 <= i < len(self.model.equations) for i in data):
            return tuple(data)
        pairs, variables = self.model.equations, self.model.variables.keys()
        among = bound([(formula.names(a) | formula.names(b)) & variables for a, b in pairs])
        if not among:
            return ()
        from .derive import redundant

        found = tuple(among[i] for i in redundant([pairs[i] for i in among]))
        self._keep("spare", list(found))
        return found

    def _from_file(self, question: Question) -> Plan | Missing | None:
        key = _key(question)
        data = self._read().get(key) or self._read(again=self._stamp != stamp(self._path)).get(key)
        if data is None:
            return None
        try:
            if "missing" in data:
                names = set(self.model.variables) | set(self.model.choices)
                sets = [tuple(s) for s in data["missing"]]
                return Missing(question.wanted, sets) if all(n in names for s in sets for n in s) else None
            plan = self._planner(question).restore(*plans.from_json(data, self.model))
        except (ValueError, KeyError, TypeError, IndexError):
            return None
        self._read_back.add(question)
        return plan

    def _read(self, again: bool = False) -> dict[str, Any]:
        if self._file is None or again:
            self._stamp = stamp(self._path)
            data = kept(self._path)
            own = (isinstance(data, dict) and data.get("made by") == self._made_by()
                   and isinstance(data.get("plans"), dict) and data.get("sum") == sum_of(data["plans"]))
            self._file = {**(self._file or {}), **data["plans"]} if own else self._file or {}
        return self._file

    def _keep(self, key: str, data: Any) -> None:
        on_disk = self._read(again=True)
        on_disk[key] = data
        while len(on_disk) > MOST_PLANS:
            del on_disk[next(k for k in on_disk if k != "spare")]
        keep(self._path, json.dumps({"made by": self._made_by(), "plans": on_disk, "sum": sum_of(on_disk)},
                                    separators=(",", ":")))
        self._stamp = stamp(self._path)

    def _made_by(self) -> list[str]:
        return [str(FORMAT), self.model.fingerprint, _algebra()]

    def _run(self, question: Question, plan: Plan, inputs: dict[str, float],
             rows: Mapping[str, str]) -> tuple[dict[str, float], tuple[str, ...]]:
        if plan.free is None:
            return self._all(question, plan, inputs, rows)
        small, chose = self._all(question, plan, {**inputs, plan.free: 100.0}, rows)
        large, _ = self._all(question, plan, {**inputs, plan.free: 700.0}, rows)
        agree = {n: v for n, v in small.items() if same(v, large.get(n, float("nan")))}
        if not all(w in agree for w in question.wanted if w in small):
            raise _Depends
        return agree, chose

    def _all(self, question: Question, plan: Plan, inputs: Mapping[str, float],
             rows: Mapping[str, str]) -> tuple[dict[str, float], tuple[str, ...]]:
        values, chose = self._roots(question, plan, inputs, rows)
        if len(plan.steps) > plan.needed:
            try:
                more, _ = self._part(question, plan, {**inputs, **values}, rows, "extra")
                for n, v in more.items():
                    self.inside(n, v)
                values.update(more)
            except (ValueError, ZeroDivisionError, OverflowError, OutOfBounds):
                self._as_usual(question, plan, inputs, rows)
        return {**{n: inputs[n] for n in plan.inputs if n in inputs}, **inputs, **values}, chose

    def _as_usual(self, question: Question, plan: Plan, inputs: Mapping[str, float], rows: Mapping[str, str]) -> None:
        """Raise Contradiction where given values that do not bear on what is wanted fit no value at all of something
        that has a usual one, and speak against that (2 l of rich syrup from 900 g of sugar, at no temperature)."""
        if self._blaming:
            return
        for step in plan.steps[plan.needed:]:
            usual = self.model.variables[step.name].default
            if isinstance(usual, int | float):
                with suppress(Missing, OutOfBounds, SeveralRoots, Refused):
                    self.solve({**inputs, step.name: self.model.unit[step.name].to_base(usual)}, rows, question.wanted)

    def _roots(self, question: Question, plan: Plan, inputs: Mapping[str, float],
               rows: Mapping[str, str]) -> tuple[dict[str, float], tuple[str, ...]]:
        good: list[dict[str, float]] = []
        queue: list[tuple[int, ...]] = [()]
        problem: Exception | None = None
        while queue:
            pick = queue.pop()
            counts: list[int] = []
            try:
                values, _ = self._part(question, plan, inputs, rows, "needed", pick, counts)
                for n, v in values.items():
                    self.inside(n, v)
                good.append(values)
            except ZeroDivisionError:
                problem = problem or OutOfBounds("These values would divide by nothing: one of them cannot be zero.")
            except OverflowError:
                problem = problem or OutOfBounds("These values are too large to work with.")
            except TypeError:  # a root of a negative number met a table or a comparison
                problem = problem or OutOfBounds("No possible value fits these numbers.")
            except ValueError as e:
                problem = problem or Refused(str(e))
            except (OutOfBounds, Contradiction) as e:
                problem = problem or e
            used = (*pick, *([0] * (len(counts) - len(pick))))
            for i in range(len(pick), len(counts)):
                queue += [(*used[:i], k) for k in range(1, counts[i])]
        distinct = [g for i, g in enumerate(good) if not any(all(same(g[n], h[n]) for n in g) for h in good[:i])]
        if not distinct:
            assert problem is not None
            raise problem
        if len(distinct) == 1:
            return distinct[0], ()
        usual = [g for g in distinct if all(self._usual(n, v) for n, v in g.items())]
        if len(usual) == 1:
            return usual[0], tuple(n for n in usual[0] if any(not self._usual(n, g[n]) for g in distinct))
        name = next(n for n in distinct[0] if not same(distinct[0][n], distinct[1][n]))
        raise SeveralRoots(name, [self.say(name, g[name]) for g in distinct])

    def _part(self, question: Question, plan: Plan, inputs: Mapping[str, float], rows: Mapping[str, str], part: str,
              pick: Sequence[int] = (), counts: list[int] | None = None) -> tuple[dict[str, float], None]:
        run = self._runners.get((question, part))
        if run is None:
            run = self._runners[question, part] = plans.build(plan, self.model, part)
        arguments: list[Any] = [inputs[n] if n in inputs else rows[n] for n in plan.inputs]
        steps = plan.steps[:plan.needed] if part == "needed" else plan.steps[plan.needed:]
        if part == "extra":
            arguments += [inputs[s.name] for s in plan.steps[:plan.needed]]
        found, sides = run(*arguments, pick, counts if counts is not None else [])
        for v in found:
            if isinstance(v, complex) or v != v or v in (float("inf"), float("-inf")):
                raise OutOfBounds("No possible value fits these numbers.")
        for i in range(0, len(sides), 2):
            if not same(sides[i], sides[i + 1]):
                self._contradiction(question, inputs, rows, plan.checks[i // 2])
        return dict(zip((s.name for s in steps), found, strict=True)), None

    def _contradiction(self, question: Question, inputs: Mapping[str, float], rows: Mapping[str, str],
                       check: tuple[formula.Tree, formula.Tree]) -> None:
        """Name the given value that the others speak against; on the way there it does not matter which it is."""
        if self._blaming:
            raise OutOfBounds("These values do not fit together.")
        m = self.model
        names = [n for n in m.variables if n in question.given]
        involved = formula.names(check[0]) | formula.names(check[1])
        unit = m.unit
        names.sort(key=lambda n: (n not in involved, unit[n].kind != "ww" and unit[n].dimension != NONE))
        for name in names:
            rest = {n: inputs[n] for n in question.given if n != name}
            try:
                with self.blaming_nobody():
                    solution = self.solve(rest, rows, (name,))
            except NotAnswered:
                continue
            implied = solution.values[name]
            if solution.origin[name] == "found" and not same(implied, inputs[name]):
                taken = [f"{m.variables[n].title} {self.say(n, solution.values[n])}" for n in solution.plan.defaults
                         if n in solution.values and not m.variables[n].hidden]
                raise Contradiction(name, self.say(name, inputs[name]), self.say(name, implied), taken)
        raise OutOfBounds("These values do not fit together.")

    @contextmanager
    def blaming_nobody(self) -> Iterator[None]:
        """Where values are only tried, it does not matter which of them speaks against the others."""
        before, self._blaming = self._blaming, True
        try:
            yield
        finally:
            self._blaming = before

    def inside(self, name: str, value: float) -> None:
        """Raise OutOfBounds for a value, on the base unit, that its variable cannot have."""
        low, high, slack = bounds(self.model, name)
        if low is not None and value < low - slack:
            raise OutOfBounds(f"The {self.model.variables[name].title} would be {self.say(name, value)}, "
                              f"which cannot be: it starts at {self.say(name, low)}.")
        if high is not None and value > high + slack:
            raise OutOfBounds(f"The {self.model.variables[name].title} would be {self.say(name, value)}, "
                              f"which cannot be: it ends at {self.say(name, high)}.")

    def _usual(self, name: str, value: float) -> bool:
        usual = self.model.base_usual(name)
        return usual is None or usual[0] <= value <= usual[1]

    def say(self, name: str, base: float) -> str:
        """A base number as text in the variable's own unit."""
        unit = self.model.units[self.model.variables[name].show]
        return f"{unit.from_base(base):.6g} {unit.symbol}".strip()


@cache
def _algebra() -> str:
    """Whose algebra the plans are; looked up once, as that reads files."""
    return version("sympy")


def _key(q: Question) -> str:
    return json.dumps([sorted(q.given), q.rows, q.filled, q.wanted])
