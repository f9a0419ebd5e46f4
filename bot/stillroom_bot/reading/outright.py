"""Things that are asked for outright, one after the other: ``how much gin and how much water?``."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from .wanting import Wishes

MUCH = frozenset({"much", "many"})
FEWEST = 2


def outright(w: Wishes) -> dict[str, int]:
    """The variables that a message asks for by ``how much`` and a word for them, or a thing that one of them is an
    amount of, with the place of that word: nothing where fewer than two are asked for so."""
    tokens = w.view.message.tokens
    starts = [a for a, _ in w.asked.zones if a > 1 and tokens[a - 1].text in MUCH and tokens[a - 2].text == "how"]
    if len(starts) < FEWEST:
        return {}
    found: dict[str, int] = {}
    for start in starts:
        named = [(x, {*meaning.variables, *slots}) for x, meaning, slots in w.view.mine if x.first == start]
        longest = max(named, key=lambda n: n[0].last, default=None)
        own = longest[1] - found.keys() if longest is not None else set()
        best = next((n for _, n in w.scored if n in own), None)
        if best is not None:
            found[best] = start
    return found if len(found) >= FEWEST else {}
