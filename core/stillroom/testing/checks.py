"""What can be told of any calculator from its declaration alone."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass, field, replace

from hypothesis import HealthCheck, Phase, given, settings
from hypothesis.errors import Unsatisfiable

from .. import formula
from ..errors import Missing, NotAnswered, SeveralRoots, StillroomError
from ..kernel import Kernel
from ..messages import Amount, Line
from ..model import Model
from .directions import Direction, determined, solve_directions
from .drawing import Point, points, request_of, row_numbers, specs

REL = 1e-9


@dataclass(frozen=True, slots=True)
class Problem:
    """``text`` says what is wrong.

    ``kind`` is declaration, points, direction, units, limits, cautions, lines or functions.
    """

    kind: str
    text: str

    def __str__(self) -> str:
        return f"{self.kind}: {self.text}"


@dataclass(slots=True)
class Report:
    """What ``check`` found.

    ``asked`` counts the directions tried; ``told`` are those that honestly ended without one number: several
    fit, or the kernel asks for more than would be enough.
    """

    calculator: str
    problems: list[Problem] = field(default_factory=list)
    asked: int = 0
    points: int = 0
    told: list[str] = field(default_factory=list)

    def add(self, kind: str, text: str) -> None:
        """Keep a problem, once."""
        problem = Problem(kind, text)
        if problem not in self.problems:
            self.problems.append(problem)

    def __str__(self) -> str:
        head = f"{self.calculator}: {self.points} points, {self.asked} directions"
        return "\n".join([head, *map(str, self.problems)])


def check(kernel: Kernel, calculator: str, examples: int = 3, most: int = 4) -> Report:
    """Check one calculator on ``examples`` drawn points, each in up to ``most`` directions a variable.

    Raises RequestError for a calculator that is not there; whatever is wrong with one that is stands in the report.
    """
    model, report = kernel.model(calculator), Report(calculator)
    for text in declaration(model):
        report.add("declaration", text)

    def one(point: Point) -> None:
        if report.points < examples:
            report.points += 1
            _directions(kernel, model, point, report, most)
            _other_units(kernel, model, point, report)
            _limits(kernel, model, point, report)

    def spec(lines: tuple[Line, ...]) -> None:
        _lines(kernel, model, lines, report)

    try:
        _run(given(points(kernel, calculator))(one), examples)
    except Exception as e:  # a stranger's function may raise anything
        report.add("functions", f"a function of its own failed with {type(e).__name__}: {e}")
        return report
    if not report.points:
        report.add("points", "no consistent point was found within bounds, usual ranges and limits")
    if model.calculator.lines:
        _run(given(specs(kernel, calculator))(spec), examples)
    return report


def _run(test: Callable[[], None], examples: int) -> None:
    quiet = settings(max_examples=examples, deadline=None, database=None, derandomize=True, phases=[Phase.generate],
                     suppress_health_check=list(HealthCheck))
    with suppress(Unsatisfiable):
        quiet(test)()


def declaration(model: Model) -> Iterator[str]:
    """What a declaration should not be without: sources, examples, cautions for its limits, words, dimensions."""
    c = model.calculator
    try:
        model.check()
    except StillroomError as e:
        yield str(e)
    if not c.sources:
        yield "no source is named"
    if not c.examples:
        yield "no example is given"
    for question, answer in c.examples:
        if not question.strip() or not answer.strip():
            yield f"the example {question!r} lacks its question or its answer"
    for k in c.choices.values():
        if not k.rows:
            yield f"the choice {k.name} has no rows"
        for row in k.rows.values():
            if not row.source:
                yield f"the row {row.id} of {k.name} names no source"
            for target, column in k.fills.items():
                value = row.values.get(column)
                if value not in (None, "") and not _inside(model, target, float(value)):
                    yield f"{target} of the row {row.id} is {value}, outside its bounds"
    for v in c.variables.values():
        if isinstance(v.default, (int, float)) and not _inside(model, v.name, float(v.default)):
            yield f"the default of {v.name} is {v.default}, outside its bounds"
        if v.usual and not (v.usual[0] < v.usual[1] and all(_inside(model, v.name, x) for x in v.usual)):
            yield f"the usual range of {v.name} is {v.usual}, no range within its bounds"
    for x in c.limits:
        if not x.reason.strip():
            yield f"the limit {x.test!r} gives no reason"


def _inside(model: Model, name: str, value: float) -> bool:
    v = model.variables[name]
    return (v.low is None or value >= v.low) and (v.high is None or value <= v.high)


def _directions(kernel: Kernel, model: Model, point: Point, report: Report, most: int) -> None:
    for d in solve_directions(kernel, model.id, point.rows, most):
        if d.hidden not in point.values or not point.values.keys() >= {*d.given} or not determined(model, point, d):
            continue
        report.asked += 1
        problem = _again(kernel, model, point, d, report)
        if problem:
            report.add("direction", f"{d}: {problem}")


def _again(kernel: Kernel, model: Model, point: Point, d: Direction, report: Report) -> str:
    true, solver, rows = point.values[d.hidden], kernel.solver(model.id), row_numbers(model, point.rows)
    given = {n: point.values[n] for n in d.given}
    try:
        found = solver.solve(given, point.rows, (d.hidden,))
    except (SeveralRoots, Missing) as e:
        report.told.append(f"{d}: {e}")
        return ""
    except NotAnswered as e:
        if not rows.keys() >= {*solver.plan(solver.question(given, point.rows, (d.hidden,))).defaults}:
            report.told.append(f"{d}: {e}")
            return ""
        return f"{type(e).__name__}: {e} (it is {model.unit[d.hidden].from_base(true):.6g} at {_say(model, point)})"
    value = found.values[d.hidden]
    if abs(value - true) <= REL * max(abs(value), abs(true)) or _as_good(model, point, d, value):
        return ""
    reason = [n for n in found.plan.defaults if n not in rows] or found.usual_chose
    if reason:
        report.told.append(f"{d}: another value, by what is assumed or usual of {', '.join(reason)}")
        return ""
    unit = model.unit[d.hidden]
    return f"found {unit.from_base(value):.12g}, not {unit.from_base(true):.12g}, at {_say(model, point)}"


def _as_good(model: Model, point: Point, d: Direction, value: float) -> bool:
    """Does the other value satisfy every equation of the point to rounding?  Then no arithmetic can tell them apart."""
    env = {**model.constants, **point.rows, **point.values, d.hidden: value}
    functions = {**formula.BUILTINS, **{n: model.base_function(n) for n in model.functions}}
    for i, (a, b) in enumerate(model.equations):
        if d.hidden in model.names[i] and formula.names(a) | formula.names(b) <= env.keys():
            try:
                left, right = formula.evaluate(a, env, functions), formula.evaluate(b, env, functions)
            except (ValueError, ArithmeticError, KeyError):
                continue
            if abs(left - right) > 1e-13 * max(abs(left), abs(right)):
                return False
    return True


def _say(model: Model, point: Point) -> str:
    said = [f"{n} {model.unit[n].from_base(v):.6g} {model.unit[n].name}" for n, v in point.values.items()
            if n in point.drawn]
    return ", ".join([*said, *point.rows.values()])


def _other_units(kernel: Kernel, model: Model, point: Point, report: Report) -> None:
    request = request_of(kernel, model, point)
    base = kernel.answer(request)
    if base.status != "answered":
        report.add("points", f"{base.reason} (at {_say(model, point)})")
        return
    for text in model.calculator.cautions:
        if text not in base.cautions:
            report.add("cautions", f"the answer does not say: {text}")
    for name in point.drawn:
        unit = model.unit[name]
        for other in kernel.units:
            if other.sized and other.name != unit.name and (other.dimension, other.kind) == (unit.dimension, unit.kind):
                value = other.from_base(point.values[name])
                said = replace(request, given={**request.given, name: Amount(value, other.name, other.to_base(value))})
                answer = kernel.answer(said)
                if answer.status != "answered":
                    report.add("units", f"{name} in {other.name}: {answer.reason}")
                elif not _close(base.answer[0].base, answer.answer[0].base, 1e-7):
                    report.add("units", f"{name} in {other.name}: {base.answer[0].name} is no longer the same")
                break


def _close(a: float, b: float, rel: float) -> bool:
    return abs(a - b) <= rel * max(abs(a), abs(b))


def _limits(kernel: Kernel, model: Model, point: Point, report: Report) -> None:
    """A point that was answered must hold every refusing limit that can be worked out from it."""
    env = {**model.constants, **point.rows, **point.values}
    functions = {**formula.BUILTINS, **{n: model.base_function(n) for n in model.functions}}
    for x in model.calculator.limits:
        sign, a, b = formula.comparison(x.test)
        if x.action != "caution" and formula.names(a) | formula.names(b) <= env.keys():
            left, right = formula.evaluate(a, env, functions), formula.evaluate(b, env, functions)
            over = left - right if sign in ("<", "<=") else right - left
            if over > 1e-6 * max(abs(left), abs(right)):
                report.add("limits", f"{x.test} does not hold, yet it was answered, at {_say(model, point)}")


def _lines(kernel: Kernel, model: Model, lines: tuple[Line, ...], report: Report) -> None:
    """The order of the lines and the units of their amounts change nothing."""
    assert model.calculator.lines is not None
    wanted = (*model.calculator.lines.sums, *model.calculator.lines.least)[:1]
    if not wanted:
        return
    spoken = [replace(x, amount=Amount(x.amount.value / 10, "centiliter", x.amount.base)) if x.amount else x
              for x in lines]
    first, *others = [kernel.answer(kernel.request(model.id, {}, wanted, spec=tuple(s)))
                      for s in (lines, tuple(reversed(lines)), spoken)]
    if first.status != "answered":
        report.add("lines", f"{wanted[0]} of {len(lines)} liquids: {first.reason}")
    for other in others:
        if (other.status, first.status) == ("answered", "answered") and not _close(
                first.answer[0].base, other.answer[0].base, REL):
            report.add("lines", f"{wanted[0]} depends on how the lines are said")
