"""The reader: a message, as the requests that it may mean, best first."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from stillroom import Kernel
from stillroom.units import NONE, Units

from .again import points_back
from .apart import take_apart
from .candidate import MASS, TIME, VOLUME, Candidate
from .lexicon import Lexicon
from .message import Message
from .profile import Profile
from .ranking import best, shared
from .requesting import ANSWERS, Reading, Requesting
from .spelling import Speller
from .viewer import BestFirst, Prospect

COVER = 0.55
CONTENT = tuple(a - b for a, b in zip(MASS, VOLUME, strict=True))
FAR = 3.2
FLOOR, NO_FLOOR = 0.9, -1e9
"""A reading below ``FLOOR`` is neither given nor a rival of one that is."""
PLAINLY, POINTED = 2.6, 6.0
MOST_CALCULATORS, MANY_NUMBERS, FEW_CALCULATORS = 9, 10, 4
"""How many calculators get a closer look; fewer, besides those that take a spec, where there are many numbers."""
SHARE = 0.3
"""Of the best calculator's words, how much another has to share to be looked at."""


class Reader(Requesting):
    """Reads for one kernel."""

    def __init__(self, kernel: Kernel):
        self.kernel = kernel
        self.lexicon = Lexicon(kernel)
        self.speller = Speller(self.lexicon)
        self._profiles: dict[str, Profile] = {}
        self.specs = [m.id for m in kernel.models.values() if m.calculator.lines]
        self.dosed = [m.id for m in kernel.models.values() if any(
            v.role == "per" and m.unit[n].dimension == CONTENT for n, v in m.variables.items())]
        self.parted = [m.id for m in kernel.models.values() if any(
            v.ratio and (v.rising or not v.habit) for v in m.variables.values())]
        self.since = [m.id for m in kernel.models.values() if any(v.role == "since" for v in m.variables.values())]
        self.pairs = [m.id for m in kernel.models.values() if self._converts(m.id)]
        self.same = frozenset(id for id in self.pairs if self._says_again(id))

    def _says_again(self, id: str) -> bool:
        """Is all that a calculator does to say an amount in another unit (``result = amount``)?"""
        m = self.kernel.models[id]
        return set(m.calculator.equations[0].split()) == {"=", *(n for n, v in m.variables.items() if not v.hidden)}

    def _converts(self, id: str) -> bool:
        m = self.kernel.models[id]
        shown = [n for n, v in m.variables.items() if not v.hidden]
        return len(shown) == 2 and len({m.unit[n].dimension for n in shown}) == 1 and len(m.calculator.equations) == 1

    def profile(self, id: str) -> Profile:
        """The reader's view of a calculator."""
        found = self._profiles.get(id)
        if found is None:
            found = self._profiles[id] = Profile(self.kernel.models[id])
        return found

    def take_apart(self, text: str, settings: Mapping[str, object] | None = None) -> Message:
        """The message's parts."""
        return take_apart(text, self.lexicon, self.speller, bool((settings or {}).get("comma")))

    def candidates(
        self,
        message: Message,
        units: Units | None = None,
        floor: float = FLOOR,
        fits: Callable[[Candidate], bool] | None = None,
    ) -> BestFirst:
        """Ways to read a message, best first, those that do for ``fits``.

        A way that is further than ``FAR`` behind the best, or below ``floor``, is not looked for.
        """
        units = units or self.kernel.units
        scores = shared(message, self.lexicon)
        most = MOST_CALCULATORS if len(message.quantities) <= MANY_NUMBERS else FEW_CALCULATORS
        ranked = best(message, self.lexicon, scores, most)
        ranked = [(s, id) for s, id in ranked if s >= SHARE * ranked[0][0]]
        if (
            sum(
                n is not None and bool(q.units or q.unsized) and not q.strength
                for q, n in zip(message.quantities, message.nouns, strict=True)
            )
            > 1
        ):
            have = {id for _, id in ranked}
            ranked += [
                (scores.get(id, 0.0), id)
                for id in self.specs
                if id not in have and message.allows(self.lexicon, id)
            ]
        told = self.since if any(q.since for q in message.quantities) else []
        told += [id for id in self.dosed if message.allows(self.lexicon, id)] if self._dosed(message) else []
        told += [id for id in self.parted if self._parted(message, id)]
        ranked += [(scores.get(id, 0.0), id) for id in told if all(id != other for _, other in ranked)]
        if not message.asked.units:
            ranked = [(s, id) for s, id in ranked if id not in self.same]
        if self.says_again_only(message):
            more = POINTED if message.once(points_back) else 0.0
            ranked = [
                (scores.get(id, 0.0) + more, id)
                for id in self.same
                if (more or id in scores) and message.allows(self.lexicon, id)
            ]
        known = {id for _, id in ranked}
        if message.asked.units and len(message.quantities) <= 4:
            plainly = PLAINLY if self._plainly(message) else 0.0
            ranked = [(s + plainly * (id in self.pairs), id) for s, id in ranked]
            ranked += [(plainly, id) for id in self.pairs if id not in known and message.suits(self.lexicon, id)]
        prospects = [
            Prospect(self.profile(id), self.lexicon, message, units, COVER * cover)
            for cover, id in sorted(ranked, key=lambda r: -r[0])
        ]
        return BestFirst(prospects, floor, FAR, fits)

    def _parted(self, m: Message, id: str) -> bool:
        """Are the two things of a calculator's ratio both named beside one (``raspberries to gin 1:6``)?"""
        if all(q.ratio is None for q in m.quantities):
            return False
        slots, kinds = self.profile(id).slots, [x.entry.kinds for x in m.matches]
        return any(
            all(any(slots[n].things & k for k in kinds) for n in s.variable.ratio)
            for s in slots.values()
            if s.variable.ratio and set(s.variable.ratio) <= set(slots)
        )

    def _dosed(self, m: Message) -> bool:
        """Is so much told or asked for so much of another thing, weight to volume (``3 g for each 50 ml``)?"""
        units = self.kernel.units
        told = any(
            q.per and not q.noise and q.units and units[q.per[0]].dimension == VOLUME
            and any(units[u].dimension == MASS for u in q.units) for q in m.quantities
        )
        asked = any(units[u].dimension == CONTENT for spelled in m.asked.units for u in spelled if " / " in u)
        both = [any(units[u].dimension == d for q in m.quantities for u in q.units) for d in (MASS, VOLUME)]
        return told or (asked and all(both))

    def says_again_only(self, m: Message) -> bool:
        """Is one amount asked for in another unit of its own measure (``it sits at 2.4 bar, what's that in psi?``)?

        Where the question only points at the amount, whatever else is told does not matter; but a count does, where
        what is poured or weighed may be meant so many times.
        """
        said = [q for q in m.quantities if q.units and not (q.noise or q.rejected)]
        if len(m.asked.units) != 1 or any(q.ratio is not None for q in m.quantities):
            return False
        units, last = self.kernel.units, m.asked.unit_spans[0][1]
        asked = {u for u in m.asked.units[0] if u in units}
        measures = {units[u].dimension for u in asked} - {NONE}
        own = [q for q in said if q.per is None and not measures.isdisjoint(units[u].dimension for u in q.units)]
        of = last + 1 < len(m.tokens) and m.tokens[last + 1].text == "of"
        if len(own) != 1 or own[0].carried or of or not asked.isdisjoint(own[0].units):
            return False
        if any(q.units[:1] == ("percent",) for q in said):
            return False
        counted = any(q.bare and q.value > 1 and not (q.noise or q.rejected or q.aside) for q in m.quantities)
        if m.again:
            return True
        if m.once(points_back) and not (counted and measures <= {MASS, VOLUME, TIME}):
            return True
        return len(said) == 1 and self._plainly(m)

    def _plainly(self, m: Message) -> bool:
        """Is one amount asked for in another unit, and nothing else: ``2 oz of lime juice in ml``?"""
        live = [k for k, q in enumerate(m.quantities) if not (q.noise or q.weak or q.rejected)]
        if len(live) != 1 or not m.quantities[live[0]].units or m.quantities[live[0]].since:
            return False
        noun = m.nouns[live[0]]
        own = set(range(noun[0], noun[1] + 1)) if noun else set()
        return all(i in own or not any(a <= i <= b for a, b in m.asked.zones) for i in m.content)


__all__ = ["ANSWERS", "FAR", "FLOOR", "NO_FLOOR", "Reader", "Reading"]
