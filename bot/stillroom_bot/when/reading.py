"""When something is to be: the instants that a message may mean, all of them, each with words to choose it by."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

from .dates import Said, days_in, times_in
from .moments import Moment, exactly, moment, moments_of, say_moment
from .names import DAYS


@dataclass(frozen=True, slots=True)
class When:
    """``moments`` are what it may mean: one if it is plain.  ``rest`` is the message without it, and
    ``plain`` the message with each moment in the place of what was said, by the words for it.

    ``contradicts``: a weekday and a date that are not the same day.  ``days``: a day was said without a time.
    """

    moments: tuple[Moment, ...]
    rest: str
    plain: dict[str, str]
    contradicts: bool = False
    days: tuple[date, ...] = ()


def when_in(text: str, now: datetime, zone: ZoneInfo, past: bool = False) -> When | None:
    """The instants in a message, ahead or ``past``; None where it names neither a day nor a time of day."""
    found = days_in(text, now.date(), past)
    hours = times_in(text, found)[:1]
    if not found and not hours:
        return None
    days, contradicts = _same(found)
    spans = sorted((s.start, s.end) for s in (*found, *hours))
    rest = _without(text, spans)
    times = tuple(t for s in hours for t in s.may_be if isinstance(t, time))
    if not times:
        return When((), rest, {}, contradicts, days)
    if found:
        moments = tuple(m for d in days for t in times for m in moments_of(d, t, zone))
    else:
        moments = tuple(_nearest(t, now, zone, past) for t in times)
    start, end = spans[0][0], spans[-1][1]
    named = [(m, at) for m in moments if (at := _named_after(text[end:], m.at))]
    if len(moments) > 1 and len(named) == 1:
        moments, end = (named[0][0],), end + named[0][1]
        rest = _without(text, [*spans[:-1], (spans[-1][0], end)])
    if any(text[a:b].strip(" ,at") for (_, a), (b, _) in pairwise(spans)):
        plain = {say_moment(m.at, now): f"{exactly(m.at)}, {rest.strip(' ,')}" for m in moments}
    else:
        plain = {say_moment(m.at, now): f"{text[:start]}{exactly(m.at)}{text[end:]}" for m in moments}
    return When(moments, rest, plain, contradicts, days)


def _named_after(text: str, at: datetime) -> int:
    """``02:30 CET``: how many characters name the time of an instant; none where they do not."""
    name = f"{' ' * text.startswith(' ')}{at.tzname()}"
    return len(name) if text.startswith(name) and not text[len(name) : len(name) + 1].isalnum() else 0


def _same(found: list[Said]) -> tuple[tuple[date, ...], bool]:
    """The days that all parts of a message may mean; all of them, and True, where there are none."""
    if not found:
        return (), False
    sets = [[d for d in s.may_be if isinstance(d, date)] for s in found]
    weekdays = [DAYS.get(s.text.casefold().strip(" .")) for s in found]
    dated = [days for days, weekday in zip(sets, weekdays, strict=True) if weekday is None]
    if dated and len(dated) < len(sets):
        named = [d for days in dated for d in days]
        sets = [days if w is None else [d for d in named if d.weekday() == w] or days
                for days, w in zip(sets, weekdays, strict=True)]
    common = tuple(d for d in sets[0] if all(d in s for s in sets[1:]))
    return (common, False) if common else (tuple(dict.fromkeys(d for s in sets for d in s)), True)


def _nearest(clock: time, now: datetime, zone: ZoneInfo, past: bool) -> Moment:
    """The next time that a clock shows an hour, or the last."""
    today = moment(now.date(), clock, zone)
    if (today.at <= now) if past else (today.at > now):
        return today
    return moment(now.date() + timedelta(-1 if past else 1), clock, zone)


def _without(text: str, spans: list[tuple[int, int]]) -> str:
    for start, end in reversed(spans):
        text = f"{text[:start]} {text[end:]}"
    return text
