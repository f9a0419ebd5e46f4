"""What can be said to the board, as a table: how a message begins, and what is done about it.

A pattern names the parts of the message; what it does may still return None, and then the message is for
somebody else.  Whatever names a spec has to name one of the book's, so that no ordinary question is taken.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from . import contents, doing
from .contents import DIETS
from .desk import Heard, Said
from .doing import VERBS, Do
from .lacking import keep_as
from .wording import POLITE, PRICE


@dataclass(frozen=True, slots=True)
class Command:
    """``pattern`` fits the whole message (without its last mark); ``holds`` is what every such message has in it
    somewhere, looked for first where the pattern is slow to fail."""

    pattern: re.Pattern[str]
    do: Do
    holds: re.Pattern[str] | None = None


def _command(pattern: str, do: Do, holds: str = "") -> Command:
    whole = rf"(?:(?:please|ok|okay|now|then|can you|could you)\b,?\s+)*(?:{pattern})"
    return Command(re.compile(whole, re.I | re.S), do, re.compile(holds) if holds else None)


_THE = r"(?:the\s+|our\s+|my\s+|an?\s+)?(?:(?:spec|recipe)\s+(?:of|for|called)\s+)?(?:the\s+|our\s+)?"
_NAME = rf"{_THE}(?P<name>[^?\n]{{1,80}}?)(?:'s)?(?:\s+(?:specs?|recipe))?"
WHATS = re.compile(r"^whats\b", re.I)
MOST = "cheapest|dearest|strongest|weakest|sweetest|sourest|most expensive|costs? (?:us )?the (?:most|least)"
SAYS = "makes|yields|gives|serves|keeps|rests|stands|lasts"
COMMANDS = (
    _command(r"(?:(?P<word>yes),? forget all of it(?P<sure>))", doing.forget),
    _command(r"no,? keep it(?: all)?", doing.keep_all),
    _command(
        r"(?:yes|yep|keep(?: it| that| this)?|save(?: it| that| this)?|ok|okay|sure|do|please do|"
        r"yes,? (?:keep|please).*)",
        doing.confirm,
    ),
    _command(
        r"(?:no|nope|drop(?: it)?|don'?t(?: keep it)?|cancel|discard(?: it)?|forget it|"
        r"no,? (?:drop it|thanks?|thank you))",
        doing.drop,
    ),
    _command(
        r"(?P<word>(?:forget|delete|erase) (?:me|us|my data|our data|all my data|everything about me))", doing.forget),
    _command(
        r"(?:(?:show|list|see|what are|which are|give me|open)\s+(?:me\s+)?)?"
        r"(?:all\s+)?(?:of\s+)?(?:the\s+|our\s+|my\s+|all\s+)*"
        r"(?:kept\s+)?(?:specs|spec book|book of specs|book)(?:\s+(?:we|you|do we|do you)\s+(?:have|keep))?|"
        r"what (?:do (?:you|we) (?:have|keep)|is|'s) in (?:the|our|my) book|"
        r"list(?: (?:all|everything|them))?|"
        r"(?:what|which) specs (?:do (?:we|you) |are )(?:keep|have|kept|there)(?: here)?",
        doing.listed,
    ),
    _command(
        rf"(?:versions|history|changes)\s+(?:of|to|for)\s+{_NAME}|who changed\s+{_NAME.replace('name', 'name2')}",
        doing.versions,
    ),
    _command(
        rf"(?:bring back\s+|restore\s+)?{_NAME}\s+(?:(?:as in|as it was in|back to|at|to|in)\s+)?"
        r"(?:version|v)\s*(?P<n>\d+)|"
        rf"(?:bring back|restore|show)\s+(?:me\s+)?version\s+(?P<n2>\d+)\s+of\s+{_NAME.replace('name', 'name2')}|"
        rf"(?:bring back|restore|undelete)\s+{_NAME.replace('name', 'name3')}",
        doing.bring_back,
        holds=r"v(?:ersion)?\s*\d|bring back|restore|undelete",
    ),
    _command(
        r"(?:keep|save)\s+(?:it|that|this|those)?\s*(?:as|under)\s+(?!(?:a|an|our|my|the)?\s*(?:new\s+)?"
        r"(?:spec|recipe|drink)\b)(?P<new>[^?\n:;]{2,60})", lambda said, found: keep_as(said, found["new"])),
    _command(r"rename\s+(?P<what>[^?\n]+)", doing.rename),
    _command(r"call\s+(?P<what>[^?\n]+?)\s+(?:from now on|instead|now)", doing.rename),
    _command(rf"(?:copy|duplicate)\s+{_NAME}\s+(?:to|as|into|under)\s+(?P<new>[^?\n]+)", doing.copy),
    _command(rf"(?:delete|remove|throw out|drop|erase)\s+{_NAME}", doing.delete),
    _command(
        r"(?:(?:hello|hi|hey|i|we|would|like|want|need|to|can|could|how|do|you|me|us|let|is there)\b[\s,!']*)*"
        r"(?:keep|save|add|store|write down|enter)\s+(?:(?:a|an|the|our|my|some|new|another)\s+)*"
        r"(?:specs?|recipes?|drinks?)(?:\s+(?:here|in (?:the|our) book))?", doing.how_to_keep),
    _command(r"undo(?: that| it| the last(?: change)?)?|bring it back", doing.undo),
    _command(
        rf"(?:(?:what|which|any|are|are there|are there any|does|list|show)\s+)*(?:the\s+)?allergens?\s+"
        rf"(?:are\s+|is\s+)?(?:there\s+)?(?:(?:in|of|for|does)\s+)?{_NAME}(?:\s+(?:have|contain))?|"
        rf"{_NAME.replace('name', 'name2')}\s+allergens?|"
        rf"what is in\s+{_NAME.replace('name', 'name3')}\s+that is an allergen",
        doing.allergens,
        holds="allergen",
    ),
    _command(
        rf"(?:does|do|has|have)\s+{_NAME}\s+(?:have|has|contain|hold|use|include|got)\s+"
        r"(?P<thing>[^?\n]{2,40}?)(?:\s+in it)?|"
        rf"(?:is|are)\s+there\s+(?P<thing2>[^?\n\d]{{2,40}}?)\s+in\s+{_NAME.replace('name', 'name2')}|"
        rf"any\s+(?P<thing3>[^?\n\d]{{2,40}}?)\s+in\s+{_NAME.replace('name', 'name3')}",
        doing.holds,
    ),
    _command(rf"(?P<what>(?:is|are|can|may|could)\b(?=.*{DIETS.pattern})[^?\n\d]{{2,100}})", doing.suits),
    _command(
        r"(?:(?:which|what)(?: (?:of )?(?:our|the|my|all))?\s+(?:specs?|drinks?|recipes?|ones?)\s+"
        r"(?:have|has|uses?|contains?|holds?|needs?|(?:are|is) made with)|where (?:do|did) (?:i|we) use|"
        r"(?:(?:do (?:we|i) have |is there |have (?:we|i) )?(?:anything|something)|what) "
        r"(?:with|that has|that contains|has|contains)|"
        r"(?:specs?|drinks?|recipes?) with)\s+"
        r"(?P<thing>[^?\n\d]{2,40}?)(?:\s+in (?:it|them))?",
        lambda said, found: contents.that_hold(said, found["thing"]),
    ),
    _command(
        rf"(?:show|see|open|read|what'?s in|what is in|what goes in(?:to)?|how do (?:we|i) (?:make|build)|"
        rf"whats in|(?:recipe|specs?|method|steps|ingredients|build) (?:of|for|in))\s+(?:me\s+)?{_NAME}",
        doing.show,
    ),
    _command(rf"(?:what is |what's )?(?:the )?yield of\s+{_NAME}|how much (?:does|do|will)\s+"
             rf"{_NAME.replace('name', 'name2')}\s+(?:make|yield|give|come to)", doing.makes),
    _command(
        rf"(?:what(?:'s|’s| is)?\s+(?:the\s+)?differen(?:t|ce)\s+between|compare|diff)\s+{_NAME}\s+"
        rf"(?:and|with|to|vs\.?)\s+{_NAME.replace('name', 'name2')}", doing.told_apart),
    _command(
        rf"compare\s+[^\d]+|(?:(?:which|what|our|the|is|are)\b[^\d]*)?\b(?:{MOST})\b[^\d]*", doing.compared),
    _command(
        rf"(?:the\s+)?(?P<thing>[^?\d\n]{{2,40}}?)\s+(?:now\s+)?(?:costs?|is|are)\s+(?:us\s+|now\s+)*(?P<price>{PRICE})\s+"
        r"(?:for|per|a|an|/)\s+(?P<size>(?:\d|an?\s|one\s|l\b|kg\b|lit|kilo)[^?\n]{0,20})", doing.priced),
    _command(r"(?P<name>[^?\n]{1,80})", doing.bare),
    _command(
        rf"(?:in\s+|for\s+)?{_NAME}\s*[:,]?\s*(?:please\s+)?(?P<verb>{'|'.join(VERBS)})\s+(?P<what>.+)",
        doing.changed_by_name,
        holds=rf"(?:{'|'.join(VERBS)})\s",
    ),
    _command(r"(?:change|set|edit|update|use|make\s+(?=the|our))\s*(?P<what>.+)", doing.changing("change")),
    _command(r"(?:add|put)\s+(?P<what>.+)", doing.changing("add")),
    _command(r"(?:remove|take|drop|leave)\s+(?:out\s+)?(?P<what>.+?)(?:\s+out)?", doing.changing("remove")),
    _command(r"(?:replace|swap|substitute|exchange)\s+(?P<what>.+)", doing.changing("swap")),
    _command(rf"(?P<what>.+\b(?:{SAYS})\b.+)", doing.changing("says"), holds=SAYS),
)


def hear(said: Said) -> Heard:
    """What the first command makes of the message that hears it."""
    if len(said.text) > 400:
        return None
    text = WHATS.sub("what's", POLITE.sub("", said.text.strip().rstrip(".!? ")))
    lower = text.lower()
    for command in COMMANDS:
        if command.holds is not None and not command.holds.search(lower):
            continue
        found = command.pattern.fullmatch(text)
        heard = command.do(said, found) if found else None
        if heard is not None:
            return heard
    return None
