"""The clauses of a message: where they end, what in them is taken, and what was found to be asked."""

from __future__ import annotations

from dataclasses import dataclass, field

from .lexicon import Lexicon, stop_words
from .quantity import Quantity
from .tokens import Token

SENTENCE_ENDS = frozenset(".;?!\n")
PART_ENDS = SENTENCE_ENDS | {":"}  # a colon parts too, where what stands before it is a heading
ENDS = frozenset({".", ";", "?", "!", "\n", ",", "=", "(", ")", "|", "[", "]", '"'})


@dataclass(slots=True)
class Asked:
    """``zones`` are runs of tokens in which what is asked is named; ``units`` those it is asked in;
    ``how`` the kind of question word; ``rest`` zones of less weight; ``shared`` zones whose words may
    belong to the number before them as well; ``mentioned`` says that somebody has or knows that one unit,
    ``split`` that both parts of a whole are asked for."""

    zones: list[tuple[int, int]] = field(default_factory=list)
    shared: list[tuple[int, int]] = field(default_factory=list)
    rest: list[tuple[int, int]] = field(default_factory=list)
    units: list[tuple[str, ...]] = field(default_factory=list)
    unit_spans: list[tuple[int, int]] = field(default_factory=list)
    how: set[str] = field(default_factory=set)
    mentioned: bool = False
    split: bool = False


class Clauses:
    """The tokens of a message, its quantities, and what is asked as far as it is known."""

    def __init__(self, tokens: list[Token], quantities: list[Quantity], lexicon: Lexicon):
        self.t, self.lex = tokens, lexicon
        self.taken: set[int] = set()
        for q in quantities:
            self.taken.update(range(q.first, q.last + 1))
            for name in q.names:
                if name is not None and name[0] > q.last and tokens[q.last + 1].text == ",":
                    self.taken.update(range(name[0], name[1] + 1))
        self.quantities = quantities
        self.asked = Asked()
        self.per: tuple[str, ...] = ()
        self.passing: tuple[int, int] | None = None

    def _pass_by(self, asked_elsewhere: bool) -> None:
        """What was taken for the question for want of another counts for little where something else is asked."""
        if self.passing is not None and asked_elsewhere and self.passing in self.asked.zones:
            self.asked.zones.remove(self.passing)
            self.asked.rest.append(self.passing)

    def _word(self, i: int) -> str:
        return self.t[i].text if 0 <= i < len(self.t) else ""

    def _ends(self, i: int) -> bool:
        """Does token ``i`` end a clause: a mark, or a dash between spaces?"""
        word = self._word(i)
        if word in ("-", "/"):
            return not self.t[i].glued and i + 1 < len(self.t) and not self.t[i + 1].glued
        return word in ENDS

    def _unit_span(self, i: int) -> tuple[int, int] | None:
        if i in self.taken:
            return None
        hit = self.lex.unit_at(self.t, i)
        return (i, hit[1]) if hit else None

    def _contentful(self, span: tuple[int, int]) -> bool:
        """Does a span name anything that the vocabulary knows, units apart?"""
        return any(
            self.lex.known(t.stem) and t.text not in stop_words() and self.lex.unit_at(self.t, k) is None
            for k, t in enumerate(self.t[span[0] : span[1] + 1], span[0])
        )

    def _overlaps(self, zone: tuple[int, int]) -> bool:
        return any(a <= zone[1] and zone[0] <= b for a, b in self.asked.zones)

    def _mark(self, i: int) -> str:
        """The mark at token ``i``; one that trails off is that of its end (``so the brix is..?``)."""
        while self._word(i) == "." and self._word(i + 1) in (".", "?"):
            i += 1
        return self._word(i)

    def _told(self, chunk: tuple[int, int]) -> bool:
        """``My peels of grapefruit are 360 g``: is so much said to be there, and nothing asked?"""
        first = next((k for k in range(chunk[0], chunk[1] + 1) if k in self.taken), 0)
        return first > chunk[0] and self._word(first - 1) in ("is", "are", "was", "were", "weigh", "weighs")
