"""Strength and dilution of a drink with water added or with time on ice, point by point, by the kernel."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from stillroom import Amount, Kernel, Request

WATER, ICE, FIT, METHOD = "bar.measured_dilution", "bar.ice_time", "bar.dilution", "method"
BEFORE = "dilution is water per volume of the drink before it"
GUESS = "the speed of ice is a guess of the trade, to be measured with your own"
LONGEST = 90.0
"""Seconds on ice that are drawn."""
POINTS = 91
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
class Series:
    """One line: ``strength`` in % by volume and ``dilution`` in % of the volume before it, at each ``x``."""

    name: str
    x: tuple[float, ...]
    strength: tuple[float, ...]
    dilution: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Curve:
    """Lines over one ``axis``, whose text ends in its unit; ``marks`` are points worth naming."""

    title: str
    axis: str
    series: tuple[Series, ...]
    marks: tuple[Mark, ...] = ()
    assumptions: tuple[str, ...] = ()


def by_water(kernel: Kernel, title: str, volume: float, abv: float, most: float | None = None) -> Curve | None:
    """The curve of so many ml at so many % by volume against added water in ml; None where nothing reckons it."""
    end = most or volume * MOST
    unit, step = ("l", 1000.0) if end >= 2000 else ("ml", 1.0)
    line = _line(kernel, WATER, "", lambda x: {"water": _ml(x)}, {}, volume, abv, end, step)
    if line is None:
        return None
    marks = tuple(Mark(m.name, m.x / step, m.strength, m.dilution) for m in _marks(kernel, volume, abv) if m.x <= end)
    return Curve(title, f"water added, {unit}", (line,), marks, (BEFORE, "volumes add"))


def by_ice(kernel: Kernel, title: str, volume: float, abv: float, most: float | None = None) -> Curve | None:
    """The curves of stirring and of shaking against seconds on ice; None where nothing reckons them."""
    model = kernel.models.get(ICE)
    lines = tuple(line for row in (model.choices[METHOD].rows.values() if model else ()) if (line := _line(
        kernel, ICE, row.words[0], lambda x: {"time": Amount(x, "second", x)}, {METHOD: row.id}, volume, abv,
        most or LONGEST, 1.0)))
    return Curve(title, "time on ice, s", lines, (), (BEFORE, "volumes add", GUESS)) if lines else None


def _line(kernel: Kernel, calculator: str, name: str, at: Callable[[float], dict[str, Amount]],
          choices: Mapping[str, str], volume: float, abv: float, end: float, step: float) -> Series | None:
    """A line of ``POINTS`` answers; None where one of them is none."""
    if calculator not in kernel.models:
        return None
    xs = [end * n / (POINTS - 1) for n in range(POINTS)]
    found = []
    for x in xs:
        given = {"volume": _ml(volume), "abv": Amount(abv, "abv", abv / 100), **at(x)}
        answer = kernel.answer(Request(calculator, given, choices, ("final_abv", "dilution")))
        if answer.status != "answered":
            return None
        found.append({v.name: v.base * 100 for v in answer.answer})
    return Series(name, tuple(x / step for x in xs), tuple(p["final_abv"] for p in found),
                  tuple(p["dilution"] for p in found))


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
