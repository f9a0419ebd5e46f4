"""A strength that is brought down to another, without their signs: ``proof down 2 l 60 to 42``, ``cut 63 to 40``."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from .tokens import Token

LOWERING = frozenset("down cut cutting reduce reduced reducing dilute diluting weaken lower proofing".split())
OTHERWISE = frozenset(
    """% ° percent per proof abv brix bx degree degrees cool chill chilled cooled temperature fridge freeze ice
    minutes hours days guests people serves servings drinks bottles""".split()
)
"""What is told besides, where the two numbers have a sign of their own, or are something else than strengths."""
HEARD = frozenset({"2", "too", "two"})
BETWEEN = (["to"], ["down", "to"], ["back", "to"], ["down", "into"], ["down"], [">"])
AFTER = frozenset(".,;:?!=\n") | frozenset("with using and water how what which please in".split())
"""What may follow the second number: nothing that it could be a count of."""
LEAST, MOST = 10.0, 97.0


def brought_down(tokens: list[Token]) -> list[Token]:
    """The tokens with the two strengths marked as percents; the same tokens where there are none."""
    words = {t.text for t in tokens}
    if LOWERING.isdisjoint(words):
        return tokens
    if "down" in words:
        for a, b, c in zip(tokens, tokens[1:], tokens[2:], strict=False):
            if a.text == "down" and b.text in HEARD and c.kind == "number":
                b.kind, b.text, b.stem = "word", "to", "to"
    verb = any(a.text == "proof" and b.text == "down" for a, b in pairwise(tokens))
    if words & OTHERWISE - ({"proof"} if verb else set()):
        return tokens
    numbers = [i for i, t in enumerate(tokens) if t.kind == "number"]
    moved = next(((i, k) for i, k in pairwise(numbers) if len(numbers) > 2 and _down(tokens, i, k)), ())
    told: list[Token] = []
    for i, t in enumerate(tokens):
        told.append(t)
        if i in moved:
            told.append(replace(t, kind="mark", text="%", stem="%", start=t.end, glued=True))
    return told


def _down(tokens: list[Token], i: int, k: int) -> bool:
    """Does the number at token ``i`` go down to that at ``k``, and both may be strengths?"""
    between = [t.text for t in tokens[i + 1 : k]]
    after = tokens[k + 1].text if k + 1 < len(tokens) else "."
    if between not in BETWEEN or after not in AFTER or tokens[i - 1].text == "x":
        return False
    high, low = (_value(tokens[n].text) for n in (i, k))
    return LEAST <= low < high <= MOST


def _value(text: str) -> float:
    try:
        return float(text.replace(",", "."))
    except ValueError:
        return 0.0
