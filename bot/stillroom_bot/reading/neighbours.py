"""What stands near a number: the words before and after it, and what they say about it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from .beside import ADDED, added_to, bought, told_again
from .cues import SAID_AFTER, SAID_BEFORE
from .lexicon import Match
from .message import Message, Near, row_only
from .parts_told import tell_parts
from .quantity import Quantity
from .shared_units import share_units
from .tokens import Token

FAINT, FAR, SINCE = 1e-6, 40, 1.5
AFTER = (3.0, 2.6, 2.0, 1.5, 1.1, 0.8, 0.6, 0.5)
BEFORE = (2.6, 2.2, 1.7, 1.3, 1.0, 0.7, 0.5, 0.4)
LABELLED, LED_IN = 1.6, 0.35
PREPOSITIONS = frozenset(
    "in into to from with for at on onto per than by over under as and or but so then times plus incl including".split()
)
SAID_OF, SIDES = ([":"], ["="]), {"in": "from", "before": "from", "out": "to", "after": "to"}
IN_OUT = frozenset({"in", "out"})
OF_THE_NEXT = 0.4
"""How much a word that stands directly before the next number says of one that a mark parts from it."""
LIGHT = frozenset(
    """of the a an my our your is are was were weighs weigh weighed measures measured = : of_the some fresh whole dry
good full finished straight cold about exactly only just roughly approx @ - ( ' " that's it's its this that these those
it has have
got get gets us""".split()
)
NO_NOUN = LIGHT | frozenset("instead rather then now please total altogether again too also one ones".split())
QUESTION = frozenset("how what which what's whats".split())
ASKING, WHO = frozenset("can could do did should shall will would must may".split()), frozenset("i we you they".split())
"""``glasses of 160 ml can I sell``: what is asked goes on, and names no can of so much."""
CLAUSE = frozenset({".", ";", "?", "!", "\n", "|"})
ASIDE = frozenset("sorry oops meant ment mean correction rather actually wait no nope nah yes ok okay".split())
PRONOUN = frozenset("it this that them these those".split())
SPACED = frozenset({"-", "/"})
REFERRING = (["of", "it"], ["of", "them"], ["of", "those"], ["of", "that"])
DONE_WITH = ("clarif", "wash", "infus", "adjust", "sweeten")
DOING = frozenset("blend mix combine swap replace cut dilute fortify infuse dissolve scale split clarify".split())
GIVES = frozenset("has have had gives give gave makes make yields yield holds hold contains contain weighs".split())
CONTAINERS = frozenset("case box crate bag pack packet carton tray sack sleeve bunch".split())
EACH_WITH = 0.9
HELD = 0.4
"""How much a count of containers says of what is in them (``three cases of lemons``)."""
HOLDING = frozenset("of with at holding each".split())
OFF, FROM_EACH = frozenset({"off", "from"}), 6
MUST_BE = frozenset((a, b) for a in ("must", "should", "shall") for b in ("have", "be", "get", "reach", "become"))
ONE = frozenset({"one", "each", "every", "a", "an", "1"})
EACH = frozenset({"each", "every", "apiece", "per", "piece"})
ABOUT = frozenset("me us about around roughly some only".split())
JOINS = frozenset({"and", "+", "&", "plus", "with", "-"})
LIST = frozenset({",", ";", "\n", "|", "+", "and", ":", "."})
SOFT = frozenset({",", "(", ")", "+", "&"})


def pairs_of(m: Message) -> Iterator[tuple[Match, Match]]:
    """Two things in one breath, without a number between: ``punch and milk``, ``peel + sugar``, ``drink with milk``.

    What is done to a thing with another is no pair: ``clarify the punch with milk``.
    """
    done = any(t.stem.startswith(DONE_WITH) for t in m.tokens)
    starts: dict[int, list[Match]] = {}
    for match in m.matches:
        starts.setdefault(match.first, []).append(match)
    for a in m.matches:
        i = a.last + 1
        if i + 1 < len(m.tokens) and m.tokens[i].text in JOINS and not (done and m.tokens[i].text == "with"):
            i += 1 + (m.tokens[i + 1].text in ("the", "its", "their", "and", "-") and i + 2 < len(m.tokens))
            for b in starts.get(i, ()):
                yield a, b


def _label(m: Message, q: Quantity, taken: dict[int, int]) -> tuple[int, int] | None:
    """The thing that stands before its amount in a list: ``gin 47 % 30 ml``, ``rum 40 ml ->``, ``brine 6 %, 2 kg``."""
    i = q.first - 1
    if i > 0 and m.tokens[i].text == "," and i - 1 in taken and m.quantities[taken[i - 1]].strength and q.units:
        i -= 1
    if i > 1 and m.tokens[i].text == ":" and m.tokens[i - 1].text in ("in", "out"):
        i -= 2
    while i >= 0 and q.first - i <= FAR and (i in taken or m.tokens[i].text in (":", "=", "x", "of")):
        if m.tokens[i].text in SOFT or m.tokens[i].text in CLAUSE:
            return None
        i -= 1
    last = i
    while (
        i >= 0
        and m.tokens[i].kind == "word"
        and m.tokens[i].text not in m.stops
        and m.tokens[i].text not in PREPOSITIONS
        and i not in taken
        and last - i < 4
    ):
        i -= 1
    if last - i == 1 and m.tokens[last].text in ASIDE:
        return None
    begins = i < 0 or m.tokens[i].text in LIST or (m.tokens[i].text in SPACED and not m.tokens[i].glued)
    if last - i == 1 and (i < 0 or m.tokens[i].text in CLAUSE) and m.tokens[last].text in DOING:
        return None
    return (i + 1, last) if begins and i < last else None


def _in_or_out(m: Message, q: Quantity) -> str:
    """``shaker in: 95 ml``, ``out = 133 ml``; ``95 ml in, 133 out``, ``in 95 out 133``: before or after."""
    before = [t.text for t in m.tokens[max(0, q.first - 2) : q.first]]
    after = m.tokens[q.last + 1].text if q.last + 1 < len(m.tokens) else ""
    words = {t.text for t in m.tokens}
    if before[1:] in SAID_OF and q.units:
        return SIDES.get(before[0], "") if before[0] != "in" or words & {"out", "after"} else ""
    if not words >= IN_OUT or not (q.units or q.bare):
        return ""
    places = [(t.text, i) for i, t in enumerate(m.tokens) if t.text in IN_OUT]
    firsts, lasts = ({x.first - 1 for x in m.quantities}, {x.last + 1 for x in m.quantities})
    if {w for w, i in places if i in firsts} == IN_OUT:
        return SIDES.get(before[-1], "") if before else ""
    return SIDES[after] if after in IN_OUT and {w for w, i in places if i in lasts} == IN_OUT else ""


def _of_one_thing(m: Message, q: Quantity, taken: dict[int, int]) -> bool:
    """``one lime has 25 ml``, ``15 g of peel off an orange``: an amount of which it is said what one thing gives."""
    i = q.last + 1
    while i < len(m.tokens) and i - q.last <= 3 and m.tokens[i].kind == "word" and m.tokens[i].text not in OFF:
        i += 1
    after = [t.text for t in m.tokens[i : i + 2]]
    one = len(after) == 2 and after[0] in OFF and after[1] in ONE
    if one and (_thing_at(m, i + 2) or [t.text for t in m.tokens[i + 2 : i + 3]] in (["one"], ["of"], [])):
        return True
    before = [t.text for t in m.tokens[max(0, q.first - FROM_EACH) : q.first]]
    for n, (a, b) in enumerate(pairwise(before)):
        if a in OFF and b in ("each", "every") and CLAUSE.isdisjoint(before[n:]):
            return True
    i = q.first - 1
    while i >= 0 and q.first - i <= 3 and m.tokens[i].text in ABOUT:
        i -= 1
    if i < 1 or m.tokens[i].text not in GIVES:
        return False
    first = i - 1
    while first >= 0 and i - first <= 3 and m.tokens[first].text not in ONE:
        if m.tokens[first].kind != "word" or m.tokens[first].text in PREPOSITIONS:
            return False
        first -= 1
    one = first >= 0 and first < i - 1 and m.tokens[first].text in ONE
    return one and (first not in taken or m.quantities[taken[first]].bare)


def _told_of(m: Message, q: Quantity, taken: dict[int, int]) -> None:
    """``one lime has 25 ml``: the one of which it is told is no count of the job's."""
    for i in range(max(0, q.first - FROM_EACH), q.first):
        o = m.quantities[taken[i]] if i in taken else None
        if o is not None and o.bare and o.value == 1 and m.tokens[i].text in ONE and i + 2 < q.first:
            o.noise = o.noise or "each"


def _of_several(m: Message, q: Quantity, taken: dict[int, int]) -> bool:
    """``40 limes gave 980 ml``: what several things gave together."""
    i = q.first - 1
    while i >= 0 and q.first - i <= 3 and m.tokens[i].text in ABOUT:
        i -= 1
    if i < 2 or m.tokens[i].text not in GIVES:
        return False
    first = i - 1
    while first >= 0 and i - first <= 3 and first not in taken and m.tokens[first].kind == "word":
        first -= 1
    if any(t.text in EACH for t in m.tokens[first + 1 : i] + m.tokens[q.last + 1 : q.last + 4]):
        return False
    count = m.quantities[taken[first]] if first in taken else None
    return count is not None and first < i - 1 and count.bare and count.value > 1


def _each_of_them(m: Message, q: Quantity, taken: dict[int, int]) -> bool:
    """``each of 40 limes gave 25 ml``: are the several things that gave an amount spoken of one by one?"""
    count = max(i for i in taken if i < q.first)
    first = m.quantities[taken[count]].first
    first -= m.tokens[first - 1].text in ("the", "our", "my", "these", "those")
    return first > 1 and m.tokens[first - 1].text == "of" and m.tokens[first - 2].text in ONE


def _thing_at(m: Message, i: int) -> bool:
    return any(x.first == i and x.entry.substances for x in m.matches)


def _a_day(q: Quantity) -> bool:
    """``18 bottles a night``: a time that is said as how often, and is no number of its own."""
    return q.implied and q.value == 1 and q.units[:1] in (("day",), ("night",), ("week",))


def _served_with(m: Message, q: Quantity) -> bool:
    """``24 sours with 25 ml of white``: so much in each of the drinks that are counted right before it."""
    count, noun = m.quantities[len(m.nouns) - 1], m.nouns[-1]
    if noun is None or not count.bare or count.value <= 1 or noun[1] != q.first - 2:
        return False
    return m.tokens[q.first - 1].text == "with" and m.tokens[noun[1]].text != m.tokens[noun[1]].stem


def _holds(tokens: list[Token], i: int) -> bool:
    """``80 oranges in a crate``: is it a container that they are in?"""
    return i < len(tokens) and tokens[i].stem in CONTAINERS


def _several_containers(t: Token) -> bool:
    """``cases of 12``: what each of them holds; of one it may be all that there is."""
    return t.stem in CONTAINERS and t.text != t.stem


def _in_one_container(tokens: list[Token], q: Quantity) -> bool:
    """``one box has 12``: what is in each."""
    before = tokens[max(0, q.first - 3) : q.first]
    return len(before) == 3 and before[0].text in ONE and before[1].stem in CONTAINERS and before[2].text in GIVES


def _container(tokens: list[Token], i: int) -> int | None:
    """``24 to a box``, ``24 per box``, ``12 in a case``: where the name of the container begins."""
    word, after = tokens[i].text, tokens[i + 1].text if i + 1 < len(tokens) else ""
    if word in ("to", "in") and after in ("a", "the", "each", "every"):
        return i + 2
    return i + 1 if word in ("per", "a", "/") else None


def neighbours(m: Message) -> None:
    """Fill in what stands near each number of a message (weighed matches, cues, its noun) and the pairs of things."""
    m.pairs = list(pairs_of(m))
    n, words = len(m.tokens), [t.text for t in m.tokens]
    starts: dict[int, list[Match]] = {}
    ends: dict[int, list[Match]] = {}
    for match in m.matches:
        starts.setdefault(match.first, []).append(match)
        ends.setdefault(match.last, []).append(match)
    taken: dict[int, int] = {}
    for k, q in enumerate(m.quantities):
        for i in range(q.first, q.last + 1):
            taken[i] = k
    units = {i for a, b in m.asked.unit_spans for i in range(a, b + 1)}
    walls = {i for a, b in m.asked.zones if (a, b) not in m.asked.shared for i in range(a, b + 1)}
    for q in m.quantities:
        bare = q.bare
        near: list[Near] = [Near(x, AFTER[0]) for x in starts.get(q.first, ()) if q.weak and x.last <= q.last]
        if m.tokens[q.last].text == "of":
            near += [Near(x, AFTER[0]) for x in starts.get(q.last, ()) if x.last > q.last]
        cues: dict[str, float] = {}
        noun: tuple[int, int] | None = None
        i, step, factor, owned = q.last + 1, 0, 1.0, True
        while i < n and step < len(AFTER) and factor > FAINT:
            word = words[i]
            held = _container(m.tokens, i) if bare and i == q.last + 1 and i not in walls else None
            if word in CLAUSE or (word in SPACED and not m.tokens[i].glued and held is None) or i in walls:
                break
            if i in taken:
                if (
                    m.quantities[taken[i]].noise != "asked"
                    and not (bare and i == q.last + 1)
                    and not (step == 0 and factor == 1.0 and q.units and m.quantities[taken[i]].strength)
                ):
                    factor *= 0.35
                    owned = False
                if bare and _a_day(m.quantities[taken[i]]):
                    near += [Near(x, AFTER[step]) for x in starts.get(i, ()) if x.last == m.quantities[taken[i]].last]
                i = max([m.quantities[taken[i]].last, *(name[1] for name in m.quantities[taken[i]].names if name)]) + 1
                continue
            if held is not None:
                cues["per"] = 1.2
                i, factor = held, 1.1
                continue
            if bare and i == q.last + 2 and word in ("to", "per", "in") and (held := _container(m.tokens, i)) and (
                word != "in" or _holds(m.tokens, held)
            ):
                cues["per"] = 1.2
                i, factor = held, 1.1
                continue
            if word in SOFT:
                factor *= 0.4
                owned = False
                i += 1
                continue
            if word in QUESTION or (word in ASKING and m.tokens[i + 1 : i + 2] and m.tokens[i + 1].text in WHO):
                break
            for role, clear in SAID_AFTER.get(word, ()) if step < 3 else ():
                cues[role] = max(cues.get(role, 0.0), clear * factor)
            if word in PREPOSITIONS:
                near += [Near(x, AFTER[step] * factor * LED_IN) for x in starts.get(i, ()) if x.last > i]
                factor *= 0.55
                owned = False
                i += 1
                continue
            for match in starts.get(i, ()):
                parted = OF_THE_NEXT if factor < 1.0 and match.last + 1 in taken and i - 1 != q.last else 1.0
                near.append(Near(match, AFTER[step] * factor * parted, owned))
            longer = word in NO_NOUN and any(x.last > i and x.entry.substances for x in starts.get(i, ()))
            named = longer or (word not in NO_NOUN and word not in m.stops)
            if owned and noun is None and m.tokens[i].kind == "word" and named:
                longest = max((x.last for x in starts.get(i, ())), default=i)
                end = longest
                while (
                    end + 1 < n
                    and end + 1 not in taken
                    and end + 1 not in units
                    and end + 1 not in walls
                    and m.tokens[end + 1].kind == "word"
                    and m.tokens[end + 1].text not in m.stops
                    and m.tokens[end + 1].text not in PREPOSITIONS
                    and end - i < 3
                    and not any(row_only(x) for x in starts.get(end + 1, ()))
                ):
                    end = max((x.last for x in starts.get(end + 1, ())), default=end + 1)
                noun = (i, end)
            if word not in LIGHT:
                step += 1
            if bare and not q.weak and m.tokens[i].stem in CONTAINERS and words[i + 1 : i + 2] == ["of"]:
                factor *= HELD
            i += 1
        i, step, factor = q.first - 1, 0, 1.0
        referring = [t.text for t in m.tokens[q.last + 1 : q.last + 3]] in REFERRING
        while i >= 0 and step < len(BEFORE) and factor > FAINT:
            word = words[i]
            if word in CLAUSE or (word in SPACED and not m.tokens[i].glued) or i in walls:
                break
            if i in taken:
                factor *= 0.9 if m.quantities[taken[i]].carried else 0.3
                i = min([m.quantities[taken[i]].first, *(n[0] for n in m.quantities[taken[i]].names if n)]) - 1
                continue
            if word in SOFT:
                factor *= 1.0 if referring else 0.4
                i -= 1
                continue
            if referring and i not in ends:
                i -= 1
                continue
            if factor > 0.25 and step < 4:
                strength = 1.0 if step < 1 else 0.7 if step < 2 else 0.4
                for role, clear in SAID_BEFORE.get(word, ()):
                    if role == "each" and word in ("at", "@") and (q.per or q.strength or not q.units):
                        continue
                    of_it = word == "from" and m.tokens[i + 1].text in PRONOUN
                    if not (of_it or (word == "to" and step and m.tokens[i + 1].text not in LIGHT)):
                        cues[role] = max(cues.get(role, 0.0), clear * strength * factor)
            for match in ends.get(i, ()):
                near.append(Near(match, BEFORE[step] * factor * (ADDED if added_to(m, q, i) else 1.0)))
            if word in PREPOSITIONS and word not in ("at", "to"):
                factor *= 0.75
            if word not in LIGHT:
                step += 1
            i -= 1
        m.near.append(near)
        m.cues.append(cues)
        held = bare and q.first > 1 and m.tokens[q.first - 1].text in HOLDING
        if held and _several_containers(m.tokens[q.first - 2]):
            cues["per"] = 1.2
        if bare and q.value > 1 and _in_one_container(m.tokens, q):
            cues["per"] = 1.2
        if [t.text for t in m.tokens[max(0, q.first - 2) : q.first]] == ["down", "at"]:
            cues["to"] = 1.0
        if q.units and not q.strength and m.nouns and _served_with(m, q):
            cues["each"] = max(cues.get("each", 0.0), EACH_WITH)
        if q.since:
            noun = None
            near.clear()
            cues.clear()
            cues["since"] = SINCE
        elif q.units and _of_one_thing(m, q, taken):
            cues["each"] = max(cues.get("each", 0.0), 1.0)
            _told_of(m, q, taken)
        elif q.units and _of_several(m, q, taken):
            cues["each"] = 1.2 * _each_of_them(m, q, taken)
        if tuple(t.text for t in m.tokens[max(0, q.first - 2) : q.first]) in MUST_BE:
            cues.pop("from", None)
            cues.pop("have", None)
            cues["to"] = 1.0
        if bought(m, len(m.nouns)):
            cues["from"] = max(cues.get("from", 0.0), 1.0)
        if side := _in_or_out(m, q):
            cues[side] = 1.3
        if noun is None and (noun := _label(m, q, taken)) is not None:
            near += [Near(match, LABELLED) for match in ends.get(noun[1], ()) if match.first >= noun[0]]
        m.nouns.append(noun or told_again(m, q))
    tell_parts(m, taken)
    share_units(m)


