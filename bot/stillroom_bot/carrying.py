"""What a new subject takes from the one before: the amount that ``it`` stands for, and sums of money."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from stillroom import Amount
from stillroom.model import Model
from stillroom.units import Unit

from .again import Again
from .context import Context
from .reading.candidate import MASS, MONEY, VOLUME
from .reading.deciding import Outcome
from .reading.message import Message
from .reading.neighbours import neighbours
from .reading.quantity import Quantity
from .scaling import PRONOUNS

INHERITED = 3.0
MOST_CARRIED, ALIKE = 2, 1e-6
BASES: dict[tuple[float, ...], str] = {MASS: "gram", VOLUME: "milliliter", MONEY: "currency"}
IT_IS = frozenset("is keeps needs should takes has made goes to be keep".split())
THAT_DOES = frozenset(
    "goes go brings bring gives give makes make is are i we they keeps takes would will has have was".split()
)
MAKING = frozenset({"make", "made", "making", "bring", "call"})
POINTING = frozenset({"", "and", "so", "of", "for", "with"})


class Carrying(Again):
    """Carries amounts from one subject into the next."""

    def carry(self, message: Message, context: Context) -> Message:
        """The message with ``that``, ``it`` and ``this batch`` standing for the last result's amount."""
        found = self._carried(context)
        if found is None:
            return message
        base, unit = found
        extra = [
            Quantity(base, i, i, (unit,), weak=True, implied=True, carried=True) for i in _pronouns(message)
        ]
        if not extra:
            return message
        return with_quantities(message, [*message.quantities, *extra[:MOST_CARRIED]])

    def _carried(self, context: Context) -> tuple[float, str] | None:
        """The amount that ``it`` stands for, in a base unit: of a scaled spec the whole, else what came first."""
        model = self.kernel.models[context.request.calculator]
        whole = [r for r in context.result if r[0] in model.variables] or list(context.result)
        for name, base, unit_name in whole[:1]:
            dimension = model.unit[name].dimension if name in model.unit else None
            if dimension is None and unit_name in self.kernel.units:
                dimension = self.kernel.units[unit_name].dimension
            unit = BASES.get(dimension) if dimension else None
            return self._one_volume(context) if unit is None else (base, unit)
        return None

    def _one_volume(self, context: Context) -> tuple[float, str] | None:
        """The one volume that was given, where the last result is none: ``for that volume`` after a count."""
        units = self.kernel.units
        said = (a for a in context.request.given.values() if any(c.isdigit() for c in a.said))
        given = [a.base for a in said if units[a.unit].dimension == VOLUME]
        return (given[0], BASES[VOLUME]) if len(given) == 1 else None

    def inherits(self, message: Message, context: Context) -> bool:
        """May a reading of a new subject be settled by what is known of the one before?"""
        return bool(self._sums(context)) or _points(message)

    def inherit(self, outcomes: list[Outcome], context: Context, message: Message) -> Iterator[Outcome]:
        """Readings of a new subject settled by what is known of the one before, under the same name.

        Without a pronoun only sums of money are: a cost and a price stay the drink's own.  A question that names
        nothing but what it asks (``how long?``) is about what was spoken of, as one with a pronoun is.
        """
        thing = bool(_things_meant(message))
        pronoun, sums = _points(message), self._sums(context)
        if not (pronoun or sums):
            return
        for o in outcomes:
            r = o.reading.request
            if o.answer.status != "asks" or r.calculator == context.request.calculator:
                continue
            model = self.kernel.models[r.calculator]
            if self._misplaced(o, context, message, model):
                continue
            known = {n: b for n, b in sums.items() if n in model.variables and model.unit[n].dimension == MONEY}
            wanted = tuple(w for w in r.wanted if w not in known) or r.wanted
            money = {n: Amount(b, "currency", b) for n, b in known.items() if n not in r.given and n not in wanted}
            more = self._same_names(context, model, {**r.given, **money}, wanted) if pronoun and not money else {}
            more = {n: a for n, a in more.items() if not thing or model.unit[n].dimension not in (MASS, VOLUME)}
            rows = _same_rows(context, model, r.choices) if pronoun and not money else {}
            if not (money or more or rows):
                continue
            request = replace(r, given={**money, **r.given, **more}, choices={**r.choices, **rows}, wanted=wanted)
            answer = self._solve(request)
            if answer.status == "answered" and answer.answer[0].name not in context.request.given:
                candidate = replace(o.reading.candidate, strange=False)
                reading = replace(o.reading, request=request, candidate=candidate)
                yield Outcome(reading, answer, o.score + INHERITED)

    def spec_before(self, message: Message, context: Context) -> str:
        """The spec of the job before, in words, where something else is asked of it (``what's the abv``, ``shaken?``).

        Nothing where the message has an amount or a thing of its own, or is about the job before itself.  With a
        percent of its own (``with 25 % dilution``) it is still for as many or as much as before.
        """
        spec, units = context.request.spec, self.kernel.units
        percents = [q for q in message.quantities if q.strength]
        asked = message.asked.zones if percents else ()
        told = (x for x in message.matches if not any(a <= x.first and x.last <= b for a, b in asked))
        own = any(x.entry.substances for x in told) or len(percents) < len(message.quantities)
        if not spec or own or not any(x.entry.meanings for x in message.matches):
            return ""
        lines = []
        for x in spec:
            if x.amount is None or x.attributes.keys() - {"abv"}:
                return ""
            strength = f" at {100 * x.attributes['abv'].base:g} % ABV" if "abv" in x.attributes else ""
            lines.append(f"{x.amount.value:.9g} {_in_words(units[x.amount.unit])} {x.thing}{strength}")
        model = self.kernel.models[context.request.calculator]
        before = [model.variables[w].title for w in context.request.wanted[:1] if w in model.variables]
        if percents:
            given = context.request.given.items()
            lines += [
                f"{a.value:.9g} {_in_words(units[a.unit])} "
                + ("in all" if model.variables[n].role == "into" else model.variables[n].title)
                for n, a in given
            ]
        own_question = message.asked.zones and not set(message.content) <= message.settling
        return ", ".join(lines + ([] if own_question else before))

    def _misplaced(self, o: Outcome, context: Context, message: Message, model: Model) -> bool:
        """Is the last result, carried as ``it``, put under another name although the job knows its own?"""
        names = {n for n, _, _ in context.result[:1] if n in model.variables}
        return bool(names) and any(
            message.quantities[u.quantity].carried and u.variable not in names for u in o.reading.candidate.uses
        )

    def _same_names(
        self, context: Context, model: Model, given: Mapping[str, Amount], wanted: tuple[str, ...]
    ) -> dict[str, Amount]:
        return {
            n: a
            for n, a in context.request.given.items()
            if n in model.variables
            and n not in given
            and n not in wanted
            and self.kernel.units[a.unit].dimension == model.unit[n].dimension
            and self._of_one_pair(context, model, n)
        }

    def _of_one_pair(self, context: Context, model: Model, name: str) -> bool:
        """Is a ratio one of the same two things there (of sugar to peel it is none of sugar to water)?"""
        before = self.kernel.models[context.request.calculator].variables[name].ratio
        return before == model.variables[name].ratio

    def _sums(self, context: Context) -> dict[str, float]:
        """What money the job before was about, given or found: a price and a cost stay the drink's own."""
        found = {n: b for n, b, u in context.result if u == "currency"}
        return {**{n: a.base for n, a in context.request.given.items() if a.unit == "currency"}, **found}


def with_quantities(message: Message, quantities: list[Quantity]) -> Message:
    """The message with other numbers in it; what is known of those that stay is kept."""
    changed = Message(
        message.text,
        message.tokens,
        sorted(quantities, key=lambda q: q.first),
        message.asked,
        message.matches,
        message.mended,
        stops=message.stops,
    )
    neighbours(changed)
    before = {id(q): k for k, q in enumerate(message.quantities)}
    for k, q in enumerate(changed.quantities):
        if (old := before.get(id(q))) is not None:
            changed.near[k], changed.cues[k] = message.near[old], message.cues[old]
            changed.nouns[k] = message.nouns[old]
    return changed


def keeps(o: Outcome, context: Context) -> bool:
    """Is all that was given before still given, each by its own name?"""
    given = o.reading.request.given
    return all(n in given and abs(given[n].base - a.base) <= ALIKE * a.base for n, a in context.request.given.items())


def _in_words(unit: Unit) -> str:
    return unit.words[0] if unit.words else unit.symbol


def _same_rows(context: Context, model: Model, chosen: Mapping[str, str]) -> dict[str, str]:
    return {
        c: x
        for c, x in context.request.choices.items()
        if c in model.choices and c not in chosen and x in model.choices[c].rows
    }


def _points(message: Message) -> bool:
    """Is what was spoken of before pointed at, or is nothing else named?"""
    carried = any(q.carried for q in message.quantities)
    return carried or bool(_pronouns(message)) or _elliptic(message) or bool(_things_meant(message))


def _elliptic(message: Message) -> bool:
    """``how long?``: a question without a number or a thing, and without a word but the one after ``how``."""
    named = [i for i in message.content if i == 0 or message.tokens[i - 1].text != "how"]
    return bool(message.asked.how) and not (message.quantities or named)


def _pronouns(message: Message) -> list[int]:
    """The tokens that stand for what was spoken of before."""
    taken = {k for q in message.quantities for k in range(q.first, q.last + 1)}
    ends = {q.last for q in message.quantities}
    return [
        i
        for i, t in enumerate(message.tokens)
        if t.text in PRONOUNS and i not in taken and not _conjunction(message, i) and not _part(message, i, ends)
        and i not in _things_meant(message)
    ]


def _things_meant(message: Message) -> list[int]:
    """``how many drops of that``, ``how much of it``: the tokens that stand for the thing, and not for its amount."""
    units = {b for _, b in message.asked.unit_spans}
    return [
        i
        for i, t in enumerate(message.tokens)
        if t.text in PRONOUNS and i > 1 and message.tokens[i - 1].text == "of"
        and (i - 2 in units or message.tokens[i - 2].text in ("much", "many"))
    ]


def _part(message: Message, i: int, ends: set[int]) -> bool:
    """``600 ml of it``, ``24 serves of it``: the amount is said, and the pronoun only names the thing."""
    return i > 1 and message.tokens[i - 1].text == "of" and bool({i - 2, i - 3} & ends)


def _conjunction(message: Message, i: int) -> bool:
    """``the water that goes in``, ``it keeps``: no pronoun."""
    before = message.tokens[i - 1].text if i else ""
    after = message.tokens[i + 1].text if i + 1 < len(message.tokens) else ""
    if message.tokens[i].text == "it" and (after in IT_IS or before in MAKING):
        return True
    if before in MAKING and i + 1 < len(message.tokens) and message.tokens[i + 1].kind == "number":
        return True
    return message.tokens[i].text == "that" and after in THAT_DOES and before not in POINTING
