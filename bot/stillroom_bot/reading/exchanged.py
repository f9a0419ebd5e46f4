"""One thing in another's place: which is given up, and which is taken for it.

``swap simple for rich``, ``substitute rich for simple``, ``rich instead of simple``, ``the card says simple, I only
have rich``: each token of such a message belongs to one of the two sides, or to none.
"""

from __future__ import annotations

from .message import Message
from .phrases import Phrases

GIVEN_UP, TAKEN = "from", "to"
SWAPS = frozenset(
    "swap swaps swapped swapping exchange exchanged exchanging trade trading change changing changed switch switching "
    "replace replacing replaced substitute substituting substituted sub subbing".split()
)
SUBSTITUTES = frozenset("substitute substituting substituted sub subbing".split())
INTO = frozenset("for with w by against to into ->".split())
PHRASES = Phrases((
    (("instead", "of"), GIVEN_UP), (("in", "place", "of"), GIVEN_UP), (("in", "lieu", "of"), GIVEN_UP),
    (("rather", "than"), GIVEN_UP), (("replaces",), GIVEN_UP), (("to", "replace"), GIVEN_UP),
    (("stands", "in", "for"), GIVEN_UP), (("stand", "in", "for"), GIVEN_UP), (("substitute", "for"), GIVEN_UP),
    (("replacement", "for"), GIVEN_UP), (("out", "of"), GIVEN_UP), (("no", "more"), GIVEN_UP),
    (("recipe", "says"), GIVEN_UP), (("spec", "says"), GIVEN_UP), (("card", "says"), GIVEN_UP),
    (("recipe", "has"), GIVEN_UP), (("spec", "has"), GIVEN_UP), (("calls", "for"), GIVEN_UP),
    (("asks", "for"), GIVEN_UP), (("called", "for"), GIVEN_UP), (("recipe", "uses"), GIVEN_UP),
    (("only", "have"), TAKEN), (("have", "only"), TAKEN), (("only", "got"), TAKEN), (("got", "only"), TAKEN),
    (("only", "stock"), TAKEN), (("only", "has"), TAKEN), (("nothing", "but"), TAKEN), (("all", "i", "have"), TAKEN),
    (("that's", "left", "is"), TAKEN), (("left", "is"), TAKEN),
    (("all", "we", "have"), TAKEN), (("use",), TAKEN), (("using",), TAKEN), (("i", "want"), TAKEN),
    (("how", "much"), TAKEN), (("how", "many"), TAKEN), (("replaced", "by"), TAKEN), (("replaced", "with"), TAKEN),
))  # fmt: skip
AFTER = Phrases((
    (("in", "the", "recipe"), GIVEN_UP), (("in", "the", "spec"), GIVEN_UP), (("on", "the", "card"), GIVEN_UP),
    (("on", "the", "shelf"), TAKEN), (("instead",), TAKEN), (("that's", "left"), TAKEN),
))  # fmt: skip
"""What a phrase says of the thing before it."""
EXCHANGING = SWAPS | frozenset("instead place lieu rather replaces stands stand substitute replacement".split())
WEAK = frozenset({"use", "using", "how", "i"})
"""What begins phrases that alone do not tell two sides apart."""
OTHER = {GIVEN_UP: TAKEN, TAKEN: GIVEN_UP}


def sides(m: Message) -> dict[int, str]:
    """The side of each token of a message that puts one thing in another's place; of another message, none."""
    words = [t.text for t in m.tokens]
    if EXCHANGING.isdisjoint(words) and not _shelf_and_card(words):
        return {}
    things = sorted({(x.first, x.last) for x in m.matches if x.entry.substances})
    found: dict[int, str] = {}
    side, flips = "", False
    for i, word in enumerate(words):
        phrase = PHRASES.at(words, i)
        if phrase:
            side, flips = phrase, False
        elif word in SWAPS:
            side, flips = GIVEN_UP, True
        elif flips and word in INTO and any(i - 8 <= last < i for _, last in things):
            if word == "for" and any(w in SUBSTITUTES for w in words[max(0, i - 8) : i]):
                found.update({j: TAKEN for j in found if found[j] == GIVEN_UP})
                side = GIVEN_UP
            else:
                side = TAKEN
            flips = False
        if side:
            found[i] = side
    for i, told in AFTER.said(words):
        found.update(dict.fromkeys(range(max((a for a, b in things if b < i), default=i), i), told))
    return _completed(found, things)


def _completed(found: dict[int, str], things: list[tuple[int, int]]) -> dict[int, str]:
    """A thing of which nothing is said stands on the other side of the one that is told apart."""
    told = {found[a] for a, _ in things if a in found}
    if len(told) == 1:
        other = OTHER[next(iter(told))]
        for a, b in things:
            if a not in found:
                found.update(dict.fromkeys(range(a, b + 1), other))
    return found


def _shelf_and_card(words: list[str]) -> bool:
    """``the spec says simple, I only have rich``: one thing is called for and another is there."""
    said = {side for table in (PHRASES, AFTER) for i, side in table.said(words) if words[i] not in WEAK}
    return len(said) > 1
