"""A number of a message with what it measures, and a place to look for more of them."""

from __future__ import annotations

from dataclasses import dataclass

from .lexicon import Lexicon
from .tokens import Token

MASS = (1.0, 0.0, 0.0, 0.0, 0.0, 0.0)
VOLUME = (0.0, 3.0, 0.0, 0.0, 0.0, 0.0)
TIME = (0.0, 0.0, 1.0, 0.0, 0.0, 0.0)
MONEY = {
    "$": "$",
    "€": "€",
    "£": "£",
    "¥": "¥",
    "usd": "$",
    "eur": "€",
    "gbp": "£",
    "dollar": "$",
    "buck": "$",
    "euro": "€",
    "quid": "£",
    "pound": "£",
    "sterling": "£",
    "cent": "¢",
    "pence": "p",
    "p": "p",
    "chf": "CHF",
    "franc": "CHF",
    "kr": "kr",
    "krona": "kr",
    "krone": "kr",
    "yen": "¥",
    "jpy": "¥",
    "peso": "MXN",
    "mxn": "MXN",
    "cad": "CAD",
    "aud": "AUD",
    "nzd": "NZD",
    "sek": "SEK",
    "nok": "NOK",
    "dkk": "DKK",
    "pln": "PLN",
    "zloty": "PLN",
    "rand": "ZAR",
    "zar": "ZAR",
    "rupee": "INR",
    "inr": "INR",
}
HUNDREDTHS = frozenset({"¢", "p"})
MONEY_ASKED = frozenset("cost costing price charge spend pay worth money dear dearer cheap cheaper".split())
"""The words of a question about money."""
HOMOPHONES = {
    "ate": 8.0,
    "too": 2.0,
    "to": 2.0,
    "for": 4.0,
    "fore": 4.0,
    "four": 4.0,
    "won": 1.0,
    "tree": 3.0,
    "sex": 6.0,
    "tin": 10.0,
    "tenn": 10.0,
    "sicks": 6.0,
    "fife": 5.0,
}
BOTTLE_LITRES = (0.35, 0.375, 0.5, 0.7, 0.75, 1.0, 1.5, 1.75)
PART = "part"
STRENGTHS = frozenset({"percent", "percent_ww", "percent_vv", "percent_wv", "brix", "abv", "proof"})


@dataclass(slots=True)
class Quantity:
    """A number of the message.

    ``units`` are the candidates (names of the registry; empty for a bare number), ``per`` the unit or the
    amount under a rate, ``other`` a second reading of the number; ``ratio`` holds both terms and, where
    they are named, the tokens of their names.  ``noise`` says why it is no part of a job.  ``shared`` are the
    units of other numbers that a bare one may mean as well (``at 61 brix, water to make it 57``).  ``aside`` counts
    the people of an occasion, told in brackets: a job that makes so much for each is hardly asked for by it.
    ``since`` says that it is the time between two days or instants, which nobody said as a number.
    """

    value: float
    first: int
    last: int
    units: tuple[str, ...] = ()
    other: float | None = None
    high: float | None = None
    ratio: tuple[float, float] | None = None
    names: tuple[tuple[int, int] | None, tuple[int, int] | None] = (None, None)
    per: tuple[str, float] | None = None
    per_span: tuple[int, int] | None = None
    money: str = ""
    noise: str = ""
    unsized: str = ""
    rejected: bool = False
    each: bool = False
    implied: bool = False
    weak: bool = False
    carried: bool = False
    noted: bool = False
    factor: bool = False
    aside: bool = False
    since: bool = False
    times: tuple[int, float] | None = None
    shared: tuple[str, ...] = ()

    @property
    def strength(self) -> bool:
        """A percent of any kind, which may stand before its noun as an adjective does (``20 % saline``)."""
        return not STRENGTHS.isdisjoint(self.units)

    @property
    def bare(self) -> bool:
        """A number without any unit."""
        return not self.units and self.ratio is None and not self.money and not self.unsized


class Looking:
    """The tokens of a message, with the vocabulary to read them by."""

    def __init__(self, tokens: list[Token], lexicon: Lexicon, comma: bool = False):
        self.t, self.lex, self.comma = tokens, lexicon, comma

    def _word(self, i: int) -> str:
        return self.t[i].text if 0 <= i < len(self.t) else ""

    def _stem(self, i: int) -> str:
        return self.t[i].stem if 0 <= i < len(self.t) else ""

    def _dimension(self, q: Quantity) -> tuple[float, ...]:
        return self.lex.units[q.units[0]].dimension if q.units else ()
