"""One conversation for every front end: a text and a state in, a reply and a state out."""

from __future__ import annotations

from stillroom import Kernel

from . import phrasing
from .reading.deciding import Decision, decide
from .reading.message import Message
from .reading.reader import Reader
from .refusing import Refusals
from .reply import Reply
from .state import State

LONGEST = 4096


class Conversation:
    """Reads, solves and phrases.  It keeps nothing between calls but what the kernel keeps."""

    def __init__(self, kernel: Kernel):
        self.kernel = kernel
        self.reader = Reader(kernel)
        self.refusals = Refusals(kernel.refusals)

    def answer(self, text: str, state: State | None = None) -> tuple[Reply, State]:
        """The reply to a message, and what the chat remembers now.  Never raises for what a person wrote."""
        state = state or State()
        if len(text) > LONGEST:
            return phrasing.declined(text, f"That is longer than the {LONGEST} characters I read; ask in fewer words."), state
        message = self.reader.take_apart(text, state.settings)
        reason = self.refusals.reason(message.tokens)
        if reason:
            return phrasing.declined(text, reason), state
        decision = self._decide(message)
        return self._reply(text, message, decision), state

    def _decide(self, message: Message) -> Decision:
        units = self.kernel.units
        candidates = self.reader.candidates(message, units)
        return decide(self.kernel, self.reader, message, candidates, units, {}, {})

    def _reply(self, text: str, message: Message, decision: Decision) -> Reply:
        best = decision.best
        if best is None:
            return phrasing.declined(text, "I answer questions about measures, doses and batches; this one I cannot read as such.",
                                     near=self._near(message))
        request, answer = best.reading.request, best.answer
        money = next((q.money for q in message.quantities if q.money), "")
        if best.reading.asks and answer.status != "declined":
            what, choices = best.reading.asks[0]
            question = f"Which is meant: {' or '.join(choices)}?" if choices else f"How much is a {what}?"
            return phrasing.asks(text, request.calculator, question, [what], choices,
                                 understood=phrasing.understood(self.kernel, request, answer, money))
        if decision.rivals and answer.status == "answered":
            choices = [self._choice(o) for o in (best, *decision.rivals)][:4]
            return phrasing.asks(text, request.calculator, "I can read that in more than one way.", [], choices)
        if answer.status == "answered":
            return phrasing.answered(self.kernel, text, request, answer, best.reading.ignored, best.reading.notes, money)
        if answer.status == "asks":
            question, missing = phrasing.missing_text(self.kernel, request, answer)
            return phrasing.asks(text, request.calculator, question, missing, answer.choices, answer.cautions,
                                 phrasing.understood(self.kernel, request, answer, money))
        return phrasing.declined(text, answer.reason, request.calculator, cautions=answer.cautions)

    def _choice(self, outcome: object) -> str:
        from .reading.deciding import Outcome

        assert isinstance(outcome, Outcome)
        r = outcome.reading.request
        model = self.kernel.models[r.calculator]
        parts = ", ".join(f"{model.variables[n].title} {a.said}" for n, a in r.given.items())
        return f"{model.calculator.title}: {parts}"

    def _near(self, message: Message) -> list[str]:
        from .reading.candidate import rank

        ids = [id for _, id in rank(message, self.reader.lexicon, 3)] or list(self.kernel.models)[:3]
        return [m.calculator.examples[0][0] for id in ids if (m := self.kernel.models[id]).calculator.examples]
