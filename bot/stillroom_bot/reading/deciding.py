"""From the ways to read a message to one of three things: a number, a question back, or a refusal.

Readings are solved before they are compared, for what counts is not how differently they read
the words but whether they would give different answers.  ``MARGIN`` is how far apart, in score, two
readings with different answers must lie for the better one to be given without asking; ``PREFERENCE`` how far
behind the best a reading may lie whose calculator the operator prefers.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from itertools import islice

from stillroom import Answer, Kernel
from stillroom.errors import StillroomError
from stillroom.units import Units

from .candidate import VOLUME, Candidate
from .doubting import DECLINED, claims, doubts, in_unit_asked
from .loosely import MARGIN as LOOSE
from .loosely import loosely, moved
from .message import Message
from .of_another import unlike_its_name, weighs_another
from .reader import FAR, MANY_NUMBERS, Reader, Reading
from .turned_ratio import in_order_asked
from .viewer import BestFirst

MARGIN = 0.42
CONSOLATION = 1.85
MOST_SOLVED, FEW_SOLVED = 9, 3
LEAST, LEAST_ASKED = 1.3, 0.4
PREFERENCE = FAR
LEVEL = 0.01
HEARD = 1.2
"""How far behind a reading that nobody asked for one may lie that was asked for, and still be a rival."""
BONUS = {"answered": 0.0, "asks": -1.5, "declined": DECLINED}
UNLIKELY = -1.5
"""What a reading loses whose values nobody would mean."""
SMALL_QUESTION = 0.35
EMPTY, ANOTHER, NOTHING = 4.0, 5.5, 1e-9
"""What a reading loses that says nothing; that weighs another thing than the one that is asked about."""
WEAK, CONTRADICTED, DENIED = 0.0, 0.5, 2.5
ADDS_UP, CLAIMED = 1.0, 2.0
"""How far behind a reading that contradicts itself another job may lie, and still be what was meant."""


@dataclass(slots=True)
class Outcome:
    """A reading and what came of it; ``score`` counts whether it could be answered.

    ``message`` is what was read, where that is more than the last message (with the question before it).
    """

    reading: Reading
    answer: Answer
    score: float
    message: Message | None = None

    @property
    def signature(self) -> tuple[object, ...]:
        """What makes two outcomes the same to the person who asked."""
        a = self.answer
        if self.reading.asks:
            return ("ask", self.reading.asks[0][0])
        if a.status == "answered":
            return ("number", *sorted(f"{v.base:.5g}" for v in a.answer))
        return (a.status,)


@dataclass(slots=True)
class Decision:
    """The outcome to give (None: nothing fits), and the ones to choose from if it must be asked.

    ``doubts`` are reasons not to trust the best reading: amounts that it leaves out, a number that
    fills a variable against the words around it, too little evidence in all.
    """

    best: Outcome | None
    rivals: list[Outcome] = field(default_factory=list)
    outcomes: list[Outcome] = field(default_factory=list)
    doubts: list[str] = field(default_factory=list)


def solve(kernel: Kernel, reading: Reading) -> Answer:
    """The answer to a reading's request; a request that cannot be is a declined answer."""
    try:
        return kernel.answer(reading.request)
    except StillroomError as e:
        return Answer("declined", reading.request.calculator, reason=str(e))


def _narrowed(kernel: Kernel, reading: Reading) -> Answer:
    """The answer; where several things are wanted and not all can be had, the first that can."""
    answer = solve(kernel, reading)
    names = reading.request.wanted
    if answer.status == "asks" and len(names) > 1:
        for name in names:
            reading.request = replace(reading.request, wanted=(name,))
            fewer = solve(kernel, reading)
            taken = {v.name for v in fewer.values if v.origin == "assumed"}
            if fewer.status == "answered" and name not in taken and not _empty(fewer, reading):
                return fewer
        reading.request = replace(reading.request, wanted=names)
    return answer


def _empty(answer: Answer, reading: Reading) -> bool:
    """Does an answer say nothing: naught, or a given amount back again in another's name?"""
    if answer.status != "answered" or len(answer.answer) != 1:
        return False
    first = answer.answer[0]
    if (reading.request.given or reading.request.spec or first.unit == "count") and any(
        v.name == first.name and v.origin == "assumed" for v in answer.values
    ):
        return True
    given = reading.request.given
    shown = reading.candidate.model.variables.get(first.name)
    if not given and shown is not None and shown.shy and shown.default is not None:
        return True
    return abs(first.base) < NOTHING or (
        len(given) > 1
        and any(
            abs(a.base - first.base) < 1e-9 * abs(first.base) and reading.candidate.model.unit[n].dimension == VOLUME
            for n, a in given.items()
        )
    )


def _unchanged(answer: Answer, reading: Reading) -> bool:
    """Does a conversion give back the very amount that it was given (60 g is 60 g)?"""
    given = {(a.unit, round(a.value, 9)) for a in reading.request.given.values()}
    return answer.status == "answered" and any((v.unit, round(v.value, 9)) in given for v in answer.answer)


def worth(answer: Answer) -> float:
    """What an answer's status adds to its reading's score: the more would have to be asked, the less."""
    score = UNLIKELY if answer.unlikely else BONUS[answer.status]
    if answer.status == "asks":
        score -= SMALL_QUESTION * min((len(s) for s in answer.missing), default=4) - (0.3 if answer.choices else 0.0)
    return score


def outcomes_of(
    kernel: Kernel,
    reader: Reader,
    message: Message,
    candidates: BestFirst,
    units: Units,
    sizes: Mapping[str, float],
    system: Mapping[str, str],
    now: str | None = None,
    within: float = FAR,
) -> list[Outcome]:
    """The best readings, solved, best first.

    One that is further than ``within`` behind what has an answer already is not solved: it can be neither
    the best nor a rival.
    """
    outcomes: list[Outcome] = []
    best: Candidate | None = None
    sure = candidates.least
    most = MOST_SOLVED if len(message.quantities) <= MANY_NUMBERS else FEW_SOLVED
    for c in islice(candidates, most * 3):
        if len(outcomes) >= most:
            break
        if c.score < sure and best is not None and not moved(best, c):
            continue
        reading = reader.reading(c, message, units, sizes, system, now)
        answer = in_order_asked(_narrowed(kernel, reading), c, reader.profile(c.model.id), message)
        empty = _empty(answer, reading) or (c.model.id in reader.pairs and _unchanged(answer, reading))
        score = c.score + worth(answer) - (0.3 if reading.asks else 0.0) - (EMPTY if empty else 0.0)
        score -= ANOTHER * (answer.status == "answered" and weighs_another(c, message))
        outcome = Outcome(reading, answer, score)
        if answer.status == "answered" and unlike_its_name(outcome, message):
            outcome.score = score = score - DENIED
        outcomes.append(outcome)
        if answer.status == "answered":
            heard = c.parts.get("asked", 0.0) >= 0
            behind = within if heard else max(within, HEARD)
            sure = max(sure, score - behind)
            candidates.least = max(candidates.least, score - (max(behind, LOOSE) if loosely(c) else behind))
            best = best or c
    outcomes.sort(key=lambda o: -o.score)
    return outcomes


def choose(
    outcomes: list[Outcome], margin: float, message: Message, reader: Reader, follows: bool = False
) -> Decision:
    """The outcome to give, and those that it would have to be asked apart from.

    ``follows`` says that the message follows another, whose job it may go on with without saying what it asks.
    """
    _no_consolation(outcomes)
    _no_contradiction(outcomes)
    outcomes = sorted(outcomes, key=lambda o: -o.score)
    if not outcomes or (outcomes[0].score < LEAST and not _worth_asking(outcomes[0])):
        return Decision(None, outcomes=outcomes)
    best = _claimed(outcomes, message) or _preferred(outcomes, reader.kernel)
    rivals: list[Outcome] = []
    for o in outcomes:
        if o is best or _over(reader.kernel, best, o):
            continue
        heard = not follows and o.answer.status == "answered" and (_asked_for(o, best) or _tells_more(o, best, message))
        if o.score < best.score - (HEARD if heard else margin):
            continue
        if set(o.signature) < set(best.signature) and o.reading.candidate.uses == best.reading.candidate.uses:
            continue
        if o.answer.status == "asks" or best.answer.status != "answered" or _leaves_more(o, best, message):
            continue
        if o.answer.status == "declined" and _asks_less(o, best):
            continue
        if _level(o, best) or (in_unit_asked(best, message, reader) and not in_unit_asked(o, message, reader)):
            continue
        if o.signature != best.signature and all(o.signature != r.signature for r in rivals):
            rivals.append(o)
    answered = best.answer.status == "answered"
    against = doubts(best, outcomes, best.message or message, reader, follows) if answered else []
    return Decision(best, rivals, outcomes, against)


def _claimed(outcomes: list[Outcome], message: Message) -> Outcome | None:
    """``20 g of sugar in 80 g of water makes 30 %, right?``: of all that is told, what does not add up."""
    if not claims(message):
        return None
    near = (o for o in outcomes if o.score > outcomes[0].score - CLAIMED and not o.reading.candidate.unused)
    return next((o for o in near if o.answer.status == "declined" and "add up" in o.answer.reason), None)


def _worth_asking(o: Outcome) -> bool:
    """``chargers for my siphon?``: little is said, and all of it is about the one job."""
    parts = o.reading.candidate.parts
    return (
        o.answer.status == "asks"
        and o.score >= LEAST_ASKED
        and parts.get("unread", 0.0) > -LEVEL
        and parts.get("asked", 0.0) >= 1.0
        and parts.get("subject", 0.0) >= 1.0
    )


def _asks_less(o: Outcome, best: Outcome) -> bool:
    """That a job cannot be done is no rival where another does what was asked in so many words."""
    return o.reading.candidate.parts.get("asked", 0.0) < best.reading.candidate.parts.get("asked", 0.0) - 1.0


def _level(o: Outcome, best: Outcome) -> bool:
    """Do two readings give the same thing, but for the last figure of their tables: all that they tell, or the one
    line of a spec that both were asked for?"""
    a, b = o.answer.answer, best.answer.answer
    if len(best.reading.request.wanted) == 1 and o.reading.request.wanted == best.reading.request.wanted:
        a, b = (a[:1], b[:1]) if best.reading.candidate.lines == o.reading.candidate.lines != () else (a, b)
    return len(a) == len(b) > 0 and all(
        x.unit == y.unit and abs(x.base - y.base) <= LEVEL * abs(y.base) for x, y in zip(a, b, strict=True)
    )


def _asked_for(o: Outcome, best: Outcome) -> bool:
    """Does a reading answer what was asked, and use as much of it, where the best one answers what was not?"""
    a, b = o.reading.candidate, best.reading.candidate
    unheard = b.parts.get("asked", 0.0) < 0
    return unheard and a.parts.get("asked", 0.0) > b.parts.get("asked", 0.0) + 1.0 and len(a.unused) <= len(b.unused)


def _tells_more(o: Outcome, best: Outcome, message: Message) -> bool:
    """Does a reading use a count that the best one leaves over, and every number that the best one uses?"""
    a, b = o.reading.candidate, best.reading.candidate
    more = set(b.unused) - set(a.unused)
    counts = [q for k, q in enumerate(message.quantities) if k in more and q.bare and not (q.weak or q.noise)]
    return bool(counts) and set(a.unused) < set(b.unused)


def _leaves_more(o: Outcome, best: Outcome, message: Message) -> bool:
    """Does a reading leave an amount of a named thing over, where the best one has a line for everything?"""
    a, b = o.reading.candidate, best.reading.candidate
    left = set(a.unused) - set(b.unused)
    lines = left & set(b.lines) if set(b.unused) <= set(a.unused) else set()
    return any(message.nouns[k] is not None and message.quantities[k].units for k in lines)


def _over(kernel: Kernel, one: Outcome, other: Outcome) -> bool:
    return kernel.policy.over(one.reading.request.calculator, other.reading.request.calculator)


def _preferred(outcomes: list[Outcome], kernel: Kernel) -> Outcome:
    """The best outcome; or one not far behind it, as complete, whose calculator the operator prefers to the best's."""
    best = outcomes[0]
    for o in outcomes[1:] if kernel.policy.prefer else ():
        near = o.score >= best.score - PREFERENCE and len(o.reading.candidate.unused) <= len(
            best.reading.candidate.unused
        )
        if near and o.answer.status == best.answer.status and _over(kernel, o, best):
            best = o
    return best


def _no_contradiction(outcomes: list[Outcome]) -> None:
    """A number that contradicts the others, and that no word puts where it was put, is hardly meant there."""
    for o in outcomes:
        c = o.reading.candidate
        if o.answer.status == "declined" and "add up" in o.answer.reason:
            for p in outcomes:
                near = p.answer.status == "answered" and p.score > o.score - ADDS_UP
                asked = p.reading.candidate.model is not c.model or p.reading.candidate.parts.get("asked", 0.0) > 0
                if near and asked and _as_much(p.reading.candidate, c):
                    o.score = min(o.score, p.score - CONTRADICTED)
        uses = {(u.quantity, u.variable): u.score for u in o.reading.candidate.uses}
        if o.answer.status != "declined" or "add up" not in o.answer.reason:
            continue
        for p in outcomes:
            fewer = {(u.quantity, u.variable) for u in p.reading.candidate.uses}
            if p.answer.status == "answered" and p.reading.candidate.model is o.reading.candidate.model and (
                fewer < set(uses) and all(score < WEAK for use, score in uses.items() if use not in fewer)
            ):
                o.score = min(o.score, p.score - CONTRADICTED)


def _as_much(c: Candidate, o: Candidate) -> bool:
    """Does a candidate use as many numbers, and answer what is asked as clearly, as another one?"""
    return len(c.unused) <= len(o.unused) and c.parts.get("asked", 0.0) >= o.parts.get("asked", 0.0) - LEVEL


def _no_consolation(outcomes: list[Outcome]) -> None:
    """That what is asked cannot be found is no reason to answer what was asked less clearly."""
    for o in outcomes:
        c = o.reading.candidate
        if o.answer.status == "answered" and any(
            p.answer.status == "asks"
            and p.reading.candidate.model is c.model
            and p.reading.candidate.uses == c.uses
            and p.reading.candidate.parts.get("asked", 0.0) > c.parts.get("asked", 0.0) + 0.5
            for p in outcomes
        ):
            o.score -= CONSOLATION
