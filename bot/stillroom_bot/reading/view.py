"""One calculator looks at one message: which known words mean something to it, and where they stand."""

from __future__ import annotations

from collections.abc import Mapping

from stillroom.units import Units

from .kept import kept
from .lexicon import Lexicon, Match, Meaning
from .message import Message
from .profile import Profile

LENGTH = 0.35
NOTHING = Meaning()
NO_SLOTS: frozenset[str] = frozenset()
PRICED = frozenset({"cost", "costing", "price"})
BLANK_KNOWN, BLANK_UNKNOWN, BLANK_ASKED, MOST_BLANK = 0.25, 0.05, 1.5, 1.8
BLANK_ROW = 0.6
MONEYLESS = 2.2
"""What it costs a calculator that knows no money when a price is asked."""


class View:
    """A message seen by a calculator.  ``rows`` are the chosen rows, ``context`` the variables of the job before.

    ``mine`` are the matches that mean something here, with the meaning and the slots whose things they are;
    ``meaning_of`` finds both by the identity of a match, ``covered`` are the tokens of them all.

    ``has_spec`` says that the job before has a spec already; ``context`` maps a variable to the unit it was given
    in and how much that speaks for filling it again; ``settled`` are the choices that the job before has made.
    """

    def __init__(
        self,
        profile: Profile,
        lexicon: Lexicon,
        message: Message,
        units: Units,
        cover: float,
        context: Mapping[str, tuple[str, float]] | None = None,
    ):
        self.profile, self.lexicon, self.message, self.units, self.cover = profile, lexicon, message, units, cover
        self.model, self.id = profile.model, profile.id
        self.context = context or {}
        self.rows: dict[str, str] = {}
        self.has_spec = False
        self.settled: frozenset[str] = frozenset()
        self.mine: list[tuple[Match, Meaning, frozenset[str]]] = []
        any_thing = profile.any_thing
        for match in message.matches:
            entry = match.entry
            meaning = entry.meanings.get(self.id)
            anything = any_thing and bool(entry.substances)
            slots = profile.slots_of(entry.kinds) if entry.kinds else NO_SLOTS
            if meaning is not None or slots or anything:
                self.mine.append((match, meaning or NOTHING, slots))
        self.meaning_of = {id(m): (meaning, slots) for m, meaning, slots in self.mine}
        self.covered = frozenset(i for m, _, _ in self.mine for i in range(m.first, m.last + 1))

    @kept
    def anything(self) -> frozenset[str]:
        """The slots that take any thing at all, and are not named by a chosen row."""
        return frozenset(n for n, s in self.profile.slots.items() if "any" in s.things and not s.variable.named_by)

    def agrees(self, row: tuple[str, str] | None) -> float:
        """1, or little if a word names a variable by another row than the one that is chosen."""
        return 0.15 if row is not None and self.rows.get(row[0], row[1]) != row[1] else 1.0

    def meant(self) -> frozenset[int]:
        """The tokens that name a variable, the topic or a chosen row, and not just some thing or other."""
        return frozenset(
            i
            for m, meaning, slots in self.mine
            if slots
            or meaning.topic
            or meaning.titles
            or any(self.agrees(r) == 1.0 for r in meaning.variables.values())
            or any(self.rows.get(c) == r for c, r in meaning.rows.items())
            for i in range(m.first, m.last + 1)
        )

    @kept
    def blank(self) -> float:
        """What the content words cost of which this calculator knows nothing."""
        nouns = self.message.noun_tokens if self.profile.any_thing else frozenset()
        rows = self.message.row_tokens
        cost = 0.0
        for i, known, asked in self.message.content_words(self.lexicon):
            if i in self.covered or (i in nouns and i not in rows):
                continue
            if i in rows:
                cost += BLANK_ROW
                continue
            cost += (BLANK_KNOWN * (BLANK_ASKED if asked else 1.0)) if known else BLANK_UNKNOWN
        moneyless = self.message.once(price_asked) and not self.profile.counts_money
        return min(cost, MOST_BLANK) + MONEYLESS * moneyless


def price_asked(m: Message) -> bool:
    """``45 ml pour costs what``: is it money that is asked for, in the question or where none is marked?"""
    spans = [*m.asked.zones, *m.asked.rest] if m.asked.zones else [(0, len(m.tokens) - 1)]
    return any(m.tokens[i].stem in PRICED for a, b in spans for i in range(a, min(b + 1, len(m.tokens))))
