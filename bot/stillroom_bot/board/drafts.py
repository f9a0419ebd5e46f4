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
from dataclasses import dataclass, field

from stillroom import Amount, Line
from stillroom.units import Units

from ..reading.candidate import MASS, TIME, VOLUME
from .lines import BULLET, BadLine, LineReader
from .spec import KeptSpec

MOST_LINES, MOST_STEPS, LONGEST_NAME = 40, 40, 60
MAKES = re.compile(
    r"^(?:it\s+)?(makes?|yields?|gives?|serves?)\s*:?\s*(?:about\s+)?(.+?)(?:\s+(?:in all|drinks?|serves?|"
    r"servings?|people|portions?|glasses))?\s*\.?$",
    re.I,
)
RESTS = re.compile(r"^(?:it\s+)?(?:rests?|stands?|takes)\s*:?\s*(?:for\s+)?(.+?)\s*\.?$", re.I)
KEEPS = re.compile(r"^(?:it\s+)?(?:keeps?|is good|good|lasts?|use within)\s*:?\s*(?:for\s+)?(.+?)\s*\.?$", re.I)
HEADING = re.compile(r"^(?:method|ingredients?|lines?|steps?|how|directions?)\s*:?\s*$", re.I)
PIECES = re.compile(r"\s*;\s*|\s*\n\s*|,\s+(?!\d+(?:\.\d+)?\s*(?:for|per|a)\s)|\.\s+(?=[A-Z])")
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
    """What was understood of a written spec, and what was not."""

    name: str = ""
    lines: list[Line] = field(default_factory=list)
    method: list[str] = field(default_factory=list)
    makes: Amount | None = None
    rests: Amount | None = None
    keeps: Amount | None = None
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
        if not draft.lines and not draft.problems:
            draft.problems.append(Problem(at, f"“{draft.name}” has no line with an amount."))
        if len(draft.lines) > MOST_LINES or len(draft.method) > MOST_STEPS:
            draft.problems.append(Problem(at, f"A spec has at most {MOST_LINES} lines and {MOST_STEPS} steps."))
        return draft

    def _row(self, draft: Draft, text: str, units: Units) -> None:
        for kind, pattern in (("makes", MAKES), ("rests", RESTS), ("keeps", KEEPS)):
            said = pattern.match(text)
            if said is None:
                continue
            amount = self.lines.amount(said[said.lastindex or 1], units)
            if amount is not None and fits(kind, amount, units):
                setattr(draft, kind, amount)
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
    """A name without a colon, quotation marks or spaces too many."""
    return " ".join(text.strip().strip(":*#_\"“”' ").split())


def name_is_wrong(name: str) -> str:
    """Why a name cannot be one, in a sentence; nothing where it can."""
    if not name or not NAME.match(name):
        return "A spec needs a name that begins with a letter or a digit."
    if len(name) > LONGEST_NAME:
        return f"A name has at most {LONGEST_NAME} characters."
    if not re.search(r"[^\W\d_]", name):
        return "A name needs a letter in it."
    return ""


def pieces(text: str) -> Iterator[tuple[int, str]]:
    """The rows of a spec that was written in one line: ``45 ml gin, 20 ml cordial; shake``."""
    for piece in PIECES.split(text):
        if piece.strip():
            yield 1, piece.strip()
