"""Typos and dictation: a word that nobody knows, read as the one known word that it must be."""

from __future__ import annotations

from functools import lru_cache

from .lexicon import Lexicon, common_words, homophones, stop_words
from .numbers import GROUPS, PARTS, SIMPLE
from .tokens import Token, stem

SHORTEST = 4
LEAST_LETTERS = 3
NEAR = 80.0
NEARER = 86.0
LEAD, SWAPPED = 4.0, 95.0
GRAMMAR = frozenset(
    """part ratio equal each apiece litre weight volume table finished instead double triple twice half
dilution because please should would could different another""".split()
)


def closest(word: str, words: list[str], near: float) -> str | None:
    """The one of the words that is most like a word, at least ``near`` of 100; None if none is."""
    from rapidfuzz import fuzz, process

    like = process.extractOne(word, words, scorer=fuzz.ratio, score_cutoff=near)
    return like[0] if like is not None else None


def _swapped(word: str, other: str) -> bool:
    """Are two words the same but for two neighbouring letters in the wrong order (``suagr``)?"""
    at = [i for i, (a, b) in enumerate(zip(word, other, strict=False)) if a != b]
    return len(word) == len(other) and len(at) == 2 and at[1] == at[0] + 1 and sorted(word) == sorted(other)


def _skeleton(word: str) -> str:
    """A word without the vowels after its first letter, as hurried people write it: ``slt``, ``agr``, ``wtr``."""
    return word[:1] + "".join(c for c in word[1:] if c not in "aeiou")


def _within(short: str, word: str) -> bool:
    """Are the letters of one word those of another, some left out?"""
    letters = iter(word)
    return short != word and all(c in letters for c in short)


def _parted(t: Token, at: int) -> list[Token]:
    """A word as two, each where it stands in the text."""
    two = [(t.text[:at], t.start, t.start + at), (t.text[at:], t.start + at, t.end)]
    return [Token("word", text, start, end, stem(text), t.glued and start == t.start) for text, start, end in two]


class Speller:
    """Mends words against one lexicon; never touches a word that is known."""

    def __init__(self, lexicon: Lexicon):
        self.lexicon = lexicon
        self._words = sorted(lexicon.vocabulary | GRAMMAR | {w for w in stop_words() if len(w) > 4})
        self._shortened: dict[str, list[str]] = {}
        for w in {*self._words, *(w for w in stop_words() if len(w) >= SHORTEST)}:
            self._shortened.setdefault(_skeleton(w), []).append(w)
        self.mend = lru_cache(4096)(self._mend)
        self.root = lru_cache(4096)(self._root)
        self.parted = lru_cache(4096)(self._two)

    def apply(self, tokens: list[Token]) -> list[tuple[str, str]]:
        """Mend the tokens in place; returns (as written, as read) for what the reply must mention."""
        mended = []
        for i in reversed(range(len(tokens))):
            two = self.parted(tokens[i].text) if tokens[i].kind == "word" else None
            if two is not None:
                mended.append((tokens[i].text, " ".join(two)))
                tokens[i : i + 1] = _parted(tokens[i], len(two[0]))
        for t in tokens:
            if t.kind != "word":
                continue
            new = self.mend(t.text)
            if new is not None:
                mended.append((t.text, new))
                t.text, t.stem = new, stem(new)
            elif t.stem not in self.lexicon.vocabulary and (root := self.root(t.text)) is not None:
                t.stem = root
        return mended

    def _root(self, word: str) -> str | None:
        """The word of the vocabulary that this is a form of: ``weighed``, ``stirring``."""
        for ending in ("ing", "ed", "er", "d"):
            if word.endswith(ending) and len(word) - len(ending) > 2:
                bare = word[: -len(ending)]
                doubled = bare[:-1] if len(bare) > 3 and bare[-1] == bare[-2] else bare
                for root in (bare, doubled) if ending == "d" else (bare, bare + "e", doubled):
                    if root in self.lexicon.vocabulary and root not in stop_words():
                        return root
        return None

    def knows(self, word: str) -> bool:
        """Is a word known as it stands?"""
        s = stem(word)
        return (
            self.lexicon.known(s)
            or self.lexicon.known(word)
            or word in stop_words()
            or s in stop_words()
            or word in SIMPLE
            or s in PARTS
            or s in GROUPS
            or s in GRAMMAR
        )

    def _two(self, word: str) -> tuple[str, str] | None:
        """The two words that were run into one (``limejuice``): the one way to part it where both name something."""
        if len(word) < 2 * LEAST_LETTERS or not word.isalpha() or self.knows(word):
            return None
        ways = [(word[:i], word[i:]) for i in range(LEAST_LETTERS, len(word) - LEAST_LETTERS + 1)]
        found = [w for w in ways if all(self.lexicon.known(stem(x)) and x not in stop_words() for x in w)]
        return found[0] if len(found) == 1 else None

    def _in_full(self, word: str) -> str | None:
        """The one word that was written without its vowels; where there are several, the one that names a thing."""
        words = [w for w in self._shortened.get(_skeleton(word), []) if _within(word, w)]
        one = stem(word)
        if not words and one != word and len(one) > SHORTEST:
            words = [w for w in self._shortened.get(_skeleton(one), []) if _within(one, w)]
        things = [w for w in words if (e := self.lexicon.entries.get((w,))) is not None and e.substances]
        return words[0] if len(words) == 1 else things[0] if len(things) == 1 else None

    def _mend(self, word: str) -> str | None:
        mended = self._heard(word)
        if mended is None and word.endswith("in") and len(word) > SHORTEST and not self.knows(word):
            return word + "g" if self.knows(word + "g") or self.root(word + "g") else None
        return mended

    def _heard(self, word: str) -> str | None:
        heard = homophones().get(word)
        if heard is not None and (word not in common_words() or not self.knows(word)):
            return heard
        if self.knows(word):
            return None
        if len(word) >= LEAST_LETTERS and word not in common_words() and (full := self._in_full(word)) is not None:
            return full
        if len(word) < SHORTEST or "'" in word or word in common_words():
            return None
        from rapidfuzz import fuzz, process

        like = process.extract(stem(word), self._words, scorer=fuzz.ratio, limit=3, score_cutoff=NEAR)
        near = [
            (w, SWAPPED if _swapped(word, w) else max(fuzz.ratio(word, w), fuzz.ratio(word, w + "s")))
            for w, s, _ in like
            if w[0] == word[0] or s >= 88
        ]
        if not near:
            return None
        near.sort(key=lambda n: -n[1])
        best, score = near[0]
        if score < (NEARER if len(word) < 6 else NEAR + 1):
            return None
        second = near[1][0] if len(near) > 1 and near[1][1] > score - LEAD else best
        if stem(second) != stem(best) and not best.startswith(second) and _skeleton(second) != _skeleton(best):
            return None
        return best if best not in stop_words() or len(word) > 5 else None
