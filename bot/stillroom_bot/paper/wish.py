"""What a message wants of labels: of what, how many on which sheet, and what it says of dates itself."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from datetime import date, datetime

from ..when.dates import days_in
from ..when.durations import duration_in

MOST = 500
LONGEST = 3660 * 86400.0
THAT = frozenset({"", "that", "it", "this", "those", "them", "the last one", "this batch", "that batch", "the batch"})
_ANY = re.IGNORECASE | re.DOTALL
_LABEL = re.compile(
    r"(?:(?:please|ok|okay|now|and|then|can you|could you)\b,?\s+)*"
    r"(?:i (?:need|want|would like)\s+|give me\s+|(?:make|print)\s+(?:me\s+)?|draw\s+|do\s+)?"
    r"(?:(?P<n>\d{1,4})\s+|(?:a|the|some|one)\s+)?(?P<labels>labels?)\b\s*(?:(?:for|of)\b\s*)?(?P<rest>.*)", _ANY)
_PARTS = {name: re.compile(rf"[\s,;(]*\b{pattern}", _ANY) for name, pattern in (
    ("contains", r"(?:it\s+|which\s+)?(?:contains?|containing|contents)\b:?\s+(?P<rest>.+)$"),
    ("sheet", r"(?:(?P<n>\d{1,3})\s*(?:labels?\s+)?(?:on|to|per|a|each)\s+(?:a\s+|each\s+|one\s+)?(?:sheet|page)s?\b\)?"
              r"|(?:on|to|as)\s+(?:a\s+)?(?:sheet|page|pdf|paper)s?\b)"),
    ("size", r"\d{2,3}(?:\.\d+)?\s*(?:mm)?\s*[x×]\s*\d{2,3}(?:\.\d+)?\s*mm\b"),
    ("letter", r"(?:on\s+)?(?:us\s+)?letter(?:\s+paper)?\b"),
    ("a4", r"(?:on\s+)?a4(?:\s+paper)?\b"),
    ("called", r"(?:called|named|as)\s+[“\"']?(?P<rest>[^,;“”\"']{2,60})[”\"']?"),
    ("use_by", r"(?:use[- ]by|best before|expires?)\s+(?:on\s+)?(?P<rest>[^,;]+)"),
    ("keeps", r"(?:it\s+|they\s+|which\s+)?(?:keeps?|lasts?|good)\b(?:\s+for)?\s+(?P<rest>[^,;]+)"),
    ("made", r"made\s+(?:on\s+)?(?P<rest>[^,;]+)"))}


@dataclass(frozen=True, slots=True)
class Wish:
    """``of`` is a name, or empty for what was made last; ``sheet`` is asked for where ``count`` or ``paper`` is.

    ``unclear`` holds the days of which one has to be chosen.
    """

    of: str
    called: str = ""
    sheet: int | None = None
    paper: bool = False
    copies: int | None = None
    page: str = "A4"
    keeps: float | None = None
    use_by: date | None = None
    made: date | None = None
    contains: tuple[str, ...] = ()
    unclear: tuple[str, tuple[date, ...]] | None = None
    wrong: str = ""


def wish_of(text: str, now: datetime) -> Wish | None:
    """The wish of a message, None where it is about labels in another way (what they cost, what stands on one)."""
    m = _LABEL.fullmatch(re.sub(r"[\s,]+(?:please|pls|thanks)$", "", text.strip().rstrip(" .!?"), flags=re.IGNORECASE))
    if m is None or re.match(r"\s*[:=]", m["rest"]) or re.search(r"[\n_]|:\s", m["rest"].partition("contains")[0]):
        return None
    rest = f" {m['rest']}"
    taken: dict[str, re.Match[str]] = {}
    for key, pattern in _PARTS.items():
        found = pattern.search(rest)
        if found:
            taken[key] = found
            rest = rest[:found.start()] + rest[found.end():]
    rest = "".join(c for c in rest if unicodedata.category(c)[0] != "C" or c == "\n")
    of = re.sub(r"^(?:the|our|my|a|an)\s+", "", rest.strip(" ,;.“”\"'"), flags=re.IGNORECASE)
    if len(of) > 60 or "," in of or re.search(r"\d+\s*(?:g|ml|l|cl|oz|%)\b|\beach\b|\bcosts?\b", of):
        return None
    made, unclear, wrong = _day(taken.get("made"), now.date(), past=True)
    use_by, unclear_too, wrong_too = _day(taken.get("use_by"), now.date(), past=False)
    keeps = duration_in(taken["keeps"]["rest"]) if "keeps" in taken else None
    if "keeps" in taken and keeps is None:
        wrong = "How long does it keep? Say it as “keeps 10 days”."
    if keeps is not None and not 0 < keeps[0] <= LONGEST:
        wrong = "Nothing that a bar makes keeps longer than ten years."
    sheet = taken["sheet"]["n"] if "sheet" in taken else None
    if "size" in taken:
        size = taken["size"][0].strip(" ,;(")
        wrong = f"I print on sheets of labels, not {size} by itself: say how many stand on your sheet, “12 on a sheet”."
    copies = int(m["n"]) if m["n"] else None
    if copies is not None and not 0 < copies <= MOST:
        wrong = f"I print at most {MOST} labels at once."
    return Wish("" if of.lower() in THAT else of, taken["called"]["rest"].strip() if "called" in taken else "",
                int(sheet) if sheet else None, "sheet" in taken or m["labels"].lower() == "labels" or (copies or 1) > 1,
                copies, "Letter" if "letter" in taken else "A4", keeps[0] if keeps else None, use_by, made,
                tuple(t for t in re.split(r"\s*(?:,|;|\band\b)\s*", taken["contains"]["rest"]) if t)[:30]
                if "contains" in taken else (), unclear or unclear_too, wrong or wrong_too)


Unclear = tuple[str, tuple[date, ...]] | None


def _day(m: re.Match[str] | None, today: date, past: bool) -> tuple[date | None, Unclear, str]:
    if m is None:
        return None, None, ""
    found = days_in(m["rest"], today, past)
    if not found:
        return None, None, f"I cannot read the day in “{m[0].strip(' ,;')}”."
    days = tuple(d for d in found[0].may_be if isinstance(d, date))
    if any(abs((d - today).days) > LONGEST / 86400 for d in days):
        return None, None, f"“{found[0].text}” is more than ten years away."
    return (days[0], None, "") if len(days) == 1 else (None, (found[0].text, days), "")
