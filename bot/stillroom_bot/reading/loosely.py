"""A number that no word puts where it is put, and that could as well be something else of the same job."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .candidate import Candidate

if TYPE_CHECKING:
    from .deciding import Outcome

WEAKEST_USE, MARGIN = -0.2, 0.6
"""Below which a use has more against it than for it; how far behind another use of that number is as likely."""


def loosely(c: Candidate) -> dict[int, str]:
    """The numbers that are put to a use for which nothing speaks, and something against it, with their variables."""
    return {u.quantity: u.variable for u in c.uses if u.score < WEAKEST_USE}


def moved(c: Candidate, other: Candidate) -> bool:
    """Is the same asked of the same job, with a number put elsewhere that one candidate puts loosely?"""
    loose = loosely(c)
    return (
        bool(loose)
        and (other.model, other.wanted) == (c.model, c.wanted)
        and any(u.quantity in loose and loose[u.quantity] != u.variable for u in other.uses)
    )


def put_otherwise(best: Outcome, outcomes: list[Outcome]) -> bool:
    """``1 litre went on, 860 ml came back: percent lost?``, where nobody knows ``came back``: is such a number, put
    elsewhere, nearly as likely, and the answer another?"""
    return any(
        o.score >= best.score - MARGIN
        and o.answer.status == "answered"
        and o.signature != best.signature
        and moved(best.reading.candidate, o.reading.candidate)
        for o in outcomes
    )
