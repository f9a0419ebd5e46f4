"""Smooth curves through published tables, and the way back along them.

``through`` gives a piecewise cubic that passes through every point, never overshoots and is
monotone wherever the table is (Fritsch and Butland 1984, SIAM J. Sci. Stat. Comput. 5, 300;
end slopes by the three-point formula with the shape-preserving limits of the same method).
"""

from bisect import bisect_right
from collections.abc import Callable, Sequence
from itertools import pairwise

Curve = Callable[[float], float]


def within(value: float, low: float, high: float, what: str, unit: str = "") -> float:
    """``value`` itself if low <= value <= high; otherwise ValueError naming the range."""
    if low <= value <= high:
        return value
    raise ValueError(f"{what} must be between {low:g} and {high:g}{unit}, and this is {value:g}{unit}.")


def _end_slope(h0: float, h1: float, d0: float, d1: float) -> float:
    slope = ((2 * h0 + h1) * d0 - h0 * d1) / (h0 + h1)
    if slope * d0 <= 0:
        return 0.0
    if d0 * d1 < 0 and abs(slope) > 3 * abs(d0):
        return 3 * d0
    return slope


def through(xs: Sequence[float], ys: Sequence[float]) -> Curve:
    """The monotone cubic through (xs, ys); xs must rise strictly and hold three points or more.

    The curve is a function of one number between xs[0] and xs[-1]; the caller checks the range.
    """
    x, y = tuple(map(float, xs)), tuple(map(float, ys))
    if len(x) != len(y) or len(x) < 3 or any(b <= a for a, b in pairwise(x)):
        raise ValueError("A curve needs at least three points, with x rising from one to the next.")
    h = [b - a for a, b in pairwise(x)]
    d = [(y[i + 1] - y[i]) / h[i] for i in range(len(h))]
    slope = [_end_slope(h[0], h[1], d[0], d[1])]
    for i in range(1, len(h)):
        if d[i - 1] * d[i] <= 0:
            slope.append(0.0)
            continue
        before, after = 2 * h[i] + h[i - 1], h[i] + 2 * h[i - 1]
        slope.append((before + after) / (before / d[i - 1] + after / d[i]))
    slope.append(_end_slope(h[-1], h[-2], d[-1], d[-2]))
    last = len(h) - 1

    def at(value: float) -> float:
        i = min(max(bisect_right(x, value) - 1, 0), last)
        t = (value - x[i]) / h[i]
        u = 1 - t
        return (y[i] * (1 + 2 * t) + h[i] * slope[i] * t) * u * u + (
            y[i + 1] * (3 - 2 * t) - h[i] * slope[i + 1] * u
        ) * t * t

    return at


def inverse(curve: Curve, target: float, low: float, high: float, tolerance: float = 1e-12) -> float:
    """The argument between low and high at which a monotone ``curve`` takes the value ``target``.

    Bisection with a secant step where it helps (the Illinois rule); ``tolerance`` is in units
    of the argument. ValueError when the target is not between the values at the two ends.
    """
    f_low, f_high = curve(low) - target, curve(high) - target
    if f_low == 0:
        return low
    if f_high == 0:
        return high
    if f_low * f_high > 0:
        raise ValueError(f"No value between {low:g} and {high:g} gives {target:g}.")
    side = 0
    for _ in range(200):
        middle = (low * f_high - high * f_low) / (f_high - f_low)
        if not low < middle < high:
            middle = (low + high) / 2
        f_middle = curve(middle) - target
        if f_middle == 0 or high - low <= tolerance:
            return middle
        if f_middle * f_high > 0:
            step = high - middle
            high, f_high = middle, f_middle
            f_low, side = (f_low / 2 if side == -1 else f_low), -1
        else:
            step = middle - low
            low, f_low = middle, f_middle
            f_high, side = (f_high / 2 if side == 1 else f_high), 1
        if step <= tolerance:
            return middle
    return (low + high) / 2
