"""Doubts about what a number is of: one thing is asked about, or amounts to so much, and another is answered for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .candidate import MASS, VOLUME, Candidate
from .clauses import SENTENCE_ENDS
from .lexicon import Match
from .message import Message
from .neighbours import PREPOSITIONS
from .reader import Reader

if TYPE_CHECKING:
    from .deciding import Outcome

LIKE = 0.02
AMOUNTS, COUNTED_WITHIN = (MASS, VOLUME), 3
WITH = frozenset({"with", "using"})
TOPIC_ENDS = SENTENCE_ENDS | {","}
WEIGHTS, POINTING = frozenset({"weight", "mass", "quantity", "amount"}), frozenset({"it", "that", "this", "them"})
HOW, SO_MUCH = frozenset({"how"}), frozenset({"much", "many"})


def of_another(best: Outcome, message: Message, reader: Reader, follows: bool) -> bool:
    """Is what was asked about, or what a number was said to be of, another thing than the one answered for?

    A message that ``follows`` another may ask about a thing that was told before.
    """
    c = best.reading.candidate
    return (
        _of_another(c, message, reader)
        or _of_a_longer_name(c, message)
        or unlike_its_name(best, message)
        or (not follows and _asked_of_another(c, message))
        or _amount_of_another(c, message)
        or _given_and_asked(c, message)
        or (not turned(best) and _parts_turned(c, message))
        or _whole_of_a_line(c, message)
        or _counted_for_weighed(c, message)
    )


def _asked_of_another(c: Candidate, message: Message) -> bool:
    """``two bottles of rich syrup, how much sugar?``: is a thing asked for that the job knows nothing of?"""
    words = [t.text for t in message.tokens]
    heads = [i + 2 for i in range(len(words) - 2) if words[i] in HOW and words[i + 1] in SO_MUCH]
    for i in heads:
        named = [x for x in message.matches if x.first == i and x.entry.substances]
        longest = max(named, key=lambda x: x.last, default=None)
        if longest is not None and c.covered.isdisjoint(range(longest.first, longest.last + 1)):
            return not c.lines
    return False


def _given_and_asked(c: Candidate, message: Message) -> bool:
    """``peel 300 g lemon sugar?``: is a number after another name put to what the last word asks for?"""
    last = len(message.tokens) - 2
    if last < 1 or message.tokens[-1].text != "?" or message.asked.zones or message.asked.how:
        return False
    for u in c.uses:
        q = message.quantities[u.quantity] if u.quantity < len(message.quantities) else None
        names = {
            i: {v for x in message.matches if x.first <= i <= x.last
                and (m := x.entry.meanings.get(c.model.id)) is not None for v in m.variables}
            for i in (last, q.first - 1 if q is not None else -1)
        }
        before = names[q.first - 1] if q is not None and q.first else set()
        if q is not None and q.last < last and u.variable in names[last] and before - {u.variable}:
            return True
    return False


def turned(best: Outcome) -> bool:
    """Is a ratio told in the other order already, and called by its two things?"""
    return all(v.name not in best.reading.candidate.model.variables for v in best.answer.answer)


def _parts_turned(c: Candidate, message: Message) -> bool:
    """``how many parts brandy to one part fruit?``: is a ratio asked for the other way round than it is found?"""
    words = [t.text for t in message.tokens]
    pairs = [r for v in c.wanted if v in c.model.variables and (r := c.model.variables[v].ratio) is not None]
    for i in (i for i, w in enumerate(words) if pairs and w == "parts" and words[max(0, i - 2) : i] == ["how", "many"]):
        at = i + 1 + (words[i + 1 : i + 2] == ["of"])
        for x in (x for x in message.matches if x.first == at and words[x.last + 1 : x.last + 2] == ["to"]):
            meaning = x.entry.meanings.get(c.model.id)
            named = set(meaning.variables) if meaning is not None else set()
            named |= {n for n, v in c.model.variables.items() if x.entry.kinds & set(v.things)}
            if any(b in named and a not in named for a, b in pairs):
                return True
    return False


def _counted_for_weighed(c: Candidate, message: Message) -> bool:
    """``lemon peel 250``: is a bare number taken for a count, directly behind the name of what is weighed or poured?"""
    unit = c.model.unit
    for u in c.uses:
        q = message.quantities[u.quantity]
        own = [x for x in message.matches if q.last < x.first <= q.last + COUNTED_WITHIN]
        named = any(u.variable in m.variables for x in own if (m := x.entry.meanings.get(c.model.id)) is not None)
        rate = [t.text for t in message.tokens[q.last + 1 : q.last + 2]] in (["/"], ["per"])
        if not q.bare or named or rate or unit[u.variable].kind != "count":
            continue
        names = [
            m.variables.keys() for x in message.matches
            if x.last == q.first - 1 and (m := x.entry.meanings.get(c.model.id)) is not None and m.variables
        ]
        if names and all(u.variable not in n and any(unit[v].dimension in AMOUNTS for v in n) for n in names):
            return True
    return False


def _whole_of_a_line(c: Candidate, message: Message) -> bool:
    """``45 ml gin, 15 ml lime; the gin bottle is 700 ml``: is what there is of one line taken for all of them?"""
    if not c.lines:
        return False
    lines = {message.tokens[n[1]].stem for k in c.lines if (n := message.nouns[k])}
    for u in c.uses:
        noun = message.nouns[u.quantity] if u.quantity < len(message.nouns) else None
        if noun is not None and c.model.variables[u.variable].role == "into" and any(
            message.tokens[i].stem in lines for i in range(noun[0], noun[1] + 1)
        ):
            return True
    return False


def _amount_of_another(c: Candidate, message: Message) -> bool:
    """``lemon juice for 900 ml of orange juice``: does a number that is of one thing count for another?"""
    for u in c.uses:
        named = c.model.variables[u.variable].named_by
        row = c.rows.get(named[0]) if named else None
        noun = message.nouns[u.quantity] if u.quantity < len(message.nouns) else None
        if noun is None or row is None or named is None or "any" not in c.model.variables[u.variable].things:
            continue
        rows = {
            m.rows[named[0]]
            for x in message.matches
            if noun[0] <= x.first and x.last <= noun[1]
            and (m := x.entry.meanings.get(c.model.id)) is not None and named[0] in m.rows
        }
        if rows and row not in rows:
            return True
    return False


def _of_another(c: Candidate, message: Message, reader: Reader) -> bool:
    """``rich syrup 1 qt, cups of sugar?``, ``Milk how many ml?``, ``1.4 l of tea with agar, how many grams?``: an
    amount said again, or a thing weighed, when it is asked of another thing."""
    words = [t.text for t in message.tokens]
    if not c.lines and any(_left_aside(c, x) for x in message.matches if x.first and words[x.first - 1] in WITH):
        return True
    if weighs_another(c, message):
        return True
    if c.model.id not in reader.same or not c.uses:
        return False
    noun = message.nouns[c.uses[0].quantity] if c.uses[0].quantity < len(message.nouns) else None
    own = {message.tokens[i].stem for i in range(noun[0], noun[1] + 1)} if noun else set()
    hows = [i - 1 for i, w in enumerate(words) if w == "how" and i and words[i + 1 : i + 2] in (["many"], ["much"])]
    topics = [i for i in hows if i in message.content and (i == 0 or words[i - 1] in TOPIC_ENDS)]
    if any(message.tokens[i].stem not in own for i in topics):
        return True
    ofs = {b + 2 for _, b in message.asked.unit_spans if [t.text for t in message.tokens[b + 1 : b + 2]] == ["of"]}
    return any(x.first in ofs and x.entry.substances and not own & set(x.entry.stems) for x in message.matches)


def weighs_another(c: Candidate, message: Message) -> bool:
    """Is the weight of one thing asked for, and another thing weighed?"""
    return not c.lines and (
        any(all(_left_aside(c, x) or _no_name_of_it(c, x) for x in things) for things in message.once(_weighed))
        or any(_unweighed(c, x) for x in message.once(_heads))
    )


def _no_name_of_it(c: Candidate, x: Match) -> bool:
    """``what quantity of salt is in 100 ml of saline?``: does a thing settle a choice that names what is found, and
    is it called otherwise?"""
    meaning = x.entry.meanings.get(c.model.id)
    found = [v for v in c.wanted if v in c.model.variables and c.model.variables[v].named_by]
    named = {(n := c.model.variables[v].named_by) and n[0] for v in found}
    return meaning is not None and bool(named & meaning.rows.keys()) and meaning.variables.keys().isdisjoint(c.wanted)


def _weighed(m: Message) -> list[list[Match]]:
    """``the weight of powdered agar for 2 l of juice``: the things, each by its names, whose weight is asked for;
    ``2 l of juice, we have citric acid: what weight of it?``: the last one."""
    found = []
    for i, t in enumerate(m.tokens[:-1]):
        if t.stem not in WEIGHTS or m.tokens[i + 1].text != "of" or not any(a <= i <= b for a, b in m.asked.zones):
            continue
        if m.tokens[i + 2 : i + 3] and m.tokens[i + 2].text in POINTING:
            told = [x for x in m.matches if x.last < i and x.entry.substances]
            found.append([x for x in told if x.last == max(y.last for y in told)])
            continue
        k = i + 2
        while k < len(m.tokens) and m.tokens[k].kind == "word" and m.tokens[k].text not in PREPOSITIONS:
            k += 1
        found.append([x for x in m.matches if i + 1 < x.first and x.last < k and x.entry.substances])
    return [things for things in found if things]


def _heads(m: Message) -> list[Match]:
    """``the weight of a 750 ml bottle of mint syrup``: the last word of what there is so much of, as it is known."""
    found = []
    for q, noun in zip(m.quantities, m.nouns, strict=True):
        of = q.first - 1 - (q.first > 0 and m.tokens[q.first - 1].text == "a")
        if noun is None or not q.units or q.strength or of < 1 or m.tokens[of].text != "of":
            continue
        if m.tokens[of - 1].stem not in WEIGHTS:
            continue
        end = noun[1]
        while [t.text for t in m.tokens[end + 1 : end + 2]] in (["of"], ["our"], ["the"], ["my"]):
            end += 1
        named = [x for x in m.matches if x.entry.substances and noun[0] <= x.first <= end + 1 and x.last >= noun[1]]
        found += [max(named, key=lambda x: (x.last, x.last - x.first))] if named else []
    return found


def _unweighed(c: Candidate, head: Match) -> bool:
    """``the weight of a bottle of mint syrup``, the mint for it: is the thing none of those that are weighed here?"""
    meaning = head.entry.meanings.get(c.model.id)
    own = set(meaning.variables) if meaning is not None else set()
    own |= {n for n, v in c.model.variables.items() if head.entry.kinds & set(v.things) or "any" in v.things}
    return own.isdisjoint(c.wanted)


def _left_aside(c: Candidate, x: Match) -> bool:
    """``1.4 l of coconut water with agar``: is a thing named that could settle a choice, which another one settles?"""
    meaning = x.entry.meanings.get(c.model.id)
    if meaning is None:
        anything = any("any" in v.things and v.named_by for v in c.model.variables.values())
        return anything and bool(x.entry.substances)
    rows = meaning.rows
    taken = {choice: r for choice, r in rows.items() if choice in c.rows}
    return bool(taken) and bool(x.entry.substances) and all(c.rows[choice] != r for choice, r in taken.items())


def _of_a_longer_name(c: Candidate, message: Message) -> bool:
    """``3 cups of sugar syrup, how much sugar?``: an amount of one thing, read as an amount of what its name holds."""
    for u in c.uses:
        named = c.model.variables[u.variable].named_by
        noun = message.nouns[u.quantity] if u.quantity < len(message.nouns) else None
        row = c.rows.get(named[0]) if named else None
        if noun is None or row is None or named is None:
            continue
        inside = [x for x in message.matches if noun[0] <= x.first and x.last <= noun[1] and x.entry.substances]
        heads = [x for x in inside if x.last == noun[1]]
        names = [x for x in inside if x.first == noun[0]]
        longest = max(heads or names, key=lambda x: x.last - x.first, default=None)
        if longest is None or longest.last == noun[0]:
            continue
        own = longest.entry.meanings.get(c.model.id)
        inner = any(
            (m := x.entry.meanings.get(c.model.id)) is not None and m.rows.get(named[0]) == row
            for x in names
            if x is not longest
        )
        if inner and own is None:
            return True
    return False


def unlike_its_name(best: Outcome, message: Message) -> bool:
    """``1.2 kg of rich syrup, want it 1:1``, ``rich into simple``: does a number, or another name, make another thing
    of what is called by a name that defines it?"""
    c = best.reading.candidate
    values = {v.name: v.value for v in best.answer.values}
    for name, row in {**best.reading.request.choices, **c.rows}.items():
        choice = c.model.choices.get(name)
        told = choice.rows[row].values if choice is not None and row in choice.rows else {}
        for variable, column in choice.fills.items() if choice is not None and told.get("defines") else ():
            if name not in c.rows and variable in best.reading.request.given:
                continue
            own = float(str(told[column]))
            if abs(values.get(variable, own) - own) > LIKE * own or _called_otherwise(c, name, row, message):
                return True
    return False


def _called_otherwise(c: Candidate, choice: str, row: str, message: Message) -> bool:
    """Is another row of a choice named beside the one that is taken, and not as a part of its name?"""
    named = [(x, m.rows[choice]) for x in message.matches
             if (m := x.entry.meanings.get(c.model.id)) is not None and choice in m.rows]
    own = [x for x, r in named if r == row]
    return any(
        r != row and not any(o.first <= x.first and x.last <= o.last for o in own)
        and not any(o is not x and o.first <= x.first and x.last <= o.last for o, _ in named)
        for x, r in named
    )
