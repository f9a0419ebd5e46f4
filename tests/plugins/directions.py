"""Does a calculator run in every direction? Solve forward, hide each value in turn, find it again."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from stillroom import Kernel
from stillroom.messages import Answer

TOLERANCE = 1e-9
Given = Mapping[str, tuple[float, str]]


@cache
def kernel() -> Kernel:
    """One kernel with the bar's calculators for all the tests; it keeps its plans in memory."""
    import stillroom_bar

    made = Kernel(discover=False)
    made.add("bar", stillroom_bar)
    return made


def ask(calculator: str, given: Given, wanted: str = "", unit: str = "", **choices: str) -> Answer:
    """The answer of ``bar.calculator`` to a request for ``wanted`` (or for what it is usually asked)."""
    k = kernel()
    return k.answer(k.request(f"bar.{calculator}", given, [wanted] if wanted else [], choices=choices,
                              units={wanted: unit} if unit else {}))


def number(calculator: str, given: Given, wanted: str, unit: str = "", **choices: str) -> float:
    """The number found; an assertion error, with the reason, where there is none."""
    answer = ask(calculator, given, wanted, unit, **choices)
    assert answer.status == "answered", f"{calculator} {wanted}: {answer.status}, {answer.reason}"
    return answer.answer[0].value


def every_direction(calculator: str, given: Given, skip: tuple[str, ...] = (), **choices: str) -> None:
    """Assert that ``given`` finds every variable, and that each given is found again from the others.

    A given is hidden and each other variable put in its place in turn: every such exchange that
    is answered must give the hidden value back, and at least one must be answered.  ``skip`` names
    variables that a one-way step finds, or that the tables give and nobody would look for.
    """
    k = kernel()
    names = [n for n, v in k.model(f"bar.{calculator}").variables.items() if not v.hidden and n not in skip]
    found: dict[str, tuple[float, str]] = {n: given[n] for n in names if n in given}
    for name in names:
        if name not in found:
            answer = ask(calculator, given, name, **choices)
            assert answer.status == "answered", f"{calculator}: {name}: {answer.status}, {answer.reason}"
            value = next(v for v in answer.values if v.name == name)
            found[name] = (value.value, k.model(f"bar.{calculator}").variables[name].show)
    for hidden in given:
        again = 0
        for other in (n for n in names if n not in given):
            rest = {n: found[n] for n in given if n != hidden} | {other: found[other]}
            answer = ask(calculator, rest, hidden, **choices)
            if answer.status != "answered":
                continue
            value = next(v for v in answer.values if v.name == hidden)
            units = k.units
            true = units[given[hidden][1]].to_base(given[hidden][0])
            if value.origin != "found":
                continue
            assert abs(value.base - true) <= TOLERANCE * max(abs(true), abs(value.base), 1e-6), (
                f"{calculator}: {hidden} from {sorted(rest)} is {value.base}, not {true}")
            again += 1
        assert again, f"{calculator}: {hidden} cannot be found from the others"
