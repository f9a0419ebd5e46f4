"""Strength and dilution of a drink as water is added to it, point by point, by the kernel's calculators."""

from __future__ import annotations

from dataclasses import dataclass

from stillroom import Amount, Kernel, Request

WATER, FIT, METHOD = "bar.measured_dilution", "bar.dilution", "method"
POINTS = 41
MOST = 1.0
"""The curve ends where as much water has been added as there was drink, unless it is told another end."""


@dataclass(frozen=True, slots=True)
class Mark:
    """A point worth naming: what a person would do to get there."""

    name: str
    x: float
    strength: float
    dilution: float


@dataclass(frozen=True, slots=True)
class Curve:
    """``x`` in the unit of ``axis``; ``strength`` in % by volume, ``dilution`` in % of the volume before it."""

    title: str
    axis: str
    x: tuple[float, ...]
    strength: tuple[float, ...]
    dilution: tuple[float, ...]
    marks: tuple[Mark, ...] = ()
    assumptions: tuple[str, ...] = ()


def by_water(kernel: Kernel, title: str, volume: float, abv: float, most: float | None = None) -> Curve | None:
    """The curve of so many ml at so many % by volume against added water in ml; None where nothing reckons it."""
    if WATER not in kernel.models:
        return None
    end = most or volume * MOST
    xs = [end * n / (POINTS - 1) for n in range(POINTS)]
    found = [_at(kernel, volume, abv, x) for x in xs]
    if any(f is None for f in found):
        return None
    points = [f for f in found if f is not None]
    unit, step = ("l", 1000.0) if end >= 2000 else ("ml", 1.0)
    marks = tuple(Mark(m.name, m.x / step, m.strength, m.dilution) for m in _marks(kernel, volume, abv) if m.x <= end)
    return Curve(title, f"water added, {unit}", tuple(x / step for x in xs), tuple(p[0] for p in points),
                 tuple(p[1] for p in points), marks,
                 ("dilution is water per volume of the drink before it", "volumes add"))


def _at(kernel: Kernel, volume: float, abv: float, water: float) -> tuple[float, float] | None:
    given = {"volume": _ml(volume), "abv": Amount(abv, "abv", abv / 100), "water": _ml(water)}
    answer = kernel.answer(Request(WATER, given, wanted=("final_abv", "dilution")))
    if answer.status != "answered":
        return None
    by_name = {v.name: v.base * 100 for v in answer.answer}
    return by_name["final_abv"], by_name["dilution"]


def _marks(kernel: Kernel, volume: float, abv: float) -> list[Mark]:
    """Where stirring and shaking on ice would end, by the calculator of both."""
    model = kernel.models.get(FIT)
    marks = []
    for row in model.choices[METHOD].rows.values() if model and METHOD in model.choices else ():
        given = {"volume": _ml(volume), "abv": Amount(abv, "abv", abv / 100)}
        answer = kernel.answer(Request(FIT, given, {METHOD: row.id}, ("water", "final_abv", "dilution")))
        if answer.status == "answered":
            v = {x.name: x.base for x in answer.answer}
            marks.append(Mark(row.words[0], v["water"], v["final_abv"] * 100, v["dilution"] * 100))
    return marks


def _ml(value: float) -> Amount:
    return Amount(value, "milliliter", value)
