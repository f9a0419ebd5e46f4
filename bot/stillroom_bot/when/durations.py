"""How long: ``48 h``, ``20 minutes``, ``an hour and a half``, ``3 days 4 hours``."""

from __future__ import annotations

import re

SECONDS = {"s": 1.0, "sec": 1.0, "second": 1.0, "min": 60.0, "minute": 60.0, "h": 3600.0, "hr": 3600.0, "hour": 3600.0,
           "d": 86400.0, "day": 86400.0, "night": 86400.0, "week": 604800.0, "fortnight": 1209600.0}
WORDS = {"a": 1.0, "an": 1.0, "one": 1.0, "two": 2.0, "three": 3.0, "four": 4.0, "five": 5.0, "six": 6.0, "seven": 7.0,
         "eight": 8.0, "nine": 9.0, "ten": 10.0, "twelve": 12.0, "fifteen": 15.0, "twenty": 20.0, "thirty": 30.0,
         "forty": 40.0, "half a": 0.5, "half an": 0.5, "quarter of an": 0.25, "a couple of": 2.0}
LONGEST = 1e10
"""Seconds, some three centuries: what is said to be longer is as long as this, which no calendar minds."""
_WORD = "|".join(sorted(WORDS, key=len, reverse=True))
_UNIT = "|".join(sorted(SECONDS, key=len, reverse=True))
_PART = re.compile(rf"(?<![\w.])(?:(?P<n>\d+(?:[.,]\d+)?)[\s-]*|(?P<w>{_WORD})[\s-]+)"
                   rf"(?P<u>{_UNIT})s?\b(?P<half>\s+and\s+a\s+half)?", re.IGNORECASE)
_JOIN = re.compile(r"\s*(?:,|and)?\s*", re.IGNORECASE)


def duration_in(text: str) -> tuple[float, int, int] | None:
    """The first duration of a text in seconds, and where it stands; parts that follow each other add up."""
    first = _PART.search(text)
    if first is None:
        return None
    seconds, start, end = 0.0, first.start(), first.start()
    part: re.Match[str] | None = first
    while part is not None:
        number = WORDS[part["w"].lower()] if part["w"] else float(part["n"].replace(",", "."))
        unit = SECONDS[part["u"].lower()]
        seconds += (number + (0.5 if part["half"] else 0.0)) * unit
        end = part.end()
        joined = _JOIN.match(text, end)
        part = _PART.match(text, joined.end() if joined else end)
    return min(seconds, LONGEST), start, end
