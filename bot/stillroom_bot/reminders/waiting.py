"""``When is it ready?`` and ``how long does it keep?`` of what was made last, or of a kept spec, by the calendar."""

from __future__ import annotations

import re
from datetime import datetime, time
from typing import TYPE_CHECKING

from .. import phrasing
from ..board.following import looking_at
from ..board.plan_times import rest_of
from ..board.spec import KeptSpec
from ..reply import Reply
from ..state import State
from ..when.moments import days_on, moment, say_day, say_moment, say_span, shifted
from ..when.reading import when_in
from ..when.zones import zone_of
from .offering import LONGEST, SHORTEST, offer_line
from .subject import Subject, Wait, subject_of

if TYPE_CHECKING:
    from ..intents import Heard, Talk

DAY = 86400.0
LOCAL = "A table knows kinds of things, not your kitchen: your local food code comes first."
_IT = r"(?P<it>(?:the\s+|our\s+|my\s+)?[^\W\d_][^,;?!\d]{0,50}?)"
_READY = tuple(re.compile(p, re.I) for p in (
    rf"\b(?:when|what time|how soon)\s+(?:is|are|will|would|can|should)\s+{_IT}\s+(?:be\s+)?(?:ready|done|finished)\b",
    r"\b(?:when|what time|how soon)\s+(?:can|could|should|do|must|may)\s+(?:i|we)\s+"
    rf"(?:strain|filter|press|drain|open|use|serve|pour|bottle)\s+{_IT}(?=\W*$|,)",
    rf"\bhow long\s+(?:does|do|must|should|will|has|have)\s+{_IT}\s+(?:(?:have|need|got)\s+)?(?:to\s+)?"
    r"(?:stand|rest|sit|take|need|wait|macerate|be left)\b",
    rf"\bhow long\s+(?:is it\s+)?(?:till|until|before)\s+{_IT}\s+(?:is|are)\s+(?:ready|done)\b",
    r"^\W*(?:(?:and|so|ok(?:ay)?|oh)\W+)?(?P<bare>how long)(?:\s+(?:then|for))?\W*$",
    r"\b(?:when ready|ready when|ready by when|when will (?:it )?be ready)\b",
))
_KEEPS = tuple(re.compile(p, re.I) for p in (
    rf"\bhow long\s+(?:does|do|will|would|can|is|are)\s+{_IT}\s+(?:keep|last|hold|live|good|stay good|be good)\b"
    r"(?:\s+for)?",
    rf"\bhow long\s+can\s+(?:i|we)\s+(?:keep|store|use)\s+{_IT}(?=\W*$|,)",
    rf"\b(?:until|till)\s+when\s+(?:is|does|do|will|can (?:i|we) (?:use|keep))\s+{_IT}"
    r"(?:\s+(?:good|keep|last|be good))?(?=\W*$|,)",
    rf"\bwhen\s+(?:does|do|will|is)\s+{_IT}\s+(?:go off|go bad|expire|spoil|off|over|no longer good)\b",
    r"\b(?:what(?:'s| is)|when is)\s+(?:the|its)\s+(?:use[- ]by|shelf life|expiry)(?:\s+date)?"
    rf"(?:\s+(?:of|for)\s+{_IT})?(?=\W*$|,)",
    r"^\W*(?:use[- ]by|shelf life|best before)(?:\s+date)?\W*$",
    r"^\W*(?:(?:and|so|ok(?:ay)?)\W+)?(?:(?:keeps?|lasts?|good)\s+(?:for\s+)?how long|"
    r"how long\s+(?:will\s+)?(?:keeps?|lasts?|good))\W*$",
))
_START = re.compile(
    r"^[\s,;]*(?:and|so|if|when)?\s*(?:(?:i|we|it|they|that)(?:'s)?\s+)?(?:was\s+|were\s+|is\s+|am\s+|have\s+|to\s+)*"
    r"(?P<verb>start(?:ed|ing|s)?|beg[aiu]n(?:ning)?|made|make|making|mixed|put up|set up|from|since|bottled|charged|"
    r"covered|poured)\s*(?:it|that|this|them)?\s*(?P<when>.*?)[\s,;?.!]*$", re.I | re.S)
_BEGUN = re.compile(
    r"^\W*(?:(?:i|we)\s+)?(?:have\s+|just\s+)*(?:started|put up|set up)\s+"
    r"(?P<it>(?:the\s+|our\s+)?[^\W\d][^\d,;?!]{1,50}?)\s+"
    r"(?P<when>(?:at|now|just now|yesterday|today|this|last|on)\b.*)$", re.I)
"""``started the chicory rum at 9``: said, not asked; when it is ready follows."""
_WHENS = re.compile(r"\bwhen['’]?s\b", re.I)
_PAST = re.compile(r"ed$|^(?:began|begun|made|since|put up|set up)$", re.I)
_NOW = re.compile(r"^(?:right\s+|just\s+)?(?:now|straight away|at once)?$", re.I)
_LEAD = re.compile(r"^\s*(?:and|so|ok|okay|then|now|but|please|great|thanks)?[\s,]*", re.I)


def hear(talk: Talk) -> Heard:
    """The day and the hour, and an offer to remind; None where the message is about something else."""
    text = _WHENS.sub("when is", talk.text.strip())
    begun = _BEGUN.match(text)
    if begun is not None and (spec := talk.spec(begun["it"])) is not None and rest_of(talk.kernel, spec)[0]:
        return _answered(talk, begun["it"], f"started {begun['when']}", True)
    for patterns, ready in ((_READY, True), (_KEEPS, False)):
        for pattern in patterns:
            found = pattern.search(text)
            if found is not None:
                rest = _LEAD.sub("", f"{text[: found.start()]} {text[found.end() :]}").strip(" ?.!,")
                if "bare" in found.groupdict():
                    return _bare(talk)
                return _answered(talk, (found.groupdict().get("it") or "it").strip(), rest, ready)
    return None


def _bare(talk: Talk) -> Heard:
    """``How long?``: until it is ready, where what was made has to stand; else a question like any other."""
    subject = subject_of(talk, "it")
    return _answered(talk, "it", "", True) if subject is not None and subject.ready is not None else None


def _answered(talk: Talk, it: str, rest: str, ready: bool) -> Heard:
    start = _START.match(rest) if rest else None
    if rest and start is None:
        return None
    subject = subject_of(talk, it)
    if subject is None:
        return None
    wait = subject.ready if ready else subject.keeps
    if wait is None:
        return _unknown(talk, subject, ready)
    begun = _begun(talk, subject, start, ready) if start else talk.now
    return begun if begun is None or isinstance(begun, tuple) else _told(talk, subject, wait, begun, ready)


def _begun(talk: Talk, subject: Subject, start: re.Match[str], ready: bool) -> datetime | tuple[Reply, State] | None:
    """The instant at which it was or will be begun; a question back where a day has no hour; None for no time."""
    said, past = start["when"].strip(), _PAST.search(start["verb"]) is not None
    if _NOW.match(said):
        return talk.now
    zone = zone_of(talk.state.settings)
    when = when_in(said, talk.now, zone, past)
    if when is None or when.contradicts or re.search(r"\d", when.rest):
        return None
    if when.moments:
        fit = [m.at for m in when.moments if not past or m.at <= talk.now] or [m.at for m in when.moments]
        if len(fit) == 1:
            return fit[0]
        ways = {say_moment(at, talk.now): f"{at:%Y-%m-%d %H:%M}" for at in fit}
    elif len(when.days) == 1 and not ready:
        return moment(when.days[0], time(talk.now.hour, talk.now.minute), zone).at
    elif len(when.days) == 1:
        ways = {h: f"{when.days[0]:%Y-%m-%d} {h}" for h in ("09:00", "12:00", "17:00")}
    else:
        ways = {say_day(d): f"{d:%Y-%m-%d}" for d in when.days}
    name = f"the {subject.name}" if subject.spec else "it"
    asks = f"when is {name} ready" if ready else f"how long does {name} keep"
    verb = "started" if past else "if I start"
    return talk.asking("When exactly was it begun?" if past else "When exactly is it begun?", "time", {
        label: f"{asks}, {verb} {at}" for label, at in ways.items()})


def _told(talk: Talk, subject: Subject, wait: Wait, begun: datetime, ready: bool) -> tuple[Reply, State]:
    now = talk.now
    by_day = not ready and wait.seconds >= 3 * DAY
    due = days_on(begun, int(wait.seconds // DAY)) if by_day else shifted(begun, wait.seconds)
    shown = say_day(due.date()) if by_day else say_moment(due, now)
    over = due <= now
    if ready:
        head = f"It has been ready since {shown}" if over else f"Ready on {shown}"
    else:
        head = f"Its time has been over since {shown}: throw it away" if over else f"Good until {shown}"
    at = "now" if begun == now else say_moment(begun, now)
    body = [f"{subject.name}: {'stands' if ready else 'keeps'} {say_span(wait.seconds)} from {at}"
            + (f" ({wait.source})." if wait.source else ".")]
    if ready and subject.spec is not None:
        body += [f"{name} in it stands {say_span(seconds)} before that, if it has still to be made."
                 for name, seconds in _within(talk, subject.spec)]
    cautions = [] if ready else [subject.caution or LOCAL]
    body += [f"Beware: {c}" for c in cautions]
    ahead = (due - now).total_seconds()
    last = dict(talk.state.last or {})
    last.pop("offer", None)
    if SHORTEST <= ahead <= LONGEST:
        what = f"{subject.name} is ready" if ready else f"{subject.name}: its time is over"
        last["offer"] = {"seconds": ahead, "text": what}
        body.append(offer_line(say_span(ahead)))
    value = {"name": wait.name, "value": wait.seconds / 3600, "unit": "hour", "origin": "assumed"}
    reply = Reply("answered", talk.text, head, tuple(body), (), (), subject.calculator, {
        "answer": [value], "values": [value], "assumptions": [wait.source] if wait.source else [],
        "cautions": cautions})
    board = looking_at(talk.state, subject.spec.id) if subject.spec is not None else {}
    return reply, talk.state.but(last=last or None, board={**(talk.state.board or {}), **board} or None)


def _within(talk: Talk, spec: KeptSpec) -> list[tuple[str, float]]:
    """The specs that are lines of one, and how long each stands, where it does."""
    found = []
    for line in spec.lines:
        inner = talk.book.named(line.thing)
        seconds = rest_of(talk.kernel, inner)[0] if inner else 0.0
        if inner is not None and seconds:
            found.append((inner.name, seconds))
    return found


def _unknown(talk: Talk, subject: Subject, ready: bool) -> tuple[Reply, State]:
    if ready:
        said = f"I know no time that {subject.name} has to stand" if subject.spec else \
            "I know no time that this has to stand"
        more = f": say it as “{subject.name} rests 12 h”." if subject.spec else ": its steps say what there is to know."
        return phrasing.declined(talk.text, said + more), talk.state
    said = f"I know no time that {subject.name} keeps" if subject.spec else "I know no time that this keeps"
    near = [f"{subject.name} keeps 7 days"] if subject.spec else ["how long does lime cordial keep?"]
    return phrasing.declined(talk.text, f"{said}.", near=near), talk.state
