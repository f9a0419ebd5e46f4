"""What is said and taken back in the same breath, or said twice: ``twelve, no, eighteen percent``; ``58 %, the 58``."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from .clauses import PART_ENDS, SENTENCE_ENDS
from .combining import PORTIONS, VESSELS
from .lexicon import Match
from .message import Message
from .quantity import Quantity
from .tokens import Token

MARKS = (
    ("no", "sorry"), ("no", "wait"), ("no", "hang", "on"), ("no", "make", "that"), ("no", "it's"), ("no", "its"),
    ("no", "actually"), ("no", "i", "mean"), ("sorry",), ("wait",), ("hang", "on"), ("make", "that"),
    ("scratch", "that"), ("i", "mean"), ("i", "meant"), ("or", "rather"), ("correction",), ("no", "no"), ("no",),
)  # fmt: skip
MARK_BEGINS, LONGEST_MARK = frozenset(m[0] for m in MARKS), max(map(len, MARKS))
HUMMED = frozenset("um uh er erm uhm hmm ah oh".split())
NO = ("no",)
BEFORE, AFTER = 4, 6
FEW, TOLD = 12, 0.6
SAME_BREATH = frozenset(",-") | HUMMED
SAYING = frozenset("said say says meant mean".split())
IT_IS = frozenset("it's its is that's".split())
TARGETING = frozenset("for to into make".split())
ADDING = frozenset("another extra further plus".split())
REALLY = frozenset({"really", "actually", "truly"})
CLAIMING = frozenset("says say reckons thinks claims swears".split())
PEOPLE = frozenset(
    """she he they everyone everybody someone somebody mate boss chef friend guest colleague student manager lad
    bartender barback here""".split()
)
POINTING = frozenset("the those that these".split())
STARTING = POINTING | frozenset("it's its it at to i".split())


def corrected(tokens: list[Token], found: list[Quantity]) -> None:
    """Reject the number of two that was taken back for the other: of one measure, or one without any.

    What another thing comes instead of is no number taken back: ``rich syrup instead of 30 ml simple``.
    """
    real = [q for q in found if not q.noise or q.noise == "time"]
    for a, b in itertools.pairwise(real):
        if a.noise or (b.noise and not a.bare):
            continue
        alike = a.units == b.units or a.bare or b.bare
        if not alike or a.ratio is not None or b.ratio is not None:
            continue
        between = [t.text for t in tokens[a.last + 1 : b.first]]
        hummed = bool(between) and HUMMED.issuperset(between) and a.value == b.value
        if hummed or _taken_back(between):
            if b.bare and a.units:
                b.units, b.noted = a.units, True
            a.rejected = True
    for q in found:
        words = [t.text for t in tokens[max(0, q.first - 2) : q.first]]
        if q.rejected and words == ["instead", "of"] and not any(o.units == q.units for o in found if o is not q):
            q.rejected = False


def _taken_back(between: Sequence[str]) -> bool:
    """Do the words between two numbers take the first one back for the second?"""
    for i in range(min(len(between), BEFORE + 1)):
        if between[i] in SENTENCE_ENDS:
            return False
        mark = _mark_at(between, i)
        if mark is None:
            continue
        rest = [w for w in between[i + len(mark) :] if w not in SAME_BREATH]
        of_a_thing = mark == NO and bool(rest) and rest[0] not in {*between[:i], *STARTING}
        return len(rest) <= AFTER and SENTENCE_ENDS.isdisjoint(rest) and not of_a_thing
    return False


def _mark_at(words: Sequence[str], i: int) -> tuple[str, ...] | None:
    """The words at a place that take back what was said before them."""
    if i >= len(words) or words[i] not in MARK_BEGINS:
        return None
    return next((m for m in MARKS if tuple(words[i : i + len(m)]) == m), None)


def withdrawn(tokens: list[Token], x: Match, matches: list[Match]) -> bool:
    """``pineapple, no wait, grapefruit``: is a thing taken back for another that follows?"""
    if not x.entry.substances:
        return False
    k = x.last + 1
    while k < len(tokens) and tokens[k].text in SAME_BREATH:
        k += 1
    mark = _mark_at([t.text for t in tokens[k : k + LONGEST_MARK]], 0)
    if mark is None or mark == NO:
        return False
    first = k + len(mark)
    while first < len(tokens) and tokens[first].text in SAME_BREATH | POINTING:
        first += 1
    return any(y.first == first and y.entry.substances and y.entry is not x.entry for y in matches)


def said_again(m: Message) -> None:
    """Mark the numbers that only repeat one before: all of a later sentence, or one after a comma (``58 %, 58``)."""
    before: list[int] = []
    for group in _sentences(m):
        real = [k for k in group if not (m.quantities[k].noise or m.quantities[k].rejected or m.quantities[k].weak)]
        again = {k: j for k in real if (j := _same(m, k, before)) is not None}
        for k in real:
            if k in again and (len(again) == len(real) or _pointed_at(m, k)):
                m.quantities[k].noise = "repeat"
        for j, k in itertools.pairwise(group):
            if _echoed(m, j, k):
                m.quantities[k].noise = "repeat"
        before += [k for k in group if not m.quantities[k].noise]


def claimed(m: Message) -> None:
    """Mark the numbers that somebody only says, where it is asked what is really so: ``she says 21 %. What is it
    really?``; what a label or a recipe says is told, and no claim."""
    texts = [t.text for t in m.tokens]
    if REALLY.isdisjoint(texts) or CLAIMING.isdisjoint(texts):
        return
    last = max(i for i, w in enumerate(texts) if w in REALLY)
    for i, w in enumerate(texts[:last]):
        end = next((k for k in range(i, len(texts)) if texts[k] in PART_ENDS), len(texts))
        if w in CLAIMING and end < last and any(x in PEOPLE for x in texts[max(0, i - 3) : i]):
            for q in m.quantities:
                q.noise = q.noise or ("claimed" if i < q.first < end else "")


def _sentences(m: Message) -> list[list[int]]:
    """The numbers of each sentence."""
    groups: list[list[int]] = [[]]
    for k, q in enumerate(m.quantities):
        if k and any(t.text in SENTENCE_ENDS for t in m.tokens[m.quantities[k - 1].last + 1 : q.first]):
            groups.append([])
        groups[-1].append(k)
    return groups


def _same(m: Message, k: int, before: list[int]) -> int | None:
    """The number before that a number repeats: the same one, of the same thing or of nothing that is named."""
    q = m.quantities[k]
    return next(
        (
            j
            for j in before
            if _alike(q, m.quantities[j])
            and (_of_no_other(m, k, j) or not _of_a_thing(m, k) or _served_in(m, k, j))
            and (_led(m, k) in ("", _led(m, j)) or m.cues[j].get(_led(m, k), 0.0) >= TOLD)
        ),
        None,
    )


def _led(m: Message, k: int) -> str:
    """The word before a number by which it is a target or comes on top: ``for 500 ml`` of what makes 500 ml, and
    ``another 18 g``, are said for themselves."""
    first = m.quantities[k].first
    word = m.tokens[first - 1].text if first else ""
    return word if word in TARGETING or word in ADDING else ""


def _of_a_thing(m: Message, k: int) -> bool:
    noun = m.nouns[k]
    return noun is not None and any(
        noun[0] <= x.first <= noun[1] and (x.entry.substances or x.entry.meanings) for x in m.matches
    )


def _alike(q: Quantity, o: Quantity) -> bool:
    return q.value == o.value and (q.units == o.units or q.bare) and q.ratio == o.ratio and q.per == o.per and (
        q.value != 1 or bool(q.units) or q.ratio is not None
    )


def _of_no_other(m: Message, k: int, j: int) -> bool:
    noun, other = m.nouns[k], m.nouns[j]
    if noun is None or other is None:
        return True
    things, others = _things(m, noun), _things(m, other)
    if things and others and things.isdisjoint(others):
        return False
    own, theirs = ({m.tokens[i].stem for i in range(n[0], n[1] + 1)} for n in (noun, other))
    return bool(own & theirs)


def _served_in(m: Message, k: int, j: int) -> bool:
    """``two cocktails ... the two glasses``: what is served, and what it is served in, as many as those."""
    noun, other = m.nouns[k], m.nouns[j]
    if noun is None or other is None or not _pointed_at(m, k):
        return False
    return m.tokens[noun[1]].stem in VESSELS | PORTIONS and m.tokens[other[1]].stem in PORTIONS


def _things(m: Message, noun: tuple[int, int]) -> set[str]:
    return {s.id for x in m.matches if noun[0] <= x.first and x.last <= noun[1] for s in x.entry.substances}


def _pointed_at(m: Message, k: int) -> bool:
    """``those 21 g``, ``900 g of the 2:1``, ``how much of the 80?``"""
    q = m.quantities[k]
    before = m.tokens[q.first - 1].text if q.first else ""
    return before in ("those", "these") or (before == "the" and (q.bare or q.strength or q.ratio is not None))


def _echoed(m: Message, j: int, k: int) -> bool:
    """``58 percent, 58``, ``0.4 %, they said 0.4 %``, ``0.08 g salt, per drink it's 0.08 g``: the one before again,
    of nothing that is named."""
    o, q = m.quantities[j], m.quantities[k]
    if q.noise or q.rejected or o.noise or o.rejected or not _alike(q, o) or (q.value == 1 and q.ratio is None):
        return False
    between = m.tokens[o.last + 1 : q.first]
    paused = any(t.text == "," or t.text in SENTENCE_ENDS for t in between)
    after = m.tokens[q.last + 1].text if q.last + 1 < len(m.tokens) else "."
    told = all(t.text in m.stops or t.kind != "word" or t.text in SAYING for t in between)
    same = told or (not q.strength and not IT_IS.isdisjoint(t.text for t in between[-2:]))
    last = after in SENTENCE_ENDS or after == "," or (q.bare and q.value > FEW)
    alone = bool(between) and between[-1].text == "," and last
    alone = alone and (q.bare or m.nouns[k] is None) and _of_no_other(m, k, j)
    return paused and len(between) <= BEFORE + AFTER and (
        alone or (same and q.units == o.units and m.nouns[k] is None)
    )
