"""Days and hours in a message: ``Friday 19:00``, ``27 Nov at 7 pm``, ``tomorrow noon``, ``2026-11-27``.

A day that may be one of two is kept as both: ``03/04``, ``Friday`` on a Friday, ``next Friday`` on a
Wednesday, an hour below noon without am or pm.  Whoever reads asks which is meant, and never guesses.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, time, timedelta
from itertools import islice

from .names import DAYS, MONTHS

FIRST, LAST = 1900, 9000
"""Years that a year further off is taken for: whoever reads refuses both, and none overflows a calendar."""
HOURS = "twelve one two three four five six seven eight nine ten eleven".split()
_MONTH = "|".join(sorted(MONTHS, key=len, reverse=True))
_DAY = "|".join(n for n in sorted(DAYS, key=len, reverse=True) if n.endswith("day"))
_SHORT = "|".join(n for n in sorted(DAYS, key=len, reverse=True) if not n.endswith("day"))
_WORDS = {"today": 0, "tonight": 0, "this evening": 0, "this afternoon": 0, "tomorrow": 1, "tomorrow night": 1,
          "yesterday": -1, "day after tomorrow": 2, "day before yesterday": -2}

_PATTERNS = tuple(re.compile(p, re.IGNORECASE) for p in (
    r"\b(?P<y>\d{4})-(?P<m>\d{1,2})-(?P<d>\d{1,2})\b",
    rf"\b(?P<d>\d{{1,2}})(?:st|nd|rd|th)?\s+(?:of\s+)?(?P<month>{_MONTH})\b\.?(?:,?\s+(?P<y>\d{{4}})\b)?",
    rf"\b(?P<month>{_MONTH})\.?\s+(?P<d>\d{{1,2}})(?:st|nd|rd|th)?\b(?!\s*(?:ml|cl|l|g|x)\b)(?:,?\s+(?P<y>\d{{4}})\b)?",
    r"\b(?P<a>\d{1,2})/(?P<b>\d{1,2})(?:/(?P<y>\d{4}|\d{2}))?\b(?!\s*(?:l|ml|cl|oz)\b)",
    r"\b(?P<d>\d{1,2})\.(?P<m>\d{1,2})\.(?P<y>\d{4})?",
    r"\b(?:the\s+)?(?P<word>day after tomorrow|day before yesterday|tomorrow night|tomorrow|today|tonight|"
    r"this evening|this afternoon|yesterday)\b",
    rf"\b(?:(?P<which>next|this|coming|last)\s+)?(?P<day>{_DAY})\b",
    rf"(?:^\W*|\bon\s+|\bfor\s+|\b(?P<which>next|this|coming|last)\s+)(?P<day>{_SHORT})\b\.?",
    rf"\b(?P<day>{_SHORT})\b\.?(?=,?\s+(?:at\s+)?\d{{1,2}}(?:[:.h]\d|\s*[ap]\.?m|st|nd|rd|th|\s+(?:{_MONTH})\b))",
))
_CLOCK = re.compile(
    r"\b(?:at\s+)?(?:(?P<h>\d{1,2})[:.h](?P<min>[0-5]\d)\s*(?P<ap>[ap]\.?m\b\.?)?(?!\d)|"
    r"(?P<h2>\d{1,2})\s*(?P<ap2>[ap]\.?m\b\.?)|(?P<h3>\d{1,2})h(?:rs?|ours)?\b|"
    r"(?P<word>noon|midday|midnight)\b)|\bat\s+(?P<h4>\d{1,2})\b(?!\s*(?:[%/°]|[.,]\d|(?:ml|cl|dl|l|g|kg|oz|bar|psi|percent|degrees?|proof|abv)\b))|"
    rf"\bat\s+(?P<o>\d{{1,2}}|{'|'.join(HOURS)})\s*o['’]?\s?clock", re.IGNORECASE)


MOST_DAYS = 30
"""So many days or times are looked at in one message: what names more of them plans nothing."""


@dataclass(frozen=True, slots=True)
class Said:
    """What was said from ``start`` to ``end`` of a message: the days or times it may mean, one if it is plain."""

    start: int
    end: int
    text: str
    may_be: tuple[date | time, ...]


def days_in(text: str, today: date, past: bool = False) -> list[Said]:
    """The days that a message names, in order; ``past`` looks back where a day has no year or week."""
    found: list[Said] = []
    for pattern in _PATTERNS:
        for m in islice(pattern.finditer(text), MOST_DAYS):
            days = tuple(dict.fromkeys(_days(m, today, past)))
            if days and not any(m.start() < s.end and s.start < m.end() for s in found):
                found.append(Said(m.start(), m.end(), m.group().strip(), days))
    return sorted(found, key=lambda s: s.start)


def times_in(text: str, days: list[Said] | None = None) -> list[Said]:
    """The times of day that a message names; ``days`` are parts of it that are none."""
    found = []
    for m in islice(_CLOCK.finditer(text), MOST_DAYS):
        if any(m.start() < d.end and d.start < m.end() for d in days or ()):
            continue
        times = tuple(_times(m))
        if times:
            found.append(Said(m.start(), m.end(), m.group().strip(), times))
    return found


def _days(m: re.Match[str], today: date, past: bool) -> Iterator[date]:
    g = m.groupdict()
    if g.get("word"):
        yield today + timedelta(_WORDS[g["word"].lower()])
    elif g.get("day"):
        yield from _weekday(DAYS[g["day"].lower()], (g.get("which") or "").lower(), today, past)
    else:
        said = g.get("y")
        year = None if not said else 2000 + int(said) if len(said) == 2 else min(max(int(said), FIRST), LAST)
        if g.get("a"):
            a, b = int(g["a"]), int(g["b"])
            for d, month in ((a, b), (b, a)):
                yield from _dated(d, month, year, today, past)
        else:
            month = MONTHS[g["month"].lower()] if g.get("month") else int(g["m"])
            yield from _dated(int(g["d"]), month, year, today, past)


def _weekday(day: int, which: str, today: date, past: bool) -> Iterator[date]:
    ahead = (day - today.weekday()) % 7
    if which == "last" or (past and which != "next"):
        if not ahead and which != "last":
            yield today
        yield today - timedelta((today.weekday() - day) % 7 or 7)
    elif which == "next":
        if ahead:
            yield today + timedelta(ahead)
        yield today + timedelta(ahead + 7)
    elif which == "coming":
        yield today + timedelta(ahead or 7)
    elif which == "this" or ahead:
        yield today + timedelta(ahead)
    else:
        yield today
        yield today + timedelta(7)


def _dated(d: int, month: int, year: int | None, today: date, past: bool) -> Iterator[date]:
    """The day of a month; without a year, the nearest on the right side of today."""
    years = (year,) if year else range(today.year, today.year + (-9 if past else 9), -1 if past else 1)
    for y in years:
        try:
            found = date(y, month, d)
        except ValueError:
            continue
        if year or (found <= today if past else found >= today):
            yield found
            return


def _times(m: re.Match[str]) -> Iterator[time]:
    g = m.groupdict()
    if g["word"]:
        yield time(0 if g["word"].lower() == "midnight" else 12)
        return
    said = next(h for h in (g["o"], g["h"], g["h2"], g["h3"], g["h4"]) if h is not None).lower()
    hour = HOURS.index(said) or 12 if said in HOURS else int(said)
    minute, half = int(g["min"] or 0), (g["ap"] or g["ap2"] or "")[:1].lower()
    if half:
        if 1 <= hour <= 12:
            yield time(hour % 12 + (12 if half == "p" else 0), minute)
    elif hour <= 23:
        yield time(hour, minute)
        if (g["h4"] or g["o"]) and 1 <= hour <= 11:
            yield time(hour + 12, minute)
