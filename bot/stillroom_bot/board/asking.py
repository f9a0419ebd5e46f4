"""A question that names a kept spec, read as if its lines had been written out, and answered on those very lines.

The reader sees the question with the lines behind it and may put none of their amounts to another use; the
request then gets the lines as they are kept.  A calculator that gives something for every line gets them as
they stand; one that only adds them up gets the specs within them taken apart.  What does not fit so is left
to the reader, as the question it is.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from stillroom import Amount, Answer, Kernel, Line, Request
from stillroom.answering import say_number
from stillroom.units import Units

from ..reading.candidate import MASS, VOLUME, Candidate
from ..reading.deciding import Decision, choose, outcomes_of
from ..reading.message import Message
from ..reading.reader import Reader, Reading
from ..reading.tokens import stem
from ..settings import sizes_of, system_of
from ..state import State
from .book import Book
from .expand import Unexpandable, flat, how_much_it_makes, plain_yield, resized, substances_within, times, whole
from .names import Mention
from .plan_parts import PASSED_OVER
from .showing import amount_text, smaller
from .spec import KeptSpec
from .wording import OF_LINE, POLITE, TIMES, Asked, asked

PERCENT = re.compile(r"\d+(?:[.,]\d+)?\s*%\s*")
NEITHER = ("sugar", "acid", "acidity")
IDLE = frozenset("drink drinks spec specs recipe total batch please kept serves scale made making it".split())


@dataclass(frozen=True, slots=True)
class Question:
    """A question as it was read: its message, what was decided, the spec with the lines that were used."""

    message: Message
    decision: Decision
    spec: KeptSpec
    asked: Asked


class Needs(Exception):
    """What has to be known before a spec can be reckoned with; the message is the question back."""


class SpecReader(Reader):
    """A reader whose readings stand on the lines of a kept spec."""

    def __init__(self, reader: Reader, put: Callable[[Reading], Reading]):
        self.__dict__.update(reader.__dict__)
        self._put = put

    def reading(
        self,
        c: Candidate,
        m: Message,
        units: Units,
        sizes: Mapping[str, float],
        system: Mapping[str, str],
        now: str | None = None,
    ) -> Reading:
        """The reading of a candidate, with the kept lines in its request."""
        return self._put(super().reading(c, m, units, sizes, system, now))


class Asking:
    """Answers questions about kept specs with the reader of one conversation."""

    def __init__(self, kernel: Kernel, reader: Reader, margin: float):
        self.kernel, self.reader, self.margin = kernel, reader, margin

    def ask(self, text: str, mention: Mention, state: State, lines: tuple[Line, ...] | None = None) -> Question | None:
        """The question, decided; None where it is not one of a spec.  ``lines`` stand for the spec's own.

        Raises Needs.
        """
        spec = mention.spec if lines is None else mention.spec.but(lines=lines)
        units = self.kernel.units.adjusted(sizes_of(state.settings))
        wish, thing = self._wish(text, mention, spec)
        spec = self._made(self._per_serve(spec, units), wish.made, units)
        try:
            question = self._decide(spec, wish, state, units)
        except Unexpandable as e:
            raise Needs(str(e)) from None
        return _first(question, thing) if question and thing else question

    def _wish(self, text: str, mention: Mention, spec: KeptSpec) -> tuple[Asked, str]:
        """What is asked of the spec, and the line of it that is asked for, if one is."""
        whole = " ".join(f"{text[: mention.start]}@{text[mention.end :]}".split()).strip(" ?.!")
        said, thing = OF_LINE.match(POLITE.sub("", whole)), ""
        if said is not None:
            words = {stem(w) for w in said["thing"].casefold().split()} - {"of", "the"}
            fits = [x.thing for x in spec.lines if words <= {stem(w) for w in x.thing.casefold().split()}]
            thing = fits[0] if len(fits) == 1 else ""
        if said is not None and thing:
            at = said["rest"].index("@")
            wish = asked(said["rest"], at, at + 1)
        else:
            wish = asked(text, mention.start, mention.end)
        return (self._batches(wish, spec), thing) if wish.batches else (wish, thing)

    def _batches(self, wish: Asked, spec: KeptSpec) -> Asked:
        """Batches as serves, where the spec is for several."""
        said = " ".join(wish.batches.casefold().split())
        found = self.reader.take_apart(said).quantities
        n = TIMES.get(said) or (found[0].value if found else 1.0)
        serves = spec.makes.value if spec.makes is not None and spec.makes.unit == "count" else 1.0
        told = f"{n * serves:.9g}"
        return replace(wish, text=f"scale to {told} serves", serves=told)

    def _per_serve(self, spec: KeptSpec, units: Units) -> KeptSpec:
        lines = tuple(resized(x, units) for x in spec.lines)
        if spec.makes is not None and spec.makes.unit == "count" and spec.makes.value > 0:
            lines = tuple(times(x, 1 / spec.makes.value, units) for x in lines)
        return spec.but(lines=lines)

    def _made(self, spec: KeptSpec, amount: str, units: Units) -> KeptSpec:
        """The spec with its lines for so much of it: so many serves, or a volume or weight.  Raises Needs."""
        if not amount:
            return spec
        said = self.reader.take_apart(amount).quantities
        if not said:
            return spec
        factor = said[0].value
        if said[0].units:
            unit, makes = units[said[0].units[-1]], plain_yield(spec, self.kernel, units)
            if makes is None or units[makes.unit].dimension != unit.dimension:
                raise Needs(how_much_it_makes(spec))
            factor = unit.to_base(factor) / makes.base
        return batch_of(spec, factor, units)

    def _written(self, spec: KeptSpec, wish: Asked, units: Units) -> tuple[str, int, int]:
        """The question with the lines, and where these stand in it."""
        lines = ", ".join(f"{x.amount.said or amount_text(x.amount, units)} {self._word(x, wish)}"
                          for x in spec.lines if x.amount)
        made = spec.makes if spec.makes is not None and spec.makes.unit != "count" else None
        weighed = self._by_weight(spec, wish, units)
        if weighed is not None:
            before = f"scale to {weighed:.9g} serves: "
            return before + lines, len(before), len(before) + len(lines)
        if made is None:
            if wish.plain and wish.total and self._weighs(spec, units):
                raise Needs(how_much_it_makes(spec))
            before = f"{wish.text}: "
            return before + lines, len(before), len(before) + len(lines)
        if wish.serves or wish.total:
            before = f"recipe makes {made.said}: "
            want = wish.total or self._so_many(wish.serves, made, units)
            asks = "" if wish.plain else f" {wish.text}"
            return f"{before}{lines}.{asks} For {want}", len(before), len(before) + len(lines)
        before = f"{wish.text}: "
        return before + lines, len(before), len(before) + len(lines)

    def _word(self, line: Line, wish: Asked) -> str:
        """A line's thing as the reader sees it: an acid in it is a powder as any, and no acid that is asked for."""
        thing = self.kernel.substances.get(line.substance or "")
        acid = thing is not None and thing.state == "dry" and "acid" in thing.kinds and not wish.plain
        return "powder" if acid else PERCENT.sub("", line.thing)

    def _weighs(self, spec: KeptSpec, units: Units) -> bool:
        """Is more weighed than can be passed over in the volume of what is poured?"""
        bases = {d: sum(x.amount.base for x in spec.lines if x.amount and units[x.amount.unit].dimension == d)
                 for d in (MASS, VOLUME)}
        return bases[MASS] > PASSED_OVER * bases[VOLUME]

    def _by_weight(self, spec: KeptSpec, wish: Asked, units: Units) -> float | None:
        """How many times a spec that is weighed is wanted; None for one that is poured.  Raises Needs."""
        said = self.reader.take_apart(wish.total or wish.serves).quantities
        makes = plain_yield(spec, self.kernel, units)
        if not said or makes is None or not wish.plain:
            return None
        unit = units[said[0].units[0]] if said[0].units else None
        if unit is not None and MASS in (kinds := {unit.dimension, units[makes.unit].dimension}) and len(kinds) > 1:
            told = f"{spec.name} makes {amount_text(makes, units)}: "
            if unit.dimension == MASS:
                raise Needs(told + "say by volume how much of it you want.")
            raise Needs(told + f"say by weight how much of it you want, or first “{spec.name} makes 800 ml”.")
        if units[makes.unit].dimension != MASS:
            return None
        return said[0].value if unit is None else unit.to_base(said[0].value) / makes.base

    def _in_weight(self, answer: Answer, spec: KeptSpec, units: Units) -> Answer:
        """The answer for a spec that is weighed, or in which much is: no volume of it is known."""
        makes = plain_yield(spec, self.kernel, units)
        factor = next((v.base for v in answer.values if v.name == "factor"), None)
        if answer.status != "answered" or factor is None:
            return answer
        whole = amount_text(times(Line(spec.name, makes), factor, units).amount, units) if makes else ""
        step = f"Measure each line times {say_number(factor)}{f': {whole} in all' if whole else ''}."
        unknown = ("total", "spec_volume", "size")
        return replace(
            answer,
            answer=tuple(v for v in answer.answer if v.name not in unknown),
            values=tuple(v for v in answer.values if v.name not in unknown),
            steps=(step,),
            assumptions=tuple(a for a in answer.assumptions if "not counted in the spec volume" not in a),
        )

    def _so_many(self, count: str, made: Amount, units: Units) -> str:
        """So many times an amount, written out: ``three`` of 820 ml."""
        found = self.reader.take_apart(count).quantities
        unit = units[made.unit]
        return f"{(found[0].value if found else 1) * made.value:.9g} {next(iter(unit.words), unit.symbol)}"

    def _decide(self, spec: KeptSpec, wish: Asked, state: State, units: Units) -> Question | None:
        text, start, end = self._written(spec, wish, units)
        message = self.reader.take_apart(text)
        kept = {k for k, q in enumerate(message.quantities) if start <= message.tokens[q.first].start < end}
        own = frozenset(i for i, t in enumerate(message.tokens) if start <= t.start < end)
        fitting = self.reader.candidates(
            message, units, fits=lambda c: self._fits(c, message, kept, own) and self._is_asked(c, message, own, wish)
        )
        refused: list[str] = []
        book = state.book

        def put(reading: Reading) -> Reading:
            lines_of = reading.candidate.model.calculator.lines
            assert lines_of is not None
            try:
                lines = spec.lines if lines_of.each else whole(book, spec, spec.lines, self.kernel, units, lines_of)
            except Unexpandable as e:
                refused.append(str(e))
                lines = spec.lines
            if lines_of.each:
                topped = [x.thing for x in lines if not x.amount]
                reading.notes += [f"top each glass with {thing}: it is not in the batch" for thing in topped]
                lines = tuple(x for x in lines if x.amount)
            poured = sum(x.amount.base for x in lines if x.amount and units[x.amount.unit].dimension == VOLUME)
            lines = tuple(self._dry(x, reading, units, poured) for x in lines)
            reading.request = self._on_lines(reading.request, lines, spec, state)
            return reading

        reader = SpecReader(self.reader, put)
        outcomes = outcomes_of(
            self.kernel, reader, message, fitting, units, sizes_of(state.settings), system_of(state.settings)
        )
        decision = choose(outcomes, self.margin, message, reader)
        if decision.best is None and len({o.reading.candidate.model.id for o in outcomes}) == 1:
            decision = Decision(outcomes[0], outcomes=outcomes)
        if decision.best is None:
            return None
        lines_of = decision.best.reading.candidate.model.calculator.lines
        weighed = self._by_weight(spec, wish, units)
        by_the_piece = spec.makes is None or spec.makes.unit == "count"
        if weighed is not None or (by_the_piece and wish.serves and wish.plain and self._weighs(spec, units)):
            decision.best.answer = self._in_weight(decision.best.answer, spec, units)
        if refused and lines_of is not None and not lines_of.each:
            raise Needs(refused[0])
        decision.doubts = [d for d in decision.doubts if d and d not in text[start:end]]
        return Question(message, decision, spec, wish)

    def _fits(self, c: Candidate, m: Message, kept: set[int], own: frozenset[int]) -> bool:
        """Does a candidate take the kept amounts as lines only, and every other word and number for something?"""
        lines_of = c.model.calculator.lines
        if lines_of is None or not set(c.lines) & kept or (set(c.lines) - kept and not lines_of.each):
            return False
        if any(u.quantity in kept for u in c.uses) or any(k in kept for k, _, _ in c.line_uses):
            return False
        left = [k for k in c.unused if k not in kept and not (m.quantities[k].weak or m.quantities[k].noise)]
        if left:
            return False
        taken = {i for k in c.lines if (n := m.nouns[k]) for i in range(n[0], n[1] + 1)}
        taken |= {i for u in c.uses if (n := m.nouns[u.quantity]) for i in range(n[0], n[1] + 1)}
        things = {m.tokens[i].stem for i in own}
        return all(
            i in own or i in c.covered or i in taken or m.tokens[i].stem in things or m.tokens[i].text in IDLE
            for i in m.content
        )

    def _is_asked(self, c: Candidate, m: Message, own: frozenset[int], wish: Asked) -> bool:
        """Do words beside the lines ask for it, and is a total that is wanted its total, not a thing to pour in?"""
        if wish.plain:
            return True
        if not any(i not in own and m.tokens[i].stem != "drink" for i in c.covered):
            return False
        totals = {u.quantity for u in c.uses if u.variable == "total" or c.model.variables[u.variable].role == "into"}
        said = self.reader.take_apart(wish.total).quantities if wish.total else ()
        return not said or any(k in totals for k, q in enumerate(m.quantities)
                               if (q.value, q.units) == (said[0].value, said[0].units))

    def _dry(self, line: Line, reading: Reading, units: Units, poured: float) -> Line:
        """An unknown thing that is weighed or counted holds no alcohol, and as little as can be passed over in what is
        ``poured`` [ml] holds no sugar and no acid; that is said."""
        lines_of = reading.candidate.model.calculator.lines
        a, columns = line.amount, lines_of.columns if lines_of else {}
        if line.substance or a is None or units[a.unit].dimension == VOLUME:
            return line
        little = units[a.unit].dimension == MASS and a.base <= PASSED_OVER * poured
        names = [n for n in (("abv", *NEITHER) if little else ("abv",)) if n in columns and n not in line.attributes]
        none = {n: Amount(0.0, columns[n], 0.0) for n in names}
        if none:
            told = dict.fromkeys("alcohol" if n == "abv" else n.replace("acidity", "acid") for n in none)
            reading.notes.append(f"{line.thing}: taken to hold no {' and no '.join(told)}")
        return replace(line, attributes={**line.attributes, **none})

    def _on_lines(self, request: Request, lines: tuple[Line, ...], spec: KeptSpec, state: State) -> Request:
        """The request on the kept lines; what the question itself said of one (what there is of it) stays."""
        said = {x.thing.casefold(): x.attributes for x in request.spec}
        lines = tuple(
            replace(x, attributes={**bought(x, state.book), **x.attributes, **said.get(x.thing.casefold(), {})})
            for x in lines
        )
        within = substances_within(state.book, spec.lines)
        here = {x.substance for x in lines}
        named = {f"in {thing}": id for id, thing in within.items() if id not in here}
        return replace(request, spec=lines, things={**request.things, **named})


def batch_of(spec: KeptSpec, factor: float, units: Units) -> KeptSpec:
    """So many times a spec, and of what it says that it makes."""
    makes = spec.makes
    if makes is not None and makes.unit != "count":
        makes = times(Line(spec.name, makes), factor, units).amount
    return spec.but(lines=tuple(times(x, factor, units) for x in spec.lines), makes=makes)


def _first(question: Question, thing: str) -> Question:
    """The question with its answer for one line before those for the others."""
    best = question.decision.best
    if best is not None:
        values = best.answer.answer
        best.answer = replace(best.answer, answer=tuple(sorted(values, key=lambda v: v.name != thing)))
    return question


def bought(line: Line, book: Book) -> Mapping[str, Amount]:
    """The price of a line's thing, and what it buys, where another spec of the book says it."""
    return {} if "price" in line.attributes else book.prices.get(line.thing.casefold(), {})


def nested_lines(made: Mapping[str, tuple[float, Line]], state: State, kernel: Kernel) -> list[str]:
    """For each line that is a kept spec itself, what goes into so much of it.

    ``made`` is by thing the factor by which the line was multiplied, and the line.
    """
    units = kernel.units.adjusted(sizes_of(state.settings))
    told: list[str] = []

    def tell(lines: tuple[Line, ...], depth: int) -> None:
        for line in lines:
            inner = state.book.named(line.thing)
            if inner is None or line.amount is None or depth > 4:
                continue
            makes = plain_yield(inner, kernel, units)
            count = inner.makes.value if inner.makes and inner.makes.unit == "count" else 1.0
            if line.amount.unit == "count":
                factor = line.amount.value / count
            elif makes is not None and units[makes.unit].dimension == units[line.amount.unit].dimension:
                factor = line.amount.base / makes.base
            else:
                told.append(f"{line.thing}: say what the spec makes, and I tell what goes into that much.")
                continue
            own = tuple(times(resized(x, units), factor, units) for x in inner.lines)
            told.append(
                f"{amount_text(line.amount, units)} of {inner.name}: "
                + ", ".join(f"{amount_text(smaller(x.amount, units), units)} {x.thing}" for x in own if x.amount)
                + "."
            )
            tell(own, depth + 1)

    tell(tuple(times(line, factor, units) for factor, line in made.values()), 0)
    return told


__all__ = ["Asking", "Needs", "Question", "flat", "nested_lines"]
