"""From a text to its parts, each step once and in order."""

from __future__ import annotations

from .asked import Asking
from .by_parts import by_parts
from .clauses import Asked
from .dose_again import dose_again
from .each_of import apiece, of_each_served, shared_out
from .lexicon import Lexicon, stop_words
from .message import Message
from .moves import brought_down
from .neighbours import neighbours
from .of_those import of_those
from .ones import named
from .partly import of_nobody, partly_full
from .purposes import purposes
from .quantities import Quantities
from .spelling import Speller
from .statements import statements
from .symbols import in_words
from .taken_back import claimed, corrected, said_again, withdrawn
from .things_first import amounts_first
from .tokens import Token, tokens_of
from .vessels import size_first

MOST_TOKENS, MOST_NUMBERS = 260, 20
"""More than this is no question and no spec that somebody would send, but a page."""
WORKED = frozenset({"shaken", "stirred"})
INCLUDING, WATERED = frozenset({"incl", "including"}), frozenset({"water", "dilution"})
COUNTED_IN = (
    ("included",), ("counted",), ("already", "in"), ("already", "counted"), ("already", "included"), ("and", "all"),
    ("is", "included"), ("is", "counted"), ("is", "already", "in"), ("is", "in", "it"), ("in", "it"),
)  # fmt: skip
"""``scale to 5 l incl. water``, ``with the dilution already in it``: no water of its own, where one line of the spec
is water."""
DECIMAL_COMMA = (
    "decimal comma",
    "comma is the decimal",
    "comma as decimal",
    "comma = decimal",
    "decimals with a comma",
)


HAVING = frozenset("have got only there's".split())


def take_apart(text: str, lexicon: Lexicon, speller: Speller, comma: bool = False) -> Message:
    """The parts of a message; none of one that is ``crowded``.  ``comma`` says that the chat writes decimal commas."""
    tokens = tokens_of(text)
    if len(tokens) > MOST_TOKENS:
        return _crowded(text, tokens)
    tokens = partly_full(in_words(tokens))
    mended = speller.apply(tokens)
    tokens = brought_down(tokens)
    for step in (named, size_first, of_each_served, apiece, shared_out, amounts_first, by_parts):
        tokens = step(tokens, lexicon)
    comma = comma or any(said in text.lower() for said in DECIMAL_COMMA)
    quantities = Quantities(tokens, lexicon, comma).find()
    corrected(tokens, quantities)
    if sum(not (q.noise or q.rejected or q.weak) for q in quantities) > MOST_NUMBERS:
        return _crowded(text, tokens)
    asked = Asking(tokens, quantities, lexicon).find()
    matches = [m for m in lexicon.matches(tokens) if not _excluded(tokens, m.first, asked)]
    matches = [m for m in matches if not withdrawn(tokens, m, matches)]
    m = Message(text, tokens, quantities, asked, matches, mended, stops=stop_words())
    neighbours(m)
    of_those(m, lexicon)
    of_nobody(m)
    statements(m, lexicon)
    purposes(m, lexicon)
    claimed(m)
    said_again(m)
    dose_again(m, lexicon)
    return m


def _excluded(tokens: list[Token], i: int, asked: Asked) -> bool:
    """``with orange, not with lime``, ``how strong before it gets shaken?``: is token ``i`` said not to be meant?"""
    before = [t.text for t in tokens[max(0, i - 3) : i]]
    if before[-2:] == [",", "no"] and not HAVING.isdisjoint(t.text for t in tokens[max(0, i - 8) : i]):
        return True
    if tokens[i].text == "stock" and before[-1:] == ["in"]:
        return True
    if tokens[i].text in WORKED and "before" in before:
        return any(a <= i <= b for a, b in (*asked.zones, *asked.rest))
    if tokens[i].text in WATERED and (not INCLUDING.isdisjoint(before[-2:]) or _counted_in(tokens, i)):
        return any(t.text == "water" for k, t in enumerate(tokens) if abs(k - i) > 1)
    return before[-2:] == [",", "not"] or (before[-3:-1] == [",", "not"] and before[-1] in ("with", "the", "from"))


def _counted_in(tokens: list[Token], i: int) -> bool:
    """``the water included``, ``dilution already in it``: is it said after token ``i`` that it counts as well?"""
    after = tuple(t.text for t in tokens[i + 1 : i + 4])
    return any(after[: len(said)] == said for said in COUNTED_IN)


def _crowded(text: str, tokens: list[Token]) -> Message:
    return Message(text, tokens, [], Asked(), [], stops=stop_words(), crowded=True)
