"""What is done about what is said to the board: each takes the message and the parts of it that its pattern named.

Each may return None, and then the message is for somebody else.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from stillroom import Line

from ..reply import Reply
from ..state import State
from . import contents, desk, showing
from .changes import Unclear, change
from .desk import Heard, Said
from .drafts import clean_name, name_is_wrong
from .expand import cycle, how_much_it_makes, plain_yield
from .following import looking_at, spec_meant
from .lacking import gone_of, in_part, no_such, nothing_to_keep
from .lines import BadLine, Nameless
from .names import Mention, named
from .spec import KeptSpec

IT = frozenset("it that this one spec recipe".split()) | {"this one", "that one", "this spec", "that spec"}
Do = Callable[[Said, re.Match[str]], Heard]
KEEPS_IT = re.compile(r"\W*(?:please\s+)?(?:keep|save)\s+(?:it|that|this)\b", re.I)
SURE = ("yes, forget all of it", "no, keep it")
PREPOSITION = re.compile(r"\s*\b(?:in|to|from|of|out of|into|on|for)\s+(?:the\s+|our\s+)?$", re.I)


def _of(found: re.Match[str], name: str) -> str:
    """A named part, under the first of its names that took part in the match."""
    parts = found.groupdict()
    return parts.get(name) or parts.get(f"{name}2") or parts.get(f"{name}3") or ""


def _spec(said: Said, name: str) -> KeptSpec | None:
    if clean_name(name).casefold() in IT:
        return spec_meant(said.state, said.tools.kernel)
    spec, _ = named(said.book, clean_name(name))
    return spec


def confirm(said: Said, _: re.Match[str]) -> Heard:
    """Keep what was read back."""
    draft = said.draft()
    if draft is None and said.board().get("forget"):
        return _sure(said)
    if draft is None:
        return nothing_to_keep(said) if KEEPS_IT.match(said.text) else None
    return desk.keep_draft(said, draft)


def drop(said: Said, _: re.Match[str]) -> Heard:
    """Drop what was read back."""
    draft = said.draft()
    if draft is None:
        return keep_all(said, _)
    board = said.board()
    board.pop("draft")
    return said.noted(f"Dropped: {draft.name} is not kept."), said.state.but(board=board or None)


def listed(said: Said, _: re.Match[str]) -> Heard:
    """Every spec, a line each."""
    rows = showing.listing(said.book, said.tools.kernel.units)
    if not rows:
        return said.noted(
            "No spec is kept here yet.",
            "Say, for instance, “keep Marsh Light: 45 ml gin, 20 ml syrup, 25 ml lime juice; shake”.",
        ), said.state
    return said.noted(f"Kept here: {len(rows)} spec{'' if len(rows) == 1 else 's'}.", *rows), said.state


def how_to_keep(said: Said, _: re.Match[str]) -> Heard:
    """How a spec is written."""
    return said.noted(
        "Write it out: its name, then a line for each thing, then how it is made.",
        "In one line: “keep Marsh Light: 45 ml gin, 20 ml syrup, 25 ml lime juice; shake”.",
        "More that it may say: “makes 800 ml” or “serves 10”, “rests 24 h”, “keeps 7 days”, “(28.00 for 700 ml)”.",
    ), said.state


def show(said: Said, found: re.Match[str]) -> Heard:
    """One spec in full."""
    spec = _spec(said, _of(found, "name"))
    spec = spec or in_part(said.book, _of(found, "name"))
    if spec is None:
        return no_such(said, _of(found, "name"))
    by = f" by {spec.by}" if spec.by else ""
    kept = f", version {spec.version}, {showing.when(spec.at, said.state)}{by}" if spec.at else ""
    head = f"{spec.name}{kept}:"
    state = said.state.but(board={**said.board(), **looking_at(said.state, spec.id)})
    return said.noted(head, *showing.body(spec, said.tools.kernel, said.book)), state


def makes(said: Said, found: re.Match[str]) -> Heard:
    """What a spec makes, as it says or as its lines come to."""
    spec = _spec(said, _of(found, "name"))
    if spec is None:
        return None
    kernel = said.tools.kernel
    if spec.makes is not None:
        does = "serves" if spec.makes.unit == "count" else "makes"
        return said.noted(f"{spec.name} {does} {showing.amount_text(spec.makes, kernel.units)}."), said.state
    makes = plain_yield(spec, kernel, said.units)
    if makes is None:
        return said.noted(how_much_it_makes(spec)), said.state
    return said.noted(f"{spec.name}: its lines come to {showing.amount_text(makes, kernel.units)}."), said.state


def told_apart(said: Said, found: re.Match[str]) -> Heard:
    """How one spec differs from another."""
    one, other = _spec(said, found["name"]), _spec(said, found["name2"])
    if one is None or other is None:
        return None
    rows = showing.differences(one.but(name=other.name), other, said.tools.kernel.units)
    return said.noted(f"{other.name}, beside {one.name}:", *(f"• {r}" for r in rows or ["the same"])), said.state


def compared(said: Said, _: re.Match[str]) -> Heard:
    """Specs are not ranked: each is asked for by itself."""
    told = "I take one spec at a time: ask for the strength or the cost of each."
    return said.declined(told) if said.book.specs else None


def priced(said: Said, found: re.Match[str]) -> Heard:
    """``gin costs 28 for 700 ml``: in every spec that has it as a line; None for what no spec has."""
    thing = found["thing"].strip()
    size = re.sub(r"^(?:an?|one)\s+|^(?=[a-z])", "1 ", found["size"].strip(), flags=re.I)
    try:
        line = said.tools.lines.read(f"1 ml {thing} ({found['price']} for {size})", said.units)
    except BadLine:
        return None
    if line is None or "price" not in line.attributes:
        return None
    price = {n: line.attributes[n] for n in ("price", "size")}
    key = thing.casefold()

    def with_price(x: Line) -> Line:
        return replace(x, attributes={**x.attributes, **price}) if x.thing.casefold() == key else x

    having = [s for s in said.book.specs if any(x.thing.casefold() == key for x in s.lines)]
    if not having:
        return None
    changed = [s.but(lines=tuple(map(with_price, s.lines))) for s in having]
    told = f"{thing} at {found['price']} for {showing.amount_text(price['size'], said.tools.kernel.units)}"
    names = ", ".join(s.name for s in changed)
    return said.kept(changed, told, f"Noted: {told}.", f"In {names}.", "“undo” takes it back.")


def bare(said: Said, found: re.Match[str]) -> Heard:
    """The name and nothing else."""
    here = said.tools.mentions(said.book, found["name"])
    rest = f"{found['name'][: here[0].start]}{found['name'][here[0].end :]}" if here else ""
    if not here or re.sub(r"\b(?:the|our|a|an|specs?|recipe|please|show)\b|\W", "", rest, flags=re.I):
        return None
    return show(said, re.fullmatch(r"(?P<name>.*)", here[0].spec.name, re.S) or found)


def versions(said: Said, found: re.Match[str]) -> Heard:
    """Who changed what of a spec, and when."""
    spec = _spec(said, _of(found, "name"))
    if spec is None:
        return no_such(said, _of(found, "name"))
    rows = [
        f"{s.version}. {showing.when(s.at, said.state)}{f' {s.by}' if s.by else ''}: {s.change or 'kept'}"
        for s in said.book.of(spec.id)
    ]
    return said.noted(
        f"{spec.name} has {len(rows)} version{'' if len(rows) == 1 else 's'}:",
        *rows,
        f"“{spec.name} as in version 1” brings one back.",
    ), said.state


def bring_back(said: Said, found: re.Match[str]) -> Heard:
    """An older version, read back; of a deleted spec the last, if none is named."""
    gone = gone_of(said.book, clean_name(_of(found, "name")))
    spec = _spec(said, _of(found, "name")) or gone
    if spec is None:
        return None
    n = _of(found, "n")
    if not n and spec is not gone:
        return said.noted(f"{spec.name} is kept: it was not deleted."), said.state
    version = next((s for s in reversed(said.book.of(spec.id)) if (s.version == int(n) if n else not s.gone)), None)
    if version is None:
        return said.declined(f"{spec.name} has no version {n}: its last is {spec.version}.")
    return desk.read_back(said, version.but(gone=False, name=spec.name))


def rename(said: Said, found: re.Match[str]) -> Heard:
    """``rename the Lock Keeper to Weir Keeper``: the kept name comes first, whatever stands between."""
    here = said.tools.mentions(said.book, found["what"])
    it = re.match(r"(?:it|that|this)\b(?: one| spec)?", found["what"], re.I)
    if not here and it and (shown := spec_meant(said.state, said.tools.kernel)) is not None:
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


def copy(said: Said, found: re.Match[str]) -> Heard:
    """The same spec under another name."""
    spec = _spec(said, _of(found, "name"))
    name = clean_name(_of(found, "new"))
    if spec is None:
        return None
    wrong = name_is_wrong(name) or (f"There is a {name} already." if said.book.named(name) else "")
    if wrong:
        return said.declined(wrong)
    return said.kept([spec.but(id=0, name=name)], f"copied from {spec.name}", f"Kept: {name}, a copy of {spec.name}.")


def delete(said: Said, found: re.Match[str]) -> Heard:
    """Delete one spec, or several at once."""
    spec = _spec(said, found["name"])
    if spec is not None:
        return desk.deleted(said, [spec])
    names = [n for n in re.split(r"\s*(?:,|\band\b)\s*", found["name"]) if n]
    known = [s for n in names if (s := _spec(said, n)) is not None]
    return desk.deleted(said, known) if len(known) == len(names) > 1 else no_such(said, found["name"])


def undo(said: Said, _: re.Match[str]) -> Heard:
    """Take back the last change."""
    return desk.undone(said)


def allergens(said: Said, found: re.Match[str]) -> Heard:
    """The allergens in a spec."""
    spec = _spec(said, _of(found, "name"))
    return contents.told_allergens(said, spec) if spec else None


def holds(said: Said, found: re.Match[str]) -> Heard:
    """Is there any of a thing in a spec?"""
    spec = _spec(said, _of(found, "name"))
    return contents.holds(said, spec, _of(found, "thing")) if spec else None


def suits(said: Said, found: re.Match[str]) -> Heard:
    """For whom a spec is good: what is in it."""
    here = said.tools.mentions(said.book, found["what"])
    return contents.suits(said, here[0].spec) if here else None


def changing(verb: str) -> Do:
    """What changes a spec by a verb, wherever its name stands."""
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


def changed_by_name(said: Said, found: re.Match[str]) -> Heard:
    """``Lock Keeper: change the rye to 50 ml``: the name before what is changed of it."""
    spec = _spec(said, found["name"])
    if spec is None:
        return None
    verb = " ".join(found["verb"].lower().split())
    return _changed(said, spec, VERBS[verb], found["what"])


def forget(said: Said, found: re.Match[str]) -> Heard:
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


def keep_all(said: Said, _: re.Match[str]) -> Heard:
    """Nothing is forgotten after all."""
    board = said.board()
    if not board.pop("forget", None):
        return None
    return said.noted("Nothing is deleted."), said.state.but(board=board or None)
