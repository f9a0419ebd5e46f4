"""``And how much is it in all?``: what there is of everything together, asked of the job before in general words."""

from __future__ import annotations

from collections.abc import Set

from stillroom.units import Units

from .reading.candidate import MASS, VOLUME
from .reading.message import Message
from .reading.profile import Profile
from .reading.said import Said
from .reading.wanting import AT_THE_END

WHOLE = frozenset("total totals whole altogether together combined overall all everything".split())
SIZE = frozenset("big large size".split())
GENERAL = WHOLE | SIZE | frozenset(
    """volume amount amounts quantity liquid weight mass resulting result final finished end end-volume come comes
    before straining strain strained then thing lot batch mix mixture have make makes up""".split()
)
"""Words that name nothing of one job's own."""
MEASURES = {"weight": MASS, "mass": MASS, "weigh": MASS, "volume": VOLUME, "liquid": VOLUME}


def whole_asked(message: Message, profile: Profile, given: Set[str], units: Units) -> str | None:
    """The variable that is everything together: a sum of the job's parts, or the one thing that it comes to."""
    m, said = message, message.once(Said)
    words = {t.text for t in m.tokens}
    asked = m.asked.how or m.asked.zones
    big = any(a.text == "how" and b.text in SIZE for a, b in zip(m.tokens, m.tokens[1:], strict=False))
    if m.quantities or not asked or not (words & WHOLE or big or said.ending or "resulting" in words):
        return None
    if any(m.tokens[i].text not in GENERAL for i in m.content):
        return None
    wished = [units[u].dimension for spelled in m.asked.units for u in spelled if u in units]
    wished += [MEASURES[w] for w in words if w in MEASURES]
    ends = [n for n, s in profile.slots.items() if s.variable.role in AT_THE_END]
    for names in (profile.wholes, ends, profile.totals):
        found = [
            n
            for n in names
            if n not in given
            and (d := profile.slots[n].unit.dimension) in (MASS, VOLUME)
            and (not wished or d in wished)
        ]
        if len(found) == 1:
            return found[0]
    return None
