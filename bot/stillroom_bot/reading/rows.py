"""Which rows of its choices a message names."""

from __future__ import annotations

from dataclasses import dataclass

from .exchanged import GIVEN_UP, TAKEN, sides
from .lexicon import Match
from .profile import Profile
from .view import NOTHING, View

MOST_OPTIONS = 4
NAMED, STRONGER, MOST_SIZE, ANOTHER = 0.5, 0.3, 3.0, 0.35
PLACES = {"given up": GIVEN_UP, "taken": TAKEN}
"""The roles of two choices of which one comes in the other's place."""
ARTICLES = frozenset({"the", "a", "an"})
NOT_YET = frozenset({"before", "pre", "prior", "without"})
DOERS = frozenset("i we you it it's its is being i've gets get the any to been - was they're they are".split())
IN_PLACE_OF = (["instead", "of"], ["rather", "than"], ["place", "of"])
LABEL_ENDS = frozenset({".", ";", ",", "?", ":", "=", "\n", "|"})
CUES = {
    "to": ("to", "like", "match", "of", "as", "up", "into", "target", "than", "instead", "for"),
    "from": ("from", "of", "in", "with"),
    "with": ("with", "using"),
}


@dataclass(slots=True)
class RowOption:
    """The row of each choice that is named, what speaks for it, and the tokens that name it."""

    rows: dict[str, str]
    score: float
    tokens: frozenset[int]


def row_options(view: View) -> list[RowOption]:
    """The rows that the message names, one a choice; where two choices share a table, each way round.

    A choice with a role (a target) needs its cue.  A name inside a longer name does not count, nor does
    what stands after ``instead of``.
    """
    profile = view.profile
    if not any(meaning.rows for _, meaning, _ in view.mine):
        return [RowOption({}, 0.0, frozenset())]
    places: dict[str, list[tuple[float, str, Match]]] = {}
    side = view.message.once(sides) if not PLACES.keys().isdisjoint(profile.roles.values()) else {}
    for match, meaning, _ in view.mine:
        for c, r in meaning.rows.items():
            if _inside(view, match, c) or _dismissed(view, match, c):
                continue
            role = profile.roles[c]
            if role in PLACES and side and side.get(match.first, PLACES[role]) != PLACES[role]:
                continue
            cue = _cue(view, match, role) if role and role not in PLACES else 0.0
            if not role or role in PLACES or cue > 0:
                size = match.last - match.first + 1
                places.setdefault(c, []).append((size * (0.5 + match.entry.weight) + cue, r, match))
    places = {c: found for c, found in places.items() if not _each_asked(view, found)}
    if not places:
        return [RowOption({}, 0.0, frozenset())]
    options: list[tuple[float, dict[str, tuple[float, str, Match]]]] = [(0.0, {})]
    for c in sorted(places, key=lambda c: not profile.roles[c]):
        ranked = sorted(places[c], key=lambda p: -p[0])
        sharing = c in profile.sharing
        grown = []
        for total, taken in options:
            spans = {(p[2].first, p[2].last) for p in taken.values()}
            others = {p[1] for d, p in taken.items() if d in profile.sharing} if sharing else set()
            free = [p for p in ranked if (p[2].first, p[2].last) not in spans] or ([] if sharing else ranked)
            seen: set[str] = set()
            for p in free:
                if p[1] not in seen and p[1] not in others and len(seen) < (2 if sharing else 1):
                    seen.add(p[1])
                    grown.append((total + p[0], {**taken, c: p}))
            if not seen:
                grown.append((total, taken))
        options = sorted(grown, key=lambda o: -o[0])[:MOST_OPTIONS]
    return [_option(taken, places) for _, taken in options]


def most_of_rows(profile: Profile) -> float:
    """No option scores more than this."""
    return (NAMED + STRONGER * MOST_SIZE) * len(profile.roles)


def _option(taken: dict[str, tuple[float, str, Match]], places: dict[str, list[tuple[float, str, Match]]]) -> RowOption:
    score = 0.0
    tokens: set[int] = set()
    used = {(p[2].first, p[2].last) for p in taken.values()}
    for c, p in taken.items():
        score += NAMED + STRONGER * min(p[0], MOST_SIZE)
        tokens.update(range(p[2].first, p[2].last + 1))
        others = {r for _, r, x in places[c] if r != p[1] and (x.first, x.last) not in used}
        score -= ANOTHER * min(len(others), 2)
    return RowOption({c: p[1] for c, p in taken.items()}, score, frozenset(tokens))


def _each_asked(view: View, found: list[tuple[float, str, Match]]) -> bool:
    """``total acid, g; citric; malic.``: are all the rows that are named labels of what is asked, each by itself?"""
    tokens = view.message.tokens

    def alone(x: Match) -> bool:
        before = tokens[x.first - 1].text if x.first else "."
        after = tokens[x.last + 1].text if x.last + 1 < len(tokens) else "."
        return before in LABEL_ENDS and after in LABEL_ENDS

    return len({r for _, r, _ in found}) > 1 and all(alone(x) for _, _, x in found)


def _inside(view: View, match: Match, c: str) -> bool:
    return any(
        o is not match
        and o.first <= match.first
        and match.last <= o.last
        and o.last - o.first > match.last - match.first
        and c in meaning.rows
        for o, meaning, _ in view.mine
    )


def _dismissed(view: View, match: Match, choice: str) -> bool:
    if view.profile.roles[choice] in PLACES:
        return False
    tokens = view.message.tokens
    before = [t.text for t in tokens[max(0, match.first - 4) : match.first] if t.text not in ARTICLES]
    after = tokens[match.last + 1].text if match.last + 1 < len(tokens) else ""
    if match.first in view.message.row_tokens and _not_yet(view, match):
        return True
    if after == "strength" and match.entry.kinds and "strength" not in view.model.choices[choice].words:
        return True
    if after == "together" and match.first in view.message.row_tokens:
        return True
    return before[-2:] in IN_PLACE_OF or before[-1:] == ["not"]


def _not_yet(view: View, match: Match) -> bool:
    """``ABV before I shake it?``, ``strength pre-stir``: is it asked how something is before that is done?"""
    i, asked = match.first - 1, view.message.asked
    while i > 0 and view.message.tokens[i].text in DOERS:
        i -= 1
    spans = (*asked.zones, *asked.rest, *asked.unit_spans)
    return i >= 0 and view.message.tokens[i].text in NOT_YET and any(a <= i <= b + 1 for a, b in spans)


def _cue(view: View, match: Match, role: str) -> float:
    tokens = view.message.tokens
    cues = CUES.get(role, (role,))
    for back in range(1, 4):
        i = match.first - back
        if i >= 0 and tokens[i].text in cues:
            return 1.0 / back
    after = tokens[match.last + 1].text if match.last + 1 < len(tokens) else ""
    return 0.8 if role == "to" and after in ("strength", "acidity", "level") else 0.0


__all__ = ["NOTHING", "RowOption", "row_options"]
