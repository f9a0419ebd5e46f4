"""Curves and timelines drawn by matplotlib.  The only file that knows it; figures are made without a screen."""

from __future__ import annotations

import os
from datetime import datetime
from io import BytesIO
from textwrap import fill
from typing import Any

from ..board.plan import Plan
from ..places import Unavailable, cache_dir
from ..when.moments import say_span
from .curve import Curve

INK, WINE, MOSS, PALE = "#222222", "#8c2f39", "#3f6b4f", "#c9c4b8"
WIDE, DOTS = 8.0, 150


def draw_curve(curve: Curve) -> bytes:
    """Strength above, dilution below, the same x; as PNG.  Raises Unavailable without matplotlib."""
    figure = _figure(6.4)
    above, below = figure.subplots(2, 1, sharex=True)
    for axes, colour, name in ((above, WINE, "strength, % vol"), (below, MOSS, "dilution, %")):
        top = 0.0
        for line, dashes in zip(curve.series, ("-", "--", ":", "-."), strict=False):
            ys = line.strength if axes is above else line.dilution
            top = max(top, *ys)
            axes.plot(line.x, ys, dashes, color=colour, linewidth=2.5)
            if line.name:
                n = len(ys) // 6
                up = (axes is below) == (line is max(curve.series, key=lambda s: s.dilution[n]))
                axes.annotate(line.name, (line.x[n], ys[n]), textcoords="offset points", color=INK,
                              xytext=(8, 8 if axes is above else 10) if up or axes is above else (8, -18))
        axes.set_ylabel(name, color=colour)
        axes.set_ylim(0, top * 1.15 or 1)
        axes.set_xlim(0, curve.series[0].x[-1])
        axes.grid(color=PALE, linewidth=0.6)
        axes.spines[["top", "right"]].set_visible(False)
    for n, mark in enumerate(sorted(curve.marks, key=lambda m: m.x)):
        for axes, y, colour in ((above, mark.strength, WINE), (below, mark.dilution, MOSS)):
            axes.plot([mark.x], [y], "o", color=colour, markersize=8)
            up = axes is above
            axes.annotate(f"{mark.name}: {y:.1f} %", (mark.x, y), textcoords="offset points",
                          xytext=((10, 12) if n % 2 or not up else (-8, -20)) if up else (10, -16),
                          ha="left" if n % 2 or not up else "right", color=INK)
    below.set_xlabel(curve.axis)
    above.set_title(curve.title, loc="left", fontweight="bold")
    return _png(figure)


def draw_plan(plan: Plan, title: str) -> bytes:
    """A bar for each batch from its start to when it is ready, the first on top; as PNG.  Raises Unavailable."""
    tasks = plan.tasks
    figure = _figure(1.9 + 0.62 * len(tasks))
    from matplotlib import dates

    make: Any = dates

    axes = figure.subplots()
    first, last = make.date2num(tasks[0].start), make.date2num(plan.service)
    span = max(last - first, 1 / 24)
    for row, task in enumerate(tasks):
        start, ready = make.date2num(task.start), make.date2num(task.ready)
        if ready > start:
            axes.barh(row, ready - start, left=start, height=0.5, color=MOSS)
        else:
            axes.plot([start], [row], "D", color=WINE, markersize=10)
        told = _hour(task.start) + (f", stands {say_span(task.rest)}" if task.rest else
                                    ", at the service" if task.start == plan.service else "")
        middle = (start + ready) / 2
        if ready - start > 0.42 * span:
            axes.text(middle, row, told, ha="center", va="center", color="white")
        elif start - first > 0.5 * span:
            axes.text(start - 0.022 * span, row, told, ha="right", va="center", color=INK)
        else:
            axes.text(ready + 0.022 * span, row, told, ha="left", va="center", color=INK)
    axes.axvline(last, color=WINE, linewidth=1.5)
    axes.set_yticks(range(len(tasks)), [_short(t.batch.spec.name) for t in tasks])
    axes.set_ylim(len(tasks) - 0.5, -0.5)
    axes.set_xlim(first - 0.03 * span, last + 0.05 * span)
    zone = plan.service.tzinfo
    axes.xaxis.set_major_locator(make.AutoDateLocator(tz=zone, minticks=3, maxticks=7))
    pattern = "%a %d %b\n%H:%M" if span > 1 else "%H:%M"
    axes.xaxis.set_major_formatter(make.DateFormatter(pattern, tz=zone))
    axes.grid(axis="x", color=PALE, linewidth=0.6)
    axes.set_axisbelow(True)
    axes.spines[["top", "right", "left"]].set_visible(False)
    axes.tick_params(axis="y", length=0)
    axes.set_title(fill(title, 62), loc="left", fontweight="bold")
    return _png(figure)


def _hour(at: datetime) -> str:
    return f"{at:%a %H:%M}"


def _short(name: str) -> str:
    return name if len(name) <= 24 else name[:23] + "…"


def _figure(high: float) -> Any:
    os.environ.setdefault("MPLCONFIGDIR", str(cache_dir() / "matplotlib"))
    try:
        from matplotlib.figure import Figure
    except ImportError:
        raise Unavailable("A picture needs the package matplotlib, which is not installed.") from None
    figure = Figure(figsize=(WIDE, high), dpi=DOTS, layout="constrained")
    figure.set_facecolor("white")
    return figure


def _png(figure: Any) -> bytes:
    import matplotlib

    out = BytesIO()
    with matplotlib.rc_context({"font.size": 12}):
        figure.savefig(out, format="png", metadata={"Software": None})
    return out.getvalue()
