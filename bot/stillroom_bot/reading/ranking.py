"""Which calculators share words with a message: the vocabulary's index, before any closer look."""

from __future__ import annotations

from collections.abc import Mapping
from heapq import heapify, heappop

from .lexicon import Entry, Lexicon, Match
from .message import Message
from .view import LENGTH

TOPIC, VARIABLE, ROW, MOST_WORTH = 1.5, 0.8, 0.5, 1.9
IN_QUESTION = 1.25
KIND = 0.35


def rank(message: Message, lexicon: Lexicon, most: int = 10) -> list[tuple[float, str]]:
    """The calculators that may be considered with how much they share, best first."""
    return best(message, lexicon, shared(message, lexicon), most)


def best(message: Message, lexicon: Lexicon, score: Mapping[str, float], most: int) -> list[tuple[float, str]]:
    """The first ``most`` by what they share that may be considered."""
    ranked = [(-s, id) for id, s in score.items()]
    heapify(ranked)
    found: list[tuple[float, str]] = []
    while ranked and len(found) < most:
        s, id = heappop(ranked)
        if message.allows(lexicon, id):
            found.append((-s, id))
    return found


def shared(message: Message, lexicon: Lexicon) -> dict[str, float]:
    """How much each calculator shares with a message, worked out once; each word counts once for each."""
    if message.shares is None:
        message.shares = _shared(message, lexicon)
    return message.shares


def allowed(message: Message, lexicon: Lexicon) -> dict[str, float]:
    """How much each calculator that may be considered shares with a message."""
    return {id: share for id, share in shared(message, lexicon).items() if message.allows(lexicon, id)}


def _shared(message: Message, lexicon: Lexicon) -> dict[str, float]:
    score: dict[str, float] = {}
    seen: dict[str, int] = {}
    zone = once = twice = 0
    for a, b in message.asked.zones:
        zone |= ((1 << (b - a + 1)) - 1) << a
    for match in message.matches:
        mask = _mask(match)
        once, twice = once | mask, twice | once & mask
    for match in sorted(message.matches, key=lambda m: m.first - m.last):
        mask = _mask(match)
        worths = _worths(match.entry, bool(mask & zone), lexicon)
        if not mask & twice:
            for id, worth in worths:
                score[id] = score.get(id, 0.0) + worth
            continue
        for id, worth in worths:
            before = seen.get(id, 0)
            if not before & mask:
                seen[id] = before | mask
                score[id] = score.get(id, 0.0) + worth
    return score


def _mask(match: Match) -> int:
    """The tokens of a match, a bit each."""
    return ((1 << (match.last - match.first + 1)) - 1) << match.first


def _worths(entry: Entry, asked: bool, lexicon: Lexicon) -> list[tuple[str, float]]:
    """How much an entry is worth to each calculator that it, or its kind, means something to; worked out when it is
    first met."""
    found = entry.worths.get(asked)
    if found is None:
        variable = VARIABLE * IN_QUESTION if asked else VARIABLE
        length = 1 + LENGTH * (len(entry.stems) - 1)
        found = entry.worths[asked] = [
            (id, min(worth, MOST_WORTH) * entry.weight * length)
            for id, m in entry.meanings.items()
            for worth in [TOPIC * m.topic + variable * bool(m.variables) + ROW * bool(m.rows)]
        ]
        kin = dict.fromkeys(id for kind in entry.kinds for id in lexicon.kinds.get(kind, ()))
        found += [(id, KIND) for id in kin if id not in entry.meanings]
    return found
