"""What a calculator's candidates can score at most, told before any is put together.

A bound is never below the scores of ``placing`` and ``wanting``; the nearer it is, the fewer calculators need a
closer look.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from stillroom.units import Units

from .fitting import any_role, roles_of
from .lexicon import Match, Meaning
from .lines import KNOWN
from .message import Message
from .naming import FIT as FIT_RATIO
from .naming import MOST_NEAR, NAMED_TERMS, NEAR, TOLD
from .placing import (
    ANY_THING,
    BY_UNIT,
    DROPPED,
    FAINT,
    FIT,
    MOST_WHOLE,
    MOST_WORDS,
    OUTRIGHT,
    ROLE,
    SUMMED,
    WORDS,
    left_over,
    live,
)
from .profile import Profile
from .quantity import Quantity
from .said import Said
from .suiting import COLD, IN_UNIT, LONG, MANY_PIECES, POURED, STRONG, WEIGHED
from .together import most_together
from .view import LENGTH, View
from .wanting import (
    BOTH,
    EACH_ASKED,
    LINES,
    MOST_NAMED,
    NAMED,
    NAMED_BY_THING,
    NAMED_LINE,
    STATE,
    WHOLE,
)

NO_ROLES: frozenset[str] = frozenset()
NOTHING: tuple[Meaning | None, frozenset[str]] = None, frozenset()
KINDS_ASKED = {"time": LONG, "strength": STRONG, "temperature": COLD}


@dataclass(slots=True)
class Reach:
    """What one number can come to: ``left`` over, as a ``ratio``, or by the words ``near`` it, strongest first.

    ``whole`` says how clearly it is the sum of others; ``noun`` that it is an amount of something; ``open`` that it
    has no unit, and so may be anything.
    """

    quantity: Quantity
    near: list[tuple[Match, float]]
    cues: dict[str, float]
    noun: bool
    left: float
    ratio: float
    whole: float
    bare: bool
    open: bool

    def most(self, profile: Profile, units: Units, m: Message, near: float) -> float:
        """What it can come to for a calculator that knows so strong a word near it."""
        left, q = KNOWN if profile.spec is not None else self.left, self.quantity
        if q.ratio is not None:
            return max(left, self.ratio) if profile.ratios else left
        roles = NO_ROLES if q.factor else profile.all_roles if self.open else roles_of(q, profile, units, m)
        if not roles:
            return left
        if self.noun:
            near = max(near, ANY_THING if profile.any_thing else BY_UNIT if self.bare else 0.0)
        if profile.wholes and m.pairs:
            near = max(near, SUMMED)
        if profile.wholes and self.cues.get("whole", 0.0) >= OUTRIGHT:
            near = max(near, FAINT)
        role, whole = 0.0, self.whole if profile.wholes else 0.0
        for name, clear in self.cues.items():
            if clear > role and (name in roles or (name == "per" and "each" in roles)):
                role = clear
        dropped = DROPPED if profile.counted_out and q.units else 0.0
        return max(left, FIT + WORDS * min(near, MOST_WORDS) + ROLE * (max(role, whole) + whole) + dropped)


class Bounds:
    """What a message's numbers and questions can come to, worked out once and asked for each calculator."""

    def __init__(self, m: Message):
        self.message, said = m, m.once(Said)
        self._numbers = [self._reach(k) for k in live(m)]
        self._money = any(q.money for q in m.quantities)
        self._again = bool(m.asked.how) and any(q.noise == "repeat" for q in m.quantities)
        self._asked = _strongest(
            (x, min(MOST_NAMED, NAMED * _size(x)))
            for x in m.matches
            if any(a <= x.first and x.last <= b for a, b, _ in said.zones)
        )
        self._besides = (
            2 * WHOLE
            + (IN_UNIT if m.asked.units else MANY_PIECES if "many" in m.asked.how else 0.0)
            + sum(most for word, most in KINDS_ASKED.items() if word in m.asked.how)
            + (WEIGHED if said.weighed else 0.0)
            + (2 * POURED if said.poured else 0.0)
            + (EACH_ASKED if said.each else 0.0)
            + (BOTH if said.both else 0.0)
            + (STATE if said.state else NAMED_BY_THING if said.ending else 0.0)
            + (NAMED if said.totals or any(t.text == ":" for t in m.tokens) else 0.0)
        )

    def _reach(self, k: int) -> Reach:
        m = self.message
        q, cues = m.quantities[k], m.cues[k]
        return Reach(
            q,
            _strongest((x.match, x.weight * _size(x.match)) for x in m.near[k]),
            cues,
            m.nouns[k] is not None,
            -left_over(q, []),
            FIT_RATIO + NAMED_TERMS + NEAR * MOST_NEAR + TOLD * max(cues.get("from", 0.0), cues.get("to", 0.0)),
            min(cues.get("whole", 0.0), MOST_WHOLE),
            q.bare,
            any_role(q),
        )

    def unseen(self, profile: Profile, units: Units) -> float:
        """What all can come to for a calculator at which nobody has looked yet."""
        most = self._together(profile)
        for x in self._numbers:
            most += x.most(profile, units, self.message, x.near[0][1] if x.near else 0.0)
        return most + max(self.unnamed(profile), self._besides + (self._asked[0][1] if self._asked else 0.0))

    def placed(self, view: View) -> float:
        """What the numbers can come to for a calculator, by what stands near each."""
        most = self._together(view.profile)
        for x in self._numbers:
            most += x.most(view.profile, view.units, self.message, _first(view, x.near))
        return most

    def wished(self, view: View) -> float:
        """What anything that is asked for can come to."""
        return max(self.unnamed(view.profile), self._besides + _first(view, self._asked, things=True))

    def unnamed(self, profile: Profile) -> float:
        """What is wanted though no word names it: all lines of a spec, the amount of a strength that is said again."""
        lines = LINES + NAMED_LINE if profile.spec is not None and profile.spec.each else 0.0
        return max(lines, NAMED if self._again and profile.shares else 0.0)

    def _together(self, profile: Profile) -> float:
        return most_together(profile, len(self._numbers), self._money)


def _first(view: View, words: list[tuple[Match, float]], things: bool = False) -> float:
    """How much the first word is worth that names a variable, or a thing that one takes (``things``: any thing)."""
    for x, worth in words:
        meaning, slots = view.meaning_of.get(id(x), NOTHING)
        if (things and x.entry.substances) or slots or (meaning is not None and meaning.variables):
            return worth
    return 0.0


def _size(x: Match) -> float:
    return 1.0 + LENGTH * (x.last - x.first)


def _strongest(worths: Iterable[tuple[Match, float]]) -> list[tuple[Match, float]]:
    return sorted(worths, key=lambda w: -w[1])
