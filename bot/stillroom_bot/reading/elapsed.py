"""``made Thursday 15:00, it is Friday 21:00``: the time between two days or instants that a message names."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from ..when.names import DAYS, MONTHS
from .quantity import Looking, Quantity

WORDS_TOO = frozenset({"sat", "sun", "wed"})
POINTING = frozenset("on since last next this by until from every".split())
RELATIVE = {"yesterday": -1, "today": 0, "now": 0, "tonight": 0, "tomorrow": 1}
MADE = frozenset(
    "made opened open bottled pressed juiced mixed brewed started prepped squeezed cooked labelled".split()
)
MINUTES = frozenset(f"{m:02}" for m in range(60))
NOW = frozenset("now today currently".split())
AFTERNOON = frozenset("pm afternoon evening".split())
NEAR = 5
HOURS = 24.0
TODAY = ("relative", 0.0)


@dataclass(frozen=True, slots=True)
class Mark:
    """A day that is named at tokens ``first`` to ``last``: a weekday, one from today, or a day of the year.

    ``hour`` is the time of day, where it is said beside it.
    """

    first: int
    last: int
    kind: str
    day: float
    hour: float | None = None
    number: Quantity | None = None


class Elapsed(Looking):
    """Finds the time between two days, and makes a number of it."""

    def told(self, found: list[Quantity]) -> list[Quantity]:
        """The quantities with the time between the two days that are named; as they are if there are not two.

        One day before today stands for the time since: ``made yesterday``.
        """
        marks = self._marks(found)
        at = {m.first for m in marks}
        marks = [m for m in marks if self._word(m.first) != "now" or at.isdisjoint(range(m.first + 1, m.first + NEAR))]
        if len(marks) == 1 and marks[0].kind == "relative" and marks[0].day < 0 and self._made(marks[0].first):
            marks.append(Mark(len(self.t), len(self.t), "relative", 0.0))
        if len(marks) != 2:
            return found
        a, b = marks if not self._now(marks[0].first) else (marks[1], marks[0])
        days = self._between(a, b)
        if days is None:
            return found
        hours = a.hour is not None and b.hour is not None
        value = days * HOURS + (b.hour or 0.0) - (a.hour or 0.0) if hours else days
        if value <= 0:
            return found
        units = ("hour",) if hours else ("day",)
        if a.number is not None:
            number = replace(a.number, value=value, units=units, noise="", implied=True, since=True)
            return [number if q is a.number else q for q in found]
        since = Quantity(value, a.first, a.last, units, implied=True, since=True)
        return sorted([*found, since], key=lambda q: q.first)

    def _now(self, i: int) -> bool:
        """``now it is Friday 16:00, it was made on Wednesday``: does the first of two days tell the present?"""
        return any(self._word(k) in NOW for k in range(max(0, i - 4), i))

    def _made(self, i: int) -> bool:
        return any(self._word(k) in MADE for k in range(i - 3, i))

    def _told_of_both(self, times: list[Quantity]) -> bool:
        """``opened at 11:30, it is 15:15 now``: does one of two times tell the present, and the other what was done?"""
        since = self._made(times[0].first) or self._word(times[0].first - 1) == "since"
        return since and (self._now(times[1].first) or self._word(times[1].last + 1) in NOW)

    def _between(self, a: Mark, b: Mark) -> float | None:
        if a.kind == b.kind == "weekday":
            return (b.day - a.day) % 7 if a.day != b.day or a.hour is not None else None
        return b.day - a.day if a.kind == b.kind else None

    def _marks(self, found: list[Quantity]) -> list[Mark]:
        times = [q for q in found if q.noise == "time"]
        dates = [q for q in found if q.noise == "date"]
        marks = [m for q in dates if (m := self._date(q)) is not None]
        for i, t in enumerate(self.t):
            if t.stem in DAYS and (
                t.stem not in WORDS_TOO
                or self._word(i - 1) in POINTING
                or any(q.first == i + 1 for q in times)
            ):
                marks.append(Mark(i, i, "weekday", DAYS[t.stem]))
            elif t.text in RELATIVE:
                marks.append(Mark(i, i, "relative", RELATIVE[t.text]))
        days = {(m.kind, m.day) for m in marks}
        if any(m.kind != "relative" for m in marks):
            marks = [m for m in marks if m.kind != "relative"]
        elif len(times) == 2 and (days == {TODAY} or (not days and self._told_of_both(times))):
            marks = [Mark(q.first, q.last, *TODAY) for q in times]
        elif len(times) == 2 and len(days) == 1:
            marks.append(Mark(times[1].first, times[1].last, *TODAY))
        marks = [self._timed(m, times) for m in sorted(marks, key=lambda m: m.first)]
        return [m for k, m in enumerate(marks) if k == 0 or (m.kind, m.day, m.hour) != (
            marks[k - 1].kind, marks[k - 1].day, marks[k - 1].hour)]

    def _date(self, q: Quantity) -> Mark | None:
        """The day of the year that is meant by ``10 March`` or ``March 10``; the same year is taken for both."""
        for k in (q.last + 1, q.first - 1, q.last + 2):
            name = self._word(k)
            if name in MONTHS:
                try:
                    day = date(2001, MONTHS[name], int(q.value))
                except (ValueError, OverflowError):
                    return None
                return Mark(q.first, q.last, "date", day.timetuple().tm_yday, number=q)
        return None

    def _timed(self, m: Mark, times: list[Quantity]) -> Mark:
        near = [q for q in times if 0 <= min(abs(q.first - m.last), abs(m.first - q.last)) <= NEAR]
        if not near:
            return m
        q = min(near, key=lambda q: min(abs(q.first - m.last), abs(m.first - q.last)))
        minutes = self._word(q.last) if q.last > q.first and self._word(q.last) in MINUTES else "0"
        later = self._word(q.last) in AFTERNOON and q.value < 12
        hour = q.value + int(minutes) / 60 + (12 if later else 0)
        return replace(m, hour=hour, number=q)


__all__ = ["Elapsed"]
