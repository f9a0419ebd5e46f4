"""One question, one answer."""

from __future__ import annotations

import json
import sys

from ..places import Unavailable
from ..reply import Reply
from ..state import State
from ..talker import Talker, respond, working
from .files import saved
from .kept import kept_book

KEEPS = "That is something to keep, and one question keeps nothing: say it in `stillroom chat`."
WAITING = ("draft", "forget")
"""What the prep board waits for a yes to."""
EXIT = {"answered": 0, "noted": 0, "asks": 1, "declined": 2}


def ask(talker: Talker, question: str, as_json: bool = False, why: bool = False) -> int:
    """Print the answer; 0 for answered or noted, 1 for asked back, 2 for declined.

    The terminal chat's book is read for it, and not changed.
    """
    before = bookish()
    reply = alone(talker, question, before)
    if as_json:
        print(json.dumps(reply.to_json(), indent=2))
        return EXIT[reply.status]
    print(shown(reply), *saved(reply), sep="\n")
    if why:
        print("\n" + working(talker, question, before))
    return EXIT[reply.status]


def alone(talker: Talker, question: str, before: State) -> Reply:
    """The reply to a question that nothing is kept of."""
    reply, after = respond(talker, question, before)
    return Reply("declined", question, KEEPS) if _keeps(before, after) else reply


def bookish() -> State:
    """A state that knows nothing but the terminal chat's book; without one where that cannot be read."""
    try:
        return State(book=kept_book())
    except Unavailable as e:
        print(f"stillroom: the book is left out: {e}", file=sys.stderr)
        return State()


def _keeps(before: State, after: State) -> bool:
    """Would an answer have to be kept to be true?"""
    waits = any((after.board or {}).get(name) for name in WAITING)
    return waits or after.book is not before.book or after.reminders != before.reminders or after.errand == "forget"


def shown(reply: Reply) -> str:
    """A reply as a terminal shows it: its text, then a line of choices that the text does not name."""
    unsaid = [b for b in reply.buttons if b.lower() not in reply.text.lower()]
    return "\n".join([reply.text, *([f"({' / '.join(reply.buttons)})"] if unsaid else [])])
