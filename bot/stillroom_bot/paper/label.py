"""What stands on a label, as text: dates, contents with their allergens, strength, storage, a batch code."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256

LAW = ("What must stand on a label, and in which words, the local labelling law decides: this one is for the bar's "
       "own shelf, and is no label for sale.")
_DIGITS = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"
"""No 0, 1, I and O, which are mistaken for each other on a wet label."""


@dataclass(frozen=True, slots=True)
class Label:
    """One label.

    ``contents`` are the things in it, the most first; ``allergens`` by their names in law, and with each
    the thing that brings it.  ``strength`` is a text, or empty.  ``hours``: is the use-by an hour of a day?
    """

    name: str
    made: datetime
    use_by: datetime
    contents: tuple[str, ...] = ()
    strength: str = ""
    allergens: tuple[tuple[str, str], ...] = ()
    storage: str = ""
    hours: bool = False

    @property
    def batch(self) -> str:
        """The batch code: initials, day, and two signs that follow from what is in it and the minute it was made."""
        letters = "".join(w[0] for w in re.findall(r"\w+", self.name))[:3].upper()
        said = "\n".join((self.name.casefold(), *self.contents, f"{self.made:%Y-%m-%dT%H:%M%z}"))
        number = int.from_bytes(sha256(said.encode()).digest()[:4], "big")
        signs = _DIGITS[number % 32] + _DIGITS[number // 32 % 32]
        return f"{letters}-{self.made:%y%m%d}-{signs}"

    @property
    def made_text(self) -> str:
        """``25 Nov 2026``, with the hour for what is used by the hour."""
        return day_and_hour(self.made, self.hours)

    @property
    def use_by_text(self) -> str:
        """``2 Dec 2026``, with the hour for what is used by the hour."""
        return day_and_hour(self.use_by, self.hours)

    @property
    def allergen_text(self) -> str:
        """``milk, nuts (almond)``: the name in law, and the thing where that is another word."""
        by_name: dict[str, list[str]] = {}
        for name, thing in self.allergens:
            by_name.setdefault(name, [])
            if name not in thing and thing not in by_name[name]:
                by_name[name].append(thing)
        return ", ".join(f"{n} ({', '.join(t)})" if t else n for n, t in by_name.items())


def day_and_hour(at: datetime, hours: bool) -> str:
    """A date that is read the same way everywhere: the month as a word."""
    return f"{at.day} {at:%b %Y}" + (f" {at:%H:%M}" if hours else "")
