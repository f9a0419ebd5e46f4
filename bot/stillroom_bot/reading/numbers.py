"""Numbers: numerals, fractions, words, and the ways in which people mix them."""

from __future__ import annotations

import re
from dataclasses import dataclass

from .tokens import FRACTIONS, Token

LARGEST = 1e12

SIMPLE = frozenset(
    """zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen
sixteen seventeen eighteen nineteen twenty thirty forty fourty fifty sixty seventy eighty ninety hundred
thousand""".split()
)
SPELLING = {"fourty": "forty", "ninty": "ninety", "fourthy": "forty"}
PARTS = {
    "half": 1 / 2,
    "halve": 1 / 2,
    "third": 1 / 3,
    "quarter": 1 / 4,
    "fifth": 1 / 5,
    "sixth": 1 / 6,
    "seventh": 1 / 7,
    "eighth": 1 / 8,
    "ninth": 1 / 9,
    "tenth": 1 / 10,
}
HALVED = frozenset("litres liters pints quarts gallons kilos pounds ounces cups bottles".split())
"""Measures of which there may be so many halves: ``4 half litres``, which are not four and a half."""
GROUPS = {"dozen": 12, "couple": 2, "score": 20, "pair": 2}
OPENING = SIMPLE | SPELLING.keys() | {"point", "a", "an", "half", "quarter", "third", "dozen"}
NUMERIC = frozenset({"number", "fraction"})
"""The kinds of token that are a number in figures."""
NAMED_POINTS = frozenset(
    "freezing boiling melting gelling setting smoke dew price selling starting end the this that a one main".split()
)
"""What a point may be that is none in a number (``the freezing point``)."""
THOUSANDS = re.compile(r"\d{1,3}([.,]\d{3})+\Z")
PLAIN = re.compile(r"\d{1,12}(?:[.,]\d{1,9})?\Z")


@dataclass(slots=True)
class Number:
    """A number at tokens ``first`` to ``last``; ``other`` is its second reading (1.250 as 1250)."""

    value: float
    first: int
    last: int
    other: float | None = None
    high: float | None = None
    worded: bool = False


def number_at(tokens: list[Token], i: int, comma: bool = False) -> Number | None:
    """The number that begins at token ``i``, or None.

    ``comma`` says that the writer has declared the decimal comma (or written one where nothing
    else is possible), which settles ``1,250``.
    """
    t = tokens[i]
    if t.kind == "number":
        return _numeral(tokens, i, comma)
    if t.kind == "fraction":
        return Number(FRACTIONS[t.text], i, i)
    if t.kind == "word" and t.text in OPENING:
        return _worded(tokens, i)
    return None


def _numeral(tokens: list[Token], i: int, comma: bool) -> Number | None:
    text = tokens[i].text
    read = _value(text, comma)
    if read is None:
        return None
    value, other = read
    last = i
    nxt = tokens[i + 1] if i + 1 < len(tokens) else None
    if nxt is not None and nxt.kind == "fraction":
        return Number(value + FRACTIONS[nxt.text], i, i + 1)
    fraction = _fraction(tokens, i)
    if fraction is not None:
        return Number(fraction, i, i + 2)
    if _spaced(tokens, i):
        return Number(float(text + tokens[i + 1].text), i, i + 1)
    gap = 1
    if nxt is not None and nxt.text == "-" and nxt.glued and i + 2 < len(tokens) and tokens[i + 2].glued:
        gap = 2
    mixed = _fraction(tokens, i + gap) if value == int(value) and "." not in text and "," not in text else None
    if mixed is not None and mixed < 1:
        return Number(value + mixed, i, i + gap + 2)
    if nxt is not None and nxt.kind == "word" and nxt.text == "k" and nxt.glued and value < 1000:
        return Number(value * 1000, i, i + 1)
    words = [x.text for x in tokens[i + 1 : i + 5]]
    if words[:1] == ["and"] and len(words) > 2 and words[1] in ("a", "one") and words[2] in PARTS:
        return Number(value + PARTS[words[2]], i, i + 3)
    if words[:1] == ["dozen"]:
        return Number(value * 12, i, i + 1)
    if words[:1] in (["thousand"], ["hundred"]):
        return Number(value * (1000 if words[0] == "thousand" else 100), i, i + 1)
    several = value > 1 and not HALVED.isdisjoint(words[1:2])
    if words[:1] == ["half"] and value == int(value) and PLURALS.isdisjoint(words[2:4]) and not several:
        return Number(value + 0.5, i, i + 1)
    return Number(value, i, last, other)


def _spaced(tokens: list[Token], i: int) -> bool:
    """``V = 1 800 ml``: are thousands set apart by a space, after a sign and before no bottles?"""
    if i + 1 >= len(tokens) or i == 0 or tokens[i - 1].text not in ("=", ":"):
        return False
    if tokens[i - 1].text == ":" and i > 1 and tokens[i - 2].kind == "number":
        return False
    t, nxt = tokens[i], tokens[i + 1]
    digits = t.text.isdigit() and nxt.text.isdigit() and 1 <= len(t.text) <= 3 == len(nxt.text) and t.text[0] != "0"
    return digits and nxt.start - t.end == 1 and not any(x.text in PLURALS for x in tokens[i + 2 : i + 5])


def _value(text: str, comma: bool) -> tuple[float, float | None] | None:
    text = text if text[0] not in ".," else "0" + text
    if text.count(".") + text.count(",") == 0:
        return (float(text), None) if len(text) <= 12 else None
    if "." in text and "," in text:
        point = max(text.rfind("."), text.rfind(","))
        whole, rest = text[:point], text[point + 1 :]
        sign = "," if text[point] == "." else "."
        if not THOUSANDS.match(whole) or text[point] in whole or whole.count(sign) != len(re.findall("[.,]", whole)):
            return None
        return float(whole.replace(sign, "") + "." + rest), None
    if THOUSANDS.match(text) and not text.startswith("0"):
        big = float(text.replace(",", "").replace(".", ""))
        if len(re.findall("[.,]", text)) > 1:
            return big, None
        small = float(text.replace(",", "."))
        if comma:
            return (small, None) if "," in text else (big, None)
        return small, big
    if not PLAIN.match(text):
        return None
    return float(text.replace(",", ".")), None


def _fraction(tokens: list[Token], i: int) -> float | None:
    """``3/4`` at token ``i``: one to two digits, a stroke, one to two digits, nothing glued after."""
    if (
        i + 2 >= len(tokens)
        or tokens[i].kind != "number"
        or tokens[i + 1].text != "/"
        or tokens[i + 2].kind != "number"
    ):
        return None
    a, b = tokens[i].text, tokens[i + 2].text
    if not (a.isdigit() and b.isdigit() and len(a) <= 2 and len(b) <= 2 and 1 < int(b) <= 16 and int(a) > 0):
        return None
    if not (tokens[i + 1].glued and tokens[i + 2].glued):
        return None
    return int(a) / int(b)


def _worded(tokens: list[Token], i: int) -> Number | None:
    words = [
        SPELLING.get(t.text, t.text) if t.kind == "word" else "-" if t.text == "-" else "" for t in tokens[i : i + 12]
    ]
    if words[0] == "point":
        digits, last = _decimals(words, 1)
        return (
            Number(float("0." + digits), i, i + last, worded=True)
            if digits and (i == 0 or tokens[i - 1].text not in NAMED_POINTS)
            else None
        )
    j, run = 0, []
    while j < len(words):
        w = words[j]
        if w in SIMPLE:
            run.append(w)
        elif w == "-" and run and j + 1 < len(words) and words[j + 1] in SIMPLE:
            pass
        elif (
            w == "and" and run and run[-1] in ("hundred", "thousand") and j + 1 < len(words) and words[j + 1] in SIMPLE
        ):
            run.append(w)
        elif w in ("a", "one") and not run and j + 1 < len(words) and words[j + 1] in ("hundred", "thousand"):
            run.append("one")
        else:
            break
        j += 1
    if not run:
        return _part(words, i, 0.0, 0)
    several = not PLURALS.isdisjoint(words[j : j + 3]) and run != ["seven", "fifty"]
    if _hundreds(run) and (several or (run[0] == "one" and not VESSEL.isdisjoint(words[j : j + 3]))):
        run, j = run[:1], 1
    value = _count(run)
    if value is None and j == len(run):
        j = next((k for k in range(len(run) - 1, 0, -1) if _count(run[:k]) is not None), 0)
        value = _count(run[:j]) if j else None
    if value is None:
        return None
    if run[-1] in TENS and words[j : j + 1] in (["to"], ["too"]) and not COUNTED.isdisjoint(words[j + 1 : j + 2]):
        return Number(value + 2, i, i + j, worded=True)
    if words[j : j + 1] == ["point"]:
        digits, last = _decimals(words, j + 1)
        if digits:
            return Number(value + float("0." + digits), i, i + last, worded=True)
    if words[j : j + 1] == ["dozen"]:
        return Number(value * 12, i, i + j, worded=True)
    at = j + (words[j : j + 1] == ["-"])
    part = words[at].rstrip("s") if at < len(words) else ""
    if part in PARTS and part != "half" and value < 20:
        return Number(value * PARTS[part], i, i + at, worded=True)
    more = _and_part(words, j)
    if more is not None:
        return Number(value + more[0], i, i + more[1], worded=True)
    return Number(value, i, i + j - 1, worded=True)


def _decimals(words: list[str], k: int) -> tuple[str, int]:
    """The spoken digits from place ``k`` on (``one two``), and the place of the last of them."""
    digits = ""
    while k < len(words) and words[k] in SIMPLE and (d := _count([words[k]])) is not None and d < 10:
        digits, k = digits + str(int(d)), k + 1
    return digits, k - 1


def _and_part(words: list[str], j: int) -> tuple[float, int] | None:
    """``and a half``, ``and three quarters`` at place ``j``: its value and the place of its last word."""
    if words[j : j + 1] != ["and"]:
        return None
    k = j + 1
    count = 1.0
    if words[k : k + 1] and words[k] in ("a", "one"):
        k += 1
    elif words[k : k + 1] == ["three"] or words[k : k + 1] == ["two"]:
        count, k = (3.0 if words[k] == "three" else 2.0), k + 1
    if k < len(words) and words[k].rstrip("s") in PARTS:
        return count * PARTS[words[k].rstrip("s")], k
    return None


def _part(words: list[str], i: int, before: float, at: int) -> Number | None:
    w = words[0] if words else ""
    if w == "half" and words[1:3] in (["a", "dozen"],):
        return Number(6, i, i + 2, worded=True)
    if w in ("half", "quarter", "third"):
        after = 1 if words[1:2] in (["a"], ["an"], ["of"]) else 0
        if after and words[1] == "of" and words[2:3] in (["a"], ["an"]):
            after = 2
        return Number(PARTS[w], i, i + after, worded=True)
    if w in ("a", "an", "one") and words[1:2] and words[1] in PARTS:
        value = PARTS[words[1]]
        if words[1] == "half" and words[2:3] == ["dozen"]:
            return Number(6, i, i + 2, worded=True)
        after = 2 if words[2:3] in (["of"],) else 1
        if after == 2 and words[3:4] in (["a"], ["an"]):
            after = 3
        return Number(value, i, i + after, worded=True)
    if w in ("a", "an", "one") and words[1:2] and words[1] in ("dozen", "couple", "pair"):
        return Number(GROUPS[words[1]], i, i + (2 if words[2:3] == ["of"] else 1), worded=True)
    if w == "dozen":
        return Number(12, i, i, worded=True)
    return None


DIGITS = frozenset("one two three four five six seven eight nine".split())
TENS = frozenset("twenty thirty forty fifty sixty seventy eighty ninety".split())


PLURALS = frozenset("bottles cans kegs jugs tubs bags boxes shots pours glasses serves jars".split())


COUNTED = frozenset("dollars euros pounds percent mils millilitres milliliters grams ounces litres liters".split())
"""After ``thirty to``, what dictation makes of thirty-two."""


VESSEL = frozenset("bottle can keg jug tub bag box jar".split())
"""``one seventy centilitre bottle``: a bottle, and its size."""


def _hundreds(run: list[str]) -> bool:
    return 1 < len(run) < 4 and run[0] in DIGITS and run[1] in TENS and not set(run[2:]) - DIGITS


def _count(run: list[str]) -> float | None:
    """What number words come to; ``one ninety five`` is said for one hundred and ninety-five."""
    from text_to_num import text2num

    if _hundreds(run):
        run = [run[0], "hundred", *run[1:]]
    try:
        return float(text2num(" ".join(run), "en"))
    except ValueError:
        return None
