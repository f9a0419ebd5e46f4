"""One conversation for every front end: a text and a state in, a reply and a state out."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

from stillroom import Kernel, Request
from stillroom.units import Units

from . import intents, phrasing
from .board.asking import Question
from .board.board import Board
from .carrying import keeps
from .choosing import pick
from .context import Context, recall, remember, settle_own
from .followup import Follower
from .manners import gossip, only_greets, small_talk, without_greeting
from .reading.candidate import Candidate
from .reading.deciding import HEARD, MARGIN, Decision, Outcome, choose, outcomes_of
from .reading.message import Message
from .reading.ranking import rank
from .reading.reader import FAR, FLOOR, NO_FLOOR, Reader
from .reading.said import counts_vessels
from .refusing import refusals_of
from .reminders.offering import with_offer
from .reply import Reply
from .settings import PLAIN, SettingsReader, Settled, sizes_of, system_of
from .shortly import row_said, vessel_said
from .state import State

LONGEST = 4096
TOLD_APART = 0.6
"""How far apart readings of a question with its answer must lie, where the answer alone would do for two things."""
FOLLOWING = 0.83
"""How much narrower the margin is for what follows another question, whose job is known."""
EMPTY_HANDED = 1.0
"""``and orange instead?``: how much less another job is meant that brings no number, where the one before answers."""
TOLD = 2.6
"""How clearly a job must be asked for what it answers, so that no other is looked for."""
MINE = re.compile(r"\bmine\b", re.IGNORECASE)
"""``mine does 30 drops a ml``: a measure that is set by pointing at what was just asked, which is asked again."""
LOWEST = -1e9
CROWDED = "That is more than I can sort in one message; ask one thing at a time."
CONVENTION = "I answer questions about measures, doses and batches; this one I cannot read as such."



def _clock() -> datetime:
    return datetime.now(UTC)


class Conversation:
    """Reads, solves and phrases.  It keeps nothing between calls but what the kernel keeps.

    ``clock`` tells the time with its zone, for whatever has a date.
    """

    def __init__(self, kernel: Kernel, margin: float = MARGIN, clock: Callable[[], datetime] = _clock):
        self.kernel, self.margin, self.clock = kernel, margin, clock
        self.reader = Reader(kernel)
        self.follower = Follower(kernel, self.reader)
        self.refusals = refusals_of(kernel, self.reader)
        self.settings = SettingsReader(self.reader.lexicon, kernel.units, self.reader.speller)
        self.board = Board(kernel, self.reader, self.refusals, margin, clock, self.answer)

    def answer(self, text: str, state: State | None = None) -> tuple[Reply, State]:
        """The reply to a message, and what the chat remembers now.  Never raises for what a person wrote."""
        state = state or State()
        if len(text) > LONGEST:
            return phrasing.declined(
                text, f"That is longer than the {LONGEST} characters I read; ask in fewer words."
            ), state
        heard = self.board.hear(text, state)
        if heard is not None:
            return heard
        heard = intents.hear(intents.Talk(text, state, self.kernel, self.clock, self.answer))
        if heard is not None:
            return heard
        settled = self.settings.settle(without_greeting(text), state.settings)
        state = settle_own(state, settled.settings)
        if settled.notes and only_greets(settled.text):
            last = recall(state.last, self.kernel)
            sizes = sizes_of(settled.settings)
            if last is not None and MINE.search(text) and {u for _, _, u in last.result} & sizes.keys():
                anew = self.follower.again(last, sizes, system_of(settled.settings))
                return self._finish(text, None, Decision(anew), state, settled.notes)
            return phrasing.noted(text, "Noted: " + "; ".join(settled.notes) + "."), state
        picked = self._picked(settled.text, state)
        if picked is not None:
            return self._finish(text, None, Decision(picked), state, settled.notes)
        about = self.board.question(settled.text, state, self._finish_kept)
        if about is not None:
            return about
        state = self.board.apart(settled.text, state)
        message = self.reader.take_apart(settled.text, state.settings)
        if message.crowded:
            return phrasing.declined(text, CROWDED), state
        context = recall(state.open, self.kernel) or recall(state.last, self.kernel)
        if (settled.notes or settled.own) and context is not None and self.follower.same_asked(message, context):
            sizes, system = {**sizes_of(state.settings), **settled.own}, system_of(state.settings)
            return self._finish(
                text, message, Decision(self.follower.again(context, sizes, system)), state, settled.notes
            )
        if small_talk(message):
            if settled.notes:
                return phrasing.noted(text, "Noted: " + "; ".join(settled.notes) + "."), state
            return phrasing.noted(text, "You are welcome. Ask me for a measure, a dose or a batch."), state
        if gossip(message):
            return phrasing.declined(text, CONVENTION), state
        decision = self._decide(message, state, settled)
        reason = self.refusals.reason(message.tokens)
        if reason:
            kept = decision.best.reading.request if decision.best else None
            job = (
                remember(kept, decision.best.answer, tuple(kept.given), self.kernel.units)
                if kept and decision.best
                else state.last
            )
            return phrasing.declined(text, reason), state.but(last=job, open=None)
        return self.board.further(*self._finish(text, message, decision, state, [*settled.notes, *settled.remarks]))

    def _finish_kept(self, text: str, question: Question, state: State, notes: list[str]) -> tuple[Reply, State]:
        """The reply to a question about a kept spec."""
        return self._finish(text, question.message, question.decision, state, notes)

    def why(self, text: str, state: State | None = None) -> str:
        """How a message would be read, for whoever wants to know."""
        from .explaining import explain

        state = state or State()
        settled = self.settings.settle(text[:LONGEST], state.settings)
        state = state.but(settings=settled.settings)
        message = self.reader.take_apart(settled.text, state.settings)
        lines = [f"setting   {n}" for n in settled.notes]
        reason = self.refusals.reason(message.tokens)
        if reason:
            lines.append(f"refused   {reason}")
        return "\n".join([*lines, explain(message, self._decide(message, state, settled, FAR), self.margin)])

    def _decide(
        self, message: Message, state: State, settled: Settled | None = None, within: float | None = None
    ) -> Decision:
        chat, system = sizes_of(state.settings), system_of(state.settings)
        sizes = {**chat, **(settled.own if settled is not None else {})}
        units = self.kernel.units.adjusted(sizes)
        context = recall(state.open, self.kernel) or recall(state.last, self.kernel)
        read = message if context is None else self.follower.carry(message, context)
        everything = within is not None or bool(self.kernel.policy.prefer)
        everything = everything or (context is not None and self.follower.inherits(read, context))
        candidates = self.reader.candidates(read, units, NO_FLOOR if everything else FLOOR)
        fresh = outcomes_of(self.kernel, self.reader, read, candidates, units, sizes, system,
                            within=FAR if everything else self.margin)
        if context is None:
            return choose(fresh, self.margin, message, self.reader)
        fresh += list(self.follower.inherit(fresh, context, read))
        outcomes = self._following(message, context, state, settled, LOWEST if within is not None else _hopeless(fresh))
        if any(o.answer.status == "answered" for o in outcomes) and self.follower.goes_on(read):
            for o in fresh:
                o.score -= EMPTY_HANDED * (o.answer.status == "asks" and not o.reading.candidate.uses)
        return choose([*outcomes, *fresh], self.margin * FOLLOWING, read, self.reader, follows=True)

    def _following(
        self, message: Message, context: Context, state: State, settled: Settled | None, least: float
    ) -> list[Outcome]:
        """What a message makes of the job before; of what it changes in that, only what may score ``least``."""
        chat, system = sizes_of(state.settings), system_of(state.settings)
        own = settled.own if settled is not None else {}
        sizes, units = {**chat, **own}, self.kernel.units.adjusted({**chat, **own})
        noted = settled is not None and bool(settled.notes)
        if noted and any(a.unit in PLAIN for a in context.request.given.values()):
            context = replace(context, request=self.follower.again(context, sizes, system).reading.request)
        since = {**chat, **({} if noted else context.own), **own}
        before = str((state.open or {}).get("text", ""))
        least = LOWEST if before or context.request.spec else least
        adjusted = self.kernel.units.adjusted(since)
        outcomes = self.follower.outcomes(message, context, adjusted, since, system, least)
        if before and len(before) + len(message.text) < LONGEST and self._answers(message, outcomes, context):
            fills = [o for o in outcomes if o.answer.status == "answered" and self._fills(o, context)]
            job = context.request.calculator if fills else ""
            whole = self._together(before, message.text, state, units, sizes, system, job, TOLD_APART)
            outcomes += [] if _level(fills, self.margin) and _level(whole, TOLD_APART) else whole
        if counts_vessels(message):
            outcomes = [o for o in outcomes if not o.answer.answer or o.answer.answer[0].unit == "count"]
        told = any(self._told(o, message) or _renewed(o, context) for o in outcomes)
        if (spec := self.follower.spec_before(message, context)) and not told:
            outcomes += [
                o
                for o in self._together(spec, message.text, state, units, sizes, system)
                if len(o.reading.request.spec) == len(context.request.spec) and any(v.base for v in o.answer.answer)
                and (not message.quantities or keeps(o, context))
            ]
        return [replace(o, message=o.message or message) for o in outcomes]

    def _told(self, o: Outcome, message: Message) -> bool:
        """Does the job before answer what a message asks, every known word of it?"""
        c = o.reading.candidate
        known = {i for i in message.content if self.reader.lexicon.known(message.tokens[i].stem)}
        return o.answer.status == "answered" and c.parts.get("asked", 0.0) >= TOLD and known <= c.covered

    def _answers(self, message: Message, outcomes: list[Outcome], context: Context) -> bool:
        """May a message be read together with the question before it: does it say anything that a job could use (a
        number, or a word that means something to one), take nothing back (``shaken?`` after ``stirred``), and ask no
        new question (``how much rum will I have then?``)?"""
        chosen = context.request.choices
        if any(chosen.get(c, r) != r for o in outcomes for c, r in o.reading.candidate.rows.items()):
            return False
        settles = any(m.rows for x in message.matches for m in x.entry.meanings.values())
        if message.asked.how and not (message.quantities or settles):
            return False
        return bool(message.quantities) or any(m.entry.meanings or m.entry.substances for m in message.matches)

    def _fills(self, outcome: Outcome, context: Context) -> bool:
        """Is something given that was asked for?"""
        return any(u.variable in context.missing for u in outcome.reading.candidate.uses)

    def _together(
        self, before: str, text: str, state: State, units: Units, sizes: Mapping[str, float], system: Mapping[str, str],
        job: str = "", within: float = FAR,
    ) -> list[Outcome]:
        """The question that was asked back about and the answer to it, read as one message (by one ``job``, if that is
        given), as far as ``within`` behind the best; no reading of it leaves out a number of the answer."""
        before = before.rstrip(" ?.!")
        whole = self.reader.take_apart(f"{before}, {text}", state.settings)
        start = len(before)
        candidates = self.reader.candidates(
            whole, units, fits=lambda c: (not job or c.model.id == job) and not _left_out(c, whole, start))
        found = outcomes_of(self.kernel, self.reader, whole, candidates, units, sizes, system, within=within)
        return [replace(o, message=whole) for o in found if o.answer.status == "answered"]

    def _picked(self, text: str, state: State) -> Outcome | None:
        """A choice that was offered, typed or pressed; or a row or a vessel that is named and nothing else."""
        context = recall(state.open, self.kernel) or recall(state.last, self.kernel)
        if context is None:
            return None
        label = pick(text, tuple(context.choices)) if context.choices else None
        if label is not None:
            return self.follower.picked(Request.from_json(context.choices[label]))
        model = self.kernel.models[context.request.calculator]
        said = row_said(text, context, model) or vessel_said(text, context, model, self.kernel.units)
        return None if said is None else self.follower.picked(said)

    def _finish(
        self, text: str, message: Message | None, decision: Decision, state: State, notes: list[str]
    ) -> tuple[Reply, State]:
        best = decision.best
        vague = (
            next((q.unsized for q in message.quantities if q.unsized and not self.kernel.units[q.unsized].sized), "")
            if message
            else ""
        )
        if best is None and vague:
            what = vague.replace("_", " ")
            return phrasing.asks(
                text, None, f"How much is a {what}? Its size is not fixed: give me a weight or a volume.", [what]
            ), state
        if best is None:
            near = self._near(message) if message else []
            return phrasing.declined(text, CONVENTION, near=near), state.but(open=None)
        request, answer = best.reading.request, best.answer
        money = message.money if message else ""
        money = money or str((state.last or {}).get("money", ""))
        chat = sizes_of(state.settings)
        own = {u: size for u, size in request.sizes.items() if chat.get(u) != size}
        last = {**remember(request, answer, self._order(state, request), self.kernel.units), "money": money, "own": own}
        asked = message.text if message else ""
        so_far = phrasing.understood(self.kernel, request, answer, money)
        what, choices = best.reading.asks[0] if best.reading.asks else ("", ())
        if what and (choices or answer.status != "declined"):
            options = self._ways(best, what, choices)
            question = (
                f"Which is meant: {' or '.join(choices)}?"
                if choices
                else f"How much is a {what}? Its size is not fixed: give me a weight or a volume."
            )
            reply = phrasing.asks(text, request.calculator, question, [what], choices, understood=so_far)
            return reply, state.but(open={**last, "open": True, "choices": options, "missing": [what], "text": asked})
        if decision.doubts and answer.status == "answered":
            left_out = [d for d in decision.doubts if d]
            options = {self._choice(best): request.to_json()}
            question = (
                f"I am not sure what {' and '.join(left_out)} is for."
                if left_out
                else "I am not sure that I read this right."
            )
            reply = phrasing.asks(
                text, request.calculator, question, left_out or ["reading"], tuple(options), answer.cautions, so_far
            )
            return reply, state.but(open={**last, "open": True, "choices": options, "text": asked})
        if decision.rivals and answer.status == "answered":
            options = {self._choice(o): o.reading.request.to_json() for o in (best, *decision.rivals)[:4]}
            last |= _undisputed(request, [o.reading.request for o in decision.rivals[:3]])
            reply = phrasing.asks(
                text,
                request.calculator,
                "I can read that in more than one way.",
                ["reading"],
                tuple(options),
                understood="",
            )
            return reply, state.but(open={**last, "open": True, "choices": options, "text": asked})
        if answer.status == "answered":
            reply = phrasing.answered(
                self.kernel,
                text,
                request,
                answer,
                best.reading.ignored,
                [*notes, *best.reading.notes],
                money,
                state.settings,
            )
            return with_offer(self.kernel, reply, state.but(last=last, open=None))
        if answer.status == "asks":
            question, missing = phrasing.missing_text(self.kernel, request, answer)
            reply = phrasing.asks(text, request.calculator, question, missing, answer.choices, answer.cautions, so_far)
            missing_names = list(dict.fromkeys(n for s in answer.missing for n in s))
            return reply, state.but(open={**last, "open": True, "missing": missing_names, "text": asked})
        return phrasing.declined(text, answer.reason, request.calculator, cautions=answer.cautions), state.but(
            last=last, open=None
        )

    def _order(self, state: State, request: Request) -> tuple[str, ...]:
        before = [n for n in (state.last or {}).get("order", ()) if n in request.given]
        return (*before, *(n for n in request.given if n not in before))

    def _ways(self, best: Outcome, what: str, choices: tuple[str, ...]) -> dict[str, Any]:
        """Each way of a number or ratio that can be read two ways, as a request of its own."""
        request = best.reading.request
        ways: dict[str, Any] = {}
        for k, label in enumerate(choices):
            name = what if what in request.given else next(iter(request.given), None)
            if name is None:
                continue
            a = request.given[name]
            value = a.value
            if what == name and k == 1 and value:
                value = 1 / value
            elif what != name:
                value = float(label.split()[0])
            unit = self.kernel.units[a.unit]
            given = {**request.given, name: replace(a, value=value, base=unit.to_base(value), said=label)}
            ways[label] = replace(request, given=given).to_json()
        return ways

    def _choice(self, outcome: Outcome) -> str:
        r = outcome.reading.request
        model = self.kernel.models[r.calculator]
        parts = ", ".join(f"{model.variables[n].title} {a.said}".rstrip() for n, a in r.given.items())
        wanted = ", ".join(model.variables[w].title for w in r.wanted if w in model.variables)
        if not parts:
            return f"{wanted}: {model.calculator.title.lower()}" if wanted else model.calculator.title
        return f"{wanted or model.calculator.title}, with {parts}"

    def _near(self, message: Message) -> list[str]:
        ids = [id for _, id in rank(message, self.reader.lexicon, 3)] or list(self.kernel.models)[:3]
        return [m.calculator.examples[0][0] for id in ids if (m := self.kernel.models[id]).calculator.examples]


def _left_out(c: Candidate, message: Message, start: int) -> bool:
    """Does a reading leave out a number that stands after a place in the text?"""
    left = (message.quantities[k] for k in c.unused if k < len(message.quantities))
    return any(message.tokens[q.first].start > start and not (q.weak or q.noise or q.rejected) for q in left)


def _renewed(o: Outcome, context: Context) -> bool:
    """``what if I shake it instead?`` of what was stirred: is a choice that the job before has made, made anew?"""
    made = context.request.choices
    rows = o.reading.candidate.rows.items()
    return o.answer.status == "answered" and any(c in made and made[c] != r for c, r in rows)


def _undisputed(request: Request, rivals: list[Request]) -> dict[str, Any]:
    """Of readings between which it is asked: what all of them give, and what they differ in as missing."""
    same = [r for r in rivals if r.calculator == request.calculator]
    agreed = {n: a for n, a in request.given.items() if all(r.given.get(n) == a for r in same)}
    differ = dict.fromkeys(n for r in (request, *same) for n in r.given if n not in agreed)
    return {"request": replace(request, given=agreed).to_json(), "missing": list(differ)} if same else {}


def _hopeless(fresh: list[Outcome]) -> float:
    """What a reading of the job before must score to matter beside what the message says by itself."""
    return max((o.score for o in fresh if o.answer.status == "answered"), default=LOWEST) - HEARD


def _level(outcomes: list[Outcome], margin: float) -> bool:
    """Do other answers come close to the best one?"""
    best = max(outcomes, key=lambda o: o.score, default=None)
    return best is not None and any(
        o.score > best.score - margin and o.signature != best.signature for o in outcomes
    )
