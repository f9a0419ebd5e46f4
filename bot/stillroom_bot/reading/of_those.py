"""``18 eggs, 30 ml of white each``: ``each`` said of the things that were counted just before it."""

from __future__ import annotations

from .clauses import PART_ENDS
from .lexicon import Entry, Lexicon, Match
from .message import Message, Near

EACH = frozenset({"each", "apiece"})
MOST_AFTER, CLEARLY = 3, 2.6
NAMING = frozenset({"of", "one"})


def of_those(m: Message, lexicon: Lexicon) -> None:
    """Note for each amount before ``each`` what it is for each of, where a job has words for that."""
    places = [i for i, t in enumerate(m.tokens) if t.text in EACH and _closes(m, i)]
    for i in places:
        k = next((k for k, q in enumerate(m.quantities) if 0 < i - q.last <= MOST_AFTER), None)
        if k and (entry := _per(m, k, lexicon)) is not None:
            match = Match(i, i, entry)
            m.matches.append(match)
            m.near[k].append(Near(match, CLEARLY))


def _closes(m: Message, i: int) -> bool:
    """Does nothing come after ``each`` that would say what each is: ``each drink``?"""
    after = m.tokens[i + 1 : i + 2]
    return not after or after[0].kind == "mark" or after[0].text in m.stops - NAMING


def _per(m: Message, k: int, lexicon: Lexicon) -> Entry | None:
    """What is called so much ``per`` thing, for the things that are counted before number ``k`` in its sentence."""
    counted, noun = m.quantities[k - 1], m.nouns[k - 1]
    q = m.quantities[k]
    if noun is None or not counted.bare or counted.value <= 1 or q.per is not None:
        return None
    if noun[0] != counted.last + 1 or any(t.text in PART_ENDS for t in m.tokens[noun[1] : q.first]):
        return None
    entry = lexicon.entries.get(("per", m.tokens[noun[1]].stem))
    named = entry is not None and any(x.variables for x in entry.meanings.values())
    return entry if named else None
