"""A part asked of what is told: ``how much of that is milk?``, ``how many ml from this is the milk?``."""

from __future__ import annotations

from collections.abc import Sequence

from .tokens import Token

FROM, WITHIN = frozenset({"of", "from"}), 4
THAT = frozenset("that it this those these them".split())
BEING = (["is"], ["are"], ["was"], ["were"], ["will", "be"], ["would", "be"], ["should", "be"], ["will"])


def part_of_that(tokens: Sequence[Token], start: int) -> int | None:
    """Where the part begins that is asked for, in a question of which the words after ``how much`` begin at a token."""
    words = [t.text for t in tokens[start : start + WITHIN + len(FROM) + 2]]
    for i, word in enumerate(words[:WITHIN]):
        if word in FROM and words[i + 1 : i + 2] and words[i + 1] in THAT:
            being = next((be for be in BEING if words[i + 2 : i + 2 + len(be)] == be), None)
            return start + i + 2 + len(being) if being is not None else None
    return None
