"""A spec that was written out in a message: where its name ends, which rows it has, and how it is read back."""

from __future__ import annotations

import re
from collections.abc import Iterator

from .. import phrasing
from .desk import Heard, Said, read_back
from .drafts import Draft, pieces, with_makes
from .lines import METHOD, BadLine
from .spelt import spelt
from .wording import SIZE

KIND = r"(?:spec|recipe|drink)\b"
CUE = re.compile(
    r"^\s*(?:please\s+)?(?:(?:keep|save|note down|write down|remember)(?:\s+|(?=:))"
    r"(?:(?:this|that|it|a|the|our|my|new|following|next|one|please|pls|plz)(?:[.,]?\s+|\s*(?=:)))*"
    rf"(?:as\s+(?:(?:a|our|my|new)\s+)*{KIND}|{KIND})?|(?:(?:a|our|the)\s+)?(?:new\s+{KIND}|{KIND}(?=\s*:)))\s*"
    r"(?:called\s+|for\s+)?[:.]?\s*(?P<rest>\S.*)$",
    re.I | re.S,
)
QUESTION_WORDS = frozenset(
    """how what which who when where why scale batch make convert dilute give for if can could should is are do does i
    we need cost strength please the use with from per into to set our my calculate find tell clarify bring kindly pls
    plz hello hi dear""".split()
)
SCALING = frozenset("scale multiply convert calculate".split())
REQUESTS = frozenset(
    """how what which when where why scale batch convert can could should is are does i we need cost calculate
    find tell""".split()
)
NO_NAME = QUESTION_WORDS | {"keep", "save", "add", "change", "label", "labels", "plan", "total", "what's", "whats"}
ASKED_FOR = REQUESTS | {"strength", "abv", "proof"}
"""What no name on one line begins with, and what no line or step behind it says."""
NAMELESS = re.compile(r"^[\d½¼¾⅓⅔][^:?]*(?:,|;|\n)[^:?]*$")
SIGN = re.compile(r"(?<!\s)(?:\s*:\s*|\s+=\s+|\s*=\s*(?=\d))")
DASHED = re.compile(r"\s+[-–—]\s+")
AT_A_NUMBER = re.compile(r"^(?P<name>[^\d½¼¾⅓⅔]{2,60}?)[\s,.–—-]+(?=[.]?[\d½¼¾⅓⅔])")
NAME_LIMIT = 7
BEGINS_A_LINE = re.compile(rf"\s*{SIZE}", re.I)
STEPS = METHOD | {"top", "makes", "serves", "keeps", "rests", "no", "on", "over", "up", "garnish"}
LONGEST = 600
"""More than this on one line is no spec that nobody said to keep."""
MOST_ROWS = 60
PLAINLY = 3
"""Pieces from which on one line with a name before a colon is a spec, though nobody said to keep it."""


def written(said: Said) -> Heard:
    """A spec that was written out: read back, or refused with each of its problems."""
    cue = CUE.match(said.text)
    draft = _draft(cue["rest"], said, True) if cue else _draft(said.text, said, False)
    if draft is None and cue and NAMELESS.match(cue["rest"]):
        return phrasing.asks(said.text, None, "What is it called?", ["name"],
                             understood=f"say it as “keep Marsh Light: {cue['rest'].strip()[:80]}”"), said.state
    if draft is None:
        return None
    reason = said.tools.refuse(said.text)
    if reason:
        return said.declined(reason)
    if draft.problems:
        rows = [str(p) if "\n" in said.text.strip() else p.text for p in draft.problems]
        return said.declined(f"I cannot keep {draft.name or 'that'} so:", *(f"• {r}" for r in rows))
    spec, mended = spelt(draft.spec(), said.book, said.tools)
    return read_back(said, spec, [*draft.taken, *mended])


def _draft(text: str, said: Said, cued: bool) -> Draft | None:
    rows = [(n, row) for n, row in enumerate(text.split("\n"), 1)]
    filled = [(n, row) for n, row in rows if row.strip()]
    if len(filled) < 2:
        return _in_one_line(text.strip(), said, cued)
    at, name = filled[0]
    name, more = with_makes(name)
    words = name.strip().strip(":").split()
    if not cued and (
        "?" in text
        or not 3 <= len(filled) <= MOST_ROWS
        or not words
        or len(words) > NAME_LIMIT
        or re.search(r"\d", name)
        or words[0].lower() in QUESTION_WORDS
        or not SCALING.isdisjoint(w.lower() for w in words[:3])
        or any(row.split()[0].lower() in REQUESTS for _, row in filled[1:])
    ):
        return None
    draft = said.tools.drafting.read(name, [*((at, row) for row in more), *filled[1:]], said.units, at)
    return draft if cued or len(draft.lines) >= 2 else None


def _in_one_line(text: str, said: Said, cued: bool) -> Draft | None:
    """``Marsh Light: 45 ml gin, 20 ml cordial; shake``, with an ``=`` or a dash, or with nothing before the numbers."""
    if "?" in text:
        return None
    sign = SIGN.search(text)
    name, rest = (text[: sign.start()], text[sign.end() :]) if sign else ("", "")
    if cued and not sign and len(parts := DASHED.split(text, maxsplit=1)) == 2:
        name, rest = parts
    if not cued:
        return _plainly(name, rest, said) if sign else None
    found = None if rest.strip() else AT_A_NUMBER.match(text)
    if found is not None:
        name, rest = found["name"], text[found.end() :]
        rows = list(_rows(rest, said))
        if sum(_amount(row, said) for row in rows) < 2 or name.split()[0].lower() in NO_NAME:
            return None
        return said.tools.drafting.read(name, [(1, row) for row in rows], said.units)
    if not rest.strip() or BEGINS_A_LINE.match(name):
        return None
    name, more = with_makes(name)
    draft = said.tools.drafting.read(name, [*((1, row) for row in more), *((1, r) for r in _rows(rest, said))],
                                     said.units)
    return draft if draft.lines or draft.problems else None


def _plainly(name: str, rest: str, said: Said) -> Draft | None:
    """A name, a colon, and nothing behind it but lines and steps: a spec, where the name says nothing to a sum."""
    words = re.findall(r"[^\W\d_]+(?:['’][^\W\d_]+)*", name.casefold())
    if not words or len(words) > NAME_LIMIT or re.search(r"[\d,;.]", name) or words[0] in NO_NAME:
        return None
    if not SCALING.isdisjoint(words[:3]):
        return None
    if any(w in ASKED_FOR for w in re.findall(r"[a-z]+", rest.casefold())) or all(map(said.tools.means, words)):
        return None
    rows = list(_rows(rest, said)) if len(rest) <= LONGEST else []
    if len(rows) < PLAINLY or sum(_amount(row, said, sure=True) for row in rows) < 2:
        return None
    if not all(_amount(row, said) or _step(row, said) for row in rows):
        return None
    draft = said.tools.drafting.read(name, [(1, row) for row in rows], said.units)
    return None if draft.problems else draft


def _step(row: str, said: Said) -> bool:
    """Is a row a step, or what the drink is served with?  Not what a sum could be asked for by."""
    first = re.match(r"[a-z]+", row.casefold())
    if first is not None and first[0] in STEPS:
        return True
    words = row.split()
    return len(words) <= 3 and all(len(w) > 2 for w in words) and any(
        m.entry.substances for m in said.tools.reader.take_apart(row).matches)


def _amount(row: str, said: Said, sure: bool = False) -> bool:
    """Is a row a line with an amount, if need be one that cannot be kept; ``sure``: of a thing that is known?"""
    try:
        line = said.tools.lines.read(row, said.units)
    except BadLine:
        return not sure
    known = line is not None and (line.substance is not None or said.book.named(line.thing) is not None)
    return line is not None and line.amount is not None and (known or not sure)


def _rows(text: str, said: Said) -> Iterator[str]:
    """The rows of one line of writing; those that nothing stands between as well: ``45 gin 20 lime 15 syrup``."""
    for _, piece in pieces(text):
        yield from said.tools.lines.apart(piece, said.units)


__all__ = ["written"]
