"""The prep board within a conversation: what it hears, and the questions that it puts to kept specs."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import datetime

from stillroom import Kernel, Line, Value

from .. import phrasing
from ..context import remember
from ..reading.reader import Reader
from ..refusing import Refusals
from ..reminders.offering import with_rest
from ..reply import Reply
from ..state import State
from . import commands
from .asking import NEITHER, Asking, Needs, Question, nested_lines
from .changes import LESS, Unclear
from .desk import Heard, Said, tools_of
from .exchange import hear as hear_exchange
from .following import About, about, amount_instead, kept_about, made_cold, of_that
from .lacking import asked_of_no_such
from .names import Mention
from .showing import amount_text
from .spec import KeptSpec
from .whatif import ASKS_WHAT_IF, OTHER_LINE, again, last_request, other, other_line
from .wording import NUMBER, SIZE
from .written import written

PRONOUN = re.compile(r"\b(?:it|that one|this one|the drink)\b", re.I)
SO_MUCH_OF = re.compile(
    rf"\b(?:in|to|from|of|out of|into|on|for)\s+(?:(?:{SIZE}|{NUMBER})\s+(?:of\s+)?)?(?:the\s+|our\s+)?$", re.I
)
LACKS = re.compile(
    r"^What is the (?P<what>sugar|acid|brix|abv) of (?P<thing>.+?)(?=\?| and (?:sugar|acid|brix|abv) of )")
Answer = Callable[[str, State], tuple[Reply, State]]
Finish = Callable[[str, Question, State, list[str]], tuple[Reply, State]]


def meant(here: Sequence[Mention], text: str) -> Mention:
    """Of the kept names in a question, the one that it is about: ``how much cordial for 40 Marsh Lights``."""
    return next((m for m in reversed(here) if SO_MUCH_OF.search(text[: m.start])), here[0])


class Board:
    """Hears and answers for one conversation."""

    def __init__(
        self,
        kernel: Kernel,
        reader: Reader,
        refusals: Refusals,
        margin: float,
        clock: Callable[[], datetime],
        answer: Answer,
    ):
        self.kernel, self.refusals, self.answer = kernel, refusals, answer
        self.tools = tools_of(kernel, reader, clock, refusals)
        self.asking = Asking(kernel, reader, margin)

    def hear(self, text: str, state: State) -> Heard:
        """The reply to a message that is for the board, and the new state; None for any other."""
        said = Said(text, state, self.tools)
        heard = hear_exchange(said) or written(said)
        if heard is None and "\n" not in text.strip():
            heard = commands.hear(said)
        if heard is None or heard[1].book is state.book:
            return heard
        things = ", ".join(x.thing for s in heard[1].book.added_to(state.book) if not s.gone for x in s.lines)
        reason = self.tools.refuse(things)
        return said.declined(reason) if reason else heard

    def question(self, text: str, state: State, finish: Finish) -> Heard:
        """The answer to a question about a kept spec, finished as any other; None where it is about none."""
        said = Said(text, state, self.tools)
        here = self.tools.mentions(state.book, text)
        try:
            if here:
                return self._asked(said, meant(here, text), finish)
            if state.open is not None and (topped := self._topped(said, finish)) is not None:
                return topped
            last = about(state, self.kernel) if state.open is None else None
            shown = said.shown()
            last = About(shown) if shown is not None else last
            heard = self._followed(said, last, finish) if last else self._what_if(said)
            return heard or asked_of_no_such(said)
        except (Needs, Unclear) as e:
            return phrasing.asks(text, None, str(e), ["spec"]), state

    def apart(self, text: str, state: State) -> State:
        """The state for a message that names a spec which is no line of the job before: it asks nothing of that."""
        if not (state.open or state.last):
            return state
        request = last_request(state, self.kernel)
        lines = {x.thing.casefold() for x in request.spec} if request else set()
        if any(m.spec.name.casefold() not in lines for m in self.tools.mentions(state.book, text)):
            return state.but(open=None, last=None)
        return state

    def _followed(self, said: Said, last: About, finish: Finish) -> Heard:
        """What a few words mean after an answer about a kept spec; None for what begins anew."""
        again = amount_instead(said.text, last, self.tools.reader) or made_cold(said.text, last)
        again = again or of_that(said.text, last)
        if again:
            text, start, end = last.named(again)
            heard = self._asked(replace(said, text=text), Mention(last.spec, start, end), finish, last.lines)
            return (replace(heard[0], question=said.text), heard[1]) if heard else None
        if ASKS_WHAT_IF.match(said.text) or LESS.search(said.text):
            return self._otherwise(said, last, finish) or self._what_if(said)
        if OTHER_LINE.match(said.text) and (heard := self._otherwise(said, last, finish)) is not None:
            return heard
        pronoun = None if re.search(r"\d", said.text) else PRONOUN.search(said.text)
        return self._asked(said, Mention(last.spec, *pronoun.span()), finish, last.lines) if pronoun else None

    def _topped(self, said: Said, finish: Finish) -> Heard:
        """The question that waits for how much goes on top, with that amount."""
        waits = (said.state.board or {}).get("waits")
        spec = said.book.latest.get(int(waits.get("id", 0))) if isinstance(waits, Mapping) else None
        if spec is None or spec.gone or not isinstance(waits, Mapping):
            return None
        top, text = str(waits.get("top", "")), said.text.strip(" .!?")
        text = re.sub(rf"^(?:about|say|with)\s+|\s+(?:of\s+)?{re.escape(top)}$", "", text, flags=re.I)
        amount = self.tools.lines.amount(text, said.units, top)
        if amount is None or not any(x.thing == top for x in spec.lines):
            return None
        lines = tuple(replace(x, amount=amount) if x.thing == top and x.amount is None else x for x in spec.lines)
        asked, start, end = About(spec, str(waits.get("said", "@"))).named(str(waits.get("said", "@")))
        anew = replace(said, text=asked, state=said.state.but(open=None))
        heard = self._asked(anew, Mention(spec, start, end), finish, lines, [f"with {amount.said} {top}"])
        return (replace(heard[0], question=said.text), heard[1]) if heard else None

    def _otherwise(self, said: Said, last: About, finish: Finish) -> Heard:
        """The last question about a kept spec, asked of it with other lines."""
        spec = last.spec if last.lines is None else last.spec.but(lines=last.lines)
        changed = other(said.text, spec, self.tools.lines, said.units) or other_line(
            said.text, spec, self.tools.lines, said.units)
        if changed is None or changed.rest or "@" not in last.said:
            return None
        text, start, end = last.named(last.said)
        mention = Mention(last.spec, start, end)
        was = self._before(self.asking.ask(text, mention, said.state, last.lines), "it was")
        heard = self._asked(
            replace(said, text=text), mention, finish, changed.spec.lines, [f"with {changed.told}", *was]
        )
        return (replace(heard[0], question=said.text), heard[1]) if heard else None

    def _asked(
        self, said: Said, mention: Mention, finish: Finish, lines: tuple[Line, ...] | None = None,
        told: Sequence[str] = (),
    ) -> Heard:
        """The answer to a question about the spec of a mention; ``lines`` stand for its own, and are ``told`` of."""
        text, told = said.text, list(told)
        changed = None if told else other(text, mention.spec, self.tools.lines, said.units)
        if changed is not None:
            text, lines = changed.rest, changed.spec.lines
            told.append(f"with {changed.told}")
            again_here = self.tools.mentions(said.book, text)
            mention = again_here[-1] if again_here else Mention(mention.spec, len(text), len(text))
            bare = re.sub(
                r"\b(?:in|of|for|the|our|a)\b|\W", "", f"{text[: mention.start]}{text[mention.end :]}", flags=re.I
            )
            if not bare:
                text = f"strength of {mention.spec.name}"
                mention = Mention(mention.spec, len("strength of "), len(text))
        question = self.asking.ask(text, mention, said.state, lines)
        if question is None:
            return None
        if changed is not None:
            told += self._before(self.asking.ask(text, mention, said.state), "as kept:")
        reason = self.refusals.reason(question.message.tokens)
        if reason:
            return said.declined(reason)
        told.insert(0, f"{mention.spec.name} as kept here, version {mention.spec.version}")
        if lines is not None and len(told) == 1:
            told.append("with the lines of the question before")
        if mention.mistyped:
            told.append(f"“{mention.mistyped}” is taken for {mention.spec.name}")
        reply, state = finish(said.text, question, said.state, told)
        if state.open is not None:
            state = state.but(open={**state.open, "text": ""})
        if reply.status == "asks" and reply.headline.startswith("What is the price of "):
            reply = replace(reply, headline=self._prices_of(question) or reply.headline)
        if reply.status == "asks" and (lacks := LACKS.search(reply.headline)):
            reply = replace(reply, headline=f"{reply.headline} {self._say_it(lacks, said)}".strip())
        top = next((x.thing for x in question.spec.lines if x.amount is None), "")
        if reply.status == "asks" and top:
            reply = replace(reply, headline=f"How much {top} goes on top?")
            waits = {"id": mention.spec.id, "said": f"{text[: mention.start]}@{text[mention.end :]}", "top": top}
            state = state.but(board={**(state.board or {}), "waits": waits})
        state = self._remembered(state, question, f"{text[: mention.start]}@{text[mention.end :]}", lines)
        return self._with_more(reply, state, question)

    def _say_it(self, lacks: re.Match[str], said: Said) -> str:
        """How what is not known of a line is said for good; nothing where the line is of no spec that is kept."""
        thing = lacks["thing"].casefold()
        for spec in said.book.specs:
            line = next((x for x in spec.lines if x.thing.casefold() == thing and x.amount), None)
            if line is not None:
                amount = amount_text(line.amount, self.kernel.units)
                strength = "20 % ABV" if lacks["what"] == "abv" else "2 brix and 0.5 % acid"
                told = f"change the {line.thing} in {spec.name} to {amount} at {strength}"
                return f"Say it in the spec, such as “{told}”."
        return ""

    def _prices_of(self, question: Question) -> str:
        """The question for prices that no spec of the book says, if there are any such."""
        best = question.decision.best
        lines = best.reading.request.spec if best else ()
        lacking = list(dict.fromkeys(x.thing for x in lines if "price" not in x.attributes and x.amount))
        lacking = [t for t in lacking if not t.endswith("made up to its yield")]
        if not lacking:
            return ""
        say = f"Say, for instance, “{lacking[0]} costs 28.00 for 700 ml”."
        return f"What is the price of {', of '.join(lacking)}? {say}"

    def _remembered(self, state: State, question: Question, said: str, lines: tuple[Line, ...] | None) -> State:
        """The state that knows which spec was asked about, and how."""
        best = question.decision.best
        assert best is not None
        things = [x.thing for x in best.reading.request.spec]
        kept = kept_about(question.spec, things, said, question.asked, lines)
        return state.but(board={**(state.board or {}), "about": kept})

    def _with_more(self, reply: Reply, state: State, question: Question) -> tuple[Reply, State]:
        """What goes into the specs within it, the siphon it is for, and what the next message may mean by it."""
        best = question.decision.best
        if reply.status != "answered" or best is None:
            return reply, state
        values = (*best.answer.answer, *best.answer.values)
        more = [*self._not_told(question), *self._nested(question.spec.lines, values, state)]
        if question.asked.siphon:
            wanted = f"how many chargers for {self._in_all(question)} of base in {question.asked.siphon}?"
            gas, _ = self.answer(wanted, State(state.settings))
            asks = "For the chargers: " if gas.status == "asks" else ""
            more += [asks + gas.headline, *(row for row in gas.body if row.startswith("Beware"))]
        reply = replace(reply, body=(*reply.body, *more))
        return with_rest(self.kernel, reply, state, question.spec) if question.asked.plain else (reply, state)

    def _not_told(self, question: Question) -> Iterator[str]:
        """What was asked for as well and is not told, and what that is for want of."""
        best = question.decision.best
        if best is None:
            return
        told = {v.name for v in best.answer.answer}
        for name in (n for n in NEITHER if n in question.asked.text and n not in told):
            answer = self.kernel.answer(replace(best.reading.request, wanted=(name,)))
            names = [n for s in answer.missing for n in s]
            if answer.status == "asks" and names:
                yield f"Not told: the {name}, for want of the {' and the '.join(names)}."

    def _in_all(self, question: Question) -> str:
        """How much is made, in words."""
        makes, units = question.spec.makes, self.kernel.units
        if question.asked.total or makes is None or makes.unit == "count":
            return question.asked.total or "that"
        said = self.tools.reader.take_apart(question.asked.serves).quantities
        return amount_text(replace(makes, value=makes.value * (said[0].value if said else 1)), units)

    def _before(self, question: Question | None, before: str) -> list[str]:
        """What the answer is on the lines before they were changed."""
        best = question.decision.best if question else None
        if best is None or best.answer.status != "answered":
            return []
        return [
            f"{before} "
            + ", ".join(
                f"{v.name.replace('_', ' ')} {phrasing.say(v, self.kernel, best.reading.request)}"
                for v in best.answer.answer[:3]
            )
        ]

    def _nested(self, lines: Sequence[Line], values: Sequence[Value], state: State) -> list[str]:
        """What goes into the specs within it, for an answer that gives so much of each line."""
        found: dict[str, tuple[float, Line]] = {}
        for value in values:
            line = next((x for x in lines if x.thing == value.name and x.amount and x.amount.base), None)
            if line is not None and line.amount is not None:
                found[line.thing] = (value.base / line.amount.base, line)
        return nested_lines(found, state, self.kernel)

    def further(self, reply: Reply, state: State) -> tuple[Reply, State]:
        """A follow-up's answer, with what goes into the specs within the one that it is about."""
        if reply.status != "answered" or not state.board or "about" not in state.board:
            return reply, state
        request = last_request(state, self.kernel)
        if request is None or about(state, self.kernel) is None:
            return reply, state
        result = {str(n): float(b) for n, b, _ in (state.last or {}).get("result", ())}
        made = {
            x.thing: (result[x.thing] / x.amount.base, x)
            for x in request.spec
            if x.thing in result and x.amount and x.amount.base
        }
        return replace(reply, body=(*reply.body, *nested_lines(made, state, self.kernel))), state

    def _what_if(self, said: Said) -> Heard:
        """The last question that stood on lines, whoever's they were, on others."""
        if not (ASKS_WHAT_IF.match(said.text) or LESS.search(said.text)):
            return None
        request = last_request(said.state, self.kernel)
        if request is None:
            return None
        base = KeptSpec(0, "it", request.spec)
        changed = other(said.text, base, self.tools.lines, said.units)
        if changed is None or changed.rest:
            return None
        solved = again(request, changed.spec, self.kernel)
        if solved is None or solved[1].status != "answered":
            return None
        new, answer = solved
        before = self.kernel.answer(request)
        was = ", ".join(phrasing.say(v, self.kernel, request) for v in before.answer[:3])
        money = str((said.state.last or {}).get("money", ""))
        reply = phrasing.answered(
            self.kernel, said.text, new, answer, (), [f"with {changed.told}; it was {was}"], money, said.state.settings
        )
        last = {**remember(new, answer, tuple(new.given), self.kernel.units), "money": money}
        return reply, said.state.but(last=last, open=None)


__all__ = ["Board"]
