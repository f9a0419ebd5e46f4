"""What a reading passes over that would change its answer: vessels and serves counted, a tare, what was asked."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from stillroom.units import NONE, PERCENTS, Units

from .candidate import MASS, VOLUME
from .each_of import SERVED
from .lexicon import Match
from .message import Message
from .quantity import PART, Quantity
from .reader import Reader

if TYPE_CHECKING:
    from .deciding import Outcome

COUNTED = frozenset("keg siphon bottle jug tub canister carboy tank cask barrel demijohn pitcher".split())
EVERYTHING = frozenset(
    "line ingredient amount quantity everything list spec recipe batch all shopping enough total".split()
)
TOGETHER = frozenset("altogether together combined total".split())
TARES, TARE_WITHIN = frozenset({"empty", "tare"}), 4
WEIGHED_ALONG = frozenset("bowl tub jar container bucket tray box pan pot".split())
ALONG = frozenset("with including incl minus plus".split())
SAME = 0.01
BOILING = frozenset("boil boiling boiled evaporate evaporated evaporating simmer simmered reduced".split())
EXCHANGE = "exchange rate"
WORKED = frozenset({"stirred", "shaken"})
POWDERS = frozenset({"gum", "powder"})
DRY = frozenset("undiluted before without no".split())
ICE, DILUTING = frozenset({"ice", "iced"}), frozenset({"dilution", "dilute", "diluted", "diluting"})
AT, NAMED = frozenset({"at", "@"}), 0.6
EACH, APIECE = 1.0, frozenset({"each", "apiece"})
WEIGHED, WHICH = frozenset({"weigh", "weight", "heavy"}), frozenset({"what", "which", "what's"})
WHOLE = "into"
MAY, RIGHT = frozenset("can could may cn cld".split()), frozenset("right alright ok okay fine safe allowed".split())
AMOUNTS, RATES = {MASS, VOLUME}, frozenset({"per", "each", "a"})
PUTTING = frozenset("put use load crack screw charge squeeze shoot".split())


def overlooked(best: Outcome, message: Message, reader: Reader) -> list[str]:
    """The words of a message that speak against its best reading because that reading leaves them out."""
    c = best.reading.candidate
    units = reader.kernel.units
    used = (message.quantities[u.quantity].times for u in c.uses if u.times != 1.0)
    counted = {times[0] for times in used if times is not None}
    found = [
        message.words(message.quantities[k].first, message.quantities[k].last)
        for k in c.unused
        if k < len(message.quantities)
        and k not in counted
        and (_vessels(message, k) or _over(message, k) or _apiece(best, message, k))
    ]
    tares = (message.quantities[k] for k in _tares(message, c.covered, units))
    found += [message.words(q.first, q.last) for q in tares]
    found += [message.words(q.first, q.last) for q in _strengths(best, message)]
    found += [message.words(q.first, q.last) for q in _of_another_currency(best, message)]
    found += _too_small(best, message, reader)
    found += [message.words(*zone) for zone in _unknown(best, message, reader)]
    found += [message.words(x.first, x.last) for x in _powders(message, c.covered)]
    found += [message.words(i, i) for i in _boiled(message, c.covered) if c.lines]
    found += [message.words(a, b) for a, b in _strength_of_a_line(best, message)]
    found += [message.words(q.first, q.last) for q in _against_its_row(best, message)]
    found += [""] * _put_in(best, message)
    strong = any(message.quantities[k].strength for k in c.unused if k < len(message.quantities))
    worked = (bool(c.lines) or strong) and _worked(message, c.covered, strong)
    found += [""] * (_naught(best) or leave_asked(message) or worked)
    return found + [""] * (_weighed(best, message) or _otherwise_measured(best, message, reader))


def leave_asked(message: Message) -> bool:
    """``can I put four in one of them?``: leave that is asked for is no value of a job, and no number answers it."""
    words = [t.text for t in message.tokens if t.kind == "word"]
    asked = words[:1] and words[0] in MAY and words[1:2] and words[1] in ("i", "we")
    allowed = any(
        words[i] in RIGHT and words[i + 1] == "to" and words[i + 2] not in ("the", "its", "that")
        for i in range(len(words) - 2)
    )
    return bool(asked or allowed) and not PUTTING.isdisjoint(words) and any(
        q.bare or message.nouns[k] for k, q in enumerate(message.quantities)
    )


def _powders(message: Message, covered: frozenset[int]) -> list[Match]:
    """``guar gum in hibiscus cordial``: a gum or a powder of which the job knows nothing."""
    told = {message.tokens[i].stem for i in message.noun_tokens}
    return [
        x
        for x in message.matches
        if x.entry.kinds & POWDERS
        and covered.isdisjoint(range(x.first, x.last + 1))
        and told.isdisjoint(x.entry.stems)
    ]


def _of_another_currency(best: Outcome, message: Message) -> list[Quantity]:
    """``the bottle was 20 euro, sold at 9 pounds``: two currencies, in a job that reckons in one."""
    c = best.reading.candidate
    used = (message.quantities[u.quantity] for u in c.uses if u.quantity < len(message.quantities))
    money = [q for q in used if q.money]
    if any(EXCHANGE in v.words for v in c.model.variables.values()):
        return []
    return [q for q in money if q.money != money[0].money]


def _strengths(best: Outcome, message: Message) -> list[Quantity]:
    """``120 ml cocktail at 26 %, water from the ice?``: what a drink is at is its strength, and no dilution."""
    c = best.reading.candidate
    if "abv" not in {unit.name for unit in c.model.unit.values()}:
        return []
    plain = (
        message.quantities[u.quantity]
        for u in c.uses
        if u.quantity < len(message.quantities)
        and (u.evidence < NAMED or _for_something(message, message.quantities[u.quantity]))
        and c.model.unit[u.variable].name == "percent"
    )
    words = {t.text for t in message.tokens}
    on_ice = bool(words & ICE) and not words & DILUTING
    return [
        q
        for q in plain
        if q.units == ("percent",) and (on_ice or (q.first and message.tokens[q.first - 1].text in AT))
    ]


def _for_something(message: Message, q: Quantity) -> bool:
    """``at 25 % for dilution``: what the number is for, and not what it is."""
    return [t.text for t in message.tokens[q.last + 1 : q.last + 2]] == ["for"]


def _put_in(best: Outcome, message: Message) -> bool:
    """``how much acid for 2 l of melon juice?``: what goes into it is asked for, when what it holds is found."""
    c, tokens = best.reading.candidate, message.tokens
    held = [v for v in c.wanted if v in c.model.variables and c.model.variables[v].role == "of"]
    used = (message.quantities[u.quantity] for u in c.uses if u.quantity < len(message.quantities))
    named = (x for x in message.matches if (m := x.entry.meanings.get(c.model.id)) and m.variables.keys() & set(held))
    ends = {x.last + 1 for x in named} if held else set()
    return any(q.first - 1 in ends and tokens[q.first - 1].text == "for" for q in used)


def _vessels(message: Message, k: int) -> bool:
    """``in the six kegs together``: a count of vessels, when a job for one of them is worked out."""
    q, noun = message.quantities[k], message.nouns[k]
    if not q.bare or q.noise or q.rejected or q.factor or q.value <= 1 or noun is None:
        return False
    return any(message.tokens[i].stem in COUNTED for i in range(noun[0], noun[1] + 1))


def _over(message: Message, k: int) -> bool:
    """``5 nights a week``; ``25 serves, sugar altogether?``: so many times over, when one of them is worked out."""
    q = message.quantities[k]
    if q.noise or q.rejected or q.factor or q.aside or q.value <= 1:
        return False
    daily = any(o.per is not None and o.per[0] == "day" for o in message.quantities)
    if q.units == ("night",) or (q.units == ("day",) and daily):
        return True
    noun = message.nouns[k]
    served = noun is not None and any(message.tokens[i].stem in SERVED for i in range(noun[0], noun[1] + 1))
    words = [t.text for t in message.tokens]
    in_all = any(pair == ("in", "all") for pair in pairwise(words))
    return q.bare and served and (in_all or any(w in TOGETHER for w in words))


def _apiece(best: Outcome, message: Message, k: int) -> bool:
    """``syrup for 40 daiquiris, 20 ml each``: so many things, when what one of them takes is taken for the whole."""
    q, c = message.quantities[k], best.reading.candidate
    if not q.bare or q.noise or q.rejected or q.value <= 1 or q.value != int(q.value) or message.nouns[k] is None:
        return False
    whole = (u for u in c.uses if u.times == 1.0 and c.model.variables[u.variable].role not in ("each", "per"))
    return any(_said_of_each(message, u.quantity) for u in whole if u.quantity < len(message.quantities))


def _said_of_each(message: Message, k: int) -> bool:
    after = message.quantities[k].last + 1
    return message.cues[k].get("each", 0.0) >= EACH and any(t.text in APIECE for t in message.tokens[after : after + 1])


def _weighed(best: Outcome, message: Message) -> bool:
    """``how much does a lemon weigh?``, ``what volume of juice?``, ``how strong is it?``: is a weight asked for when a
    volume is found, or the other way, or how strong something is when how much of it is found?"""
    asked = {message.tokens[i].stem for a, b in message.asked.zones for i in range(a, b + 1)}
    units = best.reading.candidate.model.unit
    found = next((units[v.name] for v in best.answer.answer if v.name in units), None)
    if found is None or message.asked.units:
        return False
    volume, mass, share = found.dimension == VOLUME, found.dimension == MASS, found.kind in PERCENTS
    strong = "strength" in message.asked.how and (volume or mass)
    poured = any(a.text in WHICH and b.stem == "volume" for a, b in pairwise(message.tokens))
    return strong or (poured and mass) or (bool(asked & WEIGHED) and (volume or share))


def _otherwise_measured(best: Outcome, message: Message, reader: Reader) -> bool:
    """``soda tank 50 l, 4.2 vol: CO2 content ___ kg``: is nothing found that is measured as was asked?"""
    units, own = reader.kernel.units, best.reading.candidate.model.unit
    told = [own[v.name].dimension if v.name in own else NONE for v in best.answer.answer]
    asked = [{units[u].dimension for u in spelled if u in units} for spelled in message.asked.units]
    rate = any(t.text in RATES for t in message.tokens)
    if not (told and asked) or NONE in told or rate:
        return False
    return all(a and a <= AMOUNTS and a.isdisjoint(told) for a in asked)


def _unknown(best: Outcome, message: Message, reader: Reader) -> list[tuple[int, int]]:
    """``16 ml pulp a fruit, 30 ml pulp a serve: fruit to buy?``: a spec's lines told, when something else is asked
    (a name that nobody knows, at the head of them, is the drink's)."""
    c = best.reading.candidate
    if not c.lines or c.wanted:
        return []
    known = c.covered | {i for k in c.lines if (n := message.nouns[k]) for i in range(n[0], n[1] + 1)}
    stems = {message.tokens[i].stem for i in known}
    asked = {i: z for z in message.asked.zones for i in message.content if z[0] <= i <= z[1]}
    each = any(message.tokens[i].text == "each" for a, b in asked.values() for i in range(a, b + 1))
    if not asked or each or any(i in known or message.tokens[i].stem in stems | EVERYTHING for i in asked):
        return []
    named = not message.asked.how and not any(reader.lexicon.known(message.tokens[i].stem) for i in asked)
    return [z for z in dict.fromkeys(asked.values()) if not (named and z[0] == 0)][:1]


def _tares(message: Message, covered: frozenset[int], units: Units) -> list[int]:
    """``the empty bowl is 310 g``, ``with the 40 g bowl``: the weight of a vessel, in a job that knows of none."""
    return [
        k
        for k, q in enumerate(message.quantities)
        if q.units
        and not q.noise
        and all(units[u].dimension == MASS for u in q.units)
        and (
            any(
                message.tokens[i].text in TARES and i not in covered
                for i in range(max(0, q.first - TARE_WITHIN), q.first)
            )
            or _with_a_vessel(message, q)
        )
    ]


def _with_a_vessel(message: Message, q: Quantity) -> bool:
    """``that was with the 40 g bowl``: what is weighed along."""
    before = [t.text for t in message.tokens[max(0, q.first - 2) : q.first]]
    after = message.tokens[q.last + 1 : q.last + 3]
    vessel = bool(after) and after[0].stem in WEIGHED_ALONG and [t.text for t in after[1:]] != ["of"]
    return vessel and len(before) == 2 and before[0] in ALONG and before[1] in ("the", "its", "a", "my", "our")


def _worked(message: Message, covered: frozenset[int], strong: bool) -> bool:
    """``ABV at the end, it's stirred``: ice adds water, and the job counts none; of a ``strong`` mix, whose strength it
    leaves aside, that is so even if the mix is called undiluted."""
    words = {t.text for t in message.tokens}
    return (strong or not words & DRY) and any(
        message.tokens[i].text in WORKED and i not in covered for i in message.row_tokens
    )


def _strength_of_a_line(best: Outcome, message: Message) -> list[tuple[int, int]]:
    """``60 ml of spirit to 90 ml of juice is 18 %: how strong was the spirit?``: a line, not the whole."""
    c = best.reading.candidate
    if not c.lines or "strength" not in message.asked.how:
        return []
    nouns = {message.tokens[i].stem for k in c.lines if (n := message.nouns[k]) for i in range(n[0], n[1] + 1)}
    return [z for z in message.asked.zones if any(message.tokens[i].stem in nouns for i in range(z[0], z[1] + 1))]


def _against_its_row(best: Outcome, message: Message) -> list[Quantity]:
    """``1.2 kg of rich syrup, want it 1:1``: a ratio beside a name that stands for another."""
    c, given = best.reading.candidate, best.reading.request.given
    ratios = {
        v: float(choice.rows[c.rows[name]].values[column])
        for name, choice in c.model.choices.items()
        for v, column in choice.fills.items()
        if name in c.rows and c.model.variables[v].ratio is not None and v in given
    }
    return [
        message.quantities[u.quantity]
        for u in c.uses
        if u.variable in ratios and abs(given[u.variable].base - ratios[u.variable]) > SAME * ratios[u.variable]
    ]


def _boiled(message: Message, covered: frozenset[int]) -> list[int]:
    """``boiling 100 g of water away``: what is taken off, in a job that adds everything up."""
    return [i for i, t in enumerate(message.tokens) if t.text in BOILING and i not in covered]


def _naught(best: Outcome) -> bool:
    """Does the job come to none of what is asked, or need less than one of what is counted whole?"""
    units, told = best.reading.candidate.model.unit, {v.name for v in best.answer.answer}
    if any(v.base == 0 and v.unit == "count" for v in best.answer.answer):
        return True
    found = (v for v in best.answer.values if v.origin not in ("given", "assumed") and v.name not in told)
    return any(v.name in units and units[v.name].kind == "count" and 0 < v.base < 1 for v in found)


def _too_small(best: Outcome, message: Message, reader: Reader) -> list[str]:
    """``84 ml, of which vermouth 28 ml``: a whole less than one of its own lines is no whole of that spec."""
    request, model, units = best.reading.request, best.reading.candidate.model, reader.kernel.units
    poured = [x.amount for x in request.spec if x.amount and x.amount.unit != PART]
    lines = [a.base for a in poured if units[a.unit].dimension == VOLUME]
    if len(lines) < 2:
        return []
    return [
        message.words(message.quantities[u.quantity].first, message.quantities[u.quantity].last)
        for u in best.reading.candidate.uses
        if u.variable in request.given
        and model.variables[u.variable].role == WHOLE
        and model.unit[u.variable].dimension == VOLUME
        and request.given[u.variable].base < max(lines)
    ]
