"""From a text to its parts, each step once and in order."""

from __future__ import annotations

from .asked import Asking
from .each_of import shared_out
from .lexicon import Lexicon, stop_words
from .message import Message
from .neighbours import neighbours
from .quantities import Quantities
from .spelling import Speller
from .statements import statements
from .tokens import tokens_of


def take_apart(text: str, lexicon: Lexicon, speller: Speller, comma: bool = False) -> Message:
    """The parts of a message.  ``comma`` says that the chat writes decimal commas."""
    tokens = tokens_of(text)
    mended = speller.apply(tokens)
    tokens = shared_out(tokens, lexicon)
    comma = (
        comma
        or "decimal comma" in text.lower()
        or "comma is the decimal" in text.lower()
        or "comma as decimal" in text.lower()
    )
    quantities = Quantities(tokens, lexicon, comma).find()
    asked = Asking(tokens, quantities, lexicon).find()
    matches = list(lexicon.matches(tokens))
    m = Message(text, tokens, quantities, asked, matches, mended, stops=stop_words())
    neighbours(m)
    statements(m, lexicon)
    return m
