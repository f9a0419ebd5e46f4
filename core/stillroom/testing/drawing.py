"""Hypothesis strategies that follow from a declaration: values, rows, specs, and whole consistent points."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from hypothesis import reject
from hypothesis import strategies as st

from ..declare import Choice
from ..errors import NotAnswered
from ..kernel import Kernel
from ..messages import Amount, Line, Request
from ..model import Model
from ..planner import Planner, Question

STEPS = 1000
WIDE = 20.0
ATTEMPTS = 4
SIZES = {"gram": 100.0, "kilogram": 1.0, "milliliter": 100.0, "liter": 1.0}


@dataclass(frozen=True, slots=True)
class Point:
    """Values (base numbers) that are all true at once, the rows they stand on, and those drawn to begin with."""

    values: Mapping[str, float]
    rows: Mapping[str, str]
    drawn: tuple[str, ...]


def span(model: Model, name: str) -> tuple[float, float]:
    """Where values of a variable are drawn, in its unit: its usual range, else its bounds, else about what is common.

    The last tenth at either end of bounds is left out: there a difference may vanish.
    """
    v = model.variables[name]
    if v.usual:
        return v.usual
    if v.low is not None and v.high is not None:
        return v.low + (v.high - v.low) / 10, v.high - (v.high - v.low) / 10
    middle = v.default if isinstance(v.default, (int, float)) and v.default else SIZES.get(v.unit, 10.0)
    low, high = min(middle / 20, middle * 4), max(middle / 20, middle * 4)
    return low if v.low is None else max(low, v.low), high if v.high is None else min(high, v.high)


def values(model: Model, name: str) -> st.SearchStrategy[float]:
    """Values of a variable, on the base units, within its bounds and its usual range; wide ranges by ratio."""
    low, high = (model.unit[name].to_base(x) for x in span(model, name))
    parts = st.integers(1, STEPS - 1)
    if 0 < low * WIDE < high:
        return parts.map(lambda i: float(low * (high / low) ** (i / STEPS)))
    return parts.map(lambda i: low + (high - low) * i / STEPS)


def rows(choice: Choice) -> st.SearchStrategy[str]:
    """Row ids of a choice, those that refuse an answer left out."""
    ids = [r.id for r in choice.rows.values() if not r.refuse]
    return st.sampled_from(ids) if ids else st.nothing()


def supplied(model: Model, chosen: Mapping[str, str]) -> frozenset[str]:
    """The variables for which the chosen rows have a number."""
    return frozenset(row_numbers(model, chosen))


def planner(kernel: Kernel, model: Model, chosen: Mapping[str, str], wanted: tuple[str, ...] = ()) -> Planner:
    """The planner of a question with nothing given yet: what does which set determine?"""
    filled = tuple(sorted(supplied(model, chosen)))
    return Planner(model, Question(frozenset(), tuple(sorted(chosen.items())), filled, wanted,
                                   kernel.solver(model.id).spare()))


def assumed(model: Model, chosen: Mapping[str, str]) -> frozenset[str]:
    """What is known before anything is given: what the rows supply, and hidden defaults."""
    return supplied(model, chosen) | {n for n, v in model.variables.items()
                                      if v.hidden and isinstance(v.default, (int, float))}


@st.composite
def points(draw: Callable[[st.SearchStrategy[object]], object], kernel: Kernel, calculator: str) -> Point:
    """Consistent points of a calculator: a sufficient set is drawn, the rest solved from it.

    A draw that some bound, limit or table forbids is drawn again, a few times, then rejected.
    """
    model = kernel.model(calculator)
    for _ in range(ATTEMPTS):
        chosen = {n: str(draw(rows(k))) for n, k in model.choices.items()}
        order = draw(st.permutations(_givable(model)))
        found = _forward(draw, kernel, model, chosen, list(order))  # type: ignore[arg-type, call-overload]
        if found is not None:
            return found
    reject()


def _givable(model: Model) -> list[str]:
    results = {s.name for s in model.calculator.steps}
    return [n for n, v in model.variables.items() if not v.hidden and n not in results]


def _forward(draw: Callable[[st.SearchStrategy[float]], float], kernel: Kernel, model: Model,
             chosen: Mapping[str, str], order: list[str]) -> Point | None:
    plan, known, drawn = planner(kernel, model, chosen), assumed(model, chosen), []
    for name in order:
        if name not in known and not plan.enough(known, (name,)):
            drawn.append(name)
            known |= {name}
    said = {n: draw(values(model, n)) for n in drawn}
    given = said | row_numbers(model, chosen)
    rest = tuple(n for n in order if n not in given)
    try:
        found = kernel.solver(model.id).solve(given, chosen, rest).values if rest else given
    except NotAnswered:
        return None
    if any(found[n] == 0.0 for n in rest):  # where a difference vanishes, others may be anything
        return None
    point = Point(dict(found), dict(chosen), tuple(drawn))
    return point if kernel.answer(request_of(kernel, model, point)).status == "answered" else None


def row_numbers(model: Model, chosen: Mapping[str, str]) -> dict[str, float]:
    """What the chosen rows supply, on the base units."""
    return {v: model.unit[v].to_base(float(number)) for c, row in chosen.items()
            for v, column in model.choices[c].fills.items()
            if (number := model.choices[c].rows[row].values.get(column)) not in (None, "")}


def request_of(kernel: Kernel, model: Model, point: Point) -> Request:
    """The request that says what was drawn and asks for whatever else is visible (or for one drawn value)."""
    sure = assumed(model, point.rows)
    wanted = [n for n in _givable(model) if n in point.values and n not in point.drawn and n not in sure]
    units = {n: model.unit[n] for n in point.drawn}
    amounts = {n: (u.from_base(point.values[n]), u.name) for n, u in units.items()}
    return kernel.request(model.id, amounts, wanted or point.drawn[:1], choices=point.rows)


@st.composite
def specs(draw: Callable[[st.SearchStrategy[int]], int], kernel: Kernel, calculator: str) -> tuple[Line, ...]:
    """Specs of two to four liquids that a calculator can read, every attribute said."""
    lines = kernel.model(calculator).calculator.lines
    assert lines is not None, f"{calculator} takes no spec"
    made = []
    for i in range(draw(st.integers(max(2, lines.minimum), 4))):
        amount = float(draw(st.integers(1, 200)))
        attributes = {}
        for name, unit in lines.columns.items():
            if name == "amount":
                continue
            said = kernel.units["milliliter" if unit in ("amount", "any") else unit]
            value = amount * 20 if unit in ("amount", "any") else draw(st.integers(1, 60))
            attributes[name] = Amount(float(value), said.name, said.to_base(float(value)))
        made.append(Line(f"liquid {i + 1}", Amount(amount, "milliliter", amount), attributes))
    return tuple(made)
