"""What is asked of one state of a thing, where the other state is told; of all, where the amount of one is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stillroom.units import PERCENTS

from .candidate import Use

if TYPE_CHECKING:
    from .wanting import Wishes

OPPOSITE = {"from": "to", "to": "from"}
LESS, PLAIN = 0.3, 2.0
"""What it costs that a question names the state that is told, and not the one that is asked for; and from how strong a
word on it is told plainly."""


def other_state(w: Wishes, given: frozenset[str], uses: tuple[Use, ...]) -> list[tuple[float, str]]:
    """``it leaves the glass at 23 %, and was 10 cl: at what strength?``: a strength that the question names is told
    of one state, plainly, so that it is asked of the other, which no word of the question names."""
    told = {u.variable for u in uses if u.evidence >= PLAIN} & given
    if not told:
        return []
    unit, variables = w.view.model.unit, w.view.model.variables
    scores = {name: score for score, name in w.scored}
    return [
        (scores[name] - LESS, other)
        for name in scores.keys() & told
        if (opposite := OPPOSITE.get(variables[name].role)) is not None and w.asks_of(name)
        for other in w.view.profile.slots
        if not (other in given or other in scores)
        and variables[other].role == opposite
        and unit[other].name == unit[name].name
        and unit[name].kind in PERCENTS
    ]


def of_them_all(w: Wishes, given: frozenset[str], uses: tuple[Use, ...]) -> list[tuple[float, str]]:
    """``60 guests, 50 ml of rum each: how much rum?``: what the question names is told of each, and asked of all."""
    times, m = w.view.profile.so_many_times, w.view.message
    if not times or not ("much" in w.asked.how or w.said.totals):
        return []
    told = {u.variable for u in uses if m.cues[u.quantity].get("each", 0.0) >= 1.0}
    return [
        (score - LESS, times[name][1])
        for score, name in w.scored
        if name in told and name in times and times[name][0] in given and times[name][1] not in given
    ]
