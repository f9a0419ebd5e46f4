"""Messages to throw at a conversation: any text at all, and questions of the corpus with parts changed.

``ANY`` knows nothing of the trade; ``MUTATED`` starts from a question that is read well and swaps,
drops, doubles and corrupts its words and numbers, so that it gets deep into reading and solving.
"""

from __future__ import annotations

import json
import re
from functools import cache
from pathlib import Path

from hypothesis import strategies as st

CORPUS = Path(__file__).parent / "corpus"
WORD = re.compile(r"\s+|[^\s]+")
NUMBERS = ("0", "-5", "1e308", "1e-320", "9" * 400, "0.0000000001", "1/0", "1.250", "1,250,000.5", "½", "٣", "²", "inf",
           "nan", "0x10", "1:0", "2:1:4", "100%", "101 %", "-40 %", "1e5 l", "7 of 3", "3 x 4 x 5", "12-15", "0:0")
UNITS = ("ml", "g", "%", "oz", "drops", "°Bx", "psi", "°C", "kg/l", "proof", "dozen", "glugs", "to one", "each")
MARKUP = ("<b>", "</script>", "*_`[", "{0}", "%s", "\\u0000", "&lt;", "\x00", "\x1b[31m", "\u202e", "\ufeff", "\ud800",
          "__import__('os')", "'; drop table chats; --", "lambda: 0", "${x}", "9**9**9", "\r\n", "🍋" * 3, "é", "ﬁ")
TRADE = ("salt", "sugar", "lime", "water", "saline", "syrup", "milk", "how much", "what is", "and", "then", "for",
         "instead", "not", "double it", "in oz", "that", "half of", "siphon", "charger", "abv", "brix", "peel", "cost")


@cache
def questions() -> tuple[str, ...]:
    """Every question of the development half of the corpus, turns of dialogues too."""
    rows = [json.loads(x) for f in sorted(CORPUS.glob("*_dev.jsonl")) for x in f.read_text("utf-8").splitlines() if x]
    return tuple(t for r in rows for t in ([r["q"]] if "q" in r else [turn["text"] for turn in r["turns"]]))


def _pieces() -> st.SearchStrategy[str]:
    small = st.sampled_from((*NUMBERS, *UNITS, *MARKUP, *TRADE))
    return st.one_of(small, st.integers().map(str), st.floats().map(repr), st.text(max_size=12))


CHARACTERS = st.characters(codec=None, exclude_categories=())
"""Any code point, lone surrogates and control characters too."""

ANY = st.one_of(
    st.text(CHARACTERS, max_size=200),
    st.lists(_pieces(), max_size=40).map(" ".join),
    st.lists(_pieces(), min_size=1, max_size=8).flatmap(
        lambda parts: st.integers(1, 600).map(lambda n: " ".join(parts * n)[:5000])),
)


@st.composite
def _mutated(draw: st.DrawFn) -> str:
    words = WORD.findall(draw(st.sampled_from(questions())))
    for _ in range(draw(st.integers(1, 6))):
        at = draw(st.integers(0, max(0, len(words) - 1)))
        change = draw(st.sampled_from(("drop", "double", "swap", "put", "replace", "borrow", "corrupt")))
        if not words or change == "put":
            words.insert(at, " " + draw(_pieces()) + " ")
        elif change == "drop":
            del words[at]
        elif change == "double":
            words[at:at] = [words[at], " "]
        elif change == "swap":
            other = draw(st.integers(0, len(words) - 1))
            words[at], words[other] = words[other], words[at]
        elif change == "replace":
            words[at] = draw(_pieces())
        elif change == "borrow":
            other_words = WORD.findall(draw(st.sampled_from(questions())))
            cut = draw(st.integers(0, len(other_words)))
            words[at:] = other_words[cut:]
        else:
            k = draw(st.integers(0, len(words[at])))
            words[at] = words[at][:k] + draw(st.text(CHARACTERS, max_size=2)) + words[at][k:]
    return "".join(words)


MUTATED = _mutated()
PLAIN = st.sampled_from(questions())
CROWD = st.lists(PLAIN, min_size=3, max_size=40).map(lambda several: " ".join(several)[:4096])
"""Several questions run together, as when a prep list is pasted whole."""

PARTS = ("version", "settings", "last", "open", "request", "calculator", "given", "wanted", "order", "choices", "x")
ROWS = st.recursive(
    st.none() | st.booleans() | st.floats(allow_nan=False, allow_infinity=False) | st.text(max_size=5),
    lambda x: st.lists(x, max_size=4) | st.dictionaries(st.sampled_from(PARTS), x, max_size=5), max_leaves=12)
"""What may stand in a chat's row after an upgrade, a downgrade or a slip."""
