"""Solving by a kept plan against the same formula written by hand in plain floats.

The solver also checks bounds, puts the result back into every equation and finds what else follows;
the hand-written line does none of that.  Beside it stands the plan's generated function alone (the steps
and the residuals, without lookup, bounds and origins).  All must agree before any is timed.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from math import isclose
from statistics import geometric_mean
from typing import NamedTuple

from stillroom import Calculator, Function, Kernel, var
from stillroom.plan import build
from stillroom.solver import Solver
from timing import QUICK, against, said


def stirred(a: float) -> float:
    """Water taken up per volume when a drink of strength ``a`` (a fraction) is stirred; common practice, no source."""
    return -1.21 * a * a + 1.246 * a + 0.145


DOSE = Calculator(
    "dose", "Leaf for tea", var("leaf", "gram"), var("water", "milliliter"), var("dose", "gram / milliliter"),
    equations=["leaf = dose * water"])
BLEND = Calculator(
    "blend", "Two drinks into one", var("first", "milliliter"), var("a", "percent_vv"), var("second", "milliliter"),
    var("b", "percent_vv"), var("volume", "milliliter"), var("abv", "percent_vv"),
    equations=["volume = first + second", "abv * volume = a * first + b * second"])
STIR = Calculator(
    "stir", "Stirring", var("volume", "milliliter"), var("abv", "percent_vv"), var("water", "milliliter"),
    var("final_volume", "milliliter"), var("final_abv", "percent_vv"),
    equations=["water = volume * fit(abv)", "final_volume = volume + water", "abv * volume = final_abv * final_volume"],
    functions=[Function("fit", lambda a: stirred(a / 100), ("percent_vv",), "dimensionless", (0, 60))])


class Case(NamedTuple):
    """A question in base numbers, and the same by hand."""

    calculator: Calculator
    given: Mapping[str, float]
    wanted: str
    by_hand: Callable[[], float]


def cases() -> list[Case]:
    """One multiplication, one linear block, one curve."""
    water, dose = 1500.0, 0.008
    first, a, b, abv = 1000.0, 0.12, 0.60, 0.18
    volume, strong = 90.0, 0.3
    return [
        Case(DOSE, {"water": water, "dose": dose}, "leaf", lambda: dose * water),
        Case(BLEND, {"first": first, "a": a, "b": b, "abv": abv}, "second", lambda: first * (abv - a) / (b - abv)),
        Case(STIR, {"volume": volume, "abv": strong}, "final_abv",
             lambda: strong * volume / (volume + volume * stirred(strong))),
    ]


def main() -> None:
    """Print a ratio for each, then their geometric mean."""
    kernel = Kernel(discover=False)
    ratios = []
    for case in cases():
        plugin = kernel.add(f"bench_{case.calculator.name}", case.calculator)
        if plugin.errors:
            raise SystemExit("\n".join(plugin.errors))
        solver = kernel.solver(plugin.accepted[0])

        def kept(c: Case = case, s: Solver = solver) -> float:
            return s.solve(c.given, {}, (c.wanted,)).values[c.wanted]

        if not isclose(kept(), case.by_hand(), rel_tol=1e-9):
            raise SystemExit(f"{case.calculator.name}: the plan says {kept()}, the hand {case.by_hand()}")
        plan = solver.solve(case.given, {}, (case.wanted,)).plan
        run = build(plan, solver.model, "needed")
        inputs = [case.given[n] for n in plan.inputs]
        ours, hand, ratio = against(kept, case.by_hand, 15, 50 if QUICK else 3000)
        bare, _, bare_ratio = against(partial(run, *inputs, (), []), case.by_hand, 15, 50 if QUICK else 3000)
        ratios.append(ratio)
        print(f"{case.calculator.name:<6} solve {said(ours)}, its function alone {said(bare)}, by hand {said(hand)}: "
              f"ratio {ratio:.3g}, alone {bare_ratio:.3g}")
    print(f"ratio {geometric_mean(ratios):.3g}")


if __name__ == "__main__":
    main()
