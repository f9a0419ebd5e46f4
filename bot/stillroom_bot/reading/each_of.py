"""Amounts that are meant for each of several: ``30 ml each of gin, bitter and vermouth``, ``40 ml a guest``."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from .by_parts import JUICE, SOUR
from .clauses import PART_ENDS
from .lexicon import Lexicon
from .numbers import number_at
from .quantity import MASS, MONEY_ASKED, VOLUME
from .tokens import Token

LONGEST_ITEM, FEWEST = 8, 2
LAST = frozenset({"and", "&", "plus"})
A, BETWEEN = frozenset({"a", "pro"}), 3
SERVED = frozenset("guest head person drink cocktail serve serving portion cover pax".split())
ONCE = frozenset("pop go throw".split())
PORTIONED = SERVED | ONCE | frozenset("glass shot coffee dessert".split())
"""What stands after an amount and ``a``: ``2 oz a pop``, ``35 ml a go``; the words of ``ONCE`` name no thing."""
COUNTED_OUT = frozenset({"drop", "dash"})
"""Drops for a glass are what one takes, and the job is about that one (``8 drops a glass, salt in it?``)."""
QUOTES = frozenset("'\"")
GOES_ON = frozenset("come comes came make makes what how is are land lands work works".split())
ASKING = frozenset("how what which".split())
ARTICLES = frozenset({"a", "an", "the"})
OF_ONE = frozenset({"of", "with", "at"})
LISTING, SHARES = frozenset({"of", ":"}), frozenset({"part", "measure"})
EQUAL = frozenset({"equal", "even", "same"})
EVENLY = (("half", "and", "half"), ("50", "/", "50"), ("50", "-", "50"), ("fifty", "fifty"), ("equal", "halves"),
          ("equal", "thirds"), ("equal", "quarters"))
EVENLY_BEGINS = frozenset(said[0] for said in EVENLY)
EQUAL_PARTS = (("word", "equal", "equal"), ("word", "parts", "part"))
ONE_TO_ONE = (("number", "1", "1"), ("mark", ":", ":"), ("number", "1", "1"))
SIGNS = frozenset({"%", "percent", "proof", "abv"})


def shared_out(tokens: list[Token], lexicon: Lexicon) -> list[Token]:
    """The tokens with the amount before each thing of the list; the same tokens where there is no such list.

    ``Equal parts of`` three things, or of things with strengths of their own, is one part of each.
    """
    tokens = _evenly(tokens, lexicon)
    for i, t in enumerate(tokens):
        if t.text == "each" and i and tokens[i + 1 : i + 2] and tokens[i + 1].text in LISTING:
            amount, first = _amount(tokens, i, lexicon), i
        elif t.stem in SHARES and i and tokens[i - 1].text in EQUAL:
            one = replace(tokens[i - 1], kind="number", text="1", stem="1")
            amount, first = [one, replace(t, text="parts", stem="part")], i - 1
        elif t.stem in SHARES and (several := _so_many(tokens, i, lexicon)):
            amount, first = several, i - len(several) - 1
        else:
            continue
        begin = i + 1
        while begin < len(tokens) and tokens[begin].text in QUOTES | LISTING:
            begin += 1
        things = list(_list(tokens, begin))
        if t.text != "each" and (start := _strong_before(tokens, first, lexicon)) < first:
            listed = [[replace(t, kind="mark", text=",", stem=","), *amount, *x] for x in _list(tokens[:first], start)]
            return [*tokens[:start], *(x for part in listed for x in part), *tokens[i + 1 :]]
        if (last := _each_at_last(things, lexicon)) and t.text != "each":
            amount, things = last, things[:-1]
        if any(thing[0].text in ASKING or (t.text != "each" and _told(thing, lexicon)) for thing in things):
            continue
        things = [thing[thing[0].text in ARTICLES :] for thing in things]
        strengths = sum(any(x.text in ("%", "percent", "proof", "abv") for x in thing) for thing in things)
        numbered = any(x.kind == "number" for thing in things for x in thing)
        plain = not numbered and (len(things) > FEWEST or _juices(tokens, things, lexicon))
        if amount and len(things) >= FEWEST and (t.text == "each" or strengths >= FEWEST or plain):
            halved = [x.text for x in tokens[first - 3 : first]] == ["and", "a", "half"]
            before = tokens[: first - (5 if halved else len(amount)) if t.text == "each" else first]
            comma = replace(t, kind="mark", text=",", stem=",")
            said = [x for thing in things for x in [comma, *amount, *thing]][1:]
            end = next(k for k, x in enumerate(tokens) if x is things[-1][-1]) + 1
            end += 1 + len(last) if last and t.text != "each" else 0
            return [*_without_equal_parts(before), *said, *tokens[end:]]
    return tokens


def _evenly(tokens: list[Token], lexicon: Lexicon) -> list[Token]:
    """The tokens with ``half and half``, ``50/50`` and ``equal thirds`` as equal parts, or as one to one."""
    for i, t in enumerate(tokens):
        said = tuple(x.text for x in tokens[i : i + 3]) if t.text in EVENLY_BEGINS else ()
        size = next((len(e) for e in EVENLY if said[: len(e)] == e), 0)
        unit = lexicon.unit_at(tokens, i + size) if size and i + size < len(tokens) else None
        if size and (unit is None or lexicon.units[unit[0][0]].dimension not in (MASS, VOLUME)):
            written = EQUAL_PARTS if said[0] == "equal" or _strengths(tokens) >= FEWEST else ONE_TO_ONE
            told = [replace(t, kind=kind, text=text, stem=stem, glued=False) for kind, text, stem in written]
            return [*tokens[:i], *told, *tokens[i + size :]]
    return tokens


def _strengths(tokens: list[Token]) -> int:
    """How many strengths are told: by their sign, or as a number after ``at``."""
    signs = [i for i, t in enumerate(tokens) if t.text in SIGNS and i and tokens[i - 1].text not in SIGNS]
    at = (number_at(tokens, i + 1) for i, t in enumerate(tokens[:-1]) if t.text == "at")
    return len(signs) + sum(n is not None and n.last + 1 not in signs for n in at)


def _strong_before(tokens: list[Token], end: int, lexicon: Lexicon) -> int:
    """``gin at 40 % and vermouth at 15 %, equal parts``: where the list of things with strengths begins that ends
    before token ``end``; ``end`` itself where there is none."""
    start = end
    while start and tokens[start - 1].text not in PART_ENDS:
        start -= 1
    while start < end and not lexicon.poured_at(tokens, start):
        start += 1
    things = list(_list(tokens[:end], start))
    strong = len(things) >= FEWEST and all(_strengths(x) for x in things)
    return start if strong and not any(_told(x, lexicon) for x in things) else end


def _so_many(tokens: list[Token], i: int, lexicon: Lexicon) -> list[Token]:
    """``two 3 cl parts: gin and vermouth``: the amount of each of the parts that end at token ``i``."""
    amount = _amount(tokens, i, lexicon) if [t.text for t in tokens[i + 1 : i + 2]] == [":"] else []
    at = i - len(amount) - 1
    count = number_at(tokens, at) if amount and at >= 0 else None
    return amount if count is not None and count.last == at and count.value > 1 else []


def _each_at_last(things: list[list[Token]], lexicon: Lexicon) -> list[Token]:
    """``equal parts rum, lime and syrup, 30 ml each``: the amount that stands last in a list, and is of each."""
    if len(things) <= FEWEST or things[-1][-1].text != "each":
        return []
    amount = _amount(things[-1], len(things[-1]) - 1, lexicon)
    return amount if len(amount) == len(things[-1]) - 1 else []


def _juices(tokens: list[Token], things: list[list[Token]], lexicon: Lexicon) -> bool:
    """``equal parts lime and grapefruit, how acidic is it?``: are both things juices, and is it asked how sour?"""
    sour = not SOUR.isdisjoint(t.stem for t in tokens)
    return sour and all(any(e.kinds & JUICE for _, e in lexicon.begin(thing, 0)) for thing in things)


def _told(thing: list[Token], lexicon: Lexicon) -> bool:
    """Has a thing of a list an amount of its own (``equal parts: 30 ml of gin, 30 ml of vermouth``)?"""
    return any(_amount(thing, end, lexicon) and not _strength(thing, end, lexicon) for end in range(2, len(thing)))


def _strength(thing: list[Token], end: int, lexicon: Lexicon) -> bool:
    unit = lexicon.unit_at(thing, end - 1)
    return unit is None or all(lexicon.units[u].dimension not in (MASS, VOLUME) for u in unit[0])


def apiece(tokens: list[Token], lexicon: Lexicon) -> list[Token]:
    """The tokens with ``40 ml a guest``, ``2 g of it a head`` written as the amount for each, and a rate as one."""
    told, empty = list(tokens), set()
    for i in range(1, len(tokens) - 1):
        if tokens[i].text in A and tokens[i + 1].stem in PORTIONED and (
            _measured(tokens, i, lexicon) or _a_sum(tokens, i)
        ):
            if tokens[i + 1].stem == "glass" and tokens[i - 1].stem in COUNTED_OUT:
                continue
            told[i] = replace(tokens[i], text="each", stem="each")
            empty |= {i + 1} if tokens[i + 1].stem in ONCE else set()
        elif tokens[i].text == "for" and _in_a_rate(tokens, i, lexicon):
            told[i] = replace(tokens[i], text="per", stem="per")
        elif tokens[i].text == "/" and tokens[i + 1].stem in PORTIONED and tokens[i - 1].stem in MONEY_ASKED:
            told[i] = replace(tokens[i], kind="word", text="per", stem="per")
    return [t for i, t in enumerate(told) if i not in empty]


def of_each_served(tokens: list[Token], lexicon: Lexicon) -> list[Token]:
    """``24 drinks of 2 oz gin`` with ``each`` after it: the amount is of every one; the same tokens for a list."""
    for i in range(1, len(tokens) - 4):
        if tokens[i].stem not in SERVED or tokens[i + 1].text not in OF_ONE or tokens[i - 1].kind != "number":
            continue
        number = number_at(tokens, i + 2)
        unit = lexicon.unit_at(tokens, number.last + 1) if number is not None else None
        if unit is None or lexicon.units[unit[0][0]].dimension not in (MASS, VOLUME):
            continue
        end = unit[1] + 1
        end += end < len(tokens) and tokens[end].text == "of"
        things = (n for n, entry in lexicon.begin(tokens, end) if entry.substances) if end < len(tokens) else iter(())
        end += next(things, 0)
        after = [t.text for t in tokens[end : end + 1]]
        listed = after in ([","], ["and"], ["+"]) and number_at(tokens, end + 1) is not None
        if end > unit[1] + 1 and not listed and after[0:1] != [] and tokens[end].kind != "number" and after != ["each"]:
            each = replace(tokens[end - 1], kind="word", text="each", stem="each")
            return [*tokens[:end], each, *tokens[end:]]
    return tokens


def _a_sum(tokens: list[Token], i: int) -> bool:
    """``comes out at 1.75 a serve``: does a sum of money stand before token ``i``, where money is spoken of?"""
    text = tokens[i - 1].text
    written = tokens[i - 1].kind == "number" and len(text) > 3 and text[-3] in ".,"
    return written and any(t.stem in MONEY_ASKED for t in tokens)


def _in_a_rate(tokens: list[Token], i: int, lexicon: Lexicon) -> bool:
    """``how much is this in grams for litre?``: does a unit asked in stand before token ``i``, and another after it?"""
    asked = i > 1 and tokens[i - 2].text == "in" and lexicon.unit_at(tokens, i - 1) is not None
    under = lexicon.unit_at(tokens, i + 1) if asked else None
    return under is not None and all(lexicon.units[u].dimension in (MASS, VOLUME) for u in under[0])


def _measured(tokens: list[Token], end: int, lexicon: Lexicon) -> bool:
    """Does an amount stand before token ``end``, with no more than what it is an amount of between them?"""
    for last in range(end, max(0, end - BETWEEN - 1), -1):
        if _amount(tokens, last, lexicon):
            return True
        if tokens[last - 1].kind != "word":
            return False
    return False


def _amount(tokens: list[Token], end: int, lexicon: Lexicon) -> list[Token]:
    """The number and unit that end before token ``end``."""
    for start in range(max(0, end - 4), end):
        number = number_at(tokens, start)
        if number is not None and number.last < end - 1:
            unit = lexicon.unit_at(tokens, number.last + 1)
            if unit is not None and unit[1] == end - 1:
                return tokens[start:end]
    return _and_a_half(tokens, end, lexicon)


def _and_a_half(tokens: list[Token], end: int, lexicon: Lexicon) -> list[Token]:
    """``an ounce and a half``: as a number and its unit."""
    if [t.text for t in tokens[max(0, end - 3) : end]] != ["and", "a", "half"] or end < 5:
        return []
    unit = lexicon.unit_at(tokens, end - 4)
    whole = number_at(tokens, end - 5)
    value = 1.0 if tokens[end - 5].text in ("a", "an") else whole.value if whole else 0.0
    if unit is None or unit[1] != end - 4 or not value:
        return []
    number = f"{value + 0.5:g}"
    return [replace(tokens[end - 5], kind="number", text=number, stem=number), tokens[end - 4]]


def _list(tokens: list[Token], start: int) -> Iterator[list[Token]]:
    """The things of a list, each without its comma and its ``and``; after that, a comma ends it."""
    thing: list[Token] = []
    last = False
    for t in tokens[start:]:
        if t.text in PART_ENDS or (last and t.text == ",") or (last and thing and t.text in GOES_ON):
            break
        if t.text == "," or t.text in LAST:
            last = t.text in LAST
            if thing:
                yield thing
            thing = []
        elif len(thing) >= LONGEST_ITEM:
            return
        else:
            thing.append(t)
    if thing:
        yield thing


def _without_equal_parts(tokens: list[Token]) -> list[Token]:
    """``Equal parts`` says nothing more once the amount of each is said."""
    return [
        t
        for i, t in enumerate(tokens)
        if not (t.text in EQUAL and [x.stem for x in tokens[i + 1 : i + 2]] == ["part"])
        and not (t.stem == "part" and i and tokens[i - 1].text in EQUAL)
    ]
