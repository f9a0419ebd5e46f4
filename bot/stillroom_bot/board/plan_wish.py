"""What a message wants planned: ``Friday 19:00, 40 garden sour, 25 porch punch``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from stillroom import Amount
from stillroom.units import Units

from ..when.durations import WORDS
from ..when.reading import When, when_in
from .wording import POLITE

_PLAN = re.compile(
    r"^\W*(?:(?:please|ok|okay|now|make|give|show|write|me|us|a|the|our|can|could|you|i|need|want)\b\W*)*"
    r"(?:(?P<plan>(?:prep(?:aration)?\s+)?(?:plan|prep)\b(?:\s+list\b)?)|(?:shopping|mise|to-?do)\s+list\b|"
    r"what (?:do|should|must|will) (?:i|we) (?:need to |have to |want to )?(?:prep(?:are)?|make|start|buy|order|get)\b|"
    r"when (?:do|should|must) (?:i|we) (?:need to |have to )?(?:start|begin|prep(?:are)?)\b)", re.I)
_SHOP = re.compile(r"\b(?:shopping|buy|order)\b", re.I)
_APART = re.compile(r"\s*(?:[,;\n+&]|\band\b)\s*|\s+[/–—-]\s+|(?<=[a-z])\s+(?=\d+\s+[a-z]{3})", re.I)
DOZENS = {"half a dozen": 6.0, "a dozen": 12.0, "one dozen": 12.0, "two dozen": 24.0, "three dozen": 36.0,
          "four dozen": 48.0, "a hundred": 100.0, "a couple of": 2.0}
NUMBERS = {**{w: n for w, n in WORDS.items() if " " not in w}, **DOZENS}
_NUMBER = r"\d+(?:[.,]\d+)?|" + "|".join(sorted(NUMBERS, key=len, reverse=True))
_UNIT = r"(?P<unit>ml|cl|l|litres?|liters?|g|kg)\b"
_NAME = r"(?:the\s+|our\s+)?(?P<name>[^\d\s].*?)"
_ITEM = re.compile(
    rf"^(?P<n>{_NUMBER})\s*(?:{_UNIT})?\s*(?:x|×|of|serves of|portions of|(?P<batch>(?:x\s*)?batch(?:es)?(?:\s+of)?))?"
    rf"\s+{_NAME}$", re.I)
_BEHIND = re.compile(rf"^{_NAME}\s*(?:x|×|:)?\s+(?P<n>{_NUMBER})\s*(?:{_UNIT})?(?P<batch>)$", re.I)
_UNITS = {"ml": "milliliter", "cl": "centiliter", "l": "liter", "g": "gram", "kg": "kilogram"}
_FILL = re.compile(
    r"^\W*(?:(?:for|at|on|by|of|with|to|if|i|we|they|there|have|has|are|is|'re|’re|need|want|serve|serves|serving|make|"
    r"making|do|doing|sell|pour|expect|will|be|going|service)\b\W*)*|"
    r"\W+(?:(?:for|on|at|by)\W*)?$", re.I)


@dataclass(frozen=True, slots=True)
class PlanWish:
    """``when`` is None where no time was said; ``items`` are the amounts and names as they were said.

    ``asked``: did the message say that it wants a plan, by that word?  ``shop``: what is to be bought?  ``again``: is
    nothing else said than such a wish?
    """

    when: When | None
    items: tuple[tuple[Amount, str], ...]
    asked: bool
    odd: tuple[str, ...] = ()
    shop: bool = False
    again: bool = False


def plan_wish(text: str, now: datetime, zone: ZoneInfo, units: Units) -> PlanWish:
    """What a message wants, whether or not it is all there."""
    text = POLITE.sub("", text.rstrip(" .!?"))
    asked = _PLAN.match(text)
    rest = text[asked.end():] if asked else text
    when = when_in(rest, now, zone)
    items, odd = [], []
    for part in _APART.split(when.rest if when else rest):
        part = _FILL.sub("", part).strip(" .:!?–-")
        if not part or _PLAN.fullmatch(part):
            continue
        found = _ITEM.match(part) or _BEHIND.match(part)
        if found is None:
            odd.append(part)
            continue
        n = NUMBERS.get(found["n"].lower())
        n = float(found["n"].replace(",", ".")) if n is None else n
        if n <= 0:
            odd.append(part)
            continue
        said = (found["unit"] or "").lower()
        unit = _UNITS.get(said, "liter" if said else "count")
        told = f"{found['n']} {'batches' if found['batch'] else said}".strip()
        items.append((Amount(n, unit, units[unit].to_base(n), told), found["name"].strip()))
    return PlanWish(when, tuple(items), asked is not None and bool(asked["plan"]), tuple(odd),
                    asked is not None and _SHOP.search(asked[0]) is not None,
                    asked is not None and not (items or odd or when))
