"""Two things timed in one run, turn and turn about, so that a busy machine slows both alike."""

from __future__ import annotations

import sys
from collections.abc import Callable
from statistics import median
from time import perf_counter

QUICK = "--quick" in sys.argv
"""Few rounds: enough to see that a script works, too few for its numbers to mean anything."""


def arguments() -> list[str]:
    """The command line without ``--quick``."""
    return [a for a in sys.argv[1:] if a != "--quick"]


def seconds(work: Callable[[], object], times: int = 1) -> float:
    """Seconds that ``times`` calls take, for one call."""
    began = perf_counter()
    for _ in range(times):
        work()
    return (perf_counter() - began) / times


def against(ours: Callable[[], object], theirs: Callable[[], object], rounds: int, times: int = 1) -> tuple[
        float, float, float]:
    """Median seconds of each, and the median of the ratios of the rounds."""
    pairs = [(seconds(ours, times), seconds(theirs, times)) for _ in range(2 if QUICK else rounds)]
    return median(a for a, _ in pairs), median(b for _, b in pairs), median(a / b for a, b in pairs)


def said(value: float) -> str:
    """Seconds for people."""
    for size, unit in ((1.0, "s"), (1e-3, "ms"), (1e-6, "µs")):
        if value >= size:
            return f"{value / size:.3g} {unit}"
    return f"{value / 1e-9:.3g} ns"
