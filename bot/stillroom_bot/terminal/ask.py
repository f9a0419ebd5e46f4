"""One question, one answer."""

from __future__ import annotations

import json

from ..reply import Reply
from ..state import State
from ..talker import Talker, respond, working
from .files import saved

EXIT = {"answered": 0, "noted": 0, "asks": 1, "declined": 2}


def ask(talker: Talker, question: str, as_json: bool = False, why: bool = False) -> int:
    """Print the answer; 0 for answered or noted, 1 for asked back, 2 for declined."""
    reply, _ = respond(talker, question, State())
    if as_json:
        print(json.dumps(reply.to_json(), indent=2))
        return EXIT[reply.status]
    print(shown(reply), *saved(reply), sep="\n")
    if why:
        print("\n" + working(talker, question, State()))
    return EXIT[reply.status]


def shown(reply: Reply) -> str:
    """A reply as a terminal shows it: its text, then a line of choices that the text does not name."""
    unsaid = [b for b in reply.buttons if b.lower() not in reply.text.lower()]
    return "\n".join([reply.text, *([f"({' / '.join(reply.buttons)})"] if unsaid else [])])
