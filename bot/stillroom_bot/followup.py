"""Follow-ups: a message that changes, completes or carries on the last one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from stillroom import Amount, Answer, Line, Request
from stillroom.units import PERCENTS, Units

from .again import PRONOUNS, Again, factor_of
from .context import Context
from .reading.candidate import MASS, MONEY, VOLUME, Candidate
from .reading.deciding import Outcome, worth
from .reading.message import Message
from .reading.neighbours import neighbours
from .reading.placing import SAME_UNIT
from .reading.quantity import Quantity
from .reading.ranking import rank
from .reading.reader import COVER
from .reading.view import View
from .reading.viewer import candidates_of
from .reading.wanting import TOTALS

FOLLOW = 0.9
CUE = 1.3
SHORT = 0.7
SHORTEST = 7
KEPT = 1.4
MISSING = 1.6
INHERITED = 3.0
MOST_EVICTED = 4
BASES: dict[tuple[float, ...], str] = {MASS: "gram", VOLUME: "milliliter", MONEY: "currency"}
OPENERS = frozenset(
    """and what about if make no nah nope sorry instead but ok okay same oh also actually then with fine hm hmm
again my apologies beg pardon i meant mean rather change now switch it's its""".split()
)


class Follower(Again):
    """Reads messages in the light of what went before."""

    def carry(self, message: Message, context: Context) -> Message:
        """The message with ``that``, ``it`` and ``this batch`` standing for the last result's amount."""
        if not context.result:
            return message
        name, base, unit_name = context.result[0]
        unit = self._base_unit(context, name, unit_name)
        if unit is None:
            return message
        taken = {k for q in message.quantities for k in range(q.first, q.last + 1)}
        extra = []
        for i, t in enumerate(message.tokens):
            if t.text in PRONOUNS and i not in taken and not self._conjunction(message, i):
                extra.append(Quantity(base, i, i, (unit,), weak=True, implied=True, carried=True))
        if not extra:
            return message
        quantities = sorted([*message.quantities, *extra[:2]], key=lambda q: q.first)
        carried = Message(
            message.text,
            message.tokens,
            quantities,
            message.asked,
            message.matches,
            message.mended,
            stops=message.stops,
        )
        neighbours(carried)
        return carried

    def _conjunction(self, message: Message, i: int) -> bool:
        """``the water that goes in``: no pronoun."""
        before = message.tokens[i - 1].text if i else ""
        after = message.tokens[i + 1].text if i + 1 < len(message.tokens) else ""
        if message.tokens[i].text == "it" and after in (
            "is",
            "keeps",
            "needs",
            "should",
            "takes",
            "has",
            "made",
            "goes",
            "to",
            "be",
            "keep",
        ):
            return True
        return message.tokens[i].text == "that" and (
            after
            in (
                "goes",
                "go",
                "brings",
                "bring",
                "gives",
                "give",
                "makes",
                "make",
                "is",
                "are",
                "i",
                "we",
                "they",
                "keeps",
                "takes",
                "would",
                "will",
                "has",
                "have",
                "was",
            )
            and before not in ("", "and", "so", "of", "for", "with")
        )

    def _base_unit(self, context: Context, name: str, unit_name: str) -> str | None:
        model = self.kernel.models[context.request.calculator]
        dimension = model.unit[name].dimension if name in model.unit else None
        if dimension is None and unit_name in self.kernel.units:
            dimension = self.kernel.units[unit_name].dimension
        return BASES.get(dimension) if dimension else None

    def outcomes(
        self, message: Message, context: Context, units: Units, sizes: Mapping[str, float], system: Mapping[str, str]
    ) -> list[Outcome]:
        """What the message makes of the last request, best first."""
        factor = factor_of(message)
        if factor is not None and not context.open:
            return [o for o in [self._scaled(message, context, factor)] if o is not None]
        if not message.quantities and not message.content and message.asked.units:
            return [o for o in [self._in_unit(message, context, system)] if o is not None]
        respecified = self._spec(message, context.request.spec, context.request.spec, units)
        if respecified != context.request.spec:
            return [self._repeat(replace(context.request, spec=respecified))]
        model = self.kernel.models[context.request.calculator]
        cover = {id: s for s, id in rank(message, self.reader.lexicon, 10_000)}.get(model.id, 0.0)
        filled = {
            n: (a.unit, KEPT + (MISSING if n in context.missing else 0.0)) for n, a in context.request.given.items()
        }
        for n in context.missing:
            filled.setdefault(n, ("", MISSING))
        view = View(self.reader.profile(model.id), self.reader.lexicon, message, units, COVER * cover, filled)
        view.has_spec = bool(context.request.spec)
        view.settled = frozenset(context.request.choices)
        bonus = FOLLOW + self._cue(message)
        found = []
        for c in candidates_of(view, 4):
            outcome = self._merged(c, message, context, units, sizes, system)
            if outcome is not None:
                again = sum(u.variable in filled and filled[u.variable][0] != "" for u in c.uses)
                outcome.score += bonus - (KEPT + SAME_UNIT) * max(0, again - 1)
                found.append(outcome)
        found.sort(key=lambda o: -o.score)
        return found

    def _cue(self, message: Message) -> float:
        words = [t.text for t in message.tokens if t.kind == "word"]
        content = [t for t in message.tokens if t.kind in ("word", "number", "fraction")]
        cue = (
            CUE
            if words and (words[0] in OPENERS or "instead" in words or "meant" in words or "sorry" in words)
            else 0.0
        )
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
        new, old = reading.request, context.request
        named = bool(c.wanted) and not c.implied and self._explicit(c, message, old)
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
        given = {n: a for n, a in old.given.items() if n not in new.given and n not in wanted}
        wanted_units = dict(old.units)
        if asked_units:
            wanted_units.update(self.reader._units(c, message, list(wanted), units, system))
        request = Request(
            old.calculator, {**given, **new.given}, rows, wanted, spec, wanted_units, dict(sizes), now=old.now
        )
        order = [*(n for n in context.order if n in given), *(n for n in given if n not in context.order)]
        request, answer = self._settle(request, order, set(new.given), context)
        reading.request = request
        score = c.score + worth(answer) - (0.3 if reading.asks else 0.0)
        return Outcome(reading, answer, score)

    def _explicit(self, c: Candidate, message: Message, old: Request) -> bool:
        """Is the wanted really asked for, and not merely the name of a row that changes, or a unit?"""
        names = set(c.wanted)
        if message.asked.units and not any(self._in(message, old.calculator, n) for n in old.wanted):
            return any(self._in(message, old.calculator, n) for n in names)
        view = self.reader.profile(c.model.id)
        if names & view.wholes.keys() and any(
            message.tokens[i].text in TOTALS for a, b in message.asked.zones for i in range(a, b + 1)
        ):
            return True
        if not message.content:
            return bool(message.asked.how)
        for a, b in (*message.asked.zones, *message.asked.rest):
            for match in message.matches:
                meaning = match.entry.meanings.get(view.id)
                if meaning is None or not (a <= match.first and match.last <= b):
                    continue
                rows_change = any(old.choices.get(k) != r for k, r in meaning.rows.items()) and bool(meaning.rows)
                if names & meaning.variables.keys() and not (rows_change and not message.asked.how):
                    return True
        return bool(message.asked.how & {"much", "many", "time", "strength", "temperature", "pieces"}) and bool(
            message.asked.how
        )

    def _in(self, message: Message, calculator: str, name: str) -> bool:
        """Can a variable be answered in a unit that is asked for?"""
        model = self.kernel.models[calculator]
        return name in model.unit and any(
            self.kernel.units[u].dimension == model.unit[name].dimension
            for spelled in message.asked.units
            for u in spelled
        )

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
            for name in [n for n in order if n in request.given]:
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

    def _spec(self, message: Message, old: tuple[Line, ...], new: tuple[Line, ...], units: Units) -> tuple[Line, ...]:
        """The old lines with the amounts and strengths that the message changes; a line is known by its thing."""
        if not old:
            return new
        lines = list(old)
        for k, q in enumerate(message.quantities):
            if q.noise or q.ratio is not None or not q.units or q.per is not None:
                continue
            for i, line in enumerate(lines):
                if not self._names(message, k, line):
                    continue
                u = q.units[-1] if len(q.units) > 1 else q.units[0]
                amount = Amount(q.value, u, units[u].to_base(q.value), message.words(q.first, q.last))
                if units[u].kind in PERCENTS:
                    lines[i] = replace(line, attributes={**line.attributes, "abv": amount})
                elif line.amount is not None and units[u].dimension in (MASS, VOLUME):
                    lines[i] = replace(line, amount=amount)
        return tuple(lines)

    def _names(self, message: Message, k: int, line: Line) -> bool:
        words = set(line.thing.lower().split())
        near = {
            message.tokens[i].stem
            for x in message.near[k]
            if x.weight > 1.0
            for i in range(x.match.first, x.match.last + 1)
        }
        noun = message.nouns[k]
        near |= {message.tokens[i].stem for i in range(noun[0], noun[1] + 1)} if noun else set()
        return bool(words & near)

    def inherit(self, outcomes: list[Outcome], context: Context, message: Message) -> Iterator[Outcome]:
        """Readings of a new subject that speak of ``it``: settled by what was given under the same name."""
        pronoun = any(t.text in PRONOUNS for t in message.tokens)
        for o in outcomes:
            r = o.reading.request
            if o.answer.status != "asks" or r.calculator == context.request.calculator:
                continue
            model = self.kernel.models[r.calculator]
            money = {
                n: Amount(b, "currency", b)
                for n, b in self._sums(context).items()
                if n in model.variables and model.unit[n].dimension == MONEY and n not in r.given and n not in r.wanted
            }
            if money and not pronoun:
                request = replace(r, given={**money, **r.given})
                answer = self._solve(request)
                if answer.status == "answered":
                    yield Outcome(replace(o.reading, request=request), answer, o.score + INHERITED)
                continue
            if not pronoun:
                continue
            rows = {
                c: x
                for c, x in context.request.choices.items()
                if c in model.choices and c not in r.choices and x in model.choices[c].rows
            }
            given = {
                n: a
                for n, a in context.request.given.items()
                if n in model.variables
                and n not in r.given
                and n not in r.wanted
                and self.kernel.units[a.unit].dimension == model.unit[n].dimension
            }
            if rows or given:
                request = replace(r, choices={**r.choices, **rows}, given={**r.given, **given})
                answer = self._solve(request)
                if answer.status == "answered":
                    yield Outcome(replace(o.reading, request=request), answer, o.score + INHERITED)

    def _sums(self, context: Context) -> dict[str, float]:
        """What money the job before was about, given or found: a price and a cost stay the drink's own."""
        found = {n: b for n, b, u in context.result if u == "currency"}
        return {**{n: a.base for n, a in context.request.given.items() if a.unit == "currency"}, **found}
