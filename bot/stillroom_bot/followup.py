"""Follow-ups: a message that changes, completes or carries on the last one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from math import log2

from stillroom import Amount, Answer, Request
from stillroom.model import Model
from stillroom.units import Units

from .carrying import with_quantities
from .context import Context
from .in_all import whole_asked
from .kindred import Kindred
from .of_other_things import MORE_OR_LESS, less_of_another, told_of_another
from .reading.candidate import MASS, VOLUME, Candidate
from .reading.deciding import EMPTY, Outcome, worth
from .reading.message import Message
from .reading.overlooked import leave_asked
from .reading.placing import SAME_UNIT
from .reading.ranking import allowed
from .reading.reader import ANSWERS, COVER
from .reading.said import one_asked, totals_said
from .reading.view import View
from .reading.viewer import LEAST, candidates_of
from .renewing import Asks, changes_subject, none_of, old_taken_back
from .respecifying import OPENERS
from .scaling import MULTIPLES, PRONOUNS, WHOLE_JOB, counts_of, factor_of

FOLLOW = 0.9
CUE = 1.3
SHORT = 0.7
SHORTEST = 7
KEPT = 1.4
MISSING = 1.6
WAS_ASKED = 0.8
REFUSED_AGAIN = 1.0
REJECTED = 1.5
LAST_SAID = 0.3
"""What speaks for the value that was said last, where a number alone may replace another as well."""
LEFT_OUT = 1.5
OF_LINES = 1.9
STRANGE, FOREIGN, ANOTHER = 1.2, 3.0, 6.0
FAR_FROM, FARTHEST = 0.8, 4.0
IDLE = 2.5
ALIKE = 1e-6
MOST_EVICTED = 4
OUNCES = frozenset({"ounce", "fluid_ounce", "imperial_fluid_ounce", "bar_ounce"})


class Follower(Kindred):
    """Reads messages in the light of what went before."""

    def outcomes(
        self, message: Message, context: Context, units: Units, sizes: Mapping[str, float], system: Mapping[str, str],
        least: float = LEAST,
    ) -> list[Outcome]:
        """What the message makes of the last request, best first; of what it changes, only what may score ``least``."""
        if changes_subject(message) or (message.quantities and _goes_back(message)):
            return []
        if leave_asked(message):
            return self.forbidden(message, context, allowed(message, self.reader.lexicon))
        factor = factor_of(message)
        if factor is not None and not context.open and not self._of_something_named(message, context):
            scaled = self._scaled(context, factor)
            return [] if scaled is None else [self._asked_of(scaled, message)]
        if (one := self._one_served(message, context, system)) is not None:
            return [one]
        line = self._line_asked(message, context) or self._whole_asked(message, context)
        if line is not None:
            asked = [system.get(u, u) for spelled in message.asked.units for u in spelled[-1:]]
            units_of = {**context.request.units, **dict.fromkeys([line] if asked else [], asked[-1] if asked else "")}
            return [self._repeat(replace(context.request, wanted=(line,), units=units_of))]
        named = [i for i in message.content if message.tokens[i].text not in OPENERS]
        if not message.quantities and not named and message.asked.units and not totals_said(message):
            again = self._in_unit(message, context, system)
            if again is not None:
                return [again]
        lines, respecified = 0, self._spec(message, context.request.spec, context.request.spec, units)
        if self._another_spec(message, context.request.spec):
            return []
        if respecified != context.request.spec:
            request = replace(context.request, spec=respecified)
            others = [q for k, q in enumerate(message.quantities) if not self._of_line(message, k, respecified)]
            if all(q.noise or q.weak or q.rejected for q in others):
                return [self._repeat(request)]
            lines = len(message.quantities) - len(others)
            message, context = with_quantities(message, others), replace(context, request=request)
        message = old_taken_back(message, context.request.given)
        cover = allowed(message, self.reader.lexicon)
        found = self._changed(message, context, cover, units, sizes, system, least - OF_LINES * lines)
        for o in found:
            o.score += OF_LINES * lines
        if not any(self._plainly_answered(o, message) for o in found):
            found += self._kin_answers(message, context, cover, units, sizes, system)
        found.sort(key=lambda o: -o.score)
        return found

    def _whole_asked(self, message: Message, context: Context) -> str | None:
        profile = self.reader.profile(context.request.calculator)
        if context.open or context.request.spec:
            return None
        return whole_asked(message, profile, context.request.given.keys(), self.kernel.units)

    def _of_something_named(self, message: Message, context: Context) -> bool:
        """``double the rush syrup``, ``willow fizz x 12``: is it something by a name that the job before has not?"""
        profile = self.reader.profile(context.request.calculator)
        lines = {w for x in context.request.spec for w in x.thing.lower().split()}
        if any(t.text in PRONOUNS for t in message.tokens):
            return False
        for i in message.content:
            t = message.tokens[i]
            if t.text in MULTIPLES or t.text in WHOLE_JOB or t.text in OPENERS or t.text in lines or t.stem in lines:
                continue
            if not any(x.first <= i <= x.last and profile.id in x.entry.meanings for x in message.matches):
                return not self.reader.lexicon.known(t.stem)
        return False

    def _kin_answers(
        self,
        message: Message,
        context: Context,
        cover: Mapping[str, float],
        units: Units,
        sizes: Mapping[str, float],
        system: Mapping[str, str],
    ) -> list[Outcome]:
        """What the job before cannot tell, asked of those that know all that was given (``how much goes in?``)."""
        found: list[Outcome] = []
        if message.quantities or not (message.asked.zones and message.content):
            return found
        for id in self._kin(context, cover):
            near = replace(context, request=replace(context.request, calculator=id, wanted=()))
            for o in self._changed(message, near, cover, units, sizes, system):
                if self._plainly_answered(o, message):
                    found.append(o)
        return found

    def _changed(
        self, message: Message, context: Context, cover: Mapping[str, float], units: Units, sizes: Mapping[str, float],
        system: Mapping[str, str], least: float = LEAST,
    ) -> list[Outcome]:
        """The job before, with what the message changes or asks of it."""
        model = self.kernel.models[context.request.calculator]
        filled = {
            n: (a.unit, KEPT + (MISSING if n in context.missing else 0.0)) for n, a in context.request.given.items()
        }
        bare = any(q.bare and not (q.noise or q.weak or q.rejected) for q in message.quantities)
        if bare and (said := [n for n in context.order if n in filled]):
            unit, worth = filled[said[-1]]
            filled[said[-1]] = (unit, worth + LAST_SAID)
        for n in context.missing:
            for v in model.choices[n].fills if n in model.choices else (n,):
                filled.setdefault(v, ("", MISSING))
        for n, a in context.request.given.items():
            if any(q.rejected and abs(q.value - a.value) < 1e-9 for q in message.quantities):
                filled[n] = (a.unit, filled[n][1] + REJECTED)
        if message.asked.zones:
            for n, _, u in context.result:
                filled.setdefault(n, (u, WAS_ASKED))
        subject = COVER * cover.get(model.id, 0.0)
        view = View(self.reader.profile(model.id), self.reader.lexicon, message, units, subject, filled)
        view.has_spec = bool(context.request.spec)
        view.settled = frozenset(context.request.choices)
        bonus = FOLLOW + self._cue(message)
        found = []
        for c in candidates_of(view, 4, least - bonus):
            outcome = self._merged(c, message, context, units, sizes, system)
            if outcome is not None:
                again = sum(u.variable in filled and filled[u.variable][0] != "" for u in c.uses)
                outcome.score += bonus - (KEPT + SAME_UNIT) * max(0, again - 1)
                outcome.score -= self._strained(c, outcome, message, context)
                outcome.score -= IDLE * _idle(c, outcome, context, message)
                found.append(outcome)
        return found

    def _strained(self, c: Candidate, outcome: Outcome, message: Message, context: Context) -> float:
        """What speaks against a reading: numbers left out, and bare ones far from what they would replace."""
        left = [message.quantities[k] for k in c.unused]
        cost = LEFT_OUT * sum(not (q.weak or q.noise or q.rejected) for q in left)
        for u in c.uses:
            q, before = message.quantities[u.quantity], context.request.given.get(u.variable)
            if q.bare and before is not None and before.value > 0 and q.value > 0 and len(context.request.given) > 1:
                cost += FAR_FROM * min(FARTHEST, abs(log2(q.value / before.value)))
        known = [i for i in message.content if self.reader.lexicon.known(message.tokens[i].stem)]
        strange = sum(i not in c.covered and self._elsewhere(message, i) for i in known)
        wanted = set(outcome.reading.request.wanted)
        foreign = any(self._of_a_stranger(message, u.quantity) for u in c.uses) or (
            bool(wanted & self.reader.profile(c.model.id).totals or not wanted) and one_asked(message)
        )
        cost += ANOTHER * (self._of_another(message, c) or told_of_another(message, c))
        return cost + STRANGE * min(2, strange) + FOREIGN * foreign

    def _of_a_stranger(self, message: Message, k: int) -> bool:
        """``wobblegum 1 %``: a share of something that nobody knows is hardly one of what was spoken of before."""
        q, noun = message.quantities[k], message.nouns[k]
        known = noun and any(self.reader.lexicon.known(message.tokens[i].stem) for i in range(noun[0], noun[1] + 1))
        return noun is not None and not known and q.units[:1] == ("percent",)

    def _of_another(self, message: Message, c: Candidate) -> bool:
        """``2 l negroni, equal parts`` after a syrup: a whole question, of something that the job does not know."""
        if any(less_of_another(c, message, u.quantity) for u in c.uses):
            return True
        if len(message.quantities) < 2 or self.goes_on(message):
            return False
        nouns = [range(n[0], n[1] + 1) for u in c.uses if (n := message.nouns[u.quantity]) is not None]
        return any(c.covered.isdisjoint(n) and not set(message.content).isdisjoint(n) for n in nouns)

    def _elsewhere(self, message: Message, i: int) -> bool:
        """Does a word settle a choice of some other job (``agar``), so that it is hardly said of this one?"""
        return any(
            m.first <= i <= m.last and m.entry.substances and any(x.rows or x.topic for x in m.entry.meanings.values())
            for m in message.matches
        )

    def _cue(self, message: Message) -> float:
        content = [t for t in message.tokens if t.kind in ("word", "number", "fraction")]
        cue = CUE if self.goes_on(message) else 0.0
        return cue + (SHORT if len(content) <= SHORTEST else 0.0) + (0.6 if len(content) <= 3 else 0.0)

    def _merged(
        self,
        c: Candidate,
        message: Message,
        context: Context,
        units: Units,
        sizes: Mapping[str, float],
        system: Mapping[str, str],
    ) -> Outcome | None:
        reading = self.reader.reading(c, message, units, sizes, system, context.request.now)
        new, old = self._by_row(reading.request, c, message), context.request
        new = self._moved(new, old, c, message)
        asks = Asks(self.kernel, message, old, self.reader.profile(c.model.id))
        if _past(message) and any(old.choices.get(k, r) != r for k, r in c.rows.items()):
            return None
        named = bool(c.wanted) and not c.implied and asks.plainly(frozenset(c.wanted))
        changed = bool(new.given or c.rows or new.spec) or named
        spec = self._spec(message, old.spec, new.spec, units)
        changed = changed or spec != old.spec
        asked_units = bool(message.asked.units)
        if not changed and not asked_units:
            return None
        kept = tuple(w for w in old.wanted if w not in new.given)
        every_line = bool(old.spec) and not old.wanted
        wanted = c.wanted if named else kept or (() if every_line else c.wanted)
        if not named and asked_units and not new.given and not c.rows:
            wanted = old.wanted
        if self._repeats(message, wanted, old, c):
            wanted = old.wanted
        rows = {**old.choices, **self._kept_rows(c, message)}
        gone = {*new.given, *wanted, *self._counted_anew(new, old, c.model), *self._filled_anew(c, message, old)}
        given = {n: a for n, a in old.given.items() if n not in gone}
        prefers = system.get(ANSWERS, "")
        wanted_units = {n: u for n, u in old.units.items() if prefers != "metric" or u not in OUNCES}
        if asked_units or prefers:
            wanted_units.update(self.reader._units(c, message, list(wanted), units, system))
        request = Request(
            old.calculator, {**given, **new.given}, rows, wanted, spec, wanted_units, dict(sizes), now=old.now
        )
        order = [*(n for n in context.order if n in given), *(n for n in given if n not in context.order)]
        of_another = rows != old.choices and any(x.entry.substances for x in message.matches)
        known = replace(context, result=() if of_another else none_of(message, c.model, context.result))
        request, answer = self._settle(request, order, set(new.given), known)
        if named and not new.given and _told_before(answer, old):
            request = replace(request, given=old.given)
            answer = self._solve(request)
        gave_way = tuple(n for n in given if n not in request.given)
        if gave_way and not named and new.given.keys() >= set(old.wanted) and answer.status == "answered":
            other = replace(request, wanted=gave_way[:1])
            instead = self._solve(other)
            request, answer = (other, instead) if instead.status == "answered" else (request, answer)
        if answer.status == "asks" and len(request.wanted) > 1:
            first = replace(request, wanted=request.wanted[:1])
            alone = self._solve(first)
            request, answer = (first, alone) if alone.status == "answered" else (request, answer)
        reading.request = request
        score = c.score + worth(answer) - (0.3 if reading.asks else 0.0)
        if answer.status == "answered" and all(v.base == 0 for v in answer.answer):
            score -= EMPTY
        if answer.status == "declined" and answer.reason == context.refused:
            score -= REFUSED_AGAIN
        return Outcome(reading, answer, score)

    def _counted_anew(self, new: Request, old: Request, model: Model) -> set[str]:
        """``no, 60 people`` of a spec made so many times: one count of the whole takes the place of another."""
        counts = {n for n in counts_of(model, frozenset({*new.given, *old.given})) if model.variables[n].role != "from"}
        return counts & old.given.keys() if old.spec and counts & new.given.keys() else set()

    def _filled_anew(self, c: Candidate, message: Message, old: Request) -> set[str]:
        """``rich instead`` of 1:1: what a new row says outright; a dose that was given is another thing's dose too."""
        things = {r for x in message.matches if x.entry.substances and (m := x.entry.meanings.get(c.model.id))
                  for r in m.rows.items()}
        return {v for row in c.rows.items() if old.choices.get(row[0]) != row[1]
                for v in c.model.choices[row[0]].fills if row not in things or c.model.variables[v].ratio is not None}

    def _moved(self, new: Request, old: Request, c: Candidate, message: Message) -> Request:
        """``10 ml less syrup``, ``50 g more``: by so much less or more than before, and not so much."""
        given = dict(new.given)
        for u in c.uses:
            q, a = message.quantities[u.quantity], old.given.get(u.variable)
            word = message.tokens[q.last + 1].text if q.last + 1 < len(message.tokens) else ""
            if word in MORE_OR_LESS and a is not None and q.units and u.variable in given:
                base = a.base + MORE_OR_LESS[word] * given[u.variable].base
                unit = self.kernel.units[given[u.variable].unit]
                said = f"{a.said}, {given[u.variable].said} {word}"
                given[u.variable] = Amount(unit.from_base(base), unit.name, base, said)
        return replace(new, given=given)

    def _by_row(self, request: Request, c: Candidate, message: Message) -> Request:
        """``the quart one``: the size that the table has for it, not a quart of anything."""
        filled = {v for choice in c.rows for v in c.model.choices[choice].fills}
        worded = {u.variable for u in c.uses if message.quantities[u.quantity].implied} & filled
        return replace(request, given={n: a for n, a in request.given.items() if n not in worded})

    def _repeats(self, message: Message, wanted: tuple[str, ...], old: Request, c: Candidate) -> bool:
        return bool(wanted) and not message.asked.zones and not c.implied and not message.asked.units and bool(c.uses)

    def _kept_rows(self, c: Candidate, message: Message) -> dict[str, str]:
        """The rows of the message, but for those after ``instead of`` and ``not``."""
        return dict(c.rows)

    def _settle(self, request: Request, order: list[str], new: set[str], context: Context) -> tuple[Request, Answer]:
        """Solve; what overdetermines gives way, the oldest first; what is missing may be the last result."""
        answer = self._solve(request)
        evicted = 0
        while (
            answer.status == "declined"
            and "add up" in answer.reason
            and evicted < MOST_EVICTED
            and any(n in request.given for n in order)
        ):
            tried = []
            for name in self._giving_way(order, request, new):
                fewer = replace(request, given={n: a for n, a in request.given.items() if n != name})
                result = self._solve(fewer)
                tried.append((fewer, result))
                if result.status == "answered":
                    return fewer, result
            request, answer = tried[0]
            evicted += 1
        if answer.status == "asks" and context.result:
            name, base, _ = context.result[0]
            model = self.kernel.models[request.calculator]
            if name in model.variables and name not in request.given and name not in request.wanted:
                unit = model.unit[name]
                more = replace(request, given={**request.given, name: Amount(unit.from_base(base), unit.name, base)})
                result = self._solve(more)
                if result.status == "answered":
                    return more, result
        return request, answer


    def _giving_way(self, order: list[str], request: Request, new: set[str]) -> list[str]:
        """What may give way, the oldest first; to an amount another amount before a strength (``back to 300 g``)."""
        old = [n for n in order if n in request.given and n not in new]
        unit = self.kernel.models[request.calculator].unit
        amount = {n for n in (*old, *new) if unit[n].dimension in (MASS, VOLUME)}
        return sorted(old, key=lambda n: n not in amount) if new and new <= amount else old


def _told_before(answer: Answer, old: Request) -> bool:
    """Is all that is asked as it was given before: still given, whatever else it could be found from?"""
    return bool(answer.answer) and all(
        (a := old.given.get(v.name)) is not None and abs(v.base - a.base) <= ALIKE * abs(a.base) for v in answer.answer
    )


def _idle(c: Candidate, outcome: Outcome, context: Context, message: Message) -> bool:
    """Does a number that was told leave the answer as it was (``60`` guests, of two litres whoever drinks them)?"""
    if any(t.text == "again" for t in message.tokens):
        return False
    values = [(v.name, v.base) for v in outcome.answer.answer]
    before = [(name, base) for name, base, _ in context.result]
    return bool(c.uses) and not context.open and bool(values) and values == before


def _goes_back(message: Message) -> bool:
    """``back to the saline, 300 g``: of a job before the last, of which that number is all that is known."""
    words = [t.text for t in message.tokens if t.kind == "word"]
    return words[:3] == ["back", "to", "the"] or words[1:4] == ["back", "to", "the"]


def _past(message: Message) -> bool:
    """``what was the agar again?``: of an answer before the last one, which is not kept."""
    words = [t.text for t in message.tokens if t.kind == "word"]
    return words[:2] in (["what", "was"], ["what", "were"]) and not message.quantities
