"""Wall clocks and instants: what a time on the wall means on the days when the clock is changed.

Everything that is reckoned is an instant (a datetime with its zone, compared in UTC); the wall time is only
how it was said and how it is shown.  The rules are those of the IANA database, by ``zoneinfo``.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo


@dataclass(frozen=True, slots=True)
class Moment:
    """An instant in a zone, and a sentence where the wall time alone did not settle it."""

    at: datetime
    note: str = ""


def moment(day: date, clock: time, zone: ZoneInfo) -> Moment:
    """The instant of a wall time.

    A time that the clock skips in spring is as much later; of one that it shows twice in autumn, the first.
    """
    wall = datetime.combine(day, clock, zone)
    back = wall.astimezone(UTC).astimezone(zone)
    if back.replace(tzinfo=None) != wall.replace(tzinfo=None):
        return Moment(back, f"the clock goes forward that night and never shows {wall:%H:%M}: taken as {back:%H:%M}")
    if wall.utcoffset() != wall.replace(fold=1).utcoffset():
        return Moment(wall, f"the clock goes back that night and shows {wall:%H:%M} twice: taken as the first, "
                            f"{wall.tzname()}")
    return Moment(wall)


def moments_of(day: date, clock: time, zone: ZoneInfo) -> tuple[Moment, ...]:
    """The instants of a wall time: both, of one that the clock shows twice in autumn."""
    one = moment(day, clock, zone)
    if not shown_twice(one.at):
        return (one,)
    return (Moment(one.at), Moment(one.at.replace(fold=1)))


def shown_twice(at: datetime) -> bool:
    """Does the clock show this time twice, an hour apart?"""
    first, second = at.replace(fold=0).utcoffset(), at.replace(fold=1).utcoffset()
    return first is not None and second is not None and first > second


def exactly(at: datetime) -> str:
    """``2026-11-27 19:00``, to be read again; with the name of its time where the clock shows it twice."""
    return f"{at:%Y-%m-%d %H:%M}" + (f" {at.tzname()}" if shown_twice(at) else "")


def shifted(at: datetime, seconds: float) -> datetime:
    """An instant so many real seconds later (or earlier), on the same zone's clock."""
    return (at.astimezone(UTC) + timedelta(seconds=seconds)).astimezone(at.tzinfo)


def days_on(at: datetime, days: int) -> datetime:
    """The same hour on the wall so many days later: a use-by is a date, whatever the clock does in between."""
    day: date = at.date() + timedelta(days)
    return moment(day, at.time().replace(second=0, microsecond=0, tzinfo=None), at.tzinfo).at  # type: ignore[arg-type]


def clock_changes(first: datetime, last: datetime) -> bool:
    """Is the clock changed between two instants of one zone?"""
    return first.utcoffset() != last.utcoffset()


def say_moment(at: datetime, now: datetime | None = None) -> str:
    """``Friday 27 November, 19:00``; with the year where it is not this one's."""
    return f"{say_day(at.date(), now.date() if now else None)}, {at:%H:%M}" + (
        f" {at.tzname()}" if shown_twice(at) else "")


def say_day(day: date, today: date | None = None) -> str:
    """``Friday 27 November``; with the year where it is not this one's."""
    year = f" {day.year}" if today is not None and today.year != day.year else ""
    return f"{day:%A} {day.day} {day:%B}{year}"


def say_span(seconds: float) -> str:
    """A duration as it is said: ``20 min``, ``1 h 30 min``, ``48 h``, ``9 days``."""
    if round(seconds) < 60:
        return f"{round(seconds)} s"
    minutes = round(seconds / 60)
    days, rest = divmod(minutes, 24 * 60)
    hours, left = divmod(minutes, 60)
    if days > 2:
        return f"{days} days" + (f" {rest // 60} h" if rest >= 60 else "")
    if not hours:
        return f"{left} min"
    return f"{hours} h" + (f" {left} min" if left else "")
