"""What can be said to the board, as a table: how a message begins, and what is done about it.

A pattern names the parts of the message; what it does may still return None, and then the message is for
somebody else.  Whatever names a spec has to name one of the book's, so that no ordinary question is taken.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from ..reply import Reply
from ..state import State
from . import contents, desk, showing
from .changes import Unclear, change
from .contents import DIETS
from .desk import Heard, Said
from .drafts import clean_name, name_is_wrong
from .expand import cycle
from .following import looking_at
from .lines import BadLine, Nameless
from .names import Mention, named
from .spec import KeptSpec

IT = frozenset("it that this one spec recipe".split()) | {"this one", "that one", "this spec", "that spec"}
Do = Callable[[Said, re.Match[str]], Heard]
SURE = ("yes, forget all of it", "no, keep it")
PREPOSITION = re.compile(r"\s*\b(?:in|to|from|of|out of|into|on|for)\s+(?:the\s+|our\s+)?$", re.I)


@dataclass(frozen=True, slots=True)
class Command:
    """``pattern`` fits the whole message (without its last mark)."""

    pattern: re.Pattern[str]
    do: Do

    def hear(self, said: Said) -> Heard:
        """The reply, or None."""
        found = self.pattern.fullmatch(said.text.strip().rstrip(".!?").strip())
        return self.do(said, found) if found else None


def _of(found: re.Match[str], name: str) -> str:
    """A named part, under the first of its names that took part in the match."""
    parts = found.groupdict()
    return parts.get(name) or parts.get(f"{name}2") or parts.get(f"{name}3") or ""


def _spec(said: Said, name: str) -> KeptSpec | None:
    if clean_name(name).casefold() in IT:
        return said.shown()
    spec, _ = named(said.book, clean_name(name))
    return spec


def _yes(said: Said, _: re.Match[str]) -> Heard:
    draft = said.draft()
    if draft is None:
        return _sure(said) if said.board().get("forget") else None
    return desk.keep_draft(said, draft)


def _no(said: Said, _: re.Match[str]) -> Heard:
    draft = said.draft()
    if draft is None:
        return None
    board = said.board()
    board.pop("draft")
    return said.noted(f"Dropped: {draft.name} is not kept."), said.state.but(board=board or None)


def _list(said: Said, _: re.Match[str]) -> Heard:
    rows = showing.listing(said.book, said.tools.kernel.units)
    if not rows:
        return said.noted(
            "No spec is kept here yet.",
            "Say, for instance, “keep Marsh Light: 45 ml gin, 20 ml syrup, 25 ml lime juice; shake”.",
        ), said.state
    return said.noted(f"Kept here: {len(rows)} spec{'' if len(rows) == 1 else 's'}.", *rows), said.state


def _show(said: Said, found: re.Match[str]) -> Heard:
    spec = _spec(said, _of(found, "name"))
    if spec is None:
        return None
    by = f" by {spec.by}" if spec.by else ""
    head = f"{spec.name}, version {spec.version}, {showing.when(spec.at)}{by}:" if spec.at else f"{spec.name}:"
    state = said.state.but(board={**said.board(), **looking_at(said.state, spec.id)})
    return said.noted(head, *showing.body(spec, said.tools.kernel, said.book)), state


def _bare(said: Said, found: re.Match[str]) -> Heard:
    """The name and nothing else."""
    here = said.tools.mentions(said.book, found["name"])
    rest = f"{found['name'][: here[0].start]}{found['name'][here[0].end :]}" if here else ""
    if not here or re.sub(r"\b(?:the|our|a|an|spec|recipe|please|show)\b|\W", "", rest, flags=re.I):
        return None
    return _show(said, re.fullmatch(r"(?P<name>.*)", here[0].spec.name, re.S) or found)


def _versions(said: Said, found: re.Match[str]) -> Heard:
    spec = _spec(said, _of(found, "name"))
    if spec is None:
        return None
    rows = [
        f"{s.version}. {showing.when(s.at)}{f' {s.by}' if s.by else ''}: {s.change or 'kept'}"
        for s in said.book.of(spec.id)
    ]
    return said.noted(
        f"{spec.name} has {len(rows)} version{'' if len(rows) == 1 else 's'}:",
        *rows,
        f"“{spec.name} as in version 1” brings one back.",
    ), said.state


def _bring_back(said: Said, found: re.Match[str]) -> Heard:
    spec = _spec(said, _of(found, "name"))
    if spec is None:
        return None
    version = next((s for s in said.book.of(spec.id) if s.version == int(_of(found, "n"))), None)
    if version is None:
        return said.declined(f"{spec.name} has no version {_of(found, 'n')}: its last is {spec.version}.")
    return desk.read_back(said, version.but(gone=False, name=spec.name))


def _rename(said: Said, found: re.Match[str]) -> Heard:
    """``rename the Lock Keeper to Weir Keeper``: the kept name comes first, whatever stands between."""
    here = said.tools.mentions(said.book, found["what"])
    it = re.match(r"(?:it|that|this)\b(?: one| spec)?", found["what"], re.I)
    if not here and it and (shown := said.shown()) is not None:
        here = [Mention(shown, *it.span())]
    old = re.split(r"\s+(?:to|as|into)\s+", found["what"])[0]
    if not here:
        return desk.picked_name(said, old, named(said.book, clean_name(old))[1]) if said.book.specs else None
    before = found["what"][: here[0].start]
    if re.sub(r"\b(?:the|our|my|spec|recipe|of|for|called)\b|\W", "", before, flags=re.I):
        return None
    rest = found["what"][here[0].end :].strip(" ,:")
    name = clean_name(re.sub(r"^(?:to|as|into|be)\s+", "", rest, flags=re.I))
    if not name:
        return None
    wrong = name_is_wrong(name)
    return said.declined(wrong) if wrong else desk.renamed(said, here[0].spec, name)


def _copy(said: Said, found: re.Match[str]) -> Heard:
    spec = _spec(said, _of(found, "name"))
    name = clean_name(_of(found, "new"))
    if spec is None:
        return None
    wrong = name_is_wrong(name) or (f"There is a {name} already." if said.book.named(name) else "")
    if wrong:
        return said.declined(wrong)
    return said.kept([spec.but(id=0, name=name)], f"copied from {spec.name}", f"Kept: {name}, a copy of {spec.name}.")


def _delete(said: Said, found: re.Match[str]) -> Heard:
    spec = _spec(said, found["name"])
    if spec is not None:
        return desk.deleted(said, [spec])
    names = [n for n in re.split(r"\s*(?:,|\band\b)\s*", found["name"]) if n]
    known = [s for n in names if (s := _spec(said, n)) is not None]
    return desk.deleted(said, known) if len(known) == len(names) > 1 else None


def _undo(said: Said, _: re.Match[str]) -> Heard:
    return desk.undone(said)


def _allergens(said: Said, found: re.Match[str]) -> Heard:
    spec = _spec(said, _of(found, "name"))
    return contents.told_allergens(said, spec) if spec else None


def _holds(said: Said, found: re.Match[str]) -> Heard:
    spec = _spec(said, _of(found, "name"))
    return contents.holds(said, spec, _of(found, "thing")) if spec else None


def _suits(said: Said, found: re.Match[str]) -> Heard:
    here = said.tools.mentions(said.book, found["what"])
    return contents.suits(said, here[0].spec) if here else None


def _change(verb: str) -> Do:
    def do(said: Said, found: re.Match[str]) -> Heard:
        text = found["what"]
        draft = said.draft()
        here = said.tools.mentions(said.book, text)
        spec: KeptSpec | None
        if here:
            target = next((m for m in reversed(here) if PREPOSITION.search(text[: m.start])), here[0])
            spec = target.spec
            before = PREPOSITION.sub("", text[: target.start]).strip()
            before = re.sub(r"\b(?:the|our)$", "", before).strip()
            after = text[target.end :].strip(" :,–-")
            after = re.sub(r"^(?:'s|’s|to|so that|with)\s+", "", after) if not before else after
            what = f"{before} {after}".strip()
        elif draft is not None:
            spec, what = draft, re.sub(r"\s+(?:in|to|from|of) (?:it|that|this)$", "", text)
        else:
            return _unnamed(said, verb, text)
        return _changed(said, spec, verb, what)

    return do


def _unnamed(said: Said, verb: str, text: str) -> Heard:
    """A change of the spec that was shown last, which the message does not name: read back, for a yes."""
    spec = said.shown()
    if spec is None:
        return None
    what = re.sub(r"\s+(?:in|to|from|of) (?:it|that|this|there)$", "", text)
    try:
        new = change(spec, verb, what, said.tools.lines, said.units) if what else None
    except (Unclear, BadLine):
        return None
    grown = new is not None and len(new.lines) > len(spec.lines)
    if new is None or new.says_as(spec) or (grown and verb == "change"):
        return None
    return desk.read_back(said, new)


def _changed(said: Said, spec: KeptSpec, verb: str, what: str) -> Heard:
    """A change of a spec, kept at once; of the one that waits for a yes, read back."""
    try:
        new = change(spec, verb, what, said.tools.lines, said.units) if what else None
    except Nameless:
        return None
    except (Unclear, BadLine) as e:
        return said.declined(str(e))
    if new is None:
        return None
    if new.says_as(spec):
        return said.noted(f"{spec.name} is so already: nothing is changed."), said.state
    if spec is not said.book.latest.get(spec.id):
        return desk.read_back(said, new)
    told = "; ".join(showing.differences(spec, new, said.tools.kernel.units))
    circle = cycle(said.book, new)
    if circle:
        return said.declined(f"A spec cannot hold itself: {' → '.join(circle)}.")
    return said.kept([new], told, f"{new.name}, version {spec.version + 1}: {told}.", "“undo” takes it back.")


VERBS = {
    "change": "change", "set": "change", "use": "change", "update": "change", "make": "change", "add": "add",
    "put in": "add", "remove": "remove", "take out": "remove", "leave out": "remove", "drop": "remove",
    "swap": "swap", "replace": "swap", "substitute": "swap",
}


def _changed_by_name(said: Said, found: re.Match[str]) -> Heard:
    """``Lock Keeper: change the rye to 50 ml``: the name before what is changed of it."""
    spec = _spec(said, found["name"])
    if spec is None:
        return None
    verb = " ".join(found["verb"].lower().split())
    return _changed(said, spec, VERBS[verb], found["what"])


def _forget(said: Said, found: re.Match[str]) -> Heard:
    """``forget me``: asked once more, then done by whoever keeps the chat."""
    asked = bool(said.board().get("forget"))
    if found.groupdict().get("sure") or (asked and found["word"].lower() == "yes"):
        if not asked:
            return None
        reply = said.noted("Forgotten: this chat's questions, settings, reminders and book.")
        return reply, State(reminders=(), errand="forget")
    if found["word"].lower() == "yes":
        return None
    count = len(said.book.specs)
    told = (
        f"{count} spec{'' if count == 1 else 's'} with all versions, the settings, the reminders and the last questions"
    )
    choices = SURE
    reply = Reply(
        "asks",
        said.text,
        "Delete everything that I keep of this chat?",
        (f"That is {told}. It cannot be undone; “export my data” gives it to you first.",),
        choices,
        data={"asks": {"missing": ["confirmation"], "choices": list(choices)}},
    )
    return reply, said.state.but(board={**said.board(), "forget": True})


def _sure(said: Said) -> Heard:
    """A bare yes is not enough to delete everything."""
    data = {"asks": {"missing": ["confirmation"], "choices": list(SURE)}}
    return Reply("asks", said.text, f"To delete all of it, say “{SURE[0]}”.", (), SURE, data=data), said.state


def _keep_all(said: Said, _: re.Match[str]) -> Heard:
    board = said.board()
    if not board.pop("forget", None):
        return None
    return said.noted("Nothing is deleted."), said.state.but(board=board or None)


def _command(pattern: str, do: Do) -> Command:
    return Command(
        re.compile(rf"(?:(?:please|ok|okay|now|then|can you|could you)\b,?\s+)*(?:{pattern})", re.I | re.S), do
    )


_THE = r"(?:the\s+|our\s+|my\s+)?(?:(?:spec|recipe)\s+(?:of|for|called)\s+)?(?:the\s+|our\s+)?"
_NAME = rf"{_THE}(?P<name>[^?\n]{{1,80}}?)(?:'s)?(?:\s+(?:spec|recipe))?"
COMMANDS = (
    _command(r"(?:(?P<word>yes),? forget all of it(?P<sure>))", _forget),
    _command(r"no,? keep it(?: all)?", _keep_all),
    _command(
        r"(?:yes|yep|keep(?: it| that| this)?|save(?: it| that| this)?|ok|okay|sure|do|please do|"
        r"yes,? (?:keep|please).*)",
        _yes,
    ),
    _command(
        r"(?:no|nope|drop(?: it)?|don'?t(?: keep it)?|cancel|discard(?: it)?|forget it|"
        r"no,? (?:drop it|thanks?|thank you))",
        _no,
    ),
    _command(r"(?P<word>(?:forget|delete|erase) (?:me|us|my data|our data|all my data|everything about me))", _forget),
    _command(
        r"(?:(?:show|list|see|what are|which are|give me|open)\s+(?:me\s+)?)?"
        r"(?:all\s+)?(?:of\s+)?(?:the\s+|our\s+|my\s+|all\s+)*"
        r"(?:kept\s+)?(?:specs|spec book|book of specs|book)(?:\s+(?:we|you|do we|do you)\s+(?:have|keep))?|"
        r"what (?:do (?:you|we) (?:have|keep)|is|'s) in (?:the|our|my) book|"
        r"list(?: (?:all|everything|them))?|"
        r"(?:what|which) specs (?:do (?:we|you) |are )(?:keep|have|kept|there)(?: here)?",
        _list,
    ),
    _command(
        rf"(?:versions|history|changes)\s+(?:of|to|for)\s+{_NAME}|who changed\s+{_NAME.replace('name', 'name2')}",
        _versions,
    ),
    _command(
        rf"(?:bring back\s+|restore\s+)?{_NAME}\s+(?:as in|as it was in|back to|at|to)\s+version\s+(?P<n>\d+)|"
        rf"(?:bring back|restore)\s+version\s+(?P<n2>\d+)\s+of\s+{_NAME.replace('name', 'name2')}",
        _bring_back,
    ),
    _command(r"rename\s+(?P<what>[^?\n]+)", _rename),
    _command(r"call\s+(?P<what>[^?\n]+?)\s+(?:from now on|instead|now)", _rename),
    _command(rf"(?:copy|duplicate)\s+{_NAME}\s+(?:to|as|into|under)\s+(?P<new>[^?\n]+)", _copy),
    _command(rf"(?:delete|remove|throw out|drop|erase)\s+{_NAME}", _delete),
    _command(r"undo(?: that| it| the last(?: change)?)?|bring it back", _undo),
    _command(
        rf"(?:(?:what|which|any|are|are there|are there any|does|list|show)\s+)*(?:the\s+)?allergens?\s+"
        rf"(?:are\s+|is\s+)?(?:there\s+)?(?:(?:in|of|for|does)\s+)?{_NAME}(?:\s+(?:have|contain))?|"
        rf"{_NAME.replace('name', 'name2')}\s+allergens?|"
        rf"what is in\s+{_NAME.replace('name', 'name3')}\s+that is an allergen",
        _allergens,
    ),
    _command(
        rf"(?:does|do|has|have)\s+{_NAME}\s+(?:have|has|contain|hold|use|include|got)\s+"
        r"(?P<thing>[^?\n]{2,40}?)(?:\s+in it)?|"
        rf"(?:is|are)\s+there\s+(?P<thing2>[^?\n\d]{{2,40}}?)\s+in\s+{_NAME.replace('name', 'name2')}|"
        rf"any\s+(?P<thing3>[^?\n\d]{{2,40}}?)\s+in\s+{_NAME.replace('name', 'name3')}",
        _holds,
    ),
    _command(rf"(?P<what>(?:is|are|can|may|could)\b(?=.*{DIETS.pattern})[^?\n\d]{{2,100}})", _suits),
    _command(
        r"(?:(?:which|what)(?: (?:of )?(?:our|the|my|all))?\s+(?:specs?|drinks?|recipes?|ones?)\s+"
        r"(?:have|has|uses?|contains?|holds?|needs?|(?:are|is) made with)|where (?:do|did) (?:i|we) use|"
        r"(?:specs?|drinks?|recipes?) with)\s+"
        r"(?P<thing>[^?\n\d]{2,40}?)(?:\s+in (?:it|them))?",
        lambda said, found: contents.that_hold(said, found["thing"]),
    ),
    _command(
        rf"(?:show|see|open|read|what'?s in|what is in|what goes in(?:to)?|how do (?:we|i) (?:make|build)|"
        rf"recipe (?:of|for)|"
        rf"spec (?:of|for))\s+(?:me\s+)?{_NAME}",
        _show,
    ),
    _command(r"(?P<name>[^?\n]{1,80})", _bare),
    _command(
        rf"(?:in\s+|for\s+)?{_NAME}\s*[:,]?\s*(?:please\s+)?(?P<verb>{'|'.join(VERBS)})\s+(?P<what>.+)",
        _changed_by_name,
    ),
    _command(r"(?:change|set|edit|update|use|make\s+(?=the|our))\s*(?P<what>.+)", _change("change")),
    _command(r"(?:add|put)\s+(?P<what>.+)", _change("add")),
    _command(r"(?:remove|take|drop|leave)\s+(?:out\s+)?(?P<what>.+?)(?:\s+out)?", _change("remove")),
    _command(r"(?:replace|swap|substitute|exchange)\s+(?P<what>.+)", _change("swap")),
    _command(r"(?P<what>.+\b(?:makes|yields|gives|serves|keeps|rests|stands|lasts)\b.+)", _change("says")),
)


def hear(said: Said) -> Heard:
    """What the first command makes of the message that hears it."""
    if len(said.text) > 400:
        return None
    for command in COMMANDS:
        found = command.hear(said)
        if found is not None:
            return found
    return None
