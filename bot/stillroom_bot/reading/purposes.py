"""What a number is for, by its clause: what is reached in the end, what is added to, what one of several holds."""

from __future__ import annotations

from .candidate import MASS, VOLUME
from .combining import CHARGERS
from .lexicon import Lexicon, Match
from .message import Message, Near
from .quantity import Quantity

FINISHING = frozenset("finish finishing finished".split())
ADDED = (["added", "to"], ["add", "to"], ["adding", "to"])
PURPOSE, UP_TO_HERE = frozenset({"so", "until", "till"}), 6
READING = frozenset("reads read measures measure shows show says say is becomes has reaches hits".split())
STOPPING = frozenset("stop stopping stopped settle settling".split())
SAID, OWNED, OF_ASKED = 1.3, 3.0, 2.6


def purposes(m: Message, lexicon: Lexicon) -> None:
    """Mend the cues and the neighbours of the numbers of a message."""
    for k, q in enumerate(m.quantities):
        if q.noise or q.rejected:
            continue
        if q.strength:
            _of_what_is_asked(m, k, q)
        if q.bare or q.strength:
            _so_that(m, k, q)
            _stopping(m, k, q)
        elif q.units and q.per is None and lexicon.units[q.units[0]].dimension in (MASS, VOLUME):
            _finished_with(m, k, q)
            _added_to(m, k, q)
            if (one := _cartridges(m, q)) is not None:
                m.nouns[k], m.near[k] = (one.first, one.last), [Near(one, OWNED, True)]


def _said_instead(m: Message, k: int, cue: str, *others: str) -> None:
    """Let a number have a cue in the place of others."""
    m.cues[k] = {**{c: w for c, w in m.cues[k].items() if c not in others}, cue: SAID}


def _finished_with(m: Message, k: int, q: Quantity) -> None:
    """``to finish with 4 litres``, ``end up with a gallon``: so much in the end, and nothing that is added."""
    *before, last = ["", "", "", *(t.text for t in m.tokens[: q.first])][-3:]
    if last == "with" and (before == ["end", "up"] or before[-1] in FINISHING):
        _said_instead(m, k, "need", "add", "with")


def _added_to(m: Message, k: int, q: Quantity) -> None:
    """``what has to be added to 650 g``: so much there is, and nothing is brought to it."""
    if [t.text for t in m.tokens[max(0, q.first - 2) : q.first]] in ADDED:
        _said_instead(m, k, "into", "to", "add", "need")


def _so_that(m: Message, k: int, q: Quantity) -> None:
    """``so that it reads 60 °Bx``, ``so the refractometer shows 55``: what is wanted, and not what there is."""
    words = [t.text for t in m.tokens[max(0, q.first - UP_TO_HERE) : q.first]]
    if words and words[-1] in READING and any(w in PURPOSE for w in words[:-1]):
        _said_instead(m, k, "to", "from")


def _stopping(m: Message, k: int, q: Quantity) -> None:
    """``what if I stop at 4 %``, ``settle for 50``: what is wanted in the end."""
    words = [t.text for t in m.tokens[max(0, q.first - 2) : q.first]]
    if len(words) == 2 and words[0] in STOPPING and words[1] in ("at", "for"):
        _said_instead(m, k, "to", "from", "need")


def _of_what_is_asked(m: Message, k: int, q: Quantity) -> None:
    """``how much neutral at 95 % is needed?``: the strength of what is asked for, which is not what is needed."""
    if q.first < 2 or m.tokens[q.first - 1].text != "at":
        return
    asked = [x for x in m.matches if x.last == q.first - 2 and any(a <= x.first <= b for a, b in m.asked.zones)]
    if asked:
        m.near[k] += [Near(x, OF_ASKED) for x in asked]
        m.cues[k] = {c: w for c, w in m.cues[k].items() if c not in ("need", "to")}


def _cartridges(m: Message, q: Quantity) -> Match | None:
    """``cartridges of 8 g of CO2``: what each of them holds, and not all the gas."""
    if q.first < 2 or m.tokens[q.first - 1].text != "of" or m.tokens[q.first - 2].stem not in CHARGERS:
        return None
    return next((x for x in m.matches if x.last == q.first - 2), None)
