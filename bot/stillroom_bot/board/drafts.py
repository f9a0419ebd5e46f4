"""A whole written spec: a name, its lines, then how it is made.

    Marsh Light
    45 ml gin
    20 ml Basil Cordial
    25 ml lime juice
    Shake and strain.

Some lines say more of it: ``makes 800 ml`` (or ``serves 2``), ``rests 24 h``, ``keeps 7 days``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from stillroom import Amount, Line
from stillroom.answering import say_number
from stillroom.units import Units

from ..reading.candidate import MASS, TIME, VOLUME
from .expand import plain_yield
from .lines import BULLET, METHOD, BadLine, LineReader
from .spec import KeptSpec

LEAST_ML = 5
"""A bare number below this may count ounces, parts or pieces."""
BOTTLED = frozenset("spirit wine liqueur beer juice syrup mixer water".split())
"""Kinds of things of which there is no piece."""
JUICED = frozenset("lime lemon orange grapefruit pineapple cranberry".split())
MOST_LINES, MOST_STEPS, LONGEST_NAME = 40, 40, 60
MAKES = re.compile(
    r"^(?:it\s+)?(makes?|yields?|gives?|serves?)\s*:?\s*(?:about\s+)?(.+?)(?:\s+(?:in all|drinks?|serves?|"
    r"servings?|people|portions?|glasses))?\s*\.?$",
    re.I,
)
RESTS = re.compile(r"^(?:it\s+)?(?:rests?|stands?|takes)\s*:?\s*(?:for\s+)?(.+?)\s*\.?$", re.I)
SHARE = re.compile(
    r"^(?:(?:a\s+)?(?P<what>yields?|makes|gives|loss|lost|loses|waste|wastage)\s*:?\s*(?:of\s+)?(?:about\s+)?"
    r"(?P<n>\d{1,3}(?:[.,]\d+)?)\s*(?:%|per ?cent|percent)|"
    r"(?P<n2>\d{1,3}(?:[.,]\d+)?)\s*(?:%|per ?cent|percent)\s+(?P<what2>yield|loss|lost|waste|wastage))\s*\.?$",
    re.I,
)
KEEPS = re.compile(
    r"^(?:it\s+)?(?:keeps?|is good|good|lasts?|use within)\s*:?\s*(?:for\s+)?(?:up to\s+|about\s+)?(.+?)"
    r"(?:\s+(?:in|at|when|if|under|sealed|cold|chilled|refrigerated|fridge|freezer|frozen|covered)\b[^\d]*)?\s*\.?$",
    re.I)
HEADED = re.compile(
    r"^(?P<name>\D+?)\s*(?:[-–—,]\s*|\(\s*)?\b(?P<verb>serves|for|makes|yields)\s+(?P<n>\d[^()]*?)\s*\)?\s*:?\s*$",
    re.I)
HEADING = re.compile(r"^(?:method|ingredients?|lines?|steps?|how|directions?)\s*:?\s*$", re.I)
PIECES = re.compile(
    r"\s*;\s*|\s*\n\s*|,\s+(?!\d+(?:\.\d+)?\s*(?:for|per|a)\s)|(?<=[^\W\d_]),(?=\S)|\.\s+(?=[A-Z])|"
    rf"\.\s+(?=(?:{'|'.join(sorted(METHOD))})\b)|\s+[/+|]\s+(?=[.]?[\d½¼¾⅓⅔])|\s+(?:and|&)\s+(?=[\d½¼¾⅓⅔])"
    r"(?!\s*(?:and|&)\s+\d[\d.,]*\s*(?:%|brix|proof))")
COMMENT = re.compile(r"[,(]\s*([^\d,()]{3,}?)\s*\)?\s*$")
NAME = re.compile(r"^[^\W_]")


@dataclass(frozen=True, slots=True)
class Problem:
    """What is wrong, and in which line of the text (from 1)."""

    line: int
    text: str

    def __str__(self) -> str:
        return f"line {self.line}: {self.text}"


@dataclass(slots=True)
class Draft:
    """What was understood of a written spec, and what was not; ``share`` is what it makes of what goes in.

    ``taken`` is what was taken for granted, to be read back.
    """

    name: str = ""
    lines: list[Line] = field(default_factory=list)
    method: list[str] = field(default_factory=list)
    makes: Amount | None = None
    rests: Amount | None = None
    keeps: Amount | None = None
    share: float | None = None
    taken: list[str] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)

    def spec(self) -> KeptSpec:
        """As a spec that is not in any book yet."""
        return KeptSpec(0, self.name, tuple(self.lines), tuple(self.method), self.makes, self.rests, self.keeps)


class Drafting:
    """Reads written specs with the vocabulary of one kernel."""

    def __init__(self, lines: LineReader):
        self.lines = lines

    def read(self, name: str, rows: Sequence[tuple[int, str]], units: Units, at: int = 1) -> Draft:
        """The draft of a name and its numbered rows; ``at`` is the line of the name."""
        draft = Draft(clean_name(name))
        wrong = name_is_wrong(draft.name)
        if wrong:
            draft.problems.append(Problem(at, wrong))
        for number, row in rows:
            text = BULLET.sub("", row).strip()
            if not text or HEADING.match(text):
                continue
            try:
                self._row(draft, text, units)
            except BadLine as e:
                draft.problems.append(Problem(number, str(e)))
        self._bare(draft, units, at)
        self._share(draft, units)
        if not draft.lines and not draft.problems:
            draft.problems.append(Problem(at, f"“{draft.name}” has no line with an amount."))
        if len(draft.lines) > MOST_LINES or len(draft.method) > MOST_STEPS:
            draft.problems.append(Problem(at, f"A spec has at most {MOST_LINES} lines and {MOST_STEPS} steps."))
        return draft

    def _bare(self, draft: Draft, units: Units, at: int) -> None:
        """``45 gin, 20 lemon, 15 syrup``: numbers of what is poured are millilitres; small ones are asked about."""
        bare = [x for x in draft.lines if x.amount and x.amount.unit == "count" and self._poured(x)]
        odd = [x for x in bare if x.amount and x.amount.value < LEAST_ML and self._kinds(x) & BOTTLED]
        if odd:
            told = ", ".join(f"{x.amount.said} {x.thing}" for x in odd if x.amount)
            draft.problems.append(Problem(at, f"“{told}” has no unit: say ml, cl, oz or another."))
            return
        bare = [x for x in bare if x.amount and x.amount.value >= LEAST_ML]
        if not any(self._liquid(x) for x in bare):
            return
        ml = units["milliliter"]
        for n, line in enumerate(draft.lines):
            if line in bare and line.amount is not None:
                value = line.amount.value
                said = f"{say_number(value)} {ml.symbol}"
                draft.lines[n] = replace(line, amount=Amount(value, ml.name, ml.to_base(value), said))
        draft.taken.append(f"{', '.join(x.thing for x in bare)}: no unit was said, taken as ml")

    def _liquid(self, line: Line) -> bool:
        thing = self.lines.reader.kernel.substances.get(line.substance or "")
        return thing is not None and thing.state == "liquid"

    def _kinds(self, line: Line) -> frozenset[str]:
        thing = self.lines.reader.kernel.substances.get(line.substance or "")
        return thing.kinds if thing is not None else frozenset()

    def _poured(self, line: Line) -> bool:
        """Is it a liquid, or a fruit by whose name its juice is called?"""
        return self._liquid(line) or line.thing.casefold() in JUICED

    def _share(self, draft: Draft, units: Units) -> None:
        """What ``yield 60 %`` makes, where all lines are of one measure; else it is a note and no more."""
        if draft.share is None or draft.makes is not None:
            return
        whole = plain_yield(draft.spec(), self.lines.reader.kernel, units)
        if whole is not None:
            value = whole.value * draft.share
            draft.makes = Amount(value, whole.unit, whole.base * draft.share,
                                 f"{say_number(value)} {units[whole.unit].symbol}")

    def _row(self, draft: Draft, text: str, units: Units) -> None:
        for kind, pattern in (("makes", MAKES), ("rests", RESTS), ("keeps", KEEPS)):
            said = pattern.match(text)
            if said is None:
                continue
            amount = self.lines.amount(said[said.lastindex or 1], units)
            if amount is not None and fits(kind, amount, units):
                setattr(draft, kind, amount)
                return
        share = SHARE.match(text)
        if share is not None:
            n = float((share["n"] or share["n2"]).replace(",", ".")) / 100
            left = n if (share["what"] or share["what2"]).lower().startswith(("yield", "make", "give")) else 1 - n
            if not 0 < left <= 1:
                raise BadLine(f"“{text}” leaves nothing, or more than went in: say what it makes, “makes 800 ml”.")
            draft.share = left
            draft.method.append(text)
            return
        line = self.lines.read(text, units)
        if line is None:
            draft.method.append(text)
        elif any(x.thing.casefold() == line.thing.casefold() for x in draft.lines):
            raise BadLine(f"{line.thing} stands there twice: give it once.")
        else:
            draft.lines.append(line)
            comment = COMMENT.search(text)
            if comment and comment[1].strip().casefold() != line.thing.casefold():
                draft.method.append(f"{line.thing}: {comment[1].strip()}")


def fits(kind: str, amount: Amount, units: Units) -> bool:
    """Is an amount of the kind that a spec makes (volume, mass, count), rests or keeps (time)?"""
    dimension = units[amount.unit].dimension
    return dimension == TIME if kind != "makes" else amount.unit == "count" or dimension in (MASS, VOLUME)


def clean_name(text: str) -> str:
    """A name without a colon, quotation marks, pictures or spaces too many."""
    return re.sub(r"^[^\w(]+|[^\w)!?.%°]+$", "", " ".join(text.strip().strip(":*#_\"“”' ").split())).strip("_")


def name_is_wrong(name: str) -> str:
    """Why a name cannot be one, in a sentence; nothing where it can."""
    if not name or not NAME.match(name):
        return "A spec needs a name that begins with a letter or a digit."
    if len(name) > LONGEST_NAME:
        return f"A name has at most {LONGEST_NAME} characters."
    if not re.search(r"[^\W\d_]", name):
        return "A name needs a letter in it."
    return ""


def with_makes(name: str) -> tuple[str, list[str]]:
    """A name without ``(serves 20)``, ``- for 20`` or ``, makes 800 ml`` behind it, and that as a row of its own."""
    found = HEADED.match(name)
    if found is None:
        return name, []
    verb = "serves" if found["verb"].lower() == "for" and re.fullmatch(r"\d+", found["n"]) else found["verb"].lower()
    return found["name"], [f"{'makes' if verb == 'for' else verb} {found['n']}"]


def pieces(text: str) -> Iterator[tuple[int, str]]:
    """The rows of a spec that was written in one line: ``45 ml gin, 20 ml cordial; shake``."""
    for piece in PIECES.split(text):
        if piece.strip():
            yield 1, piece.strip()
