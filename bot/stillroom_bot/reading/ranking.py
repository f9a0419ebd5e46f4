"""Which calculators share words with a message: the vocabulary's index, before any closer look."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import islice

from .lexicon import Lexicon
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
    ranked = sorted(((s, id) for id, s in score.items()), key=lambda x: (-x[0], x[1]))
    return list(islice((x for x in ranked if message.allows(lexicon, x[1])), most))


def shared(message: Message, lexicon: Lexicon) -> dict[str, float]:
    """How much each calculator shares with a message; each word counts once for each."""
    score: dict[str, float] = {}
    seen: dict[str, int] = {}
    zone = 0
    for a, b in message.asked.zones:
        zone |= ((1 << (b - a + 1)) - 1) << a
    for match in sorted(message.matches, key=lambda m: m.first - m.last):
        size = match.last - match.first + 1
        mask = ((1 << size) - 1) << match.first
        asked = IN_QUESTION if mask & zone else 1.0
        for id, meaning in match.entry.meanings.items():
            if seen.get(id, 0) & mask:
                continue
            seen[id] = seen.get(id, 0) | mask
            worth = (
                (TOPIC if meaning.topic else 0.0)
                + (VARIABLE * asked if meaning.variables else 0.0)
                + (ROW if meaning.rows else 0.0)
            )
            score[id] = score.get(id, 0.0) + min(worth, MOST_WORTH) * match.entry.weight * (1 + LENGTH * (size - 1))
        for kind in match.entry.kinds:
            for id in lexicon.kinds.get(kind, ()):
                if not seen.get(id, 0) & mask:
                    seen[id] = seen.get(id, 0) | mask
                    score[id] = score.get(id, 0.0) + KIND
    return score
