"""A message taken apart: tokens, quantities, what is asked, and which known words stand near which number."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property

from .asked import Asked, Asking
from .lexicon import Lexicon, Match, stop_words
from .quantities import Quantities, Quantity
from .spelling import Speller
from .tokens import Token, tokens_of

FAINT, FAR = 1e-6, 40
AFTER = (3.0, 2.6, 2.0, 1.5, 1.1, 0.8, 0.6, 0.5)
BEFORE = (2.6, 2.2, 1.7, 1.3, 1.0, 0.7, 0.5, 0.4)
PREPOSITIONS = frozenset("in into to from with for at on onto per than by over under as and or but so then".split())
LIGHT = frozenset("""of the a an my our your is are was were weighs weigh weighed measures measured = : of_the some fresh whole dry
good full finished straight cold about exactly only just roughly approx @ - ( ' " that's it's its this that these those it has have
got get gets us""".split())
QUESTION = frozenset("how what which what's whats".split())
CLAUSE = frozenset({".", ";", "?", "!", "\n", "|"})
SPACED = frozenset({"-", "/"})
REFERRING = (["of", "it"], ["of", "them"], ["of", "those"], ["of", "that"])
JOINS = frozenset({"and", "+", "&", "plus", "with", "-"})
LIST = frozenset({",", ";", "\n", "|", "+", "and", ":", "."})
SOFT = frozenset({",", "(", ")", "+", "&"})

CUES_BEFORE: dict[str, dict[str, float]] = {
    "to": {"to": 1.0, "target": 1.0, "reach": 1.0, "hit": 1.0, "want": 1.0, "wants": 1.0, "need": 0.5, "needs": 0.5, "become": 1.0,
           "until": 1.0, "land": 1.0, "lands": 1.0, "like": 0.9, "finish": 0.9, "finishes": 0.9, "should": 0.8, "aim": 1.0,
           "aiming": 1.0, "final": 0.9, "finished": 0.7, "wanted": 1.0, "wish": 0.9, "must": 0.6, "afterwards": 0.8, "end": 0.8,
           "it's": 0.2, "instead": 0.4, "after": 0.5, "goal": 1.0},
    "from": {"from": 1.0, "of": 0.5, "is": 0.6, "is_": 0.6, "at": 0.5, "shows": 1.0, "reads": 1.0, "measured": 1.0, "measures": 1.0, "now": 0.8,
             "currently": 1.0, "starting": 1.0, "start": 1.0, "came": 1.0, "out": 0.4, "have": 0.6, "got": 0.6, "with": 0.3, "my": 0.4,
             "our": 0.4, "original": 0.8, "says": 0.8, "was": 0.7, "before": 0.6, "going": 0.5, "left": 0.4, "came_out": 1.0, "showing": 1.0,
             "reading": 1.0, "tastes": 0.5, "comes": 0.6, "thin": 0.4, "cut": 0.5, "the": 0.2},
    "have": {"have": 1.0, "got": 1.0, "left": 0.9, "only": 0.8, "there": 0.8, "there's": 0.9, "there're": 0.8, "own": 1.0, "has": 0.8,
             "holds": 0.7, "hold": 0.7, "contains": 0.7, "ive": 0.8, "i've": 0.8, "box": 0.4, "stock": 0.5, "available": 0.8},
    "need": {"need": 1.0, "needs": 1.0, "want": 0.9, "for": 0.6, "make": 0.8, "makes": 0.7, "making": 0.8, "finish": 0.9, "end": 0.8,
             "total": 0.6, "yield": 0.6, "get": 0.6, "order": 0.5, "expect": 0.7, "must": 0.6, "fill": 0.4},
    "each": {"each": 1.0, "every": 1.0, "per": 1.0, "apiece": 1.0, "one": 0.7, "gives": 0.6, "give": 0.6, "giving": 0.6, "gave": 0.6, "a": 0.2,
             "gets": 0.5, "takes": 0.5, "single": 0.8, "pour": 0.5},
    "per": {"per": 1.0, "each": 0.8, "every": 1.0, "a": 0.3},
    "add": {"add": 1.0, "adding": 1.0, "added": 1.0, "plus": 0.8, "topped": 0.8, "top": 0.6, "with": 0.6, "gets": 0.5, "onto": 0.5, "more": 0.5},
    "into": {"into": 1.0, "in": 0.8, "fill": 1.0, "filling": 1.0, "onto": 0.8, "on": 0.5, "inside": 1.0, "takes": 0.6, "treat": 0.6,
             "through": 0.6, "set": 0.5, "to": 0.3, "for": 0.3},
    "with": {"with": 1.0, "using": 1.0, "plus": 0.6, "use": 0.7, "and": 0.2, "by": 0.3},
    "lost": {"lost": 1.0, "lose": 1.0, "loss": 1.0, "loses": 1.0, "losing": 1.0, "waste": 1.0, "wasted": 1.0, "less": 0.5, "spill": 1.0},
    "of": {"of": 1.0},
    "whole": {"total": 1.2, "tot": 1.2, "totals": 1.0, "totalling": 1.0, "altogether": 1.2, "together": 1.0, "combined": 1.2, "overall": 1.0,
              "whole": 1.0, "come": 0.7, "comes": 0.7, "all": 0.8, "everything": 1.0, "finished": 0.8, "final": 0.6, "input": 0.8,
              "lot": 0.6, "topped": 0.8, "filled": 0.6, "sum": 0.8},
}
CUES_AFTER: dict[str, dict[str, float]] = {
    "each": {"each": 1.2, "apiece": 1.2, "per": 0.9, "every": 0.8, "a": 0.5},
    "have": {"left": 1.0, "available": 1.0, "over": 0.5, "aside": 0.8},
    "lost": {"lost": 1.2, "loss": 1.2, "waste": 1.2, "wasted": 1.0, "lose": 0.8},
    "from": {"going": 0.5, "before": 0.7, "now": 0.7, "already": 0.6},
    "to": {"finished": 0.7, "after": 0.6, "coming": 0.6, "final": 0.8, "afterwards": 0.8, "instead": 0.5, "out": 0.3},
    "per": {"each": 0.8, "apiece": 0.8, "per": 0.8},
    "need": {"finished": 0.6, "total": 0.6, "altogether": 0.6},
    "add": {"added": 1.0, "more": 0.5},
    "whole": {"total": 1.2, "tot": 1.2, "altogether": 1.2, "together": 1.2, "combined": 1.2, "overall": 1.0, "all": 0.8, "included": 1.0,
              "incl": 1.0, "including": 0.8, "finished": 0.6},
}


@dataclass(slots=True)
class Near:
    """A match near a quantity and how much it says about it; ``owned`` if it follows it directly."""

    match: Match
    weight: float
    owned: bool = False


@dataclass
class Message:
    """A message, taken apart once, for every calculator to look at."""

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
    _words: list[tuple[int, bool, bool]] | None = None

    def words(self, first: int, last: int) -> str:
        """The text of tokens ``first`` to ``last`` as it was written."""
        return self.text[self.tokens[first].start:self.tokens[last].end] if first <= last < len(self.tokens) else ""

    def state(self, k: int) -> str:
        """``dry`` or ``liquid`` by the thing that a quantity is said to be an amount of, or nothing."""
        best: tuple[float, int, str] | None = None
        for x in self.near[k]:
            if (x.owned or x.weight > 2) and x.match.entry.substances:
                rank = (x.weight, x.match.last - x.match.first, x.match.entry.substances[0].state)
                if best is None or rank[:2] > best[:2]:
                    best = rank
        return "" if best is None else "liquid" if best[2] == "liquid" else "dry"

    @cached_property
    def noun_tokens(self) -> frozenset[int]:
        """The tokens of the things that numbers are said to be amounts of."""
        return frozenset(i for n in self.nouns if n for i in range(n[0], n[1] + 1))

    @cached_property
    def content(self) -> tuple[int, ...]:
        """Tokens that carry content and are no part of a quantity or of the unit asked for."""
        taken = {k for q in self.quantities for k in range(q.first, q.last + 1)}
        taken |= {k for a, b in self.asked.unit_spans for k in range(a, b + 1)}
        return tuple(i for i, t in enumerate(self.tokens)
                     if t.kind == "word" and len(t.text) > 1 and t.text not in self.stops and i not in taken)

    def content_words(self, lexicon: Lexicon) -> list[tuple[int, bool, bool]]:
        """Each content token, whether the vocabulary knows it, and whether it stands in the question."""
        if self._words is None:
            zone = {i for a, b in self.asked.zones for i in range(a, b + 1)}
            self._words = [(i, lexicon.known(self.tokens[i].stem), i in zone) for i in self.content]
        return self._words


def take_apart(text: str, lexicon: Lexicon, speller: Speller, comma: bool = False) -> Message:
    """The parts of a message.  ``comma`` says that the chat writes decimal commas."""
    tokens = tokens_of(text)
    mended = speller.apply(tokens)
    comma = comma or "decimal comma" in text.lower() or "comma is the decimal" in text.lower() or "comma as decimal" in text.lower()
    quantities = Quantities(tokens, lexicon, comma).find()
    asked = Asking(tokens, quantities, lexicon).find()
    matches = list(lexicon.matches(tokens))
    m = Message(text, tokens, quantities, asked, matches, mended, stops=stop_words())
    m.pairs = list(_pairs(m))
    _neighbours(m)
    return m


def _pairs(m: Message) -> Iterator[tuple[Match, Match]]:
    """Two things in one breath, without a number between: ``punch and milk``, ``peel + sugar``, ``drink with milk``."""
    starts: dict[int, list[Match]] = {}
    for match in m.matches:
        starts.setdefault(match.first, []).append(match)
    for a in m.matches:
        i = a.last + 1
        if i + 1 < len(m.tokens) and m.tokens[i].text in JOINS:
            i += 1 + (m.tokens[i + 1].text in ("the", "its", "their", "and", "-") and i + 2 < len(m.tokens))
            for b in starts.get(i, ()):
                yield a, b


def _label(m: Message, q: Quantity, taken: dict[int, int]) -> tuple[int, int] | None:
    """The thing that stands before its amount in a list: ``gin 47 % 30 ml``, ``rum 40 ml ->``."""
    i = q.first - 1
    while i >= 0 and q.first - i <= FAR and (i in taken or m.tokens[i].text in (":", "=", "x", "of")):
        if m.tokens[i].text in SOFT or m.tokens[i].text in CLAUSE:
            return None
        i -= 1
    last = i
    while i >= 0 and m.tokens[i].kind == "word" and m.tokens[i].text not in m.stops and m.tokens[i].text not in PREPOSITIONS \
            and i not in taken and last - i < 4:
        i -= 1
    begins = i < 0 or m.tokens[i].text in LIST or (m.tokens[i].text in SPACED and not m.tokens[i].glued)
    return (i + 1, last) if begins and i < last else None


def _container(tokens: list[Token], i: int) -> int | None:
    """``24 to a box``, ``24 per box``, ``12 in a case``: where the name of the container begins."""
    word, after = tokens[i].text, tokens[i + 1].text if i + 1 < len(tokens) else ""
    if word in ("to", "in") and after in ("a", "the", "each", "every"):
        return i + 2
    return i + 1 if word in ("per", "a") else None


def _neighbours(m: Message) -> None:
    n = len(m.tokens)
    starts: dict[int, list[Match]] = {}
    ends: dict[int, list[Match]] = {}
    for match in m.matches:
        starts.setdefault(match.first, []).append(match)
        ends.setdefault(match.last, []).append(match)
    taken: dict[int, int] = {}
    for k, q in enumerate(m.quantities):
        for i in range(q.first, q.last + 1):
            taken[i] = k
    walls = {i for a, b in m.asked.zones if (a, b) not in m.asked.shared for i in range(a, b + 1)}
    for q in m.quantities:
        near: list[Near] = [Near(x, AFTER[0]) for x in starts.get(q.first, ()) if q.weak and x.last <= q.last]
        cues: dict[str, float] = {}
        noun: tuple[int, int] | None = None
        i, step, factor, owned = q.last + 1, 0, 1.0, True
        while i < n and step < len(AFTER) and factor > FAINT:
            word = m.tokens[i].text
            if word in CLAUSE or (word in SPACED and not m.tokens[i].glued) or i in walls:
                break
            if i in taken:
                if m.quantities[taken[i]].noise != "asked" and not (q.bare and i == q.last + 1) and not (
                        step == 0 and factor == 1.0 and q.units and m.quantities[taken[i]].strength):
                    factor *= 0.35
                    owned = False
                i = m.quantities[taken[i]].last + 1
                continue
            if q.bare and i == q.last + 1 and (held := _container(m.tokens, i)):
                cues["per"] = 1.2
                i, factor = held, 1.1
                continue
            if word in SOFT:
                factor *= 0.4
                owned = False
                i += 1
                continue
            if word in QUESTION:
                break
            for role, table in CUES_AFTER.items():
                if word in table and step < 3:
                    cues[role] = max(cues.get(role, 0.0), table[word] * (1.0 if step < 3 else 0.6) * factor)
            if word in PREPOSITIONS:
                factor *= 0.55
                owned = False
                i += 1
                continue
            for match in starts.get(i, ()):
                near.append(Near(match, AFTER[step] * factor, owned))
            if owned and noun is None and m.tokens[i].kind == "word" and word not in LIGHT and word not in m.stops:
                longest = max((x.last for x in starts.get(i, ())), default=i)
                end = longest
                while end + 1 < n and end + 1 not in taken and m.tokens[end + 1].kind == "word" and m.tokens[
                        end + 1].text not in m.stops and m.tokens[end + 1].text not in PREPOSITIONS and end - i < 3:
                    end = max((x.last for x in starts.get(end + 1, ())), default=end + 1)
                noun = (i, end)
            if word not in LIGHT:
                step += 1
            i += 1
        i, step, factor = q.first - 1, 0, 1.0
        referring = [t.text for t in m.tokens[q.last + 1:q.last + 3]] in REFERRING
        while i >= 0 and step < len(BEFORE) and factor > FAINT:
            word = m.tokens[i].text
            if word in CLAUSE or (word in SPACED and not m.tokens[i].glued) or i in walls:
                break
            if i in taken:
                factor *= 0.3
                i = m.quantities[taken[i]].first - 1
                continue
            if word in SOFT:
                factor *= 1.0 if referring else 0.4
                i -= 1
                continue
            if referring and i not in ends:
                i -= 1
                continue
            if factor > 0.25 and step < 4:
                strength = 1.0 if step < 1 else 0.7 if step < 2 else 0.4
                for role, table in CUES_BEFORE.items():
                    if word in table:
                        cues[role] = max(cues.get(role, 0.0), table[word] * strength * factor)
            for match in ends.get(i, ()):
                near.append(Near(match, BEFORE[step] * factor))
            if word in PREPOSITIONS and word not in ("at", "to"):
                factor *= 0.75
            if word not in LIGHT:
                step += 1
            i -= 1
        m.near.append(near)
        m.cues.append(cues)
        m.nouns.append(noun or _label(m, q, taken))
