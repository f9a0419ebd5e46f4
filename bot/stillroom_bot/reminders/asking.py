"""``remind me in 48 h to strain the oleo``, ``reminders?``, ``cancel reminder 2``: set, listed, cancelled."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import datetime
from textwrap import shorten
from typing import TYPE_CHECKING

from .. import phrasing
from ..reading.tokens import stem
from ..reply import Reply
from ..state import State
from ..when.durations import duration_in
from ..when.moments import say_day, say_moment, say_span, shifted
from ..when.reading import when_in
from ..when.zones import zone_of
from .offering import LONGEST, offered
from .reminder import Reminder, coming

if TYPE_CHECKING:
    from ..intents import Heard, Talk

MOST, LONGEST_TEXT, SOONEST = 50, 300, 10.0
NEXT = "the next such hour; say 07:00 or 7 pm to be sure"
HOURS = ("09:00", "17:00")
_STARTS = re.compile(r"\W*(?:of|about|for)?\s*(?:the|each|every|all|our)?\s*(?:plan|starts?)\W*$", re.I)
_SET = re.compile(r"(?:^|.*?\b)(?:remind (?:me|us)|(?:set|make|add) (?:me |us )?a reminder|(?:a )?reminder)\b"
                  r"(?P<rest>.*)", re.I | re.S)
_BEFORE = re.compile(r"\s*before\s+(?:it(?:'s|’s)?|that|then|(?:the\s+)?[\w\s]{2,30}?(?:is|are))\b.*$", re.I | re.S)
_TO = re.compile(r"\b(?:to|that|about|of)\b\s+(?P<what>.+)$|:\s+(?P<too>.+)$", re.I | re.S)
_CANCEL = re.compile(r"\b(?:cancel|delete|drop|remove|forget|clear|stop|don'?t remind|do not remind)\b", re.I)
_LIST = re.compile(r"^\W*(?:(?:list|show|what|which|are|there|any|do|i|have|you|me|my|our|the|all|see)\b\W*)*"
                   r"reminders?\W*(?:(?:are|do|have|i|you|we|there|set|open|left|coming)\b\W*)*$", re.I)
_AGAIN = re.compile(r"\b(?:every|each)\s+(?:\w+\s+)?(?:day|night|morning|evening|week|hour|month|"
                    r"(?:mon|tues|wednes|thurs|fri|satur|sun)day)s?\b|\b(?:daily|weekly|hourly|repeat\w*)\b", re.I)
ONCE = "I remind once and do not repeat: give me the one day and hour."
_COMMON = frozenset("""cancel delete drop remove forget clear stop dont don not remind reminder the for about that this
    one please""".split())
_PLACES = {"first": 0, "second": 1, "third": 2, "fourth": 3, "fifth": 4, "last": -1}
_PLACE = re.compile(rf"\b({'|'.join(_PLACES)})(?:\s+(?:one|reminder))?\W*$", re.I)
_NO_MORE = re.compile(r"[\s,]*(?:(?:in|at|on|after|about|say|please)\b[\s,]*)*", re.I)
_YES = re.compile(r"\W*(?:yes|yep|sure|please do|yes please|go on)\W*(?:please)?\W*", re.I)


def hear(talk: Talk) -> Heard:
    """The reply to a message about reminders, and the state with what it sets or cancels."""
    if _YES.fullmatch(talk.text):
        return _set(talk, "") if offered(talk.state) and talk.state.open is None else None
    if _CANCEL.search(talk.text):
        return _cancelled(talk)
    if _LIST.match(talk.text):
        return _listed(talk), talk.state
    said = _SET.match(talk.text)
    if said and _STARTS.match(said["rest"]) and (talk.state.board or {}).get("plan"):
        return _starts(talk)
    if said and (re.match(r"\s*(?:,|how\b|what\b|why\b|which\b)", said["rest"], re.I) or
                 re.search(r"\bhow (?:many|much|long)\b", said["rest"], re.I)):
        return None
    return _set(talk, said["rest"]) if said else None


def _set(talk: Talk, rest: str) -> tuple[Reply, State]:
    said = _TO.search(rest)
    what = (said["what"] or said["too"]).strip(" .!") if said else ""
    when = rest[:said.start()] if said else rest
    offer = offered(talk.state)
    if _AGAIN.search(when):
        return phrasing.declined(talk.text, ONCE), talk.state
    span = duration_in(when) or (duration_in(what) if what and not when.strip(" ,") else None)
    note = ""
    if span is not None and _BEFORE.match(when[span[2]:]):
        if offer is None or offer[0] <= span[0]:
            return phrasing.asks(talk.text, None, "Before when? I have no such time.", ["time"],
                                 understood="say it as “remind me in 47 h to strain it”"), talk.state
        due, what = shifted(talk.now, offer[0] - span[0]), f"in {say_span(span[0])}: {offer[1]}"
    elif span is not None:
        due = shifted(talk.now, span[0])
        if what and not duration_in(when):
            what = (what[:span[1]] + what[span[2]:]).strip(" ,")
            what = re.sub(r"\s+(?:in|after)$", "", what)
    else:
        zone = zone_of(talk.state.settings)
        found = when_in(when, talk.now, zone) or when_in(what, talk.now, zone)
        if found is None and offer is not None:
            due = shifted(talk.now, offer[0])
        elif found is None or not (found.moments or found.days):
            reply = phrasing.asks(talk.text, None, "When shall I remind you?", ["time"],
                                  understood="say it as “remind me in 48 h to strain it”, or “Friday 9:00”")
            return reply, talk.state.but(open={"remind": what}) if what else talk.state
        elif not found.moments:
            if max(found.days) < talk.now.date():
                return phrasing.declined(talk.text, "That day is past: give me a time ahead."), talk.state
            to = f" to {what}" if what else ""
            return talk.asking("At what time?" if len(found.days) == 1 else "Which day, and at what time?", "time", {
                f"{say_day(d)}, {h}" if len(found.days) > 1 else h: f"remind me {d:%Y-%m-%d} {h}{to}"
                for d in found.days[:2] for h in (("09:00", "12:00", "17:00") if len(found.days) == 1 else HOURS)})
        elif all(m.at <= talk.now for m in found.moments):
            return phrasing.declined(talk.text, "That time is past: give me one ahead."), talk.state
        elif len(found.moments) > 1 and found.days:
            to = f" to {what}" if what else ""
            return talk.asking("Which time is meant?", "time", {
                say_moment(m.at, talk.now): f"remind me {m.at:%Y-%m-%d %H:%M}{to}" for m in found.moments})
        else:
            first = min(found.moments, key=lambda m: m.at)
            due, note = first.at, first.note if len(found.moments) == 1 else NEXT
            if what and not when.strip(" ,") and found.rest.strip(" ,"):
                what = re.sub(r"\s+(?:at|on)?\s*$", "", " ".join(found.rest.split())).strip(" ,")
    what = what or (offer[1] if offer else _last(talk))
    if not what:
        return phrasing.asks(talk.text, None, "Of what shall I remind you?", ["text"],
                             understood="say it as “remind me in 48 h to strain it”"), talk.state
    return _kept(talk, what[:LONGEST_TEXT], due, note)


def when_said(talk: Talk, what: str) -> Heard:
    """The time that was asked for, of ``what`` is to be reminded; None where the message says none."""
    said = talk.text.strip(" .!?")
    found = when_in(said, talk.now, zone_of(talk.state.settings))
    span = duration_in(said)
    rest = said[:span[1]] + said[span[2]:] if span else found.rest if found else said
    if (span or found) is None or not _NO_MORE.fullmatch(rest):
        return None
    return _set(replace(talk, state=talk.state.but(open=None)), f" {said} to {what}")


def _kept(talk: Talk, what: str, due: datetime, note: str) -> tuple[Reply, State]:
    ahead = (due - talk.now).total_seconds()
    if not SOONEST <= ahead <= LONGEST:
        wrong = "past" if ahead < SOONEST else "more than a year away"
        return phrasing.declined(
            talk.text, f"{say_moment(due, talk.now)} is {wrong}: give me a time ahead."), talk.state
    now = talk.now
    kept = coming(talk.state.reminders, now)
    if len(kept) >= MOST:
        return phrasing.declined(talk.text, f"There are {MOST} reminders already: cancel some first."), talk.state
    made = Reminder(what, due, now)
    reply = phrasing.noted(talk.text, f"I will remind you on {say_moment(due, now)} ({due.tzname()}), in "
                           f"{say_span(ahead)}: {what}" + (f" ({note})" if note else ""))
    last = {k: v for k, v in talk.state.last.items() if k != "offer"} if talk.state.last else None
    return reply, talk.state.but(reminders=tuple(r.to_json() for r in (*kept, made)), last=last)


def _starts(talk: Talk) -> Heard:
    """A reminder for each batch of the last plan that has still to be started before its service."""
    from ..board.plan import NoPlan
    from ..board.plan_asking import plan_again

    try:
        plan = plan_again(talk)
    except NoPlan as e:
        return phrasing.declined(talk.text, str(e)), talk.state
    now = talk.now
    ahead = [t for t in plan.tasks if now < t.start < plan.service] if plan else []
    if plan is None or not ahead:
        return phrasing.declined(talk.text, "No start of that plan is still ahead."), talk.state
    made = [Reminder(f"start {t.batch.spec.name}, for {say_moment(plan.service, now)}", t.start, now) for t in ahead]
    kept = [r for r in coming(talk.state.reminders, now) if (r.due, r.text) not in {(m.due, m.text) for m in made}]
    if len(kept) + len(made) > MOST:
        return phrasing.declined(talk.text, f"More than {MOST} reminders: cancel some first."), talk.state
    lines = tuple(f"• {say_moment(r.due, now)}: {r.text}" for r in made)
    reply = Reply("noted", talk.text, f"I will remind you at {len(made)} start{'s' if len(made) > 1 else ''}", lines)
    return reply, talk.state.but(reminders=tuple(r.to_json() for r in (*kept, *made)))


def _listed(talk: Talk) -> Reply:
    kept = coming(talk.state.reminders, talk.now)
    if not kept:
        return phrasing.noted(talk.text, "There are no reminders.")
    lines = tuple(f"{n}. {say_moment(r.due.astimezone(talk.now.tzinfo), talk.now)}: {r.text}"
                  for n, r in enumerate(kept, 1))
    return Reply("noted", talk.text, f"{len(kept)} reminder{'s' if len(kept) > 1 else ''}", (
        *lines, "Say “cancel reminder 1” to drop one."))


def _cancelled(talk: Talk) -> Heard:
    kept = coming(talk.state.reminders, talk.now)
    if not kept:
        named = "remind" in talk.text.lower()
        return (phrasing.noted(talk.text, "There is no reminder to cancel."), talk.state) if named else None
    gone, near = _meant(talk.text, kept), _near(talk.text, kept)
    if not gone and not near and "remind" not in talk.text.lower():
        return None
    if not gone:
        return talk.asking("Which reminder is meant?", "reminder", {
            f"{n}. {shorten(r.text, 50, placeholder=' …')}": f"cancel reminder {n}"
            for n, r in enumerate(kept, 1) if r in (near or kept)})
    left = tuple(r.to_json() for r in kept if r not in gone)
    told = "; ".join(f"{r.text} ({say_moment(r.due.astimezone(talk.now.tzinfo), talk.now)})" for r in gone)
    return phrasing.noted(talk.text, f"Cancelled: {told}."), talk.state.but(reminders=left)


def _meant(text: str, kept: list[Reminder]) -> list[Reminder]:
    """The reminders that a message cancels: all, by number, by words of theirs, or the only one."""
    if re.search(r"\b(?:all|every|reminders)\b", text, re.I) and not re.search(r"\d", text):
        return kept
    numbers = [int(n) for n in re.findall(r"(?:reminders?|number|no\.?|#|and|,)\s*#?(\d{1,2})\b", text, re.I)]
    if numbers:
        return [kept[n - 1] for n in dict.fromkeys(numbers) if 0 < n <= len(kept)]
    place = _PLACE.search(text)
    if place is not None:
        n = _PLACES.get(place[1].lower(), 0)
        return [kept[n]] if -len(kept) <= n < len(kept) else []
    if not _words(text):
        return kept if len(kept) == 1 else []
    hits = _near(text, kept)
    return hits if len(hits) == 1 else []


def _near(text: str, kept: list[Reminder]) -> list[Reminder]:
    """The reminders in which all words of a message stand."""
    words = _words(text)
    return [r for r in kept if words and words <= {stem(w) for w in re.findall(r"\w{3,}", r.text.lower())}]


def _words(text: str) -> set[str]:
    return {stem(w) for w in set(re.findall(r"\w{3,}", text.lower())) - _COMMON}


def _last(talk: Talk) -> str:
    request = (talk.state.last or {}).get("request") or {}
    model = talk.kernel.models.get(str(request.get("calculator")))
    return model.calculator.title if model else ""
