"""What a calculator's candidates can score at most, told before any is put together.

A bound is never below the scores of ``placing`` and ``wanting``; the nearer it is, the fewer calculators need a
closer look.
"""

from __future__ import annotations

from collections.abc import Iterable

from stillroom.units import Units

from .fitting import roles_of
from .lexicon import Match
from .lines import KNOWN
from .message import Message
from .naming import FIT as FIT_RATIO
from .naming import MOST_NEAR, NAMED_TERMS, NEAR, TOLD
from .placing import (
    ANY_THING,
    BY_UNIT,
    DROPPED,
    FIT,
    MOST_WHOLE,
    MOST_WORDS,
    ROLE,
    SUMMED,
    WORDS,
    left_over,
    live,
)
from .profile import Profile
from .said import Said
from .together import most_together
from .view import LENGTH, View
from .wanting import (
    BOTH,
    COLD,
    EACH_ASKED,
    IN_UNIT,
    LINES,
    LONG,
    MANY_PIECES,
    MOST_NAMED,
    NAMED,
    NAMED_BY_THING,
    NAMED_LINE,
    POURED,
    STATE,
    STRONG,
    WEIGHED,
    WHOLE,
)

NO_ROLES: frozenset[str] = frozenset()
KINDS_ASKED = {"time": LONG, "strength": STRONG, "temperature": COLD}


class Bounds:
    """What a message's numbers and questions can come to, worked out once and asked for each calculator."""

    def __init__(self, m: Message):
        self.message, self.live = m, live(m)
        said = m.once(Said)
        self._money = any(q.money for q in m.quantities)
        self._left = {k: -left_over(m.quantities[k], []) for k in self.live}
        self._near = {k: _strongest((x.match, x.weight * _size(x.match)) for x in m.near[k]) for k in self.live}
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

    def unseen(self, profile: Profile, units: Units) -> float:
        """What all can come to for a calculator at which nobody has looked yet."""
        placed = sum(self._placed(profile, units, k, self._near[k][0][1] if self._near[k] else 0.0) for k in self.live)
        named = self._asked[0][1] if self._asked else 0.0
        return placed + self._together(profile) + max(named + self._besides, most_unnamed(profile, self.message))

    def placed(self, view: View) -> float:
        """What the numbers can come to for a calculator, by what stands near each."""
        return self._together(view.profile) + sum(
            self._placed(view.profile, view.units, k, next((w for x, w in self._near[k] if _names(view, x)), 0.0))
            for k in self.live
        )

    def wished(self, view: View) -> float:
        """What anything that is asked for can come to."""
        named = next((worth for x, worth in self._asked if x.entry.substances or _names(view, x)), 0.0)
        return max(named + self._besides, most_unnamed(view.profile, self.message))

    def _together(self, profile: Profile) -> float:
        return most_together(profile, len(self.live), self._money)

    def _placed(self, profile: Profile, units: Units, k: int, near: float) -> float:
        """What one number can come to, near which a word says so much."""
        m = self.message
        q, noun, cues = m.quantities[k], m.nouns[k], m.cues[k]
        left = KNOWN if profile.spec is not None else self._left[k]
        if q.ratio is not None:
            told = TOLD * max(cues.get("from", 0.0), cues.get("to", 0.0))
            return max(left, FIT_RATIO + NAMED_TERMS + NEAR * MOST_NEAR + told) if profile.ratios else left
        roles = NO_ROLES if q.factor else roles_of(q, profile, units, m)
        if not roles:
            return left
        if noun is not None:
            near = max(near, ANY_THING if profile.any_thing else BY_UNIT if q.bare else 0.0)
        if profile.wholes and m.pairs:
            near = max(near, SUMMED)
        role = max((clear for role, clear in cues.items() if role in roles), default=0.0)
        whole = min(cues.get("whole", 0.0), MOST_WHOLE) if profile.wholes else 0.0
        dropped = DROPPED if any(units[u].adjustable for u in q.units) else 0.0
        return max(left, FIT + WORDS * min(near, MOST_WORDS) + ROLE * (max(role, whole) + whole) + dropped)


def most_unnamed(profile: Profile, m: Message) -> float:
    """What a wish can score that no word names: all lines of a spec, the amount of a strength that is said again."""
    lines = profile.spec
    again = profile.shares and m.asked.how and any(q.noise == "repeat" for q in m.quantities)
    return max(LINES + NAMED_LINE if lines is not None and lines.each else 0.0, NAMED if again else 0.0)


def _size(x: Match) -> float:
    return 1.0 + LENGTH * (x.last - x.first)


def _strongest(worths: Iterable[tuple[Match, float]]) -> list[tuple[Match, float]]:
    return sorted(worths, key=lambda w: -w[1])


def _names(view: View, x: Match) -> bool:
    """Does a word name a variable of a calculator, or a thing that one takes?"""
    meaning, slots = view.meaning_of.get(id(x), (None, None))
    return meaning is not None and bool(meaning.variables or slots)
