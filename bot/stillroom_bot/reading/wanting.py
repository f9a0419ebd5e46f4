"""What is wanted of a calculator: named in the question, in the unit asked for, or implied by the job."""

from __future__ import annotations

from .candidate import MASS, TIME, VOLUME, Use, Wish
from .kept import kept
from .lexicon import Match, Meaning
from .measures import among, measure
from .outright import outright, pair_asked
from .profile import Slot
from .said import Said
from .states import OPPOSITE, of_them_all, other_state
from .suiting import POURED, suits
from .view import LENGTH, View

NAMED, NAMED_BY_THING, MOST_NAMED, LATE = 2.6, 1.8, 3.6, 0.75
SAME_WORDS = 0.6
STRANGE = 1.2
SHY = 1.5
UNASKED = 0.8
"""What there was is hardly what is wanted where nothing is asked for by name."""
LEAST = 0.3
MEASURED = frozenset("weight mass volume amount quantity weigh".split())
NONE_OF = frozenset({"no", "without", "nothing"})
OF_THE = frozenset("of the that this my our".split())
WHOLE, PART = 0.3, 0.4
ALSO = 2.0
LINES, NAMED_LINE = 0.6, 1.2
UNSAID, UNHEARD, UNSAID_UNIT, ANSWERED, PARTED = 0.3, 0.9, 2.0, 1.2, 3.0
MOST = 4
STATE, HAD = 0.9, 2.5
ALIKE, BOTH = 0.8, 0.3
EACH_ASKED, NOT_EACH = 2.6, 1.0
AT_THE_END = ("to", "need")


class Wishes:
    """What a message may want of one calculator, with one choice of rows."""

    def __init__(self, view: View):
        self.view, self.asked = view, view.message.asked
        self.said = view.message.once(Said)
        self.zones, self.weighed, self.state = self.said.zones, self.said.weighed, self.said.state
        self.measures = [d for d in ({measure(view.units[u]) for u in units} for units in self.asked.units) if d]
        self.choosing = [
            (x, meaning)
            for x, meaning, _ in view.mine
            if x.last > x.first and meaning.rows and not meaning.variables
        ]
        self.named = self._named()
        self.wholes = self._wholes()
        self.scored = self._scored()

    def _named(self) -> dict[str, tuple[float, dict[str, str], set[int]]]:
        """How strongly each variable is named in the question, the rows that settles, and where."""
        found: dict[str, tuple[float, dict[str, str], set[int]]] = {}
        for match, meaning, slots in self.view.mine:
            if self._so_many(match) or self._measure_of_another(match, meaning) or self._within_another(match, meaning):
                continue
            size = 1.0 + LENGTH * (match.last - match.first)
            within = self._in_row(match)
            for a, b, w in self.zones:
                if not (a <= match.first and match.last <= b) or within < b:
                    continue
                worth = w * size * (1.0 if match.first - a < 4 else LATE)
                names = (*meaning.variables, *slots)
                if not names and match.entry.substances:
                    names = tuple(n for n in self.view.anything if not self._unpoured(n, match))
                for name in names:
                    row = meaning.variables.get(name)
                    hit = name in meaning.variables
                    value = worth * (NAMED if hit else NAMED_BY_THING) * self.view.agrees(row)
                    old = found.get(name, (0.0, {}, set()))
                    places = old[2] | ({match.first} if w == 1.0 and hit and self.view.agrees(row) == 1.0 else set())
                    found[name] = (
                        (value, {row[0]: row[1]} if row else {}, places) if value > old[0] else (*old[:2], places)
                    )
        return found

    def _unpoured(self, name: str, match: Match) -> bool:
        """``fill two bottles with rich syrup: how much sugar?``: is a dry thing no volume that is asked for?"""
        dry = all(x.state == "dry" for x in match.entry.substances)
        return dry and self.view.model.unit[name].dimension == VOLUME and not (self.measures or self.said.poured)

    def _in_row(self, match: Match) -> int:
        """Where a longer name ends that only settles a choice (the siphon of ``pint siphon chargers``)."""
        if not self.choosing:
            return len(self.view.message.tokens)
        return min(
            (
                x.last
                for x, meaning in self.choosing
                if x.first <= match.first
                and match.last <= x.last
                and x.last - x.first > match.last - match.first
                and any(self.view.rows.get(c) == r for c, r in meaning.rows.items())
            ),
            default=len(self.view.message.tokens),
        )

    def _so_many(self, match: Match) -> bool:
        """``batch x 24``, ``the whole box in peel?``, ``with no waste``: so many, all or none, and not asked for."""
        tokens = self.view.message.tokens[match.last + 1 : match.last + 3]
        if match.first and self.view.message.tokens[match.first - 1].text in NONE_OF:
            return True
        if match.entry.vessel and "many" not in self.asked.how:
            before = [t.text for t in self.view.message.tokens[max(0, match.first - 2) : match.first]]
            if before in (["the", "whole"], ["the", "entire"]):
                return True
        return bool(tokens) and tokens[0].text == "times" and [t.kind for t in tokens[1:]] == ["number"]

    def _within_another(self, match: Match, meaning: Meaning) -> bool:
        """``how much orange peel``: is a name part of a longer one in the question that names something else?"""
        return bool(meaning.variables) and any(
            x.first <= match.first
            and match.last <= x.last
            and x.last - x.first > match.last - match.first
            and (other.variables or slots)
            and not meaning.variables.keys() & (other.variables.keys() | slots)
            and any(a <= x.first and x.last <= b for a, b in self.asked.zones if (a, b) not in self.asked.shared)
            for x, other, slots in self.view.mine
        )

    def _measure_of_another(self, match: Match, meaning: Meaning) -> bool:
        """``the weight of water``: a measure, and the thing after it is what is asked for; ``what does the salt
        weigh``: of a thing that names none of what may be weighed here."""
        tokens = self.view.message.tokens
        if tokens[match.last].stem not in MEASURED or match.first != match.last:
            return False
        if tokens[match.last].stem == "weigh":
            own = {v.named_by[0] for n in meaning.variables if (v := self.view.model.variables[n]).named_by}
            before = [(m, slots) for x, m, slots in self.view.mine if x.last == match.first - 1]
            return bool(before) and all(own & m.rows.keys() and not (m.variables or slots) for m, slots in before)
        before = [(m, slots) for x, m, slots in self.view.mine if x.last == match.first - 1]
        if any(m.variables and not m.variables.keys() & meaning.variables.keys() for m, _ in before):
            return True
        i = match.last + 1
        while i < len(tokens) and tokens[i].text in OF_THE:
            i += 1
        if i == match.last + 1:
            return False
        after = [(m, slots) for x, m, slots in self.view.mine if x.first == i]
        return any(m.variables for m, _ in after) and not any(
            meaning.variables.keys() & (m.variables.keys() | slots) for m, slots in after
        )

    @kept
    def unasked(self) -> bool:
        """Does a message ask for nothing in so many words?"""
        return not (self.asked.zones or self.asked.units or self.asked.how)

    @kept
    def strange(self) -> bool:
        """Is something asked for that this calculator has never heard of?"""
        m = self.view.message
        known = {i for i, known, asked in m.content_words(self.view.lexicon) if known and asked}
        if self.view.profile.any_thing and not any(
            self.view.rows.get(s.variable.named_by[0])
            for s in self.view.profile.slots.values()
            if s.variable.named_by and "any" in s.things
        ):
            return bool(known) and not known & self.view.covered
        return bool(known) and not known & self.view.meant()

    def _wholes(self) -> frozenset[str]:
        """What is meant by ``combined volume``, ``the two together``, ``total?``: nothing where no total is asked."""
        m, profile = self.view.message, self.view.profile
        if self.said.drunk and profile.spec is not None and not profile.wholes:
            return profile.totals
        if all(self.view.lexicon.longer_phrase(m.tokens, i) for i in self.said.totals):
            return frozenset()
        return frozenset(profile.wholes) or (
            frozenset() if self._said_something or (m.quantities and not self._one_blank) else profile.totals
        )

    @property
    def _one_blank(self) -> bool:
        """Is one thing asked of a spec, and not each line of a form (``rum 40 ml: __, lime 20 ml: __, total: __``)?"""
        blanks = sum(t.text[0] in "?_" for t in self.view.message.tokens)
        return self.view.profile.spec is not None and blanks < 2

    @kept
    def countable(self) -> bool:
        """Is anything of the job counted (where nothing is, ``how many`` is said for ``how much``)?"""
        return any(s.unit.kind == "count" for s in self.view.profile.slots.values())

    def _scored(self) -> list[tuple[float, str]]:
        """Every variable that may be meant, best first."""
        place = self.view.profile.place
        measured = self.measures or self.weighed or self.said.poured or self.asked.how
        scored = []
        for name, slot in self.view.profile.slots.items():
            worth = self._worth(name, slot)
            score = min(worth, MOST_NAMED)
            if self.wholes:
                score = (
                    max(score, NAMED) + WHOLE
                    if name in self.wholes
                    else score * (PART if name in self.view.profile.parts else 1.0)
                )
            named = score > 0
            if slot.variable.ratio is not None and pair_asked(self, slot.variable.ratio):
                score, named = max(score, NAMED) + WHOLE, True
                self.named.setdefault(name, (NAMED, {}, set()))
            if self.said.each:
                score += EACH_ASKED if slot.variable.role in ("each", "per") else -NOT_EACH if named else 0.0
            if self.said.poured and any(w.split()[-1] == "volume" for w in slot.variable.words):
                score += POURED
            if measured:
                apart = name in self.named and self._asked_apart(name)
                score += suits(self, slot.unit, named, apart, slot.variable.shy)
            if slot.variable.role == "from" and not self.state and self.unasked and not self._places(name):
                score -= UNASKED
            if self.state and slot.variable.role in OPPOSITE and slot.unit.dimension != TIME:
                score += STATE if slot.variable.role == self.state else -STATE
            elif self.said.ending and not self.named and slot.variable.role in AT_THE_END:
                score += NAMED_BY_THING if slot.unit.dimension in (MASS, VOLUME) else 0.0
            elif self.said.ending and named and slot.variable.role in ("from", *AT_THE_END):
                score += STATE if slot.variable.role in AT_THE_END else -STATE
            if score <= LEAST:
                continue
            poured = self.said.poured and slot.unit.dimension == VOLUME
            poured = poured or (self.said.both and self.weighed and slot.unit.dimension == MASS)
            of_each = self.said.each and slot.variable.role in ("each", "per")
            score -= STRANGE if not (named or poured or of_each) and self.strange else 0.0
            score -= SHY if slot.variable.shy and score < NAMED else 0.0
            if score > LEAST:
                scored.append((score, name))
        scored.sort(key=lambda s: (-s[0], place[s[1]]))
        return scored

    def _worth(self, name: str, slot: Slot) -> float:
        """How strongly a variable is named; an original strength is named by the word for the final one."""
        worth = self.named.get(name, (0.0, {}, set()))[0]
        own = slot.variable.role
        ending = self.said.ending and own in AT_THE_END and slot.unit.dimension in (MASS, VOLUME)
        if ending or (self.state and own == self.state):
            opposite = OPPOSITE[self.state] if self.state else "from"
            for other, o in self.view.profile.slots.items():
                if o.variable.role == opposite and (o.unit.kind, o.unit.dimension) == (
                    slot.unit.kind,
                    slot.unit.dimension,
                ):
                    worth = max(worth, self.named.get(other, (0.0, {}, set()))[0])
        return worth

    @property
    def most(self) -> float:
        """No wish for something that is named scores more than this."""
        return self.scored[0][0] + BOTH * self.said.both if self.scored else 0.0

    def _asked_apart(self, name: str) -> bool:
        """``volumes? g/l?``, ``what strength, and how many ml of water?``: is a variable named in another question
        than those that ask for a unit?"""
        words, spans = self.view.message.tokens, self.asked.unit_spans

        def apart(p: int, a: int) -> bool:
            between = {t.text for t in words[min(p, a) : max(p, a)]}
            own = next((z for z in self.asked.zones if z[0] <= p <= z[1]), None)
            other = any(z != own and own is not None and z[0] <= a <= z[1] for z in self.asked.zones)
            return "?" in between or ("and" in between and other)

        return bool(spans) and any(all(apart(p, a) for a, _ in spans) for p in self._places(name))

    def of(self, given: frozenset[str], lines: bool, uses: tuple[Use, ...] = ()) -> list[Wish]:
        """What may be wanted when some variables are given already."""
        met, times = self.met(given), self.view.profile.times
        told = met * (PARTED if self.asked.split else ANSWERED)
        open_ = [
            (s - told * (n not in self.named or self.asked.split) - (HAD if self._had(n, given) else 0.0), n)
            for s, n in self.scored
            if n not in given and (self.said.old or times.get(n) not in given)
        ]
        open_ += other_state(self, given, uses) + of_them_all(self, given, uses)
        scored = [
            (s - (SAME_WORDS if any(abs(s - o) < 0.01 for o, _ in open_[:i]) else 0.0), n)
            for i, (s, n) in enumerate(open_)
        ]
        wishes: list[Wish] = []
        asked = outright(self) if scored else {}
        if self.said.both and scored:
            (score, first), unit = scored[0], self.view.model.unit
            alike = [n for s, n in scored if unit[n].name == unit[first].name and s >= score - ALIKE]
            if len(alike) < 2 and self._of_a_row(first):
                alike = [n for n in unit if n not in given and unit[n].name == unit[first].name and self._of_a_row(n)]
            if len(alike) == 2:
                wishes.append(Wish(tuple(sorted(alike, key=self._spoken)), score + BOTH, False, {}))
        for score, name in scored[:3]:
            more: list[str] = []
            for s, n in scored:
                also = s >= ALSO and all(self._apart(o, n) for o in (name, *more)) and self.asks_of(n)
                if n != name and (also or {name, n} <= asked.keys()):
                    more.append(n)
            names = [name, *more]
            if more and score > scored[0][0] - 0.01:
                names.sort(key=lambda n: asked.get(n, self._place(n)))
            wishes.append(Wish(tuple(names), score, False, self.named.get(name, (0.0, {}, set()))[1]))
        pointed = self._pointed_at(uses)
        if pointed and pointed not in given:
            wishes.insert(0, Wish((pointed,), NAMED, False, {}))
        calculator = self.view.model.calculator
        if lines and calculator.lines and calculator.lines.each:
            wishes.append(Wish((), LINES + (NAMED_LINE if self._asks_line else 0.0), True, {}))
        implied = next((n for n in calculator.asked or tuple(self.view.model.variables) if n not in given), None)
        if implied is not None and all(implied != w.names[0] for w in wishes if w.names):
            cost = UNHEARD if self.asked.units or self._said_something else UNSAID
            own = self.view.model.unit[implied]
            if self.measures:
                cost += UNSAID_UNIT * (not any(among(d, own) for d in self.measures))
            elif "many" in self.asked.how and own.kind != "count" and self.countable:
                cost += UNSAID_UNIT
            wishes.append(Wish((implied,), -cost, True, {}))
        return wishes[:MOST]

    def _of_a_row(self, name: str) -> bool:
        """``0.3 % xanthan and 5 % egg white, grams of each?``: is it an amount of something that is named?"""
        named_by = self.view.model.variables[name].named_by
        return named_by is not None and named_by[0] in self.view.rows

    def _pointed_at(self, uses: tuple[Use, ...]) -> str:
        """``how much of the 95?``: the amount of what has the strength that is said again."""
        m, shares = self.view.message, self.view.profile.shares
        again = [q for q in m.quantities if q.noise == "repeat" and q.first and m.tokens[q.first - 1].text in OF_THE]
        if not shares or not again or not self.asked.how:
            return ""
        said = {(m.quantities[u.quantity].value, u.variable) for u in uses if u.variable in shares}
        return next((shares[v] for q in again for value, v in said if value == q.value and shares[v] != v), "")

    def _spoken(self, name: str) -> int:
        """Where a message first speaks of a variable."""
        places = (x.first for x, meaning, slots in self.view.mine if name in meaning.variables or name in slots)
        return min(places, default=len(self.view.message.tokens))

    def met(self, given: frozenset[str]) -> bool:
        """Is what the question names given already?"""
        return any(self.asks_of(n) for n in given)

    @kept
    def _asks_line(self) -> bool:
        """Does the question name a thing of the spec and nothing else (``rum 50, lime 25, 6 l in all: rum?``)?"""
        m = self.view.message
        asked = [i for i in m.content if any(a <= i <= b for a, b in self.asked.zones)]
        lines = [n for n, q in zip(m.nouns, m.quantities, strict=True) if n and q.units and not q.strength]
        nouns = {m.tokens[i].stem for n in lines for i in range(n[0], n[1] + 1)}
        return bool(asked) and all(m.tokens[i].stem in nouns for i in asked)

    @kept
    def _said_something(self) -> bool:
        """Does any question hold a word that means something (``how much, please`` does not)?"""
        content = set(self.view.message.content)
        return any(i in content for a, b in self.asked.zones for i in range(a, b + 1))

    def asks_of(self, name: str) -> bool:
        """Is a variable named in a part of the question that is no number's own noun?"""
        return any(
            a <= i <= b for a, b in self.asked.zones if (a, b) not in self.asked.shared for i in self._places(name)
        )

    def _had(self, name: str, given: frozenset[str]) -> bool:
        """Is a thing given by weight and its volume wanted, or the other way, without a word that asks for that?"""
        amounts, unit = (MASS, VOLUME), self.view.model.unit
        if self.measures or unit[name].dimension not in amounts:
            return False
        thing = name.split("_")[0] if "_" in name else ""
        unasked = name in self.named and not (self._places(name) or self.weighed or self.said.poured)
        alike = {g for g in self.named if self._spoken(g) == self._spoken(name)} if unasked else set()
        return any(
            g != name
            and ((thing and g.split("_")[0] == thing) or g in alike)
            and unit[g].dimension in amounts
            and unit[g].dimension != unit[name].dimension
            for g in given
        )

    def _places(self, name: str) -> set[int]:
        return self.named.get(name, (0.0, {}, set()))[2]

    def _place(self, name: str) -> int:
        return min(self._places(name), default=len(self.view.message.tokens))

    def _apart(self, a: str, b: str) -> bool:
        """Are two variables asked for in different words of the question?"""
        pa, pb = self._places(a), self._places(b)
        unit = self.view.model.unit
        one = any(x <= i <= y and x <= j <= y for x, y in self.asked.zones for i in pa for j in pb)
        counted = "many" in self.asked.how and not self.measures
        measured = self.weighed or self.said.poured or counted
        if one and measured and (unit[a].kind == "count") != (unit[b].kind == "count"):
            return False
        return bool(pb - pa) and bool(pa - pb)
