"""A message taken apart: tokens, quantities, what is asked, and which known words stand near which number."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any, TypeVar, cast

from .clauses import Asked
from .kept import kept
from .lexicon import Lexicon, Match, Stems
from .quantity import HUNDREDTHS, MONEY, Quantity
from .tokens import Token

T = TypeVar("T")
RATIO = ("ratio",)
"""What ``1:4`` says without a word."""
POURED_FROM = frozenset("bottle dropper dasher keg jug flask pitcher carafe".split())
"""What stands in one of these is poured, whatever it is made of."""
POURED_IN = frozenset({"milliliter", "centiliter", "liter", "pint", "quart", "gallon", "cup", "fluid_ounce"})
SAID = 0.5
"""From how clear a cue on it counts as said."""


@dataclass(slots=True)
class Near:
    """A match near a quantity and how much it says about it; ``owned`` if it follows it directly."""

    match: Match
    weight: float
    owned: bool = False


@dataclass
class Message:
    """A message, taken apart once, for every calculator to look at; ``steps`` counts what was tried to read it.

    ``crowded`` says that it held too much to be looked at, ``again`` that a dose is asked for in another unit;
    ``shares`` is how much each calculator shares with it, once somebody asked.
    """

    text: str
    tokens: list[Token]
    quantities: list[Quantity]
    asked: Asked
    matches: list[Match]
    mended: list[tuple[str, str]] = field(default_factory=list)
    near: list[list[Near]] = field(default_factory=list)
    cues: list[dict[str, float]] = field(default_factory=list)
    nouns: list[tuple[int, int] | None] = field(default_factory=list)
    pairs: list[tuple[Match, Match]] = field(default_factory=list)
    stops: frozenset[str] = frozenset()
    steps: int = 0
    crowded: bool = False
    again: bool = False
    _words: list[tuple[int, bool, bool]] | None = None
    shares: dict[str, float] | None = field(default=None, repr=False)
    _states: dict[int, str] = field(default_factory=dict)
    _made: dict[Any, Any] = field(default_factory=dict, init=False, repr=False)

    def words(self, first: int, last: int) -> str:
        """The text of tokens ``first`` to ``last`` as it was written."""
        return self.text[self.tokens[first].start : self.tokens[last].end] if first <= last < len(self.tokens) else ""

    def state(self, k: int) -> str:
        """``dry`` or ``liquid`` by the thing that a quantity is said to be an amount of, or nothing.

        What has a strength of alcohol is poured (``2.5 oz of 80 proof``).
        """
        known = self._states.get(k)
        if known is None:
            known = self._states[k] = self._state(k)
        return known

    @kept
    def weighed(self) -> bool:
        """``2 oz salt in 14 oz water, both on the kitchen scale``: is it said that everything was weighed?"""
        words = [t.text for t in self.tokens]
        return any(
            w in ("scale", "scales") and {"on", "the", "my", "our", "a"} & set(words[max(0, i - 3) : i])
            and "on" in words[max(0, i - 4) : i]
            for i, w in enumerate(words)
        )

    def _state(self, k: int) -> str:
        if self.weighed:
            return "dry"
        q, following = self.quantities[k], self.quantities[k + 1] if k + 1 < len(self.quantities) else None
        if following is not None and set(following.units) & {"proof", "abv"}:
            between = [t.text for t in self.tokens[q.last + 1 : following.first]]
            if between in (["of"], ["at"], ["of", "a"]):
                return "liquid"
        noun = self.nouns[k]
        if noun is not None and q.units and self.tokens[noun[1]].stem in POURED_FROM:
            return "liquid"
        best: tuple[float, int, str, Match] | None = None
        for x in self.near[k]:
            if (x.owned or x.weight > 2) and x.match.entry.substances and not self._moment(x.match):
                rank = (x.weight, x.match.last - x.match.first, x.match.entry.substances[0].state, x.match)
                if best is None or rank[:2] > best[:2]:
                    best = rank
        if best is not None and best[2] == "piece" and self._poured_out(k, best[3]):
            return "liquid"
        return "" if best is None else "liquid" if best[2] == "liquid" else "dry"

    def _poured_out(self, k: int, x: Match) -> bool:
        """``2 oz lemon in ml``, ``40 limes at 3/4 oz each, quarts?``: where a volume is asked for, an amount of a fruit
        in the singular, or of each of several, is of its juice."""
        said = self.tokens[x.last].text == self.tokens[x.last].stem or self.cues[k].get("each", 0.0) >= SAID
        return said and bool(self.asked.units) and all(POURED_IN.issuperset(u) for u in self.asked.units)

    def _moment(self, x: Match) -> bool:
        """``4 oz before the ice``: is a thing named for when, and not for what?"""
        before = [t.text for t in self.tokens[max(0, x.first - 2) : x.first] if t.text != "the"]
        return before[-1:] in (["before"], ["after"])

    @kept
    def money(self) -> str:
        """The sign of the money that is asked in, else of the first that is said."""
        asked = (MONEY.get(self.tokens[a].stem, "") for a, _ in self.asked.unit_spans)
        said = (q.money for q in self.quantities)
        return next((sign for sign in (*asked, *said) if sign and sign not in HUNDREDTHS), "")

    @kept
    def noun_tokens(self) -> frozenset[int]:
        """The tokens of the things that numbers are said to be amounts of."""
        return frozenset(i for n in self.nouns if n for i in range(n[0], n[1] + 1))

    @kept
    def row_tokens(self) -> frozenset[int]:
        """Single words that settle a choice wherever they mean anything (``stirred``), and name no thing."""
        return frozenset(m.first for m in self.matches if m.first == m.last and row_only(m))

    @kept
    def settling(self) -> frozenset[int]:
        """Single words that may settle a choice, whatever else they mean."""
        return frozenset(
            m.first for m in self.matches if m.first == m.last and any(x.rows for x in m.entry.meanings.values())
        )

    @kept
    def content(self) -> tuple[int, ...]:
        """Tokens that carry content and are no part of a quantity or of the unit asked for."""
        taken = {k for q in self.quantities for k in range(q.first, q.last + 1)}
        taken |= {k for a, b in self.asked.unit_spans for k in range(a, b + 1)}
        return tuple(
            i
            for i, t in enumerate(self.tokens)
            if t.kind == "word"
            and len(t.text) > 1
            and t.text not in self.stops
            and t.stem != "one"
            and i not in taken
        )

    @kept
    def elliptic(self) -> dict[int, tuple[str, ...]]:
        """``at 68 brix, I like it at 60``: bare numbers that share the unit of a strength, by identity.

        ``It came out 24, I wanted 20``: two bare numbers, of what is and what should be, are percents.
        """
        said = next((q.units for q in self.quantities if q.strength and not q.noise), ())
        if not said and not self._is_and_should_be():
            return {}
        said = said or ("percent",)
        return {
            id(q): said
            for k, q in enumerate(self.quantities)
            if q.bare
            and not (q.weak or q.noise or q.rejected or q.factor)
            and 1 < q.value <= 100
            and self.nouns[k] is None
            and (q.last + 1 >= len(self.tokens) or self.tokens[q.last + 1].text not in ("of", "x", "times"))
            and max(self.cues[k].get(c, 0.0) for c in ("to", "from", "need")) >= SAID
        }

    def _is_and_should_be(self) -> bool:
        plain = (k for k, q in enumerate(self.quantities) if q.bare and not (q.weak or q.noise or q.rejected))
        bare = [k for k in plain if not self.quantities[k].factor]
        if len(bare) != 2 or any(self.nouns[k] for k in bare) or not any(q.units for q in self.quantities):
            return False
        is_, should = (self.cues[k] for k in bare)
        return is_.get("from", 0.0) >= SAID and should.get("to", 0.0) >= SAID

    @kept
    def _said(self) -> frozenset[Stems]:
        found = {m.entry.stems for m in self.matches}
        return frozenset(found | {RATIO} if any(q.ratio is not None for q in self.quantities) else found)

    @kept
    def _stems(self) -> tuple[list[str], frozenset[str]]:
        stems = [t.stem for t in self.tokens]
        return stems, frozenset(stems)

    def suits(self, lexicon: Lexicon, id: str) -> bool:
        """Does the message say what a calculator needs besides what it is known by?"""
        return lexicon.suits(id, *self._stems)

    def allows(self, lexicon: Lexicon, id: str) -> bool:
        """May a calculator be considered, by the words that it cannot do without?"""
        return lexicon.named(id, self._said) and (id not in lexicon.also or self.suits(lexicon, id))

    def once(self, make: Callable[[Message], T]) -> T:
        """What is worked out of the message alone, and kept with it."""
        found = self._made.get(make)
        if found is None:
            found = self._made[make] = make(self)
        return cast(T, found)

    def content_words(self, lexicon: Lexicon) -> list[tuple[int, bool, bool]]:
        """Each content token, whether the vocabulary knows it, and whether it stands in the question."""
        if self._words is None:
            zone = {i for a, b in self.asked.zones for i in range(a, b + 1)}
            self._words = [(i, lexicon.known(self.tokens[i].stem), i in zone) for i in self.content]
        return self._words


def row_only(match: Match) -> bool:
    """Does a word settle a choice wherever it means anything (``stirred``), and name no thing?"""
    found = match.entry.meanings.values()
    return not match.entry.substances and any(m.rows for m in found) and not any(m.variables for m in found)
