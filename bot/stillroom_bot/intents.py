"""What is asked for beside a sum: paper, pictures, reminders, plans.  One table, looked at before the reader.

An intent hears a message only if its pattern fits from the very beginning, and may still pass it on by
returning None: then the message is a question like any other.  Its module is imported when its pattern
fits, so that a question costs a few patterns and nothing else.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime, time
from importlib import import_module
from typing import TYPE_CHECKING

from . import phrasing
from .board.book import Book
from .board.names import named
from .board.spec import KeptSpec
from .reply import Reply
from .state import State
from .when.zones import now_in

if TYPE_CHECKING:
    from stillroom import Kernel

Answer = Callable[[str, State], tuple[Reply, State]]


@dataclass(frozen=True, slots=True)
class Talk:
    """A message and all that an intent may know: the chat's state and book, the kernel, and what the clock says.

    ``answer`` is the conversation itself, for an intent that stands on a sum.
    """

    text: str
    state: State
    kernel: Kernel
    clock: Callable[[], datetime]
    answer: Answer

    @property
    def book(self) -> Book:
        """The specs that the chat keeps."""
        return self.state.book

    def spec(self, name: str) -> KeptSpec | None:
        """The kept spec of a name, in the plural too, and with a typing error in it."""
        return named(self.book, name)[0]

    def asking(self, question: str, missing: str, ways: Mapping[str, str]) -> tuple[Reply, State]:
        """A question back: ``ways`` are its choices, and the whole message that each stands for."""
        reply = phrasing.asks(self.text, None, question, [missing], tuple(ways)[:4])
        return reply, self.state.but(open={"ways": dict(ways)})

    @property
    def now(self) -> datetime:
        """The time in the chat's own zone."""
        return now_in(self.state.settings, self.state.here.now or self.clock())


Heard = tuple[Reply, State] | None


@dataclass(frozen=True, slots=True)
class Intent:
    """``pattern`` is how its messages begin; ``module`` (of this package) has ``hear(talk) -> Heard``.

    ``holds`` is what every such message has in it somewhere, in small letters: looked for first where the pattern has
    to look through the whole message before it fails.
    """

    pattern: re.Pattern[str]
    module: str
    holds: re.Pattern[str] | None = None

    def hear(self, talk: Talk, lower: str) -> Heard:
        """The reply and the chat's new state, or None where the message, ``lower`` in small letters, is for another."""
        if self.holds is not None and not self.holds.search(lower):
            return None
        if not self.pattern.match(talk.text):
            return None
        found: Heard = import_module(f".{self.module}", __package__).hear(talk)
        return found


def _begins(pattern: str) -> re.Pattern[str]:
    return re.compile(rf"\s*(?:(?:please|ok|okay|now|and|then|could you|can you)\b,?\s+)*(?:{pattern})", re.IGNORECASE)


_MAKE = r"(?:(?:print|draw|make|do|give me|i (?:need|want|would like))\s+(?:me\s+)?)?"
_YES = r"(?:yes|yep|sure|please do|go on)\W*(?:please)?\W*$"
_REMIND = (
    r"remind (?:me|us)\b|(?:set|make|add)\s+(?:me\s+)?a reminder\b|(?:don'?t|do not) remind\b|reminders?\b|"
    r"(?:list|show|what|which|are|any|my|our)\b[^?\d]{0,30}\breminders?\b|"
    r"(?:cancel|delete|drop|remove|forget|clear|stop)\b.{0,25}\bremind|"
    r"(?:cancel|delete|drop)\s+(?:the\s+)?(?:(?:first|second|third|fourth|fifth|last)(?:\s+one)?\W*$|"
    r"one\s+(?:about|for|to|at|of|that)\b|[^\W\d][\w' ]{1,40}?\s+one\W*$)"
)
_DAY = (
    r"(?:on\s+|for\s+|next\s+|this\s+|coming\s+|service\s+)*(?:(?:mon|tues?|wed(?:nes)?|thu(?:rs)?|fri|sat(?:ur)?|sun)(?:day)?\b|"
    r"to(?:day|night|morrow)\b|\d{4}-\d|\d{1,2}[/.]\d{1,2}\b|\d{1,2}(?:st|nd|rd|th)?\s+(?:of\s+)?"
    r"(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?|"
    r"nov(?:ember)?|dec(?:ember)?)\b|(?:at\s+)?\d{1,2}[:h]\d{2}\b)"
)
_PLAN = (
    r"(?:(?:make|give|show|write|i need|we need)\s+)?(?:me\s+|us\s+)?(?:a\s+|the\s+|our\s+)?"
    r"(?:(?:prep(?:aration)?\s+)?(?:plan|prep)\b|(?:move|change|shift|push|set)\s+(?:the|our|that)\s+plan\b|(?:shopping|mise|to-?do)\s+list\b)|"
    r"(?:what|when)\s+(?:do|should|must|will)\s+(?:i|we)\s+(?:need to |have to |want to )?"
    r"(?:prep(?:are)?|make|start|begin|buy|order|get)\b|"
    r"(?:we|i|they)(?:['’]re|\s+(?:have|are|will|need|serve|expect|sell|do|want))\b"
    r"(?=.*(?:day\b|tomorrow|tonight|\d[:h]\d|\d\s?[ap]m\b))"
)
_LATE_DAY = (
    r"(?=(?:\d+|an?|one|two|three|four|five|six|ten|twelve|twenty|thirty|forty|fifty|sixty|eighty)\b)"
    r"(?=.*\b(?:(?:mon|tues|wednes|thurs|fri|satur|sun)day|tonight|tomorrow|today)\b)"
    r"(?=.*(?:\d[:h]\d|\d\s?[ap]m\b))"
)
_SEVERAL = r"(?:(?:we |i )?need\s+)?\d+\s+[a-z][^\d:?]+(?:,|\band\b|&|\+|\n)\s*\d+\s+[a-z][^\d:?]*\W*$"
_AHEAD = r"(?:for\s+)?in\s+\S+\s*(?:hours?|h|hrs?|min(?:ute)?s?|days?)\s*[,:;-]"
_PICTURE = r"(?:picture|plot|graph|chart|curve|timeline)"
_DRAW = (
    r"(?:draw|plot|graph|chart|timeline|sketch)\b|"
    rf"(?:show|give)\s+(?:me\s+)?(?:a|the)\s+{_PICTURE}\b|(?:a\s+|the\s+)?{_PICTURE}\s+of\b"
)
_WORKING = (
    r"(?:(?:show|give|tell)\s+(?:me\s+|us\s+)?(?:the|your|its|all)\s+(?:working|workings|sums?|maths?|steps)|"
    r"(?:the\s+)?workings?|how (?:did|do) you (?:get|work|come)\b[^,.;\d]{0,20}|"
    r"how (?:is|was) (?:that|it) worked out|where (?:does|did) that come from)\W*(?:please)?\W*$"
)
_BY_CALENDAR = (
    r"(?=.*\b(?:when|what time|latest)\b)(?=.*\b(?:start|begin)\b)"
    r"(?=.*(?:\d[:h]\d|day\b|tomorrow|tonight|noon|\d\s?[ap]m\b))|"
    r"(?=.*\b(?:made|pressed|bottled|opened|mixed|brewed|cooked|juiced)\b)"
    r"(?=.*\b(?:use[- ]by|best before|expires?|go(?:es)? off|good until|good till|is it (?:off|over)|throw it)\b)"
)
_WAITING = (
    r"\s*(?:(?:i|we)\s+)?(?:have\s+|just\s+)*(?:started|put up|set up)\b|"
    r"(?=.*\b(?:whens?|what time|how soon|how long)\b)"
    r"(?=.*\b(?:ready|done|finished|strain|filter|press|drain|open|use|serve|pour|bottle|stand|rest|sit|take|need|wait|"
    r"macerate|be left|keep|store|last|hold|live|good|go off|go bad|expire|spoil|off|over)\b)|"
    r"\W*(?:(?:and|so|ok(?:ay)?|oh)\W+)?how long(?:\s+(?:then|for))?\W*$|"
    r".*\b(?:use[- ]by|shelf life|best before|expiry)\b"
)
_ROUND = r"round(?:ed)?(?:\s+(?:it|that|them|this))?(?:\s+(?:up|down|off))?\W*(?:please)?\W*$"
INTENTS = (
    Intent(_begins(_ROUND), "rounding"),
    Intent(_begins(_WORKING), "showing"),
    Intent(_begins(rf"{_MAKE}(?:\d{{1,4}}\s+|(?:a|the|some|one)\s+)?labels?\b"), "paper.asking"),
    Intent(_begins(rf"{_REMIND}|{_YES}"), "reminders.asking"),
    Intent(_begins(_DRAW), "pictures.asking"),
    Intent(_begins(rf"{_PLAN}|{_DAY}|{_LATE_DAY}|{_AHEAD}|{_SEVERAL}"), "board.plan_asking"),
    Intent(re.compile(_WAITING, re.IGNORECASE | re.DOTALL), "reminders.waiting", re.compile(
        r"started|put up|set up|when|what time|how soon|how long|use[- ]by|shelf life|best before|expiry")),
    Intent(re.compile(_BY_CALENDAR, re.IGNORECASE | re.DOTALL), "when.calendar", re.compile(
        r"start|begin|use[- ]by|best before|expire|go(?:es)? off|good until|good till|is it o|throw it")),
    Intent(_begins(r"(?:(?:set|change|use|our|my|the)\s+)*time ?zone\b"), "when.zones"),
)


def _meant(text: str, ways: Mapping[str, object]) -> list[str]:
    """What a choice among some may mean: a part of its label, or its hour said another way (``7 pm``)."""
    from .when.dates import times_in

    said = text.strip(" .!?").casefold()
    numbered = [str(w) for label, w in ways.items() if said.isdigit() and label.startswith(f"{said}. ")]
    if numbered:
        return numbered
    hours = [h for x in times_in(said) if x.text.casefold() == said for h in x.may_be if isinstance(h, time)]
    tries = [said, *(f"{h:%H:%M}" for h in hours)] if said else []
    return [str(w) for label, w in ways.items() if any(f" {t} " in f" {label} ".casefold() for t in tries)]


def hear(talk: Talk) -> Heard:
    """What the first intent makes of the message that hears it; None for an ordinary question."""
    ways = (talk.state.open or {}).get("ways")
    if isinstance(ways, Mapping):
        meant = _meant(talk.text, ways)
        if len(meant) == 1:
            talk = replace(talk, text=meant[0], state=talk.state.but(open=None))
    what = (talk.state.open or {}).get("remind")
    if isinstance(what, str):
        from .reminders.asking import when_said

        heard = when_said(talk, what)
        if heard is not None:
            return heard
    lower = talk.text.lower()
    for intent in INTENTS:
        found = intent.hear(talk, lower)
        if found is not None:
            return found
    return None
