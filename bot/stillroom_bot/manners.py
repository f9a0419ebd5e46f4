"""What people say to be friendly: thanks, greetings, and the word before a question."""

from __future__ import annotations

import re
from itertools import pairwise

from .reading.message import Message

THANKS = frozenset(
    """thanks thank thx thankyou cheers ta hello hi hey bye goodbye ok okay great lovely perfect nice cool good
    morning evening afternoon legend brilliant sweet super ace champion ciao merci danke grazie gracias""".split()
)
NO_MEASURE, HUMMED = frozenset("who whose where".split()), frozenset("um uh so and but hey ok okay".split())
ASKING = frozenset("please kindly can could would you we help me us i need".split())
CREATING = frozenset("think come suggest give propose write invent find tell make compose".split())
MADE_UP = frozenset("name names title titles joke jokes poem slogan song story caption pun limerick".split())
HISTORY = frozenset({("since", "when"), ("when", "was"), ("when", "were"), ("who", "was"), ("who", "first"),
                     ("who", "invented"), ("by", "whom")})
MOST = 8
FIRST = (
    r"ok(?:ay)?|great|sweet|cool|nice|perfect|lovely|brilliant|super|right|thanks|thank you|cheers|ta|hmm+|ah|oh|well|"
    r"good|hi|hello|hey|lol"
)
WHOM = r"mate|love|chef|all|there|again|one"
GREETING = re.compile(rf"\s*(?:(?:{FIRST})\b(?: (?:{WHOM})\b)?\s*[,.!;:-]+\s+)+", re.IGNORECASE)
DAY = "day|morning|afternoon|evening"
ONLY = re.compile(rf"[\s,.!;:-]*(?:(?:{FIRST})(?: (?:{WHOM}|{DAY}))?\b[\s,.!;:-]*)*", re.IGNORECASE)
QUESTION = re.compile(r"[\d?]|\b(?:how|what|which|so|and|if|now|then)\b", re.IGNORECASE)


def without_greeting(text: str) -> str:
    """A message without the friendly word before its question: ``sweet, so how much is that``."""
    greeting = GREETING.match(text)
    rest = text[greeting.end() :] if greeting else text
    return rest if QUESTION.search(rest) else text


def only_greets(text: str) -> bool:
    """Is a text nothing, or nothing but a friendly word: ``Good day.``?"""
    return ONLY.fullmatch(text) is not None


def gossip(message: Message) -> bool:
    """``who invented the shaker``, ``where can I buy quinine?``, ``think of a name``, ``a good name for it?``, ``since
    when is milk used?``: what no measure answers."""
    words = [t.text for t in message.tokens if t.kind == "word" and t.text not in HUMMED]
    if not words or message.quantities:
        return False
    begins = [w for w in words if w not in ASKING][:1]
    made_up = bool(begins) and begins[0] in CREATING and not MADE_UP.isdisjoint(words)
    called = words[0] == "what" and not {("we", "call"), ("i", "call"), ("we", "name"), ("i", "name")}.isdisjoint(
        pairwise(words)
    )
    named = not {("name", "for"), ("names", "for")}.isdisjoint(pairwise(words))
    history = not message.asked.how and not HISTORY.isdisjoint(pairwise(words))
    return words[0] in NO_MEASURE or made_up or called or named or history


def small_talk(message: Message) -> bool:
    """Is a message a greeting or thanks, and nothing else?"""
    words = [t.text for t in message.tokens if t.kind == "word"]
    return (
        bool(words)
        and not message.quantities
        and words[0] in THANKS
        and len(words) < MOST
        and not message.asked.how
        and not any(m.entry.meanings and message.tokens[m.first].text not in THANKS for m in message.matches)
    )
