"""Keeping and starting by the calendar: ``made on 3 March, use by?``, ``when do I start it, to have it Friday 18:00?``

What is said by the calendar is put as days ago or hours from now, asked as the sum that it is, and the answer told
by the calendar again.
"""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

from ..reply import Reply
from .dates import days_in
from .moments import say_day, say_moment, shifted
from .reading import when_in
from .zones import zone_of

if TYPE_CHECKING:
    from ..intents import Heard, Talk

MADE = re.compile(r"\b(?:made|pressed|bottled|opened|mixed|brewed|cooked|juiced)\b", re.IGNORECASE)
BEFORE = re.compile(r"\b(?:on\s+)?(?:the\s+)?$", re.IGNORECASE)
TRAILING = re.compile(r"(?:[\s,]+(?:for|by|at|on|to|be|have|it|ready|is|so|that))+$", re.IGNORECASE)
HOUR, DAY = 3600.0, 86400.0
SIZES = {"hour": HOUR, "day": DAY, "minute": 60.0, "second": 1.0, "week": 7 * DAY}


def hear(talk: Talk) -> Heard:
    """The answer with its day or hour by the calendar, or None where no plain day or hour is said."""
    return _used_by(talk) if MADE.search(talk.text) else _started(talk)


def _started(talk: Talk) -> Heard:
    """When to begin, for something to be ready at an hour."""
    now, zone = talk.now, zone_of(talk.state.settings)
    when = when_in(talk.text, now, zone)
    if when is None or when.contradicts or len(when.moments) != 1 or when.moments[0].at <= now:
        return None
    until = (when.moments[0].at - now).total_seconds()
    job = TRAILING.sub("", when.rest.strip(" ,.?"))
    reply, state = talk.answer(f"{job}, must be ready in {until / HOUR:.8g} hours, when to start?", talk.state)
    seconds = _seconds(reply, "start")
    if seconds is None:
        return (replace(reply, question=talk.text), state) if reply.status == "declined" and reply.calculator else None
    begin = shifted(when.moments[0].at, round(seconds - until))
    return _told(reply, talk.text, f"Begin by {say_moment(begin, now)}."), state


def _used_by(talk: Talk) -> Heard:
    """The day on which the time of something is over that was made on a day."""
    today = talk.now.date()
    said = days_in(talk.text, today, past=True)
    if len(said) != 1:
        return None
    if len(said[0].may_be) > 1:
        return talk.asking("Which day is meant?", "day", {
            say_day(d): f"{talk.text[: said[0].start]}{d:%Y-%m-%d}{talk.text[said[0].end :]}"
            for d in said[0].may_be if isinstance(d, date)})
    day = said[0].may_be[0]
    if not isinstance(day, date) or day > today:
        return None
    age = (today - day).days
    before = BEFORE.sub("", talk.text[: said[0].start])
    reply, state = talk.answer(f"{before} {age} days ago{talk.text[said[0].end :]}", talk.state)
    seconds = _seconds(reply, "left")
    if seconds is None:
        return None
    return _told(reply, talk.text, f"Use by {say_day(shifted(talk.now, seconds).date())}."), state


def _seconds(reply: Reply, name: str) -> float | None:
    """The seconds of an answer's time of that name."""
    found = next((v for v in reply.to_json()["answer"] if v["name"] == name and v["unit"] in SIZES), None)
    return None if found is None or reply.status != "answered" else found["value"] * SIZES[found["unit"]]


def _told(reply: Reply, text: str, line: str) -> Reply:
    return replace(reply, question=text, body=(line, *reply.body))


__all__ = ["hear"]
