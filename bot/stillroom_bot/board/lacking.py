"""What is said where a name is of no kept spec, or where there is nothing yet that could be kept."""

from __future__ import annotations

import re
from dataclasses import replace

from stillroom import Kernel

from .. import phrasing
from ..state import State
from . import showing
from .book import Book, key_of
from .desk import Heard, Said, read_back
from .drafts import clean_name, name_is_wrong
from .following import about
from .lines import THEN
from .names import named
from .spec import KeptSpec
from .whatif import last_request
from .wording import NUMBER, POLITE, SIZE, VERB

OF_A_NAME = re.compile(
    rf"^(?P<before>{VERB}(?:(?:{NUMBER}|{SIZE}|(?:the )?(?:strength|abv|cost|sugar|acid|allergens))\s+(?:of|in)\s+"
    rf"(?:the\s+|our\s+)?|(?:{NUMBER}|{SIZE})\s+))(?P<name>[^\d,;:?]{{4,60}})$", re.I)


def gone_of(book: Book, name: str) -> KeptSpec | None:
    """The last deleted spec of exactly this name."""
    return next((s for s in reversed(book.latest.values()) if s.gone and key_of(s.name) == key_of(name)), None)


def in_part(book: Book, name: str) -> KeptSpec | None:
    """The only spec in whose name these words stand: ``the foam``."""
    words = set(key_of(name).split())
    found = [s for s in book.specs if words and words <= set(key_of(s.name).split())]
    return found[0] if len(found) == 1 else None


def no_such(said: Said, name: str) -> Heard:
    """A name that is nearly a spec's, or a deleted one's; None for any other, which may be somebody else's matter."""
    name = clean_name(name)
    gone = gone_of(said.book, name)
    if gone is not None:
        return said.declined(f"{gone.name} was deleted {showing.when(gone.at, said.state)}.",
                             f"“restore {gone.name}” brings it back.")
    near = [s.name for s in named(said.book, name)[1]]
    if not near:
        return None
    return phrasing.asks(said.text, None, f"Which is meant: {' or '.join(near)}?", ["name"], near), said.state


def asked_of_no_such(said: Said) -> Heard:
    """``forty of the marsh lite``: the question with the name that it must mean; None where none comes near."""
    found = OF_A_NAME.match(POLITE.sub("", said.text.strip(" .?!"))) if said.book.specs else None
    if found is None:
        return None
    words = re.findall(r"[^\W\d_]{3,}", found["name"])
    spec, near = named(said.book, found["name"])
    names = [s.name for s in (near or ((spec,) if spec else ()))]
    strange = any(w[0].isupper() or not said.tools.known(w.casefold()) for w in words)
    if not (names or strange) or all(said.tools.means(w.casefold()) for w in words):
        return None
    reply = phrasing.declined(said.text, f"I keep no spec called “{found['name'].strip()}”.",
                              near=[f"{found['before']}{n}" for n in names[:3]])
    return reply, said.state


def nothing_to_keep(said: Said) -> Heard:
    """``keep it`` where nothing was read back: the last drink wants a name; else how to write one."""
    spec = _last(said.state, said.tools.kernel)
    if spec is None:
        return said.declined("There is nothing that waits to be kept.",
                             "Write it out: “keep Marsh Light: 45 ml gin, 20 ml syrup, 25 ml lime juice; shake”.")
    things = ", ".join(x.thing for x in spec.lines)
    return phrasing.asks(said.text, None, "What is it called?", ["name"],
                         understood=f"{things}: say “keep it as …”, with its name"), said.state


def keep_as(said: Said, new: str) -> Heard:
    """``keep it as Mudlark``: the lines of the last question, under a name; None where it stood on none."""
    spec, name = _last(said.state, said.tools.kernel), clean_name(new)
    if spec is None:
        return None
    wrong = name_is_wrong(name)
    return said.declined(wrong) if wrong else read_back(said, _written_out(said, spec).but(id=0, name=name))


def _written_out(said: Said, spec: KeptSpec) -> KeptSpec:
    """The spec as it would be written: every amount with its unit, and no step in the name of a thing."""
    lines, steps = [], []
    for line in spec.lines:
        thing, *step = THEN.split(line.thing, maxsplit=1)
        amount = line.amount and replace(line.amount, said=showing.amount_text(line.amount, said.units))
        lines.append(replace(line, thing=thing, amount=amount))
        steps += step
    return spec.but(lines=tuple(lines), method=(*spec.method, *steps))


def _last(state: State, kernel: Kernel) -> KeptSpec | None:
    """The lines that the last question stood on: a kept spec's, as they were asked about, or some only said."""
    last = about(state, kernel)
    if last is not None:
        return last.spec if last.lines is None else last.spec.but(lines=last.lines)
    request = last_request(state, kernel)
    return KeptSpec(0, "", request.spec) if request is not None else None


__all__ = ["asked_of_no_such", "gone_of", "keep_as", "no_such", "nothing_to_keep"]
