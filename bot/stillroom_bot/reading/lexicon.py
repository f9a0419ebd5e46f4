"""The vocabulary: every word that a unit, a calculator, a choice or a substance is known by.

Built once from what is declared.  An entry is a run of stems (``lemon peel``) and says what it may
mean to whom; the index from entry to calculators is what keeps reading fast with a thousand of
them.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Set
from dataclasses import dataclass, field
from functools import lru_cache
from importlib import resources

from stillroom.kernel import Kernel
from stillroom.substances import Substance
from stillroom.units import Units

from .tokens import Token, stem, tokens_of

LONGEST_PHRASE = 6
PARTICLES = frozenset({"down"})
"""Words that say little, but make a verb of the word before them (``proof down``)."""
NEVER = (0,)
Stems = tuple[str, ...]
VESSELS = frozenset(
    (w,)
    for w in """bottle jug keg tub container canister carboy bowl pitcher jar tank vessel batch case box dispenser flask
urn cooler carafe decanter bucket""".split()
)


@dataclass(slots=True)
class Meaning:
    """What an entry may mean to one calculator.

    ``variables`` it names, ``rows`` of choices it settles, ``titles`` (choices it names without
    settling), and whether it is the calculator's ``topic``.
    """

    variables: dict[str, tuple[str, str] | None] = field(default_factory=dict)
    rows: dict[str, str] = field(default_factory=dict)
    titles: set[str] = field(default_factory=set)
    topic: bool = False


@dataclass(slots=True)
class Entry:
    """One run of stems, with its meaning by calculator, and the substances it names.

    ``worths`` are what it is worth to each calculator in the question and elsewhere, kept by ``ranking``.
    """

    stems: Stems
    meanings: dict[str, Meaning] = field(default_factory=dict)
    substances: list[Substance] = field(default_factory=list)
    kinds: frozenset[str] = frozenset()
    vessel: bool = False
    weight: float = 1.0
    worths: dict[bool, list[tuple[str, float]]] = field(default_factory=dict)


@dataclass(slots=True)
class Match:
    """An entry found at tokens ``first`` to ``last``."""

    first: int
    last: int
    entry: Entry


def in_a_row(words: Stems, stems: list[str]) -> bool:
    """Do the words of a phrase stand one after another?"""
    n = len(words)
    return words[0] in stems and any(tuple(stems[i : i + n]) == words for i in range(len(stems) - n + 1))


@lru_cache(65_536)
def stems_of(text: str) -> Stems:
    """The stems of a phrase."""
    if text.isascii() and text.replace(" ", "").isalpha():
        return tuple(stem(w) for w in text.lower().split())
    return tuple(t.stem for t in tokens_of(text))


@lru_cache(1)
def stop_words() -> frozenset[str]:
    """Words that carry no content."""
    text = resources.files("stillroom_bot.reading").joinpath("words/stop.txt").read_text("utf-8")
    return frozenset(text.split())


@lru_cache(1)
def common_words() -> frozenset[str]:
    """Plain English words, which are never read as a misspelling of something else."""
    text = resources.files("stillroom_bot.reading").joinpath("words/common.txt").read_text("utf-8")
    return frozenset(text.split())


@lru_cache(1)
def homophones() -> Mapping[str, str]:
    """What dictation writes, and what was said: a closed table, never applied to a word that is known."""
    text = resources.files("stillroom_bot.reading").joinpath("words/heard.txt").read_text("utf-8")
    return dict(line.split(" = ") for line in text.splitlines() if " = " in line)


def _starting(lengths: dict[str, tuple[int, ...]], stems: Stems) -> None:
    """Note that a phrase of so many words begins with its first one; the longest stands first."""
    known = {*lengths.get(stems[0], ()), len(stems)}
    lengths[stems[0]] = tuple(sorted(known, reverse=True))


class Lexicon:
    """The vocabulary of one kernel.  Immutable once built."""

    def __init__(self, kernel: Kernel):
        self.units: Units = kernel.units
        self.entries: dict[Stems, Entry] = {}
        self.starts: dict[str, tuple[int, ...]] = {}
        self.kinds: dict[str, set[str]] = defaultdict(set)
        self.only: dict[str, frozenset[Stems]] = {}
        self.also: dict[str, tuple[frozenset[str], list[Stems]]] = {}
        self._units: dict[Stems, list[str]] = {}
        self._unsized: dict[Stems, list[str]] = {}
        self._unit_starts: dict[str, tuple[int, ...]] = {}
        self._kernel = kernel
        self._add_units()
        self._add_calculators(kernel)
        for s in kernel.substances.values():
            for word in s.words:
                self._entry(word).substances.append(s)
        count = max(1, len(kernel.models))
        for entry in self.entries.values():
            entry.vessel = entry.stems[-1:] in VESSELS
            entry.kinds = frozenset(k for s in entry.substances for k in s.kinds)
            df = len(entry.meanings)
            entry.weight = 0.35 + 0.65 * math.log(1 + count / df) / math.log(1 + count) if df else 0.35
        self.vocabulary: frozenset[str] = frozenset(
            w for stems in (*self.entries, *self._units, *self._unsized) for w in stems if len(w) > 2 and w.isalpha()
        )

    def _add_units(self) -> None:
        for unit in self.units:
            for word in unit.words:
                stems = stems_of(word)
                if not stems:
                    continue
                table = self._units if unit.sized else self._unsized
                names = table.setdefault(stems, [])
                if unit.name not in names:
                    names.append(unit.name)
                _starting(self._unit_starts, stems)

    def _add_calculators(self, kernel: Kernel) -> None:
        for id, model in kernel.models.items():
            c = model.calculator
            for word in (*c.words, *c.only):
                self._meaning(word, id).topic = True
            if c.also:
                needed = [stems_of(w) for w in c.also]
                self.also[id] = frozenset(w[0] for w in needed if len(w) == 1), [w for w in needed if len(w) > 1]
            if c.only:
                self.only[id] = frozenset(stems_of(w) for w in c.only)
            for name, k in model.choices.items():
                for word in k.words:
                    self._meaning(word, id).titles.add(name)
                for row in k.rows.values():
                    for word in row.words:
                        self._meaning(word, id).rows.setdefault(name, row.id)
            for name, v in model.variables.items():
                if v.hidden:
                    continue
                for word in v.words:
                    self._meaning(word, id).variables.setdefault(name, None)
                for tag in v.things:
                    self.kinds[tag].add(id)
                if v.named_by:
                    which, column = v.named_by
                    for row in model.choices[which].rows.values():
                        words: Iterable[str] = (
                            row.words if column == "words" else str(row.values.get(column) or "").split(",")
                        )
                        for word in words:
                            if word.strip():
                                m = self._meaning(word, id)
                                m.variables[name] = (which, row.id)
                                m.rows.setdefault(which, row.id)

    def dimensions(self, entry: Entry) -> frozenset[tuple[float, ...]]:
        """What the variables that an entry names are measured in."""
        models = self._kernel.models
        return frozenset(
            models[id].unit[name].dimension for id, meaning in entry.meanings.items() for name in meaning.variables
        )

    def _entry(self, text: str) -> Entry:
        stems = stems_of(text)
        entry = self.entries.get(stems)
        if entry is None:
            entry = self.entries[stems] = Entry(stems)
            if stems:
                _starting(self.starts, stems)
        return entry

    def _meaning(self, text: str, calculator: str) -> Meaning:
        entry = self._entry(text)
        if len(entry.stems) == 1 and (entry.stems[0] in stop_words() or len(entry.stems[0]) < 2):
            return Meaning()
        return entry.meanings.setdefault(calculator, Meaning())

    def matches(self, tokens: list[Token]) -> Iterator[Match]:
        """Every entry at every place, the longer first at each."""
        for i, t in enumerate(tokens):
            for n, entry in self.begin(tokens, i) if t.stem in self.starts else ():
                if entry.meanings or entry.substances:
                    yield Match(i, i + n - 1, entry)

    def begin(self, tokens: list[Token], i: int) -> Iterator[tuple[int, Entry]]:
        """Every entry that begins at token ``i`` and its number of words, the longer first."""
        lengths = self.starts.get(tokens[i].stem)
        if lengths is None:
            return
        stems = tuple([x.stem for x in tokens[i : i + lengths[0]]])
        for n in lengths:
            entry = self.entries.get(stems[:n]) if n <= len(stems) else None
            if entry is not None:
                yield n, entry

    def begins_unit(self, stem: str) -> bool:
        """Does any unit's spelling begin with a stem?"""
        return stem in self._unit_starts

    def unit_at(self, tokens: list[Token], i: int) -> tuple[tuple[str, ...], int] | None:
        """The units spelled at token ``i`` (the longest spelling), and its last token."""
        return self._spelled(self._units, tokens, i)

    def unsized_at(self, tokens: list[Token], i: int) -> tuple[tuple[str, ...], int] | None:
        """The measure without a size that is spelled at token ``i``, and its last token."""
        return self._spelled(self._unsized, tokens, i)

    def _spelled(
        self, table: Mapping[Stems, list[str]], tokens: list[Token], i: int
    ) -> tuple[tuple[str, ...], int] | None:
        lengths = self._unit_starts.get(tokens[i].stem) if 0 <= i < len(tokens) else None
        if lengths is None:
            return None
        stems = tuple([x.stem for x in tokens[i : i + lengths[0]]])
        for n in lengths:
            names = table.get(stems[:n])
            if names and n <= len(stems):
                return tuple(names), i + n - 1
        return None

    def longer_phrase(self, tokens: list[Token], i: int, topics: bool = False) -> bool:
        """Does a name of two or more words, one of them beyond the unit's, begin here (``pint siphon``)?

        ``topics`` counts the words of a job as well (``proof down``).
        """
        if i >= len(tokens):
            return False
        longest = self.starts.get(tokens[i].stem, NEVER)[0]
        if longest < 2:
            return False
        unit = self._spelled(self._units, tokens, i)
        size = unit[1] - i + 1 if unit else 1
        stems = tuple(x.stem for x in tokens[i : i + longest])
        for n in range(len(stems), max(size, 1), -1):
            entry = self.entries.get(stems[:n])
            if (
                entry is not None
                and (stems[size] not in stop_words() or (topics and stems[size] in PARTICLES))
                and not self._all_units(stems[:n])
                and (topics or entry.substances or any(m.variables or m.rows for m in entry.meanings.values()))
            ):
                return True
        return False

    def _all_units(self, stems: Stems) -> bool:
        return all(s in ("per", "/", "a") or (s,) in self._units for s in stems)

    def named(self, id: str, said: Set[Stems]) -> bool:
        """Is one of the words said without which a calculator is not considered (``said``: a message's entries)?"""
        only = self.only.get(id)
        return only is None or not only.isdisjoint(said)

    def suits(self, id: str, stems: list[str], present: Set[str]) -> bool:
        """Is one of the words said that a calculator needs besides?  ``present`` are a message's ``stems``."""
        also = self.also.get(id)
        if also is None or not also[0].isdisjoint(present):
            return True
        return any(w[0] in present and in_a_row(w, stems) for w in also[1])

    def poured_at(self, tokens: list[Token], i: int) -> bool:
        """Does something that is poured begin at token ``i`` (a juice may go by its fruit's name, in the singular)?"""
        if i < len(tokens) and tokens[i].text == "of":
            i += 1
        if i >= len(tokens):
            return False
        for n, entry in self.begin(tokens, i):
            if entry.substances:
                fruit = "fruit" in entry.kinds and tokens[i + n - 1].text == tokens[i + n - 1].stem
                return fruit or any(s.state == "liquid" for s in entry.substances)
        return False

    def fruit_at(self, tokens: list[Token], i: int) -> bool:
        """Does a fruit's name begin at token ``i``, of which one may count as well as pour?"""
        entry = self.entries.get((tokens[i].stem,)) if i < len(tokens) else None
        return entry is not None and "fruit" in entry.kinds and not self.longer_phrase(tokens, i)

    def known(self, stem: str) -> bool:
        """Is a stem a word of the vocabulary?"""
        return stem in self.vocabulary or (stem,) in self._units or (stem,) in self._unsized

    def name_before(self, tokens: list[Token], i: int) -> tuple[int, int] | None:
        """The known phrase that ends just before token ``i``."""
        for n in range(LONGEST_PHRASE, 0, -1):
            if i - n >= 0 and self.entries.get(tuple(t.stem for t in tokens[i - n : i])) is not None:
                return i - n, i - 1
        return (
            (i - 1, i - 1)
            if i >= 1 and tokens[i - 1].kind == "word" and tokens[i - 1].text not in stop_words()
            else None
        )

    def name_after(self, tokens: list[Token], i: int) -> tuple[int, int] | None:
        """The known phrase that begins just after token ``i``, articles left out."""
        j = i + 1
        while j < len(tokens) and tokens[j].text in ("the", "of", "a", "an", "my", "our"):
            j += 1
        for n, _ in self.begin(tokens, j) if j < len(tokens) else ():
            return j, j + n - 1
        return (j, j) if j < len(tokens) and tokens[j].kind == "word" and tokens[j].text not in stop_words() else None
