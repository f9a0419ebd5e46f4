"""One written line of a spec: ``45 ml gin at 47 %`` as an amount, a thing, and what is said of it.

A line that cannot be kept as it stands raises ``BadLine`` with a sentence; one without an amount is none,
and then it belongs to the method.
"""

from __future__ import annotations

import re
from dataclasses import replace

from stillroom import Amount, Line
from stillroom.units import PERCENTS, Unit, Units

from ..reading.candidate import MASS, VOLUME
from ..reading.message import Message
from ..reading.quantity import Quantity
from ..reading.reader import Reader
from .names import alike, likeness

NONE = (0.0,) * 6
LONGEST_LINE, LONGEST_THING = 300, 80
METHOD = frozenset(
    """shake stir strain add combine mix dissolve heat simmer warm cook boil bring blend pour leave rest infuse press
    steep cover serve garnish chill freeze whisk whip build muddle roll swizzle throw double fine charge bottle label
    keep store cool soak wash peel crush filter let stand hold use put give do make""".split()
)
TOPPED = re.compile(r"^(?:top|topped|fill|lengthen|float|finish)(?:\s+(?:up|off))?(?:\s+with)?\s+(?!with\b)(.+)$", re.I)
TO_TOP = re.compile(r"^(?:with\s+)?([^\d,;]{2,40}?),?\s+(?:to\s+(?:top|fill)(?:\s+up)?|on\s+top|\(top\)|top)$", re.I)
CONTAINER = re.compile(r"^(?:bottles?|cans?|cartons?|tins?|packs?|bags?|jars?|boxes|box|tetra\w*)\s+(?:of\s+)?", re.I)
STRENGTH = re.compile(r"\s*[(,]?\s*\d+(?:[.,]\d+)?\s*(?:%|proof\b)\s*(?:abv|alc\.?|vol\.?|by volume)*\s*\)?$", re.I)
BULLET = re.compile(r"^\s*(?:[-*•–·]+\s*|\d{1,2}[.)]\s+(?=\D))")
TIMES = re.compile(r"^(\d{1,3})\s*[x×]\s*(?=[\d.,½¼¾⅓⅔])", re.I)
OF = re.compile(r"^(?:\s*of\b)?[\s:–-]*", re.I)
AFTER = re.compile(r"\s*(?:[,;:(\[]|\bat\s+(?=[\d.$€£])|\s@).*$", re.S)
PER = re.compile(r"(\d+(?:[.,]\d{1,2})?)\s*(?:per|for|a|an|/)\s+(?:an?\s+)?(?=\d)", re.I)
RANGE = re.compile(r"^\s*(?:to|or|-|–|/)\s*[\d½¼¾⅓⅔]")
_NUMBER = r"[.]?[\d½¼¾⅓⅔][\d.,/½¼¾]*(?:\s+\d/\d)?"
RUN = re.compile(
    r"(?<=[^\W\d_])(?<!\bat)(?<!\bfor)(?<!\bper)(?<!\bof)(?<!\bno)(?<!\bto)(?<!\bor)(?<!\bx)[\s,]+"
    rf"(?={_NUMBER}(?!\d|\s*(?:%|°|:|proof\b|brix\b|years?\b|yo\b|x\b|per ?cent)))", re.I)
"""Between two lines that nothing else stands between: ``45 gin 20 lime``."""
THEN = re.compile(r"\s+(?=(?:shake|stir|strain|build|muddle|swizzle|throw|blend|whip)\b)", re.I)
STRENGTHS = re.compile(r"(?<=[%xvfcd])\s+and\s+(?=\d[\d.,]*\s*(?:%|brix|proof))", re.I)
"""Between two strengths of one thing: ``at 15 brix and 0.5 % acid`` is no ``15 and a half``."""
UNIT = re.compile(rf"^(?P<n>{_NUMBER}\s*)(?P<unit>[a-z]{{4,}})(?=\s)", re.I)
LEADING = frozenset("a an the about approx around ~ some".split())
HOLDS_ALCOHOL = frozenset({"spirit", "wine", "liqueur", "beer", "bitters"})
SAYS_ALCOHOL = re.compile(r"\b(?:abv|alc|alcohol|vol|proof)\b", re.I)
SAYS_ACID = re.compile(r"\bacid(?:ity)?\b", re.I)


class BadLine(ValueError):
    """A line that names an amount but cannot be kept as it stands; the message is a sentence."""


class Nameless(BadLine):
    """An amount of nothing."""


class LineReader:
    """Reads lines with the vocabulary of one kernel."""

    def __init__(self, reader: Reader):
        self.reader, self.lexicon = reader, reader.lexicon
        measures = [u for u in reader.kernel.units if u.dimension in (MASS, VOLUME)]
        self.units = sorted({w for u in measures for w in u.words if len(w) > 3 and w.isalpha()})

    def read(self, text: str, units: Units) -> Line | None:
        """The line, or None where no amount of anything stands in it.  Raises BadLine."""
        text = UNIT.sub(lambda m: m["n"] + (self.nearest(m["unit"]) or m["unit"]), BULLET.sub("", text).strip())
        text = STRENGTHS.sub(", ", text)
        if not text or len(text) > LONGEST_LINE:
            return None
        topped = TOPPED.match(text) or TO_TOP.match(text.rstrip(" ."))
        if topped and not re.search(r"\d", text):
            thing = topped[1].strip(" .")
            return Line(thing, None, {}, self.substance(thing)) if self.substance(thing) else None
        times = TIMES.match(text)
        line = self._measured(text[times.end() :] if times else text, units)
        if line is None or times is None or line.amount is None:
            return line
        count, a = int(times[1]), line.amount
        return replace(line, amount=replace(a, value=a.value * count, base=a.base * count, said=f"{count} × {a.said}"))

    def amount(self, text: str, units: Units, thing: str = "") -> Amount | None:
        """The one amount that a text is, such as ``800 ml`` or ``24 h``; None for anything else."""
        m = self.reader.take_apart(text)
        live = [q for q in m.quantities if not q.noise]
        if len(live) != 1 or m.words(live[0].first, live[0].last) != text.strip(" .!~"):
            return None
        return self._amount(live[0], m, units, thing)

    def substance(self, thing: str) -> str | None:
        """The id of the substance that the words of a thing name, the longest of them."""
        tokens = self.reader.take_apart(thing).tokens if thing else []
        found = max(
            (m for m in self.lexicon.matches(tokens) if m.entry.substances),
            key=lambda m: (m.last - m.first, m.last),
            default=None,
        )
        return found.entry.substances[0].id if found else None

    def nearest(self, word: str) -> str | None:
        """The unit that a word which nobody knows must be: ``barspons``; None where it is none."""
        small = word.casefold()
        if small in self.units or self.reader.speller.knows(small):
            return None
        return max((u for u in self.units if alike(small, u)), key=lambda u: likeness(small, u), default=None)

    def apart(self, text: str, units: Units) -> tuple[str, ...]:
        """The lines that stand in a row with nothing between them, and the steps behind the last; else the text."""
        parts = RUN.split(text)
        *before, last = parts
        last, *steps = THEN.split(last, maxsplit=1)
        if not before:
            return (text,) if self._is_line(text, units) is False or not steps else (last, *steps)
        return (*before, last, *steps) if all(self._is_line(x, units) for x in (*before, last)) else (text,)

    def _is_line(self, text: str, units: Units) -> bool:
        """Is it a line, be it one that cannot be kept as it stands?"""
        try:
            line = self.read(text, units)
        except Nameless:
            return False
        except BadLine:
            return True
        return line is not None and line.amount is not None

    def _measured(self, text: str, units: Units) -> Line | None:
        m = self.reader.take_apart(text)
        live = [q for q in m.quantities if not q.noise]
        if not live or (m.tokens and m.tokens[0].text in METHOD):
            return None
        q = live[0]
        if q.first == 0 or (q.first == 1 and m.tokens[0].text in LEADING):
            rest = OF.sub("", text[m.tokens[q.last].end :])
        else:
            before = text[: m.tokens[q.first].start].strip(" :–-=,|.…\t")
            bare = q.bare and q.value >= 5 and self.substance(before) is not None
            if not (q.units or q.unsized or bare) or not before or len(before.split()) > 5 or not _behind(q, m):
                return None
            rest = f"{before} {text[m.tokens[q.last].end :].strip()}".strip()
        thing = " ".join(AFTER.sub("", rest).strip(" .,-–|\t").split())
        if not q.bare and q.units:
            unit = self._unit(q, thing, units)
            if unit.dimension not in (MASS, VOLUME, NONE):
                return None
            if unit.kind in PERCENTS:
                if self.substance(thing) is None:
                    return None
                raise BadLine(f"“{text}” is a share, not an amount: give a weight or a volume.")
        if RANGE.match(rest):
            raise BadLine(f"“{text}” is a range: give one amount.")
        if not thing:
            raise Nameless(f"“{text}” has an amount, but of what?")
        if len(thing) > LONGEST_THING:
            raise BadLine(f"“{thing[:30]}…” is longer than the {LONGEST_THING} characters of a thing's name.")
        held = CONTAINER.match(thing) if q.bare or q.unsized else None
        sized = self._of_size(q, live, units) if held or q.unsized else None
        if held and sized:
            thing = thing[held.end() :] or thing
        amount = sized or self._amount(q, m, units, thing)
        if amount is None:
            raise BadLine(f"“{text}” is no amount of anything.")
        substance = self.substance(thing)
        more = [x for x in live if x is not q]
        if any(
            x.units and units[x.units[0]].dimension in (MASS, VOLUME) and m.words(x.first, x.last) in thing
            for x in more
        ):
            raise BadLine(f"“{text}” has two amounts: one line, one amount.")
        attributes = self._attributes(more, m, rest, substance, units)
        plain = STRENGTH.sub("", thing).strip(" ,(") if "abv" in attributes else thing
        return Line(plain or thing, amount, attributes, substance)

    def _of_size(self, q: Quantity, live: list[Quantity], units: Units) -> Amount | None:
        """``1 bottle rum (700 ml)``: so many of the size that stands behind; None for what has a size of its own."""
        if (q.unsized and units[q.unsized].sized) or len(live) != 2 or not live[1].units:
            return None
        unit = units[live[1].units[0]]
        if unit.dimension not in (MASS, VOLUME) or q.value <= 0 or live[1].value <= 0:
            return None
        value = q.value * live[1].value
        return Amount(value, unit.name, unit.to_base(value), f"{value:g} {unit.symbol}")

    def _unit(self, q: Quantity, thing: str, units: Units) -> Unit:
        """The unit of an amount; an ounce is one of weight only for what is dry."""
        if q.unsized:
            return units[q.unsized]
        if "ounce" in q.units and len(q.units) > 1:
            id = self.substance(thing)
            dry = id is not None and self.reader.kernel.substances[id].state == "dry"
            return units["ounce" if dry else "fluid_ounce"]
        return units[q.units[0]]

    def _amount(self, q: Quantity, m: Message, units: Units, thing: str) -> Amount:
        said = m.words(q.first, q.last)
        if q.other is not None:
            ways = " or ".join(f"{x:g}" for x in (q.value, q.other))
            raise BadLine(f"“{said}” can be read as {ways}: write it without the comma.")
        if q.high is not None:
            raise BadLine(f"“{said}” is a range: give one amount.")
        if q.ratio is not None or q.per is not None or q.money or q.rejected or q.value <= 0:
            raise BadLine(f"“{said}” is no amount of a line.")
        if q.bare:
            return Amount(q.value, "count", q.value, said)
        unit = self._unit(q, thing, units)
        if not unit.sized:
            raise BadLine(
                f"A {unit.name.replace('_', ' ')} has no size of its own: “{said}” needs a weight or a volume."
            )
        if unit.name == "part":
            raise BadLine(f"“{said}” is a share, not an amount: give a weight or a volume.")
        return Amount(q.value, unit.name, unit.to_base(q.value), said)

    def _attributes(
        self, more: list[Quantity], m: Message, rest: str, substance: str | None, units: Units
    ) -> dict[str, Amount]:
        """Strength, sugar, acid, and a price with the size that it buys."""
        found: dict[str, Amount] = {}
        kinds = self.reader.kernel.substances[substance].kinds if substance else frozenset()
        for q in more:
            said = m.words(q.first, q.last)
            if q.money or (q.bare and PER.search(rest) and "price" not in found):
                found["price"] = Amount(q.value, "currency", q.value, said)
            elif "price" in found and q.units and units[q.units[0]].dimension in (MASS, VOLUME):
                found["size"] = Amount(q.value, q.units[0], units[q.units[0]].to_base(q.value), said)
            elif "brix" in q.units:
                share = units["percent"].to_base(q.value)
                found.update(dict.fromkeys(("sugar", "brix"), Amount(q.value, "brix", share, said)))
            elif q.strength and SAYS_ACID.search(rest):
                found.update(dict.fromkeys(("acid", "acidity"), self._percent(q, "percent_wv", said, units)))
            elif q.strength and (kinds & HOLDS_ALCOHOL or SAYS_ALCOHOL.search(rest)):
                found["abv"] = self._percent(q, "proof" if "proof" in q.units else "abv", said, units)
        if ("price" in found) != ("size" in found):
            raise BadLine("A price needs the amount that it buys, such as “28.00 for 700 ml”.")
        return found

    def _percent(self, q: Quantity, unit: str, said: str, units: Units) -> Amount:
        return Amount(q.value, unit, units[unit].to_base(q.value), said)


def _behind(q: Quantity, m: Message) -> bool:
    """Does an amount stand behind its thing, and end there or before a bracket or a comma?"""
    after = m.tokens[q.last + 1 : q.last + 2]
    return m.tokens[0].kind == "word" and (not after or after[0].text in ("(", ",", ";", "at", "@", "["))
