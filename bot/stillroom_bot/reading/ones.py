"""Of what ``ones`` are asked for: ``using 16 g cartridges, how many whole ones?``."""

from __future__ import annotations

from dataclasses import replace

from .lexicon import Lexicon, stop_words
from .tokens import Token

WHOLE = frozenset("whole full complete".split())


def named(tokens: list[Token], lexicon: Lexicon) -> list[Token]:
    """The tokens with the name of several things that stands directly before ``how many whole ones`` for its ``ones``;
    the same tokens where there is none."""
    for i, t in enumerate(tokens):
        if t.text != "ones" or i < 3 or tokens[i - 1].text not in WHOLE or tokens[i - 2].text != "many":
            continue
        thing = next((k for k in range(i - 4, -1, -1) if tokens[k].kind == "word"), 0)
        if _several(tokens, thing, lexicon):
            told = list(tokens)
            told[i] = replace(t, text=tokens[thing].text, stem=tokens[thing].stem)
            return told
    return tokens


def _several(tokens: list[Token], k: int, lexicon: Lexicon) -> bool:
    """Is token ``k`` the name of things, said in the plural, and no unit?"""
    t = tokens[k]
    plural = t.kind == "word" and t.text != t.stem and t.text not in stop_words()
    return plural and lexicon.known(t.stem) and lexicon.unit_at(tokens, k) is None
