"""What speaks against a reading that could be answered: a number left out, a relation, little said for it.

A doubt makes of a number a question back.  It stands only where it may matter: where another use of
a number would give another answer, or where what was left out would have changed it.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from stillroom.errors import StillroomError

from .again import points_back
from .candidate import MASS, VOLUME, Candidate
from .fitting import fits, priced
from .loosely import put_otherwise
from .measures import measure
from .message import Message
from .neighbours import QUESTION
from .of_another import of_another
from .overlooked import AT, overlooked
from .placing import whole_told
from .quantity import MONEY_ASKED, Quantity
from .reader import CONTENT, Reader

if TYPE_CHECKING:
    from .deciding import Outcome

DECLINED = -0.5
LEAST_EACH, PARTLY_EACH = 1.3, 2.3
THIN_MARGIN = 1.0
UNREAD = -0.3
REACHED, NEEDED = 0.5, 0.8
LEAST_EVIDENCE = 0.6
TURNED, TOLD = 0.01, 8
ALMOST = 0.42
STRANGE_EACH, NAMED = 1.7, 2.0
CLAIMING = frozenset("yes right correct confirm true innit agreed".split())
RELATING = frozenset("times x more less".split())
PARTS = frozenset("of half third quarter fifth tenth".split())
ALCOHOL, GAS = frozenset({"abv", "proof"}), frozenset({"co2_volume", "volumes_of_gas"})
LOST, CLEARLY_LOST = "lost", 0.8
KEEPING = frozenset("keep keeps lasts holds".split())
USING = frozenset({"use", "using", "put"})


def doubts(
    best: Outcome, outcomes: list[Outcome], message: Message, reader: Reader, follows: bool = False
) -> list[str]:
    """What speaks against trusting a reading that could be answered: the numbers it leaves out, or an empty name.

    A reading for which little speaks needs a wider margin over those that give another number.
    """
    c = best.reading.candidate
    again = c.model.id in reader.same and in_unit_asked(best, message, reader) and bool(message.asked.units)
    if again and message.once(points_back) and reader.says_again_only(message):
        return []
    found = []
    for k in c.unused:
        q = message.quantities[k] if k < len(message.quantities) else None
        if q is None or q.noise or q.rejected or q.carried or (
            q.aside and (not c.lines or message.once(whole_told))
        ):
            continue
        slight = (q.weak or q.implied) and not (q.units and message.nouns[k])
        if slight and not (_a_part_of_one_used(q, c, message) or _under_one_used(q, c, message, reader)):
            continue
        if follows and _used_already(q, c, message):
            continue
        if _missed(k, q, c, message, reader):
            found.append(message.words(q.first, q.last))
    found += [message.words(q.first, q.last) for q in message.quantities if _elliptic(message, q)]
    found += [message.words(i, i) for i in _unsized_asked(message, reader) if i not in c.covered]
    found += [message.words(q.first, q.last) for q in _idle(best, message, reader)]
    found += overlooked(best, message, reader)
    found += [""] * (not in_unit_asked(best, message, reader))
    found += [""] * put_otherwise(best, outcomes)
    found += [""] * _asked_of_another(best, outcomes)
    found += [""] * (_strange(best) or of_another(best, message, reader, follows))
    found += [""] * (c.model.id in reader.pairs and _to_itself(best))
    found += [""] * (_turned(best, outcomes) or claims(message) or (c.told and "much" in message.asked.how))
    thin = bool(c.uses) and not again and best.score < LEAST_EACH * (1 + len(c.uses) + len(c.lines))
    alone = not (again or c.lines or follows)
    partial = alone and best.score < PARTLY_EACH * (1 + len(c.uses)) and _passed_over(c, message)
    if thin or partial:
        unexplained = thin and c.parts.get("asked", 0.0) < 0 and c.parts.get("unread", 0.0) < UNREAD
        if unexplained or any(
            o.score >= best.score - THIN_MARGIN
            and o.answer.status == "answered"
            and not o.reading.asks
            and o.signature != best.signature
            for o in outcomes
        ) or (thin and any(_loose(message.quantities[k], message) for k in c.unused if k < len(message.quantities))):
            found.append("")
    return found


def _used_already(q: Quantity, c: Candidate, message: Message) -> bool:
    """Is a number only said again beside one that is used: the question, told twice, with its answer?"""
    used = (message.quantities[u.quantity] for u in c.uses if u.quantity < len(message.quantities))
    return bool(q.units or q.ratio) and any(
        o is not q and (o.value, o.units, o.ratio, o.per) == (q.value, q.units, q.ratio, q.per) for o in used
    )


def _passed_over(c: Candidate, message: Message) -> bool:
    """Does a reading leave out a word that means something to another job?"""
    content = set(message.content)
    return any(
        (x.entry.meanings or x.entry.substances) and x.first in content
        and c.covered.isdisjoint(range(x.first, x.last + 1))
        for x in message.matches
    )


def _idle(best: Outcome, message: Message, reader: Reader) -> list[Quantity]:
    """Numbers put to a use that the words do not name and the answer does not need: what they are for is not known."""
    request, model, found = best.reading.request, best.reading.candidate.model, []
    for u in (u for u in best.reading.candidate.uses if u.quantity < len(message.quantities)):
        q = message.quantities[u.quantity]
        plain = q.units[:1] == ("percent",) or q.per is not None
        lost = model.variables[u.variable].role == LOST
        named = not lost and (u.evidence >= LEAST_EVIDENCE or model.variables[u.variable].default is not None)
        strength = model.unit[u.variable].name == "abv" and q.first and message.tokens[q.first - 1].text in AT
        idle = (plain or lost) and not (named or strength)
        if not idle or u.variable not in request.given or len(request.given) < 2:
            continue
        fewer = replace(request, given={n: a for n, a in request.given.items() if n != u.variable})
        try:
            answer = reader.kernel.answer(fewer)
        except StillroomError:
            continue
        same = answer.status == "answered" and [v.base for v in answer.answer] == [v.base for v in best.answer.answer]
        if same and all(v.name != u.variable for v in answer.values):
            found.append(q)
    return found


def _strange(best: Outcome) -> bool:
    """Is something else asked for than the job knows, and little said for the job?"""
    c = best.reading.candidate
    return c.strange and not c.lines and best.score < STRANGE_EACH * (1 + len(c.uses)) and c.parts["asked"] < NAMED


def _asked_of_another(best: Outcome, outcomes: list[Outcome]) -> bool:
    """``acid for 3 l of mango juice, how much?``: does another job know what is asked, where this one does not?"""
    c = best.reading.candidate
    return c.strange and c.parts.get("asked", 0.0) < 0 and not c.lines and any(
        o.answer.status == "asks"
        and o.reading.candidate.parts.get("asked", 0.0) >= NAMED
        and o.score >= best.score - ALMOST
        for o in outcomes
    )


def _to_itself(best: Outcome) -> bool:
    """Is an amount given back as it was, as the amount of the same unit (40 oz is 40 oz)?"""
    given = [(a.unit, round(a.value, 9)) for a in best.reading.request.given.values()]
    return len(given) == 1 and bool(best.answer.answer) and all(
        (v.unit, round(v.value, 9)) in given for v in best.answer.answer
    )


def in_unit_asked(o: Outcome, message: Message, reader: Reader) -> bool:
    """Is any of the answer a percent, if nothing but a percent is asked for (``waste as a percentage?``), and is it
    more than a strength, if a volume is asked for (``drops for 0.1 g of salt?``)?"""
    units = reader.kernel.units
    asked = message.asked.units
    told = [units[v.unit] for v in o.answer.answer if v.unit in units or " / " in v.unit]
    percent = bool(asked) and all("percent" in spelled for spelled in asked)
    if not told or not asked:
        return True
    if percent:
        return any(measure(u)[0] == "%" for u in told)
    poured = all(u in units and units[u].dimension == VOLUME for spelled in asked for u in spelled)
    return not poured or any(measure(u)[0] != "%" and u.dimension != CONTENT for u in told)


def _turned(best: Outcome, outcomes: list[Outcome]) -> bool:
    """Is the best reading one that cannot be, with its numbers exchanged: ``500 ml at 38 % + water to 43 %``?"""
    c = best.reading.candidate
    numbers = {u.quantity for u in c.uses}
    variables = {u.variable for u in c.uses}
    starts = {limit.reason[:TOLD] for limit in c.model.calculator.limits if limit.action == "refuse"}
    return any(
        o.answer.status == "declined"
        and o.answer.reason[:TOLD] in starts
        and o.reading.candidate.model is c.model
        and o.reading.candidate.rows == c.rows
        and o.score - DECLINED >= best.score - TURNED
        and {u.quantity for u in o.reading.candidate.uses} == numbers
        and {u.variable for u in o.reading.candidate.uses} == variables
        for o in outcomes
    )


def claims(message: Message) -> bool:
    """``400 g of sugar and 600 g of water, that's a 50 brix syrup, yes?``: told, not asked."""
    words = [t.text for t in message.tokens if t.kind == "word"]
    return bool(words) and words[-1] in CLAIMING and not message.asked.how and QUESTION.isdisjoint(words)


def _unsized_asked(message: Message, reader: Reader) -> list[int]:
    """``how many jiggers``: where a measure without a size is what is asked in."""
    t = message.tokens
    return [
        i
        for i in range(2, len(t))
        if t[i - 1].text == "many" and t[i - 2].text == "how" and reader.lexicon.unsized_at(t, i)
    ]


def _loose(q: Quantity, message: Message) -> bool:
    """Might a number that is left out be for something: not a sum of money where none is asked for?"""
    beside = _money(q, message) and not _money_asked(message)
    return not (q.weak or q.noise or q.implied or q.rejected or q.factor or beside)


def _money(q: Quantity, message: Message) -> bool:
    return bool(q.money) or q.units == ("currency",) or (q.bare and priced(q, message))


def _money_asked(message: Message) -> bool:
    zones = (*message.asked.zones, *message.asked.rest)
    return any(message.tokens[i].stem in MONEY_ASKED for a, b in zones for i in range(a, b + 1))


def _missed(k: int, q: Quantity, c: Candidate, message: Message, reader: Reader) -> bool:
    """Should a number that was left out have been used?

    One with a unit, where the job has room for it; a relation (``half of the peel``, ``1.2 x``); what is
    reached (``and I need 58``); a number of something that the job knows by name (``25 serves``).
    """
    if q.ratio is not None or _dose(q, reader):
        return bool(c.uses)
    if _money(q, message):
        return _how_much_is(message, q) or _money_asked(message)
    if set(q.units) & GAS or (set(q.units) & ALCOHOL and message.nouns[k] is None):
        return True
    if _a_part_of_one_used(q, c, message) or _under_one_used(q, c, message, reader):
        return True
    if q.units == ("percent",) and message.nouns[k] is None and reader.profile(c.model.id).counts_money:
        return True
    if q.units:
        lost = q.units[:1] == ("percent",) and message.cues[k].get(LOST, 0.0) >= CLEARLY_LOST
        return bool(c.lines) or lost or _kept(q, message) or _would_fit(q, c, message, reader)
    if not q.bare:
        return False
    if any((n := message.nouns[line]) is not None and n[1] == q.first - 1 for line in c.lines):
        return True
    after = message.tokens[q.last + 1].text if q.last + 1 < len(message.tokens) else ""
    if q.factor or after in RELATING or (q.value < 1 and (after == "of" or message.tokens[q.last].text in PARTS)):
        return True
    if _measured_elsewhere(q, c, message, reader):
        return True
    cues = message.cues[k]
    if cues.get("per", 0.0) > 1.0:
        return True
    if message.nouns[k] is None and (cues.get("to", 0.0) >= REACHED or cues.get("need", 0.0) >= NEEDED):
        return True
    slots = reader.profile(c.model.id).slots
    noun = message.nouns[k]
    if noun is not None and any(x.owned and x.match.entry.substances and x.match.first == noun[0]
                                for x in message.near[k]):
        return True
    return noun is not None and any(
        x.owned and x.match.first <= noun[1] and (meaning := x.match.entry.meanings.get(c.model.id)) is not None
        and any(slots[v].unit.kind == "count" for v in meaning.variables if v in slots)
        for x in message.near[k]
    )


def _kept(q: Quantity, message: Message) -> bool:
    """``keeps 3 days``: how long a thing is good for."""
    before = [t.text for t in message.tokens[max(0, q.first - 2) : q.first]]
    return before[-1:] != [] and (before[-1] in KEEPING or before == ["good", "for"])


def _how_much_is(message: Message, q: Quantity) -> bool:
    """``how much is a pour of a £22 bottle?``: a price is asked for where one is told as such."""
    words = [t.text for t in message.tokens]
    asked = any(words[i : i + 2] == ["how", "much"] and words[i + 2 : i + 3] == ["is"] for i in range(len(words)))
    return bool(q.money) and asked and not message.asked.units


def _dose(q: Quantity, reader: Reader) -> bool:
    """``3 g for each 50 ml``: so much of one thing to so much of another."""
    units = reader.kernel.units
    return q.per is not None and all(units[u].dimension in (MASS, VOLUME) for u in (*q.units[:1], q.per[0]))


def _a_part_of_one_used(q: Quantity, c: Candidate, message: Message) -> bool:
    """``1 % of 90 ml``: a share of an amount that is used, and used whole."""
    of = [t.text for t in message.tokens[q.last + 1 : q.last + 2]] == ["of"]
    used = (message.quantities[u.quantity] for u in c.uses if u.quantity < len(message.quantities))
    return q.units[:1] == ("percent",) and of and any(o.first == q.last + 2 for o in used)


def _under_one_used(q: Quantity, c: Candidate, message: Message, reader: Reader) -> bool:
    """``two pods a litre``: is a measure left out of which a plain number that is used is told?"""
    nouns = (message.nouns[u.quantity] for u in c.uses if u.quantity < len(message.nouns))
    amount = q.implied and any(reader.kernel.units[u].dimension in (MASS, VOLUME) for u in q.units)
    return amount and any(n is not None and n[1] == q.first - 1 for n in nouns)


def _measured_elsewhere(q: Quantity, c: Candidate, message: Message, reader: Reader) -> bool:
    """``at pH 3``: a number of a plain measure that another job knows by the word before it, and this one does not."""
    models = reader.kernel.models
    return any(
        models[id].unit[v].name == "dimensionless"
        for x in message.matches
        if x.last == q.first - 1 and x.last not in c.covered and not x.entry.substances
        for id, meaning in x.entry.meanings.items()
        for v in meaning.variables
    )


def _would_fit(q: Quantity, c: Candidate, message: Message, reader: Reader) -> bool:
    """Is there a variable in the job that the number could have filled?"""
    units = reader.kernel.units
    return any(True for slot in reader.profile(c.model.id).slots.values() for _ in fits(q, slot, units, message, {}))


def _elliptic(message: Message, q: Quantity) -> bool:
    """``how many chargers if I use 3?``: a number of the very thing that is asked for."""
    if not q.bare or q.weak or q.noise or "many" not in message.asked.how or q.first == 0:
        return False
    after = message.tokens[q.last + 1 : q.last + 2]
    return message.tokens[q.first - 1].text in USING and (not after or after[0].kind != "word")
