"""The directions in which a calculator can be asked: what hides, and which sets find it again."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations

from .. import formula
from ..kernel import Kernel
from ..model import Model
from .drawing import Point, assumed, planner

MOST = 4


@dataclass(frozen=True, slots=True)
class Direction:
    """``hidden`` is to be found from ``given``; no smaller part of ``given`` determines it."""

    given: tuple[str, ...]
    hidden: str

    def __str__(self) -> str:
        return f"{self.hidden} from {', '.join(self.given) or 'the rows alone'}"


def solve_directions(kernel: Kernel, calculator: str, rows: Mapping[str, str] | None = None,
                     most: int = MOST) -> Iterator[Direction]:
    """Every visible variable with up to ``most`` smallest sets of other visible ones that determine it.

    ``rows`` are the chosen row ids (the defaults, if not said).  What the rows supply and hidden defaults are
    taken as known; no other default is.  Results of whole one-way steps do not hide.
    """
    model = kernel.model(calculator)
    chosen = {n: k.default for n, k in model.choices.items() if k.default} if rows is None else dict(rows)
    results = {s.name for s in model.calculator.steps}
    visible = [n for n, v in model.variables.items() if not v.hidden and n not in results]
    plan, known = planner(kernel, model, chosen), assumed(model, chosen)
    for hidden in visible:
        others, base, found = [n for n in visible if n != hidden and n not in known], known - {hidden}, 0
        sets: list[frozenset[str]] = []
        for size in range(len(others) + 1):
            for some in map(frozenset, combinations(others, size)):
                if found >= most:
                    break
                if not any(s <= some for s in sets) and plan.enough(base | some, (hidden,)):
                    sets.append(some)
                    found += 1
                    yield Direction(tuple(n for n in visible if n in some), hidden)


def determined(model: Model, point: Point, d: Direction) -> bool:
    """Does a direction determine its hidden value at a point?  The rank of the Jacobian decides.

    Matching equations with unknowns is not enough: proportions alone fix no amount, and where a factor is
    nothing, what it multiplies may be anything.
    """
    known = {*d.given, *assumed(model, point.rows)} - {d.hidden}
    free = [n for n in point.values if n not in known and n != d.hidden]
    functions = {**formula.BUILTINS, **{n: model.base_function(n) for n in model.functions}}
    env = {**model.constants, **point.rows, **point.values}
    matrix = []
    for a, b in model.equations:
        if not formula.names(a) | formula.names(b) <= env.keys():
            continue

        def gap(name: str, step: float, a: formula.Tree = a, b: formula.Tree = b) -> float:
            moved = {**env, name: point.values[name] + step}
            return formula.evaluate(a, moved, functions) - formula.evaluate(b, moved, functions)

        row = []
        for name in (*free, d.hidden):
            step = 1e-6 * (abs(point.values[name]) or 1.0)
            try:
                row.append(gap(name, step) - gap(name, -step))
            except (ValueError, ArithmeticError, TypeError):
                row.append(0.0)
        size = max(map(abs, row), default=0.0)
        matrix.append([x / size for x in row] if size else row)
    return _rank(matrix) > _rank([row[:-1] for row in matrix])


def _rank(matrix: list[list[float]], small: float = 1e-7) -> int:
    rows, rank = [row[:] for row in matrix], 0
    for column in range(len(rows[0]) if rows else 0):
        pivot = max(range(rank, len(rows)), key=lambda i: abs(rows[i][column]), default=None)
        if pivot is None or abs(rows[pivot][column]) < small:
            continue
        rows[rank], rows[pivot] = rows[pivot], rows[rank]
        for i in range(rank + 1, len(rows)):
            factor = rows[i][column] / rows[rank][column]
            rows[i] = [x - factor * y for x, y in zip(rows[i], rows[rank], strict=True)]
        rank += 1
    return rank
