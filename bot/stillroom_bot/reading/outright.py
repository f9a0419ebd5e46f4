"""Two things asked for: outright (``how much gin and how much water?``, ``ml gin, ml water?``), or by their ratio."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .lexicon import Match

if TYPE_CHECKING:
    from .wanting import Wishes

MUCH = frozenset({"much", "many"})
FEWEST = 2
RATIOS = frozenset({"ratio", "proportion", "proportions"})


def outright(w: Wishes) -> dict[str, int]:
    """The variables that a message asks for by ``how much`` or a unit, and a word for them, or a thing that one of
    them is an amount of, with the place of that word: nothing where fewer than two are asked for so."""
    tokens = w.view.message.tokens
    starts = [a for a, _ in w.asked.zones if a > 1 and tokens[a - 1].text in MUCH and tokens[a - 2].text == "how"]
    starts += [b + 1 + (tokens[b + 1].text == "of") for _, b in w.asked.unit_spans if b + 1 < len(tokens)]
    if len(starts) < FEWEST:
        return {}
    found: dict[str, int] = {}
    for start in sorted(set(starts)):
        named = [(x, {*meaning.variables, *slots}) for x, meaning, slots in w.view.mine if x.first == start]
        longest = max(named, key=lambda n: n[0].last, default=None)
        own = longest[1] - found.keys() if longest is not None else set()
        best = next((n for _, n in w.scored if n in own), None)
        if best is not None:
            found[best] = start
    return found if len(found) >= FEWEST else {}


def pair_asked(w: Wishes, pair: tuple[str, str]) -> bool:
    """``drink : milk = ?``, ``our punch to milk ratio?``: are the two things of a ratio asked for?"""
    tokens = w.view.message.tokens
    named = [(x, meaning.variables.keys() | slots) for x, meaning, slots in w.view.mine]

    def asked(x: Match, y: Match) -> bool:
        zone = next((z for z in w.asked.zones if z[0] <= x.first and y.last <= z[1]), None)
        if tokens[x.last + 1].text == ":":
            return any(t.text == "?" for t in tokens[y.last + 1 : y.last + 4])
        return zone is not None and tokens[x.last + 1].text == "to" and (
            zone[1] == y.last or any(t.text in RATIOS for t in tokens[zone[0] : zone[1] + 1])
        )

    return any(
        pair[0] in a and pair[1] in b and y.first == x.last + 2 and asked(x, y)
        for x, a in named
        for y, b in named
    )
