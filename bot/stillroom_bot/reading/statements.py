"""What a clause says of a number: a pack of a thing, what comes first, a spec's people."""

from __future__ import annotations

from .brackets import PEOPLE, among_references, bracket, in_brackets, listed_guests
from .candidate import MASS, VOLUME
from .clauses import PART_ENDS, SENTENCE_ENDS
from .each_of import SERVED
from .lexicon import Lexicon, Match
from .message import Message, Near
from .one_told import one_told
from .part_of import part_of_that
from .quantity import BOTTLE_LITRES, Quantity
from .strengths_told import is_strength
from .tokens import Token
from .vessels import is_filled, made_up_to, takes_everything

OWNED = 3.0
PACKS = frozenset("bottle sack bag carton pack packet tin can drum jerrycan canister jug tub box crate tray".split())
ARTICLES = frozenset("the a an our my".split())
HAVING = frozenset("have got is are has own there's there".split())
SPEAKERS = frozenset("i we you they there".split())
TAKING = frozenset("takes needs uses wants calls serves took used".split())
ENDING = frozenset({"", ".", ",", ";", "\n", ":"})
AMOUNTING = frozenset("comes come came amounts amount amounted totals up".split())
ALL_TOLD = (["all", "together"], ["altogether"], ["together"], ["in", "all"], ["in", "total"])
ON_THE_LABEL = [[where, says] for where in ("label", "spec", "card", "recipe") for says in ("says", "reads", "wants")]
AFTER_WITHIN, AFTERWARDS = 5, frozenset({"strained", "finished", "final", "diluted", "glass"})
BEING, CLAUSE_ENDS = frozenset({"are", "is", "weigh", "weighs"}), PART_ENDS | {","}
SERVING, EVERY = frozenset("gets get receives takes has yielded gave".split()), frozenset({"each", "every"})
ONTO, ONTO_WITHIN = frozenset("on onto".split()), 9
ONTO_ONE = [[a, b] for a in ("on", "onto", "in", "into") for b in ("one", "each", "every")]
YIELDING, THESE = frozenset("give gives yield yields gave".split()), frozenset("ours mine they these those".split())
WITH_ALL, IT_COMES = 5, frozenset({"it's", "its", "is", "makes", "made"})
SAID, HINTED = 1.3, 0.5
LABELS, SAYS = frozenset("label bottle can tin".split()), frozenset("says reads shows states".split())
POURS = frozenset("pour measure shot glass dram".split())
COSTS, SOFTLY = frozenset({"costs", "cost"}), frozenset("me us about around only just roughly you".split())
NET, EARNED = frozenset({"net", "gross"}), frozenset("pour margin profit gp pc".split())
SELLING, AT_OR_FOR, SOLD_WITHIN = frozenset("sell sold selling".split()), frozenset({"at", "for"}), 4
CONDITIONS = frozenset("if when since as because and now once".split())
WANTING = frozenset("need needs want wants prefer prefers require requires like likes wish".split())
HAVING_STRENGTH = frozenset({"of", "at", "with"})
MUCH = frozenset({"much", "many"})
COMBINING = frozenset("combine combined combining together mix mixed mixing blend blended stir stirred".split())
WITH, NEARBY = frozenset({"with", "and", "w", "into", "plus"}), 9


def statements(m: Message, lexicon: Lexicon) -> None:
    """Mend the nouns and the cues of numbers by the clause that they stand in."""
    _put_together(m)
    starts: dict[int, Match] = {}
    for x in m.matches:
        if x.entry.substances and x.last >= (starts[x.first].last if x.first in starts else -1):
            starts[x.first] = x
    for k, q in enumerate(m.quantities):
        if q.noise or q.rejected:
            continue
        _parts_asked(m, k, q)
        _on_the_label(m, k, q)
        q.aside = q.bare and in_brackets(m.tokens, q)
        if q.bare and any(o.noise == "rate" and o.first == q.last + 1 for o in m.quantities[k + 1 : k + 2]):
            m.cues[k] = {**m.cues[k], "per": SAID}
        if q.bare and not q.aside and (among_references(m, q) or listed_guests(m.tokens, q)):
            q.noise = "reference"
        if q.weak and one_told(m, q):
            q.noise = "one"
        elif q.bare and is_strength(m, k, q, lexicon):
            q.units, q.noted = ("abv",), True
        elif q.bare:
            _people(m, k, q)
            _sold(m, k, q)
            _price(m, k, q, lexicon)
        elif q.units == ("currency",) and not q.per and _is_bought(m, k):
            _price(m, k, q, lexicon)
        elif q.strength:
            _measured_after(m, k, q)
            if _wanted_at(m, q, starts):
                m.cues[k] = {**{c: w for c, w in m.cues[k].items() if c != "from"}, "to": SAID}
        elif q.units and lexicon.units[q.units[0]].dimension in (MASS, VOLUME) and q.per is None:
            _amounts_to(m, k, q)
            _is_so_much(m, q, k)
            _measured_after(m, k, q)
            _all_told(m, k, q)
            takes_everything(m, k, q)
            made_up_to(m, k, q)
            if is_filled(m.tokens, q):
                m.cues[k] = {**{c: w for c, w in m.cues[k].items() if c != "from"}, "into": 1.0, "need": 1.0}
            if _of_each_served(m, k, q):
                m.cues[k] = {**m.cues[k], "each": SAID}
            _with_it_all(m, k, q)
            _needed_at(m, k, q)
            held = _held(m.tokens, q, starts) or (_fronted(m.tokens, q, starts) if m.nouns[k] is None else None)
            if held is not None:
                m.nouns[k] = (held.first, held.last)
                m.cues[k].pop("whole", None)
                m.near[k] = [Near(held, OWNED, True), *(x for x in m.near[k] if x.match is not held)]


def _parts_asked(m: Message, k: int, q: Quantity) -> None:
    """``3 l of milk punch, 4 to 1: how much of that is milk?``: a part is asked of what is then the whole."""
    words = [t.text for t in m.tokens[q.last + 1 :]]
    asked = any(
        words[i] == "how" and words[i + 1] in MUCH and part_of_that(m.tokens, q.last + i + 3) is not None
        for i in range(len(words) - 1)
    )
    if asked and q.units and not q.strength and sum(bool(o.units) and not o.noise for o in m.quantities) == 1:
        m.cues[k] = {**m.cues[k], "whole": SAID}


def _sold(m: Message, k: int, q: Quantity) -> None:
    """``we sell it at 11``, ``sell at 12 margin``: a sum of money that a drink fetches, and what is asked after it."""
    t = m.tokens
    sold = next((i for i in range(max(0, q.first - SOLD_WITHIN), q.first - 1) if t[i].stem in SELLING), None)
    noun = m.nouns[k]
    if sold is not None and noun is not None and t[noun[0]].text in EARNED and _ends(t, noun[1]):
        m.nouns[k], m.near[k] = None, [x for x in m.near[k] if x.match.first < q.first]
        m.asked.zones.append(noun)
        noun = None
    named = noun is not None and not (noun[0] == noun[1] and t[noun[0]].text in NET)
    if sold is None or t[q.first - 1].text not in AT_OR_FOR or named:
        return
    q.units, q.noted = ("currency",), True
    m.cues[k] = {**{c: w for c, w in m.cues[k].items() if c not in ("from", "each", "need")}, "to": SAID}
    verbs = [x for x in m.matches if x.first == sold]
    for j in (k - 1, k) if k else (k,):
        m.near[j] = [x for x in m.near[j] if x.match not in verbs]
    m.near[k] += [Near(x, OWNED) for x in verbs]


def _ends(t: list[Token], i: int) -> bool:
    """Is token ``i`` the last word?"""
    return all(x.kind in ("mark", "line") for x in t[i + 1 :])


def _price(m: Message, k: int, q: Quantity, lexicon: Lexicon) -> None:
    """``1 l of vodka costs me 18.50``, ``a 0.7 costs 28``: what so much is bought for, and not what is asked."""
    t, verb = m.tokens, q.first - 1
    while verb > 0 and t[verb].text in SOFTLY:
        verb -= 1
    if k == 0 or verb < 1 or t[verb].text not in COSTS:
        return
    bought = m.quantities[k - 1]
    between = t[bought.last + 1 : verb]
    if bought.bare and bought.value in BOTTLE_LITRES and not between and t[bought.first - 1].text in ARTICLES:
        bought.units, bought.implied = ("liter",), True
    if any(x.kind != "word" for x in between) or not bought.units or not _most(bought, m, lexicon):
        return
    if q.bare:
        q.units, q.noted = ("currency",), True
    for j in (k - 1, k):
        m.cues[j] = {**m.cues[j], "from": SAID}
    m.near[k] = [x for x in m.near[k] if not x.match.first == x.match.last == verb]


def _is_bought(m: Message, k: int) -> bool:
    """Is the amount before a sum of money no pour of a drink, and one of several amounts?"""
    if k == 0 or sum(bool(q.units) and not q.money and not q.noise for q in m.quantities) < 2:
        return False
    said = m.tokens[m.quantities[k - 1].last + 1 : m.quantities[k].first]
    return not any(t.stem in SERVED or t.stem in POURS for t in said)


def _most(q: Quantity, m: Message, lexicon: Lexicon) -> bool:
    """Is no other amount of the message larger than this one, which is a weight or a volume?"""
    unit = lexicon.units[q.units[0]]
    others = (o for o in m.quantities if o.units and not o.noise and o.per is None)
    same = [o.value * u.factor for o in others if (u := lexicon.units[o.units[0]]).dimension == unit.dimension]
    return bool(same) and unit.dimension in (MASS, VOLUME) and q.value * unit.factor >= max(same)


def _put_together(m: Message) -> None:
    """``combined 3 quarts of punch with 1 pint of milk``: what is done with two amounts, and no whole that is told."""
    t, first = m.tokens, {q.first: q for q in m.quantities if q.units and not q.noise}
    for i in (i for i, x in enumerate(t) if x.text in COMBINING):
        at = i + 1 if i + 1 in first else None
        end = next((k for k in range(i + 1, len(t)) if t[k].text in SENTENCE_ENDS), len(t))
        later = any(k + 1 in first for k in range(i + 1, end) if t[k].text in WITH)
        if not later or not (at is not None or t[i + 1].text in WITH):
            continue
        for k, q in enumerate(m.quantities):
            if abs(q.first - i) <= NEARBY:
                m.cues[k].pop("whole", None)
                m.near[k] = [x for x in m.near[k] if not x.match.first <= i <= x.match.last]


def _wanted_at(m: Message, q: Quantity, starts: dict[int, Match]) -> bool:
    """``need honey syrup of 50 brix, have honey of 80``: the strength of a thing that is wanted, of two."""
    t, i = m.tokens, q.first - 1
    if i < 2 or t[i].text not in HAVING_STRENGTH or not any(o.strength and o is not q and o.units == q.units
                                                  for o in m.quantities):
        return False
    i -= 1
    while i > 0 and q.first - i <= WITH_ALL and any(x.first <= i <= x.last for x in starts.values()):
        i -= 1
    i -= t[i].text in ARTICLES
    return i >= 0 and i < q.first - 2 and t[i].text in WANTING


def _needed_at(m: Message, k: int, q: Quantity) -> None:
    """``I need 1 l of grappa at 42 %, there is some of 60 %``: so much in the end, and of the strength told with it;
    not so of what is then brought to another strength (``I need 1 l of the 60 % brought to 42 %``)."""
    t, own = m.tokens, m.quantities[k + 1] if k + 1 < len(m.quantities) else None
    noun = m.nouns[k]
    if own is None or not own.strength or noun is None or t[q.first - 1].text not in WANTING:
        return
    told = own.first - 2 == noun[1] and t[own.first - 1].text in HAVING_STRENGTH
    others = [j for j, o in enumerate(m.quantities) if o.strength and o is not own and not (o.noise or o.rejected)]
    if told and len(others) == 1 and max(m.cues[others[0]].get(c, 0.0) for c in ("to", "need")) < HINTED:
        m.cues[k] = {**{c: w for c, w in m.cues[k].items() if c not in ("to", "have", "from")}, "need": SAID}
        m.cues[k + 1] = {**{c: w for c, w in m.cues[k + 1].items() if c != "from"}, "to": SAID}
        m.near[k], m.nouns[k] = [], None


def _held(t: list[Token], q: Quantity, starts: dict[int, Match]) -> Match | None:
    """``5 lb sack of sugar``: the thing in the pack, not the pack, is what there is so much of."""
    i = q.last + 1
    if i + 2 >= len(t) or t[i].stem not in PACKS or t[i + 1].text != "of":
        return None
    return starts.get(i + 2 + (t[i + 2].text in ARTICLES))


def _fronted(t: list[Token], q: Quantity, starts: dict[int, Match]) -> Match | None:
    """``Of lemon juice I have only 1.1 litres``, ``all the gin I have is 1.75 l``: the thing stands first."""
    first = q.first
    while first > 0 and t[first - 1].text not in (".", ";", "?", "!", "\n"):
        first -= 1
    if first + 2 >= q.first or t[first].text not in ("of", "all"):
        return None
    match = starts.get(first + 1 + (t[first + 1].text in ARTICLES))
    if match is None or match.last + 2 >= q.first:
        return None
    said = [x.text for x in t[match.last + 1 : q.first]]
    return match if said[0] in SPEAKERS and said[1] in HAVING and len(said) <= 4 else None


def _amounts_to(m: Message, k: int, q: Quantity) -> None:
    """``The drink itself is mixed and comes to 5.2 litres``: so much of what the clause begins with, and no target."""
    t, first = m.tokens, q.first
    if first < 3 or t[first - 1].text != "to" or t[first - 2].text not in AMOUNTING:
        return
    m.cues[k] = {cue: w for cue, w in m.cues[k].items() if cue != "to"}
    while first > 0 and t[first - 1].text not in PART_ENDS:
        first -= 1
    first += t[first].text in ARTICLES
    about = next((x for x in m.matches if x.first == first and (x.entry.meanings or x.entry.substances)), None)
    if about is not None and about.last < q.first - 2:
        m.near[k] = [Near(about, OWNED, True), *(x for x in m.near[k] if x.match is not about)]


def _is_so_much(m: Message, q: Quantity, k: int) -> None:
    """``My peels of grapefruit are 360 g``, ``the water is weighed out already (900 g)``: so much of what the clause
    begins with."""
    t, first = m.tokens, q.first
    bracketed = bracket(t, q) == (first - 1, q.last + 1) and not any(x.last == first - 2 for x in m.matches)
    first -= bracketed
    if first < 2 or not (bracketed or t[first - 1].text in BEING) or m.nouns[k] is not None:
        return
    while first > 0 and t[first - 1].text not in CLAUSE_ENDS and t[first - 1].kind == "word":
        first -= 1
    first += t[first].text in CONDITIONS
    first += t[first].text in ARTICLES
    about = max((x for x in m.matches if x.first == first and x.last < q.first - 2), key=_length, default=None)
    if about is not None and about.entry.substances:
        m.near[k] = [Near(about, OWNED), *(x for x in m.near[k] if x.match is not about)]


def _on_the_label(m: Message, k: int, q: Quantity) -> None:
    """``the label says 43 %``: what it should be, and not what it is."""
    if q.strength and [t.text for t in m.tokens[max(0, q.first - 2) : q.first]] in ON_THE_LABEL:
        m.cues[k] = {**{c: w for c, w in m.cues[k].items() if c != "from"}, "to": SAID}


def _all_told(m: Message, k: int, q: Quantity) -> None:
    """``All together, sugar and peel, should be 900 g``: the one amount of such a sentence is of everything."""
    first, last = q.first, q.last
    while first > 0 and m.tokens[first - 1].text not in SENTENCE_ENDS:
        first -= 1
    while last + 1 < len(m.tokens) and m.tokens[last + 1].text not in SENTENCE_ENDS:
        last += 1
    words = [t.text for t in m.tokens[first : first + 3]]
    alone = not any(o.units and first <= o.first <= last for o in m.quantities if o is not q)
    if alone and (words[:2] in ALL_TOLD or words[:1] in ALL_TOLD) and "," in words:
        m.cues[k] = {**{c: w for c, w in m.cues[k].items() if c != "to"}, "whole": SAID}


def _measured_after(m: Message, k: int, q: Quantity) -> None:
    """``the strained drinks measured 132 ml``: what was measured was there afterwards, and not to begin with."""
    before = [t.text for t in m.tokens[max(0, q.first - AFTER_WITHIN) : q.first]]
    if before[-1:] in (["measured"], ["measures"], ["measure"]) and not AFTERWARDS.isdisjoint(before):
        m.cues[k] = {**{c: w for c, w in m.cues[k].items() if c != "from"}, "to": SAID}


def _length(x: Match) -> int:
    return x.last - x.first


def _of_each_served(m: Message, k: int, q: Quantity) -> bool:
    """``each guest receives 45 ml of the liquid``, ``on one glass goes 30 ml``, ``45 ml of it on each coffee``,
    ``every glass is finished with 45 ml``: what one of them is given; ``ours give 27 ml``: what one of them gives."""
    t = m.tokens
    before = [x.text for x in t[max(0, q.first - 4) : q.first]]
    giving = [w for w in before if w not in SOFTLY]
    if len(giving) > 1 and giving[-1] in YIELDING and giving[-2] in THESE:
        return True
    if before[-1:] != [] and before[-1] in SERVING and not EVERY.isdisjoint(before[-4:-1]):
        return True
    if before[-1:] == ["goes"] and before[:-2] and before[-4:-2] in ONTO_ONE:
        return True
    first = q.first
    while first > 0 and t[first - 1].text not in PART_ENDS and t[first - 1].kind == "word":
        first -= 1
    if t[first].text in EVERY and q.first - first > 2 and not (k and m.quantities[k - 1].last >= first):
        return True
    after = t[q.last + 1 : q.last + 1 + ONTO_WITHIN]
    end = next((i for i, x in enumerate(after) if x.text in PART_ENDS or x.kind == "number"), len(after))
    said = [x.text for x in after[:end]]
    return any(said[i] in ONTO and said[i + 1] in EVERY for i in range(len(said) - 1))


def _with_it_all(m: Message, k: int, q: Quantity) -> None:
    """``and with the water it's 1.9 l``: so much of everything, and none of what was added."""
    words = [t.text for t in m.tokens[max(0, q.first - WITH_ALL) : q.first]]
    if "with" not in words or not words or words[-1] not in IT_COMES:
        return
    first = q.first - len(words) + words.index("with")
    added = [x for x in m.near[k] if first < x.match.first < q.first]
    if added and m.tokens[first + 1].text in ARTICLES:
        m.near[k] = [x for x in m.near[k] if x not in added]
        m.cues[k] = {**{c: w for c, w in m.cues[k].items() if c not in ("add", "with")}, "to": SAID, "whole": SAID}


def _people(m: Message, k: int, q: Quantity) -> None:
    """``Punch for 14 takes 60 cl``, ``for 8 people: 400 ml rum; what for 30 people?``: whom the spec is for;
    ``we're 35 now``: who is to be served."""
    t, cues = m.tokens, m.cues[k]
    before = [x.text for x in t[max(0, q.first - 2) : q.first]]
    after = t[q.last + 1].text if q.last + 1 < len(t) else ""
    told = before[-1:] == ["for"] and after in PEOPLE and any(_counts_people(m, j) for j in range(k + 1, len(m.nouns)))
    takes = after in PEOPLE and q.last + 2 < len(t) and t[q.last + 2].text in TAKING
    if takes and k + 1 < len(m.cues):
        m.cues[k + 1] = {**{c: w for c, w in m.cues[k + 1].items() if c not in ("to", "need")}, "from": SAID}
    told = told or takes
    if before[-1:] == ["for"] and (after in TAKING or told):
        m.cues[k] = {**{c: w for c, w in cues.items() if c not in ("to", "need", "into")}, "from": SAID}
    elif before[-1:] in (["serves"], ["feeds"]) and m.nouns[k] is None and after in ENDING:
        m.cues[k] = {**{c: w for c, w in cues.items() if c not in ("to", "need", "into", "have")}, "from": SAID}
    elif before[-1:] == ["we're"] or before == ["we", "are"]:
        m.cues[k] = {**{c: w for c, w in cues.items() if c not in ("from", "have")}, "to": SAID}


def _counts_people(m: Message, k: int) -> bool:
    noun = m.nouns[k]
    return m.quantities[k].bare and noun is not None and m.tokens[noun[0]].text in PEOPLE


__all__ = ["statements"]
