"""The candidates of one calculator for one message: rows, numbers and wishes put together."""

from __future__ import annotations

from .candidate import Candidate
from .placing import placements
from .rows import row_options
from .view import View
from .wanting import Wishes

OPEN = 0.4


def candidates_of(view: View, most: int = 3, least: float = -1e9) -> list[Candidate]:
    """The best few ways in which a calculator can take a message, best first; none below ``least`` is looked for."""
    found: list[Candidate] = []
    for option in row_options(view):
        view.rows = option.rows
        wishes = Wishes(view)
        for p in placements(view, least - (option.score + wishes.most + view.cover - view.blank)):
            chosen = dict(option.rows)
            for u in p.uses:
                if u.row and u.evidence > 0.5:
                    chosen.setdefault(*u.row)
            given = frozenset(u.variable for u in p.uses)
            for wish in wishes.of(given, bool(p.lines), p.uses):
                rows = {**wish.rows, **chosen}
                still_open = OPEN * sum(c not in rows and c not in view.settled for c in view.profile.must)
                score = p.score + option.score + wish.score + view.cover - view.blank - still_open
                if score < least:
                    continue
                parts = {
                    "numbers": p.score,
                    "choices": option.score - still_open,
                    "asked": wish.score,
                    "subject": view.cover,
                    "unread": -view.blank,
                }
                found.append(
                    Candidate(
                        view.model,
                        p.uses,
                        rows,
                        wish.names,
                        score,
                        wish.implied,
                        parts,
                        p.lines,
                        p.attributes,
                        p.unused,
                        view.covered | option.tokens,
                        wishes.strange,
                        wish.implied and bool(wish.names) and wishes.met(given),
                    )
                )
    found.sort(key=lambda c: -c.score)
    return found[:most]
