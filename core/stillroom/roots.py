"""Every value at which a continuous function of one bounded unknown is nothing.

A grid is walked between the bounds, closer near either end; a change of sign is closed in on.  Where the
function comes near nothing and turns back the turn is looked at more closely, and where it ends (a table
that goes no further) its last point is found, so that no root hides beside it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TypeAlias

from .errors import OutOfBounds

Curve: TypeAlias = Callable[[float], float]
Spot: TypeAlias = tuple[float, float]

CELLS = 48
EDGES = 6
GRID = tuple(sorted({*(i / CELLS for i in range(CELLS + 1)), *(0.5**k / CELLS for k in range(1, EDGES)),
                     *(1 - 0.5**k / CELLS for k in range(1, EDGES))}))
HALVINGS, MOST = 40, 12
GOLDEN = (5**0.5 - 1) / 2
BESIDE = 1e-6


def find_roots(name: str, residual: Curve, low: float, high: float) -> tuple[float, ...]:
    """The zeros of ``residual`` from ``low`` to ``high``, in rising order.

    Two that are closer than a cell of the grid are found where the curve turns between them.  Of a curve that is
    nothing all along the first zero, one between and the last stand for all.  Raises OutOfBounds, for the unknown
    of that ``name``, when there is none.
    """
    roots: list[float] = []
    for run in _runs(residual, low, high):
        roots += _of_run(residual, run)
    if not roots:
        raise OutOfBounds(f"No {name.replace('_', ' ')} that is possible fits these values.")
    return tuple(roots) if len(roots) <= MOST else (roots[0], roots[len(roots) // 2], roots[-1])


def _runs(f: Curve, low: float, high: float) -> list[list[Spot]]:
    """The grid's points where the curve has a value, cut where it has none, with the ends of each run."""
    runs: list[list[Spot]] = []
    before: tuple[float, float | None] | None = None
    for part in GRID:
        x = low + (high - low) * part
        y = _tried(f, x)
        if y is not None and (before is None or before[1] is None):
            runs.append([_end(f, x, before[0])] if before else [])
        elif y is None and before is not None and before[1] is not None:
            runs[-1].append(_end(f, before[0], x))
        if y is not None:
            runs[-1].append((x, y))
        before = x, y
    return runs


def _end(f: Curve, inside: float, outside: float) -> Spot:
    for _ in range(HALVINGS):
        middle = (inside + outside) / 2
        if _tried(f, middle) is None:
            outside = middle
        else:
            inside = middle
    return inside, f(inside)


def _of_run(f: Curve, run: list[Spot]) -> Iterator[float]:
    for i, (x, y) in enumerate(run):
        if i:
            left, here = _off_zero(f, run[i - 1], x), _off_zero(f, (x, y), run[i - 1][0])
            if left[1] < 0 < here[1] or here[1] < 0 < left[1]:
                yield _between(f, *left, *here)
            elif i + 1 < len(run) and (turn := _turn(f, left, here, run[i + 1])):
                yield _between(f, *left, *turn)
                yield _between(f, *turn, *run[i + 1])
        if y == 0.0:
            yield x


def _off_zero(f: Curve, spot: Spot, toward: float) -> Spot:
    """The spot itself, or, where it is a zero, one just beside it: what sign has the curve there?"""
    if spot[1] != 0.0:
        return spot
    x = spot[0] + (toward - spot[0]) * BESIDE
    return x, _tried(f, x) or 0.0


def _tried(f: Curve, x: float) -> float | None:
    try:
        y = f(x)
    except (ValueError, ZeroDivisionError, OverflowError, TypeError):
        return None
    return None if isinstance(y, complex) or y != y else y


def _turn(f: Curve, left: Spot, middle: Spot, right: Spot) -> Spot | None:
    """A point of the other sign between three of one sign, the middle one nearest to nothing; or None."""
    if left[1] == middle[1] == right[1]:
        return None
    side = 1.0 if middle[1] > 0 else -1.0
    if not 0 < middle[1] * side <= min(left[1] * side, right[1] * side):
        return None
    a, b = left[0], right[0]
    for _ in range(HALVINGS):
        c, d = a + (b - a) * (1 - GOLDEN), a + (b - a) * GOLDEN
        fc, fd = _tried(f, c), _tried(f, d)
        if fc is None or fd is None:
            return None
        for x, y in ((c, fc), (d, fd)):
            if y * side < 0:
                return x, y
        a, b = (a, d) if fc * side < fd * side else (c, b)
    return None


def _between(f: Callable[[float], float], a: float, fa: float, b: float, fb: float) -> float:
    """The zero between two points of opposite sign: false position with Illinois' halving, then bisection."""
    for i in range(200):
        x = (a * fb - b * fa) / (fb - fa) if i % 8 else (a + b) / 2
        if not min(a, b) < x < max(a, b):
            x = (a + b) / 2
        y = f(x)
        if y == 0.0 or abs(b - a) <= 4e-16 * max(abs(a), abs(b)):
            return x
        if (y < 0) != (fb < 0):
            a, fa = b, fb
        else:
            fa /= 2
        b, fb = x, y
    return b
