"""From a request to an answer: limits, the spec's sums, the solution, whole things, and what to say of it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING

from . import formula
from .cells import find_cell
from .errors import Missing, NotAnswered, OutOfBounds, Refused, RequestError, Unlikely
from .messages import Answer, Request, Value
from .specs import sums_of, values_of_lines
from .units import PERCENTS, Unit, Units
from .working import work_out

if TYPE_CHECKING:
    from .kernel import Kernel
    from .solver import Solution


class Answering:
    """Answers one request of one kernel."""

    def __init__(self, kernel: Kernel, request: Request):
        self.kernel, self.request = kernel, request
        self.model = kernel.model(request.calculator)
        self.units: Units = kernel.units.adjusted(request.sizes)
        self.rows: dict[str, str] = {}
        self.assumptions: dict[str, None] = {}
        self.cautions: dict[str, None] = {}
        self.sources: dict[str, None] = {}

    def answer(self) -> Answer:
        """The answer; every kind of failure is one of its statuses."""
        id = self.request.calculator
        try:
            return self._answer()
        except Missing as e:
            choices: tuple[str, ...] = ()
            if len(e.sets) == 1 and len(e.sets[0]) == 1 and e.sets[0][0] in self.model.choices:
                k = self.model.choices[e.sets[0][0]]
                choices = tuple(r.words[0] for r in k.rows.values())
            return Answer("asks", id, reason=str(e), missing=e.sets, choices=choices, rows=dict(self.rows),
                          cautions=tuple(self.cautions))
        except NotAnswered as e:
            return Answer("declined", id, reason=str(e), rows=dict(self.rows), cautions=tuple(self.cautions),
                          unlikely=isinstance(e, OutOfBounds | Unlikely))

    def _answer(self) -> Answer:
        m, r = self.model, self.request
        self._choose()
        given = self._given()
        sums = sums_of(self.kernel, m, r)
        cell = next((found for lacking in sums.alone() if given
                     and (found := find_cell(self.kernel, m, r, given, self.rows, lacking))), None)
        if cell:
            r = self.request = cell.request
            sums = sums_of(self.kernel, m, r)
        known = {**given, **sums.values}
        solver = self.kernel.solver(m.id)
        for name in given:
            solver.inside(name, given[name])
        self._limits(known)
        lines = set(m.calculator.lines.each) if m.calculator.lines else set()
        wanted = tuple(w for w in r.wanted if w in m.variables) or (() if cell else tuple(self._implied(known)))
        for w in r.wanted:
            if w not in m.variables and w not in lines and not any(x.thing == w for x in r.spec) and (
                    cell is None or w != cell.name):
                raise RequestError(f"{m.id} has no {w!r}; it has {', '.join(m.variables)}.")
        try:
            solution = solver.solve(known, self.rows, wanted)
        except Missing as e:
            raise sums.explain(e, lambda more: solver.solve({**known, **more}, self.rows, wanted)) from None
        values = dict(solution.values)
        whole = self._whole(values)
        self._limits({**values, **whole})
        self._say(solution, given)
        notes, sources = sums.told({*solution.used, *wanted, *(cell.used if cell else ())})
        self.assumptions.update(notes), self.sources.update(sources)
        each = values_of_lines(m, r, values)
        all_found = {**values, **whole}
        if lost := [w for w in wanted if w not in all_found]:
            raise Missing(lost, [])
        answer = [self._value(w, all_found[w], "found", rounded=True) for w in wanted]
        if each and (lines & set(r.wanted) or not set(r.wanted) & set(m.variables)):
            named = [w for w in r.wanted if w in each]
            answer = [*self._each({w: each[w] for w in dict.fromkeys((*named, *each))}), *answer]
        elif any(w in each for w in r.wanted):
            answer = [*self._each({w: each[w] for w in r.wanted if w in each}), *answer]
        if cell and cell.name not in each:
            answer = [*self._each({cell.name: (cell.base, cell.unit)}), *answer]
        all_values = [self._value(n, v, "found" if n in sums.values else solution.origin.get(n, "found"))
                      for n, v in {**{k: whole[k] for k in whole if k not in values}, **values}.items()
                      if n in m.variables and not (m.variables[n].hidden and n not in wanted)]
        return Answer(
            "answered", m.id, tuple(answer), (*all_values, *self._each(each)), tuple(self.assumptions),
            tuple(self.cautions), self._method(values, whole),
            work_out(m, solution, self.units, whole), tuple(self.sources), rows=dict(self.rows))

    def _choose(self) -> None:
        for name, k in self.model.choices.items():
            row = self.request.choices.get(name, k.default)
            if row is None:
                continue
            if row not in k.rows:
                raise RequestError(f"{self.model.id}: {name} cannot be {row!r}; it is one of {', '.join(k.rows)}.")
            if k.rows[row].refuse:
                raise Refused(k.rows[row].refuse)
            self.rows[name] = row
            if k.rows[row].caution:
                self.cautions[k.rows[row].caution] = None
            if assumes := k.rows[row].values.get("assumes"):
                self.assumptions[str(assumes)] = None

    def _given(self) -> dict[str, float]:
        given = {}
        for name, amount in self.request.given.items():
            if name not in self.model.variables:
                raise RequestError(f"{self.model.id} has no {name!r}; it has {', '.join(self.model.variables)}.")
            self._fits(name, self.units[amount.unit])
            if not abs(amount.base) < 1e15:
                raise OutOfBounds(f"The {self.model.variables[name].title} is too large to work with.")
            given[name] = amount.base
        return given

    def _implied(self, known: Iterable[str]) -> list[str]:
        c = self.model.calculator
        have = set(known)
        for name in c.asked or tuple(self.model.variables):
            if name not in have:
                return [name]
        raise RequestError(f"{self.model.id}: every value is given already; say what is to be found.")

    def _limits(self, known: Mapping[str, float]) -> None:
        m = self.model
        if not m.limits:
            return
        known = {**self._supplied(), **known}
        env = {**m.constants, **known, **self.rows}
        functions = m.base_functions
        for x, sign, a, b, names in m.limits:
            if not names <= env.keys():
                continue
            try:
                left, right = formula.evaluate(a, env, functions), formula.evaluate(b, env, functions)
            except (ValueError, ArithmeticError, TypeError) as e:
                if x.action != "caution":
                    raise Refused(f"It cannot be checked whether {x.test.replace('_', ' ')}: {e}.") from None
                self.cautions[self._fill(x.reason, known)] = None
                continue
            slack = 1e-9 * max(abs(left), abs(right))
            holds = {"<=": left <= right + slack, ">=": left >= right - slack,
                     "<": left < right - slack, ">": left > right + slack}[sign]
            if not holds and x.action != "caution":
                raise (Refused if x.action == "refuse" else Unlikely)(self._fill(x.reason, known))
            if not holds:
                self.cautions[self._fill(x.reason, known)] = None

    def _supplied(self) -> dict[str, float]:
        """Base numbers that the chosen rows supply: what a limit may compare with, solved for or not."""
        m = self.model
        return {v: m.unit[v].to_base(float(number)) for c, row in self.rows.items()
                for v, column in m.choices[c].fills.items()
                if (number := m.choices[c].rows[row].values.get(column)) not in (None, "")}

    def _whole(self, values: dict[str, float]) -> dict[str, float]:
        m, whole = self.model, {}
        for name, v in m.variables.items():
            if v.whole and name in values and not any(s.name == name for s in m.calculator.steps):
                unit = m.unit[name]
                exact = unit.from_base(values[name])
                whole[name] = unit.to_base(formula.BUILTINS["ceil" if v.whole == "up" else "floor"](exact))
        for s in m.calculator.steps:
            tree = formula.parse(s.formula)
            env = {**m.constants, **values, **whole}
            if formula.names(tree) <= env.keys() and s.name not in self.request.given:
                try:
                    whole[s.name] = formula.evaluate(tree, env)
                except ZeroDivisionError:
                    raise OutOfBounds("These values would divide by nothing: one of them cannot be zero.") from None
        return whole

    def _say(self, solution: Solution, given: Mapping[str, float]) -> None:
        m, r = self.model, self.request
        needed = solution.used | set(given)
        for name in solution.plan.defaults:
            if name not in solution.values:
                continue
            v = m.variables[name]
            value = self.say(name, solution.values[name])
            by_row = [m.choices[c].rows[row] for c, row in self.rows.items() if name in m.choices[c].fills]
            if v.hidden:
                if v.note and not by_row:
                    self.assumptions[v.note] = None
                continue
            if by_row:
                self.assumptions[f"{v.title}: {value} for {by_row[0].words[0]} ({by_row[0].source})"] = None
            else:
                self.assumptions[f"{v.title}: {value}{f' ({v.note})' if v.note else ''}"] = None
        for name, k in m.choices.items():
            if name in self.rows and name not in r.choices and k.note:
                self.assumptions[k.note] = None
        for name in solution.usual_chose:
            self.assumptions[f"the usual range of {m.variables[name].title} chose between two solutions"] = None
        for name, amount in r.given.items():
            unit, said = m.unit[name], self.units[amount.unit]
            if said.name == "percent" and unit.kind in ("ww", "wv"):
                self.assumptions["percent is by mass of the finished solution (w/w)" if unit.kind == "ww"
                                 else "1 percent is 10 g per litre (w/v)"] = None
            self._noted(said)
        for name in r.units.values():
            self._noted(self.units[name])
        for text in m.calculator.conventions:
            self.assumptions[text] = None
        for name, f in m.functions.items():
            if f.source and name in solution.plan.called:
                self.sources[f.source] = None
        for c, row in self.rows.items():
            if needed & set(m.choices[c].fills):
                self.sources[m.choices[c].rows[row].source] = None
        for s in m.calculator.sources:
            self.sources[s] = None
        for text in m.calculator.cautions:
            self.cautions[text] = None
        for name, v in m.variables.items():
            if v.usual and name in solution.values:
                low, high = m.base_usual(name)  # type: ignore[misc]
                inside = low * (1 - 1e-9) <= solution.values[name] <= high * (1 + 1e-9)
                if not inside and name in needed | set(r.wanted):
                    self.cautions[f"{v.title} {self.say(name, solution.values[name])} is outside the usual "
                                  f"{self.say(name, low)} to {self.say(name, high)}."] = None

    def _noted(self, unit: Unit) -> None:
        """What a unit takes for granted, unless the chat has said its own size of it."""
        if unit.note and unit.name not in self.request.sizes:
            self.assumptions[unit.note] = None

    def _unit(self, name: str) -> Unit:
        asked = self.request.units.get(name)
        unit = self.units[asked or self.model.variables[name].show]
        self._fits(name, unit)
        return unit

    def _fits(self, name: str, said: Unit) -> None:
        """Raises RequestError for a unit of another dimension, or for the other kind of percent."""
        unit = self.model.unit[name]
        if unit.dimension != said.dimension or {unit.kind, said.kind} == {"ww", "vv"}:
            raise RequestError(f"{name} is measured in {unit.name}, not in {said.name}.")

    def _value(self, name: str, base: float, origin: str, rounded: bool = False) -> Value:
        unit = self._unit(name)
        if origin == "given" and name in self.request.given:
            said = self.request.given[name]
            return Value(name, said.value, self.units[said.unit].json_name, origin, base)
        value = unit.from_base(base)
        v = self.model.variables[name]
        if rounded and v.whole and unit.dimension == self.model.unit[name].dimension:
            nearest = round(value)
            value = float(nearest) if abs(value - nearest) < 1e-9 * max(1.0, abs(value)) else value
        return Value(name, value, unit.json_name, origin, base)

    def _each(self, each: Mapping[str, tuple[float, Unit]]) -> list[Value]:
        return [Value(thing, unit.from_base(base), unit.json_name, "found", base)
                for thing, (base, unit) in each.items()]

    def _method(self, values: Mapping[str, float], whole: Mapping[str, float]) -> tuple[str, ...]:
        known = {**values, **whole}
        return tuple(text for line in self.model.calculator.method
                     if (text := self._fill(line, known).strip()) and "{" not in text)

    def _fill(self, text: str, known: Mapping[str, float]) -> str:
        for name in self.model.variables:
            if "{" + name + "}" in text and name in known:
                text = text.replace("{" + name + "}", self._as_given(name) or self.say(name, known[name]))
        for name, row in self.rows.items():
            chosen = self.model.choices[name].rows[row]
            text = text.replace("{" + name + "}", chosen.words[0])
            for column in re.findall(r"\{" + name + r"\.(\w+)\}", text):
                text = text.replace("{" + name + "." + column + "}", str(chosen.values.get(column) or ""))
        return text

    def _as_given(self, name: str) -> str:
        """A given amount in the unit in which it was given, if that has a symbol."""
        amount = self.request.given.get(name)
        symbol = self.units[amount.unit].symbol if amount is not None else ""
        return f"{say_number(amount.value)} {symbol}" if amount is not None and symbol else ""

    def say(self, name: str, base: float) -> str:
        """A base number as text, in the unit in which it will be answered."""
        unit = self._unit(name)
        return say_number(unit.from_base(base)) + (f" {unit.symbol}" if unit.symbol else "")


def say_number(value: float) -> str:
    """A number with about three significant digits, as one reads it off a scale."""
    if abs(value) >= 100:
        return f"{value:.1f}".rstrip("0").rstrip(".") if abs(value) < 1000 else f"{value:.0f}"
    return f"{value:.3g}" if abs(value) >= 1e-4 or value == 0 else f"{value:.2e}"


__all__ = ["PERCENTS", "Answering", "say_number"]
