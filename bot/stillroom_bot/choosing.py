"""Which of the choices that were offered a message takes: the label itself, its place, or what sets it apart."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from functools import reduce

from .reading.lexicon import stop_words
from .reading.tokens import tokens_of

YES = frozenset("yes yep yeah right correct exactly sure ok okay aye".split())
PLACES = {
    "first": 0, "1st": 0, "1": 0, "former": 0,
    "second": 1, "2nd": 1, "2": 1,
    "third": 2, "3rd": 2, "3": 2,
    "fourth": 3, "4th": 3, "4": 3,
    "last": -1, "latter": -1,
}  # fmt: skip
AROUND = frozenset(
    "the one option choice number please i meant mean it's that's its a as of is and no yes size".split()
)
LONGEST = 8


def short(text: str, words: int) -> bool:
    """Has a text no more than so many words, told before it is cut up?"""
    return sum(w[0].isalnum() for w in text.split()) <= words


def pick(text: str, labels: Sequence[str]) -> str | None:
    """The label that is meant, or None where the message says something else or would do for several."""
    wanted = text.strip().lower().rstrip(".!")
    for label in labels:
        if label.lower() == wanted:
            return label
    words = [t.text for t in tokens_of(wanted) if t.kind != "mark"] if short(wanted, LONGEST) else []
    said = [w for w in words if w not in AROUND]
    if not words or len(words) > LONGEST:
        return None
    if len(labels) == 1:
        return labels[0] if words[0] in YES and all(w in YES | AROUND for w in words) else None
    if len(said) == 1 and said[0] in PLACES and not (said[0].isdigit() and len(words) > 2):
        place = PLACES[said[0]]
        return labels[place] if place < len(labels) else None
    return _set_apart([w for w in said if w not in stop_words()], labels)


def _set_apart(said: list[str], labels: Sequence[str]) -> str | None:
    """The one label in whose own words (those that the others lack) all that is said stands."""
    stems = [Counter(t.stem for t in tokens_of(label.lower()) if t.kind != "mark") for label in labels]
    shared = reduce(lambda a, b: a & b, stems)
    wanted = {t.stem for w in said for t in tokens_of(w)}
    fitting = [label for label, own in zip(labels, stems, strict=True) if wanted and wanted <= set(own - shared)]
    return fitting[0] if len(fitting) == 1 else None
