"""Text to tokens: words, numerals and marks, each with its place in the text."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

SHORTENED = frozenset({"incl", "excl", "approx"})
"""What is written with a full stop that ends nothing."""
LONGEST_TEXT = 4096

_TOKEN = re.compile(
    r"(?P<name>\b(?:[cC] ?[oO] ?(?:2|two)|[nN] (?:2|two) [oO]|co2|n2o|h2o|CO2|N2O|H2O|Co2|N2o|[bB]4|[uU] [sSkK]|"
    r"[eE]\d{3,4})(?![\w]))"
    r"|(?P<number>\d+(?:[.,]\d+)*|\.\d+)"
    r"|(?P<fraction>[½⅓⅔¼¾⅕⅛⅜⅝⅞])"
    r"|(?P<word>[^\W\d_]+(?:['’][^\W\d_]+)*)"
    r"|(?P<line>\n+)"
    r"|(?P<arrow>[-=]+>)"
    r"|(?P<mark>[^\s\w]|_)"
)

ARROWS = frozenset("→⇒➜")
_UNKNOWN = re.compile(r"[^\d?\n→>]{0,60}\?")
"""After an arrow: what is asked for, no number in it (``3 l at 18 % → g of ethanol?``)."""
FRACTIONS = {
    "½": 1 / 2,
    "⅓": 1 / 3,
    "⅔": 2 / 3,
    "¼": 1 / 4,
    "¾": 3 / 4,
    "⅕": 1 / 5,
    "⅛": 1 / 8,
    "⅜": 3 / 8,
    "⅝": 5 / 8,
    "⅞": 7 / 8,
}
PIECES = frozenset({"pc", "pcs", "pce", "ea", "piece", "fruit"})
STARTING = frozenset("i we you to if when can could should must would and then please ,".split())
"""Words after which ``water down`` is a verb (``cut it with water down to 40 %`` is none)."""
_SAME = str.maketrans(
    {
        "’": "'",
        "‘": "'",
        "×": "x",
        "⁄": "/",
        "∕": "/",
        "º": "°",
        "˚": "°",
        "–": "-",
        "—": "-",
        "−": "-",
        "\u00a0": " ",
        "\u202f": " ",
        "µ": "u",
        "μ": "u",
        "“": '"',
        "”": '"',
        "：": ":",
        "％": "%",
        "℃": "°",
        "₂": "2",
        "₀": "0",
        "﹪": "%",
        "‐": "-",
        "‑": "-",
    }
)


@dataclass(slots=True)
class Token:
    """``kind`` is number, fraction, word, line or mark; ``text`` is lower case; ``stem`` its singular."""

    kind: str
    text: str
    start: int
    end: int
    stem: str = ""
    glued: bool = False

    def __repr__(self) -> str:
        return self.text


def tokens_of(text: str) -> list[Token]:
    """The tokens of a text, at most ``LONGEST_TEXT`` characters of it; ``glued`` says no space came before."""
    text = text[:LONGEST_TEXT].translate(_SAME)
    found: list[Token] = []
    end = 0
    for m in _TOKEN.finditer(text):
        kind, word, start = m.lastgroup or "mark", m[0], m.start()
        glued, end = start == end and bool(found), m.end()
        if kind == "name":
            kind, word = "word", word.lower().replace("two", "2").replace(" ", "")
            word = word.replace("h2o", "water").replace("b4", "before")
        elif kind == "line":
            word = "\n"
        elif kind == "arrow" or word in ARROWS:
            kind, word = ("mark", "=") if _UNKNOWN.match(text, end) else ("word", "to")
        elif kind == "word":
            word = word.lower()
        found.append(Token(kind, word, start, end, stem(word) if kind == "word" else word, glued))
    _mend(found, {t.text for t in found})
    return found


def _mend(found: list[Token], said: set[str]) -> None:
    """What tokens mean by those beside them; only what is ``said`` is looked for."""
    if not SHORTENED.isdisjoint(said):
        found[1:] = [t for a, t in pairwise(found) if t.text != "." or a.text not in SHORTENED]
    for a, b in pairwise(found) if "/" in said else ():
        if a.text == "/" and b.text in PIECES:
            b.text = b.stem = "each"
    for before, a, b in zip([None, *found], found, found[1:], strict=False) if "x" in said else ():
        product = before is not None and before.kind == "number"
        if a.text == "x" and b.kind == "number" and not product:
            a.text, a.stem = "times", stem("times")
    for before, a, b, c in zip(found, found[1:], found[2:], found[3:], strict=False) if "down" in said else ():
        if a.text == "water" and b.text == "down" and c.text != "to" and before.text in STARTING:
            a.text = a.stem = "dilute"


_IRREGULAR = {
    "cans": "cans",
    "takings": "takings",
    "leaves": "leaf",
    "loaves": "loaf",
    "halves": "half",
    "knives": "knife",
    "people": "person",
    "dice": "dice",
    "ice": "ice",
    "lees": "lees",
    "gas": "gas",
    "molasses": "molasses",
    "us": "us",
    "is": "is",
    "his": "his",
    "this": "this",
    "was": "was",
    "has": "has",
    "does": "does",
    "as": "as",
    "yes": "yes",
    "plus": "plus",
    "bus": "bus",
    "minus": "minus",
    "less": "less",
    "glass": "glass",
    "across": "across",
    "hours": "hour",
    "lbs": "lb",
    "pcs": "pc",
    "ozs": "oz",
    "cookies": "cookie",
    "minus'": "minus",
    "citrus": "citrus",
    "hibiscus": "hibiscus",
    "asparagus": "asparagus",
    "chassis": "chassis",
    "co2": "co2",
    "series": "series",
    "spirits": "spirit",
    "ales": "ale",
    "dashes": "dash",
    "batches": "batch",
    "glasses": "glass",
    "boxes": "box",
    "brandies": "brandy",
    "whiskies": "whisky",
    "whiskeys": "whiskey",
    "movies": "movie",
    "veggies": "veggie",
    "smoothies": "smoothie",
    "pies": "pie",
    "cloves": "clove",
    "olives": "olive",
    "chives": "chive",
    "gloves": "glove",
    "endives": "endive",
    "shelves": "shelf",
    "potatoes": "potato",
    "tomatoes": "tomato",
    "mangoes": "mango",
    "days": "day",
    "collinses": "collins",
}


DRINKS = frozenset(
    """margarita daiquiri negroni martini mojito manhattan highball spritz gimlet cosmopolitan cosmo caipirinha collins
sidecar julep sazerac paloma boulevardier mimosa bellini sangria sour spritzer""".split()
)
"""Drinks of the trade that are counted by their names: several of them are so many drinks."""


@lru_cache(16_384)
def stem(word: str) -> str:
    """The singular of a word, as well as a few rules can tell; the same word for what is none.

    Several drinks of one name (``320 margaritas``) are ``cocktail``.
    """
    found = _singular(word)
    return "cocktail" if found != word and found in DRINKS else found


def _singular(word: str) -> str:
    if word.endswith("'s"):
        word = word[:-2]
    known = _IRREGULAR.get(word)
    if known is not None:
        return known
    if len(word) < 4 or not word.endswith("s") or word.endswith(("ss", "us", "is")):
        return word
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    if word.endswith(("ches", "shes", "xes", "sses", "zes")):
        return word[:-2]
    return word[:-1]
